package rules

import (
	"testing"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// Of two books that ask for one measure the stricter governs, whatever the
// order; a graver one is never hidden, a varied one governs nothing.
func TestGovern(t *testing.T) {
	books := []*Book{{ID: "practice"}, {ID: "law", Regulation: true}}
	of := func(book, sense string, limit float64, g finding.Grade, v finding.Verdict) finding.Finding {
		return finding.Finding{Key: book + "/r@s", Book: book, Requirement: "r", Check: "c", Kind: "string", Subject: "s", Sense: sense, Grade: g, Verdict: v,
			Limit: &finding.Value{Quantity: &finding.Quantity{SI: limit, Dim: units.Length}}}
	}
	const least, most, major, minor = "at least", "at most", finding.Major, finding.Minor
	for _, c := range []struct {
		about    string
		fs       []finding.Finding
		governed []string // by each finding's place
	}{
		{"higher floor governs", []finding.Finding{of("practice", least, 100, major, finding.NotMet), of("law", least, 200, major, finding.NotMet)}, []string{"law/r@s", ""}},
		{"lower ceiling governs", []finding.Finding{of("practice", most, 100, major, finding.Met), of("law", most, 200, major, finding.Met)}, []string{"", "practice/r@s"}},
		{"equal: the regulation governs", []finding.Finding{of("practice", least, 100, major, finding.Met), of("law", least, 100, major, finding.Met)}, []string{"law/r@s", ""}},
		{"other senses stand alone", []finding.Finding{of("practice", least, 100, major, finding.Met), of("law", most, 200, major, finding.Met)}, []string{"", ""}},
		{"a major isn't hidden behind a minor", []finding.Finding{of("practice", least, 100, major, finding.NotMet), of("law", least, 200, minor, finding.NotMet)}, []string{"", ""}},
		{"a minor is, behind a major", []finding.Finding{of("practice", least, 100, minor, finding.NotMet), of("law", least, 200, major, finding.NotMet)}, []string{"law/r@s", ""}},
		{"varied governs nothing", []finding.Finding{of("practice", least, 100, major, finding.NotMet), of("law", least, 200, major, finding.Varied)}, []string{"", ""}},
		{"not assessed governs nothing", []finding.Finding{of("practice", least, 100, major, finding.NotMet), of("law", least, 200, major, finding.NotAssessed)}, []string{"", ""}},
	} {
		Govern(c.fs, books)
		hold := 0
		for i := range c.fs {
			if c.fs[i].Governed != c.governed[i] {
				t.Errorf("%s: finding %d is governed by %q, want %q", c.about, i, c.fs[i].Governed, c.governed[i])
			}
			if c.fs[i].Governed == "" && c.fs[i].Holds() {
				hold++
			}
		}
		if out := Conclude(c.fs, books, Options{HoldOn: finding.Major}); out.NotMet+out.NotAssessed != hold {
			t.Errorf("%s: %d counted, %d hold", c.about, out.NotMet+out.NotAssessed, hold)
		}
	}
}
