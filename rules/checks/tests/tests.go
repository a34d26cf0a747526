// Package tests holds the checks of pressure tests: their pressures, how long
// they're held, and the weakest thing they reach.
package tests

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

func ofTest(name string, d units.Dim, doc string, measure func(w *well.Well, t *plan.Test) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Test, Type: rules.NumType(d), Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure { return measure(w, &w.Plan.Tests[s.Test]) }}
}

// CasingPressure is the test pressure of a string.
var CasingPressure = rules.OfString("test.casing_pressure", rules.NumType(units.Pressure),
	"Strongest casing test planned on the string, surface pressure, gauge; tests a plug keeps off the casing don't count.",
	func(w *well.Well, str int) rules.Measure { return strongest(w.CasingTest(str)) })

// LapPressure is the test pressure of a liner's lap.
var LapPressure = rules.OfString("test.lap_pressure", rules.NumType(units.Pressure),
	"Strongest pressure test planned of the liner's lap, surface pressure, gauge.",
	func(w *well.Well, str int) rules.Measure { return strongest(w.LapTest(str)) })

func strongest(p units.Pascals, t *plan.Test, err error) rules.Measure {
	if err != nil {
		return rules.From(err)
	}
	return rules.Num(float64(p), units.Pressure, t.Pressure.Ref).With(t.Name.V)
}

// LapPlanned is whether a liner's lap is tested at all.
var LapPlanned = rules.OfString("test.lap_planned", rules.TruthType,
	"True when a pressure or inflow test of the liner's lap is planned.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		if !well.IsLiner(s) {
			return rules.None("not a liner")
		}
		for _, t := range w.TestsOf(str, "liner_lap", "seal", "inflow") {
			return rules.Truth(true, t.Ref).With(t.Name.V)
		}
		return rules.Truth(false, s.Ref)
	})

// OverWeakest is a test pressure as a part of the weakest thing it reaches.
var OverWeakest = ofTest("test.over_weakest", units.None,
	"Surface pressure of the test over the lowest rating of what it reaches: wellhead on the string, accessories of the string with a rating, and the BOP on it, else the one it was run through. What has no rating stated is left out. The string itself is judged by its own check. Common practice, no source.",
	func(w *well.Well, t *plan.Test) rules.Measure {
		c, err := w.TestWeakest(t)
		if err != nil {
			return rules.From(err, t.Ref)
		}
		if !t.Pressure.Known() {
			return rules.From(well.Lack(t.Ref, "the pressure of %s", t.Name.V))
		}
		if c.Rating <= 0 {
			return rules.From(well.Lack(c.Ref, "a rating above zero of %s", c.Name))
		}
		over := float64(t.Pressure.V / c.Rating)
		return rules.Num(over, units.None, t.Pressure.Ref, c.Ref).With("weakest: " + c.Name).
			By(expr.Working{Formula: "pressure / rating", Inputs: []expr.Input{
				{Name: "pressure", SI: float64(t.Pressure.V), Dim: units.Pressure, Ref: t.Pressure.Ref},
				{Name: "rating", SI: float64(c.Rating), Dim: units.Pressure, Ref: c.Ref}},
				Result: expr.Input{Name: "used", SI: over}, Source: "part of the rating used"})
	})

// Held is how long a test is held.
var Held = ofTest("test.held", units.Time, "How long the test is held.",
	func(_ *well.Well, t *plan.Test) rules.Measure {
		if !t.Minutes.Known() {
			return rules.From(well.Lack(t.Ref, "the holding time of %s", t.Name.V))
		}
		return rules.Num(float64(t.Minutes.V), units.Time, t.Minutes.Ref)
	})

// Drop is the pressure drop a test allows.
var Drop = ofTest("test.drop", units.None, "Pressure drop allowed over the holding time, as a part of the test pressure.",
	func(_ *well.Well, t *plan.Test) rules.Measure {
		if !t.Drop.Known() {
			return rules.From(well.Lack(t.Ref, "the drop allowed in %s", t.Name.V))
		}
		return rules.Num(float64(t.Drop.V), units.None, t.Drop.Ref)
	})

// InternalYieldLeast is the weakest segment of a string inside.
var InternalYieldLeast = rules.OfString("rating.internal_yield_least", rules.NumType(units.Pressure),
	"Lowest minimum internal yield rating over the segments of the string, new and as published: the least of pipe body, coupling and leak resistance, or the rating stated. API TR 5C3 / ISO/TR 10400.",
	func(w *well.Well, str int) rules.Measure {
		p, r, err := w.InternalYieldLeast(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(p), units.Pressure, r.Internal.Ref).With(r.Plan.Label() + ": " + r.Internal.From).By(r.Internal.Working...)
	})

// DesignStated is whether the plan says which design factors it was made to.
var DesignStated = &rules.Check{Name: "design.stated", About: rules.Well, Type: rules.TruthType,
	Doc: "True when the plan states its burst, collapse and tension design factors.",
	Measure: func(w *well.Well, _ rules.Subject) rules.Measure {
		d := &w.Plan.Design
		return rules.Truth(d.Burst.Known() && d.Collapse.Known() && d.Tension.Known(), d.Ref, w.Plan.Well.Ref)
	}}

// SegmentCondition is whether pipe is new.
var SegmentCondition = &rules.Check{Name: "segment.condition", About: rules.Segment, Type: expr.Type{Kind: expr.Text},
	Doc: "Condition of the pipe: new, used, reconditioned; new where the plan is silent.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		g := &w.Plan.Strings[s.String].Segments[s.Segment]
		return rules.Text(g.Condition.Or("new"), g.Condition.Ref, g.Ref)
	}}

// SegmentWall is the smallest wall measured on used pipe.
var SegmentWall = &rules.Check{Name: "segment.measured_wall", About: rules.Segment, Type: rules.NumType(units.None),
	Doc: "Smallest wall measured, as a part of the nominal new wall.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		g := &w.Plan.Strings[s.String].Segments[s.Segment]
		if !g.MeasuredWall.Known() {
			return rules.From(well.Lack(g.Ref, "the wall measured on %s", s.Name))
		}
		return rules.Num(float64(g.MeasuredWall.V), units.None, g.MeasuredWall.Ref)
	}}
