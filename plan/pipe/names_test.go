package pipe

import (
	"errors"
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
)

func TestParseGrade(t *testing.T) {
	for text, want := range map[string]string{
		"P-110": "P110", "K 55": "K55", "P110.": "P110", "J_55": "J55", "n-80": "N80", "L80-13Cr": "L80-13Cr", "L-80 13CR": "L80-13Cr",
		"N80 Type 1": "N80-1", "N-80Q": "N80Q", "N‑80": "N80", "T95 type 1": "T95", "c-90": "C90", "Q-125": "Q125", "M65": "M65",
	} {
		if g, err := ParseGrade(text); err != nil || g.Name != want {
			t.Errorf("%q: %s, %v; want %s", text, g.Name, err, want)
		}
	}
	for _, text := range []string{"HCP-110", "VM95", "P110XX", "P110EC", "80", "", "L80HC", "P110+", "J55/K55", "13CR", "P1100", strings.Repeat("N80", 1000)} {
		var u *Unknown
		if g, err := ParseGrade(text); !errors.As(err, &u) || u.What != "grade" || len(u.Error()) > 120 {
			t.Errorf("%.20q: %s, %v", text, g.Name, err)
		}
	}
}

// TestGrades: minima of API Spec 5CT, ksi, as printed; and the hardening index
// by n = 0.1693 - 0.000812 Yp (TR 5C3, from memory).
func TestGrades(t *testing.T) {
	printed := map[string][2]float64{
		"H40": {40, 60}, "J55": {55, 75}, "K55": {55, 95}, "M65": {65, 85}, "N80": {80, 100}, "N80-1": {80, 100}, "N80Q": {80, 100}, "R95": {95, 105},
		"L80": {80, 95}, "L80-1": {80, 95}, "L80-9Cr": {80, 95}, "L80-13Cr": {80, 95}, "C90": {90, 100}, "T95": {95, 105}, "C110": {110, 115},
		"P110": {110, 125}, "Q125": {125, 135}, "C75": {75, 95}, "C95": {95, 105}, "P105": {105, 120},
	}
	historic := ""
	for _, g := range Grades() {
		y, u := float64(g.Yield)/units.Psi/1000, float64(g.Tensile)/units.Psi/1000
		if w := printed[g.Name]; math.Abs(y-w[0]) > 1e-9 || math.Abs(u-w[1]) > 1e-9 {
			t.Errorf("%s: %v, %v", g.Name, y, u)
		}
		if math.Abs(g.Hardening-(0.1693-0.000812*y)) > 0.005+1e-9 {
			t.Errorf("%s: index %v", g.Name, g.Hardening)
		}
		if g.Historic {
			historic += " " + g.Name
		}
	}
	if len(Grades()) != len(printed) || historic != " M65 C75 C95 P105" {
		t.Error(len(Grades()), historic)
	}
}

func TestParseConnection(t *testing.T) {
	for text, want := range map[string]Connection{
		"STC": STC, "ST&C": STC, "SC": STC, "s t & c": STC, "LTC": LTC, "LT & C": LTC, "lc": LTC, "BTC": BTC, "Buttress": BTC, "BC": BTC, "B-T-C": BTC, "": Plain, "PE": Plain,
	} {
		if c, err := ParseConnection(text); err != nil || c != want {
			t.Errorf("%q: %v, %v", text, c, err)
		}
	}
	var u *Unknown
	for _, text := range []string{"BTC-M", "LTCX", "premium", "XL", "MBTC"} {
		if c, err := ParseConnection(text); !errors.As(err, &u) || u.What != "connection" {
			t.Errorf("%q: %v, %v", text, c, err)
		}
	}
}

func TestLookup(t *testing.T) {
	for _, c := range []struct{ od, weight, want float64 }{
		{9.625, 47, 47}, {9.625 + 0.011, 47.4, 47}, {9.63, 46.6, 47}, {9.625, 58.95, 59.4}, {5.5, 17.1, 17}, {20, 133, 133},
	} {
		s, err := Lookup(inches(c.od), ppf(c.weight))
		if err != nil || trimmed(s.Weight) != trimmed(ppf(c.want)) {
			t.Errorf("%v %v: %v, %v", c.od, c.weight, s, err)
		}
	}
	for _, c := range []struct {
		od, weight float64
		text       string
	}{
		{9.625, 45, "9-5/8 in casing has no weight of 45 lb/ft; nearest are 43.5 and 47"},
		{9.625, 20, "9-5/8 in casing has no weight of 20 lb/ft; nearest are 32.3"},
		{9.625, 100, "9-5/8 in casing has no weight of 100 lb/ft; nearest are 75.6"},
		{9.65, 47, "9.65 in casing is not in the catalogue"},
		{9, 47, "9 in casing is not in the catalogue"},
		{7, 0, "7 in casing has no weight of 0 lb/ft; nearest are 17"},
	} {
		var n *NotFound
		if _, err := Lookup(inches(c.od), ppf(c.weight)); !errors.As(err, &n) || err.Error() != c.text {
			t.Errorf("%v %v: %v", c.od, c.weight, err)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1} {
		if _, err := Lookup(inches(9.625), units.KgPerM(bad)); err == nil {
			t.Errorf("weight %v found", bad)
		}
		if _, err := Lookup(units.Meters(bad), ppf(47)); err == nil {
			t.Errorf("OD %v found", bad)
		}
	}
}

// TestPlainEnd: 30 in of 1 in wall weighs 10.69 x 29 x 1 = 310.01 lb/ft.
func TestPlainEnd(t *testing.T) {
	s, err := PlainEndSize(inches(30), inches(1))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "weight", float64(s.Weight)/units.Pound*units.Foot, "310.01")
	if _, err := RateSize(s, grades[2], Plain, Coupling{}); err != nil {
		t.Error(err)
	}
	for _, c := range [][2]float64{{18.625, 0.5}, {37, 1}, {30, 0}, {30, 15}, {30, math.NaN()}, {math.NaN(), 1}} {
		if _, err := PlainEndSize(inches(c[0]), inches(c[1])); err == nil {
			t.Errorf("%v accepted", c)
		}
	}
}

// TestThreadTables: the hand-tight planes of API Spec 5B follow from its other
// columns: L4 - L1 and D - E1 are the same for all threads of one standoff.
func TestThreadTables(t *testing.T) {
	for _, r := range rounds() {
		gap, drop := 1.079, 0.09663
		if r.od > inches(7.5) {
			gap, drop = 1.146, 0.10082
		}
		if math.Abs((r.l4-r.l1)/units.Inch-gap) > 1e-6 || math.Abs((float64(r.od)-r.e1)/units.Inch-drop) > 1e-6 {
			t.Errorf("%s %v: L1 %v, E1 %v", units.Size(r.od), r.conn, r.l1, r.e1)
		}
	}
	if len(rounds()) != 28 || len(buttresses()) != 14 {
		t.Error(len(rounds()), len(buttresses()))
	}
}
