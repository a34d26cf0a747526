package units

import (
	"math"
	"testing"
)

// Expected values: NIST SP 811 (2008) appendix B for the conversions; the
// fractions by hand.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		in   string
		def  string
		want float64 // SI
	}{
		{"13-3/8 in", "m", 0.339725}, {"13 3/8", "in", 0.339725}, {"13⅜\"", "m", 0.339725}, {"9 5/8″", "m", 0.244475},
		{"9-5/8\"", "m", 0.244475}, {"5/8", "in", 0.015875}, {"⅜ in", "m", 0.009525}, {"9 - 5/8", "in", 0.244475},
		{"9,850 ft", "m", 3002.28}, {"1,234,567", "m", 1234567}, {"12.3 ppg", "SG", 119.8264 * 12.3}, {"1.48 SG", "ppg", 1480}, {"1.48sg", "ppg", 1480},
		{"1 psi", "Pa", 6894.757}, {"0.433 psi/ft", "Pa", 0.433 * 6894.757 / 0.3048}, {"230 degF", "K", 383.15}, {"-40 °C", "K", 233.15},
		{"1 lb/ft", "kg/m", 1.488164}, {"1.18 ft3/sk", "ft3/sk", 0.0007836700}, {"1 bbl", "m3", 0.1589873}, {".5", "m", 0.5}, {"1e3", "m", 1000},
		{"3 deg/100ft", "rad/m", 3 * math.Pi / 180 / 30.48}, {"-3", "m", -3}, {"47#", "lb/ft", 69.9437}, {"25 %", "1", 0.25},
	} {
		w, err := Parse(c.in)
		if err != nil {
			t.Errorf("%q: %v", c.in, err)
			continue
		}
		def, _ := ByName(c.def)
		if got := w.SI(def); math.Abs(got-c.want) > 2e-6*math.Max(math.Abs(c.want), 1e-3) {
			t.Errorf("%q = %v, want %v", c.in, got, c.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for in, want := range map[string]string{
		"1,56":                "a comma groups thousands; write 1.56",
		"0,433":               "a comma groups thousands; write 0.433",
		"12,34,567":           "a comma groups thousands; write 12.34,567",
		"":                    "nothing written",
		"abc":                 "no number at the start",
		"12 wombat":           `unknown unit "wombat"`,
		"1e999":               "a number too large to hold",
		"1/0":                 "a fraction over zero",
		"10 ft from the moon": "a datum after \"from\" is rotary, ground, mudline or sea level",
	} {
		if _, err := Parse(in); err == nil || err.Error() != want {
			t.Errorf("%q: got %v, want %s", in, err, want)
		}
	}
	w, err := Parse("1,200 ft from ground level")
	if err != nil || w.Datum != "ground" || w.Number != 1200 {
		t.Errorf("datum: %+v %v", w, err)
	}
}

func TestFoldingLosesNothing(t *testing.T) {
	seen := map[string]Unit{}
	for _, u := range unitList {
		f := foldUnit(u.Symbol)
		if o, ok := seen[f]; ok && o != u {
			t.Errorf("%s and %s fold to the same text", o.Symbol, u.Symbol)
		}
		seen[f] = u
	}
	for a, s := range aliases {
		if _, ok := unitIndex[s]; !ok {
			t.Errorf("alias %q of unknown unit %q", a, s)
		}
		if u, ok := seen[foldUnit(a)]; ok && u.Symbol != s {
			t.Errorf("alias %q of %q hides unit %q", a, s, u.Symbol)
		}
	}
}

func TestJoin(t *testing.T) {
	if _, ok := MDLength.Join(TVDLength); ok {
		t.Error("MD joins TVD")
	}
	if d, ok := Length.Join(TVDLength); !ok || d != TVDLength {
		t.Error("a plain length takes the line of the other")
	}
	if d := Gradient.Mul(TVDLength); d != Pressure {
		t.Errorf("gradient x depth is %v", d)
	}
	if d := Density.Mul(Accel).Mul(TVDLength); d != Pressure {
		t.Errorf("rho g z is %v", d)
	}
}

func TestSize(t *testing.T) {
	for in, want := range map[float64]string{9.625: "9-5/8", 13.375: "13-3/8", 20: "20", 8.5: "8-1/2", 0.375: "3/8", 12.25: "12-1/4", 244.5 / 25.4: "9-5/8", 10.98: "10.98", 6.05: "6.05"} {
		if got := Size(Meters(in * inch)); got != want {
			t.Errorf("Size(%v in) = %s, want %s", in, got, want)
		}
	}
	if got := Decimal(-0.001, 2); got != "0.00" {
		t.Errorf("got %s", got)
	}
	if got := Decimal(-1234567.5, 1); got != "-1,234,567.5" {
		t.Errorf("got %s", got)
	}
}

func TestDimBySI(t *testing.T) {
	for d := range dimNames {
		got, ok := DimBySI(d.SI())
		if !ok || got != d {
			t.Errorf("%v writes %q, read back as %v", d, d.SI(), got)
		}
	}
	if _, ok := DimBySI("furlong"); ok {
		t.Error("furlong is read")
	}
}

func TestShow(t *testing.T) {
	for _, c := range []struct {
		si    float64
		d     Dim
		s     System
		small bool
		want  string
	}{
		{3000 * foot, MDLength, Field, false, "3,000 ft"}, {3000, TVDLength, Metric, false, "3,000.0 m"}, {0.25, None, Field, false, "0.25"},
		{6 * 3600, Time, Field, false, "6.0 h"}, {600, Time, Metric, false, "10 min"}, {1e7, Pressure, Metric, false, "100.0 bar"},
		{0.422 * inch, Length, Field, true, "0.422 in"}, {0.01, Length, Metric, true, "10.0 mm"}, {1200, Density, Metric, false, "1.200 SG"},
		{383.15, Temperature, Field, false, "230 degF"},
	} {
		if got := Show(c.si, c.d, c.s, c.small); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
