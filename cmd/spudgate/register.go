package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"spudgate/plan/read"
	"spudgate/reports/register"
	"spudgate/reports/workbook"
	"spudgate/rules"
	"spudgate/rules/finding"
)

// registerOf lists the books as a record of their own.
func registerOf(list []*rules.Book, g *rules.Registry) *finding.Register {
	out := &finding.Register{Format: finding.RegisterFormat, Tool: finding.Tool{Name: "spudgate", Version: version()}, Caution: finding.Caution}
	for _, b := range list {
		l := finding.Listing{ID: b.ID, Title: b.Title, Publisher: b.Publisher, Edition: b.Edition, Regulation: b.Regulation, From: b.From, Until: b.Until, Person: b.Person, Gaps: b.Gaps}
		for i := range b.Requirements {
			l.Requirements = append(l.Requirements, entry(&b.Requirements[i], g))
		}
		out.Books = append(out.Books, l)
	}
	return out
}

func entry(r *rules.Requirement, g *rules.Registry) finding.Entry {
	e := finding.Entry{ID: r.ID, Title: r.Title, Subject: string(r.Subject), When: r.When, Check: r.Check, Measure: g.Find(r.Check).Doc, Is: string(r.Is), Limit: r.Limit, Upper: r.Upper,
		Grade: r.Grade, Stage: r.Stage, Sure: r.Sure, Cite: r.Cite(), From: r.From, Until: r.Until, Vary: r.Vary, Text: r.Text, Remedy: r.Remedy}
	names := append([]string{r.Check}, r.Names()...)
	for _, c := range r.Cases {
		x := finding.Example{Case: c.Case, Gives: c.Gives}
		seen := map[string]bool{}
		for _, n := range names {
			if v, ok := c.Given[n]; ok && !seen[n] {
				seen[n] = true
				x.Given = append(x.Given, finding.Given{Name: n, Value: v})
			}
		}
		e.Cases = append(e.Cases, x)
	}
	return e
}

// covers judges a plan as an audit would, to say what could be judged on it.
// The books are those the audit uses.
func (c *command) covers(name, stage, asOf string, asked []string) (*finding.Coverage, error) {
	docs, err := read.File(name)
	if err != nil {
		return nil, err
	}
	if len(docs) != 1 {
		return nil, unfitf("%s holds %d wells, expected one", name, len(docs))
	}
	r, _, err := c.judge(&auditing{books: asked, stage: stage, asOf: asOf, holdOn: "major"}, docs[0])
	if err != nil {
		return nil, err
	}
	return r.Covers(), nil
}

// used keeps the books a plan was held against.
func used(list []finding.Listing, c *finding.Coverage) []finding.Listing {
	return slices.DeleteFunc(list, func(l finding.Listing) bool {
		return !slices.ContainsFunc(c.Asked, func(a finding.CoverageLine) bool { return a.Book == l.ID })
	})
}

// writeRegister writes a register in the form the file's ending says.
func writeRegister(out string, r *finding.Register) error {
	return writeFile(out, func(w io.Writer) error {
		switch strings.ToLower(filepath.Ext(out)) {
		case ".json":
			return register.WriteJSON(w, r)
		case ".md":
			return register.WriteMarkdown(w, r)
		}
		return workbook.WriteRegister(w, r)
	})
}

// listCoverage says what could be judged on a plan: by book, then what it waits
// for.
func (c *command) listCoverage(v *finding.Coverage) {
	fmt.Fprintf(c.out, "%s, stage %s: what could be judged\n\n", v.Well, strings.ReplaceAll(string(v.Stage), "_", "-"))
	fmt.Fprintf(c.out, "%-30s%8s%8s%16s%14s\n", "Subjects by book", "judged", "waits", "not applicable", "not yet due")
	var order []string
	sum := map[string]*finding.CoverageLine{}
	for _, l := range v.Asked {
		s := sum[l.Book]
		if s == nil {
			s = &finding.CoverageLine{}
			sum[l.Book] = s
			order = append(order, l.Book)
		}
		s.Judged, s.Waits, s.NotApplicable, s.NotYetDue = s.Judged+l.Judged, s.Waits+l.Waits, s.NotApplicable+l.NotApplicable, s.NotYetDue+l.NotYetDue
	}
	for _, b := range order {
		s := sum[b]
		fmt.Fprintf(c.out, "  %-28s%8d%8d%16d%14d\n", b, s.Judged, s.Waits, s.NotApplicable, s.NotYetDue)
	}
	if len(v.Waiting) > 0 {
		fmt.Fprintf(c.out, "\nWhat it waits for\n")
	}
	for _, w := range v.Waiting {
		c.hang(fmt.Sprintf("  %4d", w.Requirements), 8, w.Input)
	}
	c.listWaiting(v)
}

// listWaiting lists the requirements that wait, on how many subjects each.
func (c *command) listWaiting(v *finding.Coverage) {
	headed := false
	for _, l := range v.Asked {
		if l.Waits == 0 {
			continue
		}
		if !headed {
			fmt.Fprintf(c.out, "\nRequirements that wait, and on how many subjects\n")
			headed = true
		}
		c.hang(fmt.Sprintf("  %4d", l.Waits), 8, l.Book+"/"+l.Requirement+", "+string(l.Grade))
	}
}
