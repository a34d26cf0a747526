package main

import (
	"fmt"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"spudgate/rules/books"
	"spudgate/rules/finding"
)

// verdictPlans are the plans of the table of verdicts: the demo's, the normal
// wells and the sound one.
func verdictPlans(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, pattern := range []string{demo + "*.json", "../../rules/checks/consistency/testdata/sound.json", "../../rules/checks/consistency/testdata/normal/*.json"} {
		list, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range list {
			if filepath.Base(p) != "expected.json" {
				out = append(out, p)
			}
		}
	}
	if len(out) < 20 {
		t.Fatalf("only %d plans", len(out))
	}
	return out
}

// Every verdict of every plan in testdata against every book, at the last
// stage: one line for each requirement, met/not met/not assessed for each plan
// it applies to. A changed cell is explained in the commit.
func TestVerdictGolden(t *testing.T) {
	var head, body strings.Builder
	var order []string
	cells := map[string][]string{}
	args := []string{"--stage", "pre_spud"}
	for _, n := range books.Names() {
		args = append(args, "--book", n)
	}
	head.WriteString("Counts of met/not met/not assessed by requirement and plan; a plan that isn't listed has nothing it applies to.\n\n")
	for i, path := range verdictPlans(t) {
		label := fmt.Sprintf("p%02d", i+1)
		fmt.Fprintf(&head, "%s %s\n", label, filepath.Base(path))
		r, _ := audited(t, append([]string{path}, args...)...)
		counts := map[string]*[3]int{}
		for k := range r.Findings {
			f := &r.Findings[k]
			key := f.Book + "/" + f.Requirement
			if f.Book == "conditions" {
				continue
			}
			if counts[key] == nil {
				counts[key] = &[3]int{}
				if cells[key] == nil {
					order = append(order, key)
					cells[key] = []string{}
				}
			}
			switch f.Verdict {
			case finding.Met:
				counts[key][0]++
			case finding.NotMet:
				counts[key][1]++
			case finding.NotAssessed:
				counts[key][2]++
			}
		}
		for _, key := range order {
			if c := counts[key]; c != nil && *c != [3]int{} {
				cells[key] = append(cells[key], fmt.Sprintf("%s:%d/%d/%d", label, c[0], c[1], c[2]))
			}
		}
	}
	sort.Strings(order)
	for _, key := range order {
		if len(cells[key]) == 0 {
			cells[key] = []string{"applies to none"}
		}
		fmt.Fprintf(&body, "%s %s\n", key, strings.Join(cells[key], " "))
	}
	golden(t, "verdicts.txt", head.String()+"\n"+body.String())
}
