package cement

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// CollarRoom is the room under a stage collar.
var CollarRoom = ofStage("cement.collar_room", rules.NumType(units.MDLength),
	"Top of the cement below a stage collar less the depth of the collar, along the hole: by volume with enlargement, else as planned. Not where the stage below is planned to come up past the collar.",
	func(j job) rules.Measure {
		r, err := j.Well.CollarRoom(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		note := "top of " + j.string.Stages[r.Below].Name.V + " as planned"
		if r.ByVolume {
			note = "top of " + j.string.Stages[r.Below].Name.V + " by volume, enlargement counted"
		}
		return rules.Num(float64(r.Top-r.Collar), units.MDLength, present(r.Ref, r.TopRef)...).Where(j.AtMD(r.Collar, "stage collar")).With(note).
			By(less("room", md("top_of_cement", r.Top, r.TopRef), md("collar", r.Collar, r.Ref), "lengths along the hole"))
	})

// CollarInBadRock is whether a stage collar stands in rock that harms it.
var CollarInBadRock = ofStage("cement.collar_in_bad_rock", rules.TruthType,
	"True when a stage collar stands in open hole in a formation that the plan says takes losses, is mobile or not competent, or holds coal or salt. Not inside casing, nor where no formation is listed.",
	func(j job) rules.Measure {
		i, collar, ref, err := j.CollarRock(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		if i < 0 {
			return rules.None("no formation is listed at the collar")
		}
		why, at := j.Unsound(i)
		note := j.Plan.Formations[i].Name.V
		if why != "" {
			note += ": " + why
		}
		return rules.Truth(why != "", present(ref, at)...).Where(j.AtMD(collar, "stage collar")).With(note)
	})

// ToolOperation is what setting or opening a tool does to its pipe.
var ToolOperation = rules.OfString("cement.tool_operation", rules.NumType(units.None),
	"Pressure that sets, opens or inflates a stage collar, packer or hanger, over internal yield of the pipe as published, worst: surface pressure and the column inside (displacement; mud for a hanger) less mud outside. Down to a stage collar; for others down to the collar that ball or plug lands on. Not where no tool states a pressure.",
	func(w *well.Well, str int) rules.Measure {
		l, err := w.ToolOperation(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		op := l.Tool.OperatingPressure
		return rules.Num(l.Share(), units.None, op.Ref, l.Pipe.Internal.Ref).Where(w.AtMD(l.MD, l.Pipe.Plan.Label())).With(l.Tool.Name.Or(l.Tool.Kind.V)).
			By(expr.Working{Formula: "(surface + inside - outside) / yield",
				Inputs: []expr.Input{input("surface", op.V, units.Pressure, op.Ref), input("inside", l.Inside, units.Pressure, 0), input("outside", l.Outside, units.Pressure, 0), input("yield", l.Rating, units.Pressure, l.Pipe.Internal.Ref)},
				Result: input("share", units.Fraction(l.Share()), units.None, 0), Source: "pressure across the pipe over its internal yield"})
	})

// TopUpGap is what a top-up job leaves bare.
var TopUpGap = ofStage("cement.top_up_gap", rules.NumType(units.MDLength),
	"Top of the cement pumped up an annulus less the depth that a top-up job fills down to, along the hole, both by volume with enlargement, else as planned: above zero a length between them stays bare. Only of top-up jobs.",
	func(j job) rules.Measure {
		bottom, top, refs, err := j.Well.TopUpGap(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rules.Num(float64(top-bottom), units.MDLength, present(refs...)...).Where(j.AtMD(bottom, "bottom of the top-up")).
			By(less("gap", md("cement_below", top, 0), md("filled_to", bottom, 0), "lengths along the hole"))
	})

// PerforationsOverCollar is how far perforations stay above the shoe track.
var PerforationsOverCollar = rules.OfString("cement.perforations_over_collar", rules.NumType(units.MDLength),
	"Collar that the plug lands on less the bottom of the perforations, along the hole; the shoe where no collar is planned. Below zero they're in the shoe track, or below the string. Only of the cemented string that the perforations are in.",
	func(w *well.Well, str int) rules.Measure {
		p, c, none := perforated(w, str)
		if none != nil {
			return *none
		}
		at, ref, ok := c.FloatCollar()
		if !ok {
			at, ref = c.Shoe, c.Plan.Shoe.Ref
		}
		return rules.Num(float64(at-p.To), units.MDLength, present(p.Refs[1], ref)...).Where(w.AtMD(p.To, "bottom of the perforations")).
			By(less("over", md("collar", at, ref), md("perforations", p.To, p.Refs[1]), "lengths along the hole"))
	})

func perforated(w *well.Well, str int) (*well.Perforated, *well.Casing, *rules.Measure) {
	p, err := w.PerforatedIn(str)
	var c *well.Casing
	if err == nil {
		c, err = w.Casing(str)
	}
	if err != nil {
		m := rules.From(err, w.Plan.Strings[str].Ref)
		return nil, nil, &m
	}
	return p, c, nil
}

// PerforationsCover is the cement above perforations.
var PerforationsCover = rules.OfString("cement.perforations_cover", rules.NumType(units.MDLength),
	"Cement above the top of the perforations, along the hole, without a gap; by volumes with enlargement, else from the stated top. Not where a zone to isolate holds them: cement above that zone is judged.",
	func(w *well.Well, str int) rules.Measure {
		p, _, none := perforated(w, str)
		if none != nil {
			return *none
		}
		if i, ok := w.PerforatedZone(p); ok {
			return rules.None("judged as cement above " + w.Plan.Formations[i].Name.V)
		}
		return above(w, str, p.From, p.Refs[0])
	})

// PerforationsBelowShoe and PerforationsInString are how far perforations lie
// below the previous shoe and the top of the string.
var (
	PerforationsBelowShoe = rules.OfString("cement.perforations_below_shoe", rules.NumType(units.MDLength),
		"Top of the perforations below the shoe of the previous string, along the hole.",
		func(w *well.Well, str int) rules.Measure {
			p, _, none := perforated(w, str)
			if none != nil {
				return *none
			}
			return belowPrevious(w, str, p.From, p.Refs[0])
		})
	PerforationsInString = rules.OfString("cement.perforations_below_top", rules.NumType(units.MDLength),
		"Top of the perforations below the top of the string, along the hole.",
		func(w *well.Well, str int) rules.Measure {
			p, _, none := perforated(w, str)
			if none != nil {
				return *none
			}
			return belowTop(w, str, p.From, p.Refs[0])
		})
)

// CementUnderPerforations is the cement below perforations.
var CementUnderPerforations = rules.OfString("cement.perforations_base", rules.NumType(units.MDLength),
	"Cement below the bottom of the perforations, along the hole, without a gap; below zero they end beneath it.",
	func(w *well.Well, str int) rules.Measure {
		p, _, none := perforated(w, str)
		if none != nil {
			return *none
		}
		list, err := w.Sheaths(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		if len(list) == 0 {
			return rules.From(well.Lack(w.Plan.Strings[str].Ref, "the cement of %s", w.Plan.Strings[str].Name.V), p.Refs...)
		}
		under, ok := well.SheathAt(list, p.From)
		if !ok {
			under = list[len(list)-1]
		}
		return rules.Num(float64(under.Bottom-p.To), units.MDLength, present(p.Refs[1], under.Ref)...).Where(w.AtMD(p.To, "bottom of the perforations")).With(how(under)).
			By(less("below", md("bottom_of_cement", under.Bottom, 0), md("perforations", p.To, p.Refs[1]), "lengths along the hole"))
	})

// PerforationsClear is how far perforations stay off what they'd break.
var PerforationsClear = rules.OfString("cement.perforations_clear", rules.NumType(units.MDLength),
	"Distance along the hole from the perforations to the nearest stage collar or crossover of their string; zero where it stands among them. Couplings aren't known before the pipe is tallied.",
	func(w *well.Well, str int) rules.Measure {
		p, _, none := perforated(w, str)
		if none != nil {
			return *none
		}
		a, off, err := w.BesidePerforations(p)
		if err != nil {
			return rules.From(err, p.Refs...)
		}
		return rules.Num(float64(off), units.MDLength, p.Refs[0], a.Depth.Ref).Where(w.AtMD(a.Depth.V, a.Name.Or(a.Kind.V)))
	})
