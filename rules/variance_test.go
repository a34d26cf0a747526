package rules

import (
	"strings"
	"testing"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// A lap of 90 ft where 100 ft are wanted, held against variances of all kinds.
func TestVary(t *testing.T) {
	good := Variance{Requirement: "b/r", Subject: "7  LINER", Value: "80 ft", Reason: "short parent", Approver: "chief engineer", Reference: "V-7", Granted: "2026-10-01", Expires: "2027-12-31", Kind: "agency"}
	for what, c := range map[string]struct {
		change     func(*Variance, *Requirement)
		want       finding.Verdict
		says       string
		ownFinding finding.Grade
	}{
		"good":                         {func(*Variance, *Requirement) {}, finding.Varied, "V-7", ""},
		"granted just what it is":      {func(v *Variance, _ *Requirement) { v.Value = "90 ft" }, finding.Varied, "90 ft", ""},
		"worse than granted":           {func(v *Variance, _ *Requirement) { v.Value = "95 ft" }, finding.NotMet, "worse than that by 5.3 %", ""},
		"expired":                      {func(v *Variance, _ *Requirement) { v.Expires = "2026-11-24" }, finding.NotMet, "expired on 2026-11-24", finding.Major},
		"expires before spud":          {func(v *Variance, _ *Requirement) { v.Expires = "2027-02-14" }, finding.NotMet, "before the planned spud", finding.Major},
		"expires on the day of spud":   {func(v *Variance, _ *Requirement) { v.Expires = "2027-02-15" }, finding.Varied, "", ""},
		"unsigned":                     {func(v *Variance, _ *Requirement) { v.Approver = "" }, finding.NotMet, "isn't signed", finding.Major},
		"granted tomorrow":             {func(v *Variance, _ *Requirement) { v.Granted = "2026-11-26" }, finding.NotMet, "after the audit's date", finding.Major},
		"matches nothing":              {func(v *Variance, _ *Requirement) { v.Subject = "5 liner" }, finding.NotMet, "", finding.Minor},
		"may not be varied":            {func(_ *Variance, r *Requirement) { r.Vary = false }, finding.NotMet, "no variance may be granted", finding.Major},
		"a company varies a rule":      {func(v *Variance, r *Requirement) { v.Kind = "company"; r.book.Regulation = true }, finding.NotMet, "can't vary a regulation", finding.Major},
		"a company varies practice":    {func(v *Variance, _ *Requirement) { v.Kind = "company" }, finding.Varied, "", ""},
		"a value of another dimension": {func(v *Variance, _ *Requirement) { v.Value = "80 psi" }, finding.NotMet, "isn't a length", ""},
	} {
		r := requirement(t, AtLeast, "", "100 ft", "")
		r.Vary = true
		v := good
		c.change(&v, r)
		p := &plan.Plan{}
		p.Well.SpudDate = plan.Val[string]{V: "2027-02-15", Ref: 1}
		f := finding.Finding{Book: "b", Requirement: "r", Subject: "7 liner", Verdict: finding.NotMet, Grade: finding.Major,
			Measure: finding.ValueOf(expr.Number(90*units.Foot, units.Length), false), Limit: finding.ValueOf(expr.Number(100*units.Foot, units.Length), false)}
		out := Vary([]finding.Finding{f}, []Variance{v}, []*Book{r.book}, p, Options{AsOf: "2026-11-25"})
		if out[0].Verdict != c.want || !strings.Contains(out[0].Reason, c.says) {
			t.Errorf("%s: %s, %q", what, out[0].Verdict, out[0].Reason)
		}
		if (len(out) > 1) != (c.ownFinding != "") || len(out) > 1 && (out[1].Grade != c.ownFinding || out[1].Verdict != finding.NotMet) {
			t.Errorf("%s: findings on the variance itself: %+v", what, out[1:])
		}
	}
}

func TestParseVariances(t *testing.T) {
	for text, want := range map[string]string{
		`{"format":"spudgate-variances/1","variances":[{"requirement":"b/r","subject":"s","kind":"agency","value":"1,5 ft"}]}`: "write 1.5",
		`{"format":"spudgate-variances/1","variances":[{"requirement":"b/r","kind":"agency"}]}`:                                "variance 1",
		`{"format":"spudgate-variances/1","variances":[{"requirement":"b/r","subject":"s","kind":"friend"}]}`:                  "agency or company",
		`{"format":"x"}`: "expected \"spudgate-variances/1\"",
		`{"formats":1}`:  "unknown field",
	} {
		if _, err := ParseVariances("v.json", []byte(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}
