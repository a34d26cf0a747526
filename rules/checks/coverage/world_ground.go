package coverage

import (
	"spudgate/plan/place"
	"spudgate/plan/well"
	"spudgate/rules"
)

// FluidsStated is whether it is told what each formation holds.
var FluidsStated = told("coverage.fluids_stated",
	"True when formations are listed and the plan says of each what it holds, nothing included.", (*well.Well).FluidsStated)

// FractureStated is whether fracture pressures are predicted.
var FractureStated = told("coverage.fracture_stated", "True when the plan states fracture pressure at any depth.", (*well.Well).FractureStated)

// told is a check on whether the plan tells something of the ground.
func told(name, doc string, is func(*well.Well) (bool, place.Ref)) *rules.Check {
	return rules.OfWell(name, rules.TruthType, doc, func(w *well.Well) rules.Measure {
		ok, ref := is(w)
		return rules.Truth(ok, ref)
	})
}
