// Package facts holds the checks that state what a plan says of a subject:
// roles, settings, yes-or-no facts that conditions are made of.
package facts

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/well"
	"spudgate/rules"
)

var (
	text  = expr.Type{Kind: expr.Text}
	truth = expr.Type{Kind: expr.Truth}
)

// stated is a check of a text the plan states; def is the stated convention
// where the plan is silent, or empty where silence is a missing input.
func stated(name string, about rules.Kind, doc, input, def string, get func(*plan.Plan, rules.Subject) (plan.Val[string], place.Ref)) *rules.Check {
	return &rules.Check{Name: name, About: about, Type: text, Doc: doc, Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		v, at := get(w.Plan, s)
		switch {
		case v.Known():
			return rules.Text(v.V, v.Ref)
		case def != "":
			return rules.Text(def, at)
		}
		return rules.Lacking([]place.Ref{at}, expr.Lack{Input: input, Ref: at})
	}}
}

// fact is a check that is true or false of every subject of its kind.
func fact(name string, about rules.Kind, doc string, holds func(*well.Well, rules.Subject) bool) *rules.Check {
	return &rules.Check{Name: name, About: about, Type: truth, Doc: doc, Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		return rules.Truth(holds(w, s), s.Ref)
	}}
}

// WellSetting is onshore or offshore.
var WellSetting = stated("well.setting", rules.Well, "Setting of the well: onshore, offshore_surface_bop, offshore_subsea_bop; as stated.", "the setting of the well", "",
	func(p *plan.Plan, _ rules.Subject) (plan.Val[string], place.Ref) { return p.Well.Setting, p.Well.Ref })

// WellPurpose is what the well is for.
var WellPurpose = stated("well.purpose", rules.Well, "Purpose of the well: oil, gas, injection, disposal, geothermal, storage, water; as stated.", "the purpose of the well", "",
	func(p *plan.Plan, _ rules.Subject) (plan.Val[string], place.Ref) { return p.Well.Purpose, p.Well.Ref })

// WellClass is how well its pressures are known.
var WellClass = stated("well.class", rules.Well, "Class of the well: exploration, appraisal, development; as stated.", "the class of the well", "",
	func(p *plan.Plan, _ rules.Subject) (plan.Val[string], place.Ref) { return p.Well.Class, p.Well.Ref })

// WellHydrocarbon is whether any formation of the plan can flow oil or gas.
var WellHydrocarbon = fact("well.hydrocarbon", rules.Well, "True when a formation of the plan can flow oil or gas, or the well is exploration.",
	func(w *well.Well, _ rules.Subject) bool {
		for i := range w.Plan.Formations {
			if flows, hc := w.CanFlow(i); flows && hc {
				return true
			}
		}
		return w.Plan.Well.Class.V == "exploration"
	})

// WellLarge is whether the programme is large.
var WellLarge = fact("well.large_programme", rules.Well, "True for a large programme: offshore or four strings and more, with an outermost string of 30 in and more (common practice, no source).",
	func(w *well.Well, _ rules.Subject) bool {
		offshore := len(w.Plan.Well.Setting.V) > 8 && w.Plan.Well.Setting.V[:8] == "offshore"
		return (offshore || len(w.InOrder()) >= 4) && outermost(w) >= 30*0.0254-1e-4
	})

// outermost is the OD of the outermost string, m; zero where it isn't known.
func outermost(w *well.Well) float64 {
	for _, i := range w.InOrder() {
		if segs := w.Plan.Strings[i].Segments; len(segs) > 0 {
			return float64(segs[0].OD.V)
		}
	}
	return 0
}
