package fluid

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// fullGel is the gel strength at which gas no longer moves through cement,
// 500 lbf/100 ft2 (Sutton, Sabins and Faul, 1984).
const fullGel = 500 * units.Lbf / (100 * units.Foot * units.Foot)

var gelEq = equation{"drop", units.Pressure, "4 * gel * length / (outer - inner)", "pressure that a gelled column hangs up on the walls, 4 tau L/(D2 - D1)"}

// GelDrop is the pressure that a column of a gel strength takes up at the walls
// of its annulus, L along the hole: 4 tau L/(D2 - D1). Field form: SGS L/(300 d).
// Domain: outer above inner, gel and length not negative.
func GelDrop(gel units.Pascals, length units.MD, outer, inner units.Meters) (units.Pascals, error) {
	return answer[units.Pascals]("gelled column", outer > inner && inner >= 0 && gel >= 0 && length >= 0, "the outer diameter must be above the inner, gel and length not negative",
		4*float64(gel)*float64(length)/float64(outer-inner))
}

// GelDropWorking is GelDrop with its working.
func GelDropWorking(gel units.Pascals, length units.MD, outer, inner units.Meters) (expr.Working, error) {
	p, err := GelDrop(gel, length, outer, inner)
	return gelEq.working(float64(p), err, pressure("gel", gel), along("length", length), size("outer", outer), size("inner", inner))
}

var potentialEq = equation{"factor", units.None, "4 * 500 lbf/100ft2 * length / (outer - inner) / overbalance", "gas flow potential factor, Sutton, Sabins and Faul (1984): greatest pressure reduction over overbalance"}

// FlowPotential is the gas flow potential factor of D. L. Sutton, F. Sabins and
// R. Faul (Oil and Gas Journal, December 1984): the pressure that the cement
// over a gas zone can lose by gelling to 500 lbf/100 ft2, over the overbalance
// on the zone before it sets. Domain: overbalance above zero; that of GelDrop.
func FlowPotential(length units.MD, outer, inner units.Meters, overbalance units.Pascals) (units.Fraction, error) {
	drop, err := GelDrop(fullGel, length, outer, inner)
	if err != nil {
		return 0, err
	}
	return answer[units.Fraction]("gas flow potential factor", overbalance > 0, "the zone isn't overbalanced to begin with", float64(drop)/float64(overbalance))
}

// FlowPotentialWorking is FlowPotential with its working.
func FlowPotentialWorking(length units.MD, outer, inner units.Meters, overbalance units.Pascals) (expr.Working, error) {
	f, err := FlowPotential(length, outer, inner, overbalance)
	return potentialEq.working(float64(f), err, along("length", length), size("outer", outer), size("inner", inner), pressure("overbalance", overbalance))
}

// FlowBand is the band of a gas flow potential factor in its authors' words:
// minor up to 3, moderate up to 8, severe above.
func FlowBand(factor units.Fraction) string {
	switch {
	case factor <= 3:
		return "minor"
	case factor <= 8:
		return "moderate"
	}
	return "severe"
}

var criticalEq = equation{"gel", units.Pressure, "overbalance * (outer - inner) / (4 * length)", "critical static gel strength, API Std 65-2: overbalance (D2 - D1)/(4 L)"}

// CriticalGel is the gel strength at which a zone is no longer overbalanced:
// OBP (D2 - D1)/(4 L). Field form: 300 OBP d/L lbf/100 ft2. Domain: outer above
// inner, length above zero, overbalance not negative.
func CriticalGel(overbalance units.Pascals, length units.MD, outer, inner units.Meters) (units.Pascals, error) {
	return answer[units.Pascals]("critical static gel strength", outer > inner && inner >= 0 && length > 0 && overbalance >= 0, "the outer diameter must be above the inner, the length above zero, the overbalance not negative",
		float64(overbalance)*float64(outer-inner)/(4*float64(length)))
}

// CriticalGelWorking is CriticalGel with its working.
func CriticalGelWorking(overbalance units.Pascals, length units.MD, outer, inner units.Meters) (expr.Working, error) {
	gel, err := CriticalGel(overbalance, length, outer, inner)
	return criticalEq.working(float64(gel), err, pressure("overbalance", overbalance), along("length", length), size("outer", outer), size("inner", inner))
}
