package sheet

import (
	"bytes"
	"strings"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/units"
)

func workbook(t *testing.T, d *doc.Doc) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func readOne(t *testing.T, b []byte) *doc.Doc {
	t.Helper()
	docs, err := Read("plan.xlsx", b)
	if err != nil {
		t.Fatal(err)
	}
	if len(docs) != 1 {
		t.Fatalf("%d plans, want 1", len(docs))
	}
	return docs[0]
}

// A plan written as a workbook and read again is the same plan.
func TestRoundTrip(t *testing.T) {
	n := 50
	if testing.Short() {
		n = 20
	}
	for seed := range int64(n) {
		d := randomPlan(seed)
		want := Canonical(d)
		got := readOne(t, workbook(t, d))
		if diff := firstDifference(string(Canonical(got)), string(want)); diff != "" {
			t.Fatalf("seed %d: %s", seed, diff)
		}
		for _, r := range got.Unread {
			if !strings.Contains(r.Text, "left blank") {
				t.Fatalf("seed %d: %s: %s", seed, r.Place, r.Text)
			}
		}
		checkPlaces(t, got, got.Root)
	}
}

// firstDifference shows the first line in which two texts differ.
func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := 0; i < max(len(g), len(w)); i++ {
		switch {
		case i >= len(g):
			return "lost: " + w[i]
		case i >= len(w):
			return "added: " + g[i]
		case g[i] != w[i]:
			return "got " + g[i] + ", want " + w[i] + ", behind " + g[max(0, i-1)]
		}
	}
	return ""
}

// checkPlaces wants a sheet and cell, and a path, for every value.
func checkPlaces(t *testing.T, d *doc.Doc, n *doc.Node) {
	t.Helper()
	for _, m := range n.Members {
		p := d.Place(m.Value.Ref)
		if p.Sheet == "" || p.File != "plan.xlsx" || !strings.HasSuffix(p.Path, m.Key) {
			t.Fatalf("%s: place %v, path %q", m.Key, p, p.Path)
		}
		scalar := m.Value.Kind != doc.Object && m.Value.Kind != doc.Array
		if scalar && m.Key != "format" && (p.Cell == "" || d.Place(m.KeyRef).Cell == "") {
			t.Fatalf("%s: no cell", p.Path)
		}
		checkPlaces(t, d, m.Value)
	}
	for _, item := range n.Items {
		checkPlaces(t, d, item)
	}
}

func TestWriteIsDeterministic(t *testing.T) {
	d := randomPlan(7)
	first := workbook(t, d)
	for range 20 {
		if !bytes.Equal(first, workbook(t, d)) {
			t.Fatal("two runs give different bytes")
		}
	}
	// A workbook made from a workbook is the same workbook.
	if again := workbook(t, readOne(t, first)); !bytes.Equal(first, again) {
		t.Error("a workbook written again differs")
	}
}

func TestTemplate(t *testing.T) {
	for _, s := range []units.System{units.Field, units.Metric} {
		var b, c bytes.Buffer
		if err := Template(&b, s); err != nil {
			t.Fatal(err)
		}
		if err := Template(&c, s); err != nil || !bytes.Equal(b.Bytes(), c.Bytes()) {
			t.Errorf("two runs differ, %v", err)
		}
		d := readOne(t, b.Bytes())
		want := "{\n  \"format\": \"spudgate-plan/1\",\n  \"units\": \"" + s.String() + "\"\n}\n"
		if got := string(Canonical(d)); got != want {
			t.Errorf("an empty template reads as %s", got)
		}
		if len(d.Unread) > 0 {
			t.Errorf("remarks on a template: %v", d.Unread)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	d := randomPlan(7)
	for b.Loop() {
		var w bytes.Buffer
		if err := Write(&w, d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTemplate(b *testing.B) {
	for b.Loop() {
		var w bytes.Buffer
		if err := Template(&w, units.Field); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	var w bytes.Buffer
	if err := Write(&w, randomPlan(7)); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(w.Len()))
	for b.Loop() {
		if _, err := Read("plan.xlsx", w.Bytes()); err != nil {
			b.Fatal(err)
		}
	}
}
