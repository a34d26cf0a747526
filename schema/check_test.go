package schema

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/read"
)

// plan puts text after the two members every plan has; it begins on line 2.
func plan(text string) string {
	return `{"format": "spudgate-plan/1", "well": {"name": "Tarn Hollow 3"}` + "\n" + text + "}"
}

func TestCheck(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"good", plan(""), nil},
		{"quantities as number and text", plan(`,"strings": [{"top": 0, "shoe": "9,850 ft", "segments": [{"od": "9-5/8"}]}]`), nil},
		{"wrong unit is judged later", plan(`,"strings": [{"shoe": "9,850 bananas"}]`), nil},
		{"empty", "{}", []string{
			`1:1: found no "format", expected it in every plan`,
			`1:1: found no "well", expected it in every plan`}},
		{"not an object", `"plan"`, []string{`1:1: found "plan", expected an object`}},
		{"nameless well", `{"format": "spudgate-plan/1", "well": {}}`, []string{
			`1:39: well: found no "name", expected it in every well`}},
		{"another form", `{"format": "spudgate-plan/0", "well": {"name": "a"}}`, []string{
			`1:12: format: found "spudgate-plan/0", expected "spudgate-plan/1"`}},
		{"choice", plan(`,"units": "imperial"`), []string{
			`2:11: units: found "imperial", expected one of field, metric`}},
		{"misspelt", plan(`,"stirngs": []`), []string{
			`2:2: stirngs: found member "stirngs", expected a member of plan: strings?`}},
		{"by case", plan(`,"strings": [{"segments": [{"OD": 7}]}]`), []string{
			`2:29: strings[0].segments[0].OD: found member "OD", expected a member of segment: od?`}},
		{"unlike any", plan(`,"depth_reference": {"x": 7}`), []string{
			`2:22: depth_reference.x: found member "x", expected a member of depth_reference: name, above_ground, above_sea_level, water_depth`}},
		{"strange name", plan(`,"depth_reference": {"13 3/8": 7}`), []string{
			`2:22: depth_reference["13 3/8"]: found member "13 3/8", expected a member of depth_reference: name, above_ground, above_sea_level, water_depth`}},
		{"types", plan(`,"strings": [{"shoe": true, "segments": {}}, null, 7]`), []string{
			"2:23: strings[0].shoe: found true, expected a number or text",
			"2:41: strings[0].segments: found an object, expected a list",
			"2:46: strings[1]: found nothing, expected an object",
			"2:52: strings[2]: found 7, expected an object"}},
		{"flag and text", `{"format": 1, "well": {"name": ["a"], "vertical": "yes"}}`, []string{
			"1:12: format: found 1, expected text",
			"1:32: well.name: found a list, expected text",
			`1:51: well.vertical: found "yes", expected true or false`}},
		{"dates", `{"format": "spudgate-plan/1", "well": {"name": "a", "plan_date": "2026-02-29", "spud_date": "15.02.2027"}}`, []string{
			`1:66: well.plan_date: found "2026-02-29", expected a date such as 2026-10-02`,
			`1:93: well.spud_date: found "15.02.2027", expected a date such as 2027-02-15`}},
		{"leap day", `{"format": "spudgate-plan/1", "well": {"name": "a", "spud_date": "2028-02-29"}}`, nil},
		{"whole numbers", plan(`,"bops": [{"pipe_rams": 1.5}, {"pipe_rams": -1}, {"pipe_rams": "2"}, {"pipe_rams": 2.0}, {"pipe_rams": 0}]`), []string{
			"2:25: bops[0].pipe_rams: found 1.5, expected a whole number, 0 or more",
			"2:45: bops[1].pipe_rams: found -1, expected a whole number, 0 or more",
			`2:64: bops[2].pipe_rams: found "2", expected a whole number, 0 or more`}},
	} {
		d, err := read.JSON("p", []byte(c.text))
		if err != nil {
			t.Fatal(c.name, err)
		}
		var got []string
		for _, f := range Check(d) {
			got = append(got, strings.TrimPrefix(f.String(), "p:"))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\n got %s\nwant %s", c.name, strings.Join(got, "\n     "), strings.Join(c.want, "\n     "))
		}
	}
}

// A tree made of a workbook is checked the same way, and its faults name cells.
func TestCheckWorkbookTree(t *testing.T) {
	d := &doc.Doc{File: "p.xlsx", Format: doc.Workbook}
	add := func(sheet, cell, path string) place.Ref {
		return d.Add(place.Place{Sheet: sheet, Cell: cell, Path: path}, "")
	}
	text := func(s, sheet, cell, path string) *doc.Node {
		return &doc.Node{Kind: doc.String, Text: s, Ref: add(sheet, cell, path)}
	}
	d.Root = &doc.Node{Kind: doc.Object, Members: []doc.Member{
		{Key: "format", Value: text("spudgate-plan/1", "Well", "B1", "format")},
		{Key: "units", Value: text("feet", "Well", "B2", "units")},
		{Key: "well", Value: &doc.Node{Kind: doc.Object, Ref: add("Well", "A3", "well")}},
	}}
	want := "p.xlsx Well!B2: units: found \"feet\", expected one of field, metric\n" +
		"p.xlsx Well!A3: well: found no \"name\", expected it in every well"
	if got := Check(d).Error(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// The library's own order changes from run to run; ours must not.
func TestCheckIsStable(t *testing.T) {
	v := full(form.Plan, 2)
	for _, s := range spots(v, nil) {
		if _, ok := s.value.(string); ok {
			s.put([]any{1.0})
		}
	}
	first := Check(tree(t, v)).Error()
	for range 20 {
		if again := Check(tree(t, v)).Error(); again != first {
			t.Fatalf("%s\n---\n%s", first, again)
		}
	}
}

func TestCheckStopsAfterManyFaults(t *testing.T) {
	d := tree(t, map[string]any{"survey": slices.Repeat([]any{1.0}, 5_000)})
	faults := Check(d)
	if len(faults) != maxFaults || !slices.ContainsFunc(faults, func(f doc.Fault) bool { return strings.Contains(f.Expected, "stopped here") }) {
		t.Errorf("%d faults, the last %s", len(faults), faults[len(faults)-1])
	}
}

// What only the schema finds is said in its words, at the place it names.
func TestAddMissed(t *testing.T) {
	d := tree(t, map[string]any{"a": 1.0, "b": "two"})
	w := walk{doc: d, about: map[*doc.Node]bool{}}
	w.fault(d.Root.Get("a"), d.Root.Get("a").Ref, "1", "text")
	w.addMissed([]leaf{{d.Root.Get("a"), "not said twice"}, {d.Root.Get("b"), "must be shorter"}})
	want := "plan.json:1:6: a: found 1, expected text\nplan.json:1:12: b: found \"two\", expected must be shorter"
	if got := w.faults.Error(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestFindDecodesLocations(t *testing.T) {
	s, err := compile([]byte(`{"additionalProperties": {"items": {"type": "string"}}}`))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range strange {
		v := map[string]any{name: []any{"fine", 1.0}, "other": []any{}}
		d := tree(t, v)
		want := d.Root.Get(name).Items[1]
		if name == "" {
			want = d.Root // the library leaves an empty name out: the place is that of the object
		}
		got := leavesOf(t, d.Root, s.Validate(v))
		if len(got) != 1 || got[0].node != want {
			t.Errorf("%q: %+v", name, got)
		}
	}
}

func TestSchemaStandsAlone(t *testing.T) {
	for _, ref := range []string{"file:///etc/hostname", "http://localhost/x", "other.schema.json"} {
		if _, err := compile([]byte(`{"$ref": "` + ref + `"}`)); err == nil || !strings.Contains(err.Error(), "nothing outside itself") {
			t.Errorf("%s: %v", ref, err)
		}
	}
}

func TestText(t *testing.T) {
	names := Names()
	if !slices.Contains(names, "plan") || !slices.IsSorted(names) {
		t.Errorf("names %v", names)
	}
	for _, n := range names {
		b, ok := Text(n)
		if !ok || !json.Valid(b) {
			t.Errorf("%s is no JSON", n)
		}
		if _, err := compile(b); err != nil {
			t.Errorf("%s: %v", n, err)
		}
	}
	b, _ := Text("plan")
	b[0] = 'x'
	if again, _ := Text("plan"); bytes.Equal(b, again) {
		t.Error("a caller can change the embedded schema")
	}
	for _, n := range []string{"", "none", "../plan", "plan.schema.json", "gen/main.go"} {
		if _, ok := Text(n); ok {
			t.Errorf("there is a schema %q", n)
		}
	}
}

// Distances worked out by hand. "ca" to "abc" is the known case that tells
// this distance (3: no letter is touched twice) from the unrestricted one (2).
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"od", "od", 0}, {"", "abc", 3}, {"abc", "", 3}, {"kitten", "sitting", 3},
		{"stirngs", "strings", 1}, {"weigth", "weight", 1}, {"wieght", "weight", 1}, {"ca", "abc", 3}, {"shoe", "hose", 2},
	} {
		if got := slips(c.a, c.b); got != c.want || slips(c.b, c.a) != got {
			t.Errorf("%s to %s: %d and back %d, want %d", c.a, c.b, got, slips(c.b, c.a), c.want)
		}
	}
}

func TestEveryMemberIsNearestToItself(t *testing.T) {
	var walk func(o *form.Object)
	walk = func(o *form.Object) {
		for i := range o.Fields {
			f := &o.Fields[i]
			if got := nearest(strings.ToUpper(f.Name), o); got != f.Name {
				t.Errorf("%s of %s: %s", f.Name, o.Name, got)
			}
			if f.Of != nil {
				walk(f.Of)
			}
		}
	}
	walk(form.Plan)
}
