package pressure_test

import (
	"testing"

	"spudgate/rules/checks/pressure"
)

// A step inside the open hole counts with its worse side, whichever side that
// is: mud of 9.4 to 10 ppg against pore pressure of 9 and 11 ppg and fracture
// pressure of 10.5 and 14 ppg at 7,000 ft. Pore pressure falls to 9 ppg below, so the step is the
// extreme.
func TestStepWithinTheHole(t *testing.T) {
	for _, pair := range [][2]string{
		{`"pore":"9 ppg","fracture":"10.5 ppg"`, `"pore":"11 ppg","fracture":"14 ppg"`},
		{`"pore":"11 ppg","fracture":"14 ppg"`, `"pore":"9 ppg","fracture":"10.5 ppg"`},
	} {
		w := changed(t, `{"depth":9000,"pore":"9 ppg","fracture":"14 ppg"}`, `{"depth":7000,`+pair[0]+`}`,
			`{"depth":9000,"pore":"11 ppg","fracture":"14 ppg"}`, `{"depth":7000,`+pair[1]+`}`,
			`"pore":"12 ppg"`, `"pore":"9 ppg"`)
		is(t, w, pressure.MudOverPore, "two", (9.4-11)*ppg, 1e-6)
		is(t, w, pressure.FractureOverMud, "two", (10.5-10)*ppg, 1e-6)
	}
}

// TestPublishedShoeTests: row W10, a target of 14.5 ppg in 9.2 ppg mud at
// 4,000 ft asks for 1,102 psi (drillingformulas.com, formation integrity test);
// row W12, 800 psi leak-off there is 13.0 ppg (globalspec.com, reference
// 35329). Each within half of its last printed digit; W10's 1 psi is 0.005 ppg.
func TestPublishedShoeTests(t *testing.T) {
	for _, c := range []struct {
		pressure     string
		want, within float64
	}{{"1102", 14.5, 0.005}, {"800", 13.0, 0.05}} {
		// The first pair keeps 12,000 ft from being read as 2,000.
		w := changed(t, "12000", "12000", "2000", "4000", `"pressure":400,`, `"pressure":`+c.pressure+`,`)
		is(t, w, pressure.ShoeTest, "surface", c.want*ppg, c.within*ppg)
	}
}
