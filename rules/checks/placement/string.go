package placement

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/fluid"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Slips is what hangs in the slips over what crushes the pipe.
var Slips = &rules.Check{Name: "placement.on_slips", About: rules.Segment, Type: rules.NumType(units.None),
	Doc: "Buoyed weight of a segment and of all below it over the pull at which slips begin to crush it: Sy A / sqrt(1 + x + x^2), x = D K / (2 L), K = 4.00 (taper 9 deg 27' 45\", friction 0.08), L the stated contact length (W. Reinhold and J. Spiri, World Oil, October 1959). Pipe full of the mud it is run in; no drag, no overpull.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		seg := &w.Plan.Strings[s.String].Segments[s.Segment]
		o, err := w.OnSlips(s.String, s.Segment)
		if err != nil {
			return rules.From(err, seg.Ref)
		}
		m := rules.Num(float64(o.Load)/float64(o.Crush), units.None, refs(o.Refs...)...)
		p := o.Rated
		step, err := fluid.SlipCrushWorking(p.Body.Yield, fluid.Tube{OD: p.Size.OD, ID: p.Size.ID()}, w.Plan.Rig.SlipLength.V, o.Lateral)
		if err != nil {
			return rules.From(err, seg.Ref)
		}
		return m.With("hung with this pipe at the rotary").
			By(step, over("part", input("load", o.Load, units.Force, 0), input("crush", o.Crush, units.Force, 0), "buoyed weight over slip crushing"))
	}}

// SurgeSpare is what running a string leaves under fracture pressure.
var SurgeSpare = &rules.Check{Name: "placement.surge_spare", About: rules.String, Type: rules.NumType(units.Pressure),
	Doc: "Fracture pressure, low estimate, less mud column and surge pressure, least over the open hole, while a string with a closed end reaches bottom at its highest speed (stated; else 1.5 times the average). Mud goes past the pipe at v (Kc + d^2/(D^2 - d^2)), Kc the clinging constant of laminar or turbulent flow (J. A. Burkhardt, JPT, June 1961), its friction as API RP 13D. Holes at bit or reamed size; the pipe that runs a liner isn't in it. Swab isn't looked at.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		str := &w.Plan.Strings[s.String]
		g, err := w.Surge(s.String)
		if err != nil {
			return rules.From(err, str.Ref)
		}
		kind := "1.5 times the average speed"
		if g.Peak {
			kind = "highest speed as stated"
		}
		note := fmt.Sprintf("%s, %s; surge %s; at most %s leaves the rock whole", kind, show(w, g.Speed, units.Speed), show(w, g.Added, units.Pressure), show(w, g.Fastest, units.Speed))
		steps := []expr.Working{{Formula: "mud + surge", Inputs: []expr.Input{input("mud", g.Column-g.Added, units.Pressure, 0), input("surge", g.Added, units.Pressure, g.Ref)},
			Result: input("column", g.Column, units.Pressure, 0), Source: "mud column and friction along the string"},
			less("spare", input("fracture", g.Rock, units.Pressure, g.RockMargin.Ref), input("column", g.Column, units.Pressure, 0), "closed end, low estimate of fracture pressure")}
		return rules.Num(float64(g.Spare), units.Pressure, refs(g.Ref, g.RockMargin.Ref)...).
			Where(w.AtMD(g.MD, "where it is least")).With(note).By(steps...)
	}}
