package read_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/read"
)

// FuzzJSON holds the reader against the standard library: what it accepts is
// JSON with the same content, every place leads back to what stands there, and
// what it refuses has faults with a place inside the text.
func FuzzJSON(f *testing.F) {
	for _, c := range refusals {
		f.Add([]byte(c.text))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		d, err := read.JSON("f", b)
		text := strings.TrimPrefix(string(b), "\xEF\xBB\xBF")
		lines := strings.Split(text, "\n")
		if err != nil {
			checkFaults(t, err, lines)
			return
		}
		var want any
		if err := json.Unmarshal([]byte(text), &want); err != nil {
			t.Fatalf("accepted %q: %v", text, err)
		}
		if got := fmt.Sprint(plain(d.Root)); got != fmt.Sprint(want) {
			t.Errorf("%q is read as %s, not as %v", text, got, want)
		}
		checkPlaces(t, d, d.Root, lines)
	})
}

func checkFaults(t *testing.T, err error, lines []string) {
	faults, ok := err.(doc.Faults)
	if !ok || len(faults) == 0 {
		t.Fatalf("%T %v is no list of faults", err, err)
	}
	for _, f := range faults {
		if f.Found == "" || f.Expected == "" || f.Place.File != "f" {
			t.Errorf("an incomplete fault: %+v", f)
		}
		if f.Place.Line > len(lines) || f.Place.Line > 0 && f.Place.Column > len([]rune(lines[f.Place.Line-1]))+1 {
			t.Errorf("%s is outside the text", f)
		}
	}
}

// checkPlaces follows every place back to the text by splitting it into lines
// and code points.
func checkPlaces(t *testing.T, d *doc.Doc, n *doc.Node, lines []string) {
	begins := func(p string, line, column int, with string) {
		if rest := string([]rune(lines[line-1])[column-1:]); !strings.HasPrefix(rest, with) {
			t.Errorf("%s: at %d:%d stands %q, want %q", p, line, column, rest, with)
		}
	}
	p := d.Place(n.Ref)
	switch n.Kind {
	case doc.Object:
		begins(p.Path, p.Line, p.Column, "{")
	case doc.Array:
		begins(p.Path, p.Line, p.Column, "[")
	case doc.String:
		begins(p.Path, p.Line, p.Column, `"`)
	default:
		begins(p.Path, p.Line, p.Column, d.Text(n.Ref))
	}
	for _, m := range n.Members {
		k := d.Place(m.KeyRef)
		begins(k.Path, k.Line, k.Column, `"`)
		checkPlaces(t, d, m.Value, lines)
	}
	for _, item := range n.Items {
		checkPlaces(t, d, item, lines)
	}
}

// plain is a tree as the standard library makes it.
func plain(n *doc.Node) any {
	switch n.Kind {
	case doc.Bool:
		return n.Bool
	case doc.Number:
		return n.Num
	case doc.String:
		return n.Text
	case doc.Array:
		list := make([]any, len(n.Items))
		for i, item := range n.Items {
			list[i] = plain(item)
		}
		return list
	case doc.Object:
		object := map[string]any{}
		for _, m := range n.Members {
			object[m.Key] = plain(m.Value)
		}
		return object
	}
	return nil
}
