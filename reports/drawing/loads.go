package drawing

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// The frames of a page of loads, in points.
const (
	panelTop  = pageTop + 34
	panelFoot = 470.0
	usedLeft  = axisX + 4
	usedWide  = 132.0
	panelGap  = 12.0
)

// loaded is a page of one string in the making.
type loaded struct {
	*page
	of    *finding.StringLoads
	cases []lettered // the most used first
	deep  axis
}

// lettered is a case with the letter it goes by on the page.
type lettered struct {
	*finding.CaseLoad
	letter string
	most   float64 // the greatest used capacity
}

// loads draws one page for each string.
func loads(r *finding.Record, s units.System) ([]*Scene, error) {
	var out []*Scene
	for i := range r.Drawings.Loads {
		of := &r.Drawings.Loads[i]
		if len(of.Cases) == 0 || !(of.Shoe.MD > of.Top.MD) {
			continue
		}
		l := &loaded{page: newPage(r, s, of.Name+": loads against ratings"), of: of, cases: letter(of.Cases)}
		l.deep = axis{float64(of.Top.MD), float64(of.Shoe.MD), panelTop, panelFoot}
		l.depths(l.deep, true)
		l.used()
		l.panels()
		l.triaxial()
		l.list()
		out = append(out, l.Scene)
	}
	if len(out) == 0 {
		return nil, Empty("no load case acts on any string of the plan, or its inputs are missing: there are no loads to draw")
	}
	return out, nil
}

// letter gives letters to cases, A to the one that uses most.
func letter(list []finding.CaseLoad) []lettered {
	out := make([]lettered, len(list))
	for i := range list {
		out[i] = lettered{CaseLoad: &list[i]}
		for _, u := range list[i].Used {
			out[i].most = max(out[i].most, float64(u))
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].most > out[j].most })
	for i := range out {
		out[i].letter = string(rune('A' + i%26))
		if i >= 26 {
			out[i].letter += string(rune('0' + i/26))
		}
	}
	return out
}

// at is a column of a case at a depth, on its lower side where it steps; false
// outside what the case covers.
func (c lettered) at(of []finding.Number, md float64) (float64, bool) {
	n := len(c.MD)
	i := sort.Search(n, func(i int) bool { return float64(c.MD[i]) > md })
	if i == 0 || i == n && md > float64(c.MD[n-1]) {
		return 0, false
	}
	if i == n {
		return float64(of[n-1]), true
	}
	return between(float64(c.MD[i-1]), float64(c.MD[i]), float64(of[i-1]), float64(of[i]), md), true
}

// apart is the least distance of two depths that are told apart, m.
const apart = 1e-4

// steps are the depths between which the used capacity is drawn straight.
func (l *loaded) steps() []float64 {
	const even = 160
	var out []float64
	for i := 0; i <= even; i++ {
		out = append(out, l.deep.low+(l.deep.high-l.deep.low)*float64(i)/even)
	}
	for _, c := range l.cases {
		for _, md := range c.MD {
			out = append(out, float64(md))
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) < apart })
}

// stretch is a length on which one case governs, all of it within what may be
// used or all over.
type stretch struct {
	by    int  // index of the case
	over  bool // it uses more than it may
	md    []float64
	share []float64
}

// stretches cuts the string where the governing case changes: at each step the
// case that uses most in its middle.
func (l *loaded) stretches() []stretch {
	var out []stretch
	steps := l.steps()
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		by, most := -1, 0.0
		for k, c := range l.cases {
			if u, ok := c.at(c.Used, (a+b)/2); ok && u > most {
				by, most = k, u
			}
		}
		if by < 0 {
			continue
		}
		c := l.cases[by]
		ua, _ := c.at(c.Used, a+apart) // a step stands between two stretches
		ub, _ := c.at(c.Used, b-apart)
		last := len(out) - 1
		if last < 0 || out[last].by != by || out[last].over != (most > 1) || out[last].md[len(out[last].md)-1] != a {
			out, last = append(out, stretch{by: by, over: most > 1}), last+1
		}
		out[last].md = append(out[last].md, a, b)
		out[last].share = append(out[last].share, ua, ub)
	}
	return out
}

// used draws the string as one bar, as wide at each depth as the case that
// governs there uses of what it may, and letters it.
func (l *loaded) used() {
	most := 1.15
	for _, c := range l.cases {
		most = max(most, c.most*1.08)
	}
	across := axis{0, most, usedLeft, usedLeft + usedWide}
	l.head(usedLeft, "Used capacity", "load x required factor / rating")
	one, _ := units.ByName("%")
	l.scale(across, one, "%", 4)
	for i, s := range l.stretches() {
		l.stretch(s, across, i)
	}
	full := across.at(1)
	l.line([]point{{full, panelTop}, {full, panelFoot}}, 1.4, black)
	l.write(label{at: point{full - 2, panelFoot + 9}, text: "all that may be used", size: tickSize, anchor: right, color: black}, full-2-usedLeft+30)
}

// stretch draws one length of the bar; one over 100 % is brick, its letter white.
func (l *loaded) stretch(s stretch, across axis, i int) {
	shade := [...]ink{pale, 0xC4C9D0}[i%2]
	body := []point{{across.from, l.deep.at(s.md[0])}}
	for k := range s.md {
		body = append(body, point{across.at(s.share[k]), l.deep.at(s.md[k])})
	}
	end := l.deep.at(s.md[len(s.md)-1])
	body = append(body, point{across.from, end})
	if s.over {
		shade = brick
	}
	l.fill(shade, body...)
	l.line(body[1:len(body)-1], 1, black)
	high := end - body[0].y
	if high < 9 {
		return
	}
	mid := (body[0].y + end) / 2
	u := s.share[len(s.share)/2]
	at := point{across.from + max((across.at(u)-across.from)/2, 8), mid}
	if s.over {
		l.write(label{at: point{at.x, at.y + 3}, text: l.cases[s.by].letter, size: 9, bold: true, anchor: middle, color: white}, 0)
		return
	}
	l.badge(at, l.cases[s.by].letter, black)
}

// head writes what a panel shows.
func (l *loaded) head(x float64, first, second string) {
	l.write(label{at: point{x, panelTop - 34 + 6}, text: first, size: labelSize, bold: true, color: black}, usedWide)
	l.write(label{at: point{x, panelTop - 34 + 15}, text: second, size: tickSize, color: muted}, usedWide)
}

// scale draws the frame of a panel and the ticks along its top.
func (l *loaded) scale(a axis, u units.Unit, symbol string, n int) {
	l.frame(a.from, panelTop, a.to-a.from, panelFoot-panelTop, 0.6, black)
	list := a.ticks(u, n)
	for i, v := range list {
		x := a.at(v)
		l.line([]point{{x, panelTop}, {x, panelFoot}}, 0.4, pale)
		text := plain(v, u, 2)
		if i == len(list)-1 {
			text += " " + symbol
		}
		l.write(label{at: point{x, panelTop - 4}, text: text, size: 6.2, anchor: middle, color: black}, 0)
	}
}

// panels draw load against rating for the case of each kind that uses most.
func (l *loaded) panels() {
	kinds := []string{"burst", "collapse", "tension"}
	x := usedLeft + usedWide + panelGap
	wide := (pageWide - margin - x - panelGap*float64(len(kinds)-1)) / float64(len(kinds))
	for _, kind := range kinds {
		i := slices.IndexFunc(l.cases, func(c lettered) bool { return c.Kind == kind })
		if i < 0 {
			l.frame(x, panelTop, wide, panelFoot-panelTop, 0.6, pale)
			l.write(label{at: point{x + wide/2, (panelTop + panelFoot) / 2}, text: "no load in " + kind, size: tickSize, anchor: middle, color: muted}, wide)
		} else {
			l.panel(l.cases[i], x, wide)
		}
		x += wide + panelGap
	}
	x = usedLeft + usedWide + panelGap
	y := panelFoot + 7
	for _, e := range []struct {
		text    string
		width   float64
		pattern []float64
	}{{"load", 1.6, nil}, {"rating", 0.9, []float64{4, 2}}, {"rating / required factor", 0.9, []float64{1.2, 1.6}}} {
		l.line([]point{{x, y}, {x + 20, y}}, e.width, black, e.pattern...)
		l.write(label{at: point{x + 24, y + 2.4}, text: e.text, size: tickSize, color: black}, 0)
		x += 24 + width(e.text, tickSize, false)*spare + 14
	}
}

func (l *loaded) panel(c lettered, x, wide float64) {
	most := 0.0
	for i := range c.MD {
		most = max(most, float64(c.Load[i]), float64(c.Rating[i]))
	}
	dim := units.Pressure
	if c.Kind == "tension" {
		dim = units.Force
	}
	u, _ := units.ShownIn(dim, l.units, false)
	symbol := u.Symbol
	if u.FromSI(most) >= 100000 {
		u.Factor, symbol = u.Factor*1000, "1,000 "+u.Symbol
	}
	a := axis{0, most * 1.06, x, x + wide}
	l.write(label{at: point{x, panelTop - 34 + 6}, text: c.letter + "  " + c.Kind + ", " + symbol, size: labelSize, bold: true, color: black}, wide)
	l.write(label{at: point{x, panelTop - 34 + 15}, text: short(c.Title), size: tickSize, color: muted}, wide)
	l.scale(a, u, "", 3)
	required := 1.0
	if c.Required != nil && *c.Required > 0 {
		required = float64(*c.Required)
	}
	for i := 1; i < len(c.MD); i++ {
		y0, y1 := l.deep.at(float64(c.MD[i-1])), l.deep.at(float64(c.MD[i]))
		draw := func(of []finding.Number, by, wide float64, pattern ...float64) {
			l.line([]point{{a.at(float64(of[i-1]) / by), y0}, {a.at(float64(of[i]) / by), y1}}, wide, black, pattern...)
		}
		draw(c.Load, 1, 1.6)
		if c.Rating[i-1] > 0 && c.Rating[i] > 0 {
			draw(c.Rating, 1, 0.9, 4, 2)
			draw(c.Rating, required, 0.9, 1.2, 1.6)
		}
	}
}

// short leaves the kind out of a case's title, which stands above it.
func short(title string) string {
	for i, r := range title {
		if r == ',' {
			return title[i+1:]
		}
	}
	return title
}

// columns are where the numbers of the list end, from its right edge.
var columns = [...]float64{76, 44, 0}

// list names the letters: each case with its least factor, what it wants, and
// where.
func (l *loaded) list() {
	const x, top = 318.0, 516.0
	wide := pageWide - margin - x
	l.write(label{at: point{x, top}, text: "Cases, the most used first", size: labelSize, bold: true, color: black}, 0)
	for i, head := range []string{"least", "wants", "at MD"} {
		l.write(label{at: point{x + wide - columns[i], top}, text: head, size: tickSize, anchor: right, color: muted}, 0)
	}
	l.line([]point{{x, top + 4}, {x + wide, top + 4}}, 0.6, black)
	const most = 24
	y := top + 14
	for i, c := range l.cases {
		if i == most {
			l.write(label{at: point{x, y}, text: fmt.Sprintf("and %d more", len(l.cases)-most), size: tickSize, color: muted}, 0)
			y += 10.4
			break
		}
		l.row(c, x, y, wide)
		y += 10.4
	}
	if slices.ContainsFunc(l.cases, func(c lettered) bool { return c.NotMet }) {
		l.write(label{at: point{x, y + 2}, text: "White on dark: a requirement on the case is not met.", size: tickSize, color: muted}, wide)
	}
}

// row is one case of the list.
func (l *loaded) row(c lettered, x, y, wide float64) {
	color := black
	if c.NotMet {
		l.box(x-3, y-7.7, wide+6, 10.5, brick)
		color = white
	}
	wants := "-"
	if c.Required != nil {
		wants = units.Decimal(float64(*c.Required), 2)
	}
	l.write(label{at: point{x, y}, text: c.letter, size: labelSize, bold: true, color: color}, 0)
	l.write(label{at: point{x + 13, y}, text: c.Title, size: labelSize, color: color}, wide-13-106)
	for k, text := range []string{factor(float64(c.Least)), wants, l.measure(c.worst(), units.MDLength)} {
		l.write(label{at: point{x + wide - columns[k], y}, text: text, size: labelSize, anchor: right, color: color}, 0)
	}
}

// factor writes a factor; a large one isn't worth its decimals.
func factor(x float64) string {
	if x >= 100 {
		return "over 100"
	}
	return units.Decimal(x, 2)
}

// worst is where a case uses most.
func (c lettered) worst() finding.Number {
	at := 0
	for i, u := range c.Used {
		if u > c.Used[at] {
			at = i
		}
	}
	return c.MD[at]
}

// ring is a circle as a polygon.
func ring(at point, r float64) []point {
	const corners = 28
	out := make([]point, corners)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		out[i] = point{at.x + r*cos, at.y + r*sin}
	}
	return out
}
