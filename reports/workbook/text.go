package workbook

import (
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// mostUnits is how much text a cell holds, in UTF-16 units.
const mostUnits = 32767

// clean makes a text fit for a cell: what has no shape gets one, so that
// nothing is hidden, and a text too long for a cell ends by saying so.
// Right-to-left text stays; marks that turn neighbouring text round don't.
func clean(s string) string {
	return clip(strings.Map(visible, strings.ToValidUTF8(s, "\uFFFD")))
}

func visible(r rune) rune {
	switch {
	case r == '\n':
		return r
	case r == '\t' || r == '\r':
		return ' '
	case r < 0x20:
		return 0x2400 + r // the picture of the control character
	case r == 0x7F:
		return 0x2421
	case unicode.IsControl(r) || r == 0xFFFE || r == 0xFFFF:
		return utf8.RuneError
	case r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069:
		return '·'
	}
	return r
}

const cutMark = " … (cut here: longer than a cell holds)"

func clip(s string) string {
	if len(s) <= mostUnits || len(utf16.Encode([]rune(s))) <= mostUnits {
		return s
	}
	room := mostUnits - utf8.RuneCountInString(cutMark)
	for i, r := range s {
		if room -= utf16.RuneLen(r); room < 0 {
			return s[:i] + cutMark
		}
	}
	return s
}

// quoted is a text as a formula holds it: pieces of at most 255 characters,
// the most a literal may have, joined.
func quoted(s string) string {
	const most = 120 // runes: at most 240 UTF-16 units
	var out []string
	for r := []rune(clean(s)); ; r = r[most:] {
		last := len(r) <= most
		piece := string(r[:min(most, len(r))])
		out = append(out, `"`+strings.ReplaceAll(piece, `"`, `""`)+`"`)
		if last {
			return strings.Join(out, "&")
		}
	}
}

// widths are the advance widths of the printable ASCII characters from the
// space on, in 1/1000 of the font size: Helvetica's, that Arial and its
// metric equivalents share (Adobe font metrics, from memory).
var widths = [...]int{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

// extent is how wide a text is in points.
func extent(s string, size float64, bold bool) float64 {
	sum := 0
	for _, r := range s {
		switch {
		case r >= ' ' && int(r-' ') < len(widths):
			sum += widths[r-' ']
		case r < 0x2E80:
			sum += 600
		default:
			sum += 1100 // ideographs and pictures
		}
	}
	if bold {
		return float64(sum) * size / 1000 * 1.08
	}
	return float64(sum) * size / 1000
}

// lines is how many lines a text takes when wrapped to a width in points.
func lines(s string, room, size float64, bold bool) int {
	n := 0
	for _, paragraph := range strings.Split(s, "\n") {
		n++
		x := 0.0
		for _, word := range strings.Split(paragraph, " ") {
			w := extent(word, size, bold)
			if x > 0 && x+w > room {
				n, x = n+1, 0
			}
			for w > room && room > 0 { // a word longer than a line is broken
				n, w = n+1, w-room
			}
			x += w + extent(" ", size, bold)
		}
	}
	return n
}
