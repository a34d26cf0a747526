package pipe

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Body is the pipe between the threads: what the formulas of its own strength
// need. Nominal dimensions and minimum strengths give the API ratings.
type Body struct {
	OD, Wall       units.Meters
	Yield, Tensile units.Pascals
}

// BodyOf joins a size and a grade.
func BodyOf(s Size, g Grade) Body { return Body{s.OD, s.Wall, g.Yield, g.Tensile} }

// check states the domain all body formulas share.
func (b Body) check(formula string) error {
	if err := finite(formula, float64(b.OD), float64(b.Wall), float64(b.Yield), float64(b.Tensile)); err != nil {
		return err
	}
	if !(b.Wall > 0 && 2*b.Wall < b.OD) {
		return outside(formula, "the wall must be above zero and below half the OD")
	}
	if !(b.Yield > 0) {
		return outside(formula, "the yield strength must be above zero")
	}
	return nil
}

// Worn is the body with a share w of its wall gone all round: t (1 - w), the
// outside untouched. Domain 0 <= w < 1.
func (b Body) Worn(w units.Fraction) (Body, error) {
	if !(w >= 0 && w < 1) {
		return Body{}, outside("wear", "the worn share of the wall must be at least 0 and below 1")
	}
	b.Wall *= units.Meters(1 - w)
	return b, nil
}

// Softened is the body with its minimum yield times a factor, for heat. Domain
// 0 < factor <= 1.
func (b Body) Softened(factor units.Fraction) (Body, error) {
	if !(factor > 0 && factor <= 1) {
		return Body{}, outside("yield factor", "the factor must be above 0 and at most 1")
	}
	b.Yield *= units.Pascals(factor)
	return b, nil
}

var heatEq = equation{
	result: "yield_factor", dim: units.None,
	formula: "1 - loss * greater(warm - warm_from, 0) / 1 K",
	source:  "linear loss of yield with heat, common practice",
}

// warmFrom is the temperature, K, above which yield falls: 68 degF.
const warmFrom = (68 + 459.67) * 5 / 9

// UsualLoss is the usual loss of yield of carbon steel: 0.03 % per degF, here
// per kelvin.
const UsualLoss = 0.0003 * 9 / 5

// YieldFactor is the share of minimum yield left at a temperature: none is lost
// up to 68 degF, then a share of loss per kelvin (UsualLoss where the mill gives
// none). Domain: the loss not negative, the factor left above zero.
func YieldFactor(at units.Kelvins, loss float64) (units.Fraction, expr.Working, error) {
	if err := finite("yield factor", float64(at), loss); err != nil {
		return 0, expr.Working{}, err
	}
	f := yieldFactor(float64(at), loss)
	if !(at > 0 && loss >= 0 && f > 0) {
		return 0, expr.Working{}, outside("yield factor", "no yield would be left, or the temperature or the loss is negative")
	}
	var t trail
	t.step(heatEq, f, pure("loss", loss),
		expr.Input{Name: "warm", SI: float64(at), Dim: units.Temperature},
		noted(expr.Input{Name: "warm_from", SI: warmFrom, Dim: units.Temperature}, "68 degF"))
	return units.Fraction(f), t.steps[0], nil
}

func yieldFactor(at, loss float64) float64 { return 1 - loss*max(at-warmFrom, 0) }

var (
	boreEq        = equation{"bore", units.Length, true, "od - 2 * wall", "API TR 5C3, symbols: d = D - 2t"}
	areaEq        = equation{"area", units.Area, false, "pi / 4 * (od^2 - bore^2)", "API TR 5C3, cross section of the pipe"}
	areaPrintedEq = equation{"area", units.Area, false, "0.7854 * (od^2 - bore^2)", "API Bul 5C3, cross section of the pipe"}
	barlowEq      = equation{"internal_yield", units.Pressure, false, "2 * part * yield * wall / od", "API TR 5C3, internal yield of pipe (Barlow)"}
	bodyEq        = equation{"body_yield", units.Force, false, "yield * area", "API TR 5C3, pipe body yield"}
	millEq        = equation{"mill_test", units.Pressure, false, "lesser(2 * share * yield * wall / od, most)", "API Spec 5CT, hydrostatic test pressure, from memory"}
)

// quarterPi is pi/4, or what the tables were computed with.
func (t *trail) quarterPi() float64 {
	if t.printed {
		return 0.7854
	}
	return quarterPi
}

const quarterPi = 0.785398163397448309615660845819875721 // pi/4

// ring is the area between two diameters.
func ring(quarter, outer, inner float64) float64 { return quarter * (outer*outer - inner*inner) }

func barlow(part, yield, wall, od float64) float64 { return 2 * part * yield * wall / od }

// Area is the cross section of the steel, m2.
func (b Body) Area() float64 { return ring(quarterPi, float64(b.OD), float64(b.OD-2*b.Wall)) }

// areaSteps records bore and area.
func (b Body) areaSteps(t *trail) expr.Input {
	od, wall := float64(b.OD), float64(b.Wall)
	bore := t.step(boreEq, od-2*wall, size("od", od), size("wall", wall))
	eq := areaEq
	if t.printed {
		eq = areaPrintedEq
	}
	return t.rounded(eq, toMil2, ring(t.quarterPi(), od, bore.SI), size("od", od), bore)
}

// WallKept is the share of nominal wall the standard counts on: less 12.5 %.
const WallKept = 0.875

// InternalYield is the pressure at which the body yields at the inside by
// Barlow's formula, 2 part Yp t / D; part is WallKept for new pipe, 1 where the
// wall was measured, and is lessened by wear. API TR 5C3. Domain 0 < part <= 1.
func (b Body) InternalYield(part units.Fraction) (units.Pascals, error) {
	if err := b.check("internal yield"); err != nil {
		return 0, err
	}
	if !(part > 0 && part <= 1) {
		return 0, outside("internal yield", "the share of wall must be above 0 and at most 1")
	}
	p := barlow(float64(part), float64(b.Yield), float64(b.Wall), float64(b.OD))
	return units.Pascals(p), finite("internal yield", p)
}

// RateInternalYield is InternalYield with both faces and the working.
func (b Body) RateInternalYield(part units.Fraction) (Rating[units.Pascals], error) {
	exact, err := b.InternalYield(part)
	if err != nil {
		return Rating[units.Pascals]{}, err
	}
	return rate[units.Pascals](func(t *trail) (string, error) {
		t.rounded(barlowEq, toTenPsi, float64(exact), pure("part", float64(part)), pressure("yield", float64(b.Yield)), size("wall", float64(b.Wall)), size("od", float64(b.OD)))
		return "pipe", nil
	})
}

// BodyYield is the axial force at minimum yield, Yp A. API TR 5C3.
func (b Body) BodyYield() (units.Newtons, error) {
	if err := b.check("body yield"); err != nil {
		return 0, err
	}
	f := float64(b.Yield) * b.Area()
	return units.Newtons(f), finite("body yield", f)
}

// RateBodyYield is BodyYield with both faces and the working.
func (b Body) RateBodyYield() (Rating[units.Newtons], error) {
	if err := b.check("body yield"); err != nil {
		return Rating[units.Newtons]{}, err
	}
	return rate[units.Newtons](func(t *trail) (string, error) {
		area := b.areaSteps(t)
		t.rounded(bodyEq, toKip, float64(b.Yield)*area.SI, pressure("yield", float64(b.Yield)), area)
		return "pipe", nil
	})
}

// mostMillTest is the standard's ceiling on a mill test, from memory.
const mostMillTest = 10000 * units.Psi

// softerThan tells H40, J55 and K55 from the other grades.
const softerThan = 60000 * units.Psi

// MillTest is the hydrostatic test pressure at the mill: 2 f Yp t / D with f 0.6
// for H40, J55 and K55 above 9-5/8 in and 0.8 otherwise, at most 10,000 psi.
// API Spec 5CT, from memory; the mill rounds to 100 psi.
func MillTest(s Size, g Grade) (units.Pascals, expr.Working, error) {
	b := BodyOf(s, g)
	if err := b.check("mill test"); err != nil {
		return 0, expr.Working{}, err
	}
	share := 0.8
	if s.OD > inches(9.625)+sameOD && g.Yield < softerThan {
		share = 0.6
	}
	p := min(barlow(share, float64(b.Yield), float64(b.Wall), float64(b.OD)), mostMillTest)
	var t trail
	t.step(millEq, p, pure("share", share), pressure("yield", float64(b.Yield)), size("wall", float64(b.Wall)), size("od", float64(b.OD)), pressure("most", mostMillTest))
	return units.Pascals(p), t.steps[0], nil
}
