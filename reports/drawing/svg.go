package drawing

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
)

// writeSVG writes the pages one under the other.
func writeSVG(w io.Writer, pages []*Scene) error {
	wide, high := spread(pages)
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" width="%spt" height="%spt" font-family="Go, Arial, Helvetica, sans-serif">`+"\n",
		num(wide), num(high), num(wide), num(high))
	fmt.Fprintf(&b, "<title>%s</title>\n", escaped(pages[0].Title))
	fmt.Fprintf(&b, `<rect width="%s" height="%s" fill="#FFFFFF"/>`+"\n", num(wide), num(high))
	top := 0.0
	for _, s := range pages {
		for _, o := range s.ops {
			o.svg(&b, top)
		}
		top += s.high
	}
	b.WriteString("</svg>\n")
	_, err := w.Write(b.Bytes())
	return err
}

// spread is the size of pages one under the other.
func spread(pages []*Scene) (wide, high float64) {
	for _, s := range pages {
		wide = max(wide, s.wide)
		high += s.high
	}
	return wide, high
}

func (o op) svg(b *bytes.Buffer, top float64) {
	switch {
	case o.lines != nil:
		b.WriteString(`<path d="`)
		for _, p := range o.lines.paths {
			trace(b, p, top)
		}
		fmt.Fprintf(b, `" fill="none" stroke="#%06X" stroke-width="%s"/>`+"\n", uint32(o.lines.color), num(o.lines.width))
	case o.area != nil:
		b.WriteString(`<path d="`)
		trace(b, o.area.points, top)
		fmt.Fprintf(b, `Z" fill="#%06X"/>`+"\n", uint32(o.area.color))
	case o.text != nil:
		o.text.svg(b, top)
	}
}

func trace(b *bytes.Buffer, list []point, top float64) {
	for i, p := range list {
		mark := byte('L')
		if i == 0 {
			mark = 'M'
		}
		b.WriteByte(mark)
		b.WriteString(num(p.x) + " " + num(p.y+top))
	}
}

func (l *label) svg(b *bytes.Buffer, top float64) {
	x, y := num(l.at.x), num(l.at.y+top)
	fmt.Fprintf(b, `<text x="%s" y="%s" font-size="%s" fill="#%06X"`, x, y, num(l.size), uint32(l.color))
	if l.bold {
		b.WriteString(` font-weight="bold"`)
	}
	if l.anchor != left {
		fmt.Fprintf(b, ` text-anchor="%s"`, [...]string{"start", "middle", "end"}[l.anchor])
	}
	if l.up {
		fmt.Fprintf(b, ` transform="rotate(-90 %s %s)"`, x, y)
	}
	fmt.Fprintf(b, ">%s</text>\n", escaped(l.text))
}

func escaped(text string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(clean(text))) // a bytes.Buffer never fails
	return b.String()
}

// num writes a coordinate with at most two decimals, never "-0".
func num(x float64) string {
	r := math.Round(x * 100)
	if r == 0 {
		return "0"
	}
	return strconv.FormatFloat(r/100, 'f', -1, 64)
}
