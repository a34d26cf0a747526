package running

import (
	"spudgate/plan"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// ByMark is whether a joint that is made up by position is planned so.
var ByMark = &rules.Check{Name: "running.made_by_position", About: rules.Segment, Type: rules.TruthType,
	Doc: "True where the plan makes buttress thread, or round thread of 16 in and more, up by position; false where it gives a torque alone (API RP 5C1: such threads have no optimum torque).",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		seg := segment(w, s)
		ok, err := w.MadeByMark(s.String, s.Segment)
		if err != nil {
			return rules.From(err, seg.Ref)
		}
		return rules.Truth(ok, stated(seg.MadeUpBy.Ref, seg.Torque.Ref, seg.Connection.Ref)...)
	}}

// LeastTorque is planned torque over the least one of large round thread.
var LeastTorque = &rules.Check{Name: "running.torque_over_least", About: rules.Segment, Type: rules.NumType(units.None),
	Doc: "Planned make-up torque over the least one of round thread of 16 in and more: 75 % of 1 % of pull-out strength (API RP 5C1, from memory). Such thread has no optimum and no greatest torque.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		seg := segment(w, s)
		least, steps, err := w.LeastTorque(s.String, s.Segment)
		if err != nil {
			return rules.From(err, seg.Ref)
		}
		if !seg.Torque.Known() {
			return rules.From(well.Lack(seg.Ref, "the make-up torque of %s", seg.Label()), seg.Ref)
		}
		step := over(input("torque", seg.Torque.V, units.Torque, seg.Torque.Ref), input("least", least, units.Torque, 0), "planned over least")
		return rules.Num(step.Result.SI, units.None, seg.Torque.Ref).With("least " + show(w, least, units.Torque)).By(append(steps, step)...)
	}}

// MakerTorque is the torque planned for a maker's own connection.
var MakerTorque = ofMaker("running.maker_torque", "Make-up torque planned for a maker's own connection.", "the make-up torque of %s",
	func(g *plan.Segment) plan.Val[units.NewtonMeters] { return g.Torque })

// MakerTorqueLeast is the least torque of the maker.
var MakerTorqueLeast = ofMaker("running.maker_torque_least", "Least make-up torque of a maker's own connection, as the plan gives it.", "the maker's least make-up torque of %s",
	func(g *plan.Segment) plan.Val[units.NewtonMeters] { return g.TorqueMin })

// MakerTorqueMost is the greatest torque of the maker.
var MakerTorqueMost = ofMaker("running.maker_torque_most", "Greatest make-up torque of a maker's own connection, as the plan gives it.", "the maker's greatest make-up torque of %s",
	func(g *plan.Segment) plan.Val[units.NewtonMeters] { return g.TorqueMax })

func ofMaker(name, doc, lack string, of func(*plan.Segment) plan.Val[units.NewtonMeters]) *rules.Check {
	return &rules.Check{Name: name, About: rules.Segment, Type: rules.NumType(units.Torque), Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			seg := segment(w, s)
			if err := w.MakersOwn(s.String, s.Segment); err != nil {
				return rules.From(err, seg.Ref)
			}
			v := of(seg)
			if !v.Known() {
				return rules.From(well.Lack(seg.Ref, lack, seg.Label()), seg.Ref)
			}
			return rules.Num(float64(v.V), units.Torque, v.Ref)
		}}
}

func segment(w *well.Well, s rules.Subject) *plan.Segment {
	return &w.Plan.Strings[s.String].Segments[s.Segment]
}
