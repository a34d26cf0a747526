// Package checktest helps to test checks: a plan from a few lines of JSON, and
// one measure of it.
package checktest

import (
	"testing"

	"spudgate/plan"
	"spudgate/plan/read"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
	"spudgate/rules/checks"
	"spudgate/rules/finding"
	"spudgate/schema"
)

// Well makes a well of a plan written as JSON (the format member is added),
// with the assumptions of the default basis.
func Well(t testing.TB, text string) *well.Well {
	t.Helper()
	return WellWith(t, text, func(*well.Assumptions) {})
}

// WellWith is Well with assumptions changed.
func WellWith(t testing.TB, text string, change func(*well.Assumptions)) *well.Well {
	t.Helper()
	p := Plan(t, text)
	b, err := basis.Default(p.System)
	if err != nil {
		t.Fatal(err)
	}
	a := b.Assumptions()
	change(&a)
	return well.New(p, a)
}

// Plan reads a plan written as JSON; a fault fails the test.
func Plan(t testing.TB, text string) *plan.Plan {
	t.Helper()
	d, err := read.JSON("test.json", []byte(`{"format":"spudgate-plan/1",`+text+`}`))
	if err != nil {
		t.Fatal(err)
	}
	if faults := schema.Check(d); len(faults) > 0 {
		t.Fatal(faults)
	}
	p, faults := plan.Decode(d)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return p
}

// Measure takes one measure of the subject of the given name.
func Measure(t testing.TB, w *well.Well, c *rules.Check, subject string) rules.Measure {
	t.Helper()
	var names []string
	for _, s := range rules.Subjects(w.Plan, c.About, w.ZonesOf) {
		if s.Name == subject {
			return c.Measure(w, s)
		}
		names = append(names, s.Name)
	}
	t.Fatalf("no %s called %q; there are %q", c.About, subject, names)
	return rules.Measure{}
}

// Judge judges a plan written as JSON by one built-in book and gives its
// findings by requirement@subject; a check that fails to run fails the test.
func Judge(t testing.TB, text, book string, stage finding.Stage) map[string]finding.Finding {
	t.Helper()
	e, list := Engine(t, Plan(t, text), book, stage)
	out := map[string]finding.Finding{}
	for _, f := range e.All([]*rules.Book{list}) {
		if f.Failed {
			t.Errorf("%s: %s", f.Key, f.Reason)
		}
		out[f.Requirement+"@"+f.Subject] = f
	}
	return out
}

// Engine is an engine for a plan on the default basis, as of 2026-11-25, and a
// built-in book to judge it by.
func Engine(t testing.TB, p *plan.Plan, book string, stage finding.Stage) (*rules.Engine, *rules.Book) {
	t.Helper()
	b, err := basis.Default(p.System)
	if err != nil {
		t.Fatal(err)
	}
	g, err := rules.NewRegistry(checks.All())
	if err != nil {
		t.Fatal(err)
	}
	list, err := books.Builtin(book, g, b.TypeOf)
	if err != nil {
		t.Fatal(err)
	}
	return rules.New(p, well.New(p, b.Assumptions()), g, b, rules.Options{Stage: stage, AsOf: "2026-11-25"}), list
}
