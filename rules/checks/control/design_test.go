package control_test

import (
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/control"
)

// kicked is a vertical well whose 8-1/2 in hole from 5,000 to 8,000 ft is
// drilled with 0.6 psi/ft around 5 in pipe, 0.045900 bbl/ft; the shoe holds
// 3,750 psi, gas weighs 0.1 psi/ft and the design kick is 25 bbl.
const kicked = `"well":{"name":"A","class":"appraisal","vertical":true,"purpose":"gas"},"rig":{"kick_detection":10},
 "sections":[{"name":"one","bit":12.25,"from":0,"to":5000,"mud_density":9},{"name":"two","bit":8.5,"from":5000,"to":8000,"mud_density":"0.6 psi/ft","pressure_control":"bop_surface","returns":"rig","drilled":"overbalanced"}],
 "formations":[{"name":"sand","top":7900,"base":8100,"contents":"gas","flow":true}],
 "pressures":[{"depth":0,"pore":"0 psi","fracture":"10 psi"},{"depth":5000,"pore":"2000 psi","fracture":"3750 psi"},{"depth":8000,"pore":"3700 psi","fracture":"7000 psi"}]`

// swabbed is gas of 0.1 psi/ft and a kick at the mud's own weight.
func swabbed(a *well.Assumptions) {
	gradient(0.1 * psi / 0.3048)(a)
	a.KickIntensity = 0
}

// The height of gas at the shoe is H = (3750 - k + 1800) / 0.5 for a kick of k
// psi at 8,000 ft, its volume at the bottom 0.045900 H (3750 + 0.05 H + 14.7) /
// (k - 0.05 H + 14.7). With k = 4,800 psi that is 1,500 ft and 55.8 bbl; 25 bbl
// leave k = 5,180.5 psi, 0.04756 psi/ft or 0.9156 ppg over the mud; and at k =
// 4,800 psi 25 bbl ask for 3,379.1 psi at the shoe, 13.009 ppg. Both solved by
// halving these two lines outside the tool.
func TestDesignKick(t *testing.T) {
	w := checktest.WellWith(t, strings.Replace(plan("5000", kicked), `"mud_density":"0.6 psi/ft"`, `"mud_density":"11.55 ppg"`, 1), swabbed)
	const ppg = 119.826427316897
	measure(t, w, control.KickTolerance, "two", 55.8*bbl, 0.1*bbl)
	measure(t, w, control.OverDetection, "two", 5.58, 0.01)
	measure(t, w, control.IntensityHeld, "two", 0.9156*ppg, 0.005*ppg)
	measure(t, w, control.TestNeeded, "surface", 13.009*ppg, 0.005*ppg)
	// 3,750 - 11.55 x 0.051948 x 5,000 psi; (fracture - mud) x depth as in print.
	measure(t, w, control.AnnularPressure, "two", 750*psi, 0.2*psi)
}

// What a plan leaves out is asked for, and what needs no kick isn't judged.
func TestDesignKickThin(t *testing.T) {
	text := strings.Replace(plan("5000", kicked), `"mud_density":"0.6 psi/ft"`, `"mud_density":"11.55 ppg"`, 1)
	w := checktest.WellWith(t, strings.Replace(text, `"rig":{"kick_detection":10},`, "", 1), swabbed)
	if m := checktest.Measure(t, w, control.OverDetection, "two"); m.Result.Known || len(m.Result.Lacks) != 1 || !strings.Contains(m.Result.Lacks[0].Input, "pit gain") {
		t.Errorf("without a detection volume: %+v", m)
	}
	w = checktest.WellWith(t, strings.Replace(strings.Replace(text, `"flow":true`, `"flow":false`, 1), `"contents":"gas"`, `"contents":"none"`, 1), swabbed)
	if m := checktest.Measure(t, w, control.IntensityHeld, "two"); m.Absent == "" {
		t.Errorf("nothing in the hole can flow: %+v", m)
	}
	if m := checktest.Measure(t, w, control.IntensityHeld, "one"); m.Absent == "" {
		t.Errorf("the first hole has no shoe above it: %+v", m)
	}
	if m := checktest.Measure(t, w, control.TestNeeded, "surface"); m.Absent == "" {
		t.Errorf("no kick asks anything of the shoe: %+v", m)
	}
	// A shoe that stands a hole full of gas holds any intensity looked at.
	strong := checktest.WellWith(t, strings.Replace(text, `"fracture":"3750 psi"`, `"fracture":"6500 psi"`, 1), swabbed)
	if m := checktest.Measure(t, strong, control.OverDetection, "two"); m.Unloaded == "" {
		t.Errorf("a shoe of 6,500 psi stands the hole full of gas: %+v", m)
	}
}
