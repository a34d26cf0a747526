package expr

import (
	"fmt"
	"strconv"
	"unicode/utf8"
)

// parser reads one expression by recursive descent, one method a level of
// precedence. The first error stops it: from then on it sees nothing but the end
// of the source, so that every loop ends.
type parser struct {
	scanner
	tok    token
	typeOf func(string) (Type, bool)
	names  []string // in order of appearance, repeated
	depth  int
	err    error
}

func newParser(src string, typeOf func(string) (Type, bool)) *parser {
	p := &parser{scanner: scanner{src: src, column: 1}, typeOf: typeOf, depth: -1}
	switch {
	case len(src) > mostBytes:
		p.fail(1, "longer than %d bytes", mostBytes)
	case !utf8.ValidString(src):
		p.fail(1, "not valid UTF-8")
	default:
		p.advance()
	}
	return p
}

// fail keeps the first error and turns the rest of the source into its end. The
// node it gives stands in for what could not be read.
func (p *parser) fail(column int, format string, args ...any) node {
	if p.err == nil {
		p.err = &Error{column, fmt.Sprintf(format, args...)}
	}
	p.tok = token{column: column}
	return constant{}
}

func (p *parser) advance() {
	if p.err != nil {
		return
	}
	t, err := p.next()
	if err != nil {
		p.fail(err.Column, "%s", err.Text)
		return
	}
	p.tok = t
}

// at reports whether the next token is the symbol or keyword s.
func (p *parser) at(s string) bool {
	return p.tok.text == s && (p.tok.sort == symbol || p.tok.sort == word)
}

// accept passes over the symbol or keyword s if it comes next.
func (p *parser) accept(s string) bool {
	if !p.at(s) {
		return false
	}
	p.advance()
	return true
}

// expect passes over s, which must come next.
func (p *parser) expect(s, why string) {
	if !p.accept(s) {
		p.fail(p.tok.column, "expected %q %s, found %v", s, why, p.tok)
	}
}

// deeper counts a level of nesting and gives what ends it.
func (p *parser) deeper() func() {
	p.depth++
	if p.depth > mostDepth {
		p.fail(p.tok.column, "nested deeper than %d levels", mostDepth)
	}
	return func() { p.depth-- }
}

// whole is the expression from start to end.
func (p *parser) whole() node {
	n := p.expression()
	switch {
	case p.err != nil || p.tok.sort == end:
	case p.tok.sort == number:
		p.fail(p.tok.column, "an operator is missing before %v; a size is written in decimals, as 9.625 in", p.tok)
	default:
		p.fail(p.tok.column, "expected an operator or the end, found %v", p.tok)
	}
	return n
}

func (p *parser) expression() node {
	defer p.deeper()()
	n := p.conjunction()
	for p.at("or") {
		n = p.logic(n, p.conjunction)
	}
	return n
}

func (p *parser) conjunction() node {
	n := p.denial()
	for p.at("and") {
		n = p.logic(n, p.denial)
	}
	return n
}

// logic reads the operator at hand and its right side.
func (p *parser) logic(left node, right func() node) node {
	op := p.tok
	p.advance()
	return p.join(op, left, right())
}

func (p *parser) denial() node {
	if !p.at("not") {
		return p.comparison()
	}
	defer p.deeper()()
	op := p.tok
	p.advance()
	return p.not(op, p.denial())
}

// comparison reads at most one comparison: a chain would say something else than
// it seems to.
func (p *parser) comparison() node {
	n := p.sum()
	op := p.tok
	switch {
	case op.sort == symbol && comparisons[op.text]:
		p.advance()
		n = p.compare(op, n, p.sum())
	case p.at("in"):
		p.advance()
		n = p.member(op, n, p.texts())
	}
	if p.tok.sort == symbol && comparisons[p.tok.text] || p.at("in") {
		return p.fail(p.tok.column, "comparisons don't chain; join two with and")
	}
	return n
}

// texts reads ('a', 'b').
func (p *parser) texts() []string {
	p.expect("(", "before the texts")
	var list []string
	for p.err == nil {
		if p.tok.sort != quoted {
			p.fail(p.tok.column, "expected a text in single quotes, found %v", p.tok)
		}
		list = append(list, p.tok.text)
		p.advance()
		if !p.accept(",") {
			break
		}
	}
	p.expect(")", "after the texts")
	return list
}

func (p *parser) sum() node {
	n := p.product()
	for p.at("+") || p.at("-") {
		op := p.tok
		p.advance()
		n = p.add(op, n, p.product())
	}
	return n
}

func (p *parser) product() node {
	n := p.unary()
	for p.at("*") || p.at("/") {
		op := p.tok
		p.advance()
		n = p.multiply(op, n, p.unary())
	}
	return n
}

func (p *parser) unary() node {
	if !p.at("-") {
		return p.power()
	}
	defer p.deeper()()
	op := p.tok
	p.advance()
	if p.tok.sort == number && p.tok.unit.Offset != 0 {
		// -40 degF is a temperature, not the negative of 277 K.
		p.tok.value = -p.tok.value
		return p.power()
	}
	return p.negate(op, p.unary())
}

func (p *parser) power() node {
	base := p.tok
	n := p.primary()
	if !p.at("^") {
		return n
	}
	if base.sort == number && base.hasUnit {
		return p.fail(p.tok.column, "a power of a number with a unit can be read two ways; put the number in parentheses")
	}
	op := p.tok
	p.advance()
	n = p.raise(op, n, p.exponent())
	if p.at("^") {
		return p.fail(p.tok.column, "powers don't chain; use parentheses")
	}
	return n
}

// exponent reads the plain number right of ^.
func (p *parser) exponent() float64 {
	sign := 1.0
	if p.accept("-") {
		sign = -1
	}
	t := p.tok
	switch {
	case t.sort != number:
		p.fail(t.column, "expected a number as exponent, found %v", t)
	case t.hasUnit:
		p.fail(t.unitAt, "an exponent has no unit")
	case t.value == 0:
		p.fail(t.column, "an exponent of 0 says nothing")
	}
	p.advance()
	return sign * t.value
}

func (p *parser) primary() node {
	t := p.tok
	switch {
	case t.sort == number:
		p.advance()
		return p.literal(t)
	case t.sort == quoted:
		p.advance()
		return constant{value: TextOf(t.text), sheet: sheetText(t.text)}
	case t.sort == word && !keywords[t.text]:
		p.advance()
		if p.at("(") {
			return p.call(t)
		}
		return p.name(t)
	case p.accept("("):
		n := p.expression()
		p.expect(")", "to close the one at column "+strconv.Itoa(t.column))
		return n
	}
	return p.fail(t.column, "expected a value, found %v", t)
}

// call reads the arguments of the function named by t.
func (p *parser) call(t token) node {
	p.advance()
	if t.text == "band" {
		return p.band(t)
	}
	f, ok := functions[t.text]
	if !ok {
		return p.fail(t.column, "unknown function %q", t.text)
	}
	args := []node{p.expression()}
	for p.accept(",") {
		args = append(args, p.expression())
	}
	p.expect(")", "to close "+t.text)
	if p.err != nil {
		return constant{}
	}
	return f(p, t, args)
}

// band reads band(x, edge: value, ..., else: value) from x on.
func (p *parser) band(t token) node {
	b := band{x: p.expression()}
	for p.accept(",") && !p.at("else") {
		edge := p.tok
		b.edges = append(b.edges, p.edge())
		p.expect(":", "after an edge of the band")
		b.values = append(b.values, p.expression())
		p.checkEdge(edge, &b)
	}
	p.expect("else", "as the last part of the band")
	p.expect(":", "after else")
	b.values = append(b.values, p.expression())
	p.expect(")", "to close band")
	if p.err != nil {
		return constant{}
	}
	return p.banded(t, b)
}

// edge reads a number with its sign and unit.
func (p *parser) edge() constant {
	minus := p.accept("-")
	t := p.tok
	if t.sort != number {
		p.fail(t.column, "an edge of a band is a plain number, found %v", t)
		return constant{}
	}
	if minus {
		t.value = -t.value
	}
	p.advance()
	c, _ := p.literal(t).(constant)
	return c
}
