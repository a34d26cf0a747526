package coverage_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"spudgate/plan"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// TestEveryRow holds that each row collected of the two regulations is where
// testdata/rows.csv says: judged by a requirement, left to a person, or listed
// as a gap; and that no requirement stands on a row that isn't listed.
func TestEveryRow(t *testing.T) {
	rows, listed := readRows(t), map[string]bool{}
	for _, name := range []string{"us-offshore-federal", "us-texas"} {
		b := builtin(t, name)
		have := map[string]bool{}
		for i := range b.Requirements {
			for _, row := range strings.Split(b.Requirements[i].Row, ", ") {
				have[row+" requirement "+b.Requirements[i].Clause] = true
			}
		}
		clauses := map[string]bool{}
		note(clauses, "person", b.Person)
		note(clauses, "gap", b.Gaps)
		for _, r := range rows[1:] {
			if r[0] != name {
				continue
			}
			listed[r[1]+" "+r[2]+" "+r[3]] = true
			if !have[r[1]+" "+r[2]+" "+r[3]] && !clauses[r[2]+" "+r[3]] {
				t.Errorf("%s: %s isn't in the book as a %s of %s", name, r[1], r[2], r[3])
			}
		}
		for row := range have {
			if !listed[row] {
				t.Errorf("%s: %s isn't listed", name, row)
			}
		}
	}
}

func note(clauses map[string]bool, where string, list []finding.Gap) {
	for _, g := range list {
		clauses[where+" "+g.Clause] = true
	}
}

func readRows(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("testdata/rows.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 60 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	return rows
}

func builtin(t *testing.T, name string) *rules.Book {
	t.Helper()
	_, book := checktest.Engine(t, &plan.Plan{}, name, finding.PreSpud)
	return book
}
