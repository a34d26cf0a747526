package pipe

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Regime is the way a pipe collapses, by its slenderness D/t.
type Regime uint8

// The regimes, from thick to thin pipe.
const (
	YieldRegime Regime = iota
	Plastic
	Transition
	Elastic
)

func (r Regime) String() string {
	return [...]string{"yield", "plastic", "transition", "elastic"}[min(r, Elastic)]
}

// The range of yield the coefficients serve: under 18,000 psi the limits of the
// regimes cross, over 160,000 psi nothing was tested.
const (
	leastCollapseYield = 18000 * units.Psi
	mostCollapseYield  = 160000 * units.Psi
	elasticPressure    = 46.95e6 * units.Psi
)

// coefficients are those of the collapse formulas for one yield strength: c in
// Pa, the rest pure numbers; the limits are values of D/t.
type coefficients struct {
	a, b, c, r, q, f, g                       float64
	yieldLimit, plasticLimit, transitionLimit float64
}

var (
	aEq = equation{"A", units.None, false, "2.8762 + 0.0010679 * (yield / 1 ksi) + 0.000021301 * (yield / 1 ksi)^2 - 0.000000053132 * (yield / 1 ksi)^3", "API TR 5C3, collapse coefficient A"}
	bEq = equation{"B", units.None, false, "0.026233 + 0.00050609 * (yield / 1 ksi)", "API TR 5C3, collapse coefficient B"}
	cEq = equation{"C", units.Pressure, false, "(-465.93 + 30.867 * (yield / 1 ksi) - 0.010483 * (yield / 1 ksi)^2 + 0.000036989 * (yield / 1 ksi)^3) * 1 psi", "API TR 5C3, collapse coefficient C"}
	rEq = equation{"R", units.None, false, "B / A", "API TR 5C3, within coefficient F"}
	qEq = equation{"Q", units.None, false, "3 * R / (2 + R)", "API TR 5C3, within coefficient F"}
	fEq = equation{"F", units.None, false, "46950000 psi * Q^3 / (yield * (Q - R) * (1 - Q)^2)", "API TR 5C3, collapse coefficient F"}
	gEq = equation{"G", units.None, false, "F * R", "API TR 5C3, collapse coefficient G"}

	yieldLimitEq      = equation{"yield_limit", units.None, false, "(sqrt((A - 2)^2 + 8 * (B + C / yield)) + (A - 2)) / (2 * (B + C / yield))", "API TR 5C3, largest D/t of yield collapse"}
	plasticLimitEq    = equation{"plastic_limit", units.None, false, "yield * (A - F) / (C + yield * (B - G))", "API TR 5C3, largest D/t of plastic collapse"}
	transitionLimitEq = equation{"transition_limit", units.None, false, "(2 + R) / (3 * R)", "API TR 5C3, largest D/t of transition collapse"}

	ratioEq = equation{"ratio", units.None, false, "od / wall", "API TR 5C3, D/t"}

	regimeEq = [...]equation{
		YieldRegime: {"collapse", units.Pressure, false, "2 * yield * (ratio - 1) / ratio^2", "API TR 5C3, yield strength collapse"},
		Plastic:     {"collapse", units.Pressure, false, "yield * (A / ratio - B) - C", "API TR 5C3, plastic collapse"},
		Transition:  {"collapse", units.Pressure, false, "yield * (F / ratio - G)", "API TR 5C3, transition collapse"},
		Elastic:     {"collapse", units.Pressure, false, "46950000 psi / (ratio * (ratio - 1)^2)", "API TR 5C3, elastic collapse"},
	}
)

// coefficientsOf computes the coefficients for a yield strength in Pa.
func coefficientsOf(yield float64) coefficients {
	y := yield / (1000 * units.Psi)
	var k coefficients
	k.a = 2.8762 + 0.0010679*y + 0.000021301*y*y - 0.000000053132*y*y*y
	k.b = 0.026233 + 0.00050609*y
	k.c = (-465.93 + 30.867*y - 0.010483*y*y + 0.000036989*y*y*y) * units.Psi
	k.r = k.b / k.a
	k.q = 3 * k.r / (2 + k.r)
	k.f = elasticPressure * k.q * k.q * k.q / (yield * (k.q - k.r) * (1 - k.q) * (1 - k.q))
	k.g = k.f * k.r
	m := k.b + k.c/yield
	k.yieldLimit = (math.Sqrt((k.a-2)*(k.a-2)+8*m) + (k.a - 2)) / (2 * m)
	k.plasticLimit = yield * (k.a - k.f) / (k.c + yield*(k.b-k.g))
	k.transitionLimit = (2 + k.r) / (3 * k.r)
	return k
}

// regime of a pipe of slenderness x.
func (k coefficients) regime(x float64) Regime {
	switch {
	case x <= k.yieldLimit:
		return YieldRegime
	case x <= k.plasticLimit:
		return Plastic
	case x <= k.transitionLimit:
		return Transition
	}
	return Elastic
}

// pressure is the collapse pressure in one regime.
func (k coefficients) pressure(r Regime, x, yield float64) float64 {
	switch r {
	case YieldRegime:
		return 2 * yield * (x - 1) / (x * x)
	case Plastic:
		return yield*(k.a/x-k.b) - k.c
	case Transition:
		return yield * (k.f/x - k.g)
	}
	return elasticPressure / (x * (x - 1) * (x - 1))
}

func (b Body) checkCollapse() error {
	if err := b.check("collapse"); err != nil {
		return err
	}
	if y := float64(b.Yield); y < leastCollapseYield || y > mostCollapseYield {
		return outside("collapse", "a yield of %.0f psi is outside the 18,000 to 160,000 psi its coefficients serve", y/units.Psi)
	}
	return nil
}

// Collapse is the outside pressure, above the inside one, at which the body
// collapses without axial load, and the regime. API TR 5C3, four regimes.
// Domain: yield from 18,000 to 160,000 psi.
func (b Body) Collapse() (units.Pascals, Regime, error) {
	if err := b.checkCollapse(); err != nil {
		return 0, 0, err
	}
	k := coefficientsOf(float64(b.Yield))
	x := float64(b.OD / b.Wall)
	r := k.regime(x)
	return units.Pascals(k.pressure(r, x, float64(b.Yield))), r, nil
}

// RateCollapse is Collapse with both faces and the working.
func (b Body) RateCollapse() (Rating[units.Pascals], error) {
	if err := b.checkCollapse(); err != nil {
		return Rating[units.Pascals]{}, err
	}
	return rate[units.Pascals](func(t *trail) (string, error) {
		return b.collapseSteps(t, pressure("yield", float64(b.Yield))).String(), nil
	})
}

// collapseSteps records coefficients, limits and the pressure.
func (b Body) collapseSteps(t *trail, yield expr.Input) Regime {
	k := coefficientsOf(yield.SI)
	od, wall := float64(b.OD), float64(b.Wall)
	ratio := t.rounded(ratioEq, toHundredth, od/wall, size("od", od), size("wall", wall))
	named := k.steps(t, yield)
	r := k.regime(ratio.SI)
	t.rounded(regimeEq[r], toTenPsi, k.pressure(r, ratio.SI, yield.SI), needed(r, yield, ratio, named)...)
	return r
}

// named are the coefficients as inputs of later steps.
type named struct{ a, b, c, f, g expr.Input }

func (k coefficients) steps(t *trail, yield expr.Input) (n named) {
	n.a = t.step(aEq, k.a, yield)
	n.b = t.step(bEq, k.b, yield)
	n.c = t.step(cEq, k.c, yield)
	r := t.step(rEq, k.r, n.b, n.a)
	q := t.step(qEq, k.q, r)
	n.f = t.step(fEq, k.f, q, yield, r)
	n.g = t.step(gEq, k.g, n.f, r)
	t.step(yieldLimitEq, k.yieldLimit, n.a, n.b, n.c, yield)
	t.step(plasticLimitEq, k.plasticLimit, yield, n.a, n.f, n.c, n.b, n.g)
	t.step(transitionLimitEq, k.transitionLimit, r)
	return n
}

// needed are the inputs of the formula of a regime.
func needed(r Regime, yield, ratio expr.Input, n named) []expr.Input {
	switch r {
	case YieldRegime:
		return []expr.Input{yield, ratio}
	case Plastic:
		return []expr.Input{yield, n.a, ratio, n.b, n.c}
	case Transition:
		return []expr.Input{yield, n.f, ratio, n.g}
	}
	return []expr.Input{ratio}
}
