package coverage

import (
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// DrillingMargin is the room a hole leaves to any mud.
var DrillingMargin = rules.OfHole("coverage.drilling_margin", rules.NumType(units.Density),
	"Least fracture pressure, low estimate, less greatest pore pressure, high estimate, as equivalent mud weights, each wherever along the open hole it's met: what is left to mud, circulation and a kick together. API RP 96 (2013), drilling margin. Not for the first hole.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		f, p, err := w.DrillingMargin(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		m := rules.Num(float64(f.Curve-p.Curve), units.Density, append(f.Refs, p.Refs...)...).Where(well.AtTVD(f.At, "least fracture pressure")).
			By(less("margin", input("fracture", f.Curve, units.Density, 0), input("pore", p.Curve, units.Density, 0), "API RP 96 (2013), drilling margin"))
		m.Gaps = append(append(m.Gaps, f.Gaps...), p.Gaps...)
		return m
	})

// RiserMargin is what mud has over the balance with the riser gone.
var RiserMargin = rules.OfHole("coverage.riser_margin", rules.NumType(units.Density),
	"Lightest mud planned less the mud that balances pore pressure, high estimate, with the riser gone: (p/g - rho_sea Dw)/(D - L), greatest along the open hole; D depth and L sea bed below the rotary, Dw water depth, sea water of 1,025 kg/m3. Own pressure balance. Only for holes drilled with a riser.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		m, err := w.RiserMargin(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		out := rules.Num(float64(m.Spare), units.Density, m.Refs...).Where(well.AtTVD(m.At, "heaviest mud needed")).
			By(less("margin", input("mud", m.Mud, units.Density, 0), input("balance", m.Curve, units.Density, 0), "pressure balance with the riser gone"))
		out.Gaps = m.Gaps
		return out
	})

// GreatestPore is the highest pressure a hole can meet.
var GreatestPore = rules.OfHole("coverage.greatest_pore", rules.NumType(units.Pressure),
	"Highest pore pressure, high estimate, along the open hole of the section.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		p, at, ref, err := w.GreatestPore(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Num(float64(p), units.Pressure, ref).Where(well.AtTVD(at, "highest pore pressure"))
	})

// PoreStated is whether formation pressures are predicted.
var PoreStated = rules.OfWell("coverage.pore_stated", rules.TruthType, "True when the plan states pore pressure at any depth.",
	func(w *well.Well) rules.Measure {
		ok, ref := w.PoreStated()
		return rules.Truth(ok, ref)
	})

// HydrocarbonExposed is whether a string can meet oil or gas inside.
var HydrocarbonExposed = rules.OfString("coverage.hydrocarbon_exposed", rules.TruthType,
	"True when the inside of the string may meet oil or gas: it faces produced fluid of an oil, gas or storage well, or a later hole it's open to has a formation that can flow them.",
	func(w *well.Well, str int) rules.Measure {
		yes, why := w.HydrocarbonExposed(str)
		return rules.Truth(yes, w.Plan.Strings[str].Ref).With(why)
	})

// Porous is whether a zone is porous and permeable.
var Porous = of(rules.Zone, "coverage.porous", rules.TruthType,
	"True for a formation that holds water, oil or gas, or is stated to flow; one of which the plan says neither isn't taken as porous and permeable.",
	func(w *well.Well, s rules.Subject) rules.Measure { return rules.Truth(w.Porous(s.Zone), s.Ref) })

// Hydrocarbons is whether a zone holds oil or gas.
var Hydrocarbons = of(rules.Zone, "coverage.hydrocarbon_zone", rules.TruthType,
	"True for a formation stated to hold oil or gas; one of which the plan says nothing isn't taken to.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		_, hydrocarbon := w.CanFlow(s.Zone)
		return rules.Truth(hydrocarbon, s.Ref)
	})

// AboveStimulated is cement above what is stimulated.
var AboveStimulated = rules.OfString("coverage.above_stimulated", rules.NumType(units.MDLength),
	"Cement above the top of the stimulated formation, along the hole, without a gap; below zero the nearest cement begins under it. Only for the string beside that formation.",
	beside((*well.Well).StimulatedTop, above))

// StimulatedBelowTop is how much of the string is above what is stimulated.
var StimulatedBelowTop = rules.OfString("coverage.stimulated_below_top", rules.NumType(units.MDLength),
	"Top of the stimulated formation below the top of the string beside it, along the hole: cement outside the string can reach no higher.",
	beside((*well.Well).StimulatedTop, func(w *well.Well, str int, at units.MD, ref place.Ref) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(at-c.Top), units.MDLength, ref, c.Plan.Top.Ref)
	}))

// AbovePacker is cement above the packer.
var AbovePacker = rules.OfString("coverage.above_packer", rules.NumType(units.MDLength),
	"Cement above the packer outside the string it's set in, along the hole, without a gap; below zero the cement begins under the packer, so that a leak of the string below it finds an open annulus. Not for a tie-back, round which another string stands.",
	beside((*well.Well).PackerIn, above))

// beside measures from a depth in a string.
func beside(find func(*well.Well, int) (units.MD, place.Ref, error), measure func(*well.Well, int, units.MD, place.Ref) rules.Measure) func(*well.Well, int) rules.Measure {
	return func(w *well.Well, str int) rules.Measure {
		at, ref, err := find(w, str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return measure(w, str, at, ref)
	}
}

// BondLog is whether a log of the cement is planned.
var BondLog = rules.OfString("coverage.bond_log_planned", rules.TruthType,
	"True when the top of cement of the string will be proven by a bond log.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		if !well.Cemented(s) {
			return rules.None("the string isn't cemented")
		}
		if !s.TopProvenBy.Known() {
			return rules.From(well.Lack(s.Ref, "how the top of cement of %s will be proven", s.Name.V), s.Ref)
		}
		return rules.Truth(s.TopProvenBy.V == "bond_log", s.TopProvenBy.Ref).With(s.TopProvenBy.V)
	})

// StrengthDayAndHalf is the strength of a slurry after a day and a half.
var StrengthDayAndHalf = aged("coverage.strength_36h", "36 hours", 36*hour)

// Hottest is the highest temperature of the well.
var Hottest = rules.OfWell("coverage.hottest", rules.NumType(units.Temperature), "Highest static or flowing temperature the plan states.",
	func(w *well.Well) rules.Measure {
		t, err := w.HottestStated()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		return rules.Num(float64(t.V), units.Temperature, t.Ref)
	})

// ShoeTestPressure is what a shoe test puts on the cement at the surface.
var ShoeTestPressure = rules.OfString("coverage.shoe_test_pressure", rules.NumType(units.Pressure),
	"Surface pressure of the strongest shoe test planned at the string: as stated, else (emw - fluid) g z at the shoe.",
	func(w *well.Well, str int) rules.Measure {
		p, t, err := w.ShoeTestPressure(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		m := rules.Num(float64(p), units.Pressure, t.Pressure.Ref, t.EMW.Ref, t.Ref).With(t.Name.V)
		z, _, err := w.ShoeTVD(str)
		if t.Pressure.Known() || err != nil {
			return m
		}
		return m.By(expr.Working{Formula: "(emw - fluid) * g * shoe", Inputs: []expr.Input{
			input("emw", t.EMW.V, units.Density, t.EMW.Ref), input("fluid", t.Fluid.V, units.Density, t.Fluid.Ref), input("shoe", z, units.TVDLength, 0)},
			Result: input("pressure", p, units.Pressure, 0), Source: "hydrostatics"})
	})
