package pressure_test

import (
	"fmt"
	"strings"
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/pressure"
)

// A coal whose top lies 10 ft below the shoe is opened by a test of 10 ft of new
// hole and not by one of 9 ft; without a test planned 20 ft count.
func TestUnsoundBelow(t *testing.T) {
	for _, c := range []struct {
		top  int
		test string
		want bool
	}{
		{5010, `,"new_hole":10`, true}, {5010, `,"new_hole":9`, false}, {5020, ``, true}, {5021, ``, false}, {5000, ``, false},
	} {
		w := checktest.Well(t, fmt.Sprintf(`"units":"field","well":{"name":"A","vertical":true},
		 "sections":[{"name":"one","bit":12.25,"from":0,"to":5000},{"name":"two","bit":8.5,"from":5000,"to":8000,"pressure_control":"bop_surface","returns":"rig"}],
		 "strings":[{"name":"casing","role":"intermediate","section":"one","top":0,"shoe":5000,"segments":[{"od":9.625,"weight":47}]}],
		 "formations":[{"name":"shale","top":0,"base":%[1]d,"competent":true},{"name":"seam","top":%[1]d,"base":6000,"contents":"coal"}],
		 "tests":[{"name":"shoe test","kind":"shoe","string":"casing"%[2]s}]`, c.top, c.test))
		m := checktest.Measure(t, w, pressure.ShoeUnsoundBelow, "casing")
		if !m.Result.Known || m.Result.Value.Truth != c.want || !strings.Contains(m.Note, "below the shoe") {
			t.Errorf("coal at %d ft, test%s: %v, %q; want %v", c.top, c.test, m.Result.Value.Truth, m.Note, c.want)
		}
	}
	w := checktest.Well(t, `"units":"field","well":{"name":"A","vertical":true},"sections":[{"name":"one","bit":12.25,"from":0,"to":5000}],
	 "strings":[{"name":"casing","role":"production","section":"one","top":0,"shoe":5000,"segments":[{"od":9.625,"weight":47}]}]`)
	if m := checktest.Measure(t, w, pressure.ShoeUnsoundBelow, "casing"); m.Absent == "" {
		t.Errorf("no hole is drilled from the shoe: %+v", m)
	}
}
