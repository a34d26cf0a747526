package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// reader reads the plans of one workbook.
type reader struct {
	book   *book
	grids  map[*page]*grid
	left   budget
	wells  []*well
	column []int // of the value of each well, on the sheet that names them
	faults doc.Faults
}

// Read reads the plans of a workbook, one for each well it names. The tree is
// the one that the same plan in JSON would give, each value with its sheet and
// cell, each member name with the cell of its header or label. The error is
// [doc.Faults].
//
// What stands in the workbook and is no part of a plan is listed in Unread of
// the first document: unknown sheets, columns and labels, what is hidden,
// macros and links.
func Read(name string, b []byte) (docs []*doc.Doc, err error) {
	name = filepath.Base(name)
	defer func() {
		if p := recover(); p != nil {
			docs, err = nil, damaged(name, "it can't be taken apart")
		}
	}()
	bk, err := open(name, b)
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(b)
	first := &doc.Doc{File: name, Format: doc.Workbook, SHA256: hex.EncodeToString(sum[:])}
	r := &reader{book: bk, grids: map[*page]*grid{}, left: budget{MaxRows, MaxCells}, wells: []*well{{doc: first}}}
	bk.remarks(first)
	if err := r.sheets(); err != nil {
		return nil, err
	}
	for _, p := range pages {
		if g := r.grids[p]; g != nil {
			r.page(p, g)
		}
	}
	return r.finish()
}

// sheets finds the sheet of each page and reads its cells.
func (r *reader) sheets() error {
	for _, e := range r.book.sheets {
		p := pageOf(e.name)
		switch {
		case e.name == readMe || e.name == example:
			continue
		case p == nil:
			r.remark(place.Place{Sheet: e.name}, "no part of a plan is called so; the sheet isn't read")
			continue
		case r.grids[p] != nil:
			r.remark(place.Place{Sheet: e.name}, "sheet "+doc.Quote(r.grids[p].name)+" is taken for this part; the sheet isn't read")
			continue
		}
		g, err := r.book.grid(e, &r.left)
		if err != nil {
			return err
		}
		r.grids[p] = g
		r.hidden(g)
	}
	if len(r.grids) == 0 {
		return doc.Faults{{Place: place.Place{File: r.book.file}, Found: "no sheet of a plan", Expected: "sheets such as " + pages[0].name + ", " + pages[1].name + " and " + pages[2].name}}
	}
	return nil
}

// pageOf is the page a sheet's name stands for: its own name first, then the
// other names.
func pageOf(sheet string) *page {
	key := singular(fold(sheet))
	for _, p := range pages {
		if singular(fold(p.name)) == key {
			return p
		}
	}
	for _, p := range pages {
		for _, also := range p.also() {
			if also == key {
				return p
			}
		}
	}
	return nil
}

// hidden says what can't be seen when the workbook is opened.
func (r *reader) hidden(g *grid) {
	if g.sheetEntry.hidden {
		r.remark(place.Place{Sheet: g.name}, "the sheet is hidden; its values were taken all the same")
	}
	for i := range g.rows {
		if row := &g.rows[i]; row.hidden {
			r.remark(place.Place{Sheet: g.name, Cell: name(row.cells[0].col, row.n)}, "the row is hidden; its values were taken all the same")
		}
	}
}

func (r *reader) page(p *page, g *grid) {
	if p.list == nil {
		r.cards(p, g)
	} else {
		r.list(p, g)
	}
}

// finish puts the trees together.
func (r *reader) finish() ([]*doc.Doc, error) {
	if len(r.faults) > 0 {
		for i := range r.faults {
			r.faults[i].Place.File = r.book.file
		}
		return nil, r.faults.Sort()
	}
	docs := make([]*doc.Doc, len(r.wells))
	for i, w := range r.wells {
		w.format(r.book.sheets[0].name)
		setPaths(w.doc, w.doc.Root, "")
		docs[i] = w.doc
	}
	return docs, nil
}

// format adds the form of document to a plan that doesn't name one: a workbook
// that has the sheets is of that form.
func (w *well) format(firstSheet string) {
	root := w.root(place.Place{Sheet: firstSheet})
	f := &form.Plan.Fields[0]
	if root.Get(f.Name) != nil {
		return
	}
	ref := w.doc.Add(w.doc.Place(root.Ref), f.Const)
	n := &doc.Node{Kind: doc.String, Text: f.Const, Ref: ref}
	root.Members = append([]doc.Member{{Key: f.Name, KeyRef: ref, Value: n}}, root.Members...)
}

// root is the root object, made when it's first needed.
func (w *well) root(at place.Place) *doc.Node {
	if w.doc.Root == nil {
		at.Cell = ""
		w.doc.Root = &doc.Node{Kind: doc.Object, Ref: w.doc.Add(at, "")}
	}
	return w.doc.Root
}

// member is the member of an object that holds a card or a list, made when
// it's first needed.
func (w *well) member(of *doc.Node, f *form.Field, at place.Place) *doc.Node {
	if n := of.Get(f.Name); n != nil {
		return n
	}
	n := &doc.Node{Kind: doc.Object, Ref: w.doc.Add(at, "")}
	if f.Kind == form.List {
		n.Kind = doc.Array
	}
	of.Members = append(of.Members, doc.Member{Key: f.Name, KeyRef: n.Ref, Value: n})
	return n
}

// setPaths fills in the member paths of a finished tree. Columns share the
// place of their header, so only places with one path get theirs.
func setPaths(d *doc.Doc, n *doc.Node, path string) {
	d.SetPath(n.Ref, path)
	for i, item := range n.Items {
		setPaths(d, item, fmt.Sprintf("%s[%d]", path, i))
	}
	for _, m := range n.Members {
		p := m.Key
		if path != "" {
			p = path + "." + m.Key
		}
		setPaths(d, m.Value, p)
	}
}

// fault notes something that can't be read.
func (r *reader) fault(at place.Place, found, expected string) {
	switch n := len(r.faults); {
	case n < MaxFaults-1:
		r.faults = append(r.faults, doc.Fault{Place: at, Found: found, Expected: expected})
	case n == MaxFaults-1:
		r.faults = append(r.faults, doc.Fault{Place: at, Found: fmt.Sprintf("%d faults", n), Expected: "these mended first: the rest isn't listed"})
	}
}

// remark says something about the workbook as a whole.
func (r *reader) remark(at place.Place, s string) {
	d := r.wells[0].doc
	at.File = d.File
	d.Unread = append(d.Unread, doc.Remark{Place: at, Text: s})
}

// system is the unit system a plan names so far.
func (w *well) setSystem() {
	if n := w.doc.Root.Get("units"); n != nil {
		w.system, _ = units.SystemByName(n.Text)
	}
}

// several lists names for a fault, the first few of them.
func several(names []string) string {
	const few = 8
	if len(names) > few {
		return strings.Join(names[:few], ", ") + " …"
	}
	return strings.Join(names, ", ")
}
