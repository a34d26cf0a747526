package sheet

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/units"
)

// Canonical writes a plan as JSON in one form only: members sorted by name, two
// spaces for each level, numbers as short as they can be. Two documents that
// say the same have the same canonical form, whichever reader they came from.
//
// Quantities stay as written, with two exceptions that change no value: a
// plain number that names the plan's own unit loses it ("9,850 ft" becomes
// 9850 in field units), and one that was written as text becomes a number. What
// says nothing is left out: nulls, blank texts, dashes, empty records and empty
// lists. The result is the same on every run.
func Canonical(d *doc.Doc) []byte {
	var b bytes.Buffer
	root := normal(d.Root)
	if root == nil {
		root = &doc.Node{Kind: doc.Object}
	}
	printNode(&b, root, "\n")
	b.WriteByte('\n')
	return b.Bytes()
}

// normal is the tree in normal form, nil if it says nothing. The nodes keep
// their Refs.
func normal(root *doc.Node) *doc.Node {
	system := units.Field
	if n := root.Get("units"); n != nil {
		system, _ = units.SystemByName(strings.TrimSpace(n.Text))
	}
	return normalNode(root, &form.Field{Kind: form.Card, Of: form.Plan}, system)
}

// normalNode is a copy of n in normal form; f is nil for what the form doesn't
// know.
func normalNode(n *doc.Node, f *form.Field, system units.System) *doc.Node {
	if n == nil {
		return nil
	}
	c := *n
	switch n.Kind {
	case doc.Null:
		return nil
	case doc.Object:
		c.Members = normalMembers(n.Members, f, system)
		return some(&c, len(c.Members))
	case doc.Array:
		c.Items = nil
		for _, item := range n.Items {
			if item = normalNode(item, f, system); item != nil {
				c.Items = append(c.Items, item)
			}
		}
		return some(&c, len(c.Items))
	case doc.String:
		return normalText(&c, f, system)
	case doc.Number:
		setNumber(&c, n.Num)
	}
	return &c
}

func some(n *doc.Node, count int) *doc.Node {
	if count == 0 {
		return nil
	}
	return n
}

func normalMembers(members []doc.Member, f *form.Field, system units.System) []doc.Member {
	var out []doc.Member
	for _, m := range members {
		var inner *form.Field
		if f != nil && f.Of != nil {
			inner = f.Of.Field(m.Key)
		}
		if m.Value = normalNode(m.Value, inner, system); m.Value != nil {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(a, b doc.Member) int { return strings.Compare(a.Key, b.Key) })
	return out
}

func normalText(n *doc.Node, f *form.Field, system units.System) *doc.Node {
	n.Text = strings.TrimSpace(n.Text)
	if n.Text == "" || blank(n.Text) {
		return nil
	}
	if f == nil || !measured(f) && f.Kind != form.Free {
		return n
	}
	if measured(f) {
		n.Text = spaced(n.Text)
	}
	if x, ok := plainNumber(n.Text, bare(f, system)); ok {
		setNumber(n, x)
	}
	return n
}

// plainNumber reads digits with a point and grouping commas, alone or before
// the given unit. Fractions, exponents and datums aren't plain: they stay as
// written.
func plainNumber(s, unit string) (float64, bool) {
	rest := strings.TrimLeft(s, "+-")
	rest = strings.TrimSpace(strings.TrimLeft(rest, "0123456789.,"))
	if u, ok := units.ByName(rest); rest != "" && (!ok || unit == "" || u.Symbol != unit) {
		return 0, false
	}
	w, err := units.Parse(s)
	if err != nil || w.Datum != "" || (w.HasUnit && rest == "") {
		return 0, false
	}
	return w.Number, true
}

// printNode writes JSON; nl is a line break with the indent of the node.
func printNode(b *bytes.Buffer, n *doc.Node, nl string) {
	switch n.Kind {
	case doc.Object:
		b.WriteByte('{')
		for i, m := range n.Members {
			separate(b, i, nl)
			printText(b, m.Key)
			b.WriteString(": ")
			printNode(b, m.Value, nl+"  ")
		}
		end(b, len(n.Members), nl, '}')
	case doc.Array:
		b.WriteByte('[')
		for i, item := range n.Items {
			separate(b, i, nl)
			printNode(b, item, nl+"  ")
		}
		end(b, len(n.Items), nl, ']')
	case doc.String:
		printText(b, n.Text)
	case doc.Number:
		b.Write(jsonNumber(n.Num))
	case doc.Bool:
		if n.Bool {
			b.WriteString("true")
		} else {
			b.WriteString("false")
		}
	default:
		b.WriteString("null")
	}
}

func separate(b *bytes.Buffer, i int, nl string) {
	if i > 0 {
		b.WriteByte(',')
	}
	b.WriteString(nl + "  ")
}

func end(b *bytes.Buffer, count int, nl string, close byte) {
	if count > 0 {
		b.WriteString(nl)
	}
	b.WriteByte(close)
}

// printText writes a JSON text. A text always has a JSON form, so the encoder
// can't fail.
func printText(b *bytes.Buffer, s string) {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	_ = e.Encode(s)
	b.Truncate(b.Len() - 1) // the encoder ends its line
}

// jsonNumber writes a number as ECMAScript does: the fewest digits that read
// back as the same number. A node's number is finite, so this can't fail.
func jsonNumber(x float64) []byte {
	out, _ := json.Marshal(x)
	return out
}
