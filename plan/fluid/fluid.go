// Package fluid holds the formulas of fluids in a well: volumes, columns,
// gas, leak-off, kicks, slurries, friction, and what fluids do to hanging pipe.
// It knows no plan.
//
// Formulas that a report shows have a function named ...Working beside them,
// which gives the same number with the formula and its inputs. Everything is
// SI; pressures are gauge, and become absolute only inside the gas law. The
// field forms named in comments are those of the trade's handbooks.
package fluid

import (
	"fmt"
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Quantities that have no type of their own in package units.
type (
	// PaPerM is a pressure gradient, Pa/m.
	PaPerM float64
	// M2 is an area, m2; also a capacity, which is a volume per length.
	M2 float64
)

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

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// answer hands a result on if the inputs were in the domain and the result is a
// finite number, else a *DomainError that names the domain.
func answer[Q ~float64](formula string, domain bool, text string, value float64) (Q, error) {
	if !domain {
		return 0, outside(formula, "%s", text)
	}
	if !finite(value) {
		return 0, outside(formula, "an input or the result is not a finite number")
	}
	return Q(value), nil
}

// equation is one formula as a reader sees it: name and dimension of its
// result, its text in the language of workings, and where it is printed. The Go
// function that computes it stands next to it.
type equation struct {
	result  string
	dim     units.Dim
	formula string
	source  string
}

// working dresses a value in its formula; an error from the formula goes
// through.
func (e equation) working(value float64, err error, in ...expr.Input) (expr.Working, error) {
	if err != nil {
		return expr.Working{}, err
	}
	return expr.Working{Formula: e.formula, Inputs: in, Result: expr.Input{Name: e.result, SI: value, Dim: e.dim}, Source: e.source}, nil
}

func input[Q ~float64](name string, x Q, d units.Dim) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: d}
}

func size(name string, x units.Meters) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: units.Length, Small: true}
}

func density(name string, x units.KgPerM3) expr.Input { return input(name, x, units.Density) }

func pressure(name string, x units.Pascals) expr.Input { return input(name, x, units.Pressure) }

func depth(name string, x units.TVD) expr.Input { return input(name, x, units.TVDLength) }

func along(name string, x units.MD) expr.Input { return input(name, x, units.MDLength) }

func pure(name string, x units.Fraction) expr.Input { return input(name, x, units.None) }
