package coverage_test

import (
	"strings"
	"testing"

	"spudgate/rules/checks/coverage"
)

// TestWestMeasures takes the well that builds to horizontal: 1,500 ft of a
// quarter circle of radius 954.9297 ft below 6,000 ft.
func TestWestMeasures(t *testing.T) {
	measure(t, lateral, []want{
		{check: coverage.BelowFresh, subject: "surface", value: "780 ft"}, // sand ends at the shale, 220 ft
		{check: coverage.BelowPermafrost, subject: "surface", absent: "no such formation is listed"},
		{check: coverage.BelowWells, subject: "surface", absent: "gives no such depth"},
		{check: coverage.CasingBelowGround, subject: "surface", value: "980 ft"},
		{check: coverage.CasingBelowGround, subject: "production", value: "11980 ft"},
		{check: coverage.AboveShoeTVD, subject: "production", value: "1454.929659 ft"}, // 6,954.9297 - 5,500
		{check: coverage.OpensHydrocarbon, subject: "production", value: "yes"},
		{check: coverage.OpensHydrocarbon, subject: "surface", value: "no"},
		{check: coverage.Horizontal, subject: "well", value: "yes"},
		{check: coverage.CementStages, subject: "surface", value: "1"},
		{check: coverage.CementStages, subject: "production", value: "0"},
		{check: coverage.HoopOverYield, subject: "surface", missing: "the test pressure of surface"},
		{check: coverage.StrengthReached, subject: "surface / primary / lead", missing: "the compressive strength of lead of surface"},
	})
	measure(t, strings.Replace(lateral, `"inclination":90,"azimuth":0},{"md":12000,"inclination":90`, `"inclination":79,"azimuth":0},{"md":12000,"inclination":79`, 1), []want{
		{check: coverage.Horizontal, subject: "well", value: "no"},
	})
}

// TestAboveZoneUpright has the shale at 6,750 ft along the hole: half of the
// build, 45 degrees, at 6,000 + 954.9297 sin 45 = 6,675.2373 ft true vertical.
func TestAboveZoneUpright(t *testing.T) {
	half := strings.Replace(lateral, `"top":6900`, `"top":6750`, 1)
	measure(t, half, []want{
		{check: coverage.AboveZoneTVD, subject: "production / Gas shale", value: "1175.237273 ft"},
	})
	measure(t, strings.Replace(half, `"top_of_cement":5500`, `"cemented":false`, 1), []want{
		{check: coverage.AboveZoneTVD, subject: "production / Gas shale", value: "-279.692386 ft"}, // 6,675.2373 - 6,954.9297
		{check: coverage.AboveShoeTVD, subject: "production", value: "0 ft"},
	})
}

func TestWestSlurriesAndTests(t *testing.T) {
	measure(t, prairie, []want{
		{check: coverage.StrengthTwoDays, subject: productionLead, value: "250 psi"},
		{check: coverage.StrengthFourDays, subject: productionLead, value: "501 psi"},
		{check: coverage.StrengthReached, subject: surfaceLead, value: "350 psi"},
		{check: coverage.DropPressure, subject: "casing test", value: "120 psi"},
	})
	measure(t, without(t, prairie, `,"drop":"4 %"`), []want{
		{check: coverage.DropPressure, subject: "casing test", missing: "the drop allowed in casing test"},
	})
	measure(t, without(t, prairie, `"pressure":3000,`), []want{
		{check: coverage.DropPressure, subject: "casing test", missing: "the pressure of casing test"},
	})
	measure(t, tundra, []want{
		{check: coverage.BelowPermafrost, subject: "surface", value: "130 ft"},      // 2,030 - 1,900
		{check: coverage.HoopOverYield, subject: "production", value: "0.27192680"}, // 2,250 x 7/(2 x 0.362 x 80,000)
		{check: coverage.Horizontal, subject: "well", value: "no"},
	})
	measure(t, butte, []want{{check: coverage.BelowWells, subject: "surface", value: "100 ft"}}) // 1,020 - (900 + 20)
	measure(t, without(t, tundra, `,"vertical":true`), []want{
		{check: coverage.Horizontal, subject: "well", missing: "the path of the well"},
	})
}
