package well

import (
	"math"

	"spudgate/plan/fluid"
	"spudgate/plan/units"
)

// StringLift is what keeps a string down while it is cemented, where it is
// least.
type StringLift struct {
	Net    units.Newtons // head screwed to the casing
	OnRig  units.Newtons // head held by the rig, at the same moment
	Weight units.Newtons // of the string in air, vertical component
	Step   int
}

// PlacementLift is the least force that keeps a string down while a stage is
// pumped round its shoe: weight in air, plus the hydrostatic pressure inside on
// what it closes, less the pressure outside on the pipe's face, shoulders where
// the size changes counted. The pump pressure inside a head screwed to the
// casing is held by the pipe itself.
func (w *Well) PlacementLift(str, st int, moving bool) (StringLift, error) {
	s := &w.Plan.Strings[str]
	switch {
	case IsLiner(s) || s.Role.V == "tie_back":
		return StringLift{}, Absent("the string hangs on the pipe that runs it")
	case w.Subsea():
		return StringLift{}, Absent("the string is landed in the subsea wellhead")
	}
	p, err := w.Placement(str, st)
	if err != nil {
		return StringLift{}, err
	}
	c, err := w.Casing(str)
	if err != nil {
		return StringLift{}, err
	}
	if p.Exit < c.Shoe {
		return StringLift{}, Absent("the cement below the stage collar holds the string")
	}
	if len(p.Edges) != len(c.Pipes)+1 {
		return StringLift{}, Lack(s.Ref, "segments of %s that end at its shoe", s.Name.V)
	}
	if err := p.counts(moving); err != nil {
		return StringLift{}, err
	}
	l := StringLift{Net: units.Newtons(math.Inf(1))}
	if l.Weight, err = w.airWeight(c); err != nil {
		return l, err
	}
	for k := range p.Steps {
		net, bore, err := w.liftAt(p, c, k, moving)
		if err != nil {
			return l, err
		}
		if net += l.Weight; net < l.Net {
			l.Net, l.Step = net, k
			l.OnRig = net + units.Newtons(float64(head(&p.Steps[k], moving))*bore)
		}
	}
	return l, nil
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
