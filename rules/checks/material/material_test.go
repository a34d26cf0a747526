package material_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/material"
)

const psi = 6894.757293168361 // Pa, exact: 0.45359237 kg * 9.80665 m/s2 / (0.0254 m)2

// frame is a vertical gas well; head goes into the well, pipes are the
// production string's segments, more goes into the plan. The ground warms by
// 2 degF in 100 ft from 75 degF: 150 degF at 3,750 ft, 175 at 5,000, 225 at
// 7,500.
func frame(head, pipes, more string) string {
	return `"units":"field","well":{"name":"Test 7","vertical":true,"class":"development"` + head + `},
"sections":[
 {"name":"12 hole","string":"S","bit":12.25,"from":0,"to":2000,"mud_density":9.0,"pressure_control":"diverter"},
 {"name":"8 hole","string":"P","bit":8.75,"from":2000,"to":9000,"mud_density":10.0,"pressure_control":"bop_surface"}],
"strings":[
 {"name":"S","role":"surface","shoe":2000,"segments":[{"od":9.625,"weight":36,"grade":"J55","connection":"STC"}]},
 {"name":"P","role":"production","shoe":9000,"segments":[` + pipes + `]}],
"temperatures":[{"depth":0,"static":75},{"depth":10000,"static":275}],
"pressures":[{"depth":0,"pore":8.6,"fracture":14},{"depth":9000,"pore":9.4,"fracture":15}]` + more
}

const gasWell = `,"purpose":"gas","reservoir_pressure":5000`

// pipe is one segment of 7 in 26 lb/ft.
func pipe(grade, more string) string {
	return `{"od":7,"weight":26,"grade":"` + grade + `","connection":"LTC"` + more + `}`
}

func plain(grade string) string { return "P / 7 26 " + grade + " LTC" }

func value(t *testing.T, m rules.Measure) float64 {
	t.Helper()
	if m.Err != nil || m.Absent != "" || !m.Result.Known {
		t.Fatalf("no value: %+v", m)
	}
	return m.Result.Value.SI
}

// says is a measure in a word: true, false, absent, missing.
func says(m rules.Measure) string {
	switch {
	case m.Err != nil:
		return "error: " + m.Err.Error()
	case m.Absent != "":
		return "absent"
	case !m.Result.Known:
		return "missing"
	}
	return fmt.Sprint(m.Result.Value.Truth)
}

func lacks(m rules.Measure, input string) bool {
	n := 0
	for _, l := range m.Result.Lacks {
		if strings.Contains(l.Input, input) {
			n++
		}
	}
	return n == 1
}

// TestH2SInProduction: mole fraction times absolute reservoir pressure. By
// hand: 5,000 psi and an atmosphere of 101,325 Pa are 34,575,111.5 Pa, so
// 8 ppm is 276.60 Pa and 9 ppm is 311.18 Pa, on both sides of 0.3 kPa.
func TestH2SInProduction(t *testing.T) {
	for ppm, want := range map[int]float64{8: 276.600892, 9: 311.1760035, 1000: 34575.1115} {
		w := checktest.Well(t, frame(gasWell+fmt.Sprintf(`,"h2s":%d`, ppm), pipe("L80", ""), ""))
		m := checktest.Measure(t, w, material.H2S, plain("L80"))
		if got := value(t, m); math.Abs(got-want) > 1e-6*want {
			t.Errorf("%d ppm: %.9g Pa, want %.9g", ppm, got, want)
		}
		if len(m.Working) == 0 || math.Abs(m.Working[0].Result.SI-want) > 1e-6*want || m.Refs[0] == 0 || m.Note == "" {
			t.Errorf("%d ppm: working %v refs %v note %q", ppm, m.Working, m.Refs, m.Note)
		}
	}
}

// TestH2SWhileDrilling: the surface string sees gas of the hole below, held by
// its shoe. By hand, gas of 0.1 psi/ft: 9.4 ppg at 9,000 ft is 4,394.8 psi and
// brings 3,694.8 to the shoe at 2,000 ft; the shoe holds 14.2222 + 0.3 ppg,
// 14.5222 * 2,000 * 12 / 231 = 1,508.80 psi.
func TestH2SWhileDrilling(t *testing.T) {
	w := checktest.WellWith(t, frame(gasWell+`,"h2s":100`, pipe("L80", ""), ""), func(a *well.Assumptions) { a.GasColumn = "gradient" })
	got := value(t, checktest.Measure(t, w, material.H2S, "S / 9-5/8 36 J55 STC"))
	holds := (14.0 + 2000.0/9000 + 0.3) * 2000 * 12 / 231
	if want := 1e-4 * (holds*psi + 101325); math.Abs(got-want) > 1e-4*want {
		t.Errorf("%.8g Pa, want %.8g", got, want)
	}
}

// TestH2SMissingAndNone: what isn't stated is missing only where gas can come.
func TestH2SMissingAndNone(t *testing.T) {
	at := func(plan string) rules.Measure {
		return checktest.Measure(t, checktest.Well(t, plan), material.H2S, plain("L80"))
	}
	if m := at(frame(gasWell, pipe("L80", ""), "")); !lacks(m, "H2S content") {
		t.Errorf("content not stated: %+v", m)
	}
	if m := at(frame(gasWell+`,"h2s":0`, pipe("L80", ""), "")); says(m) != "absent" {
		t.Errorf("none stated: %+v", m)
	}
	if m := at(frame(`,"purpose":"water"`, pipe("L80", ""), "")); says(m) != "absent" {
		t.Errorf("a water well's last string: %+v", m)
	}
	none := strings.Replace(frame(`,"purpose":"gas","h2s":10`, pipe("L80", ""), ""), `"pore":8.6,`, "", 1)
	none = strings.Replace(none, `"pore":9.4,`, "", 1)
	if m := at(none); !lacks(m, "pore pressure") {
		t.Errorf("no pore and no reservoir pressure: %+v", m)
	}
}

// TestSourFit goes through the grades of ISO 15156-2 table A.3 (from memory):
// listed at any temperature, or from 150, 175 or 225 degF on; just above, at and
// just below that.
func TestSourFit(t *testing.T) {
	for _, grade := range []string{"H40", "J55", "K55", "M65", "L80", "L80-1", "C90", "T95"} {
		if m := fit(t, 0, grade, ""); says(m) != "true" {
			t.Errorf("%s from surface: %s", grade, says(m))
		}
	}
	for grade, depth := range map[string]int{"N80Q": 3750, "C95": 3750, "N80": 5000, "N80-1": 5000, "P110": 5000, "Q125": 7500} {
		for off, want := range map[int]string{-10: "false", 0: "true", 10: "true"} {
			if m := fit(t, depth+off, grade, ""); says(m) != want {
				t.Errorf("%s from %d ft: %s, want %s (%s)", grade, depth+off, says(m), want, m.Note)
			}
		}
	}
	for _, grade := range []string{"R95", "C110", "C75", "P105", "L80-9Cr", "XQ-125 HC"} {
		if m := fit(t, 0, grade, ""); !lacks(m, "the sour qualification of "+grade) {
			t.Errorf("%s: %+v", grade, m)
		}
	}
	if m := fit(t, 0, "L80-13Cr", ""); says(m) != "absent" {
		t.Errorf("L80-13Cr: %s", says(m))
	}
}

// fit measures the pipe of a grade from a depth to the shoe.
func fit(t *testing.T, from int, grade, more string) rules.Measure {
	t.Helper()
	pipes := pipe(grade, more)
	if from > 0 {
		pipes = pipe("J55", fmt.Sprintf(`,"from":0,"to":%d`, from)) + "," + pipe(grade, fmt.Sprintf(`,"from":%d,"to":9000`, from)+more)
	}
	return checktest.Measure(t, checktest.Well(t, frame(gasWell, pipes, "")), material.SourFit, plain(grade))
}

// TestSourFitOfCouplings: the couplings' grade counts too.
func TestSourFitOfCouplings(t *testing.T) {
	if m := fit(t, 0, "L80", `,"coupling_grade":"P110"`); says(m) != "false" || !strings.Contains(m.Note, "L80 at any temperature") || !strings.Contains(m.Note, "P110 from") {
		t.Errorf("L80 with P110 couplings: %s, %s", says(m), m.Note)
	}
	if m := fit(t, 0, "L80", `,"coupling_grade":"T95"`); says(m) != "true" {
		t.Errorf("L80 with T95 couplings: %s", says(m))
	}
	if m := fit(t, 0, "L80", `,"coupling_grade":"QX-90"`); !lacks(m, "QX-90, the couplings of P") {
		t.Errorf("proprietary couplings: %+v", m)
	}
}

// TestSourFitMetric: a metric plan is read by the standard's 80 degC, which
// 40 degC per km from 20 degC reach at 1,500 m.
func TestSourFitMetric(t *testing.T) {
	for from, want := range map[int]string{1499: "false", 1500: "true"} {
		w := checktest.Well(t, fmt.Sprintf(`"units":"metric","well":{"name":"M","vertical":true},
"strings":[{"name":"P","role":"production","shoe":2500,"segments":[
 {"od":"7 in","weight":"26 lb/ft","grade":"J55","connection":"LTC","from":0,"to":%d},
 {"od":"7 in","weight":"26 lb/ft","grade":"P110","connection":"LTC","from":%d,"to":2500}]}],
"temperatures":[{"depth":0,"static":20},{"depth":3000,"static":140}]`, from, from))
		if m := checktest.Measure(t, w, material.SourFit, plain("P110")); says(m) != want {
			t.Errorf("from %d m: %s, want %s (%s)", from, says(m), want, m.Note)
		}
	}
}

// TestAssumedTemperatureIsSaid: without a temperature table the note says so.
func TestAssumedTemperatureIsSaid(t *testing.T) {
	plan := frame(gasWell, pipe("P110", ""), "")
	plan = strings.Replace(plan, `"temperatures":[{"depth":0,"static":75},{"depth":10000,"static":275}],`, "", 1)
	m := checktest.Measure(t, checktest.Well(t, plan), material.SourFit, plain("P110"))
	if says(m) != "false" || !strings.Contains(m.Note, "assumed") {
		t.Errorf("%s, %s", says(m), m.Note)
	}
}

// TestCO2: 3 % of 5,014.696 psi absolute is 150.44 psi.
func TestCO2(t *testing.T) {
	w := checktest.Well(t, frame(gasWell+`,"co2":"3 %"`, pipe("L80", ""), ""))
	m := checktest.Measure(t, w, material.CO2, plain("L80"))
	if got, want := value(t, m)/psi, 150.4409; math.Abs(got-want) > 1e-4 {
		t.Errorf("%.6f psi, want %.6f", got, want)
	}
	m = checktest.Measure(t, checktest.Well(t, frame(gasWell, pipe("L80", ""), "")), material.CO2, plain("L80"))
	if !lacks(m, "CO2 content") {
		t.Errorf("content not stated: %+v", m)
	}
}

// TestGrades: what each grade is, by name.
func TestGrades(t *testing.T) {
	for _, c := range []struct{ grade, carbon, historic, name string }{
		{"L80", "true", "false", "L80"}, {"L80-13Cr", "false", "false", "L80-13Cr"}, {"L-80 9Cr", "false", "false", "L80-9Cr"},
		{"C-75", "true", "true", "C75"}, {"C95", "true", "true", "C95"}, {"P105", "true", "true", "P105"}, {"P110", "true", "false", "P110"},
		{"QX-90", "absent", "absent", "QX-90"},
	} {
		w := checktest.Well(t, frame(gasWell, pipe(c.grade, ""), ""))
		if got := says(checktest.Measure(t, w, material.Carbon, plain(c.grade))); got != c.carbon {
			t.Errorf("%s carbon: %s", c.grade, got)
		}
		if got := says(checktest.Measure(t, w, material.Historic, plain(c.grade))); got != c.historic {
			t.Errorf("%s historic: %s", c.grade, got)
		}
		if got := checktest.Measure(t, w, material.Grade, plain(c.grade)).Result.Value.Text; got != c.name {
			t.Errorf("%s is called %q", c.grade, got)
		}
	}
	w := checktest.Well(t, frame(gasWell, `{"od":7,"weight":26}`, ""))
	for _, c := range []*rules.Check{material.Carbon, material.Historic, material.Grade, material.SourFit} {
		if m := checktest.Measure(t, w, c, "P / 7 26"); !lacks(m, "the grade of P") {
			t.Errorf("%s without a grade: %+v", c.Name, m)
		}
	}
}

// TestThreads: API threads, and what the standard makes (API Spec 5CT, from
// memory): no long round thread from 10-3/4 to 18-5/8 in, H40 short only.
func TestThreads(t *testing.T) {
	for _, c := range []struct{ od, grade, conn, api, made string }{
		{"9.625", "L80", "LTC", "true", "true"}, {"10.75", "L80", "LTC", "true", "false"}, {"13.375", "L80", "LTC", "true", "false"},
		{"18.625", "J55", "LTC", "true", "false"}, {"20", "J55", "LTC", "true", "true"}, {"13.375", "L80", "BTC", "true", "true"},
		{"13.375", "H40", "STC", "true", "true"}, {"7", "H40", "LTC", "true", "false"}, {"7", "H40", "BTC", "true", "false"},
		{"7", "L80", "Sealwell 3", "false", "absent"}, {"7", "QX-90", "LTC", "true", "absent"}, {"9.9", "L80", "LTC", "true", "absent"},
		{"7", "L80", "", "missing", "missing"},
	} {
		seg := fmt.Sprintf(`{"od":%s,"wall":0.4,"grade":"%s"`, c.od, c.grade)
		if c.conn != "" {
			seg += `,"connection":"` + c.conn + `"`
		}
		w := checktest.Well(t, frame(gasWell, seg+"}", ""))
		name := "P / " + w.Plan.Strings[1].Segments[0].Label()
		if got := says(checktest.Measure(t, w, material.APIThread, name)); got != c.api {
			t.Errorf("%v API thread: %s", c, got)
		}
		if m := checktest.Measure(t, w, material.ThreadMade, name); says(m) != c.made {
			t.Errorf("%v made: %s %s%s", c, says(m), m.Note, m.Absent)
		}
	}
}

// TestGasInProduction: which strings face gas while the well produces.
func TestGasInProduction(t *testing.T) {
	zone := func(contents string) string {
		return `,"formations":[{"name":"Brant sand","top":8000,"contents":"` + contents + `"}]`
	}
	for _, c := range []struct{ head, more, str, want string }{
		{`,"purpose":"gas"`, "", "P", "true"}, {`,"purpose":"gas"`, "", "S", "false"}, {`,"purpose":"storage"`, "", "P", "true"},
		{`,"purpose":"oil"`, zone("oil"), "P", "false"}, {`,"purpose":"oil"`, zone("oil_and_gas"), "P", "true"},
		{`,"purpose":"oil"`, `,"completion":{"gas_lift_pressure":1200}`, "P", "true"},
		{`,"purpose":"disposal"`, zone("gas"), "P", "false"}, {"", "", "P", "missing"}, {"", "", "S", "false"},
	} {
		w := checktest.Well(t, frame(c.head, pipe("L80", ""), c.more))
		if m := checktest.Measure(t, w, material.GasInProduction, c.str); says(m) != c.want {
			t.Errorf("%v: %s (%s)", c, says(m), m.Note)
		}
	}
}
