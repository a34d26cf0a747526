package facts

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/well"
	"spudgate/rules"
)

func str(p *plan.Plan, s rules.Subject) *plan.String { return &p.Strings[s.String] }

// StringRole is what the string is for.
var StringRole = stated("string.role", rules.String, "Role of the string as stated: drive, conductor, surface, intermediate, production, drilling_liner, production_liner, tie_back, scab_liner.", "the role of the string", "",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		return str(p, s).Role, str(p, s).Ref
	})

// StringSetBy is how the string gets to depth.
var StringSetBy = stated("string.set_by", rules.String, "How the string gets to depth: drilled, driven, jetted, augered; drilled where the plan is silent.", "", "drilled",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		return str(p, s).SetBy, str(p, s).Ref
	})

// StringLiner is whether the string hangs inside another.
var StringLiner = fact("string.liner", rules.String, "True for a drilling, production or scab liner.",
	func(w *well.Well, s rules.Subject) bool { return well.IsLiner(str(w.Plan, s)) })

// StringCemented is whether the string is cemented.
var StringCemented = fact("string.cemented", rules.String, "True unless the plan says the string isn't cemented, or it's driven or jetted.",
	func(w *well.Well, s rules.Subject) bool { return well.Cemented(str(w.Plan, s)) })

// StringExisting is whether the string is in the well already.
var StringExisting = fact("string.existing", rules.String, "True for a string that is in the well already: life loads only.",
	func(w *well.Well, s rules.Subject) bool { return str(w.Plan, s).Existing.V })

// StringContingent is whether the string is run only if needed.
var StringContingent = fact("string.contingent", rules.String, "True for a string run only if needed; it's judged alone and breaks no chain.",
	func(w *well.Well, s rules.Subject) bool { return str(w.Plan, s).Contingent.V })

// StringReaches is whether the string comes up to the wellhead.
var StringReaches = fact("string.reaches_wellhead", rules.String, "True for a string that comes up to the wellhead.",
	func(w *well.Well, s rules.Subject) bool { return w.ReachesWellhead(s.String) })

// StringDrilledBelow is whether a later hole is drilled through the string.
var StringDrilledBelow = fact("string.drilled_below", rules.String, "True when a later hole is drilled while the string is exposed to it.",
	func(w *well.Well, s rules.Subject) bool { return len(w.Exposures(s.String)) > 0 })

// StringCarriesBOP is whether pressure control stands on the string.
var StringCarriesBOP = fact("string.carries_bop", rules.String, "True when a BOP stands on the string: named by a section or a stack, or the string that reaches the wellhead when a section with a BOP is drilled.",
	func(w *well.Well, s rules.Subject) bool { return w.CarriesBOP(s.String) })

// StringProduction is whether the string's inside faces the tubing annulus or
// produced fluid.
var StringProduction = fact("string.production_exposure", rules.String, "True when some length of the string faces the tubing annulus or produced fluid: production casing, tie-back, production liner, and with no tie-back the liner's parent from wellhead to liner top.",
	func(w *well.Well, s rules.Subject) bool { return w.ProductionExposed(s.String) })
