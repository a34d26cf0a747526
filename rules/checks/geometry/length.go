package geometry

import (
	"spudgate/plan/expr"
	"spudgate/plan/survey"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// LengthMD is the length of a string along the hole.
var LengthMD = ofString("string.length_md", units.MDLength, false,
	"Length of the string along the hole, shoe less top.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(c.Shoe-c.Top), units.MDLength, c.Plan.Shoe.Ref, c.Plan.Top.Ref)
	})

// ShoeMD is where a string ends along the hole.
var ShoeMD = ofString("shoe.md", units.MDLength, false, "Shoe of the string along the hole, from the depth reference.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(c.Shoe), units.MDLength, c.Plan.Shoe.Ref, c.Plan.Ref)
	})

// ShoeTVD is where a string ends, true vertical.
var ShoeTVD = ofString("shoe.tvd", units.TVDLength, false, "Shoe of the string, true vertical, from the depth reference: stated, else from the path.",
	func(w *well.Well, str int) rules.Measure {
		z, ref, err := w.ShoeTVD(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(z), units.TVDLength, ref, w.Plan.Strings[str].Ref)
	})

// TopMD is where a string begins along the hole.
var TopMD = ofString("string.top_md", units.MDLength, false, "Top of the string along the hole, from the depth reference.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(c.Top), units.MDLength, c.Plan.Top.Ref, c.Plan.Ref)
	})

// Lap is the length of a liner inside the string it hangs in.
var Lap = ofString("geometry.lap", units.MDLength, false,
	"Length of the liner inside the string it hangs in, along the hole: that string's shoe less the liner's top. Below zero where the top misses the shoe. Common practice, no source.",
	func(w *well.Well, str int) rules.Measure {
		lap, refs, err := w.Lap(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, refs...)
		}
		md := func(name string, x units.MD) expr.Input {
			return expr.Input{Name: name, SI: float64(x), Dim: units.MDLength}
		}
		step := expr.Working{Formula: "shoe - top", Inputs: []expr.Input{md("shoe", c.Top+lap), md("top", c.Top)},
			Result: md("lap", lap), Source: "length along the hole"}
		step.Inputs[0].Ref, step.Inputs[1].Ref = refs[1], refs[0]
		return rules.Num(float64(lap), units.MDLength, refs...).Where(w.AtMD(c.Top, "top of the liner")).By(step)
	})

// Hole is the hole a string is set in.
var Hole = ofString("geometry.hole", units.Length, true,
	"Diameter of the hole the string is set in: bit, or reamed size where it's reamed.",
	func(w *well.Well, str int) rules.Measure {
		h, err := w.HoleOf(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		d, ref, err := h.Bore()
		if err != nil {
			return rules.From(err)
		}
		return rules.Num(float64(d), units.Length, ref)
	})

// Bit is the bit a hole is drilled with.
var Bit = ofHole("geometry.bit", units.Length, true, "Diameter of the bit the section is drilled with, not what it's reamed to.",
	func(_ *well.Well, h *well.Hole) rules.Measure {
		if !h.Plan.Bit.Known() {
			return rules.From(well.Lack(h.Plan.Ref, "the bit size of %s", h.Plan.Name.V))
		}
		return rules.Num(float64(h.Plan.Bit.V), units.Length, h.Plan.Bit.Ref)
	})

// FirstOfRole is whether no earlier string has the same role.
var FirstOfRole = &rules.Check{Name: "string.first_of_role", About: rules.String, Type: rules.TruthType,
	Doc: "True for the first string of its role, in the order they're run.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		role := w.Plan.Strings[s.String].Role
		if !role.Known() {
			return rules.From(well.Lack(s.Ref, "the role of %s", s.Name))
		}
		for _, i := range w.InOrder() {
			if w.Plan.Strings[i].Role.V == role.V {
				return rules.Truth(i == s.String, role.Ref)
			}
		}
		return rules.Truth(true, role.Ref)
	}}

// Dogleg is the sharpest bend of the planned path.
var Dogleg = &rules.Check{Name: "geometry.dogleg", About: rules.Survey, Type: rules.NumType(units.Curvature),
	Doc: "Greatest dogleg severity between survey stations, minimum curvature. S. J. Sawaryn and J. L. Thorogood, SPE 84246 (2005).",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		m, source, err := w.Depths()
		if err != nil {
			return rules.From(err, s.Ref)
		}
		path, ok := m.(*survey.Path)
		switch {
		case source == well.FromVertical:
			return rules.None("the well is vertical")
		case !ok:
			return rules.From(well.Lack(s.Ref, "a survey"))
		}
		_, end := path.Range()
		k, err := path.MaxDLS(0, end)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Num(float64(k), units.Curvature, w.Plan.Survey[0].Ref)
	}}
