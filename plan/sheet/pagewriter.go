package sheet

import (
	"math"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"spudgate/plan/doc"
	"spudgate/plan/form"
)

const (
	roomRows    = 12   // empty rows that a template shows under a header
	guidedRows  = 1000 // rows that have drop-downs and notes
	labelWidth  = 36.0
	valueWidth  = 34.0
	widest      = 40.0
	pageWidth   = 190.0 // width of columns that still reads on a page across
	lineHeight  = 13.5
	headerSpare = 6
	prose       = 1.2 // letters of running text to the width of a digit
)

// stream begins a sheet. How it prints and the widths have to be set before
// any row.
func (m *maker) stream(sheet string, widths []float64, p paper) (*excelize.StreamWriter, error) {
	if err := m.paper(sheet, p); err != nil {
		return nil, err
	}
	sw, err := m.file.NewStreamWriter(sheet)
	if err != nil {
		return nil, err
	}
	for i, w := range widths {
		if err := sw.SetColWidth(i+1, i+1, w); err != nil {
			return nil, err
		}
	}
	return sw, nil
}

// cards writes a sheet of cards: for each card its heading, then a row for
// each field. The first sheet begins with what is said about the whole plan.
func (m *maker) cards(p *page, root *doc.Node) error {
	sw, err := m.stream(p.name, []float64{labelWidth, valueWidth}, paper{pages: 1, upright: true})
	if err != nil {
		return err
	}
	c := &cardWriter{maker: m, sw: sw, sheet: p.name}
	if p == pages[0] {
		c.fields(root, form.Plan)
		c.row++
	}
	for i, f := range p.cards {
		if i > 0 {
			c.row++
		}
		c.put(22, excelize.Cell{StyleID: m.look.section, Value: f.Title}, excelize.Cell{StyleID: m.look.section})
		c.fields(root.Get(f.Name), f.Of)
	}
	if c.err != nil {
		return c.err
	}
	return sw.Flush()
}

// cardWriter writes the rows of a sheet of cards.
type cardWriter struct {
	*maker
	sw    *excelize.StreamWriter
	sheet string
	row   int
	err   error
}

func (c *cardWriter) put(height float64, cells ...any) {
	c.row++
	if c.err == nil {
		c.err = c.sw.SetRow(name(1, c.row), cells, excelize.RowOpts{Height: height})
	}
}

func (c *cardWriter) fields(n *doc.Node, o *form.Object) {
	for _, f := range columns(o) {
		var v *doc.Node
		if n != nil {
			v = n.Get(f.Name)
		}
		if v == nil && c.blank && o == form.Plan {
			v = c.preset(f)
		}
		value := c.cell(v, f)
		if value.StyleID == c.look.plain {
			value.StyleID = c.look.value
		}
		c.put(15, excelize.Cell{StyleID: c.look.label, Value: c.header(f)}, value)
		if c.err == nil {
			c.err = c.guide(c.sheet, f, name(2, c.row))
		}
	}
}

// preset is what a template says from the start: its form and its units.
func (m *maker) preset(f *form.Field) *doc.Node {
	s := f.Const
	if f.Name == "units" {
		s = m.system.String()
	}
	return &doc.Node{Kind: doc.String, Text: s}
}

// list writes a sheet of records.
func (m *maker) list(p *page, root *doc.Node) error {
	rows := listRows(root, p)
	fields := append(p.parentFields(), columns(p.list.Of)...)
	keys := len(p.chain)
	if fields[keys] == p.list.Of.NameField() {
		keys++
	}
	table := m.table(p, rows)
	widths := m.widths(fields, table)
	sw, err := m.stream(p.name, widths, paper{pages: pagesAcross(widths, keys), head: true, keys: keys})
	if err != nil {
		return err
	}
	if err := sw.SetPanes(&excelize.Panes{Freeze: true, XSplit: keys, YSplit: 1, TopLeftCell: name(keys+1, 2), ActivePane: corner(keys)}); err != nil {
		return err
	}
	if err := m.headerRow(sw, fields, widths); err != nil {
		return err
	}
	for i, cells := range table {
		if err := sw.SetRow(name(1, i+2), styled(cells, keys, m.look.key), excelize.RowOpts{Height: 15}); err != nil {
			return err
		}
	}
	for i, f := range fields {
		c := column(i + 1)
		if err := m.guide(p.name, f, c+"2:"+c+strconv.Itoa(max(guidedRows, len(table)+1))); err != nil {
			return err
		}
	}
	return sw.Flush()
}

// corner is the pane that scrolls both ways, or the lower one where no column
// is frozen.
func corner(keys int) string {
	if keys == 0 {
		return "bottomLeft"
	}
	return "bottomRight"
}

// table is the cells of all records, and empty rows in a template.
func (m *maker) table(p *page, rows []listRow) [][]excelize.Cell {
	if m.blank {
		rows = make([]listRow, roomRows)
		for i := range rows {
			rows[i] = listRow{owners: make([]string, len(p.chain)), record: &doc.Node{}}
		}
	}
	out := make([][]excelize.Cell, len(rows))
	for i, r := range rows {
		for _, owner := range r.owners {
			out[i] = append(out[i], excelize.Cell{StyleID: m.look.key, Value: owner})
		}
		for _, f := range columns(p.list.Of) {
			out[i] = append(out[i], m.cell(r.record.Get(f.Name), f))
		}
		if own := p.list.Of.NameField(); own != nil && !m.blank && !says(out[i][len(p.chain):]) {
			// columns() keeps the order of the form; the name comes first in it.
			out[i][len(p.chain)].Value = r.reference
		}
	}
	return out
}

// says reports whether any cell holds a value.
func says(cells []excelize.Cell) bool {
	for _, c := range cells {
		if c.Value != nil {
			return true
		}
	}
	return false
}

// styled gives the key columns their look.
func styled(cells []excelize.Cell, keys, style int) []any {
	out := make([]any, len(cells))
	for i, c := range cells {
		if i < keys {
			c.StyleID = style
		}
		if c.Value == "" {
			c.Value = nil
		}
		out[i] = c
	}
	return out
}

// headerRow writes the column names, the row as high as the longest needs.
func (m *maker) headerRow(sw *excelize.StreamWriter, fields []*form.Field, widths []float64) error {
	cells := make([]any, len(fields))
	lines := 1
	for i, f := range fields {
		h := m.header(f)
		cells[i] = excelize.Cell{StyleID: m.look.header, Value: h}
		lines = max(lines, wrapped(h, widths[i]-1.5))
	}
	return sw.SetRow("A1", cells, excelize.RowOpts{Height: float64(lines)*lineHeight + headerSpare})
}

// wrapped is how many lines a text takes, broken between words.
func wrapped(s string, width float64) int {
	lines, used := 1, 0.0
	for _, word := range strings.Fields(s) {
		n := float64(len([]rune(word)))
		if used > 0 && used+1+n > width {
			lines, used = lines+1, 0
		}
		used += n + 1
	}
	return lines
}

// widths are the widths of the columns: the longest word of the header and the
// longest value fit, as far as a column may go.
func (m *maker) widths(fields []*form.Field, table [][]excelize.Cell) []float64 {
	out := make([]float64, len(fields))
	for i, f := range fields {
		out[i] = usual(f)
		for _, word := range strings.Fields(m.header(f)) {
			out[i] = max(out[i], float64(len([]rune(word)))*1.15+2.5)
		}
		for _, c := range f.Choices {
			out[i] = max(out[i], float64(len(c))+2)
		}
		for _, row := range table {
			if s, ok := row[i].Value.(string); ok {
				out[i] = max(out[i], float64(len([]rune(s)))+2)
			}
		}
		out[i] = math.Min(out[i], widest)
	}
	return out
}

func usual(f *form.Field) float64 {
	switch {
	case f.Name == "name" || f.Kind == form.Text && len(f.Example) > 12:
		return 19
	case f.Kind == form.Text || f.Kind == form.Free:
		return 15
	case f.Kind == form.Date:
		return 12
	}
	return 11
}

// guide puts a drop-down or a note on cells.
func (m *maker) guide(sheet string, f *form.Field, cells string) error {
	dv := excelize.NewDataValidation(true)
	dv.Sqref = cells
	switch {
	case f.Kind == form.Flag:
		if err := dv.SetDropList([]string{"yes", "no"}); err != nil {
			return err
		}
	case f.Kind == form.Choice:
		shown := make([]string, len(f.Choices))
		for i, c := range f.Choices {
			shown[i] = shownChoice(c)
		}
		if err := dv.SetDropList(shown); err != nil {
			return err
		}
	}
	dv.SetInput(clipped(f.Title, 32), clipped(note(f, m), 250))
	return m.file.AddDataValidation(sheet, dv)
}

// note is what a cell says about itself when it's chosen.
func note(f *form.Field, m *maker) string {
	s := f.About + "."
	if f.Example != "" {
		s += " For example " + shownExample(f, m) + "."
	}
	return s
}

func clipped(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}

// paper is how a sheet prints.
type paper struct {
	pages   int // across
	upright bool
	head    bool // the first row on each page
	keys    int  // columns on each page
}

func pagesAcross(widths []float64, keys int) int {
	total, repeated := 0.0, 0.0
	for i, w := range widths {
		if total += w; i < keys {
			repeated += w
		}
	}
	return max(1, int(math.Ceil((total-repeated)/(pageWidth-repeated))))
}

func (m *maker) paper(sheet string, p paper) error {
	orientation, size, down, fit := "landscape", 9, 0, true
	if p.upright {
		orientation = "portrait"
	}
	if err := m.file.SetPageLayout(sheet, &excelize.PageLayoutOptions{Size: &size, Orientation: &orientation, FitToWidth: &p.pages, FitToHeight: &down}); err != nil {
		return err
	}
	if err := m.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	side, edge := 0.4, 0.6
	if err := m.file.SetPageMargins(sheet, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &edge, Bottom: &edge}); err != nil {
		return err
	}
	if err := m.file.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"}); err != nil {
		return err
	}
	if !p.head {
		return nil
	}
	titles := "'" + sheet + "'!$1:$1"
	if p.keys > 0 {
		titles = "'" + sheet + "'!$A:$" + column(p.keys) + "," + titles
	}
	return m.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: titles, Scope: sheet})
}
