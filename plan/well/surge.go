package well

import (
	"sort"

	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Surge is the pressure that running a string adds, where least is left under
// fracture pressure.
type Surge struct {
	RockMargin
	Speed   units.MPerS
	Peak    bool          // the highest speed is stated; else 1.5 times the average
	Added   units.Pascals // by the surge
	Fastest units.MPerS   // greatest speed that leaves nothing, where found
	Ref     place.Ref     // of the speed
}

// peakOver is the highest running speed over the average where the plan gives
// only that (E. N. Moore and others' drilling handbooks, from memory).
const peakOver = 1.5

// fastest is how fast a string is ever run, m/s; no speed above it is looked for.
const fastest units.MPerS = 5

type surgeKey int

// Surge is what is left under fracture pressure, low estimate, at the weakest
// place of open hole while a string with a closed end reaches bottom at its
// highest speed: mud column, and the friction of the mud that it drives up the
// annulus (J. A. Burkhardt, JPT, June 1961, with the friction of API RP 13D).
// The pipe that runs a liner isn't in it. Swab isn't looked at.
func (w *Well) Surge(str int) (Surge, error) {
	return once(w, surgeKey(str), func() (Surge, error) { return w.surge(str) })
}

// AllowedSpeed is the greatest speed that leaves nothing under fracture
// pressure, and the place that stops it; no speed need be planned. Most is true
// where nothing up to the fastest that casing is ever run breaks the rock.
func (w *Well) AllowedSpeed(str int) (s Surge, most bool, err error) {
	if _, err := w.runningSpeed(str); isAbsent(err) {
		return s, false, err
	}
	flow, err := w.mudFlow(str)
	if err != nil {
		return s, false, err
	}
	places, err := w.surgePlaces(str)
	if err != nil {
		return s, false, err
	}
	v, err := w.fastestRun(str, *flow, places)
	if err != nil {
		return s, false, err
	}
	s, err = w.surgeAt(str, *flow, places, v)
	s.Fastest = v
	return s, v >= fastest, err
}

// HighestSpeed is the highest speed a string is run at: stated, else 1.5 times
// the average.
func (w *Well) HighestSpeed(str int) (Surge, error) { return w.runningSpeed(str) }

func (w *Well) surge(str int) (s Surge, err error) {
	if s, err = w.runningSpeed(str); err != nil {
		return s, err
	}
	flow, err := w.mudFlow(str)
	if err != nil {
		return s, err
	}
	places, err := w.surgePlaces(str)
	if err != nil {
		return s, err
	}
	at, err := w.surgeAt(str, *flow, places, s.Speed)
	if err != nil {
		return s, err
	}
	at.Speed, at.Peak, at.Ref = s.Speed, s.Peak, s.Ref
	at.Fastest, err = w.fastestRun(str, *flow, places)
	return at, err
}

func (w *Well) runningSpeed(str int) (Surge, error) {
	s := &w.Plan.Strings[str]
	switch {
	case s.Existing.V:
		return Surge{}, Absent("the string is in the well already")
	case s.Role.V == "tie_back" || s.Role.V == "scab_liner":
		return Surge{}, Absent("no rock is open while it is run")
	case s.SetBy.V == "driven" || s.SetBy.V == "jetted" || s.SetBy.V == "augered":
		return Surge{}, Absent("the string is " + s.SetBy.V)
	case s.PeakSpeed.Known() && s.PeakSpeed.V > 0:
		return Surge{Speed: s.PeakSpeed.V, Peak: true, Ref: s.PeakSpeed.Ref}, nil
	case s.RunningSpeed.Known() && s.RunningSpeed.V > 0:
		return Surge{Speed: peakOver * s.RunningSpeed.V, Ref: s.RunningSpeed.Ref}, nil
	}
	return Surge{}, Lack(s.Ref, "the running speed of %s", s.Name.V)
}

// surgePlace is a place of open hole with the columns that stand there.
type surgePlace struct {
	md   units.MD
	mud  units.Pascals
	rock units.Pascals
	ref  place.Ref
}

func (w *Well) surgePlaces(str int) ([]surgePlace, error) {
	o, err := w.outerOf(str)
	if err != nil {
		return nil, err
	}
	shoe, err := w.shoeOf(&w.Plan.Strings[str])
	if err != nil {
		return nil, err
	}
	if o.previous >= shoe {
		return nil, Absent("no rock is open while it is run")
	}
	depths, err := w.rockDepths(o.previous, shoe)
	if err != nil {
		return nil, err
	}
	var out []surgePlace
	for _, md := range depths {
		z, err := w.TVD(md)
		if err != nil {
			return nil, err
		}
		rock, ref, err := w.Fracture(z, Low)
		if err != nil {
			return nil, err
		}
		mud := o.realOver + units.Hydrostatic(o.mud, max(0, z-o.realFrom))
		out = append(out, surgePlace{md, mud, rock, ref})
	}
	return out, nil
}

// surgeAt is the place where least is left at a speed.
func (w *Well) surgeAt(str int, flow fluid.Rheology, places []surgePlace, speed units.MPerS) (Surge, error) {
	worst := Surge{Speed: speed}
	for i, p := range places {
		added, err := w.surgeAbove(str, flow, p.md, speed)
		if err != nil {
			return worst, err
		}
		if spare := p.rock - p.mud - added; i == 0 || spare < worst.Spare {
			worst.RockMargin = RockMargin{p.md, p.mud + added, p.rock, spare, p.ref}
			worst.Added = added
		}
	}
	return worst, nil
}

// surgeAbove is the friction along a string above a depth, from its top down.
func (w *Well) surgeAbove(str int, flow fluid.Rheology, md units.MD, speed units.MPerS) (units.Pascals, error) {
	gaps, err := w.Annulus(str)
	if err != nil {
		return 0, err
	}
	rho, _, err := w.RunIn(str)
	if err != nil {
		return 0, err
	}
	sum := units.Pascals(0)
	for _, g := range gaps {
		length := min(g.To, md) - g.From
		if length <= 0 {
			break
		}
		loss, err := surgeLoss(flow, g, rho, speed)
		if err != nil {
			return 0, Unusable(err, g.Ref, "a usable annulus, mud rheology and running speed of "+w.Plan.Strings[str].Name.V)
		}
		sum += units.Pascals(float64(loss) * float64(length))
	}
	return sum, nil
}

// surgeLoss is the friction gradient of mud driven past closed pipe; the
// clinging constant is that of its own flow.
func surgeLoss(flow fluid.Rheology, g Gap, rho units.KgPerM3, speed units.MPerS) (fluid.PaPerM, error) {
	way := fluid.Passage{Outer: g.Outer, Inner: g.Inner}
	ratio := units.Fraction(g.Inner / g.Outer)
	var f fluid.Friction
	for _, cling := range []func(units.Fraction) (units.Fraction, error){fluid.ClingLaminar, fluid.ClingTurbulent} {
		k, err := cling(ratio)
		if err != nil {
			return 0, err
		}
		v, err := fluid.SurgeVelocity(speed, k, g.Outer, g.Inner, 0)
		if err != nil {
			return 0, err
		}
		if f, err = flow.Friction(way, rho, v); err != nil || f.Turbulent == 0 {
			return f.Loss, err
		}
	}
	return f.Loss, nil
}

// fastestRun is the greatest speed that leaves the rock unbroken: zero where the
// mud alone breaks it, the fastest ever run where nothing does.
func (w *Well) fastestRun(str int, flow fluid.Rheology, places []surgePlace) (units.MPerS, error) {
	return once(w, fastestKey(str), func() (units.MPerS, error) { return w.searchSpeed(str, flow, places) })
}

type fastestKey int

func (w *Well) searchSpeed(str int, flow fluid.Rheology, places []surgePlace) (units.MPerS, error) {
	const steps = 5000 // of a millimetre a second
	var failed error
	n := sort.Search(steps+1, func(i int) bool {
		s, err := w.surgeAt(str, flow, places, fastest*units.MPerS(i)/steps)
		if err != nil {
			failed = err
		}
		return s.Spare < 0
	})
	return fastest * units.MPerS(max(n-1, 0)) / steps, failed
}
