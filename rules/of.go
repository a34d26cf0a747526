package rules

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
)

// The makers of checks most families use: a name, the type of the measure, its
// documentation, and a function of the thing measured.

// TruthType is the type of a yes-or-no measure.
var TruthType = expr.Type{Kind: expr.Truth}

// NumType is the type of a measured number.
func NumType(d units.Dim) expr.Type { return expr.Type{Kind: expr.Num, Dim: d} }

// OfWell makes a check about the whole well.
func OfWell(name string, t expr.Type, doc string, measure func(w *well.Well) Measure) *Check {
	return &Check{Name: name, About: Well, Type: t, Doc: doc,
		Measure: func(w *well.Well, _ Subject) Measure { return measure(w) }}
}

// OfString makes a check about a string.
func OfString(name string, t expr.Type, doc string, measure func(w *well.Well, str int) Measure) *Check {
	return &Check{Name: name, About: String, Type: t, Doc: doc,
		Measure: func(w *well.Well, s Subject) Measure { return measure(w, s.String) }}
}

// OfHole makes a check about a hole section; it waits where the section's
// depths aren't known.
func OfHole(name string, t expr.Type, doc string, measure func(w *well.Well, h *well.Hole) Measure) *Check {
	return &Check{Name: name, About: Section, Type: t, Doc: doc,
		Measure: func(w *well.Well, s Subject) Measure {
			h, err := w.HoleAt(s.Section)
			if err != nil {
				return From(err, s.Ref)
			}
			return measure(w, h)
		}}
}
