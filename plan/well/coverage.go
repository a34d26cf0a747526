package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Surroundings is the depth of the ground or the sea bed below the rotary: what
// cement is brought up to. Onshore a plan that doesn't state the height of its
// rotary measures from the rotary, and stated is false.
func (w *Well) Surroundings() (z units.TVD, stated bool, err error) {
	r := w.Plan.DepthReference
	switch w.Plan.Well.Setting.V {
	case "offshore_surface_bop", "offshore_subsea_bop":
		if !r.AboveSeaLevel.Known() || !r.WaterDepth.Known() {
			return 0, false, Lack(r.Ref, "rotary height over sea level and water depth")
		}
		return units.TVD(r.AboveSeaLevel.V + r.WaterDepth.V), true, nil
	}
	return units.TVD(r.AboveGround.V), r.AboveGround.Known(), nil
}

// CementReach is how far cement comes up from a depth, along the hole.
type CementReach struct {
	Top    units.MD // where the cement above (or nearest below) the depth begins
	Ref    place.Ref
	Sheath Sheath
	None   bool // the string isn't cemented: its shoe counts as the top
}

// CementAt is the cement outside a string at a depth, or the nearest below it.
// A string that isn't cemented has its top of cement at its shoe, so that a
// rule that asks for cement finds none.
func (w *Well) CementAt(str int, md units.MD) (CementReach, error) {
	c, err := w.Casing(str)
	if err != nil {
		return CementReach{}, err
	}
	none := CementReach{Top: c.Shoe, Ref: c.Plan.Shoe.Ref, None: true}
	if !Cemented(c.Plan) {
		return none, nil
	}
	list, err := w.Sheaths(str)
	if err != nil {
		return CementReach{}, err
	}
	s, ok := SheathAt(list, md)
	if !ok {
		return none, nil
	}
	return CementReach{Top: s.Top, Ref: s.Ref, Sheath: s}, nil
}

// PreviousShoe is the shoe the hole of a string starts from.
func (w *Well) PreviousShoe(str int) (units.MD, int, place.Ref, error) {
	i, err := w.Previous(str)
	if err != nil {
		return 0, -1, 0, err
	}
	md, err := w.shoeOf(&w.Plan.Strings[i])
	return md, i, w.Plan.Strings[i].Shoe.Ref, err
}

// UppermostHydrocarbon is the shallowest formation that holds oil or gas. A
// plan that lists no formation lacks them; one that lists none with oil or gas
// has none.
func (w *Well) UppermostHydrocarbon() (at units.MD, zone int, err error) {
	zone = -1
	if len(w.Plan.Formations) == 0 {
		return 0, zone, Lack(w.Plan.Doc.Root.Ref, "the formations and what they hold")
	}
	for i := range w.Plan.Formations {
		if _, hydrocarbon := w.CanFlow(i); !hydrocarbon {
			continue
		}
		md, _, _, err := w.FormationTop(i)
		if err != nil {
			return 0, zone, err
		}
		if zone < 0 || md < at {
			at, zone = md, i
		}
	}
	if zone < 0 {
		return 0, zone, Absent("no formation listed holds oil or gas")
	}
	return at, zone, nil
}

// WellDepth is the deepest end of a hole, along the hole.
func (w *Well) WellDepth() (units.MD, place.Ref, error) {
	hs := w.Holes()
	if len(hs) == 0 {
		return 0, 0, Lack(w.Plan.Doc.Root.Ref, "the hole sections")
	}
	h := &hs[len(hs)-1]
	return h.To, h.Plan.To.Ref, nil
}

// Uncentralized is the greatest distance along a string without a centralizer,
// from its shoe up to a depth, and the joint it is counted in. Within an
// interval centralizers stand as far apart as it says; outside, none stands.
func (w *Well) Uncentralized(str int, up units.MD) (gap, joint units.MD, ref place.Ref, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, 0, 0, err
	}
	if len(c.Plan.Centralizers) == 0 {
		return 0, 0, 0, Lack(c.Plan.Ref, "the centralizers of %s", c.Plan.Name.V)
	}
	joint = c.shoeJoint()
	below := c.Shoe
	for _, i := range c.centralizersUpward() {
		r := &c.Plan.Centralizers[i]
		if !r.From.Known() || !r.To.Known() {
			return 0, 0, 0, Lack(r.Ref, "the top and bottom of centralizer interval %d of %s", i+1, c.Plan.Name.V)
		}
		apart, err := c.apart(i, joint)
		if err != nil {
			return 0, 0, 0, err
		}
		if d := below - max(r.To.V, up); d > gap {
			gap, ref = d, r.To.Ref
		}
		if apart > gap && r.From.V < r.To.V {
			gap, ref = apart, r.Ref
		}
		below = min(below, r.From.V)
	}
	if d := below - up; d > gap {
		gap, ref = d, c.Plan.Centralizers[0].Ref
	}
	return gap, joint, ref, nil
}

// centralizersUpward orders the intervals from the shoe up.
func (c *Casing) centralizersUpward() []int {
	var out []int
	for i := range c.Plan.Centralizers {
		at := len(out)
		for at > 0 && c.Plan.Centralizers[out[at-1]].To.V < c.Plan.Centralizers[i].To.V {
			at--
		}
		out = append(out[:at], append([]int{i}, out[at:]...)...)
	}
	return out
}

// apart is the distance between the centralizers of an interval: as stated,
// else its length shared among its count, else by how many a joint carries.
func (c *Casing) apart(i int, joint units.MD) (units.MD, error) {
	r := &c.Plan.Centralizers[i]
	switch {
	case r.Spacing.Known():
		return units.MD(r.Spacing.V), nil
	case r.Count.Known() && r.Count.V > 1:
		return (r.To.V - r.From.V) / units.MD(r.Count.V-1), nil
	case r.Count.Known() && r.Count.V == 1:
		return r.To.V - r.From.V, nil
	case r.PerJoint.Known() && r.PerJoint.V > 0:
		return joint / units.MD(r.PerJoint.V), nil
	}
	return 0, Lack(r.Ref, "the spacing of centralizer interval %d of %s", i+1, c.Plan.Name.V)
}
