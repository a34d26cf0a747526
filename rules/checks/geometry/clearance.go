package geometry

import (
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Clearance is the gap at the connections in open hole.
var Clearance = clearance("geometry.clearance", false,
	"Least gap between open hole and connection, each side: (hole - connection OD) / 2. Hole is the bit, or the reamed size where it's reamed; connection OD as stated, else the coupling ordered, else for flush pipe the pipe. Common practice, no source.")

// ClearanceCased is the gap at the connections inside other strings.
var ClearanceCased = clearance("geometry.clearance_cased", true,
	"Least gap between the nominal bore of the string around and the connection, each side: (bore - connection OD) / 2. Common practice, no source.")

func clearance(name string, cased bool, doc string) *rules.Check {
	return ofString(name, units.Length, true, doc, func(w *well.Well, str int) rules.Measure {
		c, err := w.LeastClearance(str, cased)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		outer, inner := size("outer", c.Outer, c.Refs[0]), size("connection", c.Inner, c.Refs[1])
		step := expr.Working{Formula: "(outer - connection) / 2", Inputs: []expr.Input{outer, inner},
			Result: size("clearance", c.Side, 0), Source: "gap each side, pipe in the middle"}
		what := "in open hole "
		if cased {
			what = "inside " + w.Plan.Strings[c.Around].Name.V + " "
		}
		return rules.Num(float64(c.Side), units.Length, c.Refs[1], c.Refs[0]).
			Where(w.AtMD(c.From, "")).With(what + between(w, c.From, c.To)).By(step)
	})
}

// BitSpare is the room a bit has on its way down.
var BitSpare = ofHole("geometry.bit_spare", units.Length, true,
	"Smallest bore above the hole less the bit: drift as ordered and connection bore of every string in the well then, bores of accessories, of casing heads and spools and of the BOP. The bit counts, not what it reams to. Common practice, no source.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		if !h.Plan.Bit.Known() {
			return rules.From(well.Lack(h.Plan.Ref, "the bit size of %s", h.Plan.Name.V))
		}
		p, err := w.WayTo(h)
		if err != nil {
			return rules.From(err, h.Plan.Bit.Ref)
		}
		return spare(p, "bit", h.Plan.Bit.V, h.Plan.Bit.Ref)
	})

// PassSpare is the room a string has on its way down through others.
var PassSpare = ofString("geometry.pass_spare", units.Length, true,
	"Least of drift less connection OD where a string runs through those before it: each segment passes what lies above its own bottom. The receptacle a tie-back stabs into isn't passed. Common practice, no source.",
	func(w *well.Well, str int) rules.Measure {
		p, err := w.PassSpare(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return spare(p.Way, "connection", p.OD, p.Ref)
	})

func spare(p well.Passage, what string, od units.Meters, ref place.Ref) rules.Measure {
	left := p.Bore - od
	return rules.Num(float64(left), units.Length, ref, p.Refs[0]).With("smallest bore: " + p.What + ", " + in(p.Bore)).
		By(less("spare", size("bore", p.Bore, p.Refs[0]), size(what, od, ref)))
}

// StringStep is how much smaller a string is than the last.
var StringStep = ofString("geometry.string_step", units.Length, true,
	"OD of the string around less the string's own, the largest of each. Tie-backs and expanded strings aside. Common practice, no source.",
	func(w *well.Well, str int) rules.Measure {
		d, refs, err := w.StepDown(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(d), units.Length, refs...)
	})

// HoleStep is how much smaller a hole is than the last.
var HoleStep = ofHole("geometry.hole_step", units.Length, true,
	"Bit of the last hole a string was set in less the hole's own bit. Reaming doesn't count. Common practice, no source.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		d, refs, err := w.HoleStep(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Num(float64(d), units.Length, refs...)
	})
