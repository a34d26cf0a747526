package fluid

import (
	"sort"

	"spudgate/plan/units"
)

// part is a length of a route with one passage, walked the way fluid flows.
type part struct {
	from, to units.MD // in the direction of flow
	start    float64  // volume of the route before it, m3
	area     float64  // volume per length, enlargement included, m2
	way      Passage  // as large as its enlargement makes it
}

func (p part) volume() float64 { return p.area * lengthOf(p.from, p.to) }

func lengthOf(a, b units.MD) float64 {
	if a > b {
		return float64(a - b)
	}
	return float64(b - a)
}

// at is the depth at a volume of the route inside the part.
func (p part) at(v float64) units.MD {
	d := units.MD((v - p.start) / p.area)
	if p.to < p.from {
		return p.from - d
	}
	return p.from + d
}

// course is a route walked the way fluid flows: down the pipe, up the annulus.
type course struct {
	parts []part
	pipe  int     // how many parts are pipe
	turn  float64 // volume of the pipe
	end   float64 // volume of it all
}

func newCourse(pipe, ring *Annulus) (course, error) {
	var c course
	add := func(v Interval, from, to units.MD) error {
		wide, err := WashedOut(v.Outer, v.Inner, v.Excess)
		c.parts = append(c.parts, part{from, to, c.end, v.perMeter(), Passage{wide, v.Inner}})
		c.end += v.volume()
		return err
	}
	for _, v := range pipe.list {
		if err := add(v, v.From, v.To); err != nil {
			return c, err
		}
	}
	c.pipe, c.turn = len(c.parts), c.end
	for i := len(ring.list) - 1; i >= 0; i-- {
		v := ring.list[i]
		if err := add(v, v.To, v.From); err != nil {
			return c, err
		}
	}
	return c, nil
}

// at is the depth at a volume of the route, and whether it lies in the annulus.
func (c *course) at(v float64) (md units.MD, ring bool) {
	i := sort.Search(len(c.parts), func(i int) bool { return c.parts[i].start > v }) - 1
	i = min(max(i, 0), len(c.parts)-1)
	return c.parts[i].at(min(max(v, 0), c.end)), i >= c.pipe
}

// air is the fluid of an empty length of pipe.
const air = -1

// span is a length of the route filled with one fluid, by volumes of it.
type span struct {
	fluid    int // of march.fluids, or air
	from, to float64
}

// knot is a place of the route from which on, the way that it is walked, fluid
// and passage stay the same.
type knot struct {
	md, to units.MD
	z      units.TVD
	still  units.Pascals // hydrostatic at md
	drag   units.Pascals // friction between the open end and md
	rho    units.KgPerM3
	loss   PaPerM
}

// at is the pressure at a depth between the knot and the next one.
func (k knot) at(md units.MD, z units.TVD) (still, drag units.Pascals) {
	return k.still + units.Hydrostatic(k.rho, z-k.z), k.drag + units.Pascals(float64(k.loss)*lengthOf(md, k.md))
}
