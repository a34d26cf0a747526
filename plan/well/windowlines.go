package well

import "spudgate/plan/units"

// PressureLine is what the pressures of one hole come to. What can't be worked
// out carries the error that says why.
type PressureLine struct {
	Hole     *Hole
	From, To units.MD
	Span     Span // true vertical
	SpanErr  error

	MudMin, MudMax units.KgPerM3 // zero where MudErr isn't nil
	MudErr         error

	Pore        Margin // lightest mud over pore pressure, where it is least
	PoreErr     error
	Fracture    Margin // fracture pressure over heaviest mud, where it is least
	FractureErr error
	ECD         Margin // fracture pressure over the circulating density
	ECDErr      error

	Drilling    SurfacePressure // anticipated surface pressure while drilling
	DrillingErr error
	Kick        Tolerance
	KickErr     error
}

// PressureLines gives a line for every hole, from the top down.
func (w *Well) PressureLines() []PressureLine {
	hs := w.Holes()
	out := make([]PressureLine, len(hs))
	for i := range hs {
		out[i] = w.pressureLine(&hs[i])
	}
	return out
}

func (w *Well) pressureLine(h *Hole) PressureLine {
	l := PressureLine{Hole: h, From: h.From, To: h.To}
	l.Span, l.SpanErr = w.OpenHole(h)
	l.MudMin, _, l.MudErr = h.LightestMud()
	if l.MudErr == nil {
		l.MudMax, _, l.MudErr = h.HeaviestMud()
	}
	l.Pore, l.PoreErr = w.MudOverPore(h)
	l.Fracture, l.FractureErr = w.FractureOverMud(h)
	l.ECD, l.ECDErr = w.FractureOverECD(h)
	l.Drilling, l.DrillingErr = w.DrillingSurfacePressure(h)
	l.Kick, l.KickErr = w.KickTolerance(h)
	return l
}
