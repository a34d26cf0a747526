package drawing

import (
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// writePDF writes each page on a sheet of its own. Its dates are those of the
// audit, so that the same audit gives the same bytes.
func writePDF(w io.Writer, pages []*Scene, date time.Time) error {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: pageWide, Ht: pageHigh}})
	f.SetCreationDate(date)
	f.SetModificationDate(date)
	f.SetCatalogSort(true)
	f.SetProducer("spudgate", true)
	f.SetLang("en-GB")
	f.SetAutoPageBreak(false, 0)
	f.AliasNbPages("") // user text is never a placeholder
	f.AddUTF8FontFromBytes("sans", "", goregular.TTF)
	f.AddUTF8FontFromBytes("sans", "B", gobold.TTF)
	f.SetTitle(clean(pages[0].Title), true)
	for _, s := range pages {
		f.AddPage()
		for _, o := range s.ops {
			o.pdf(f)
		}
	}
	return f.Output(w)
}

func (o op) pdf(f *fpdf.Fpdf) {
	switch {
	case o.lines != nil:
		f.SetDrawColor(o.lines.color.rgb())
		f.SetLineWidth(o.lines.width)
		for _, p := range o.lines.paths {
			trail(f, p)
			f.DrawPath("D")
		}
	case o.area != nil:
		f.SetFillColor(o.area.color.rgb())
		trail(f, o.area.points)
		f.ClosePath()
		f.DrawPath("F")
	case o.text != nil:
		o.text.pdf(f)
	}
}

func trail(f *fpdf.Fpdf, list []point) {
	for i, p := range list {
		if i == 0 {
			f.MoveTo(p.x, p.y)
		} else {
			f.LineTo(p.x, p.y)
		}
	}
}

func (l *label) pdf(f *fpdf.Fpdf) {
	style := ""
	if l.bold {
		style = "B"
	}
	f.SetFont("sans", style, l.size)
	f.SetTextColor(l.color.rgb())
	x := l.at.x - l.back()
	if !l.up {
		f.Text(x, l.at.y, l.text)
		return
	}
	f.TransformBegin()
	f.TransformRotate(90, l.at.x, l.at.y)
	f.Text(x, l.at.y, l.text)
	f.TransformEnd()
}

// back is how far before its place a text begins.
func (l *label) back() float64 {
	return width(l.text, l.size, l.bold) * [...]float64{0, 0.5, 1}[l.anchor]
}

func (c ink) rgb() (r, g, b int) { return int(c >> 16 & 255), int(c >> 8 & 255), int(c & 255) }
