package workbook

import (
	"fmt"

	"spudgate/rules/finding"
)

// The columns of Workings.
const (
	stepColumn = iota + 1
	nameColumn
	valueColumn
	unitColumn
	auditedColumn
	siColumn
)

// layWorkings lays how each measure came about: formula, inputs, result. The
// inputs may be changed; what an earlier step gave is taken over.
func (b *book) layWorkings() *grid {
	g := &grid{name: "Workings", columns: []float64{6, 36, 15, 11, 14, 17, 12, 16, 44}}
	g.top("Workings", b.record)
	g.rows[2].cells[0].value = clean(about(b.record)) + ". Tinted values may be changed, for a what-if; each working stands alone."
	g.heads(numbers("Step"), words("Quantity"), numbers("Value"), words("Unit"), numbers("As audited"), numbers("In SI"), words("SI unit"), words("In the plan"), words("Note"))
	b.workOf = map[*finding.Finding]int{}
	var list []*finding.Finding
	for i := range b.record.Findings {
		if f := &b.record.Findings[i]; len(f.Working) > 0 {
			list = append(list, f)
		}
	}
	b.record.Order(list)
	for _, f := range list {
		b.layWorking(g, f)
	}
	g.inputs = []pair{{letter(valueColumn), letter(auditedColumn), g.head + 1, max(len(g.rows), g.head+1)}}
	return g
}

// layWorking lays the steps of one finding.
func (b *book) layWorking(g *grid, f *finding.Finding) {
	head := fmt.Sprintf("%s: %s (%s)", f.Subject, f.Title, verdictText(f))
	b.workOf[f] = g.high(16, text(head, group).over(6), text(f.Cite.String(), group).over(3))
	earlier := map[string]given{}
	for i := range f.Working {
		w := &f.Working[i]
		g.add(counted(i+1), text(w.Result.Name+" = "+w.Formula, look{bottom: thin, bold: true}).over(7), text(w.Source, faint))
		terms := map[string]term{}
		for k := range w.Inputs {
			terms[w.Inputs[k].Name] = b.layInput(g, &w.Inputs[k], earlier)
		}
		b.layResult(g, w, terms)
		earlier[w.Result.Name] = given{w.Result.Value, g.next() - 1}
	}
}

// given is the result of an earlier step and its row.
type given struct {
	value finding.Value
	row   int
}

// layInput lays one input and gives the term it stands for.
func (b *book) layInput(g *grid, in *finding.Input, earlier map[string]given) term {
	row, v := g.next(), valueOf(in.Value)
	line := b.valueLine(in)
	t := term{v, at(siColumn, row)}
	if from, ok := earlier[in.Name]; ok && agree(valueOf(from.value), v) {
		line[valueColumn-1].formula = at(valueColumn, from.row)
		line[siColumn-1].formula = at(siColumn, from.row)
	} else {
		line[auditedColumn-1] = line[valueColumn-1]
		line[auditedColumn-1].look.color, line[auditedColumn-1].look.size = grey, 8
		line[valueColumn-1].look.open, line[valueColumn-1].look.fill = true, entry
		line[siColumn-1].formula = at(valueColumn, row)
		if q := in.Value.Quantity; q != nil {
			line[siColumn-1].formula = inSI(at(valueColumn, row), b.figure(*q).unit)
		}
	}
	g.add(line...)
	return t
}

// layResult lays what the step gives, live where its formula can be.
func (b *book) layResult(g *grid, w *finding.Working, terms map[string]term) {
	line := b.valueLine(&w.Result)
	for i := range line {
		line[i].look.bold = true
		line[i].look.top = thin
	}
	formula, ok := live(w.Formula, terms, valueOf(w.Result.Value))
	value, si := &line[valueColumn-1], &line[siColumn-1]
	switch q := w.Result.Value.Quantity; {
	case !ok:
		value.look.italic, si.look.italic = true, true
	case q != nil:
		si.formula = formula
		value.formula = fromSI(at(siColumn, g.next()), b.figure(*q).unit)
	case w.Result.Value.Truth != nil:
		si.formula = formula
		value.value = w.Result.Value.Show(b.units)
		value.formula = fmt.Sprintf(`IF(%s,"yes","no")`, at(siColumn, g.next()))
	default:
		si.formula = formula
		value.formula = at(siColumn, g.next())
	}
	note := "audited: " + w.Result.Value.Show(b.units)
	if !ok {
		note = "from the audit"
	}
	if w.Result.Note != "" {
		note += "; " + w.Result.Note
	}
	line[len(line)-1] = text(note, faint)
	g.add(line...)
}

// valueLine is the row of a named value.
func (b *book) valueLine(in *finding.Input) []cell {
	value, unit, si, siUnit := b.both(in.Value)
	return []cell{text("", plain), text(in.Name, plain), value, text(unit, plain), text("", faint), si, text(siUnit, faint), text(in.Place.String(), plain), text(in.Note, faint)}
}

// both is a value in the reader's unit and in SI.
func (b *book) both(v finding.Value) (value cell, unit string, si cell, siUnit string) {
	quiet := number
	quiet.color = grey
	switch {
	case v.Quantity != nil:
		f := b.figure(*v.Quantity).fully()
		l := number
		l.number = f.format(false)
		quiet.number = "General"
		siUnit = v.Quantity.Dim.SI()
		if siUnit == "1" {
			siUnit = ""
		}
		return cell{value: f.x, look: l}, f.symbol(), cell{value: v.Quantity.SI, look: quiet}, siUnit
	case v.Truth != nil:
		return cell{value: *v.Truth, look: number}, "", cell{value: *v.Truth, look: quiet}, ""
	}
	return text(v.Text, number), "", text(v.Text, quiet), ""
}
