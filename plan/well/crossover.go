package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/pipe"
	"spudgate/plan/units"
)

// Change is a place in a string where the pipe changes.
type Change struct {
	MD           units.MD
	Upper, Lower *Pipe
	Crossover    bool // the plan has a crossover there
}

// nearJoint is how near a crossover stands to the change it is for: a joint.
const nearJoint = 50 * units.Foot

// SizeChanges are the places where the OD of a string changes.
func (w *Well) SizeChanges(str int) ([]Change, error) {
	return w.pipeChanges(str, func(a, b *Pipe) (bool, error) {
		if a.SizeErr != nil {
			return false, a.SizeErr
		}
		return differ(a.Size.OD, b.Size.OD), b.SizeErr
	})
}

// ThreadChanges are the places where the thread changes and the OD doesn't:
// short and long round thread are one thread, welded pipe has none.
func (w *Well) ThreadChanges(str int) ([]Change, error) {
	return w.pipeChanges(str, func(a, b *Pipe) (bool, error) {
		for _, p := range []*Pipe{a, b} {
			if p.SizeErr != nil {
				return false, p.SizeErr
			}
			if p.ConnErr != nil && !Proprietary(p.ConnErr) {
				return false, p.ConnErr
			}
		}
		return !differ(a.Size.OD, b.Size.OD) && !plan.Same(a.thread(), b.thread()), nil
	})
}

func differ(a, b units.Meters) bool { return a-b > 0.0003 || b-a > 0.0003 }

// thread names what a joint screws into.
func (p *Pipe) thread() string {
	switch {
	case p.ConnErr != nil:
		return p.Plan.Connection.V
	case p.Conn == pipe.STC || p.Conn == pipe.LTC:
		return "round"
	case p.Conn == pipe.BTC:
		return "buttress"
	}
	return "plain"
}

func (w *Well) pipeChanges(str int, is func(a, b *Pipe) (bool, error)) ([]Change, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	if err := run(c.Plan); err != nil {
		return nil, err
	}
	var out []Change
	for i := 1; i < len(c.Pipes); i++ {
		a, b := &c.Pipes[i-1], &c.Pipes[i]
		yes, err := is(a, b)
		if err != nil {
			return nil, err
		}
		if yes {
			out = append(out, Change{a.To, a, b, c.crossoverNear(a.To)})
		}
	}
	if len(out) == 0 {
		return nil, Absent("it doesn't change along the string")
	}
	return out, nil
}

func (c *Casing) crossoverNear(md units.MD) bool {
	for i := range c.Plan.Accessories {
		a := &c.Plan.Accessories[i]
		if a.Kind.V == "crossover" && (!a.Depth.Known() || math.Abs(float64(a.Depth.V-md)) <= nearJoint+1e-6) {
			return true
		}
	}
	return false
}

// BoreStep is how much wider the widest bore of a string is than its narrowest,
// as a part of it, over the way its plug goes down. Absent where no plug goes
// down it.
func (w *Well) BoreStep(str int) (part units.Fraction, wide, narrow *Pipe, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, nil, nil, err
	}
	if !plugged(c.Plan) {
		return 0, nil, nil, Absent("no plug goes down the string")
	}
	down, _, ok := c.FloatCollar()
	if !ok {
		down = c.Shoe
	}
	for i := range c.Pipes {
		p := &c.Pipes[i]
		if p.From >= down {
			break
		}
		if p.SizeErr != nil {
			return 0, nil, nil, p.SizeErr
		}
		if wide == nil || p.Size.ID() > wide.Size.ID() {
			wide = p
		}
		if narrow == nil || p.Size.ID() < narrow.Size.ID() {
			narrow = p
		}
	}
	if wide == nil {
		return 0, nil, nil, Absent("its plug lands above its pipe")
	}
	return units.Fraction(wide.Size.ID()/narrow.Size.ID() - 1), wide, narrow, nil
}

// plugged reports whether some job sends a plug down a string.
func plugged(s *plan.String) bool {
	if s.Existing.V {
		return false
	}
	for i := range s.Stages {
		st := &s.Stages[i]
		switch st.Kind.V {
		case "inner_string", "top_up", "squeeze":
			continue
		}
		if st.TopPlug.V || st.BottomPlug.V || !st.TopPlug.Known() && !st.BottomPlug.Known() {
			return true
		}
	}
	return false
}

// AccessoryBore is the least of an accessory's bore over the drift of the pipe it
// stands in.
func (w *Well) AccessoryBore(str int) (part units.Fraction, least *plan.Accessory, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, nil, err
	}
	for i := range c.Plan.Accessories {
		a := &c.Plan.Accessories[i]
		if !a.Bore.Known() || !a.Depth.Known() || a.Kind.V == "wear_bushing" {
			continue
		}
		d, _, err := c.At(a.Depth.V).Drift()
		if err != nil {
			return 0, nil, err
		}
		if d <= 0 {
			return 0, nil, Lack(c.Plan.Ref, "a usable drift of %s", c.Plan.Name.V)
		}
		if of := units.Fraction(a.Bore.V / d); least == nil || of < part {
			part, least = of, a
		}
	}
	if least == nil {
		return 0, nil, Absent("no accessory of the string states bore and depth")
	}
	return part, least, nil
}
