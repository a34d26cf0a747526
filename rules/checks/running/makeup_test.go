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

// pipe is the string of one with another pipe.
func pipeOf(text, od, weight, grade, connection string) string {
	return strings.NewReplacer(`"od":9.625`, `"od":`+od, `"weight":47`, `"weight":`+weight, `"L80"`, `"`+grade+`"`, `"LTC"`, `"`+connection+`"`).Replace(text)
}

func TestMadeByPosition(t *testing.T) {
	for _, c := range []struct {
		od, weight, grade, connection, more string
		want                                any // true, false, or why there is nothing
	}{
		{"9.625", "47", "L80", "BTC", `,"torque":"9000 ft-lbf"`, false},
		{"9.625", "47", "L80", "BTC", `,"torque":"9000 ft-lbf","made_up_by":"position_and_torque"`, true},
		{"9.625", "47", "L80", "BTC", `,"made_up_by":"position"`, true},
		{"9.625", "47", "L80", "BTC", `,"made_up_by":"torque"`, false},
		{"9.625", "47", "L80", "BTC", ``, "no make-up is planned"},
		{"9.625", "47", "L80", "LTC", `,"torque":"9000 ft-lbf"`, "its connection isn't made up by position"},
		{"13.375", "72", "L80", "STC", `,"torque":"9000 ft-lbf"`, "its connection isn't made up by position"},
		{"16", "84", "J55", "STC", `,"torque":"9000 ft-lbf"`, false},
		{"20", "94", "J55", "STC", `,"made_up_by":"position"`, true},
	} {
		w := checktest.Well(t, pipeOf(one(rig, c.more, ""), c.od, c.weight, c.grade, c.connection))
		m := checktest.Measure(t, w, running.ByMark, "casing / "+w.Plan.Strings[0].Segments[0].Label())
		var got any = m.Absent
		if m.Absent == "" && m.Result.Known {
			got = m.Result.Value.Truth
		}
		if got != c.want {
			t.Errorf("%+v: got %v %v", c, got, m.Result.Lacks)
		}
	}
}

// 16 in 84 lb/ft J55 STC has a joint strength of 817,000 lbf (API Bull 5C2, from
// memory): the optimum would be 8,170 ft-lbf, the least is 6,130 (API RP 5C1, to
// 10 ft-lbf). It has no optimum to be a part of.
func TestLeastTorque(t *testing.T) {
	for text, want := range map[string]float64{"6130": 1, "12260": 2, "3065": 0.5} {
		w := checktest.Well(t, pipeOf(one(rig, `,"torque":"`+text+` ft-lbf"`, ""), "16", "84", "J55", "STC"))
		m := checktest.Measure(t, w, running.LeastTorque, "casing / 16 84 J55 STC")
		if !m.Result.Known || math.Abs(m.Result.Value.SI-want) > 1e-9 {
			t.Errorf("%s ft-lbf: got %v %v, want %v", text, m.Result.Value.SI, m.Result.Lacks, want)
		}
		steps(t, m)
		if m := checktest.Measure(t, w, running.RoundTorque, "casing / 16 84 J55 STC"); m.Absent == "" {
			t.Error("large round thread has no optimum torque")
		}
	}
	w := checktest.Well(t, pipeOf(one(rig, "", ""), "16", "84", "J55", "STC"))
	if got := lacks(checktest.Measure(t, w, running.LeastTorque, "casing / 16 84 J55 STC")); got != "the make-up torque of 16 84 J55 STC" {
		t.Errorf("no torque: got %q", got)
	}
	w = checktest.Well(t, one(rig, "", ""))
	if m := checktest.Measure(t, w, running.LeastTorque, "casing / 9-5/8 47 L80 LTC"); m.Absent == "" {
		t.Error("9-5/8 in isn't large")
	}
}

func TestMakerTorque(t *testing.T) {
	const name = "casing / 9-5/8 47 L80 Curlew GT"
	w := checktest.Well(t, pipeOf(one(rig, `,"torque":"12000 ft-lbf","torque_min":"11000 ft-lbf","torque_max":"14000 ft-lbf"`, ""), "9.625", "47", "L80", "Curlew GT"))
	for c, want := range map[*rules.Check]float64{running.MakerTorque: 12000, running.MakerTorqueLeast: 11000, running.MakerTorqueMost: 14000} {
		if got := checktest.Measure(t, w, c, name).Result.Value.SI / (units.Lbf * units.Foot); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: got %v, want %v", c.Name, got, want)
		}
	}
	w = checktest.Well(t, pipeOf(one(rig, "", ""), "9.625", "47", "L80", "Curlew GT"))
	for c, want := range map[*rules.Check]string{
		running.MakerTorque:      "the make-up torque of 9-5/8 47 L80 Curlew GT",
		running.MakerTorqueLeast: "the maker's least make-up torque of 9-5/8 47 L80 Curlew GT",
		running.MakerTorqueMost:  "the maker's greatest make-up torque of 9-5/8 47 L80 Curlew GT",
	} {
		if got := lacks(checktest.Measure(t, w, c, name)); got != want {
			t.Errorf("%s: got %q, want %q", c.Name, got, want)
		}
	}
	if m := checktest.Measure(t, checktest.Well(t, one(rig, "", "")), running.MakerTorque, "casing / 9-5/8 47 L80 LTC"); m.Absent == "" {
		t.Error("an API connection isn't a maker's own")
	}
}
