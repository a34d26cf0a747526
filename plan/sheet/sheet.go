// Package sheet is the workbook form of a plan: it reads .xlsx workbooks into
// positioned trees, writes a tree as a workbook, and makes the empty workbook
// that a plan is filled into.
//
// Nothing here knows a single field of a plan. Sheets, columns and rows follow
// from the table [form.Plan]: a card is written down the sheet, a label and
// its value in each row; a list is a sheet with a header row and a record in
// each row below; a list inside a list has a sheet of its own whose first
// columns name the records it belongs to.
//
// Reading is done on the parts of the workbook themselves, by a small parser
// that keeps every number as stored and can be held to limits. Formulas are
// never evaluated, macros never run, links never followed.
package sheet

import (
	"strings"
	"unicode"

	"spudgate/plan/form"
)

// What is refused for its size. A plan for a dozen wells stays far below all
// of these; a workbook above them was made to be too large.
const (
	MaxBytes    = 60_000_000  // of the file
	MaxEntries  = 2_000       // parts in the file
	MaxUnpacked = 256_000_000 // bytes of all parts, unpacked
	MaxPart     = 64_000_000  // bytes of one part that is read, unpacked
	MaxRows     = 200_000     // rows that hold anything, in all sheets read
	MaxCells    = 500_000     // cells that hold anything, in all sheets read
	MaxText     = 32_767      // characters of one cell, the format's own limit
	MaxFaults   = 1_000       // said before reading stops
	headerRows  = 20          // searched for the row of column names
)

// Names of the sheets that aren't part of a plan: the template has them and
// the reader passes them over.
const (
	readMe  = "Read me"
	example = "Example"
)

// page is one sheet of the workbook form: either cards or one list.
type page struct {
	name  string
	cards []*form.Field // cards, down the sheet
	list  *form.Field   // list, a row for each record
	chain []*form.Field // lists the list is inside of, outermost first
}

// pages is the workbook form of a plan, sheets in the order of the form, a
// nested list right behind the list it is inside of.
var pages = layout(form.Plan)

func layout(plan *form.Object) []*page {
	var out []*page
	byName := map[string]*page{}
	for i := range plan.Fields {
		f := &plan.Fields[i]
		switch {
		case f.Kind == form.List:
			out = append(out, listPages(f, nil)...)
		case f.Kind != form.Card:
		case byName[f.Sheet] != nil:
			byName[f.Sheet].cards = append(byName[f.Sheet].cards, f)
		default:
			p := &page{name: f.Sheet, cards: []*form.Field{f}}
			byName[f.Sheet] = p
			out = append(out, p)
		}
	}
	return out
}

func listPages(f *form.Field, chain []*form.Field) []*page {
	out := []*page{{name: f.Sheet, list: f, chain: chain}}
	inner := append(chain[:len(chain):len(chain)], f)
	for i := range f.Of.Fields {
		if g := &f.Of.Fields[i]; g.Kind == form.List {
			out = append(out, listPages(g, inner)...)
		}
	}
	return out
}

// columns are the fields of a record that stand in its row.
func columns(o *form.Object) []*form.Field {
	var out []*form.Field
	for i := range o.Fields {
		if f := &o.Fields[i]; f.Kind != form.List && f.Kind != form.Card {
			out = append(out, f)
		}
	}
	return out
}

// roots are the fields of the plan itself that hold one value: they stand in
// the first rows of the first sheet.
func roots() []*form.Field { return columns(form.Plan) }

// measured reports whether a field takes a unit.
func measured(f *form.Field) bool { return f.Kind == form.Quantity || f.Kind == form.Grade }

// also gives every folded name a sheet may go by.
func (p *page) also() []string {
	names := []string{p.name}
	if p.list != nil {
		names = append(names, p.list.Name, p.list.Title, p.list.Of.Title, p.list.Of.Name)
	}
	for i, n := range names {
		names[i] = singular(fold(n))
	}
	return names
}

// fold makes two spellings of a name equal: case, spaces and punctuation don't
// count.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case '₀' <= r && r <= '₉':
			return r - '₀' + '0'
		case r == '%' || unicode.IsLetter(r) || unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

// singular is a folded name without a plural s.
func singular(folded string) string {
	if len(folded) > 2 && !strings.HasSuffix(folded, "ss") {
		return strings.TrimSuffix(folded, "s")
	}
	return folded
}
