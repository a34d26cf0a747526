package expr

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Input is a named value of a working: a number in SI or, where Text is filled, a
// text or a yes or no. Small says a length is a size or a gap, shown in in or mm.
type Input struct {
	Name  string
	SI    float64
	Dim   units.Dim
	Small bool
	Text  string
	Ref   place.Ref
	Note  string
}

// value is the input as a value of the language; a text that says yes or no
// stays a text.
func (in Input) value() Value {
	if in.Text != "" {
		return TextOf(in.Text)
	}
	return Number(in.SI, in.Dim)
}

func (in Input) typ() Type {
	v := in.value()
	return Type{v.Kind, v.Dim}
}

// Working is one step that a reader can follow: a formula in this language over
// its inputs, what it gives, and the standard and equation it is from.
type Working struct {
	Formula string
	Inputs  []Input
	Result  Input
	Source  string
}

// Check works the formula out again and compares it with the result, to a
// relative 1e-9. The error names everything that doesn't fit: a formula that
// can't be compiled or worked out, an input named twice or not used, a result of
// another kind, dimension or value.
func (w Working) Check() error {
	inputs := make(map[string]Input, len(w.Inputs))
	var wrong []error
	for _, in := range w.Inputs {
		if _, twice := inputs[in.Name]; twice {
			wrong = append(wrong, fmt.Errorf("input %s is given twice", in.Name))
		}
		inputs[in.Name] = in
	}
	e, err := Compile(w.Formula, func(name string) (Type, bool) {
		in, ok := inputs[name]
		return in.typ(), ok
	})
	if err != nil {
		return w.explain(append(wrong, err))
	}
	for _, in := range w.Inputs {
		if !slices.Contains(e.names, in.Name) {
			wrong = append(wrong, fmt.Errorf("input %s is not used", in.Name))
		}
	}
	r, err := e.Eval(func(name string) Result { return Known(inputs[name].value()) })
	if err != nil {
		return w.explain(append(wrong, err))
	}
	return w.explain(append(wrong, w.Result.differs(r.Value)))
}

// explain joins what is wrong under the name of the result; nil when nothing is.
func (w Working) explain(wrong []error) error {
	if err := errors.Join(wrong...); err != nil {
		return fmt.Errorf("%s = %s: %w", w.Result.Name, w.Formula, err)
	}
	return nil
}

// differs says how a stated result differs from the value its formula gives.
func (in Input) differs(v Value) error {
	want := in.value()
	_, joins := in.Dim.Join(v.Dim)
	got, stated := v.Text, in.Text
	switch {
	case v.Kind == Truth:
		got = map[bool]string{true: "yes", false: "no"}[v.Truth]
	case v.Kind != want.Kind || !joins:
		return fmt.Errorf("it gives %v, the result is %v", Type{v.Kind, v.Dim}, in.typ())
	case v.Kind == Num && (!same(v.SI, in.SI) || math.IsInf(in.SI, 0)):
		return fmt.Errorf("it gives %.12g, the result is %.12g (SI)", v.SI, in.SI)
	}
	if got != stated {
		return fmt.Errorf("it gives %q, the result is %q", got, stated)
	}
	return nil
}
