package terminal

import (
	"strings"
	"unicode"
)

// clean makes control characters and line breaks of a plan's text harmless on
// a terminal.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r):
			return '·'
		}
		return r
	}, s)
}

// pad fills s with spaces to n columns.
func pad(s string, n int) string {
	if w := width(s); w < n {
		return s + strings.Repeat(" ", n-w)
	}
	return s
}

// cut shortens s to n columns.
func cut(s string, n int) string {
	if width(s) <= n || n < 2 {
		return s
	}
	return string([]rune(s)[:n-1]) + "…"
}

// Wrap breaks a text into lines of at most room characters, as the audit's own
// are broken.
func Wrap(text string, room int) []string { return wrap(text, room) }

// wrap breaks a text into lines of at most n columns, at spaces; a word longer
// than a line is cut into pieces. There is always one line.
func wrap(s string, n int) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(s) {
		for width(word) > n {
			if line != "" {
				out, line = append(out, line), ""
			}
			r := []rune(word)
			out, word = append(out, string(r[:n])), string(r[n:])
		}
		switch {
		case line == "":
			line = word
		case width(line)+1+width(word) <= n:
			line += " " + word
		default:
			out, line = append(out, line), word
		}
	}
	if line != "" || len(out) == 0 {
		out = append(out, line)
	}
	return out
}
