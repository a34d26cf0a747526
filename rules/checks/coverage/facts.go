package coverage

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// HoleOverPipe is the hole less the pipe.
var HoleOverPipe = rules.OfString("coverage.hole_over_pipe", rules.NumType(units.Length),
	"Diameter of the hole (bit, or reamed size) less the largest nominal OD of the pipe in it: the whole difference, couplings not counted. Not for a string that is driven or run in cased hole.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		h, err := w.HoleOf(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		bore, ref, err := h.Bore()
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		od, at := units.Meters(0), s.Ref
		for i := range s.Segments {
			g := &s.Segments[i]
			if !g.OD.Known() {
				return rules.From(well.Lack(g.Ref, "the OD of %s", s.Name.V))
			}
			if g.OD.V > od {
				od, at = g.OD.V, g.OD.Ref
			}
		}
		if od == 0 {
			return rules.From(well.Lack(s.Ref, "the pipe of %s", s.Name.V))
		}
		return rules.Num(float64(bore-od), units.Length, ref, at).
			By(less("over", input("hole", bore, units.Length, ref), input("pipe", od, units.Length, at), "diameters"))
	})

// flag is a fact a plan states or that follows from it.
func flag(name, doc string, holds func(w *well.Well, str int) bool) *rules.Check {
	return rules.OfString(name, rules.TruthType, doc, func(w *well.Well, str int) rules.Measure {
		return rules.Truth(holds(w, str), w.Plan.Strings[str].Ref)
	})
}

// Facts of strings.
var (
	Expanded = flag("coverage.expanded", "True for an expandable string.",
		func(w *well.Well, str int) bool { return w.Plan.Strings[str].Expanded.V })
	Riserless = flag("coverage.riserless", "True when the hole of the string is drilled with returns to the sea bed.",
		func(w *well.Well, str int) bool {
			h, err := w.HoleOf(str)
			return err == nil && h.Plan.Returns.V == "seabed"
		})
)

// HungInRole is what a liner hangs in.
var HungInRole = rules.OfString("coverage.hung_in_role", text, "Role of the string a liner hangs in, as stated. Not for other strings.",
	func(w *well.Well, str int) rules.Measure {
		i, err := w.Parent(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		s := &w.Plan.Strings[i]
		if !s.Role.Known() {
			return rules.From(well.Lack(s.Ref, "the role of %s", s.Name.V))
		}
		return rules.Text(s.Role.V, s.Role.Ref).With(s.Name.V)
	})

// AsConductor is whether a liner is the first string inside the drive pipe.
var AsConductor = rules.OfString("coverage.liner_as_conductor", rules.TruthType, "True for a liner that hangs in drive pipe and so takes a conductor's place. Not for other strings.",
	func(w *well.Well, str int) rules.Measure {
		i, err := w.Parent(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(w.Plan.Strings[i].Role.V == "drive", w.Plan.Strings[str].Role.Ref, w.Plan.Strings[i].Ref)
	})

// AnnulusBarriers is how many barriers an annulus has.
var AnnulusBarriers = barriers("coverage.annulus_barriers", "Barriers listed against flow up the annulus of the string.",
	func(string) bool { return true })

// MechanicalBarriers is how many of them aren't cement.
var MechanicalBarriers = barriers("coverage.mechanical_barriers", "Barriers listed against flow up the annulus of the string that are mechanical: neither cement nor a float.",
	func(kind string) bool { return kind != "cement" && kind != "float" })

func barriers(name, doc string, counts func(kind string) bool) *rules.Check {
	return rules.OfString(name, rules.NumType(units.None), doc, func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		n, listed, ref := 0, false, s.Ref
		for i := range w.Plan.Barriers {
			b := &w.Plan.Barriers[i]
			if w.Plan.StringIndex(b.String.V) != str {
				continue
			}
			listed, ref = true, b.Ref
			if !b.Kind.Known() {
				return rules.From(well.Lack(b.Ref, "what kind of barrier %s is", b.Name.V))
			}
			if counts(b.Kind.V) {
				n++
			}
		}
		if !listed {
			return rules.From(well.Lack(s.Ref, "the barriers of the annulus of %s", s.Name.V))
		}
		return rules.Num(float64(n), units.None, ref)
	})
}

// RotatingHours is how long pipe turns inside a string.
var RotatingHours = rules.OfString("coverage.rotating_hours", rules.NumType(units.Time),
	"Rotating time planned in the later holes the string stays open to, together. Not where none is drilled.",
	func(w *well.Well, str int) rules.Measure {
		v, ref, err := w.RotatingHours(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(v), units.Time, ref)
	})

// CementedStrings is how many strings are cemented.
var CementedStrings = rules.OfWell("coverage.cemented_strings", rules.NumType(units.None),
	"Cemented strings of the well, neither liners, tie-backs nor drive pipe; contingent strings aren't counted.",
	func(w *well.Well) rules.Measure {
		n := 0
		for _, i := range w.InOrder() {
			s := &w.Plan.Strings[i]
			if !s.Role.Known() {
				return rules.From(well.Lack(s.Ref, "the role of %s", s.Name.V))
			}
			if well.Cemented(s) && !well.IsLiner(s) && s.Role.V != "tie_back" && s.Role.V != "drive" {
				n++
			}
		}
		return rules.Num(float64(n), units.None, w.Plan.Well.Ref)
	})

func hasRole(name, role string) *rules.Check {
	return rules.OfWell(name, rules.TruthType, "True when a "+role+" string is planned, contingent ones aside.",
		func(w *well.Well) rules.Measure {
			for _, i := range w.InOrder() {
				if s := &w.Plan.Strings[i]; s.Role.V == role {
					return rules.Truth(true, s.Ref).With(s.Name.V)
				}
			}
			return rules.Truth(false, w.Plan.Well.Ref)
		})
}

// Strings a well has or hasn't.
var (
	HasConductor = hasRole("coverage.has_conductor", "conductor")
	HasSurface   = hasRole("coverage.has_surface", "surface")
)

// Depth is how deep the well is.
var Depth = rules.OfWell("coverage.well_depth", rules.NumType(units.MDLength), "Deepest end of a planned hole, along the hole.",
	func(w *well.Well) rules.Measure {
		md, ref, err := w.WellDepth()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		return rules.Num(float64(md), units.MDLength, ref)
	})

// Certified is whether a certificate goes with the plan.
var Certified = rules.OfWell("coverage.certificate_listed", rules.TruthType, "True when a certificate is among the documents that go with the plan.",
	func(w *well.Well) rules.Measure {
		for i := range w.Plan.Documents {
			if d := &w.Plan.Documents[i]; d.Kind.V == "certificate" {
				return rules.Truth(true, d.Ref).With(d.Name.V)
			}
		}
		return rules.Truth(false, w.Plan.Well.Ref)
	})

// Vertical is whether the well is planned vertical.
var Vertical = rules.OfWell("coverage.vertical", rules.TruthType,
	"True when the plan says the hole is vertical, or its path keeps within 5 degrees of it. Not known where neither is given. Common practice, no source.",
	func(w *well.Well) rules.Measure {
		if v := w.Plan.Well.Vertical; v.Known() {
			return rules.Truth(v.V, v.Ref)
		}
		if len(w.Plan.Survey) == 0 {
			return rules.From(well.Lack(w.Plan.Well.Ref, "the path, or that the hole is vertical"))
		}
		const upright = 0.08726646259971647 // rad, 5 degrees
		for i := range w.Plan.Survey {
			s := &w.Plan.Survey[i]
			if s.Inclination.Known() && float64(s.Inclination.V) > upright {
				return rules.Truth(false, s.Inclination.Ref)
			}
		}
		return rules.Truth(true, w.Plan.Survey[0].Ref)
	})

// BeforeSurface is whether a hole is drilled before surface casing is in.
var BeforeSurface = rules.OfHole("coverage.before_surface_casing", rules.TruthType,
	"True when no surface string is cemented in the well while the section is drilled and one is planned.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		hs := w.Holes()
		for i := range hs {
			s := hs[i].String
			if s >= 0 && w.Plan.Strings[s].Role.V == "surface" {
				return rules.Truth(h.Order <= hs[i].Order, h.Plan.Ref, w.Plan.Strings[s].Ref)
			}
		}
		return rules.Truth(false, h.Plan.Ref).With("no surface string is planned")
	})

// FreshMud is whether a hole is drilled with air or fresh water.
var FreshMud = rules.OfHole("coverage.fresh_mud", rules.TruthType,
	"True when the drilling fluid is air, fresh water or mud on fresh water. Not known where it is stated as water only.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		v := h.Plan.MudType
		switch {
		case !v.Known() && h.Plan.Drilled.V == "air":
			return rules.Truth(true, h.Plan.Drilled.Ref)
		case !v.Known():
			return rules.Lacking(nil, expr.Lack{Input: fmt.Sprintf("the base of the mud of %s", h.Plan.Name.V), Ref: h.Plan.Ref})
		case v.V == "water":
			return rules.Lacking(nil, expr.Lack{Input: fmt.Sprintf("whether the water of the mud of %s is fresh", h.Plan.Name.V), Ref: v.Ref})
		}
		return rules.Truth(v.V == "air" || v.V == "fresh_water", v.Ref)
	})
