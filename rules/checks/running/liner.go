package running

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// OnRunningString is the load on the pipe a liner is run on over its rating.
var OnRunningString = rules.OfString("running.on_running_string", rules.NumType(units.None),
	"Load at the top of the pipe a liner is run on over its stated tension rating: liner and pipe buoyed, vertical components, the drag of both, overpull. Block left out.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		l, err := w.OnRunningString(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		load := input("load", l.Load, units.Force, 0)
		sum := expr.Working{Formula: "liner + pipe + drag + overpull", Inputs: []expr.Input{
			input("liner", l.Liner, units.Force, 0), input("pipe", l.Pipe, units.Force, s.RunningStringWeight.Ref),
			input("drag", l.Drag, units.Force, s.Drag.Ref), input("overpull", l.Overpull, units.Force, s.Overpull.Ref)}, Result: load, Source: "what hangs at the rotary"}
		step := over(load, input("rating", l.Rating, units.Force, l.Ref), "load over rating as stated")
		return rules.Num(step.Result.SI, units.None, stated(l.Ref, s.RunningStringWeight.Ref, s.Overpull.Ref)...).By(sum, step)
	})

// OnHanger is a liner's weight over the rating of its hanger.
var OnHanger = rules.OfString("running.on_hanger", rules.NumType(units.None),
	"Buoyed weight of a liner, vertical component, full of the mud it is run in, over the tension rating stated for its hanger. The bump isn't in it: where a hanger is set before it, bump pressure on the bore where the plug lands pulls on it too, and the note says how much.",
	func(w *well.Well, str int) rules.Measure {
		l, err := w.OnHanger(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		step := over(input("weight", l.Load, units.Force, 0), input("rating", l.Rating, units.Force, l.Ref), "buoyed weight over rating as stated")
		m := rules.Num(step.Result.SI, units.None, stated(l.Ref, l.BumpRef)...).By(step)
		if l.Bump > 0 {
			m = m.With("the bump isn't counted: it adds " + show(w, l.Bump, units.Force) + " where the hanger is set before it")
		}
		return m
	})

// RunningStringOver is how much pipe there is to reach a liner's top.
var RunningStringOver = rules.OfString("running.running_string_over", rules.NumType(units.Length),
	"Length of pipe on the rig to run a liner on less the depth of the liner's top along the hole; below zero it doesn't reach.",
	func(w *well.Well, str int) rules.Measure {
		over, ref, err := w.RunningStringOver(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(over), units.Length, stated(ref, w.Plan.Strings[str].Top.Ref)...)
	})

// HangerSets is how far a cement job stays from setting the liner's hanger.
var HangerSets = &rules.Check{Name: "running.hanger_spare", About: rules.Stage, Type: rules.NumType(units.Pressure),
	Doc: "Setting pressure stated for a liner's hanger less the greatest pressure across it while its cement is pumped: head and column inside, less the column outside, at the liner's top. Friction counted where every rheology and rate is given, that of the pipe the liner is run on not taken off. The bump isn't in it.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		e, err := w.HangerSets(s.String, s.Stage)
		if err != nil {
			return rules.From(err, w.Plan.Strings[s.String].Stages[s.Stage].Ref)
		}
		note := "columns standing still, friction isn't known"
		if e.Moving {
			note = "friction counted"
		}
		step := less("spare", input("sets", e.Sets, units.Pressure, e.Ref), input("across", e.Across, units.Pressure, 0), "job followed volume by volume")
		return rules.Num(step.Result.SI, units.Pressure, stated(e.Ref)...).With(note).By(step)
	}}

// LapOnSeal is a lap test over the rating of the packer at the liner's top.
var LapOnSeal = rules.OfString("running.lap_test_on_packer", rules.NumType(units.None),
	"Strongest pressure test of a liner's lap across the packer at its top, over its stated differential rating: test pressure and the fluid in the hole above, the mud the liner was run in below.",
	func(w *well.Well, str int) rules.Measure {
		o, err := w.LapOnSeal(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		if o.Across <= 0 {
			return rules.Measure{Unloaded: "the mud below outweighs test and fluid above", Refs: stated(o.Test.Pressure.Ref, o.Ref)}
		}
		step := over(input("across", o.Across, units.Pressure, o.Test.Pressure.Ref), input("rating", o.Rating, units.Pressure, o.Ref), "pressure across it over rating as stated")
		return rules.Num(step.Result.SI, units.None, stated(o.Test.Pressure.Ref, o.Ref)...).With(o.Test.Name.V + " on " + o.Seal).By(step)
	})
