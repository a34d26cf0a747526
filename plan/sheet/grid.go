package sheet

import (
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/place"
)

// grid is the cells of one sheet that hold anything.
type grid struct {
	sheetEntry
	rows   []row
	merges []span
}

type row struct {
	n      int // from 1
	hidden bool
	cells  []cell // by column
}

type kind uint8

const (
	nothing kind = iota
	number
	textual
	logical
	wrong // an error value such as #REF!
)

// cell is one cell that holds something, its value as stored.
type cell struct {
	col      int // from 1
	kind     kind
	uncached bool // a formula whose value wasn't saved
	style    int
	x        float64 // number; 1 or 0 of a logical value
	s        string  // of a text or an error
	n        int     // characters of the text as stored
}

// span is a block of merged cells.
type span struct{ firstCol, firstRow, lastCol, lastRow int }

// budget is what is left of the limits for all sheets together.
type budget struct{ rows, cells int }

const (
	lastRow = 1_048_576
	lastCol = 16_384
)

// grid reads the cells of a sheet. What the sheet says about its own extent
// isn't looked at: it is often wrong.
func (bk *book) grid(e sheetEntry, left *budget) (*grid, error) {
	g := &gridReader{book: bk, grid: &grid{sheetEntry: e}, left: left}
	if err := bk.scan(e.part, g.element); err != nil {
		return nil, err
	}
	g.grid.order()
	return g.grid, g.twice()
}

type gridReader struct {
	*book
	grid *grid
	left *budget
	row  int // number of the row being read, 0 before the first
	col  int // of the cell before

	hidden bool // the row being read
	begun  bool // it holds something
}

func (g *gridReader) element(d *xml.Decoder, e xml.StartElement) error {
	switch e.Name.Local {
	case "row":
		return g.startRow(e)
	case "c":
		return g.cell(d, e)
	case "mergeCell":
		from, to, _ := strings.Cut(attr(e, "ref"), ":")
		c1, r1, ok1 := coordinates(from)
		c2, r2, ok2 := coordinates(to)
		if ok1 && ok2 && c1 <= c2 && r1 <= r2 {
			g.grid.merges = append(g.grid.merges, span{c1, r1, c2, r2})
		}
	}
	return nil
}

// startRow begins a row; one without a number follows the one before.
func (g *gridReader) startRow(e xml.StartElement) error {
	g.row, g.col = g.row+1, 0
	if r := attr(e, "r"); r != "" {
		n, err := strconv.Atoi(r)
		if err != nil {
			return g.bad("a row numbered " + doc.Quote(r))
		}
		g.row = n
	}
	if g.row < 1 || g.row > lastRow {
		return g.bad(fmt.Sprintf("a row numbered %d", g.row))
	}
	g.hidden, g.begun = isTrue(attr(e, "hidden")), false
	return nil
}

// bad is the fault of a sheet that no spreadsheet program writes.
func (g *gridReader) bad(what string) error {
	return doc.Faults{{Place: place.Place{File: g.file, Sheet: g.grid.name}, Found: what, Expected: "a sheet that a spreadsheet program opens"}}
}

func (g *gridReader) cell(d *xml.Decoder, e xml.StartElement) error {
	g.col++
	if ref := attr(e, "r"); ref != "" {
		col, n, ok := coordinates(ref)
		if !ok || n != g.row {
			return g.bad("a cell named " + doc.Quote(ref) + " in row " + strconv.Itoa(g.row))
		}
		g.col = col
	}
	if g.row == 0 || g.col > lastCol {
		return g.bad("a cell outside of every row")
	}
	c := cell{col: g.col}
	c.style, _ = strconv.Atoi(attr(e, "s"))
	raw, formula, err := g.content(d, &c)
	if err != nil {
		return err
	}
	if raw == nil && c.kind == nothing {
		c.uncached = formula
	} else if err := g.typed(&c, attr(e, "t"), raw); err != nil {
		return err
	}
	return g.keep(c)
}

// content reads what is inside a cell: the stored value, or an inline text
// straight into c. raw is nil where no value is stored.
func (g *gridReader) content(d *xml.Decoder, c *cell) (raw *string, formula bool, err error) {
	for {
		t, err := d.Token()
		if err != nil {
			return nil, false, err
		}
		e, start := t.(xml.StartElement)
		if _, end := t.(xml.EndElement); end {
			return raw, formula, nil
		}
		if !start {
			continue
		}
		switch e.Name.Local {
		case "v":
			s, err := plainText(d)
			if err != nil {
				return nil, false, err
			}
			raw = &s
		case "is":
			if c.s, c.n, err = text(d); err != nil {
				return nil, false, err
			}
			c.kind = textual
		default:
			formula = formula || e.Name.Local == "f"
			if err := d.Skip(); err != nil {
				return nil, false, err
			}
		}
	}
}

// plainText is the text of the open element, which holds nothing else.
func plainText(d *xml.Decoder) (string, error) {
	var b strings.Builder
	for {
		t, err := d.Token()
		if err != nil {
			return "", err
		}
		switch t := t.(type) {
		case xml.CharData:
			b.Write(t)
		case xml.StartElement:
			if err := d.Skip(); err != nil {
				return "", err
			}
		case xml.EndElement:
			return b.String(), nil
		}
	}
}

// typed gives c the value its type makes of the stored text.
func (g *gridReader) typed(c *cell, kind string, raw *string) error {
	if c.kind == textual {
		return nil
	}
	s := strings.TrimSpace(*raw)
	switch kind {
	case "s":
		i, err := strconv.Atoi(s)
		if err != nil || i < 0 || i >= len(g.shared) {
			return g.bad("shared text " + doc.Quote(s) + " in " + name(c.col, g.row) + ", which isn't there")
		}
		c.kind, c.s, c.n = textual, g.shared[i].s, g.shared[i].n
	case "str", "d":
		c.kind, c.s = textual, unescape(*raw)
		c.n = len(c.s)
	case "e":
		c.kind, c.s = wrong, s
	case "b":
		c.kind = logical
		if isTrue(s) {
			c.x = 1
		}
	default:
		if s == "" {
			return nil
		}
		x, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
			return g.bad("the number " + doc.Quote(s) + " in " + name(c.col, g.row))
		}
		c.kind, c.x = number, x
	}
	return nil
}

// keep adds a cell that holds anything to its row.
func (g *gridReader) keep(c cell) error {
	if c.kind == textual && c.n <= MaxText {
		if c.s = strings.TrimSpace(c.s); c.s == "" {
			return nil
		}
	}
	if c.kind == nothing && !c.uncached {
		return nil
	}
	if !g.begun {
		g.begun = true
		g.left.rows--
		g.grid.rows = append(g.grid.rows, row{n: g.row, hidden: g.hidden})
	}
	g.left.cells--
	if g.left.rows < 0 {
		return whole(g.file, fmt.Sprintf("more than %d rows", MaxRows), "fewer")
	}
	if g.left.cells < 0 {
		return whole(g.file, fmt.Sprintf("more than %d cells", MaxCells), "fewer")
	}
	r := &g.grid.rows[len(g.grid.rows)-1]
	r.cells = append(r.cells, c)
	return nil
}

// order sorts rows and cells: a workbook may list them in any order.
func (g *grid) order() {
	sort.SliceStable(g.rows, func(i, j int) bool { return g.rows[i].n < g.rows[j].n })
	for _, r := range g.rows {
		sort.SliceStable(r.cells, func(i, j int) bool { return r.cells[i].col < r.cells[j].col })
	}
}

// twice refuses a sheet that gives one row or one cell two times: nobody could
// say which counts.
func (g *gridReader) twice() error {
	for i, r := range g.grid.rows {
		if i > 0 && r.n == g.grid.rows[i-1].n {
			return g.bad(fmt.Sprintf("row %d twice", r.n))
		}
		for j := 1; j < len(r.cells); j++ {
			if r.cells[j].col == r.cells[j-1].col {
				return g.bad("cell " + name(r.cells[j].col, r.n) + " twice")
			}
		}
	}
	return nil
}

// at is the cell in a column, or nil.
func (r *row) at(col int) *cell {
	i, ok := slices.BinarySearchFunc(r.cells, col, func(c cell, col int) int { return c.col - col })
	if !ok {
		return nil
	}
	return &r.cells[i]
}

// name is the A1 name of a cell.
func name(col, row int) string { return column(col) + strconv.Itoa(row) }

// column is the letters of a column.
func column(col int) string {
	var b []byte
	for ; col > 0; col = (col - 1) / 26 {
		b = append(b, byte('A'+(col-1)%26))
	}
	slices.Reverse(b)
	return string(b)
}

// coordinates reads an A1 name.
func coordinates(s string) (col, row int, ok bool) {
	i := 0
	for ; i < len(s) && i < 4 && 'A' <= s[i]&^0x20 && s[i]&^0x20 <= 'Z'; i++ {
		col = col*26 + int(s[i]&^0x20-'A'+1)
	}
	row, err := strconv.Atoi(s[i:])
	return col, row, err == nil && i > 0 && col <= lastCol && row >= 1 && row <= lastRow
}
