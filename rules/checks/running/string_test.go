package running_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/placement"
	"spudgate/rules/checks/running"
)

func TestCrossovers(t *testing.T) {
	two := func(lower, more string) string {
		return strings.Replace(one(rig, `,"to":6000},{`+lower, more), `"segments":[{`, `"segments":[{"from":0,`, 1)
	}
	const crossover = `,"accessories":[{"name":"x","kind":"crossover","depth":%d}]`
	for _, c := range []struct {
		lower, more  string
		size, thread any
	}{
		{`"od":7,"weight":32,"grade":"L80","connection":"BTC"`, "", false, "it doesn't change along the string"},
		{`"od":7,"weight":32,"grade":"L80","connection":"BTC"`, fmt.Sprintf(crossover, 6000), true, "it doesn't change along the string"},
		{`"od":7,"weight":32,"grade":"L80","connection":"BTC"`, fmt.Sprintf(crossover, 6050), true, "it doesn't change along the string"},
		{`"od":7,"weight":32,"grade":"L80","connection":"BTC"`, fmt.Sprintf(crossover, 6051), false, "it doesn't change along the string"},
		{`"od":9.625,"weight":47,"grade":"L80","connection":"BTC"`, "", "it doesn't change along the string", false},
		{`"od":9.625,"weight":47,"grade":"L80","connection":"Curlew GT"`, fmt.Sprintf(crossover, 6000), "it doesn't change along the string", true},
		{`"od":9.625,"weight":47,"grade":"L80","connection":"STC"`, "", "it doesn't change along the string", "it doesn't change along the string"},
		{`"od":9.625,"weight":53.5,"grade":"P110","connection":"LTC"`, "", "it doesn't change along the string", "it doesn't change along the string"},
	} {
		w := checktest.Well(t, two(c.lower, c.more))
		for i, check := range []any{c.size, c.thread} {
			m := checktest.Measure(t, w, running.SizeCrossover, "casing")
			if i == 1 {
				m = checktest.Measure(t, w, running.ThreadCrossover, "casing")
			}
			var got any = m.Absent
			if m.Absent == "" && m.Result.Known {
				got = m.Result.Value.Truth
			}
			if got != check {
				t.Errorf("%s%s, %d: got %v %v, want %v", c.lower, c.more, i, got, m.Result.Lacks, check)
			}
		}
	}
	w := checktest.Well(t, two(`"od":9.625,"weight":47,"grade":"L80"`, ""))
	if got := lacks(checktest.Measure(t, w, running.ThreadCrossover, "casing")); got != "the connection of casing" {
		t.Errorf("no connection: got %q", got)
	}
}

func TestWear(t *testing.T) {
	text := func(hours, wear string) string {
		return `"units":"field","well":{"name":"D","vertical":true},
		"sections":[{"name":"12.25","bit":12.25,"to":5500,"string":"casing"},{"name":"8.5","bit":8.5,"to":7000,"string":"liner"` + hours + `}],
		"strings":[{"name":"casing","role":"intermediate","section":"12.25","top":0,"shoe":5500,"segments":[{"od":9.625,"weight":47` + wear + `}]},
		{"name":"liner","role":"production_liner","section":"8.5","top":5000,"shoe":7000,"segments":[{"od":7,"weight":32}]}]`
	}
	for _, c := range []struct{ hours, wear, want string }{
		{`,"rotating_hours":80`, "", "false"},
		{`,"rotating_hours":80`, `,"wear":"0 %"`, "false"},
		{`,"rotating_hours":80`, `,"wear":"5 %"`, "true"},
		{"", "", "no rotating hours in it are stated"},
		{`,"rotating_hours":0`, "", "no rotating hours in it are stated"},
	} {
		m := checktest.Measure(t, checktest.Well(t, text(c.hours, c.wear)), running.WearAllowed, "casing")
		got := m.Absent
		if got == "" {
			got = fmt.Sprint(m.Result.Value.Truth)
		}
		if got != c.want {
			t.Errorf("%+v: got %s", c, got)
		}
		if m := checktest.Measure(t, checktest.Well(t, text(c.hours, c.wear)), running.WearAllowed, "liner"); m.Absent == "" {
			t.Error("nothing turns in the liner")
		}
	}
}

// A string run at the speed allowed leaves next to nothing at the weakest rock;
// the surge itself is checked by hand beside placement.surge_spare.
func TestAllowedSpeed(t *testing.T) {
	text := func(fracture, more string) string {
		flow := strings.Replace(one(rig, "", `,"top_of_cement":5000`+more), `"mud_density":10`, `"mud_density":10,"mud_plastic_viscosity":20,"mud_yield_point":15`, 1)
		return flow + `,"pressures":[{"depth":0,"fracture":` + fracture + `},{"depth":10000,"fracture":` + fracture + `}]`
	}
	m := checktest.Measure(t, checktest.Well(t, text(`"11 ppg"`, "")), running.AllowedSpeed, "casing")
	if !m.Result.Known || m.Result.Value.SI <= 0 {
		t.Fatalf("got %v %v %q", m.Result.Value.SI, m.Result.Lacks, m.Absent)
	}
	spare := func(speed float64) float64 {
		w := checktest.Well(t, text(`"11 ppg"`, fmt.Sprintf(`,"peak_speed":"%.9f m/s"`, speed)))
		return checktest.Measure(t, w, placement.SurgeSpare, "casing").Result.Value.SI
	}
	if at, above := spare(m.Result.Value.SI), spare(m.Result.Value.SI+0.002); at < 0 || above >= 0 {
		t.Errorf("at %v m/s %v Pa are left, just above it %v", m.Result.Value.SI, at, above)
	}
	m = checktest.Measure(t, checktest.Well(t, strings.Replace(text(`"20 ppg"`, ""), `"bit":12.25`, `"bit":17.5`, 1)), running.AllowedSpeed, "casing")
	if m.Result.Value.SI != 5 || !strings.Contains(m.Note, "nothing breaks") {
		t.Errorf("strong rock: got %v m/s, %q", m.Result.Value.SI, m.Note)
	}
	w := checktest.Well(t, text(`"11 ppg"`, `,"running_speed":"60 ft/min"`))
	if got := checktest.Measure(t, w, running.Speed, "casing").Result.Value.SI * 60 / units.Foot; math.Abs(got-90) > 1e-9 {
		t.Errorf("an average of 60 ft/min: got %v at most, want 1.5 times as much", got)
	}
	for more, want := range map[string]string{`,"running_speed":"60 ft/min"`: "peak, 1.5 times the average planned", `,"peak_speed":"60 ft/min"`: "peak, as stated"} {
		if got := checktest.Measure(t, checktest.Well(t, text(`"11 ppg"`, more)), running.Speed, "casing").Note; got != want {
			t.Errorf("%s: got %q, want %q", more, got, want)
		}
	}
	bare := checktest.Well(t, one(rig, "", ""))
	for want, got := range map[string]string{
		"the running speed of casing":      lacks(checktest.Measure(t, bare, running.Speed, "casing")),
		"the rheology of the mud of 12.25": lacks(checktest.Measure(t, bare, running.AllowedSpeed, "casing")),
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	if m := checktest.Measure(t, checktest.Well(t, one(rig, "", `,"existing":true`)), running.AllowedSpeed, "casing"); m.Absent == "" {
		t.Error("a string in the well already isn't run")
	}
}

// The job of lined asks 286.8 psi of the head at most (TestHangerSets); a bump of
// 900 psi is more.
func TestLineTest(t *testing.T) {
	text := func(rig, bump string) string { return lined(bump, `,"rig":{`+rig+`}`) }
	value(t, text(`"line_test":1900`, `,"bump_pressure":900`), running.LineTest, "liner", units.Psi, 1000, 1e-6)
	value(t, text(`"line_test":1900`, ""), running.LineTest, "liner", units.Psi, 1900-6/19.25*920, 2)
	value(t, text(`"line_test":4000,"line_pressure":5000`, ""), running.LineTestOnRating, "well", 1, 0.8, 1e-12)
	w := checktest.Well(t, text(`"name":"r"`, ""))
	if got := lacks(checktest.Measure(t, w, running.LineTest, "liner")); got != "the test pressure of the cementing line" {
		t.Errorf("no test: got %q", got)
	}
	if m := checktest.Measure(t, w, running.LineTest, "casing"); m.Absent == "" {
		t.Error("no cement is pumped round the casing")
	}
	if m := checktest.Measure(t, w, running.LineTestOnRating, "well"); m.Absent == "" {
		t.Error("no test is stated")
	}
	w = checktest.Well(t, text(`"line_test":4000`, ""))
	if got := lacks(checktest.Measure(t, w, running.LineTestOnRating, "well")); got != "the rating of the cementing line" {
		t.Errorf("no rating: got %q", got)
	}
}

// Bores: 7 in 32 lb/ft 6.094 in, 4-1/2 in 13.5 lb/ft 3.920 in, 7 in 26 lb/ft 6.276
// in; drift of 7 in 32 lb/ft 5.969 in (API Spec 5CT).
func TestBores(t *testing.T) {
	lower := func(od, weight, stage string) string {
		return strings.Replace(strings.Replace(lined("", ""), `{"od":7,"weight":32,"grade":"L80","connection":"BTC"}`,
			`{"to":6500,"od":7,"weight":32,"grade":"L80","connection":"BTC"},{"od":`+od+`,"weight":`+weight+`,"grade":"L80","connection":"BTC"}`, 1),
			`"top_plug":true`, stage, 1)
	}
	value(t, lower("4.5", "13.5", `"top_plug":true`), running.BoreStep, "liner", 1, 6.094/3.920-1, 1e-3)
	value(t, lower("7", "26", `"top_plug":true`), running.BoreStep, "liner", 1, 6.276/6.094-1, 1e-3)
	value(t, lined("", ""), running.BoreStep, "liner", 1, 0, 1e-12)
	for _, text := range []string{lower("4.5", "13.5", `"top_plug":false,"bottom_plug":false`), one(rig, "", "")} {
		w := checktest.Well(t, text)
		name := w.Plan.Strings[len(w.Plan.Strings)-1].Name.V
		if m := checktest.Measure(t, w, running.BoreStep, name); m.Absent == "" {
			t.Errorf("%s: no plug goes down it", name)
		}
	}
	collar := func(bore string) string {
		return lined(`,"accessories":[{"name":"hanger","kind":"hanger","depth":5000,"bore":`+bore+`},{"name":"collar","kind":"float_collar","depth":6920}]`, "")
	}
	for text, want := range map[string]float64{"6.1": 6.1 / 5.969, "5.969": 1, "5.9": 5.9 / 5.969} {
		value(t, collar(text), running.AccessoryBore, "liner", 1, want, 1e-9)
	}
	if m := checktest.Measure(t, checktest.Well(t, lined("", "")), running.AccessoryBore, "liner"); m.Absent == "" {
		t.Error("no accessory states its bore")
	}
}
