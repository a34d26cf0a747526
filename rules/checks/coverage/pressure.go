package coverage

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// DownholeOverPore is static mud at depth over pore pressure.
var DownholeOverPore = rules.OfHole("coverage.mud_over_pore", rules.NumType(units.Density),
	"Least of static mud density at depth less pore pressure, high estimate, along the open hole, as an equivalent mud weight; back pressure of managed drilling counts. Density as stated for depth, else the lightest planned.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		m, err := w.DownholeOverPore(h)
		return margin(m, err, h, "mud", "pore")
	})

// MudUnderFracture is static mud at depth under what shoe and rock hold.
var MudUnderFracture = rules.OfHole("coverage.fracture_over_mud", rules.NumType(units.Density),
	"The lesser of the shoe test planned above the hole and the lowest fracture pressure, low estimate, along it, less static mud density at depth, as equivalent mud weights. Density as stated for depth, else the heaviest planned. With no shoe test planned, a fracture pressure too low is enough to fail and one high enough not to pass.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		m, err := w.UnderFracture(h, false)
		return margin(m, err, h, "held", "mud")
	})

// CirculatingUnderFracture is the same while circulating.
var CirculatingUnderFracture = rules.OfHole("coverage.fracture_over_ecd", rules.NumType(units.Density),
	"The lesser of the shoe test planned above the hole and the lowest fracture pressure, low estimate, along it, less the highest equivalent circulating density planned. With no shoe test planned, a fracture pressure too low is enough to fail and one high enough not to pass.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		m, err := w.UnderFracture(h, true)
		return margin(m, err, h, "held", "mud")
	})

func margin(m well.Margin, err error, h *well.Hole, a, b string) rules.Measure {
	if err != nil {
		return rules.From(err, h.Plan.Ref)
	}
	over, under := input(a, m.Curve, units.Density, 0), input(b, m.Mud, units.Density, 0)
	if a == "mud" {
		over.SI, under.SI = under.SI, over.SI
	}
	out := rules.Num(float64(m.Spare), units.Density, m.Refs...).Where(well.AtTVD(m.At, "least margin")).
		By(less("spare", over, under, "equivalent mud weights at the depth of the least margin"))
	out.Gaps = m.Gaps
	return out
}

// TestAtShoe is what a liner's test puts at its own shoe.
var TestAtShoe = liner("coverage.liner_test_at_shoe", false, false,
	"Pressure that the strongest test of the liner or its top puts at the depth of the liner's shoe: surface pressure and the column of the test fluid.")

// RockAtShoe is the fracture pressure at a liner's own shoe.
var RockAtShoe = liner("coverage.fracture_at_liner_shoe", false, true,
	"Fracture pressure at the shoe of the liner, base estimate: the leak-off anticipated there.")

// TestAtParent is what a liner's test puts at the shoe it laps.
var TestAtParent = liner("coverage.liner_test_at_lap", true, false,
	"Pressure that the strongest test of the liner or its top puts at the shoe of the string it hangs in: surface pressure and the column of the test fluid.")

// RockAtParent is the fracture pressure at the shoe a liner laps.
var RockAtParent = liner("coverage.fracture_at_lap", true, true,
	"Fracture pressure at the shoe of the string the liner hangs in, base estimate.")

func liner(name string, parent, rock bool, doc string) *rules.Check {
	return rules.OfString(name, rules.NumType(units.Pressure), doc, func(w *well.Well, str int) rules.Measure {
		t, err := w.LinerTest(str, parent)
		if rock && t.RockRef != 0 {
			return rules.Num(float64(t.Rock), units.Pressure, t.RockRef).Where(well.AtTVD(t.At, "shoe"))
		}
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(t.P), units.Pressure, t.Test.Pressure.Ref, t.Test.Fluid.Ref).Where(well.AtTVD(t.At, "shoe")).With(t.Test.Name.V).
			By(expr.Working{Formula: "pressure + fluid * g * shoe", Inputs: []expr.Input{
				input("pressure", t.Test.Pressure.V, units.Pressure, t.Test.Pressure.Ref), input("fluid", t.Test.Fluid.V, units.Density, t.Test.Fluid.Ref),
				input("shoe", t.At, units.TVDLength, 0)}, Result: input("at_shoe", t.P, units.Pressure, 0), Source: "hydrostatics"})
	})
}

// planned is whether a test of some kind is planned on a string.
func planned(name, doc string, kinds ...string) *rules.Check {
	return rules.OfString(name, rules.TruthType, doc, func(w *well.Well, str int) rules.Measure {
		for _, t := range w.TestsOf(str, kinds...) {
			return rules.Truth(true, t.Ref).With(t.Name.V)
		}
		return rules.Truth(false, w.Plan.Strings[str].Ref)
	})
}

// The tests a plan has or hasn't.
var (
	SealPlanned = planned("coverage.seal_test_planned", "True when a test of the seal of the string, or of a liner's lap, is planned.", "seal", "liner_lap")
	ShoePlanned = planned("coverage.shoe_test_planned", "True when a shoe test is planned at the string.", "shoe")
)

// InflowPlanned is whether a negative test is planned.
var InflowPlanned = rules.OfWell("coverage.inflow_test_planned", rules.TruthType, "True when an inflow (negative pressure) test is planned in the well.",
	func(w *well.Well) rules.Measure {
		for i := range w.Plan.Tests {
			if t := &w.Plan.Tests[i]; t.Kind.V == "inflow" {
				return rules.Truth(true, t.Ref).With(t.Name.V)
			}
		}
		return rules.Truth(false, w.Plan.Well.Ref)
	})

// TreatedThrough is whether a string sees the treating pressure.
var TreatedThrough = rules.OfString("coverage.treated_through", rules.TruthType,
	"True when a stimulation is planned down the casing and some length of the string faces produced fluid. Not known where its path isn't stated.",
	func(w *well.Well, str int) rules.Measure {
		c := &w.Plan.Completion
		switch {
		case !c.StimulationPressure.Known(), !w.ProductionExposed(str), c.StimulationPath.V == "tubing":
			return rules.Truth(false, c.StimulationPath.Ref, c.Ref)
		case !c.StimulationPath.Known():
			return rules.From(well.Lack(c.Ref, "whether the treatment goes down casing or tubing"))
		}
		return rules.Truth(true, c.StimulationPath.Ref)
	})

// TreatingPressure is the highest treating pressure.
var TreatingPressure = rules.OfWell("coverage.treating_pressure", rules.NumType(units.Pressure), "Highest surface treating pressure, as stated.",
	func(w *well.Well) rules.Measure {
		v := w.Plan.Completion.StimulationPressure
		if !v.Known() {
			return rules.From(well.Lack(w.Plan.Completion.Ref, "the highest treating pressure"))
		}
		return rules.Num(float64(v.V), units.Pressure, v.Ref)
	})

// Stimulated is whether a stimulation is planned at all.
var Stimulated = rules.OfWell("coverage.stimulated", rules.TruthType, "True when the plan states a treating pressure or a formation to stimulate.",
	func(w *well.Well) rules.Measure {
		c := &w.Plan.Completion
		return rules.Truth(c.StimulationPressure.Known() || c.StimulationTopTVD.Known(), c.StimulationPressure.Ref, c.StimulationTopTVD.Ref, c.Ref)
	})

// WaterToStimulated is the rock between water and what is stimulated.
var WaterToStimulated = rules.OfWell("coverage.stimulated_below_water", rules.NumType(units.TVDLength),
	"Top of the stimulated formation below the deepest base of protected water, true vertical.",
	func(w *well.Well) rules.Measure {
		top := w.Plan.Completion.StimulationTopTVD
		if !top.Known() {
			return rules.From(well.Lack(w.Plan.Completion.Ref, "the top of the stimulated formation, true vertical"))
		}
		water, name, err := w.ProtectedWater()
		if err != nil {
			return rules.From(err, top.Ref)
		}
		return rules.Num(float64(top.V-water.V), units.TVDLength, top.Ref, water.Ref).With(name).
			By(less("between", input("stimulated", top.V, units.TVDLength, top.Ref), input("water", water.V, units.TVDLength, water.Ref), "true vertical depths"))
	})

// bop is a check of a number of a stack.
func bop(name, what, doc string, get func(*plan.BOP) plan.Val[int]) *rules.Check {
	return of(rules.BOP, name, rules.NumType(units.None), doc, func(w *well.Well, s rules.Subject) rules.Measure {
		b := &w.Plan.BOPs[s.BOP]
		v := get(b)
		if !v.Known() {
			return rules.From(well.Lack(b.Ref, "%s of %s", what, b.Name.V))
		}
		return rules.Num(float64(v.V), units.None, v.Ref)
	})
}

// Preventers of a stack.
var (
	ShearRams  = bop("coverage.shear_rams", "the number of shear rams", "Number of shear or blind-shear rams.", func(b *plan.BOP) plan.Val[int] { return b.ShearRams })
	Preventers = bop("coverage.preventers", "the numbers of annulars, pipe rams and shear rams", "Number of preventers in the stack: annular, pipe or variable-bore, blind and shear rams together. Blind rams not stated count as none.", preventers)
)

func preventers(b *plan.BOP) plan.Val[int] {
	sum := plan.Val[int]{Ref: b.Annulars.Ref}
	for _, v := range []plan.Val[int]{b.Annulars, b.PipeRams, b.ShearRams} {
		if !v.Known() {
			return v
		}
		sum.V += v.V
	}
	sum.V += b.BlindRams.V
	return sum
}
