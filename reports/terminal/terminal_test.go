package terminal

import (
	"strings"
	"testing"

	"spudgate/plan/place"
	"spudgate/rules/finding"
)

func record() *finding.Record {
	spare, short := 0.25, -0.109
	limit := &finding.Value{Quantity: &finding.Quantity{SI: 1.1}}
	return &finding.Record{
		AsOf: "2026-11-25", Caution: finding.Caution,
		Well:   finding.Well{Name: "A well with a name so long that it can't stand on one line of a terminal", Revision: "B", Stage: finding.Programme, StageFrom: "plan"},
		Inputs: []finding.Source{{Role: "plan", Name: strings.Repeat("plan-", 20) + "b.xlsx", SHA256: strings.Repeat("4f1c9a2e", 8)}},
		Books:  []finding.Book{{ID: "good-practice", Edition: "2026-11"}, {ID: "reg", Edition: "2023", Regulation: true, ByPerson: 3}},
		Basis:  finding.Basis{Name: "default"}, Outcome: finding.Outcome{Word: finding.Hold, Why: "1 not met and 1 not assessed hold it", HoldOn: "major", NotMet: 1},
		Strings: []finding.Line{{Name: "9-5/8 intermediate", Met: 41, NotMet: 1, Least: "burst, gas to surface", Margin: &short}},
		Waiting: []finding.Waiting{{Input: "gel transition time of the tail slurry", Requirements: 2}},
		Findings: []finding.Finding{
			{Book: "reg", Subject: "9-5/8 intermediate", String: "9-5/8 intermediate", Title: "burst, gas to surface", Verdict: finding.NotMet, Grade: finding.Major, Sense: "at least",
				Measure: &finding.Value{Quantity: &finding.Quantity{SI: 0.98}}, Limit: limit, Margin: &short, Remedy: "raise it by {short}", Places: []place.Place{{Sheet: "Strings", Cell: "F9"}},
				Cite: finding.Cite{Document: "Rule", Clause: "7"}, Sure: finding.FromMemory},
			{Subject: "7 liner", Title: "gas flow while cement gels", Verdict: finding.NotAssessed, Grade: finding.Major, Missing: []finding.Missing{{Input: "gel transition time of the tail slurry", Place: place.Place{Sheet: "Cement", Cell: "R14"}}}},
			{Subject: "7 liner", Title: "clearance", Verdict: finding.Met, Grade: finding.Major, Margin: &spare, Measure: limit, Limit: limit},
			{Subject: "evil \x1b[31m\u202e name", Title: "spacing", Verdict: finding.NotMet, Grade: finding.Minor, Measure: limit, Limit: limit},
		},
	}
}

// Nothing is wider than the terminal, nothing of a plan's text reaches it raw,
// and what decides comes first.
func TestFits(t *testing.T) {
	for _, columns := range []int{80, 100, 120} {
		for _, all := range []bool{false, true} {
			for _, word := range []string{finding.Hold, finding.Clear} {
				r := record()
				r.Outcome.Word = word
				if word == finding.Clear {
					r.Findings = r.Findings[2:]
				}
				var b strings.Builder
				if err := Write(&b, r, Options{Columns: columns, All: all}); err != nil {
					t.Fatal(err)
				}
				for i, l := range strings.Split(b.String(), "\n") {
					if width(l) > columns {
						t.Errorf("%d columns: line %d has %d: %s", columns, i+1, width(l), l)
					}
					if strings.ContainsAny(l, "\x1b\u202e") {
						t.Errorf("line %d holds a control character: %q", i+1, l)
					}
				}
				if !strings.HasPrefix(b.String(), word) || !strings.Contains(b.String(), "Local codes and the agency's word prevail.") {
					t.Errorf("%s", b.String())
				}
			}
		}
	}
}

func TestSays(t *testing.T) {
	var b strings.Builder
	if err := Write(&b, record(), Options{Columns: 80}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"0.98, wants 1.10", "Majors by string", "Strings!F9", "mend: raise it by 0.12", "needs gel transition time of the tail slurry", "Cement!R14", "-11 %", "by Rule 7, from memory", "3 clauses are for a person to judge"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q isn't said in\n%s", want, b.String())
		}
	}
}

func TestColor(t *testing.T) {
	var plain, painted strings.Builder
	if err := Write(&plain, record(), Options{Columns: 80}); err != nil {
		t.Fatal(err)
	}
	if err := Write(&painted, record(), Options{Columns: 80, Color: true}); err != nil {
		t.Fatal(err)
	}
	stripped := strings.NewReplacer("\x1b[1m", "", "\x1b[22m", "", "\x1b[0m", "", "\x1b[0;22m", "").Replace(painted.String())
	if painted.String() == plain.String() || stripped != plain.String() {
		t.Error("colour changes more than colour")
	}
}
