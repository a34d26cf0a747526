package coverage

import (
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// shoeUnder is how far a shoe lies under a level, true vertical; level gives its
// depth, where it stands in the plan and what to say of it.
func shoeUnder(w *well.Well, str int, result, name string, level func() (units.TVD, place.Ref, string, error)) rules.Measure {
	z, ref, err := w.ShoeTVD(str)
	if err != nil {
		return rules.From(err, w.Plan.Strings[str].Ref)
	}
	at, from, note, err := level()
	if err != nil {
		return rules.From(err, ref)
	}
	return rules.Num(float64(z-at), units.TVDLength, ref, from).With(note).
		By(less(result, input("shoe", z, units.TVDLength, ref), input(name, at, units.TVDLength, from), "true vertical depths"))
}

// ShoeIntoRock is how far a shoe is set into consolidated rock.
var ShoeIntoRock = rules.OfString("coverage.shoe_into_rock", rules.NumType(units.TVDLength),
	"Shoe of the string below the top of the shallowest formation stated competent, true vertical: consolidated rock counts from there. Below zero where the shoe is above it.",
	func(w *well.Well, str int) rules.Measure {
		return shoeUnder(w, str, "into_rock", "rock", func() (units.TVD, place.Ref, string, error) {
			top, f, err := w.ConsolidatedRock()
			if err != nil {
				return 0, 0, "", err
			}
			return top, f.Ref, "rock from " + f.Name.V, nil
		})
	})

// LowestCentralizer is how far above the shoe the first centralizer stands.
var LowestCentralizer = rules.OfString("coverage.lowest_centralizer", rules.NumType(units.MDLength),
	"Lowest centralizer above the shoe of the string, along the hole: the bottom of the lowest interval planned.",
	func(w *well.Well, str int) rules.Measure {
		d, ref, err := w.LowestCentralizer(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(d), units.MDLength, ref)
	})

// UncentralizedLength is the longest stretch without a centralizer.
var UncentralizedLength = rules.OfString("coverage.uncentralized", rules.NumType(units.MDLength),
	"Greatest distance along the string without a centralizer, from the shoe up to the top of the string or the ground.",
	func(w *well.Well, str int) rules.Measure {
		gap, _, ref, err := uncentralized(w, str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(gap), units.MDLength, ref)
	})

// NewPipe is whether all of a string is new.
var NewPipe = rules.OfString("coverage.new_pipe", rules.TruthType,
	"True when every segment of the string is new pipe; new where the plan is silent.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		for i := range s.Segments {
			if v := s.Segments[i].Condition; v.Or("new") != "new" {
				return rules.Truth(false, v.Ref)
			}
		}
		return rules.Truth(true, s.Ref)
	})

// TopAboveDepth is cement above the bottom of the well.
var TopAboveDepth = rules.OfString("coverage.top_above_depth", rules.NumType(units.TVDLength),
	"Deepest point of the well's holes below the top of the cement round the shoe of the string, true vertical. A string that isn't cemented has its top of cement at its shoe.",
	func(w *well.Well, str int) rules.Measure {
		deepest, ref, err := w.DeepestTVD()
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return overCement(w, str, c.Shoe, input("depth", deepest, units.TVDLength, ref))
	})

// AbovePerforations is cement above the uppermost perforation.
var AbovePerforations = rules.OfString("coverage.above_perforations", rules.NumType(units.TVDLength),
	"Top of the perforated or open interval below the top of the cement across it, true vertical; below zero the nearest cement begins under it. A string that isn't cemented has its top of cement at its shoe.",
	func(w *well.Well, str int) rules.Measure {
		p := w.Plan.Completion.PerforatedFrom
		if !p.Known() {
			return rules.From(well.Lack(w.Plan.Completion.Ref, "the top perforation"))
		}
		z, err := w.TVD(p.V)
		if err != nil {
			return rules.From(err, p.Ref)
		}
		return overCement(w, str, p.V, input("perforation", z, units.TVDLength, p.Ref))
	})

// overCement is a true vertical depth less that of the top of the cement
// outside a string at md.
func overCement(w *well.Well, str int, md units.MD, at expr.Input) rules.Measure {
	top, c, err := w.CementTopTVD(str, md)
	if err != nil {
		return rules.From(err, w.Plan.Strings[str].Ref)
	}
	return rules.Num(at.SI-float64(top), units.TVDLength, c.Ref, at.Ref).Where(w.AtMD(c.Top, "top of cement")).With(how(c)).
		By(less("above", at, input("top_of_cement", top, units.TVDLength, c.Ref), "true vertical depths"))
}

// AboveWater is cement above the base of protected water.
var AboveWater = rules.OfString("coverage.above_water", rules.NumType(units.MDLength),
	"Cement above the deepest base of protected water, along the hole, without a gap; below zero it begins under it. Only for the string whose open hole has that base in it.",
	func(w *well.Well, str int) rules.Measure {
		at, ref, err := w.WaterBase(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return above(w, str, at, ref)
	})
