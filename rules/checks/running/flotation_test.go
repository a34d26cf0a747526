package running_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/running"
)

// Weight of 9-5/8 in 47 lb/ft pipe in 10 ppg mud, lb/ft by the handbook's
// 0.0408: full 47 + 0.408 (8.681^2 - 9.625^2), empty 47 - 0.408 x 9.625^2.
const (
	full  = 47 + 0.408*(8.681*8.681-9.625*9.625)
	empty = 47 - 0.408*9.625*9.625
)

func TestSlackOff(t *testing.T) {
	for _, c := range []struct {
		more string
		want float64 // lbf
	}{
		{"", 1e4 * full},
		{`,"floated":2000`, 8000*full + 2000*empty},
		{`,"floated":20000`, 1e4 * empty}, // no longer than the string
		{`,"drag":"30 %"`, 0.7e4 * full},
	} {
		m := checktest.Measure(t, checktest.Well(t, one(rig, "", c.more)), running.SlackOff, "casing")
		if got := m.Result.Value.SI / units.Lbf; !m.Result.Known || math.Abs(got-c.want) > 3e-4*1e4*full {
			t.Errorf("%s: got %v %v, want %v lbf", c.more, got, m.Result.Lacks, c.want)
		}
		steps(t, m)
	}
	// 13-3/8 in 54.5 lb/ft pipe, empty in 18 ppg mud, floats.
	light := strings.NewReplacer("9.625", "13.375", `"weight":47`, `"weight":54.5`, "LTC", "BTC", `"mud_density":10`, `"mud_density":18`).Replace(one(rig, "", `,"floated":10000`))
	m := checktest.Measure(t, checktest.Well(t, light), running.SlackOff, "casing")
	want := 1e4 * (54.5 - 0.0408*18*13.375*13.375)
	if got := m.Result.Value.SI / units.Lbf; math.Abs(got-want) > 1e-3*math.Abs(want) {
		t.Errorf("floating: got %v, want %v lbf", got, want)
	}
	if m := checktest.Measure(t, checktest.Well(t, one(rig, "", `,"set_by":"jetted"`)), running.SlackOff, "casing"); m.Absent == "" {
		t.Error("a jetted string isn't run")
	}
}

// inclined puts the string of one into a hole of the stations given.
func inclined(stations, more string) string {
	text := strings.Replace(one(rig, "", more), `,"vertical":true`, "", 1)
	return text + `,"survey":[` + stations + `]`
}

// A part of the weight never stops a string, so that a deviated hole asks for the
// friction factor, whatever drag is stated; but 13-3/8 in 54.5 lb/ft pipe, empty
// in 18 ppg mud, floats with nothing rubbing: half of its length is vertical
// extent at 60 degrees.
func TestSlackOffDeviated(t *testing.T) {
	const slant = `{"md":0,"inclination":60,"azimuth":40},{"md":10000,"inclination":60,"azimuth":40}`
	for _, more := range []string{"", `,"drag":"30 %"`} {
		m := checktest.Measure(t, checktest.Well(t, inclined(slant, more)), running.SlackOff, "casing")
		if got := lacks(m); got != "the friction factor of running casing" {
			t.Errorf("%s: got %q, %v", more, got, m.Result.Value.SI)
		}
	}
	light := strings.NewReplacer("9.625", "13.375", `"weight":47`, `"weight":54.5`, "LTC", "BTC", `"mud_density":10`, `"mud_density":18`).Replace(inclined(slant, `,"floated":10000`))
	m := checktest.Measure(t, checktest.Well(t, light), running.SlackOff, "casing")
	want := 0.5e4 * (54.5 - 0.0408*18*13.375*13.375)
	if got := m.Result.Value.SI / units.Lbf; !m.Result.Known || math.Abs(got-want) > 1e-3*math.Abs(want) {
		t.Errorf("floating: got %v %v, want %v lbf", got, m.Result.Lacks, want)
	}
}

// A straight hole of 60 degrees: the load is w L (cos 60 - f sin 60) going in
// and w L (cos 60 + f sin 60) coming out, by statics of a body on a plane.
func TestFrictionStraight(t *testing.T) {
	const f = 0.3
	w := checktest.Well(t, inclined(`{"md":0,"inclination":60,"azimuth":40},{"md":5000,"inclination":60,"azimuth":40},{"md":10000,"inclination":60,"azimuth":40}`, `,"friction":0.3`))
	whole := 1e4 * full
	m := checktest.Measure(t, w, running.SlackOff, "casing")
	want := whole * (0.5 - f*math.Sqrt(3)/2)
	if got := m.Result.Value.SI / units.Lbf; !m.Result.Known || math.Abs(got-want) > 1e-3*want {
		t.Errorf("going in: got %v %v, want %v lbf", got, m.Result.Lacks, want)
	}
	m = checktest.Measure(t, w, running.OnElevator, "casing")
	want = (whole*(0.5+f*math.Sqrt(3)/2) + 100e3) / 8e5
	if got := m.Result.Value.SI; !m.Result.Known || math.Abs(got-want) > 1e-3*want {
		t.Errorf("coming out: got %v %v, want %v", got, m.Result.Lacks, want)
	}
}

// A string in an arc from 30 to 90 degrees lies on the low side all along. With
// x the angle above the bottom, in units of w R: T' = sin x - f cos x + f T,
// T(0) = 0, so that T = a sin x + b (cos x - e^(f x)), a = -2 f/(1 + f^2),
// b = -(1 - f^2)/(1 + f^2).
func TestFrictionArc(t *testing.T) {
	const f = 0.3
	var stations []string
	for inc := 30; inc <= 90; inc += 5 {
		stations = append(stations, fmt.Sprintf(`{"md":%v,"inclination":%d,"azimuth":0}`, 1e4*float64(inc-30)/60, inc))
	}
	w := checktest.Well(t, inclined(strings.Join(stations, ","), `,"friction":0.3`))
	x := math.Pi / 3
	a, b := -2*f/(1+f*f), -(1-f*f)/(1+f*f)
	want := full * 1e4 / x * (a*math.Sin(x) + b*(math.Cos(x)-math.Exp(f*x)))
	m := checktest.Measure(t, w, running.SlackOff, "casing")
	if got := m.Result.Value.SI / units.Lbf; !m.Result.Known || math.Abs(got-want) > 1e-3*full*1e4 {
		t.Errorf("got %v %v, want %v lbf", got, m.Result.Lacks, want)
	}
}

// 10 ppg is 10/19.25 psi/ft: 4,155.8 psi on a collar at 8,000 ft, 5,194.8 psi at
// the shoe.
func TestFlotation(t *testing.T) {
	text := func(collar, float string) string {
		return one(rig, "", `,"floated":2000,"accessories":[{"name":"collar","kind":"flotation_collar","depth":8000`+collar+`},{"name":"shoe","kind":"float_shoe","depth":10000`+float+`}]`)
	}
	for _, c := range []struct {
		collar, float string
		want          float64
		gap           string
	}{
		{`,"rating_differential":5000`, `,"rating_differential":6000`, 5194.8 / 6000, ""},
		{`,"rating_differential":4000`, `,"rating_differential":6000`, 4155.8 / 4000, ""},
		{``, `,"rating_differential":6000`, 5194.8 / 6000, "the differential rating of the flotation collar of casing"},
	} {
		m := checktest.Measure(t, checktest.Well(t, text(c.collar, c.float)), running.Floated, "casing")
		if got := m.Result.Value.SI; !m.Result.Known || math.Abs(got-c.want) > 1e-4 {
			t.Errorf("%+v: got %v %v", c, got, m.Result.Lacks)
		}
		if (c.gap == "") != (len(m.Gaps) == 0) || c.gap != "" && m.Gaps[0].Input != c.gap {
			t.Errorf("%+v: gaps %v", c, m.Gaps)
		}
		steps(t, m)
	}
	if got := lacks(checktest.Measure(t, checktest.Well(t, text("", "")), running.Floated, "casing")); !strings.Contains(got, "; the differential rating of the float shoe or collar of casing") {
		t.Errorf("no rating: got %q", got)
	}
	if m := checktest.Measure(t, checktest.Well(t, one(rig, "", "")), running.Floated, "casing"); m.Absent == "" {
		t.Error("nothing is floated")
	}
}
