package finding

import (
	"testing"

	"spudgate/plan/units"
)

// Rounding for print never makes a measure and its limit look equal; unit noise
// never makes them look different.
func TestApart(t *testing.T) {
	v := func(x float64, d units.Dim) *Value { return &Value{Quantity: &Quantity{SI: x, Dim: d}} }
	for _, c := range []struct {
		m, l       *Value
		got, wants string
	}{
		{v(0.98, units.None), v(1.1, units.None), "0.98", "1.10"},
		{v(1.0996, units.None), v(1.1, units.None), "1.0996", "1.1000"},
		{v(1.0989, units.None), v(1.1, units.None), "1.099", "1.100"},
		{v(1.1, units.None), v(1.1, units.None), "1.10", "1.10"},
		{v(1.1, units.None), v(1.1+1e-12, units.None), "1.10", "1.10"},
		{v(60.9, units.Length), v(60.96, units.Length), "199.8 ft", "200.0 ft"}, // 1 ft is 0.3048 m
		{v(1.1, units.None), nil, "1.10", ""},
		{nil, v(1.1, units.None), "", "1.10"},
		{&Value{Text: "a"}, &Value{Text: "a"}, "a", "a"},
	} {
		if got, wants := Apart(c.m, c.l, units.Field); got != c.got || wants != c.wants {
			t.Errorf("%s and %s, want %s and %s", got, wants, c.got, c.wants)
		}
	}
}

// What is to spare is capped where a per cent says nothing any more, and never
// rounded to nothing where something is wanting.
func TestMarginText(t *testing.T) {
	for x, want := range map[float64]string{-0.11: "-11 %", 0.5: "50 %", 9.99: "999 %", 10: "> 999 %", -10: "< -999 %", -0.001: "-<1 %", 0.001: "0 %", 0: "0 %"} {
		if got := MarginText(&x); got != want {
			t.Errorf("%v is shown as %q, want %q", x, got, want)
		}
	}
	if got := MarginText(nil); got != "" {
		t.Errorf("no margin is shown as %q", got)
	}
}
