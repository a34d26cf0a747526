package running_test

import (
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// What isn't run on pipe slips, and what isn't in the plan, raises no finding and
// asks for nothing.
func TestNormalWells(t *testing.T) {
	got := checktest.Judge(t, `"units":"field","well":{"name":"D","vertical":true,"stage":"pre_spud"},"rig":{`+rig+`},
	"sections":[{"name":"12.25","bit":12.25,"to":10000,"string":"casing","mud_density":10},{"name":"8.5","bit":8.5,"to":12000,"string":"liner","mud_density":11}],
	"strings":[{"name":"pile","role":"conductor","set_by":"driven","top":0,"shoe":120,"segments":[{"od":30,"weight":309.7,"wall":1,"grade":"X52","connection":"welded","coupling":"none"}]},
	{"name":"old","role":"surface","existing":true,"top":0,"shoe":2000,"segments":[{"od":13.375,"weight":72,"grade":"L80","connection":"BTC"}]},
	{"name":"casing","role":"intermediate","section":"12.25","top":0,"shoe":10000,"segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC","torque":"8930 ft-lbf"}]},
	{"name":"liner","role":"production_liner","section":"8.5","top":9800,"shoe":12000,"cemented":false,"segments":[{"od":7,"weight":32,"grade":"L80","connection":"BTC"}]}]`,
		"good-practice", finding.PreSpud)
	for _, r := range []string{"tally-length", "tally-joints", "tally-landing", "tally-centralizers", "tally-pipe", "slides-in", "flotation-differential",
		"crossover-size", "crossover-thread", "running-string-load", "hanger-load", "running-string-length", "wear-allowed", "running-speed", "line-test",
		"load-hook", "load-elevator", "bore-step", "accessory-bore"} {
		for _, s := range []string{"pile", "old"} {
			if f, ok := got[r+"@"+s]; !ok || f.Verdict != finding.NotApplicable {
				t.Errorf("%s@%s: %s %v", r, s, f.Verdict, f.Reason)
			}
		}
	}
	for key, want := range map[string]finding.Verdict{
		"slides-in@casing": finding.Met, "slides-in@liner": finding.Met, "bore-step@casing": finding.NotApplicable, "line-test@casing": finding.NotApplicable,
		"made-by-position@liner / 7 32 L80 BTC": finding.NotApplicable, "torque-large@casing / 9-5/8 47 L80 LTC": finding.NotApplicable,
		"torque-maker@casing / 9-5/8 47 L80 LTC": finding.NotApplicable, "torque-round@casing / 9-5/8 47 L80 LTC": finding.Met,
		"tally-length@casing": finding.NotAssessed, "hanger-load@casing": finding.NotApplicable, "hanger-load@liner": finding.NotAssessed,
		"lap-test-packer@liner": finding.NotApplicable,
	} {
		if f := got[key]; f.Verdict != want {
			t.Errorf("%s: got %q %v, want %s", key, f.Verdict, f.Reason, want)
		}
	}
}
