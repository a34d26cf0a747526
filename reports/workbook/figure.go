package workbook

import (
	"math"
	"strconv"
	"strings"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// figure is a quantity in the reader's unit.
type figure struct {
	x        float64
	unit     units.Unit
	decimals int
}

func (b *book) figure(q finding.Quantity) figure {
	u, d := units.ShownIn(q.Dim, b.units, q.Small)
	return figure{u.FromSI(q.SI), u, d}
}

// symbol is the unit as written behind the number; a pure number has none.
func (f figure) symbol() string {
	if f.unit.Symbol == "1" {
		return ""
	}
	return f.unit.Symbol
}

// text is the figure as it's read in its cell.
func (f figure) text() string {
	return strings.TrimSpace(units.Decimal(f.x, f.decimals) + " " + f.symbol())
}

// format is the number format, with the unit in it where asked.
func (f figure) format(unit bool) string {
	s := "#,##0"
	if f.decimals > 0 {
		s += "." + strings.Repeat("0", f.decimals)
	}
	if unit && f.symbol() != "" {
		s += `" ` + f.symbol() + `"`
	}
	return s
}

// cell is the figure as a number that says its unit.
func (f figure) cell(l look) cell {
	l.number, l.right = f.format(true), true
	return cell{value: f.x, look: l}
}

// fully gives as many decimals, within reason, as the number really has: for
// workings, where somebody works the number out again.
func (f figure) fully() figure {
	for d := f.decimals; d <= f.decimals+4; d++ {
		if t := math.Round(f.x*math.Pow10(d)) / math.Pow10(d); math.Abs(t-f.x) <= 1e-9*math.Abs(f.x) {
			f.decimals = d
			return f
		}
	}
	f.decimals += 2
	return f
}

// apart gives two figures the decimals it takes to tell them apart where they
// differ: rounding never makes a measure look like its limit.
func apart(a, b figure) (figure, figure) {
	if a.unit != b.unit || a.text() != b.text() {
		return a, b
	}
	d := finding.Decimals(a.x, b.x, a.decimals)
	a.decimals, b.decimals = d, d
	return a, b
}

// inSI is a cell of a unit as an SI term that needs no parentheses.
func inSI(ref string, u units.Unit) string {
	switch {
	case u.Factor == 1 && u.Offset == 0:
		return ref
	case u.Offset == 0:
		return "(" + ref + "*" + literal(u.Factor) + ")"
	}
	return "(" + ref + "*" + literal(u.Factor) + "+" + literal(u.Offset) + ")"
}

// fromSI is an SI formula turned into a unit.
func fromSI(formula string, u units.Unit) string {
	switch {
	case u.Factor == 1 && u.Offset == 0:
		return formula
	case u.Offset == 0:
		return "(" + formula + ")/" + literal(u.Factor)
	}
	return "((" + formula + ")-" + literal(u.Offset) + ")/" + literal(u.Factor)
}

func literal(x float64) string { return strconv.FormatFloat(x, 'G', -1, 64) }

// term is a named value of a formula and the SI term that stands for it.
type term struct {
	value expr.Value
	ref   string
}

// mostFormula is how long a formula may be; the format allows 8,192.
const mostFormula = 8000

// live is an expression as a formula over terms, in SI. It's refused where it
// can't be written over them or doesn't give the audited value: a live number
// that moved on opening would be worse than a plain one.
func live(source string, terms map[string]term, audited expr.Value) (string, bool) {
	e, err := expr.Compile(source, func(name string) (expr.Type, bool) {
		t, ok := terms[name]
		return expr.Type{Kind: t.value.Kind, Dim: t.value.Dim}, ok
	})
	if err != nil {
		return "", false
	}
	got, err := e.Eval(func(name string) expr.Result { return expr.Known(terms[name].value) })
	if err != nil || !got.Known || !agree(got.Value, audited) {
		return "", false
	}
	formula := e.Sheet(func(name string) string { return terms[name].ref })
	return formula, len(formula) <= mostFormula
}

// agree reports whether an evaluated value is the audited one.
func agree(a, b expr.Value) bool {
	if a.Kind != b.Kind {
		return false
	}
	switch a.Kind {
	case expr.Truth:
		return a.Truth == b.Truth
	case expr.Text:
		return a.Text == b.Text
	}
	return math.Abs(a.SI-b.SI) <= 1e-9*math.Max(math.Abs(a.SI), math.Abs(b.SI))
}

// valueOf is a value of the record as one of the expression language.
func valueOf(v finding.Value) expr.Value {
	switch {
	case v.Quantity != nil:
		return expr.Number(v.Quantity.SI, v.Quantity.Dim)
	case v.Truth != nil:
		return expr.TruthOf(*v.Truth)
	}
	return expr.TextOf(v.Text)
}
