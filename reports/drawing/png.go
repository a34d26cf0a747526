package drawing

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// pngScale is dots for each point: twice what a plain screen shows.
const pngScale = 2

// writePNG paints the pages one under the other.
func writePNG(w io.Writer, pages []*Scene) error {
	wide, high := spread(pages)
	img := image.NewRGBA(image.Rect(0, 0, int(wide*pngScale), int(high*pngScale)))
	draw.Draw(img, img.Bounds(), image.White, image.Point{}, draw.Src)
	top := 0.0
	for _, s := range pages {
		p := &painter{img: img, top: top}
		for _, o := range s.ops {
			p.paint(o)
		}
		top += s.high
	}
	return png.Encode(w, img)
}

// painter paints one page on an image.
type painter struct {
	img *image.RGBA
	top float64
	buf sfnt.Buffer
}

func (p *painter) paint(o op) {
	switch {
	case o.lines != nil:
		p.strokes(o.lines)
	case o.area != nil:
		p.flood([][]point{o.area.points}, o.area.color)
	case o.text != nil:
		p.letters(o.text)
	}
}

// strokes paints each line as the polygon of its outline.
func (p *painter) strokes(l *lines) {
	for _, path := range l.paths {
		if list := distinct(path); len(list) > 1 {
			p.flood([][]point{outline(list, l.width/2)}, l.color)
		}
	}
}

// distinct leaves out points that lie on the one before.
func distinct(path []point) []point {
	out := path[:1:1]
	for _, q := range path[1:] {
		if far(q, out[len(out)-1]) > 1e-6 {
			out = append(out, q)
		}
	}
	return out
}

// outline is a line with a width: down its left side, back on its right, its
// corners mitred, a sharp one no further than twice the half width.
func outline(path []point, half float64) []point {
	n := len(path)
	closed := n > 3 && far(path[0], path[n-1]) < 1e-6
	out := make([]point, 0, 2*n)
	back := make([]point, n)
	for i, q := range path {
		before, after := i-1, i
		if closed && (i == 0 || i == n-1) {
			before, after = n-2, 0
		}
		m := miter(path, max(before, 0), min(after, n-2), half)
		out = append(out, point{q.x + m.x, q.y + m.y})
		back[n-1-i] = point{q.x - m.x, q.y - m.y}
	}
	return append(out, back...)
}

// miter is how far a corner between the pieces that begin at i and at k stands
// from the line.
func miter(path []point, i, k int, half float64) point {
	a, b := normal(path[i], path[i+1]), normal(path[k], path[k+1])
	sum := point{a.x + b.x, a.y + b.y}
	square := sum.x*sum.x + sum.y*sum.y // 4 cos^2 of half the turn
	if square < 1 {
		return point{b.x * half, b.y * half}
	}
	return point{sum.x * 2 * half / square, sum.y * 2 * half / square}
}

func normal(a, b point) point {
	length := far(a, b)
	return point{-(b.y - a.y) / length, (b.x - a.x) / length}
}

// flood fills polygons, in points of the page.
func (p *painter) flood(list [][]point, c ink) {
	r, at, ok := p.raster(list)
	if !ok {
		return
	}
	for _, polygon := range list {
		for i, q := range polygon {
			x, y := p.dot(q, at)
			if i == 0 {
				r.MoveTo(x, y)
			} else {
				r.LineTo(x, y)
			}
		}
		r.ClosePath()
	}
	p.lay(r, at, c)
}

// raster makes a rasterizer no larger than what is drawn, and where it lies.
func (p *painter) raster(list [][]point) (*vector.Rasterizer, image.Point, bool) {
	low, high := point{math.Inf(1), math.Inf(1)}, point{math.Inf(-1), math.Inf(-1)}
	for _, polygon := range list {
		for _, q := range polygon {
			low = point{min(low.x, q.x), min(low.y, q.y)}
			high = point{max(high.x, q.x), max(high.y, q.y)}
		}
	}
	box := image.Rect(int(math.Floor(low.x*pngScale)), int(math.Floor((low.y+p.top)*pngScale)),
		int(math.Ceil(high.x*pngScale))+1, int(math.Ceil((high.y+p.top)*pngScale))+1)
	if len(list) == 0 || box.Intersect(p.img.Bounds()).Empty() {
		return nil, image.Point{}, false
	}
	return vector.NewRasterizer(box.Dx(), box.Dy()), box.Min, true
}

func (p *painter) dot(q point, at image.Point) (x, y float32) {
	return float32(q.x*pngScale - float64(at.X)), float32((q.y+p.top)*pngScale - float64(at.Y))
}

func (p *painter) lay(r *vector.Rasterizer, at image.Point, c ink) {
	red, green, blue := c.rgb()
	source := image.NewUniform(color.RGBA{uint8(red), uint8(green), uint8(blue), 255})
	size := r.Size()
	r.Draw(p.img, image.Rectangle{at, at.Add(size)}, source, image.Point{})
}

// letters paints a text by the outlines of its glyphs.
func (p *painter) letters(l *label) {
	f := face(l.bold)
	along := -l.back()
	for _, r := range l.text {
		g, err := f.GlyphIndex(&p.buf, r)
		if err != nil {
			continue
		}
		if outline, err := f.LoadGlyph(&p.buf, g, fixed.I(unitsPerEm), nil); err == nil {
			p.glyph(l, outline, along)
		}
		if a, err := f.GlyphAdvance(&p.buf, g, fixed.I(unitsPerEm), font.HintingNone); err == nil {
			along += float64(a) / 64 * l.size / unitsPerEm
		}
	}
}

func (p *painter) glyph(l *label, outline sfnt.Segments, along float64) {
	place := func(q fixed.Point26_6) point {
		x := along + float64(q.X)/64*l.size/unitsPerEm
		y := float64(q.Y) / 64 * l.size / unitsPerEm
		if l.up {
			x, y = y, -x
		}
		return point{l.at.x + x, l.at.y + y}
	}
	var bounds []point
	for _, s := range outline {
		for _, q := range s.Args[:arguments(s.Op)] {
			bounds = append(bounds, place(q))
		}
	}
	if len(bounds) == 0 {
		return
	}
	r, at, ok := p.raster([][]point{bounds})
	if !ok {
		return
	}
	for _, s := range outline {
		var x, y [3]float32
		for i, q := range s.Args[:arguments(s.Op)] {
			x[i], y[i] = p.dot(place(q), at)
		}
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			r.ClosePath()
			r.MoveTo(x[0], y[0])
		case sfnt.SegmentOpLineTo:
			r.LineTo(x[0], y[0])
		case sfnt.SegmentOpQuadTo:
			r.QuadTo(x[0], y[0], x[1], y[1])
		case sfnt.SegmentOpCubeTo:
			r.CubeTo(x[0], y[0], x[1], y[1], x[2], y[2])
		}
	}
	r.ClosePath()
	p.lay(r, at, l.color)
}

// arguments is how many points a segment of an outline has.
func arguments(o sfnt.SegmentOp) int {
	switch o {
	case sfnt.SegmentOpQuadTo:
		return 2
	case sfnt.SegmentOpCubeTo:
		return 3
	}
	return 1
}
