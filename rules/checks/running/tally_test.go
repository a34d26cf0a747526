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

// tallied is a 200 ft string with a tally as run, from the shoe up: shoe 2 ft,
// a joint of 40 ft, collar 1.5 ft, three joints of 120 ft, a pup joint of the
// length given.
func tallied(pup, more string) string {
	return `"units":"field","well":{"name":"D","vertical":true},
	"sections":[{"name":"12.25","bit":12.25,"to":200,"string":"casing","mud_density":10}],
	"strings":[{"name":"casing","role":"surface","section":"12.25","top":0,"shoe":200,"tally_order":"bottom_up",
	 "tally":[{"name":"float shoe","kind":"accessory","length":2},{"length":40,"centralizers":2},{"name":"Float Collar","kind":"accessory","length":1.5},
	  {"joints":3,"length":120,"centralizers":3},{"kind":"pup","length":` + pup + `}],
	 "segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC","joints":4}]` + more + `}]`
}

// By hand: 2 + 40 + 1.5 + 120 = 163.5 ft, so that a pup joint of 36.5 ft makes
// 200 ft. The shoe is at 200 ft: the joint's top at 158 ft, the collar's at
// 156.5 ft. Four joints, five centralizers.
func TestTally(t *testing.T) {
	const lands = `,"accessories":[{"name":"float collar","kind":"float_collar","depth":`
	for _, c := range []struct {
		check     *rules.Check
		pup, more string
		want      float64
	}{
		{running.TallyOff, "36.5", "", 0},
		{running.TallyOff, "40", "", 3.5},
		{running.TallyOff, "30", "", 6.5},
		{running.TallyOff, "40.5", `,"stick_up":4`, 0},
		{running.TallyLands, "36.5", lands + `157}]`, 0},
		{running.TallyLands, "36.5", lands + `161}]`, 3},
		{running.TallyLands, "36.5", lands + `150}]`, 6.5},
		{running.TallyLands, "36.5", `,"float_collar":160`, 2},
	} {
		m := checktest.Measure(t, checktest.Well(t, tallied(c.pup, c.more)), c.check, "casing")
		if got := m.Result.Value.SI / units.Foot; !m.Result.Known || math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s %s%s: got %v ft %v %v, want %v", c.check.Name, c.pup, c.more, got, m.Result.Lacks, m.Absent, c.want)
		}
		steps(t, m)
	}
	for _, c := range []struct {
		check *rules.Check
		more  string
		want  float64
	}{
		{running.TallyJoints, "", 0},
		{running.TallyCentralizers, `,"centralizers":[{"from":0,"to":200,"count":5}]`, 0},
		{running.TallyCentralizers, `,"centralizers":[{"from":0,"to":200,"count":8}]`, 3},
		{running.TallyCentralizers, `,"centralizers":[{"from":0,"to":200,"count":4}]`, -1},
	} {
		m := checktest.Measure(t, checktest.Well(t, tallied("36.5", c.more)), c.check, "casing")
		if got := m.Result.Value.SI; !m.Result.Known || got != c.want {
			t.Errorf("%s%s: got %v %v, want %v", c.check.Name, c.more, got, m.Result.Lacks, c.want)
		}
	}
}

// A stick-up is neither below nothing nor more than a joint: what is off stays
// off without it. A joint is 40 ft where no range is ordered, 48 ft of R3.
func TestStickUp(t *testing.T) {
	for _, c := range []struct {
		pup, more, segment string
		want               float64
		gap, note          string
	}{
		{"36.5", `,"stick_up":0`, "", 0, "", "the tally adds up to the string"},
		{"76.5", `,"stick_up":40`, "", 0, "", "the tally adds up to the string"},
		{"76.6", `,"stick_up":40`, "", 0.1, "", "the tally is longer than the string"},
		{"76.4", `,"stick_up":40`, "", 0.1, "", "the tally is shorter than the string"},
		{"77.5", `,"stick_up":41`, "", 41, "40 ft", "the tally is longer than the string; the stick-up stated isn't taken off"},
		{"77.5", `,"stick_up":41`, `,"range":"R3"`, 0, "", "the tally adds up to the string"},
		{"85.5", `,"stick_up":49`, `,"range":"R3"`, 49, "48 ft", "the tally is longer than the string; the stick-up stated isn't taken off"},
		{"5036.5", `,"stick_up":5000`, "", 5000, "40 ft", "the tally is longer than the string; the stick-up stated isn't taken off"},
		{"16.5", `,"stick_up":-20`, "", 20, "40 ft", "the tally is shorter than the string; the stick-up stated isn't taken off"},
		{"36.5", `,"stick_up":-0.5`, "", 0, "40 ft", "the tally adds up to the string; the stick-up stated isn't taken off"},
	} {
		text := strings.Replace(tallied(c.pup, c.more), `"joints":4`, `"joints":4`+c.segment, 1)
		m := checktest.Measure(t, checktest.Well(t, text), running.TallyOff, "casing")
		if got := m.Result.Value.SI / units.Foot; !m.Result.Known || math.Abs(got-c.want) > 1e-6 || m.Note != c.note {
			t.Errorf("%+v: got %v ft %v, %q", c, got, m.Result.Lacks, m.Note)
		}
		gap := ""
		if len(m.Gaps) > 0 {
			gap = m.Gaps[0].Input
		}
		if c.gap == "" && gap != "" || c.gap != "" && gap != "a stick-up of casing between nothing and one joint of "+c.gap {
			t.Errorf("%+v: gap %q", c, gap)
		}
		steps(t, m)
	}
}

// What is off by half a foot shows it: the collar's row ends at 158 ft.
func TestTallyLandsShown(t *testing.T) {
	m := checktest.Measure(t, checktest.Well(t, tallied("36.5", `,"float_collar":158.5`)), running.TallyLands, "casing")
	if want := "float collar: planned at 158.5 ft, the tally puts it from 156.5 ft to 158.0 ft"; m.Note != want {
		t.Errorf("got %q, want %q", m.Note, want)
	}
}

func TestTallyMissing(t *testing.T) {
	bare := checktest.Well(t, one("", "", ""))
	if got := lacks(checktest.Measure(t, bare, running.TallyOff, "casing")); got != "the tally of casing" {
		t.Errorf("no tally: got %q", got)
	}
	for _, c := range []*rules.Check{running.TallyJoints, running.TallyLands, running.TallyCentralizers} {
		if m := checktest.Measure(t, bare, c, "casing"); m.Absent == "" {
			t.Errorf("%s: only one check asks for the tally", c.Name)
		}
	}
	w := checktest.Well(t, tallied("36.5", `,"accessories":[{"name":"hanger","kind":"hanger","depth":0},{"name":"stage tool","kind":"stage_collar","depth":90},{"name":"float collar","kind":"float_collar","depth":157}]`))
	m := checktest.Measure(t, w, running.TallyLands, "casing")
	if !m.Result.Known || len(m.Gaps) != 1 || m.Gaps[0].Input != "stage tool in the tally of casing" {
		t.Errorf("a tool the tally doesn't name: got %v", m.Gaps)
	}
	for text, want := range map[string]string{
		`,"existing":true`:   "the string is in the well already",
		`,"set_by":"driven"`: "the string is driven, not run",
	} {
		if m := checktest.Measure(t, checktest.Well(t, one("", "", text)), running.TallyOff, "casing"); m.Absent != want {
			t.Errorf("%s: got %q, want %q", text, m.Absent, want)
		}
	}
}

// By hand: the pieces meet at 198, 158, 156.5 and 36.5 ft, and three joints in
// one row don't tell where theirs do.
func TestCouplings(t *testing.T) {
	w := checktest.Well(t, tallied("36.5", ""))
	if got, err := w.Couplings(0); err == nil || err.Error() != "missing: a tally of casing joint by joint" {
		t.Errorf("three joints in a row: got %v %v", got, err)
	}
	w = checktest.Well(t, `"units":"field","well":{"name":"D","vertical":true},
	"sections":[{"name":"12.25","bit":12.25,"to":100,"string":"casing","mud_density":10}],
	"strings":[{"name":"casing","role":"surface","section":"12.25","top":0,"shoe":100,
	 "tally":[{"length":38},{"length":41},{"length":21,"kind":"pup"}],"segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC"}]}]`)
	got, err := w.Couplings(0)
	if err != nil || len(got) != 2 || math.Abs(float64(got[0])/units.Foot-38) > 1e-9 || math.Abs(float64(got[1])/units.Foot-79) > 1e-9 {
		t.Errorf("got %v %v, want 38 and 79 ft", got, err)
	}
}

// The plan changes from 47 to 53.5 lb/ft at 6,000 ft. The tally, from the top
// down, changes where its first rows end.
func TestTallyPipe(t *testing.T) {
	text := func(upper, first, second string) string {
		return `"units":"field","well":{"name":"D","vertical":true},
		"sections":[{"name":"12.25","bit":12.25,"to":10000,"string":"casing","mud_density":10}],
		"strings":[{"name":"casing","role":"intermediate","section":"12.25","top":0,"shoe":10000,
		 "tally":[{"length":` + upper + first + `},{"length":40` + first + `},{"length":40` + second + `},{"joints":98,"length":3920` + second + `}],
		 "segments":[{"to":6000,"od":9.625,"weight":47,"grade":"L80","connection":"LTC"},{"od":9.625,"weight":53.5,"grade":"P110","connection":"LTC"}]}]`
	}
	const light, heavy = `,"weight":47,"grade":"L-80"`, `,"od":"9-5/8","weight":53.5,"grade":"P110"`
	for _, c := range []struct{ upper, first, second, want string }{
		{"6000", light, heavy, "true"},
		{"6000", `,"grade":"L80"`, `,"grade":"L80"`, "false"},
		{"6000", heavy, light, "false"},
		{"6000", ``, heavy, "true"},
		{"6000", `,"od":7`, heavy, "false"},
		{"6000", "", "", "the tally tells no size, weight or grade"},
	} {
		m := checktest.Measure(t, checktest.Well(t, text(c.upper, c.first, c.second)), running.TallyPipe, "casing")
		got := m.Absent
		if got == "" {
			got = fmt.Sprint(m.Result.Value.Truth)
		}
		if got != c.want {
			t.Errorf("%+v: got %s, %s", c, got, m.Note)
		}
	}
	single := strings.Replace(text("6000", light, heavy), `{"length":6000`+light, `{"length":6000,"od":7`, 1)
	for rows, text := range map[string]string{"(1 row)": single, "(2 rows)": text("6000", `,"od":7`, heavy)} {
		if m := checktest.Measure(t, checktest.Well(t, text), running.TallyPipe, "casing"); !strings.HasSuffix(m.Note, rows) {
			t.Errorf("got %q, want %s", m.Note, rows)
		}
	}
	if m := checktest.Measure(t, checktest.Well(t, one("", "", "")), running.TallyPipe, "casing"); m.Absent == "" {
		t.Error("no tally, yet pipe in it")
	}
}
