package running

import (
	"fmt"
	"math"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// TallyOff is how far a tally is from the length of its string.
var TallyOff = rules.OfString("running.tally_off", rules.NumType(units.Length),
	"Lengths of the tally added up, less the stick-up stated, against shoe less top along the hole; without sign.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		off, t, err := w.TallyOff(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		word := "longer"
		if off < 0 {
			word = "shorter"
		}
		length := t.Length - s.StickUp.V - off
		left := t.Length - s.StickUp.V
		return rules.Num(math.Abs(float64(off)), units.Length, stated(s.Tally[0].Length.Ref, s.Shoe.Ref, s.StickUp.Ref)...).
			With("the tally is "+word+" than the string").
			By(less("hung", input("tally", t.Length, units.Length, s.Tally[0].Ref), input("stick_up", s.StickUp.V, units.Length, s.StickUp.Ref), "lengths added up"),
				less("off", input("hung", left, units.Length, 0), input("string", length, units.Length, s.Shoe.Ref), "against shoe less top"))
	})

// TallyJoints is joints of the tally over those planned.
var TallyJoints = rules.OfString("running.tally_joints_over", rules.NumType(units.None),
	"Joints of the tally less the joints planned over the segments of the string; pup joints and accessories aren't counted.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		n, planned, err := w.JointsOver(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Num(float64(n), units.None, stated(s.Tally[0].Ref, s.Segments[0].Joints.Ref)...).
			With(fmt.Sprintf("%d in the tally, %d planned", n+planned, planned))
	})

// TallyCentralizers is centralizers that the tally leaves out.
var TallyCentralizers = rules.OfString("running.tally_centralizers_short", rules.NumType(units.None),
	"Centralizers the plan lists by interval less those the tally puts on joints.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		n, listed, err := w.CentralizersShort(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Num(float64(n), units.None, stated(s.Tally[0].Ref, s.Centralizers[0].Ref)...).
			With(fmt.Sprintf("%d in the tally, %d listed", listed-n, listed))
	})

// TallyLands is how far the tally puts equipment from where the plan has it.
var TallyLands = rules.OfString("running.tally_lands_off", rules.NumType(units.Length),
	"Greatest distance along the hole between where the plan has a float, landing, stage or flotation collar, a crossover, or a liner's hanger or packer, and the row of the tally of that name, its lower end at the shoe; zero within the row.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		l, unnamed, err := w.FarthestLanded(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		m := rules.Num(float64(l.Off), units.Length, stated(l.Row.Plan.Ref, l.Ref)...).Where(w.AtMD(l.Row.To, l.Name)).
			With(fmt.Sprintf("%s: planned at %s, the tally puts it from %s to %s", l.Name,
				show(w, l.Planned, units.MDLength), show(w, l.Row.From, units.MDLength), show(w, l.Row.To, units.MDLength)))
		m.Gaps = unnamed
		return m
	})

// TallyPipe is whether the tally runs the pipe that the plan has.
var TallyPipe = rules.OfString("running.tally_pipe", rules.TruthType,
	"True when every joint of the tally is of the OD, weight and grade of the plan's pipe where it comes to stand, as far as the tally tells them; a change may lie within 50 ft of the plan's.",
	func(w *well.Well, str int) rules.Measure {
		found, err := w.TallyPipe(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		if len(found) == 0 {
			return rules.Truth(true, w.Plan.Strings[str].Tally[0].Ref)
		}
		return rules.Truth(false, found[0].Refs...).With(fmt.Sprintf("%s (%d rows)", found[0].Text, len(found)))
	})
