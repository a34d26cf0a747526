package placement

import (
	"fmt"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Centralized is whether a zone has centralizers.
var Centralized = ofZone("placement.centralized", rules.TruthType,
	"True when centralizers are listed along the whole length of a zone in the hole of a string, within a joint of its ends.",
	func(w *well.Well, str, zone int) rules.Measure {
		ok, ref, err := w.CentralizedZone(str, zone)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(ok, refs(ref, w.Plan.Formations[zone].Ref)...)
	})

// Standoff is how well pipe stands off the wall across a zone.
var Standoff = ofZone("placement.standoff", rules.NumType(units.None),
	"Least standoff across a zone, at the centralizers listed there and in the middle between them: (gap - drop - sag)/gap, gap half of hole less pipe (ISO 10427-2, API RP 10D-2). Load of a span: buoyed weight across the hole and tension turned sideways by its curvature, in three dimensions; sag as a beam held at both ends, tension counted; drop of a rigid centralizer its play in the hole, of a bow in proportion to its restoring force at 67 %. Displacement inside, slurries outside; hole as the volumes count it.",
	func(w *well.Well, str, zone int) rules.Measure {
		s, err := w.ZoneStandoff(str, zone)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		where := "at a centralizer"
		if s.Between {
			where = "between centralizers"
		}
		return rules.Num(float64(s.Least), units.None, refs(s.Ref, w.Plan.Formations[zone].Ref)...).
			Where(w.AtMD(s.MD, where)).
			With(fmt.Sprintf("%s apart, %s on a span, sag %s", show(w, s.Spacing, units.MDLength), show(w, s.Load, units.Force), units.Show(float64(s.Sag), units.Length, w.Plan.System, true)))
	})

// Contact is how long spacers stand across a zone.
var Contact = ofZone("placement.contact", rules.NumType(units.Time),
	"Time from the leading to the trailing front of spacers and preflushes at the top of a zone, by the history of the job; free fall hurries it, and holds it while the pipe fills again. Not where the slurry does not come. The stage that leaves the string nearest below the zone."+way,
	func(w *well.Well, str, zone int) rules.Measure {
		s := &w.Plan.Strings[str]
		if !well.Cemented(s) || s.Existing.V {
			return rules.None("no cement is planned around the string")
		}
		at, _, ref, err := w.FormationTop(zone)
		if err != nil {
			return rules.From(err, w.Plan.Formations[zone].Ref)
		}
		if len(s.Stages) == 0 {
			return rules.From(well.Lack(s.Ref, "the cement slurries of %s", s.Name.V), s.Ref)
		}
		st := w.StageAt(str, at)
		t, err := w.FrontContact(str, st, at)
		if err != nil {
			return rules.From(err, s.Stages[st].Ref)
		}
		return rules.Num(float64(t), units.Time, refs(s.Stages[st].Ref, ref)...).Where(w.AtMD(at, "top of the zone"))
	})
