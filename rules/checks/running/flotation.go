package running

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// SlackOff is what goes on pulling a string into the hole.
var SlackOff = rules.OfString("running.slack_off", rules.NumType(units.Force),
	"Load that goes on pulling a string in as it reaches bottom, block left out, the pipe that runs a liner counted where its weight is stated: weight in mud by pressure-area, a floated length empty, less friction. By the friction factor stated: a string without stiffness, cut into 3 m, side force of weight and of tension round bends (C. A. Johancsik, D. B. Friesen and R. Dawson, JPT, June 1984). Without one: in a vertical hole less drag as stated, else none; in a deviated one the factor is missing, unless the string floats with nothing rubbing. Below zero the string doesn't go in by its own weight.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		l, err := w.SlackOff(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		note := fmt.Sprintf("less %s of the weight", units.Show(l.Factor, units.None, w.Plan.System, false))
		if l.Rubs {
			note = fmt.Sprintf("friction factor %.2f", l.Factor)
		}
		if l.Empty > 0 {
			note = show(w, l.Empty, units.Length) + " floated; " + note
		}
		return rules.Num(float64(l.Load), units.Force, stated(append(l.Refs, s.Ref)...)...).With(note).
			By(less("left", input("hung", l.Hung, units.Force, 0), input("drag", l.Hung-l.Load, units.Force, s.Friction.Ref), "vertical weight in mud less friction"))
	})

// Floated is the pressure on the ends of a floated length over their rating.
var Floated = rules.OfString("running.on_flotation", rules.NumType(units.None),
	"Pressure across the ends of a floated length with the string at bottom, the greater part of their stated differential ratings: mud inside on the flotation collar, mud outside on the weakest float, nothing behind them.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		list, missing, err := w.FloatedLoads(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		worst := list[0]
		for _, l := range list[1:] {
			if l.Load/l.Rating > worst.Load/worst.Rating {
				worst = l
			}
		}
		step := over(input("load", worst.Load, units.Pressure, 0), input("rating", worst.Rating, units.Pressure, worst.Ref), "hydrostatic pressure of the mud over the rating stated")
		m := rules.Num(step.Result.SI, units.None, stated(worst.Ref, s.Floated.Ref)...).
			Where(w.AtMD(worst.MD, worst.Name)).With(worst.Name + " governs").By(step)
		m.Gaps = []expr.Lack(missing)
		return m
	})
