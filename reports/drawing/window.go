package drawing

import (
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// The frame of the window, in points.
const (
	windowRight = 430.0
	windowFoot  = 712.0
)

// chart is a window in the making.
type chart struct {
	*page
	of   *finding.Window
	deep axis // TVD
	wide axis // equivalent mud weight
	unit units.Unit
}

// window draws what the ground holds against what the mud is, true vertical
// depth down.
func window(r *finding.Record, s units.System) ([]*Scene, error) {
	of := r.Drawings.Window
	if of == nil || len(of.Curves) == 0 {
		return nil, Empty("the plan gives no pore, fracture or overburden pressure at two depths: there is no window to draw")
	}
	c := &chart{page: newPage(r, s, "Pressures of the ground and the mud, as equivalent mud weight over true vertical depth"), of: of}
	c.unit, _ = units.ShownIn(units.Density, s, false)
	low, high, end := c.extent()
	pad := (high - low) * 0.04
	if !(high > low) || !(end > 0) {
		return nil, Empty("the pressures of the plan span no depth: there is no window to draw")
	}
	c.deep = axis{0, end, pageTop + 22, windowFoot}
	c.wide = axis{low - pad, high + pad, axisX + 6, windowRight}
	c.depths(c.deep, false)
	c.grid()
	c.muds()
	c.shoes()
	c.curves()
	c.legend()
	return []*Scene{c.Scene}, nil
}

func (c *chart) extent() (low, high, end float64) {
	low = float64(c.of.Curves[0].EMW[0])
	see := func(list ...finding.Number) {
		for _, v := range list {
			low, high = min(low, float64(v)), max(high, float64(v))
		}
	}
	for _, k := range c.of.Curves {
		see(k.EMW...)
		for _, z := range k.TVD {
			end = max(end, float64(z))
		}
	}
	for _, h := range c.of.Holes {
		see(h.Min, h.Max)
		end = max(end, float64(h.To))
	}
	for _, s := range c.of.Shoes {
		if s.Test != nil {
			see(*s.Test)
		}
		if s.At.TVD != nil {
			end = max(end, float64(*s.At.TVD))
		}
	}
	return low, high, end
}

func (c *chart) grid() {
	c.frame(c.wide.from, c.deep.from, c.wide.to-c.wide.from, c.deep.to-c.deep.from, 0.6, black)
	for _, v := range c.wide.ticks(c.unit, 9) {
		x := c.wide.at(v)
		c.line([]point{{x, c.deep.from}, {x, c.deep.to}}, 0.4, pale)
		c.write(label{at: point{x, c.deep.from - 4}, text: plain(v, c.unit, 2), size: tickSize, anchor: middle, color: black}, 0)
	}
	c.write(label{at: point{(c.wide.from + c.wide.to) / 2, c.deep.from - 15}, text: "equivalent mud weight, " + c.unit.Symbol, size: labelSize, bold: true, anchor: middle, color: black}, 0)
}

// muds draws each open hole from its lightest to its heaviest mud.
func (c *chart) muds() {
	for _, h := range c.of.Holes {
		y0, y1 := c.deep.at(float64(h.From)), c.deep.at(float64(h.To))
		x0, x1 := c.wide.at(float64(h.Min)), c.wide.at(float64(h.Max))
		x1 = max(x1, x0+1.5)
		c.box(x0, y0, x1-x0, y1-y0, cement)
		c.hatch(rect(x0, y0, x1-x0, y1-y0), 1, 4, 0.4, clay)
		c.frame(x0, y0, x1-x0, y1-y0, 0.6, clay)
	}
}

// shoes draws each shoe across the window and its test, and names the holes.
func (c *chart) shoes() {
	var list []tag
	for _, s := range c.of.Shoes {
		if s.At.TVD == nil {
			continue
		}
		y := c.deep.at(float64(*s.At.TVD))
		c.line([]point{{c.wide.from, y}, {c.wide.to, y}}, 0.6, steel, 6, 2)
		lines := []string{s.Name, "shoe " + c.depth(s.At)}
		if s.Test != nil {
			c.diamond(point{c.wide.at(float64(*s.Test)), y})
			lines = append(lines, "shoe test to "+c.measure(*s.Test, units.Density))
		}
		list = append(list, tag{at: point{c.wide.to, y}, lines: lines, bold: true, color: black})
	}
	for _, h := range c.of.Holes {
		y := c.deep.at(float64(h.From+h.To) / 2)
		text := "mud " + c.measure(h.Min, units.Density)
		if h.Max > h.Min {
			text += " to " + c.measure(h.Max, units.Density)
		}
		list = append(list, tag{at: point{c.wide.to, y}, lines: []string{"hole " + h.Name, text}, color: muted, rank: 1})
	}
	c.tags(column{x: windowRight + 14, wide: pageWide - margin/2 - windowRight - 14, top: c.deep.from - 4, bottom: c.deep.to, elbow: windowRight + 2}, list)
}

func (c *chart) diamond(at point) {
	c.fill(black, point{at.x, at.y - 4}, point{at.x + 4, at.y}, point{at.x, at.y + 4}, point{at.x - 4, at.y})
}

// look is how one curve is drawn.
type look struct {
	letter string
	width  float64
	where  float64 // of its depth, where the letter stands
}

func lookOf(of string) look {
	switch of {
	case "pore pressure":
		return look{"P", 1.5, 0.30}
	case "fracture pressure":
		return look{"F", 1.5, 0.36}
	}
	return look{"O", 0.9, 0.42}
}

func (c *chart) curves() {
	for _, k := range c.of.Curves {
		l := lookOf(k.Of)
		points := make([]point, len(k.EMW))
		for i := range k.EMW {
			points[i] = point{c.wide.at(float64(k.EMW[i])), c.deep.at(float64(k.TVD[i]))}
		}
		switch k.Estimate {
		case "base":
			c.line(points, l.width, black)
		case "low":
			c.line(points, l.width*0.6, black, 1.2, 1.8)
		default:
			c.line(points, l.width*0.6, black, 4, 2)
		}
		if k.Estimate == "base" {
			c.badge(points[int(float64(len(points)-1)*l.where)], l.letter, black)
		}
	}
}

// badge is a letter in a ring on a line.
func (s *Scene) badge(at point, letter string, c ink) {
	r := max(5.2, width(letter, labelSize, true)/2+2.2)
	s.fill(white, ring(at, r)...)
	s.line(append(ring(at, r), ring(at, r)[0]), 0.8, c)
	s.write(label{at: point{at.x, at.y + 2.6}, text: letter, size: labelSize, bold: true, anchor: middle, color: c}, 0)
}

func (c *chart) legend() {
	x, y := margin+2, windowFoot+18
	row := 0
	entry := func(text string, draw func(x, y float64)) {
		px, py := x+float64(row%2)*265, y+float64(row/2)*15
		draw(px, py)
		c.write(label{at: point{px + 28, py + 2.6}, text: text, size: labelSize, color: black}, 235)
		row++
	}
	line := func(letter string, wide float64, pattern ...float64) func(x, y float64) {
		return func(x, y float64) {
			c.line([]point{{x, y}, {x + 22, y}}, wide, black, pattern...)
			if letter != "" {
				c.badge(point{x + 11, y}, letter, black)
			}
		}
	}
	entry("pore pressure", line("P", 1.5))
	entry("fracture pressure", line("F", 1.5))
	entry("overburden", line("O", 0.9))
	entry("lightest to heaviest mud of each open hole", func(x, y float64) {
		c.box(x+4, y-5, 12, 10, cement)
		c.hatch(rect(x+4, y-5, 12, 10), 1, 4, 0.4, clay)
		c.frame(x+4, y-5, 12, 10, 0.6, clay)
	})
	entry("shoe test, as an equivalent mud weight at the shoe", func(x, y float64) { c.diamond(point{x + 11, y}) })
	entry("shoe", line("", 0.6, 6, 2))
	if c.has("low") {
		entry("low estimate of a curve", line("", 0.9, 1.2, 1.8))
	}
	if c.has("high") {
		entry("high estimate of a curve", line("", 0.9, 4, 2))
	}
}

func (c *chart) has(estimate string) bool {
	for _, k := range c.of.Curves {
		if k.Estimate == estimate {
			return true
		}
	}
	return false
}
