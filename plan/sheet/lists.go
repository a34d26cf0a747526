package sheet

import (
	"slices"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// table is a sheet of records whose columns have been understood.
type table struct {
	*grid
	page    *page
	header  int // index of the header row
	below   int // index of the first record
	cols    []tableColumn
	well    int              // column of the well's name, 0 if there is none
	parents []int            // columns of the parents' names, outermost first
	merged  map[[2]int]*cell // cells of key columns that a merged one covers
	index   map[*doc.Node]names
	settled map[int]bool // columns that a remark or fault has dealt with
	told    bool         // that a parent's column is missing
}

type tableColumn struct {
	col  int
	head heading
}

// parentFields are the names by which the rows of a page say what they belong
// to, outermost first.
func (p *page) parentFields() []*form.Field {
	out := make([]*form.Field, len(p.chain))
	for i, f := range p.chain {
		out[i] = f.Of.NameField()
	}
	return out
}

// list reads a sheet of records.
func (r *reader) list(p *page, g *grid) {
	t, ok := r.table(p, g)
	if !ok {
		return
	}
	refs := map[*well][]doc.Member{}
	for i := t.below; i < len(g.rows); i++ {
		row := &g.rows[i]
		if !t.says(row) {
			continue
		}
		w := r.wellOf(t, row)
		if w == nil {
			continue
		}
		if refs[w] == nil {
			refs[w] = r.keys(w, t)
		}
		r.record(w, t, row, refs[w])
	}
}

// says reports whether a row holds anything in a column that is read.
func (t *table) says(row *row) bool {
	for _, c := range t.cols {
		if c := row.at(c.col); c != nil && !(c.kind == textual && blank(c.s)) {
			return true
		}
	}
	return false
}

// table finds the header row, the best match within the first rows, and
// understands its columns.
func (r *reader) table(p *page, g *grid) (*table, bool) {
	if len(g.rows) == 0 {
		return nil, false
	}
	m := p.matcher()
	best, most := -1, 0
	for i := 0; i < min(headerRows, len(g.rows)); i++ {
		if n := m.score(&g.rows[i]); n > most {
			best, most = i, n
		}
	}
	if best < 0 {
		first := p.matcher().own[0].Title
		r.fault(r.at(g, g.rows[0].cells[0].col, g.rows[0].n), "no row of column names", "one in the first 20 rows, with names such as "+first)
		return nil, false
	}
	t := &table{grid: g, page: p, header: best, below: best + 1, parents: make([]int, len(p.chain)), index: map[*doc.Node]names{}, settled: map[int]bool{}}
	r.columns(t, m)
	r.unitRow(t)
	r.unread(t)
	t.merge()
	return t, true
}

// matcher knows the headers of a page.
type matcher struct {
	own     []*form.Field
	dir     directory
	well    directory
	parents []directory
}

func (p *page) matcher() matcher {
	m := matcher{own: columns(p.list.Of)}
	m.dir = directoryOf(m.own)
	m.well = directoryOf([]*form.Field{pages[0].cards[0].Of.NameField()})
	for _, f := range p.parentFields() {
		m.parents = append(m.parents, directoryOf([]*form.Field{f}))
	}
	return m
}

// parent is the index of the parent a header names: by its title, or by
// another of its names if no column of the page's own is called so.
func (m *matcher) parent(s string, titles bool) int {
	for i, d := range m.parents {
		if f, title := d.find(s); f != nil && title == titles {
			return i
		}
	}
	return -1
}

func (m *matcher) score(row *row) int {
	n := 0
	for _, c := range row.cells {
		if c.kind != textual || len(c.s) > 200 {
			continue
		}
		_, own := m.dir.heading(c.s)
		f, _ := m.well.find(c.s)
		if own || f != nil || m.parent(c.s, true) >= 0 || m.parent(c.s, false) >= 0 {
			n++
		}
	}
	return n
}

// columns gives each header its meaning. Where two columns name one field, the
// one that uses its title is read, else the first.
func (r *reader) columns(t *table, m matcher) {
	head := &t.rows[t.header]
	for _, c := range head.cells {
		if c.kind != textual {
			continue
		}
		at := r.at(t.grid, c.col, head.n)
		if i := m.parent(c.s, true); i >= 0 && t.parents[i] == 0 {
			t.parents[i] = c.col
			continue
		}
		if h, ok := m.dir.heading(c.s); ok {
			r.addColumn(t, tableColumn{col: c.col, head: h}, at)
			continue
		}
		if i := m.parent(c.s, false); i >= 0 && t.parents[i] == 0 {
			t.parents[i] = c.col
			continue
		}
		if f, _ := m.well.find(c.s); f != nil && t.well == 0 {
			t.well = c.col
		}
	}
	t.cols = slices.DeleteFunc(t.cols, func(c tableColumn) bool {
		t.settled[c.col] = true
		return !r.usable(c.head, r.at(t.grid, c.col, head.n))
	})
}

func (r *reader) addColumn(t *table, c tableColumn, at place.Place) {
	i := slices.IndexFunc(t.cols, func(o tableColumn) bool { return o.head.field == c.head.field })
	if i < 0 {
		t.cols = append(t.cols, c)
		return
	}
	if c.head.close && !t.cols[i].head.close {
		t.cols[i], c = c, t.cols[i]
	}
	n := t.rows[t.header].n
	t.settled[c.col] = true
	r.remark(r.at(t.grid, c.col, n), "column "+column(t.cols[i].col)+" is read for "+doc.Quote(c.head.field.Title)+"; this one isn't")
}

// unitRow takes the units from the row under the header, where every cell of
// it is one.
func (r *reader) unitRow(t *table) {
	if t.below >= len(t.rows) {
		return
	}
	row := &t.rows[t.below]
	found := map[int]string{}
	for _, c := range row.cells {
		base, inner, _ := brackets(c.s)
		u, ok := units.ByName(strings.TrimSpace(base + inner))
		if c.kind != textual || !ok {
			return
		}
		found[c.col] = u.Symbol
	}
	any := false
	for i := range t.cols {
		c := &t.cols[i]
		if u, ok := found[c.col]; ok && measured(c.head.field) && fits(c.head.field, must(u)) {
			c.head.unit, any = u, true
		}
	}
	if any {
		t.below++
	}
}

// unread says which columns hold something and aren't read.
func (r *reader) unread(t *table) {
	read := t.settled
	for _, c := range append([]int{t.well}, t.parents...) {
		read[c] = true
	}
	head := &t.rows[t.header]
	for i := t.below; i < len(t.rows); i++ {
		for _, c := range t.rows[i].cells {
			if read[c.col] {
				continue
			}
			read[c.col] = true
			if h := head.at(c.col); h != nil {
				r.remark(r.at(t.grid, c.col, head.n), doc.Quote(r.written(h))+" isn't a column of this sheet; it isn't read")
			} else {
				r.remark(r.at(t.grid, c.col, t.rows[i].n), "the column has no header; it isn't read")
			}
		}
	}
}

// merge lets the value of a merged cell stand for all its rows in the columns
// that say what a row belongs to.
func (t *table) merge() {
	t.merged = map[[2]int]*cell{}
	for _, s := range t.merges {
		if s.firstCol != t.well && !slices.Contains(t.parents, s.firstCol) || s.firstCol == 0 {
			continue
		}
		var top *cell
		for i := range t.rows {
			if row := &t.rows[i]; row.n == s.firstRow {
				top = row.at(s.firstCol)
			} else if top != nil && row.n > s.firstRow && row.n <= s.lastRow {
				t.merged[[2]int{s.firstCol, row.n}] = top
			}
		}
	}
}

// key is the text in a column that says what a row belongs to.
func (r *reader) key(t *table, row *row, col int) string {
	if col == 0 {
		return ""
	}
	c := row.at(col)
	if c == nil {
		c = t.merged[[2]int{col, row.n}]
	}
	if c == nil || c.kind == textual && blank(c.s) {
		return ""
	}
	if c.uncached || c.kind == wrong {
		r.node(r.wells[0], c, r.at(t.grid, col, row.n), heading{field: form.Plan.Field("well").Of.NameField()})
		return ""
	}
	return r.written(c)
}

// wellOf is the plan a row belongs to.
func (r *reader) wellOf(t *table, row *row) *well {
	s := r.key(t, row, t.well)
	at := r.at(t.grid, max(t.well, row.cells[0].col), row.n)
	if t.well != 0 {
		at = r.at(t.grid, t.well, row.n)
	}
	var all []string
	for _, w := range r.wells {
		if s != "" && same(w.name, s) || len(r.wells) == 1 && (s == "" || w.name == "") {
			return w
		}
		all = append(all, w.name)
	}
	found := "no well's name"
	if s != "" {
		found = "well " + doc.Quote(s)
	}
	r.fault(at, found, "a name from sheet "+pages[0].name+": "+several(all))
	return nil
}

// same compares two names as people type them.
func same(a, b string) bool { return strings.EqualFold(spaced(a), spaced(b)) }

// keys gives the member names of the columns their places, once for each plan.
func (r *reader) keys(w *well, t *table) []doc.Member {
	out := make([]doc.Member, len(t.cols))
	n := t.rows[t.header].n
	for i, c := range t.cols {
		at := r.at(t.grid, c.col, n)
		out[i] = doc.Member{Key: c.head.field.Name, KeyRef: w.doc.Add(at, r.text(t.grid, at))}
	}
	return out
}

// record reads one row into the list it belongs to.
func (r *reader) record(w *well, t *table, row *row, keys []doc.Member) {
	list, ok := r.listOf(w, t, row)
	if !ok {
		return
	}
	rec := &doc.Node{Kind: doc.Object, Ref: w.doc.Add(r.at(t.grid, row.cells[0].col, row.n), "")}
	for i, c := range t.cols {
		if n := r.node(w, row.at(c.col), r.at(t.grid, c.col, row.n), c.head); n != nil {
			m := keys[i]
			m.Value = n
			rec.Members = append(rec.Members, m)
		}
	}
	dropPlaceholder(rec)
	list.Items = append(list.Items, rec)
}
