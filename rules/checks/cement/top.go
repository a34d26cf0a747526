package cement

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// TopByVolume is how high a stage's cement comes.
var TopByVolume = ofStage("cement.top_by_volume", rules.NumType(units.MDLength),
	"Top of cement of a stage from its volumes, along the hole: slurry less what stays in the shoe track, up from the shoe or collar through the annulus, open hole enlarged by the stage's excess, else the section's, else the basis's. Sacks times yield where both are stated. Over the top of the string it's at the top and the rest is returned. Geometry.",
	func(j job) rules.Measure {
		c, err := j.CementStage(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rules.Num(float64(c.Top.MD), units.MDLength, c.Refs...).Where(j.AtMD(c.Top.MD, "top of cement by volume")).
			With(topNote(j, c)).By(topSteps(c)...)
	})

func topNote(j job, c *well.CementStage) string {
	note := fmt.Sprintf("open hole at %s %s with %s %.0f %% excess; at gauge %s", c.Hole.Basis, "size", word(c.Hole.Stated), 100*float64(c.Hole.Excess), depth(j.Well, c.GaugeTop.MD))
	if c.Hole.Basis == "" {
		note = "behind casing only"
	}
	if c.Top.Full {
		note += "; " + volume(j.Well, c.Top.Returned) + " comes back"
	}
	if c.Slurry < c.Track {
		note += "; the slurry doesn't fill the shoe track"
	}
	return note
}

func word(stated bool) string {
	if stated {
		return "stated"
	}
	return "assumed"
}

// topSteps are the volume of the filled annulus, what stays inside, and what
// comes back.
func topSteps(c *well.CementStage) []expr.Working {
	if c.Slurry < c.Track {
		return nil
	}
	steps, err := c.Annulus.VolumeWorking(c.Top.MD, c.From)
	if err != nil || len(steps) == 0 {
		return nil
	}
	filled := steps[len(steps)-1].Result
	filled.Name = "filled"
	steps[len(steps)-1].Result.Name = "filled"
	track := input("track", c.Track, units.Volume, c.LandingRef)
	back := input("returned", c.Top.Returned, units.Volume, 0)
	return append(steps, expr.Working{Formula: "filled + track + returned", Inputs: []expr.Input{filled, track, back},
		Result: input("slurry", c.Slurry, units.Volume, c.Refs[0]), Source: "balance of the slurry pumped"})
}

// TopShort is how far the volumes fall short of the top stated.
var TopShort = ofStage("cement.top_short", rules.NumType(units.MDLength),
	"Top of cement by volume, enlargement counted, less the top the plan states for the stage, along the hole: above zero the volume doesn't reach it.",
	func(j job) rules.Measure {
		top, ref, ok := j.StatedTop(j.str, j.st)
		if !ok {
			return rules.None("the plan states no top for this stage")
		}
		c, err := j.CementStage(j.str, j.st)
		if err != nil {
			return rules.From(err, ref)
		}
		top = max(top, topOf(c)) // surface is the top of the string
		return rules.Num(float64(c.Top.MD-top), units.MDLength, c.Refs...).Where(j.AtMD(c.Top.MD, "top of cement by volume")).With(topNote(j, c)).
			By(append(topSteps(c), less("short", md("by_volume", c.Top.MD, c.Refs[0]), md("stated", top, ref), "volumes against the stated top"))...)
	})

func topOf(c *well.CementStage) units.MD {
	top, _ := c.Annulus.Range()
	return top
}

// BelowSurface is how far the cement stays below the top of the string.
var BelowSurface = rules.OfString("cement.top_below_surface", rules.NumType(units.MDLength),
	"Top of cement below the top of the string (wellhead, or mudline), along the hole: by volumes with enlargement where they're planned, else as stated. Zero is cement to surface.",
	func(w *well.Well, str int) rules.Measure {
		top, gaps, err := w.WorkedTop(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		note := how(top)
		if gaps {
			note += "; the cement below is broken by a gap"
		}
		surface := w.Surface(c)
		at := max(top.Top, surface)
		return rules.Num(float64(at-surface), units.MDLength, top.Ref).Where(w.AtMD(at, "top of cement")).With(note).
			By(less("below", md("top_of_cement", at, top.Ref), md("top_of_string", surface, c.Plan.Top.Ref), "depths along the hole"))
	})

// Unbroken is whether the cement outside a string has no gap.
var Unbroken = rules.OfString("cement.unbroken", rules.TruthType,
	"True when the cement of all stages of a string meets, from its top to the shoe; by volumes where they're planned. A stage collar with a planned gap below it is false.",
	func(w *well.Well, str int) rules.Measure {
		top, gaps, err := w.WorkedTop(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(!gaps, top.Ref).With(how(top))
	})

// FluidTopShort is how far a slurry's volume falls short of its planned top.
var FluidTopShort = ofFluid("cement.slurry_top_short", rules.NumType(units.MDLength),
	"Top of a slurry by the volumes pumped, enlargement counted, less its planned top: above zero it doesn't get there.",
	func(p pumped) rules.Measure {
		if !p.cement() || !p.fluid.Top.Known() {
			return rules.None("no planned top of a slurry")
		}
		tops, err := p.FluidTops(p.str, p.st)
		if err != nil {
			return rules.From(err, p.fluid.Ref)
		}
		c, err := p.CementStage(p.str, p.st)
		if err != nil {
			return rules.From(err, p.fluid.Ref)
		}
		planned := max(p.fluid.Top.V, topOf(c))
		for _, t := range tops {
			if t.Fluid == p.fl {
				return rules.Num(float64(t.Top-planned), units.MDLength, p.fluid.Top.Ref).Where(p.AtMD(t.Top, "top of the slurry by volume")).
					By(less("short", md("by_volume", t.Top, c.Refs[0]), md("planned", planned, p.fluid.Top.Ref), "volumes against the planned top"))
			}
		}
		return rules.None("not a slurry")
	})
