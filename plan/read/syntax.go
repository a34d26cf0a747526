package read

import (
	"errors"
	"io"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
)

// syntax turns an error of the decoder into a fault. What was expected follows
// from where the text stopped being JSON, not from the decoder's words, which
// may change; from is the end of the token before.
func (p *parser) syntax(from int, err error) {
	start := skipBetween(p.text, from)
	var se *jsontext.SyntacticError
	if !errors.As(err, &se) || errors.Is(err, io.ErrUnexpectedEOF) {
		p.cut(start)
		return
	}
	off := int(se.ByteOffset)
	if off > start && strings.IndexByte("tfn", p.text[start]) >= 0 {
		off = start // the whole word is wrong, not one letter of it
	}
	found, expected := word(p.text[off:]), ""
	switch {
	case off > start:
		found, expected = p.insideToken(start, off)
	case int(se.ByteOffset) > start:
		expected = "true, false or null"
	default:
		expected = p.betweenTokens(from, off)
	}
	p.at.move(p.text, off)
	p.fatal(p.at.place(p.name), found, expected)
}

// cut is the fault of a text that ends too early.
func (p *parser) cut(start int) {
	expected := readable
	switch {
	case start < len(p.text) && p.text[start] == '"':
		p.at.move(p.text, start)
		at := p.at.place("")
		expected = `'"' to close the text that begins at ` + at.String()
	case len(p.open) > 0:
		at := p.open[len(p.open)-1]
		expected = "the end of what opens at " + at.String()
	}
	p.at.move(p.text, len(p.text))
	p.fatal(p.at.place(p.name), "the end of the file", expected)
}

// insideToken says what is wrong within the text or number that begins at start.
func (p *parser) insideToken(start, off int) (found, expected string) {
	rest := p.text[off:]
	switch {
	case p.text[start] != '"':
		return word(rest), "a digit"
	case strings.HasPrefix(rest, `\u`):
		return prefix(rest, 6), "a whole character: two surrogates together make one"
	case rest[0] == '\\':
		return prefix(rest, 2), `an escape that JSON has: \" \\ \/ \b \f \n \r \t \u`
	}
	return "a control character in a text", `an escape such as \n or \t`
}

// betweenTokens says what could have stood at off, after the token that ends
// at from.
func (p *parser) betweenTokens(from, off int) string {
	kind, length := p.dec.StackIndex(p.dec.StackDepth())
	comma := strings.Contains(p.text[from:off], ",")
	switch {
	case p.text[off] == ',':
		return "a member or value on both sides of a comma"
	case kind == '{' && length%2 == 1:
		if strings.Contains(p.text[from:off], ":") {
			return "a value"
		}
		return "':' after the member name"
	case kind == '{' && (length == 0 || comma):
		return "a member name in double quotes"
	case kind == '{':
		return "',' or '}'"
	case kind == '[' && length > 0 && !comma:
		return "',' or ']'"
	}
	return "a value"
}

func prefix(s string, n int) string { return strings.ToValidUTF8(s[:min(n, len(s))], "") }
