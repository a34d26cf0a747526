package cement

import (
	"fmt"
	"math"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// ShoeTrack is the length of a string's shoe track.
var ShoeTrack = rules.OfString("cement.shoe_track", rules.NumType(units.Length),
	"Length of the shoe track: shoe less the float or landing collar, along the hole. None for a string that is driven, not cemented, or cemented through an inner string.",
	func(w *well.Well, str int) rules.Measure {
		c, md, ref, none := track(w, str)
		if none != nil {
			return *none
		}
		return rules.Num(float64(c.Shoe-md), units.Length, ref, c.Plan.Shoe.Ref)
	})

// ShoeTrackJoints is a shoe track in joints.
var ShoeTrackJoints = rules.OfString("cement.shoe_track_joints", rules.NumType(units.None),
	"Shoe track over the shortest joint of the range at the shoe (API Spec 5CT: R1 16 ft, R2 25 ft, R3 34 ft; R3 where none is stated). None for a string that is driven, not cemented, or cemented through an inner string.",
	func(w *well.Well, str int) rules.Measure {
		c, md, ref, none := track(w, str)
		if none != nil {
			return *none
		}
		name := c.Pipes[len(c.Pipes)-1].Plan.Range.Or("R3")
		joint, _, ok := well.JointRange(name)
		if !ok {
			joint, _, _ = well.JointRange("R3")
		}
		length := float64(c.Shoe - md)
		return rules.Num(length/float64(joint), units.None, ref, c.Plan.Shoe.Ref).With("joints of " + name).
			By(expr.Working{Formula: "track / joint", Inputs: []expr.Input{input("track", units.Meters(length), units.Length, ref), input("joint", joint, units.Length, 0)},
				Result: input("joints", units.Fraction(length/float64(joint)), units.None, 0), Source: "joint ranges of API Spec 5CT"})
	})

func track(w *well.Well, str int) (*well.Casing, units.MD, place.Ref, *rules.Measure) {
	s := &w.Plan.Strings[str]
	stop := func(m rules.Measure) (*well.Casing, units.MD, place.Ref, *rules.Measure) { return nil, 0, 0, &m }
	if !well.Cemented(s) {
		return stop(rules.None("the string isn't cemented"))
	}
	for i := range s.Stages {
		if s.Stages[i].Kind.V == "inner_string" {
			return stop(rules.None("cemented through an inner string"))
		}
	}
	c, err := w.Casing(str)
	if err != nil {
		return stop(rules.From(err, s.Ref))
	}
	md, ref, ok := c.FloatCollar()
	if !ok {
		return stop(rules.From(well.Lack(s.Ref, "the float collar of %s", s.Name.V), s.Ref))
	}
	return c, md, ref, nil
}

// TopPlug is whether a top plug is used.
var TopPlug = ofStage("cement.top_plug", rules.TruthType, "True when a top plug is planned; as stated. Not for a job that no plug can follow (inner string, top-up, squeeze).",
	func(j job) rules.Measure {
		if none := unplugged(j); none != nil {
			return *none
		}
		return yesNo(j.stage.TopPlug, j.stage.Ref, "whether %s of %s has a top plug", j.stage.Name.V, j.string.Name.V)
	})

func unplugged(j job) *rules.Measure {
	switch j.stage.Kind.V {
	case "inner_string", "top_up", "squeeze":
		m := rules.None("no plug is pumped in such a job")
		return &m
	}
	return nil
}

func yesNo(v plan.Val[bool], ref place.Ref, format string, args ...any) rules.Measure {
	if v.Known() {
		return rules.Truth(v.V, v.Ref)
	}
	return rules.Lacking([]place.Ref{ref}, expr.Lack{Input: fmt.Sprintf(format, args...), Ref: ref})
}

// MudKeptOut is whether something keeps mud out of the slurry.
var MudKeptOut = ofStage("cement.mud_kept_out", rules.TruthType,
	"True when a bottom plug, a spacer or preflush ahead of the slurry, or an inner string keeps mud out of the slurry. Not for a top-up or squeeze.",
	func(j job) rules.Measure {
		switch j.stage.Kind.V {
		case "top_up", "squeeze":
			return rules.None("nothing is pumped down the string ahead")
		case "inner_string":
			return rules.Truth(true, j.stage.Kind.Ref).With("inner string")
		}
		for i := range j.stage.Fluids {
			if k := j.stage.Fluids[i].Kind; k.V == "spacer" || k.V == "preflush" {
				return rules.Truth(true, k.Ref).With(j.stage.Fluids[i].Name.V + " ahead")
			}
		}
		if len(j.stage.Fluids) > 0 && !j.stage.BottomPlug.Known() {
			return rules.Truth(false, j.stage.Ref).With("no bottom plug is planned, no spacer listed")
		}
		return yesNo(j.stage.BottomPlug, j.stage.Ref, "whether %s of %s has a bottom plug or spacer", j.stage.Name.V, j.string.Name.V)
	})

// DensityOrder is whether spacers stand between mud and slurry in density.
var DensityOrder = ofStage("cement.density_order", rules.TruthType,
	"True when each weighted spacer (1.08 SG and more) is at least as dense as the mud and no denser than the first slurry. Unweighted washes and foamed jobs aren't counted.",
	func(j job) rules.Measure {
		if j.stage.Kind.V == "foam" {
			return rules.None("foamed slurry is light on purpose")
		}
		mud, mref, err := j.RunIn(j.str)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return order(j, mud, mref)
	})

// weighted is how dense a spacer must be to count as weighted.
const weighted = 1.08 * units.SG

func order(j job, mud units.KgPerM3, mref place.Ref) rules.Measure {
	var spacers []*plan.Fluid
	for i := range j.stage.Fluids {
		f := &j.stage.Fluids[i]
		switch {
		case f.Kind.V == "spacer" && f.Density.V > weighted:
			spacers = append(spacers, f)
		case f.Kind.V == "spacer" || f.Kind.V == "preflush" || f.Kind.V == "scavenger":
		case len(spacers) == 0:
			return rules.None("no weighted spacer ahead of the slurry")
		case !f.Density.Known():
			return rules.From(well.Lack(f.Ref, "the density of %s", f.Name.V), f.Ref)
		default:
			for _, s := range spacers {
				if s.Density.V < mud*(1-1e-9) || s.Density.V > f.Density.V*(1+1e-9) {
					return rules.Truth(false, s.Density.Ref, mref, f.Density.Ref).With(s.Name.V + " is out of order")
				}
			}
			return rules.Truth(true, spacers[0].Density.Ref, mref, f.Density.Ref)
		}
	}
	return rules.None("no slurry follows a weighted spacer")
}

// Excess is the excess a stage states.
var Excess = ofStage("cement.excess", rules.NumType(units.None),
	"Excess on the open-hole annulus as stated for the stage, else for its hole. Not on a hole measured by caliper or planned enlarged, nor behind casing only.",
	func(j job) rules.Measure {
		h, err := j.HoleOf(j.str)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		if b := j.stage.VolumeBasis.Or(h.Plan.HoleBasis.Or("bit")); b != "bit" {
			return rules.None("the hole is counted by " + b)
		}
		if j.stage.Excess.Known() {
			return rules.Num(float64(j.stage.Excess.V), units.None, j.stage.Excess.Ref)
		}
		return stated(h.Plan.Excess, units.None, j.stage.Ref, "the excess of %s of %s", j.stage.Name.V, j.string.Name.V)
	})

// Contact is how long spacers touch the wall.
var Contact = ofStage("cement.contact", rules.NumType(units.Time),
	"Time that spacers and preflushes together take to pass a place of the annulus at the displacement rate: volume over rate, the same at each zone the slurry passes. Zero where none is planned.",
	func(j job) rules.Measure {
		t, refs, err := j.FlushContact(j.stage)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		if len(refs) == 0 {
			refs = []place.Ref{j.stage.Ref}
		}
		return rules.Num(float64(t), units.Time, refs...)
	})

// DisplacementPath is the volume down to the collar the plug lands on.
var DisplacementPath = ofStage("cement.displacement_path", rules.NumType(units.Volume),
	"Volume of the path from the cementing head to the collar the plug lands on: running or inner string, then the string's own segments by nominal ID. Geometry; fluid taken as incompressible.",
	func(j job) rules.Measure { return path(j) })

func path(j job) rules.Measure {
	v, err := j.Displacement(j.str, j.st)
	if err != nil {
		return rules.From(err, j.stage.Ref)
	}
	legs, err := j.Well.DisplacementPath(j.str, j.st)
	if err != nil {
		return rules.From(err, j.stage.Ref)
	}
	var refs []place.Ref
	var parts string
	var ins []expr.Input
	var steps []expr.Working
	for i, l := range legs {
		name := fmt.Sprintf("leg_%d", i+1)
		leg := math.Pi / 4 * float64(l.ID*l.ID) * float64(l.To-l.From)
		id := input("id", l.ID, units.Length, l.Ref)
		id.Small = true
		steps = append(steps, expr.Working{Formula: "pi / 4 * id^2 * (to - from)", Inputs: []expr.Input{id, md("to", l.To, 0), md("from", l.From, 0)},
			Result: input(name, units.CubicMeters(leg), units.Volume, 0), Source: "geometry: bore by length along the hole"})
		ins, refs = append(ins, steps[i].Result), append(refs, l.Ref)
		if i > 0 {
			parts += " + "
		}
		parts += name
	}
	return rules.Num(float64(v), units.Volume, refs...).By(append(steps, expr.Working{Formula: parts, Inputs: ins, Result: input("path", v, units.Volume, 0), Source: "sum of the legs"})...)
}

// DisplacementOff is planned displacement against the path.
var DisplacementOff = ofStage("cement.displacement_off", rules.NumType(units.Volume),
	"Displacement planned less the volume of the path to the collar the plug lands on; above zero it's over-displaced.",
	func(j job) rules.Measure {
		m := path(j)
		if !m.Result.Known {
			return m
		}
		d := j.stage.Displacement
		if !d.Known() {
			return rules.From(well.Lack(j.stage.Ref, "the displacement volume of %s of %s", j.stage.Name.V, j.string.Name.V), j.stage.Ref)
		}
		v := units.CubicMeters(m.Result.Value.SI)
		planned, calc := input("planned", d.V, units.Volume, d.Ref), input("path", v, units.Volume, 0)
		return rules.Num(float64(d.V-v), units.Volume, append([]place.Ref{d.Ref}, m.Refs...)...).By(append(m.Working, less("off", planned, calc, "planned against the path"))...)
	})

// TrackVolume is the volume of a shoe track.
var TrackVolume = ofStage("cement.track_volume", rules.NumType(units.Volume),
	"Volume inside the string below the collar the plug lands on, down to where the stage leaves; zero at a stage collar.",
	func(j job) rules.Measure {
		v, ref, err := j.TrackVolume(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rules.Num(float64(v), units.Volume, ref)
	})
