package strength_test

import (
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// TestRequirementsOnAPlan judges the strength of a whole plan by the built-in
// book and holds the verdicts of a few pairs typed by hand.
func TestRequirementsOnAPlan(t *testing.T) {
	got := checktest.Judge(t, frame(`,"rating_collapse":6000`, "", `,"tests":[{"name":"set","kind":"casing","string":"P","when":"set","pressure":6500,"fluid":8.34}]`), "good-practice", finding.Permit)
	for key, want := range map[string]finding.Verdict{
		"burst-gas-to-surface@P":               finding.NotApplicable, // nothing is drilled below it
		"burst-gas-to-surface@S":               finding.Met,
		"burst-pressure-test@P":                finding.Met,    // 7,240 / 6,500 = 1.11
		"test-over-internal-yield@set":         finding.NotMet, // 6,500 / 7,240 = 90 %
		"collapse-full-evacuation@P":           finding.Met,    // 5,410 / 4,675
		"collapse-full-evacuation@S":           finding.NotApplicable,
		"tension-running-joint@P":              finding.Met,         // 511 / 198
		"compression-wellhead@S":               finding.NotAssessed, // asked from the programme on
		"stated-collapse@P / 7 26 L80 LTC":     finding.NotMet,      // 6,000 over 5,410
		"burst-stimulation@P":                  finding.NotApplicable,
		"stated-collapse@S / 9-5/8 36 J55 STC": finding.NotApplicable,
		"collapse-mud-drop@S":                  finding.Met,
		"tension-shock-body@P":                 finding.NotAssessed,
		"triaxial@P":                           finding.Met, // at the top of the test hoop 59,800, pull 42,000, radial -6,500 psi: 59,400 of 80,000
		"trapped-annulus-subsea@P":             finding.NotAssessed,
	} {
		if got[key].Verdict != want {
			t.Errorf("%s: %q, want %q", key, got[key].Verdict, want)
		}
	}
}
