package cement

import (
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Cover is how much cement stands above a zone.
var Cover = ofZone("cement.cover", rules.NumType(units.MDLength),
	"Cement above the top of a zone, along the hole, without a gap; below zero the nearest cement begins below the zone's top. By volumes with enlargement where they're planned, else from the stated top. A zone crossed more than once counts from its first crossing.",
	func(w *well.Well, str, zone int) rules.Measure {
		at, _, ref, err := w.FormationTop(zone)
		if err != nil {
			return rules.From(err, w.Plan.Formations[zone].Ref)
		}
		return above(w, str, at, ref)
	})

// CoverShoe is how much cement stands above a string's own shoe.
var CoverShoe = rules.OfString("cement.cover_shoe", rules.NumType(units.MDLength),
	"Cement above the shoe of the string, along the hole, without a gap. By volumes with enlargement where they're planned, else from the stated top.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return above(w, str, c.Shoe, c.Plan.Shoe.Ref)
	})

func above(w *well.Well, str int, at units.MD, ref place.Ref) rules.Measure {
	list, err := w.Sheaths(str)
	if err != nil {
		return rules.From(err, w.Plan.Strings[str].Ref)
	}
	s, ok := well.SheathAt(list, at)
	if !ok {
		return rules.None("no cement is pumped so deep")
	}
	return rules.Num(float64(at-s.Top), units.MDLength, s.Ref, ref).Where(w.AtMD(s.Top, "top of cement")).With(how(s)).
		By(less("cover", md("place", at, ref), md("top_of_cement", s.Top, s.Ref), "lengths along the hole"))
}

// ZoneBelowShoe is how far a zone lies below the previous shoe.
var ZoneBelowShoe = ofZone("cement.zone_below_shoe", rules.NumType(units.MDLength),
	"Top of a zone below the shoe of the previous string, along the hole; below the string's own top where nothing stands above.",
	func(w *well.Well, str, zone int) rules.Measure {
		at, _, ref, err := w.FormationTop(zone)
		if err != nil {
			return rules.From(err, w.Plan.Formations[zone].Ref)
		}
		return belowPrevious(w, str, at, ref)
	})

// ZoneInString is how far a zone lies below the string's own top.
var ZoneInString = ofZone("cement.zone_below_top", rules.NumType(units.MDLength),
	"Top of a zone below the top of the string, along the hole: cement outside the string can reach no higher.",
	func(w *well.Well, str, zone int) rules.Measure {
		at, _, ref, err := w.FormationTop(zone)
		if err != nil {
			return rules.From(err, w.Plan.Formations[zone].Ref)
		}
		return belowTop(w, str, at, ref)
	})

// OpenLength is how far a shoe lies below the previous one.
var OpenLength = rules.OfString("cement.shoe_below_shoe", rules.NumType(units.MDLength),
	"Shoe of the string below the shoe of the previous one, along the hole; below its own top where nothing stands above.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return belowPrevious(w, str, c.Shoe, c.Plan.Shoe.Ref)
	})

// StringLength is the length of a string along the hole.
var StringLength = rules.OfString("cement.shoe_below_top", rules.NumType(units.MDLength),
	"Shoe of the string below its own top, along the hole: cement outside it can be no longer.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return belowTop(w, str, c.Shoe, c.Plan.Shoe.Ref)
	})

func belowPrevious(w *well.Well, str int, at units.MD, ref place.Ref) rules.Measure {
	k, err := w.Previous(str)
	if err != nil {
		return belowTop(w, str, at, ref)
	}
	o, err := w.Casing(k)
	if err != nil {
		return rules.From(err, ref)
	}
	return rules.Num(float64(at-o.Shoe), units.MDLength, ref, o.Plan.Shoe.Ref).With("below the shoe of " + o.Plan.Name.V).
		By(less("below", md("place", at, ref), md("previous_shoe", o.Shoe, o.Plan.Shoe.Ref), "lengths along the hole"))
}

func belowTop(w *well.Well, str int, at units.MD, ref place.Ref) rules.Measure {
	c, err := w.Casing(str)
	if err != nil {
		return rules.From(err, ref)
	}
	return rules.Num(float64(at-c.Top), units.MDLength, ref, c.Plan.Top.Ref).
		By(less("below", md("place", at, ref), md("top_of_string", c.Top, c.Plan.Top.Ref), "lengths along the hole"))
}

// ToIsolate is whether cement must cover a zone.
var ToIsolate = ofZone("cement.zone_to_isolate", rules.TruthType,
	"True for a zone the plan says to isolate and, where it says nothing, one that holds hydrocarbons or protected water, or can flow.",
	func(w *well.Well, _, zone int) rules.Measure {
		return rules.Truth(w.ToIsolate(zone), w.Plan.Formations[zone].Ref)
	})

// GasFlow is the gas flow potential of a gas zone.
var GasFlow = ofZone("cement.gas_flow_potential", rules.NumType(units.None),
	"Gas flow potential factor: pressure that cement over a gas zone loses by gelling to 500 lbf/100 ft2, 4 tau L / (D - d), over the overbalance on the zone when the job ends; L along the hole. Up to 3 minor, up to 8 moderate, above severe. D. L. Sutton, F. Sabins and R. Faul, Oil and Gas Journal, December 1984.",
	gasFlow)

func gasFlow(w *well.Well, str, zone int) rules.Measure {
	f := &w.Plan.Formations[zone]
	if c := f.Contents.V; c != "gas" && c != "oil_and_gas" {
		return rules.None("not a gas zone")
	}
	at, z, ref, err := w.FormationTop(zone)
	if err != nil {
		return rules.From(err, f.Ref)
	}
	list, err := w.Sheaths(str)
	if err != nil {
		return rules.From(err, w.Plan.Strings[str].Ref)
	}
	s, ok := well.SheathAt(list, at)
	if !ok || s.Top >= at {
		return rules.None("no cement stands over the zone")
	}
	st, ok := stageOver(w, str, at)
	if !ok {
		return rules.From(well.Lack(w.Plan.Strings[str].Ref, "the cement slurries of %s", w.Plan.Strings[str].Name.V), ref)
	}
	column, err := w.EndColumn(str, st, at)
	if err != nil {
		return rules.From(err, ref)
	}
	pore, pref, err := w.Pore(z, well.High)
	if err != nil {
		return rules.From(err, ref)
	}
	over := column - pore
	if over <= 0 {
		return rules.None("the zone isn't overbalanced to begin with; that is a finding of its own")
	}
	gap, err := gapAt(w, str, at)
	if err != nil {
		return rules.From(err, ref)
	}
	factor, err := fluid.FlowPotential(at-s.Top, gap.Outer, gap.Inner, over)
	if err != nil {
		return rules.From(err, ref)
	}
	step, err := fluid.FlowPotentialWorking(at-s.Top, gap.Outer, gap.Inner, over)
	if err != nil {
		return rules.From(err, ref)
	}
	return rules.Num(float64(factor), units.None, ref, s.Ref, pref).Where(w.AtMD(at, "gas zone")).With(fluid.FlowBand(factor) + "; " + how(s)).By(step)
}

// stageOver is the stage pumped out deepest whose cement could stand at a depth.
func stageOver(w *well.Well, str int, at units.MD) (int, bool) {
	best, ok := -1, false
	for i := range w.Plan.Strings[str].Stages {
		from, _, _, err := w.StagePath(str, i)
		if err != nil || from < at || w.Plan.Strings[str].Stages[i].Kind.V == "squeeze" {
			continue
		}
		if !ok {
			best, ok = i, true
		} else if b, _, _, _ := w.StagePath(str, best); from < b {
			best = i
		}
	}
	return best, ok
}

func gapAt(w *well.Well, str int, at units.MD) (well.Gap, error) {
	gaps, err := w.Annulus(str)
	for _, g := range gaps {
		if at < g.To {
			return g, err
		}
	}
	if err == nil {
		err = well.Lack(w.Plan.Strings[str].Ref, "an annulus around %s at the zone", w.Plan.Strings[str].Name.V)
	}
	return well.Gap{}, err
}
