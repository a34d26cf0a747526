package record

import (
	"math"
	"slices"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// window is nil where the plan gives no pressures.
func window(w *well.Well) *finding.Window {
	v := &finding.Window{}
	for _, q := range []well.Quantity{well.PorePressure, well.FracturePressure, well.Overburden} {
		base := curve(w, q, well.Base)
		for _, e := range []well.Estimate{well.Low, well.Base, well.High} {
			pieces := curve(w, q, e)
			if e != well.Base && slices.EqualFunc(pieces, base, alike) {
				continue // an estimate the plan doesn't give falls back to the base
			}
			v.Curves = append(v.Curves, pieces...)
		}
	}
	if len(v.Curves) == 0 {
		return nil
	}
	v.Holes, v.Shoes = muds(w), shoes(w)
	return v
}

// curveSteps is into how many steps a curve is cut besides its own rows: as an
// equivalent mud weight, a pressure joined linearly is curved.
const curveSteps = 80

// curve is one curve in pieces: where the plan doesn't tell what lies between
// two rows, nothing is drawn there.
func curve(w *well.Well, q well.Quantity, e well.Estimate) []finding.Curve {
	c := w.Curve(q, e)
	rows := c.Rows(0, math.MaxFloat64)
	if len(rows) == 0 {
		return nil
	}
	first, last := rows[0], rows[len(rows)-1]
	for i := 1; i < curveSteps; i++ {
		rows = append(rows, first+(last-first)*units.TVD(i)/curveSteps)
	}
	slices.Sort(rows)
	var out []finding.Curve
	empty := finding.Curve{Of: q.String(), Estimate: e.String()}
	now := empty
	for _, z := range slices.Compact(rows) {
		above, below, _, err := c.At(z)
		if err != nil {
			out, now = append(out, now), empty
			continue
		}
		if z <= 0 {
			continue // no column, no equivalent weight
		}
		now = with(now, z, above)
		if below != above {
			now = with(now, z, below)
		}
	}
	return slices.DeleteFunc(append(out, now), func(c finding.Curve) bool { return len(c.TVD) < 2 })
}

func alike(a, b finding.Curve) bool { return slices.Equal(a.TVD, b.TVD) && slices.Equal(a.EMW, b.EMW) }

func with(c finding.Curve, z units.TVD, p units.Pascals) finding.Curve {
	c.TVD = append(c.TVD, finding.Number(z))
	c.EMW = append(c.EMW, finding.Number(well.EMW(p, 0, z)))
	return c
}

func muds(w *well.Well) []finding.MudRange {
	var out []finding.MudRange
	for _, h := range w.Holes() {
		span, err := w.OpenHole(&h)
		if err != nil {
			continue
		}
		least, _, err := h.LightestMud()
		if err != nil {
			continue
		}
		most, _, err := h.HeaviestMud()
		if err != nil {
			continue
		}
		out = append(out, finding.MudRange{Name: h.Plan.Name.V, From: finding.Number(span.Top), To: finding.Number(span.Bottom), Min: finding.Number(least), Max: finding.Number(most)})
	}
	return out
}

func shoes(w *well.Well) []finding.ShoeMark {
	var out []finding.ShoeMark
	for _, i := range w.InOrder() {
		c, err := w.Casing(i)
		if err != nil {
			continue
		}
		s := finding.ShoeMark{Name: w.Plan.Strings[i].Name.V, At: depth(w, c.Shoe)}
		if s.At.TVD == nil || w.Plan.Strings[i].Role.V == "tie_back" {
			continue
		}
		if emw, _, err := w.ShoeTest(i); err == nil {
			v := finding.Number(emw)
			s.Test = &v
		}
		out = append(out, s)
	}
	return out
}
