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

func (p *page) causes() {
	causes := p.r.Causes()
	if len(causes) == 0 {
		p.smallest()
		return
	}
	p.line("What holds it")
	shown := causes
	if !p.o.All && len(shown) > mostCauses {
		shown = shown[:mostCauses]
	}
	for i, f := range shown {
		p.cause(i+1, f)
	}
	if n := len(causes) - len(shown); n > 0 {
		p.line("  and %d more, --all", n)
	}
	p.line("")
}

// cause shows one finding: what, where, how much, what would mend it.
func (p *page) cause(n int, f *finding.Finding) {
	verdict := string(f.Verdict)
	if f.Failed {
		verdict = "failed to run"
	}
	p.columns(n, clean(f.Subject), f.Title, verdict, 22+(p.o.Columns-80)/2)
	p.detail(f)
	if p.regulation(f.Book) {
		p.split(5, "by "+f.Cite.String()+", "+string(f.Sure), "")
	}
}

// regulation reports whether a book is one.
func (p *page) regulation(id string) bool {
	for _, b := range p.r.Books {
		if b.ID == id {
			return b.Regulation
		}
	}
	return false
}

func (p *page) detail(f *finding.Finding) {
	where := ""
	if len(f.Places) > 0 {
		where = f.Places[0].String()
	}
	if f.Verdict == finding.NotAssessed {
		text := f.Reason
		if len(f.Missing) > 0 {
			var names []string
			for _, m := range f.Missing {
				names = append(names, clean(m.Input))
			}
			text = "needs " + strings.Join(names, "; ")
			if pl := f.Missing[0].Place.String(); pl != "" {
				where = pl
			}
		}
		p.split(5, text, where)
		return
	}
	p.split(5, Numbers(f, p.o.Units), where)
	if f.Reason != "" {
		p.split(5, clean(f.Reason), "")
	}
	if m := f.Mend(p.o.Units); m != "" {
		p.split(5, "mend: "+clean(m), "")
	}
}

// Numbers says the measure, what is wanted and where, in words.
func Numbers(f *finding.Finding, s units.System) string {
	var parts []string
	switch {
	case f.Measure == nil:
	case f.Measure.Truth != nil:
		parts = append(parts, map[bool]string{true: "yes", false: "no"}[*f.Measure.Truth])
	default:
		got, want := Apart(f.Measure, f.Limit, s)
		parts = append(parts, got)
		if f.Limit != nil {
			parts = append(parts, "wants "+senseWord(f.Sense)+want)
		}
	}
	if f.At != nil {
		where := ""
		if f.At.MD != nil {
			where = "at " + f.At.MD.Show(s)
		} else if f.At.TVD != nil {
			where = "at " + f.At.TVD.Show(s) + " TVD"
		}
		if f.At.Why != "" {
			where += " (" + clean(f.At.Why) + ")"
		}
		parts = append(parts, strings.TrimSpace(where))
	}
	return strings.Join(parts, ", ")
}

func senseWord(sense string) string {
	switch sense {
	case "at most":
		return "at most "
	case "more than", "less than":
		return sense + " "
	case "within":
		return "within "
	}
	return ""
}

// Apart shows a measure and its limit with as many decimals as it takes to
// tell them apart: rounding for print never makes them look equal when they
// aren't.
func Apart(m, l *finding.Value, s units.System) (string, string) {
	got, want := m.Show(s), l.Show(s)
	if l == nil || got != want || m.Quantity == nil || l.Quantity == nil {
		return got, want
	}
	u, dec := units.Best(m.Quantity.SI, m.Quantity.Dim, s, m.Quantity.Small)
	x, y := u.FromSI(m.Quantity.SI), u.FromSI(l.Quantity.SI)
	for d := dec + 1; d <= dec+6; d++ {
		if a, b := units.Decimal(x, d), units.Decimal(y, d); a != b {
			sym := ""
			if u.Symbol != "1" {
				sym = " " + u.Symbol
			}
			return a + sym, b + sym
		}
	}
	return got, want
}

// smallest lists what a clear plan has least to spare.
func (p *page) smallest() {
	var tight []*finding.Finding
	for i := range p.r.Findings {
		f := &p.r.Findings[i]
		if f.Verdict == finding.Met && f.Margin != nil && f.Grade == finding.Major {
			tight = append(tight, f)
		}
	}
	sortByMargin(tight)
	p.line("Least to spare")
	room := 22 + (p.o.Columns-80)/2
	for i, f := range tight[:min(5, len(tight))] {
		got, want := Apart(f.Measure, f.Limit, p.o.Units)
		p.columns(i+1, clean(f.Subject), f.Title, finding.MarginText(f.Margin), room)
		p.split(5, got+", wants "+senseWord(f.Sense)+want, "")
	}
	p.line("")
}

// columns writes a numbered line of subject, title and a word at the edge,
// wrapping the first two in their columns.
func (p *page) columns(n int, subject, title, word string, room int) {
	titleRoom := p.o.Columns - 5 - room - 2 - 14
	left, middle := wrap(subject, room), wrap(title, titleRoom)
	for i := 0; i < max(len(left), len(middle)); i++ {
		num, edge := "", ""
		if i == 0 {
			num, edge = fmt.Sprint(n), word
		}
		text := fmt.Sprintf("%3s  %s  %s", num, pad(at(left, i), room), pad(at(middle, i), titleRoom))
		if edge != "" {
			text += strings.Repeat(" ", max(p.o.Columns-width(text)-width(edge), 1)) + p.paint(edge, color.Bold)
		}
		p.line("%s", text)
	}
}

func sortByMargin(list []*finding.Finding) {
	for i := 1; i < len(list); i++ { // few and nearly sorted: insertion
		for j := i; j > 0 && *list[j].Margin < *list[j-1].Margin; j-- {
			list[j], list[j-1] = list[j-1], list[j]
		}
	}
}

func (p *page) strings() {
	if len(p.r.Strings) == 0 {
		return
	}
	name := 20 + (p.o.Columns-80)/2
	p.line("%s%5s%9s%14s   %s", pad("String by string", name+2), "met", "not met", "not assessed", "least to spare")
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

func (p *page) rest() {
	o := p.r.Outcome
	if p.o.All {
		p.besides()
	}
	person, gaps := 0, 0
	for _, b := range p.r.Books {
		person += b.ByPerson
		gaps += len(b.Gaps)
	}
	text := fmt.Sprintf("Besides: %s, %s; %s for a person to judge.", count(o.Minor, "minor", "minor"), count(o.Observation, "observation", "observations"), count(person, "clause is", "clauses are"))
	if gaps > 0 {
		text += fmt.Sprintf(" %s not judged by these books yet.", count(gaps, "clause is", "clauses are"))
	}
	if o.NotYetDue > 0 {
		text += fmt.Sprintf(" %s at a later stage.", count(o.NotYetDue, "is asked", "are asked"))
	}
	if n := len(p.r.Unread); n > 0 {
		text += fmt.Sprintf(" %s not read.", count(n, "part of the file was", "parts of the file were"))
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
		p.split(2, fmt.Sprintf("%s: %s, %s; %s", f.Grade, clean(f.Subject), f.Title, Numbers(f, p.o.Units)), "")
	}
	for _, n := range p.r.Unread {
		p.split(2, "not read: "+clean(n.Text), n.Place.String())
	}
	for _, n := range p.r.Notes {
		p.split(2, "note: "+clean(n.Text), n.Place.String())
	}
	if len(list)+len(p.r.Unread)+len(p.r.Notes) > 0 {
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
