package geometry_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/geometry"
)

const (
	inch = 0.0254
	foot = 0.3048
)

// nest is three strings of API sizes: 13-3/8 in 54.5 lb/ft (ID 12.615, coupling
// 14.375 in), 9-5/8 in 47 lb/ft (ID 8.681, coupling 10.625 in), 7 in 29 lb/ft
// (coupling 7.656 in); drift is ID less 5/32 in for both, which the tables round
// to 12.459 and 8.525 in. API Spec 5CT.
const nest = `"units":"field","well":{"name":"A","vertical":true},
 "sections":[{"name":"one","bit":17.5,"from":0,"to":2000},{"name":"two","bit":12.25,"from":2000,"to":9000},{"name":"three","bit":8.5,"from":9000,"to":12000}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":0,"shoe":2000,"segments":[{"from":0,"to":2000,"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}]},
  {"name":"intermediate","role":"intermediate","section":"two","top":0,"shoe":9000,"segments":[{"from":0,"to":9000,"od":9.625,"weight":47,"grade":"L80","connection":"BTC"}]},
  {"name":"liner","role":"production_liner","section":"three","hung_in":"intermediate","top":8800,"shoe":12000,"segments":[{"from":8800,"to":12000,"od":7,"weight":29,"grade":"P110","connection":"BTC"}]}]`

func changed(t *testing.T, pairs ...string) *well.Well {
	t.Helper()
	return checktest.Well(t, strings.NewReplacer(pairs...).Replace(nest))
}

func is(t *testing.T, w *well.Well, c *rules.Check, subject string, want float64) rules.Measure {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if !m.Result.Known || m.Absent != "" || m.Err != nil || math.Abs(m.Result.Value.SI-want) > 1e-6 {
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

func absent(t *testing.T, w *well.Well, c *rules.Check, subject, why string) {
	t.Helper()
	if m := checktest.Measure(t, w, c, subject); !strings.Contains(m.Absent, why) {
		t.Errorf("%s of %s: got %+v, want not applicable: %q", c.Name, subject, m, why)
	}
}

func TestClearance(t *testing.T) {
	w := changed(t)
	is(t, w, geometry.Clearance, "surface", (17.5-14.375)/2*inch)
	is(t, w, geometry.Clearance, "intermediate", (12.25-10.625)/2*inch)
	is(t, w, geometry.Clearance, "liner", 0.422*inch) // (8.5 - 7.656) / 2
	is(t, w, geometry.ClearanceCased, "intermediate", (12.615-10.625)/2*inch)
	absent(t, w, geometry.ClearanceCased, "surface", "passes no other string")
	// A reamed hole counts at its reamed size, a special-clearance coupling of
	// 7-3/8 in at its own: (9.5 - 7.375) / 2.
	w = changed(t, `"bit":8.5`, `"bit":8.5,"reamed":9.5`, `"grade":"P110"`, `"coupling":"special_clearance","grade":"P110"`)
	is(t, w, geometry.Clearance, "liner", (9.5-7.375)/2*inch)
	lacks(t, changed(t, `"bit":8.5,`, ``), geometry.Clearance, "liner", "bit size of three")
	lacks(t, changed(t, `"grade":"P110","connection":"BTC"`, `"grade":"P110","connection":"Ridge 9"`), geometry.Clearance, "liner", "connection OD")
	absent(t, changed(t, `"role":"surface","section":"one"`, `"role":"drive","set_by":"driven"`), geometry.Clearance, "surface", "driven")
}

func TestBitSpare(t *testing.T) {
	w := changed(t)
	absent(t, w, geometry.BitSpare, "one", "no string")
	is(t, w, geometry.BitSpare, "two", (12.615-5.0/32-12.25)*inch)
	is(t, w, geometry.BitSpare, "three", (8.681-5.0/32-8.5)*inch)
	// A drift ordered larger, a wear bushing, the head and the BOP count.
	w = changed(t, `"od":13.375`, `"drift":12.5,"od":13.375`)
	is(t, w, geometry.BitSpare, "two", 0.25*inch)
	w = changed(t, `"shoe":9000,`, `"shoe":9000,"accessories":[{"name":"wear bushing","kind":"wear_bushing","bore":8.4}],`)
	if m := is(t, w, geometry.BitSpare, "three", -0.1*inch); !strings.Contains(m.Note, "wear bushing") {
		t.Errorf("note %q doesn't name the wear bushing", m.Note)
	}
	w = changed(t, `"units":"field"`, `"units":"field","bops":[{"name":"stack","section":"two","bore":11}]`)
	is(t, w, geometry.BitSpare, "two", -1.25*inch)
	w = changed(t, `"units":"field"`, `"units":"field","wellhead":[{"name":"head","kind":"casing_head","string":"surface","bore":12}]`)
	is(t, w, geometry.BitSpare, "two", -0.25*inch)
	lacks(t, changed(t, `"bit":8.5,`, ``), geometry.BitSpare, "three", "bit size of three")
}

func TestPassSpare(t *testing.T) {
	w := changed(t)
	is(t, w, geometry.PassSpare, "intermediate", (12.615-5.0/32-10.625)*inch)
	is(t, w, geometry.PassSpare, "liner", (8.681-5.0/32-7.656)*inch)
	absent(t, w, geometry.PassSpare, "surface", "passes no other string")
	// A tie-back stabs into the liner top and doesn't pass the liner.
	tied := changed(t, `"strings":[`, `"strings":[{"name":"tie-back","role":"tie_back","top":0,"shoe":8805,"segments":[{"from":0,"to":8805,"od":7,"weight":29,"grade":"P110","connection":"BTC"}]},`)
	is(t, tied, geometry.PassSpare, "tie-back", (8.681-5.0/32-7.656)*inch)
	is(t, tied, geometry.ClearanceCased, "tie-back", (8.681-7.656)/2*inch)
	// Two sizes: the 10-3/4 in top ends above the 9-5/8 in liner and never passes
	// it; the 7 in below does.
	mixed := changed(t, `"role":"intermediate","section":"two","top":0,"shoe":9000,"segments":[{"from":0,`, `"role":"drilling_liner","section":"two","top":1900,"shoe":9000,"segments":[{"from":1900,`,
		`"role":"production_liner","section":"three","hung_in":"intermediate","top":8800,"shoe":12000,"segments":[{"from":8800,`, `"role":"production","section":"three","top":0,"shoe":12000,"segments":[{"from":0,"to":1800,"od":10.75,"weight":40.5,"grade":"J55","connection":"BTC"},{"from":1800,`)
	is(t, mixed, geometry.PassSpare, "liner", (12.615-5.0/32-11.75)*inch)
}

func TestSteps(t *testing.T) {
	w := changed(t)
	is(t, w, geometry.StringStep, "intermediate", (13.375-9.625)*inch)
	is(t, w, geometry.HoleStep, "three", (12.25-8.5)*inch)
	absent(t, w, geometry.StringStep, "surface", "first string")
	absent(t, w, geometry.HoleStep, "one", "no string")
	is(t, changed(t, `"bit":8.5`, `"bit":12.25`), geometry.HoleStep, "three", 0)
}

func TestLap(t *testing.T) {
	w := changed(t)
	is(t, w, geometry.Lap, "liner", 200*foot)
	absent(t, w, geometry.Lap, "intermediate", "not a liner")
	is(t, changed(t, `8800`, `9100`), geometry.Lap, "liner", -100*foot)
	lacks(t, changed(t, `"top":8800,`, ``, `{"from":8800,"to":12000,`, `{"to":12000,`), geometry.Lap, "liner", "top of liner")
	is(t, w, geometry.LengthMD, "liner", 3200*foot)
}

func TestHoleAndRole(t *testing.T) {
	w := changed(t)
	is(t, w, geometry.Hole, "surface", 17.5*inch)
	is(t, w, geometry.Bit, "one", 17.5*inch)
	if m := checktest.Measure(t, w, geometry.FirstOfRole, "intermediate"); !m.Result.Value.Truth {
		t.Errorf("the only intermediate is the first: %+v", m)
	}
	w = changed(t, `"role":"surface"`, `"role":"intermediate"`)
	if m := checktest.Measure(t, w, geometry.FirstOfRole, "intermediate"); !m.Result.Known || m.Result.Value.Truth {
		t.Errorf("the second intermediate isn't the first: %+v", m)
	}
}

// TestDogleg: 3 deg built over 100 ft is 3 deg/100ft.
func TestDogleg(t *testing.T) {
	w := changed(t, `"vertical":true`, `"vertical":false`, `"sections":`, `"survey":[{"md":0,"inclination":0,"azimuth":0},{"md":1000,"inclination":0,"azimuth":0},{"md":1100,"inclination":3,"azimuth":0},{"md":12000,"inclination":3,"azimuth":0}],"sections":`)
	is(t, w, geometry.Dogleg, "survey", 3*math.Pi/180/(100*foot))
	absent(t, changed(t), geometry.Dogleg, "survey", "vertical")
	lacks(t, changed(t, `"vertical":true`, `"vertical":false`, `"shoe":12000`, `"shoe":12000,"shoe_tvd":11000`), geometry.Dogleg, "survey", "survey")
}
