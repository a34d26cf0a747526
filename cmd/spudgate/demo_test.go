package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"spudgate/plan"
	"spudgate/plan/read"
	"spudgate/plan/sheet"
	"spudgate/reports/findings"
	"spudgate/rules/basis"
	"spudgate/rules/finding"
	"spudgate/schema"
)

// expected is testdata/demo/expected.json.
type expected struct {
	Plans map[string]struct {
		Outcome  string
		Mistakes []struct {
			Mistake string
			Open    []open
		}
	}
	Inconsistent struct{ Plans []string }
}

type open struct{ Requirement, Subject, Place, Verdict string }

func expectations(t *testing.T) expected {
	t.Helper()
	raw, err := os.ReadFile(demo + "expected.json")
	if err != nil {
		t.Fatal(err)
	}
	var e expected
	if err := json.Unmarshal(raw, &e); err != nil {
		t.Fatal(err)
	}
	return e
}

// audited gives the record of an audit, with the status it ended with.
func audited(t testing.TB, args ...string) (*finding.Record, int) {
	t.Helper()
	out := filepath.Join(t.TempDir(), "findings.json")
	status, _, errs := spudgate(t, append([]string{"audit", "-o", out}, args...)...)
	raw, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("%v\n%s", err, errs)
	}
	r, err := findings.Read(raw)
	if err != nil {
		t.Fatal(err)
	}
	return r, status
}

// opened lists what is open in a record, as expected.json names it.
func opened(r *finding.Record) []open {
	var out []open
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Verdict == finding.NotMet || f.Verdict == finding.NotAssessed && !f.NotYetDue {
			o := open{f.Book + "/" + f.Requirement, f.Subject, "", string(f.Verdict)}
			if len(f.Places) > 0 {
				o.Place = f.Places[0].Path
			}
			out = append(out, o)
		}
	}
	return out
}

// Each demo plan comes to its outcome with exactly the findings its mistakes
// call for: a missing one fails, and so does one nobody expects.
func TestDemo(t *testing.T) {
	e := expectations(t)
	for name, want := range e.Plans {
		r, status := audited(t, demo+name)
		if r.Outcome.Word != want.Outcome || status != map[string]int{finding.Clear: statusClear, finding.Hold: statusHold}[want.Outcome] {
			t.Errorf("%s: %s, status %d, want %s", name, r.Outcome.Word, status, want.Outcome)
		}
		left := map[open]bool{}
		for _, m := range want.Mistakes {
			for _, o := range m.Open {
				left[o] = true
			}
		}
		for _, o := range opened(r) {
			if !left[o] {
				t.Errorf("%s: nobody expects %+v", name, o)
			}
			delete(left, o)
		}
		for _, o := range sorted(left) {
			t.Errorf("%s: %s is missing", name, o)
		}
		if name == "harrow-fen-a.json" && len(r.Books) != 4 { // the two of every audit, the regulation, the conditions
			t.Errorf("%s was judged against %d books", name, len(r.Books))
		}
	}
}

func sorted(m map[open]bool) []string {
	var out []string
	for o := range m {
		out = append(out, fmt.Sprintf("%+v", o))
	}
	sort.Strings(out)
	return out
}

// The inconsistent revisions are audited to the end, and between them fail
// every requirement of the book of consistency, each with a place.
func TestInconsistent(t *testing.T) {
	fails, all := map[string]bool{}, map[string]bool{}
	for _, name := range expectations(t).Inconsistent.Plans {
		r, status := audited(t, demo+name)
		if status != statusHold || r.Outcome.Failed > 0 {
			t.Errorf("%s: status %d, %d checks failed to run", name, status, r.Outcome.Failed)
		}
		for i := range r.Findings {
			f := &r.Findings[i]
			if f.Book != "consistency" {
				continue
			}
			all[f.Requirement] = true
			if f.Verdict == finding.NotMet {
				fails[f.Requirement] = true
				if len(f.Places) == 0 {
					t.Errorf("%s: %s has no place", name, f.Key)
				}
			}
		}
	}
	if len(all) < 40 {
		t.Errorf("only %d kinds of inconsistency are known", len(all))
	}
	for r := range all {
		if !fails[r] {
			t.Errorf("no demo plan fails consistency/%s", r)
		}
	}
}

// The plans kept as workbooks hold the same plans, and are audited alike: same
// verdict on every requirement and subject.
func TestWorkbookTwin(t *testing.T) {
	for _, name := range []string{"harrow-fen-a", "harrow-fen-b"} {
		docs, err := read.File(demo + name + ".json")
		if err != nil {
			t.Fatal(err)
		}
		twins, err := read.File(demo + name + ".xlsx")
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(sheet.Canonical(docs[0]), sheet.Canonical(twins[0])) {
			t.Errorf("%s.xlsx holds another plan than %s.json; spudgate convert makes it", name, name)
		}
		a, _ := audited(t, demo+name+".json")
		b, _ := audited(t, demo+name+".xlsx")
		if len(a.Findings) != len(b.Findings) {
			t.Fatalf("%s: %d findings from JSON, %d from the workbook", name, len(a.Findings), len(b.Findings))
		}
		for i := range a.Findings {
			f, g := &a.Findings[i], &b.Findings[i]
			if f.Key != g.Key || f.Verdict != g.Verdict {
				t.Errorf("%s: %s %s from JSON, %s %s from the workbook", name, f.Key, f.Verdict, g.Key, g.Verdict)
			}
			for _, p := range g.Places {
				if p.Cell == "" {
					t.Errorf("%s.xlsx: %s has a place without a cell: %+v", name, g.Key, p)
				}
			}
		}
	}
}

// What the terminal prints for the demo plans changes only on purpose.
func TestTerminalGolden(t *testing.T) {
	for _, name := range []string{"harrow-fen-a", "harrow-fen-b", "harrow-fen-c", "sallow-beck"} {
		_, out, _ := spudgate(t, "audit", demo+name+".json", "--all")
		golden(t, name+".txt", out)
	}
	_, out, _ := spudgate(t, "pipe", "9-5/8", "47", "L80", "BTC")
	golden(t, "pipe.txt", out)
}

// No member of the form is left out of the typed plan: each field of the table
// decodes its own example.
func TestExamplesDecode(t *testing.T) {
	for _, system := range []string{"field", "metric"} {
		out := filepath.Join(t.TempDir(), "example.json")
		if status, _, errs := spudgate(t, "template", out, "--units", system); status != statusClear {
			t.Fatal(errs)
		}
		docs, err := read.File(out)
		if err != nil {
			t.Fatal(err)
		}
		if faults := schema.Check(docs[0]); len(faults) > 0 {
			t.Error(faults)
		}
		p, faults := plan.Decode(docs[0])
		if len(faults) > 0 || len(p.Strings) != 1 || len(p.Strings[0].Segments) != 1 {
			t.Errorf("%s: %v, %d strings", system, faults, len(p.Strings))
		}
	}
}

// The templates of the other documents are read by what reads the documents.
func TestOtherTemplates(t *testing.T) {
	dir := t.TempDir()
	b, v := filepath.Join(dir, "b.json"), filepath.Join(dir, "v.json")
	for _, args := range [][]string{{"template", b, "--of", "basis", "--units", "metric"}, {"template", v, "--of", "variances"}} {
		if status, _, errs := spudgate(t, args...); status != statusClear {
			t.Fatal(errs)
		}
	}
	plain, _ := audited(t, demo+"sallow-beck.json")
	r, status := audited(t, demo+"sallow-beck.json", "--basis", b, "--variances", v)
	if status != statusClear || r.Basis.Name != "company" || r.Outcome.Met != plain.Outcome.Met {
		t.Errorf("the basis template changes the outcome: %d, %+v", status, r.Outcome)
	}
	unmatched := false
	for i := range r.Findings {
		unmatched = unmatched || r.Findings[i].Book == "variances" && r.Findings[i].Grade == finding.Minor
	}
	if !unmatched {
		t.Error("a variance that matches nothing isn't said")
	}
	for text, says := range map[string]string{"x.xlsx": "ends in .json", "y.json": "expected plan, basis or variances"} {
		kind := map[string]string{"x.xlsx": "basis", "y.json": "frob"}[text]
		if status, _, errs := spudgate(t, "template", filepath.Join(dir, text), "--of", kind); status != statusUnfit || !strings.Contains(errs, says) {
			t.Errorf("%s: %d %s", text, status, errs)
		}
	}
}

// An audit from its findings on record prints what the audit printed.
func TestReplay(t *testing.T) {
	dir := t.TempDir()
	rec := filepath.Join(dir, "b.json")
	_, direct, _ := spudgate(t, "audit", demo+"harrow-fen-b.json", "-o", rec)
	status, replayed, errs := spudgate(t, "report", rec, "-o", filepath.Join(dir, "b.xlsx"))
	if status != statusClear || direct != replayed {
		t.Errorf("status %d %s\n%s", status, errs, firstDifference(direct, replayed))
	}
}

func TestBasisAndBook(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	strict := write("strict.json", `{"format":"`+basis.Format+`","name":"strict","values":{"burst":9}}`)
	r, status := audited(t, demo+"harrow-fen-a.json", "--basis", strict)
	if status != statusHold || r.Basis.Name != "strict" {
		t.Errorf("a burst factor of 9 gives status %d with basis %s", status, r.Basis.Name)
	}
	for text, says := range map[string]string{
		`{"format":"spudgate-basis/1","name":"x","values":{"frob":1}}`:         "no field \"frob\"",
		`{"format":"spudgate-basis/1","name":"x","values":{"lap":"1 psi"}}`:    "expected a value like",
		`{"format":"spudgate-basis/1","name":"x","values":{"gas_column":"a"}}`: "expected one of worse, gradient, real",
		`{"format":"x","name":"x"}`:                                            "expected \"spudgate-basis/1\"",
	} {
		status, _, errs := spudgate(t, "audit", demo+"harrow-fen-a.json", "--basis", write("bad.json", text))
		if status != statusUnfit || !strings.Contains(errs, says) {
			t.Errorf("%s: status %d, %s", text, status, errs)
		}
	}
	own := write("own.json", `{"format":"spudgate-book/1","id":"own","title":"Own","publisher":"us","edition":"1","sources":{"m":{"title":"Manual"}},"requirements":[
	 {"id":"lap","title":"long lap","subject":"string","when":"string.liner","check":"geometry.lap","is":"at least","limit":"350 ft","grade":"major","stage":"permit","sure":"read","source":"m","vary":true,"text":"x","remedy":"y",
	  "cases":[{"case":"at","given":{"geometry.lap":"350 ft","string.liner":"true"},"gives":"met"}]}]}`)
	if status, out, errs := spudgate(t, "requirements", "--check", own); status != statusClear || !strings.Contains(out, "nothing wrong") {
		t.Errorf("%d %s%s", status, out, errs)
	}
	r, status = audited(t, demo+"harrow-fen-a.json", "--book", own)
	if status != statusHold || r.Outcome.NotMet != 1 {
		t.Errorf("a company's lap of 350 ft gives status %d, %d not met; the 7 in liner laps 300 ft, the 4-1/2 in 400 ft", status, r.Outcome.NotMet)
	}
	varied := write("v.json", `{"format":"spudgate-variances/1","variances":[{"requirement":"own/lap","subject":"7 drilling liner","value":"300 ft","reason":"r","approver":"a","reference":"V1","granted":"2026-11-01","expires":"2027-12-31","kind":"company"}]}`)
	r, status = audited(t, demo+"harrow-fen-a.json", "--book", own, "--variances", varied)
	if status != statusClear || r.Outcome.Varied != 1 {
		t.Errorf("with a variance: status %d, %d varied", status, r.Outcome.Varied)
	}
}

// A jurisdiction no rulebook covers holds the plan and names the books there
// are: its rules aren't judged, and nothing may look as if they were.
func TestUnknownJurisdiction(t *testing.T) {
	raw, err := os.ReadFile(demo + "harrow-fen-a.json")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "p.json")
	if err := os.WriteFile(path, bytes.Replace(raw, []byte(`"us-onshore-federal"`), []byte(`"Moonshire"`), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	status, out, _ := spudgate(t, "audit", path)
	if status != statusHold || !strings.Contains(out, "no rulebook is called Moonshire") || !strings.Contains(out, "us-onshore-federal") {
		t.Errorf("status %d\n%s", status, out)
	}
}

// Evidence answers a clause for a person, and stands in the record and the
// workbook; evidence that names no clause is refused.
func TestEvidence(t *testing.T) {
	path := filepath.Join(t.TempDir(), "e.json")
	write := func(begins string) {
		text := `{"format":"spudgate-evidence/1","evidence":[{"book":"us-onshore-federal","text":"` + begins + `","by":"reviewer","date":"2026-11-20","reference":"site note 4"}]}`
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	plain, _ := audited(t, demo+"harrow-fen-a.json")
	write("Flare lines end")
	r, status := audited(t, demo+"harrow-fen-a.json", "--evidence", path)
	open := func(r *finding.Record) (n int) {
		for _, b := range r.Books {
			n += b.ByPerson
		}
		return n
	}
	if status != statusClear || open(r) != open(plain)-1 {
		t.Errorf("status %d, %d clauses open, %d without evidence", status, open(r), open(plain))
	}
	write("Nothing of the kind")
	if status, _, errs := spudgate(t, "audit", demo+"harrow-fen-a.json", "--evidence", path); status != statusUnfit || !strings.Contains(errs, "expected one") {
		t.Errorf("status %d, %s", status, errs)
	}
}
