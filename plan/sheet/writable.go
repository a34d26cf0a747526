package sheet

import (
	"fmt"
	"unicode/utf16"

	"spudgate/plan/doc"
	"spudgate/plan/form"
)

// writable notes what a workbook can't hold: members the form doesn't know,
// values of the wrong kind, texts that no cell takes.
type writable struct {
	doc    *doc.Doc
	faults doc.Faults
}

func (w *writable) fault(n *doc.Node, found, expected string) {
	w.faults = append(w.faults, doc.Fault{Place: w.doc.Place(n.Ref), Found: found, Expected: expected})
}

func (w *writable) object(n *doc.Node, o *form.Object) {
	if n.Kind != doc.Object {
		w.fault(n, n.Kind.String(), "an object")
		return
	}
	for _, m := range n.Members {
		f := o.Field(m.Key)
		switch {
		case f == nil:
			w.fault(m.Value, "member "+doc.Quote(m.Key), "a member of "+o.Name)
		case f.Kind == form.Card:
			w.object(m.Value, f.Of)
		case f.Kind == form.List && m.Value.Kind == doc.Array:
			for _, item := range m.Value.Items {
				w.object(item, f.Of)
			}
		case f.Kind == form.List:
			w.fault(m.Value, m.Value.Kind.String(), "a list")
		default:
			w.value(m.Value, f)
		}
	}
}

func (w *writable) value(n *doc.Node, f *form.Field) {
	if !takes(f, n.Kind) {
		w.fault(n, n.Kind.String(), "another kind of value")
		return
	}
	if n.Kind != doc.String {
		return
	}
	if units := len(utf16.Encode([]rune(n.Text))); units > MaxText {
		w.fault(n, fmt.Sprintf("a text of %d characters", units), fmt.Sprintf("at most %d: a cell of a workbook holds no more", MaxText))
	}
	for _, c := range n.Text {
		if c < ' ' && c != '\t' && c != '\n' && c != '\r' || c == 0xFFFE || c == 0xFFFF || c == 0xFFFD {
			w.fault(n, fmt.Sprintf("the character U+%04X", c), "characters that a workbook can hold")
			return
		}
	}
	if _, ok := numbered(n.Text); ok && f.Name == "name" {
		w.fault(n, doc.Quote(n.Text), "another name: in a workbook this one means a record by its number")
	}
}

// takes reports whether a field holds values of the kind.
func takes(f *form.Field, k doc.Kind) bool {
	switch {
	case f.Kind == form.Flag:
		return k == doc.Bool
	case f.Kind == form.Whole:
		return k == doc.Number
	case measured(f) || f.Kind == form.Free:
		return k == doc.Number || k == doc.String
	}
	return k == doc.String
}
