package control_test

import (
	"strings"
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/control"
)

// Row W13: 13.3 ppg at a shoe at 4,000 ft and 11.5 ppg mud leave 374 psi of
// annular surface pressure (globalspec.com, reference 35329). Mud as heavy as
// the rock holds leaves none, heavier mud less than none.
func TestPublishedAnnularPressure(t *testing.T) {
	shoe := strings.NewReplacer("5000", "4000", `"fracture":"3750 psi"`, `"fracture":"13.3 ppg"`,
		`"fracture":"10 psi"`, `"fracture":"13.3 ppg"`, `"fracture":"7000 psi"`, `"fracture":"13.3 ppg"`)
	for _, c := range []struct {
		mud          string
		want, within float64
	}{{"11.5 ppg", 374, 0.5}, {"13.3 ppg", 0, 0.01}, {"13.8 ppg", -0.5 * 0.0519481 * 8000, 0.1}} {
		text := strings.Replace(plan("4000", shoe.Replace(kicked)), `"mud_density":"0.6 psi/ft"`, `"mud_density":"`+c.mud+`"`, 1)
		measure(t, checktest.WellWith(t, text, swabbed), control.AnnularPressure, "two", c.want*psi, c.within*psi)
	}
}

// Collars narrow the annulus at the bottom, so the same height of gas is less
// volume at the first shut-in: 6-1/2 in collars over all of the hole's lowest
// 1,500 ft leave (8.5^2 - 6.5^2)/1029.4 x 1,500 = 43.7 bbl of the 55.8 bbl.
func TestCollarsTakeFromTheKick(t *testing.T) {
	text := strings.Replace(plan("5000", kicked), `"mud_density":"0.6 psi/ft"`,
		`"mud_density":"11.55 ppg","drill_pipe":5,"drill_collar":6.5,"drill_collar_length":1500`, 1)
	measure(t, checktest.WellWith(t, text, swabbed), control.KickTolerance, "two", 43.7*bbl, 0.1*bbl)
}
