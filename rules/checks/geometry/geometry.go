// Package geometry holds the checks of what fits: clearances, laps, bores,
// lengths and the steps from one size to the next.
package geometry

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// ofString is a check of one quantity of a string.
func ofString(name string, d units.Dim, small bool, doc string, measure func(w *well.Well, str int) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.String, Type: rules.NumType(d), Small: small, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure { return measure(w, s.String) }}
}

// ofHole is a check of one quantity of a hole section.
func ofHole(name string, d units.Dim, small bool, doc string, measure func(w *well.Well, h *well.Hole) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Section, Type: rules.NumType(d), Small: small, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			h, err := w.HoleAt(s.Section)
			if err != nil {
				return rules.From(err, s.Ref)
			}
			return measure(w, h)
		}}
}

// size is an input or result of a working that is a diameter or a gap.
func size(name string, x units.Meters, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: units.Length, Small: true, Ref: ref}
}

// less is the step a - b of two sizes.
func less(result string, a, b expr.Input) expr.Working {
	return expr.Working{Formula: a.Name + " - " + b.Name, Inputs: []expr.Input{a, b},
		Result: size(result, units.Meters(a.SI-b.SI), 0), Source: "difference of two diameters"}
}

func in(m units.Meters) string { return units.Size(m) + " in" }

func between(w *well.Well, from, to units.MD) string {
	show := func(md units.MD) string { return units.Show(float64(md), units.MDLength, w.Plan.System, false) }
	return fmt.Sprintf("from %s to %s", show(from), show(to))
}
