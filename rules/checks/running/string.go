package running

import (
	"strings"

	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// SizeCrossover is whether a crossover stands at each change of OD.
var SizeCrossover = crossover("running.size_crossover", "True when a crossover of the plan stands within 50 ft of every place where the OD of the string changes.", (*well.Well).SizeChanges)

// ThreadCrossover is whether a crossover stands at each change of thread.
var ThreadCrossover = crossover("running.thread_crossover", "True when a crossover of the plan stands within 50 ft of every place where the thread changes and the OD doesn't. Short and long round thread are one thread.", (*well.Well).ThreadChanges)

func crossover(name, doc string, find func(*well.Well, int) ([]well.Change, error)) *rules.Check {
	return rules.OfString(name, rules.TruthType, doc, func(w *well.Well, str int) rules.Measure {
		list, err := find(w, str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		var without []string
		var refs []place.Ref
		for _, c := range list {
			if !c.Crossover {
				without = append(without, c.Upper.Plan.Label()+" to "+c.Lower.Plan.Label()+" at "+show(w, c.MD, units.MDLength))
				refs = append(refs, stated(c.Lower.Plan.Connection.Ref, c.Lower.Plan.OD.Ref)...)
			}
		}
		if without == nil {
			return rules.Truth(true, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(false, refs...).With("no crossover from " + strings.Join(without, ", from "))
	})
}

// BoreStep is how far the bore of a string changes under its plugs.
var BoreStep = rules.OfString("running.bore_step", rules.NumType(units.None),
	"Widest nominal bore of a string over its narrowest, less one, from its top to the collar its plug lands on; not where no plug goes down it.",
	func(w *well.Well, str int) rules.Measure {
		part, wide, narrow, err := w.BoreStep(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		m := rules.Num(float64(part), units.None, stated(wide.Plan.OD.Ref, narrow.Plan.OD.Ref)...)
		if wide != narrow {
			m = m.With(wide.Plan.Label() + " and " + narrow.Plan.Label())
		}
		return m
	})

// AccessoryBore is what accessories leave of the drift of their pipe.
var AccessoryBore = rules.OfString("running.accessory_bore", rules.NumType(units.None),
	"Bore of an accessory of the string, as stated, over the drift of the pipe it stands in; the least. Where two pipes meet, the lower one.",
	func(w *well.Well, str int) rules.Measure {
		part, a, err := w.AccessoryBore(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(part), units.None, stated(a.Bore.Ref)...).Where(w.AtMD(a.Depth.V, a.Name.V)).With(a.Name.V + " governs")
	})

// WearAllowed is whether wear is allowed for where pipe is said to turn.
var WearAllowed = rules.OfString("running.wear_allowed", rules.TruthType,
	"True when the plan takes a part of the wall off for wear in some pipe of a string that later holes are drilled through, and says for how many hours pipe turns in it.",
	func(w *well.Well, str int) rules.Measure {
		ok, hours, refs, err := w.WearAllowed(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(ok, refs...).With("pipe turns in it for " + show(w, hours, units.Time))
	})

// Speed is how fast a string is run at most.
var Speed = rules.OfString("running.speed", rules.NumType(units.Speed),
	"Highest running speed: stated, else 1.5 times the average.",
	func(w *well.Well, str int) rules.Measure {
		s, err := w.HighestSpeed(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		note := "peak, 1.5 times the average planned"
		if s.Peak {
			note = "peak, as stated"
		}
		return rules.Num(float64(s.Speed), units.Speed, s.Ref).With(note)
	})

// AllowedSpeed is how fast a string may be run.
var AllowedSpeed = rules.OfString("running.allowed_speed", rules.NumType(units.Speed),
	"Greatest running speed at which mud column and surge don't exceed fracture pressure, low estimate, anywhere in open hole with the string near bottom; as placement.surge_spare, to 1 mm/s, looked for up to 5 m/s.",
	func(w *well.Well, str int) rules.Measure {
		s, most, err := w.AllowedSpeed(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		note := "the rock breaks first where it says"
		if most {
			note = "no faster was looked for, nothing breaks"
		}
		return rules.Num(float64(s.Fastest), units.Speed, stated(s.RockMargin.Ref)...).Where(w.AtMD(s.MD, "where the rock is weakest")).With(note)
	})

// LineTest is by how much the cementing line is tested over what it will see.
var LineTest = rules.OfString("running.line_test_over", rules.NumType(units.Pressure),
	"Test pressure of the cementing line less the greatest surface pressure of the string's jobs: while pumping, friction counted where every rheology and rate is given, or at the bump as stated.",
	func(w *well.Well, str int) rules.Measure {
		rig := &w.Plan.Rig
		most, err := w.MostPumped(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		if !rig.LineTest.Known() {
			return rules.From(well.Lack(rig.Ref, "the test pressure of the cementing line"), rig.Ref)
		}
		note := "greatest while pumping, columns standing still"
		switch {
		case most.Bump:
			note = "greatest at the bump"
		case most.Moving:
			note = "greatest while pumping, friction counted"
		}
		step := less("over", input("test", rig.LineTest.V, units.Pressure, rig.LineTest.Ref), input("expected", most.Pressure, units.Pressure, most.Ref), "line test over the highest pressure expected")
		return rules.Num(step.Result.SI, units.Pressure, stated(rig.LineTest.Ref, most.Ref)...).With(note).By(step)
	})

// LineTestOnRating is the line test over the weakest rating it reaches.
var LineTestOnRating = rules.OfWell("running.line_test_on_rating", rules.NumType(units.None),
	"Test pressure of the cementing line over its rating as stated.",
	func(w *well.Well) rules.Measure {
		rig := &w.Plan.Rig
		switch {
		case !rig.LineTest.Known():
			return rules.None("no test pressure of the cementing line is stated")
		case !rig.LinePressure.Known() || rig.LinePressure.V <= 0:
			return rules.From(well.Lack(rig.Ref, "the rating of the cementing line"), rig.Ref)
		}
		step := over(input("test", rig.LineTest.V, units.Pressure, rig.LineTest.Ref), input("rating", rig.LinePressure.V, units.Pressure, rig.LinePressure.Ref), "test over rating")
		return rules.Num(step.Result.SI, units.None, rig.LineTest.Ref, rig.LinePressure.Ref).By(step)
	})
