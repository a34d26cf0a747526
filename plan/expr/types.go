package expr

import (
	"math"
	"strings"

	"spudgate/plan/units"
)

// The methods here make nodes of their parts once the types are seen to fit.

// mostExponent bounds the exponents of a dimension, well inside int8, so that no
// product of two wraps round.
const mostExponent = 60

var comparisons = map[string]bool{"=": true, "<>": true, "<": true, "<=": true, ">": true, ">=": true}

// functions make the node of a call from its arguments.
var functions = map[string]func(p *parser, t token, args []node) node{
	"greater": (*parser).extreme,
	"lesser":  (*parser).extreme,
	"round":   (*parser).rounded,
	"sqrt":    (*parser).root,
	"abs":     func(p *parser, t token, args []node) node { return p.single(t, args, p.quantity) },
	"exp":     func(p *parser, t token, args []node) node { return p.single(t, args, p.pure) },
	"ln":      func(p *parser, t token, args []node) node { return p.single(t, args, p.pure) },
	"sin":     func(p *parser, t token, args []node) node { return p.single(t, args, p.turn) },
	"cos":     func(p *parser, t token, args []node) node { return p.single(t, args, p.turn) },
	"tan":     func(p *parser, t token, args []node) node { return p.single(t, args, p.turn) },
}

// literal is the constant of a number as written.
func (p *parser) literal(t token) node {
	if !t.hasUnit {
		return numeral(t.value, units.None, t.value == 0)
	}
	si := t.unit.ToSI(t.value)
	if math.IsInf(si, 0) {
		return p.fail(t.column, "a number too large to hold: %v", t)
	}
	return numeral(si, t.unit.Dim, false)
}

// name is a name the caller knows, or a constant of the language.
func (p *parser) name(t token) node {
	typ, ok := p.typeOf(t.text)
	switch {
	case ok && !withinExponents(typ.Dim):
		return p.fail(t.column, "%q has a dimension out of all bounds", t.text)
	case ok:
		p.names = append(p.names, t.text)
		return name{text: t.text, is: typ, column: t.column}
	case t.text == "pi":
		return constant{value: Number(math.Pi, units.None), sheet: "PI()"}
	case t.text == "g":
		return numeral(units.G, units.Accel, false)
	}
	return p.fail(t.column, "nothing is called %q", t.text)
}

func (p *parser) join(op token, l, r node) node {
	for _, side := range []node{l, r} {
		if side.typ().Kind != Truth {
			return p.fail(op.column, "%q joins two conditions, not %v", op.text, side.typ())
		}
	}
	return logic{decides: op.text == "or", l: l, r: r}
}

func (p *parser) not(op token, x node) node {
	if x.typ().Kind != Truth {
		return p.fail(op.column, "not takes a condition, not %v", x.typ())
	}
	return denial{x}
}

func (p *parser) compare(op token, l, r node) node {
	lt, rt := l.typ(), r.typ()
	if lt.Kind == Text && rt.Kind == Text {
		if op.text != "=" && op.text != "<>" {
			return p.fail(op.column, "texts are equal or not; %q is for numbers", op.text)
		}
		return equality{l: l, r: r, differ: op.text == "<>"}
	}
	if lt.Kind == Truth || rt.Kind == Truth {
		return p.fail(op.column, "a condition stands for itself; it isn't compared")
	}
	if _, ok := joined(l, r); !ok {
		return p.fail(op.column, "%v can't be compared with %v", lt, rt)
	}
	return comparison{op: op.text, l: l, r: r}
}

func (p *parser) member(op token, x node, list []string) node {
	if x.typ().Kind != Text {
		return p.fail(op.column, "in looks for a text among texts, not for %v", x.typ())
	}
	return member{x, list}
}

func (p *parser) add(op token, l, r node) node {
	d, ok := joined(l, r)
	if !ok {
		verb := map[string]string{"+": "added", "-": "subtracted"}[op.text]
		return p.fail(op.column, "%v and %v can't be %s", l.typ(), r.typ(), verb)
	}
	return arithmetic{op: op.text[0], l: l, r: r, dim: d, column: op.column}
}

func (p *parser) multiply(op token, l, r node) node {
	if !p.numbers(op, l, r) {
		return constant{}
	}
	d := l.typ().Dim.Mul(r.typ().Dim)
	if op.text == "/" {
		d = l.typ().Dim.Div(r.typ().Dim)
	}
	if !withinExponents(d) {
		return p.fail(op.column, "a dimension out of all bounds")
	}
	return arithmetic{op: op.text[0], l: l, r: r, dim: d, column: op.column}
}

func (p *parser) negate(op token, x node) node {
	if !p.numbers(op, x) {
		return constant{}
	}
	return negation{x}
}

func (p *parser) raise(op token, x node, e float64) node {
	if !p.numbers(op, x) {
		return constant{}
	}
	d, ok := raised(x.typ().Dim, e)
	if !ok {
		return p.fail(op.column, "%v can't be raised to %v: its dimension would not be whole", x.typ(), e)
	}
	return power{x: x, exponent: e, dim: d, column: op.column}
}

// numbers reports whether all parts are numbers, and fails otherwise.
func (p *parser) numbers(op token, parts ...node) bool {
	for _, n := range parts {
		if n.typ().Kind != Num {
			p.fail(op.column, "%q takes numbers, not %v", op.text, n.typ())
			return false
		}
	}
	return true
}

// single is a call of a function of one number; result is the dimension it gives
// for one, and whether it takes it.
func (p *parser) single(t token, args []node, result func(units.Dim) (units.Dim, bool)) node {
	if len(args) != 1 {
		return p.fail(t.column, "%s takes one number", t.text)
	}
	if !p.numbers(t, args...) {
		return constant{}
	}
	d, ok := result(args[0].typ().Dim)
	if !ok {
		return p.fail(t.column, "%s doesn't take %v", t.text, args[0].typ())
	}
	return function{name: t.text, x: args[0], dim: d, column: t.column}
}

func (p *parser) root(t token, args []node) node {
	return p.single(t, args, func(d units.Dim) (units.Dim, bool) { return raised(d, 0.5) })
}

func (p *parser) quantity(d units.Dim) (units.Dim, bool) { return d, true }

func (p *parser) pure(d units.Dim) (units.Dim, bool) { return units.None, d == units.None }

func (p *parser) turn(d units.Dim) (units.Dim, bool) {
	return units.None, d == units.None || d == units.Angle
}

func (p *parser) extreme(t token, args []node) node {
	if len(args) < 2 {
		return p.fail(t.column, "%s takes two numbers or more", t.text)
	}
	d, ok := joined(args...)
	if !ok {
		return p.fail(t.column, "%s compares numbers of one dimension, not %s", t.text, listed(args))
	}
	return extreme{least: t.text == "lesser", parts: args, dim: d}
}

func (p *parser) rounded(t token, args []node) node {
	if len(args) != 2 {
		return p.fail(t.column, "round takes a number and a step")
	}
	step, ok := args[1].(constant)
	if !ok || step.value.Kind != Num || !(step.value.SI > 0) {
		return p.fail(t.column, "the step of round is a plain number above 0")
	}
	d, ok := joined(args...)
	if !ok {
		return p.fail(t.column, "%v can't be rounded to steps of %v", args[0].typ(), step.typ())
	}
	return rounding{x: args[0], step: step, dim: d, column: t.column}
}

// checkEdge holds the last edge of a band, read at t, against the quantity it is
// about and the edge before.
func (p *parser) checkEdge(t token, b *band) {
	last := len(b.edges) - 1
	edge := b.edges[last]
	_, ok := joined(b.x, edge)
	switch {
	case p.err != nil:
	case !ok:
		p.fail(t.column, "the band is about %v, its edge is %v", b.x.typ(), edge.typ())
	case last == mostEdges:
		p.fail(t.column, "a band has at most %d edges", mostEdges)
	case last > 0 && !(edge.value.SI > b.edges[last-1].value.SI && !same(edge.value.SI, b.edges[last-1].value.SI)):
		p.fail(t.column, "the edges of a band ascend")
	}
}

// banded is the finished band, once its values are seen to join.
func (p *parser) banded(t token, b band) node {
	d, ok := joined(b.values...)
	switch {
	case len(b.edges) == 0:
		return p.fail(t.column, "a band has an edge or more")
	case !ok:
		return p.fail(t.column, "a band gives numbers of one dimension, not %s", listed(b.values))
	case chooses(b.x):
		// A spreadsheet repeats x for every edge, and so on all the way down.
		return p.fail(t.column, "a band can't choose by another band")
	}
	b.dim = d
	return b
}

// joined is the dimension of numbers that are summed or compared, and whether
// they may be. A bare 0 goes with anything.
func joined(parts ...node) (units.Dim, bool) {
	var d units.Dim
	first := true
	for _, n := range parts {
		if n.typ().Kind != Num {
			return d, false
		}
		if c, ok := n.(constant); ok && c.bare {
			continue
		}
		if first {
			d, first = n.typ().Dim, false
			continue
		}
		var ok bool
		if d, ok = d.Join(n.typ().Dim); !ok {
			return d, false
		}
	}
	return d, true
}

// raised is d to a power, and whether its exponents come out whole. To know
// which line a length was measured on survives the power 1 alone.
func raised(d units.Dim, e float64) (units.Dim, bool) {
	if e == 1 {
		return d, true
	}
	out := units.Dim{}
	ok := true
	one := func(x int8) int8 {
		y := float64(x) * e
		ok = ok && y == math.Trunc(y) && math.Abs(y) <= mostExponent
		if !ok {
			return 0
		}
		return int8(y)
	}
	out.Mass, out.Length, out.Time = one(d.Mass), one(d.Length), one(d.Time)
	out.Temp, out.Angle = one(d.Temp), one(d.Angle)
	return out, ok
}

func withinExponents(d units.Dim) bool {
	for _, e := range [...]int8{d.Mass, d.Length, d.Time, d.Temp, d.Angle} {
		if e > mostExponent || e < -mostExponent {
			return false
		}
	}
	return true
}

// listed names the types of the parts, each once.
func listed(parts []node) string {
	var names []string
	seen := map[string]bool{}
	for _, n := range parts {
		if s := n.typ().String(); !seen[s] {
			seen[s] = true
			names = append(names, s)
		}
	}
	return strings.Join(names, " and ")
}
