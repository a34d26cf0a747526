package coverage

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Shoes below formations of a kind.
var (
	BelowFresh = belowBase("coverage.shoe_below_fresh",
		"Shoe of the string below the base of the deepest formation listed that holds fresh or usable water, true vertical; its base as stated, else the top of the formation below it. Not where none is listed.", well.Fresh)
	BelowPermafrost = belowBase("coverage.shoe_below_permafrost",
		"Shoe of the string below the base of the deepest formation stated to be permafrost, true vertical. Not where none is.", well.Frozen)
)

func belowBase(name, doc string, has func(*plan.Formation) bool) *rules.Check {
	return rules.OfString(name, rules.NumType(units.TVDLength), doc, func(w *well.Well, str int) rules.Measure {
		return shoeUnder(w, str, "below", "base", func() (units.TVD, place.Ref, string, error) {
			base, f, err := w.DeepestBase(has)
			if err != nil {
				return 0, 0, "", err
			}
			return base, f.Ref, f.Name.V, nil
		})
	})
}

// BelowWells is how far a shoe is under the water wells near the site.
var BelowWells = rules.OfString("coverage.shoe_below_wells", rules.NumType(units.TVDLength),
	"Shoe of the string below the deepest water well listed, true vertical. Not where none is listed: the plan lists those within the distance the rule names.",
	func(w *well.Well, str int) rules.Measure {
		return shoeUnder(w, str, "below", "well", func() (units.TVD, place.Ref, string, error) {
			depth, name, err := w.AgencyDepth("water_well")
			return depth.V, depth.Ref, name, err
		})
	})

// CasingBelowGround is how much of a string is in the ground.
var CasingBelowGround = rules.OfString("coverage.casing_below_ground", rules.NumType(units.MDLength),
	"Shoe of the string below the ground or sea bed, along the hole; from the rotary where its height over the ground isn't stated.",
	func(w *well.Well, str int) rules.Measure {
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		ground, _, err := w.Surroundings()
		if err != nil {
			return rules.From(err, c.Plan.Ref)
		}
		return rules.Num(float64(c.Shoe-units.MD(ground)), units.MDLength, c.Plan.Shoe.Ref)
	})

// AboveShoeTVD is cement above the shoe, upright.
var AboveShoeTVD = rules.OfString("coverage.above_shoe_tvd", rules.NumType(units.TVDLength),
	"Shoe of the string below the top of the cement round it, true vertical; zero for a string that isn't cemented.",
	func(w *well.Well, str int) rules.Measure {
		z, ref, err := w.ShoeTVD(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		c, err := w.Casing(str)
		if err != nil {
			return rules.From(err, ref)
		}
		return overCement(w, str, c.Shoe, input("shoe", z, units.TVDLength, ref))
	})

// AboveZoneTVD is cement above a zone, upright.
var AboveZoneTVD = of(rules.Zone, "coverage.above_zone_tvd", rules.NumType(units.TVDLength),
	"Top of a zone below the top of the cement across it, true vertical; below zero the nearest cement begins under the zone's top. Where the string isn't cemented its shoe counts as the top of cement.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		at, z, ref, err := w.FormationTop(s.Zone)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return overCement(w, s.String, at, input("zone", z, units.TVDLength, ref))
	})

// OpensHydrocarbon is whether a string's hole opens oil or gas.
var OpensHydrocarbon = rules.OfString("coverage.opens_hydrocarbon", rules.TruthType,
	"True when the own hole of the string opens a formation listed to hold oil or gas. Not known where no formation is listed.",
	func(w *well.Well, str int) rules.Measure {
		opens, ref, err := w.OpensHydrocarbon(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Truth(opens, ref)
	})

// Horizontal is whether the well goes level.
var Horizontal = rules.OfWell("coverage.horizontal", rules.TruthType,
	"True when the planned path reaches 80 degrees of inclination. Not known where neither a path is given nor that the hole is vertical. Common practice, no source.",
	func(w *well.Well) rules.Measure {
		level, ref, err := w.Horizontal()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		return rules.Truth(level, ref)
	})

// CementStages is how many stages cement a string.
var CementStages = rules.OfString("coverage.cement_stages", rules.NumType(units.None),
	"Stages that place cement round the string, squeezes and top-ups aside; zero where none is planned in detail.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		return rules.Num(float64(well.CementStages(s)), units.None, s.Ref)
	})

// The strengths of slow slurries.
var (
	StrengthTwoDays  = aged("coverage.strength_48h", "48 hours", 48*hour)
	StrengthFourDays = aged("coverage.strength_96h", "96 hours", 96*hour)
)

// StrengthReached is the best strength of a slurry.
var StrengthReached = of(rules.Fluid, "coverage.strength_reached", rules.NumType(units.Pressure),
	"Greatest compressive strength the laboratory reports of the slurry, at any age and place.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		v, err := w.StrongestPoint(s.String, s.Stage, s.Fluid)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Num(float64(v.V), units.Pressure, v.Ref)
	})

// DropPressure is the fall a test allows, as a pressure.
var DropPressure = of(rules.Test, "coverage.drop_pressure", rules.NumType(units.Pressure),
	"Pressure drop allowed over the holding time: the part allowed times the test pressure.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		t := &w.Plan.Tests[s.Test]
		p, err := well.DropPressure(t)
		if err != nil {
			return rules.From(err, t.Ref)
		}
		return rules.Num(float64(p), units.Pressure, t.Drop.Ref, t.Pressure.Ref)
	})

// HoopOverYield is how far a test stresses the pipe.
var HoopOverYield = rules.OfString("coverage.hoop_over_yield", rules.NumType(units.None),
	"Greatest hoop stress of the strongest casing test as a part of minimum yield strength: p D / (2 t Y) at the surface, nominal diameter and wall, nothing outside. Barlow.",
	func(w *well.Well, str int) rules.Measure {
		p, t, err := w.CasingTest(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		used, r, err := w.HoopOverYield(str, p)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(used), units.None, t.Pressure.Ref, r.Plan.Ref).With(r.Plan.Label())
	})
