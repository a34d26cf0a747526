package cement

import (
	"spudgate/plan/expr"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Circulated is what is circulated before a stage is cemented.
var Circulated = ofStage("cement.circulated", rules.NumType(units.Volume),
	"Volume circulated before the stage is cemented, as stated. Not for a top-up or squeeze, nor a string that is in the well already.",
	func(j job) rules.Measure {
		if _, _, err := j.Well.PipeContents(j.str, j.st); err != nil {
			if m := rules.From(err, j.stage.Ref); m.Absent != "" {
				return m
			}
		}
		return stated(j.stage.Circulated, units.Volume, j.stage.Ref, "the volume circulated before %s of %s", j.stage.Name.V, j.string.Name.V)
	})

// PipeContents is what a string holds before it's cemented.
var PipeContents = ofStage("cement.pipe_contents", rules.NumType(units.Volume),
	"Volume inside from the cementing head down to where the stage leaves the string: the path of the displacement and the shoe track. Geometry, nominal bores.",
	func(j job) rules.Measure {
		path, track, err := j.Well.PipeContents(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rules.Num(float64(path+track), units.Volume, j.stage.Ref, j.string.Shoe.Ref).By(expr.Working{
			Formula: "path + track", Inputs: []expr.Input{input("path", path, units.Volume, 0), input("track", track, units.Volume, 0)},
			Result: input("contents", path+track, units.Volume, 0), Source: "geometry: bores by length along the hole"})
	})

// BottomsUp is the annulus that mud comes up.
var BottomsUp = ofStage("cement.bottoms_up", rules.NumType(units.Volume),
	"Volume of the annulus from where the stage leaves the string up to where the mud comes back; above a liner, and in a riser, around the pipe that it's run on (taken as the drill string of its hole). Hole by bit, caliper or expected diameter; excess is for cement and isn't counted. Geometry.",
	func(j job) rules.Measure {
		a, from, to, err := j.Well.BottomsUp(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		v, err := a.Volume(from, to)
		if err != nil {
			return rules.From(well.Unusable(err, j.stage.Ref, "a stage collar inside the string"), j.stage.Ref)
		}
		steps, err := a.VolumeWorking(from, to)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rules.Num(float64(v), units.Volume, j.stage.Ref, j.string.Shoe.Ref).By(steps...)
	})

// BlendNeeded is the cement that a stage takes.
var BlendNeeded = ofStage("cement.blend_needed", rules.NumType(units.Mass),
	"Dry blend that the slurries of a stage take: sacks as stated, else volume over yield. Losses in handling aren't in it.",
	func(j job) rules.Measure {
		s, err := j.JobBlend(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return supply(s, float64(s.Blend), units.Mass)
	})

// MixWater is the water that a stage takes.
var MixWater = ofStage("cement.mix_water", rules.NumType(units.Volume),
	"Mix water that the slurries of a stage take: blend times water of a sack. Water of spacers, for washing up and left in tanks isn't in it.",
	func(j job) rules.Measure {
		s, err := j.JobWater(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		m := supply(s, float64(s.Water), units.Volume)
		if len(s.Parts) == 1 {
			if step, err := fluid.MixWaterWorking(s.Parts[0].Blend, s.Parts[0].Fluid.MixWater.V); err == nil {
				m = m.By(step)
			}
		}
		return m
	})

func supply(s well.JobSupply, si float64, d units.Dim) rules.Measure {
	var refs []place.Ref
	for _, p := range s.Parts {
		refs = append(refs, p.Ref)
		if d == units.Volume {
			refs = append(refs, p.Fluid.MixWater.Ref)
		}
	}
	return rules.Num(si, d, refs...)
}

// BlendOnSite and WaterOnSite are what stands ready for a stage.
var (
	BlendOnSite = ofStage("cement.blend_on_site", rules.NumType(units.Mass), "Dry blend on site for the stage, as stated.",
		func(j job) rules.Measure {
			return stated(j.stage.BulkOnSite, units.Mass, j.stage.Ref, "the cement on site for %s of %s", j.stage.Name.V, j.string.Name.V)
		})
	WaterOnSite = ofStage("cement.water_on_site", rules.NumType(units.Volume), "Mix water on site for the stage, as stated.",
		func(j job) rules.Measure {
			return stated(j.stage.WaterOnSite, units.Volume, j.stage.Ref, "the mix water on site for %s of %s", j.stage.Name.V, j.string.Name.V)
		})
)

// MustIsolate is whether the cement of a string has something to close off.
var MustIsolate = rules.OfString("cement.must_isolate", rules.TruthType,
	"True for a cemented string whose own hole opens a zone to isolate.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		if !well.Cemented(s) {
			return rules.Truth(false, s.Ref)
		}
		for _, i := range w.ZonesOf(str) {
			if w.ToIsolate(i) {
				return rules.Truth(true, w.Plan.Formations[i].Ref).With(w.Plan.Formations[i].Name.V)
			}
		}
		return rules.Truth(false, s.Ref)
	})

// TopProven is whether a top of cement will be proven.
var TopProven = rules.OfString("cement.top_proven", rules.TruthType,
	"True when a proof of the top of cement is planned; false where the plan says there will be none. Not for a string that isn't cemented.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		if !well.Cemented(s) {
			return rules.None("the string isn't cemented")
		}
		if !s.TopProvenBy.Known() {
			return rules.From(well.Lack(s.Ref, "how the top of cement of %s will be proven", s.Name.V), s.Ref)
		}
		return rules.Truth(s.TopProvenBy.V != "none", s.TopProvenBy.Ref).With(s.TopProvenBy.V)
	})

// TopMeasured is whether the proof of a top of cement sees it.
var TopMeasured = rules.OfString("cement.top_measured", rules.TruthType,
	"True when the proof planned sees the top of cement: temperature, bond log, pressure, or returns of cement where it's planned to the top of the string. False for volume alone, and for returns from a top that is planned lower. Not where no proof is planned.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		p := s.TopProvenBy
		switch {
		case !well.Cemented(s):
			return rules.None("the string isn't cemented")
		case !p.Known() || p.V == "none":
			return rules.None("no proof is planned; that is a finding of its own")
		case p.V == "volume":
			return rules.Truth(false, p.Ref).With("volume pumped says where cement should be, not where it is")
		case p.V != "returns":
			return rules.Truth(true, p.Ref).With(p.V)
		}
		top, _, err := w.WorkedTop(str)
		if err != nil {
			return rules.From(err, p.Ref)
		}
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, p.Ref)
		}
		return rules.Truth(top.Top <= w.Surface(c)+units.MD(w.Meet()), p.Ref, top.Ref).With("by returns, " + how(top))
	})

// TopUpPlanned is whether a job that may fall short has a top-up planned.
var TopUpPlanned = rules.OfString("cement.top_up_planned", rules.TruthType,
	"True when a top-up job is among the stages of a string whose own open hole takes losses. Not where the plan names no losses, nor for a string that isn't cemented.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		i, err := w.LossesBehind(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		f := &w.Plan.Formations[i]
		for k := range s.Stages {
			if s.Stages[k].Kind.V == "top_up" {
				return rules.Truth(true, s.Stages[k].Kind.Ref, f.Losses.Ref).With(f.Name.V + " takes losses")
			}
		}
		return rules.Truth(false, s.Ref, f.Losses.Ref).With(f.Name.V + " takes losses")
	})
