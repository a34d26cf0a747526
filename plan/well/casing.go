package well

import (
	"errors"
	"strings"

	"spudgate/plan"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Casing is one string with its depths and pipe resolved.
type Casing struct {
	Index     int
	Plan      *plan.String
	Top, Shoe units.MD
	Pipes     []Pipe // from the top down
}

// Pipe is one segment of a string resolved against the catalogue. What could
// not be resolved is an error of its own, so that a missing grade doesn't hide
// the geometry.
type Pipe struct {
	Segment  int
	Plan     *plan.Segment
	From, To units.MD

	Size     pipe.Size // OD, wall, weight; valid when SizeErr is nil
	SizeErr  error
	Grade    pipe.Grade
	GradeErr error // Missing, or a *pipe.Unknown: a proprietary grade
	Conn     pipe.Connection
	ConnErr  error // Missing, or a *pipe.Unknown: a proprietary connection

	expanded bool // an expandable: its bore isn't the catalogue's
}

type casingKey int

// Casing resolves a string. The error says which depth is missing.
func (w *Well) Casing(i int) (*Casing, error) {
	return once(w, casingKey(i), func() (*Casing, error) { return w.casing(i) })
}

func (w *Well) casing(i int) (*Casing, error) {
	s := &w.Plan.Strings[i]
	c := &Casing{Index: i, Plan: s}
	if len(s.Segments) == 0 {
		return nil, Lack(s.Ref, "the pipe of %s", s.Name.V)
	}
	var err error
	if c.Top, err = w.topOf(s); err != nil {
		return nil, err
	}
	if c.Shoe, err = w.shoeOf(s); err != nil {
		return nil, err
	}
	from := c.Top
	for j := range s.Segments {
		g := &s.Segments[j]
		p := Pipe{Segment: j, Plan: g, From: g.From.Or(from)}
		switch {
		case g.To.Known():
			p.To = g.To.V
		case j == len(s.Segments)-1:
			p.To = c.Shoe
		default:
			return nil, Lack(g.Ref, "the bottom of segment %d of %s", j+1, s.Name.V)
		}
		p.resolve(w, s)
		c.Pipes = append(c.Pipes, p)
		from = p.To
	}
	return c, nil
}

// topOf is the top of a string: stated, else where its first segment begins,
// else the wellhead unless it is a liner.
func (w *Well) topOf(s *plan.String) (units.MD, error) {
	switch {
	case s.Top.Known():
		return s.Top.V, nil
	case len(s.Segments) > 0 && s.Segments[0].From.Known():
		return s.Segments[0].From.V, nil
	case IsLiner(s):
		return 0, Lack(s.Ref, "the top of %s", s.Name.V)
	}
	z, err := w.Mudline()
	return units.MD(z), err
}

func (w *Well) shoeOf(s *plan.String) (units.MD, error) {
	if s.Shoe.Known() {
		return s.Shoe.V, nil
	}
	if n := len(s.Segments); n > 0 && s.Segments[n-1].To.Known() {
		return s.Segments[n-1].To.V, nil
	}
	return 0, Lack(s.Ref, "the shoe depth of %s", s.Name.V)
}

// IsLiner reports whether the string hangs inside another one.
func IsLiner(s *plan.String) bool {
	switch s.Role.V {
	case "drilling_liner", "production_liner", "scab_liner":
		return true
	}
	return false
}

// Cemented reports whether the string is cemented: unless the plan says no, or
// it was driven or jetted.
func Cemented(s *plan.String) bool {
	if s.Cemented.Known() {
		return s.Cemented.V
	}
	return !(s.SetBy.V == "driven" || s.SetBy.V == "jetted")
}

func (p *Pipe) resolve(w *Well, s *plan.String) {
	p.expanded = s.Expanded.V
	p.Size, p.SizeErr = sizeOf(p.Plan, s)
	p.Grade, p.GradeErr = gradeOf(p.Plan, s)
	if !p.Plan.Connection.Known() {
		p.ConnErr = Lack(p.Plan.Ref, "the connection of %s", s.Name.V)
		return
	}
	p.Conn, p.ConnErr = pipe.ParseConnection(p.Plan.Connection.V)
}

// sizeOf finds the wall and couplings of a segment: by catalogue, or by its
// stated wall.
func sizeOf(g *plan.Segment, s *plan.String) (pipe.Size, error) {
	if !g.OD.Known() {
		return pipe.Size{}, Lack(g.Ref, "the OD of %s", s.Name.V)
	}
	if g.Wall.Known() {
		size, err := pipe.PlainEndSize(g.OD.V, g.Wall.V)
		if err != nil {
			return size, Lack(g.Wall.Ref, "a usable wall of %s (%v)", s.Name.V, err)
		}
		if listed, lerr := pipe.Lookup(g.OD.V, g.Weight.V); lerr == nil && g.Weight.Known() {
			size.Coupling, size.Special, size.Weight = listed.Coupling, listed.Special, listed.Weight
		} else if g.Weight.Known() {
			size.Weight = g.Weight.V
		}
		return size, nil
	}
	if !g.Weight.Known() {
		return pipe.Size{}, Lack(g.Ref, "the weight or wall of %s", s.Name.V)
	}
	size, err := pipe.Lookup(g.OD.V, g.Weight.V)
	if err != nil {
		return size, Lack(g.Weight.Ref, "the wall of %s (%v)", s.Name.V, err)
	}
	return size, nil
}

func gradeOf(g *plan.Segment, s *plan.String) (pipe.Grade, error) {
	if !g.Grade.Known() {
		return pipe.Grade{}, Lack(g.Ref, "the grade of %s", s.Name.V)
	}
	return pipe.ParseGrade(g.Grade.V)
}

// Proprietary reports whether an error of resolving a grade or a connection
// means "not an API one": stated ratings are needed.
func Proprietary(err error) bool {
	var u *pipe.Unknown
	return errors.As(err, &u)
}

// ID is the nominal inside diameter.
func (p *Pipe) ID() (units.Meters, error) { return p.Size.ID(), p.SizeErr }

// Drift is the drift diameter as ordered.
func (p *Pipe) Drift() (units.Meters, place.Ref, error) {
	if p.Plan.Drift.Known() {
		return p.Plan.Drift.V, p.Plan.Drift.Ref, nil
	}
	if p.expanded {
		return 0, 0, Lack(p.Plan.Ref, "the drift of %s after expansion", p.Plan.Label())
	}
	return pipe.DriftOf(p.Size.OD, p.Size.ID()), p.Plan.OD.Ref, p.SizeErr
}

// ConnectionOD is the largest diameter of the connection: stated, else the
// coupling ordered, else for flush pipe the OD.
func (p *Pipe) ConnectionOD() (units.Meters, place.Ref, error) {
	if p.Plan.CouplingOD.Known() {
		return p.Plan.CouplingOD.V, p.Plan.CouplingOD.Ref, nil
	}
	if p.SizeErr != nil {
		return 0, 0, p.SizeErr
	}
	ref := p.Plan.OD.Ref
	switch kind := p.Plan.Coupling.V; {
	case kind == "flush" || kind == "none":
		return p.Size.OD, ref, nil
	case p.ConnErr != nil:
		return 0, 0, Lack(p.Plan.Ref, "the connection OD of %s", p.Plan.Label())
	case kind == "special_clearance" && p.Size.Special > 0:
		return p.Size.Special, ref, nil
	case p.Conn == pipe.Plain:
		return p.Size.OD, ref, nil
	case kind != "special_clearance" && p.Size.Coupling > 0:
		return p.Size.Coupling, ref, nil
	}
	return 0, 0, Lack(p.Plan.Ref, "the connection OD of %s", p.Plan.Label())
}

// At is the segment at a depth; the deeper one where two meet.
func (c *Casing) At(md units.MD) *Pipe {
	for i := range c.Pipes {
		if md < c.Pipes[i].To || i == len(c.Pipes)-1 {
			return &c.Pipes[i]
		}
	}
	return nil
}

// FloatCollar is where the plug lands: the collar stated for the string or
// among its accessories.
func (c *Casing) FloatCollar() (units.MD, place.Ref, bool) {
	if c.Plan.FloatCollar.Known() {
		return c.Plan.FloatCollar.V, c.Plan.FloatCollar.Ref, true
	}
	for _, kind := range []string{"landing_collar", "float_collar"} {
		for i := range c.Plan.Accessories {
			if a := &c.Plan.Accessories[i]; a.Kind.V == kind && a.Depth.Known() {
				return a.Depth.V, a.Depth.Ref, true
			}
		}
	}
	return 0, 0, false
}

// RoleIs reports whether the string has one of the roles.
func (c *Casing) RoleIs(roles ...string) bool {
	for _, r := range roles {
		if strings.EqualFold(c.Plan.Role.V, r) {
			return true
		}
	}
	return false
}

// Surface is where cement to surface ends outside a string: its top, or the
// sea bed where a subsea wellhead stands over it.
func (w *Well) Surface(c *Casing) units.MD {
	if !w.Subsea() {
		return c.Top
	}
	z, err := w.Mudline()
	if err != nil {
		return c.Top
	}
	md, err := w.MD(z)
	if err != nil {
		return c.Top
	}
	return max(c.Top, md)
}
