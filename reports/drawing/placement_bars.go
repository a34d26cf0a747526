package drawing

import (
	"fmt"
	"slices"
	"strings"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// The frames of the columns at chosen moments, in points.
const (
	barsTop  = 566.0
	barsFoot = 704.0
	keysTop  = 717.0
	boreWide = 20.0
	gapWide  = 26.0
	mostKeys = 8 // lines under the columns
)

// The numbers of what fills a column besides the fluids of a stage.
const (
	mudFill   = -1
	emptyFill = -2
)

// letter is what a fluid goes by; M is left to the mud.
func (j *job) letter(i int) string {
	const letters = "ABCDEFGHIJKLNOPQRSTUVWXYZ"
	switch {
	case i == mudFill:
		return "M"
	case i < 0:
		return ""
	case i < len(letters):
		return letters[i : i+1]
	}
	return fmt.Sprintf("%c%d", letters[i%len(letters)], i/len(letters))
}

// slurry reports whether a fluid of a stage sets.
func slurry(f *finding.PlacedFluid) bool {
	switch f.Kind {
	case "spacer", "preflush", "scavenger", "displacement":
		return false
	}
	return true
}

// texture fills a box as a fluid is shown: slurries the colour of cement, each
// hatched its own way, what goes ahead lined across, displacement grey, mud
// white, and a cross where the pipe is empty.
func (j *job) texture(i int, x, y, wide, high float64) {
	body := rect(x, y, wide, high)
	switch {
	case i == emptyFill:
		j.line([]point{body[0], body[2]}, 0.5, muted)
		j.line([]point{body[1], body[3]}, 0.5, muted)
	case i < 0 || i >= len(j.of.Fluids):
	case j.of.Fluids[i].Kind == "displacement":
		j.fill(pale, body...)
	case slurry(&j.of.Fluids[i]):
		j.fill(cement, body...)
		j.hatch(body, []float64{1, -1, 3, -3}[i%4], []float64{5, 5, 9, 9}[i%4], 0.45, clay)
	default:
		j.fill(faint, body...)
		j.hatch(body, 0, 3, 0.4, muted)
	}
	j.frame(x, y, wide, high, 0.5, black)
}

// bars draw pipe and annulus, side by side, at each moment.
func (j *job) bars() {
	top := j.of.Exit.MD
	for _, m := range j.moments {
		for _, f := range slices.Concat(m.Inside, m.Outside) {
			top = min(top, f.From)
		}
	}
	deep := axis{float64(top), float64(j.of.Exit.MD), barsTop, barsFoot}
	if !(deep.high > deep.low) || len(j.moments) == 0 {
		return
	}
	j.depths(deep, true)
	room := (placeRight - placeLeft) / float64(len(j.moments))
	for i, m := range j.moments {
		x := placeLeft + room*(float64(i)+0.5) - (boreWide+gapWide)/2
		j.numeral(point{x + boreWide, barsTop - 17}, i)
		j.write(label{at: point{x + boreWide/2, barsTop - 4}, text: "pipe", size: 6.2, anchor: middle, color: muted}, 0)
		j.write(label{at: point{x + boreWide + gapWide/2, barsTop - 4}, text: "annulus", size: 6.2, anchor: middle, color: muted}, 0)
		j.bar(m.Inside, deep, x, boreWide)
		j.bar(m.Outside, deep, x+boreWide, gapWide)
		j.line([]point{{x + boreWide, barsTop}, {x + boreWide, barsFoot}}, 2.4, steel)
	}
	j.tops(deep, placeRight-room/2+(boreWide+gapWide)/2)
}

func (j *job) bar(list []finding.Fill, deep axis, x, wide float64) {
	for _, f := range list {
		a, b := deep.at(float64(f.From)), deep.at(float64(f.To))
		j.texture(f.Fluid, x, a, wide, b-a)
		if l := j.letter(f.Fluid); l != "" && b-a > 11 {
			j.badge(point{x + wide/2, (a + b) / 2}, l, black)
		}
	}
}

// tops name how high the fluids of the stage stand outside at the end,
// where the last column ends.
func (j *job) tops(deep axis, right float64) {
	var list []tag
	for _, f := range j.moments[len(j.moments)-1].Outside {
		if f.Fluid < 0 || f.Fluid >= len(j.of.Fluids) {
			continue
		}
		z := finding.Depth{MD: f.From}
		if tvd, ok := j.path.tvd(float64(f.From)); ok {
			v := finding.Number(tvd)
			z.TVD = &v
		}
		t := tag{at: point{right, deep.at(float64(f.From))}, lines: []string{"top of " + j.of.Fluids[f.Fluid].Name, j.depth(z)}, color: black}
		if !slurry(&j.of.Fluids[f.Fluid]) {
			t.color, t.rank = muted, 1
		}
		list = append(list, t)
	}
	j.tags(column{x: placeTags, wide: placeWide, top: barsTop - 6, bottom: barsFoot, elbow: placeRight + 2}, list)
}

// keys name the numbers and the letters.
func (j *job) keys() {
	const half = (pageWide - 2*margin) / 2
	y := keysTop
	for i, m := range j.moments {
		j.numeral(point{margin + 5, y + 4}, i)
		text := strings.Join(m.Events, "; ") + ": " + j.measure(m.Pumped, units.Volume)
		if t, ok := j.time(float64(m.Pumped)); ok {
			text += fmt.Sprintf(", %s min", units.Decimal(t/60, 0))
		}
		for _, line := range wrap(text, labelSize, false, half-24, 2) {
			j.write(label{at: point{margin + 15, y + 6.6}, text: line, size: labelSize, color: black}, half-24)
			y += lineHigh
		}
		y += 2.5
	}
	y = keysTop
	x := margin + half + 10
	entry := func(fluid int, text string) {
		j.texture(fluid, x, y-0.5, 18, 9)
		j.write(label{at: point{x + 24, y + 6.6}, text: j.letter(fluid), size: labelSize, bold: true, color: black}, 0)
		j.write(label{at: point{x + 35, y + 6.6}, text: text, size: labelSize, color: black}, half-46)
		y += 10.6
	}
	entry(mudFill, "mud in the well before")
	for i, f := range j.of.Fluids {
		if i == mostKeys-2 && len(j.of.Fluids) > mostKeys-1 {
			j.write(label{at: point{x + 35, y + 6.6}, text: fmt.Sprintf("and %d more fluids", len(j.of.Fluids)-i), size: labelSize, color: muted}, half-46)
			return
		}
		entry(i, fmt.Sprintf("%s %s, %s", f.Name, j.measure(f.Density, units.Density), j.measure(f.To-f.From, units.Volume)))
	}
	if j.empties() {
		entry(emptyFill, "empty: the column falls freely")
	}
}

// empties reports whether the pipe has run empty at a moment that is drawn.
func (j *job) empties() bool {
	return slices.ContainsFunc(j.moments, func(m finding.Moment) bool {
		return slices.ContainsFunc(m.Inside, func(f finding.Fill) bool { return f.Fluid == emptyFill })
	})
}
