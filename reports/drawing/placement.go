package drawing

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// The frames of a page of placement, in points.
const (
	stripTop    = 128.0 // what is pumped
	stripHigh   = 13.0
	chartsTop   = 160.0
	chartsFoot  = 504.0
	chartGap    = 22.0
	headShare   = 0.28 // of the charts' height that the surface pressure takes
	placeLeft   = axisX + 6
	placeRight  = 424.0
	placeTags   = placeRight + 12
	placeWide   = pageWide - margin/2 - placeTags
	stillWidth  = 0.8
	movingWidth = 1.7
)

// The patterns of the rock's two limits, those of the window's estimates.
var (
	lowPattern  = []float64{1.2, 1.8}
	highPattern = []float64{4, 2}
)

// job is a page of one stage in the making.
type job struct {
	*page
	of      *finding.Placement
	along   axis             // volume pumped
	moments []finding.Moment // those that are drawn, numbered from 1
}

// placement draws one page for each stage of cement.
func placement(r *finding.Record, s units.System) ([]*Scene, error) {
	var out []*Scene
	for i := range r.Drawings.Placement {
		of := &r.Drawings.Placement[i]
		if !followed(of) {
			continue
		}
		j := &job{page: newPage(r, s, of.String+", "+of.Stage+": cement placement, volume by volume"), of: of, moments: chosen(of.Moments)}
		j.along = axis{0, float64(of.Pumped[len(of.Pumped)-1]), placeLeft, placeRight}
		j.caution()
		j.failing()
		j.strip()
		j.charts()
		j.numbers()
		j.scales()
		j.bars()
		j.keys()
		out = append(out, j.Scene)
	}
	if len(out) == 0 {
		return nil, Empty("no cement stage of the plan can be followed: it takes volumes and densities of its fluids, the path down and the annulus; there is no placement to draw")
	}
	return out, nil
}

// followed reports whether a placement is whole: each column as long as the
// volumes, which go on.
func followed(of *finding.Placement) bool {
	n := len(of.Pumped)
	if n < 2 || !(of.Pumped[n-1] > 0) || len(of.Head) != n || !(of.Exit.MD > 0) {
		return false
	}
	for _, list := range [][]finding.Number{of.Time, of.HeadMoving} {
		if len(list) != 0 && len(list) != n {
			return false
		}
	}
	return !slices.ContainsFunc(of.Spots, func(s finding.Spot) bool {
		return len(s.Still) != n || len(s.Moving) != 0 && len(s.Moving) != n
	})
}

// mostMoments is how many columns a page has room for.
const mostMoments = 6

// chosen are the moments whose columns are drawn, the last among them.
func chosen(list []finding.Moment) []finding.Moment {
	var out []finding.Moment
	for _, m := range list {
		if m.Told {
			out = append(out, m)
		}
	}
	if n := len(out); n > mostMoments {
		out = append(out[:mostMoments-1], out[n-1])
	}
	return out
}

// caution says under the head what is left out.
func (j *job) caution() {
	const full = pageWide - 2*margin
	list := []string{"Friction is counted in pipe and annulus; displacement is taken to flow like the mud."}
	if !j.of.Friction {
		list[0] = "FRICTION IS LEFT OUT: all pressures are of columns standing still, and are higher while it is pumped."
		if len(j.of.Lacks) > 0 {
			list = append(list, wrap("Friction needs "+strings.Join(j.of.Lacks, "; ")+".", tickSize, false, full, 2)...)
		}
	}
	list = append(list, "Fluids don't mix and aren't compressed, fronts are flat. Couplings, centralizers and eccentric pipe are ignored.")
	for i, t := range list {
		j.write(label{at: point{margin, 80 + 8.4*float64(i)}, text: t, size: tickSize, bold: i == 0 && !j.of.Friction, color: black}, full)
	}
}

// failing names the requirements that aren't met, white on brick.
func (j *job) failing() {
	const most = 3
	y := stripTop - 16
	for i, t := range j.of.NotMet {
		if i == most-1 && len(j.of.NotMet) > most {
			t = fmt.Sprintf("and %d more", len(j.of.NotMet)-i)
		} else {
			t = "not met: " + t
		}
		j.box(placeTags-3, y-7.7, pageWide-margin-placeTags+3, 10.5, brick)
		j.write(label{at: point{placeTags, y}, text: t, size: labelSize, color: white}, pageWide-margin-placeTags-3)
		if y += 10.9; i == most-1 {
			return
		}
	}
}

// strip shows which fluid is pumped when.
func (j *job) strip() {
	j.write(label{at: point{placeLeft - 6, stripTop + 9}, text: "pumped", size: tickSize, anchor: right, color: black}, 0)
	for i, f := range j.of.Fluids {
		a, b := j.along.at(float64(f.From)), j.along.at(float64(f.To))
		j.texture(i, a, stripTop, b-a, stripHigh)
		if b-a > 12 {
			j.badge(point{(a + b) / 2, stripTop + stripHigh/2}, j.letter(i), black)
		}
	}
}

// numbers marks the moments that are drawn, over the strip.
func (j *job) numbers() {
	last := j.along.from - 12
	for i, m := range j.moments {
		x := j.along.at(float64(m.Pumped))
		at := max(x, last+12)
		at = min(at, placeRight-12*float64(len(j.moments)-1-i))
		last = at
		j.line([]point{{at, stripTop - 6}, {x, stripTop}}, 0.5, muted)
		j.numeral(point{at, stripTop - 9}, i)
	}
}

// numeral is the number of a moment, white on dark.
func (j *job) numeral(at point, i int) {
	j.fill(steel, ring(at, 5.2)...)
	j.write(label{at: point{at.x, at.y + 2.6}, text: string(rune('1' + i%9)), size: labelSize, bold: true, anchor: middle, color: white}, 0)
}

// charts draw the equivalent mud weights at the depths followed and the pressure
// at the surface, one under the other.
func (j *job) charts() {
	spots := j.of.Spots[:min(len(j.of.Spots), 2)]
	room := chartsFoot - chartsTop
	surface := room * headShare
	if len(spots) == 0 {
		surface = room
	}
	y := chartsTop
	for _, s := range slices.Backward(spots) { // the weakest place first
		high := (room-surface)/float64(len(spots)) - chartGap
		j.rock(s, y, high)
		y += high + chartGap
	}
	j.surface(y, chartsFoot-y)
}

// curved is a line of a chart over the volume pumped.
type curved struct {
	of      []finding.Number
	width   float64
	pattern []float64
}

// rock draws the column at a depth between pore and fracture pressure.
func (j *job) rock(s finding.Spot, top, high float64) {
	name := "where it leaves the shoe"
	if j.of.Collar {
		name = "where it leaves the stage collar"
	}
	switch {
	case s.Weakest && s.At.MD == j.of.Exit.MD:
		name += ", the weakest place"
	case s.Weakest:
		name = "at the weakest place of the open hole"
	}
	c := j.chart(units.Density, "Equivalent mud weight "+name+", "+j.depth(s.At), top, high, columnsOf(s.Still, s.Moving), s.Fracture, s.Pore)
	list := c.peaks(s.Still, s.Moving)
	if s.Fracture != nil {
		list = append(list, c.level(*s.Fracture, "fracture, low estimate", lowPattern))
	}
	if s.Pore != nil {
		list = append(list, c.level(*s.Pore, "pore, high estimate", highPattern))
	}
	c.labels(list)
}

// surface draws the pressure at the head.
func (j *job) surface(top, high float64) {
	zero := finding.Number(0)
	c := j.chart(units.Pressure, "Pressure at the surface", top, high, columnsOf(j.of.Head, j.of.HeadMoving), &zero)
	c.labels(c.peaks(j.of.Head, j.of.HeadMoving))
}

// columnsOf are the lines of one pressure: standing still, and with friction.
func columnsOf(still, moving []finding.Number) []curved {
	out := []curved{{still, stillWidth, nil}}
	if len(moving) > 0 {
		out = append(out, curved{moving, movingWidth, nil})
	}
	return out
}

// frame is one chart over the volume pumped.
type frame struct {
	*job
	dim units.Dim
	up  axis
}

// chart draws a frame with its lines; the scale takes in the levels as well.
func (j *job) chart(d units.Dim, name string, top, high float64, lines []curved, levels ...*finding.Number) *frame {
	u, _ := units.ShownIn(d, j.units, false)
	low, most := lines[0].of[0], lines[0].of[0]
	for _, l := range lines {
		low, most = min(low, slices.Min(l.of)), max(most, slices.Max(l.of))
	}
	for _, v := range levels {
		if v != nil {
			low, most = min(low, *v), max(most, *v)
		}
	}
	pad := max(float64(most-low)*0.06, u.ToSI(0.05))
	c := &frame{j, d, axis{float64(low) - pad, float64(most) + pad, top + high, top}}
	j.frame(placeLeft, top, placeRight-placeLeft, high, 0.6, black)
	j.write(label{at: point{placeLeft, top - 5}, text: name + ", " + u.Symbol, size: labelSize, bold: true, color: black}, pageWide-margin-placeLeft)
	for _, v := range c.up.ticks(u, max(2, int(high/16))) {
		y := c.up.at(v)
		j.line([]point{{placeLeft, y}, {placeRight, y}}, 0.4, pale)
		j.write(label{at: point{placeLeft - 4, y + 2.3}, text: plain(v, u, 2), size: tickSize, anchor: right, color: black}, 0)
	}
	for _, m := range j.moments {
		x := j.along.at(float64(m.Pumped))
		j.line([]point{{x, top}, {x, top + high}}, 0.5, muted, 1, 2)
	}
	for _, l := range lines {
		c.draw(l)
	}
	return c
}

func (c *frame) draw(l curved) {
	points := make([]point, len(l.of))
	for i, v := range l.of {
		points[i] = point{c.along.at(float64(c.of.Pumped[i])), c.up.at(float64(v))}
	}
	c.line(points, l.width, black, l.pattern...)
}

// level draws what the rock holds, and names it.
func (c *frame) level(v finding.Number, name string, pattern []float64) tag {
	y := c.up.at(float64(v))
	c.line([]point{{placeLeft, y}, {placeRight, y}}, 1.1, black, pattern...)
	return tag{at: point{placeRight, y}, lines: []string{name + " " + c.measure(v, c.dim)}, color: black}
}

// peaks name the greatest values of a pressure, where the lines end.
func (c *frame) peaks(still, moving []finding.Number) []tag {
	list := []tag{c.peak(still, "most, standing still")}
	if len(moving) > 0 {
		list = append(list, c.peak(moving, "most, with friction"))
	}
	return list
}

func (c *frame) peak(of []finding.Number, name string) tag {
	most := 0
	for i := range of {
		if float64(of[i]) > float64(of[most])+1e-9*math.Abs(float64(of[most])) {
			most = i
		}
	}
	at := point{c.along.at(float64(c.of.Pumped[most])), c.up.at(float64(of[most]))}
	c.fill(black, ring(at, 1.9)...)
	return tag{at: point{placeRight, at.y}, lines: []string{name + " " + c.measure(of[most], c.dim), "at " + c.measure(c.of.Pumped[most], units.Volume) + " pumped"}, color: black}
}

func (c *frame) labels(list []tag) {
	c.tags(column{x: placeTags, wide: placeWide, top: c.up.to - 6, bottom: c.up.from + 6, elbow: placeRight + 2}, list)
}

// scales write the volume pumped, and the time it is pumped by where that is
// known, under the charts, and what the lines are.
func (j *job) scales() {
	u, _ := units.ShownIn(units.Volume, j.units, false)
	minutes, _ := units.ByName("min")
	y := chartsFoot + 9
	j.write(label{at: point{placeTags, y}, text: u.Symbol + " pumped", size: tickSize, color: black}, 0)
	if len(j.of.Time) > 0 {
		j.write(label{at: point{placeTags, y + 8.6}, text: "min after the start", size: tickSize, color: muted}, 0)
	}
	for _, v := range j.along.ticks(u, 8) {
		x := j.along.at(v)
		j.line([]point{{x, chartsFoot}, {x, chartsFoot + 3}}, 0.6, black)
		j.write(label{at: point{x, y}, text: plain(v, u, 1), size: tickSize, anchor: middle, color: black}, 0)
		if t, ok := j.time(v); ok {
			j.write(label{at: point{x, y + 8.6}, text: units.Decimal(minutes.FromSI(t), 0), size: tickSize, anchor: middle, color: muted}, 0)
		}
	}
	j.styles(y + 23)
}

// styles are what the lines of the charts mean.
func (j *job) styles(y float64) {
	x := placeLeft
	for _, e := range []struct {
		text  string
		shown bool
		curved
	}{
		{"standing still", true, curved{nil, stillWidth, nil}}, {"with friction", j.of.Friction, curved{nil, movingWidth, nil}},
		{"fracture", true, curved{nil, 1.1, lowPattern}}, {"pore", true, curved{nil, 1.1, highPattern}},
	} {
		if !e.shown {
			continue
		}
		j.line([]point{{x, y}, {x + 20, y}}, e.width, black, e.pattern...)
		j.write(label{at: point{x + 24, y + 2.4}, text: e.text, size: tickSize, color: black}, 0)
		x += 24 + width(e.text, tickSize, false)*spare + 14
	}
}

// time is when a volume has been pumped.
func (j *job) time(v float64) (float64, bool) {
	n := len(j.of.Time)
	i := sort.Search(n, func(i int) bool { return float64(j.of.Pumped[i]) >= v-1e-9 })
	switch {
	case i == n:
		return 0, false
	case i == 0:
		return float64(j.of.Time[0]), true
	}
	return between(float64(j.of.Pumped[i-1]), float64(j.of.Pumped[i]), float64(j.of.Time[i-1]), float64(j.of.Time[i]), v), true
}
