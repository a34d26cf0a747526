package well

import (
	"fmt"
	"sort"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Estimate is which curve of an uncertain pressure is meant.
type Estimate uint8

// The estimates. Where a plan gives one curve, it is all three.
const (
	Base Estimate = iota
	Low
	High
)

var estimateNames = [...]string{"base", "low", "high"}

func (e Estimate) String() string { return estimateNames[e] }

// Quantity of the pressures table.
type Quantity uint8

// The curves of the pressures table.
const (
	PorePressure Quantity = iota
	FracturePressure
	Overburden
)

var quantityNames = [...]string{"pore pressure", "fracture pressure", "overburden"}

func (q Quantity) String() string { return quantityNames[q] }

// Reach is how far from the first or last row a curve is still believed:
// 100 ft; beyond it, nothing is extrapolated.
const Reach = 100 * units.Foot

// sameDepth is how near two depths are one, m: the noise of unit conversion.
const sameDepth = 1e-6

type curvePoint struct {
	z   units.TVD
	g   units.Grade
	ref place.Ref
}

// Curve is one column of the pressures table over true vertical depth.
type Curve struct {
	quantity Quantity
	points   []curvePoint
	ref      place.Ref // where the table stands
	system   units.System
}

type curveKey struct {
	q Quantity
	e Estimate
}

// Curve is a column of the pressures table; an estimate the plan doesn't give
// falls back to the base curve.
func (w *Well) Curve(q Quantity, e Estimate) *Curve {
	c, _ := once(w, curveKey{q, e}, func() (*Curve, error) {
		c := &Curve{quantity: q, system: w.Plan.System}
		for i := range w.Plan.Pressures {
			row := &w.Plan.Pressures[i]
			if c.ref == 0 {
				c.ref = row.Ref
			}
			v := estimate(row, q, e)
			if row.Depth.Known() && v.Known() {
				c.points = append(c.points, curvePoint{row.Depth.V, v.V, v.Ref})
			}
		}
		if c.ref == 0 {
			c.ref = w.Plan.Doc.Root.Ref
		}
		sort.SliceStable(c.points, func(i, j int) bool { return c.points[i].z < c.points[j].z })
		return c, nil
	})
	return c
}

func estimate(r *plan.Pressure, q Quantity, e Estimate) plan.Val[units.Grade] {
	base, low, high := r.Pore, r.PoreLow, r.PoreHigh
	switch q {
	case FracturePressure:
		base, low, high = r.Fracture, r.FractureLow, r.FractureHigh
	case Overburden:
		return r.Overburden
	}
	pick := base
	if e == Low && low.Known() {
		pick = low
	}
	if e == High && high.Known() {
		pick = high
	}
	if !pick.Known() { // a table with estimates and no base curve
		if low.Known() {
			return low
		}
		return high
	}
	return pick
}

// At is the pressure at a depth and where it comes from. At a step (two rows
// at one depth) above and below differ; elsewhere they are equal.
func (c *Curve) At(z units.TVD) (above, below units.Pascals, ref place.Ref, err error) {
	if len(c.points) == 0 {
		return 0, 0, 0, Missing{expr.Lack{Input: c.quantity.String(), Ref: c.ref}}
	}
	first, last := c.points[0], c.points[len(c.points)-1]
	if float64(z) < float64(first.z)-Reach || float64(z) > float64(last.z)+Reach {
		return 0, 0, 0, Missing{expr.Lack{Input: fmt.Sprintf("%s %s", c.quantity, c.outside(z)), Ref: last.ref}}
	}
	if z <= first.z {
		p := first.g.Pressure(z)
		return p, p, first.ref, nil
	}
	i := sort.Search(len(c.points), func(i int) bool { return c.points[i].z >= z-sameDepth })
	if i == len(c.points) {
		p := last.g.Pressure(z)
		return p, p, last.ref, nil
	}
	if c.points[i].z <= z+sameDepth {
		j := i
		for j+1 < len(c.points) && c.points[j+1].z <= z+sameDepth {
			j++
		}
		return c.points[i].g.Pressure(z), c.points[j].g.Pressure(z), c.points[i].ref, nil
	}
	p, err := between(c.points[i-1], c.points[i], z)
	return p, p, c.points[i-1].ref, err
}

func (c *Curve) outside(z units.TVD) string {
	if z < c.points[0].z {
		return "above " + units.Show(float64(c.points[0].z), units.TVDLength, c.system, false)
	}
	return "below " + units.Show(float64(c.points[len(c.points)-1].z), units.TVDLength, c.system, false)
}

// between interpolates the quantity as written, linear in TVD.
func between(a, b curvePoint, z units.TVD) (units.Pascals, error) {
	if a.g.Dim != b.g.Dim {
		return 0, Missing{expr.Lack{Input: "one way of writing pressures from row to row (" + a.g.Dim.String() + " beside " + b.g.Dim.String() + ")", Ref: b.ref}}
	}
	t := float64(z-a.z) / float64(b.z-a.z)
	return units.Grade{SI: a.g.SI + t*(b.g.SI-a.g.SI), Dim: a.g.Dim}.Pressure(z), nil
}

// Pore is the pore pressure at a depth; at a step, the higher for the high
// estimate and the lower otherwise.
func (w *Well) Pore(z units.TVD, e Estimate) (units.Pascals, place.Ref, error) {
	return w.worst(PorePressure, z, e)
}

// Fracture is the fracture pressure at a depth; see Pore.
func (w *Well) Fracture(z units.TVD, e Estimate) (units.Pascals, place.Ref, error) {
	return w.worst(FracturePressure, z, e)
}

func (w *Well) worst(q Quantity, z units.TVD, e Estimate) (units.Pascals, place.Ref, error) {
	above, below, ref, err := w.Curve(q, e).At(z)
	if e == High {
		return max(above, below), ref, err
	}
	return min(above, below), ref, err
}

// Rows are the depths of the curve's rows between two depths, both included,
// so that a profile is judged where the curve bends.
func (c *Curve) Rows(from, to units.TVD) []units.TVD {
	var out []units.TVD
	for _, p := range c.points {
		if p.z >= from && p.z <= to {
			out = append(out, p.z)
		}
	}
	return out
}

type staticKey struct{}

// statics are the static temperatures of the plan by depth. A table that begins
// in the depth is carried up to the basis's surface temperature.
func (w *Well) statics() []curvePoint {
	list, _ := once(w, staticKey{}, func() ([]curvePoint, error) {
		var points []curvePoint
		for i := range w.Plan.Temperatures {
			r := &w.Plan.Temperatures[i]
			if r.Depth.Known() && r.Static.Known() {
				points = append(points, curvePoint{z: r.Depth.V, g: units.Grade{SI: float64(r.Static.V)}, ref: r.Static.Ref})
			}
		}
		sort.SliceStable(points, func(i, j int) bool { return points[i].z < points[j].z })
		if len(points) > 0 && points[0].z > Reach {
			points = append([]curvePoint{{z: 0, g: units.Grade{SI: float64(w.Assume.SurfaceTemp)}}}, points...)
		}
		return points, nil
	})
	return list
}

// Temperature is the static temperature at a depth and whether the plan's rows
// reach it. Where it states none the basis assumes one; past its last row the
// last gradient goes on, and that isn't stated either.
func (w *Well) Temperature(z units.TVD) (t units.Kelvins, stated bool) {
	points := w.statics()
	if len(points) == 0 {
		return w.Assume.SurfaceTemp + units.Kelvins(w.Assume.TempGradient*max(float64(z), 0)), false
	}
	last := points[len(points)-1]
	stated = float64(z) <= float64(last.z)+Reach
	if z <= points[0].z || len(points) == 1 {
		return units.Kelvins(points[0].g.SI), stated
	}
	i := sort.Search(len(points), func(i int) bool { return points[i].z >= z })
	i = min(max(i, 1), len(points)-1)
	a, b := points[i-1], points[i]
	if b.z == a.z {
		return units.Kelvins(b.g.SI), stated
	}
	return units.Kelvins(a.g.SI + (b.g.SI-a.g.SI)*float64(z-a.z)/float64(b.z-a.z)), stated
}

// staticLack is what is missing where the plan's temperatures end above a
// depth.
func (w *Well) staticLack(z units.TVD) error {
	points := w.statics()
	if len(points) == 0 {
		return Lack(w.Plan.Well.Ref, "static temperature")
	}
	last := points[len(points)-1]
	return Lack(last.ref, "static temperature below %s", units.Show(float64(last.z), units.TVDLength, w.Plan.System, false))
}
