package well

import (
	"math"

	"spudgate/plan/fluid"
	"spudgate/plan/units"
)

// kicked is a limited kick circulated out of a later hole, where the plan sets
// its volume: constant pressure at the bottom, one bubble, p V kept in its
// middle. The greatest pressure at a place is that with the top of the bubble
// there, or the first shut-in.
func (w *Well) kicked(str int) ([]scenario, error) {
	v := w.Plan.Design.KickVolume
	if !v.Known() {
		return nil, Absent("no kick volume is set")
	}
	return w.eachExposure(str, func(e Exposure) (scenario, error) {
		if why := w.cannotFill(str, e.Hole); why != "" {
			return scenario{}, Absent(why)
		}
		b, err := w.bubbleIn(e, float64(v.V))
		if err != nil {
			return scenario{}, err
		}
		in := func(s Spot) (units.Pascals, error) {
			c, err := w.Casing(e.Owner)
			if s.MD < c.Top || e.Owner == str {
				c, err = w.Casing(str)
			}
			if err != nil {
				return 0, err
			}
			id, err := c.At(s.MD).ID()
			return b.greatest(s.TVD, b.capacity(id), w.steepness(s.MD)), err
		}
		s, err := w.backed(str, in, 0, e.Down)
		s.refs = append(s.refs, v.Ref)
		s.note = e.Hole.Plan.Name.V + ": kick of " + show(w, v.V, units.Volume) + " circulated out"
		return s, err
	})
}

// bubble is a kick at constant bottom-hole pressure. Depths vertical, SI.
type bubble struct {
	bottom   units.TVD
	pressure float64 // at the bottom, gauge
	mud, gas float64 // gradients
	volume   float64
	pipe     float64 // OD of the drill pipe
	start    float64 // vertical height at the bottom
}

func (w *Well) bubbleIn(e Exposure, volume float64) (b bubble, err error) {
	if b.bottom, err = w.TVD(e.Hole.To); err != nil {
		return b, err
	}
	pore, _, err := w.Pore(b.bottom, High)
	if err != nil {
		return b, err
	}
	mud, _, err := e.Hole.HeaviestMud()
	if err != nil {
		return b, err
	}
	intensity, err := w.KickIntensity()
	if err != nil {
		return b, err
	}
	b.pressure = float64(max(pore, units.Hydrostatic(mud+intensity, b.bottom)))
	b.mud, b.gas, b.volume = float64(mud)*units.G, w.Assume.GasGradient, volume
	d, err := e.Hole.Drillstring()
	if err != nil {
		return b, err
	}
	b.pipe = float64(d.Pipe)
	bore, _, err := e.Hole.Bore()
	if err != nil {
		return b, err
	}
	b.start = b.volume / b.capacity(bore) * w.steepness(e.Hole.To)
	return b, nil
}

// capacity is the annulus around the drill pipe, m2.
func (b bubble) capacity(bore units.Meters) float64 {
	return math.Pi / 4 * (float64(bore)*float64(bore) - b.pipe*b.pipe)
}

// greatest is the pressure at a depth with the top of the bubble there: of
// x (x - B) = (G_m - G_g / 2) V p / (capacity) with x the pressure in its
// middle, absolute, and B that of mud from the bottom to the depth; or with
// the bubble at the bottom, whichever is more.
func (b bubble) greatest(z units.TVD, capacity, steep float64) units.Pascals {
	height := float64(b.bottom - z)
	abs := b.pressure + float64(fluid.Atmosphere)
	base := abs - b.mud*height
	k := b.volume * abs * steep / capacity
	x := (base + math.Sqrt(base*base+4*(b.mud-b.gas/2)*k)) / 2
	h := min(k/x, height)
	passing := b.pressure - b.mud*(height-h) - b.gas*h
	h = min(b.start, height)
	shut := b.pressure - b.mud*(height-h) - b.gas*h
	return units.Pascals(max(passing, shut, 0))
}

// steepness is the vertical part of a short way along the hole.
func (w *Well) steepness(md units.MD) float64 {
	a, err := w.TVD(max(md-1, 0))
	if err != nil || md < 1 {
		return 1
	}
	b, err := w.TVD(md)
	if err != nil {
		return 1
	}
	return min(max(float64(b-a), 0), 1)
}
