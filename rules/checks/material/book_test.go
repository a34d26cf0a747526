package material_test

import (
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// TestRequirementsOnAPlan judges the materials of whole plans by the built-in
// book and holds verdicts typed by hand.
func TestRequirementsOnAPlan(t *testing.T) {
	for name, c := range map[string]struct {
		plan string
		want map[string]finding.Verdict
	}{
		"sour gas, P110 to surface": {frame(gasWell+`,"h2s":1000,"co2":"0.3 %"`, pipe("P110", ""), ""), map[string]finding.Verdict{
			"sour-grade@P / 7 26 P110 LTC":           finding.NotMet,
			"sour-grade@S / 9-5/8 36 J55 STC":        finding.Met,
			"sour-13cr@P / 7 26 P110 LTC":            finding.NotApplicable,
			"co2-likely@P / 7 26 P110 LTC":           finding.Met, // 15 psi
			"co2-possible@P / 7 26 P110 LTC":         finding.NotMet,
			"co2-likely@S / 9-5/8 36 J55 STC":        finding.NotApplicable,
			"gas-tight-threads@P / 7 26 P110 LTC":    finding.NotMet,
			"gas-tight-threads@S / 9-5/8 36 J55 STC": finding.NotApplicable,
			"thread-made@P / 7 26 P110 LTC":          finding.Met,
			"grade-current@P / 7 26 P110 LTC":        finding.Met,
		}},
		"sour gas, 13Cr": {frame(gasWell+`,"h2s":250,"co2":"3 %"`, pipe("L80-13Cr", ""), ""), map[string]finding.Verdict{
			"sour-grade@P / 7 26 L80-13Cr LTC":   finding.NotApplicable,
			"sour-13cr@P / 7 26 L80-13Cr LTC":    finding.Met, // 8.6 kPa
			"co2-likely@P / 7 26 L80-13Cr LTC":   finding.NotApplicable,
			"co2-possible@P / 7 26 L80-13Cr LTC": finding.NotApplicable,
		}},
		"more of it":     {frame(gasWell+`,"h2s":300`, pipe("L80-13Cr", ""), ""), map[string]finding.Verdict{"sour-13cr@P / 7 26 L80-13Cr LTC": finding.NotMet}}, // 10.4 kPa
		"under 0.3 kPa":  {frame(gasWell+`,"h2s":8`, pipe("P110", ""), ""), map[string]finding.Verdict{"sour-grade@P / 7 26 P110 LTC": finding.NotApplicable}},
		"over 0.3 kPa":   {frame(gasWell+`,"h2s":9`, pipe("P110", ""), ""), map[string]finding.Verdict{"sour-grade@P / 7 26 P110 LTC": finding.NotMet}},
		"no H2S":         {frame(gasWell+`,"h2s":0`, pipe("P110", ""), ""), map[string]finding.Verdict{"sour-grade@P / 7 26 P110 LTC": finding.NotApplicable}},
		"H2S not stated": {frame(gasWell, pipe("P110", ""), ""), map[string]finding.Verdict{"sour-grade@P / 7 26 P110 LTC": finding.NotAssessed}},
		"proprietary":    {frame(gasWell+`,"h2s":9`, pipe("QX-90", ""), ""), map[string]finding.Verdict{"sour-grade@P / 7 26 QX-90 LTC": finding.NotAssessed}},
		"old stock":      {frame(gasWell, pipe("C95", ""), ""), map[string]finding.Verdict{"grade-current@P / 7 26 C95 LTC": finding.NotMet}},
	} {
		got := checktest.Judge(t, c.plan, "good-practice", finding.Permit)
		for key, want := range c.want {
			if v := got[key].Verdict; v != want {
				t.Errorf("%s: %s: %q, want %q", name, key, v, want)
			}
		}
	}
}
