package expr

import (
	"math"

	"spudgate/plan/units"
)

// arithmetic is l op r, op one of + - * /.
type arithmetic struct {
	op     byte
	l, r   node
	dim    units.Dim
	column int
}

func (n arithmetic) typ() Type { return Type{Num, n.dim} }

func (n arithmetic) eval(lookup func(string) Result) (Result, error) {
	a, b, short, known, err := both(n.l, n.r, lookup)
	if err != nil || !known {
		return short, err
	}
	x := a.SI
	switch n.op {
	case '+':
		x += b.SI
	case '-':
		x -= b.SI
	case '*':
		x *= b.SI
	case '/':
		if b.SI == 0 {
			return Result{}, &Error{n.column, "division by zero"}
		}
		x /= b.SI
	}
	return finite(x, n.dim, n.column, "the result")
}

// negation is -x.
type negation struct{ x node }

func (n negation) typ() Type { return n.x.typ() }

func (n negation) eval(lookup func(string) Result) (Result, error) {
	r, err := n.x.eval(lookup)
	if err == nil && r.Known {
		r.Value.SI = 0 - r.Value.SI // never -0
	}
	return r, err
}

// power is x to a plain exponent.
type power struct {
	x        node
	exponent float64
	dim      units.Dim
	column   int
}

func (n power) typ() Type { return Type{Num, n.dim} }

func (n power) eval(lookup func(string) Result) (Result, error) {
	r, err := n.x.eval(lookup)
	if err != nil || !r.Known {
		return r, err
	}
	x := r.Value.SI
	switch {
	case x == 0 && n.exponent < 0:
		return Result{}, &Error{n.column, "division by zero"}
	case x < 0 && n.exponent != math.Trunc(n.exponent):
		return Result{}, &Error{n.column, "a broken power of a negative number"}
	}
	return finite(math.Pow(x, n.exponent), n.dim, n.column, "the power")
}

// function is a call of a function of one number.
type function struct {
	name   string
	x      node
	dim    units.Dim
	column int
}

func (n function) typ() Type { return Type{Num, n.dim} }

func (n function) eval(lookup func(string) Result) (Result, error) {
	r, err := n.x.eval(lookup)
	if err != nil || !r.Known {
		return r, err
	}
	x := r.Value.SI
	switch {
	case n.name == "sqrt" && x < 0:
		return Result{}, &Error{n.column, "the root of a negative number"}
	case n.name == "ln" && x <= 0:
		return Result{}, &Error{n.column, "the logarithm of a number not above 0"}
	}
	return finite(calculate(n.name, x), n.dim, n.column, n.name)
}

func calculate(name string, x float64) float64 {
	switch name {
	case "sqrt":
		return math.Sqrt(x)
	case "exp":
		return math.Exp(x)
	case "ln":
		return math.Log(x)
	case "sin":
		return math.Sin(x)
	case "cos":
		return math.Cos(x)
	case "tan":
		return math.Tan(x)
	}
	return math.Abs(x)
}

// extreme is the greatest or the least of its parts.
type extreme struct {
	least bool
	parts []node
	dim   units.Dim
}

func (n extreme) typ() Type { return Type{Num, n.dim} }

func (n extreme) eval(lookup func(string) Result) (Result, error) {
	values, short, known, err := all(n.parts, lookup)
	if err != nil || !known {
		return short, err
	}
	x := values[0]
	for _, v := range values[1:] {
		if n.least {
			x = min(x, v)
		} else {
			x = max(x, v)
		}
	}
	return Known(Number(x, n.dim)), nil
}

// rounding is x to the nearest step, a half going up.
type rounding struct {
	x      node
	step   constant
	dim    units.Dim
	column int
}

func (n rounding) typ() Type { return Type{Num, n.dim} }

// eval cleans x to a millionth of a step first, so that the noise of unit
// conversion decides no tie.
func (n rounding) eval(lookup func(string) Result) (Result, error) {
	r, err := n.x.eval(lookup)
	if err != nil || !r.Known {
		return r, err
	}
	steps := r.Value.SI / n.step.value.SI
	clean := math.Round(steps*1e6) / 1e6
	return finite(math.Floor(clean+0.5)*n.step.value.SI, n.dim, n.column, "the number of steps")
}

// band is a stepped table: the value of the first edge that x does not pass, or
// the last value past them all.
type band struct {
	x      node
	edges  []constant
	values []node // one more than edges
	dim    units.Dim
}

func (n band) typ() Type { return Type{Num, n.dim} }

func (n band) eval(lookup func(string) Result) (Result, error) {
	r, err := n.x.eval(lookup)
	if err != nil || !r.Known {
		return r, err
	}
	i := 0
	for i < len(n.edges) && !holds(r.Value.SI, "<=", n.edges[i].value.SI) {
		i++
	}
	r, err = n.values[i].eval(lookup)
	r.Value.Dim = n.dim
	return r, err
}

// chooses reports whether a band stands anywhere within n.
func chooses(n node) bool {
	switch n := n.(type) {
	case band:
		return true
	case arithmetic:
		return chooses(n.l) || chooses(n.r)
	case negation:
		return chooses(n.x)
	case power:
		return chooses(n.x)
	case function:
		return chooses(n.x)
	case rounding:
		return chooses(n.x)
	case extreme:
		for _, part := range n.parts {
			if chooses(part) {
				return true
			}
		}
	}
	return false
}
