package sheet

import (
	"io"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/units"
)

// Write writes a plan as a workbook that reads back as the same plan: both have
// one [Canonical] form. A value is a number in its cell if it is a plain number
// in the unit of its column, else the text as written. Rows keep the order of
// their list, what is absent is blank; empty records and empty lists are left
// out. No text ever becomes a formula. The bytes are the same on every run.
//
// The error is [doc.Faults] where the plan holds what a workbook can't: a
// member the form doesn't know, a text longer than a cell.
func Write(w io.Writer, d *doc.Doc) error {
	root := normal(d.Root)
	if root == nil {
		root = &doc.Node{Kind: doc.Object}
	}
	check := writable{doc: d}
	check.object(root, form.Plan)
	if len(check.faults) > 0 {
		return check.faults.Sort()
	}
	system := units.Field
	if n := root.Get("units"); n != nil {
		system, _ = units.SystemByName(n.Text)
	}
	return build(w, system, root, false)
}

// maker makes one workbook.
type maker struct {
	file   *excelize.File
	look   look
	system units.System
	blank  bool // a template: room for records, and sheets that explain
}

// build makes the workbook of a plan.
func build(w io.Writer, system units.System, root *doc.Node, blank bool) error {
	f := excelize.NewFile()
	defer f.Close()
	f.SetZipWriter(newOrderedZip)
	m := &maker{file: f, system: system, blank: blank}
	var err error
	if m.look, err = newLook(f); err != nil {
		return err
	}
	if err := m.sheets(root); err != nil {
		return err
	}
	if err := f.SetDocProps(&excelize.DocProperties{Creator: "Spudgate", Title: "Well plan"}); err != nil {
		return err
	}
	if err := f.SetAppProps(&excelize.AppProperties{Application: "Spudgate"}); err != nil {
		return err
	}
	return f.Write(w)
}

// sheets makes all sheets; the first takes the place of the one a new workbook
// comes with.
func (m *maker) sheets(root *doc.Node) error {
	var all []func() error
	var titles []string
	add := func(name string, make func() error) {
		titles, all = append(titles, name), append(all, make)
	}
	if m.blank {
		add(readMe, m.readMe)
	}
	for _, p := range pages {
		if p.list == nil {
			add(p.name, func() error { return m.cards(p, root) })
		} else {
			add(p.name, func() error { return m.list(p, root) })
		}
	}
	if m.blank {
		add(example, m.example)
	}
	if err := m.file.SetSheetName(m.file.GetSheetName(0), titles[0]); err != nil {
		return err
	}
	for _, t := range titles[1:] {
		if _, err := m.file.NewSheet(t); err != nil {
			return err
		}
	}
	for _, make := range all {
		if err := make(); err != nil {
			return err
		}
	}
	return nil
}

// header is the text over a column or before a value: the title, with the unit
// of bare numbers.
func (m *maker) header(f *form.Field) string {
	if !measured(f) || f.Unit[m.system] == "1" {
		return f.Title
	}
	return f.Title + " (" + f.Unit[m.system] + ")"
}

// cell is the cell of a value in normal form; n is nil for a blank one.
func (m *maker) cell(n *doc.Node, f *form.Field) excelize.Cell {
	c := excelize.Cell{StyleID: m.look.of(f)}
	switch {
	case n == nil:
	case n.Kind == doc.Bool && n.Bool:
		c.Value = "yes"
	case n.Kind == doc.Bool:
		c.Value = "no"
	case n.Kind == doc.Number && rounded(n.Num) == n.Num:
		c.StyleID, c.Value = m.look.plain, n.Num
	case n.Kind == doc.Number: // more digits than a spreadsheet program keeps
		c.StyleID, c.Value = m.look.text, string(jsonNumber(n.Num))
	case f.Kind == form.Choice:
		c.Value = shownChoice(n.Text)
	default:
		c.Value = n.Text
		if f.Kind != form.Date {
			c.StyleID = m.look.text
		}
	}
	return c
}

// shownChoice is a choice as people read it; the reader folds it back.
func shownChoice(s string) string { return strings.ReplaceAll(s, "_", " ") }

// listRow is one row of a list: the record, what those it belongs to are called
// by, and what it's called by itself.
type listRow struct {
	owners    []string
	record    *doc.Node
	reference string
}

// listRows walks down to the records of a page.
func listRows(root *doc.Node, p *page) []listRow {
	at := []listRow{{record: root}}
	for i, f := range append(p.chain[:len(p.chain):len(p.chain)], p.list) {
		var below []listRow
		for _, owner := range at {
			below = append(below, inside(owner, f, i > 0)...)
		}
		at = below
	}
	return at
}

// inside are the records of one list; named says that their owner is a record
// that has to be referred to, not the plan itself.
func inside(owner listRow, f *form.Field, named bool) []listRow {
	list := owner.record.Get(f.Name)
	if list == nil {
		return nil
	}
	owners := owner.owners
	if named {
		owners = append(owners[:len(owners):len(owners)], owner.reference)
	}
	out := make([]listRow, len(list.Items))
	called := references(list)
	for i, item := range list.Items {
		out[i] = listRow{owners, item, called[i]}
	}
	return out
}

// references are what the records of a list are called by on other sheets: the
// name if there is one and no other has it, else the number.
func references(list *doc.Node) []string {
	named := namesOf(list)
	out := make([]string, len(list.Items))
	for i, item := range list.Items {
		out[i] = "#" + strconv.Itoa(i+1)
		if v := item.Get("name"); v != nil && len(named.exact[v.Text]) == 1 {
			out[i] = v.Text
		}
	}
	return out
}
