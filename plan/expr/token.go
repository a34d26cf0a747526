package expr

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"spudgate/plan/units"
)

// sort is the sort of a token.
type sort uint8

const (
	end    sort = iota
	number      // with its unit
	word        // a name, a function or a keyword
	quoted      // a text
	symbol
)

// token is one piece of the source.
type token struct {
	sort    sort
	text    string // as written; of a quoted text, its content
	column  int
	value   float64 // of a number, as written
	unit    units.Unit
	hasUnit bool
	unitAt  int // column of the unit
}

func (t token) String() string {
	switch t.sort {
	case end:
		return "the end"
	case quoted:
		return "a text"
	}
	return strconv.Quote(t.text)
}

var keywords = map[string]bool{"and": true, "or": true, "not": true, "in": true, "else": true}

// scanner cuts the source into tokens.
type scanner struct {
	src    string
	pos    int // of the next byte
	mark   int // the byte column counts up to
	column int // of the byte at mark, from 1
}

// here is the column of the next byte.
func (s *scanner) here() int {
	s.column += utf8.RuneCountInString(s.src[s.mark:s.pos])
	s.mark = s.pos
	return s.column
}

// rest is the source not yet read.
func (s *scanner) rest() string { return s.src[s.pos:] }

func (s *scanner) blanks() {
	s.pos += len(s.rest()) - len(strings.TrimLeft(s.rest(), " \t\r\n"))
}

// next is the next token, or what is wrong there.
func (s *scanner) next() (token, *Error) {
	s.blanks()
	t := token{column: s.here()}
	rest := s.rest()
	switch {
	case rest == "":
		return t, nil
	case isDigit(rest[0]) || rest[0] == '.':
		return s.number(t)
	case isLetter(rest[0]):
		t.sort, t.text = word, rest[:leading(rest, isNamePart)]
		s.pos += len(t.text)
		if strings.HasSuffix(t.text, ".") || strings.Contains(t.text, "..") {
			return t, &Error{t.column, "a dot in a name stands between two words: " + strconv.Quote(t.text)}
		}
		return t, nil
	case rest[0] == '\'':
		return s.quoted(t)
	}
	return s.symbol(t)
}

func (s *scanner) symbol(t token) (token, *Error) {
	for _, y := range []string{"<>", "<=", ">=", "<", ">", "=", "+", "-", "*", "/", "^", "(", ")", ",", ":"} {
		if strings.HasPrefix(s.rest(), y) {
			t.sort, t.text = symbol, y
			s.pos += len(y)
			return t, nil
		}
	}
	r, _ := utf8.DecodeRuneInString(s.rest())
	return t, &Error{t.column, "the language has no " + strconv.QuoteRune(r)}
}

// quoted reads a text in single quotes; a quote inside is written twice.
func (s *scanner) quoted(t token) (token, *Error) {
	var b strings.Builder
	for i := s.pos + 1; i < len(s.src); i++ {
		switch {
		case s.src[i] < ' ':
			return t, &Error{t.column, "a text holds no control characters"}
		case s.src[i] != '\'':
			b.WriteByte(s.src[i])
		case strings.HasPrefix(s.src[i:], "''"):
			b.WriteByte('\'')
			i++
		default:
			s.pos = i + 1
			t.sort, t.text = quoted, b.String()
			return t, nil
		}
	}
	return t, &Error{t.column, "a text that never ends; its closing quote is missing"}
}

// number reads a decimal number and the unit behind it.
func (s *scanner) number(t token) (token, *Error) {
	t.sort, t.text = number, s.rest()[:decimal(s.rest())]
	v, err := strconv.ParseFloat(t.text, 64)
	if err != nil {
		return t, &Error{t.column, "a number that can't be read or is too large: " + strconv.Quote(t.text)}
	}
	t.value = v
	s.pos += len(t.text)
	if r := s.rest(); len(r) > 1 && r[0] == ',' && isDigit(r[1]) {
		return t, &Error{s.here(), "a comma separates arguments and is followed by a blank; thousands are not grouped"}
	}
	return s.unit(t)
}

// unit reads the unit behind a number: the longest run that names one. A keyword
// that is no unit leaves the number bare.
func (s *scanner) unit(t token) (token, *Error) {
	after := s.pos
	s.blanks()
	rest := s.rest()
	n := unitRun(rest)
	if n == 0 {
		s.pos = after
		return t, nil
	}
	t.unitAt = s.here()
	for i := n; i > 0; i-- {
		if i < len(rest) && isNamePart(rest[i]) {
			continue // the middle of a word
		}
		if u, ok := units.ByName(rest[:i]); ok {
			t.unit, t.hasUnit = u, true
			t.text = s.src[after-len(t.text) : s.pos+i]
			s.pos += i
			return t, nil
		}
	}
	wrong := rest[:max(1, leading(rest, isNamePart))]
	if keywords[wrong] {
		s.pos = after
		return t, nil
	}
	return t, &Error{t.unitAt, "unknown unit " + strconv.Quote(strings.ToValidUTF8(rest[:n], ""))}
}

// longestUnit bounds the search for a unit, in bytes.
const longestUnit = 32

// unitRun is the length of what could be a unit at the start of s.
func unitRun(s string) int {
	for i, r := range s {
		inside := i > 0 && strings.ContainsRune("/.-0123456789", r)
		if i >= longestUnit || !inside && !unicode.IsLetter(r) && !strings.ContainsRune("%°#²³", r) {
			return i
		}
	}
	return len(s)
}

// decimal is the length of the number at the start of s, exponent included.
func decimal(s string) int {
	n := leading(s, isDigit)
	if n < len(s) && s[n] == '.' {
		n++
		n += leading(s[n:], isDigit)
	}
	if n < len(s) && (s[n] == 'e' || s[n] == 'E') {
		m := n + 1
		if m < len(s) && (s[m] == '+' || s[m] == '-') {
			m++
		}
		if digits := leading(s[m:], isDigit); digits > 0 {
			n = m + digits
		}
	}
	return n
}

// leading is how many bytes at the start of s are in a class.
func leading(s string, in func(byte) bool) int {
	n := 0
	for n < len(s) && in(s[n]) {
		n++
	}
	return n
}

func isDigit(b byte) bool    { return b >= '0' && b <= '9' }
func isLetter(b byte) bool   { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b == '_' }
func isNamePart(b byte) bool { return isLetter(b) || isDigit(b) || b == '.' }
