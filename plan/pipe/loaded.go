package pipe

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Edition is which printing of API TR 5C3 rules collapse under load. One edition
// serves a whole audit: each rating belongs with its own load, and mixing them
// errs by the inside pressure.
type Edition uint8

// The editions. Edition2015 is the October 2015 addendum and later: inside
// pressure joins the axial stress and the load is the plain difference of the
// pressures. Historical is before: axial stress alone, and the load counts the
// inside pressure by 1 - 2t/D.
const (
	Edition2015 Edition = iota
	Historical
)

func (e Edition) String() string {
	if e == Historical {
		return "historical"
	}
	return "2015"
}

// ParseEdition reads "2015" or "historical".
func ParseEdition(s string) (Edition, bool) {
	switch s {
	case "2015":
		return Edition2015, true
	case "historical":
		return Historical, true
	}
	return Edition2015, false
}

// State is what a pipe in the well bears when its collapse is judged.
type State struct {
	// Axial is the pressure-area force, tension positive, without bending.
	Axial  units.Newtons
	Inside units.Pascals
	// Wear is the share of wall gone, YieldFactor the share of yield left in the
	// heat; zero means 1, no loss.
	Wear, YieldFactor units.Fraction
	Edition           Edition
}

var (
	keptWallEq  = equation{"wall", units.Length, true, "nominal_wall * (1 - wear)", "worn wall taken as uniform"}
	warmYieldEq = equation{"warm_yield", units.Pressure, false, "cold_yield * yield_factor", "yield left in the heat"}
	stressEq    = equation{"stress", units.Pressure, false, "axial / area", "API TR 5C3, axial stress not due to bending"}

	combinedEq    = equation{"yield", units.Pressure, false, "warm_yield * (sqrt(1 - 0.75 * ((stress + inside) / warm_yield)^2) - 0.5 * (stress + inside) / warm_yield)", "API TR 5C3 (2015 addendum), fycom, eq. 42"}
	axialEq       = equation{"yield", units.Pressure, false, "warm_yield * (sqrt(1 - 0.75 * (stress / warm_yield)^2) - 0.5 * stress / warm_yield)", "API Bul 5C3 (before 2015), axial stress equivalent grade"}
	compressionEq = equation{"yield", units.Pressure, false, "warm_yield", "full yield is taken in compression"}
)

// reduced is the von Mises reduction of yield by a pull s, both in Pa.
func reduced(yield, s float64) float64 {
	u := s / yield
	return yield * (math.Sqrt(1-0.75*u*u) - 0.5*u)
}

// pull is the stress that lowers collapse in an edition.
func pull(e Edition, stress, inside float64) float64 {
	if e == Historical {
		return stress
	}
	return stress + inside
}

// EquivalentYield is the yield to enter the collapse formulas with under axial
// stress and inside pressure. In compression (stress plus, in the 2015 edition,
// inside pressure below zero) it is the full yield: no gain is counted. Domain:
// the pull below the yield.
func EquivalentYield(e Edition, yield, stress, inside units.Pascals) (units.Pascals, error) {
	if err := finite("collapse under load", float64(yield), float64(stress), float64(inside)); err != nil {
		return 0, err
	}
	s := pull(e, float64(stress), float64(inside))
	switch {
	case !(yield > 0) || inside < 0:
		return 0, outside("collapse under load", "the yield must be above zero and the inside pressure not below it")
	case s >= float64(yield):
		return 0, outside("collapse under load", "the axial stress takes up the whole yield")
	case s < 0:
		return yield, nil
	}
	return units.Pascals(reduced(float64(yield), s)), nil
}

// softened puts wear and heat of a state on a body.
func (s State) softened(b Body) (Body, error) {
	f := s.YieldFactor
	if f == 0 {
		f = 1
	}
	b, err := b.Softened(f)
	if err != nil {
		return b, err
	}
	return b.Worn(s.Wear)
}

// CollapseUnder is the collapse pressure of the body in a state, exact face, to
// be compared with CollapseLoad of the same edition. Its domain is that of
// Collapse at the equivalent yield.
func (b Body) CollapseUnder(s State) (units.Pascals, Regime, error) {
	if err := b.check("collapse under load"); err != nil {
		return 0, 0, err
	}
	b, err := s.softened(b)
	if err != nil {
		return 0, 0, err
	}
	b.Yield, err = EquivalentYield(s.Edition, b.Yield, units.Pascals(float64(s.Axial)/b.Area()), s.Inside)
	if err != nil {
		return 0, 0, err
	}
	return b.Collapse()
}

// CollapseUnderWorking is the working of CollapseUnder, step by step.
func (b Body) CollapseUnderWorking(s State) ([]expr.Working, error) {
	if _, _, err := b.CollapseUnder(s); err != nil {
		return nil, err
	}
	after, err := s.softened(b)
	if err != nil {
		return nil, err
	}
	t := &trail{}
	t.step(keptWallEq, float64(after.Wall), size("nominal_wall", float64(b.Wall)), pure("wear", float64(s.Wear)))
	yield := t.step(warmYieldEq, float64(after.Yield), pressure("cold_yield", float64(b.Yield)), pure("yield_factor", float64(after.Yield/b.Yield)))
	area := after.areaSteps(t)
	stress := t.step(stressEq, float64(s.Axial)/area.SI, force("axial", float64(s.Axial)), area)
	equivalent := s.equivalentStep(t, yield, stress)
	after.collapseSteps(t, equivalent)
	return t.steps, nil
}

// equivalentStep records the equivalent yield, by the formula that applied.
func (s State) equivalentStep(t *trail, yield, stress expr.Input) expr.Input {
	p := pull(s.Edition, stress.SI, float64(s.Inside))
	switch {
	case p < 0:
		return t.step(compressionEq, yield.SI, yield)
	case s.Edition == Historical:
		return t.step(axialEq, reduced(yield.SI, p), yield, stress)
	}
	return t.step(combinedEq, reduced(yield.SI, p), yield, stress, pressure("inside", float64(s.Inside)))
}

var (
	loadEq    = equation{"collapse_load", units.Pressure, false, "outside - inside", "API TR 5C3 (2015 addendum), differential pressure"}
	oldLoadEq = equation{"collapse_load", units.Pressure, false, "outside - (1 - 2 * wall / od) * inside", "API Bul 5C3 (before 2015), equivalent outside pressure"}
)

// CollapseLoad is the pressure that tends to collapse the pipe, as the edition
// counts it; negative where the inside pressure prevails. Wall is the one left.
func CollapseLoad(e Edition, out, in units.Pascals, od, wall units.Meters) (units.Pascals, expr.Working, error) {
	if err := (Body{od, wall, 1, 1}).check("collapse load"); err != nil {
		return 0, expr.Working{}, err
	}
	if err := finite("collapse load", float64(out), float64(in)); err != nil {
		return 0, expr.Working{}, err
	}
	var t trail
	pe, pi := pressure("outside", float64(out)), pressure("inside", float64(in))
	if e == Historical {
		t.step(oldLoadEq, pe.SI-(1-2*float64(wall/od))*pi.SI, pe, size("wall", float64(wall)), size("od", float64(od)), pi)
	} else {
		t.step(loadEq, pe.SI-pi.SI, pe, pi)
	}
	return units.Pascals(t.value()), t.steps[0], finite("collapse load", t.value())
}

// Judged carries a load's effect over to the published face: published x
// loaded / unloaded, the latter two exact. Equal to the table without load, and
// never stepped. Domain: unloaded above zero.
func Judged[Q ~float64](published, loaded, unloaded Q) (Q, error) {
	if err := finite("judged rating", float64(published), float64(loaded), float64(unloaded)); err != nil {
		return 0, err
	}
	if !(unloaded > 0) {
		return 0, outside("judged rating", "the unloaded rating must be above zero")
	}
	v := published * loaded / unloaded
	return v, finite("judged rating", float64(v))
}

// JudgedWorking is the working of Judged for a rating of the given dimension.
func JudgedWorking[Q ~float64](published, loaded, unloaded Q, d units.Dim) (expr.Working, error) {
	v, err := Judged(published, loaded, unloaded)
	if err != nil {
		return expr.Working{}, err
	}
	in := func(name string, x Q) expr.Input { return expr.Input{Name: name, SI: float64(x), Dim: d} }
	var t trail
	t.step(equation{"rating", d, false, "published * loaded / unloaded", "published rating times the exact effect of the load"},
		float64(v), in("published", published), in("loaded", loaded), in("unloaded", unloaded))
	return t.steps[0], nil
}
