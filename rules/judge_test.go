package rules

import (
	"math"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// requirement makes a compiled requirement about one length measure.
func requirement(t *testing.T, is Sense, when, limit, upper string) *Requirement {
	t.Helper()
	length := expr.Type{Dim: units.Length}
	none := func(*well.Well, Subject) Measure { return Measure{} }
	g, err := NewRegistry([]*Check{
		{Name: "m", About: String, Type: length, Doc: "a length", Measure: none},
		{Name: "ok", About: String, Type: expr.Type{Kind: expr.Truth}, Doc: "a fact", Measure: none},
		{Name: "flag", About: String, Type: expr.Type{Kind: expr.Truth}, Doc: "a fact", Measure: none},
		{Name: "role", About: String, Type: expr.Type{Kind: expr.Text}, Doc: "a text", Measure: none},
	})
	if err != nil {
		t.Fatal(err)
	}
	check := "m"
	if is == IsTrue || is == IsFalse {
		check = "ok"
	}
	b := &Book{Format: BookFormat, ID: "b", Sources: map[string]Source{"s": {Title: "S"}}, Requirements: []Requirement{{
		ID: "r", Title: "t", Subject: String, When: when, Check: check, Is: is, Limit: limit, Upper: upper,
		Grade: finding.Major, Stage: finding.Permit, Sure: finding.CommonPractice, Source: "s", Text: "x", Remedy: "y",
	}}}
	basis := func(n string) (expr.Type, bool) { return length, n == "basis.l" }
	if err := b.Compile(g, basis); err != nil {
		t.Fatal(err)
	}
	return &b.Requirements[0]
}

func num(x float64) expr.Result { return expr.Known(expr.Number(x, units.Length)) }

// Every sense below, at and above its limit, and with the measure or the limit
// missing. "At" is up to unit noise: 1e-12 off is at, 1e-6 off isn't.
func TestSenses(t *testing.T) {
	limit := 10.0
	at := limit * (1 + 1e-12)
	for _, c := range []struct {
		is                Sense
		below, at_, above finding.Verdict
	}{
		{AtLeast, finding.NotMet, finding.Met, finding.Met},
		{AtMost, finding.Met, finding.Met, finding.NotMet},
		{MoreThan, finding.NotMet, finding.NotMet, finding.Met},
		{LessThan, finding.Met, finding.NotMet, finding.NotMet},
	} {
		r := requirement(t, c.is, "", "basis.l", "")
		for _, v := range []struct {
			x    expr.Result
			l    expr.Result
			want finding.Verdict
		}{
			{num(limit * (1 - 1e-6)), num(limit), c.below}, {num(limit), num(limit), c.at_}, {num(at), num(limit), c.at_},
			{num(limit * (1 + 1e-6)), num(limit), c.above},
			{expr.Unknown(expr.Lack{Input: "m"}), num(limit), finding.NotAssessed},
			{num(limit), expr.Unknown(expr.Lack{Input: "l"}), finding.NotAssessed},
		} {
			j := r.judge(func(string) expr.Result { return v.l }, func() Measure { return Measure{Result: v.x} })
			if j.verdict != v.want {
				t.Errorf("%v %s %v: %s, want %s", v.x.Value.SI, c.is, v.l.Value.SI, j.verdict, v.want)
			}
			if j.verdict == finding.NotAssessed && len(j.lacks) != 1 {
				t.Errorf("%s: lacks %v", c.is, j.lacks)
			}
		}
	}
}

func TestWithin(t *testing.T) {
	r := requirement(t, Within, "", "5 m", "10 m")
	for x, want := range map[float64]finding.Verdict{4.99: finding.NotMet, 5: finding.Met, 7: finding.Met, 10: finding.Met, 10.01: finding.NotMet} {
		j := r.judge(nil, func() Measure { return Measure{Result: num(x)} })
		if j.verdict != want {
			t.Errorf("%v: %s, want %s", x, j.verdict, want)
		}
		if (j.verdict == finding.NotMet) != (*j.margin < 0) {
			t.Errorf("%v: margin %v", x, *j.margin)
		}
	}
}

func TestMargin(t *testing.T) {
	for _, c := range []struct {
		is   Sense
		x, l float64
		want float64
	}{{AtLeast, 11, 10, 0.1}, {AtLeast, 9, 10, -0.1}, {AtMost, 9, 10, 0.1}, {AtMost, 12, 10, -0.2}, {AtLeast, 1, 0, math.NaN()}} {
		if _, got := compare(c.is, c.x, c.l); math.Abs(got-c.want) > 1e-12 || math.IsNaN(got) != math.IsNaN(c.want) {
			t.Errorf("%v %s %v: margin %v, want %v", c.x, c.is, c.l, got, c.want)
		}
	}
}

// The ways a measure can be other than a number.
func TestMeasures(t *testing.T) {
	r := requirement(t, AtLeast, "", "5 m", "")
	for what, c := range map[string]struct {
		m    Measure
		want finding.Verdict
	}{
		"nothing to measure":        {None("no lap"), finding.NotApplicable},
		"no load":                   {Measure{Unloaded: "no load"}, finding.Met},
		"a fault":                   {Measure{Err: errPanic{"x"}}, finding.NotAssessed},
		"gaps and a known failure":  {Measure{Result: num(4), Gaps: []expr.Lack{{Input: "x"}}}, finding.NotMet},
		"gaps and no known failure": {Measure{Result: num(6), Gaps: []expr.Lack{{Input: "x"}}}, finding.NotAssessed},
	} {
		if j := r.judge(nil, func() Measure { return c.m }); j.verdict != c.want {
			t.Errorf("%s: %s, want %s", what, j.verdict, c.want)
		}
	}
}

func TestWhen(t *testing.T) {
	r := requirement(t, IsTrue, "flag or role = 'x'", "", "")
	known := func(b bool) expr.Result { return expr.Known(expr.TruthOf(b)) }
	for _, c := range []struct {
		flag, role expr.Result
		want       finding.Verdict
	}{
		{known(true), expr.Unknown(expr.Lack{Input: "role"}), finding.Met}, // the known part decides
		{known(false), expr.Unknown(expr.Lack{Input: "role"}), finding.NotAssessed},
		{known(false), expr.Known(expr.TextOf("y")), finding.NotApplicable},
		{expr.Unknown(expr.Lack{Input: "flag"}), expr.Known(expr.TextOf("x")), finding.Met},
	} {
		lookup := func(n string) expr.Result {
			if n == "flag" {
				return c.flag
			}
			return c.role
		}
		if j := r.judge(lookup, func() Measure { return Truth(true) }); j.verdict != c.want {
			t.Errorf("%+v: %s, want %s", c, j.verdict, c.want)
		}
	}
}

func TestConclude(t *testing.T) {
	f := func(v finding.Verdict, g finding.Grade) finding.Finding { return finding.Finding{Verdict: v, Grade: g} }
	later := f(finding.NotAssessed, finding.Major)
	later.NotYetDue = true
	failed := f(finding.NotAssessed, finding.Observation)
	failed.Failed = true
	o := Options{HoldOn: finding.Major}
	for what, c := range map[string]struct {
		fs   []finding.Finding
		o    Options
		want string
	}{
		"all met":                      {[]finding.Finding{f(finding.Met, finding.Major)}, o, finding.Clear},
		"a major not met":              {[]finding.Finding{f(finding.NotMet, finding.Major)}, o, finding.Hold},
		"a minor not met":              {[]finding.Finding{f(finding.NotMet, finding.Minor)}, o, finding.Clear},
		"a minor, held by option":      {[]finding.Finding{f(finding.NotMet, finding.Minor)}, Options{HoldOn: finding.Minor}, finding.Hold},
		"an observation not met":       {[]finding.Finding{f(finding.NotMet, finding.Observation)}, Options{HoldOn: finding.Minor}, finding.Clear},
		"a major not assessed":         {[]finding.Finding{f(finding.NotAssessed, finding.Major)}, o, finding.Hold},
		"a major not yet due":          {[]finding.Finding{later}, o, finding.Clear},
		"a minor not assessed":         {[]finding.Finding{f(finding.NotAssessed, finding.Minor)}, o, finding.Clear},
		"an observation failed to run": {[]finding.Finding{failed}, o, finding.Hold},
		"a major that does not apply":  {[]finding.Finding{f(finding.NotApplicable, finding.Major)}, o, finding.Clear},
	} {
		if got := Conclude(c.fs, nil, c.o); got.Word != c.want {
			t.Errorf("%s: %s, want %s", what, got.Word, c.want)
		}
	}
}
