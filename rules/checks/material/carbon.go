package material

import (
	"spudgate/plan/expr"
	"spudgate/plan/well"
	"spudgate/rules"
)

// CO2 is the partial pressure of carbon dioxide a pipe sees.
var CO2 = partial("material.co2_partial_pressure",
	"Partial pressure of CO2 inside the string the pipe belongs to, absolute: mole fraction times the highest absolute pressure at which gas can stand there.",
	(*well.Well).CO2Inside)

// Carbon is whether a pipe is carbon or low-alloy steel.
var Carbon = ofPipe("material.carbon_steel", expr.Truth,
	"True for carbon and low-alloy grades, false for the 9 and 13 per cent chrome ones. A proprietary grade isn't judged.",
	func(w *well.Well, str int, p *well.Pipe) rules.Measure {
		if p.GradeErr != nil {
			return unlisted(p)
		}
		s, ok := well.SteelOf(p.Grade)
		if !ok {
			return rules.None(p.Grade.Name + " isn't in the table of steels")
		}
		return rules.Truth(!s.Chrome, p.Plan.Grade.Ref)
	})

// Historic is whether a grade is no longer in the standard.
var Historic = ofPipe("material.grade_historic", expr.Truth,
	"True for a grade once in API Spec 5CT and no longer there: M65, C75, C95, P105.",
	func(w *well.Well, str int, p *well.Pipe) rules.Measure {
		if p.GradeErr != nil {
			return unlisted(p)
		}
		return rules.Truth(p.Grade.Historic, p.Plan.Grade.Ref)
	})
