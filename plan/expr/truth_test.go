package expr_test

import (
	"testing"

	"spudgate/plan/expr"
)

// third writes a result as the letter of the three-valued tables.
func third(r expr.Result) string {
	switch {
	case !r.Known:
		return "?"
	case r.Value.Truth:
		return "T"
	}
	return "F"
}

var thirds = map[string]string{"T": "yes", "F": "no", "?": "truth_missing"}

// The strong tables of S. C. Kleene, Introduction to Metamathematics (1952),
// section 64.
func TestKleene(t *testing.T) {
	for _, c := range []struct{ l, r, and, or string }{
		{"T", "T", "T", "T"}, {"T", "F", "F", "T"}, {"T", "?", "?", "T"},
		{"F", "T", "F", "T"}, {"F", "F", "F", "F"}, {"F", "?", "F", "?"},
		{"?", "T", "?", "T"}, {"?", "F", "F", "?"}, {"?", "?", "?", "?"},
	} {
		l, r := thirds[c.l], thirds[c.r]
		if got := third(eval(t, l+" and "+r)); got != c.and {
			t.Errorf("%s and %s = %s, want %s", c.l, c.r, got, c.and)
		}
		if got := third(eval(t, l+" or "+r)); got != c.or {
			t.Errorf("%s or %s = %s, want %s", c.l, c.r, got, c.or)
		}
	}
	for in, want := range map[string]string{"T": "F", "F": "T", "?": "?"} {
		if got := third(eval(t, "not "+thirds[in])); got != want {
			t.Errorf("not %s = %s, want %s", in, got, want)
		}
	}
	lacks(t, "truth_missing and yes", "truth_missing")
	lacks(t, "no or other_missing or not truth_missing", "other_missing", "truth_missing")
}

func TestTruths(t *testing.T) {
	for src, want := range map[string]string{
		"1 < 2": "T", "2 < 1": "F", "2 < 2": "F", "2 <= 2": "T", "2 >= 2": "T", "2 > 2": "F", "3 > 2": "T", "2 = 2": "T", "2 <> 2": "F", "2 <> 3": "T", "2 = 3": "F", "1 >= 2": "F", "3 <= 2": "F",
		// Within one part in 1e9 numbers are equal; just beyond they are not.
		"1.0000000005 <= 1": "T", "1.000000002 <= 1": "F", "0.9999999995 >= 1": "T", "0.999999998 >= 1": "F",
		"0.9999999995 < 1": "F", "0.999999998 < 1": "T", "1.0000000005 > 1": "F", "1.000000002 > 1": "T",
		"1.0000000005 = 1": "T", "1.000000002 = 1": "F", "1.0000000005 <> 1": "F", "1.000000002 <> 1": "T",
		"-1.0000000005 = -1": "T", "1e-12 > 0": "T", "1e-12 = 0": "F", "0 = 0": "T", "0.1 + 0.2 = 0.3": "T",
		"p > 0": "T", "0 < p": "T", "p >= 20 MPa": "T", "p > 20 MPa": "F", "300 ft = 91.44 m": "T", "md > 900 m": "T", "tvd < 1000 m": "T",
		"string.role = 'liner'": "T", "string.role <> 'liner'": "F", "string.role = 'Liner'": "F", "'it''s' = 'it''s'": "T", "'' = 'a'": "F",
		"string.role in ('surface', 'liner')": "T", "string.role in ('surface')": "F", "not string.role in ('surface')": "T",
		// Not binds tighter than and, and tighter than or.
		"yes or yes and no": "T", "(yes or yes) and no": "F", "not no and no": "F", "not (no and no)": "T", "not not yes": "T", "not 1 > 2": "T",
		"1 + 1 = 2 and 2 * 3 > 5": "T", "no and no or yes": "T", "x > 5 and yes": "F",
	} {
		if got := third(eval(t, src)); got != want {
			t.Errorf("%s: %s, want %s", src, got, want)
		}
		if e := compile(t, src); e.Type() != (expr.Type{Kind: expr.Truth}) {
			t.Errorf("%s is %v", src, e.Type())
		}
	}
}

func TestText(t *testing.T) {
	if r := eval(t, "'gas ''n'' oil'"); r.Value != expr.TextOf("gas 'n' oil") {
		t.Errorf("got %+v", r.Value)
	}
	if e := compile(t, "string.role"); e.Type().Kind != expr.Text {
		t.Errorf("got %v", e.Type())
	}
}
