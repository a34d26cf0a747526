package books_test

import (
	"testing"

	"spudgate/plan/units"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
	"spudgate/rules/checks"
	"spudgate/rules/finding"
)

// TestCases runs the worked cases inside every requirement of every built-in
// book, and holds that each requirement has the cases that make it tested: met,
// at the limit, just short, and the measure missing.
func TestCases(t *testing.T) {
	g, err := rules.NewRegistry(checks.All())
	if err != nil {
		t.Fatal(err)
	}
	b, err := basis.Default(units.Field)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range books.Names() {
		book, err := books.Builtin(name, g, b.TypeOf)
		if err != nil {
			t.Error(err)
			continue
		}
		run := 0
		for i := range book.Requirements {
			run += tryAll(t, g, b, &book.Requirements[i])
		}
		t.Logf("%s: %d requirements, %d cases", name, len(book.Requirements), run)
	}
}

func tryAll(t *testing.T, g *rules.Registry, b *basis.Basis, r *rules.Requirement) int {
	gives := map[finding.Verdict]int{}
	for _, c := range r.Cases {
		got, err := r.Try(c, books.Given(g, b))
		if err != nil {
			t.Errorf("%s, case %q: %v", r.Key(), c.Case, err)
			continue
		}
		if got != c.Gives {
			t.Errorf("%s, case %q: got %s, want %s", r.Key(), c.Case, got, c.Gives)
		}
		gives[got]++
	}
	if gives[finding.Met] == 0 || gives[finding.NotMet] == 0 || gives[finding.NotAssessed] == 0 {
		t.Errorf("%s: its cases give %v; each requirement needs one that's met, one not met and one not assessed", r.Key(), gives)
	}
	if r.Limit != "" && gives[finding.Met]+gives[finding.NotMet] < 3 {
		t.Errorf("%s: a limit needs cases above it, at it and below it", r.Key())
	}
	if r.When != "" && gives[finding.NotApplicable] == 0 {
		t.Errorf("%s: it has a condition and no case where it doesn't apply", r.Key())
	}
	return len(r.Cases)
}
