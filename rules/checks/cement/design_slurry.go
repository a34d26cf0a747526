package cement

import (
	"spudgate/plan/expr"
	"spudgate/plan/fluid"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// FluidLoss is the fluid loss of a slurry.
var FluidLoss = ofFluid("cement.fluid_loss", rules.NumType(units.None), "Fluid loss of a slurry, mL in 30 min, as stated.",
	func(p pumped) rules.Measure {
		if !p.cement() {
			return rules.None("not a slurry")
		}
		return stated(p.fluid.FluidLoss, units.None, p.fluid.Ref, "the fluid loss of %s of %s", p.fluid.Name.V, p.string.Name.V)
	})

// BesideGas and BesideHydrocarbon are what a slurry stands beside.
var (
	BesideGas = ofFluid("cement.beside_gas", rules.TruthType,
		"True for a slurry that stands beside a formation of its own open hole that holds gas, by volumes, else by planned tops.",
		func(p pumped) rules.Measure { return beside(p, p.Well.BesideGas) })
	BesideHydrocarbon = ofFluid("cement.beside_hydrocarbon", rules.TruthType,
		"True for a slurry that stands beside a formation of its own open hole that holds oil or gas, by volumes, else by planned tops.",
		func(p pumped) rules.Measure { return beside(p, p.Well.BesideHydrocarbon) })
)

func beside(p pumped, is func(str, st, fl int) (bool, error)) rules.Measure {
	if !p.cement() {
		return rules.None("not a slurry")
	}
	yes, err := is(p.str, p.st, p.fl)
	if err != nil {
		return rules.From(err, p.fluid.Ref)
	}
	return rules.Truth(yes, p.fluid.Ref)
}

// Steepest is how far from the vertical a stage is cemented.
var Steepest = ofStage("cement.inclination", rules.NumType(units.Angle),
	"Greatest inclination along the cement of the stage, at its ends and at survey stations between.",
	func(j job) rules.Measure {
		inc, at, err := j.Well.Steepest(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rules.Num(float64(inc), units.Angle, j.stage.Ref).Where(j.AtMD(at, "steepest"))
	})

// TailLength is the length of the last slurry above a shoe.
var TailLength = ofStage("cement.tail_length", rules.NumType(units.MDLength),
	"Length of the last slurry above the shoe, along the hole, by volume with enlargement, else by planned tops. Not for a job of one slurry, nor one that leaves through a stage collar.",
	func(j job) rules.Measure {
		spans, err := j.SlurrySpans(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		switch {
		case j.stage.Collar.Known() || j.stage.Kind.V == "second_stage":
			return rules.None("the stage leaves through a stage collar")
		case len(spans) < 2:
			return rules.None("one slurry from top to bottom")
		}
		t := spans[len(spans)-1]
		return rules.Num(float64(t.Bottom-t.Top), units.MDLength, j.stage.Fluids[t.Fluid].Ref, j.string.Shoe.Ref).Where(j.AtMD(t.Top, "top of the tail")).
			By(less("tail", md("shoe", t.Bottom, j.string.Shoe.Ref), md("top_of_tail", t.Top, 0), "lengths along the hole"))
	})

// StageLength is the length that a stage cements.
var StageLength = ofStage("cement.stage_length", rules.NumType(units.MDLength),
	"Length of annulus that the slurries of a stage fill, along the hole, by volume with enlargement, else by planned tops.",
	func(j job) rules.Measure {
		spans, err := j.SlurrySpans(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		top, bottom := spans[0].Top, spans[len(spans)-1].Bottom
		return rules.Num(float64(bottom-top), units.MDLength, j.stage.Ref).
			By(less("length", md("bottom", bottom, 0), md("top_of_cement", top, 0), "lengths along the hole"))
	})

// TailOverZone is how far the last slurry of a stage comes over a zone.
var TailOverZone = ofZone("cement.tail_over_zone", rules.NumType(units.MDLength),
	"Top of a zone that holds oil or gas less the top of the last slurry of the stage that cements it, along the hole: below zero the zone stands behind an earlier slurry. Not for a job of one slurry, a zone not to be isolated, or one without cement.",
	func(w *well.Well, str, zone int) rules.Measure {
		if _, hydrocarbon := w.CanFlow(zone); !hydrocarbon || !w.ToIsolate(zone) {
			return rules.None("no oil or gas to isolate")
		}
		at, _, ref, err := w.FormationTop(zone)
		if err != nil {
			return rules.From(err, w.Plan.Formations[zone].Ref)
		}
		st, _, err := w.SlurryAt(str, at)
		if err != nil {
			return rules.From(err, ref)
		}
		spans, err := w.SlurrySpans(str, st)
		if err != nil {
			return rules.From(err, ref)
		}
		if len(spans) < 2 {
			return rules.None("one slurry from top to bottom")
		}
		t := spans[len(spans)-1]
		f := &w.Plan.Strings[str].Stages[st].Fluids[t.Fluid]
		return rules.Num(float64(at-t.Top), units.MDLength, f.Ref, ref).Where(w.AtMD(at, "top of the zone")).
			By(less("over", md("zone", at, ref), md("top_of_tail", t.Top, f.Ref), "lengths along the hole"))
	})

// TopTestTemperature is how warm the first slurry was tested for its top.
var TopTestTemperature = ofFluid("cement.top_test_temperature", rules.NumType(units.Temperature),
	"Temperature of the coldest strength test that stands for the top of the uppermost slurry of a stage. Not for a slurry under another, nor for a lone slurry that no test for its top is given of.",
	func(p pumped) rules.Measure {
		t, err := p.TestedAtTop(p.str, p.st, p.fl)
		if err != nil {
			return rules.From(err, p.fluid.Ref)
		}
		return rules.Num(float64(t.Test), units.Temperature, t.Ref).Where(p.AtMD(t.Top, "top of the slurry"))
	})

// TopStatic is the static temperature at the top of the first slurry.
var TopStatic = ofFluid("cement.top_static", rules.NumType(units.Temperature),
	"Static temperature at the top of the uppermost slurry of a stage, of the plan's temperature table: at the stated top where the volume reaches higher.",
	func(p pumped) rules.Measure {
		t, err := p.TestedAtTop(p.str, p.st, p.fl)
		if err != nil {
			return rules.From(err, p.fluid.Ref)
		}
		return rules.Num(float64(t.Static), units.Temperature, p.fluid.Ref).Where(p.AtMD(t.Top, "top of the slurry"))
	})

// ScavengerBetween is whether a scavenger slurry stands between mud and cement.
var ScavengerBetween = ofFluid("cement.scavenger_between", rules.TruthType,
	"True when a scavenger is at least as dense as the mud and no denser than the slurry pumped next. Only of scavengers.",
	func(p pumped) rules.Measure {
		if p.fluid.Kind.V != "scavenger" {
			return rules.None("not a scavenger")
		}
		density := stated(p.fluid.Density, units.Density, p.fluid.Ref, "the density of %s of %s", p.fluid.Name.V, p.string.Name.V)
		if !density.Result.Known {
			return density
		}
		mud, mref, err := p.RunIn(p.str)
		if err != nil {
			return rules.From(err, p.fluid.Ref)
		}
		for i := p.fl + 1; i < len(p.stage.Fluids); i++ {
			next := pumped{p.job, i, &p.stage.Fluids[i]}
			if !next.cement() {
				continue
			}
			d := next.fluid.Density
			if !d.Known() {
				return rules.From(well.Lack(next.fluid.Ref, "the density of %s of %s", next.fluid.Name.V, p.string.Name.V), p.fluid.Ref)
			}
			own := p.fluid.Density
			return rules.Truth(own.V >= mud*(1-1e-9) && own.V <= d.V*(1+1e-9), own.Ref, mref, d.Ref)
		}
		return rules.None("no slurry follows it")
	})

// CriticalGel is the gel strength at which a zone is no longer held.
var CriticalGel = ofZone("cement.critical_gel", rules.NumType(units.Pressure),
	"Critical static gel strength of the cement over a zone that can flow: overbalance on the zone when the job ends, times hole less pipe diameter, over four times the length of cement over it, along the hole; in field units 300 OBP/(L/Deff) lbf/100 ft2. API RP 10B-6, annex A (addendum 1); API Std 65-2.",
	func(w *well.Well, str, zone int) rules.Measure {
		g, err := w.Gelling(str, zone)
		if err != nil {
			return rules.From(err, w.Plan.Formations[zone].Ref)
		}
		step, err := fluid.CriticalGelWorking(g.Overbalance, g.Length, g.Outer, g.Inner)
		if err != nil {
			return rules.From(err, g.Refs...)
		}
		return rules.Num(float64(g.Critical), units.Pressure, present(g.Refs...)...).Where(w.AtMD(g.At, "zone that can flow")).By(step)
	})

// CriticalGelPeriod is how long a zone that can flow isn't held.
var CriticalGelPeriod = ofZone("cement.critical_gel_period", rules.NumType(units.Time),
	"Time that the slurry beside a zone that can flow takes from its critical gel strength to 500 lbf/100 ft2, as stated for the slurry.",
	func(w *well.Well, str, zone int) rules.Measure {
		g, err := w.Gelling(str, zone)
		if err != nil {
			return rules.From(err, w.Plan.Formations[zone].Ref)
		}
		st, fl, err := w.SlurryAt(str, g.At)
		if err != nil {
			return rules.From(err, g.Refs...)
		}
		s := &w.Plan.Strings[str]
		f := &s.Stages[st].Fluids[fl]
		if !f.GelTransition.Known() {
			return rules.Lacking(present(f.Ref), expr.Lack{Input: "the gel transition time of " + f.Name.V + " of " + s.Name.V, Ref: f.Ref})
		}
		return rules.Num(float64(f.GelTransition.V), units.Time, f.GelTransition.Ref, g.Refs[0]).Where(w.AtMD(g.At, "zone that can flow")).With(f.Name.V)
	})
