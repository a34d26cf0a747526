// Package expr is the small language that limits, conditions and workings are
// written in: numbers with units, names, arithmetic, comparisons and a few
// functions. Dimensions, and along-hole against vertical depth, are checked
// when an expression is compiled; missing inputs are a third value when it is
// evaluated.
//
//	basis.burst * 1.05
//	greater(mud + 0.5 ppg, pore) <= fracture
//	string.role in ('surface', 'intermediate') and not returns_lost
//	band(shoe, 300 ft: 25 ft, 1000 ft: 50 ft, else: 0.1 * shoe)
//	round(0.875 * 2 * yield * wall / od, 10 psi)
//
// From loosest to tightest: or; and; not; = <> < <= > >= and in; + and -;
// * and /; unary minus; ^ with a plain number on its right.
//
// A unit follows its number and holds no blank: "10 ft/s" is a speed, "10 ft / s"
// a length over whatever s is. Temperatures convert to kelvins with their zero
// point, so a difference of temperatures is written in K. A bare 0 stands
// against any dimension, any other bare number is a pure number.
package expr

import (
	"fmt"
	"math"
	"slices"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Kind is what sort of thing a value is.
type Kind uint8

// The kinds of value.
const (
	Num   Kind = iota // a quantity of some dimension
	Truth             // yes or no
	Text
)

// Type is the kind of a value and, for a number, its dimension.
type Type struct {
	Kind Kind
	Dim  units.Dim
}

// String describes the type in words: "a pressure", "a yes or no", "a text".
func (t Type) String() string {
	switch t.Kind {
	case Truth:
		return "a yes or no"
	case Text:
		return "a text"
	}
	return t.Dim.String()
}

// Value is a number in SI with its dimension, a truth or a text, as Kind says.
type Value struct {
	Kind  Kind
	SI    float64
	Dim   units.Dim
	Truth bool
	Text  string
}

// Number is a quantity: its SI value and dimension.
func Number(si float64, d units.Dim) Value { return Value{Kind: Num, SI: si, Dim: d} }

// TruthOf is a yes or no.
func TruthOf(b bool) Value { return Value{Kind: Truth, Truth: b} }

// TextOf is a text.
func TextOf(s string) Value { return Value{Kind: Text, Text: s} }

// Lack is one missing input: what a person must supply, and where it would
// stand if known.
type Lack struct {
	Input string
	Ref   place.Ref
}

// Result is a value, or what it lacks: the third value.
type Result struct {
	Value Value
	Known bool
	Lacks []Lack
}

// Known is the result that has its value.
func Known(v Value) Result { return Result{Value: v, Known: true} }

// Unknown is the result that waits for inputs.
func Unknown(lacks ...Lack) Result { return Result{Lacks: lacks} }

// Error is what is wrong with an expression, when it is compiled or for the
// values it is given.
type Error struct {
	Column int // from 1, counted in code points
	Text   string
}

func (e *Error) Error() string { return fmt.Sprintf("column %d: %s", e.Column, e.Text) }

// Bounds of an expression. Books may come from anybody, and both parser and
// evaluation recurse.
const (
	mostBytes = 4096
	mostDepth = 64
	mostEdges = 32 // of one band; each is one more IF inside another in a spreadsheet
)

// Expr is a compiled expression. It never changes and may be shared between
// goroutines.
type Expr struct {
	source string
	root   node
	names  []string
}

// Compile reads an expression. typeOf gives the type of each name, and false for
// a name it doesn't know; a name it knows may hide the constants pi and g. The
// error is an *Error: a slip of syntax, an unknown name, function or unit, or
// dimensions that don't go together.
func Compile(src string, typeOf func(name string) (Type, bool)) (*Expr, error) {
	p := newParser(src, typeOf)
	root := p.whole()
	if p.err != nil {
		return nil, p.err
	}
	slices.Sort(p.names)
	return &Expr{source: src, root: root, names: slices.Compact(p.names)}, nil
}

// Source is the text the expression was compiled from.
func (e *Expr) Source() string { return e.source }

// Type is the type of the expression's value.
func (e *Expr) Type() Type { return e.root.typ() }

// Names lists the names the expression reads, sorted, each once.
func (e *Expr) Names() []string { return slices.Clone(e.names) }

// Eval works the expression out. lookup gives the value of each name, of the
// type Compile was told, or what is lacking.
//
// A number with an unknown part is unknown and lists every lack once, in order
// of first appearance. and, or and not follow Kleene: one known part that
// decides is enough. A band waits for the quantity it chooses by and for the
// chosen value only.
//
// The error is an *Error: a division by zero, a root or logarithm outside its
// domain, a result too large to hold, or a value of another type than was
// compiled. The value is never NaN or infinite.
func (e *Expr) Eval(lookup func(name string) Result) (Result, error) {
	return e.root.eval(lookup)
}

// tolerance is the relative tolerance of every comparison: the noise of unit
// conversion decides nothing.
const tolerance = 1e-9

// same reports whether two numbers differ by no more than the tolerance.
func same(a, b float64) bool {
	return math.Abs(a-b) <= tolerance*math.Max(math.Abs(a), math.Abs(b))
}
