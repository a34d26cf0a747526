package facts

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/well"
	"spudgate/rules"
)

func sec(p *plan.Plan, s rules.Subject) *plan.Section { return &p.Sections[s.Section] }

// SectionReturns is where the mud comes back.
var SectionReturns = stated("section.returns", rules.Section, "Where the mud comes back: rig, seabed, none; rig where the plan is silent.", "", "rig",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		return sec(p, s).Returns, sec(p, s).Ref
	})

// SectionDrilled is how bottom-hole pressure is held.
var SectionDrilled = stated("section.drilled", rules.Section, "How bottom-hole pressure is held: overbalanced, managed, underbalanced, air; overbalanced where the plan is silent.", "", "overbalanced",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		return sec(p, s).Drilled, sec(p, s).Ref
	})

// SectionControl is what stands on the well while the section is drilled.
var SectionControl = stated("section.pressure_control", rules.Section, "What stands on the well while the section is drilled: none, diverter, bop_surface, bop_subsea; as stated.", "what pressure control the section is drilled with", "",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		return sec(p, s).PressureControl, sec(p, s).Ref
	})

// SectionFlows is whether a zone of the section can flow.
var SectionFlows = fact("section.can_flow", rules.Section, "True when a formation in the section can flow into the well.",
	func(w *well.Well, s rules.Subject) bool {
		h := hole(w, s)
		if h == nil {
			return false
		}
		for _, i := range w.OpenHoleZones(h) {
			if flows, _ := w.CanFlow(i); flows {
				return true
			}
		}
		return false
	})

func hole(w *well.Well, s rules.Subject) *well.Hole {
	hs := w.Holes()
	for i := range hs {
		if hs[i].Section == s.Section {
			return &hs[i]
		}
	}
	return nil
}
