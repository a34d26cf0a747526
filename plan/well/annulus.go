package well

import (
	"sort"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Gap is one length of the annulus outside a string, between which nothing
// changes.
type Gap struct {
	From, To units.MD
	Outer    units.Meters // inside diameter of what is around it
	Inner    units.Meters // OD of the string
	Cased    bool
	Around   int       // the string around it; -1 in open hole
	Ref      place.Ref // where Outer comes from
}

type annulusKey int

// Annulus is the annulus outside a string from its top to its shoe: inside
// the innermost string already there, else open hole at bit or reamed size.
// Couplings are ignored.
func (w *Well) Annulus(str int) ([]Gap, error) {
	return once(w, annulusKey(str), func() ([]Gap, error) { return w.annulus(str) })
}

func (w *Well) annulus(str int) ([]Gap, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	edges := []units.MD{c.Top, c.Shoe}
	for i := range c.Pipes {
		edges = append(edges, c.Pipes[i].From, c.Pipes[i].To)
	}
	var around []*Casing
	for _, k := range w.before(str) {
		o, err := w.Casing(k)
		if err != nil {
			return nil, err
		}
		around = append(around, o)
		edges = append(edges, o.Top, o.Shoe)
		for i := range o.Pipes {
			edges = append(edges, o.Pipes[i].From, o.Pipes[i].To)
		}
	}
	sort.Slice(edges, func(i, j int) bool { return edges[i] < edges[j] })
	var out []Gap
	for i := 1; i < len(edges); i++ {
		from, to := max(edges[i-1], c.Top), min(edges[i], c.Shoe)
		if to-from < 1e-6 {
			continue
		}
		g, err := w.gap(c, around, from, to)
		if err != nil {
			return nil, err
		}
		out = append(out, g)
	}
	return out, nil
}

func (w *Well) gap(c *Casing, around []*Casing, from, to units.MD) (Gap, error) {
	mid := (from + to) / 2
	p := c.At(mid)
	if p.SizeErr != nil {
		return Gap{}, p.SizeErr
	}
	g := Gap{From: from, To: to, Inner: p.Size.OD, Around: -1}
	for i := len(around) - 1; i >= 0; i-- {
		o := around[i]
		if mid <= o.Top || mid >= o.Shoe {
			continue
		}
		q := o.At(mid)
		id, err := q.ID()
		g.Outer, g.Cased, g.Around, g.Ref = id, true, o.Index, q.Plan.OD.Ref
		return g, err
	}
	h, err := w.HoleOf(c.Index)
	if err != nil {
		return g, err
	}
	g.Outer, g.Ref, err = h.Bore()
	return g, err
}
