package coverage

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Sacks is how much cement is pumped round a string.
var Sacks = rules.OfString("coverage.sacks", rules.NumType(units.Mass),
	"Cement of all slurries of the string, as stated, else volume over yield, in sacks of 94 lb; squeezes aren't counted.",
	func(w *well.Well, str int) rules.Measure {
		sum, refs, err := w.Sacks(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(sum), units.Mass, refs...)
	})

// AnnulusFill is slurry over the space it's to fill.
var AnnulusFill = rules.OfString("coverage.annulus_fill", rules.NumType(units.None),
	"Slurry of the string, less what stays in the shoe track, over its theoretical annulus from the shoe to the ground or the sea bed: bit size, no enlargement; inside the string before its nominal bore. Squeezes aren't counted.",
	func(w *well.Well, str int) rules.Measure {
		f, err := w.FillToGround(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		fill := float64(f.Slurry) / float64(f.Space)
		return rules.Num(fill, units.None, f.Refs...).By(expr.Working{Formula: "slurry / space",
			Inputs: []expr.Input{input("slurry", f.Slurry, units.Volume, f.Refs[0]), input("space", f.Space, units.Volume, 0)},
			Result: input("fill", units.Fraction(fill), units.None, 0), Source: "volumes"})
	})

// DepthBelowGround is how deep the well is, true vertical.
var DepthBelowGround = rules.OfWell("coverage.depth_below_ground", rules.NumType(units.TVDLength),
	"Deepest point of the well's holes below the ground or sea bed, true vertical; from the rotary where its height over the ground isn't stated.",
	func(w *well.Well) rules.Measure {
		z, ref, err := w.DeepestTVD()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		ground, _, err := w.Surroundings()
		if err != nil {
			return rules.From(err, ref)
		}
		return rules.Num(float64(z-ground), units.TVDLength, ref)
	})

// FreshWater is whether there is fresh water to protect.
var FreshWater = rules.OfWell("coverage.fresh_water", rules.TruthType,
	"True when the plan gives a base of protected water or a formation that holds fresh or usable water; false where formations are listed and none does. Not known where neither is listed.",
	func(w *well.Well) rules.Measure {
		fresh, ref, err := w.FreshWater()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		return rules.Truth(fresh, ref)
	})

// HeldInside is the pressure on the annulus inside a string.
var HeldInside = rules.OfString("coverage.held_inside", rules.NumType(units.Pressure),
	"Highest pressure planned on the annulus outside the production string, for the string around it. Not where none is planned.",
	func(w *well.Well, str int) rules.Measure {
		v, err := w.HeldInside(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(v.V), units.Pressure, v.Ref)
	})
