package drawing

import (
	"sort"
	"strings"
	"sync"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The two faces of all drawings, read once.
var (
	regular = sync.OnceValue(func() *sfnt.Font { return parsed(goregular.TTF) })
	heavy   = sync.OnceValue(func() *sfnt.Font { return parsed(gobold.TTF) })
)

// parsed reads a font that is part of the program.
func parsed(data []byte) *sfnt.Font {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("the built-in font can't be read: " + err.Error())
	}
	return f
}

func face(bold bool) *sfnt.Font {
	if bold {
		return heavy()
	}
	return regular()
}

// unitsPerEm is the size at which a font is measured: large, so that rounding
// to 1/64 doesn't show.
const unitsPerEm = 2048

// width is how wide a text is in points.
func width(text string, size float64, bold bool) float64 {
	f := face(bold)
	var b sfnt.Buffer
	var sum fixed.Int26_6
	for _, r := range text {
		g, err := f.GlyphIndex(&b, r)
		if err != nil {
			continue
		}
		if a, err := f.GlyphAdvance(&b, g, fixed.I(unitsPerEm), font.HintingNone); err == nil {
			sum += a
		}
	}
	return float64(sum) / 64 * size / unitsPerEm
}

// spare is the room left for a viewer that has another font.
const spare = 1.15

// cut shortens a text that is wider than wide, and shows it by an ellipsis.
func cut(text string, size float64, bold bool, wide float64) string {
	if width(text, size, bold)*spare <= wide {
		return text
	}
	list := []rune(text)
	shown := func(n int) string { return strings.TrimRight(string(list[:n]), " ,;") + "…" }
	n := sort.Search(len(list), func(n int) bool { return width(shown(n+1), size, bold)*spare > wide })
	if n == 0 {
		return ""
	}
	return shown(n)
}

// wrap breaks a text into at most most lines; what is left is cut.
func wrap(text string, size float64, bold bool, wide float64, most int) []string {
	var out []string
	words := strings.Fields(clean(text))
	for len(words) > 0 {
		n := 1
		for n < len(words) && width(strings.Join(words[:n+1], " "), size, bold)*spare <= wide {
			n++
		}
		if len(out) == most-1 {
			n = len(words)
		}
		out = append(out, cut(strings.Join(words[:n], " "), size, bold, wide))
		words = words[n:]
	}
	return out
}

// unknown stands for a character the font doesn't have.
const unknown = '□'

// clean makes a text fit for every back end: valid, on one line, without
// marks that turn the direction, each character one that the font has.
func clean(text string) string {
	f := regular()
	var b sfnt.Buffer
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == unicode.ReplacementChar:
			return unknown
		case unicode.IsControl(r) || unicode.IsSpace(r):
			return ' '
		case unicode.In(r, unicode.Cf, unicode.Mn, unicode.Me):
			return -1
		}
		if g, err := f.GlyphIndex(&b, r); err != nil || g == 0 || r > 0xFFFF {
			return unknown
		}
		return r
	}, strings.ToValidUTF8(text, string(unknown))))
}
