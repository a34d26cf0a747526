package expr

import (
	"math"

	"spudgate/plan/units"
)

// node is a part of a compiled expression. Its type was settled when it was
// made, so evaluation looks at values and lacks only.
type node interface {
	typ() Type
	eval(lookup func(string) Result) (Result, error)
	// write gives the part as a spreadsheet formula.
	write(s *sheet) piece
}

// constant is a number or a text of the source. The bare 0 has no dimension of
// its own.
type constant struct {
	value Value
	bare  bool
	sheet string // how a spreadsheet writes it
}

func numeral(si float64, d units.Dim, bare bool) constant {
	return constant{value: Number(si, d), bare: bare, sheet: sheetNumber(si)}
}

func (n constant) typ() Type                                { return Type{n.value.Kind, n.value.Dim} }
func (n constant) eval(func(string) Result) (Result, error) { return Known(n.value), nil }

// name is an input.
type name struct {
	text   string
	is     Type
	column int
}

func (n name) typ() Type { return n.is }

func (n name) eval(lookup func(string) Result) (Result, error) {
	r := lookup(n.text)
	if short, missing := merge(r); missing {
		return short, nil
	}
	v := r.Value
	_, joins := n.is.Dim.Join(v.Dim)
	if v.Kind != n.is.Kind || v.Kind == Num && !joins {
		return Result{}, &Error{n.column, n.text + " is " + Type{v.Kind, v.Dim}.String() + ", expected " + n.is.String()}
	}
	if v.Kind == Num {
		return finite(v.SI, n.is.Dim, n.column, n.text)
	}
	return r, nil
}

// finite is the known number x, refused when it is none.
func finite(x float64, d units.Dim, column int, what string) (Result, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Result{}, &Error{column, what + " is too large to hold or not a number"}
	}
	return Known(Number(x, d)), nil
}

// merge is the result that waits for what any of its parts lacks, each lack once
// in order of first appearance, and whether anything is lacking at all.
func merge(parts ...Result) (Result, bool) {
	var out Result
	missing := false
	for _, r := range parts {
		if r.Known {
			continue
		}
		missing = true
		for _, l := range r.Lacks {
			out.add(l)
		}
	}
	return out, missing
}

func (r *Result) add(l Lack) {
	for _, have := range r.Lacks {
		if have == l {
			return
		}
	}
	r.Lacks = append(r.Lacks, l)
}

// both evaluates two parts. short is the result to give when one is missing.
func both(l, r node, lookup func(string) Result) (a, b Value, short Result, known bool, err error) {
	x, err := l.eval(lookup)
	if err != nil {
		return a, b, short, false, err
	}
	y, err := r.eval(lookup)
	if err != nil {
		return a, b, short, false, err
	}
	if !x.Known || !y.Known {
		short, _ = merge(x, y)
		return a, b, short, false, nil
	}
	return x.Value, y.Value, short, true, nil
}

// all evaluates parts that are all needed.
func all(parts []node, lookup func(string) Result) (values []float64, short Result, known bool, err error) {
	results := make([]Result, len(parts))
	values = make([]float64, len(parts))
	for i, n := range parts {
		if results[i], err = n.eval(lookup); err != nil {
			return nil, short, false, err
		}
		values[i] = results[i].Value.SI
	}
	short, missing := merge(results...)
	return values, short, !missing, nil
}
