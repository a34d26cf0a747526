package coverage

import (
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// LeftInside is the cement that displacement leaves in a string.
var LeftInside = of(rules.Stage, "coverage.left_inside", rules.NumType(units.Length),
	"Cement left inside the string above its shoe when the displacement planned has been pumped: the bore of the string to its shoe less the displacement, up through its bores. Zero where all of it is pushed out. Not for stages through a stage collar, an inner string, liners, top-ups and squeezes.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		l, ref, err := w.LeftInside(s.String, s.Stage)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Num(float64(l), units.Length, ref, s.Ref)
	})

// CaliperExcess is the excess on a hole that is measured.
var CaliperExcess = of(rules.Stage, "coverage.caliper_excess", rules.NumType(units.None),
	"Excess on the open-hole annulus as stated for the stage, else for its hole, where the volume is counted on a caliper. Not for other holes.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		v, err := w.CaliperExcess(s.String, s.Stage)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Num(float64(v.V), units.None, v.Ref)
	})

// Preflush is whether mud is washed off ahead of a slurry.
var Preflush = of(rules.Stage, "coverage.preflush", rules.TruthType,
	"True when a preflush or spacer is listed among the fluids of the stage. Not for a top-up or squeeze, nor in a hole drilled with water, air, gas, mist or foam.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		ok, ref, err := w.Preflush(s.String, s.Stage)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Truth(ok, ref)
	})

// TestedBeforeDrillOut is whether a string is tested with its shoe closed.
var TestedBeforeDrillOut = rules.OfString("coverage.tested_before_drill_out", rules.TruthType,
	"True when a pressure test of the string is planned that isn't made after its shoe is drilled; a test whose time isn't stated is taken as made once the cement is set.",
	func(w *well.Well, str int) rules.Measure {
		ok, ref := w.TestedBeforeDrillOut(str)
		return rules.Truth(ok, ref)
	})

// HeadBore is what the stack must let through.
var HeadBore = small(rules.OfString("coverage.head_bore", rules.NumType(units.Length),
	"Largest bore of the heads and spools on the string.",
	func(w *well.Well, str int) rules.Measure {
		v, err := w.HeadBore(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(v.V), units.Length, v.Ref)
	}))

// StackBore is the bore of a stack.
var StackBore = small(of(rules.BOP, "coverage.stack_bore", rules.NumType(units.Length), "Bore of the stack, as stated.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		b := &w.Plan.BOPs[s.BOP]
		if !b.Bore.Known() {
			return rules.From(well.Lack(b.Ref, "the bore of %s", b.Name.V))
		}
		return rules.Num(float64(b.Bore.V), units.Length, b.Bore.Ref)
	}))

// small is a check shown in inches or millimetres.
func small(c *rules.Check) *rules.Check { c.Small = true; return c }

// UnitRating is what the cementing unit may pump against.
var UnitRating = rules.OfWell("coverage.unit_rating", rules.NumType(units.Pressure),
	"Rated pressure of the cementing unit: the lesser of pump and line, of those stated.",
	func(w *well.Well) rules.Measure {
		v, err := w.UnitRating()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		return rules.Num(float64(v.V), units.Pressure, v.Ref)
	})
