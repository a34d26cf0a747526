package well

import (
	"spudgate/plan"
	"spudgate/plan/units"
)

// PressureRows searches each row of the pressures for values out of order: low
// estimate, base, high estimate; pore pressure, fracture pressure. Values
// written in different ways are compared as pressures at the row's depth.
func (w *Well) PressureRows() (Conflicts, error) {
	var found search
	for i := range w.Plan.Pressures {
		r := &w.Plan.Pressures[i]
		w.rising(&found, r.Depth, "low pore", r.PoreLow, "pore", r.Pore)
		w.rising(&found, r.Depth, "pore", r.Pore, "high pore", r.PoreHigh)
		w.rising(&found, r.Depth, "low pore", r.PoreLow, "high pore", r.PoreHigh)
		w.rising(&found, r.Depth, "low fracture", r.FractureLow, "fracture", r.Fracture)
		w.rising(&found, r.Depth, "fracture", r.Fracture, "high fracture", r.FractureHigh)
		w.rising(&found, r.Depth, "low fracture", r.FractureLow, "high fracture", r.FractureHigh)
		w.rising(&found, r.Depth, "pore", r.Pore, "fracture", r.Fracture)
	}
	return found.result("no row states two pressures")
}

// Overburdens searches each row of the pressures for a pore or fracture
// pressure over the overburden. A breakdown pressure may pass it.
func (w *Well) Overburdens() (Conflicts, error) {
	var found search
	for i := range w.Plan.Pressures {
		r := &w.Plan.Pressures[i]
		w.rising(&found, r.Depth, "pore", r.Pore, "overburden", r.Overburden)
		if r.FractureKind.V != "breakdown" {
			w.rising(&found, r.Depth, "fracture", r.Fracture, "overburden", r.Overburden)
		}
	}
	return found.result("no row states an overburden")
}

func (w *Well) rising(found *search, z plan.Val[units.TVD], nameA string, a plan.Val[units.Grade], nameB string, b plan.Val[units.Grade]) {
	if !a.Known() || !b.Known() || (a.V.Dim != b.V.Dim && !z.Known()) {
		return
	}
	ok := a.V.SI <= b.V.SI
	if a.V.Dim != b.V.Dim {
		ok = a.V.Pressure(z.V) <= b.V.Pressure(z.V)
	}
	found.holds(ok, places(b.Ref, a.Ref, z.Ref), "at %s: %s %s, %s %s", w.showTVD(z.V), nameA, w.show(a.V.SI, a.V.Dim), nameB, w.show(b.V.SI, b.V.Dim))
}

// TablesInOrder searches the pressures and the temperatures for rows that
// don't go down the list. Two rows at one depth are a step; three are not.
func (w *Well) TablesInOrder() (Conflicts, error) {
	var found search
	var pressures, temperatures []plan.Val[units.TVD]
	for i := range w.Plan.Pressures {
		pressures = append(pressures, w.Plan.Pressures[i].Depth)
	}
	for i := range w.Plan.Temperatures {
		temperatures = append(temperatures, w.Plan.Temperatures[i].Depth)
	}
	w.goesDown(&found, "pressures", pressures)
	w.goesDown(&found, "temperatures", temperatures)
	return found.result("no table has two rows")
}

func (w *Well) goesDown(found *search, what string, list []plan.Val[units.TVD]) {
	for i := 1; i < len(list); i++ {
		a, b := list[i-1], list[i]
		if !a.Known() || !b.Known() {
			continue
		}
		found.holds(b.V >= a.V, places(b.Ref, a.Ref), "%s: a row at %s after one at %s", what, w.showTVD(b.V), w.showTVD(a.V))
		if i > 1 && b.V == a.V && list[i-2].Known() {
			found.holds(list[i-2].V != b.V, places(b.Ref, a.Ref, list[i-2].Ref), "%s: three rows at %s", what, w.showTVD(b.V))
		}
	}
}

// TemperaturesRise searches for a static temperature that falls with depth
// below the ground or the sea bed; through the water it may.
func (w *Well) TemperaturesRise() (Conflicts, error) {
	const slack = 0.6 // K: a degree Fahrenheit of rounding
	floor := units.TVD(0)
	if r := w.Plan.DepthReference; r.WaterDepth.Known() && r.AboveSeaLevel.Known() {
		floor = units.TVD(r.WaterDepth.V + r.AboveSeaLevel.V)
	}
	var found search
	for i := 1; i < len(w.Plan.Temperatures); i++ {
		a, b := &w.Plan.Temperatures[i-1], &w.Plan.Temperatures[i]
		if !a.Static.Known() || !b.Static.Known() || a.Depth.V < floor-0.5 || b.Depth.V < a.Depth.V {
			continue
		}
		found.holds(b.Static.V >= a.Static.V-slack, places(b.Static.Ref, a.Static.Ref), "%s at %s, %s at %s above it",
			w.show(float64(b.Static.V), units.Temperature), w.showTVD(b.Depth.V), w.show(float64(a.Static.V), units.Temperature), w.showTVD(a.Depth.V))
	}
	return found.result("no two static temperatures are stated")
}
