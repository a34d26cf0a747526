package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// sound is a company's book with one requirement that has nothing wrong.
const sound = `{"format":"spudgate-book/1","id":"own","title":"Own manual","publisher":"Wells group","edition":"3","sources":{"m":{"title":"Manual"}},
"requirements":[%s]}`

// rule makes a requirement with some members changed: "name=value" replaces a
// value, "name=" takes the member out.
func rule(changes ...string) string {
	order := []string{"id", "title", "subject", "check", "is", "limit", "upper", "when", "grade", "stage", "sure", "source", "clause", "from", "until", "text", "remedy"}
	m := map[string]string{"id": "lap", "title": "lap", "subject": "string", "check": "geometry.lap", "is": "at least", "limit": "200 ft", "grade": "major", "stage": "permit",
		"sure": "common practice", "source": "m", "text": "A liner laps 200 ft.", "remedy": "Raise the top."}
	cases := `[{"case":"at","given":{"geometry.lap":"200 ft"},"gives":"met"},{"case":"short","given":{"geometry.lap":"199 ft"},"gives":"not met"}]`
	for _, c := range changes {
		k, v, _ := strings.Cut(c, "=")
		if k == "cases" {
			cases = v
			continue
		}
		if m[k] = v; v == "" {
			delete(m, k)
		}
	}
	var b strings.Builder
	for _, k := range order {
		if v, ok := m[k]; ok {
			fmt.Fprintf(&b, "%q:%q,", k, v)
		}
	}
	return "{" + b.String() + `"vary":true,"cases":` + cases + "}"
}

// Every kind of mistake a company's book may have is told with its place, and a
// sound book has none.
func TestLintBook(t *testing.T) {
	no := "cases=[]"
	for about, c := range map[string]struct{ text, want string }{
		"sound":                 {rule(), ""},
		"unknown check":         {rule("check=geometry.lop"), `own.json:2:`},
		"a near name":           {rule("check=geometry.lop"), `did you mean geometry.lap?`},
		"wrong dimension":       {rule("limit=200 psi"), "is a pressure, expected a measured depth"},
		"MD against TVD":        {rule("limit=shoe.below_water"), "is a true vertical depth, expected a measured depth"},
		"no citation":           {rule("source="), `lap, source: found ""`},
		"unknown source":        {rule("source=n"), "the book's sources don't list it"},
		"no remedy":             {rule("remedy="), "remedy: found none"},
		"unknown grade":         {rule("grade=grave"), "expected major, minor, observation"},
		"unknown sense":         {rule("is=over"), `is: found "over"`},
		"wrong subject":         {rule("subject=well"), "is about a string"},
		"never met":             {rule("check=burst.gas_to_surface", "is=at most", "limit=-1", no), "can never be met"},
		"met at 0 or more":      {rule("check=burst.gas_to_surface", "limit=0", no), "is always met"},
		"within what's never":   {rule("check=burst.gas_to_surface", "is=within", "limit=-2", "upper=-1", no), "can never be met"},
		"within from below":     {rule("check=burst.gas_to_surface", "is=within", "limit=-2", "upper=2", `cases=[{"case":"at","given":{"burst.gas_to_surface":"1"},"gives":"met"}]`), ""},
		"ends crossed":          {rule("is=within", "limit=200 ft", "upper=100 ft", no), "it can never be met"},
		"no upper end":          {rule("is=within", no), "upper: found none"},
		"never applies":         {rule("when=2 < 1", no), "is always false"},
		"always applies":        {rule("when=2 > 1", no), "is always true"},
		"a text it can't have":  {rule("when=string.role = 'linear'", no), "string.role is never 'linear'"},
		"one of a list can't":   {rule("when=string.role in ('surface', 'linear')", no), "string.role is never 'linear'"},
		"unknown basis field":   {rule("limit=basis.lapp", no), "basis.lapp"},
		"a case that differs":   {rule(`cases=[{"case":"short","given":{"geometry.lap":"199 ft"},"gives":"met"}]`), `case "short" gives not met, expected met`},
		"a case with a stray":   {rule(`cases=[{"case":"short","given":{"geometry.laps":"199 ft"},"gives":"met"}]`), `case "short"`},
		"dates backwards":       {rule("from=2026-01-01", "until=2025-12-31"), "before 2026-01-01"},
		"no date":               {rule("from=1/1/2026"), "expected a date as yyyy-mm-dd"},
		"an id twice":           {rule() + "," + rule("clause=2"), "a second time"},
		"overlapping dates":     {rule("clause=2", "until=2025-12-31") + "," + rule("id=other", "clause=2", "from=2025-12-31"), "while both are in force"},
		"dates that don't meet": {rule("clause=2", "until=2025-12-31") + "," + rule("id=other", "clause=2", "from=2026-01-01"), ""},
	} {
		path := filepath.Join(t.TempDir(), "own.json")
		if err := os.WriteFile(path, fmt.Appendf(nil, sound, c.text), 0o644); err != nil {
			t.Fatal(err)
		}
		status, out, errs := spudgate(t, "requirements", "--check", path)
		switch {
		case c.want == "" && (status != statusClear || !strings.Contains(out, "nothing wrong with it")):
			t.Errorf("%s: status %d, %s%s", about, status, out, errs)
		case c.want != "" && (status != statusUnfit || !strings.Contains(errs, c.want)):
			t.Errorf("%s: status %d, %q, want one with %q", about, status, errs, c.want)
		}
	}
}

// What only warns doesn't fail; a member nobody knows is told with its place.
func TestLintWarnsAndFaults(t *testing.T) {
	for _, c := range []struct {
		text   string
		status int
		want   string
	}{
		{fmt.Sprintf(sound, rule("cases=[]")), statusClear, "warning: lap, cases: found none"},
		{strings.Replace(fmt.Sprintf(sound, rule()), `"m":{"title":"Manual"}`, `"m":{"title":"Manual"},"z":{"title":"Other"}`, 1), statusClear, `nothing cites "z"`},
		{strings.Replace(fmt.Sprintf(sound, rule()), `"own"`, `"good-practice"`, 1), statusUnfit, "the name of a built-in book"},
		{strings.Replace(fmt.Sprintf(sound, rule()), `"grade"`, `"weight"`, 1), statusUnfit, `own.json:2:`},
		{`{"format":"spudgate-variances/1","variances":[{"requirement":"good-practice/liner-lop","subject":"s","kind":"company"}]}`, statusUnfit, "has no such requirement"},
		{`{"format":"spudgate-variances/1","variances":[{"requirement":"good-practice/liner-lap","subject":"s","kind":"company"}]}`, statusClear, "1 variance, 5 warnings"},
	} {
		path := filepath.Join(t.TempDir(), "own.json")
		if err := os.WriteFile(path, []byte(c.text), 0o644); err != nil {
			t.Fatal(err)
		}
		if status, out, errs := spudgate(t, "requirements", "--check", path); status != c.status || !strings.Contains(out+errs, c.want) {
			t.Errorf("%s: status %d, %s%s; want %d, %q", c.text, status, out, errs, c.status, c.want)
		}
	}
}

// told is what --check says of a document, line by line.
func told(t *testing.T, text string) (int, string, []string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "own.json")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	status, out, errs := spudgate(t, "requirements", "--check", path)
	return status, out, strings.Split(strings.TrimSpace(errs), "\n")
}

// Everything wrong is told at once, each where it stands, in that order; the
// last line counts.
func TestLintPlaces(t *testing.T) {
	type fault struct{ at, says string } // the text it stands at, found once; what is said
	for about, c := range map[string]struct {
		text string
		want []fault
	}{
		"book": {`{"format":"spudgate-book/1","id":"own","title":"Own","publisher":7,"edition":"3",
"sources":{"m":{"title":"Manual","year":2}},
"requirements":[
{"id":"lap","title":"lap","subject":"string","check":"geometry.lop","is":"at least","limit":"200 ft","grade":"major","stage":"permit","sure":"read","source":"m","vary":"yes","text":"x","remedy":"y","cases":[]},
{"title":"lap","subject":"string","id":"lap" ,"check":"geometry.lap","is":"at least","limit":"200 psi","grade":"major","stage":"permit","sure":"read","source":"n","vary":true,"text":"x","remedy":"y","weight":1,"cases":[]}
]}`, []fault{
			{`7,"edition"`, "found a number, expected text"},
			{`"year"`, `found a member "year" that nobody knows`},
			{`"geometry.lop"`, `lap, check: found "geometry.lop"`},
			{`"yes"`, "found text, expected true or false"},
			{`"lap" ,`, `lap, id: found "lap" a second time`},
			{`"200 psi"`, "lap, limit: "},
			{`"n"`, `lap, source: found "n"`},
			{`"weight"`, `found a member "weight" that nobody knows`},
		}},
		"basis": {`{"format":"spudgate-basis/1","name":"own",
"values":{"burst":"1.2","frob":1,
"lap":"1 psi","gas_column":"a","collapse":true},
"for":[{"role":"linear","values":{"tensionn":2}}],"vals":{}}`, []fault{
			{`"frob"`, `the basis has no field "frob"`},
			{`"lap"`, "lap: found 1 psi, expected a value like"},
			{`"gas_column"`, `gas_column: found "a", expected one of`},
			{"true}", "collapse: found true or false, expected a value"},
			{`"linear"`, `role: found "linear", expected one of`},
			{`"tensionn"`, `the basis has no field "tensionn"`},
			{`"vals"`, `found a member "vals" that nobody knows`},
		}},
		"variances": {`{"format":"spudgate-variances/1","variances":[
{"requirement":"good-practice/liner-lop","subject":"s","kind":"company","reason":"r","approver":"a","reference":"1","granted":"2026-02-01","expires":"2026-01-01"},
{"requirement":"us-onshore-federal/casing-test","subject":"","kind":"firm","value":"90 frob","reason":"r","approver":"a","reference":"1","granted":"1/2/2026","expires":"2027-01-01","by":"b"}]}`, []fault{
			{`"good-practice/liner-lop"`, `requirement: found "good-practice/liner-lop"`},
			{`"2026-01-01"`, "expires: found 2026-01-01, before 2026-02-01"},
			{`"","kind"`, "subject: found none"},
			{`"firm"`, `kind: found "firm"`},
			{`"90 frob"`, "value: "},
			{`"1/2/2026"`, `granted: found "1/2/2026"`},
			{`"by"`, `found a member "by" that nobody knows`},
		}},
	} {
		status, _, lines := told(t, c.text)
		var faults []string
		for _, l := range lines[:len(lines)-1] {
			if !strings.Contains(l, "warning: ") {
				faults = append(faults, l)
			}
		}
		if status != statusUnfit || len(faults) != len(c.want) || !strings.Contains(lines[len(lines)-1], fmt.Sprintf("%d faults", len(c.want))) {
			t.Errorf("%s: status %d, want %d faults:\n%s", about, status, len(c.want), strings.Join(lines, "\n"))
			continue
		}
		for i, want := range c.want {
			if want := "own.json:" + lineColumn(t, c.text, want.at) + ": " + want.says; !strings.HasPrefix(faults[i], want) {
				t.Errorf("%s: found %q, want %q", about, faults[i], want)
			}
		}
	}
}

// lineColumn counts where a piece stands in a text that has it once.
func lineColumn(t *testing.T, text, piece string) string {
	t.Helper()
	if strings.Count(text, piece) != 1 {
		t.Fatalf("%q stands there %d times", piece, strings.Count(text, piece))
	}
	before, _, _ := strings.Cut(text, piece)
	return fmt.Sprintf("%d:%d", strings.Count(before, "\n")+1, len(before)-strings.LastIndex(before, "\n"))
}

// A sound basis and a sound variance have nothing wrong; a company varies no
// regulation.
func TestLintSound(t *testing.T) {
	variance := `{"format":"spudgate-variances/1","variances":[{"requirement":"%s","subject":"s","kind":"company","value":"90 ft","reason":"r","approver":"a","reference":"1","granted":"2026-01-01","expires":"2027-01-01"}]}`
	for _, text := range []string{
		`{"format":"spudgate-basis/1","name":"own","values":{"burst":1.2,"lap":"150 ft","gas_column":"real"},"for":[{"role":"production","values":{"burst":"1.25"}}]}`,
		fmt.Sprintf(variance, "good-practice/liner-lap"),
		fmt.Sprintf(variance, "another-manual/of-a-company"),
	} {
		if status, out, lines := told(t, text); status != statusClear || !strings.Contains(out, "nothing wrong with it") {
			t.Errorf("%s: status %d, %s%v", text, status, out, lines)
		}
	}
}
