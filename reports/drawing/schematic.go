package drawing

import (
	"strings"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// Columns of the schematic, in points.
const (
	rockX    = axisX + 4
	rockWide = 16.0
	rockText = rockX + rockWide + 7
	tagWide  = pageWide - margin/2 - tagX

	rockTextWide = wellX - wellHalf - 12 - rockText
	wellX        = 312.0 // the well's middle
	wellHalf     = 78.0  // half of the widest hole
	tagX         = 420.0
	lug          = 4.0 // how far a collar is drawn to stand in from the wall
)

// sketch is a schematic in the making.
type sketch struct {
	*page
	of    *finding.Schematic
	deep  axis
	scale float64 // points for each m of diameter, half of it to a side
	right []tag
}

// schematic draws the well as built, depth along the hole.
func schematic(r *finding.Record, s units.System) ([]*Scene, error) {
	of := r.Drawings.Schematic
	if of == nil || len(of.Strings)+len(of.Holes) == 0 {
		return nil, Empty("the plan gives no string and no hole with its depths: there is no well to draw")
	}
	k := &sketch{page: newPage(r, s, "Well schematic: depth along the hole from the depth reference, diameters to a scale of their own"), of: of}
	widest, end := k.extent()
	if !(widest > 0) || !(end > 0) {
		return nil, Empty("no string and no hole of the plan has a length and a diameter: there is no well to draw")
	}
	k.deep = axis{0, end, pageTop + 10, pageFoot - 52}
	k.scale = 2 * wellHalf / widest
	k.depths(k.deep, true)
	k.rock()
	k.holes()
	for i := range of.Strings {
		k.cementOf(&of.Strings[i])
	}
	for i := range of.Strings {
		k.pipe(&of.Strings[i])
	}
	for _, m := range of.Marks {
		k.mark(m)
	}
	k.tags(column{x: tagX, wide: tagWide, top: pageTop + 4, bottom: pageFoot - 48, elbow: tagX - 14}, k.right)
	k.legend()
	return []*Scene{k.Scene}, nil
}

// extent is the widest diameter and the greatest depth.
func (k *sketch) extent() (widest, end float64) {
	for _, h := range k.of.Holes {
		widest, end = max(widest, float64(h.Diameter)), max(end, float64(h.To.MD))
	}
	for _, s := range k.of.Strings {
		end = max(end, float64(s.Shoe.MD))
		for _, p := range s.Pipes {
			widest = max(widest, float64(p.OD))
		}
	}
	return widest, end
}

func (k *sketch) y(md finding.Number) float64 { return k.deep.at(float64(md)) }

// side is how far a diameter lies from the well's middle.
func (k *sketch) side(diameter finding.Number) float64 { return float64(diameter) / 2 * k.scale }

// holes draws the drilled hole as white in grey rock.
func (k *sketch) holes() {
	k.box(wellX-wellHalf-10, k.deep.from, 2*wellHalf+20, k.deep.to-k.deep.from, faint)
	for _, h := range k.of.Holes {
		x, y0, y1 := k.side(h.Diameter), k.y(h.From.MD), k.y(h.To.MD)
		k.box(wellX-x, y0, 2*x, y1-y0, white)
		for _, at := range []float64{wellX - x, wellX + x} {
			k.line([]point{{at, y0}, {at, y1}}, 0.5, clay, 2, 1.4)
		}
		k.line([]point{{wellX - x, y1}, {wellX + x, y1}}, 0.5, clay, 2, 1.4)
	}
}

// both draws something on both sides of the well.
func (k *sketch) both(inner, outer, y0, y1 float64, draw func(x, wide float64)) {
	if outer > inner && y1 > y0 {
		draw(wellX-outer, outer-inner)
		draw(wellX+inner, outer-inner)
	}
}

func (k *sketch) cementOf(s *finding.DrawnString) {
	for _, b := range s.Cement {
		y0, y1 := k.y(b.From), k.y(b.To)
		k.both(k.side(b.Inner), k.side(b.Outer), y0, y1, func(x, wide float64) {
			k.box(x, y0, wide, y1-y0, cement)
			k.hatch(rect(x, y0, wide, y1-y0), 1, 4, 0.4, clay)
		})
	}
}

// pipe draws a string's steel, its shoe and what it carries.
func (k *sketch) pipe(s *finding.DrawnString) {
	for _, p := range s.Pipes {
		y0, y1 := k.y(p.From), k.y(p.To)
		outer := k.side(p.OD)
		k.both(min(k.side(p.ID), outer-1.2), outer, y0, y1, func(x, wide float64) { k.box(x, y0, wide, y1-y0, steel) })
	}
	if len(s.Pipes) == 0 {
		return
	}
	last := s.Pipes[len(s.Pipes)-1]
	x, y := k.side(last.OD), k.y(s.Shoe.MD)
	k.fill(steel, point{wellX - x - 4, y}, point{wellX - x, y - 6}, point{wellX - x + 0.5, y})
	k.fill(steel, point{wellX + x + 4, y}, point{wellX + x, y - 6}, point{wellX + x - 0.5, y})
	for _, m := range s.Marks {
		k.fitted(s, m)
	}
	k.stringTags(s, point{wellX + x + 4, y})
}

// fitted draws a collar, a hanger or a packer of a string.
func (k *sketch) fitted(s *finding.DrawnString, m finding.Mark) {
	p, ok := pipeAt(s, m.At.MD)
	if !ok {
		return
	}
	y := k.y(m.At.MD)
	switch m.Kind {
	case "float_collar", "landing_collar", "stage_collar":
		x := k.side(p.ID)
		k.both(max(x-lug, 0), x, y-1.6, y+1.6, func(x, wide float64) { k.box(x, y-1.6, wide, 3.2, black) })
	case "packer", "hanger":
		if bore, ok := k.boreAround(s, m.At.MD, p.OD); ok {
			k.both(k.side(p.OD), k.side(bore), y, y+4, func(x, wide float64) { k.box(x, y, wide, 4, black) })
		}
	}
}

func pipeAt(s *finding.DrawnString, md finding.Number) (finding.DrawnPipe, bool) {
	for _, p := range s.Pipes {
		if p.From <= md && md <= p.To {
			return p, true
		}
	}
	return finding.DrawnPipe{}, false
}

// boreAround is the smallest bore that leaves room around an OD at a depth.
func (k *sketch) boreAround(of *finding.DrawnString, md, od finding.Number) (bore finding.Number, ok bool) {
	for i := range k.of.Strings {
		s := &k.of.Strings[i]
		if p, in := pipeAt(s, md); in && s != of && p.ID > od && (!ok || p.ID < bore) {
			bore, ok = p.ID, true
		}
	}
	return bore, ok
}

// stringTags says of a string what a reader looks for: shoe, pipe, cement, and
// of a liner its top.
func (k *sketch) stringTags(s *finding.DrawnString, shoe point) {
	lines := []string{s.Name, "shoe " + k.depth(s.Shoe)}
	for _, p := range s.Pipes[:min(3, len(s.Pipes))] {
		text := p.Label
		if len(s.Pipes) > 1 {
			text += " from " + k.measure(p.From, units.MDLength)
		}
		lines = append(lines, text)
	}
	if n := len(s.Pipes) - 3; n > 0 {
		lines = append(lines, "and more lengths of pipe below")
	}
	switch {
	case s.Lacks != "":
		lines = append(lines, k.broken("cement not drawn: "+s.Lacks)...)
	case len(s.Cement) == 0:
		lines = append(lines, "not cemented")
	}
	k.right = append(k.right, tag{at: shoe, lines: lines, bold: true, color: black})
	if top := s.Top.MD; top > 0 {
		x := k.side(s.Pipes[0].OD)
		k.right = append(k.right, tag{at: point{wellX + x, k.y(top)}, lines: k.broken("top " + k.measure(top, units.MDLength) + ", " + s.Name), color: black, rank: 1})
	}
	if len(s.Cement) > 0 {
		k.cementTag(s)
	}
}

// broken is a text of a tag on as many as two lines.
func (k *sketch) broken(text string) []string { return wrap(text, labelSize, false, tagWide, 2) }

// cementTag names the shallowest cement of a string, unless it comes up to the
// string's own top.
func (k *sketch) cementTag(s *finding.DrawnString) {
	top := s.Cement[0]
	for _, b := range s.Cement {
		if b.From < top.From {
			top = b
		}
	}
	if top.From <= s.Top.MD {
		return
	}
	k.right = append(k.right, tag{at: point{wellX + k.side(top.Outer), k.y(top.From)}, color: black, rank: 2,
		lines: k.broken("top of cement " + k.measure(top.From, units.MDLength) + ", " + s.Name)})
}

// mark draws what belongs to no string.
func (k *sketch) mark(m finding.Mark) {
	if at := float64(m.At.MD); at < k.deep.low || at > k.deep.high {
		return // off the well: its finding says so
	}
	y := k.y(m.At.MD)
	switch m.Kind {
	case "base_of_protected_water":
		k.line([]point{{rockX, y}, {rockX + rockWide, y}}, 1, water, 5, 2.5)
		k.line([]point{{wellX - wellHalf - 10, y}, {wellX + wellHalf + 10, y}}, 1, water, 5, 2.5)
		k.right = append(k.right, tag{at: point{wellX + wellHalf + 10, y}, color: water, rank: 1,
			lines: k.broken("base of protected water " + k.measure(m.At.MD, units.MDLength))})
	case "completion_packer":
		bore, ok := k.boreAround(nil, m.At.MD, 0)
		if !ok {
			return
		}
		x := k.side(bore)
		k.box(wellX-x, y-2.5, 2*x, 5, white)
		k.frame(wellX-x, y-2.5, 2*x, 5, 0.8, black)
		k.line([]point{{wellX - x, y - 2.5}, {wellX + x, y + 2.5}}, 0.7, black)
		k.line([]point{{wellX - x, y + 2.5}, {wellX + x, y - 2.5}}, 0.7, black)
		k.right = append(k.right, tag{at: point{wellX + x, y}, lines: []string{m.Name + " " + k.measure(m.At.MD, units.MDLength)}, color: black, rank: 1})
	}
}

// rock draws the formations, what they hold and their names.
func (k *sketch) rock() {
	var names []tag
	for _, f := range k.of.Formations {
		y0, y1 := k.y(f.Top.MD), k.y(f.Base.MD)
		body := rect(rockX, y0, rockWide, y1-y0)
		switch contentsOf(f.Contents) {
		case holdsWater:
			k.hatch(body, 0, 2.6, 0.5, water)
		case holdsHydrocarbon:
			k.fill(pale, body...)
			k.hatch(body, 1, 2.6, 0.7, black)
		case holdsOther:
			k.hatch(body, -1, 4, 0.4, muted)
		}
		k.line([]point{{rockX, y0}, {rockX + rockWide, y0}}, 0.5, muted)
		k.line([]point{{rockX, y1}, {rockX + rockWide, y1}}, 0.5, muted)
		text := f.Name
		if c := strings.ReplaceAll(f.Contents, "_", " "); c != "" && c != "none" {
			text += ", " + c
		}
		names = append(names, tag{at: point{rockX + rockWide, y0 + 2}, lines: wrap(text, labelSize, false, rockTextWide, 2), color: black})
	}
	k.line([]point{{rockX, k.deep.from}, {rockX, k.deep.to}}, 0.5, muted)
	k.line([]point{{rockX + rockWide, k.deep.from}, {rockX + rockWide, k.deep.to}}, 0.5, muted)
	k.tags(column{x: rockText, wide: rockTextWide, top: pageTop + 4, bottom: k.deep.to, elbow: rockX + rockWide}, names)
}

type contents uint8

const (
	holdsNothing contents = iota
	holdsWater
	holdsHydrocarbon
	holdsOther
)

func contentsOf(s string) contents {
	switch s {
	case "", "none":
		return holdsNothing
	case "fresh_water", "usable_water", "salt_water":
		return holdsWater
	case "oil", "gas", "oil_and_gas":
		return holdsHydrocarbon
	}
	return holdsOther
}

// legend says in words what the patterns mean.
func (k *sketch) legend() {
	y := pageFoot - 26
	at := margin + 2
	entry := func(text string, draw func(x float64)) {
		draw(at)
		k.write(label{at: point{at + 20, y + 7}, text: text, size: labelSize, color: black}, 0)
		at += 20 + width(clean(text), labelSize, false)*spare + 9
	}
	entry("steel", func(x float64) { k.box(x, y, 16, 8, steel) })
	entry("cement", func(x float64) {
		k.box(x, y, 16, 8, cement)
		k.hatch(rect(x, y, 16, 8), 1, 4, 0.4, clay)
	})
	entry("collar, hanger or packer", func(x float64) { k.box(x, y+2.5, 16, 3.2, black) })
	entry("holds water", func(x float64) { k.hatch(rect(x, y, 16, 8), 0, 2.6, 0.5, water) })
	entry("holds oil or gas", func(x float64) {
		k.box(x, y, 16, 8, pale)
		k.hatch(rect(x, y, 16, 8), 1, 2.6, 0.7, black)
	})
	entry("holds coal, salt or mineral", func(x float64) { k.hatch(rect(x, y, 16, 8), -1, 4, 0.4, muted) })
	y += 12
	at = margin + 2
	entry("drilled hole", func(x float64) { k.line([]point{{x, y + 4}, {x + 16, y + 4}}, 0.5, clay, 2, 1.4) })
	entry("base of protected water", func(x float64) { k.line([]point{{x, y + 4}, {x + 16, y + 4}}, 1, water, 5, 2.5) })
}
