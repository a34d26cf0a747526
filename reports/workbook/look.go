package workbook

import (
	"github.com/xuri/excelize/v2"

	"spudgate/rules/finding"
)

// The one font and the few colours: slate for structure, brick for what isn't
// met. No verdict is told by colour alone.
const (
	fontName = "Arial"
	ink      = "1E252B"
	slate    = "2F3E4E"
	mist     = "E9EDF0" // heads of tables
	rule     = "B4BEC7"
	grey     = "6B7680"
	brick    = "7A2E22"
	paper    = "FFFFFF"
	entry    = "F6F2E6" // what a reviewer may change
)

// edge is a kind of rule at the side of a cell, by the number the format gives it.
type edge int

const (
	dark   edge = -1 // thin, in slate
	none   edge = 0
	thin   edge = 1
	medium edge = 2
	dotted edge = 4
	thick  edge = 5
)

// look is how a cell looks; equal looks share one style.
type look struct {
	size                     float64 // 9 where 0
	bold, italic, under      bool
	color, fill              string
	hatch                    bool
	left, top, bottom, frame edge
	number                   string // format of a number
	right, center, middle    bool
	flow                     bool // runs over its neighbours instead of wrapping
	open                     bool // not locked
}

func (l look) points() float64 {
	if l.size == 0 {
		return 9
	}
	return l.size
}

func (l look) toRight() look {
	l.right = true
	return l
}

// The looks that recur.
var (
	plain   = look{bottom: thin}
	strong  = look{bottom: thin, bold: true}
	faint   = look{bottom: thin, size: 8, color: grey}
	number  = look{bottom: thin, right: true}
	whole   = look{bottom: thin, right: true, number: "0"}
	header  = look{bold: true, color: slate, fill: mist, top: thin, bottom: dark, middle: true}
	group   = look{bold: true, color: slate, fill: mist, bottom: thin, flow: true}
	title   = look{size: 14, bold: true, color: slate, flow: true}
	section = look{size: 11, bold: true, color: slate, bottom: dark, flow: true}
	small   = look{size: 8, color: grey}
	linked  = look{bottom: thin, under: true, color: slate}
)

// of is the look of a verdict's cell.
func of(v finding.Verdict) look {
	switch v {
	case finding.NotMet:
		return look{bold: true, color: paper, fill: brick, left: thick, bottom: thin}
	case finding.NotAssessed:
		return look{bold: true, hatch: true, bottom: thin}
	case finding.Varied:
		return look{frame: dotted}
	case finding.NotApplicable:
		return faint
	}
	return plain
}

func (l look) style() *excelize.Style {
	s := &excelize.Style{
		Font:       &excelize.Font{Family: fontName, Size: l.points(), Bold: l.bold, Italic: l.italic, Color: l.pen()},
		Alignment:  &excelize.Alignment{Horizontal: "left", Vertical: "top", WrapText: !l.flow},
		Protection: &excelize.Protection{Locked: !l.open},
		Border:     l.borders(),
	}
	if l.under {
		s.Font.Underline = "single"
	}
	if l.middle {
		s.Alignment.Vertical = "center"
	}
	if l.right {
		s.Alignment.Horizontal, s.Alignment.Indent = "right", 1
	}
	if l.center {
		s.Alignment.Horizontal = "center"
	}
	if l.fill != "" {
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{l.fill}}
	}
	if l.hatch {
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 14, Color: []string{rule}}
	}
	if l.number != "" {
		padded := l.number + "_0" // a digit's width to the right: indents get lost in print
		s.CustomNumFmt = &padded
		s.Alignment.WrapText, s.Alignment.Indent = false, 0
	}
	return s
}

func (l look) pen() string {
	if l.color == "" {
		return ink
	}
	return l.color
}

func (l look) borders() []excelize.Border {
	sides := []struct {
		name string
		edge edge
	}{{"left", l.left}, {"right", none}, {"top", l.top}, {"bottom", l.bottom}}
	var out []excelize.Border
	for _, side := range sides {
		kind, color := side.edge, rule
		switch {
		case l.frame != none:
			kind, color = l.frame, slate
		case kind == thick:
			color = "3D120B"
		case kind == medium:
			color = slate
		case kind == dark:
			kind, color = thin, slate
		}
		if kind != none {
			out = append(out, excelize.Border{Type: side.name, Color: color, Style: int(kind)})
		}
	}
	return out
}
