package well

import (
	"errors"

	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Excess used where the plan gives none, by what the hole is measured with
// (common practice, no source): a caliper leaves a tenth to doubt, an expected
// enlargement is counted already, a riserless hole is taken twice.
const (
	excessCaliper   units.Fraction = 0.10
	excessRiserless units.Fraction = 1.00
)

// HoleExcess is the diameter of an open hole for volumes and the enlargement
// added to its annular volume.
type HoleExcess struct {
	Diameter units.Meters
	Excess   units.Fraction
	Ref      place.Ref // of the excess; of the stage where none is stated
	Stated   bool
	Basis    string // bit, caliper, enlarged
}

// holeExcess is the hole a stage's volume is worked out on: bit (or reamed)
// size with the excess of the stage, else of the section, else of the basis;
// or the caliper's or expected mean diameter.
func (w *Well) holeExcess(str int, st *plan.Stage) (HoleExcess, error) {
	h, err := w.HoleOf(str)
	if err != nil {
		return HoleExcess{}, err
	}
	e := HoleExcess{Basis: st.VolumeBasis.Or(h.Plan.HoleBasis.Or("bit")), Ref: st.Ref}
	for _, v := range []plan.Val[units.Fraction]{h.Plan.Excess, st.Excess} {
		if v.Known() {
			e.Excess, e.Ref, e.Stated = v.V, v.Ref, true
		}
	}
	if e.Basis == "bit" {
		e.Diameter, _, err = h.Bore()
	} else if e.Diameter = h.Plan.HoleAverage.V; !h.Plan.HoleAverage.Known() {
		err = Lack(h.Plan.Ref, "the mean hole diameter of %s", h.Plan.Name.V)
	}
	if !e.Stated {
		e.Excess = w.usualExcess(str, h, e.Basis)
	}
	return e, err
}

// PlannedExcess is the excess the volumes of a string count on, and whether the
// plan states it; of several stages the first.
func (w *Well) PlannedExcess(str int) (units.Fraction, bool) {
	s := &w.Plan.Strings[str]
	for i := range s.Stages {
		if e, err := w.holeExcess(str, &s.Stages[i]); err == nil {
			return e.Excess, e.Stated
		}
	}
	return 0, false
}

func (w *Well) usualExcess(str int, h *Hole, basis string) units.Fraction {
	switch {
	case basis == "caliper":
		return excessCaliper
	case basis == "enlarged":
		return 0
	case h.Plan.Returns.V == "seabed":
		return excessRiserless
	}
	switch w.Plan.Strings[str].Role.V {
	case "drive", "conductor", "surface":
		return w.Assume.ExcessSurface
	case "intermediate", "drilling_liner":
		return w.Assume.ExcessMiddle
	}
	return w.Assume.ExcessDeep
}

// cementAnnulus is the annulus outside a string as the volumes of a stage see
// it: with enlargement, and gauge (bit size, none added).
func (w *Well) cementAnnulus(str int, st *plan.Stage) (large, gauge *fluid.Annulus, e HoleExcess, err error) {
	gaps, err := w.Annulus(str)
	if err != nil {
		return nil, nil, e, err
	}
	var big, small []fluid.Interval
	for _, g := range gaps {
		v := fluid.Interval{From: g.From, To: g.To, Outer: g.Outer, Inner: g.Inner}
		small = append(small, v)
		if !g.Cased {
			if e, err = w.holeExcess(str, st); err != nil {
				return nil, nil, e, err
			}
			v.Outer, v.Excess = e.Diameter, e.Excess
		}
		if v.Outer <= v.Inner || g.Outer <= g.Inner {
			return nil, nil, e, Lack(g.Ref, "a hole or casing bore larger than the pipe of %s", w.Plan.Strings[str].Name.V)
		}
		big = append(big, v)
	}
	if large, err = fluid.NewAnnulus(big); err == nil {
		gauge, err = fluid.NewAnnulus(small)
	}
	return large, gauge, e, Unusable(err, w.Plan.Strings[str].Ref, "an annulus without gap of "+w.Plan.Strings[str].Name.V)
}

// Unusable turns a value outside a formula's domain into the input that the plan
// must mend.
func Unusable(err error, ref place.Ref, what string) error {
	var d *fluid.DomainError
	if errors.As(err, &d) {
		return Lack(ref, "%s (%s)", what, d.Text)
	}
	return err
}

// boreVolume is the space inside a string between two depths.
func (w *Well) boreVolume(str int, from, to units.MD) (units.CubicMeters, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, err
	}
	var sum units.CubicMeters
	for i := range c.Pipes {
		p := &c.Pipes[i]
		top, bottom := max(p.From, from), min(p.To, to)
		if bottom <= top {
			continue
		}
		id, err := p.ID()
		if err != nil {
			return 0, err
		}
		area, err := fluid.Capacity(id, 0)
		if err != nil {
			return 0, Unusable(err, p.Plan.Ref, "a usable bore of "+p.Plan.Label())
		}
		sum += units.CubicMeters(float64(area) * float64(bottom-top))
	}
	return sum, nil
}

// TrackVolume is what stays inside a string below the collar a stage's plug
// lands on.
func (w *Well) TrackVolume(str, st int) (units.CubicMeters, place.Ref, error) {
	from, landing, ref, err := w.StagePath(str, st)
	if err != nil {
		return 0, 0, err
	}
	v, err := w.boreVolume(str, landing, from)
	return v, ref, err
}
