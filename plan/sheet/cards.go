package sheet

import (
	"slices"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// line is a row of a sheet of cards that was understood: a label and what
// stands to its right.
type line struct {
	*row
	label  int         // its column
	card   *form.Field // nil for a value of the plan itself
	head   heading
	beside []cell // to the right of the label
}

// cards reads a sheet of cards.
func (r *reader) cards(p *page, g *grid) {
	lines := r.lines(p, g)
	cols := r.valueColumns(p, g, lines)
	if len(cols) == 0 {
		return
	}
	heads := r.headings(p, g)
	for _, l := range lines {
		unit := r.besides(g, l, cols)
		for i, w := range r.wells {
			if i >= len(cols) || cols[i] == 0 {
				continue
			}
			if c := l.at(cols[i]); c != nil {
				r.cardValue(w, g, l, c, unit, heads)
			}
		}
	}
}

// lines understands the labels of a sheet. A label counts within the card
// whose heading stands above it; one that the card doesn't know may belong to
// any card of the sheet, if only one knows it.
func (r *reader) lines(p *page, g *grid) []line {
	known := map[*form.Field]directory{nil: directoryOf(roots())}
	for _, c := range p.cards {
		known[c] = directoryOf(columns(c.Of))
	}
	order := append([]*form.Field{nil}, p.cards...)
	var section *form.Field
	var out []line
	for i := range g.rows {
		row := &g.rows[i]
		first := row.cells[0]
		if first.kind != textual {
			r.remark(r.at(g, first.col, row.n), "no label stands before it; it isn't read")
			continue
		}
		if len(row.cells) == 1 {
			if c := cardCalled(p, first.s); c != nil {
				section = c
			}
			continue
		}
		l := line{row: row, label: first.col, beside: row.cells[1:]}
		var ok bool
		if l.card, l.head, ok = findLabel(known, order, section, first.s); !ok {
			r.remark(r.at(g, first.col, row.n), doc.Quote(first.s)+" isn't a label of this sheet; its value isn't read")
			continue
		}
		out = append(out, l)
	}
	return out
}

func cardCalled(p *page, s string) *form.Field {
	for _, c := range p.cards {
		if fold(c.Title) == fold(s) || fold(c.Name) == fold(s) {
			return c
		}
	}
	return nil
}

func findLabel(known map[*form.Field]directory, order []*form.Field, section *form.Field, s string) (*form.Field, heading, bool) {
	if section != nil {
		if h, ok := known[section].heading(s); ok {
			return section, h, true
		}
	}
	var card *form.Field
	var head heading
	found := 0
	for _, c := range order {
		if h, ok := known[c].heading(s); ok {
			card, head, found = c, h, found+1
		}
	}
	return card, head, found == 1
}

// valueColumns gives the column of each well's values. The sheet that holds
// the well's name has a column for each name; the other sheets of cards say
// under which name a column stands, or keep the order.
func (r *reader) valueColumns(p *page, g *grid, lines []line) []int {
	for _, l := range lines {
		if l.card == p.cards[0] && l.card.Of.NameField() == l.head.field && p == pages[0] {
			return r.nameWells(g, l)
		}
	}
	if len(r.wells) > 1 {
		return r.column
	}
	votes := map[int]int{}
	best := 0
	for _, l := range lines {
		for _, c := range l.beside {
			if !isUnit(c, l.head.field) {
				votes[c.col]++
				break
			}
		}
	}
	for col, n := range votes {
		if best == 0 || n > votes[best] || n == votes[best] && col < best {
			best = col
		}
	}
	if best == 0 {
		return nil
	}
	return []int{best}
}

// nameWells makes a plan for each well that the row of names gives.
func (r *reader) nameWells(g *grid, l line) []int {
	first := r.wells[0].doc
	for _, c := range l.beside {
		s := c.s
		if c.kind != textual {
			s = r.written(&c)
		}
		if twin := slices.IndexFunc(r.wells, func(w *well) bool { return w.name != "" && same(w.name, s) }); twin >= 0 {
			r.fault(r.at(g, c.col, l.n), "well "+doc.Quote(s)+" again", "a name of its own for each well")
			continue
		}
		if len(r.column) > 0 {
			r.wells = append(r.wells, &well{doc: &doc.Doc{File: first.File, Format: first.Format, SHA256: first.SHA256}})
		}
		r.wells[len(r.column)].name = s
		r.column = append(r.column, c.col)
	}
	return r.column
}

// besides looks at the cells of a row that aren't values: one may hold the
// unit of the row, what else there is gets a remark.
func (r *reader) besides(g *grid, l line, cols []int) string {
	unit := ""
	for _, c := range l.beside {
		switch {
		case slices.Contains(cols, c.col):
		case unit == "" && isUnit(c, l.head.field):
			u, _ := units.ByName(c.s)
			unit = u.Symbol
		default:
			r.remark(r.at(g, c.col, l.n), "no well has its values in this column; the cell isn't read")
		}
	}
	return unit
}

func isUnit(c cell, f *form.Field) bool {
	if c.kind != textual || !measured(f) {
		return false
	}
	u, ok := units.ByName(c.s)
	return ok && fits(f, u)
}

// headings are the places of the cards' own headings.
func (r *reader) headings(p *page, g *grid) map[*form.Field]place.Place {
	out := map[*form.Field]place.Place{}
	for i := range g.rows {
		row := &g.rows[i]
		c := cardCalled(p, row.cells[0].s)
		if _, seen := out[c]; c != nil && !seen && len(row.cells) == 1 {
			out[c] = r.at(g, row.cells[0].col, row.n)
		}
	}
	return out
}

func (r *reader) cardValue(w *well, g *grid, l line, c *cell, unit string, heads map[*form.Field]place.Place) {
	at, label := r.at(g, c.col, l.n), r.at(g, l.label, l.n)
	h := l.head
	if unit != "" {
		h.unit = unit
	}
	if !r.usable(h, label) {
		return
	}
	to := w.root(at)
	if l.card != nil {
		head, ok := heads[l.card]
		if !ok {
			head = label
		}
		to = w.member(to, l.card, head)
	}
	if old := to.Get(h.field.Name); old != nil {
		r.remark(at, "stated again: "+w.doc.Place(old.Ref).String()+" is read, this isn't")
		return
	}
	if n := r.node(w, c, at, h); n != nil {
		to.Members = append(to.Members, doc.Member{Key: h.field.Name, KeyRef: w.doc.Add(label, r.text(g, label)), Value: n})
	}
	if l.card == nil {
		w.setSystem()
	}
}

// usable notes what a label or header says that can't be taken into account.
func (r *reader) usable(h heading, at place.Place) bool {
	if h.alien != "" {
		want := "a unit of " + h.field.Dim.String()
		if h.field.Kind == form.Grade {
			want = "a unit of density, gradient or pressure"
		}
		r.fault(at, "the unit "+h.alien, want+" such as "+h.field.Unit[units.Field]+" or "+h.field.Unit[units.Metric])
		return false
	}
	if h.extra != "" && measured(h.field) {
		r.remark(at, doc.Quote(h.extra)+" isn't a unit or a datum; it isn't taken into account")
	}
	return true
}

func (r *reader) at(g *grid, col, row int) place.Place {
	return place.Place{File: r.book.file, Sheet: g.name, Cell: name(col, row)}
}

// text is what stands in a cell.
func (r *reader) text(g *grid, at place.Place) string {
	col, n, _ := coordinates(at.Cell)
	i, ok := slices.BinarySearchFunc(g.rows, n, func(row row, n int) int { return row.n - n })
	if !ok {
		return ""
	}
	if c := g.rows[i].at(col); c != nil {
		return r.written(c)
	}
	return ""
}
