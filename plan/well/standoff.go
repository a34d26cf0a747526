package well

import (
	"math"
	"sort"

	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/survey"
	"spudgate/plan/units"
)

// Standoff is how well pipe stands off the side of the hole where it is least: 1
// in the middle, 0 on the wall.
type Standoff struct {
	Least   units.Fraction
	Between bool // in the middle of a span rather than at a centralizer
	MD      units.MD
	Spacing units.MD
	Load    units.Newtons // of a span against the side of the hole
	Sag     units.Meters
	Gap     units.Meters // radial, hole less pipe, over two
	Ref     place.Ref    // of the centralizers
}

// closest is how near two centralizers can stand to each other at all.
const closest units.MD = 0.3

// ZoneStandoff is the least standoff across a zone, at and between the
// centralizers listed there: displacement inside, the slurries outside when the
// job has ended, hole as the volumes count it.
func (w *Well) ZoneStandoff(str, zone int) (Standoff, error) {
	from, to, err := w.zoneLength(str, zone)
	if err != nil {
		return Standoff{}, err
	}
	c, err := w.Casing(str)
	if err != nil {
		return Standoff{}, err
	}
	pull, err := w.pullOn(c, w.StageAt(str, from))
	if err != nil {
		return Standoff{}, err
	}
	least := Standoff{Least: units.Fraction(math.Inf(1))}
	for i := range c.Plan.Centralizers {
		r := &c.Plan.Centralizers[i]
		gap := units.MD(apart(r, c.shoeJoint()))
		if math.IsInf(float64(gap), 1) || gap < closest || !r.From.Known() || !r.To.Known() {
			return least, Lack(r.Ref, "the top, bottom and spacing of centralizer interval %d of %s", i+1, c.Plan.Name.V)
		}
		for md := r.From.V; md <= r.To.V && md <= to; md += gap {
			if md+gap < from || md >= c.Shoe {
				continue
			}
			s, err := w.spanStandoff(c, r, md, min(md+gap, c.Shoe), pull)
			if err != nil {
				return least, err
			}
			if s.Least < least.Least {
				least = s
			}
		}
	}
	if math.IsInf(float64(least.Least), 1) {
		return least, Absent("no centralizers are listed across the zone")
	}
	return least, nil
}

// zoneLength is the length of a zone inside the hole of a cemented string with
// centralizers.
func (w *Well) zoneLength(str, zone int) (from, to units.MD, err error) {
	s := &w.Plan.Strings[str]
	switch {
	case !Cemented(s):
		return 0, 0, Absent("the string isn't cemented")
	case s.Existing.V:
		return 0, 0, Absent("the string is in the well already")
	case len(s.Centralizers) == 0:
		return 0, 0, Lack(s.Ref, "the centralizers of %s", s.Name.V)
	}
	h, err := w.HoleOf(str)
	if err != nil {
		return 0, 0, err
	}
	if from, _, _, err = w.FormationTop(zone); err != nil {
		return 0, 0, err
	}
	shoe, err := w.shoeOf(s)
	if err != nil {
		return 0, 0, err
	}
	if to, _, _, err = w.FormationBase(zone); err != nil {
		if zone < len(w.Plan.Formations)-1 {
			return 0, 0, err
		}
		to = shoe // the last formation goes on below the hole
	}
	from, to = max(from, h.From), min(to, shoe)
	if to <= from {
		return 0, 0, Absent("the zone lies below the shoe")
	}
	return from, to, nil
}

// StageAt is the stage whose way up the annulus passes a depth: the one that
// leaves the string nearest below it.
func (w *Well) StageAt(str int, md units.MD) int {
	best, at := 0, units.MD(math.Inf(1))
	for i := range w.Plan.Strings[str].Stages {
		if from, _, _, err := w.StagePath(str, i); err == nil && from >= md && from < at {
			best, at = i, from
		}
	}
	return best
}

// inCement is what pulls on pipe in the hole: its weight in the fluids there and
// the effective tension of what hangs below.
type inCement struct {
	w       *Well
	c       *Casing
	layers  []layer
	inside  units.KgPerM3
	outside units.KgPerM3 // above the slurries
}

func (w *Well) pullOn(c *Casing, st int) (inCement, error) {
	h := inCement{w: w, c: c}
	if len(c.Plan.Stages) == 0 {
		return h, Lack(c.Plan.Ref, "the cement slurries of %s", c.Plan.Name.V)
	}
	var err error
	if h.layers, err = w.endLayers(c.Index, st); err != nil {
		return h, err
	}
	if h.inside, _, err = w.displacement(c.Index, &c.Plan.Stages[st]); err != nil {
		return h, err
	}
	h.outside, _, err = w.RunIn(c.Index)
	return h, err
}

// weight is the buoyed weight of the pipe at a depth.
func (h inCement) weight(md units.MD) (units.KgPerM, error) {
	p := h.c.At(md)
	if p.SizeErr != nil {
		return 0, p.SizeErr
	}
	out := h.outside
	for _, l := range h.layers {
		if md >= l.top {
			out = l.rho
		}
	}
	v, err := fluid.BuoyedWeight(p.Plan.Weight.Or(p.Size.Weight), fluid.Tube{OD: p.Size.OD, ID: p.Size.ID()}, h.inside, out)
	return v, Unusable(err, p.Plan.Ref, "a usable weight of "+p.Plan.Label())
}

// tension is the effective tension at a depth: the buoyed weight below it,
// vertical component; none at the closed end.
func (h inCement) tension(md units.MD) (units.Newtons, error) {
	edges := []units.MD{md, h.c.Shoe}
	for _, l := range h.layers {
		edges = append(edges, l.top)
	}
	for i := range h.c.Pipes {
		edges = append(edges, h.c.Pipes[i].To)
	}
	sum := units.Newtons(0)
	return sum, pieces(edges, md, h.c.Shoe, func(from, to units.MD) error {
		unit, err := h.weight((from + to) / 2)
		if err != nil {
			return err
		}
		a, err := h.w.TVD(from)
		if err != nil {
			return err
		}
		b, err := h.w.TVD(to)
		sum += units.Newtons(float64(unit) * units.G * float64(b-a))
		return err
	})
}

// spanStandoff is the least standoff of one centralizer and the span below it.
func (w *Well) spanStandoff(c *Casing, r *plan.Centralizer, from, to units.MD, pull inCement) (Standoff, error) {
	s := Standoff{MD: from, Spacing: to - from, Ref: r.Ref}
	p := c.At((from + to) / 2)
	weight, err := pull.weight((from + to) / 2)
	if err != nil {
		return s, err
	}
	tension, err := pull.tension((from + to) / 2)
	if err != nil {
		return s, err
	}
	upper, lower, err := w.directions(from, to)
	if err != nil {
		return s, err
	}
	if s.Load, err = fluid.SpanLoad(weight, to-from, tension, upper, lower); err != nil {
		return s, Unusable(err, w.depthRef(), "a survey without a turn of 90 degrees in one span")
	}
	bore, err := w.cementBore(c.Index, (from+to)/2)
	if err != nil {
		return s, err
	}
	if s.Gap = (bore - p.Size.OD) / 2; s.Gap <= 0 {
		return s, Lack(p.Plan.Ref, "a hole larger than %s", p.Plan.Label())
	}
	drop, err := centralizerDrop(r, c, bore, s.Gap, s.Load)
	if err != nil {
		return s, err
	}
	s.Sag, err = fluid.Sag(s.Load, to-from, fluid.Tube{OD: p.Size.OD, ID: p.Size.ID()}, tension)
	if err != nil { // it buckles between the two and lies on the wall
		s.Sag = s.Gap
	}
	s.Between = s.Sag > 0
	if s.Between {
		s.MD = (from + to) / 2
	}
	// Pipe that would hang lower lies on the wall.
	s.Least = units.Fraction(max(0, float64(s.Gap-drop-s.Sag)/float64(s.Gap)))
	return s, nil
}

// noLoad is under which a span presses on nothing, N.
const noLoad = 1e-6

// centralizerDrop is how far a centralizer lets pipe off the middle: a rigid one
// by its play in the hole, a bow by what the load flattens it, in proportion to
// its restoring force at 67 % (a straight line is a convention of ours).
func centralizerDrop(r *plan.Centralizer, c *Casing, bore, gap units.Meters, load units.Newtons) (units.Meters, error) {
	rigid := r.Kind.V == "rigid" || r.Kind.V == "solid" || r.Kind.V == "integral" && !r.RestoringForce.Known()
	switch {
	case rigid && !r.OD.Known():
		return 0, Lack(r.Ref, "the OD of the rigid centralizers of %s", c.Plan.Name.V)
	case rigid:
		return max(0, (bore-r.OD.V)/2), nil
	case load < noLoad:
		return 0, nil
	case !r.RestoringForce.Known() || r.RestoringForce.V <= 0:
		return 0, Lack(r.Ref, "the restoring force of the centralizers of %s", c.Plan.Name.V)
	}
	return units.Meters(0.33 * float64(gap) * float64(load/r.RestoringForce.V)), nil
}

// directions are where the hole points at two depths.
func (w *Well) directions(from, to units.MD) (a, b fluid.Direction, err error) {
	m, source, err := w.Depths()
	if err != nil {
		return a, b, err
	}
	at := func(md units.MD) fluid.Direction {
		if p, ok := m.(*survey.Path); ok {
			pt, e := p.At(md)
			if e != nil {
				err = Lack(w.depthRef(), "%s down to %s", mapNeed(source), show(w, md, units.MDLength))
			}
			return fluid.Direction{Inc: pt.Inc, Azi: pt.Azi}
		}
		inc, ok := m.Inclination(md)
		if !ok {
			err = Lack(w.Plan.Well.Ref, "a survey")
		}
		return fluid.Direction{Inc: inc}
	}
	return at(from), at(to), err
}

// cementBore is the diameter around a string that its cement fills.
func (w *Well) cementBore(str int, md units.MD) (units.Meters, error) {
	gaps, err := w.Annulus(str)
	if err != nil {
		return 0, err
	}
	for _, g := range gaps {
		if md > g.To {
			continue
		}
		if g.Cased {
			return g.Outer, nil
		}
		e, err := w.holeExcess(str, &w.Plan.Strings[str].Stages[w.StageAt(str, md)])
		return e.Diameter, err
	}
	return 0, Lack(w.Plan.Strings[str].Ref, "the hole around %s", w.Plan.Strings[str].Name.V)
}

// CentralizedZone reports whether centralizers are listed along the whole of a
// zone, a joint to spare at its ends.
func (w *Well) CentralizedZone(str, zone int) (ok bool, ref place.Ref, err error) {
	from, to, err := w.zoneLength(str, zone)
	if err != nil {
		return false, 0, err
	}
	c, err := w.Casing(str)
	if err != nil {
		return false, 0, err
	}
	ref = c.Plan.Centralizers[0].Ref
	joint := c.shoeJoint()
	reached := from
	for again := true; again; {
		again = false
		for i := range c.Plan.Centralizers {
			r := &c.Plan.Centralizers[i]
			if !r.From.Known() || !r.To.Known() {
				return false, r.Ref, Lack(r.Ref, "the top and bottom of centralizer interval %d of %s", i+1, c.Plan.Name.V)
			}
			if r.From.V <= reached+joint && r.To.V > reached {
				reached, again, ref = r.To.V, true, r.Ref
			}
		}
	}
	return reached >= to-joint, ref, nil
}

// pieces calls f for each length between neighbouring edges inside from and to.
func pieces(edges []units.MD, from, to units.MD, f func(from, to units.MD) error) error {
	sort.Slice(edges, func(i, j int) bool { return edges[i] < edges[j] })
	for i := 1; i < len(edges); i++ {
		a, b := max(edges[i-1], from), min(edges[i], to)
		if b <= a {
			continue
		}
		if err := f(a, b); err != nil {
			return err
		}
	}
	return nil
}
