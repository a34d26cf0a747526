package workbook

import (
	"fmt"
	"math"
	"strings"

	"github.com/xuri/excelize/v2"

	"spudgate/rules/finding"
)

// grid is a sheet while it's laid out: rows kept in memory, so that sheets can
// point into each other before any of them is written.
type grid struct {
	name     string
	columns  []float64 // widths in characters
	rows     []line
	head     int // rows that stay in view and repeat on every printed page
	portrait bool
	onePage  bool
	filter   string // range of the filter
	inputs   []pair
	verdicts string // column of verdicts that follow the inputs
	outcome  string // cell of the outcome, blank once an input differs
	merged   [][2]string
}

type line struct {
	cells  []cell
	height float64
}

// cell is what one or more columns of a row hold.
type cell struct {
	value   any // string, float64, bool, or nil
	formula string
	look    look
	span    int    // columns it takes; 0 as 1
	link    string // place in the workbook that it leads to
}

// pair is a column of inputs and the column of their audited values.
type pair struct {
	input, audited string
	from, to       int
}

func text(s string, l look) cell { return cell{value: clean(s), look: l} }

func (c cell) over(columns int) cell {
	c.span = columns
	return c
}

func (c cell) to(place string) cell {
	c.link = place
	return c
}

// next is the number the next row will have.
func (g *grid) next() int { return len(g.rows) + 1 }

// add adds a row as tall as its texts ask for, and gives its number.
func (g *grid) add(cells ...cell) int {
	g.rows = append(g.rows, line{cells: cells, height: g.height(cells)})
	return len(g.rows)
}

// high adds a row of a stated height in points.
func (g *grid) high(points float64, cells ...cell) int {
	g.rows = append(g.rows, line{cells: cells, height: points})
	return len(g.rows)
}

// tallest is the most a row may have, in points.
const tallest = 409

// height is what the row needs for its wrapped texts: no program works it out
// when it opens the file.
func (g *grid) height(cells []cell) float64 {
	most, at := 13.5, 0
	for _, c := range cells {
		span := max(c.span, 1)
		size := c.look.points()
		n := 1
		if s, ok := c.value.(string); ok && !c.look.flow {
			n = lines(s, g.room(at, span), size, c.look.bold)
		}
		most = max(most, float64(n)*size*1.2+3)
		at += span
	}
	return min(most, tallest)
}

// room is the width of columns in points, less the padding of a cell and a
// little more, since no two programs set type alike.
func (g *grid) room(at, span int) float64 {
	sum := 0.0
	for i := at; i < at+span && i < len(g.columns); i++ {
		sum += g.columns[i]
	}
	return (sum*pixels - 5) * 0.75 * 0.97
}

// pixels is the width of one digit of the standard font, the unit of columns.
const pixels = 7

// ref is a cell of this sheet as other sheets name it.
func (g *grid) ref(column, row int) string {
	return quote(g.name) + "!" + at(column, row)
}

// quote is a sheet's name in a formula.
func quote(name string) string {
	return "'" + strings.ReplaceAll(name, "'", "''") + "'"
}

// at is the name of a cell, columns from 1.
func at(column, row int) string { return letter(column) + fmt.Sprint(row) }

func letter(column int) string {
	s := ""
	for ; column > 0; column = (column - 1) / 26 {
		s = string(rune('A'+(column-1)%26)) + s
	}
	return s
}

// top lays the rows that every sheet begins with: what it is, of which plan,
// and the warning that turns on when an input is changed.
func (g *grid) top(name string, r *finding.Record) {
	g.high(21, text(name, title))
	g.high(14, cell{formula: warning, value: "", look: look{bold: true, size: 10, middle: true}, span: len(g.columns)})
	g.high(14, text(about(r), look{size: 8, color: grey, flow: true}))
}

// words and numbers are the head of a column of either.
func words(name string) cell   { return text(name, header) }
func numbers(name string) cell { return text(name, header.toRight()) }

// heads lays the head of a table; what stands above it repeats on every page.
func (g *grid) heads(cells ...cell) int {
	row := g.add(cells...)
	g.head = row
	return row
}

// about says of which plan a sheet is.
func about(r *finding.Record) string {
	s := r.Well.Name
	if r.Well.Revision != "" {
		s += ", revision " + r.Well.Revision
	}
	return s + "; audited as of " + r.AsOf + " by " + r.Tool.Name + " " + r.Tool.Version
}

// write puts the sheet into the file.
func (g *grid) write(f *excelize.File, s *styles) error {
	if err := g.setUp(f); err != nil {
		return err
	}
	w, err := f.NewStreamWriter(g.name)
	if err != nil {
		return err
	}
	for i, c := range g.columns {
		if err := w.SetColWidth(i+1, i+1, c); err != nil {
			return err
		}
	}
	if g.head > 0 {
		panes := &excelize.Panes{Freeze: true, YSplit: g.head, TopLeftCell: at(1, g.head+1), ActivePane: "bottomLeft"}
		if err := w.SetPanes(panes); err != nil {
			return err
		}
	}
	for i, l := range g.rows {
		if err := g.writeRow(w, s, i+1, l); err != nil {
			return err
		}
	}
	for _, m := range g.merged {
		if err := w.MergeCell(m[0], m[1]); err != nil {
			return err
		}
	}
	return w.Flush()
}

func (g *grid) writeRow(w *excelize.StreamWriter, s *styles, row int, l line) error {
	var values []any
	for _, c := range l.cells {
		if x, ok := c.value.(float64); ok && (math.IsNaN(x) || math.IsInf(x, 0)) {
			return fmt.Errorf("%s: a number that is none", at(len(values)+1, row))
		}
		id, err := s.id(c.look)
		if err != nil {
			return err
		}
		if c.span > 1 {
			first := len(values) + 1
			g.merged = append(g.merged, [2]string{at(first, row), at(first+c.span-1, row)})
		}
		values = append(values, excelize.Cell{StyleID: id, Formula: c.formula, Value: c.value})
		for k := 1; k < c.span; k++ {
			values = append(values, excelize.Cell{StyleID: id})
		}
	}
	return w.SetRow(at(1, row), values, excelize.RowOpts{Height: l.height})
}

// styles makes each look a style once.
type styles struct {
	file  *excelize.File
	known map[look]int
}

func (s *styles) id(l look) (int, error) {
	if id, ok := s.known[l]; ok {
		return id, nil
	}
	id, err := s.file.NewStyle(l.style())
	s.known[l] = id
	return id, err
}
