package drawing

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/reports/office"
	"spudgate/rules/finding"
)

func drawn(t testing.TB, r *finding.Record, kind string, s units.System) []*Scene {
	t.Helper()
	pages, err := Draw(r, kind, s)
	if err != nil {
		t.Fatalf("%s: %v", kind, err)
	}
	return pages
}

func written(t testing.TB, pages []*Scene, format string) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, pages, format, "2026-11-25"); err != nil {
		t.Fatalf("%s: %v", format, err)
	}
	return b.Bytes()
}

// TestSameBytes holds that the same record gives the same file.
func TestSameBytes(t *testing.T) {
	for _, kind := range Kinds() {
		for _, format := range Formats() {
			first := written(t, drawn(t, sample(), kind, units.Field), format)
			for range 3 {
				if again := written(t, drawn(t, sample(), kind, units.Field), format); !bytes.Equal(first, again) {
					t.Errorf("%s%s: two runs give different files", kind, format)
				}
			}
		}
	}
}

// texts are the labels of a page.
func texts(s *Scene) []*label {
	var out []*label
	for _, o := range s.ops {
		if o.text != nil {
			out = append(out, o.text)
		}
	}
	return out
}

// span is the room of a label on its line, with the room for another font.
func (l *label) span() (from, to float64) {
	w := width(l.text, l.size, l.bold) * spare
	from = l.at.x - w*[...]float64{0, 0.5, 1}[l.anchor]
	return from, from + w
}

// TestTextsInside holds that every text lies on its page even in a wider font.
func TestTextsInside(t *testing.T) {
	for _, r := range []*finding.Record{sample(), renamed(strings.Repeat("very long name ", 40))} {
		for _, kind := range Kinds() {
			for _, system := range []units.System{units.Field, units.Metric} {
				for _, s := range drawn(t, r, kind, system) {
					for _, l := range texts(s) {
						from, to := l.span()
						if l.up {
							from, to = l.at.y-(to-from)/2, l.at.y+(to-from)/2
						}
						if from < 0 || to > s.wide && !l.up || to > s.high || l.at.y < l.size || l.at.y > s.high {
							t.Errorf("%s: %q spans %.1f to %.1f at %.1f", kind, l.text, from, to, l.at.y)
						}
					}
				}
			}
		}
	}
}

// TestLabelsApart holds that no label lies on another. Letters in rings and on
// the ellipse mark a place and may stand beside a tick.
func TestLabelsApart(t *testing.T) {
	for _, r := range []*finding.Record{sample(), crowded()} {
		for _, kind := range Kinds() {
			for _, s := range drawn(t, r, kind, units.Field) {
				list := texts(s)
				for i, a := range list {
					for _, b := range list[:i] {
						if len(a.text) > 1 && len(b.text) > 1 && !a.up && !b.up && overlap(a, b) {
							t.Errorf("%s: %q at %.1f,%.1f lies on %q at %.1f,%.1f", kind, a.text, a.at.x, a.at.y, b.text, b.at.x, b.at.y)
						}
					}
				}
			}
		}
	}
}

// overlap reports whether two labels meet as the program's own font has them.
func overlap(a, b *label) bool {
	bounds := func(l *label) (from, to float64) {
		from = l.at.x - l.back()
		return from, from + width(l.text, l.size, l.bold)
	}
	a0, a1 := bounds(a)
	b0, b1 := bounds(b)
	return a0 < b1 && b0 < a1 && a.at.y-a.size*0.75 < b.at.y && b.at.y-b.size*0.75 < a.at.y
}

// crowded is the sample with thirty formations and strings close together.
func crowded() *finding.Record {
	r := sample()
	s := r.Drawings.Schematic
	for i := range 60 {
		s.Formations = append(s.Formations, finding.DrawnFormation{Name: fmt.Sprintf("Bed %d", i), Top: deep(100 + float64(i)), Base: deep(101 + float64(i))})
	}
	for i := range 30 {
		more := s.Strings[1]
		more.Name, more.Shoe = fmt.Sprintf("string %d", i), deep(2400+float64(i))
		s.Strings = append(s.Strings, more)
	}
	p := &r.Drawings.Placement[0]
	for i := range 30 {
		p.Fluids = append(p.Fluids, finding.PlacedFluid{Name: fmt.Sprintf("fluid %d", i), Kind: "lead", Density: 1600, From: 20, To: 21})
		m := p.Moments[2]
		m.Pumped = finding.Number(22 + 0.1*float64(i))
		p.Moments = append(p.Moments[:len(p.Moments)-1], m, p.Moments[len(p.Moments)-1])
		end := &p.Moments[len(p.Moments)-1]
		end.Outside = append(end.Outside, finding.Fill{Fluid: 3 + i, From: finding.Number(2300 + i), To: finding.Number(2301 + i)})
		p.NotMet, p.Lacks = append(p.NotMet, m.Events[0]), append(p.Lacks, fmt.Sprintf("the rheology of fluid %d", i))
	}
	p.Friction, p.HeadMoving = false, nil
	for i := range 40 {
		c := r.Drawings.Loads[0].Cases[0]
		c.Case = fmt.Sprintf("tension.%d", i)
		r.Drawings.Loads[0].Cases = append(r.Drawings.Loads[0].Cases, c)
		r.Drawings.Loads[0].Triaxial.Points = append(r.Drawings.Loads[0].Triaxial.Points, finding.EllipsePoint{Case: c.Case, Force: 1e6, Pressure: 3e7, Factor: 2})
		r.Drawings.Window.Shoes = append(r.Drawings.Window.Shoes, finding.ShoeMark{Name: c.Case, At: deep(2000 + float64(i)), Test: number(1500)})
	}
	return r
}

// renamed is the sample with one text everywhere a plan gives one.
func renamed(text string) *finding.Record {
	r := sample()
	r.Well.Name, r.Well.Revision, r.Inputs[0].Name = text, text, text
	d := &r.Drawings
	for i := range d.Schematic.Strings {
		s := &d.Schematic.Strings[i]
		s.Name, s.Lacks = text, text
		for k := range s.Pipes {
			s.Pipes[k].Label = text
		}
	}
	for i := range d.Schematic.Formations {
		d.Schematic.Formations[i].Name, d.Schematic.Formations[i].Contents = text, text
	}
	for i := range d.Schematic.Marks {
		d.Schematic.Marks[i].Name = text
	}
	for i := range d.Window.Shoes {
		d.Window.Shoes[i].Name = text
	}
	for i := range d.Window.Holes {
		d.Window.Holes[i].Name = text
	}
	p := &d.Placement[0]
	p.String, p.Stage, p.NotMet, p.Lacks = text, text, []string{text, text, text, text}, []string{text}
	for i := range p.Fluids {
		p.Fluids[i].Name = text
	}
	for i := range p.Moments {
		p.Moments[i].Events = []string{text}
	}
	d.Loads[0].Name, d.Loads[0].Triaxial.Pipe = text, text
	for i := range d.Loads[0].Cases {
		d.Loads[0].Cases[i].Title = text
	}
	return r
}

// strange are names a plan may hold, and some it may not.
var strange = []string{"", " ", "😀 well", "\u202eabc\u202c", "بئر رقم ٣", "井戸", "a\x00b\tc\nd", "\xff\xfe", "{nb}", `</text><script>"&'`, "⅜ ″ ≤ ³ µ", "e\u0301e\u0301", "\U0010FFFF", "�", strings.Repeat("W", 5000)}

// TestStrangeNames holds that no name breaks a file.
func TestStrangeNames(t *testing.T) {
	for _, name := range strange {
		for _, kind := range Kinds() {
			pages := drawn(t, renamed(name), kind, units.Metric)
			wellFormed(t, written(t, pages, ".svg"))
			written(t, pages, ".pdf")
		}
	}
	for in, want := range map[string]string{
		"a\x00b\tc": "a b c", "x\u202ey": "xy", "😀": "□", "\xff!": "□!", "井": "□", "13⅜ in": "13⅜ in", "{nb}": "{nb}",
	} {
		if got := clean(in); got != want {
			t.Errorf("clean(%q) = %q, want %q", in, got, want)
		}
	}
}

func wellFormed(t testing.TB, svg []byte) (found []string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	in := false
	for {
		token, err := d.Token()
		switch e := token.(type) {
		case xml.StartElement:
			in = e.Name.Local == "text"
		case xml.CharData:
			if in {
				found = append(found, string(e))
				in = false
			}
		}
		if errors.Is(err, io.EOF) {
			return found
		}
		if err != nil {
			t.Fatalf("%v in %.300s", err, svg)
		}
	}
}

// TestSVG holds that the file is XML, draws within its frame, and says what
// the record does.
func TestSVG(t *testing.T) {
	for kind, want := range map[string][]string{
		"schematic": {"Tarn Hollow 3, revision B", "9-5/8 surface", "shoe 3,281 ft MD, 2,953 ft TVD", "top 7,546 ft, 4-1/2 liner", "not drawn", "base of protected water 197 ft"},
		"window":    {"mud 8.76 ppg to 9.10 ppg", "shoe test to 13.35 ppg", "low estimate of a curve"},
		"loads":     {"7 production: loads against ratings", "burst, gas to surface", "1.20", "not met"},
		"placement": {"7 production, primary: cement placement, volume by volume", "not met: fracture while placing", "Couplings, centralizers and eccentric pipe are ignored", "most, with friction 14.35 ppg", "at 427.7 bbl pumped",
			"fracture, low estimate 14.19 ppg", "least under fracture; plug lands: 427.7 bbl, 90 min", "top of slurry", "3,281 ft MD, 2,953 ft TVD", "spacer 11.02 ppg, 37.7 bbl", "min after the start"},
	} {
		svg := written(t, drawn(t, sample(), kind, units.Field), ".svg")
		all := strings.Join(wellFormed(t, svg), "\n")
		for _, w := range want {
			if !strings.Contains(all, w) {
				t.Errorf("%s doesn't say %q", kind, w)
			}
		}
		for _, bad := range []string{"NaN", "Inf", `"-0"`, " -0 "} {
			if bytes.Contains(svg, []byte(bad)) {
				t.Errorf("%s holds %s", kind, bad)
			}
		}
	}
}

// TestPNG holds the size and that ink of each colour used is on the picture.
func TestPNG(t *testing.T) {
	for kind, inks := range map[string][]ink{"schematic": {steel, cement, water}, "window": {black, cement}, "loads": {black, brick, pale}, "placement": {black, brick, cement}} {
		img, err := png.Decode(bytes.NewReader(written(t, drawn(t, sample(), kind, units.Field), ".png")))
		if err != nil {
			t.Fatal(err)
		}
		if b := img.Bounds(); b.Dx() != 1190 || b.Dy() != 1684 {
			t.Errorf("%s is %v", kind, b)
		}
		seen := map[ink]int{}
		for y := range img.Bounds().Dy() {
			for x := range img.Bounds().Dx() {
				r, g, b, _ := img.At(x, y).RGBA()
				seen[ink(r>>8<<16|g>>8<<8|b>>8)]++
			}
		}
		for _, c := range inks {
			if seen[c] < 50 {
				t.Errorf("%s: %d dots of #%06X", kind, seen[c], uint32(c))
			}
		}
		if seen[white] < 1190*1684/3 {
			t.Errorf("%s: only %d white dots", kind, seen[white])
		}
	}
}

// TestPDF holds that another program finds the texts, a sheet for each string.
func TestPDF(t *testing.T) {
	r := sample()
	r.Drawings.Loads = append(r.Drawings.Loads, sampleLoads())
	r.Drawings.Loads[1].Name = "9-5/8 surface"
	file := filepath.Join(t.TempDir(), "loads.pdf")
	raw := written(t, drawn(t, r, "loads", units.Field), ".pdf")
	if !bytes.HasPrefix(raw, []byte("%PDF-")) {
		t.Fatalf("%.20q", raw)
	}
	if err := os.WriteFile(file, raw, 0o644); err != nil {
		t.Fatal(err)
	}
	if !office.Need(t) {
		return
	}
	out, err := exec.Command("pdftotext", "-layout", file, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	sheets := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	if len(sheets) != 2 {
		t.Fatalf("%d sheets", len(sheets))
	}
	for i, want := range []string{"7 production: loads against ratings", "9-5/8 surface: loads against ratings"} {
		if !strings.Contains(sheets[i], want) || !strings.Contains(sheets[i], "gas to surface") {
			t.Errorf("sheet %d: %s", i+1, sheets[i])
		}
	}
}

// TestNothingToDraw holds that an empty record gives a reason, not a page.
func TestNothingToDraw(t *testing.T) {
	bare := sample()
	bare.Drawings = finding.Drawings{}
	flat := sample()
	flat.Drawings = finding.Drawings{
		Schematic: &finding.Schematic{Strings: []finding.DrawnString{{Name: "S", Top: deep(0), Shoe: deep(0)}}},
		Window:    &finding.Window{Curves: []finding.Curve{{Of: "pore pressure", Estimate: "base", TVD: numbers(0, 0), EMW: numbers(1000, 1000)}}},
		Loads:     []finding.StringLoads{{Name: "S"}},
		Placement: []finding.Placement{{String: "S", Pumped: numbers(0, 1), Head: numbers(0)}},
	}
	for _, r := range []*finding.Record{bare, flat} {
		for _, kind := range Kinds() {
			pages, err := Draw(r, kind, units.Field)
			var empty Empty
			if !errors.As(err, &empty) || pages != nil || !strings.Contains(err.Error(), "draw") {
				t.Errorf("%s: %d pages, %v", kind, len(pages), err)
			}
		}
	}
	if _, err := Draw(sample(), "forces", units.Field); err == nil || !strings.Contains(err.Error(), "schematic, window, loads, placement") {
		t.Errorf("an unknown kind: %v", err)
	}
	for _, format := range []string{".gif", ""} {
		if err := Write(io.Discard, drawn(t, sample(), "window", units.Field), format, "2026-11-25"); err == nil {
			t.Errorf("%q was written", format)
		}
	}
	if err := Write(io.Discard, drawn(t, sample(), "window", units.Field), ".pdf", "soon"); err == nil {
		t.Error("a date that is none was written")
	}
	if err := Write(io.Discard, nil, ".svg", "2026-11-25"); err == nil {
		t.Error("no page was written")
	}
}

// TestMixed draws records with parts missing or out of bounds: a record read
// from a file may hold anything.
func TestMixed(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	pick := func() float64 {
		return [...]float64{0, 1, -5, 1e-9, 3000, 1e12, 0.2, rnd.Float64() * 4000, rnd.NormFloat64()}[rnd.IntN(9)]
	}
	pages := 0
	for i := range 150 {
		r := sample()
		d := &r.Drawings
		for k := range d.Schematic.Strings {
			s := &d.Schematic.Strings[k]
			s.Shoe, s.Top.TVD = finding.Depth{MD: finding.Number(pick())}, nil
			s.Pipes[0].OD, s.Pipes[0].ID, s.Pipes[0].To = finding.Number(pick()), finding.Number(pick()), finding.Number(pick())
			if rnd.IntN(3) == 0 {
				s.Pipes = nil
			}
		}
		d.Path = d.Path[:rnd.IntN(len(d.Path)+1)]
		d.Window.Curves[0].EMW[rnd.IntN(3)] = finding.Number(pick())
		d.Window.Holes[0].Max, d.Window.Shoes[0].At.TVD = finding.Number(pick()), nil
		c := &d.Loads[0].Cases[rnd.IntN(2)]
		c.Load[0], c.Rating[1], c.Used[1], c.MD[1] = finding.Number(pick()), finding.Number(pick()), finding.Number(math.Abs(pick())), finding.Number(pick())
		c.Required = number(pick())
		d.Loads[0].Triaxial.Yield, d.Loads[0].Triaxial.Points[0].Force = finding.Number(pick()), finding.Number(pick())
		p := &d.Placement[0]
		k := rnd.IntN(5)
		p.Pumped[k], p.Time[k], p.Head[k], p.Spots[0].Still[k] = finding.Number(pick()), finding.Number(pick()), finding.Number(pick()), finding.Number(pick())
		p.Exit.MD, p.Fluids[1].To, p.Moments[2].Inside[0].From, p.Moments[3].Outside[2].To = finding.Number(pick()), finding.Number(pick()), finding.Number(pick()), finding.Number(pick())
		p.Moments[2].Inside[1].Fluid, p.Moments[2].Pumped, p.Spots[1].Pore = rnd.IntN(9)-4, finding.Number(pick()), number(pick())
		for _, kind := range Kinds() {
			list, err := Draw(r, kind, units.Metric)
			if err != nil {
				continue
			}
			pages++
			svg := written(t, list, ".svg")
			wellFormed(t, svg)
			if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
				t.Fatalf("%s holds a number that is none", kind)
			}
			if i%6 == 0 {
				written(t, list, ".pdf")
			}
		}
	}
	if pages < 300 {
		t.Errorf("only %d of 600 were drawn", pages)
	}
}

func FuzzClean(f *testing.F) {
	for _, s := range strange {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c := clean(s)
		if clean(c) != c {
			t.Errorf("%q is cleaned twice", s)
		}
		for _, r := range c {
			if r < ' ' || r > 0xFFFF {
				t.Errorf("%q leaves %q", s, r)
			}
		}
		if w := width(cut(c, 8, false, 60), 8, false) * spare; w > 60 {
			t.Errorf("%q is cut to %v", s, w)
		}
	})
}

func BenchmarkDraw(b *testing.B) {
	for _, kind := range Kinds() {
		for _, format := range Formats() {
			b.Run(kind+format, func(b *testing.B) {
				r := sample()
				for b.Loop() {
					written(b, drawn(b, r, kind, units.Field), format)
				}
			})
		}
	}
}
