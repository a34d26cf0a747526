package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// SwabMargin is the mud weight that swabbing takes away by the trade's rule:
// yield point over 11.7 times the clearance, in ppg, lbf/100ft2 and in (common
// practice, printed in drilling handbooks and courses).
func (w *Well) SwabMargin(h *Hole) (units.KgPerM3, []place.Ref, error) {
	if err := windowed(h); err != nil {
		return 0, nil, err
	}
	y := h.Plan.MudYieldPoint
	if !y.Known() {
		return 0, nil, Lack(h.Plan.Ref, "the yield point of the mud of %s", h.Plan.Name.V)
	}
	pipe, err := h.Drillstring()
	if err != nil {
		return 0, nil, err
	}
	bore, ref, err := h.Bore()
	if err != nil {
		return 0, nil, err
	}
	gap := float64(bore-pipe.Pipe) / units.Inch
	if gap <= 0 {
		return 0, nil, Absent("the drill pipe fills the hole")
	}
	const stress = units.Lbf / (100 * units.Foot * units.Foot)
	return units.KgPerM3(float64(y.V) / stress / (11.7 * gap) * units.PPG), []place.Ref{y.Ref, ref}, nil
}
