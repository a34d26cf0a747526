package coverage_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
)

// keystone is a gas well on land, the rotary 20 ft over the ground: fresh
// groundwater to 420 ft and consolidated rock from 120 ft below the rotary.
// 13-3/8 in BTC has a coupling of 14.375 in (API Spec 5CT); 7 in 26 lb/ft L80
// LTC an internal yield of 7,240 psi (API TR 5C3 tables).
const keystone = `"units":"field","well":{"name":"K","setting":"onshore","purpose":"gas","class":"development","vertical":true,"spud_date":"2026-12-01","shut_in_tubing_pressure":6000},
 "depth_reference":{"above_ground":20},
 "sections":[
  {"name":"one","bit":15.375,"from":20,"to":520,"mud_type":"air","pressure_control":"diverter"},
  {"name":"two","bit":12.25,"from":520,"to":3000,"mud_density":9,"mud_type":"brine","pressure_control":"bop_surface"},
  {"name":"three","bit":8.75,"from":3000,"to":8000,"mud_density":10,"mud_type":"oil","pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":20,"shoe":520,"wait":8,"centralizers":[{"from":20,"to":470,"spacing":150}],
   "segments":[{"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}],
   "stages":[{"name":"primary","fluids":[
    {"name":"lead","kind":"lead","top":20,"free_fluid":"3 %","strengths":[{"time":8,"strength":100},{"time":24,"strength":510}]},
    {"name":"tail","kind":"tail","top":220,"free_fluid":"2.4 %","strengths":[{"time":8,"strength":350},{"time":24,"strength":800},{"time":72,"strength":1200}]}]}]},
  {"name":"intermediate","role":"intermediate","section":"two","top":20,"shoe":3000,"wait":24,"top_of_cement":20,"segments":[{"od":9.625,"weight":40,"grade":"J55","connection":"LTC"}]},
  {"name":"production","role":"production","section":"three","top":20,"shoe":8000,"wait":24,"top_of_cement":7300,"segments":[{"od":7,"weight":26,"grade":"L80","connection":"LTC"}]}],
 "formations":[{"name":"Drift","top":20,"base":120,"competent":false},{"name":"Hard shale","top":120,"competent":true},{"name":"Gas shale","top":7600,"contents":"gas"}],
 "water":[{"name":"letter","kind":"base_of_protected_water","depth":400}],
 "completion":{"perforated_from":7500,"perforated_to":7900,"stimulation_pressure":6033,"stimulation_path":"casing"},
 "tests":[{"name":"used test","kind":"casing","string":"production","pressure":6000,"minutes":30,"drop":"10 %"}]`

const tail = "surface / primary / tail"

func TestKeystone(t *testing.T) {
	usedPipe := []string{`"connection":"LTC"}]}],`, `"connection":"LTC","condition":"used"}]}],`}
	run(t, "us-pennsylvania", keystone, []trial{
		{"pa-hole-1in", "surface-hole", "surface", nil, met}, // 15.375 - 14.375, not against the pipe
		{"pa-hole-1in", "surface-hole", "surface", []string{`15.375`, `15.25`}, not},
		{"pa-hole-1in", "surface-hole", "intermediate", nil, none},
		{"pa-surface-50", "surface-depth", "surface", []string{`"depth":400`, `"depth":450`}, met}, // 520 - 470
		{"pa-surface-50: approximately 50 ft", "surface-depth", "surface", []string{`"depth":400`, `"depth":451`}, not},
		{"pa-surface-50: into rock", "surface-rock", "surface", nil, met},
		{"pa-surface-50: into rock", "surface-rock", "surface", []string{`"top":120`, `"top":471`}, not},
		{"pa-surface-max-200", "surface-over-depth", "surface", []string{`"depth":400`, `"depth":300`}, met},
		{"pa-surface-max-200", "surface-over-depth", "surface", []string{`"depth":400`, `"depth":299`}, not},
		{"pa-surface-max-200: rock at 480 ft, water to 320 ft", "surface-over-depth", "surface", []string{`"depth":400`, `"depth":299`, `"top":120`, `"top":480`}, none},
		{"pa-surface-max-200: seat", "surface-seat", "surface", nil, met},
		{"pa-surface-max-200: seat", "surface-seat", "surface", []string{`"competent":true`, `"competent":true,"losses":true`}, not},
		{"pa-surface-max-200: fluid", "surface-fluid", "one", nil, met},
		{"pa-surface-max-200: fluid", "surface-fluid", "one", []string{`"mud_type":"air"`, `"mud_type":"oil"`}, not},
		{"pa-surface-max-200: fluid", "surface-fluid", "two", nil, none},
		{"pa-central", "first-centralizer", "surface", nil, met}, // 520 - 470
		{"pa-central", "first-centralizer", "surface", []string{`"to":470`, `"to":469`}, not},
		{"pa-central", "centralizer-spacing", "surface", nil, met},
		{"pa-central", "centralizer-spacing", "surface", []string{`"spacing":150`, `"spacing":151`}, not},
		{"pa-cement-seat-350", "seat-strength", "surface", nil, met},
		{"pa-cement-seat-350", "seat-strength", "surface", []string{`"strength":350`, `"strength":349`}, not},
		{"pa-zcc", "critical-strength", tail, nil, met},
		{"pa-zcc", "critical-strength", tail, []string{`"strength":1200`, `"strength":1199`}, not},
		{"pa-zcc: lead begins 300 ft up", "critical-strength", "surface / primary / lead", nil, none},
		{"pa-zcc: lead begins 299 ft up", "critical-strength", "surface / primary / lead", []string{`"top":220`, `"top":221`}, not},
		{"pa-zcc: 6 mL, not another state's 2 mL", "free-water", tail, nil, met},
		{"pa-zcc", "free-water", tail, []string{`2.4 %`, `2.5 %`}, not},
		{"pa-woc-8", "wait", "surface", nil, met},
		{"pa-woc-8", "wait", "surface", []string{`"wait":8,`, `"wait":7,`}, not},
		{"pa-cement-def", "cement-24h", "surface / primary / lead", nil, met},
		{"pa-cement-def", "cement-24h", "surface / primary / lead", []string{`"strength":510`, `"strength":499`}, not},
		{"pa-burst-120", "burst-production", "production", nil, met}, // 1.2 x 6,000 = 7,200
		{"pa-burst-120", "burst-production", "production", []string{`"shut_in_tubing_pressure":6000`, `"shut_in_tubing_pressure":6034`}, not},
		{"pa-burst-120", "burst-treating", "production", nil, met}, // 1.2 x 6,033 = 7,239.6
		{"pa-burst-120", "burst-treating", "production", []string{`6033`, `6034`}, not},
		{"pa-burst-120: used pipe", "burst-treating", "production", usedPipe, none},
		{"pa-used-test: new pipe", "used-test-production", "production", nil, none},
		{"pa-used-test", "used-test-production", "production", usedPipe, met},
		{"pa-used-test", "used-test-production", "production", append([]string{`"pressure":6000,"minutes"`, `"pressure":5999,"minutes"`}, usedPipe...), not},
		{"pa-used-test", "used-test-time", "used test", append([]string{`"minutes":30`, `"minutes":29`}, usedPipe...), not},
		{"pa-used-test", "used-test-drop", "used test", append([]string{`"drop":"10 %"`, `"drop":"11 %"`}, usedPipe...), not},
		{"pa-int-surface", "intermediate-cement", "intermediate", nil, met},
		{"pa-int-surface", "intermediate-cement", "intermediate", []string{`"wait":24,"top_of_cement":20`, `"wait":24,"top_of_cement":500`}, not},
		{"pa-prod-500-200", "production-depth", "production", nil, met},        // 8,000 - 7,300
		{"pa-prod-500-200", "production-perforations", "production", nil, met}, // 7,500 - 7,300
		{"pa-prod-500-200: both are asked", "production-depth", "production", []string{`7300`, `7301`}, met},
		{"pa-prod-500-200: both are asked", "production-perforations", "production", []string{`7300`, `7301`}, not},
		{"pa-prod-500-200", "production-depth", "production", []string{`7300`, `7501`, `"perforated_from":7500`, `"perforated_from":7800`}, not},
		{"pa-seat-80pct", "seat-pressure", "surface", nil, none}, // no pressure planned
		{"78a.72(a)(1)", "bop-used", "two", nil, met},
		{"78a.72(a)(1)", "bop-used", "two", []string{`"brine","pressure_control":"bop_surface"`, `"brine","pressure_control":"diverter"`}, not},
		{"in force from 2016-10-08", "surface-depth", "surface", []string{`2026-12-01`, `2016-10-07`}, none},
	})
}

// TestSeatPressure has the annulus of the production string inside surface
// casing of 1,980 ft: 0.8 x 0.433 x 1,980 = 685.9 psi.
func TestSeatPressure(t *testing.T) {
	run(t, "us-pennsylvania", ranch, []trial{
		{"pa-seat-80pct", "seat-pressure", "surface", []string{`"completion":{`, `"completion":{"annulus_pressure":685,`}, met},
		{"pa-seat-80pct", "seat-pressure", "surface", []string{`"completion":{`, `"completion":{"annulus_pressure":686,`}, not},
	})
}

// bayou is a well of 9,000 ft, on the edge of two bands of the table, its
// rotary 25 ft over the ground. Its surface annulus at bit size is
// pi/4 (17.5^2 - 13.375^2)/144 x 1,800 = 1,250.3 ft3, its track of 80 ft holds
// 69.4 ft3: for 110 % 1,444.8 ft3 are pumped.
const bayou = `"units":"field","well":{"name":"B","setting":"onshore","purpose":"oil","class":"development","vertical":true,"spud_date":"2026-12-01"},
 "depth_reference":{"above_ground":25},
 "sections":[
  {"name":"one","bit":17.5,"from":25,"to":1825,"mud_type":"fresh_water","mud_density":9,"pressure_control":"diverter"},
  {"name":"two","bit":8.5,"from":1825,"to":9000,"mud_density":10,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":25,"shoe":1825,"float_collar":1745,"wait":12,
   "segments":[{"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}],
   "stages":[{"name":"primary","excess":"0 %","fluids":[
    {"name":"lead","kind":"lead","sacks":280,"yield":4.3},{"name":"tail","kind":"tail","sacks":220,"yield":1.18}]}]},
  {"name":"production","role":"production","section":"two","top":25,"shoe":9000,"wait":24,"top_of_cement":8500,"segments":[{"od":5.5,"weight":17,"grade":"N80","connection":"LTC"}]}],
 "formations":[{"name":"Shale","top":25},{"name":"Oil sand","top":8700,"contents":"oil"}],
 "tests":[{"name":"surface test","kind":"casing","string":"surface","pressure":1000,"minutes":30,"drop":"9 %"},
  {"name":"production test","kind":"casing","string":"production","pressure":1200,"minutes":30}]`

func TestBayou(t *testing.T) {
	shallower := `"top":25,"shoe":1825`
	run(t, "us-louisiana", bayou, []trial{
		{"la-surface-table: edge shared, 1,800 and not 1,400 ft", "surface-length", "surface", nil, met},
		{"la-surface-table: edge shared", "surface-length", "surface", []string{shallower, `"top":25,"shoe":1824`}, not},
		{"la-surface-table: 8,999 ft", "surface-length", "surface", []string{shallower, `"top":25,"shoe":1425`, `"to":9000`, `"to":8999`}, met},
		{"la-surface-table: fresh water is there", "surface-length", "surface", []string{`{"name":"Shale","top":25}`, `{"name":"Shale","top":25,"contents":"fresh_water"}`}, none},
		{"la-surface-table: sacks", "surface-sacks", "surface", nil, met},                                                                           // 280 + 220
		{"la-surface-table: 1,459.6 ft3, filled", "surface-sacks", "surface", []string{`"sacks":280,"yield":4.3`, `"sacks":279,"yield":4.3`}, none}, // 279 x 4.3 + 259.6 = 1,459.3
		{"la-surface-table: neither", "surface-sacks", "surface", []string{`"sacks":280,"yield":4.3`, `"sacks":270,"yield":4.3`}, not},              // 1,420.6 ft3
		{"la-circulate-def", "surface-circulate", "surface", []string{`"sacks":280,"yield":4.3`, `"sacks":279,"yield":4.3`}, met},
		{"la-circulate-def: 108 %", "surface-circulate", "surface", []string{`"sacks":280,"yield":4.3`, `"sacks":270,"yield":4.3`}, not},
		{"la-surface-test", "surface-test", "surface", nil, met},
		{"la-surface-test", "surface-test", "surface", []string{`"pressure":1000`, `"pressure":999`}, not},
		{"la-surface-test", "surface-test-time", "surface test", []string{`"minutes":30,"drop"`, `"minutes":29,"drop"`}, not},
		{"la-surface-test", "surface-test-drop", "surface test", nil, met},
		{"la-surface-test: a drop of 10 % fails", "surface-test-drop", "surface test", []string{`9 %`, `10 %`}, not},
		{"la-woc-12", "wait", "surface", nil, met},
		{"la-woc-12", "wait", "surface", []string{`"wait":12`, `"wait":11`}, not},
		{"la-prod-500", "production-above-shoe", "production", nil, met}, // 9,000 - 8,500
		{"la-prod-500", "production-above-shoe", "production", []string{`8500`, `8501`}, not},
		{"la-prod-500", "production-wait", "production", nil, met},
		{"la-prod-500", "production-wait", "production", []string{`"wait":24`, `"wait":23`}, not},
		{"la-deep-test: 8,975 ft of casing", "deeper-test", "production", nil, met},
		{"la-deep-test", "deeper-test", "production", []string{`"pressure":1200`, `"pressure":1199`}, not},
		{"la-deep-test", "deeper-test", "surface", nil, none},
	})
}

// valley is a prospect well of 8,000 ft below the ground, the rotary 20 ft
// over it.
const valley = `"units":"field","well":{"name":"V","setting":"onshore","purpose":"oil","class":"exploration","vertical":true,"spud_date":"2026-12-01"},
 "depth_reference":{"above_ground":20},
 "sections":[
  {"name":"one","bit":26,"from":20,"to":120},
  {"name":"two","bit":17.5,"from":120,"to":820,"mud_density":9},
  {"name":"three","bit":12.25,"from":820,"to":6000,"mud_density":9.5,"pressure_control":"bop_surface"},
  {"name":"four","bit":8.5,"from":6000,"to":8020,"mud_density":10,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"conductor","role":"conductor","section":"one","top":20,"shoe":120,"top_of_cement":20,"segments":[{"od":20,"weight":94}]},
  {"name":"surface","role":"surface","section":"two","top":20,"shoe":820,"top_of_cement":20,"segments":[{"od":13.375,"weight":54.5}]},
  {"name":"intermediate","role":"intermediate","section":"three","top":20,"shoe":6000,"top_of_cement":900,"segments":[{"od":9.625,"weight":40}]},
  {"name":"liner","role":"production_liner","section":"four","hung_in":"intermediate","top":5900,"shoe":8020,"top_of_cement":5900,"segments":[{"od":7,"weight":26}]}],
 "formations":[{"name":"Gravel","top":20},{"name":"Clay","top":700,"competent":true},{"name":"Oil sand","top":1400,"contents":"oil"},{"name":"Deep sand","top":7000,"contents":"oil"}],
 "water":[{"name":"letter","kind":"base_of_protected_water","depth":980}],
 "tests":[{"name":"lap test","kind":"inflow","string":"liner"},{"name":"lap pressure","kind":"liner_lap","string":"liner","pressure":1000}]`

func TestValley(t *testing.T) {
	run(t, "us-california", valley, []trial{
		{"ca-conductor-100, ca-tvd-gl", "conductor-depth", "conductor", nil, met}, // 100 ft below ground, 120 below the rotary
		{"ca-conductor-100", "conductor-depth", "conductor", []string{`"shoe":120`, `"shoe":121`}, not},
		{"ca-surface-10pct, ca-tvd-gl", "surface-depth", "surface", nil, met}, // 800 of 8,000 ft below ground
		{"ca-surface-10pct", "surface-depth", "surface", []string{`"shoe":820`, `"shoe":819`}, not},
		{"ca-surface-10pct: a development well", "surface-depth", "surface", []string{`exploration`, `development`}, none},
		{"ca-surface-10pct: competent bed", "surface-competent", "surface", nil, met},
		{"ca-surface-10pct: competent bed", "surface-competent", "surface", []string{`"competent":true`, `"competent":false`}, not},
		{"ca-liner-100", "liner-lap", "liner", nil, met},
		{"ca-liner-100", "liner-lap", "liner", []string{`"top":5900`, `"top":5901`}, not},
		{"ca-liner-100", "liner-lap-cement", "liner", nil, met},
		{"ca-liner-100", "liner-lap-cement", "liner", []string{`"top_of_cement":5900`, `"top_of_cement":5950`}, not},
		{"ca-liner-100", "liner-lap-test", "liner", nil, met},
		{"ca-cement-surface", "surface-cement", "surface", nil, met},
		{"ca-cement-surface", "surface-cement", "surface", []string{`"shoe":820,"top_of_cement":20`, `"shoe":820,"top_of_cement":21`}, not},
		{"ca-cement-500-100", "zone-cement", "intermediate / Oil sand", nil, met}, // 1,400 - 900
		{"ca-cement-500-100", "zone-cement", "intermediate / Oil sand", []string{`"top_of_cement":900`, `"top_of_cement":901`}, not},
		{"ca-cement-500-100", "freshwater-cement", "intermediate", nil, met}, // 1,000 - 900
		{"ca-cement-500-100", "freshwater-cement", "intermediate", []string{`"depth":980`, `"depth":979`}, not},
		{"ca-cement-500-100: covered by surface casing", "freshwater-cement", "intermediate", []string{`"depth":980`, `"depth":700`}, none},
		{"ca-off-cement: onshore", "offshore-surface-cement", "surface", nil, none},
	})
}

// TestChannel takes the well of the federal shelf, sea bed at 200 ft, through
// the offshore half.
func TestChannel(t *testing.T) {
	second := []string{`"name":"conductor","role":"conductor"`, `"name":"conductor","role":"surface"`}
	run(t, "us-california", shelf, []trial{
		{"ca-off-cement", "offshore-conductor-cement", "conductor", nil, met},
		{"ca-off-cement", "offshore-conductor-cement", "conductor", []string{`"shoe":1000,"top_of_cement":200`, `"shoe":1000,"top_of_cement":210`}, not},
		{"ca-off-cement: lead tops out at 800 ft", "offshore-surface-cement", "surface", nil, not},
		{"ca-off-cement: 200 ft into the next string", "offshore-intermediate-cement", "surface", []string{`"role":"surface"`, `"role":"intermediate"`}, met}, // 1,000 - 800
		{"ca-off-cement", "offshore-intermediate-cement", "surface", []string{`"role":"surface"`, `"role":"intermediate"`, `"kind":"lead","top":800`, `"kind":"lead","top":801`}, not},
		{"ca-off-cement", "offshore-production-shoe", "production", nil, met},
		{"ca-off-cement", "offshore-production-shoe", "production", []string{`7500`, `9501`}, not},
		{"ca-off-cement", "offshore-production-zone", "production / Brant sand", nil, met}, // 8,000 - 7,500
		{"ca-off-cement", "offshore-production-zone", "production / Brant sand", []string{`7500`, `7501`}, not},
		{"ca-off-cement: fresh water", "offshore-freshwater", "production / Brant sand", []string{`"contents":"gas"`, `"contents":"fresh_water"`}, met},
		{"ca-off-cement: fresh water", "offshore-freshwater", "production / Brant sand", []string{`"contents":"gas"`, `"contents":"fresh_water"`, `7500`, `8001`}, not},
		{"ca-off-test: 1 psi/ft over 4,000 ft", "offshore-test-first", "surface", nil, not},
		{"ca-off-test", "offshore-test-first", "surface", []string{`1911`, `4000`}, met},
		{"ca-off-test", "offshore-test-second", "surface", second, met},
		{"ca-off-test", "offshore-test-second", "surface", append([]string{`1911`, `999`}, second...), not},
		{"ca-off-test: 0.2 psi/ft over 10,000 ft", "offshore-test-deeper", "production", []string{`4809`, `2000`}, met},
		{"ca-off-test", "offshore-test-deeper", "production", []string{`4809`, `1999`}, not},
		{"ca-off-test", "offshore-test-time", "production test", nil, met},
		{"ca-off-test", "offshore-test-drop", "production test", nil, met},
		{"ca-off-test: not the conductor", "offshore-test-drop", "conductor test", nil, none},
		{"ca-off-woc: 8 h", "offshore-wait-first", "surface", []string{`"wait":12`, `"wait":8`}, met},
		// 200 + 300 x (7 - 6)/6 = 250 psi in the tail at 7 hours.
		{"ca-off-woc: 7 h and 250 psi", "offshore-wait-first", "surface", []string{`"wait":12`, `"wait":7`}, not},
		{"ca-off-woc: 7 h and 500 psi", "offshore-wait-first", "surface", []string{`"wait":12`, `"wait":7`, `"time":12,"strength":500`, `"time":7,"strength":500`}, none},
		// The second surface string: 12 hours, or strength.
		{"ca-off-woc: 12 h", "offshore-wait", "surface", second, met},
		{"ca-off-woc: 11 h and 450 psi", "offshore-wait", "surface", append([]string{`"wait":12`, `"wait":11`}, second...), not},
		{"ca-off-woc: lead 400 ft up, 300 psi at 11.9 h", "offshore-wait-strength", "surface / primary / lead", append([]string{`"wait":12`, `"wait":11.9`, `"top":3500`, `"top":3600`}, second...), not},
		{"ca-off-woc: lead 500 ft up", "offshore-wait-strength", "surface / primary / lead", append([]string{`"wait":12`, `"wait":11.9`}, second...), none},
	})
}

// TestMesa takes the ranch through the New Mexico book: 13-3/8 in 54.5 lb/ft
// J55 BTC has an internal yield of 2,730 psi, a third of it 910 psi; 7 in
// 26 lb/ft L80 LTC 7,240 psi, a third of it more than the 1,500 psi asked at most.
func TestMesa(t *testing.T) {
	surface := func(psi string) []string {
		return []string{`"kind":"casing","string":"production","pressure":5000`, `"kind":"casing","string":"surface","pressure":` + psi}
	}
	production := func(psi string) []string {
		return []string{`"string":"production","pressure":5000`, `"string":"production","pressure":` + psi}
	}
	run(t, "us-new-mexico", ranch, []trial{
		{"nm-surface-cement", "surface-cement", "surface", nil, met},
		{"nm-surface-cement", "surface-cement", "surface", []string{`"kind":"lead","top":20`, `"kind":"lead","top":60`}, not},
		{"nm-woc-18-or-8: 12 h and 500 psi", "wait", "surface", nil, none},
		{"nm-woc-18-or-8: 12 h and 499 psi", "wait", "surface", []string{`"time":12,"strength":500`, `"time":12,"strength":499`}, not},
		{"nm-woc-18-or-8: 18 h", "wait", "surface", []string{`"wait":12`, `"wait":18`}, met},
		{"nm-woc-18-or-8: 7 h", "wait", "surface", []string{`"wait":12`, `"wait":7`, `"time":12,"strength":500`, `"time":7,"strength":500`}, not},
		{"nm-woc-18-or-8: 8 h, strength not known", "wait", "production", nil, open},
		// The zone of interest is the bottom 20 % of 1,980 ft, 396 ft.
		{"nm-zone-of-interest: lead 400 ft up", "wait-strength", "surface / primary / lead", nil, none},
		{"nm-zone-of-interest: lead 395 ft up, 100 psi", "wait-strength", "surface / primary / lead", []string{`"top":1600`, `"top":1605`}, not},
		{"nm-zone-of-interest: lead 395 ft up, 500 psi", "wait-strength", "surface / primary / lead", []string{`"top":1600`, `"top":1605`, `"time":12,"strength":100`, `"time":12,"strength":500`, `"time":24,"strength":250`, `"time":24,"strength":700`}, met},
		{"nm-test-third", "casing-test", "surface", surface("910"), met},
		{"nm-test-third", "casing-test", "surface", surface("909"), not},
		{"nm-test-third: no more than 1,500 psi asked", "casing-test", "production", production("1500"), met},
		{"nm-test-third", "casing-test", "production", production("1499"), not},
		{"nm-test-third", "casing-test-time", "treating test", nil, met},
		{"nm-test-third", "casing-test-time", "treating test", []string{`"minutes":30`, `"minutes":29`}, not},
	})
}

// TestEveryEastRow holds that each row collected of the four regulations is
// where testdata/east_rows.csv says, and that no requirement stands on a row
// that isn't listed there.
func TestEveryEastRow(t *testing.T) {
	f, err := os.Open("testdata/east_rows.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 40 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, name := range []string{"us-pennsylvania", "us-louisiana", "us-california", "us-new-mexico"} {
		b := builtin(t, name)
		have := map[string]bool{}
		for i := range b.Requirements {
			for _, row := range strings.Split(b.Requirements[i].Row, ", ") {
				have[row] = row != ""
			}
		}
		clauses := map[string]bool{}
		note(clauses, "person", b.Person)
		note(clauses, "gap", b.Gaps)
		listed := map[string]bool{"": true}
		for _, r := range rows[1:] {
			if r[0] != name {
				continue
			}
			if r[2] == "requirement" {
				listed[r[1]] = true
				if !have[r[1]] {
					t.Errorf("%s: no requirement stands on %s", name, r[1])
				}
			} else if !clauses[r[2]+" "+r[3]] {
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
