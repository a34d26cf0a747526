package well

import (
	"math"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// SurfacePressure is an anticipated surface pressure and how it came about.
type SurfacePressure struct {
	P        units.Pascals
	FromPore units.Pascals // gas from the strongest formation to the surface
	FromShoe units.Pascals // gas from a shoe that breaks down; zero when HasShoe is false
	HasShoe  bool
	At       units.TVD // where the governing pressure stands
	Bound    string    // which bound governed, in words
	Refs     []place.Ref
}

// Bounds of an anticipated surface pressure, in words.
const (
	BoundPore = "pore pressure less a gas column"
	BoundShoe = "fracture pressure at the shoe less a gas column"
)

type surfaceKey int

// DrillingSurfacePressure is what the wellhead may see while a hole is
// drilled: the lesser of the greatest pore pressure less a gas column and of
// the fracture pressure at the shoe, an allowance over it, less a gas column.
// Both estimates are the high ones; the gas column is the basis's; subsea it
// ends at the mudline.
func (w *Well) DrillingSurfacePressure(h *Hole) (SurfacePressure, error) {
	return once(w, surfaceKey(h.Section), func() (SurfacePressure, error) { return w.drillingSurfacePressure(h) })
}

func (w *Well) drillingSurfacePressure(h *Hole) (SurfacePressure, error) {
	if h.Plan.Returns.V == "seabed" || h.Plan.Returns.V == "none" {
		return SurfacePressure{}, Absent("drilled without returns to the rig")
	}
	if w.barren(h) {
		return SurfacePressure{}, Absent("the formations are listed completely and none in the hole can flow oil or gas")
	}
	s, err := w.OpenHole(h)
	if err != nil {
		return SurfacePressure{}, err
	}
	top, err := w.Mudline()
	if err != nil {
		return SurfacePressure{}, err
	}
	out, err := w.fromPore(s, top)
	if err != nil || s.First {
		return out, err
	}
	return w.fromShoe(out, s.Top, top)
}

func (w *Well) fromPore(s Span, top units.TVD) (SurfacePressure, error) {
	out := SurfacePressure{P: units.Pascals(math.Inf(-1)), Bound: BoundPore}
	var gaps Missing
	for _, z := range w.levels(s, w.Curve(PorePressure, High)) {
		p, ref, err := w.inside(s, PorePressure, High, z)
		if err != nil {
			gaps = gaps.and(err)
			continue
		}
		up, err := w.gasTop(p, z, top)
		if err != nil {
			return out, err
		}
		if up > out.P {
			out.P, out.At, out.Refs = up, z, []place.Ref{ref}
		}
	}
	if len(gaps) > 0 {
		return out, gaps
	}
	out.P = max(out.P, 0) // a column that doesn't reach the surface shows no pressure there
	out.FromPore = out.P
	return out, nil
}

func (w *Well) fromShoe(out SurfacePressure, shoe, top units.TVD) (SurfacePressure, error) {
	frac, ref, err := w.Fracture(shoe, High)
	if err != nil {
		return out, err
	}
	out.HasShoe = true
	if out.FromShoe, err = w.gasTop(frac+units.Hydrostatic(w.Assume.FractureMargin, shoe), shoe, top); err != nil {
		return out, err
	}
	if out.FromShoe < out.P {
		out.P, out.At, out.Bound = out.FromShoe, shoe, BoundShoe
		out.Refs = append([]place.Ref{ref}, out.Refs...)
	}
	return out, nil
}

// gasTop is a pressure carried up a gas column: by the model of the basis that
// gives more at the top.
func (w *Well) gasTop(p units.Pascals, from, to units.TVD) (units.Pascals, error) {
	if p <= 0 || from <= to {
		return p, nil
	}
	best := units.Pascals(math.Inf(-1))
	for _, g := range w.gases() {
		up, err := g.to(p, from, to)
		if err != nil {
			return 0, err
		}
		best = max(best, up)
	}
	return best, nil
}

// barren reports whether nothing of a hole can flow oil or gas for certain.
func (w *Well) barren(h *Hole) bool {
	if !w.Plan.Well.FormationsComplete.V || w.Plan.Well.Class.V == "exploration" {
		return false
	}
	for _, i := range w.OpenHoleZones(h) {
		if flows, hc := w.CanFlow(i); flows && hc {
			return false
		}
	}
	return true
}

// MayFlow reports whether a zone of a hole can flow: one listed does; or the
// well is exploration; not where formations are listed and none does. Where
// none is listed it isn't known.
func (w *Well) MayFlow(h *Hole) (bool, error) {
	zones := w.OpenHoleZones(h)
	for _, i := range zones {
		if flows, _ := w.CanFlow(i); flows {
			return true, nil
		}
	}
	switch {
	case w.Plan.Well.Class.V == "exploration":
		return true, nil
	case len(zones) > 0 || w.Plan.Well.FormationsComplete.V:
		return false, nil
	}
	return false, Lack(h.Plan.Ref, "the formations of %s and which can flow", h.Plan.Name.V)
}

// ProductionSurfacePressure is what the wellhead may see in production: the
// shut-in tubing pressure stated, else the initial reservoir pressure less a
// gas column. No shoe relieves it.
func (w *Well) ProductionSurfacePressure() (SurfacePressure, error) {
	return once(w, surfaceKey(-1), w.productionSurfacePressure)
}

func (w *Well) productionSurfacePressure() (SurfacePressure, error) {
	head := &w.Plan.Well
	switch head.Purpose.V {
	case "injection", "disposal", "water":
		return SurfacePressure{}, Absent("the well doesn't produce oil or gas")
	}
	if v := head.ShutInTubingPressure; v.Known() {
		return SurfacePressure{P: v.V, FromPore: v.V, Bound: "shut-in tubing pressure as stated", Refs: []place.Ref{v.Ref}}, nil
	}
	top, err := w.Mudline()
	if err != nil {
		return SurfacePressure{}, err
	}
	z, err := w.reservoirTop()
	if err != nil {
		return SurfacePressure{}, err
	}
	p, ref := head.ReservoirPressure.V, head.ReservoirPressure.Ref
	if ref == 0 {
		if p, ref, err = w.Pore(z, High); err != nil {
			return SurfacePressure{}, err
		}
	}
	up, err := w.gasTop(p, z, top)
	if err != nil {
		return SurfacePressure{}, err
	}
	up = max(up, 0)
	return SurfacePressure{P: up, FromPore: up, At: z, Bound: "reservoir pressure less a gas column", Refs: []place.Ref{ref}}, nil
}

// reservoirTop is the top of the perforated interval, else of the deepest
// formation that can flow oil or gas.
func (w *Well) reservoirTop() (units.TVD, error) {
	if v := w.Plan.Completion.PerforatedFrom; v.Known() {
		return w.TVD(v.V)
	}
	best, found := units.TVD(0), false
	for i := range w.Plan.Formations {
		flows, hc := w.CanFlow(i)
		if !flows || !hc {
			continue
		}
		if _, z, _, err := w.FormationTop(i); err == nil && (!found || z > best) {
			best, found = z, true
		}
	}
	if !found {
		return 0, Lack(w.Plan.Completion.Ref, "the depth of the reservoir")
	}
	return best, nil
}

// AnticipatedBelow is the greatest anticipated surface pressure of the holes a
// string stays open to, those drilled without a BOP left out, and the hole it
// belongs to.
func (w *Well) AnticipatedBelow(str int) (SurfacePressure, *Hole, error) {
	var best SurfacePressure
	var at *Hole
	var gaps Missing
	why := Absent("no later hole is open to the string")
	for _, e := range w.Exposures(str) {
		if c := e.Hole.Plan.PressureControl.V; c == "none" || c == "diverter" {
			why = "the later holes it's open to are drilled without a BOP"
			continue
		}
		p, err := w.DrillingSurfacePressure(e.Hole)
		if a, ok := err.(Absent); ok {
			why = a
			continue
		}
		if err != nil {
			gaps = gaps.and(err)
			continue
		}
		if at == nil || p.P > best.P {
			best, at = p, e.Hole
		}
	}
	switch {
	case len(gaps) > 0:
		return best, at, gaps
	case at == nil:
		return best, nil, why
	}
	return best, at, nil
}
