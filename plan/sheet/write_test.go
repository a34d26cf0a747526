package sheet

import (
	"archive/zip"
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"spudgate/plan/doc"
)

func object(pairs ...any) *doc.Node {
	n := &doc.Node{Kind: doc.Object}
	for i := 0; i < len(pairs); i += 2 {
		n.Members = append(n.Members, doc.Member{Key: pairs[i].(string), Value: node(pairs[i+1])})
	}
	return n
}

func node(v any) *doc.Node {
	switch v := v.(type) {
	case *doc.Node:
		return v
	case string:
		return textNode(v)
	case float64:
		return numberNode(v)
	case bool:
		return &doc.Node{Kind: doc.Bool, Bool: v}
	case []any:
		n := &doc.Node{Kind: doc.Array}
		for _, item := range v {
			n.Items = append(n.Items, node(item))
		}
		return n
	}
	return &doc.Node{}
}

func TestCanonical(t *testing.T) {
	d := &doc.Doc{Root: object(
		"units", "field",
		"well", object("vertical", false, "name", " Tarn <3> & \"Hollow\" ", "gas_gravity", "0.65", "h2s", "20 ppm", "co2", "2%", "reservoir_pressure", "6,240 psi", "shut_in_tubing_pressure", "300 bar", "operator", "-", "location", nil),
		"rig", object(),
		"strings", []any{
			object("shoe", 9850.50, "top", "9,850 ft from ground", "hole", "12-1/4", "float_collar", "1e3", "landing_pull", math.Copysign(0, -1), "name", "7"),
			object("segments", []any{object()}),
		},
		"claims", []any{object("value", "1.32"), object("value", "3,200 ft")},
	)}
	want := `{
  "claims": [
    {
      "value": 1.32
    },
    {
      "value": "3,200 ft"
    }
  ],
  "strings": [
    {
      "float_collar": "1e3",
      "hole": "12-1/4",
      "landing_pull": 0,
      "name": "7",
      "shoe": 9850.5,
      "top": "9,850 ft from ground"
    }
  ],
  "units": "field",
  "well": {
    "co2": 2,
    "gas_gravity": 0.65,
    "h2s": 20,
    "name": "Tarn <3> & \"Hollow\"",
    "reservoir_pressure": 6240,
    "shut_in_tubing_pressure": "300 bar",
    "vertical": false
  }
}
`
	if got := string(Canonical(d)); got != want {
		t.Errorf("got %s", got)
	}
	if got := string(Canonical(&doc.Doc{Root: &doc.Node{Kind: doc.Object}})); got != "{}\n" {
		t.Errorf("empty: %q", got)
	}
}

// Names that can't tell records apart give way to numbers.
func TestReferences(t *testing.T) {
	segment := func(od float64) []any { return []any{object("od", od)} }
	d := &doc.Doc{Root: object("strings", []any{
		object("name", "a", "segments", segment(1)), object("name", "a", "segments", segment(2)),
		object("segments", segment(3)), object("role", "surface", "segments", segment(4)),
	})}
	got := readOne(t, workbook(t, d))
	for path, want := range map[string]string{
		"strings[0].segments[0].od": "Segments!D2=1", "strings[1].segments[0].od": "Segments!D3=2", "strings[2].segments[0].od": "Segments!D4=3",
		"strings[2].name": "", "strings[3].segments[0].od": "Segments!D5=4", "strings[3].name": "",
	} {
		check(t, got, path, want)
	}
}

func TestWriteRefuses(t *testing.T) {
	for want, root := range map[string]*doc.Node{
		`found member "mud", expected a member of well`:            object("well", object("mud", "x")),
		"found a number, expected another kind of value":           object("well", object("name", 7.0)),
		"found a text of 32768 characters, expected at most 32767": object("well", object("name", strings.Repeat("x", 32768))),
		"found the character U+0007, expected characters that":     object("well", object("name", "a\ab")),
		`found "#2", expected another name`:                        object("strings", []any{object("name", "#2")}),
		"found text, expected a list":                              object("strings", "none"),
		"found text, expected an object":                           object("strings", []any{"none"}),
	} {
		err := Write(io.Discard, &doc.Doc{Root: root})
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

// No text becomes a formula: not one part of a written workbook has any.
func TestNoFormulas(t *testing.T) {
	for _, s := range []string{"=1+1", "+1", "-1", "@SUM(1)", "\t=1", "=cmd|' /C calc'!A0", "{=1}"} {
		b := workbook(t, &doc.Doc{Root: object("well", object("name", s), "strings", []any{object("name", s, "shoe", s, "segments", []any{object("grade", s)})})})
		z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range z.File {
			r, _ := f.Open()
			x, _ := io.ReadAll(r)
			if strings.Contains(f.Name, "worksheets/sheet") && (bytes.Contains(x, []byte("<f>")) || bytes.Contains(x, []byte("<f "))) {
				t.Errorf("%q: a formula in %s", s, f.Name)
			}
		}
		if n := at(readOne(t, b).Root, "well.name"); n == nil || n.Text != strings.TrimSpace(s) {
			t.Errorf("%q comes back as %v", s, n)
		}
	}
}
