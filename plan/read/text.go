package read

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"spudgate/plan/doc"
	"spudgate/plan/place"
)

const byteOrderMark = "\xEF\xBB\xBF"

// plainText is b as UTF-8 without its byte order mark, and not blank. Columns
// are counted in the text that is given back, as an editor shows it.
func plainText(name string, b []byte) (string, doc.Faults) {
	switch {
	case len(b) == 0:
		return "", whole(name, "an empty file", readable)
	case isUTF16(b):
		return "", whole(name, "UTF-16", "UTF-8: save as UTF-8")
	}
	text := string(bytes.TrimPrefix(b, []byte(byteOrderMark)))
	if skipSpace(text, 0) == len(text) {
		return "", whole(name, "a file with nothing in it", readable)
	}
	if i := badByte(text); i >= 0 {
		var at cursor
		at.move(text, i)
		return "", doc.Faults{{Place: at.place(name), Found: fmt.Sprintf("byte %#02x", text[i]), Expected: "text in UTF-8"}}
	}
	return text, nil
}

// isUTF16 knows the byte order marks and, without one, the zero byte that every
// Latin letter or bracket has on one side.
func isUTF16(b []byte) bool {
	if len(b) < 2 {
		return false
	}
	marked := b[0] == 0xFF && b[1] == 0xFE || b[0] == 0xFE && b[1] == 0xFF
	return marked || (b[0] == 0) != (b[1] == 0)
}

// badByte is the offset of the first zero byte or the first that isn't UTF-8,
// or -1.
func badByte(text string) int {
	bad := strings.IndexByte(text, 0)
	if utf8.ValidString(text) {
		return bad
	}
	for i, r := range text {
		if i == bad {
			break
		}
		if _, size := utf8.DecodeRuneInString(text[i:]); r == utf8.RuneError && size == 1 {
			return i
		}
	}
	return bad
}

// utf16Bytes is s in little-endian UTF-16.
func utf16Bytes(s string) []byte {
	var b []byte
	for _, u := range utf16.Encode([]rune(s)) {
		b = append(b, byte(u), byte(u>>8))
	}
	return b
}

// cursor walks forward through a text and knows line and column: tokens come
// in order, so one pass over the text finds all places.
type cursor struct {
	offset, line, column int // line and column from 0
}

// move takes the cursor forward to offset, where a code point begins.
func (c *cursor) move(text string, offset int) {
	passed := text[c.offset:offset]
	if i := strings.LastIndexByte(passed, '\n'); i >= 0 {
		c.line += strings.Count(passed, "\n")
		c.column = 0
		passed = passed[i+1:]
	}
	c.column += utf8.RuneCountInString(passed)
	c.offset = offset
}

func (c *cursor) place(file string) place.Place {
	return place.Place{File: file, Line: c.line + 1, Column: c.column + 1}
}

// skipSpace is the first offset from i on that isn't JSON white space.
func skipSpace(text string, i int) int {
	for i < len(text) && strings.IndexByte(" \t\r\n", text[i]) >= 0 {
		i++
	}
	return i
}

// skipBetween is the first offset from i on that can begin a token: past white
// space and the marks between tokens.
func skipBetween(text string, i int) int {
	for i < len(text) && strings.IndexByte(" \t\r\n,:", text[i]) >= 0 {
		i++
	}
	return i
}

// word is the beginning of text as a fault shows it: one mark, or letters and
// digits up to the next mark.
func word(text string) string {
	text = text[:min(len(text), 100)]
	end := strings.IndexAny(text, " \t\r\n,:{}[]\"")
	switch {
	case text == "":
		return "the end of the file"
	case end < 0:
		end = len(text)
	case end == 0:
		end = 1
	}
	return doc.Quote(strings.ToValidUTF8(text[:end], ""))
}
