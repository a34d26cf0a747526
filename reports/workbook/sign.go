package workbook

import (
	"fmt"
	"slices"
	"strings"

	"spudgate/rules/finding"
)

// blank is a place to write on, on paper or in the file.
var blank = look{bottom: medium, open: true, fill: entry}

// layHoldPoints lays what must be released before the well goes on.
func (b *book) layHoldPoints(g *grid) {
	b.heading(g, "Hold points")
	g.add(words("Before going on").over(8), words("Released by, date").over(4))
	points := b.holdPoints()
	for _, p := range points {
		p.look = plain
		if p.link != "" {
			p.look = linked
		}
		g.high(max(15, g.height([]cell{p.over(8)})), p.over(8), text("", blank).over(4))
	}
}

func (b *book) holdPoints() []cell {
	var out []cell
	if n := len(b.record.Causes()); n > 0 {
		words := count(n, "finding that holds", "findings that hold")
		out = append(out, text(words+" the plan: closed by a revision, or varied in writing", plain).to(b.findings.ref(1, b.findings.head+1)))
	}
	for _, s := range []finding.Stage{finding.Permit, finding.Programme, finding.PreSpud} {
		n := 0
		for i := range b.record.Findings {
			if f := &b.record.Findings[i]; f.NotYetDue && f.Stage == s {
				n++
			}
		}
		if n > 0 {
			out = append(out, text(fmt.Sprintf("%s due at the stage %s: audited again then", count(n, "requirement is", "requirements are"), stageText(s)), plain))
		}
	}
	person := 0
	for i := range b.record.Books {
		person += b.record.Books[i].ByPerson
	}
	if person > 0 {
		out = append(out, text(count(person, "clause", "clauses")+" only a person can judge: gone through", plain).to(b.register.ref(1, b.person)))
	}
	return append(out, text("Plan spudded from is the revision audited here", plain))
}

func (b *book) laySignatures(g *grid) {
	b.heading(g, "Signatures")
	g.add(words("For").over(3), words("Name").over(3), words("Signature").over(4), words("Date").over(2))
	for _, who := range []string{"Planned by", "Reviewed by", "Accepted for the operator"} {
		g.high(20, text(who, plain).over(3), text("", blank).over(3), text("", blank).over(4), text("", blank).over(2))
	}
}

// layFoot lays what the page rests on, and the count of changed inputs that
// every warning looks at.
func (b *book) layFoot(g *grid) {
	r := b.record
	g.high(6)
	var files []string
	for _, s := range r.Inputs {
		files = append(files, s.Role+" "+s.Name+" "+s.SHA256[:min(12, len(s.SHA256))])
	}
	g.add(text("Made by "+r.Tool.Name+" "+r.Tool.Version+". SHA-256 begins: "+strings.Join(files, "; ")+".", small).over(across))
	if n := len(r.Unread) + len(r.Notes); n > 0 && b.notes != "" {
		l := small
		l.under = true
		words := count(len(r.Notes), "note", "notes") + " on how the plan was read; " + count(len(r.Unread), "part", "parts") + " of the file not read."
		g.add(text(words, l).over(across).to(b.notes))
	}
	row := g.next()
	n := small
	n.number = "0"
	g.high(12, text("Inputs that differ from the audit", small).over(4), cell{value: 0.0, formula: b.differing(), look: n}, text(r.Caution, small).over(7))
	b.counter = "'Summary'!$" + letter(5) + "$" + fmt.Sprint(row)
}

// differing counts the inputs of all sheets that aren't the audited value. An
// input that is an error counts, too.
func (b *book) differing() string {
	var sums []string
	for _, g := range slices.Concat(b.tables, []*grid{b.workings}) {
		for _, p := range g.inputs {
			in := fmt.Sprintf("%s!%s%d:%s%d", quote(g.name), p.input, p.from, p.input, p.to)
			audited := fmt.Sprintf("%s!%s%d:%s%d", quote(g.name), p.audited, p.from, p.audited, p.to)
			sums = append(sums, fmt.Sprintf(`IFERROR(SUMPRODUCT((%s<>"")*(%s<>%s)),1)`, audited, in, audited))
		}
	}
	return strings.Join(sums, "+")
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
