package rules

import (
	"strings"
	"testing"

	"spudgate/plan"
)

// A requirement is in force by the planned spud date, both ends included; by
// the date of the audit where none is planned; and never outside its book's own
// dates.
func TestInForce(t *testing.T) {
	for _, c := range []struct {
		about               string
		from, until         string // of the requirement
		bookFrom, bookUntil string
		spud, asOf          string
		says                string // nothing where it's in force
	}{
		{"no dates", "", "", "", "", "2026-11-25", "2026-01-01", ""},
		{"the day before", "2026-06-01", "", "", "", "2026-05-31", "2026-12-31", "in force from 2026-06-01"},
		{"the first day", "2026-06-01", "", "", "", "2026-06-01", "2026-01-01", ""},
		{"the day after the first", "2026-06-01", "", "", "", "2026-06-02", "2026-01-01", ""},
		{"the day before the last", "", "2026-06-01", "", "", "2026-05-31", "2027-01-01", ""},
		{"the last day", "", "2026-06-01", "", "", "2026-06-01", "2027-01-01", ""},
		{"the day after the last", "", "2026-06-01", "", "", "2026-06-02", "2026-01-01", "in force until 2026-06-01"},
		{"between both", "2026-01-01", "2026-12-31", "", "", "2026-07-01", "2030-01-01", ""},
		{"no spud date, audited before", "2026-06-01", "", "", "", "", "2026-05-31", "in force from 2026-06-01"},
		{"no spud date, audited on the first day", "2026-06-01", "", "", "", "", "2026-06-01", ""},
		{"no spud date, audited after the last", "", "2026-06-01", "", "", "", "2026-06-02", "in force until 2026-06-01"},
		{"the book begins later", "2026-01-01", "", "2026-06-01", "", "2026-03-01", "2026-12-31", "in force from 2026-06-01"},
		{"the requirement begins later", "2026-06-01", "", "2026-01-01", "", "2026-03-01", "2026-12-31", "in force from 2026-06-01"},
		{"the book ends sooner", "", "2026-12-31", "", "2026-06-01", "2026-07-01", "2026-01-01", "in force until 2026-06-01"},
		{"the requirement ends sooner", "", "2026-06-01", "", "2026-12-31", "2026-07-01", "2026-01-01", "in force until 2026-06-01"},
		{"only the book has dates", "", "", "2026-01-01", "2026-06-01", "2026-07-01", "2026-01-01", "in force until 2026-06-01"},
	} {
		p := &plan.Plan{}
		if c.spud != "" {
			p.Well.SpudDate = plan.Val[string]{V: c.spud, Ref: 1}
		}
		e := New(p, nil, nil, nil, Options{AsOf: c.asOf})
		r := &Requirement{From: c.from, Until: c.until, book: &Book{From: c.bookFrom, Until: c.bookUntil}}
		got := e.outOfForce(r)
		if (got == "") != (c.says == "") || !strings.HasPrefix(got, c.says) {
			t.Errorf("%s: %q, want %q", c.about, got, c.says)
		}
	}
}
