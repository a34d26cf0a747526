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

// Template writes the empty workbook that a plan is filled into: a sheet for
// each part with the unit of every column in its header, drop-downs where there
// is a choice, a note on each cell, a sheet that explains and one that shows an
// example of everything. It reads back as an empty plan.
func Template(w io.Writer, s units.System) error {
	return build(w, s, &doc.Node{Kind: doc.Object}, true)
}

var explanation = []string{
	"Sheet Well holds one value a row. Every other sheet but Completion holds a record a row: a string, a section, a slurry.",
	"Fill in what the plan says and leave the rest blank. A blank is never taken for zero or for no.",
	"A bare number is in the unit of its column. Any cell may carry its own: 3,000 m, 1.48 SG, 9-5/8 in.",
	"Write decimals with a point; a comma groups thousands.",
	"Sheets that belong together do so by names: column String on sheet Segments repeats a name from sheet Strings.",
	"Where a record has no name, #2 stands for the second row of its list.",
	"Columns may be moved, left out or renamed to the trade's usual words; extra columns are listed as not read.",
	"For several wells give each a column on sheet Well, and add a column Well to the other sheets.",
	"Choose a cell to see what belongs in it. Sheet Example shows a value for every column.",
	"The sheets Read me and Example are never read as part of a plan.",
}

func (m *maker) readMe() error {
	sw, err := m.stream(readMe, []float64{4, 92}, paper{pages: 1, upright: true})
	if err != nil {
		return err
	}
	title := []any{excelize.Cell{StyleID: m.look.title, Value: "How to fill in this plan"}}
	if err := sw.SetRow("A1", title, excelize.RowOpts{Height: 30}); err != nil {
		return err
	}
	for i, s := range explanation {
		height := float64(wrapped(s, 92*prose))*lineHeight + headerSpare
		row := []any{excelize.Cell{StyleID: m.look.body, Value: i + 1}, excelize.Cell{StyleID: m.look.body, Value: s}}
		if err := sw.SetRow(name(1, i+2), row, excelize.RowOpts{Height: height}); err != nil {
			return err
		}
	}
	return sw.Flush()
}

// exampleWidths are those of sheet, column, example, meaning.
var exampleWidths = []float64{16, 34, 30, 62}

// example lists every column with an example and its meaning.
func (m *maker) example() error {
	sw, err := m.stream(example, exampleWidths, paper{pages: 1, head: true})
	if err != nil {
		return err
	}
	if err := sw.SetPanes(&excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	e := &exampleWriter{maker: m, sw: sw}
	e.put(m.look.header, "Sheet", "Column", "For example", "What it is")
	e.fields(pages[0].name, roots())
	for _, p := range pages {
		for _, c := range p.cards {
			e.fields(p.name, columns(c.Of))
		}
		if p.list != nil {
			e.fields(p.name, append(p.parentFields(), columns(p.list.Of)...))
		}
	}
	if e.err != nil {
		return e.err
	}
	return sw.Flush()
}

type exampleWriter struct {
	*maker
	sw  *excelize.StreamWriter
	row int
	err error
}

func (e *exampleWriter) put(style int, texts ...string) {
	e.row++
	lines := 1
	cells := make([]any, len(texts))
	for i, s := range texts {
		cells[i] = excelize.Cell{StyleID: style, Value: s}
		lines = max(lines, wrapped(s, exampleWidths[i]*prose))
	}
	if e.err == nil {
		e.err = e.sw.SetRow(name(1, e.row), cells, excelize.RowOpts{Height: float64(lines)*lineHeight + 2})
	}
}

func (e *exampleWriter) fields(sheet string, fields []*form.Field) {
	for _, f := range fields {
		e.put(e.look.small, sheet, e.header(f), shownExample(f, e.maker), f.About)
	}
}

// shownExample is an example as a cell would hold it. The examples of the form
// are in field units: for a metric workbook a number is converted, to four
// digits; a size keeps its fraction and gets its unit.
func shownExample(f *form.Field, m *maker) string {
	switch {
	case f.Kind == form.Flag && f.Example == "true":
		return "yes"
	case f.Kind == form.Flag && f.Example == "false":
		return "no"
	case f.Kind == form.Choice && f.Name == "units":
		return m.system.String()
	case f.Kind == form.Choice:
		return shownChoice(f.Example)
	case !measured(f) || m.system == units.Field:
		return f.Example
	}
	return metricExample(f)
}

func metricExample(f *form.Field) string {
	from, to := f.Bare(units.Field), f.Bare(units.Metric)
	w, err := units.Parse(f.Example)
	if err != nil || from == to || w.HasUnit && w.Unit != from {
		return f.Example
	}
	if f.Small {
		return strings.TrimSuffix(f.Example, " "+from.Symbol) + " " + from.Symbol
	}
	x := strconv.FormatFloat(to.FromSI(w.SI(from)), 'g', 4, 64)
	v, err := strconv.ParseFloat(x, 64)
	if err != nil {
		return f.Example
	}
	return decimal(v)
}
