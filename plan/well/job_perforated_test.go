package well_test

import (
	"math"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// The casing's shoe is at 3,000 ft, the hole's bottom at 3,100 ft.
func TestPerforated(t *testing.T) {
	const plan = `"units":"field","well":{"name":"D","vertical":true},
	"sections":[{"name":"12.25","bit":12.25,"to":3100,"string":"casing","mud_density":10}],
	"strings":[{"name":"casing","role":"production","section":"12.25","top":0,"shoe":3000,"cemented":true,"segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC"}]}],`
	for at, want := range map[string]string{
		`"perforated_from":2900,"perforated_to":2950`: "",
		`"perforated_from":3020,"perforated_to":3050`: "the well is completed in open hole",
		`"perforated_from":3200,"perforated_to":3250`: "the perforations lie below the well's end",
	} {
		p, err := checktest.Well(t, plan+`"completion":{`+at+`}`).Perforated()
		switch {
		case want == "" && (err != nil || p.String != 0 || math.Abs(float64(p.From)/units.Foot-2900) > 1e-9):
			t.Errorf("%s: got %+v, %v", at, p, err)
		case want != "" && err != well.Absent(want):
			t.Errorf("%s: got %v, want %q", at, err, want)
		}
	}
}
