package drawing

import (
	"math"
	"slices"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// The frame of the ellipse, in points.
const (
	ellipseLeft = margin + 30
	ellipseTop  = 528.0
	ellipseWide = 236.0
	ellipseHigh = 220.0
)

// round is an ellipse in the making.
type round struct {
	*loaded
	of           *finding.Ellipse
	force, press axis
}

// triaxial draws the yield of the pipe nearest to it and the place of each
// case that comes nearest, by the letters of the cases.
func (l *loaded) triaxial() {
	of := l.of.Triaxial
	x := float64(margin)
	if of == nil || !(of.Yield > 0) || !(of.Hoop > 0) || !(of.Area > 0) {
		l.write(label{at: point{x, ellipseTop - 12}, text: "Triaxial yield: not worked out", size: labelSize, bold: true, color: black}, 270)
		return
	}
	l.write(label{at: point{x, ellipseTop - 12}, text: "Triaxial yield at the inner wall, " + of.Pipe, size: labelSize, bold: true, color: black}, 280)
	most := 2 / math.Sqrt(3) * 1.06
	f, p := most*float64(of.Yield)*float64(of.Area), most*float64(of.Yield)/float64(of.Hoop)
	for _, q := range of.Points {
		f, p = max(f, math.Abs(float64(q.Force))*1.06), max(p, math.Abs(float64(q.Pressure))*1.06)
	}
	r := &round{loaded: l, of: of,
		force: axis{-f, f, ellipseLeft, ellipseLeft + ellipseWide},
		press: axis{-p, p, ellipseTop + ellipseHigh, ellipseTop}}
	r.axes()
	r.limit(1, 1.4)
	if of.Required != nil && *of.Required > 0 {
		r.limit(float64(*of.Required), 0.9, 4, 2)
	}
	r.points()
	r.caption()
}

func (r *round) axes() {
	r.frame(ellipseLeft, ellipseTop, ellipseWide, ellipseHigh, 0.6, black)
	u, _ := units.ShownIn(units.Force, r.units, false)
	symbol := u.Symbol
	if u.FromSI(r.force.high) >= 10000 {
		u.Factor, symbol = u.Factor*1000, "1,000 "+u.Symbol
	}
	for _, v := range r.force.ticks(u, 5) {
		x := r.force.at(v)
		r.line([]point{{x, ellipseTop}, {x, ellipseTop + ellipseHigh}}, 0.4, pale)
		r.write(label{at: point{x, ellipseTop + ellipseHigh + 9}, text: plain(v, u, 2), size: 6.2, anchor: middle, color: black}, 0)
	}
	q, _ := units.ShownIn(units.Pressure, r.units, false)
	for _, v := range r.press.ticks(q, 6) {
		y := r.press.at(v)
		r.line([]point{{ellipseLeft, y}, {ellipseLeft + ellipseWide, y}}, 0.4, pale)
		r.write(label{at: point{ellipseLeft - 3, y + 2.2}, text: plain(v, q, 1), size: 6.2, anchor: right, color: black}, 0)
	}
	r.line([]point{{r.force.at(0), ellipseTop}, {r.force.at(0), ellipseTop + ellipseHigh}}, 0.7, muted)
	r.line([]point{{ellipseLeft, r.press.at(0)}, {ellipseLeft + ellipseWide, r.press.at(0)}}, 0.7, muted)
	r.write(label{at: point{ellipseLeft + ellipseWide/2, ellipseTop + ellipseHigh + 18}, text: "axial force with the inside pressure on the steel, " + symbol + ": pulled to the right", size: 6.2, anchor: middle, color: black}, ellipseWide+40)
	r.write(label{at: point{margin + 4, ellipseTop + ellipseHigh/2}, text: "pressure inside less outside, " + q.Symbol, size: 6.2, anchor: middle, up: true, color: black}, ellipseHigh)
}

// limit draws the ellipse on which yield over stress is a factor. With axial
// stress s and hoop stress h, s^2 - s h + h^2 = (Y/factor)^2 is met by
// s = 2/sqrt(3) Y/factor sin(t + 60 deg), h = 2/sqrt(3) Y/factor sin t.
func (r *round) limit(factor, wide float64, pattern ...float64) {
	const corners = 120
	size := 2 / math.Sqrt(3) * float64(r.of.Yield) / factor
	var list []point
	for i := 0; i <= corners; i++ {
		t := 2 * math.Pi * float64(i) / corners
		along, hoop := size*math.Sin(t+math.Pi/3), size*math.Sin(t)
		list = append(list, point{r.force.at(along * float64(r.of.Area)), r.press.at(hoop / float64(r.of.Hoop))})
	}
	r.line(list, wide, black, pattern...)
}

// points letters each case at its place; letters that would meet step aside.
func (r *round) points() {
	color := black
	var taken []point
	for _, q := range r.of.Points {
		i := slices.IndexFunc(r.cases, func(c lettered) bool { return c.Case == q.Case })
		if i < 0 {
			continue
		}
		at := point{r.force.at(float64(q.Force)), r.press.at(float64(q.Pressure))}
		r.fill(color, ring(at, 1.6)...)
		free := aside(at, taken)
		taken = append(taken, free)
		if far(at, free) > 9 {
			r.line([]point{at, toward(free, at, 4)}, 0.4, muted)
		}
		r.write(label{at: point{free.x, free.y + 2.6}, text: r.cases[i].letter, size: labelSize, bold: true, anchor: middle, color: color}, 0)
	}
}

// aside is the nearest free place for a letter around a point.
func aside(at point, taken []point) point {
	for radius := 7.0; radius < 70; radius += 7 {
		for k := 0; k < 12; k++ {
			sin, cos := math.Sincos(2*math.Pi*float64(k)/12 - math.Pi/4)
			p := point{at.x + radius*cos, at.y + radius*sin}
			inside := p.x > ellipseLeft+5 && p.x < ellipseLeft+ellipseWide-5 && p.y > ellipseTop+5 && p.y < ellipseTop+ellipseHigh-5
			if inside && !slices.ContainsFunc(taken, func(t point) bool { return far(t, p) < 8.5 }) {
				return p
			}
		}
	}
	return at
}

func (r *round) caption() {
	y := ellipseTop + ellipseHigh + 29
	text := "Solid: yield at the lowest yield strength of the points."
	if r.of.Required != nil {
		text += " Dashed: yield over the required factor " + units.Decimal(float64(*r.of.Required), 2) + "."
	}
	text += " Bending is in the force, on the side nearer to yield. Where the outer wall governs, the factor is less than the picture shows. Joints have no point."
	for i, line := range wrap(text, 6.2, false, 275, 3) {
		r.write(label{at: point{margin, y + float64(i)*8}, text: line, size: 6.2, color: muted}, 0)
	}
}
