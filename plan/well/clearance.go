package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Clearance is a gap between two diameters, each side, and where it is least.
type Clearance struct {
	Side         units.Meters
	Outer, Inner units.Meters
	From, To     units.MD
	Around       int // the string around it; -1 in open hole
	Refs         []place.Ref
}

// LeastClearance is the least gap at the connections of a string, each side:
// in open hole to bit or reamed size, or inside other strings to their nominal
// bore.
func (w *Well) LeastClearance(str int, cased bool) (Clearance, error) {
	c, err := w.Casing(str)
	if err != nil {
		return Clearance{}, err
	}
	if !cased {
		if _, err := w.HoleOf(str); err != nil {
			return Clearance{}, err
		}
	}
	gaps, err := w.Annulus(str)
	if err != nil {
		return Clearance{}, err
	}
	best, found := Clearance{Side: units.Meters(math.Inf(1))}, false
	for _, g := range gaps {
		if g.Cased != cased || w.inReceptacle(c, g) {
			continue
		}
		od, ref, err := c.At((g.From + g.To) / 2).ConnectionOD()
		if err != nil {
			return best, err
		}
		if side := (g.Outer - od) / 2; side < best.Side {
			best, found = Clearance{side, g.Outer, od, g.From, g.To, g.Around, []place.Ref{g.Ref, ref}}, true
		}
	}
	switch {
	case found:
		return best, nil
	case cased:
		return best, Absent("the string passes no other string")
	}
	return best, Absent("no length of the string is in open hole")
}

// inReceptacle reports whether a gap is the stab of a tie-back.
func (w *Well) inReceptacle(c *Casing, g Gap) bool {
	if !g.Cased {
		return false
	}
	o, err := w.Casing(g.Around)
	return err == nil && stabs(c, o)
}

// Passage is the smallest bore something must pass and what makes it.
type Passage struct {
	Bore units.Meters
	What string
	Refs []place.Ref
}

func (p *Passage) through(bore units.Meters, what string, ref place.Ref) {
	if p.What == "" || bore < p.Bore {
		p.Bore, p.What, p.Refs = bore, what, []place.Ref{ref}
	}
}

// WayTo is the smallest bore on the way to a hole: drift as ordered,
// connection bore and accessories of every string in the well then, bores of
// the wellhead and the BOP. Absent when nothing is in the way.
func (w *Well) WayTo(h *Hole) (Passage, error) {
	var p Passage
	for _, i := range w.InOrder() {
		if w.rank(i) >= 2*h.Order {
			continue
		}
		if err := w.wayThrough(&p, i); err != nil {
			return p, err
		}
	}
	if p.What == "" {
		return p, Absent("no string stands above the hole")
	}
	w.wayOnTop(&p, h)
	return p, nil
}

func (w *Well) wayThrough(p *Passage, str int) error {
	c, err := w.Casing(str)
	if err != nil {
		return err
	}
	for j := range c.Pipes {
		q := &c.Pipes[j]
		d, ref, err := q.Drift()
		if err != nil {
			return err
		}
		p.through(d, "drift of "+c.Plan.Name.V, ref)
		if v := q.Plan.CouplingID; v.Known() {
			p.through(v.V, "connection bore of "+c.Plan.Name.V, v.Ref)
		}
	}
	for j := range c.Plan.Accessories {
		if a := &c.Plan.Accessories[j]; a.Bore.Known() {
			p.through(a.Bore.V, "bore of "+a.Name.Or(a.Kind.V)+" in "+c.Plan.Name.V, a.Bore.Ref)
		}
	}
	return nil
}

func (w *Well) wayOnTop(p *Passage, h *Hole) {
	for i := range w.Plan.Wellhead {
		c := &w.Plan.Wellhead[i]
		on := w.Plan.StringIndex(c.String.V)
		drilledThrough := c.Kind.V == "casing_head" || c.Kind.V == "casing_spool"
		if c.Bore.Known() && drilledThrough && on >= 0 && w.rank(on) < 2*h.Order {
			p.through(c.Bore.V, "bore of "+c.Name.V, c.Bore.Ref)
		}
	}
	if b := w.StackOf(h); b >= 0 && w.Plan.BOPs[b].Bore.Known() {
		p.through(w.Plan.BOPs[b].Bore.V, "bore of "+w.Plan.BOPs[b].Name.V, w.Plan.BOPs[b].Bore.Ref)
	}
}

// StackOf is the BOP that serves a hole: named for it, else the one on the
// string that carries the pressure control, else the only one; -1 when there
// is none.
func (w *Well) StackOf(h *Hole) int {
	for i := range w.Plan.BOPs {
		if w.Plan.SectionIndex(w.Plan.BOPs[i].Section.V) == h.Section {
			return i
		}
	}
	if on := w.Carrier(h); on >= 0 {
		for i := range w.Plan.BOPs {
			if w.Plan.StringIndex(w.Plan.BOPs[i].On.V) == on {
				return i
			}
		}
	}
	if len(w.Plan.BOPs) == 1 && !w.Plan.BOPs[0].Section.Known() && !w.Plan.BOPs[0].On.Known() {
		return 0
	}
	return -1
}

// Carrier is the string the pressure control of a hole stands on: named, else
// the innermost string in the well then that reaches the wellhead; -1 when
// there is none.
func (w *Well) Carrier(h *Hole) int {
	if i := w.Plan.StringIndex(h.Plan.CarriedBy.V); i >= 0 {
		return i
	}
	best := -1
	for _, i := range w.InOrder() {
		if w.rank(i) < 2*h.Order && w.ReachesWellhead(i) {
			best = i
		}
	}
	return best
}

// Lap is the length of a liner inside the string it hangs in, along the hole;
// below zero when its top misses that string's shoe.
func (w *Well) Lap(str int) (units.MD, []place.Ref, error) {
	s := &w.Plan.Strings[str]
	if s.Role.V == "scab_liner" {
		return 0, nil, Absent("a scab liner patches casing and laps no shoe")
	}
	parent, err := w.Parent(str)
	if err != nil {
		return 0, nil, err
	}
	top, err := w.topOf(s)
	if err != nil {
		return 0, nil, err
	}
	p := &w.Plan.Strings[parent]
	shoe, err := w.shoeOf(p)
	return shoe - top, []place.Ref{topRef(s), p.Shoe.Ref}, err
}

func topRef(s *plan.String) place.Ref {
	switch {
	case s.Top.Known():
		return s.Top.Ref
	case len(s.Segments) > 0 && s.Segments[0].From.Known():
		return s.Segments[0].From.Ref
	}
	return s.Ref
}

// Pass is the tightest place of a string on its way down through others.
type Pass struct {
	Spare units.Meters
	Way   Passage
	OD    units.Meters // of the connection that passes there
	Ref   place.Ref    // where it comes from
}

// PassSpare is the least of drift less connection OD where a string runs
// through those before it: each segment passes what lies above its own bottom.
func (w *Well) PassSpare(str int) (Pass, error) {
	best := Pass{Spare: units.Meters(math.Inf(1))}
	c, err := w.Casing(str)
	if err != nil {
		return best, err
	}
	for _, k := range w.before(str) {
		o, err := w.Casing(k)
		if err != nil {
			return best, err
		}
		if o.Top >= c.Shoe || stabs(c, o) {
			continue
		}
		for i := range c.Pipes {
			if err := best.tighten(&c.Pipes[i], o); err != nil {
				return best, err
			}
		}
	}
	if best.Way.What == "" {
		return best, Absent("the string passes no other string")
	}
	return best, nil
}

func (b *Pass) tighten(p *Pipe, o *Casing) error {
	od, ref, err := p.ConnectionOD()
	if err != nil {
		return err
	}
	for j := range o.Pipes {
		q := &o.Pipes[j]
		if q.From >= p.To {
			continue
		}
		d, at, err := q.Drift()
		if err != nil {
			return err
		}
		if d-od < b.Spare {
			*b = Pass{d - od, Passage{d, "drift of " + o.Plan.Name.V, []place.Ref{at}}, od, ref}
		}
	}
	return nil
}

// stabs reports whether c is a tie-back that ends in the receptacle on top of
// liner o: it doesn't pass through it.
func stabs(c, o *Casing) bool {
	const reach = 30 // m
	return c.Plan.Role.V == "tie_back" && IsLiner(o.Plan) && c.Shoe-o.Top <= reach
}

// StepDown is how much smaller a string is than the last one around it, by the
// largest OD of each.
func (w *Well) StepDown(str int) (units.Meters, []place.Ref, error) {
	s := &w.Plan.Strings[str]
	if s.Expanded.V || s.Role.V == "tie_back" || s.Role.V == "scab_liner" {
		return 0, nil, Absent("not a string of the nest")
	}
	prev, err := w.Previous(str)
	if err != nil {
		return 0, nil, err
	}
	a, ra, err := largestOD(&w.Plan.Strings[prev])
	if err != nil {
		return 0, nil, err
	}
	b, rb, err := largestOD(s)
	return a - b, []place.Ref{rb, ra}, err
}

func largestOD(s *plan.String) (units.Meters, place.Ref, error) {
	var od units.Meters
	var ref place.Ref
	for i := range s.Segments {
		if v := s.Segments[i].OD; v.Known() && v.V > od {
			od, ref = v.V, v.Ref
		}
	}
	if ref == 0 {
		return 0, 0, Lack(s.Ref, "the OD of %s", s.Name.V)
	}
	return od, ref, nil
}

// HoleStep is how much smaller a hole's bit is than that of the last hole a
// string was set in.
func (w *Well) HoleStep(h *Hole) (units.Meters, []place.Ref, error) {
	hs := w.Holes()
	last := -1
	for i := range hs {
		if hs[i].Order < h.Order && hs[i].String >= 0 && !w.Plan.Strings[hs[i].String].Contingent.V {
			last = i
		}
	}
	if last < 0 {
		return 0, nil, Absent("no string is set in a hole above")
	}
	for _, s := range []*plan.Section{h.Plan, hs[last].Plan} {
		if !s.Bit.Known() {
			return 0, nil, Lack(s.Ref, "the bit size of %s", s.Name.V)
		}
	}
	return hs[last].Plan.Bit.V - h.Plan.Bit.V, []place.Ref{h.Plan.Bit.Ref, hs[last].Plan.Bit.Ref}, nil
}
