package drawing

import (
	"math"
	"sort"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// axis maps values in SI to places on the page.
type axis struct {
	low, high float64 // values
	from, to  float64 // places
}

func (a axis) at(v float64) float64 {
	if a.high == a.low {
		return a.from
	}
	return a.from + (v-a.low)/(a.high-a.low)*(a.to-a.from)
}

// ticks are round values of a unit between the ends, about n of them.
func (a axis) ticks(u units.Unit, n int) []float64 {
	low, high := u.FromSI(a.low), u.FromSI(a.high)
	step := roundStep((high - low) / float64(n))
	if step <= 0 {
		return nil
	}
	var out []float64
	for k := math.Ceil(low/step - 1e-9); k*step <= high*(1+1e-12); k++ {
		out = append(out, u.ToSI(k*step))
	}
	return out
}

// roundStep is the 1, 2 or 5 times a power of ten at or over x.
func roundStep(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0
	}
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []float64{1, 2, 5} {
		if m*p >= x*(1-1e-9) {
			return m * p
		}
	}
	return 10 * p
}

// plain writes a tick without its unit.
func plain(si float64, u units.Unit, most int) string {
	x := u.FromSI(si)
	for dec := 0; dec < most; dec++ {
		if t := math.Pow(10, float64(dec)); math.Abs(math.Round(x*t)/t-x) < 1e-9*max(1, math.Abs(x)) {
			return units.Decimal(x, dec)
		}
	}
	return units.Decimal(x, most)
}

// path joins MD and TVD linearly; known is false where nothing tells the TVD.
type path []finding.Depth

func (p path) tvd(md float64) (z float64, known bool) {
	i := sort.Search(len(p), func(i int) bool { return float64(p[i].MD) >= md-1e-9 })
	switch {
	case i == len(p) || (i == 0 && math.Abs(float64(p[0].MD)-md) > 1e-6):
		return 0, false
	case i == 0:
		return float64(*p[0].TVD), true
	}
	return between(float64(p[i-1].MD), float64(p[i].MD), float64(*p[i-1].TVD), float64(*p[i].TVD), md), true
}

// md is the shallowest depth along the hole at a true vertical depth.
func (p path) md(tvd float64) (float64, bool) {
	for i := 1; i < len(p); i++ {
		a, b := float64(*p[i-1].TVD), float64(*p[i].TVD)
		if a <= tvd && tvd <= b && b > a {
			return between(a, b, float64(p[i-1].MD), float64(p[i].MD), tvd), true
		}
	}
	return 0, false
}

func between(x0, x1, y0, y1, x float64) float64 {
	if x1 == x0 {
		return y1
	}
	return y0 + (x-x0)/(x1-x0)*(y1-y0)
}

// usable leaves out the path of a record whose TVD is missing somewhere.
func usable(list []finding.Depth) path {
	for _, d := range list {
		if d.TVD == nil {
			return nil
		}
	}
	return list
}

// depths draws the two columns of depths at the left of a page: along the hole
// and true vertical. along says which of them is true to scale.
func (p *page) depths(a axis, along bool) {
	unit, _ := units.ShownIn(units.MDLength, p.units, false)
	p.write(label{at: point{mdRight, a.from - 7}, text: "MD " + unit.Symbol, size: tickSize, bold: along, anchor: right, color: black}, 0)
	p.write(label{at: point{tvdRight, a.from - 7}, text: "TVD " + unit.Symbol, size: tickSize, bold: !along, anchor: right, color: black}, 0)
	p.line([]point{{axisX, a.from}, {axisX, a.to}}, 0.8, black)
	for _, v := range a.ticks(unit, 14) {
		y := a.at(v)
		p.line([]point{{axisX - 3, y}, {axisX, y}}, 0.6, black)
		other, known := p.path.tvd(v)
		if !along {
			other, known = p.path.md(v)
		}
		first, second := plain(v, unit, 1), "-"
		if known {
			second = units.Decimal(unit.FromSI(other), 0)
		}
		if !along {
			first, second = second, first
		}
		tone := [2]ink{black, muted}
		if !along {
			tone = [2]ink{muted, black}
		}
		p.write(label{at: point{mdRight, y + 2.3}, text: first, size: tickSize, anchor: right, color: tone[0]}, 0)
		p.write(label{at: point{tvdRight, y + 2.3}, text: second, size: tickSize, anchor: right, color: tone[1]}, 0)
	}
}
