package running

import (
	"fmt"
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// TallyOff is how far a tally is from the length of its string.
var TallyOff = rules.OfString("running.tally_off", rules.NumType(units.Length),
	"Lengths of the tally added up, less the stick-up stated, against shoe less top along the hole; without sign. A stick-up below nothing or of more than a joint (the longest of the range ordered, 40 ft without one) isn't taken off, and is missing.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		sum, err := w.TallyOff(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		m := rules.Num(math.Abs(float64(sum.Off)), units.Length, stated(s.Tally[0].Length.Ref, s.Shoe.Ref, s.StickUp.Ref)...).
			With(tallyNote(w, sum)).
			By(less("hung", input("tally", sum.Length, units.Length, s.Tally[0].Ref), input("stick_up", sum.StickUp, units.Length, s.StickUp.Ref), "lengths added up"),
				less("off", input("hung", sum.Length-sum.StickUp, units.Length, 0), input("string", sum.String, units.Length, s.Shoe.Ref), "against shoe less top"))
		m.Gaps = []expr.Lack(sum.Missing)
		return m
	})

func tallyNote(w *well.Well, sum well.Sum) string {
	note := "the tally is longer than the string"
	switch off := fine(w, sum.Off); {
	case off == fine(w, units.Meters(0)):
		note = "the tally adds up to the string"
	case sum.Off < 0:
		note = "the tally is shorter than the string"
	}
	if sum.Missing != nil {
		note += "; the stick-up stated isn't taken off"
	}
	return note
}

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
				fine(w, l.Planned), fine(w, l.Row.From), fine(w, l.Row.To)))
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
		rows := "row"
		if len(found) > 1 {
			rows = "rows"
		}
		return rules.Truth(false, found[0].Refs...).With(fmt.Sprintf("%s (%d %s)", found[0].Text, len(found), rows))
	})
