package terminal

import (
	"fmt"
	"strings"

	"github.com/fatih/color"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

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
	for i := range p.r.Findings {
		if g := &p.r.Findings[i]; g.Governed == f.Key && g.Verdict == finding.NotMet {
			p.split(5, "also not met: "+g.Book+"/"+g.Requirement+", wants "+senseWord(g.Sense)+g.Limit.Show(p.o.Units), "")
		}
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
	lines := []string{Numbers(f, p.o.Units), clean(f.Reason)}
	if lines[0] == "" {
		lines = lines[1:]
	}
	for i, l := range lines {
		if i == 0 {
			p.split(5, l, where)
		} else if l != "" {
			p.split(5, l, "")
		}
	}
	if m := f.Mend(p.o.Units); m != "" {
		p.split(5, "mend: "+clean(m), "")
	}
}

// Numbers says the measure, what is wanted and where, in words.
func Numbers(f *finding.Finding, s units.System) string {
	var parts []string
	switch {
	case f.Measure == nil || f.Measure.Truth != nil: // the title says it
	default:
		got, want := finding.Apart(f.Measure, f.Limit, s)
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

// smallest lists what a clear plan has least to spare.
func (p *page) smallest() {
	var tight []*finding.Finding
	for i := range p.r.Findings {
		f := &p.r.Findings[i]
		if f.Verdict == finding.Met && f.Margin != nil && f.Grade == finding.Major && f.Governed == "" {
			tight = append(tight, f)
		}
	}
	sortByMargin(tight)
	p.line("Least to spare")
	room := 22 + (p.o.Columns-80)/2
	for i, f := range tight[:min(5, len(tight))] {
		got, want := finding.Apart(f.Measure, f.Limit, p.o.Units)
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
