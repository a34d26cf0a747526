package expr_test

import (
	"errors"
	"strings"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

var refusals = []struct{ src, want string }{
	// Dimensions.
	{"md + tvd", "column 4: a measured depth and a true vertical depth can't be added"},
	{"md - tvd", "column 4: a measured depth and a true vertical depth can't be subtracted"},
	{"md > tvd", "column 4: a measured depth can't be compared with a true vertical depth"},
	{"md = tvd + 1 m", "column 4: a measured depth can't be compared with a true vertical depth"},
	{"greater(md, 5 m, tvd)", "column 1: greater compares numbers of one dimension, not a measured depth and a length and a true vertical depth"},
	{"band(md, 1 m: md, else: tvd)", "column 1: a band gives numbers of one dimension, not a measured depth and a true vertical depth"},
	{"p + 5", "column 3: a pressure and a number can't be added"},
	{"p > 5", "column 3: a pressure can't be compared with a number"},
	{"p + mud", "column 3: a pressure and a density can't be added"},
	{"13-3/8 in", "column 3: a number and a quantity in m-1 can't be subtracted"},
	{"lesser(x, 'a')", "column 1: lesser compares numbers of one dimension, not a number and a text"},
	{"band(p, 5 ft: 1, else: 2)", "column 9: the band is about a pressure, its edge is a length"},
	{"round(p, 1 ft)", "column 1: a pressure can't be rounded to steps of a length"},
	{"exp(p)", "column 1: exp doesn't take a pressure"},
	{"ln(gap)", "column 1: ln doesn't take a length"},
	{"sin(md)", "column 1: sin doesn't take a measured depth"},
	{"sqrt(gap)", "column 1: sqrt doesn't take a length"},
	{"gap^0.5", "column 4: a length can't be raised to 0.5: its dimension would not be whole"},
	{"gap^61", "column 4: a length can't be raised to 61: its dimension would not be whole"},
	{"gap^60 * gap", "column 8: a dimension out of all bounds"},
	{"1 / gap^60 / gap", "column 12: a dimension out of all bounds"},
	// Kinds.
	{"x and yes", `column 3: "and" joins two conditions, not a number`},
	{"yes or 'a'", `column 5: "or" joins two conditions, not a text`},
	{"not x", "column 1: not takes a condition, not a number"},
	{"yes + 1", "column 5: a yes or no and a number can't be added"},
	{"'a' * 2", `column 5: "*" takes numbers, not a text`},
	{"-yes", `column 1: "-" takes numbers, not a yes or no`},
	{"yes^2", `column 4: "^" takes numbers, not a yes or no`},
	{"abs('a')", `column 1: "abs" takes numbers, not a text`},
	{"yes = no", "column 5: a condition stands for itself; it isn't compared"},
	{"string.role < 'b'", `column 13: texts are equal or not; "<" is for numbers`},
	{"string.role = 5", "column 13: a text can't be compared with a number"},
	{"x in ('a')", "column 3: in looks for a text among texts, not for a number"},
	// Names, units, numbers.
	{"1 + wombat", `column 5: nothing is called "wombat"`},
	{"cosh(x)", `column 1: unknown function "cosh"`},
	{"5 wombats", `column 3: unknown unit "wombats"`},
	{"5 ftx", `column 3: unknown unit "ftx"`},
	{"5 m.x", `column 3: unknown unit "m.x"`},
	{"x.", `column 1: a dot in a name stands between two words: "x."`},
	{"x..y", `column 1: a dot in a name stands between two words: "x..y"`},
	{"1e999", `column 1: a number that can't be read or is too large: "1e999"`},
	{"1.8e308 ksi", `column 1: a number that can't be read or is too large: "1.8e308"`},
	{"1.7e308 ksi", `column 1: a number too large to hold: "1.7e308 ksi"`},
	{".", `column 1: a number that can't be read or is too large: "."`},
	{"greater(x, 1,000)", "column 13: a comma separates arguments and is followed by a blank; thousands are not grouped"},
	// Syntax.
	{"", "column 1: expected a value, found the end"},
	{"  ", "column 3: expected a value, found the end"},
	{"1 +", "column 4: expected a value, found the end"},
	{"9 5/8 in", `column 3: an operator is missing before "5"; a size is written in decimals, as 9.625 in`},
	{"x y_missing", `column 3: expected an operator or the end, found "y_missing"`},
	{"x)", `column 2: expected an operator or the end, found ")"`},
	{"(x", `column 3: expected ")" to close the one at column 1, found the end`},
	{"sqrt(x", `column 7: expected ")" to close sqrt, found the end`},
	{"1 < 2 < 3", "column 7: comparisons don't chain; join two with and"},
	{"2^3^2", "column 4: powers don't chain; use parentheses"},
	{"2^x", `column 3: expected a number as exponent, found "x"`},
	{"2^2 ft", "column 5: an exponent has no unit"},
	{"2^0", "column 3: an exponent of 0 says nothing"},
	{"2 ft^3", "column 5: a power of a number with a unit can be read two ways; put the number in parentheses"},
	{"greater(x)", "column 1: greater takes two numbers or more"},
	{"sqrt(x, x)", "column 1: sqrt takes one number"},
	{"sqrt()", `column 6: expected a value, found ")"`},
	{"round(x)", "column 1: round takes a number and a step"},
	{"round(x, x)", "column 1: the step of round is a plain number above 0"},
	{"round(x, 0)", "column 1: the step of round is a plain number above 0"},
	{"band(x, 1: 2)", `column 13: expected "else" as the last part of the band, found ")"`},
	{"band(x, else: 2)", "column 1: a band has an edge or more"},
	{"band(x, 1 2)", `column 11: expected ":" after an edge of the band, found "2"`},
	{"band(x, x: 2, else: 1)", `column 9: an edge of a band is a plain number, found "x"`},
	{"band(x, 2: 2, 1: 3, else: 1)", "column 15: the edges of a band ascend"},
	{"band(x, 2: 2, 2: 3, else: 1)", "column 15: the edges of a band ascend"},
	{"band(band(x, 1: 2, else: 3), 1: 2, else: 3)", "column 1: a band can't choose by another band"},
	{"band(1 + round(-sqrt(lesser(1, band(x, 1: 2, else: 3)^2)), 1), 1: 2, else: 3)", "column 1: a band can't choose by another band"},
	{"string.role in 'a'", `column 16: expected "(" before the texts, found a text`},
	{"string.role in (x)", `column 17: expected a text in single quotes, found "x"`},
	{"string.role in ('a'", `column 20: expected ")" after the texts, found the end`},
	{"'abc", "column 1: a text that never ends; its closing quote is missing"},
	{"'a\nb'", "column 1: a text holds no control characters"},
	{"and", `column 1: expected a value, found "and"`},
	{"x > 1 and", "column 10: expected a value, found the end"},
	{"x & 1", "column 3: the language has no '&'"},
	// Columns count code points.
	{"'µµ' = 'é' and ?", "column 16: the language has no '?'"},
	{"x +\n  \twombat", `column 8: nothing is called "wombat"`},
	{"x + \xff", "column 1: not valid UTF-8"},
}

func TestRefusals(t *testing.T) {
	for _, c := range refusals {
		e, err := expr.Compile(c.src, typeOf)
		var typed *expr.Error
		if e != nil || !errors.As(err, &typed) || err.Error() != c.want {
			t.Errorf("%q: %v\n want %s", c.src, err, c.want)
		}
	}
}

func TestBounds(t *testing.T) {
	nested := func(open, close string, n int) string {
		return strings.Repeat(open, n) + "x" + strings.Repeat(close, n)
	}
	many := "band(x"
	for i := range 33 {
		many += ", " + strings.Repeat("1", i+1) + ": 1"
	}
	for src, want := range map[string]string{
		nested("(", ")", 65):               "column 66: nested deeper than 64 levels",
		nested("abs(", ")", 65):            "column 261: nested deeper than 64 levels",
		nested("-", "", 65):                "column 65: nested deeper than 64 levels",
		strings.Repeat("not ", 65) + "yes": "column 257: nested deeper than 64 levels",
		strings.Repeat(" ", 4097):          "column 1: longer than 4096 bytes",
		many + ", else: 0)":                "column 697: a band has at most 32 edges",
	} {
		if _, err := expr.Compile(src, typeOf); err == nil || err.Error() != want {
			t.Errorf("%.40q: %v, want %s", src, err, want)
		}
	}
	long := strings.Repeat(" ", 4095) + "x"
	for _, src := range []string{nested("(", ")", 64), nested("-", "", 64), long, "x" + strings.Repeat("+x", 2000)} {
		if _, err := expr.Compile(src, typeOf); err != nil {
			t.Errorf("%.40q: %v", src, err)
		}
	}
	wild := func(string) (expr.Type, bool) { return expr.Type{Dim: units.Dim{Mass: 100}}, true }
	if _, err := expr.Compile("a * a", wild); err == nil || err.Error() != `column 1: "a" has a dimension out of all bounds` {
		t.Errorf("got %v", err)
	}
}
