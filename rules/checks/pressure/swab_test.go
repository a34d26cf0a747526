package pressure_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/pressure"
)

// Published: a yield point of 12 lbf/100ft2 in a clearance of 5 in takes away
// 12 / (11.7 x 5) = 0.205 ppg (printed as 0.2; drillingformulas.com, trip margin
// calculation).
func TestSwabMargin(t *testing.T) {
	text := `"units":"field","well":{"name":"A","vertical":true},
	 "sections":[{"name":"one","bit":8.5,"drill_pipe":3.5,"from":0,"to":5000,"mud_density":9,"mud_yield_point":12}]`
	w := checktest.Well(t, text)
	m := checktest.Measure(t, w, pressure.SwabMargin, "one")
	if got := m.Result.Value.SI / 119.826427316897; math.Abs(got-12/58.5) > 1e-9 {
		t.Errorf("got %.4f ppg, want 0.2051", got)
	}
	w = checktest.Well(t, strings.Replace(text, `,"mud_yield_point":12`, "", 1))
	if m := checktest.Measure(t, w, pressure.SwabMargin, "one"); m.Result.Known || len(m.Result.Lacks) != 1 || m.Result.Lacks[0].Input != "the yield point of the mud of one" {
		t.Errorf("without a yield point: %+v", m.Result)
	}
	w = checktest.Well(t, strings.Replace(text, `"drill_pipe":3.5`, `"drill_pipe":8.5`, 1))
	if m := checktest.Measure(t, w, pressure.SwabMargin, "one"); m.Absent == "" {
		t.Errorf("pipe that fills the hole: %+v", m)
	}
}
