package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/units"
)

// JointRange are the shortest and longest joint of a length range (API Spec
// 5CT): R1 16 to 25 ft, R2 25 to 34, R3 34 to 48.
func JointRange(name string) (least, most units.Meters, ok bool) {
	switch name {
	case "R1":
		return 16 * units.Foot, 25 * units.Foot, true
	case "R2":
		return 25 * units.Foot, 34 * units.Foot, true
	case "R3":
		return 34 * units.Foot, 48 * units.Foot, true
	}
	return 0, 0, false
}

// AverageJoint is the length that joints of the planned number would have.
func (w *Well) AverageJoint(str, seg int) (units.Meters, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, err
	}
	p := &c.Pipes[seg]
	if !p.Plan.Joints.Known() || p.Plan.Joints.V <= 0 {
		return 0, Lack(p.Plan.Ref, "the number of joints of %s in %s", p.Plan.Label(), c.Plan.Name.V)
	}
	return units.Meters(float64(p.To-p.From) / float64(p.Plan.Joints.V)), nil
}

// usualJoint is the length a joint is taken as where no range is stated.
const usualJoint = 40 * units.Foot

// shoeJoint is the length of the joints at the shoe: the longest of their
// range that casing is usually delivered in, 40 ft where none is stated.
func (c *Casing) shoeJoint() units.MD {
	switch c.Pipes[len(c.Pipes)-1].Plan.Range.V {
	case "R1":
		return 25 * units.Foot
	case "R2":
		return 34 * units.Foot
	}
	return usualJoint
}

// CentralizersListed is how many centralizers the plan's intervals come to:
// counted, else the length over the spacing or the joint.
func (w *Well) CentralizersListed(str int) (int, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, err
	}
	n := 0
	for i := range c.Plan.Centralizers {
		r := &c.Plan.Centralizers[i]
		k, ok := counted(r, c)
		if !ok {
			return 0, Lack(r.Ref, "the count or spacing of centralizer interval %d of %s", i+1, c.Plan.Name.V)
		}
		n += k
	}
	return n, nil
}

func counted(r *plan.Centralizer, c *Casing) (int, bool) {
	length := float64(r.To.V - r.From.V)
	switch {
	case r.Count.Known():
		return r.Count.V, true
	case !r.From.Known() || !r.To.Known() || length < 0:
		return 0, false
	case r.Spacing.Known() && r.Spacing.V > 0:
		return int(length/float64(r.Spacing.V)+0.5) + 1, true
	case r.PerJoint.Known() && r.PerJoint.V > 0:
		return int(length/float64(c.shoeJoint())*float64(r.PerJoint.V) + 0.5), true
	}
	return 0, false
}

// CentralizedJoints is how many of the bottom n joints carry a centralizer at
// least, from the shoe joint up; joints are as long as their range says, 40 ft
// where none is stated.
func (w *Well) CentralizedJoints(str, n int) (int, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, err
	}
	if len(c.Plan.Centralizers) == 0 {
		return 0, Lack(c.Plan.Ref, "the centralizers of %s", c.Plan.Name.V)
	}
	long := c.shoeJoint()
	have := 0
	for j := 1; j <= n; j++ {
		bottom := c.Shoe - units.MD(j-1)*long
		if bottom <= c.Top {
			return n, nil // a string shorter than that is centralized as far as it goes
		}
		ok, err := c.centralized(max(bottom-long, c.Top), bottom)
		if err != nil {
			return 0, err
		}
		if !ok {
			return have, nil
		}
		have++
	}
	return have, nil
}

// centralized reports whether some interval puts a centralizer on the joint
// between two depths: it covers most of the joint, and its centralizers are
// no more than a joint apart, a tenth to spare.
func (c *Casing) centralized(from, to units.MD) (bool, error) {
	joint := float64(to - from)
	for i := range c.Plan.Centralizers {
		r := &c.Plan.Centralizers[i]
		if !r.From.Known() || !r.To.Known() {
			return false, Lack(r.Ref, "the top and bottom of centralizer interval %d of %s", i+1, c.Plan.Name.V)
		}
		over := float64(min(r.To.V, to) - max(r.From.V, from))
		if over < 0 || r.To.V-r.From.V > 0 && over < joint/4 {
			continue
		}
		if apart(r, c.shoeJoint()) <= 1.1*float64(c.shoeJoint()) {
			return true, nil
		}
	}
	return false, nil
}

// apart is how far the centralizers of an interval are apart, m.
func apart(r *plan.Centralizer, joint units.MD) float64 {
	length := float64(r.To.V - r.From.V)
	switch {
	case r.PerJoint.Known() && r.PerJoint.V > 0:
		return float64(joint) / float64(r.PerJoint.V)
	case r.Spacing.Known() && r.Spacing.V > 0:
		return float64(r.Spacing.V)
	case r.Count.Known() && r.Count.V > 0:
		return length / float64(r.Count.V)
	}
	return math.Inf(1)
}
