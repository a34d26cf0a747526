package fluid

import (
	"fmt"
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Layer is one fluid of a column, between two true vertical depths.
type Layer struct {
	Top, Bottom units.TVD
	Density     units.KgPerM3
}

// Column is a stack of layers at rest under a pressure at its top.
type Column struct {
	surface units.Pascals
	layers  []Layer
}

// NewColumn makes a column of layers from the top down under the pressure at
// its top. Domain: at least one layer, each higher than nothing, no gap, no
// overlap, densities not negative (zero is an empty length).
func NewColumn(surface units.Pascals, layers ...Layer) (*Column, error) {
	const name = "column"
	if len(layers) == 0 || !finite(float64(surface)) {
		return nil, outside(name, "needs a layer and a pressure that is a finite number")
	}
	for i, l := range layers {
		switch {
		case !finite(float64(l.Top), float64(l.Bottom), float64(l.Density)):
			return nil, outside(name, "layer %d holds a value that is not a finite number", i+1)
		case !(l.Bottom > l.Top && l.Density >= 0):
			return nil, outside(name, "layer %d needs a height, and a density that isn't negative", i+1)
		case i > 0 && math.Abs(float64(l.Top-layers[i-1].Bottom)) > join:
			return nil, outside(name, "layer %d begins at %.3f m, the one above ends at %.3f m", i+1, float64(l.Top), float64(layers[i-1].Bottom))
		}
	}
	return &Column{surface, append([]Layer(nil), layers...)}, nil
}

// Range is from the top of the column to its bottom.
func (c *Column) Range() (from, to units.TVD) {
	return c.layers[0].Top, c.layers[len(c.layers)-1].Bottom
}

// Layers are those the column was made from.
func (c *Column) Layers() []Layer { return append([]Layer(nil), c.layers...) }

// above are the layers, the last one cut, over a depth.
func (c *Column) above(z units.TVD) ([]Layer, error) {
	top, bottom := c.Range()
	if !(z >= top-join && z <= bottom+join) {
		return nil, outside("column", "%.2f m TVD lies outside %.2f to %.2f m", float64(z), float64(top), float64(bottom))
	}
	var parts []Layer
	for _, l := range c.layers {
		if l.Bottom = min(l.Bottom, z); l.Bottom > l.Top {
			parts = append(parts, l)
		}
	}
	return parts, nil
}

// Pressure at a true vertical depth: that at the top plus the sum of rho g h.
// A *DomainError outside the column.
func (c *Column) Pressure(z units.TVD) (units.Pascals, error) {
	parts, err := c.above(z)
	if err != nil {
		return 0, err
	}
	p := c.surface
	for _, l := range parts {
		p += units.Hydrostatic(l.Density, l.Bottom-l.Top)
	}
	return answer[units.Pascals]("column", true, "", float64(p))
}

var layerEq = equation{"pressure", units.Pressure, "above + density * g * (to - from)", "hydrostatics: pressure above plus rho g h"}

// PressureWorking is Pressure as one step for each layer, the last of which
// gives the pressure.
func (c *Column) PressureWorking(z units.TVD) ([]expr.Working, error) {
	parts, err := c.above(z)
	if err != nil {
		return nil, err
	}
	above := pressure("above", c.surface)
	if len(parts) == 0 {
		w, err := equation{"pressure", units.Pressure, "above", "pressure at the top of the column"}.working(above.SI, nil, above)
		return []expr.Working{w}, err
	}
	var steps []expr.Working
	for i, l := range parts {
		p := above.SI + float64(units.Hydrostatic(l.Density, l.Bottom-l.Top))
		eq := layerEq
		if i < len(parts)-1 {
			eq.result = fmt.Sprintf("pressure_%d", i+1)
		}
		w, _ := eq.working(p, nil, above, density("density", l.Density), depth("to", l.Bottom), depth("from", l.Top))
		steps = append(steps, w)
		above.SI, above.Note = p, eq.result
	}
	return steps, nil
}

// EMW at a depth of the column, from the plan's depth reference; see EMW.
func (c *Column) EMW(z units.TVD) (units.KgPerM3, error) {
	p, err := c.Pressure(z)
	if err != nil {
		return 0, err
	}
	return EMW(p, z)
}

var emwEq = equation{"emw", units.Density, "pressure / (g * depth)", "equivalent mud weight, p/(g h)"}

// EMW is the equivalent mud weight of a pressure at a depth below the depth
// reference: p/(g h). Field form: psi/(0.052 ft). Domain: depth above zero.
func EMW(p units.Pascals, z units.TVD) (units.KgPerM3, error) {
	return answer[units.KgPerM3]("equivalent mud weight", z > 0, "the depth must be above zero", float64(p)/(units.G*float64(z)))
}

// EMWWorking is EMW with its working.
func EMWWorking(p units.Pascals, z units.TVD) (expr.Working, error) {
	rho, err := EMW(p, z)
	return emwEq.working(float64(rho), err, pressure("pressure", p), depth("depth", z))
}

var hydrostaticEq = equation{"pressure", units.Pressure, "density * g * height", "hydrostatics, rho g h"}

// HydrostaticWorking is units.Hydrostatic with its working. Domain: finite
// inputs.
func HydrostaticWorking(rho units.KgPerM3, h units.TVD) (expr.Working, error) {
	p, err := answer[units.Pascals]("hydrostatic pressure", true, "", float64(units.Hydrostatic(rho, h)))
	return hydrostaticEq.working(float64(p), err, density("density", rho), depth("height", h))
}

var differenceEq = equation{"difference", units.Pressure, "outside - inside", "U-tube: annulus column less inside column"}

// Difference is how much the outside column outweighs the inside one at a
// depth: the U-tube pressure that a float holds, or the lift pressure at the
// bump. A *DomainError where either column doesn't reach.
func Difference(outer, inner *Column, z units.TVD) (units.Pascals, error) {
	po, err := outer.Pressure(z)
	if err != nil {
		return 0, err
	}
	pi, err := inner.Pressure(z)
	return po - pi, err
}

// DifferenceWorking is Difference with its working.
func DifferenceWorking(outer, inner *Column, z units.TVD) (expr.Working, error) {
	d, err := Difference(outer, inner, z)
	if err != nil {
		return expr.Working{}, err
	}
	po, _ := outer.Pressure(z)
	pi, _ := inner.Pressure(z)
	return differenceEq.working(float64(d), nil, pressure("outside", po), pressure("inside", pi))
}

// BumpPressure is the pump pressure after the plug lands: the difference of the
// columns at the landing collar, the friction of the last slow pumping, and what
// is held on top. Domain: friction and over-pressure not negative.
func BumpPressure(difference, friction, over units.Pascals) (units.Pascals, error) {
	return answer[units.Pascals]("bump pressure", friction >= 0 && over >= 0, "friction and over-pressure must not be negative", float64(difference+friction+over))
}

// Slug is the height of heavy mud that keeps a height of pipe dry:
// rho_m h/(rho_s - rho_m). Domain: slug heavier than mud, height not negative.
func Slug(mud, slug units.KgPerM3, dry units.TVD) (units.TVD, error) {
	return answer[units.TVD]("slug", slug > mud && mud >= 0 && dry >= 0, "the slug must be heavier than the mud", float64(mud)*float64(dry)/float64(slug-mud))
}
