package pressure

import (
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// ShoeBelowWater is how far the shoe that protects water lies below it.
var ShoeBelowWater = shoeDepth("shoe.below_water", "shoe - line",
	"Shoe of the string that protects water below the deepest base of protected water, true vertical. That string is the cemented surface string, else the outermost cemented string inside the conductor, else the outermost cemented one. Depths from ground are converted to the rotary when read.",
	(*well.Well).ProtectedWater)

// ShoeOverLeast is how far the surface shoe lies below the least depth an
// agency sets.
var ShoeOverLeast = shoeDepth("shoe.over_least", "shoe - line",
	"Shoe of the string that protects water below the deepest \"shoe at least\" depth an agency set, true vertical.",
	func(w *well.Well) (depth, string, error) { return w.AgencyDepth("shoe_at_least") })

// ShoeUnderMost is how far the surface shoe lies above the greatest depth an
// agency sets.
var ShoeUnderMost = shoeDepth("shoe.under_most", "line - shoe",
	"Shoe of the string that protects water above the shallowest \"shoe at most\" depth an agency set, true vertical.",
	func(w *well.Well) (depth, string, error) { return w.AgencyDepth("shoe_at_most") })

func shoeDepth(name, formula, doc string, line func(*well.Well) (depth, string, error)) *rules.Check {
	return rules.OfString(name, rules.NumType(units.TVDLength), doc, func(w *well.Well, str int) rules.Measure {
		if by := w.WaterString(); by != str {
			if by < 0 {
				return rules.From(well.Lack(w.Plan.Strings[str].Ref, "a cemented string over the protected water"))
			}
			return rules.None("the water is protected by " + w.Plan.Strings[by].Name.V)
		}
		v, what, err := line(w)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		z, ref, err := w.ShoeTVD(str)
		if err != nil {
			return rules.From(err, v.Ref)
		}
		d := float64(z - v.V)
		if formula == "line - shoe" {
			d = -d
		}
		return rules.Num(d, units.TVDLength, ref, v.Ref).Where(well.AtTVD(z, "shoe")).With(what).
			By(expr.Working{Formula: formula, Inputs: []expr.Input{tvd("shoe", z, ref), tvd("line", v.V, v.Ref)},
				Result: tvd("spare", units.TVD(d), 0), Source: "true vertical depths below the rotary"})
	})
}

// ShoeUnsound is whether the rock at a shoe is stated to be unfit for it.
var ShoeUnsound = rules.OfString("shoe.unsound_rock", rules.TruthType,
	"True when the formation at the shoe is stated to be not competent, to take losses or to be mobile, or holds coal or salt. Nothing stated is false. Common practice, no source.",
	func(w *well.Well, str int) rules.Measure {
		i, none := rock(w, str)
		if none != nil {
			return *none
		}
		if i < 0 {
			return rules.Truth(false, w.Plan.Strings[str].Shoe.Ref).With("no formation is listed at the shoe")
		}
		why, ref := w.Unsound(i)
		f := w.Plan.Formations[i].Name.V
		if why == "" {
			return rules.Truth(false, ref).With(f)
		}
		return rules.Truth(true, w.Plan.Strings[str].Shoe.Ref, ref).With(f + ": " + why)
	})

// ShoeUnsoundBelow is whether a shoe test would open unfit rock.
var ShoeUnsoundBelow = rules.OfString("shoe.unsound_below", rules.TruthType,
	"True when a formation stated to be not competent, lossy or mobile, or of coal or salt, begins within the new hole a shoe test opens below the shoe (as planned, else 20 ft): the test would measure that rock. Common practice, no source.",
	func(w *well.Well, str int) rules.Measure {
		i, reach, err := w.UnsoundBelow(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		shoe := w.Plan.Strings[str].Shoe.Ref
		within := "within " + units.Show(float64(reach), units.MDLength, w.Plan.System, false) + " below the shoe"
		if i < 0 {
			return rules.Truth(false, shoe, w.Plan.Strings[str].Ref).With("nothing unfit is listed " + within)
		}
		why, ref := w.Unsound(i)
		return rules.Truth(true, shoe, ref).With(w.Plan.Formations[i].Name.V + " (" + why + ") begins " + within)
	})

// ShoeRockStated is whether a plan says what a shoe stands in.
var ShoeRockStated = rules.OfString("shoe.rock_stated", rules.TruthType,
	"True when the plan says whether the formation at the shoe can hold it.",
	func(w *well.Well, str int) rules.Measure {
		i, none := rock(w, str)
		if none != nil {
			return *none
		}
		ref := w.Plan.Strings[str].Shoe.Ref
		if i < 0 {
			return rules.Truth(false, ref).With("no formation is listed at the shoe")
		}
		why, _ := w.Unsound(i)
		return rules.Truth(why != "" || w.Plan.Formations[i].Competent.Known(), ref, w.Plan.Formations[i].Ref).With(w.Plan.Formations[i].Name.V)
	})

func rock(w *well.Well, str int) (int, *rules.Measure) {
	s := &w.Plan.Strings[str]
	if _, err := w.HoleOf(str); err != nil {
		m := rules.From(err, s.Ref)
		return -1, &m
	}
	i, err := w.Rock(str)
	if err != nil {
		m := rules.From(err, s.Ref)
		return -1, &m
	}
	return i, nil
}

// ShoeDrilledOut is whether a hole under a BOP starts at the shoe.
var ShoeDrilledOut = rules.OfString("shoe.drilled_out", rules.TruthType,
	"True when a hole with a BOP and mud returns to the rig is drilled from the string's shoe.",
	func(w *well.Well, str int) rules.Measure {
		_, err := w.DrilledOut(str)
		switch why := err.(type) {
		case nil:
			return rules.Truth(true, w.Plan.Strings[str].Ref)
		case well.Absent:
			return rules.Truth(false, w.Plan.Strings[str].Ref).With(string(why))
		}
		return rules.From(err, w.Plan.Strings[str].Ref)
	})

// MudBelow is the heaviest mud of the hole drilled from a shoe.
var MudBelow = rules.OfString("pressure.mud_below", rules.NumType(units.Density),
	"Heaviest mud planned in the hole drilled from the string's shoe.",
	func(w *well.Well, str int) rules.Measure {
		h, err := w.DrilledOut(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		mud, ref, err := h.HeaviestMud()
		if err != nil {
			return rules.From(err)
		}
		return rules.Num(float64(mud), units.Density, ref)
	})

// PoreBelow is the steepest pore pressure of the hole drilled from a shoe.
var PoreBelow = rules.OfString("pressure.pore_below", rules.NumType(units.Density),
	"Greatest pore pressure, high estimate, of the hole drilled from the string's shoe, as an equivalent mud weight.",
	func(w *well.Well, str int) rules.Measure {
		h, err := w.DrilledOut(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		p, z, ref, err := w.PoreSteepest(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Num(float64(well.EMW(p, 0, z)), units.Density, ref).Where(well.AtTVD(z, "where pore pressure is steepest"))
	})

// ShoeTest is the strongest shoe test planned.
var ShoeTest = rules.OfString("shoe.test_emw", rules.NumType(units.Density),
	"Strongest shoe test planned at the string, as an equivalent mud weight at the shoe: as stated, else fluid density + p / (g z). Bourgoyne et al., Applied Drilling Engineering (SPE, 1986), ch. 6.",
	func(w *well.Well, str int) rules.Measure {
		emw, t, err := w.ShoeTest(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		m := rules.Num(float64(emw), units.Density, first(t.EMW.Ref, t.Pressure.Ref)).With(t.Name.V)
		if t.EMW.Known() {
			return m
		}
		z, ref, err := w.ShoeTVD(str)
		if err != nil {
			return rules.From(err)
		}
		return m.By(expr.Working{Formula: "fluid + pressure / (g * shoe)",
			Inputs: []expr.Input{density("fluid", t.Fluid.V, t.Fluid.Ref), stress("pressure", t.Pressure.V, t.Pressure.Ref), tvd("shoe", z, ref)},
			Result: density("equivalent", emw, 0), Source: "Bourgoyne et al., Applied Drilling Engineering (SPE, 1986), ch. 6"})
	})

// ShoeTestNewHole is the new hole drilled before a shoe test.
var ShoeTestNewHole = rules.OfString("shoe.test_new_hole", rules.NumType(units.Length),
	"New hole planned below the shoe before its test.",
	func(w *well.Well, str int) rules.Measure {
		_, t, err := w.ShoeTest(str)
		switch {
		case t == nil && err != nil:
			return rules.From(err, w.Plan.Strings[str].Ref)
		case !t.NewHole.Known():
			return rules.From(well.Lack(t.Ref, "the new hole drilled before %s", t.Name.V))
		}
		return rules.Num(float64(t.NewHole.V), units.Length, t.NewHole.Ref)
	})

func first(refs ...place.Ref) place.Ref {
	for _, r := range refs {
		if r != 0 {
			return r
		}
	}
	return 0
}
