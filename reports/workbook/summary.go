package workbook

import (
	"fmt"
	"sort"
	"strings"

	"spudgate/rules/finding"
)

// What one printed page has room for.
const (
	mostCauses  = 10
	mostWaiting = 6
	mostTight   = 5
	across      = 12 // columns of the summary
)

// laySummary lays the page that is signed.
func (b *book) laySummary() *grid {
	g := &grid{name: "Summary", portrait: true, onePage: true}
	for range across {
		g.columns = append(g.columns, 8.3)
	}
	b.layOutcome(g)
	b.layWell(g)
	b.layAgainst(g)
	b.layCauses(g)
	b.layStrings(g)
	b.layWaiting(g)
	b.layHoldPoints(g)
	b.laySignatures(g)
	b.layFoot(g)
	return g
}

func (b *book) layOutcome(g *grid) {
	r := b.record
	right := look{size: 9, color: grey, right: true, flow: true}
	g.high(21, text("Audit of a casing and cementing plan", title).over(9), text("as of "+r.AsOf, right).over(3))
	g.high(14, cell{formula: warning, value: "", look: look{bold: true, size: 10, middle: true}, span: across})
	word := look{size: 26, bold: true, color: slate, frame: medium, center: true, middle: true}
	if r.Outcome.Word == finding.Hold {
		word = look{size: 26, bold: true, color: paper, fill: brick, left: thick, center: true, middle: true}
	}
	why := fmt.Sprintf(`IF(%s>0,%s&IF(%s=1," input differs"," inputs differ")&" from the audit: the outcome no longer stands.",%s)`, changed, changed, changed, quoted(r.Outcome.Why))
	sentence := cell{value: clean(r.Outcome.Why), formula: why, look: look{size: 12, bold: true, color: slate, middle: true}, span: 9}
	outcome := cell{value: clean(r.Outcome.Word), formula: fmt.Sprintf(`IF(%s>0,"",%s)`, changed, quoted(r.Outcome.Word)), look: word, span: 3}
	row := g.next()
	g.high(max(46, g.height([]cell{{span: 3}, sentence})), outcome, sentence)
	g.outcome = at(1, row)
	g.add(text(b.counts(), small).over(across))
	g.high(5)
}

// counts says what there is besides what holds the plan.
func (b *book) counts() string {
	o := b.record.Outcome
	person, gaps := 0, 0
	for i := range b.record.Books {
		person += b.record.Books[i].ByPerson
		gaps += len(b.record.Books[i].Gaps)
	}
	parts := []string{
		count(o.Met, "requirement met", "requirements met"),
		count(o.Minor, "minor", "minors") + " and " + count(o.Observation, "observation", "observations") + " not met",
		fmt.Sprintf("%d varied", o.Varied),
		fmt.Sprintf("%d not yet due", o.NotYetDue),
		count(person, "clause", "clauses") + " for a person to judge",
	}
	if gaps > 0 {
		parts = append(parts, count(gaps, "clause", "clauses")+" that no requirement judges")
	}
	return strings.Join(parts, "; ") + "."
}

func (b *book) layWell(g *grid) {
	w := b.record.Well
	stage := stageText(w.Stage)
	if w.StageFrom != "" {
		stage += " (from the " + w.StageFrom + ")"
	}
	if w.StageFrom == "default" {
		stage = stageText(w.Stage) + " (none stated)"
	}
	facts := [][2]string{
		{"Well", w.Name}, {"Revision", w.Revision}, {"Operator", w.Operator}, {"Rig", w.Rig},
		{"Location", w.Location}, {"Planned spud", w.SpudDate}, {"Stage", stage}, {"Plan dated", w.PlanDate},
	}
	for i := 0; i < len(facts); i += 2 {
		l, r := facts[i], facts[i+1]
		g.add(text(l[0], faint).over(2), text(stated(l[1]), strong).over(5), text(r[0], faint).over(2), text(stated(r[1]), strong).over(3))
	}
}

func stated(s string) string {
	if s == "" {
		return "not stated"
	}
	return s
}

func (b *book) layAgainst(g *grid) {
	b.heading(g, "Judged against")
	for i := range b.record.Books {
		k := &b.record.Books[i]
		kind := "good practice"
		if k.Regulation {
			kind = "regulation"
		}
		g.add(text(kind, faint).over(2), text(k.Title, plain).over(7), text(k.Edition, plain).over(3))
	}
	link := linked
	g.add(text("design basis", faint).over(2), text(b.record.Basis.Name, link).over(7).to(b.basis.ref(1, 1)), text("as of "+b.record.AsOf, plain).over(3))
}

// heading sets off a part of the page.
func (b *book) heading(g *grid, s string) {
	g.high(6)
	g.high(16, text(s, section).over(across))
}

func (b *book) layCauses(g *grid) {
	causes := b.record.Causes()
	if len(causes) == 0 {
		b.layTightest(g)
		return
	}
	b.heading(g, "What holds it")
	for _, f := range causes[:min(len(causes), mostCauses)] {
		no := text("", plain)
		if row := b.rowOf[f]; row > 0 {
			no = counted(row - b.findings.head).to(b.findings.ref(1, row))
			no.look.under, no.look.color = true, slate
		}
		g.add(no, text(verdictText(f), of(f.Verdict)).over(2), text(f.Subject, strong).over(3), text(f.Title+"\n"+b.inShort(f), plain).over(6))
	}
	if n := len(causes) - mostCauses; n > 0 {
		g.add(text(fmt.Sprintf("and %d more", n), linked).over(across).to(b.findings.ref(1, b.findings.head+1)))
	}
}

// inShort is a finding's numbers, or what it needs, in a line.
func (b *book) inShort(f *finding.Finding) string {
	if f.Verdict == finding.NotAssessed || f.Measure == nil {
		return strings.ReplaceAll(why(f), "\n", "; ")
	}
	measure, limit := f.Measure.Show(b.units), f.Limit.Show(b.units)
	if f.Measure.Quantity != nil && f.Limit != nil && f.Limit.Quantity != nil {
		m, l := apart(b.figure(*f.Measure.Quantity), b.figure(*f.Limit.Quantity))
		measure, limit = m.text(), l.text()
	}
	parts := []string{measure}
	if want := strings.TrimSpace(senseText(f) + limit); want != "" {
		parts = append(parts, "wants "+want)
	}
	if f.At != nil {
		parts = append(parts, b.inWell(&finding.At{MD: f.At.MD, TVD: f.At.TVD}))
	}
	return strings.Join(parts, "; ")
}

// layTightest lists what a clear plan has least to spare.
func (b *book) layTightest(g *grid) {
	b.heading(g, "Least to spare")
	var list []*finding.Finding
	for i := range b.record.Findings {
		f := &b.record.Findings[i]
		if f.Verdict == finding.Met && f.Margin != nil && f.Grade == finding.Major {
			list = append(list, f)
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return *list[i].Margin < *list[j].Margin })
	for i, f := range list[:min(len(list), mostTight)] {
		g.add(counted(i+1), text(f.Subject, strong).over(4), text(f.Title+"\n"+b.inShort(f), plain).over(6), marginCell(f))
	}
}

func (b *book) layStrings(g *grid) {
	if len(b.record.Strings) == 0 {
		return
	}
	b.heading(g, "String by string")
	g.add(words("String").over(3), numbers("Met"), numbers("Not met"), numbers("Not assessed").over(2), words("Least to spare").over(4), numbers("Margin"))
	for i := range b.record.Strings {
		s := &b.record.Strings[i]
		margin := marginCell(&finding.Finding{Margin: s.Margin})
		g.add(text(s.Name, linked).over(3).to(b.stringPlace(s.Name)), counted(s.Met), counted(s.NotMet), counted(s.NotAssessed).over(2), text(s.Least, plain).over(4), margin)
	}
}

func counted(n int) cell { return cell{value: float64(n), look: whole} }

// stringPlace is where a reader finds the string: its first finding, or else
// its first line in the register.
func (b *book) stringPlace(name string) string {
	for _, f := range b.list {
		if f.String == name {
			return b.findings.ref(1, b.rowOf[f])
		}
	}
	for i := range b.record.Findings {
		if b.record.Findings[i].String == name {
			return b.register.ref(1, b.register.head+1+i)
		}
	}
	return b.register.ref(1, 1)
}

func (b *book) layWaiting(g *grid) {
	if len(b.record.Waiting) == 0 {
		return
	}
	b.heading(g, "Missing: to ask the contractor for")
	for _, w := range b.record.Waiting[:min(len(b.record.Waiting), mostWaiting)] {
		n := count(w.Requirements, "requirement waits", "requirements wait")
		if w.Majors > 0 {
			n += ", " + count(w.Majors, "major", "majors")
		}
		g.add(text(w.Input, plain).over(6), text(w.Place.String(), plain).over(2), text(n, plain).over(4))
	}
	if n := len(b.record.Waiting) - mostWaiting; n > 0 {
		g.add(text(fmt.Sprintf("and %d more", n), linked).over(across).to(b.findings.ref(1, b.findings.head+1)))
	}
}
