package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// InternalYieldLeast is the lowest internal yield rating of a string as
// published, over its segments, and the segment it belongs to.
func (w *Well) InternalYieldLeast(str int) (units.Pascals, *Rated, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, nil, err
	}
	var least *Rated
	for i := range c.Pipes {
		r, err := w.Rated(str, i)
		if err != nil {
			return 0, nil, err
		}
		if r.Internal.Err != nil {
			return 0, nil, r.Internal.Err
		}
		if least == nil || r.Internal.Value < least.Internal.Value {
			least = r
		}
	}
	return least.Internal.Value, least, nil
}

// CasingTest is the strongest test of a string that loads it: casing tests,
// whenever made.
func (w *Well) CasingTest(str int) (units.Pascals, *plan.Test, error) {
	return w.strongest(str, "the test pressure of %s", "casing")
}

// LapTest is the strongest pressure test of a liner's lap.
func (w *Well) LapTest(str int) (units.Pascals, *plan.Test, error) {
	return w.strongest(str, "the lap test pressure of %s", "liner_lap", "seal")
}

func (w *Well) strongest(str int, what string, kinds ...string) (units.Pascals, *plan.Test, error) {
	var best *plan.Test
	for _, t := range w.TestsOf(str, kinds...) {
		if t.Pressure.Known() && !t.Isolated.V && (best == nil || t.Pressure.V > best.Pressure.V) {
			best = t
		}
	}
	if best == nil {
		s := &w.Plan.Strings[str]
		return 0, nil, Lack(s.Ref, what, s.Name.V)
	}
	return best.Pressure.V, best, nil
}

// Component is something with a pressure rating that a pressure reaches.
type Component struct {
	Name   string
	Rating units.Pascals
	Ref    place.Ref
}

func (c *Component) weaker(name string, v plan.Val[units.Pascals]) {
	if v.Known() && (c.Name == "" || v.V < c.Rating) {
		c.Name, c.Rating, c.Ref = name, v.V, v.Ref
	}
}

// WellheadLeast is the lowest rated component of the wellhead on a string: the
// heads, spools, hangers and seals that a pressure inside it reaches while
// later holes are drilled.
func (w *Well) WellheadLeast(str int) (Component, error) {
	var c Component
	s := &w.Plan.Strings[str]
	for i := range w.Plan.Wellhead {
		k := &w.Plan.Wellhead[i]
		if k.Kind.V == "tree" || k.Kind.V == "tubing_head" || w.Plan.StringIndex(k.String.V) != str {
			continue
		}
		if !k.Rating.Known() {
			return c, Lack(k.Ref, "the rated working pressure of %s", k.Name.V)
		}
		c.weaker(k.Name.V, k.Rating)
	}
	if c.Name == "" {
		return c, Lack(s.Ref, "the rated working pressure of the wellhead on %s", s.Name.V)
	}
	return c, nil
}

// ProductionLeast is the lowest rated component that shut-in pressure reaches:
// tubing head and tree. Absent where the plan holds no completion.
func (w *Well) ProductionLeast() (Component, error) {
	var c Component
	for i := range w.Plan.Wellhead {
		if k := &w.Plan.Wellhead[i]; k.Kind.V == "tree" || k.Kind.V == "tubing_head" {
			c.weaker(k.Name.V, k.Rating)
		}
	}
	c.weaker("tree", w.Plan.Completion.TreeRating)
	if c.Name == "" {
		if w.Plan.Completion.Ref == 0 {
			return c, Absent("the plan holds no completion")
		}
		return c, Lack(w.Plan.Completion.Ref, "the rated working pressure of the tree")
	}
	return c, nil
}

// TestWeakest is the lowest rated component a test pressure reaches at the
// surface or in the string: wellhead on the string, hanger, packers and
// collars with a rating, and the BOP on it, else the one it was run through. A test a
// plug isolates reaches the BOP alone. Absent for shoe and inflow tests, which
// load none of them by design.
func (w *Well) TestWeakest(t *plan.Test) (Component, error) {
	var c Component
	switch t.Kind.V {
	case "shoe", "inflow":
		return c, Absent("not a test of equipment")
	}
	str := w.Plan.StringIndex(t.String.V)
	if str < 0 {
		return c, Lack(t.Ref, "the string %s acts on", t.Name.V)
	}
	if t.Kind.V == "casing" || t.Kind.V == "liner_lap" || !t.Isolated.V {
		w.weakestInside(&c, str)
	}
	on := false
	for i := range w.Plan.BOPs {
		if w.Plan.StringIndex(w.Plan.BOPs[i].On.V) == str {
			w.weakestStack(&c, i, t)
			on = true
		}
	}
	if h, err := w.HoleOf(str); err == nil && !on && !t.Isolated.V {
		w.weakestStack(&c, w.StackOf(h), t)
	}
	if c.Name == "" {
		return c, Lack(t.Ref, "the ratings of what %s reaches (wellhead, BOP, accessories)", t.Name.V)
	}
	return c, nil
}

func (w *Well) weakestStack(c *Component, bop int, t *plan.Test) {
	if bop < 0 {
		return
	}
	b := &w.Plan.BOPs[bop]
	c.weaker("rams of "+b.Name.V, b.Rating)
	if t.Kind.V == "annular" {
		c.weaker("annular of "+b.Name.V, b.AnnularRating)
	}
}

func (w *Well) weakestInside(c *Component, str int) {
	for i := range w.Plan.Wellhead {
		k := &w.Plan.Wellhead[i]
		if w.Plan.StringIndex(k.String.V) == str && k.Kind.V != "tree" {
			c.weaker(k.Name.V, k.Rating)
		}
	}
	s := &w.Plan.Strings[str]
	for i := range s.Accessories {
		a := &s.Accessories[i]
		c.weaker(a.Name.Or(a.Kind.V), a.RatingBurst)
	}
}
