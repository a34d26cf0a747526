package main

import (
	"path/filepath"
	"strings"
	"testing"

	"spudgate/rules/finding"
)

// alarms are the requirements a normal well of each kind really fails, with
// why: what these small plans leave out or get wrong on purpose elsewhere.
var alarms = map[string]map[string]string{
	"expandable_contingent.json": {
		"good-practice/bit-passes":      "an 8-1/2 in bit under a 9-5/8 in drift of 8-3/8 in",
		"good-practice/holes-step-down": "two 8-1/2 in holes, one under the other",
		"good-practice/lap-test":        "no test of the expandable's lap is in the plan",
	},
	"reamed_pilot_estimates.json": {
		"good-practice/bit-passes":         "10-5/8 in through 11-3/4 in 60 lb/ft, drift 10.616 in, no alternate drift ordered",
		"good-practice/lap-test":           "no test of the lap is in the plan",
		"good-practice/kick-large-hole":    "exploration, 7,990 ft of open hole",
		"good-practice/mud-over-pore-trip": "its high pore estimates leave no trip margin",
	},
	"tie_back_scab.json":    {"good-practice/string-passes": "a 7 in tie-back, couplings 7.656 in, through a 7-5/8 in scab, drift 6.750 in"},
	"reentry_existing.json": {"good-practice/lap-test": "no test of the lap is in the plan"},
	"two_stage_gap_foam.json": {
		"good-practice/bit-passes": "8-3/4 in through 9-5/8 in 40 lb/ft, drift 8.679 in, no alternate drift ordered",
	},
}

// Normal wells of every kind the trade drills raise no false alarm: no major
// of good practice is not met but those listed with their reason, and each of
// those is.
func TestNormalWells(t *testing.T) {
	plans, err := filepath.Glob("../../rules/checks/consistency/testdata/normal/*.json")
	if err != nil || len(plans) < 14 {
		t.Fatal(len(plans), err)
	}
	for _, path := range append(plans, demo+"sallow-beck.json", demo+"harrow-fen-a.json") {
		name := filepath.Base(path)
		r, _ := audited(t, path)
		seen := map[string]bool{}
		for i := range r.Findings {
			f := &r.Findings[i]
			if f.Failed {
				t.Errorf("%s: %s failed to run: %s", name, f.Key, f.Reason)
			}
			if f.Verdict != finding.NotMet || f.Grade != finding.Major {
				continue
			}
			k := f.Book + "/" + f.Requirement
			seen[k] = true
			if alarms[name][k] == "" {
				t.Errorf("%s: %s: %s", name, f.Key, f.Reason)
			}
		}
		for k, why := range alarms[name] {
			if !seen[k] || strings.TrimSpace(why) == "" {
				t.Errorf("%s: %s is met now, or has no reason", name, k)
			}
		}
	}
}
