package drawing

import (
	"fmt"
	"sort"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// Places and sizes all pages share, in points.
const (
	margin   = 34.0
	pageTop  = 88.0  // where drawings begin, below the head
	pageFoot = 800.0 // where the foot begins
	mdRight  = 66.0
	tvdRight = 103.0
	axisX    = 109.0

	tickSize  = 6.8
	labelSize = 7.4
	headSize  = 14.0
	lineHigh  = 9.2
)

// page is a scene with what every page of a record knows.
type page struct {
	*Scene
	units units.System
	path  path
}

// newPage makes a page with its head and its foot.
func newPage(r *finding.Record, s units.System, about string) *page {
	name := r.Well.Name
	if r.Well.Revision != "" {
		name += ", revision " + r.Well.Revision
	}
	p := &page{Scene: newScene(name + ": " + about), units: s, path: usable(r.Drawings.Path)}
	full := pageWide - 2*margin
	p.write(label{at: point{margin, 46}, text: name, size: headSize, bold: true, color: black}, full)
	p.write(label{at: point{margin, 62}, text: about, size: 9.5, color: black}, full)
	p.line([]point{{margin, 70}, {pageWide - margin, 70}}, 1.6, black)
	foot := fmt.Sprintf("Audit as of %s, %s %s.", r.AsOf, r.Tool.Name, r.Tool.Version)
	for _, in := range r.Inputs {
		if in.Role == "plan" {
			foot += fmt.Sprintf(" Plan %s, sha256 %.12s.", in.Name, in.SHA256)
			break
		}
	}
	p.line([]point{{margin, pageFoot + 8}, {pageWide - margin, pageFoot + 8}}, 0.5, muted)
	p.write(label{at: point{margin, pageFoot + 18}, text: foot, size: tickSize, color: muted}, full)
	p.write(label{at: point{margin, pageFoot + 27}, text: r.Caution, size: tickSize, color: muted}, full)
	return p
}

// tag is a label beside a drawing: lines of text that belong to a place.
type tag struct {
	at    point // what it speaks of
	lines []string
	bold  bool // the first line
	color ink
	rank  int // the greater, the sooner it is left out
}

func (t tag) high() float64 { return lineHigh*float64(len(t.lines)) + 2 }

// column is where tags are written.
type column struct {
	x, wide     float64
	top, bottom float64
	elbow       float64 // where leaders bend
}

// tags writes labels in a column, each as near its place as the others let it,
// none over another. Where there is no room the least needed are left out and
// counted.
func (p *page) tags(c column, list []tag) {
	kept, gone := fitting(list, c.bottom-c.top)
	for i, y := range spaced(kept, c.top, c.bottom) {
		t := kept[i]
		p.line([]point{t.at, {c.elbow, t.at.y}, {c.x - 2, y + lineHigh - 4.5}}, 0.45, muted)
		for k, text := range t.lines {
			p.write(label{at: point{c.x, y + lineHigh*float64(k+1) - 2}, text: text, size: labelSize, bold: t.bold && k == 0, color: t.color}, c.wide)
		}
	}
	if gone > 0 {
		p.write(label{at: point{c.x, c.bottom + lineHigh}, text: fmt.Sprintf("and %d more, not written for want of room", gone), size: tickSize, color: muted}, c.wide)
	}
}

// fitting sorts tags by depth and drops those of the greatest rank, the
// deepest first, until the rest fit.
func fitting(list []tag, room float64) (kept []tag, gone int) {
	kept = append(kept, list...)
	sort.SliceStable(kept, func(i, j int) bool { return kept[i].at.y < kept[j].at.y })
	total := 0.0
	for _, t := range kept {
		total += t.high()
	}
	for total > room && len(kept) > 0 {
		drop := len(kept) - 1
		for i := range kept {
			if kept[i].rank >= kept[drop].rank && i > drop || kept[i].rank > kept[drop].rank {
				drop = i
			}
		}
		total -= kept[drop].high()
		kept = append(kept[:drop], kept[drop+1:]...)
		gone++
	}
	return kept, gone
}

// spaced gives the upper edge of each tag: pushed down off the one above, then
// up off the bottom.
func spaced(list []tag, top, bottom float64) []float64 {
	out := make([]float64, len(list))
	for i, t := range list {
		out[i] = max(t.at.y-lineHigh+4.5, top)
		if i > 0 {
			out[i] = max(out[i], out[i-1]+list[i-1].high())
		}
	}
	for i := len(list) - 1; i >= 0; i-- {
		out[i] = min(out[i], bottom-list[i].high())
		bottom = out[i]
	}
	return out
}

// measure writes an SI value with its unit.
func (p *page) measure(si finding.Number, d units.Dim) string {
	return units.Show(float64(si), d, p.units, false)
}

// depth writes a place both ways.
func (p *page) depth(d finding.Depth) string {
	s := p.measure(d.MD, units.MDLength) + " MD"
	if d.TVD != nil {
		s += ", " + p.measure(*d.TVD, units.TVDLength) + " TVD"
	}
	return s
}
