// Package coverage holds the checks that rules of several countries ask in much
// the same way: how far cement comes up, how strong it is where, what is
// tested to what, how the hole fits the pipe.
package coverage

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

var text = expr.Type{Kind: expr.Text}

func of(kind rules.Kind, name string, t expr.Type, doc string, measure func(w *well.Well, s rules.Subject) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: kind, Type: t, Doc: doc, Measure: measure}
}

func input[Q ~float64](name string, x Q, d units.Dim, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: d, Ref: ref}
}

// less is the step a - b.
func less(result string, a, b expr.Input, source string) expr.Working {
	return expr.Working{Formula: a.Name + " - " + b.Name, Inputs: []expr.Input{a, b},
		Result: expr.Input{Name: result, SI: a.SI - b.SI, Dim: a.Dim}, Source: source}
}

// how says what a top of cement rests on.
func how(c well.CementReach) string {
	switch {
	case c.None:
		return "no cement there: the shoe counts as its top"
	case c.Sheath.ByVolume:
		return "top of cement by volume, enlargement counted"
	}
	return "top of cement as stated, not worked out from volumes"
}

// above is how far cement stands above a depth outside a string.
func above(w *well.Well, str int, at units.MD, ref place.Ref) rules.Measure {
	c, err := w.CementAt(str, at)
	if err != nil {
		return rules.From(err, w.Plan.Strings[str].Ref)
	}
	return rules.Num(float64(at-c.Top), units.MDLength, c.Ref, ref).Where(w.AtMD(c.Top, "top of cement")).With(how(c)).
		By(less("above", input("place", at, units.MDLength, ref), input("top_of_cement", c.Top, units.MDLength, c.Ref), "lengths along the hole"))
}

// AboveShoe is cement above a string's shoe.
var AboveShoe = rules.OfString("coverage.above_shoe", rules.NumType(units.MDLength),
	"Cement above the shoe of the string, along the hole, without a gap; zero for a string that isn't cemented. By volumes with enlargement where they're planned, else from the stated top.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return above(w, str, c.Shoe, c.Plan.Shoe.Ref)
	})

// AbovePrevious is cement inside the string before.
var AbovePrevious = rules.OfString("coverage.above_previous_shoe", rules.NumType(units.MDLength),
	"Cement of the string above the shoe the hole starts from, along the hole, without a gap; below zero where it begins under that shoe. Not for the first string.",
	func(w *well.Well, str int) rules.Measure {
		at, _, ref, err := w.PreviousShoe(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return above(w, str, at, ref)
	})

// PreviousLength is how much of the string is inside the one before.
var PreviousLength = rules.OfString("coverage.length_in_previous", rules.NumType(units.MDLength),
	"Length of the string above the shoe the hole starts from, along the hole: cement can stand no higher inside it.",
	func(w *well.Well, str int) rules.Measure {
		at, _, ref, err := w.PreviousShoe(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(at-c.Top), units.MDLength, ref, c.Plan.Top.Ref)
	})

// AboveZone is cement above a zone the string's hole opens.
var AboveZone = of(rules.Zone, "coverage.above_zone", rules.NumType(units.MDLength),
	"Cement above the top of a zone, along the hole, without a gap; below zero the nearest cement begins below the zone's top. Where the string isn't cemented its shoe counts as the top of cement.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		at, _, ref, err := w.FormationTop(s.Zone)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return above(w, s.String, at, ref)
	})

// BelowGround is how far cement stays below ground or sea bed.
var BelowGround = rules.OfString("coverage.cement_below_ground", rules.NumType(units.MDLength),
	"Top of cement below the ground or, offshore, the sea bed, along the hole; zero where the cement comes up to it or over it. Where it's broken by a gap the cement round the shoe counts. A string that isn't cemented has its top of cement at its shoe. Onshore from the rotary where its height isn't stated.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		z, _, err := w.Surroundings()
		if err != nil {
			return rules.From(err, c.Plan.Ref)
		}
		reach, err := w.CementAt(str, c.Shoe)
		if err != nil {
			return rules.From(err, c.Plan.Ref)
		}
		at := max(units.MD(z), c.Top)
		return rules.Num(float64(max(reach.Top-at, 0)), units.MDLength, reach.Ref).Where(w.AtMD(reach.Top, "top of cement")).With(how(reach)).
			By(expr.Working{Formula: "greater(top_of_cement - ground, none)", Inputs: []expr.Input{
				input("top_of_cement", reach.Top, units.MDLength, reach.Ref), input("ground", at, units.MDLength, 0), input("none", units.MD(0), units.MDLength, 0)},
				Result: input("below", max(reach.Top-at, 0), units.MDLength, 0), Source: "depths along the hole"})
	})

// ShoeAboveHydrocarbon is how far a shoe lies above oil or gas.
var ShoeAboveHydrocarbon = rules.OfString("coverage.shoe_above_hydrocarbon", rules.NumType(units.MDLength),
	"Top of the shallowest formation that holds oil or gas below the shoe of the string, along the hole; below zero where the string is set through it. Not where no formation listed holds any.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		at, zone, err := w.UppermostHydrocarbon()
		if err != nil {
			return rules.From(err, c.Plan.Ref)
		}
		f := &w.Plan.Formations[zone]
		return rules.Num(float64(at-c.Shoe), units.MDLength, c.Plan.Shoe.Ref, f.Ref).With(f.Name.V).
			By(less("above", input("zone", at, units.MDLength, f.Ref), input("shoe", c.Shoe, units.MDLength, c.Plan.Shoe.Ref), "lengths along the hole"))
	})

// ShoeBelowGround is how deep a shoe is.
var ShoeBelowGround = rules.OfString("coverage.shoe_below_ground", rules.NumType(units.TVDLength),
	"Shoe of the string below the ground or sea bed, true vertical; from the rotary where its height over the ground isn't stated.",
	func(w *well.Well, str int) rules.Measure {
		z, ref, err := w.ShoeTVD(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		ground, stated, err := w.Surroundings()
		if err != nil {
			return rules.From(err, ref)
		}
		m := rules.Num(float64(z-ground), units.TVDLength, ref)
		if !stated {
			m = m.With("from the rotary: its height over the ground isn't stated")
		}
		return m
	})

// ShoeMoved is a change of setting depth.
var ShoeMoved = rules.OfString("coverage.shoe_moved", rules.NumType(units.TVDLength),
	"Planned shoe against the approved one, true vertical, without sign. Not where no approved depth is given.",
	func(w *well.Well, str int) rules.Measure {
		d, refs, err := w.ShoeMoved(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(d), units.TVDLength, refs...)
	})

// TopProof is how a top of cement will be proven.
var TopProof = rules.OfString("coverage.top_proven_by", text,
	"How the top of cement will be proven: returns, volume, temperature, bond_log, pressure, none; volume where the plan is silent, since a planned top is worked out.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		return rules.Text(s.TopProvenBy.Or("volume"), s.TopProvenBy.Ref, s.Ref)
	})

// Wait is the shortest wait on cement.
var Wait = rules.OfString("coverage.wait", rules.NumType(units.Time),
	"Wait on cement planned from plug down, the shortest over the stages of the string. Not for a string that isn't cemented.",
	func(w *well.Well, str int) rules.Measure {
		v, err := w.ShortestWait(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(v.V), units.Time, v.Ref)
	})

// uncentralized is the longest stretch without a centralizer from the shoe up to
// the top of the string or the ground, and the length of a joint.
func uncentralized(w *well.Well, str int) (gap, joint units.MD, ref place.Ref, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, 0, 0, err
	}
	ground, _, err := w.Surroundings()
	if err != nil {
		return 0, 0, 0, err
	}
	return w.Uncentralized(str, max(c.Top, units.MD(ground)))
}

// Uncentralized is the longest stretch without a centralizer.
var Uncentralized = rules.OfString("coverage.joints_per_centralizer", rules.NumType(units.None),
	"Greatest distance along the string without a centralizer, from the shoe up to the top of the string or the ground, in joints as long as the range at the shoe says, 40 ft where none is stated. Common practice, no source.",
	func(w *well.Well, str int) rules.Measure {
		gap, joint, ref, err := uncentralized(w, str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		n := float64(gap / joint)
		return rules.Num(n, units.None, ref).With(fmt.Sprintf("%s apart at most", units.Show(float64(gap), units.MDLength, w.Plan.System, false))).
			By(expr.Working{Formula: "gap / joint", Inputs: []expr.Input{input("gap", gap, units.MDLength, ref), input("joint", joint, units.MDLength, 0)},
				Result: input("joints", n, units.None, 0), Source: "lengths along the hole"})
	})
