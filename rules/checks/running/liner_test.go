package running_test

import (
	"fmt"
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

// slanted puts the wells of lined into a hole of the stations given.
func slanted(stations, liner, more string) string {
	return strings.Replace(lined(liner, more), `,"vertical":true`, "", 1) + `,"survey":[` + stations + `]`
}

// The pipe a liner is run on rubs as the liner does. By statics of a body on a
// plane of 60 degrees: (liner + pipe)(cos 60 + f sin 60), both as in
// TestLinerLoads; by the basis, 20 % of half the weight; and none on pipe that
// hangs in a vertical hole down to the liner's top.
func TestPipeDrags(t *testing.T) {
	const liner, pipe = 2000 * (32 + 0.408*(6.094*6.094-49)), 22 * 5000 * (1 - 10/65.51)
	const slant = `{"md":0,"inclination":60,"azimuth":40},{"md":7000,"inclination":60,"azimuth":40}`
	const below = `{"md":0,"inclination":0,"azimuth":0},{"md":5000,"inclination":0,"azimuth":0},{"md":6000,"inclination":60,"azimuth":40},{"md":7000,"inclination":60,"azimuth":40}`
	const run = `,"running_string_weight":22,"running_string_rating":250000`
	up := 0.5 + 0.3*math.Sqrt(3)/2
	// Vertical extent of the liner under the bend of 1,000 ft to 60 degrees.
	extent := (1000/(math.Pi/3)*math.Sqrt(3)/2 + 500) / 2000
	for _, c := range []struct {
		stations, more string
		want           float64 // lbf, overpull left out
	}{
		{slant, `,"friction":0.3`, up * (liner + pipe)},
		{slant, "", 1.2 * 0.5 * (liner + pipe)},
		{slant, `,"drag":"10 %"`, 1.1 * 0.5 * (liner + pipe)},
		{below, "", 1.2*extent*liner + pipe},
	} {
		value(t, slanted(c.stations, run+c.more, ""), running.OnRunningString, "liner", 1, (c.want+50e3)/250e3, 3e-4)
		value(t, slanted(c.stations, run+c.more, `,"rig":{`+rig+`}`), running.OnElevator, "liner", 1, (c.want+50e3)/800e3, 2e-4)
	}
	value(t, slanted(slant, `,"friction":0.3`, `,"rig":{`+rig+`}`), running.OnElevator, "liner", 1, (up*liner+50e3)/800e3, 2e-4)
}

// By hand: vertical to 4,000 ft, 2 degrees per 100 ft to 30 degrees at 5,500 ft,
// radius 2,864.8 ft, 5,432.4 ft deep; 8,723.3 ft at a liner's top at 9,300 ft,
// 2,338.3 ft more at 12,000 ft. In 12.4 ppg 19.5 lb/ft pipe weighs 137,900 lbf,
// the 7 in 32 lb/ft liner 60,700 lbf; 20 % drag of both and 100,000 lbf overpull:
// 338.3 klbf.
func TestPipeDragsDeep(t *testing.T) {
	const pipe = 19.5 * 8723.3 * (1 - 12.4/65.51)
	const liner = 2338.3 * (32 + 0.0408*12.4*(6.094*6.094-49))
	var stations []string
	for inc := 0; inc <= 30; inc += 2 {
		stations = append(stations, fmt.Sprintf(`{"md":%d,"inclination":%d,"azimuth":125}`, 4000+50*inc, inc))
	}
	deep := strings.NewReplacer(`"top":5000,"shoe":7000`, `"top":9300,"shoe":12000`, "5500", "9600", `"to":7000`, `"to":12010`, `"mud_density":10`, `"mud_density":12.4`,
		`"overpull":50000`, `"overpull":100000`, "6920", "11916", `,"vertical":true`, "")
	const run = `,"running_string_weight":19.5,"running_string_rating":345000`
	text := deep.Replace(lined(run, "")) + `,"survey":[{"md":0,"inclination":0,"azimuth":0},` + strings.Join(stations, ",") + `,{"md":12010,"inclination":30,"azimuth":125}]`
	value(t, text, running.OnRunningString, "liner", 1, (1.2*(liner+pipe)+100e3)/345e3, 3e-4)
	value(t, text, running.OnRunningString, "liner", 1, 0.981, 6e-4)
	// On a plane of 60 degrees with a friction factor, cut from 9,300 ft to the rotary.
	plane := deep.Replace(lined(run+`,"friction":0.3`, "")) + `,"survey":[{"md":0,"inclination":60,"azimuth":0},{"md":12010,"inclination":60,"azimuth":0}]`
	want := (0.5+0.3*math.Sqrt(3)/2)*(19.5*9300*(1-12.4/65.51)+2700*liner/2338.3) + 100e3
	value(t, plane, running.OnRunningString, "liner", 1, want/345e3, 3e-4)
}

// By hand: 900 psi on a bore of 6.094 in, 29.167 in2, is 26,250 lbf.
func TestBumpOnHanger(t *testing.T) {
	const hanger = `,"accessories":[{"name":"hanger","kind":"hanger","depth":5000,"rating_tension":100000}]`
	m := checktest.Measure(t, checktest.Well(t, lined(hanger+`,"bump_pressure":900`, "")), running.OnHanger, "liner")
	if want := "the bump isn't counted: it adds 26,250 lbf where the hanger is set before it"; m.Note != want {
		t.Errorf("got %q, want %q", m.Note, want)
	}
	for _, text := range []string{lined(hanger, ""), strings.Replace(lined(hanger+`,"bump_pressure":900`, ""), `"kind":"primary"`, `"kind":"squeeze"`, 1)} {
		if m := checktest.Measure(t, checktest.Well(t, text), running.OnHanger, "liner"); m.Note != "" {
			t.Errorf("no pressure or no job: got %q", m.Note)
		}
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
