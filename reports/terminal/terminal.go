// Package terminal writes an audit for the person at the keyboard: outcome
// first, then causes, in 80 columns. Words carry the meaning; colour only
// repeats it.
package terminal

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/fatih/color"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// Options are how the audit is shown.
type Options struct {
	Columns int // 80 where nobody says
	Units   units.System
	All     bool // every cause, and what else isn't met
	Color   bool
}

// mostCauses is how many causes are shown without All.
const mostCauses = 10

// Write writes the audit.
func Write(w io.Writer, r *finding.Record, o Options) error {
	if o.Columns < 60 {
		o.Columns = 80
	}
	b := bufio.NewWriter(w)
	p := &page{b: b, o: o, r: r}
	p.head()
	p.causes()
	p.strings()
	p.waiting()
	p.unread()
	p.unjudged()
	p.rest()
	return b.Flush()
}

type page struct {
	b *bufio.Writer
	o Options
	r *finding.Record
}

func (p *page) line(format string, args ...any) {
	fmt.Fprintln(p.b, strings.TrimRight(fmt.Sprintf(format, args...), " "))
}

// paint colours a text where colour is on.
func (p *page) paint(s string, attrs ...color.Attribute) string {
	c := color.New(attrs...)
	if p.o.Color {
		c.EnableColor()
	} else {
		c.DisableColor()
	}
	return c.Sprint(s)
}

// split puts left at the margin and right at the edge, wrapping left where the
// two don't fit.
func (p *page) split(indent int, left, right string) {
	room := p.o.Columns - indent - width(right) - 2
	parts := wrap(left, max(room, 20))
	for i, part := range parts {
		text := strings.Repeat(" ", indent) + part
		if i == 0 && right != "" {
			gap := max(p.o.Columns-width(text)-width(right), 2)
			text += strings.Repeat(" ", gap) + right
		}
		p.line("%s", text)
	}
}

func (p *page) head() {
	w := p.r.Well
	name := clean(w.Name)
	if w.Revision != "" {
		name += ", revision " + clean(w.Revision)
	}
	word := p.paint(p.r.Outcome.Word, color.Bold)
	lines := wrap(name, p.o.Columns-7)
	why := p.r.Outcome.Why
	if gap := p.o.Columns - 7 - width(lines[0]) - width(why); len(lines) == 1 && gap >= 2 {
		p.line("%s%s%s%s%s", word, strings.Repeat(" ", 7-len(p.r.Outcome.Word)), name, strings.Repeat(" ", gap), why)
	} else {
		for i, l := range lines {
			if i == 0 {
				p.line("%s%s%s", word, strings.Repeat(" ", 7-len(p.r.Outcome.Word)), l)
				continue
			}
			p.line("       %s", l)
		}
		for _, l := range wrap(why, p.o.Columns-7) {
			p.line("       %s", l)
		}
	}
	p.line("")
	p.fact("plan", clean(p.r.Inputs[0].Name), "sha256 "+short(p.r.Inputs[0].SHA256))
	var books []string
	for _, b := range p.r.Books {
		books = append(books, b.ID+" "+b.Edition)
	}
	p.fact("against", strings.Join(books, "; "), "")
	stage := "stage " + strings.ReplaceAll(string(w.Stage), "_", "-")
	if w.StageFrom == "default" {
		stage += " (none stated)"
	}
	p.fact("basis", clean(p.r.Basis.Name)+"; "+stage, "as of "+p.r.AsOf)
	p.line("")
}

func short(digest string) string { return digest[:min(12, len(digest))] }

func (p *page) fact(name, left, right string) {
	room := p.o.Columns - 12
	if right != "" {
		room -= width(right) + 2
	}
	for i, part := range wrap(left, max(room, 20)) {
		label := ""
		if i == 0 {
			label = name
		}
		text := fmt.Sprintf("  %-10s%s", label, part)
		if i == 0 && right != "" {
			text += strings.Repeat(" ", max(p.o.Columns-width(text)-width(right), 2)) + right
		}
		p.line("%s", text)
	}
}

func (p *page) strings() {
	if len(p.r.Strings) == 0 {
		return
	}
	name := 20 + (p.o.Columns-80)/2
	p.line("%s%5s%9s%14s   %s", pad("Majors by string", name+2), "met", "not met", "not assessed", "least to spare")
	for _, l := range p.r.Strings {
		least := ""
		if l.Margin != nil {
			m := finding.MarginText(l.Margin)
			room := p.o.Columns - name - 2 - 31 - width(m) - 1
			least = pad(cut(l.Least, room), room) + " " + m
		}
		p.line("  %s%5d%9d%14d   %s", pad(cut(clean(l.Name), name), name), l.Met, l.NotMet, l.NotAssessed, least)
	}
	p.line("")
}

func (p *page) waiting() {
	if len(p.r.Waiting) == 0 {
		return
	}
	p.line("What to ask the contractor for")
	shown := p.r.Waiting
	if !p.o.All && len(shown) > 5 {
		shown = shown[:5]
	}
	for _, w := range shown {
		n := fmt.Sprintf("%d requirements wait", w.Requirements)
		if w.Requirements == 1 {
			n = "1 requirement waits"
		}
		p.split(2, clean(w.Input), n)
	}
	if n := len(p.r.Waiting) - len(shown); n > 0 {
		p.line("  and %d more, --all", n)
	}
	p.line("")
}

// unread lists what stood in the file and no part of the plan takes: a column
// nobody knows may be the very input a finding waits for.
func (p *page) unread() {
	if len(p.r.Unread) == 0 {
		return
	}
	p.line("What wasn't read")
	shown := p.r.Unread
	if !p.o.All && len(shown) > 5 {
		shown = shown[:5]
	}
	for _, n := range shown {
		p.split(2, clean(n.Text), n.Place.String())
	}
	if n := len(p.r.Unread) - len(shown); n > 0 {
		p.line("  and %d more, --all", n)
	}
	p.line("")
}

// unjudged says which clauses of the books nothing here judges: a clear plan is
// clear of what was judged only. With All each clause is told, those for a
// person too.
func (p *page) unjudged() {
	total := 0
	for _, b := range p.r.Books {
		total += len(b.Gaps)
	}
	if total == 0 {
		return
	}
	p.line("Clauses these books don't judge")
	for _, b := range p.r.Books {
		if !p.o.All && len(b.Gaps) > 0 {
			p.split(2, b.ID+": "+clauses(b.Gaps), "")
		}
		for _, g := range b.Gaps {
			if p.o.All {
				p.split(2, b.ID+" "+g.Clause+": "+g.Text, "")
			}
		}
	}
	p.line("")
}

// clauses names clauses once each, with how often where more than once.
func clauses(list []finding.Gap) string {
	var names []string
	times := map[string]int{}
	for _, g := range list {
		if times[g.Clause]++; times[g.Clause] == 1 {
			names = append(names, g.Clause)
		}
	}
	for i, n := range names {
		if times[n] > 1 {
			names[i] = fmt.Sprintf("%s (%d)", n, times[n])
		}
	}
	return strings.Join(names, ", ")
}

// person lists the clauses only a person can judge and who has.
func (p *page) person() {
	n := 0
	for _, b := range p.r.Books {
		for _, g := range b.Person {
			if n++; n == 1 {
				p.line("For a person to judge")
			}
			done := "open"
			if e := g.Evidence; e != nil {
				done = "judged by " + clean(e.By) + ", " + e.Date
			}
			p.split(2, b.ID+" "+clean(g.Clause)+": "+clean(g.Text), done)
		}
	}
	if n > 0 {
		p.line("")
	}
}

func (p *page) rest() {
	o := p.r.Outcome
	if p.o.All {
		p.person()
		p.besides()
	}
	person := 0
	for _, b := range p.r.Books {
		person += b.ByPerson
	}
	text := fmt.Sprintf("Besides: %s, %s; %s for a person to judge.", count(o.Minor, "minor", "minor"), count(o.Observation, "observation", "observations"), count(person, "clause is", "clauses are"))
	if o.NotYetDue > 0 {
		text += fmt.Sprintf(" %s at a later stage.", count(o.NotYetDue, "is asked", "are asked"))
	}
	p.split(0, text, "")
	for _, l := range wrap(p.r.Caution, p.o.Columns) {
		p.line("%s", l)
	}
}

// besides lists minors and observations that aren't met, and what wasn't read.
func (p *page) besides() {
	var list []*finding.Finding
	for i := range p.r.Findings {
		if f := &p.r.Findings[i]; f.Verdict == finding.NotMet && f.Grade != finding.Major {
			list = append(list, f)
		}
	}
	p.r.Order(list)
	for _, f := range list {
		text := fmt.Sprintf("%s: %s, %s", f.Grade, clean(f.Subject), f.Title)
		for _, more := range []string{Numbers(f, p.o.Units), clean(f.Reason)} {
			if more != "" {
				text += "; " + more
			}
		}
		where := ""
		if len(f.Places) > 0 {
			where = f.Places[0].String()
		}
		p.split(2, text, where)
	}
	for _, n := range p.r.Notes {
		p.split(2, "note: "+clean(n.Text), n.Place.String())
	}
	if len(list)+len(p.r.Notes) > 0 {
		p.line("")
	}
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func at(list []string, i int) string {
	if i < len(list) {
		return list[i]
	}
	return ""
}

func width(s string) int { return utf8.RuneCountInString(s) }
