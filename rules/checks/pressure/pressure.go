// Package pressure holds the checks of mud against pore and fracture pressure,
// of the depths of shoes, and of the rock they stand in.
package pressure

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

var truth = expr.Type{Kind: expr.Truth}

func number(d units.Dim) expr.Type { return expr.Type{Kind: expr.Num, Dim: d} }

func ofHole(name string, t expr.Type, doc string, measure func(w *well.Well, h *well.Hole) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Section, Type: t, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			h, err := w.HoleAt(s.Section)
			if err != nil {
				return rules.From(err, s.Ref)
			}
			return measure(w, h)
		}}
}

func ofString(name string, t expr.Type, doc string, measure func(w *well.Well, str int) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.String, Type: t, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure { return measure(w, s.String) }}
}

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
