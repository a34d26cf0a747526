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
		{`{"format":"spudgate-variances/1","variances":[{"requirement":"good-practice/liner-lap","subject":"s","kind":"company"}]}`, statusClear, "1 variance, nothing wrong"},
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
