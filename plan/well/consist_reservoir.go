package well

import (
	"math"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// reservoirTolerance is how far a stated reservoir pressure may lie off the
// pore pressures of the zones that flow, as a part (common practice, no
// source).
const reservoirTolerance = 0.10

// ReservoirTwice holds the reservoir pressure stated for the well against the
// pore pressures of its zones that can flow oil or gas: the loads of
// production rest on the one, those of drilling on the other.
func (w *Well) ReservoirTwice() (Conflicts, error) {
	r := w.Plan.Well.ReservoirPressure
	if !r.Known() {
		return nil, Absent("no reservoir pressure is stated")
	}
	low, high := math.Inf(1), 0.0
	var refs []place.Ref
	for i := range w.Plan.Formations {
		if flows, hydrocarbon := w.CanFlow(i); !flows || !hydrocarbon {
			continue
		}
		_, top, _, err := w.FormationTop(i)
		_, base, _, err2 := w.FormationBase(i)
		if err != nil || err2 != nil {
			continue
		}
		for _, z := range []units.TVD{top, base} {
			for _, e := range []Estimate{Low, High} {
				if p, ref, err := w.Pore(z, e); err == nil {
					low, high = min(low, float64(p)), max(high, float64(p))
					refs = append(refs, ref)
				}
			}
		}
	}
	if len(refs) == 0 {
		return nil, Absent("no pore pressure of a zone that flows oil or gas is known")
	}
	var found search
	p := float64(r.V)
	ok := p >= low*(1-reservoirTolerance) && p <= high*(1+reservoirTolerance)
	found.holds(ok, []place.Ref{r.Ref, refs[0]}, "reservoir pressure %s; the pore pressures of the zones that flow lie between %s and %s",
		w.show(p, units.Pressure), w.show(low, units.Pressure), w.show(high, units.Pressure))
	return found.result("")
}
