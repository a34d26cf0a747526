package workbook

import (
	"slices"
	"strings"

	"spudgate/rules/finding"
)

// layFindings lays what isn't met, isn't assessed or was varied, one row each.
func (b *book) layFindings() *grid {
	g := &grid{name: "Findings", columns: []float64{4.5, 10, 12, 17, 19, 11.5, 14, 8, 15, 12.5, 25, 18, 9.5, 22}}
	b.rowOf = map[*finding.Finding]int{}
	for i := range b.record.Findings {
		f := &b.record.Findings[i]
		if f.Verdict == finding.NotMet || f.Verdict == finding.NotAssessed || f.Verdict == finding.Varied {
			b.list = append(b.list, f)
		}
	}
	b.record.Order(b.list)
	slices.SortStableFunc(b.list, laterLast)
	g.top("Findings", b.record)
	head := g.heads(numbers("No."), words("Grade"), words("Verdict"), words("Subject"), words("Requirement"), numbers("Measure"), numbers("Limit"), numbers("Margin"), words("In the well"), words("In the plan"), words("Missing, or why"), words("Stands in"), words("How sure"), words("What would mend it"))
	for i, f := range b.list {
		b.rowOf[f] = g.add(b.findingRow(i+1, f)...)
	}
	if len(b.list) == 0 {
		g.add(text("Every requirement that applies is met.", plain).over(len(g.columns)))
	}
	g.filter = at(1, head) + ":" + at(len(g.columns), len(g.rows))
	return g
}

// laterLast puts what is asked at a later stage only behind the rest.
func laterLast(a, b *finding.Finding) int {
	switch {
	case a.NotYetDue == b.NotYetDue:
		return 0
	case a.NotYetDue:
		return 1
	}
	return -1
}

func (b *book) findingRow(no int, f *finding.Finding) []cell {
	measure, limit := b.measured(f, 11.5, 14)
	if row := b.workOf[f]; row > 0 && measure.value != "" {
		measure.look.under = true
		measure = measure.to(b.workings.ref(1, row))
	}
	return []cell{
		counted(no),
		text(string(f.Grade), plain),
		text(verdictText(f), of(f.Verdict)),
		text(f.Subject, plain),
		text(f.Title, strong),
		measure, limit, marginCell(f),
		text(b.inWell(f.At), plain),
		text(inPlan(f), plain),
		text(why(f), plain),
		text(f.Cite.String(), plain),
		text(string(f.Sure), plain),
		text(f.Mend(b.units), plain),
	}
}

func verdictText(f *finding.Finding) string {
	if f.Failed {
		return "failed to run"
	}
	return string(f.Verdict)
}

// measured are the cells of measure and limit: numbers where the columns are
// wide enough for them, nothing where the requirement doesn't apply.
func (b *book) measured(f *finding.Finding, measureWidth, limitWidth float64) (cell, cell) {
	if f.Verdict == finding.NotApplicable {
		return text("", plain), text("", plain)
	}
	measure := text(f.Measure.Show(b.units), number)
	limit := text(strings.TrimSpace(senseText(f)+f.Limit.Show(b.units)), number)
	if f.Measure == nil || f.Measure.Quantity == nil {
		return measure, limit
	}
	m := b.figure(*f.Measure.Quantity)
	if f.Limit != nil && f.Limit.Quantity != nil {
		var l figure
		m, l = apart(m, b.figure(*f.Limit.Quantity))
		limit = fitting(l, limitWidth, senseText(f))
	}
	return fitting(m, measureWidth, ""), limit
}

// fitting is a figure as a number, or as a text, which wraps, where the column
// is too narrow for it.
func fitting(f figure, width float64, lead string) cell {
	l := number
	if extent(lead+f.text(), l.points(), false) > (width*pixels-8)*0.75 {
		return text(lead+f.text(), l)
	}
	c := f.cell(l)
	if lead != "" {
		c.look.number = `"` + lead + `"` + c.look.number
	}
	return c
}

// senseText says in words how the measure is held against the limit.
func senseText(f *finding.Finding) string {
	switch f.Sense {
	case "true":
		return "yes"
	case "false":
		return "no"
	case "":
		return ""
	}
	if f.Limit == nil || f.Limit.Quantity == nil {
		return "" // texts are equal or not
	}
	return f.Sense + " "
}

// marginCell is what is to spare in per cent of the limit. What is wanting
// never shows as nothing, and beyond 999 % a number says nothing any more.
func marginCell(f *finding.Finding) cell {
	t := finding.MarginText(f.Margin)
	if f.Margin == nil || strings.ContainsAny(t, "<>") {
		return text(t, number)
	}
	l := number
	l.number = "0 %"
	return cell{value: *f.Margin, look: l}
}

func (b *book) inWell(a *finding.At) string {
	if a == nil {
		return ""
	}
	var parts []string
	if a.MD != nil {
		parts = append(parts, a.MD.Show(b.units)+" MD")
	}
	if a.TVD != nil {
		parts = append(parts, a.TVD.Show(b.units)+" TVD")
	}
	s := strings.Join(parts, ", ")
	if a.Why != "" && s != "" {
		return s + ": " + a.Why
	}
	return s + a.Why
}

// inPlan is where a reader of the plan goes.
func inPlan(f *finding.Finding) string {
	var out []string
	seen := map[string]bool{}
	add := func(s string) {
		if s != "" && !seen[s] && len(out) < 4 {
			seen[s] = true
			out = append(out, s)
		}
	}
	for _, p := range f.Places {
		add(p.String())
	}
	for _, m := range f.Missing {
		add(m.Place.String())
	}
	return strings.Join(out, "\n")
}

// why is what is missing and the reason; without one, when it's asked if not
// yet.
func why(f *finding.Finding) string {
	var parts []string
	for _, m := range f.Missing {
		parts = append(parts, "needs "+m.Input)
	}
	if f.Reason != "" {
		parts = append(parts, f.Reason)
	}
	if f.NotYetDue && f.Reason == "" {
		parts = append(parts, "not yet due: asked from "+stageText(f.Stage)+" on")
	}
	return strings.Join(parts, "\n")
}

func stageText(s finding.Stage) string { return strings.ReplaceAll(string(s), "_", "-") }
