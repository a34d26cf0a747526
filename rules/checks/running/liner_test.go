package running_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/running"
)

// lined is a 7 in 32 lb/ft liner from 5,000 to 7,000 ft inside 9-5/8 in casing
// to 5,500 ft, in an 8-1/2 in hole and 10 ppg mud. Cement of 16 ppg to 6,000 ft:
// (8.5^2 - 7^2)/1029.414 = 0.022586 bbl/ft over 1,000 ft, and 80 ft of shoe track
// of 6.094^2/1029.414 = 0.036076 bbl/ft, 25.472 bbl.
func lined(liner, more string) string {
	return `"units":"field","well":{"name":"D","vertical":true},
	"sections":[{"name":"12.25","bit":12.25,"to":5500,"string":"casing","mud_density":9.5},{"name":"8.5","bit":8.5,"to":7000,"string":"liner","mud_density":10,"hole_basis":"bit"}],
	"strings":[{"name":"casing","role":"intermediate","section":"12.25","top":0,"shoe":5500,"segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC"}]},
	{"name":"liner","role":"drilling_liner","section":"8.5","top":5000,"shoe":7000,"hung_in":"casing","overpull":50000,"float_collar":6920,"running_string_id":"4.276 in",
	 "segments":[{"od":7,"weight":32,"grade":"L80","connection":"BTC"}],
	 "stages":[{"name":"job","kind":"primary","excess":"0 %","volume_basis":"bit","top_plug":true,"fluids":[{"name":"slurry","kind":"slurry","density":16,"volume":25.472}],"displacement_density":10}]` + liner + `}]` + more
}

func value(t *testing.T, text string, c *rules.Check, subject string, scale, want, within float64) {
	t.Helper()
	m := checktest.Measure(t, checktest.Well(t, text), c, subject)
	if got := m.Result.Value.SI / scale; !m.Result.Known || math.Abs(got-want) > within {
		t.Errorf("%s: got %v %v %q, want %v", c.Name, got, m.Result.Lacks, m.Absent, want)
	}
	steps(t, m)
}

// By hand: 32 + 0.408 (6.094^2 - 7^2) = 27.160 lb/ft, 54,320 lbf; 22 lb/ft of
// drill pipe over 5,000 ft by 1 - 10/65.51 = 0.84735, 93,209 lbf; overpull 50,000
// lbf: 197.5 klbf.
func TestLinerLoads(t *testing.T) {
	const liner, pipe = 2000 * (32 + 0.408*(6.094*6.094-49)), 22 * 5000 * (1 - 10/65.51)
	const hanger = `,"accessories":[{"name":"hanger","kind":"hanger","depth":5000,"rating_tension":100000}]`
	value(t, lined(`,"running_string_weight":22,"running_string_rating":250000`, ""), running.OnRunningString, "liner", 1, (liner+pipe+50e3)/250e3, 2e-4)
	value(t, lined(hanger, ""), running.OnHanger, "liner", 1, liner/100e3, 2e-4)
	for text, want := range map[string]float64{"5200": 200, "5000": 0, "4900": -100} {
		value(t, lined(`,"running_string_length":`+text, ""), running.RunningStringOver, "liner", units.Foot, want, 1e-6)
	}
	w := checktest.Well(t, lined("", ""))
	for c, want := range map[*rules.Check]string{
		running.OnRunningString: "the tension rating of the pipe liner is run on; the weight of the pipe liner is run on",
		running.OnHanger:        "the load rating of the hanger of liner",
	} {
		if got := lacks(checktest.Measure(t, w, c, "liner")); got != want {
			t.Errorf("%s: got %q, want %q", c.Name, got, want)
		}
		if m := checktest.Measure(t, w, c, "casing"); m.Absent == "" {
			t.Errorf("%s: casing isn't a liner", c.Name)
		}
	}
	if m := checktest.Measure(t, w, running.RunningStringOver, "liner"); m.Absent == "" {
		t.Error("no pipe is counted")
	}
}

// By hand: at the end 6 ppg more stands in 1,000 ft outside than in the 80 ft of
// shoe track, 6/19.25 x 920 = 286.8 psi at the head, and so across the liner's
// top, where 10 ppg stands on both sides.
func TestHangerSets(t *testing.T) {
	const sets = `,"accessories":[{"name":"hanger","kind":"hanger","depth":5000,"operating_pressure":1200}]`
	value(t, lined(sets, ""), running.HangerSets, "liner / job", units.Psi, 1200-6/19.25*920, 2)
	if m := checktest.Measure(t, checktest.Well(t, lined("", "")), running.HangerSets, "liner / job"); m.Absent == "" {
		t.Error("no setting pressure is stated")
	}
	short := strings.Replace(lined(sets, ""), `,"volume":25.472`, "", 1)
	if got := lacks(checktest.Measure(t, checktest.Well(t, short), running.HangerSets, "liner / job")); got == "" {
		t.Error("no volume, yet a pressure")
	}
}

// By hand: 1,500 psi on 9 ppg over 10 ppg at 5,000 ft, 1/19.25 x 5000 = 259.7 psi
// less: 1,240.3 psi.
func TestLapOnSeal(t *testing.T) {
	packer := func(rating string) string {
		return `,"accessories":[{"name":"packer","kind":"packer","depth":5000` + rating + `}]`
	}
	test := func(pressure string) string {
		return `,"tests":[{"name":"lap","kind":"liner_lap","string":"liner","fluid":9` + pressure + `}]`
	}
	value(t, lined(packer(`,"rating_differential":2000`), test(`,"pressure":1500`)), running.LapOnSeal, "liner", 1, (1500-5000/19.25)/2000, 1e-4)
	m := checktest.Measure(t, checktest.Well(t, lined(packer(`,"rating_differential":2000`), test(`,"pressure":200`))), running.LapOnSeal, "liner")
	if m.Unloaded == "" {
		t.Errorf("the mud below holds it: got %v", m.Result)
	}
	if got := lacks(checktest.Measure(t, checktest.Well(t, lined(packer(`,"rating_differential":2000`), test(""))), running.LapOnSeal, "liner")); got != "the lap test pressure of liner" {
		t.Errorf("no pressure: got %q", got)
	}
	if m := checktest.Measure(t, checktest.Well(t, lined(packer(""), test(`,"pressure":1500`))), running.LapOnSeal, "liner"); m.Absent == "" {
		t.Error("no packer states a rating")
	}
}

// The pipe a liner is run on hangs on the hook and pushes the liner in: liner
// 54,320 lbf and pipe 93,209 lbf as in TestLinerLoads.
func TestPipeOfALiner(t *testing.T) {
	const liner, pipe = 2000 * (32 + 0.408*(6.094*6.094-49)), 22 * 5000 * (1 - 10/65.51)
	const r = `,"rig":{` + rig + `}`
	value(t, lined(`,"running_string_weight":22`, r), running.OnHook, "liner", 1, (liner+pipe+50e3+40e3)/1e6, 1e-4)
	value(t, lined("", r), running.OnHook, "liner", 1, (liner+50e3+40e3)/1e6, 1e-4)
	value(t, lined(`,"running_string_weight":22`, ""), running.SlackOff, "liner", units.Lbf, liner+pipe, 50)
	value(t, lined("", ""), running.SlackOff, "liner", units.Lbf, liner, 20)
}
