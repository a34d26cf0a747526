package pipe

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// perCurve is the trade's unit of curvature, deg/100 ft, in rad/m.
const perCurve = units.Degree / (100 * units.Foot)

var (
	bendEq    = equation{"bending", units.Pressure, false, "30000000 psi * od * bend / (2 * 1 rad)", "bending stress at the outer wall, E D kappa / 2"}
	ultimate  = equation{"bent_joint", units.Force, false, "0.95 * thread_area * (tensile - (140.5 * (bend / 1 deg/100ft) * (od / 1 in) / ((tensile - yield) / 1 psi)^0.8)^5 * 1 psi)", "API Bul 5C4, round thread joint in tension and bending, above yield; from memory"}
	yieldBent = equation{"bent_joint", units.Force, false, "0.95 * thread_area * ((tensile - yield) / 0.644 + yield - 218.15 psi * (bend / 1 deg/100ft) * (od / 1 in))", "API Bul 5C4, round thread joint in tension and bending, below yield; from memory"}
)

func curvature(x float64) expr.Input {
	return expr.Input{Name: "bend", SI: x, Dim: units.Curvature}
}

// BendingStress is the greatest stress of a bent pipe, at its outer wall:
// E D kappa / 2 with E 30,000,000 psi, the pipe following the hole. Domain: the
// curvature not negative.
func BendingStress(od units.Meters, bend units.RadPerM) (units.Pascals, expr.Working, error) {
	if err := finite("bending stress", float64(od), float64(bend)); err != nil {
		return 0, expr.Working{}, err
	}
	if !(od > 0 && bend >= 0) {
		return 0, expr.Working{}, outside("bending stress", "the OD must be above zero and the curvature not negative")
	}
	var t trail
	t.step(bendEq, modulus*float64(od)*float64(bend)/2, size("od", float64(od)), curvature(float64(bend)))
	return units.Pascals(t.value()), t.steps[0], finite("bending stress", t.value())
}

// BentJoint is the strength of a round thread joint in a bend, exact face: of
// two formulas the one whose result lies on its own side of yield. It speaks of
// fracture; the lesser of it and RateJoint holds. API Bul 5C4, from memory.
// Domain: round thread of 5C4's kind, tensile above yield, strength left.
func BentJoint(s Size, g Grade, bend units.RadPerM) (units.Newtons, expr.Working, error) {
	const name = "joint in tension and bending"
	b := BodyOf(s, g)
	if err := b.check(name); err != nil {
		return 0, expr.Working{}, err
	}
	if err := finite(name, float64(bend)); err != nil {
		return 0, expr.Working{}, err
	}
	od, up, yp := float64(b.OD), float64(b.Tensile), float64(b.Yield)
	area := ring(quarterPi, od-threadCut, float64(s.ID()))
	if !(area > 0 && up > yp && bend >= 0) {
		return 0, expr.Working{}, outside(name, "needs a pipe thicker than its thread, tensile above yield and a curvature not negative")
	}
	eq, pb := bent(area, od, up, yp, float64(bend))
	if !(pb > 0) {
		return 0, expr.Working{}, outside(name, "the bend leaves no strength")
	}
	var t trail
	t.step(eq, pb, expr.Input{Name: "thread_area", SI: area, Dim: units.Area}, pressure("tensile", up), curvature(float64(bend)), size("od", od), pressure("yield", yp))
	return units.Newtons(pb), t.steps[0], finite(name, pb)
}

// bent picks the formula and computes it.
func bent(area, od, up, yp, bend float64) (equation, float64) {
	bd := bend / perCurve * od / units.Inch
	lost := math.Pow(140.5*bd/math.Pow((up-yp)/units.Psi, 0.8), 5) * units.Psi
	if pb := 0.95 * area * (up - lost); pb/area >= yp {
		return ultimate, pb
	}
	return yieldBent, 0.95 * area * ((up-yp)/0.644 + yp - 218.15*units.Psi*bd)
}
