package workbook

import (
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"plain\nand second": "plain\nand second",
		"\x00\x07\x1b\x7f":  "␀␇␛␡",
		"a\tb\r":            "a b ",
		"\u202Eabc\u2066":   "·abc·",
		"\u200Fق":           "\u200Fق",
		"bad \xff":          "bad \uFFFD",
		"\u0085\uFFFE":      "\uFFFD\uFFFD",
	} {
		if got := clean(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

func TestClip(t *testing.T) {
	whole := strings.Repeat("🛢", mostUnits/2)
	if clean(whole) != whole {
		t.Error("a text that fits was cut")
	}
	cut := clean(whole + "🛢🛢")
	if n := len(utf16.Encode([]rune(cut))); n > mostUnits || n < mostUnits-1 || !strings.HasSuffix(cut, cutMark) {
		t.Errorf("cut to %d units, at most %d, ends %q", n, mostUnits, cut[len(cut)-20:])
	}
}

func TestQuoted(t *testing.T) {
	long := strings.Repeat("a", 130)
	for in, want := range map[string]string{"": `""`, `say "x"`: `"say ""x"""`, long: `"` + long[:120] + `"&"` + long[:10] + `"`} {
		if got := quoted(in); got != want {
			t.Errorf("%q: %s, want %s", in, got, want)
		}
	}
}

// Widths by hand from the font's table: "Hi" is 722 + 222.
func TestLines(t *testing.T) {
	if got := extent("Hi", 10, false); math.Abs(got-9.44) > 1e-12 {
		t.Errorf("extent %v, want 9.44", got)
	}
	for _, c := range []struct {
		text string
		room float64
		want int
	}{{"", 50, 1}, {"Hi", 9.5, 1}, {"Hi Hi", 9.5, 2}, {"Hi Hi", 21.8, 1}, {"Hi\nHi", 50, 2}, {"HiHiHi", 9.5, 3}, {"Hi\n\nHi", 50, 3}} {
		if got := lines(c.text, c.room, 10, false); got != c.want {
			t.Errorf("%q in %v points: %d lines, want %d", c.text, c.room, got, c.want)
		}
	}
}

func TestSheetName(t *testing.T) {
	b := &book{tables: []*grid{{name: "Strength"}}}
	for in, want := range map[string]string{
		"Cement": "Cement", "a/b:c*d?[e]\\f'": "a-b c d (e)-f", "": "Table", "summary": "summary 2", "strength": "strength 2",
		strings.Repeat("x", 40): strings.Repeat("x", 31),
	} {
		if got := b.sheetName(in); got != want {
			t.Errorf("%q became %q, want %q", in, got, want)
		}
	}
}

func TestSortedElements(t *testing.T) {
	in := `<?xml version="1.0"?><Types xmlns="u"><Override PartName="/b"></Override><Default Extension="xml"></Default><Default Extension="png"/><Override PartName="/a"></Override></Types>`
	want := `<?xml version="1.0"?><Types xmlns="u"><Default Extension="png"/><Default Extension="xml"/><Override PartName="/a"></Override><Override PartName="/b"></Override></Types>`
	if got := string(sortedElements([]byte(in))); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if got := string(sortedElements([]byte("<other>"))); got != "<other>" {
		t.Error(got)
	}
}

func TestLive(t *testing.T) {
	terms := map[string]term{
		"inside":  {expr.Number(300, units.Pressure), "(A1*2)"},
		"outside": {expr.Number(100, units.Pressure), "B1"},
		"md":      {expr.Number(10, units.MDLength), "C1"},
	}
	for _, c := range []struct {
		source  string
		audited expr.Value
		want    string
	}{
		{"inside - outside", expr.Number(200, units.Pressure), "(A1*2)-B1"},
		{"inside - outside", expr.Number(201, units.Pressure), ""}, // worked out another way
		{"inside - missing", expr.Number(200, units.Pressure), ""},
		{"inside - md", expr.Number(290, units.Pressure), ""},
		{"inside > outside", expr.TruthOf(true), "(A1*2)-B1>1E-09*MAX(ABS((A1*2)),ABS(B1))"},
		{"inside > outside", expr.TruthOf(false), ""},
		{"", expr.Number(1, units.None), ""},
	} {
		if got, ok := live(c.source, terms, c.audited); got != c.want || ok != (c.want != "") {
			t.Errorf("%s = %v: %q, want %q", c.source, c.audited, got, c.want)
		}
	}
}

// 1 psi is 0.45359237 x 9.80665 / 0.0254^2 = 6894.75729316836134 Pa; the nearest
// number the machine has is written 6894.757293168362. 0 degC is 273.15 K.
func TestUnitsInFormulas(t *testing.T) {
	psi, _ := units.ByName("psi")
	pascal, _ := units.ByName("Pa")
	warm, _ := units.ByName("degC")
	for _, c := range []struct{ got, want string }{
		{inSI("A1", pascal), "A1"}, {inSI("A1", psi), "(A1*6894.757293168362)"}, {inSI("A1", warm), "(A1*1+273.15)"},
		{fromSI("A1+B1", pascal), "A1+B1"}, {fromSI("A1+B1", psi), "(A1+B1)/6894.757293168362"}, {fromSI("A1+B1", warm), "((A1+B1)-273.15)/1"},
	} {
		if c.got != c.want {
			t.Errorf("%s, want %s", c.got, c.want)
		}
	}
}

func TestApart(t *testing.T) {
	f := func(x float64) figure { return figure{x, units.Unit{Symbol: "1", Factor: 1}, 2} }
	for _, c := range []struct {
		a, b   float64
		ta, tb string
	}{{0.98, 1.1, "0.98", "1.10"}, {1.0989, 1.1, "1.099", "1.100"}, {1.1, 1.1, "1.10", "1.10"}, {1.1, 1.1 + 1e-12, "1.10", "1.10"}} {
		a, b := apart(f(c.a), f(c.b))
		if a.text() != c.ta || b.text() != c.tb {
			t.Errorf("%v and %v look like %s and %s, want %s and %s", c.a, c.b, a.text(), b.text(), c.ta, c.tb)
		}
	}
}

// A margin is a number as far as it says something, the finding's words beyond.
func TestMarginCell(t *testing.T) {
	for x, want := range map[float64]any{-0.11: -0.11, 9.99: 9.99, 10: "> 999 %", -12: "< -999 %", -0.001: "-<1 %"} {
		if got := marginCell(&finding.Finding{Margin: &x}).value; got != want {
			t.Errorf("%v is %v, want %v", x, got, want)
		}
	}
}

func TestFully(t *testing.T) {
	for x, want := range map[float64]int{12: 0, 12.5: 1, 12.3456: 4, 1.0 / 3: 2} {
		if got := (figure{x: x}).fully().decimals; got != want {
			t.Errorf("%v is shown with %d decimals, want %d", x, got, want)
		}
	}
}

func TestNoNumberIsRefused(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		r := &finding.Record{Tables: []finding.Table{{Name: "T", Columns: []finding.Column{{Name: "x"}}, Rows: []finding.Row{{Cells: []finding.Cell{{Quantity: &finding.Quantity{SI: x}}}}}}}}
		if err := Write(&strings.Builder{}, r, units.Field); err == nil || !strings.Contains(err.Error(), "a number that is none") {
			t.Errorf("%v: %v", x, err)
		}
	}
}
