package well

import (
	"math"

	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Taper and friction of casing slips that the lateral factor of 4.00 comes from
// (W. Reinhold and J. Spiri, World Oil, October 1959): 9 deg 27' 45", 0.08.
const (
	slipTaper    units.Radians  = (9 + 27.0/60 + 45.0/3600) * units.Degree
	slipFriction units.Fraction = 0.08
)

// OnSlips is what hangs in the slips while a segment is at the rotary and at
// what pull they begin to crush it.
type OnSlips struct {
	Load, Crush units.Newtons
	Rated       *Rated
	Lateral     units.Fraction
	Refs        []place.Ref
}

// OnSlips is the buoyed weight of a segment and of all below it, hung in the
// slips by its top joint, against slip crushing of that joint.
func (w *Well) OnSlips(str, seg int) (s OnSlips, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return s, err
	}
	if c.Plan.Existing.V {
		return s, Absent("the string is in the well already")
	}
	if c.Plan.SetBy.V == "driven" || c.Plan.SetBy.V == "jetted" {
		return s, Absent("the string is " + c.Plan.SetBy.V + ", it isn't hung in slips")
	}
	if s.Rated, err = w.Rated(str, seg); err != nil {
		return s, err
	}
	rig := &w.Plan.Rig
	var missing Missing
	if !rig.SlipLength.Known() || rig.SlipLength.V <= 0 {
		missing = missing.and(Lack(rig.Ref, "the contact length of the casing slips"))
	}
	p := &c.Pipes[seg]
	if s.Rated.Body.Yield <= 0 {
		missing = missing.and(Lack(p.Plan.Ref, "the yield strength of %s", p.Plan.Label()))
	}
	mud, ref, err := w.RunIn(str)
	if missing = missing.and(err); missing != nil {
		return s, missing
	}
	for i := seg; i < len(c.Pipes); i++ {
		part, err := w.hungWeight(&c.Pipes[i], mud)
		if err != nil {
			return s, err
		}
		s.Load += part
	}
	s.Load = units.Newtons(math.Max(0, float64(s.Load)))
	s.Refs = []place.Ref{p.Plan.Grade.Ref, rig.SlipLength.Ref, ref}
	if s.Lateral, err = fluid.SlipLateral(slipTaper, slipFriction); err != nil {
		return s, err
	}
	s.Crush, err = fluid.SlipCrush(s.Rated.Body.Yield, fluid.Tube{OD: p.Size.OD, ID: p.Size.ID()}, rig.SlipLength.V, s.Lateral)
	return s, Unusable(err, p.Plan.Ref, "usable pipe of "+p.Plan.Label())
}
