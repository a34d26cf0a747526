package sheet

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/units"
)

// Whatever names the columns have, in whatever order and units, every value is
// read from its own cell.
func TestPermutations(t *testing.T) {
	values := 0
	for seed := range int64(100) {
		rnd := rand.New(rand.NewSource(seed))
		for _, p := range pages {
			if p.list != nil && len(p.chain) == 0 {
				values += permuted(t, rnd, p)
			}
		}
	}
	if values < 20_000 {
		t.Errorf("only %d values tried", values)
	}
}

type expectation struct {
	path, cell string
	field      *form.Field
	si         float64 // of a quantity
	text       string  // of anything else
}

func permuted(t *testing.T, rnd *rand.Rand, p *page) int {
	t.Helper()
	fields := columns(p.list.Of)
	rnd.Shuffle(len(fields), func(i, j int) { fields[i], fields[j] = fields[j], fields[i] })
	above := rnd.Intn(4)
	const records = 2
	rows := make([][]any, above+1+records)
	if above > 0 {
		rows[0] = []any{nil, "A title that names no column"}
	}
	var want []expectation
	for i, f := range fields {
		header, unit := randomHeader(rnd, f)
		rows[above] = append(rows[above], header)
		for k := range records {
			cell, e := randomCell(rnd, f, unit)
			rows[above+1+k] = append(rows[above+1+k], cell)
			e.path = fmt.Sprintf("%s[%d].%s", p.list.Name, k, f.Name)
			e.cell = p.name + "!" + name(i+1, above+2+k)
			want = append(want, e)
		}
	}
	d := readTabs(t, tab{name: p.name, rows: rows})
	for _, e := range want {
		compare(t, d, e, rows[above])
	}
	if len(d.Unread) > 0 {
		t.Errorf("%s: %v", p.name, d.Unread)
	}
	return len(want)
}

// randomHeader spells a header in one of many ways; unit is that of bare
// numbers under it. Only the title is dressed up: another name may mean a unit
// by itself, and TestNamesLeadToTheirField has them all.
func randomHeader(rnd *rand.Rand, f *form.Field) (string, units.Unit) {
	s := f.Title
	switch rnd.Intn(4) {
	case 0:
		s = strings.ToUpper(s)
	case 1:
		s = strings.ToLower(s)
	case 2:
		s = " " + strings.ReplaceAll(s, " ", "_") + "."
	}
	if !measured(f) {
		return s, units.Unit{}
	}
	unit := f.Bare(units.Field)
	if rnd.Intn(4) > 0 {
		unit = f.Bare(units.System(rnd.Intn(2)))
	} else {
		return s, unitOfTitle(s, unit)
	}
	if unit.Symbol == "1" {
		return s, unit
	}
	return fmt.Sprintf([]string{"%s (%s)", "%s [%s]", "%s, %s", "%s\n(%s)", "%s %s"}[rnd.Intn(5)], s, unit.Symbol), unit
}

// unitOfTitle knows the titles that are units of their own.
func unitOfTitle(title string, bare units.Unit) units.Unit {
	if u, ok := units.ByName(title); ok && u.Dim == bare.Dim {
		return u
	}
	return bare
}

func randomCell(rnd *rand.Rand, f *form.Field, unit units.Unit) (any, expectation) {
	e := expectation{field: f}
	x := float64(1+rnd.Intn(99999)) / 100
	switch {
	case measured(f) && rnd.Intn(3) == 0:
		e.si = unit.ToSI(x)
		return fmt.Sprint(x), e
	case measured(f) && rnd.Intn(3) == 0:
		other := f.Bare(units.Metric)
		e.si = other.ToSI(x)
		return fmt.Sprint(x) + " " + other.Symbol, e
	case measured(f):
		e.si = unit.ToSI(x)
		return x, e
	case f.Kind == form.Flag:
		k := rnd.Intn(6)
		e.text = []string{"true", "false"}[k%2]
		return []any{"Yes", "no", "X", "N", true, false}[k], e
	case f.Kind == form.Choice:
		c := f.Choices[rnd.Intn(len(f.Choices))]
		e.text = "'" + c
		return strings.ToUpper(strings.ReplaceAll(c, "_", []string{"_", " ", "-"}[rnd.Intn(3)])), e
	case f.Kind == form.Whole:
		n := rnd.Intn(100)
		e.text = fmt.Sprint(n)
		return float64(n), e
	case f.Kind == form.Date:
		e.text = "'2027-03-04"
		return []any{formatted{46450, "dd/mm/yyyy"}, "2027-03-04", "4 March 2027"}[rnd.Intn(3)], e
	}
	e.text = fmt.Sprintf("'text %d", rnd.Intn(1000))
	return e.text[1:], e
}

func compare(t *testing.T, d *doc.Doc, e expectation, headers []any) {
	t.Helper()
	n := at(d.Root, e.path)
	if n == nil {
		t.Fatalf("%s isn't read; headers %q", e.path, headers)
	}
	if got := d.Place(n.Ref).String(); got != e.cell {
		t.Fatalf("%s read from %s, want %s", e.path, got, e.cell)
	}
	if !measured(e.field) {
		if got := shownNode(n); got != e.text {
			t.Fatalf("%s is %s, want %s", e.path, got, e.text)
		}
		return
	}
	w, err := units.Parse(n.Text)
	got := w.SI(e.field.Bare(units.Field))
	if err != nil || math.Abs(got-e.si) > 1e-12*math.Abs(e.si) {
		t.Fatalf("%s is %q, %v SI, want %v; headers %q", e.path, n.Text, got, e.si, headers)
	}
}
