// Package register writes what the books judge, for people (Markdown) and
// programs (JSON). The workbook of it is written by package workbook, beside
// the audit's.
package register

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"strings"

	"spudgate/rules/finding"
)

// WriteJSON writes the register as one JSON document, indented by two spaces.
func WriteJSON(w io.Writer, r *finding.Register) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(r)
}

// WriteMarkdown writes the register as a Markdown document: what could be
// judged on the plan where one is given, then a section for each book with its
// requirements, the clauses for a person and those it doesn't judge.
func WriteMarkdown(w io.Writer, r *finding.Register) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, "# Register of requirements\n\n%s %s. %s\n", r.Tool.Name, r.Tool.Version, r.Caution)
	if r.For != nil {
		writeCoverage(b, r.For)
	}
	for i := range r.Books {
		writeBook(b, &r.Books[i])
	}
	return b.Flush()
}

func writeCoverage(b *bufio.Writer, c *finding.Coverage) {
	fmt.Fprintf(b, "\n## What could be judged on %s\n\nPlan %s (sha256 %.12s), stage %s.\n\n", plain(c.Well), plain(c.Plan.Name), c.Plan.SHA256, strings.ReplaceAll(string(c.Stage), "_", "-"))
	row(b, "requirement", "grade", "judged", "waits", "not applicable", "not yet due", "waits for")
	row(b, "---", "---", "---:", "---:", "---:", "---:", "---")
	for _, l := range c.Asked {
		row(b, l.Book+"/"+l.Requirement, string(l.Grade), number(l.Judged), number(l.Waits), number(l.NotApplicable), number(l.NotYetDue), strings.Join(l.Inputs, "; "))
	}
	if len(c.Waiting) == 0 {
		return
	}
	fmt.Fprint(b, "\n### What it waits for\n\n")
	row(b, "input", "requirements", "majors")
	row(b, "---", "---:", "---:")
	for _, w := range c.Waiting {
		row(b, w.Input, number(w.Requirements), number(w.Majors))
	}
}

func number(n int) string { return fmt.Sprint(n) }

func writeBook(b *bufio.Writer, l *finding.Listing) {
	fmt.Fprintf(b, "\n## %s: %s\n\n%s. Edition: %s.%s\n", l.ID, plain(l.Title), plain(l.Publisher), plain(l.Edition), inForce(l.From, l.Until))
	fmt.Fprintf(b, "\n%d judged, %d for a person, %d not judged.\n", len(l.Requirements), len(l.Person), len(l.Gaps))
	if len(l.Requirements) > 0 {
		fmt.Fprint(b, "\n")
		row(b, "id", "about", "measure", "is", "when", "grade", "stage", "stands in", "known")
		row(b, "---", "---", "---", "---", "---", "---", "---", "---", "---")
		for i := range l.Requirements {
			e := &l.Requirements[i]
			row(b, e.ID, e.Subject, code(e.Check), code(e.Wants()), code(e.When), string(e.Grade), strings.ReplaceAll(string(e.Stage), "_", "-"), e.Cite.String()+inForce(e.From, e.Until), string(e.Sure))
		}
	}
	gaps(b, "For a person to judge", l.Person)
	gaps(b, "Not judged by this book", l.Gaps)
}

func gaps(b *bufio.Writer, heading string, list []finding.Gap) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintf(b, "\n### %s\n\n", heading)
	for _, g := range list {
		fmt.Fprintf(b, "- %s: %s\n", plain(g.Clause), plain(g.Text))
	}
}

// inForce says from when until when, or nothing.
func inForce(from, until string) string {
	switch {
	case from != "" && until != "":
		return " In force from " + from + " until " + until + "."
	case from != "":
		return " In force from " + from + "."
	case until != "":
		return " In force until " + until + "."
	}
	return ""
}

func row(b *bufio.Writer, cells ...string) {
	for _, c := range cells {
		fmt.Fprintf(b, "| %s ", strings.ReplaceAll(plain(c), "|", `\|`))
	}
	fmt.Fprint(b, "|\n")
}

// plain keeps a text on one line.
func plain(s string) string { return strings.Join(strings.Fields(s), " ") }

// code sets an expression apart; nothing stays nothing.
func code(s string) string {
	if s == "" {
		return ""
	}
	return "`" + s + "`"
}
