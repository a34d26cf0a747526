package coverage_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
)

// TestEveryLeaseRow holds that each row collected of the federal onshore
// regulation is where testdata/lease_rows.csv says, and that no requirement
// stands on a row that isn't listed there.
func TestEveryLeaseRow(t *testing.T) {
	f, err := os.Open("testdata/lease_rows.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 40 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	b := builtin(t, "us-onshore-federal")
	have, clauses, listed := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for i := range b.Requirements {
		for _, row := range strings.Split(b.Requirements[i].Row, ", ") {
			have[row+" "+b.Requirements[i].Clause] = true
		}
	}
	note(clauses, "person", b.Person)
	note(clauses, "gap", b.Gaps)
	for _, r := range rows[1:] {
		switch row := r[1] + " " + r[3]; {
		case r[2] == "requirement":
			listed[row] = true
			if !have[row] {
				t.Errorf("no requirement stands on %s", row)
			}
		case !clauses[r[2]+" "+r[3]]:
			t.Errorf("%s isn't in the book as a %s of %s", r[1], r[2], r[3])
		}
	}
	for row := range have {
		if !listed[row] {
			t.Errorf("%s isn't listed", row)
		}
	}
}

// TestLeaseTraps takes whole plans through traps of the federal onshore
// regulation: which string, which side, which well, and what hours can't show.
func TestLeaseTraps(t *testing.T) {
	pore := []string{`"water":[`, `"pressures":[{"depth":0,"pore":"9 ppg"},{"depth":9030,"pore":"9 ppg"}],"water":[`}
	class, sand := `"class":"development"`, `"top":8500,"contents":"oil"`
	run(t, "us-onshore-federal", tundra, []trial{
		// 8.5 in round the coupling of 7 in pipe, 7.656 in (API Spec 5CT): 0.422 in
		// each side. Against the pipe it would be 0.75 in.
		{"blm-clearance-0422: each side, at the coupling", "clearance", "production", nil, met},
		{"blm-clearance-0422: each side, at the coupling", "clearance", "production", []string{`"bit":8.5`, `"bit":8.499`}, not},
		{"blm-usable-water-10000: 10,000 ppm is usable", "isolate-zones", "production / Ridge sand", []string{sand, `"top":8500,"contents":"salt_water","tds":10000`}, met},
		{"blm-usable-water-10000: no cement over it", "isolate-zones", "production / Ridge sand", []string{sand, `"top":8500,"contents":"salt_water","tds":10000`, `"top_of_cement":8000`, `"top_of_cement":8600`}, not},
		{"blm-usable-water-10000: 10,001 ppm isn't", "isolate-zones", "production / Ridge sand", []string{sand, `"top":8500,"contents":"salt_water","tds":10001`}, none},
		{"blm-isolate-zones: no cement at all", "isolate-uncemented", "production / Ridge sand", []string{`"top_of_cement":8000`, `"cemented":false`}, not},
		{"blm-isolate-zones: cemented", "isolate-uncemented", "production / Ridge sand", nil, none},
		{"blm-pit: an injection well on 5M", "shoe-test", "surface", pore, met},
		{"blm-pit: on 4,999 psi", "shoe-test", "surface", []string{`"rating":5000`, `"rating":4999`}, none},
		{"blm-pit: appraisal isn't exploratory", "shoe-test", "surface", []string{`"rating":5000`, `"rating":3000`, class, `"class":"appraisal"`}, none},
		{"blm-pit: exploratory on 3M", "shoe-test", "surface", append([]string{`"rating":5000`, `"rating":3000`, class, `"class":"exploration"`}, pore...), met},
		{"blm-surface-cement-to-surface: not cemented", "surface-cemented", "surface", nil, met},
		{"blm-surface-cement-to-surface: not cemented", "surface-cemented", "surface", []string{`"shoe":2030,"top_of_cement":30`, `"shoe":2030,"cemented":false`}, not},
		{"blm-casing-test: not the conductor", "casing-test-time", "injection test", []string{`"minutes":30`, `"minutes":29`}, not},
		{"blm-casing-test: not the conductor", "casing-test-time", "injection test", []string{`"minutes":30`, `"minutes":29`, `"role":"production"`, `"role":"conductor"`}, none},
	})
	hours := `"wait":12,"centralizers"`
	run(t, "us-onshore-federal", ranch, []trial{
		{"blm-woc-500: 500 psi at 12 h", "wait-on-cement", "surface", nil, met},
		{"blm-woc-500: a day without a strength shows nothing", "wait-on-cement", "surface", []string{hours, `"wait":24,"centralizers"`, `{"time":12,"strength":500},{"time":72,"strength":1200}`, ``}, open},
		{"blm-woc-500: in the well already", "wait-on-cement", "surface", []string{hours, `"existing":true,"centralizers"`, `{"time":12,"strength":500},{"time":72,"strength":1200}`, ``}, none},
		{"blm-woc-500: a day is too short at 499 psi", "wait-on-cement", "surface", []string{hours, `"wait":24,"centralizers"`, `{"time":12,"strength":500},{"time":72,"strength":1200}`, `{"time":24,"strength":499}`}, not},
	})
}

// TestLinerTraps hangs a liner in the federal shelf's well, sea bed at 200 ft.
func TestLinerTraps(t *testing.T) {
	production := `"name":"production","role":"production","section":"three","top":0,"shoe":10000`
	drilling := []string{production, `"name":"production","role":"drilling_liner","hung_in":"surface","section":"three","top":3800,"shoe":10000`}
	brine := append([]string{`"contents":"gas"`, `"contents":"salt_water","isolate":true`}, drilling...)
	bare := append([]string{`"top_of_cement":7500`, `"cemented":false`}, drilling...)
	run(t, "us-offshore-federal", shelf, []trial{
		{"ocs-liner-cement: salt water to isolate, 8,000 - 7,500 ft", "liner-above-zone", "production / Brant sand", brine, met},
		{"ocs-liner-cement: salt water to isolate", "liner-above-zone", "production / Brant sand", append([]string{`7500`, `7501`}, brine...), not},
		{"ocs-liner-cement: a bare drilling liner", "liner-above-shoe", "production", bare, not},
		{"ocs-liner-cement: a bare drilling liner", "liner-above-zone", "production / Brant sand", bare, not},
		{"ocs-liner-100: 200 ft of lap, no 300 ft asked", "liner-lap", "production", drilling, met},
		{"ocs-liner-100: 99 ft", "liner-lap", "production", []string{production, `"name":"production","role":"drilling_liner","hung_in":"surface","section":"three","top":3901,"shoe":10000`}, not},
		{"ocs-liner-200: not under surface casing", "liner-lap-surface", "production", drilling, none},
		{"ocs-test-70: not a liner", "casing-test", "production", drilling, none},
	})
	surface := `"name":"surface","role":"surface","section":"two","top":0,"shoe":4000`
	hung := []string{surface, `"name":"surface","role":"drilling_liner","hung_in":"conductor","section":"two","top":700,"shoe":4000`}
	run(t, "us-offshore-federal", shelf, []trial{
		{"ocs-liner-cement: 200 ft in the conductor", "liner-surface-cement", "surface", hung, met}, // 1,000 - 800
		{"ocs-liner-cement: 199 ft in the conductor", "liner-surface-cement", "surface", append([]string{`"kind":"lead","top":800`, `"kind":"lead","top":801`}, hung...), not},
		{"ocs-liner-cement: 500 ft above the shoe isn't enough", "liner-above-shoe", "surface", hung, none},
		{"ocs-liner-200", "liner-lap-surface", "surface", hung, met},
		{"ocs-liner-200: 199 ft", "liner-lap-surface", "surface", []string{surface, `"name":"surface","role":"drilling_liner","hung_in":"conductor","section":"two","top":801,"shoe":4000`}, not},
	})
}

// TestFoamedPlug: a foamed job is a primary job and is pumped behind plugs too.
func TestFoamedPlug(t *testing.T) {
	primary := `"name":"primary","top_plug":true`
	run(t, "us-texas", ranch, []trial{
		{"tx-surface-cement", "surface-plug", "surface / primary", nil, met},
		{"tx-surface-cement: foam", "surface-plug", "surface / primary", []string{primary, `"name":"primary","kind":"foam","top_plug":true`}, met},
		{"tx-surface-cement: foam without a plug", "surface-plug", "surface / primary", []string{primary, `"name":"primary","kind":"foam","top_plug":false`}, not},
		{"tx-surface-cement: a top-up", "surface-plug", "surface / primary", []string{primary, `"name":"primary","kind":"top_up"`}, none},
	})
}

// TestShutInOverDrilling: a well can be of high pressure by what it shows shut
// in, though no hole of it is.
func TestShutInOverDrilling(t *testing.T) {
	shut := func(psi string) []string {
		return []string{`"spud_date"`, `"shut_in_tubing_pressure":` + psi + `,"spud_date"`}
	}
	run(t, "api-96", shelf, []trial{
		{"hpht-def: 15,000 psi isn't over it", "hpht-shut-in", "well", shut("15000"), met},
		{"hpht-def: 15,001 psi is", "hpht-shut-in", "well", shut("15001"), not},
		{"hpht-def: the hole isn't", "hpht-pressure", "three", shut("15001"), met},
	})
}

// TestShallowZoneUpright: cement that comes up to the top of the string over an
// oil sand 200 ft down can stand no 250 ft over it.
func TestShallowZoneUpright(t *testing.T) {
	shallow := []string{`"name":"Shale","top":2000,"competent":true`, `"name":"Shale","top":2000,"competent":true},{"name":"High sand","top":230,"contents":"gas"`, `"top":30,"shoe":9030,"top_of_cement":8000`, `"top":30,"shoe":9030,"top_of_cement":30`,
		`"top":30,"shoe":2030`, `"top":30,"shoe":130`, `"from":30,"to":2030`, `"from":30,"to":130`, `"from":2030`, `"from":130`}
	run(t, "us-alaska", tundra, []trial{
		{"ak-deep-cement: 200 ft down, to surface", "zone-cement", "production / High sand", shallow, met},
		{"ak-deep-cement: 200 ft down, to surface", "zone-cement-vertical", "production / High sand", shallow, none},
	})
}
