package control

import (
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// IntensityHeld is the kick a hole stands as an intensity.
var IntensityHeld = rules.OfHole("control.kick_intensity_held", rules.NumType(units.Density),
	"Largest formation pressure over the heaviest mud, as an equivalent mud weight, at which the hole still stands its design kick (the basis's volume by hole size in exploration and appraisal, 10 bbl in development, or the plan's own where larger), shut in and circulated out; looked for between -5 and 5 ppg. Below zero: the design kick breaks the shoe down at the mud's own weight.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		x, err := w.IntensityHeld(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		v, err := w.DesignKick(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		_, mud, _ := h.HeaviestMud()
		return rules.Num(float64(x), units.Density, mud, h.Plan.Ref).With("for a kick of " + units.Show(float64(v), units.Volume, w.Plan.System, false))
	})

// OverDetection is how many times the kick that is seen a hole stands.
var OverDetection = rules.OfHole("control.kick_over_detection", rules.NumType(units.None),
	"Kick tolerance of the hole over the pit gain at which the rig sees a kick.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		t, err := w.KickTolerance(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		seen := w.Plan.Rig.KickDetection
		switch {
		case t.Full:
			return rules.Measure{Unloaded: "the open hole full of gas doesn't break the shoe down", Refs: rules.Num(0, units.None, h.Plan.Ref).Refs}
		case !seen.Known() || seen.V <= 0:
			return rules.From(well.Lack(w.Plan.Rig.Ref, "the pit gain at which the rig sees a kick"), w.Plan.Rig.Ref)
		}
		return rules.Num(float64(t.Volume/seen.V), units.None, seen.Ref, h.Plan.Ref)
	})

// TestNeeded is the shoe test that the design kick asks for.
var TestNeeded = rules.OfString("control.shoe_test_needed", rules.NumType(units.Density),
	"Equivalent mud weight the shoe must hold so that the design kick of the hole below can be shut in and circulated out: over every depth it may come from, the least fracture pressure at the shoe whose kick tolerance is the design kick.",
	func(w *well.Well, str int) rules.Measure {
		emw, at, err := w.TestNeeded(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return rules.Num(float64(emw), units.Density, w.Plan.Strings[str].Shoe.Ref, w.Plan.Strings[str].Ref).Where(at)
	})

// AnnularPressure is the most pressure a closed annulus may have.
var AnnularPressure = rules.OfHole("control.annular_pressure_held", rules.NumType(units.Pressure),
	"Maximum allowable annular surface pressure: fracture pressure, low estimate, less the column of the heaviest mud, the least over the open hole.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		p, at, refs, err := w.AnnularPressureHeld(h)
		if err != nil {
			return rules.From(err, h.Plan.Ref)
		}
		return rules.Num(float64(p), units.Pressure, append(refs, h.Plan.Ref)...).Where(at)
	})
