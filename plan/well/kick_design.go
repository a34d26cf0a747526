package well

import (
	"math"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// developmentKick is the kick volume of a development well whose pressures are
// known (common practice, no source).
const developmentKick units.CubicMeters = 10 * units.Barrel

// DesignKick is the kick volume a hole is held against: the basis's by the size
// of the hole in exploration and appraisal, 10 bbl in development, or the larger
// one the plan was made to.
func (w *Well) DesignKick(h *Hole) (units.CubicMeters, error) {
	bore, _, err := h.Bore()
	if err != nil {
		return 0, err
	}
	v := w.Assume.KickSmall
	if w.Plan.Well.Class.V == "development" {
		return max(developmentKick, w.Plan.Design.KickVolume.V), nil
	}
	if bore >= 12.24*units.Inch {
		v = w.Assume.KickLarge
	}
	return max(v, w.Plan.Design.KickVolume.V), nil
}

// mostIntensity is the largest intensity looked at, 5 ppg over the mud: past it
// a kick isn't one a plan is made to.
const mostIntensity = 5 * units.PPG

// IntensityHeld is the largest intensity over the heaviest mud at which a hole
// still stands its design kick, shut in and circulated out, to 0.1 kg/m3;
// below zero where it doesn't stand the kick at the mud's own weight, no lower
// than -5 ppg. Halved over the kick tolerance, which falls as intensity rises.
func (w *Well) IntensityHeld(h *Hole) (units.KgPerM3, error) {
	if err := w.kicks(h); err != nil {
		return 0, err
	}
	want, err := w.DesignKick(h)
	if err != nil {
		return 0, err
	}
	holds := func(x units.KgPerM3) (bool, error) {
		t, err := w.toleranceAt(h, x)
		return t.Full || t.Volume >= want, err
	}
	low, high := units.KgPerM3(-mostIntensity), units.KgPerM3(mostIntensity)
	if ok, err := holds(high); err != nil || ok {
		return high, err
	}
	if ok, err := holds(low); err != nil || !ok {
		return low, err
	}
	for high-low > 0.1 {
		mid := (low + high) / 2
		ok, err := holds(mid)
		if err != nil {
			return 0, err
		}
		if ok {
			low = mid
		} else {
			high = mid
		}
	}
	return low, nil
}

// TestNeeded is the equivalent mud weight a shoe must be shown to hold so that
// the design kick of the hole below can be shut in and circulated out: over
// every depth of the pore curve the kick may come from, the least fracture
// pressure at the shoe whose kick tolerance is the design kick.
func (w *Well) TestNeeded(str int) (units.KgPerM3, At, error) {
	h, err := w.DrilledOut(str)
	if err != nil {
		return 0, At{}, err
	}
	if err := w.kicks(h); err != nil {
		return 0, At{}, err
	}
	s, err := w.OpenHole(h)
	if err != nil {
		return 0, At{}, err
	}
	if s.Top <= shallow {
		return 0, At{}, Absent("the shoe is at the surface")
	}
	want, err := w.DesignKick(h)
	if err != nil {
		return 0, At{}, err
	}
	intensity, err := w.KickIntensity()
	if err != nil {
		return 0, At{}, err
	}
	mud, _, err := h.HeaviestMud()
	if err != nil {
		return 0, At{}, err
	}
	pipe, err := h.Drillstring()
	if err != nil {
		return 0, At{}, err
	}
	most, at := units.Pascals(0), s.Bottom
	for _, z := range w.levels(s, w.Curve(PorePressure, High)) {
		if z <= s.Top {
			continue
		}
		t := Tolerance{Intensity: intensity, String: pipe, Influx: Influx{Weak: s.Top, Bottom: z, Mud: mud, Gas: w.Assume.GasGradient}}
		if err := w.influx(h, s, &t); err != nil {
			return 0, At{}, err
		}
		p, err := t.Influx.strength(want)
		if err != nil {
			return 0, At{}, err
		}
		if p > most {
			most, at = p, z
		}
	}
	return units.KgPerM3(float64(most) / (units.G * float64(s.Top))), AtTVD(at, "where the kick comes from"), nil
}

// strength is the least fracture pressure at the weak point that stands a kick
// of a volume: halved, to 1 Pa, between that of no gas and that of an open hole
// full of it.
func (f Influx) strength(want units.CubicMeters) (units.Pascals, error) {
	open := float64(f.Bottom - f.Weak)
	low, high := float64(f.Kick)-float64(f.Mud)*units.G*open, float64(f.Kick)-f.Gas*open
	if !(high > low && low > 0) {
		return 0, Absent("no mud column stands between the kick and the shoe")
	}
	for high-low > 1 {
		mid := (low + high) / 2
		f.Fracture = units.Pascals(mid)
		b, err := f.Largest()
		if err != nil {
			return 0, err
		}
		if b.Full || b.Volume >= want {
			high = mid
		} else {
			low = mid
		}
	}
	return units.Pascals(high), nil
}

// AnnularPressureHeld is the most pressure the closed annulus may have at the
// surface with the heaviest mud standing in it (maximum allowable annular
// surface pressure): fracture pressure, low estimate, less the mud column, the
// least over the open hole.
func (w *Well) AnnularPressureHeld(h *Hole) (units.Pascals, At, []place.Ref, error) {
	if err := w.kicks(h); err != nil {
		return 0, At{}, nil, err
	}
	mud, ref, err := h.HeaviestMud()
	if err != nil {
		return 0, At{}, nil, err
	}
	s, err := w.OpenHole(h)
	if err != nil {
		return 0, At{}, nil, err
	}
	least, at, refs := math.Inf(1), At{}, []place.Ref{ref}
	for _, z := range w.levels(s, w.Curve(FracturePressure, Low)) {
		p, r, err := w.inside(s, FracturePressure, Low, z)
		if err != nil {
			return 0, At{}, nil, err
		}
		if spare := float64(p - units.Hydrostatic(mud, z)); spare < least {
			least, at, refs = spare, AtTVD(z, "weakest point"), []place.Ref{ref, r}
		}
	}
	return units.Pascals(least), at, refs, nil
}
