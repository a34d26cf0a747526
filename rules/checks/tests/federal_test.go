package tests_test

import (
	"strings"
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// lease is a deviated development well: 20,000 ft along the hole, 10,000 ft
// deep. 9-5/8 in 47 lb/ft L80 BTC has an internal yield of 6,870 psi; 13-3/8 in
// 54.5 lb/ft J55 BTC 2,730 psi, 70 % of it 1,911 psi (API TR 5C3 tables).
const lease = `"units":"field","well":{"name":"A","class":"%CLASS%"},
 "sections":[{"name":"one","bit":17.5,"from":0,"to":2000,"mud_density":9,"pressure_control":"diverter"},
  {"name":"two","bit":12.25,"from":2000,"to":20000,"mud_density":10,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":0,"shoe":2000,"shoe_tvd":2000,"segments":[{"to":2000,"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}]},
  {"name":"production","role":"production","section":"two","top":0,"shoe":20000,"shoe_tvd":10000,"segments":[{"to":20000,"od":9.625,"weight":47,"grade":"L80","connection":"BTC"}]}],
 "bops":[{"name":"stack","section":"two","on":"surface","rating":%RATING%,"test_pressure":%RAMS%,"test_plug":%PLUG%}],
 "tests":[{"name":"surface test","kind":"casing","string":"surface","pressure":1500,"minutes":30,"drop":"10 %"},
  {"name":"production test","kind":"casing","string":"production","pressure":%TEST%,"minutes":30,"drop":"10 %"}],
 "pressures":[{"depth":0,"pore":"9 ppg","fracture":"14 ppg"},{"depth":10000,"pore":"9 ppg","fracture":"14 ppg"}]`

func judge(t *testing.T, text, requirement, subject string) finding.Finding {
	t.Helper()
	f, ok := checktest.Judge(t, text, "us-onshore-federal", finding.PreSpud)[requirement+"@"+subject]
	if !ok {
		t.Fatalf("no finding of %s on %s", requirement, subject)
	}
	return f
}

// TestFederalTraps takes whole plans through the traps of the regulation.
func TestFederalTraps(t *testing.T) {
	for _, c := range []struct {
		what                           string
		class, rating, rams, plug, psi string
		requirement, subject           string
		want                           finding.Verdict
	}{
		// 0.22 psi/ft x 20,000 ft along the hole = 4,400 psi, not x 10,000 ft.
		{"length along the hole, at it", "development", "3000", "3000", "true", "4400", "casing-test", "production", finding.Met},
		{"length along the hole, below it", "development", "3000", "3000", "true", "4399", "casing-test", "production", finding.NotMet},
		{"1,500 psi rules a short string", "development", "3000", "3000", "true", "4400", "casing-test", "surface", finding.Met},
		{"no shoe test in development on 3M", "development", "3000", "3000", "true", "4400", "shoe-test", "surface", finding.NotApplicable},
		{"shoe test asked on 5M", "development", "5000", "5000", "true", "4400", "shoe-test", "surface", finding.NotAssessed},
		{"shoe test asked in exploration", "exploration", "3000", "3000", "true", "4400", "shoe-test", "surface", finding.NotAssessed},
		{"rams tested to the stack with a plug", "development", "3000", "2999", "true", "4400", "ram-test-isolated", "stack", finding.NotMet},
		{"rams on the casing: 70 % of 2,730 psi", "development", "3000", "1911", "false", "4400", "ram-test-casing", "stack", finding.Met},
		{"rams on the casing: below it", "development", "3000", "1910", "false", "4400", "ram-test-casing", "stack", finding.NotMet},
		// 9 ppg x 0.051948 x 10,000 ft - 2,200 psi = 2,475.3 psi.
		{"a 2M stack under 2,475 psi", "development", "2475", "2475", "true", "4400", "bop-rating", "two", finding.NotMet},
		{"a stack over it", "development", "2476", "2476", "true", "4400", "bop-rating", "two", finding.Met},
		{"a 2M stack needs no blind ram", "development", "2476", "2476", "true", "4400", "blind-ram-3m", "stack", finding.NotApplicable},
		{"a 3M stack does", "development", "3000", "3000", "true", "4400", "blind-ram-3m", "stack", finding.NotAssessed},
	} {
		text := strings.NewReplacer("%CLASS%", c.class, "%RATING%", c.rating, "%RAMS%", c.rams, "%PLUG%", c.plug, "%TEST%", c.psi).Replace(lease)
		if f := judge(t, text, c.requirement, c.subject); f.Verdict != c.want {
			t.Errorf("%s: got %s (%s, missing %v), want %s", c.what, f.Verdict, f.Reason, f.Missing, c.want)
		}
	}
}

// TestCapOfSeventyPercent: a weak string passes at 70 % of its internal yield
// though 1,500 psi is more. 13-3/8 in 48 lb/ft H40 STC has 1,730 psi (API TR
// 5C3 tables): 1,211 psi.
func TestCapOfSeventyPercent(t *testing.T) {
	for psi, want := range map[string]finding.Verdict{"1211": finding.Met, "1210": finding.NotMet} {
		text := strings.NewReplacer("%CLASS%", "development", "%RATING%", "3000", "%RAMS%", "3000", "%PLUG%", "true", "%TEST%", "4400",
			`"weight":54.5,"grade":"J55","connection":"BTC"`, `"weight":48,"grade":"H40","connection":"STC"`, `"pressure":1500`, `"pressure":`+psi).Replace(lease)
		if f := judge(t, text, "casing-test", "surface"); f.Verdict != want {
			t.Errorf("%s psi: got %s (%s), want %s", psi, f.Verdict, f.Reason, want)
		}
	}
}
