package sheet

import (
	"math"
	"strconv"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// well is one plan being read out of the workbook.
type well struct {
	doc    *doc.Doc
	name   string
	system units.System
}

// node makes the value of a field from a cell, or nil where the cell says
// nothing. What can't be read is noted as a fault.
func (r *reader) node(w *well, c *cell, at place.Place, h heading) *doc.Node {
	switch {
	case c == nil:
		return nil
	case c.uncached:
		r.fault(at, "a formula without its value", "a value: open the workbook in a spreadsheet program and save it")
		return nil
	case c.kind == wrong:
		r.fault(at, "the error "+c.s, "a value")
		return nil
	case c.n > MaxText && c.kind == textual:
		r.fault(at, "a text longer than any cell can hold", "at most 32767 characters")
		return nil
	case c.kind == textual && blank(c.s):
		w.doc.Unread = append(w.doc.Unread, doc.Remark{Place: at, Text: doc.Quote(c.s) + " is taken as left blank"})
		return nil
	}
	n := &doc.Node{Kind: doc.String}
	var ok bool
	switch c.kind {
	case textual:
		fromText(n, c.s, h, w.system)
		ok = true
	case logical:
		fromLogical(n, c.x != 0, h.field)
		ok = true
	default:
		ok = r.fromNumber(n, c, at, h, w.system)
	}
	if !ok {
		return nil
	}
	n.Ref = w.doc.Add(at, r.written(c))
	return n
}

// blank reports the marks that people fill an empty cell with.
func blank(s string) bool {
	switch strings.ToLower(s) {
	case "-", "--", "–", "—", "n/a", "n.a.", "#n/a":
		return true
	}
	return false
}

// written is the text of a cell as a person sees it.
func (r *reader) written(c *cell) string {
	switch {
	case c.kind == textual:
		return c.s
	case c.kind == logical && c.x != 0:
		return "TRUE"
	case c.kind == logical:
		return "FALSE"
	}
	f := r.book.format(c.style)
	if f.date {
		if s, ok := day(c.x, r.book.date1904); ok {
			return s
		}
	}
	return f.shown(c.x)
}

// setNumber makes n a number; adding zero turns -0 into 0.
func setNumber(n *doc.Node, x float64) {
	x += 0
	n.Kind, n.Num, n.Text = doc.Number, x, strconv.FormatFloat(x, 'f', -1, 64)
}

func setBool(n *doc.Node, b bool) { n.Kind, n.Bool = doc.Bool, b }

func fromText(n *doc.Node, s string, h heading, system units.System) {
	n.Text = s
	f := h.field
	switch {
	case f.Kind == form.Choice:
		n.Text = choice(f, s)
	case f.Kind == form.Flag:
		if b, ok := yes(s); ok {
			setBool(n, b)
		}
	case f.Kind == form.Date:
		n.Text = worded(s)
	case f.Kind == form.Whole:
		if w, err := units.Parse(s); err == nil && !w.HasUnit && w.Datum == "" && w.Number == math.Trunc(w.Number) {
			setNumber(n, w.Number)
		}
	case measured(f):
		n.Text = withUnit(spaced(s), h, system)
	}
}

// spaced makes every kind of space a plain one: workbooks are full of the
// narrow and the unbreakable kinds.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// withUnit adds the unit and datum of the column to a text that has none of
// its own. A text that is no quantity at all stays as it is.
func withUnit(s string, h heading, system units.System) string {
	w, err := units.Parse(s)
	if err != nil {
		return s
	}
	if !w.HasUnit && h.unit != "" && h.unit != bare(h.field, system) {
		if w.Datum != "" {
			return s // a datum behind the number; the unit would have to go between
		}
		s += " " + h.unit
	}
	if w.Datum == "" && h.datum != "" && h.field.Dim.Line != units.Plain {
		s += " from " + h.datum
	}
	return s
}

// bare is the symbol of a field's unit when none is written.
func bare(f *form.Field, system units.System) string {
	if !measured(f) {
		return ""
	}
	return f.Bare(system).Symbol
}

// choice is the choice that a text spells, or the trade has another word for;
// else the text.
func choice(f *form.Field, s string) string {
	for _, c := range f.Choices {
		if fold(c) == fold(s) {
			return c
		}
	}
	for _, w := range f.Words {
		if fold(w.Text) == fold(s) {
			return w.Choice
		}
	}
	return s
}

func yes(s string) (value, ok bool) {
	switch strings.ToLower(s) {
	case "yes", "y", "true", "x", "✓", "1":
		return true, true
	case "no", "n", "false", "0":
		return false, true
	}
	return false, false
}

func fromLogical(n *doc.Node, b bool, f *form.Field) {
	switch {
	case f.Kind == form.Flag:
		setBool(n, b)
	case b:
		n.Text = "true"
	default:
		n.Text = "false"
	}
}

// fromNumber makes the value of a field from a number and the way its cell
// shows it.
func (r *reader) fromNumber(n *doc.Node, c *cell, at place.Place, h heading, system units.System) bool {
	f, look := h.field, r.book.format(c.style)
	if look.date || look.clock {
		return r.fromDate(n, c, at, h)
	}
	switch {
	case f.Kind == form.Whole:
		setNumber(n, rounded(c.x))
	case f.Kind == form.Flag && (c.x == 0 || c.x == 1):
		setBool(n, c.x == 1)
	case measured(f) || f.Kind == form.Free:
		fromMeasured(n, c.x, look, h, system)
	case f.Kind == form.Choice:
		n.Text = choice(f, look.shown(c.x))
	default:
		n.Text = look.shown(c.x)
	}
	return true
}

// fromMeasured gives a number the unit its cell shows, or that of its column;
// where both are silent it stays bare.
func fromMeasured(n *doc.Node, x float64, look format, h heading, system units.System) {
	unit := h.unit
	switch u, ok := units.ByName(look.literal); {
	case look.percent && math.Abs(x) < 1e300:
		x, unit = x*100, "%"
	case look.literal != "" && ok && fits(h.field, u):
		unit = u.Symbol
	}
	datum := h.datum
	if h.field.Dim.Line == units.Plain {
		datum = ""
	}
	if (unit == "" || unit == bare(h.field, system) && !look.percent) && datum == "" {
		setNumber(n, rounded(x))
		return
	}
	n.Text = decimal(x)
	if unit != "" {
		n.Text += " " + unit
	}
	if datum != "" {
		n.Text += " from " + datum
	}
}

// fromDate reads a cell that shows a date or a time of day. In a column of
// sizes such a cell is nearly always a fraction that the spreadsheet program
// took for a date.
func (r *reader) fromDate(n *doc.Node, c *cell, at place.Place, h heading) bool {
	f, look := h.field, r.book.format(c.style)
	if look.clock && f.Kind == form.Quantity && f.Dim == units.Time {
		n.Text = decimal(math.Round(c.x*86400)/60) + " min"
		return true
	}
	s, ok := day(c.x, r.book.date1904)
	switch {
	case !ok || look.clock:
		r.fault(at, "a time of day or a date outside the calendar", "a value")
	case f.Kind == form.Date || f.Kind == form.Text || f.Kind == form.Free:
		n.Text = s
		return true
	default:
		r.fault(at, "the date "+s, "a value; to keep a fraction such as 9-5/8 from becoming a date, make the cell a text cell first")
	}
	return false
}
