package control

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// SurfacePressure is what the BOP may see while a hole is drilled.
var SurfacePressure = rules.OfHole("control.surface_pressure", rules.NumType(units.Pressure),
	"Anticipated surface pressure while drilling, gauge: the lesser of max over the open hole of (pore pressure, high estimate, less a gas column) and of (fracture pressure at the shoe, high estimate, plus the basis's allowance, less a gas column). Gas column as the basis says (the one giving more at the top); subsea at the mudline. Not applicable where the formations are listed completely, none in the hole can flow oil or gas and the well isn't exploration. Rabia, Well Engineering and Construction, ch. 5.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		p, err := w.DrillingSurfacePressure(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return surface(w, p)
	})

// AnticipatedBelow is the greatest of those a string is open to.
var AnticipatedBelow = rules.OfString("control.anticipated_below", rules.NumType(units.Pressure),
	"Greatest anticipated surface pressure while drilling of the later holes the string stays open to; see control.surface_pressure.",
	func(w *well.Well, str int) rules.Measure {
		p, h, err := w.AnticipatedBelow(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		m := surface(w, p)
		m.Note += ", drilling " + h.Plan.Name.V
		return m
	})

// ProductionPressure is what the wellhead may see in production.
var ProductionPressure = rules.OfWell("control.production_pressure", rules.NumType(units.Pressure),
	"Anticipated surface pressure in production, gauge: shut-in tubing pressure as stated, else initial reservoir pressure less a gas column as the basis says. No shoe relieves it.",
	func(w *well.Well) rules.Measure {
		p, err := w.ProductionSurfacePressure()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		return surface(w, p)
	})

func surface(w *well.Well, p well.SurfacePressure) rules.Measure {
	m := rules.Num(float64(p.P), units.Pressure, p.Refs...).With(p.Bound)
	if p.At > 0 {
		m.At = well.AtTVD(p.At, p.Bound)
	}
	if !p.HasShoe {
		return m
	}
	return m.By(expr.Working{Formula: "lesser(from_pore, from_shoe)",
		Inputs: []expr.Input{stress("from_pore", p.FromPore, 0), stress("from_shoe", p.FromShoe, 0)},
		Result: stress("anticipated", p.P, 0), Source: "the lesser bound governs"})
}

// WellheadLeast is the weakest part of the wellhead on a string.
var WellheadLeast = rules.OfString("control.wellhead_least", rules.NumType(units.Pressure),
	"Lowest rated working pressure of the casing head, spool, hanger and seal on the string.",
	func(w *well.Well, str int) rules.Measure { return component(w.WellheadLeast(str)) })

// ProductionLeast is the weakest of tubing head and tree.
var ProductionLeast = rules.OfWell("control.tree_least", rules.NumType(units.Pressure),
	"Lowest rated working pressure of tubing head and tree.",
	func(w *well.Well) rules.Measure { return component(w.ProductionLeast()) })

func component(c well.Component, err error) rules.Measure {
	if err != nil {
		return rules.From(err)
	}
	return rules.Num(float64(c.Rating), units.Pressure, c.Ref).With(c.Name)
}

// StandsOnCemented is whether the BOP has a string to stand on.
var StandsOnCemented = rules.OfHole("control.stands_on_cemented", rules.TruthType,
	"True when the string the BOP of the section stands on reaches the wellhead and is cemented: the string named, else the innermost one in the well then that reaches the wellhead.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		i := w.Carrier(h)
		if i < 0 {
			return rules.Truth(false, h.Plan.Ref).With("no string reaches the wellhead before the section is drilled")
		}
		s := &w.Plan.Strings[i]
		ok := w.ReachesWellhead(i) && well.Cemented(s)
		return rules.Truth(ok, h.Plan.CarriedBy.Ref, s.Ref).With(s.Name.V)
	})

// OpenToPressure is whether a string may see surface pressure from a later
// hole.
var OpenToPressure = rules.OfString("control.open_to_pressure", rules.TruthType,
	"True when the string stays open to a later hole that is drilled with a BOP and may show pressure at the surface.",
	func(w *well.Well, str int) rules.Measure {
		_, _, err := w.AnticipatedBelow(str)
		why, none := err.(well.Absent)
		return rules.Truth(!none, w.Plan.Strings[str].Ref).With(string(why))
	})

// UnderBOP is whether a section is drilled with a BOP.
var UnderBOP = rules.OfHole("control.under_bop", rules.TruthType,
	"True when the section is drilled with a BOP, at the surface or subsea: as stated, else where a stack is named for it.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		c := h.Plan.PressureControl
		if c.Known() {
			return rules.Truth(c.V == "bop_surface" || c.V == "bop_subsea", c.Ref)
		}
		if i := w.StackOf(h); i >= 0 && w.Plan.SectionIndex(w.Plan.BOPs[i].Section.V) == h.Section {
			return rules.Truth(true, w.Plan.BOPs[i].Ref).With(w.Plan.BOPs[i].Name.V + " is named for it")
		}
		return rules.From(well.Lack(h.Plan.Ref, "what pressure control %s is drilled with", h.Plan.Name.V))
	})
