package well

import (
	"math"

	"spudgate/plan/fluid"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Hanging is what a string weighs on the rig when it is at bottom.
type Hanging struct {
	fluid.HookLoad
	DragNote, OverpullNote string
	Refs                   []place.Ref
}

type hangingKey int

// Hanging is the buoyed weight of a string at bottom by pressure-area, vertical
// component, full of the mud it is run in; the drag and overpull that pulling
// it adds; and the block. The pipe a liner is run on isn't in it.
func (w *Well) Hanging(str int) (Hanging, error) {
	return once(w, hangingKey(str), func() (Hanging, error) { return w.hanging(str) })
}

func (w *Well) hanging(str int) (h Hanging, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return h, err
	}
	if c.Plan.Existing.V {
		return h, Absent("the string is in the well already")
	}
	mud, ref, err := w.RunIn(str)
	if err != nil {
		return h, err
	}
	for i := range c.Pipes {
		p := &c.Pipes[i]
		part, err := w.hungWeight(p, mud)
		if err != nil {
			return h, err
		}
		h.String += part
		h.Refs = append(h.Refs, p.Plan.Ref)
	}
	h.Refs = append(h.Refs, ref)
	h.Block = w.Plan.Rig.BlockWeight.V
	w.drag(c, &h)
	w.overpull(c, &h)
	return h, nil
}

// hungWeight is the buoyed weight of one segment: mass per length by the
// vertical length.
func (w *Well) hungWeight(p *Pipe, mud units.KgPerM3) (units.Newtons, error) {
	if p.SizeErr != nil {
		return 0, p.SizeErr
	}
	mass := p.Size.Weight
	if p.Plan.Weight.Known() {
		mass = p.Plan.Weight.V
	}
	if mass <= 0 {
		return 0, Lack(p.Plan.Ref, "the weight of %s", p.Plan.Label())
	}
	b, err := fluid.BuoyedWeight(mass, fluid.Tube{OD: p.Size.OD, ID: p.Size.ID()}, mud, mud)
	if err != nil {
		return 0, Unusable(err, p.Plan.Ref, "a usable weight of "+p.Plan.Label())
	}
	from, err := w.TVD(p.From)
	if err != nil {
		return 0, err
	}
	to, err := w.TVD(p.To)
	return units.Newtons(float64(b) * units.G * float64(to-from)), err
}

// drag is the part of buoyed weight that friction adds: stated, else nothing in
// a vertical hole and the basis's part in a deviated one.
func (w *Well) drag(c *Casing, h *Hanging) {
	part, note := units.Fraction(0), "no drag, the hole is vertical"
	switch {
	case c.Plan.Drag.Known():
		part, note = c.Plan.Drag.V, "drag as stated"
		h.Refs = append(h.Refs, c.Plan.Drag.Ref)
	case w.deviated(c):
		part, note = w.Assume.DragDeviated, "drag of the basis, the hole is deviated"
	}
	h.Drag, h.DragNote = units.Newtons(float64(part)*math.Max(0, float64(h.String))), note
}

// deviated reports whether the hole is off the vertical over a string: 3 degrees
// or more in the survey, or a true vertical depth short of the measured one.
func (w *Well) deviated(c *Casing) bool {
	for i := range w.Plan.Survey {
		s := &w.Plan.Survey[i]
		if s.MD.V <= c.Shoe && s.Inclination.V >= 3*units.Degree {
			return true
		}
	}
	z, err := w.TVD(c.Shoe)
	return err == nil && len(w.Plan.Survey) == 0 && float64(c.Shoe)-float64(z) > float64(w.Rounding())
}

// overpull is as planned, else the string's own weight within the bounds of the
// basis.
func (w *Well) overpull(c *Casing, h *Hanging) {
	if c.Plan.Overpull.Known() {
		h.Overpull, h.OverpullNote = c.Plan.Overpull.V, "overpull as planned"
		h.Refs = append(h.Refs, c.Plan.Overpull.Ref)
		return
	}
	h.Overpull = max(min(w.Assume.OverpullMost, h.String), w.Assume.OverpullLeast)
	h.OverpullNote = "overpull of the basis"
}

// BestTorque is the optimum make-up torque of a round-thread segment and the
// joint strength it comes from: 1 % of joint strength, ft-lbf of lbf (API RP
// 5C1). Other connections have none.
func (w *Well) BestTorque(str, seg int) (units.NewtonMeters, *Rated, error) {
	r, err := w.Rated(str, seg)
	if err != nil {
		return 0, nil, err
	}
	switch {
	case r.ConnErr != nil && !Proprietary(r.ConnErr):
		return 0, nil, r.ConnErr
	case r.ConnErr != nil:
		return 0, nil, Absent("a maker's own connection is made up to its data sheet")
	case r.Conn == pipe.BTC:
		return 0, nil, Absent("buttress is made up by position, to the triangle")
	case r.Conn != pipe.STC && r.Conn != pipe.LTC:
		return 0, nil, Absent("not a round thread")
	case r.Joint.Err != nil:
		return 0, nil, r.Joint.Err
	}
	// 1 ft-lbf for each 100 lbf is a hundredth of a foot times the force.
	return units.NewtonMeters(0.01 * units.Foot * float64(r.Joint.Value)), r, nil
}
