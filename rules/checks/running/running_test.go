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

// one is a 9-5/8 in 47 lb/ft string to 10,000 ft in 10 ppg mud, overpull
// 100,000 lbf, a block of 40,000 lbf.
func one(rig, segment, more string) string {
	return `"units":"field","well":{"name":"D","vertical":true},"rig":{` + rig + `},
	"sections":[{"name":"12.25","bit":12.25,"to":10000,"string":"casing","mud_density":10}],
	"strings":[{"name":"casing","role":"intermediate","section":"12.25","top":0,"shoe":10000,"overpull":100000` + more + `,
	 "segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC"` + segment + `}]}]`
}

const rig = `"hook_load":1000000,"derrick":1200000,"elevator":800000,"spider":900000,"block_weight":40000`

// By hand: 47 + 0.0408 x 10 (8.681^2 - 9.625^2) = 39.949 lb/ft; 399.5 klbf; the
// hook 399.5 + 40 + 100 = 539.5 klbf, below the block 499.5.
func TestLoads(t *testing.T) {
	const whole = 1e4 * (47 + 0.0408*10*(8.681*8.681-9.625*9.625))
	for _, c := range []struct {
		check *rules.Check
		more  string
		want  float64
	}{
		{running.OnHook, "", (whole + 140e3) / 1e6},
		{running.OnDerrick, "", (whole + 140e3) / 1.2e6},
		{running.OnElevator, "", (whole + 100e3) / 8e5},
		{running.OnSpider, "", (whole + 100e3) / 9e5},
		{running.OnHook, `,"drag":"10 %"`, (1.1*whole + 140e3) / 1e6},
	} {
		m := checktest.Measure(t, checktest.Well(t, one(rig, "", c.more)), c.check, "casing")
		if got := m.Result.Value.SI; !m.Result.Known || math.Abs(got-c.want) > 2e-4*c.want {
			t.Errorf("%s%s: got %v %v, want %v", c.check.Name, c.more, got, m.Result.Lacks, c.want)
		}
		steps(t, m)
	}
}

func steps(t *testing.T, m rules.Measure) {
	t.Helper()
	for _, s := range m.Working {
		if err := s.Check(); err != nil {
			t.Error(err)
		}
	}
}

func TestLoadsMissing(t *testing.T) {
	w := checktest.Well(t, one(`"derrick":1000000`, "", ""))
	for c, want := range map[*rules.Check]string{
		running.OnHook:     "the hook load rating of the rig; the weight of block and top drive",
		running.OnElevator: "the casing elevator rating of the rig",
	} {
		if got := lacks(checktest.Measure(t, w, c, "casing")); got != want {
			t.Errorf("%s: got %q, want %q", c.Name, got, want)
		}
	}
	w = checktest.Well(t, one(rig, "", `,"existing":true,"mud_density":9`))
	if m := checktest.Measure(t, w, running.OnHook, "casing"); m.Absent == "" {
		t.Error("a string in the well already hangs on no rig")
	}
}

func lacks(m rules.Measure) string {
	var out []string
	for _, l := range m.Result.Lacks {
		out = append(out, l.Input)
	}
	return strings.Join(out, "; ")
}

// 9-5/8 47 lb/ft L80 LTC has a joint strength of 893,000 lbf (API Bull 5C2, from memory): the
// optimum is 8,930 ft-lbf (API RP 5C1), so that 8,930 is 1 and 6,697.5 is 0.75.
func TestTorque(t *testing.T) {
	const segment = "casing / 9-5/8 47 L80 LTC"
	for text, want := range map[string]float64{"8930": 1, "6697.5": 0.75} {
		w := checktest.Well(t, one(rig, `,"torque":"`+text+` ft-lbf"`, ""))
		m := checktest.Measure(t, w, running.RoundTorque, segment)
		if !m.Result.Known || math.Abs(m.Result.Value.SI-want) > 1e-9 {
			t.Errorf("%s ft-lbf: got %v %v, want %v", text, m.Result.Value.SI, m.Result.Lacks, want)
		}
		steps(t, m)
	}
	if got := lacks(checktest.Measure(t, checktest.Well(t, one(rig, "", "")), running.RoundTorque, segment)); got != "the make-up torque of 9-5/8 47 L80 LTC" {
		t.Errorf("no torque: got %q", got)
	}
	w := checktest.Well(t, strings.Replace(one(rig, "", ""), "LTC", "BTC", 1))
	if m := checktest.Measure(t, w, running.RoundTorque, "casing / 9-5/8 47 L80 BTC"); m.Absent == "" {
		t.Error("buttress has no optimum torque")
	}
}

// 10,000 ft in 250 joints is 40 ft each; R3 is 34 to 48 ft.
func TestJoints(t *testing.T) {
	const segment = "casing / 9-5/8 47 L80 LTC"
	w := checktest.Well(t, one(rig, `,"range":"R3","joints":250`, ""))
	for c, want := range map[*rules.Check]float64{running.JointLength: 40, running.ShortestJoint: 34, running.LongestJoint: 48} {
		if got := checktest.Measure(t, w, c, segment).Result.Value.SI / units.Foot; math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: got %v, want %v", c.Name, got, want)
		}
	}
	w = checktest.Well(t, one(rig, "", ""))
	if got := lacks(checktest.Measure(t, w, running.JointLength, segment)); got != "the number of joints of 9-5/8 47 L80 LTC in casing" {
		t.Errorf("no joints: got %q", got)
	}
	if got := lacks(checktest.Measure(t, w, running.ShortestJoint, segment)); got == "" {
		t.Error("no range, yet a shortest joint")
	}
}

// 9-5/8 47 lb/ft L80: internal yield 6,870 psi, collapse 4,760 psi, joint 893,000
// lbf (API Bull 5C2, from memory).
func TestAccessories(t *testing.T) {
	w := checktest.Well(t, one(rig, "", `,"accessories":[{"name":"stage collar","kind":"stage_collar","depth":5000,"rating_burst":6183,"rating_collapse":4760,"rating_tension":1786000},
	 {"name":"float collar","kind":"float_collar","depth":9900,"rating_burst":6870}]`))
	for c, want := range map[*rules.Check]float64{running.AccessoryBurst: 0.9, running.AccessoryCollapse: 1, running.AccessoryTension: 2} {
		m := checktest.Measure(t, w, c, "casing")
		if !m.Result.Known || math.Abs(m.Result.Value.SI-want) > 1e-9 {
			t.Errorf("%s: got %v %v, want %v", c.Name, m.Result.Value.SI, m.Result.Lacks, want)
		}
	}
	if m := checktest.Measure(t, checktest.Well(t, one(rig, "", "")), running.AccessoryBurst, "casing"); m.Absent == "" {
		t.Error("no accessory, yet a ratio")
	}
}
