package coverage_test

import (
	"strings"
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// shelf is a well on a rig 80 ft over the sea in 120 ft of water: sea bed at
// 200 ft. 9-5/8 in 47 lb/ft L80 BTC has an internal yield of 6,870 psi, 70 % of
// it 4,809 psi; 13-3/8 in 54.5 lb/ft J55 BTC 2,730 psi, 1,911 psi (API TR 5C3
// tables).
const shelf = `"units":"field","well":{"name":"A","setting":"offshore_surface_bop","purpose":"gas","class":"development","vertical":true,"spud_date":"2026-12-01"},
 "depth_reference":{"above_sea_level":80,"water_depth":120},
 "sections":[
  {"name":"one","bit":26,"from":200,"to":1000,"mud_density":8.8,"pressure_control":"diverter"},
  {"name":"two","bit":17.5,"from":1000,"to":4000,"mud_density":9.2,"pressure_control":"diverter"},
  {"name":"three","bit":12.25,"from":4000,"to":10000,"mud_density":10,"ecd":10.3,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"conductor","role":"conductor","section":"one","top":0,"shoe":1000,"top_of_cement":200,"segments":[{"od":20,"weight":133,"grade":"X52","wall":0.635}]},
  {"name":"surface","role":"surface","section":"two","top":0,"shoe":4000,"wait":12,"segments":[{"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}],
   "stages":[{"name":"primary","fluids":[
    {"name":"lead","kind":"lead","top":800,"strengths":[{"time":6,"strength":100},{"time":24,"strength":700}]},
    {"name":"tail","kind":"tail","top":3500,"strengths":[{"time":6,"strength":200},{"time":12,"strength":500}]}]}]},
  {"name":"production","role":"production","section":"three","top":0,"shoe":10000,"top_of_cement":7500,"segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"BTC"}]}],
 "formations":[{"name":"Shale","top":1000},{"name":"Brant sand","top":8000,"base":8200,"contents":"gas"}],
 "bops":[{"name":"stack","section":"three","on":"surface","rating":5000,"annulars":1,"pipe_rams":2,"shear_rams":1}],
 "tests":[{"name":"surface test","kind":"casing","string":"surface","pressure":1911,"minutes":30,"drop":"10 %"},
  {"name":"production test","kind":"casing","string":"production","pressure":4809,"minutes":30,"drop":"10 %"},
  {"name":"conductor test","kind":"casing","string":"conductor","pressure":250,"minutes":30,"drop":"10 %"},
  {"name":"shoe test","kind":"shoe","string":"surface","emw":10.5,"new_hole":10}],
 "pressures":[{"depth":0,"pore":"9 ppg","fracture":"14 ppg"},{"depth":10000,"pore":"9 ppg","fracture":"14 ppg"}]`

// ranch is a well on land, the rotary 20 ft over the ground. Protected water
// ends 1,900 ft below the ground: 1,920 ft below the rotary.
const ranch = `"units":"field","well":{"name":"B","setting":"onshore","purpose":"oil","class":"development","vertical":true,"spud_date":"2026-12-01"},
 "depth_reference":{"above_ground":20},
 "sections":[
  {"name":"one","bit":17.5,"from":20,"to":2000,"mud_type":"fresh_water","mud_density":8.6,"pressure_control":"diverter"},
  {"name":"two","bit":8,"from":2000,"to":8000,"mud_type":"brine","mud_density":9.5,"pressure_control":"bop_surface","rotating_hours":360}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":20,"shoe":2000,"wait":12,"centralizers":[{"from":20,"to":2000,"spacing":160}],
   "segments":[{"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}],
   "stages":[{"name":"primary","top_plug":true,"fluids":[
    {"name":"lead","kind":"lead","top":20,"free_fluid":"0.8 %","strengths":[{"time":12,"strength":100},{"time":24,"strength":250}]},
    {"name":"tail","kind":"tail","top":1600,"free_fluid":"0.4 %","strengths":[{"time":12,"strength":500},{"time":72,"strength":1200}]}]}]},
  {"name":"production","role":"production","section":"two","top":20,"shoe":8000,"wait":8,"float_collar":7920,"top_of_cement":6400,"top_proven_by":"returns",
   "segments":[{"od":7,"weight":26,"grade":"L80","connection":"LTC"}]}],
 "formations":[{"name":"Shale","top":1000},{"name":"Brant sand","top":7000,"base":7200,"contents":"oil"}],
 "water":[{"name":"letter","kind":"base_of_protected_water","depth":1900}],
 "completion":{"stimulation_pressure":5000,"stimulation_path":"casing","stimulation_top_tvd":7000},
 "tests":[{"name":"treating test","kind":"casing","string":"production","pressure":5000,"minutes":30,"drop":"10 %"}],
 "pressures":[{"depth":0,"pore":"9 ppg","fracture":"14 ppg"},{"depth":8000,"pore":"9 ppg","fracture":"14 ppg"}]`

type trial struct {
	row, requirement, subject string
	change                    []string // pairs: what stands in the plan, what stands there instead
	want                      finding.Verdict
}

func run(t *testing.T, book, text string, trials []trial) {
	t.Helper()
	for _, c := range trials {
		changed := text
		for i := 0; i < len(c.change); i += 2 {
			if strings.Count(changed, c.change[i]) != 1 {
				t.Fatalf("%s: %q stands %d times in the plan, want once", c.row, c.change[i], strings.Count(changed, c.change[i]))
			}
			changed = strings.Replace(changed, c.change[i], c.change[i+1], 1)
		}
		if f := judge(t, book, changed, c.requirement, c.subject); f.Verdict != c.want {
			t.Errorf("%s, %s on %s after %q: got %s (%s, missing %v, measure %+v), want %s", c.row, c.requirement, c.subject, c.change, f.Verdict, f.Reason, f.Missing, f.Measure, c.want)
		}
	}
}

func judge(t *testing.T, name, text, requirement, subject string) finding.Finding {
	t.Helper()
	e, book := checktest.Engine(t, checktest.Plan(t, text), name, finding.PreSpud)
	for i := range book.Requirements {
		r := &book.Requirements[i]
		for _, s := range e.Subjects(r.Subject) {
			if r.ID == requirement && s.Name == subject {
				return e.One(r, s)
			}
		}
	}
	t.Fatalf("no %s on %s", requirement, subject)
	return finding.Finding{}
}

const (
	met  = finding.Met
	not  = finding.NotMet
	none = finding.NotApplicable
	open = finding.NotAssessed
)

// TestShelf takes a plan through the federal offshore book, at each limit and
// just past it.
func TestShelf(t *testing.T) {
	run(t, "us-offshore-federal", shelf, []trial{
		{"ocs-conductor", "conductor-cement", "conductor", nil, met}, // sea bed at 80 + 120 = 200 ft
		{"ocs-conductor", "conductor-cement", "conductor", []string{`"shoe":1000,"top_of_cement":200`, `"shoe":1000,"top_of_cement":210`}, not},
		{"ocs-conductor", "conductor-above-hydrocarbon", "conductor", nil, met},
		{"ocs-conductor", "conductor-above-hydrocarbon", "conductor", []string{`"name":"Shale","top":1000`, `"name":"Shale","top":1000,"contents":"gas"`}, not},
		{"ocs-surface-200", "surface-cement", "surface", nil, met}, // 1,000 - 800 = 200 ft
		{"ocs-surface-200", "surface-cement", "surface", []string{`"kind":"lead","top":800`, `"kind":"lead","top":801`}, not},
		{"ocs-surface-200", "surface-cement", "production", nil, none},
		{"ocs-production-500", "production-above-zone", "production / Brant sand", nil, met}, // 8,000 - 7,500
		{"ocs-production-500", "production-above-shoe", "production", []string{`"top_of_cement":7500`, `"top_of_cement":7600`}, met},
		{"ocs-production-500: both are asked", "production-above-zone", "production / Brant sand", []string{`"top_of_cement":7500`, `"top_of_cement":7600`}, not},
		{"ocs-production-500: not cemented", "production-above-shoe", "production", []string{`"top_of_cement":7500`, `"cemented":false`}, not},
		{"ocs-cement-500psi-500ft", "bottom-strength", "surface / primary / tail", nil, met},
		{"ocs-cement-500psi-500ft", "bottom-strength", "surface / primary / tail", []string{`"wait":12`, `"wait":11.9`}, not},
		{"ocs-cement-500psi-500ft: lead begins 500 ft up", "bottom-strength", "surface / primary / lead", nil, none},
		// 100 + 600 x (12 - 6)/18 = 300 psi in the lead at 12 hours.
		{"ocs-cement-500psi-500ft: lead begins 400 ft up", "bottom-strength", "surface / primary / lead", []string{`"top":3500`, `"top":3600`}, not},
		{"ocs-woc-12-8", "wait-pressure", "surface", nil, met},
		{"ocs-woc-12-8", "wait-pressure", "surface", []string{`"wait":12`, `"wait":11`}, not},
		{"ocs-woc-12-8", "wait-pressure", "production", nil, open},
		{"ocs-test-70", "casing-test", "production", nil, met},
		{"ocs-test-70", "casing-test", "production", []string{`"pressure":4809`, `"pressure":4808`}, not},
		{"ocs-test-70: a floor", "casing-test", "production", []string{`"pressure":4809`, `"pressure":5500`}, met},
		{"ocs-test-conductor", "conductor-test", "conductor", nil, met},
		{"ocs-test-conductor", "conductor-test", "conductor", []string{`"pressure":250`, `"pressure":200`}, not},
		{"ocs-pit-10-50", "shoe-test-new-hole", "surface", nil, met},
		{"ocs-pit-10-50", "shoe-test-new-hole", "surface", []string{`"new_hole":10`, `"new_hole":51`}, not},
		// The shoe test, 10.5 ppg, and not the fracture curve, 14 ppg, is the lesser.
		{"ocs-margin-05", "drilling-margin", "three", nil, met},
		{"ocs-margin-05", "drilling-margin", "three", []string{`"emw":10.5`, `"emw":10.4`}, not},
		{"ocs-margin-05: no shoe test", "drilling-margin", "three", []string{`"emw":10.5`, `"minutes":1`}, open},
		{"ocs-margin-ecd", "circulating-margin", "three", []string{`"ecd":10.3`, `"ecd":10.5`}, not},
		{"ocs-margin-pp", "mud-over-pore", "three", nil, met},
		{"ocs-margin-pp", "mud-over-pore", "three", []string{`"mud_density":10,`, `"mud_density":10,"mud_downhole":9,`}, not},
		{"ocs-surface-stack-4", "surface-preventers", "stack", nil, met},
		{"ocs-surface-stack-4", "surface-shear-rams", "stack", []string{`"shear_rams":1`, `"shear_rams":0`}, not},
		{"ocs-subsea-stack-5", "subsea-preventers", "stack", nil, none},
		{"ocs-two-cemented-strings", "two-cemented-strings", "well", nil, met},
		{"ocs-test-drive", "casing-test", "conductor", nil, none},
		{"in force from 2023-10-23", "casing-test", "production", []string{`2026-12-01`, `2023-10-22`}, none},
	})
}

// TestRanch takes a plan through the Texas book, at each limit and just past it.
func TestRanch(t *testing.T) {
	run(t, "us-texas", ranch, []trial{
		{"tx-protection-depth", "protection-depth", "surface", nil, met}, // 2,000 - 1,920 = 80 ft
		{"tx-protection-depth", "protection-depth", "surface", []string{`"depth":1900`, `"depth":1981`}, not},
		{"tx-surface-max-200", "surface-over-depth", "surface", []string{`"depth":1900`, `"depth":1779`}, not}, // 2,000 - 1,799
		{"tx-surface-3500", "surface-deep", "surface", nil, met},
		{"tx-surface-cement", "surface-cement", "surface", nil, met}, // ground at 20 ft
		{"tx-surface-cement", "surface-cement", "surface", []string{`"kind":"lead","top":20`, `"kind":"lead","top":60`}, not},
		// 20 % of 1,980 ft is 396 ft: the tail, 400 ft long, fills it alone.
		{"tx-surface-500", "critical-strength", "surface / primary / tail", nil, met},
		{"tx-surface-500", "critical-strength", "surface / primary / lead", nil, none},
		{"tx-surface-500: lead begins 395 ft up", "critical-strength", "surface / primary / lead", []string{`"top":1600`, `"top":1605`}, not},
		{"tx-surface-1200-72h", "critical-strength-72h", "surface / primary / tail", nil, met},
		{"tx-surface-1200-72h", "critical-strength-72h", "surface / primary / tail", []string{`"strength":1200`, `"strength":1199`}, not},
		{"tx-surface-extended", "extended-strength-24h", "surface / primary / lead", nil, met},
		{"tx-surface-extended", "extended-strength-24h", "surface / primary / lead", []string{`"strength":250`, `"strength":249`}, not},
		{"tx-surface-extended", "extended-strength", "surface / primary / lead", []string{`"strength":100`, `"strength":99`}, not},
		{"tx-free-water", "free-water", "surface / primary / lead", nil, met}, // 2/250
		{"tx-free-water", "free-water", "surface / primary / lead", []string{`"free_fluid":"0.8 %"`, `"free_fluid":"0.9 %"`}, not},
		{"tx-centralizer-surface", "surface-centralizers", "surface", nil, met}, // 160 ft in joints of 40 ft
		{"tx-centralizer-surface", "surface-centralizers", "surface", []string{`"spacing":160`, `"spacing":161`}, not},
		{"tx-hole-150", "surface-hole", "surface", nil, met},
		{"tx-hole-100", "deeper-hole", "production", nil, met}, // 8 - 7 in, against the pipe and not the coupling
		{"tx-hole-100", "deeper-hole", "production", []string{`"bit":8,`, `"bit":7.875,`}, not},
		{"tx-fluid-until-surface", "fresh-mud", "one", nil, met},
		{"tx-fluid-until-surface", "fresh-mud", "one", []string{`fresh_water`, `oil`}, not},
		{"tx-fluid-until-surface", "fresh-mud", "two", nil, none},
		{"tx-int-zone", "zone-calculated", "production / Brant sand", nil, met}, // 7,000 - 6,400
		{"tx-int-zone", "zone-calculated", "production / Brant sand", []string{`"top_of_cement":6400`, `"top_of_cement":6410`}, not},
		{"tx-int-zone: by survey", "zone-survey", "production / Brant sand", []string{`"top_of_cement":6400`, `"top_of_cement":6750`, `"returns"`, `"temperature"`}, met},
		{"tx-int-zone: by survey", "zone-survey", "production / Brant sand", []string{`"top_of_cement":6400`, `"top_of_cement":6751`, `"returns"`, `"temperature"`}, not},
		{"tx-int-zone: by log", "zone-log", "production / Brant sand", []string{`"top_of_cement":6400`, `"top_of_cement":6900`, `"returns"`, `"bond_log"`}, met},
		{"tx-int-zone: by log", "zone-log", "production / Brant sand", []string{`"top_of_cement":6400`, `"top_of_cement":6901`, `"returns"`, `"bond_log"`}, not},
		{"tx-prod-600", "production-above-shoe", "production", []string{`"top_of_cement":6400`, `"top_of_cement":7401`}, not},
		{"tx-prod-600", "production-float", "production", nil, met},
		{"tx-prod-woc-8", "production-wait", "production", nil, met},
		{"tx-prod-woc-8", "production-wait", "production", []string{`"wait":8`, `"wait":7`}, not},
		{"tx-360h", "rotating-hours", "surface", nil, met},
		{"tx-360h", "rotating-hours", "surface", []string{`"rotating_hours":360`, `"rotating_hours":361`}, not},
		{"tx-frac-test", "treating-test", "production", nil, met},
		{"tx-frac-test", "treating-test", "production", []string{`"pressure":5000,"minutes"`, `"pressure":4999,"minutes"`}, not},
		{"tx-minsep-200", "separation-cement", "production", nil, none}, // 7,000 - 1,920 ft between
		// 2,919 - 1,920 = 999 ft between; the cement begins under the shoe at 2,000 ft.
		{"tx-minsep-200", "separation-cement", "production", []string{`"stimulation_top_tvd":7000`, `"stimulation_top_tvd":2919`}, not},
		{"tx-minsep-200", "separation-cement", "production", []string{`"stimulation_top_tvd":7000`, `"stimulation_top_tvd":2919`, `"top_of_cement":6400`, `"top_of_cement":1800`}, met},
		{"in force from 2014-01-01", "surface-cement", "surface", []string{`2026-12-01`, `2013-12-31`}, none},
	})
}
