package control

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/fluid"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// KickTolerance is the largest kick a hole stands.
var KickTolerance = rules.OfHole("control.kick_tolerance", rules.NumType(units.Volume),
	"Largest gas influx, as taken in at the bottom, that can be circulated out without breaking down the shoe or a weaker point below it. Bubble height at the weak point H = (P_f - P_k + G_m (z_k - z_w)) / (G_m - G_g), vertical; its volume along the hole around the drill string, brought to the bottom by p V, or the volume of as high a bubble at the first shut-in if that is less. P_f fracture pressure, low estimate; P_k the greater of pore pressure, high estimate, and (heaviest mud + intensity) g z; intensity the basis's in exploration and appraisal, none in development. Temperature, gas deviation and choke-line friction left out; no kick margin taken off the fracture pressure. Drill string as stated, else 5 in in 8-1/2 in holes and larger, 4 in from 6 in, 2-7/8 in below. Devereux, Practical Well Planning and Drilling Manual, sec. 1.4.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		t, err := w.KickTolerance(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		_, mud, _ := h.HeaviestMud()
		if t.Full {
			return rules.Measure{Unloaded: "the open hole full of gas doesn't break the shoe down", Refs: rules.Num(0, units.Volume, mud).Refs}
		}
		note := fmt.Sprintf("kick from %s at %s", t.From, units.Show(float64(t.Bottom), units.TVDLength, w.Plan.System, false))
		if t.String.Assumed {
			note += "; drill pipe assumed, " + units.Size(t.String.Pipe) + " in"
		}
		if w.Subsea() {
			note += "; choke-line friction isn't counted, the plan has no slow circulating rate"
		}
		return rules.Num(float64(t.Volume), units.Volume, mud).Where(well.AtTVD(t.Weak, "weakest point")).With(note).By(kickSteps(t)...)
	})

func kickSteps(t well.Tolerance) []expr.Working {
	const source = "Devereux, Practical Well Planning and Drilling Manual, sec. 1.4"
	in := func(name string, x float64, d units.Dim) expr.Input { return expr.Input{Name: name, SI: x, Dim: d} }
	volume := func(name string, v units.CubicMeters) expr.Input { return in(name, float64(v), units.Volume) }
	height := in("height", float64(t.Height), units.TVDLength)
	atWeak, shrunk := volume("volume_at_weak", t.AtWeak), volume("shrunk", t.Shrunk)
	return []expr.Working{
		{Formula: "greater((fracture - kick + mud * g * (bottom - weak)) / (mud * g - gas), 0)",
			Inputs: []expr.Input{stress("fracture", t.Fracture, 0), stress("kick", t.Kick, 0), in("mud", float64(t.Mud), units.Density),
				in("bottom", float64(t.Bottom), units.TVDLength), in("weak", float64(t.Weak), units.TVDLength), in("gas", t.Gas, units.Gradient)},
			Result: in("height", float64(t.Height), units.Length), Source: source},
		{Formula: "volume_at_weak * (fracture + gas * height / 2 + atmosphere) / (kick - gas * height / 2 + atmosphere)",
			Inputs: []expr.Input{atWeak, stress("fracture", t.Fracture, 0), stress("kick", t.Kick, 0), in("gas", t.Gas, units.Gradient), height, in("atmosphere", float64(fluid.Atmosphere), units.Pressure)},
			Result: shrunk, Source: source + "; p V kept, absolute"},
		{Formula: "lesser(shrunk, shut_in)", Inputs: []expr.Input{shrunk, volume("shut_in", t.Shut)},
			Result: volume("tolerance", t.Volume), Source: source},
	}
}

// KickIntensity is the intensity a kick is judged with.
var KickIntensity = rules.OfWell("control.kick_intensity", rules.NumType(units.Density),
	"Formation pressure of a kick over the mud in use: the basis's in exploration and appraisal, none in development.",
	func(w *well.Well) rules.Measure {
		k, err := w.KickIntensity()
		if err != nil {
			return rules.From(err, w.Plan.Well.Ref)
		}
		return rules.Num(float64(k), units.Density, w.Plan.Well.Class.Ref)
	})
