package well

import (
	"spudgate/plan/fluid"
	"spudgate/plan/units"
)

// StringLift is what keeps a string down while it is cemented, where it is
// least by the way its head is held.
type StringLift struct {
	Net    units.Newtons // head screwed to the casing
	OnRig  units.Newtons // head held by the rig, at the same moment
	Weight units.Newtons // of the string in air, vertical component
	ByRig  bool          // the plan says that the rig holds the head
	Said   bool          // the plan says how the head is held
	PlacementAt
}

// Spare is the force left by the way the head is held; screwed to the casing,
// the harder one, where the plan doesn't say.
func (l StringLift) Spare() units.Newtons {
	if l.ByRig {
		return l.OnRig
	}
	return l.Net
}

// PlacementLift is the least force that keeps a string down while a stage is
// pumped round its shoe: weight in air, plus the hydrostatic pressure inside on
// what it closes, less the pressure outside on the pipe's face, shoulders where
// the size changes counted. The pump pressure inside a head screwed to the
// casing is held by the pipe itself; where the rig holds the head it presses the
// string down. In the hole, planned or at gauge, where least is left.
func (w *Well) PlacementLift(str, st int, moving bool) (StringLift, error) {
	return worstHole(w, str, st, func(h JobHole) (StringLift, error) {
		return w.lift(str, st, h, moving, everyStep)
	}, func(l StringLift) float64 { return float64(l.Spare()) })
}

func (w *Well) lift(str, st int, h JobHole, moving bool, step int) (StringLift, error) {
	p, c, err := w.lifted(str, st, h)
	if err != nil {
		return StringLift{}, err
	}
	if err := p.counts(moving); err != nil {
		return StringLift{}, err
	}
	weight, err := w.airWeight(c)
	if err != nil {
		return StringLift{}, err
	}
	start, end := step, step+1
	if step == everyStep {
		start, end = 0, len(p.Steps)
	}
	var least StringLift
	for k := start; k < end; k++ {
		fluids, bore, err := w.liftAt(p, c, k, moving)
		if err != nil {
			return StringLift{}, err
		}
		l := StringLift{Net: weight + fluids, Weight: weight, ByRig: p.Plan.HeadHeld.V == "rig", Said: p.Plan.HeadHeld.Known(), PlacementAt: PlacementAt{k, p.Hole}}
		l.OnRig = l.Net + units.Newtons(float64(head(&p.Steps[k], moving))*bore)
		if k == start || l.Spare() < least.Spare() {
			least = l
		}
	}
	return least, nil
}

// lifted is the job of a stage that may lift its string, and the string.
func (w *Well) lifted(str, st int, h JobHole) (*Placement, *Casing, error) {
	s := &w.Plan.Strings[str]
	switch {
	case IsLiner(s) || s.Role.V == "tie_back":
		return nil, nil, Absent("the string hangs on the pipe that runs it")
	case w.Subsea():
		return nil, nil, Absent("the string is landed in the subsea wellhead")
	}
	p, err := w.PlacementFor(str, st, h)
	if err != nil {
		return nil, nil, err
	}
	c, err := w.Casing(str)
	switch {
	case err != nil:
		return nil, nil, err
	case p.Exit < c.Shoe:
		return nil, nil, Absent("the cement below the stage collar holds the string")
	case len(p.Edges) != len(c.Pipes)+1:
		return nil, nil, Lack(s.Ref, "segments of %s that end at its shoe", s.Name.V)
	}
	return p, c, nil
}

// liftAt is the force of the fluids on a string, down positive, and the area of
// its lowest bore.
func (w *Well) liftAt(p *Placement, c *Casing, k int, moving bool) (net units.Newtons, bore float64, err error) {
	step := &p.Steps[k]
	first := len(p.Watched) - len(p.Edges)
	outside := step.Still
	if moving {
		outside = step.Moving
	}
	for i := range c.Pipes {
		in := step.Inside[i+1]
		if p.Plan.Kind.V == "inner_string" { // mud stands around the inner string
			z, err := w.TVD(p.Edges[i+1])
			if err != nil {
				return 0, 0, err
			}
			in = units.Hydrostatic(p.route.Inside.Density, z)
		}
		face, err := fluid.Capacity(c.Pipes[i].Size.OD, 0)
		if err != nil {
			return 0, 0, err
		}
		inside, err := fluid.Capacity(c.Pipes[i].Size.ID(), 0)
		if err != nil {
			return 0, 0, err
		}
		bore = float64(inside)
		out := outside[first+i+1]
		net += units.Newtons(float64(in)*bore - float64(out)*float64(face))
		if i+1 < len(c.Pipes) { // the next pipe down takes over at the shoulder
			nextFace, _ := fluid.Capacity(c.Pipes[i+1].Size.OD, 0)
			nextBore, _ := fluid.Capacity(c.Pipes[i+1].Size.ID(), 0)
			net += units.Newtons(float64(out)*float64(nextFace) - float64(in)*float64(nextBore))
		}
	}
	return net, bore, nil
}

func (w *Well) airWeight(c *Casing) (units.Newtons, error) {
	sum := units.Newtons(0)
	for i := range c.Pipes {
		n, err := w.hungWeight(&c.Pipes[i], 0)
		if err != nil {
			return 0, err
		}
		sum += n
	}
	return sum, nil
}
