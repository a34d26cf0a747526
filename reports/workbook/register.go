package workbook

import (
	"fmt"

	"spudgate/rules/finding"
)

// layRegister lays every requirement on every subject with its verdict, and
// behind them the clauses of the books that no requirement judges: what wasn't
// checked is on record too.
func (b *book) layRegister() *grid {
	g := &grid{name: "Register", columns: []float64{16.5, 18, 25, 22, 23, 10.5, 12.5, 11.5, 14, 8, 8, 28}}
	g.top("Register of requirements", b.record)
	head := g.heads(words("Book"), words("Requirement"), words("Stands in"), words("Subject"), words("Title"), words("Grade"), words("Verdict"), numbers("Measure"), numbers("Limit"), numbers("Margin"), words("Finding"), words("Why"))
	for i := range b.record.Findings {
		g.add(b.registerRow(&b.record.Findings[i])...)
	}
	g.filter = at(1, head) + ":" + at(len(g.columns), len(g.rows))
	rows := len(g.rows)
	for i := range b.record.Books {
		bk := &b.record.Books[i]
		b.clauses(g, bk, "For a person to judge", bk.Person)
	}
	for i := range b.record.Books {
		bk := &b.record.Books[i]
		b.clauses(g, bk, "Not judged by this book", bk.Gaps)
	}
	b.person = 1
	if len(g.rows) > rows {
		b.person = rows + 2 // behind a narrow row
	}
	return g
}

func (b *book) registerRow(f *finding.Finding) []cell {
	measure, limit := b.measured(f, 11.5, 14)
	link := text("", plain)
	if row := b.rowOf[f]; row > 0 {
		link = text(fmt.Sprintf("no. %d", row-b.findings.head), linked).to(b.findings.ref(1, row))
	}
	reason := why(f)
	if reason == "" && f.At != nil && f.Verdict == finding.Met {
		reason = b.inWell(f.At)
	}
	return []cell{
		text(f.Book, plain), text(f.Requirement, plain), text(f.Cite.String(), plain), text(f.Subject, plain), text(f.Title, plain),
		text(string(f.Grade), plain), text(verdictText(f), of(f.Verdict)), measure, limit, marginCell(f), link, text(reason, faint),
	}
}

// clauses lists clauses of a book under a heading.
func (b *book) clauses(g *grid, bk *finding.Book, heading string, list []finding.Gap) {
	if len(list) == 0 {
		return
	}
	g.high(8)
	g.add(text(fmt.Sprintf("%s: %s %s", heading, bk.ID, bk.Edition), section).over(len(g.columns)))
	for _, c := range list {
		about := c.Text
		if e := c.Evidence; e != nil {
			about += " Judged by " + e.By + " on " + e.Date + ", " + e.Reference + "."
			if e.Note != "" {
				about += " " + e.Note
			}
		}
		g.add(text(bk.ID, plain), text(c.Clause, strong).over(2), text(about, plain).over(9))
	}
}
