package fluid

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
)

var leakOffEq = equation{"emw", units.Density, "mud + pressure / (g * depth)", "formation integrity and leak-off test, p/(g h) + mud"}

// LeakOff is the equivalent mud weight that a shoe test reaches: rho + p/(g h).
// Field form: psi/(0.052 ft) + ppg. Domain: depth above zero; mud and pressure
// not negative.
func LeakOff(p units.Pascals, mud units.KgPerM3, shoe units.TVD) (units.KgPerM3, error) {
	return answer[units.KgPerM3]("leak-off", shoe > 0 && mud >= 0 && p >= 0, "the depth must be above zero, mud and pressure not negative", float64(mud)+float64(p)/(units.G*float64(shoe)))
}

// LeakOffWorking is LeakOff with its working.
func LeakOffWorking(p units.Pascals, mud units.KgPerM3, shoe units.TVD) (expr.Working, error) {
	rho, err := LeakOff(p, mud, shoe)
	return leakOffEq.working(float64(rho), err, density("mud", mud), pressure("pressure", p), depth("depth", shoe))
}

var testEq = equation{"pressure", units.Pressure, "(emw - mud) * g * depth", "surface pressure of a formation integrity test"}

// TestPressure is the surface pressure that brings a shoe to an equivalent mud
// weight: the inverse of LeakOff. Domain: depth not negative.
func TestPressure(emw, mud units.KgPerM3, shoe units.TVD) (units.Pascals, error) {
	return answer[units.Pascals]("shoe test pressure", shoe >= 0, "the depth must not be negative", float64(emw-mud)*units.G*float64(shoe))
}

// TestPressureWorking is TestPressure with its working.
func TestPressureWorking(emw, mud units.KgPerM3, shoe units.TVD) (expr.Working, error) {
	p, err := TestPressure(emw, mud, shoe)
	return testEq.working(float64(p), err, density("emw", emw), density("mud", mud), depth("depth", shoe))
}

var maaspEq = equation{"maasp", units.Pressure, "(fracture - mud) * g * depth", "maximum allowable annular surface pressure, (rho_f - rho) g h"}

// MAASP is the maximum allowable annular surface pressure, static: (rho_f - rho)
// g h; take choke-line friction off while circulating through one. Negative if
// the mud alone breaks the shoe. Domain: depth not negative.
func MAASP(fracture, mud units.KgPerM3, shoe units.TVD) (units.Pascals, error) {
	return answer[units.Pascals]("MAASP", shoe >= 0, "the depth must not be negative", float64(fracture-mud)*units.G*float64(shoe))
}

// MAASPWorking is MAASP with its working.
func MAASPWorking(fracture, mud units.KgPerM3, shoe units.TVD) (expr.Working, error) {
	p, err := MAASP(fracture, mud, shoe)
	return maaspEq.working(float64(p), err, density("fracture", fracture), density("mud", mud), depth("depth", shoe))
}

var fromBottomEq = equation{"from_bottom", units.Pressure, "formation - gas * depth", "gas from the formation to surface"}
var fromShoeEq = equation{"from_shoe", units.Pressure, "fracture - gas * shoe", "fracture pressure at the shoe less gas to surface"}
var surfaceEq = equation{"surface_pressure", units.Pressure, "lesser(from_bottom, from_shoe)", "anticipated surface pressure: the lesser of gas from the formation and of what the shoe stands"}

// Anticipated is the surface pressure of a well full of gas by its two bounds.
type Anticipated struct {
	FromBottom, FromShoe units.Pascals
	Pressure             units.Pascals // the lesser
	ByShoe               bool          // the shoe gives the lesser
}

// GasAtSurface is the pressure at surface of gas from a depth, with no relief
// at a shoe: p - gradient h. Negative if the column weighs more than the
// pressure. Domain: depth and gradient not negative.
func GasAtSurface(p units.Pascals, z units.TVD, gas PaPerM) (units.Pascals, error) {
	return answer[units.Pascals]("gas at surface", z >= 0 && gas >= 0, "depth and gradient must not be negative", float64(p)-float64(gas)*float64(z))
}

// GasAtSurfaceWorking is GasAtSurface with its working.
func GasAtSurfaceWorking(p units.Pascals, z units.TVD, gas PaPerM) (expr.Working, error) {
	s, err := GasAtSurface(p, z, gas)
	return fromBottomEq.working(float64(s), err, pressure("formation", p), input("gas", gas, units.Gradient), depth("depth", z))
}

// AnticipatedSurface is the lesser of gas from the formation and of the pressure
// at which the shoe breaks, with gas above it; any allowance is in the fracture
// pressure. Domain: that of GasAtSurface.
func AnticipatedSurface(formation units.Pascals, at units.TVD, fracture units.Pascals, shoe units.TVD, gas PaPerM) (Anticipated, error) {
	a, err := GasAtSurface(formation, at, gas)
	if err != nil {
		return Anticipated{}, err
	}
	b, err := GasAtSurface(fracture, shoe, gas)
	return Anticipated{a, b, min(a, b), b < a}, err
}

// AnticipatedSurfaceWorking is AnticipatedSurface in three steps, the last of
// which gives the pressure.
func AnticipatedSurfaceWorking(formation units.Pascals, at units.TVD, fracture units.Pascals, shoe units.TVD, gas PaPerM) ([]expr.Working, error) {
	p, err := AnticipatedSurface(formation, at, fracture, shoe, gas)
	if err != nil {
		return nil, err
	}
	grad := input("gas", gas, units.Gradient)
	a, _ := fromBottomEq.working(float64(p.FromBottom), nil, pressure("formation", formation), grad, depth("depth", at))
	b, _ := fromShoeEq.working(float64(p.FromShoe), nil, pressure("fracture", fracture), grad, depth("shoe", shoe))
	c, _ := surfaceEq.working(float64(p.Pressure), nil, a.Result, b.Result)
	return []expr.Working{a, b, c}, nil
}

// Eaton is the fracture gradient of B. A. Eaton (JPT, October 1969):
// (S - P) nu/(1 - nu) + P. Domain: Poisson's ratio above 0 and at most 0.5,
// overburden not below pore pressure, pore pressure not negative.
func Eaton(overburden, pore PaPerM, nu units.Fraction) (PaPerM, error) {
	n := float64(nu)
	return answer[PaPerM]("Eaton fracture gradient", n > 0 && n <= 0.5 && overburden >= pore && pore >= 0, "Poisson's ratio must lie above 0 up to 0.5, overburden not below pore pressure",
		float64(overburden-pore)*n/(1-n)+float64(pore))
}

// StickingLimit is the mud at which the overbalance on a depth reaches a limit:
// pore + dp/(g h). Domain: depth above zero, limit not negative.
func StickingLimit(limit units.Pascals, pore units.KgPerM3, z units.TVD) (units.KgPerM3, error) {
	return answer[units.KgPerM3]("differential sticking limit", z > 0 && limit >= 0 && pore >= 0, "the depth must be above zero, limit and pore pressure not negative", float64(pore)+float64(limit)/(units.G*float64(z)))
}
