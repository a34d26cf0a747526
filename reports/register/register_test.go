package register

import (
	"encoding/json"
	"strings"
	"testing"

	"spudgate/rules/finding"
)

func sample() *finding.Register {
	return &finding.Register{
		Format: finding.RegisterFormat, Tool: finding.Tool{Name: "spudgate", Version: "1"}, Caution: "An aid.",
		Books: []finding.Listing{{
			ID: "own", Title: "Own | manual", Publisher: "Wells\ngroup", Edition: "3", From: "2026-01-01", Until: "2026-12-31",
			Requirements: []finding.Entry{{ID: "lap", Title: "lap", Subject: "string", When: "string.liner", Check: "geometry.lap", Is: "within", Limit: "200 ft", Upper: "500 ft",
				Grade: finding.Major, Stage: finding.PreSpud, Sure: finding.Read, Cite: finding.Cite{Document: "Manual", Clause: "4.2"}, From: "2026-06-01",
				Cases: []finding.Example{{Case: "at", Given: []finding.Given{{Name: "geometry.lap", Value: "200 ft"}}, Gives: finding.Met}}}},
			Person: []finding.Gap{{Clause: "5", Text: "supervision\nis named"}},
			Gaps:   []finding.Gap{{Clause: "6", Text: "wear"}},
		}},
	}
}

// Markdown has a section for each book: the requirement with its expressions,
// the clauses for a person and those not judged; a bar or a line break in a
// text breaks no table.
func TestMarkdown(t *testing.T) {
	var b strings.Builder
	if err := WriteMarkdown(&b, sample()); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"## own: Own | manual\n", "Wells group. Edition: 3. In force from 2026-01-01 until 2026-12-31.", "1 judged, 1 for a person, 1 not judged.",
		"| lap | string | `geometry.lap` | `within 200 ft to 500 ft` | `string.liner` | major | pre-spud | Manual 4.2 In force from 2026-06-01. | read |\n",
		"### For a person to judge\n\n- 5: supervision is named\n", "### Not judged by this book\n\n- 6: wear\n",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q isn't in\n%s", want, b.String())
		}
	}
	if strings.Contains(b.String(), "could be judged") {
		t.Error("a plan is spoken of where none is given")
	}
}

// Where a plan is given its counts and inputs come first, never an outcome.
func TestMarkdownForPlan(t *testing.T) {
	r := sample()
	r.For = &finding.Coverage{Plan: finding.Source{Name: "p.json", SHA256: "0123456789abcdef"}, Well: "Reed 1", Stage: finding.Permit,
		Asked:   []finding.CoverageLine{{Book: "own", Requirement: "lap", Grade: finding.Major, Judged: 2, Waits: 1, NotApplicable: 3, NotYetDue: 4, Inputs: []string{"a | b"}}},
		Waiting: []finding.Waiting{{Input: "a | b", Requirements: 1, Majors: 1}}}
	var b strings.Builder
	if err := WriteMarkdown(&b, r); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"What could be judged on Reed 1", "sha256 0123456789ab)", "| own/lap | major | 2 | 1 | 3 | 4 | a \\| b |\n", "| a \\| b | 1 | 1 |\n"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q isn't in\n%s", want, b.String())
		}
	}
}

// JSON gives back the register it was written from.
func TestJSON(t *testing.T) {
	var b strings.Builder
	if err := WriteJSON(&b, sample()); err != nil {
		t.Fatal(err)
	}
	var got finding.Register
	if err := json.Unmarshal([]byte(b.String()), &got); err != nil {
		t.Fatal(err)
	}
	var again strings.Builder
	if err := WriteJSON(&again, &got); err != nil || again.String() != b.String() {
		t.Errorf("%v: written again it differs", err)
	}
	if !strings.Contains(b.String(), `"format": "spudgate-register/1"`) || got.Books[0].Requirements[0].Cases[0].Gives != finding.Met {
		t.Errorf("%s", b.String())
	}
}
