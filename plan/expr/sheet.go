package expr

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Sheet is the expression as a spreadsheet formula without its leading "=", all
// in SI. cell gives what stands for a name: a reference, or anything else that
// needs no parentheses around it.
//
// The formula decides as Eval does: comparisons carry the tolerance, texts differ
// in case, rounding cleans first. It can't say what is missing, and it shows an
// error where Eval never reaches one, because AND and OR of a spreadsheet work
// out all their sides.
func (e *Expr) Sheet(cell func(name string) string) string {
	return e.root.write(&sheet{cell}).text
}

type sheet struct{ cell func(string) string }

// piece is part of a formula and how tightly it holds together.
type piece struct {
	text string
	hold int
}

// How tightly a piece holds. A spreadsheet puts the unary minus before ^, so a
// negative counts as loose and is put in parentheses wherever it isn't first.
const (
	loose  = iota // a comparison
	sums          // sums, negatives
	prods         // products
	powers        // powers
	closed        // references, calls, numbers not below 0
)

// in gives the piece for a place that asks for some hold.
func (p piece) in(hold int) string {
	if p.hold < hold {
		return "(" + p.text + ")"
	}
	return p.text
}

// called is a call of a spreadsheet function.
func called(function string, args ...string) piece {
	return piece{function + "(" + strings.Join(args, ",") + ")", closed}
}

// sheetNumber writes x so that a spreadsheet reads the same value.
func sheetNumber(x float64) string {
	if m := math.Abs(x); m != 0 && (m < 1e-5 || m >= 1e15) {
		return strconv.FormatFloat(x, 'E', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

func sheetText(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

func (n constant) write(*sheet) piece {
	if n.value.SI < 0 {
		return piece{n.sheet, sums}
	}
	return piece{n.sheet, closed}
}

func (n name) write(s *sheet) piece { return piece{s.cell(n.text), closed} }

func (n arithmetic) write(s *sheet) piece {
	hold := sums
	if n.op == '*' || n.op == '/' {
		hold = prods
	}
	return piece{n.l.write(s).in(hold) + string(n.op) + n.r.write(s).in(hold+1), hold}
}

func (n negation) write(s *sheet) piece { return piece{"-" + n.x.write(s).in(closed), sums} }

func (n power) write(s *sheet) piece {
	exponent := sheetNumber(n.exponent)
	if n.exponent < 0 {
		exponent = "(" + exponent + ")"
	}
	return piece{n.x.write(s).in(closed) + "^" + exponent, powers}
}

func (n function) write(s *sheet) piece {
	return called(strings.ToUpper(n.name), n.x.write(s).text)
}

func (n extreme) write(s *sheet) piece {
	args := make([]string, len(n.parts))
	for i, part := range n.parts {
		args[i] = part.write(s).text
	}
	if n.least {
		return called("MIN", args...)
	}
	return called("MAX", args...)
}

func (n rounding) write(s *sheet) piece {
	clean := called("ROUND", n.x.write(s).in(prods)+"/"+n.step.sheet, "6")
	return piece{called("INT", clean.text+"+0.5").text + "*" + n.step.sheet, prods}
}

func (n band) write(s *sheet) piece {
	last := len(n.edges)
	out := n.values[last].write(s)
	x := n.x.write(s)
	for i := last - 1; i >= 0; i-- {
		out = called("IF", compared(x, "<=", n.edges[i].write(s)), n.values[i].write(s).text, out.text)
	}
	return out
}

func (n comparison) write(s *sheet) piece {
	return piece{compared(n.l.write(s), n.op, n.r.write(s)), loose}
}

// compared writes a comparison with its tolerance; against 0 there is none.
func compared(a piece, op string, b piece) string {
	if a.text == "0" || b.text == "0" {
		return a.in(sums) + op + b.in(sums)
	}
	slack := "1E-09*" + called("MAX", "ABS("+a.text+")", "ABS("+b.text+")").text
	difference := a.in(sums) + "-" + b.in(prods)
	switch op {
	case "=":
		return "ABS(" + difference + ")<=" + slack
	case "<>":
		return "ABS(" + difference + ")>" + slack
	case "<", ">=":
		return difference + op + "-" + slack
	}
	return difference + op + slack
}

func (n equality) write(s *sheet) piece {
	same := called("EXACT", n.l.write(s).text, n.r.write(s).text)
	if n.differ {
		return called("NOT", same.text)
	}
	return same
}

func (n member) write(s *sheet) piece {
	x := n.x.write(s).text
	tests := make([]string, len(n.list))
	for i, text := range n.list {
		tests[i] = called("EXACT", x, sheetText(text)).text
	}
	if len(tests) == 1 {
		return piece{tests[0], closed}
	}
	return called("OR", tests...)
}

// write lays a chain such as "a and b and c" side by side: a spreadsheet nests
// no deeper than 64.
func (n logic) write(s *sheet) piece {
	sides := []string{n.r.write(s).text}
	left := n.l
	for {
		l, ok := left.(logic)
		if !ok || l.decides != n.decides {
			break
		}
		sides = append(sides, l.r.write(s).text)
		left = l.l
	}
	sides = append(sides, left.write(s).text)
	slices.Reverse(sides)
	if n.decides {
		return called("OR", sides...)
	}
	return called("AND", sides...)
}

func (n denial) write(s *sheet) piece { return called("NOT", n.x.write(s).text) }
