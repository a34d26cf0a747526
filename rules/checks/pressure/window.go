package pressure

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

const emwDoc = " An equivalent mud weight counts to the rotary: p / (g z). Judged at both ends of the open hole, every row of the curve and both sides of a step; nothing is extrapolated. Bourgoyne et al., Applied Drilling Engineering (SPE, 1986), ch. 6 and 7."

// MudOverPore is mud over pore pressure.
var MudOverPore = profile("pressure.mud_over_pore", "mud - curve", "pore pressure, high estimate",
	"Least of lightest mud less pore pressure, high estimate, along the open hole, as an equivalent mud weight; back pressure of managed drilling counts."+emwDoc,
	(*well.Well).MudOverPore)

// FractureOverMud is fracture pressure over mud standing still.
var FractureOverMud = profile("pressure.fracture_over_mud", "curve - mud", "fracture pressure, low estimate",
	"Least of fracture pressure, low estimate, less heaviest mud along the open hole, as an equivalent mud weight; back pressure of managed drilling counts."+emwDoc,
	(*well.Well).FractureOverMud)

// FractureOverECD is fracture pressure over mud on the move.
var FractureOverECD = profile("pressure.fracture_over_ecd", "curve - mud", "fracture pressure, low estimate",
	"Least of fracture pressure, low estimate, less the highest equivalent circulating density planned along the open hole."+emwDoc,
	(*well.Well).FractureOverECD)

func profile(name, formula, curve, doc string, margin func(*well.Well, *well.Hole) (well.Margin, error)) *rules.Check {
	return rules.OfHole(name, rules.NumType(units.Density), doc, func(w *well.Well, h *well.Hole) rules.Measure {
		m, err := margin(w, h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		out := rules.Num(float64(m.Spare), units.Density, m.Refs...).Where(well.AtTVD(m.At, "where it is least")).With(curve)
		out.Gaps = m.Gaps
		return out.By(expr.Working{Formula: formula, Inputs: []expr.Input{density("mud", m.Mud, m.Refs[0]), density("curve", m.Curve, m.Refs[1])},
			Result: density("spare", m.Spare, 0), Source: "equivalent mud weights to the rotary"})
	})
}

// MayFlow is whether a zone of the hole can flow.
var MayFlow = rules.OfHole("pressure.may_flow", rules.TruthType,
	"True when a formation of the hole can flow or the well is exploration; false where formations are listed and none can. Not known where none is listed.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		flows, err := w.MayFlow(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Truth(flows, h.Plan.Ref)
	})

// BottomTVD is how deep the open hole goes.
var BottomTVD = rules.OfHole("pressure.bottom_tvd", rules.NumType(units.TVDLength), "True vertical depth of the deepest point of the hole.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		s, err := w.OpenHole(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Num(float64(s.Bottom), units.TVDLength, h.Plan.To.Ref, h.Plan.Ref)
	})

// PoreBottom is the pore pressure at the deepest point of the hole.
var PoreBottom = rules.OfHole("pressure.pore_bottom", rules.NumType(units.Pressure), "Pore pressure, high estimate, at the deepest point of the hole.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		s, err := w.OpenHole(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		p, ref, err := w.PoreIn(h, s.Bottom)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Num(float64(p), units.Pressure, ref).Where(well.AtTVD(s.Bottom, "deepest point of the hole"))
	})

// PoreSteepest is the pore pressure where it is greatest for its depth.
var PoreSteepest = steepest("pressure.pore_steepest", rules.NumType(units.Pressure), "Pore pressure, high estimate, at the depth of the open hole where it is greatest as an equivalent mud weight.",
	func(p units.Pascals, _ units.TVD) (float64, units.Dim) { return float64(p), units.Pressure })

// PoreSteepestTVD is that depth.
var PoreSteepestTVD = steepest("pressure.pore_steepest_tvd", rules.NumType(units.TVDLength), "True vertical depth of the open hole where pore pressure, high estimate, is greatest as an equivalent mud weight.",
	func(_ units.Pascals, z units.TVD) (float64, units.Dim) { return float64(z), units.TVDLength })

func steepest(name string, t expr.Type, doc string, pick func(units.Pascals, units.TVD) (float64, units.Dim)) *rules.Check {
	return rules.OfHole(name, t, doc, func(w *well.Well, h *well.Hole) rules.Measure {
		p, z, ref, err := w.PoreSteepest(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		si, dim := pick(p, z)
		return rules.Num(si, dim, ref).Where(well.AtTVD(z, "where pore pressure is steepest"))
	})
}
