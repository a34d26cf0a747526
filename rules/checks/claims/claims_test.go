package claims_test

import (
	"fmt"
	"strings"
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// plain is a vertical well with one string whose results a hand can work out:
// 10,000 ft of 9-5/8 in 47 lb/ft L80 in a 12-1/4 in hole, mud of 10 ppg.
const plain = `"units":"field","well":{"name":"C","setting":"onshore","purpose":"oil","class":"development","vertical":true},
 "sections":[
  {"name":"one","bit":12.25,"from":0,"to":10000,"mud_density":10,"hole_basis":"bit","excess":"25 %%"},
  {"name":"two","bit":8.5,"from":10000,"to":12000,"mud_density":11}],
 "strings":[
  {"name":"casing","role":"intermediate","section":"one","top":0,"shoe":10000,"top_of_cement":7000,"float_collar":9920,
   "segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"BTC","joints":250}],
   "stages":[{"name":"primary","kind":"primary","displacement":726,"fluids":[{"name":"tail","kind":"tail","density":15.8,"yield":1.15,"sacks":1085}]}]}],
 "pressures":[{"depth":0,"pore":"9 ppg","fracture":"14 ppg"},{"depth":13000,"pore":"9 ppg","fracture":"14 ppg"}],
 "claims":[{"string":"casing","measure":%q,"value":%q,"case":%q}]`

// Every expected value is worked out by hand with the convention named, never
// read from the program.
func TestReproduced(t *testing.T) {
	for _, c := range []struct {
		measure, value, said string
		want                 finding.Verdict
		by                   string // part of what the finding says
	}{
		// 10,000 ft x 47 lb/ft.
		{"air weight", "470000 lbf", "", finding.Met, "nominal weight"},
		{"Weight in air", "470 klbf", "", finding.Met, "nominal weight"},
		{"air weight", "471000 lbf", "", finding.NotMet, "nominal weight"},
		{"air weight", "470000 lb", "", finding.Met, "nominal weight"},
		{"air weight", "213.2 t", "", finding.Met, "nominal weight"}, // 470,000 x 0.45359237
		{"air weight", "213.4 t", "", finding.NotMet, ""},
		{"air weight", "469600 lbf", "", finding.NotMet, ""}, // four digits told
		// 10.69 (9.625 - 0.472) 0.472 = 46.18 lb/ft: 461.8 klbf.
		{"air weight", "462 klbf", "", finding.Met, "plain-end weight"},
		// 1 - 10/65.5 = 0.84733; 1 - 10/65.4 = 0.84709; 1 - 10/65.44 = 0.84719.
		{"buoyancy factor", "0.847", "", finding.Met, "steel"},
		{"buoyancy factor", "0.8473", "", finding.Met, "steel"},
		{"buoyancy factor", "0.84709", "", finding.Met, "65.4 ppg"},
		{"buoyancy factor", "0.85", "", finding.Met, ""}, // two digits
		{"buoyancy factor", "0.851", "", finding.NotMet, ""},
		// 470,000 x 0.84709 = 398,132 lbf.
		{"buoyed weight", "398.1 klbf", "", finding.Met, "65.4"},
		// 9 ppg at 10,000 ft: 4,680 psi by 0.052, 4,675 exact.
		{"pore pressure", "4680 psi", "", finding.Met, "estimate"},
		{"pore pressure", "4681 psi", "", finding.NotMet, "nearest is 4,680"},
		{"pore pressure", "4675 psi", "", finding.Met, "worked out 4,675"},
		{"formation pressure", "4679.9 psi", "", finding.NotMet, "0.052"},
		{"formation pressure", "4680.0 psi", "", finding.Met, "by base estimate; 0.052 psi/ft"},
		// 10 ppg at 10,000 ft by 0.052: 5,200 psi; in bar by exact 358.2.
		{"hydrostatic pressure", "5200.0 psi", "", finding.Met, "0.052"},
		{"hydrostatic pressure", "358.2 bar", "", finding.Met, "mud it is run in"},
		// Both 4,750 psi (D/t at full precision) and 4,760 psi (D/t of two decimals) are in print.
		{"collapse rating", "4760 psi", "", finding.Met, "as the tables print it"},
		{"collapse rating", "4750 psi", "", finding.Met, "at full precision"},
		{"collapse rating", "4730 psi", "", finding.NotMet, ""},
		// Printed in API Bulletin 5C2: internal yield 6,870 psi (pipe body), body 1,086,000 lbf.
		{"burst rating", "6870 psi", "", finding.Met, ""},
		{"body yield", "1086 klbf", "", finding.Met, "as the tables print it"},
		{"joint strength", "1122 klbf", "", finding.Met, "as the tables print it"},
		{"joint strength", "1161 klbf", "", finding.NotMet, "1,122"}, // that is N80
		// 1,086,000 / 470,000 = 2.311; joint 1,122,000 / 470,000 = 2.387; buoyed body 2.728.
		{"tension design factor", "2.31", "in air", finding.Met, "body over nominal weight"},
		{"tension SF", "2.39", "", finding.Met, "joint over nominal weight"},
		{"tension SF", "2.55", "", finding.NotMet, "nearest"},
		// 1,085 sacks x 1.15 ft3 / 5.6146 = 222.2 bbl.
		{"cement volume", "222 bbl", "", finding.Met, "as pumped"},
		// Annulus 12-1/4 x 9-5/8 in: 0.055783 bbl/ft x 3,000 ft = 167.3 bbl; with 25 %% 209.2; on the hole
		// 0.145777 x 1.25 - 0.089994 = 0.092227 x 3,000 = 276.7 bbl.
		{"annular volume", "167.3 bbl", "", finding.Met, "no excess"},
		{"annular volume", "209.2 bbl", "", finding.Met, "open-hole annulus"},
		{"annular volume", "276.7 bbl", "", finding.Met, "volume of the hole"},
		{"annular volume", "250 bbl", "", finding.NotMet, "nearest"},
		{"sacks", "1085", "", finding.Met, "volume over yield"},
		{"sacks", "1086", "", finding.NotMet, ""},
		// 8.681 in bore: 0.073206 bbl/ft x 9,920 ft = 726.2 bbl.
		{"displacement volume", "726 bbl", "", finding.Met, "path"},
		{"displacement volume", "732 bbl", "", finding.Met, "to the shoe"},       // x 10,000 ft
		{"displacement volume", "726.5 bbl", "", finding.Met, "1029 for bbl/ft"}, // 8.681^2 / 1029 x 9,920 = 726.50
		{"displacement volume", "740 bbl", "", finding.NotMet, ""},
		{"joints", "250", "", finding.Met, "as the segments list them"},
		{"number of joints", "254", "", finding.Met, "joints of 39 ft"}, // 3,048 m / 12 m
		{"joints", "251", "", finding.NotMet, ""},
		{"joints", "252", "", finding.NotMet, ""},
		{"geometry.lap", "300 ft", "", finding.NotAssessed, "a result that can be worked out"},
		{"moon phase", "1", "", finding.NotAssessed, "neither a measure of this tool nor one of burst factor"},
		{"pore pressure", "4680 ft", "", finding.NotAssessed, "isn't"},
		{"pore pressure", "some", "", finding.NotAssessed, "readable value"},
	} {
		f := judged(t, fmt.Sprintf(plain, c.measure, c.value, c.said))
		text := f.Reason
		for _, m := range f.Missing {
			text += " " + m.Input
		}
		if f.Verdict != c.want || !strings.Contains(text, c.by) {
			t.Errorf("%s = %s: %s, %q; want %s, %q", c.measure, c.value, f.Verdict, text, c.want, c.by)
		}
	}
}

func judged(t *testing.T, text string) finding.Finding {
	t.Helper()
	for k, f := range checktest.Judge(t, text, "good-practice", finding.PreSpud) {
		if strings.HasPrefix(k, "claim@") {
			return f
		}
	}
	t.Fatal("no claim was judged")
	return finding.Finding{}
}

// What a claim leaves out is asked for.
func TestClaimThin(t *testing.T) {
	for rows, want := range map[string]string{
		`{"string":"casing","value":"1"}`:                                     "what casing claims",
		`{"string":"casing","measure":"burst"}`:                               "the value claimed for casing / burst",
		`{"string":"nobody","measure":"burst","value":"1.2"}`:                 "the string of the claim burst",
		`{"string":"casing","measure":"kick tolerance","value":"25 bbl"}`:     "",
		`{"string":"casing","measure":"burst.gas_to_surface","value":"1.11"}`: "",
	} {
		at := strings.Index(plain, `"claims"`)
		f := judged(t, strings.ReplaceAll(plain[:at], "%%", "%")+`"claims":[`+rows+`]`)
		got := ""
		if len(f.Missing) > 0 {
			got = f.Missing[0].Input
		}
		if want != "" && (f.Verdict != finding.NotAssessed || got != want) {
			t.Errorf("%s: %s, %q; want not assessed, %q", rows, f.Verdict, got, want)
		}
		if want == "" && f.Verdict == finding.Met {
			t.Errorf("%s is reproduced: %s", rows, f.Reason)
		}
	}
}
