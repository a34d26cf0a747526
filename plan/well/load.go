package well

import (
	"errors"
	"math"
	"sort"

	"spudgate/plan/pipe"
	"spudgate/plan/survey"
	"spudgate/plan/units"
)

// Densities that loads are made with where a plan gives none, kg/m3.
const (
	FreshWater units.KgPerM3 = 1000
	SeaWater   units.KgPerM3 = 1025
	baseOil    units.KgPerM3 = 800
)

// Spot is one judged place of a string. Where something changes there are two
// at one depth, one for each side.
type Spot struct {
	MD    units.MD
	TVD   units.TVD
	Seg   int
	Below bool // the lower side of a change
}

// gridStep is how far judged places are apart where nothing changes.
const gridStep units.MD = 30

type (
	spotsKey int
	stepKey  struct{}
)

// step is how far apart judged places are at most; the first to ask settles it.
func (w *Well) step() units.MD {
	v, _ := once(w, stepKey{}, func() (units.MD, error) { return gridStep, nil })
	return v
}

// spots are the judged places of a string where its own pipe and its outside
// change, and every 30 m between.
func (w *Well) spots(str int) ([]Spot, error) {
	return once(w, spotsKey(str), func() ([]Spot, error) {
		c, err := w.Casing(str)
		if err != nil {
			return nil, err
		}
		return w.grid(c, w.changes(c), w.step())
	})
}

// spotsWith are the judged places of a string with those where a load changes.
func (w *Well) spotsWith(str int, extra []units.MD) ([]Spot, error) {
	if len(extra) == 0 {
		return w.spots(str)
	}
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	return w.grid(c, append(w.changes(c), extra...), w.step())
}

// changes are the depths where the pipe, the outside or the path changes.
func (w *Well) changes(c *Casing) []units.MD {
	var out []units.MD
	for i := range c.Pipes {
		out = append(out, c.Pipes[i].From, c.Pipes[i].To)
	}
	if top, _, err := w.TopOfCement(c.Index); err == nil {
		out = append(out, top)
	}
	for _, k := range w.before(c.Index) {
		if s, err := w.shoeOf(&w.Plan.Strings[k]); err == nil {
			out = append(out, s)
		}
	}
	m, _, err := w.Depths()
	if err != nil {
		return out
	}
	if p, ok := m.(*survey.Path); ok {
		for _, s := range p.Stations() {
			out = append(out, s.MD)
		}
	}
	for i := range w.Plan.Pressures {
		if z := w.Plan.Pressures[i].Depth; z.Known() {
			out = append(out, m.MDs(z.V)...)
		}
	}
	return out
}

// grid lays judged places over a string: both sides of every change, and
// places at most step apart between.
func (w *Well) grid(c *Casing, changes []units.MD, step units.MD) ([]Spot, error) {
	edges := []units.MD{c.Top, c.Shoe}
	for _, md := range changes {
		if md > c.Top && md < c.Shoe {
			edges = append(edges, md)
		}
	}
	sort.Slice(edges, func(i, j int) bool { return edges[i] < edges[j] })
	var out []Spot
	for i := 1; i < len(edges); i++ {
		from, to := edges[i-1], edges[i]
		if to-from < 1e-6 {
			continue
		}
		seg := c.segAt((from + to) / 2)
		n := int(math.Ceil(float64((to-from)/step) - 1e-9))
		for k := 0; k <= n; k++ {
			md := from + (to-from)*units.MD(k)/units.MD(n)
			z, err := w.TVD(md)
			if err != nil {
				return nil, err
			}
			out = append(out, Spot{MD: md, TVD: z, Seg: seg, Below: k < n})
		}
	}
	return out, nil
}

func (c *Casing) segAt(md units.MD) int {
	for i := range c.Pipes {
		if md < c.Pipes[i].To {
			return i
		}
	}
	return len(c.Pipes) - 1
}

// profile is a pressure at a judged place, gauge.
type profile func(Spot) (units.Pascals, error)

// column is a fluid from a true vertical depth down, over a pressure there.
// Above its top there's nothing.
func column(over units.Pascals, top units.TVD, rho units.KgPerM3) profile {
	return func(s Spot) (units.Pascals, error) {
		if s.TVD <= top {
			return over, nil
		}
		return over + units.Hydrostatic(rho, s.TVD-top), nil
	}
}

func empty(Spot) (units.Pascals, error) { return 0, nil }

// upper is p down to a depth along the hole, and q below it.
func upper(p profile, md units.MD, q profile) profile {
	return func(s Spot) (units.Pascals, error) {
		if s.above(md) {
			return p(s)
		}
		return q(s)
	}
}

// above reports whether the place is on the upper side of a depth.
func (s Spot) above(md units.MD) bool { return s.MD < md || s.MD == md && !s.Below }

// higher is the higher of two profiles at each place.
func higher(p, q profile) profile {
	return func(s Spot) (units.Pascals, error) {
		a, err := p(s)
		if err != nil {
			return 0, err
		}
		b, err := q(s)
		return max(a, b), err
	}
}

// within reports whether a place lies in an interval, its inner sides counted.
func (s Spot) within(from, to units.MD) bool {
	return (s.MD > from || s.MD == from && (s.Below || from == to)) && s.above(to)
}

// edition is the edition of collapse of the whole audit.
func (w *Well) edition() pipe.Edition {
	e, _ := pipe.ParseEdition(w.Assume.CollapseEdition)
	return e
}

// lacks collects the missing inputs of an error; ok is false for other errors.
func lacks(err error) (Missing, bool) {
	var m Missing
	ok := errors.As(err, &m)
	return m, ok
}

func isAbsent(err error) bool {
	var a Absent
	return errors.As(err, &a)
}

// show writes a quantity in the plan's units.
func show[Q ~float64](w *Well, v Q, d units.Dim) string {
	return units.Show(float64(v), d, w.Plan.System, false)
}
