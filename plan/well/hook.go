package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Hanging is what a string weighs on the rig when it is at bottom.
type Hanging struct {
	fluid.HookLoad
	Pipe                   units.Newtons // that a liner is run on, where its weight is stated
	PipeDrag               units.Newtons // what that pipe adds to drag
	DragNote, OverpullNote string
	Refs                   []place.Ref
}

type hangingKey int

// Hanging is the buoyed weight of a string at bottom by pressure-area, vertical
// component, full of the mud it is run in; the drag and overpull that pulling
// it adds; and the block. The pipe a liner is run on is kept apart, buoyed, and
// its share of drag.
func (w *Well) Hanging(str int) (Hanging, error) {
	return once(w, hangingKey(str), func() (Hanging, error) { return w.hanging(str) })
}

func (w *Well) hanging(str int) (h Hanging, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return h, err
	}
	if err := run(c.Plan); err != nil {
		return h, err
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
	if IsLiner(c.Plan) && c.Plan.RunningStringWeight.Known() {
		if h.Pipe, err = w.runningPipe(str); err != nil {
			return h, err
		}
	}
	w.overpull(c, &h)
	return h, w.drag(c, &h, mud)
}

// hungWeight is the buoyed weight of one segment: mass per length by the
// vertical length.
func (w *Well) hungWeight(p *Pipe, mud units.KgPerM3) (units.Newtons, error) {
	b, err := w.perMeter(p, mud, mud)
	if err != nil {
		return 0, err
	}
	from, err := w.TVD(p.From)
	if err != nil {
		return 0, err
	}
	to, err := w.TVD(p.To)
	return units.Newtons(float64(b) * units.G * float64(to-from)), err
}

// drag is what pulling a string, and the pipe it's run on, adds to their weight:
// by the friction factor stated, else a part of the weight.
func (w *Well) drag(c *Casing, h *Hanging, mud units.KgPerM3) error {
	if c.Plan.Friction.Known() && !c.Plan.Drag.Known() {
		return w.rub(c, h, mud)
	}
	part, note := w.dragPart(c.Plan, c.Shoe)
	h.Drag, h.DragNote = units.Newtons(float64(part)*math.Max(0, float64(h.String))), note
	h.Refs = append(h.Refs, c.Plan.Drag.Ref)
	if h.Pipe > 0 {
		// A liner whose top is in the vertical hole is run on pipe that doesn't rub.
		part, _ := w.dragPart(c.Plan, c.Top)
		h.PipeDrag = units.Newtons(float64(part)) * h.Pipe
	}
	return nil
}

// rub is drag by the friction factor stated: of the string, and what the pipe it
// is run on adds while the string pulls on it.
func (w *Well) rub(c *Casing, h *Hanging, mud units.KgPerM3) error {
	f := float64(c.Plan.Friction.V)
	h.DragNote, h.Refs = "drag by the friction factor stated, pulling up", append(h.Refs, c.Plan.Friction.Ref)
	parts, err := w.hungParts(c, mud, c.Shoe)
	if err != nil {
		return err
	}
	up, err := w.softString(parts, f)
	if err != nil {
		return err
	}
	h.Drag = max(0, up-h.String)
	if h.Pipe == 0 {
		return nil
	}
	pipe, err := w.runningPart(c.Index)
	if err != nil {
		return err
	}
	up, err = w.softString(append([]hungPart{pipe}, parts...), f)
	h.PipeDrag = max(0, up-h.String-h.Drag-h.Pipe)
	return err
}

// dragPart is the part of buoyed weight that friction takes of what is in the
// hole down to a depth: stated, else nothing in a vertical hole and the basis's
// part in a deviated one.
func (w *Well) dragPart(s *plan.String, down units.MD) (units.Fraction, string) {
	switch {
	case s.Drag.Known():
		return s.Drag.V, "drag as stated"
	case w.deviated(down):
		return w.Assume.DragDeviated, "drag of the basis, the hole is deviated"
	}
	return 0, "no drag, the hole is vertical"
}

// deviated reports whether the hole is off the vertical down to a depth: 3
// degrees or more in the survey, or a true vertical depth short of the measured
// one.
func (w *Well) deviated(down units.MD) bool {
	for i := range w.Plan.Survey {
		s := &w.Plan.Survey[i]
		if s.MD.V <= down && s.Inclination.V >= 3*units.Degree {
			return true
		}
	}
	z, err := w.TVD(down)
	return err == nil && len(w.Plan.Survey) == 0 && float64(down)-float64(z) > float64(w.Rounding())
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
// 5C1). Other connections have none, nor has round thread from 16 in up.
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
	case byMark(r):
		return 0, nil, Absent("round thread this large is made up by position, with a least torque only")
	case r.Joint.Err != nil:
		return 0, nil, r.Joint.Err
	}
	// 1 ft-lbf for each 100 lbf is a hundredth of a foot times the force.
	return units.NewtonMeters(0.01 * units.Foot * float64(r.Joint.Value)), r, nil
}
