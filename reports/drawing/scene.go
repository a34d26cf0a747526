// Package drawing draws a well from its audit record: the well schematic, the
// window between pore and fracture pressure, and the loads string by string.
// A drawing is made once, as a scene of lines, areas and texts, and written as
// SVG, PNG or PDF.
package drawing

import "math"

// A page is A4 upright, in points of 1/72 in.
const (
	pageWide = 595.0
	pageHigh = 842.0
)

// point is a place on a page, from its upper left corner.
type point struct{ x, y float64 }

// ink is a colour, 0xRRGGBB.
type ink uint32

// The colours of all drawings: dark ink on white, greys and two earths. None
// of them says good or bad: what isn't met is white on brick, in words.
const (
	black  ink = 0x1F2430
	steel  ink = 0x39424E
	muted  ink = 0x6B727C
	pale   ink = 0xD9DCE1
	faint  ink = 0xF0F1F3
	cement ink = 0xCFC8B8
	clay   ink = 0x8C8370
	water  ink = 0x2F5D73
	brick  ink = 0x7A2E22
	white  ink = 0xFFFFFF
)

// op is one thing drawn: exactly one of its parts is filled. Later ops lie
// over earlier ones.
type op struct {
	lines *lines
	area  *area
	text  *label
}

// lines are polylines of one width and colour, dashes already cut.
type lines struct {
	paths [][]point
	width float64
	color ink
}

// area is a filled polygon.
type area struct {
	points []point
	color  ink
}

// label is a text on one line; at is on its base line.
type label struct {
	at     point
	text   string
	size   float64
	bold   bool
	anchor anchor
	up     bool // turned to read upwards
	color  ink
}

type anchor uint8

const (
	left anchor = iota
	middle
	right
)

// Scene is one page of a drawing.
type Scene struct {
	Title string
	wide  float64
	high  float64
	ops   []op
}

func newScene(title string) *Scene { return &Scene{Title: title, wide: pageWide, high: pageHigh} }

// line draws a polyline. pattern is lengths on and off in turn; none is solid.
func (s *Scene) line(points []point, width float64, color ink, pattern ...float64) {
	paths := s.inside(points)
	if len(pattern) > 0 {
		whole := paths
		paths = nil
		for _, p := range whole {
			paths = append(paths, dashes(p, pattern)...)
		}
	}
	if len(paths) == 0 {
		return
	}
	s.ops = append(s.ops, op{lines: &lines{paths, width, color}})
}

// dashes cuts a polyline. Here and not in the back ends, so that all three
// show the same.
func dashes(points []point, pattern []float64) [][]point {
	var out [][]point
	on, k, rest := true, 0, pattern[0]
	now := []point{points[0]}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		for far(a, b) > rest {
			a = toward(a, b, rest)
			if on {
				out = append(out, append(now, a))
			}
			on, k = !on, (k+1)%len(pattern)
			rest, now = pattern[k], []point{a}
		}
		rest -= far(a, b)
		if on {
			now = append(now, b)
		}
	}
	if on && len(now) > 1 {
		out = append(out, now)
	}
	return out
}

func far(a, b point) float64 { return math.Hypot(b.x-a.x, b.y-a.y) }

// toward is the point a length from a on the way to b.
func toward(a, b point, length float64) point {
	return along(a, b, length/far(a, b))
}

func (s *Scene) fill(color ink, points ...point) {
	if points = s.within(points); len(points) > 2 {
		s.ops = append(s.ops, op{area: &area{points, color}})
	}
}

func (s *Scene) box(x, y, wide, high float64, color ink) {
	s.fill(color, rect(x, y, wide, high)...)
}

func (s *Scene) frame(x, y, wide, high, width float64, color ink) {
	s.line(append(rect(x, y, wide, high), point{x, y}), width, color)
}

func rect(x, y, wide, high float64) []point {
	return []point{{x, y}, {x + wide, y}, {x + wide, y + high}, {x, y + high}}
}

// hatch fills a polygon with lines of a slope (dy for each dx), gap apart
// measured down the page.
func (s *Scene) hatch(points []point, slope, gap, width float64, color ink) {
	points = s.within(points)
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		low, high = min(low, p.y-slope*p.x), max(high, p.y-slope*p.x)
	}
	var paths [][]point
	for c := math.Ceil(low/gap) * gap; c <= high; c += gap {
		paths = append(paths, crossing(points, slope, c)...)
	}
	if len(paths) > 0 {
		s.ops = append(s.ops, op{lines: &lines{paths, width, color}})
	}
}

// crossing is what lies inside a polygon of the line y = slope x + c.
func crossing(points []point, slope, c float64) [][]point {
	var at []point
	for i, a := range points {
		b := points[(i+1)%len(points)]
		da, db := a.y-slope*a.x-c, b.y-slope*b.x-c
		if (da < 0) == (db < 0) {
			continue
		}
		t := da / (da - db)
		at = append(at, along(a, b, t))
	}
	sortAlong(at)
	var out [][]point
	for i := 0; i+1 < len(at); i += 2 {
		out = append(out, []point{at[i], at[i+1]})
	}
	return out
}

func sortAlong(list []point) {
	for i := 1; i < len(list); i++ {
		for j := i; j > 0 && list[j].x < list[j-1].x; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

// write draws a text, cleaned and cut to a width with room for a viewer's own
// font; a width of zero doesn't cut.
func (s *Scene) write(l label, wide float64) {
	if !finite(l.at.x) || !finite(l.at.y) {
		return
	}
	l.text = clean(l.text)
	if wide > 0 {
		l.text = cut(l.text, l.size, l.bold, wide)
	}
	if l.text != "" {
		s.ops = append(s.ops, op{text: &l})
	}
}
