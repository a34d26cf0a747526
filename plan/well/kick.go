package well

import (
	"math"

	"spudgate/plan/fluid"
	"spudgate/plan/units"
)

// Influx is what a kick tolerance is worked out from, in SI. Depths are
// vertical.
type Influx struct {
	Weak, Bottom   units.TVD     // the weak point and the depth the kick comes from
	Fracture, Kick units.Pascals // fracture pressure at Weak, formation pressure at Bottom
	Mud            units.KgPerM3
	Gas            float64 // gradient of the influx, Pa/m
	// Volume of the annulus between two vertical depths.
	Annulus func(from, to units.TVD) (units.CubicMeters, error)
}

// Bubble is the largest influx a weak point stands.
type Bubble struct {
	Height  units.Meters      // vertical
	AtWeak  units.CubicMeters // volume with its top at the weak point
	MidWeak units.Pascals     // pressure in its middle there
	MidTD   units.Pascals     // pressure in its middle at the bottom
	Shrunk  units.CubicMeters // AtWeak brought to the bottom, p V kept
	Shut    units.CubicMeters // as high a bubble at the bottom, at the first shut-in
	Volume  units.CubicMeters // the lesser of Shrunk and Shut
	// Full says that an open hole full of gas doesn't break the weak point
	// down: no volume is too much.
	Full bool
}

// Largest is the kick tolerance of a weak point. With the top of the bubble
// there, H = (P_f - P_k + G_m (z_k - z_w)) / (G_m - G_g), at least zero; the
// volume over that height is brought to the bottom by p V (temperature and
// gas deviation left out). Bourgoyne et al., Applied Drilling Engineering
// (SPE, 1986), ch. 4; Devereux, Practical Well Planning and Drilling Manual,
// sec. 1.4.
//
// Domain: Weak above Bottom, mud heavier than gas, pressures above zero.
func (f Influx) Largest() (Bubble, error) {
	open := float64(f.Bottom - f.Weak)
	gm := float64(f.Mud) * units.G
	if !(open > 0 && gm > f.Gas && f.Fracture > 0 && f.Kick > 0) {
		return Bubble{}, Absent("no mud column stands between the kick and the weak point")
	}
	h := (float64(f.Fracture) - float64(f.Kick) + gm*open) / (gm - f.Gas)
	if h >= open {
		return Bubble{Full: true, Height: units.Meters(open)}, nil
	}
	h = max(h, 0)
	b := Bubble{
		Height:  units.Meters(h),
		MidWeak: f.Fracture + units.Pascals(f.Gas*h/2),
		MidTD:   f.Kick - units.Pascals(f.Gas*h/2),
	}
	var err error
	if b.AtWeak, err = f.Annulus(f.Weak, f.Weak+units.TVD(h)); err != nil {
		return b, err
	}
	if b.Shut, err = f.Annulus(f.Bottom-units.TVD(h), f.Bottom); err != nil {
		return b, err
	}
	b.Shrunk = b.AtWeak * units.CubicMeters((b.MidWeak+fluid.Atmosphere)/(b.MidTD+fluid.Atmosphere)) // Boyle: absolute
	b.Volume = min(b.Shrunk, b.Shut)
	return b, nil
}

// Tolerance is the kick tolerance of a hole.
type Tolerance struct {
	Bubble
	Influx
	Intensity units.KgPerM3
	From      string // "pore pressure" or "mud and intensity": which gave Kick
	String    Drillstring
}

type toleranceKey int

// KickTolerance is the least volume of gas, as taken in at the bottom, that
// breaks down the shoe or a weaker point below when circulated out: over every
// depth of the pore curve in the open hole and every weak point above it.
// Formation pressure is the greater of the high pore pressure and the heaviest
// mud plus the intensity.
func (w *Well) KickTolerance(h *Hole) (Tolerance, error) {
	return once(w, toleranceKey(h.Section), func() (Tolerance, error) { return w.kickTolerance(h) })
}

func (w *Well) kickTolerance(h *Hole) (Tolerance, error) {
	if err := w.kicks(h); err != nil {
		return Tolerance{}, err
	}
	intensity, err := w.KickIntensity()
	if err != nil {
		return Tolerance{}, err
	}
	return w.toleranceAt(h, intensity)
}

// toleranceAt is the kick tolerance of a hole for one intensity.
func (w *Well) toleranceAt(h *Hole, intensity units.KgPerM3) (Tolerance, error) {
	s, err := w.OpenHole(h)
	if err != nil {
		return Tolerance{}, err
	}
	mud, _, err := h.HeaviestMud()
	if err != nil {
		return Tolerance{}, err
	}
	pipe, err := h.Drillstring()
	if err != nil {
		return Tolerance{}, err
	}
	best, found := Tolerance{Bubble: Bubble{Volume: units.CubicMeters(math.Inf(1)), Full: true}}, false
	levels := w.levels(s, w.Curve(PorePressure, High), w.Curve(FracturePressure, Low))
	for i, zk := range levels {
		for _, zw := range levels[:i] {
			t := Tolerance{Intensity: intensity, String: pipe, Influx: Influx{Weak: zw, Bottom: zk, Mud: mud, Gas: w.Assume.GasGradient}}
			if err := w.influx(h, s, &t); err != nil {
				return best, err
			}
			if t.Bubble, err = t.Largest(); err != nil {
				return best, err
			}
			if !found || tighter(t, best) {
				best, found = t, true
			}
		}
	}
	if !found {
		return best, Absent("the open hole has no height")
	}
	return best, nil
}

// tighter reports whether a is the smaller tolerance; of two that no volume
// breaks, the deeper one is kept.
func tighter(a, b Tolerance) bool {
	if a.Full != b.Full {
		return !a.Full
	}
	if a.Full {
		return a.Bottom > b.Bottom
	}
	return a.Volume < b.Volume
}

func (w *Well) influx(h *Hole, s Span, t *Tolerance) error {
	var err error
	if t.Fracture, _, err = w.inside(s, FracturePressure, Low, t.Weak); err != nil {
		return err
	}
	pore, _, err := w.inside(s, PorePressure, High, t.Bottom)
	if err != nil {
		return err
	}
	t.Kick, t.From = units.Hydrostatic(t.Mud+t.Intensity, t.Bottom), "mud and intensity"
	if pore > t.Kick {
		t.Kick, t.From = pore, "pore pressure"
	}
	bore, _, err := h.Bore()
	if err != nil {
		return err
	}
	t.Annulus = func(from, to units.TVD) (units.CubicMeters, error) {
		a, err := w.MD(from)
		if err != nil {
			return 0, err
		}
		b, err := w.MD(to)
		return t.String.annulus(bore, a, b, h.To), err
	}
	return nil
}

// kicks says why no kick is judged in a hole, or nil.
func (w *Well) kicks(h *Hole) error {
	if err := windowed(h); err != nil {
		return err
	}
	switch h.Plan.PressureControl.V {
	case "none":
		return Absent("drilled without pressure control")
	case "diverter":
		return Absent("drilled with a diverter: a kick isn't shut in")
	}
	if w.ShoeAbove(h) < 0 {
		return Absent("the first hole of the well: no shoe stands above it")
	}
	flows, err := w.MayFlow(h)
	if err == nil && !flows {
		return Absent("no formation of the hole can flow")
	}
	return err
}

// KickIntensity is how far the formation pressure of a kick lies over the mud
// in use: the basis's in exploration and appraisal, none in development.
func (w *Well) KickIntensity() (units.KgPerM3, error) {
	switch w.Plan.Well.Class.V {
	case "exploration", "appraisal":
		return w.Assume.KickIntensity, nil
	case "development":
		return 0, nil
	}
	return 0, Lack(w.Plan.Well.Ref, "the class of the well (exploration, appraisal or development)")
}

// Drillstring is what a hole is drilled with.
type Drillstring struct {
	Pipe, Collar units.Meters // OD
	CollarLength units.Meters
	Assumed      bool // the plan states no drill pipe
}

// Drillstring is the drill string of a hole: stated, else 5 in in 8-1/2 in
// holes and larger, 4 in from 6 in, 2-7/8 in below, without collars (common
// practice, no source).
func (h *Hole) Drillstring() (Drillstring, error) {
	d := Drillstring{Pipe: h.Plan.DrillPipe.V, Assumed: !h.Plan.DrillPipe.Known()}
	if h.Plan.DrillCollar.Known() && h.Plan.DrillCollarLength.Known() {
		d.Collar, d.CollarLength = h.Plan.DrillCollar.V, h.Plan.DrillCollarLength.V
	}
	if !d.Assumed {
		return d, nil
	}
	bore, _, err := h.Bore()
	const listed = 0.0003 // m: a size within this of a listed one is it
	switch {
	case bore >= 8.5*units.Inch-listed:
		d.Pipe = 5 * units.Inch
	case bore >= 6*units.Inch-listed:
		d.Pipe = 4 * units.Inch
	default:
		d.Pipe = 2.875 * units.Inch
	}
	return d, err
}

// annulus is the volume around the drill string between two depths of a bore,
// the bit at bottom.
func (d Drillstring) annulus(bore units.Meters, from, to, bottom units.MD) units.CubicMeters {
	area := func(od units.Meters) float64 { return math.Pi / 4 * float64(bore*bore-od*od) }
	split := min(max(bottom-units.MD(d.CollarLength), from), to)
	return units.CubicMeters(area(d.Pipe)*float64(split-from) + area(d.Collar)*float64(to-split))
}
