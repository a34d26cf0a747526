package pressure

import (
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// SwabMargin is what swabbing takes off the mud by the trade's rule.
var SwabMargin = rules.OfHole("pressure.swab_margin", rules.NumType(units.Density),
	"Mud weight that swabbing takes away: yield point of the mud over 11.7 times the clearance of the drill pipe in the hole (ppg, lbf/100ft2, in). Common practice.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		x, refs, err := w.SwabMargin(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Num(float64(x), units.Density, append(refs, h.Plan.Ref)...)
	})
