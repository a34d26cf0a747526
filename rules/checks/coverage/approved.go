package coverage

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Approved is whether an approval covers the string.
var Approved = rules.OfString("approved.named", rules.TruthType,
	"The approved baseline names the string. Not where the plan carries no approval.",
	func(w *well.Well, str int) rules.Measure {
		ok, ref, err := w.IsApproved(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(ok, ref)
	})

// ApprovedShoeAlong is a change of setting depth along the hole.
var ApprovedShoeAlong = rules.OfString("approved.shoe_moved", rules.NumType(units.MDLength),
	"Planned shoe against the approved one, along the hole, without sign. Not where the approval gives no depth along the hole.",
	moved((*well.Well).ShoeMovedAlong))

// ApprovedCement is a change of the top of cement for the worse.
var ApprovedCement = rules.OfString("approved.cement_lowered", rules.NumType(units.MDLength),
	"Planned top of cement below the approved one, along the hole; negative where it stands higher.",
	moved((*well.Well).CementLowered))

// moved dresses a change of depth as a measure.
func moved(of func(*well.Well, int) (units.MD, []place.Ref, error)) func(*well.Well, int) rules.Measure {
	return func(w *well.Well, str int) rules.Measure {
		d, refs, err := of(w, str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(d), units.MDLength, refs...)
	}
}

// ApprovedVertical is whether the approval of the string gives a true vertical
// depth.
var ApprovedVertical = rules.OfString("approved.vertical_depth", rules.TruthType,
	"The approval of the string gives the shoe's true vertical depth.",
	func(w *well.Well, str int) rules.Measure {
		a, err := w.Approval(str)
		if err != nil {
			return rules.Truth(false, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(a.ShoeTVD.Known(), a.ShoeTVD.Ref, a.Ref)
	})
