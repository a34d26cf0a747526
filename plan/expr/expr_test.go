package expr_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// given are the names the tests use. Those whose name ends in _missing are known
// to the language, but have no value.
var given = map[string]expr.Value{
	"x": expr.Number(3, units.None), "zero": expr.Number(0, units.None), "minus": expr.Number(-2.5, units.None),
	"md": expr.Number(1000, units.MDLength), "tvd": expr.Number(900, units.TVDLength), "gap": expr.Number(0.01, units.Length),
	"p": expr.Number(2e7, units.Pressure), "mud": expr.Number(1200, units.Density), "inc": expr.Number(math.Pi/6, units.Angle),
	"area": expr.Number(0.25, units.Area), "warm": expr.Number(383.15, units.Temperature),
	"yes": expr.TruthOf(true), "no": expr.TruthOf(false),
	"string.role": expr.TextOf("liner"),

	"x_missing": expr.Number(0, units.None), "y_missing": expr.Number(0, units.None), "p_missing": expr.Number(0, units.Pressure),
	"truth_missing": expr.TruthOf(false), "other_missing": expr.TruthOf(false), "role_missing": expr.TextOf(""),
}

func typeOf(name string) (expr.Type, bool) {
	v, ok := given[name]
	return expr.Type{Kind: v.Kind, Dim: v.Dim}, ok
}

func lookup(name string) expr.Result {
	if strings.HasSuffix(name, "_missing") {
		return expr.Unknown(expr.Lack{Input: name, Ref: place.Ref(len(name))})
	}
	return expr.Known(given[name])
}

func compile(t testing.TB, src string) *expr.Expr {
	t.Helper()
	e, err := expr.Compile(src, typeOf)
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	return e
}

func eval(t testing.TB, src string) expr.Result {
	t.Helper()
	r, err := compile(t, src).Eval(lookup)
	if err != nil {
		t.Fatalf("%s: %v", src, err)
	}
	return r
}

// Expected values worked out by hand; unit factors are those of NIST SP 811
// (2008) appendix B: ft 0.3048 m, in 0.0254 m, psi 6894.757 Pa.
func TestNumbers(t *testing.T) {
	const psi = 6894.757293168361 // 0.45359237 * 9.80665 / 0.0254^2
	for _, c := range []struct {
		src  string
		want float64
		dim  units.Dim
	}{
		{"1 + 2 * 3", 7, units.None}, {"(1 + 2) * 3", 9, units.None}, {"10 - 4 - 3", 3, units.None}, {"24 / 4 / 3", 2, units.None},
		{"2^3", 8, units.None}, {"-2^2", -4, units.None}, {"(-2)^2", 4, units.None}, {"2^-1", 0.5, units.None}, {"2 * 3^2", 18, units.None},
		{"32^0.2", 2, units.None}, {"-x", -3, units.None}, {"--x", 3, units.None}, {"4 - -x", 7, units.None}, {"2 * -x", -6, units.None},
		{".5 + 1e2 + 1.5E-1", 100.65, units.None}, {"10 %", 0.1, units.None}, {"10%", 0.1, units.None},
		{"500 ft", 152.4, units.Length}, {"500ft", 152.4, units.Length}, {"10 ft / 2", 1.524, units.Length}, {"10 ft/s", 3.048, units.Speed}, {"10 ft / 2 s", 1.524, units.Speed},
		{"12 in/x", 0.1016, units.Length}, {"5 ft-3 ft", 0.6096, units.Length}, {"2 ft-lbf", 2 * 0.3048 * 4.4482216152605, units.Torque},
		{"0.22 psi/ft", 0.22 * psi / 0.3048, units.Gradient}, {"15 lbf/100ft2", 15 * 4.4482216152605 / 9.290304, units.Pressure}, {"3 deg/100ft", 3 * math.Pi / 180 / 30.48, units.Curvature},
		{"230 degF", 383.15, units.Temperature}, {"-40 degF", 233.15, units.Temperature}, {"-40 degC", 233.15, units.Temperature}, {"warm - 68 degF", 90, units.Temperature},
		{"-10 ft", -3.048, units.Length},
		{"0.52 psi/ft * tvd", 0.52 * psi / 0.3048 * 900, units.Pressure}, {"mud * g * tvd", 1200 * 9.80665 * 900, units.Pressure},
		{"p / (g * tvd)", 2e7 / (9.80665 * 900), units.Density}, {"md + 10 m", 1010, units.MDLength}, {"10 m + md", 1010, units.MDLength},
		{"md - 0", 1000, units.MDLength}, {"2 * md", 2000, units.MDLength}, {"md / md", 1, units.None}, {"md^1", 1000, units.MDLength},
		{"gap^2", 1e-4, units.Area}, {"area^0.5", 0.5, units.Length}, {"sqrt(area)", 0.5, units.Length}, {"gap^-1", 100, units.Dim{Length: -1}},
		{"greater(p, 0)", 2e7, units.Pressure}, {"greater(0, minus)", 0, units.None}, {"lesser(1, x, minus)", -2.5, units.None}, {"greater(1, x, minus)", 3, units.None},
		{"lesser(500 m, md)", 500, units.MDLength}, {"abs(minus)", 2.5, units.None}, {"abs(-md)", 1000, units.MDLength},
		{"exp(1)", 2.718281828459045, units.None}, {"ln(10)", 2.302585092994046, units.None}, {"exp(ln(x))", 3, units.None},
		{"sin(inc)", 0.5, units.None}, {"cos(60 deg)", 0.5, units.None}, {"tan(45 deg)", 1, units.None}, {"sin(pi / 6)", 0.5, units.None},
		{"pi", 3.141592653589793, units.None}, {"g", 9.80665, units.Accel}, {"0", 0, units.None}, {"sqrt(0)", 0, units.None},
	} {
		r := eval(t, c.src)
		if !r.Known || r.Value.Kind != expr.Num || math.Abs(r.Value.SI-c.want) > 1e-12*math.Max(1, math.Abs(c.want)) {
			t.Errorf("%s = %v, want %v", c.src, r.Value.SI, c.want)
		}
		if e := compile(t, c.src); r.Value.Dim != c.dim || e.Type() != (expr.Type{Kind: expr.Num, Dim: c.dim}) {
			t.Errorf("%s is %v, compiled as %v, want %v", c.src, r.Value.Dim, e.Type(), c.dim)
		}
	}
}

// The published step: API rounds internal yield to 10 psi, so 9-5/8 in 47 lb/ft
// (0.472 in wall) L-80 is 6,870 psi (API Bul 5C2).
func TestRoundAsTablesDo(t *testing.T) {
	if got := eval(t, "round(0.875 * 2 * 80000 psi * 0.472 in / 9.625 in, 10 psi) / 1 psi").Value.SI; math.Abs(got-6870) > 1e-6 {
		t.Errorf("got %v psi", got)
	}
}

func TestRound(t *testing.T) {
	for src, want := range map[string]float64{
		"round(2.4, 1)": 2, "round(2.5, 1)": 3, "round(3.5, 1)": 4, "round(2.6, 1)": 3, "round(0, 5)": 0,
		"round(-2.5, 1)": -2, "round(-2.6, 1)": -3, "round(-2.4, 1)": -2, "round(-0.5, 1)": 0,
		"round(0.125, 0.01)": 0.13, "round(0.124, 0.01)": 0.12, "round(1.005, 0.01)": 1.01, // below the tie in binary
		"round(0.285, 0.01)": 0.29, "round(2.4999999999, 1)": 3, "round(2.49999, 1)": 2, "round(105 psi, 10 psi) / 1 psi": 110, "round(1234567, 1000)": 1235000,
		"round(0 psi, 10 psi) / 1 psi": 0, "round(0, 10 psi) / 1 psi": 0,
	} {
		if got := eval(t, src).Value.SI; math.Abs(got-want) > 1e-9*math.Max(1, want) {
			t.Errorf("%s = %v, want %v", src, got, want)
		}
	}
}

func TestBand(t *testing.T) {
	const table = ", 300 ft: 25 ft, 1000 ft: 50 ft, else: 100 ft) / 1 ft"
	for x, want := range map[string]float64{
		"-5 ft": 25, "0 ft": 25, "299.999 ft": 25, "300 ft": 25, "91.44 m": 25, "300.0000001 ft": 25, "300.001 ft": 50,
		"999.999 ft": 50, "1000 ft": 50, "1000.001 ft": 100, "1e6 ft": 100, "md": 100,
	} {
		if got := eval(t, "band("+x+table).Value.SI; math.Abs(got-want) > 1e-9 {
			t.Errorf("at %s: %v, want %v", x, got, want)
		}
	}
	if got := eval(t, "band(minus, -3: 1, -2.5: 2, 0: 3, else: 4)").Value.SI; got != 2 {
		t.Errorf("negative edges: %v", got)
	}
	if got := eval(t, "band(-50 degF, -40 degF: 1, 0 degF: 2, else: 3)").Value.SI; got != 1 {
		t.Errorf("edges below zero: %v", got)
	}
	if r := eval(t, "band(x, 1: 5 ft, else: 0)"); r.Value.Dim != units.Length || r.Value.SI != 0 {
		t.Errorf("a bare 0 as value: %+v", r.Value)
	}
}

// Only what the band chooses by and the chosen value are asked for.
func TestBandAndMissing(t *testing.T) {
	if r := eval(t, "band(x, 2: x_missing, 4: 7, else: y_missing)"); !r.Known || r.Value.SI != 7 {
		t.Errorf("the chosen value is known: %+v", r)
	}
	lacks(t, "band(x, 4: x_missing, else: y_missing)", "x_missing")
	lacks(t, "band(x_missing, 4: y_missing, else: 1)", "x_missing")
}

func lacks(t *testing.T, src string, want ...string) {
	t.Helper()
	r := eval(t, src)
	var got []string
	for _, l := range r.Lacks {
		got = append(got, l.Input)
		if l.Ref != place.Ref(len(l.Input)) {
			t.Errorf("%s: %s lost its place", src, l.Input)
		}
	}
	if r.Known || !slices.Equal(got, want) {
		t.Errorf("%s: known %v, lacks %v, want %v", src, r.Known, got, want)
	}
}

func TestMissing(t *testing.T) {
	lacks(t, "x_missing", "x_missing")
	lacks(t, "y_missing + x * x_missing - y_missing", "y_missing", "x_missing")
	lacks(t, "0 * x_missing", "x_missing")
	lacks(t, "-x_missing^2", "x_missing")
	lacks(t, "sqrt(x_missing)", "x_missing")
	lacks(t, "round(x_missing, 1)", "x_missing")
	lacks(t, "greater(x, y_missing, 1e9, x_missing)", "y_missing", "x_missing")
	lacks(t, "lesser(p, p_missing)", "p_missing")
	lacks(t, "p_missing > 5 psi", "p_missing")
	lacks(t, "role_missing = 'liner'", "role_missing")
	lacks(t, "role_missing in ('liner')", "role_missing")
	lacks(t, "x_missing > 1 or y_missing > 1 or x_missing > 2", "x_missing", "y_missing")
}

// A caller may be unable to say what is lacking; the result is unknown all the
// same, and a lack given twice is listed once.
func TestMissingAsGiven(t *testing.T) {
	e := compile(t, "x + 1")
	if r, err := e.Eval(func(string) expr.Result { return expr.Unknown() }); err != nil || r.Known || len(r.Lacks) != 0 {
		t.Errorf("got %+v, %v", r, err)
	}
	l := expr.Lack{Input: "x", Ref: 4}
	if r, _ := e.Eval(func(string) expr.Result { return expr.Unknown(l, l) }); len(r.Lacks) != 1 {
		t.Errorf("got %+v", r)
	}
}

func TestDomain(t *testing.T) {
	for src, want := range map[string]string{
		"x / zero":                      "column 3: division by zero",
		"p / (p - p)":                   "column 3: division by zero",
		"zero^-1":                       "column 5: division by zero",
		"minus^0.5":                     "column 6: a broken power of a negative number",
		"sqrt(minus)":                   "column 1: the root of a negative number",
		"1 + ln(zero)":                  "column 5: the logarithm of a number not above 0",
		"ln(minus)":                     "column 1: the logarithm of a number not above 0",
		"exp(710)":                      "column 1: exp is too large to hold or not a number",
		"1e308 * 10 + x":                "column 7: the result is too large to hold or not a number",
		"1e308 + 1e308":                 "column 7: the result is too large to hold or not a number",
		"1e200^2":                       "column 6: the power is too large to hold or not a number",
		"no or 1 / zero > 2":            "column 9: division by zero",
		"round(1e308, 1e-5)":            "column 1: the number of steps is too large to hold or not a number",
		"greater(1, 1 / zero)":          "column 14: division by zero",
		"band(1 / zero, 1: 2, else: 3)": "column 8: division by zero",
	} {
		r, err := compile(t, src).Eval(lookup)
		if err == nil || err.Error() != want {
			t.Errorf("%s: %v, %v; want %s", src, r.Value, err, want)
		}
	}
	for _, src := range []string{"zero <> 0 and 1 / zero > 2", "zero = 0 or 1 / zero > 2"} {
		if r := eval(t, src); !r.Known {
			t.Errorf("%s: a guard does not guard", src)
		}
	}
}

// What a caller hands in is not trusted.
func TestWrongValues(t *testing.T) {
	for want, v := range map[string]expr.Value{
		"column 1: p is too large to hold or not a number": expr.Number(math.NaN(), units.Pressure),
		"column 1: p is a length, expected a pressure":     expr.Number(1, units.Length),
		"column 1: p is a text, expected a pressure":       expr.TextOf("20 MPa"),
		"column 1: p is a yes or no, expected a pressure":  expr.TruthOf(true),
	} {
		if _, err := compile(t, "p + 1 psi").Eval(func(string) expr.Result { return expr.Known(v) }); err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestNames(t *testing.T) {
	e := compile(t, "x + lesser(zero, x) * minus + pi")
	if got := e.Names(); !slices.Equal(got, []string{"minus", "x", "zero"}) {
		t.Errorf("got %v", got)
	}
	e.Names()[0] = "changed"
	if e.Names()[0] != "minus" {
		t.Error("a caller can change the expression")
	}
	if e.Source() != "x + lesser(zero, x) * minus + pi" {
		t.Errorf("source %q", e.Source())
	}
	own, err := expr.Compile("g * 2", func(string) (expr.Type, bool) { return expr.Type{Dim: units.Length}, true })
	if err != nil || own.Type().Dim != units.Length || !slices.Equal(own.Names(), []string{"g"}) {
		t.Errorf("a caller's own g: %v %v", own, err)
	}
}
