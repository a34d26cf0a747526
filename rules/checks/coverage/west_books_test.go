package coverage_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
)

// prairie is a horizontal oil well on land, the rotary 20 ft over the ground:
// vertical to 6,000 ft, level from 7,500 ft. Its production string is 13,480 ft
// long, cemented in one stage. Protected water ends 1,950 ft below the ground,
// 1,970 ft below the rotary: the base of the sandstone listed too.
const prairie = `"units":"field","well":{"name":"P","setting":"onshore","purpose":"oil","class":"development","spud_date":"2026-12-01"},
 "depth_reference":{"above_ground":20},
 "survey":[{"md":0,"inclination":0,"azimuth":0},{"md":6000,"inclination":0,"azimuth":0},{"md":7500,"inclination":90,"azimuth":0},{"md":13500,"inclination":90,"azimuth":0}],
 "sections":[
  {"name":"one","bit":13.5,"from":20,"to":2020,"mud_density":8.6,"pressure_control":"diverter"},
  {"name":"two","bit":8.75,"from":2020,"to":13500,"mud_density":10,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":20,"shoe":2020,"wait":12,"segments":[{"od":9.625,"weight":36,"grade":"J55","connection":"LTC"}],
   "stages":[{"name":"primary","fluids":[
    {"name":"lead","kind":"lead","top":20,"strengths":[{"time":24,"strength":251},{"time":72,"strength":350}]},
    {"name":"tail","kind":"tail","top":1600,"strengths":[{"time":12,"strength":500}]}]}]},
  {"name":"production","role":"production","section":"two","top":20,"shoe":13500,"wait":24,"segments":[{"od":5.5,"weight":20,"grade":"P110","connection":"BTC"}],
   "stages":[{"name":"primary","fluids":[
    {"name":"lead","kind":"lead","top":1500,"strengths":[{"time":48,"strength":250},{"time":96,"strength":501}]},
    {"name":"tail","kind":"tail","top":6500,"strengths":[{"time":24,"strength":900}]}]}]}],
 "formations":[{"name":"Till","top":20},{"name":"Fox Hills","top":1500,"base":1969,"contents":"usable_water"},{"name":"Shale","top":1970,"competent":true},{"name":"Middle sand","top":6800,"contents":"oil"}],
 "water":[{"name":"map","kind":"base_of_protected_water","depth":1950}],
 "tests":[{"name":"casing test","kind":"casing","string":"production","pressure":3000,"minutes":30,"drop":"4 %"}]`

const (
	surfaceLead    = "surface / primary / lead"
	productionLead = "production / primary / lead"
)

func TestPrairie(t *testing.T) {
	day := []string{`"time":48`, `"time":24`, `"time":24,"strength":251`, `"time":25,"strength":251`, `"top":20,"shoe":13500`, `"top":20,"shoe":13000`, `"to":13500`, `"to":13000`}
	run(t, "us-north-dakota", prairie, []trial{
		{"nd-surface-foxhills-50", "surface-depth", "surface", nil, met}, // 2,020 - 1,970
		{"nd-surface-foxhills-50", "surface-depth", "surface", []string{`"depth":1950`, `"depth":1951`}, not},
		{"nd-surface-foxhills-50: top listed", "surface-formations", "surface", nil, met}, // 2,020 - 1,969
		{"nd-surface-foxhills-50: top listed", "surface-formations", "surface", []string{`"base":1969`, `"base":1971`}, not},
		{"nd-surface-foxhills-50: no such top", "surface-formations", "surface", []string{`"usable_water"`, `"salt_water"`}, none},
		{"nd-surface-cement", "surface-cement", "surface", nil, met},
		{"nd-surface-cement", "surface-cement", "surface", []string{`"kind":"lead","top":20`, `"kind":"lead","top":30`}, not},
		{"nd-woc", "drill-out-strength", "surface", nil, met},
		{"nd-woc", "drill-out-strength", "surface", []string{`"strength":500`, `"strength":499`}, not},
		{"nd-filler-surface", "filler-24h", surfaceLead, nil, none}, // asked of deeper strings
		{"nd-filler-surface", "surface-filler-24h", surfaceLead, nil, met},
		{"nd-filler-surface", "surface-filler-24h", surfaceLead, []string{`251`, `249`}, not},
		{"nd-filler-surface", "surface-filler-72h", surfaceLead, nil, met},
		{"nd-filler-surface", "surface-filler-72h", surfaceLead, []string{`"strength":350`, `"strength":349`}, not},
		{"nd-filler-surface: the tail", "surface-filler-24h", "surface / primary / tail", nil, none},
		{"nd-filler-deep: long, horizontal, one stage", "filler-24h", productionLead, nil, none},
		{"nd-filler-deep: long, horizontal, one stage", "filler-48h", productionLead, nil, met},
		{"nd-filler-deep: long, horizontal, one stage", "filler-48h", productionLead, []string{`"strength":250`, `"strength":249`}, not},
		{"nd-filler-deep: long, horizontal, one stage", "filler-96h", productionLead, nil, met},
		{"nd-filler-deep: long, horizontal, one stage", "filler-96h", productionLead, []string{`501`, `499`}, not},
		{"nd-filler-deep: 12,980 ft", "filler-48h", productionLead, day, none},
		{"nd-filler-deep: 12,980 ft", "filler-24h", productionLead, day, met},
		{"nd-test-1500", "casing-test", "production", nil, met},
		{"nd-test-1500", "casing-test", "production", []string{`"pressure":3000`, `"pressure":1499`}, not},
		{"nd-test-1500", "casing-test-time", "casing test", []string{`"minutes":30`, `"minutes":29`}, not},
		{"nd-test-1500: 4 % of 3,000 psi, 120 psi", "casing-test-drop", "casing test", nil, met},
		{"nd-test-1500: 5 % of 3,000 psi, 150 psi", "casing-test-drop", "casing test", []string{`4 %`, `5 %`}, not},
		{"nd-test-1500: 9 % of 1,500 psi, 135 psi", "casing-test-drop", "casing test", []string{`4 %`, `9 %`, `"pressure":3000`, `"pressure":1500`}, met},
		{"nd-test-1500: 10 % of 1,500 psi, 150 psi", "casing-test-drop", "casing test", []string{`4 %`, `10 %`, `"pressure":3000`, `"pressure":1500`}, not},
	})
}

func TestPrairieElsewhere(t *testing.T) {
	run(t, "us-oklahoma", prairie, []trial{
		{"ok-cement-quality", "cement-strength", "surface / primary / tail", nil, met},
		{"ok-cement-quality", "cement-strength", surfaceLead, nil, not}, // 350 psi at best
		{"ok-cement-quality", "cement-strength", surfaceLead, []string{`"strength":350`, `"strength":500`}, met},
		{"ok-surface-50", "surface-depth", "surface", nil, met},
		{"ok-surface-50", "surface-depth", "surface", []string{`"depth":1950`, `"depth":1951`}, not},
		{"ok-surface-50: 90 ft", "surface-least", "surface", nil, met},
		{"ok-surface-50: 89 ft below ground", "surface-least", "surface", []string{`"top":20,"shoe":2020`, `"top":20,"shoe":109`}, not},
		{"ok-surface-50: cement", "surface-cement", "surface", nil, met},
		{"ok-surface-50: cement", "surface-cement", "surface", []string{`"kind":"lead","top":20`, `"kind":"lead","top":30`}, not},
		{"ok-surface-50: wait", "surface-wait", "surface", nil, met},
		{"ok-surface-50: wait", "surface-wait", "surface", []string{`"wait":12`, `"wait":7`}, not},
	})
	behind := []string{`"depth":1950`, `"depth":2080`} // 2,100 ft below the rotary, under the surface shoe
	run(t, "us-colorado", prairie, []trial{
		{"co-isolate", "surface-cement", "surface", nil, met},
		{"co-isolate", "surface-cement", "surface", []string{`"kind":"lead","top":20`, `"kind":"lead","top":30`}, not},
		{"co-isolate: surface casing covers it", "groundwater-cement", "production", nil, none},
		{"co-isolate: behind the next string", "groundwater-cement", "production", behind, met},
		{"co-isolate: behind the next string", "groundwater-cement", "production", append([]string{`"top":1500,"strengths"`, `"top":2101,"strengths"`}, behind...), not},
		{"co-isolate: zones", "zone-cement", "production / Middle sand", nil, met},
		{"co-isolate: zones", "zone-cement", "production / Middle sand", []string{`"top":1500,"strengths"`, `"top":6801,"strengths"`, `"top":6500`, `"top":6900`}, not},
	})
}

// tundra is a vertical injection well, the rotary 30 ft over the ground, frozen
// to 1,900 ft. 7 in 26 lb/ft has a wall of 0.362 in (API Spec 5CT): 70 % of
// 80,000 psi is reached at 0.7 x 80,000 x 2 x 0.362/7 = 5,792 psi.
const tundra = `"units":"field","well":{"name":"T","setting":"onshore","purpose":"injection","class":"development","vertical":true,"spud_date":"2026-12-01"},
 "depth_reference":{"above_ground":30},
 "sections":[
  {"name":"one","bit":17.5,"from":30,"to":2030,"mud_density":9,"pressure_control":"diverter"},
  {"name":"two","bit":8.5,"from":2030,"to":9030,"mud_density":10,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":30,"shoe":2030,"top_of_cement":30,"segments":[{"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}]},
  {"name":"production","role":"production","section":"two","top":30,"shoe":9030,"top_of_cement":8000,"segments":[{"od":7,"weight":26,"grade":"L80","connection":"BTC"}]}],
 "formations":[{"name":"Gravel","top":30,"base":1900,"permafrost":true},{"name":"Silt","top":1900,"base":2000,"contents":"fresh_water"},{"name":"Shale","top":2000,"competent":true},{"name":"Ridge sand","top":8500,"contents":"oil"}],
 "water":[{"name":"order","kind":"base_of_protected_water","depth":1970}],
 "bops":[{"name":"stack","section":"two","on":"surface","rating":5000}],
 "tests":[{"name":"injection test","kind":"casing","string":"production","pressure":2250,"minutes":30,"drop":"10 %"},
  {"name":"shoe test","kind":"shoe","string":"surface","emw":12}]`

func TestTundra(t *testing.T) {
	wet, top := []string{`"contents":"oil"`, `"contents":"salt_water"`}, `"top_of_cement":8000`
	run(t, "us-alaska", tundra, []trial{
		{"ak-drillout-fit", "integrity-test", "surface", nil, met},
		{"ak-drillout-fit", "integrity-test", "surface", []string{`"kind":"shoe"`, `"kind":"inflow"`}, not},
		{"ak-surface-depth: water", "surface-depth", "surface", nil, met},
		{"ak-surface-depth: water, at its base", "surface-depth", "surface", []string{`"depth":1970`, `"depth":2000`}, not},
		{"ak-surface-depth: formations", "surface-formations", "surface", nil, met},
		{"ak-surface-depth: formations", "surface-formations", "surface", []string{`"base":2000`, `"base":2030`}, not},
		{"ak-surface-depth: permafrost", "surface-permafrost", "surface", nil, met},
		{"ak-surface-depth: permafrost, at its base", "surface-permafrost", "surface", []string{`"base":1900`, `"base":2030`}, not},
		{"ak-surface-depth: none stated", "surface-permafrost", "surface", []string{`,"permafrost":true`, ``}, none},
		{"ak-surface-depth: before 2018-07-18", "surface-permafrost", "surface", []string{`2026-12-01`, `2018-07-17`}, none},
		{"ak-surface-depth: anchor", "surface-anchor", "surface", nil, met},
		{"ak-surface-depth: anchor", "surface-anchor", "surface", []string{`"competent":true`, `"competent":false`}, not},
		{"ak-surface-cement", "surface-cement", "surface", nil, met},
		{"ak-surface-cement", "surface-cement", "surface", []string{`"shoe":2030,"top_of_cement":30`, `"shoe":2030,"top_of_cement":31`}, not},
		{"ak-deep-cement", "zone-cement", "production / Ridge sand", nil, met}, // 8,500 - 8,000
		{"ak-deep-cement", "zone-cement", "production / Ridge sand", []string{top, `"top_of_cement":8001`}, not},
		{"ak-deep-cement: 250 ft upright", "zone-cement-vertical", "production / Ridge sand", []string{top, `"top_of_cement":8250`}, met},
		{"ak-deep-cement: 250 ft upright", "zone-cement-vertical", "production / Ridge sand", []string{top, `"top_of_cement":8251`}, not},
		{"ak-deep-cement: a zone needs cover", "shoe-cement", "production", nil, none},
		{"ak-deep-cement: none does", "shoe-cement", "production", append([]string{top, `"top_of_cement":8530`}, wet...), met},
		{"ak-deep-cement: none does", "shoe-cement", "production", append([]string{top, `"top_of_cement":8531`}, wet...), not},
		{"ak-deep-cement: none does", "shoe-cement-vertical", "production", append([]string{top, `"top_of_cement":8531`}, wet...), met},
		{"ak-deep-cement: none does", "shoe-cement-vertical", "production", append([]string{top, `"top_of_cement":8781`}, wet...), not},
		{"ak-inj-test: 0.25 psi/ft x 9,000 ft", "injection-test", "production", nil, met},
		{"ak-inj-test", "injection-test", "production", []string{`2250`, `2249`}, not},
		{"ak-inj-test: a producer", "injection-test", "production", []string{`"purpose":"injection"`, `"purpose":"oil"`}, none},
		{"ak-inj-test: hoop", "injection-test-hoop", "production", []string{`2250`, `5792`}, met},
		{"ak-inj-test: hoop", "injection-test-hoop", "production", []string{`2250`, `5793`}, not},
		{"ak-inj-test", "injection-test-time", "injection test", []string{`"minutes":30`, `"minutes":29`}, not},
		{"ak-inj-test", "injection-test-drop", "injection test", nil, met},
		{"ak-inj-test", "injection-test-drop", "injection test", []string{`10 %`, `11 %`}, not},
	})
}

// butte is a vertical well of 6,020 ft, the rotary 20 ft over the ground. 9-5/8
// in 36 lb/ft J55 STC has an internal yield of 3,520 psi (API TR 5C3 tables),
// 70 % of it 2,464 psi: a string of 1,000 ft is tested to 1,000 psi at 1 psi/ft.
const butte = `"units":"field","well":{"name":"U","setting":"onshore","purpose":"oil","class":"development","vertical":true,"spud_date":"2026-12-01"},
 "depth_reference":{"above_ground":20},
 "sections":[
  {"name":"one","bit":12.25,"from":20,"to":1020,"mud_density":8.6,"pressure_control":"diverter"},
  {"name":"two","bit":7.875,"from":1020,"to":6020,"mud_density":9,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":20,"shoe":1020,"wait":12,"centralizers":[{"from":880,"to":1020,"per_joint":1}],
   "segments":[{"od":9.625,"weight":36,"grade":"J55","connection":"STC"}],
   "stages":[{"name":"primary","fluids":[{"name":"slurry","kind":"slurry","top":20,"strengths":[{"time":8,"strength":300},{"time":12,"strength":500}]}]}]},
  {"name":"production","role":"production","section":"two","top":20,"shoe":6020,"wait":24,"top_of_cement":5500,"segments":[{"od":5.5,"weight":17,"grade":"N80","connection":"LTC"}]}],
 "formations":[{"name":"Sandstone","top":20,"base":970,"contents":"fresh_water"},{"name":"Shale","top":970},{"name":"Oil sand","top":5800,"contents":"oil"}],
 "water":[{"name":"base","kind":"base_of_protected_water","depth":950},{"name":"stock well","kind":"water_well","depth":900}],
 "bops":[{"name":"stack","section":"two","on":"surface","rating":3000,"annular_rating":3000,"test_pressure":1000,"annular_test":1001,"test_plug":true,"test_days":14}],
 "tests":[{"name":"surface test","kind":"casing","string":"surface","pressure":1000,"minutes":30,"drop":"10 %"},
  {"name":"production test","kind":"casing","string":"production","pressure":1200,"minutes":31,"drop":"9 %"}]`

func TestButte(t *testing.T) {
	run(t, "us-wyoming", butte, []trial{
		{"wy-surface-120: groundwater", "surface-depth", "surface", nil, met},
		{"wy-surface-120: groundwater, at its base", "surface-depth", "surface", []string{`"depth":950`, `"depth":1000`}, not},
		{"wy-surface-120: formations", "surface-formations", "surface", nil, met},
		{"wy-surface-120: formations", "surface-formations", "surface", []string{`"base":970`, `"base":1020`}, not},
		{"wy-surface-120: 100 ft below the well", "surface-water-wells", "surface", nil, met}, // 1,020 - 920
		{"wy-surface-120: 99 ft below the well", "surface-water-wells", "surface", []string{`"depth":900`, `"depth":901`}, not},
		{"wy-surface-120: no well near", "surface-water-wells", "surface", []string{`"water_well"`, `"shoe_at_least"`}, none},
		{"wy-surface-cement", "surface-cement", "surface", nil, met},
		{"wy-surface-cement", "surface-cement", "surface", []string{`"kind":"slurry","top":20`, `"kind":"slurry","top":21`}, not},
		{"wy-osha-woc", "wait", "surface", []string{`"wait":12`, `"wait":8`}, met},
		{"wy-osha-woc", "wait", "surface", []string{`"wait":12`, `"wait":7`}, not},
		{"wy-osha-woc: 300 psi", "wait-strength", "surface", []string{`"wait":12`, `"wait":8`}, met},
		{"wy-osha-woc: 300 psi", "wait-strength", "surface", []string{`"wait":12`, `"wait":8`, `"strength":300`, `"strength":299`}, not},
		{"wy-osha-test", "production-test", "production", nil, met},
	})
	onCasing := []string{`"test_plug":true`, `"test_plug":false`}
	deep := []string{`"top":20,"shoe":1020`, `"top":20,"shoe":3020`, `"from":20,"to":1020`, `"from":20,"to":3020`, `"from":1020`, `"from":3020`}
	run(t, "us-arizona", butte, []trial{
		{"az-surface: fresh water", "surface-depth", "surface", []string{`"depth":950`, `"depth":1000`}, met},
		{"az-surface: fresh water", "surface-depth", "surface", []string{`"depth":950`, `"depth":1001`}, not},
		{"az-surface: formations", "surface-formations", "surface", []string{`"base":970`, `"base":1021`}, not},
		{"az-surface: cement", "surface-cement", "surface", nil, met},
		{"az-surface: cement", "surface-cement", "surface", []string{`"kind":"slurry","top":20`, `"kind":"slurry","top":21`}, not},
		{"az-surface: three joints", "centralizers", "surface", nil, met},
		{"az-surface: two joints", "centralizers", "surface", []string{`"from":880`, `"from":941`}, not},
		{"az-surface: wait", "wait", "surface", nil, met},
		{"az-surface: wait", "wait", "surface", []string{`"wait":12`, `"wait":11`}, not},
		{"az-surface: 1 psi/ft", "surface-test", "surface", nil, met},
		{"az-surface: 1 psi/ft", "surface-test", "surface", []string{`"pressure":1000`, `"pressure":999`}, not},
		{"az-surface: 3,000 ft, at 70 %", "surface-test", "surface", append([]string{`"pressure":1000`, `"pressure":2464`}, deep...), met},
		{"az-surface: 3,000 ft, under 70 %", "surface-test", "surface", append([]string{`"pressure":1000`, `"pressure":2463`}, deep...), not},
		{"az-surface: test time", "surface-test-time", "surface test", []string{`"minutes":30`, `"minutes":29`}, not},
		{"az-surface: a drop of 10 % passes", "surface-test-drop", "surface test", nil, met},
		{"az-surface: a drop of 11 % doesn't", "surface-test-drop", "surface test", []string{`10 %`, `11 %`}, not},
		{"az-bop: plug", "ram-test-isolated", "stack", nil, met},
		{"az-bop: plug", "ram-test-isolated", "stack", []string{`"test_pressure":1000`, `"test_pressure":999`}, not},
		{"az-bop: casing", "ram-test-casing", "stack", nil, none},
		{"az-bop: casing", "ram-test-casing", "stack", onCasing, met},
		{"az-bop: casing, 3,000 ft, at 70 %", "ram-test-casing", "stack", append(append([]string{`"test_pressure":1000`, `"test_pressure":2463`}, onCasing...), deep...), not},
		{"az-bop: annular", "annular-test", "stack", nil, met},
		{"az-bop: annular", "annular-test", "stack", []string{`1001`, `999`}, not},
		{"az-bop: 14 days", "test-interval", "stack", nil, met},
		{"az-bop: 15 days", "test-interval", "stack", []string{`"test_days":14`, `"test_days":15`}, not},
	})
	run(t, "us-mississippi", butte, []trial{
		{"ms-surface: 482 ft for 6,020 ft", "surface-length", "surface", nil, met},
		{"ms-surface: 1,000 ft for 9,280 ft", "surface-length", "surface", []string{`"to":6020`, `"to":9280`}, met},
		{"ms-surface: 1,005 ft for 9,300 ft", "surface-length", "surface", []string{`"to":6020`, `"to":9300`}, not},
		{"ms-surface: cement", "surface-cement", "surface", []string{`"kind":"slurry","top":20`, `"kind":"slurry","top":21`}, not},
		{"ms-surface: 300 psi", "surface-test", "surface", nil, met},
		{"ms-surface: 300 psi", "surface-test", "surface", []string{`"pressure":1000`, `"pressure":299`}, not},
		{"ms-production", "production-cement", "production", nil, met}, // 6,020 - 5,500
		{"ms-production", "production-cement", "production", []string{`"top_of_cement":5500`, `"top_of_cement":5521`}, not},
		{"ms-production", "production-wait", "production", nil, met},
		{"ms-production", "production-wait", "production", []string{`"wait":24`, `"wait":23`}, not},
		{"ms-production: 0.2 x 6,000 ft", "production-test", "production", nil, met},
		{"ms-production", "production-test", "production", []string{`"pressure":1200`, `"pressure":1199`}, not},
		{"ms-production", "production-test-time", "production test", []string{`"minutes":31`, `"minutes":29`}, not},
		{"ms-production: 9 %", "production-test-drop", "production test", nil, met},
		{"ms-production: a drop of 10 % fails", "production-test-drop", "production test", []string{`9 %`, `10 %`}, not},
	})
}

// TestEveryWestRow holds that each row collected of the regulations is where
// testdata/west_rows.csv says, and that no requirement stands on a row that
// isn't listed there.
func TestEveryWestRow(t *testing.T) {
	f, err := os.Open("testdata/west_rows.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 45 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	of := map[string][][]string{}
	var names []string
	for _, r := range rows[1:] {
		if of[r[0]] == nil {
			names = append(names, r[0])
		}
		of[r[0]] = append(of[r[0]], r)
	}
	for _, name := range names {
		holdRows(t, name, of[name])
	}
}

// holdRows compares the rows of one book, as listed, with the book.
func holdRows(t *testing.T, name string, rows [][]string) {
	t.Helper()
	b := builtin(t, name)
	have, listed := map[string]bool{}, map[string]bool{}
	for i := range b.Requirements {
		for _, row := range strings.Split(b.Requirements[i].Row, ", ") {
			have[row+" requirement "+b.Requirements[i].Clause] = true
		}
	}
	clauses := map[string]bool{}
	note(clauses, "person", b.Person)
	note(clauses, "gap", b.Gaps)
	for _, r := range rows {
		line := r[1] + " " + r[2] + " " + r[3]
		listed[line] = true
		if !have[line] && !clauses[r[2]+" "+r[3]] {
			t.Errorf("%s: %s isn't in the book as a %s of %s", name, r[1], r[2], r[3])
		}
	}
	for row := range have {
		if !listed[row] {
			t.Errorf("%s: %s isn't listed", name, row)
		}
	}
}
