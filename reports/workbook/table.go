package workbook

import (
	"fmt"
	"slices"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// sheetOf is a table of the record while it's laid on a sheet.
type sheetOf struct {
	*grid
	book   *book
	table  *finding.Table
	column []int // of the sheet, from 1, for each column of the table
	common []*units.Unit
}

// layTable lays a table: inputs open and with their audited value beside them,
// closed forms as live formulas, the rest as the audit gave it.
func (b *book) layTable(t *finding.Table) *grid {
	s := &sheetOf{grid: &grid{name: b.sheetName(t.Name)}, book: b, table: t}
	s.arrange()
	s.top(t.Title, b.record)
	if len(s.inputs) > 0 {
		s.legend()
	}
	s.heads(s.names()...)
	for i := range t.Rows {
		s.row(&t.Rows[i])
	}
	for i := range s.inputs {
		s.inputs[i].from, s.inputs[i].to = s.head+1, max(len(s.rows), s.head+1)
	}
	if t.Name == asRead {
		b.layNotes(s.grid)
	}
	return s.grid
}

// legend tells the three kinds of number apart.
func (s *sheetOf) legend() {
	tint := small
	tint.fill = entry
	word := small
	word.flow = true
	s.high(13.5, text("tinted", tint), text("may be changed, for a what-if; upright numbers follow, numbers in italics are from the audit and stay", word))
}

// arrange gives each column its place and its width.
func (s *sheetOf) arrange() {
	for i := range s.table.Columns {
		c := &s.table.Columns[i]
		s.column = append(s.column, len(s.columns)+1)
		s.common = append(s.common, s.unitOf(i))
		width := s.width(i)
		s.columns = append(s.columns, width)
		if c.Input {
			s.columns = append(s.columns, max(width-1, 8.5))
			s.inputs = append(s.inputs, pair{input: letter(len(s.columns) - 1), audited: letter(len(s.columns))})
		}
		if c.Name == verdictColumn {
			s.verdicts = letter(len(s.columns))
		}
	}
}

const verdictColumn = "verdict"

// numeric reports whether a column holds quantities.
func (s *sheetOf) numeric(column int) bool {
	return slices.ContainsFunc(s.table.Rows, func(r finding.Row) bool { return quantityAt(r, column) != nil })
}

// unitOf is the unit all quantities of a column share, or nil.
func (s *sheetOf) unitOf(column int) *units.Unit {
	var common *units.Unit
	for _, r := range s.table.Rows {
		q := quantityAt(r, column)
		if q == nil {
			continue
		}
		u := s.book.figure(*q).unit
		if common != nil && *common != u {
			return nil
		}
		common = &u
	}
	return common
}

func quantityAt(r finding.Row, column int) *finding.Quantity {
	if column >= len(r.Cells) {
		return nil
	}
	return r.Cells[column].Quantity
}

// width is as asked for, but no number is too wide for its column.
func (s *sheetOf) width(column int) float64 {
	w := float64(s.table.Columns[column].Width)
	if w == 0 {
		w = 10
	}
	w = min(w, 60)
	for _, r := range s.table.Rows {
		q := quantityAt(r, column)
		if q == nil {
			continue
		}
		t := s.book.figure(*q).text()
		w = max(w, extent(t, 9, true)/(pixels*0.75)+1.5)
	}
	return w
}

// names are the heads of the columns, with the unit that all of a column share.
func (s *sheetOf) names() []cell {
	var out []cell
	for i, c := range s.table.Columns {
		name := c.Title
		if u := s.common[i]; u != nil && u.Symbol != "1" {
			name += "\n" + u.Symbol
		}
		if s.numeric(i) {
			out = append(out, numbers(name))
		} else {
			out = append(out, words(name))
		}
		if c.Input {
			quiet := numbers("as audited")
			quiet.look.bold, quiet.look.size, quiet.look.color = false, 8, grey
			out = append(out, quiet)
		}
	}
	return out
}

func (s *sheetOf) row(r *finding.Row) {
	if name, ok := headingOf(r); ok {
		s.high(15, text(name, group).over(len(s.columns)))
		return
	}
	var cells []cell
	figures := s.figures(r)
	for i, c := range s.table.Columns {
		var v finding.Cell
		if i < len(r.Cells) {
			v = r.Cells[i]
		}
		body, copied := s.cell(r, i, v, figures[i])
		if r.Head {
			body.look.top, copied.look.top = dark, dark
		}
		cells = append(cells, body)
		if c.Input {
			cells = append(cells, copied)
		}
	}
	s.add(cells...)
}

// headingOf is the text of a row that is nothing but the head of a group.
func headingOf(r *finding.Row) (string, bool) {
	name, n := "", 0
	for _, c := range r.Cells {
		if c.Quantity != nil {
			return "", false
		}
		if c.Text != "" {
			name, n = c.Text, n+1
		}
	}
	return name, r.Head && n == 1
}

// figures are the quantities of a row; where the row isn't met, two that differ
// don't look alike.
func (s *sheetOf) figures(r *finding.Row) []figure {
	out := make([]figure, len(s.table.Columns))
	for i := range out {
		if q := quantityAt(*r, i); q != nil {
			out[i] = s.book.figure(*q)
		}
	}
	if r.Verdict != finding.NotMet {
		return out
	}
	for i := range out {
		for j := i + 1; j < len(out); j++ {
			if quantityAt(*r, i) != nil && quantityAt(*r, j) != nil {
				out[i], out[j] = apart(out[i], out[j])
			}
		}
	}
	return out
}

// cell is a cell of the table, and the copy of its audited value where it's an
// input.
func (s *sheetOf) cell(r *finding.Row, i int, v finding.Cell, f figure) (body, copied cell) {
	c := &s.table.Columns[i]
	copied = text("", faint)
	if v.Quantity == nil {
		return s.wordCell(r, i, v.Text), copied
	}
	l := number
	l.number = f.format(s.common[i] == nil)
	body = cell{value: f.x, look: l}
	switch {
	case c.Input:
		copied = body
		copied.look.size, copied.look.color = 8, grey
		body.look.open, body.look.fill = true, entry
	case c.Formula != "":
		formula, ok := live(c.Formula, s.terms(r), expr.Number(v.Quantity.SI, v.Quantity.Dim))
		if ok {
			body.formula = fromSI(formula, f.unit)
			break
		}
		body.look.italic = true
	case len(s.inputs) > 0:
		body.look.italic = true
	}
	return body, copied
}

// wordCell is a text of the table. A verdict follows its formula; without one
// it can't follow the inputs and goes blank when one is changed.
func (s *sheetOf) wordCell(r *finding.Row, i int, word string) cell {
	c := &s.table.Columns[i]
	t := text(word, plain)
	if c.Name != verdictColumn || word == "" {
		return t
	}
	t.look = of(finding.Verdict(word))
	if len(s.inputs) == 0 {
		return t
	}
	t.formula = fmt.Sprintf(`IF(%s>0,"",%s)`, changed, quoted(word))
	if formula, ok := live(c.Formula, s.terms(r), expr.TruthOf(word == string(finding.Met))); ok && decided(word) {
		t.formula = fmt.Sprintf(`IF(%s,"%s","%s")`, formula, finding.Met, finding.NotMet)
	}
	return t
}

// decided reports whether a verdict is one that a comparison gives.
func decided(word string) bool {
	return word == string(finding.Met) || word == string(finding.NotMet)
}

// terms are the cells of the row the sheet is about to add, by column name.
func (s *sheetOf) terms(r *finding.Row) map[string]term {
	out := map[string]term{}
	for i, c := range s.table.Columns {
		if i >= len(r.Cells) {
			break
		}
		ref := at(s.column[i], s.next())
		switch v := r.Cells[i]; {
		case v.Quantity != nil:
			out[c.Name] = term{expr.Number(v.Quantity.SI, v.Quantity.Dim), inSI(ref, s.book.figure(*v.Quantity).unit)}
		case v.Text != "":
			out[c.Name] = term{expr.TextOf(v.Text), ref}
		}
	}
	return out
}

// layNotes lays what the audit says of the plan as a whole and what of it
// wasn't read.
func (b *book) layNotes(g *grid) {
	for _, part := range []struct {
		name string
		list []finding.Note
	}{{"Not read", b.record.Unread}, {"Notes", b.record.Notes}} {
		if len(part.list) == 0 {
			continue
		}
		g.high(8)
		row := g.add(text(part.name, section).over(len(g.columns)))
		if b.notes == "" {
			b.notes = g.ref(1, row)
		}
		for _, n := range part.list {
			g.add(text(n.Place.String(), plain), text(n.Text, plain).over(len(g.columns)-1))
		}
	}
}
