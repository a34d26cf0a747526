package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"spudgate/rules/finding"
)

// amended writes a plan with some of its members replaced and gives its path.
func amended(t *testing.T, path string, members map[string]any) string {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var plan map[string]any
	if err := json.Unmarshal(raw, &plan); err != nil {
		t.Fatal(err)
	}
	for k, v := range members {
		plan[k] = v
	}
	if raw, err = json.Marshal(plan); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "plan.json")
	if err := os.WriteFile(out, raw, 0o644); err != nil {
		t.Fatal(err)
	}
	return out
}

// Conditions of approval are judged on the subjects they name: the 4-1/2 in
// liner of the demo laps 400 ft (12,000 less 11,600), so a condition of 400 ft is at the limit and
// one of 401 ft isn't met. What can't be judged holds the plan, and a condition
// without a measure is a person's.
func TestConditions(t *testing.T) {
	type row = map[string]any
	path := amended(t, demo+"harrow-fen-a.json", map[string]any{"conditions": []row{
		{"reference": "COA 1", "text": "The liner laps 400 ft.", "subject": "4-1/2 production liner", "measure": "geometry.lap", "sense": "at_least", "limit": "400 ft"},
		{"reference": "COA 2", "subject": "4-1/2 production liner", "measure": "geometry.lap", "sense": "at_least", "limit": "401 ft"},
		{"reference": "COA 3", "subject": "4-1/2 production liner", "measure": "geometry.lap", "sense": "more_than", "limit": "400 ft"},
		{"reference": "COA 4", "subject": "4-1/2 production liner", "measure": "geometry.overlap", "sense": "at_least", "limit": "400 ft"},
		{"reference": "COA 5", "subject": "no such liner", "measure": "geometry.lap", "sense": "at_least", "limit": "400 ft"},
		{"reference": "COA 6", "subject": "4-1/2 production liner", "measure": "geometry.lap", "sense": "at_least", "limit": "300 psi"},
		{"reference": "COA 7", "subject": "4-1/2 production liner", "measure": "geometry.lap", "limit": "400 ft"},
		{"reference": "COA 8", "subject": "4-1/2 production liner", "measure": "test.lap_planned", "limit": "yes"},
		{"reference": "COA 9", "subject": "4-1/2 production liner", "measure": "test.lap_planned", "limit": "no"},
		{"reference": "COA 10", "text": "Tell the office a day before spud."},
		{"reference": "COA 12", "subject": "20 surface", "measure": "shoe.md", "sense": "at_least", "limit": "1900 ft"},
		{"reference": "COA 12", "subject": "20 surface", "measure": "shoe.tvd", "sense": "at_least", "limit": "1901 ft"},
		{"reference": "COA 13", "subject": "inner string job", "measure": "cement.excess", "sense": "at_least", "limit": "50 %"},
		{"reference": "COA 11", "measure": "geometry.lap", "sense": "at_least", "limit": "100 ft"},
	}})
	r, _ := audited(t, path)
	got := map[string][]string{}
	for _, f := range r.Findings {
		if f.Book == "conditions" {
			got[f.Requirement] = append(got[f.Requirement], string(f.Verdict)+" "+f.Reason)
		}
	}
	for id, want := range map[string]string{
		"COA-1": "met", "COA-2": "not met", "COA-3": "not met",
		"COA-4": `not assessed no measure is called "geometry.overlap"`,
		"COA-5": `not assessed the plan has no string called "no such liner"`,
		"COA-6": "not assessed limit:",
		"COA-7": "not assessed it doesn't say in which sense",
		"COA-8": "met", "COA-9": "not met",
		"COA-12": "met", "COA-12-(2)": "not met", "COA-13": "met",
	} {
		if len(got[id]) != 1 || !strings.HasPrefix(got[id][0], want) {
			t.Errorf("%s: got %q, want one that begins %q", id, got[id], want)
		}
	}
	if n := len(got["COA-11"]); n < 2 {
		t.Errorf("a condition that names no subject is asked of %d strings, want every one", n)
	}
	b := r.Books[len(r.Books)-1]
	if b.ID != "conditions" || len(b.Person) != 1 || b.Person[0].Clause != "COA 10" {
		t.Errorf("the book of conditions is %+v, want it to leave COA 10 to a person", b)
	}
	if r.Outcome.Word != finding.Hold {
		t.Error("conditions that aren't met don't hold the plan")
	}
}

// A plan that departs from its approval is held: a string nobody approved. A shoe
// 50 ft off is at the limit.
func TestApprovedBaseline(t *testing.T) {
	type row = map[string]any
	path := amended(t, demo+"harrow-fen-a.json", map[string]any{"approved": []row{
		{"string": "30 conductor", "shoe": 120}, {"string": "20 surface", "shoe": 1850, "top_of_cement": 0},
	}})
	r, _ := audited(t, path)
	got := map[string]finding.Verdict{}
	for _, f := range r.Findings {
		if strings.HasPrefix(f.Requirement, "approved-") {
			got[f.Requirement+"@"+f.Subject] = f.Verdict
		}
	}
	for k, want := range map[string]finding.Verdict{
		"approved-string@30 conductor": finding.Met, "approved-shoe@30 conductor": finding.Met,
		"approved-shoe@20 surface": finding.Met, "approved-cement@20 surface": finding.Met,
		"approved-string@4-1/2 production liner": finding.NotMet, "approved-shoe@4-1/2 production liner": finding.NotApplicable,
	} {
		if got[k] != want {
			t.Errorf("%s: got %q, want %q", k, got[k], want)
		}
	}
}

// A plan may carry its variances and evidence itself: they count like those of
// a file, say where they come from, and what can't be used is told.
func TestPlanCarriesVariances(t *testing.T) {
	type row = map[string]any
	lap := func(kind, value, granted string) row {
		return row{"requirement": "good-practice/liner-lap", "subject": "7 drilling liner", "value": value, "reason": "packer at the lap", "approver": "chief engineer",
			"reference": "V-2", "granted": granted, "expires": "2027-12-31", "kind": kind}
	}
	with := func(v row) map[string]any {
		return map[string]any{"variances": []row{v}, "evidence": []row{
			{"book": "us-onshore-federal", "clause": "3172.6", "text": "no such text", "by": "examiner", "date": "2026-11-01", "reference": "note 3"},
		}}
	}
	for about, c := range map[string]struct {
		row  row
		want finding.Verdict
		says string
	}{
		"covers it":     {lap("company", "60 ft", "2026-11-01"), finding.Varied, "as the plan itself gives it"},
		"worse":         {lap("company", "61 ft", "2026-11-01"), finding.NotMet, "worse than that by 1.6 %"},
		"without kind":  {row{"requirement": "good-practice/liner-lap", "subject": "7 drilling liner", "value": "50 ft"}, finding.NotMet, "agency or the company"},
		"not yet given": {lap("agency", "50 ft", "2026-11-26"), finding.NotMet, "after the audit's date"},
	} {
		r, _ := audited(t, amended(t, demo+"harrow-fen-b.json", with(c.row)))
		for _, f := range r.Findings {
			if f.Key == "good-practice/liner-lap@7 drilling liner" && (f.Verdict != c.want || !strings.Contains(f.Reason, c.says)) {
				t.Errorf("%s: %s, %q; want %s, %q", about, f.Verdict, f.Reason, c.want, c.says)
			}
			if f.Book == "variances" && (len(f.Places) != 1 || f.Places[0].Path != "variances[0]") {
				t.Errorf("%s: what is wrong with the variance stands at %v", about, f.Places)
			}
		}
		told := false
		for _, n := range r.Notes {
			told = told || strings.HasPrefix(n.Text, "evidence not used") && n.Place.Path == "evidence[0]"
		}
		if !told {
			t.Errorf("%s: evidence that names no clause is dropped in silence", about)
		}
	}
}
