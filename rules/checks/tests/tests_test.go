package tests_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/tests"
)

const psi = 6894.757293168361

// base is a surface string and a liner. 13-3/8 in 54.5 lb/ft J55 with BTC has
// an internal yield of 2,730 psi, 7 in 29 lb/ft P110 one of 11,220 psi, 7 in
// 26 lb/ft J55 one of 4,980 psi (API TR 5C3 tables).
const base = `"units":"field","well":{"name":"A","class":"development","vertical":true},
 "sections":[{"name":"one","bit":17.5,"from":0,"to":2000},{"name":"two","bit":8.5,"from":2000,"to":6000}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":0,"shoe":2000,"segments":[{"from":0,"to":2000,"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC","condition":"used","measured_wall":"90 %"}]},
  {"name":"liner","role":"production_liner","section":"two","hung_in":"surface","top":1800,"shoe":6000,"segments":[
   {"from":1800,"to":4000,"od":7,"weight":26,"grade":"J55","connection":"BTC"},{"from":4000,"to":6000,"od":7,"weight":29,"grade":"P110","connection":"BTC"}],
   "accessories":[{"name":"hanger","kind":"hanger","rating_burst":3500}]}],
 "wellhead":[{"name":"head","kind":"casing_head","string":"surface","rating":3000}],
 "bops":[{"name":"stack","on":"surface","rating":5000,"annular_rating":2500}],
 "tests":[
  {"name":"casing","kind":"casing","string":"surface","pressure":1500,"minutes":30,"drop":"10 %"},
  {"name":"again","kind":"casing","string":"surface","pressure":1800},
  {"name":"plugged","kind":"casing","string":"surface","pressure":2500,"isolated":true},
  {"name":"lap","kind":"liner_lap","string":"liner","pressure":2800},
  {"name":"bag","kind":"annular","string":"surface","pressure":2500,"isolated":true},
  {"name":"shoe","kind":"shoe","string":"surface","pressure":300}]`

func changed(t *testing.T, pairs ...string) *well.Well {
	t.Helper()
	return checktest.Well(t, strings.NewReplacer(pairs...).Replace(base))
}

func is(t *testing.T, w *well.Well, c *rules.Check, subject string, want, within float64) rules.Measure {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if !m.Result.Known || m.Absent != "" || m.Err != nil || math.Abs(m.Result.Value.SI-want) > within {
		t.Errorf("%s of %s: got %+v, want %.6g", c.Name, subject, m, want)
	}
	for _, step := range m.Working {
		if err := step.Check(); err != nil {
			t.Errorf("%s of %s: %v", c.Name, subject, err)
		}
	}
	return m
}

func lacks(t *testing.T, w *well.Well, c *rules.Check, subject, input string) {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if m.Result.Known || m.Absent != "" || len(m.Result.Lacks) != 1 || !strings.Contains(m.Result.Lacks[0].Input, input) {
		t.Errorf("%s of %s: got %+v, want %q missing", c.Name, subject, m, input)
	}
}

func TestPressures(t *testing.T) {
	w := changed(t)
	if m := is(t, w, tests.CasingPressure, "surface", 1800*psi, 1); m.Note != "again" {
		t.Errorf("governed by %q; a plugged test doesn't count", m.Note)
	}
	lacks(t, w, tests.CasingPressure, "liner", "test pressure of liner")
	is(t, w, tests.LapPressure, "liner", 2800*psi, 1)
	is(t, w, tests.Held, "casing", 1800, 1e-9)
	is(t, w, tests.Drop, "casing", 0.1, 1e-12)
	lacks(t, w, tests.Held, "again", "holding time")
	lacks(t, w, tests.Drop, "again", "drop allowed")
}

func TestLapPlanned(t *testing.T) {
	w := changed(t)
	if m := checktest.Measure(t, w, tests.LapPlanned, "liner"); !m.Result.Value.Truth {
		t.Errorf("the lap is tested: %+v", m)
	}
	if m := checktest.Measure(t, w, tests.LapPlanned, "surface"); m.Absent == "" {
		t.Errorf("a surface string has no lap: %+v", m)
	}
	w = changed(t, `"kind":"liner_lap"`, `"kind":"casing"`)
	if m := checktest.Measure(t, w, tests.LapPlanned, "liner"); !m.Result.Known || m.Result.Value.Truth {
		t.Errorf("no lap test: %+v", m)
	}
}

func TestOverWeakest(t *testing.T) {
	w := changed(t)
	if m := is(t, w, tests.OverWeakest, "casing", 1500.0/3000, 1e-9); m.Note != "weakest: head" {
		t.Errorf("note %q, want the head", m.Note)
	}
	is(t, w, tests.OverWeakest, "lap", 2800.0/3500, 1e-9)
	is(t, w, tests.OverWeakest, "bag", 1, 1e-9) // a plug keeps it off the head
	is(t, changed(t, `"rating":3000`, `"rating":1500`), tests.OverWeakest, "casing", 1, 1e-9)
	is(t, changed(t, `"rating":3000`, `"rating":1000`), tests.OverWeakest, "casing", 1.5, 1e-9)
	if m := checktest.Measure(t, w, tests.OverWeakest, "shoe"); m.Absent == "" {
		t.Errorf("a shoe test tests no equipment: %+v", m)
	}
	lacks(t, changed(t, `"pressure":1500,`, ``), tests.OverWeakest, "casing", "pressure of casing")
	// The liner's test reaches the stack it was run through, on the surface string.
	is(t, changed(t, `"rating_burst":3500`, `"rating_burst":9000`, `"kind":"liner_lap"`, `"kind":"casing"`), tests.OverWeakest, "lap", 2800.0/5000, 1e-9)
	lacks(t, changed(t, `,"rating_burst":3500`, ``, `"name":"stack","on":"surface","rating":5000,`, `"name":"stack","on":"surface",`), tests.OverWeakest, "lap", "ratings of what lap reaches")
}

func TestInternalYieldLeast(t *testing.T) {
	w := changed(t)
	is(t, w, tests.InternalYieldLeast, "surface", 2730*psi, 0.5*psi)
	if m := is(t, w, tests.InternalYieldLeast, "liner", 4980*psi, 0.5*psi); !strings.Contains(m.Note, "26") {
		t.Errorf("note %q doesn't name the weaker segment", m.Note)
	}
	m := checktest.Measure(t, changed(t, `"weight":26,"grade":"J55"`, `"weight":26`), tests.InternalYieldLeast, "liner")
	if m.Result.Known || len(m.Result.Lacks) != 1 {
		t.Errorf("a segment without grade: %+v", m)
	}
}

func TestSegmentsAndDesign(t *testing.T) {
	w := changed(t)
	subject := func(str string) string {
		for _, s := range rules.Subjects(w.Plan, rules.Segment, w.ZonesOf) {
			if strings.HasPrefix(s.Name, str) {
				return s.Name
			}
		}
		return ""
	}
	is(t, w, tests.SegmentWall, subject("surface"), 0.9, 1e-12)
	lacks(t, w, tests.SegmentWall, subject("liner"), "wall measured")
	if m := checktest.Measure(t, w, tests.SegmentCondition, subject("liner")); m.Result.Value.Text != "new" {
		t.Errorf("silent pipe is new: %+v", m)
	}
	if m := checktest.Measure(t, w, tests.DesignStated, "well"); m.Result.Value.Truth {
		t.Errorf("no factors are stated: %+v", m)
	}
	w = changed(t, `"units":"field"`, `"units":"field","design":{"burst":1.1,"collapse":1.1,"tension":1.6}`)
	if m := checktest.Measure(t, w, tests.DesignStated, "well"); !m.Result.Value.Truth {
		t.Errorf("the factors are stated: %+v", m)
	}
}

// TestShoeUnderFracture: 14.0 ppg expected at the shoe, tests to 13.9, 14.0 and
// 14.1 ppg; a leak-off test has no such measure; without a fracture pressure
// it waits for one.
func TestShoeUnderFracture(t *testing.T) {
	const ppg = 119.826427316897
	pressures := `,"pressures":[{"depth":0,"fracture":14},{"depth":3000,"fracture":14}]`
	for emw, want := range map[string]float64{"13.9": 0.1, "14.0": 0, "14.1": -0.1} {
		w := checktest.Well(t, strings.Replace(base, `"pressure":300}]`, `"emw":`+emw+`}]`+pressures, 1))
		m := checktest.Measure(t, w, tests.ShoeUnderFracture, "shoe")
		if got := m.Result.Value.SI / ppg; !m.Result.Known || math.Abs(got-want) > 1e-9 {
			t.Errorf("%s ppg: %v", emw, m)
		}
	}
	w := checktest.Well(t, strings.Replace(base, `"pressure":300}]`, `"emw":15,"method":"leak_off"}]`+pressures, 1))
	if m := checktest.Measure(t, w, tests.ShoeUnderFracture, "shoe"); m.Absent == "" {
		t.Errorf("a leak-off test: %+v", m)
	}
	w = checktest.Well(t, strings.Replace(base, `"pressure":300}]`, `"emw":15}]`, 1))
	if m := checktest.Measure(t, w, tests.ShoeUnderFracture, "shoe"); m.Result.Known || len(m.Result.Lacks) != 1 {
		t.Errorf("no fracture pressure: %+v", m)
	}
}
