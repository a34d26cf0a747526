// Package pipe holds the catalogue of API casing and the formulas of its
// ratings, each formula with its working beside it. It knows no plan.
//
// A rating has two faces. Published is the new, cold, unloaded pipe as the
// standard's tables print it: D/t to two decimals for collapse, areas and
// thread diameters to 0.001, pressures to 10 psi, forces to 1,000 lbf, and
// 0.7854 for a quarter of pi. Exact is the same formula at full precision. What
// a load does to a rating is worked out on the exact face alone and carried
// over to the published one as a ratio; see Judged.
//
// Equations are those of API TR 5C3 (ISO/TR 10400) unless a comment says
// otherwise; dimensions are those of API Spec 5CT and API Spec 5B.
package pipe

import (
	"fmt"
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// equation is one formula as a reader sees it: the name and dimension of its
// result, its text in the language of workings, and where it is printed. The Go
// function that computes it stands next to it.
type equation struct {
	result  string
	dim     units.Dim
	small   bool
	formula string
	source  string
}

// rounding is a step of the standard's tables.
type rounding struct {
	step float64
	text string
}

var (
	toTenPsi       = rounding{10 * units.Psi, "10 psi"}
	toKip          = rounding{1000 * units.Lbf, "1000 lbf"}
	toMil2         = rounding{0.001 * units.Inch * units.Inch, "0.001 in2"}
	toMil          = rounding{0.001 * units.Inch, "0.001 in"}
	toHundredth    = rounding{0.01, "0.01"}
	toTenFootPound = rounding{10 * units.Foot * units.Lbf, "10 ft-lbf"}
)

// halfUp rounds x to the step. Six decimals are cleaned first so that the noise
// of unit conversion decides no tie.
func (r rounding) halfUp(x float64) float64 {
	clean := math.Round(x/r.step*1e6) / 1e6
	return math.Floor(clean+0.5) * r.step
}

// trail collects the steps of one face of a rating, the last being the rating.
type trail struct {
	printed bool
	steps   []expr.Working
}

// step records an equation with its value and hands the value back, to be an
// input of later steps.
func (t *trail) step(e equation, value float64, in ...expr.Input) expr.Input {
	out := expr.Input{Name: e.result, SI: value, Dim: e.dim, Small: e.small}
	t.steps = append(t.steps, expr.Working{Formula: e.formula, Inputs: in, Result: out, Source: e.source})
	return out
}

// rounded is step, rounded on the printed face.
func (t *trail) rounded(e equation, r rounding, value float64, in ...expr.Input) expr.Input {
	if t.printed {
		e.formula = "round(" + e.formula + ", " + r.text + ")"
		value = r.halfUp(value)
	}
	return t.step(e, value, in...)
}

// Rating is one strength of a pipe in SI, with both its faces.
type Rating[Q ~float64] struct {
	Published, Exact Q
	// Governs says what decides: a collapse regime, a failure of a joint, a part.
	Governs string
	// Missing says why there is no rating; everything else is zero then.
	Missing string
	// Working leads to Published step by step, the last being the rating;
	// Precise leads to Exact.
	Working, Precise []expr.Working
}

// Known reports whether there is a rating.
func (r Rating[Q]) Known() bool { return r.Missing == "" }

// missing is a rating nobody can give.
func missing[Q ~float64](why string) Rating[Q] { return Rating[Q]{Missing: why} }

// rate works a rating out on both faces.
func rate[Q ~float64](work func(*trail) (governs string, err error)) (Rating[Q], error) {
	exact, printed := &trail{}, &trail{printed: true}
	if _, err := work(exact); err != nil {
		return Rating[Q]{}, err
	}
	governs, err := work(printed)
	if err != nil {
		return Rating[Q]{}, err
	}
	if err := finite("rating", exact.value(), printed.value()); err != nil {
		return Rating[Q]{}, err
	}
	return Rating[Q]{
		Published: Q(printed.value()), Exact: Q(exact.value()), Governs: governs,
		Working: printed.steps, Precise: exact.steps,
	}, nil
}

// value is the result of the last step.
func (t *trail) value() float64 { return t.steps[len(t.steps)-1].Result.SI }

// DomainError is the error of a formula asked outside the range it is made for.
type DomainError struct {
	Formula string // which formula
	Text    string // what is outside, and of what
}

func (e *DomainError) Error() string { return e.Formula + ": " + e.Text }

// outside makes a DomainError.
func outside(formula, format string, args ...any) error {
	return &DomainError{formula, fmt.Sprintf(format, args...)}
}

// finite refuses a value that is no number.
func finite(formula string, values ...float64) error {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return outside(formula, "an input or the result is not a finite number")
		}
	}
	return nil
}

func size(name string, x float64) expr.Input {
	return expr.Input{Name: name, SI: x, Dim: units.Length, Small: true}
}

func pressure(name string, x float64) expr.Input {
	return expr.Input{Name: name, SI: x, Dim: units.Pressure}
}

func force(name string, x float64) expr.Input {
	return expr.Input{Name: name, SI: x, Dim: units.Force}
}

func pure(name string, x float64) expr.Input {
	return expr.Input{Name: name, SI: x, Dim: units.None}
}

// noted adds a note to an input.
func noted(in expr.Input, note string) expr.Input {
	in.Note = note
	return in
}
