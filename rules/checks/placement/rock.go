package placement

import (
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

const underFracture = "Fracture pressure, low estimate, less the pressure in the annulus, least over every moment of a stage and every place of open hole: shoes, formation tops, rows of the curve, from 15 m below the ground or the sea bed."

// FractureSpareStill is what the columns of a job leave under fracture pressure.
var FractureSpareStill = fracture("placement.fracture_spare_still", underFracture+" Columns standing still: friction isn't in it."+way, false)

// FractureSpare is what a job leaves under fracture pressure, friction counted.
var FractureSpare = fracture("placement.fracture_spare", underFracture+" With the friction of the annulus above the place (API RP 13D; Herschel-Bulkley, power law or Bingham as given, concentric pipe)."+way, true)

func fracture(name, doc string, moving bool) *rules.Check {
	return ofStage(name, rules.NumType(units.Pressure), doc, func(j job) rules.Measure {
		m, err := j.PlacementUnderFracture(j.str, j.st, moving)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		note := flows(moving)
		if z, err := j.TVD(m.MD); err == nil && z > 0 {
			emw := units.KgPerM3(float64(m.Column) / (units.G * float64(z)))
			note += "; equivalent density " + show(j.Well, emw, units.Density)
		}
		return rockMeasure(j, m, note+"; "+j.when(m.PlacementAt), "fracture", "column")
	})
}

// PoreSpare is what a job has over pore pressure at its lightest.
var PoreSpare = ofStage("placement.pore_spare", rules.NumType(units.Pressure),
	"Pressure in the annulus standing still less pore pressure, high estimate: least over every moment of a stage and the tops of the open zones that can flow. Friction only adds to it. Light spacers make it least. Not in a hole drilled managed, underbalanced or with air."+way,
	func(j job) rules.Measure {
		if h, err := j.HoleOf(j.str); err == nil && (h.Plan.Drilled.V == "managed" || h.Plan.Drilled.V == "underbalanced" || h.Plan.Drilled.V == "air") {
			return rules.None("pressure is held at the surface, or the hole is left to flow")
		}
		m, err := j.PlacementOverPore(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rockMeasure(j, m, flows(false)+"; "+j.when(m.PlacementAt), "column", "pore")
	})

func rockMeasure(j job, m well.PlacementMargin, note, upper, lower string) rules.Measure {
	hi, lo := m.Rock, m.Column
	if upper == "column" {
		hi, lo = m.Column, m.Rock
	}
	return rules.Num(float64(m.Spare), units.Pressure, refs(j.stage.Ref, m.Ref)...).Where(j.AtMD(m.MD, "where it is least")).
		With(note).
		By(less("spare", input(upper, hi, units.Pressure, 0), input(lower, lo, units.Pressure, 0), "job followed volume by volume"))
}
