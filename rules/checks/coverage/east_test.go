package coverage_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/coverage"
)

// lateral is a well on land, the rotary 20 ft over the ground, vertical to
// 6,000 ft and built to horizontal over 1,500 ft: a quarter circle of radius
// 1,500/(pi/2) = 954.9297 ft, so that it runs on at 6,954.9297 ft true vertical.
const lateral = `"units":"field","well":{"name":"D","setting":"onshore","purpose":"gas","class":"development"},
 "depth_reference":{"above_ground":20},
 "survey":[{"md":0,"inclination":0,"azimuth":0},{"md":6000,"inclination":0,"azimuth":0},{"md":7500,"inclination":90,"azimuth":0},{"md":12000,"inclination":90,"azimuth":0}],
 "sections":[
  {"name":"one","bit":17.5,"from":20,"to":1000,"mud_type":"fresh_water"},
  {"name":"two","bit":8.5,"from":1000,"to":12000,"mud_density":10,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":20,"shoe":1000,"float_collar":960,
   "centralizers":[{"from":20,"to":400,"spacing":100},{"from":600,"to":980,"spacing":120}],
   "segments":[{"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}],
   "stages":[{"name":"primary","excess":"50 %","fluids":[
    {"name":"lead","kind":"lead","sacks":300,"yield":2.4},{"name":"tail","kind":"tail","sacks":150,"yield":1.18}]}]},
  {"name":"production","role":"production","section":"two","top":20,"shoe":12000,"top_of_cement":5500,
   "segments":[{"from":20,"to":6000,"od":5.5,"weight":20,"grade":"P110","connection":"BTC"},{"from":6000,"to":12000,"od":5.5,"weight":20,"grade":"P110","connection":"BTC","condition":"used"}]}],
 "formations":[{"name":"Loose sand","top":20,"competent":false,"contents":"fresh_water"},{"name":"Hard shale","top":220,"competent":true},{"name":"Gas shale","top":6900,"contents":"gas"}],
 "water":[{"name":"letter","kind":"base_of_protected_water","depth":400}],
 "completion":{"perforated_from":8000,"perforated_to":11900,"annulus_pressure":300}`

func without(t *testing.T, plan, part string) string {
	t.Helper()
	if strings.Count(plan, part) != 1 {
		t.Fatalf("%q stands %d times in the plan, want once", part, strings.Count(plan, part))
	}
	return strings.Replace(plan, part, "", 1)
}

func TestEastMeasures(t *testing.T) {
	measure(t, lateral, []want{
		{check: coverage.ShoeIntoRock, subject: "surface", value: "780 ft"}, // 1,000 - 220
		{check: coverage.LowestCentralizer, subject: "surface", value: "20 ft"},
		{check: coverage.LowestCentralizer, subject: "production", missing: "the centralizers of production"},
		{check: coverage.UncentralizedLength, subject: "surface", value: "200 ft"}, // 400 to 600
		{check: coverage.NewPipe, subject: "surface", value: "yes"},
		{check: coverage.NewPipe, subject: "production", value: "no"},
		{check: coverage.DepthBelowGround, subject: "well", value: "6934.929659 ft"}, // 6,954.9297 - 20
		{check: coverage.TopAboveDepth, subject: "production", value: "1454.929659 ft"},
		{check: coverage.AbovePerforations, subject: "production", value: "1454.929659 ft"},
		{check: coverage.FreshWater, subject: "well", value: "yes"},
		{check: coverage.HeldInside, subject: "surface", value: "300 psi"},
		{check: coverage.HeldInside, subject: "production", absent: "isn't the one held"},
		{check: coverage.Sacks, subject: "surface", value: "450 sk"},
		{check: coverage.Sacks, subject: "production", missing: "the slurries of production"},
		{check: coverage.AnnulusFill, subject: "production", missing: "the slurries of production"},
		{check: coverage.AboveWater, subject: "production", absent: "string before covers"},
	})
}

func TestEastMissing(t *testing.T) {
	measure(t, without(t, lateral, `,"competent":true`), []want{
		{check: coverage.ShoeIntoRock, subject: "surface", missing: "where consolidated rock begins: a formation stated competent"},
	})
	measure(t, without(t, lateral, `"perforated_from":8000,`), []want{
		{check: coverage.AbovePerforations, subject: "production", missing: "the top perforation"},
	})
	measure(t, without(t, lateral, `,"annulus_pressure":300`), []want{
		{check: coverage.HeldInside, subject: "surface", absent: "no annulus pressure is planned"},
	})
	dry := without(t, without(t, lateral, `,"contents":"fresh_water"`), `"water":[{"name":"letter","kind":"base_of_protected_water","depth":400}],`+"\n ")
	measure(t, dry, []want{
		{check: coverage.FreshWater, subject: "well", value: "no"},
		{check: coverage.AboveWater, subject: "production", missing: "the base of protected water"},
	})
	measure(t, without(t, lateral, `,"yield":1.18`), []want{
		{check: coverage.Sacks, subject: "surface", value: "450 sk"},
		{check: coverage.AnnulusFill, subject: "surface", missing: "the volume of tail, or its sacks and yield"},
	})
	measure(t, strings.Replace(lateral, `"top_of_cement":5500`, `"cemented":false`, 1), []want{
		{check: coverage.TopAboveDepth, subject: "production", value: "0 ft"}, // its shoe lies at the deepest level
		{check: coverage.Sacks, subject: "production", absent: "isn't cemented"},
	})
}

// TestAboveWater has the base of fresh water, 1,500 ft below the ground and so
// 1,520 ft below the rotary, in the open hole of the production string.
func TestAboveWater(t *testing.T) {
	deep := strings.Replace(lateral, `"depth":400`, `"depth":1500`, 1)
	measure(t, deep, []want{
		{check: coverage.AboveWater, subject: "production", value: "-3980 ft"}, // 1,520 - 5,500
		{check: coverage.AboveWater, subject: "surface", absent: "ends above"},
	})
	measure(t, strings.Replace(deep, `"top_of_cement":5500`, `"top_of_cement":1220`, 1), []want{
		{check: coverage.AboveWater, subject: "production", value: "300 ft"},
	})
}

// TestAnnulusFill takes volumes by hand, in cubic feet. Annulus of a 17.5 in
// hole round 13.375 in: pi/4 (17.5^2 - 13.375^2)/144 = 0.694634 ft2, over 980 ft
// 680.741. Slurry 300 x 2.4 + 150 x 1.18 = 897; in the track of 40 ft and 12.615 in
// (API Spec 5CT) 0.867967 x 40 = 34.719 stay.
func TestAnnulusFill(t *testing.T) {
	m := checktest.Measure(t, checktest.Well(t, lateral), coverage.AnnulusFill, "surface")
	want := (897 - 34.719) / 680.741
	if got := m.Result.Value.SI; !m.Result.Known || math.Abs(got-want) > 1e-5 {
		t.Errorf("fill %v (%+v), by hand %v", got, m.Result, want)
	}
}
