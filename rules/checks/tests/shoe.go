package tests

import (
	"spudgate/plan"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// ShoeUnderFracture is how far an integrity test stays under fracture.
var ShoeUnderFracture = ofTest("test.shoe_under_fracture", units.Density,
	"Fracture pressure at the shoe, high estimate, as an equivalent mud weight, less the equivalent mud weight of a planned integrity test. A leak-off test goes to fracture on purpose and has none.",
	func(w *well.Well, t *plan.Test) rules.Measure {
		if t.Kind.V != "shoe" || t.Method.V == "leak_off" {
			return rules.None("not an integrity test of a shoe")
		}
		spare, refs, err := w.ShoeTestUnderFracture(t)
		if err != nil {
			return rules.From(err, append(refs, t.Ref)...)
		}
		return rules.Num(float64(spare), units.Density, refs...)
	})
