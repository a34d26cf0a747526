// Package pressure holds the checks of mud against pore and fracture pressure,
// of the depths of shoes, and of the rock they stand in.
package pressure

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

func density(name string, x units.KgPerM3, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: units.Density, Ref: ref}
}

func tvd(name string, z units.TVD, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(z), Dim: units.TVDLength, Ref: ref}
}

func stress(name string, p units.Pascals, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(p), Dim: units.Pressure, Ref: ref}
}

// depth is a depth as a plan gives it.
type depth = plan.Val[units.TVD]
