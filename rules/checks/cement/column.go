package cement

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// FractureSpare is what is left under fracture pressure when a stage ends.
var FractureSpare = ofStage("cement.fracture_spare", rules.NumType(units.Pressure),
	"Fracture pressure, low estimate, less the annular column at the end of the stage, least along the open hole: shoes, formation tops, rows of the curve. Slurries by volume, mud above them, spacers taken as mud; the worse of the enlarged hole and one at gauge, where they rise higher, unless it is measured by caliper. From 15 m below the ground or the sea bed. Static: friction while pumping isn't in it.",
	func(j job) rules.Measure {
		m, err := j.CementUnderFracture(j.str, j.st)
		return rock(j, m, err, "fracture", "column")
	})

// PoreSpare is what the column at the end of a stage has over pore pressure.
var PoreSpare = ofStage("cement.pore_spare", rules.NumType(units.Pressure),
	"Annular column at the end of the stage, before the cement gels, less pore pressure, high estimate: least over the tops of the open zones that can flow. Slurries by volume, mud above them, spacers taken as mud; the worse of the enlarged hole and one at gauge, unless it is measured by caliper. Static.",
	func(j job) rules.Measure {
		m, err := j.CementOverPore(j.str, j.st)
		return rock(j, m, err, "column", "pore")
	})

func rock(j job, m well.EndMargin, err error, upper, lower string) rules.Measure {
	if err != nil {
		return rules.From(err, j.stage.Ref)
	}
	hi, lo := m.Rock, m.Column
	if upper == "column" {
		hi, lo = m.Column, m.Rock
	}
	note := "standing still, friction not counted"
	if h := m.Hole.String(); h != "" {
		note += "; " + h
	}
	return rules.Num(float64(m.Spare), units.Pressure, present(j.stage.Ref, m.Ref)...).Where(j.AtMD(m.MD, "where it is least")).
		With(note).
		By(less("spare", input(upper, hi, units.Pressure, m.Ref), input(lower, lo, units.Pressure, 0), "hydrostatic columns"))
}

// FloatDifferential is what a float must hold from below.
var FloatDifferential = ofStage("cement.float_differential", rules.NumType(units.Pressure),
	"Pressure outside less pressure inside at the collar the plug lands on, bled off at the end of the stage: annular column against the displacement fluid from the rotary.",
	func(j job) rules.Measure {
		out, in, at, err := j.Well.FloatDifferential(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		return rules.Num(float64(out-in), units.Pressure, j.stage.Ref).Where(j.AtMD(at, "landing collar")).
			By(less("differential", input("outside", out, units.Pressure, 0), input("inside", in, units.Pressure, 0), "hydrostatic columns"))
	})

// FloatRating is what the floats of a string are rated for.
var FloatRating = rules.OfString("cement.float_rating", rules.NumType(units.Pressure),
	"Least differential rating from below among the float shoe and float collar of a string, as stated.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		best, ref := units.Pascals(0), place.Ref(0)
		for i := range s.Accessories {
			a := &s.Accessories[i]
			if a.Kind.V != "float_shoe" && a.Kind.V != "float_collar" || !a.RatingDifferential.Known() {
				continue
			}
			if ref == 0 || a.RatingDifferential.V < best {
				best, ref = a.RatingDifferential.V, a.RatingDifferential.Ref
			}
		}
		if ref == 0 {
			return rules.From(well.Lack(s.Ref, "the differential rating of the floats of %s", s.Name.V), s.Ref)
		}
		return rules.Num(float64(best), units.Pressure, ref)
	})

// BumpPressure is the surface pressure at the bump.
var BumpPressure = ofStage("cement.bump_pressure", rules.NumType(units.Pressure), "Total surface pressure when the plug is bumped: as stated for the stage, else for the string. Not for a job without a plug.",
	func(j job) rules.Measure {
		if none := unplugged(j); none != nil {
			return *none
		}
		if j.stage.BumpPressure.Known() {
			return rules.Num(float64(j.stage.BumpPressure.V), units.Pressure, j.stage.BumpPressure.Ref)
		}
		return stated(j.string.BumpPressure, units.Pressure, j.stage.Ref, "the bump pressure of %s", j.string.Name.V)
	})

// PumpSide is what the pump side of a cement job may see.
var PumpSide = &rules.Check{Name: "cement.pump_side_rating", About: rules.Well, Type: rules.NumType(units.Pressure),
	Doc: "Least of the stated ratings of cementing head, line and pump.",
	Measure: func(w *well.Well, _ rules.Subject) rules.Measure {
		r := &w.Plan.Rig
		best, ref, name := units.Pascals(0), place.Ref(0), ""
		var lacks []expr.Lack
		for _, v := range []struct {
			of string
			v  units.Pascals
			r  place.Ref
		}{{"cementing head", r.HeadPressure.V, r.HeadPressure.Ref}, {"cementing line", r.LinePressure.V, r.LinePressure.Ref}, {"pump", r.PumpPressure.V, r.PumpPressure.Ref}} {
			if v.r == 0 {
				lacks = append(lacks, expr.Lack{Input: "the rating of the " + v.of, Ref: r.Ref})
			} else if ref == 0 || v.v < best {
				best, ref, name = v.v, v.r, v.of
			}
		}
		if len(lacks) > 0 {
			return rules.Lacking([]place.Ref{r.Ref}, lacks...)
		}
		return rules.Num(float64(best), units.Pressure, ref).With(name + " governs")
	}}

// CentralizedBottomThree is whether the bottom joints are centralized.
var CentralizedBottomThree = rules.OfString("cement.centralized_bottom_three", rules.TruthType,
	"True when each of the bottom three joints, from the shoe joint up, carries a centralizer at least; joints as long as their range says, 40 ft where none is stated. Not for a string that isn't cemented, or driven or jetted.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		if !well.Cemented(s) {
			return rules.None("the string isn't cemented")
		}
		if s.SetBy.V == "driven" || s.SetBy.V == "jetted" {
			return rules.None("the string is " + s.SetBy.V)
		}
		n, err := w.CentralizedJoints(str, 3)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Truth(n == 3, s.Centralizers[0].Ref).With(fmt.Sprintf("%d of the bottom three joints", n))
	})

// CentralizersShort is centralizers planned over those listed.
var CentralizersShort = rules.OfString("cement.centralizers_off", rules.NumType(units.None),
	"Centralizers listed by interval less the number the plan counts, without sign; intervals by count, else spacing, else joints.",
	func(w *well.Well, str int) rules.Measure {
		s := &w.Plan.Strings[str]
		if !s.CentralizersPlanned.Known() || len(s.Centralizers) == 0 {
			return rules.None("the plan doesn't give both a number and intervals")
		}
		n, err := w.CentralizersListed(str)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		off := n - s.CentralizersPlanned.V
		if off < 0 {
			off = -off
		}
		return rules.Num(float64(off), units.None, s.CentralizersPlanned.Ref, s.Centralizers[0].Ref).
			With(fmt.Sprintf("%d listed, %d planned", n, s.CentralizersPlanned.V))
	})
