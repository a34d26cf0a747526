package consistency_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"spudgate/rules/finding"
)

// TestThin holds that a plan that says little is not taken for one that
// contradicts itself: nothing is not met, and what waits for an input is the
// little that can't be told without it.
func TestThin(t *testing.T) {
	for _, c := range []struct {
		name, plan string
		waits      []string // requirements not assessed
		input      string   // what they wait for
	}{
		{"nothing but a name", `"well": {"name": "Bare 1"}`, nil, ""},
		{"one string, no hole", `"well": {"name": "Bare 2"}, "strings": [{"name": "7 production", "role": "production", "shoe": 5000, "segments": [{"od": "7 in"}]}]`,
			[]string{"has-section"}, "the hole sections"},
		{"sizes without depths", `"well": {"name": "Bare"}, "strings": [{"name": "7 production", "role": "production", "segments": [{"od": "7 in", "grade": "L80"}]}], "sections": [{"name": "8-3/4", "string": "7 production", "bit": "8-3/4 in"}]`, nil, ""},
		{"a liner without its top", `"well": {"name": "Bare"}, "strings": [{"name": "9-5/8", "role": "intermediate", "set_by": "driven", "shoe": 5000}, {"name": "7 liner", "role": "drilling_liner", "shoe": 9000}], "sections": [{"name": "8-1/2", "string": "7 liner", "to": 9000}]`,
			[]string{"liner-hangs"}, "the top of 7 liner"},
		{"rows with one number each", `"well": {"name": "Bare"}, "pressures": [{"depth": 1000, "pore": 9}, {"depth": 2000, "fracture": 14}], "temperatures": [{"depth": 1000, "static": 90}], "formations": [{"name": "Sand", "top": 900}], "survey": [{"md": 100}]`, nil, ""},
		{"counts and cement half stated", `"well": {"name": "Bare"}, "strings": [{"name": "7 production", "role": "production", "set_by": "driven", "centralizers_planned": 20, "top_of_cement": 500, "float_collar": 4960, "centralizers": [{"count": 4}, {"spacing": 80}], "stages": [{"fluids": [{"kind": "lead", "volume": 80}, {"kind": "tail", "top": 3000, "sacks": 100}]}]}]`, nil, ""},
		{"tests and stacks that name nothing", `"well": {"name": "Bare"}, "tests": [{"kind": "casing", "pressure": 1500}], "bops": [{"rating": 5000}]`, nil, ""},
	} {
		fs := audit(t, "thin.json", []byte(`{"format": "spudgate-plan/1", "units": "field", `+c.plan+`}`))
		if got := notMet(fs); len(got) > 0 {
			t.Errorf("%s: not met: %v", c.name, got)
		}
		var waits []string
		for _, f := range fs {
			if f.Verdict != finding.NotAssessed {
				continue
			}
			if !slices.Contains(waits, f.Requirement) {
				waits = append(waits, f.Requirement)
			}
			if len(f.Missing) != 1 || f.Missing[0].Input != c.input {
				t.Errorf("%s: %s waits for %v, want %q", c.name, f.Key, f.Missing, c.input)
			}
		}
		if fmt.Sprint(waits) != fmt.Sprint(c.waits) {
			t.Errorf("%s: waits: %v, want %v", c.name, waits, c.waits)
		}
	}
}

// TestAtTolerance holds each comparison at the last value that agrees; a step
// further is a slip of TestSlips or of the pair here.
func TestAtTolerance(t *testing.T) {
	for _, c := range []struct {
		name      string
		path      string
		agree, no any
		slip      string // the requirement not met at no
	}{
		{"ends a foot apart", "strings[2].segments[1].from", 4001, 4001.1, "segments"},
		{"a shoe a foot below its hole", "sections[2].to", 9999, 9998.9, "in-hole"},
		{"a collar a foot off", "strings[2].stages[1].collar", 4501, 4501.1, "collar"},
		{"a float shoe its length above", "strings[1].accessories[0].depth", 2999, 2996.9, "shoe"},
		{"a stated TVD a foot off", "strings[2].shoe_tvd", 8001, 8001.1, "tvd-over-md"},
		{"a hole 0.3 mm off", "strings[2].hole", "311.4 mm", "311.5 mm", "hole"},
		// 6 kg/m3 over 9.2 ppg (1102.4 kg/m3).
		{"a mud half a digit off", "strings[1].mud_density", "9.25 ppg", "9.26 ppg", "mud"},
		// 1 % of 909 psi is 9.09 psi.
		{"a bump one per cent off", "strings[1].bump_pressure", 909, 910, "stage"},
		// 2 % of 102.42 bbl is 2.05 bbl.
		{"a volume two per cent off", "strings[1].stages[0].fluids[2].volume", 104.4, 104.6, "volume"},
		// 1 % under 0.545 in is 0.5395 in.
		{"a wall one per cent off", "strings[2].segments[1].wall", "0.5397 in", "0.5393 in", "wall"},
		{"pore at fracture pressure", "pressures[0].pore", "13.5 ppg", "13.51 ppg", "pressure-rows"},
		{"a top of cement at the shoe", "strings[3].top_of_cement", 10001, 10001.1, "cement-inside"},
		// 13.0 ppg and twice 6 kg/m3, 0.1 ppg.
		{"a shoe test 0.1 ppg off", "tests[1].emw", 13.1, 13.11, "shoe-test"},
		{"a spud on the day of the plan", "well.plan_date", "2026-12-01", "2026-12-02", "dates"},
	} {
		try := func(v any) []string { return notMet(audit(t, "edge.json", changed(t, edits{c.path: v}))) }
		if got := try(c.agree); slices.Contains(got, c.slip) {
			t.Errorf("%s: %v at %v", c.name, got, c.agree)
		}
		if got := try(c.no); !slices.Contains(got, c.slip) {
			t.Errorf("%s: %v doesn't have %s at %v", c.name, got, c.slip, c.no)
		}
	}
}

// TestManyConflicts holds that a note spells out five conflicts, counts the
// rest, and that the places of all are given.
func TestManyConflicts(t *testing.T) {
	var rows []string
	for i := range 8 {
		rows = append(rows, fmt.Sprintf(`{"depth": %d, "pore": "15 ppg", "fracture": "14 ppg"}`, 1000*(i+1)))
	}
	fs := audit(t, "many.json", []byte(`{"format": "spudgate-plan/1", "units": "field", "well": {"name": "Bare"}, "pressures": [`+strings.Join(rows, ", ")+`]}`))
	for _, f := range fs {
		if f.Requirement != "pressure-rows" {
			continue
		}
		if n := strings.Count(f.Reason, ";"); n != 5 || !strings.HasSuffix(f.Reason, "and 3 more") {
			t.Errorf("%d: %q", n, f.Reason)
		}
		if len(f.Places) != 3*8 {
			t.Errorf("%d places, want three of each row", len(f.Places))
		}
		return
	}
	t.Error("no finding of pressure-rows")
}
