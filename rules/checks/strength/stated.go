package strength

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// over is a check of how far a stated rating lies over the published one.
func over(name, which, doc string) *rules.Check {
	return &rules.Check{Name: name, About: rules.Segment, Type: number,
		Doc: "Stated " + doc + " over the published one, less 1. Published: API TR 5C3, new pipe, as the standard's tables print it. Maker's own pipe is left out.",
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			r, err := w.StatedRating(s.String, s.Segment, which)
			if err != nil {
				return rules.From(err, s.Ref)
			}
			show := func(v float64) string { return units.Show(v, r.Dim, w.Plan.System, false) }
			text := "stated " + show(r.Stated) + ", published " + show(r.Published)
			if r.Note != "" {
				text += "; " + r.Note
			}
			return rules.Num(r.Over(), units.None, r.Ref, s.Ref).With(text).By(
				expr.Working{Formula: "stated / published - 1", Source: "stated rating against the published one", Result: expr.Input{Name: "over", SI: r.Over()},
					Inputs: []expr.Input{{Name: "stated", SI: r.Stated, Dim: r.Dim, Ref: r.Ref}, {Name: "published", SI: r.Published, Dim: r.Dim}}})
		}}
}

// StatedCollapse is how far stated collapse lies over the published one.
var StatedCollapse = over("rating.collapse_stated_over_computed", well.RatingCollapse, "collapse rating")

// StatedInternal is how far stated internal yield lies over the published one.
var StatedInternal = over("rating.internal_stated_over_computed", well.RatingInternal, "internal yield, the least of body, coupling and leak resistance,")

// StatedBody is how far stated body yield lies over the published one.
var StatedBody = over("rating.body_stated_over_computed", well.RatingBody, "body yield")

// StatedJoint is how far stated joint strength lies over the published one.
var StatedJoint = over("rating.joint_stated_over_computed", well.RatingJoint, "joint strength")

// TestOverYield is how much of internal yield a pressure test takes up.
var TestOverYield = &rules.Check{Name: "test.over_internal_yield", About: rules.Test, Type: number,
	Doc: "Greatest share of internal yield that a pressure test takes up: at every depth of every string it acts on, surface pressure and fluid inside less the burst back-up outside, over the weakest of body, coupling, leak resistance and stated rating, less wear and heat.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		r, err := w.OverInternalYield(s.Test)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		if r.Least == nil {
			return least(r, s)
		}
		l := r.Least
		refs := append(append(r.Least.Refs(), r.Refs...), s.Ref)
		m := rules.Num(l.Load/l.Rating, units.None, refs...).Where(l.At).With(note(r)).By(r.Working...)
		m.Gaps = r.Gaps
		return m.By(expr.Working{Formula: "load / rating", Source: "share of internal yield taken up", Result: expr.Input{Name: "share", SI: l.Load / l.Rating},
			Inputs: []expr.Input{{Name: "load", SI: l.Load, Dim: units.Pressure}, {Name: "rating", SI: l.Rating, Dim: units.Pressure}}})
	}}
