package well

import (
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
		if a.Kind.V == "crossover" && (!a.Depth.Known() || a.Depth.V-md <= nearJoint && md-a.Depth.V <= nearJoint) {
			return true
		}
	}
	return false
}
