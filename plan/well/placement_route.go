package well

import (
	"math"
	"sort"

	"spudgate/plan/fluid"
	"spudgate/plan/units"
)

// placementRoute lays the way of a stage and what is watched along it.
func (w *Well) placementRoute(p *Placement, c *CementStage, parcels []fluid.Parcel) error {
	legs, err := w.wayDown(p)
	if err != nil {
		return err
	}
	ring, over, err := w.wayUp(p, c)
	if err != nil {
		return err
	}
	pipe, err := fluid.NewBore(legs)
	if err != nil {
		return Unusable(err, p.Plan.Ref, "a path down to where "+p.Plan.Name.V+" leaves the string")
	}
	mud, _, err := w.RunIn(p.String)
	if err != nil {
		return err
	}
	flow, _ := w.mudFlow(p.String)
	p.route = fluid.Route{Pipe: pipe, Ring: ring, Over: over,
		Inside: fluid.Parcel{Density: mud, Flow: flow}, Outside: fluid.Parcel{Density: mud, Flow: flow}}
	if err := w.heldBefore(p); err != nil {
		return err
	}
	if err := w.lands(p, parcels); err != nil {
		return err
	}
	return w.watch(p)
}

// heldBefore is what fills the string when a stage begins at a collar: the
// displacement of the stage below, until as much mud is circulated through the
// open collar as the string holds above it.
func (w *Well) heldBefore(p *Placement) error {
	if p.Stage == 0 || p.Exit != p.Landing {
		return nil
	}
	holds, err := w.Displacement(p.String, p.Stage)
	if err != nil {
		return err
	}
	if v := p.Plan.Circulated; v.Known() && v.V >= holds {
		return nil
	}
	before := &w.Plan.Strings[p.String].Stages[p.Stage-1]
	rho, _, err := w.displacement(p.String, before)
	if err != nil {
		return err
	}
	p.Held, p.route.Inside.Density = rho != p.route.Inside.Density, rho
	return nil
}

// wayDown is the path of the displacement, and below it the bore down to where
// the stage leaves.
func (w *Well) wayDown(p *Placement) ([]fluid.Bore, error) {
	legs, err := w.DisplacementPath(p.String, p.Stage)
	if err != nil {
		return nil, err
	}
	var out []fluid.Bore
	for _, l := range legs {
		out = append(out, fluid.Bore{From: l.From, To: l.To, ID: l.ID})
	}
	c, err := w.Casing(p.String)
	if err != nil {
		return nil, err
	}
	for i := range c.Pipes {
		q := &c.Pipes[i]
		from, to := max(q.From, p.Landing), min(q.To, p.Exit)
		if to <= from {
			continue
		}
		id, err := q.ID()
		if err != nil {
			return nil, err
		}
		out = append(out, fluid.Bore{From: from, To: to, ID: id})
	}
	return out, nil
}

// wayUp is the annulus from where a stage leaves up to where fluid returns, and
// the pressure there. Above a string that begins below the wellhead it goes on
// around the pipe the string is run on.
func (w *Well) wayUp(p *Placement, c *CementStage) (*fluid.Annulus, units.Pascals, error) {
	o, err := w.outerOf(p.String)
	if err != nil {
		return nil, 0, err
	}
	list := above(c.annulusIn(p.Hole), p.Exit)
	over := o.realOver
	switch {
	case len(list) == 0:
		return nil, 0, Lack(p.Plan.Ref, "a stage collar inside %s", w.Plan.Strings[p.String].Name.V)
	case o.top > 0 && (IsLiner(&w.Plan.Strings[p.String]) || w.Subsea() && o.realFrom == 0):
		above, err := w.aboveTop(p.String, o.top)
		if err != nil {
			return nil, 0, err
		}
		list = append(above, list...)
	default: // mud stands from where the column begins to the top of the string
		z, err := w.TVD(o.top)
		if err != nil {
			return nil, 0, err
		}
		over += units.Hydrostatic(o.mud, max(z-o.realFrom, 0))
	}
	a, err := fluid.NewAnnulus(list)
	return a, over, Unusable(err, p.Plan.Ref, "an annulus without gap of "+w.Plan.Strings[p.String].Name.V)
}

// aboveTop is the annulus from the rotary to the top of a string around the
// pipe it is run on, taken as the drill string of its hole: in the strings
// already there, and in the riser over them.
func (w *Well) aboveTop(str int, top units.MD) ([]fluid.Interval, error) {
	h, err := w.HoleOf(str)
	if err != nil {
		return nil, err
	}
	d, err := h.Drillstring()
	if err != nil {
		return nil, err
	}
	head, err := w.Mudline()
	if err != nil {
		return nil, err
	}
	var out []fluid.Interval
	if bed := min(units.MD(head), top); bed > 0 {
		if !h.Plan.RiserBore.Known() {
			return nil, Lack(h.Plan.Ref, "the bore of the marine riser")
		}
		out = append(out, fluid.Interval{From: 0, To: bed, Outer: h.Plan.RiserBore.V, Inner: d.Pipe})
	}
	inside, err := w.boresAbove(str, units.MD(head), top)
	for i := range inside {
		inside[i].Inner = d.Pipe
	}
	return append(out, inside...), err
}

// boresAbove are the innermost bores of the strings run before one, between two
// depths.
func (w *Well) boresAbove(str int, from, to units.MD) ([]fluid.Interval, error) {
	edges := []units.MD{from, to}
	var around []*Casing
	for _, k := range w.before(str) {
		c, err := w.Casing(k)
		if err != nil {
			return nil, err
		}
		around = append(around, c)
		edges = append(edges, c.Top, c.Shoe)
		for i := range c.Pipes {
			edges = append(edges, c.Pipes[i].To)
		}
	}
	sort.Slice(edges, func(i, j int) bool { return edges[i] < edges[j] })
	var out []fluid.Interval
	for i := 1; i < len(edges); i++ {
		a, b := max(edges[i-1], from), min(edges[i], to)
		if b-a < 1e-6 {
			continue
		}
		least := units.Meters(math.Inf(1))
		for _, c := range around {
			if mid := (a + b) / 2; mid > c.Top && mid < c.Shoe {
				id, err := c.At(mid).ID()
				if err != nil {
					return nil, err
				}
				least = min(least, id)
			}
		}
		if math.IsInf(float64(least), 1) {
			return nil, Lack(w.Plan.Strings[str].Ref, "a string around the pipe that %s is run on", w.Plan.Strings[str].Name.V)
		}
		out = append(out, fluid.Interval{From: a, To: b, Outer: least})
	}
	return out, nil
}

// lands is the volume at which the top plug lands: all ahead of it, and the path
// down to the collar.
func (w *Well) lands(p *Placement, parcels []fluid.Parcel) error {
	if p.Plan.Kind.V == "inner_string" || p.Plan.TopPlug.Known() && !p.Plan.TopPlug.V {
		return nil
	}
	v, err := w.Displacement(p.String, p.Stage)
	for _, f := range parcels[:len(parcels)-1] {
		v += f.Volume
	}
	p.route.Lands = v
	return err
}

// watch picks the depths that pressures are wanted at: outside, the rock of the
// open hole and the exit; on the string, its top, crossovers and shoe.
func (w *Well) watch(p *Placement) error {
	if _, err := w.TVD(p.Exit); err != nil { // all else lies above
		return err
	}
	m, _, err := w.Depths()
	if err != nil {
		return err
	}
	p.route.Depth = func(md units.MD) units.TVD { z, _ := m.TVD(md); return z }
	if from, to, err := w.openTo(p.String, p.Stage); err == nil {
		rock, err := w.rockDepths(from, to)
		if err != nil {
			return err
		}
		p.Watched = append(p.Watched, rock...)
	}
	p.Rock = len(p.Watched)
	p.Watched = append(p.Watched, w.zonesBelow(p)...)
	p.Flows = len(p.Watched) - p.Rock
	c, err := w.Casing(p.String)
	if err != nil {
		return err
	}
	for i := range c.Pipes {
		if c.Pipes[i].From <= p.Exit {
			p.Edges = append(p.Edges, c.Pipes[i].From)
		}
	}
	p.Edges = append(p.Edges, p.Exit)
	p.Watched = append(p.Watched, p.Edges...)
	p.route.InRing, p.route.InPipe = p.Watched, p.Edges
	return nil
}

// zonesBelow are the tops of open zones that can flow.
func (w *Well) zonesBelow(p *Placement) []units.MD {
	from, to, err := w.openTo(p.String, p.Stage)
	if err != nil {
		return nil
	}
	var out []units.MD
	for i := range w.Plan.Formations {
		md, _, _, err := w.FormationTop(i)
		if flows, _ := w.CanFlow(i); err == nil && flows && md >= from && md < to {
			out = append(out, md)
		}
	}
	return out
}
