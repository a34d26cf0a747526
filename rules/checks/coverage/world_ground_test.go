package coverage_test

import (
	"strings"
	"testing"

	"spudgate/rules/checks/coverage"
)

const (
	predicted = `"pressures":[{"depth":0,"pore":"1.05 SG","fracture":"1.8 SG"},{"depth":2500,"pore":"1.05 SG","fracture":"1.8 SG"}]`
	poreOnly  = `"pressures":[{"depth":0,"pore":"1.05 SG"},{"depth":2500,"pore":"1.05 SG"}]`
	lowOnly   = `"pressures":[{"depth":0,"pore":"1.05 SG"},{"depth":2500,"pore":"1.05 SG","fracture_low":"1.7 SG"}]`
)

// TestGroundMeasures has what the plan tells of the ground taken away part by
// part.
func TestGroundMeasures(t *testing.T) {
	for _, c := range []struct {
		old, new         string
		fluids, fracture string
	}{
		{predicted, predicted, "yes", "yes"},
		{`"top":5,"contents":"fresh_water"`, `"top":5`, "no", "yes"},
		{`"contents":"salt_water"`, `"contents":"none"`, "yes", "yes"}, // nothing in it is said too
		{`"formations":[{"name":"Drift","top":5,"contents":"fresh_water"},{"name":"Wash sand","top":700,"base":720,"contents":"salt_water"},{"name":"Gas sand","top":2300,"base":2350,"contents":"gas"}],`, ``, "no", "yes"},
		{predicted, poreOnly, "yes", "no"},
		{predicted, lowOnly, "yes", "yes"},
	} {
		if strings.Count(meadow, c.old) != 1 {
			t.Fatalf("%q stands %d times in the plan, want once", c.old, strings.Count(meadow, c.old))
		}
		measure(t, strings.Replace(meadow, c.old, c.new, 1), []want{
			{check: coverage.FluidsStated, subject: "well", value: c.fluids},
			{check: coverage.FractureStated, subject: "well", value: c.fracture},
		})
	}
}

// TestKingdom: 1,000 ft is 304.8 m, 100 ft 30.48 m.
func TestKingdom(t *testing.T) {
	top := func(m string) []string { return []string{`"top_of_cement":5`, `"top_of_cement":` + m} }
	run(t, "united-kingdom", meadow, []trial{
		{"uk-dcr-14", "fluids", "well", nil, met},
		{"uk-dcr-14", "fluids", "well", []string{`"top":5,"contents":"fresh_water"`, `"top":5`}, not},
		{"uk-dcr-14", "pore-pressure", "well", nil, met},
		{"uk-dcr-14", "pore-pressure", "well", []string{predicted, `"pressures":[{"depth":0,"fracture":"1.8 SG"}]`}, not},
		{"uk-dcr-14", "fracture-pressure", "well", nil, met},
		{"uk-dcr-14", "fracture-pressure", "well", []string{predicted, poreOnly}, not},
		{"uk-oeuk-cement: 2,300 - 1,995 m", "unlogged-cement", "production / Gas sand", top("1995"), met},
		{"uk-oeuk-cement: 304 m", "unlogged-cement", "production / Gas sand", top("1996"), not},
		{"uk-oeuk-cement: not logged", "logged-cement", "production / Gas sand", nil, none},
		{"uk-oeuk-cement: no oil or gas", "logged-cement", "intermediate / Wash sand", nil, none},
	})
	deep := func(m string) []string { return []string{`"top_of_cement":2800`, `"top_of_cement":` + m} }
	run(t, "united-kingdom", fjord, []trial{
		{"uk-oeuk-cement: 3,200 - 3,169 m", "logged-cement", "production / Brant sand", deep("3169"), met},
		{"uk-oeuk-cement: 30 m", "logged-cement", "production / Brant sand", deep("3170"), not},
		{"uk-oeuk-cement: 400 m, but not logged", "unlogged-cement", "production / Brant sand", []string{`bond_log`, `volume`}, met},
		{"uk-oeuk-cement: logged", "unlogged-cement", "production / Brant sand", nil, none},
	})
}
