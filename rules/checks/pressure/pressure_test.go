package pressure_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/pressure"
)

const (
	ppg  = 119.826427316897
	psi  = 6894.757293168361
	foot = 0.3048
)

// base is a vertical well with a step of pore pressure at the shoe of its
// intermediate string, 9,000 ft: 9 ppg above, 11 ppg below.
const base = `"units":"field","well":{"name":"A","class":"exploration","vertical":true},
 "depth_reference":{"above_ground":25},
 "sections":[{"name":"one","bit":17.5,"from":0,"to":2000,"mud_density":9.2,"pressure_control":"diverter"},
  {"name":"two","bit":12.25,"from":2000,"to":9000,"mud_min":9.4,"mud_max":10,"ecd":10.6,"pressure_control":"bop_surface"},
  {"name":"three","bit":8.5,"from":9000,"to":12000,"mud_min":12.4,"mud_max":13,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":0,"shoe":2000,"segments":[{"from":0,"to":2000,"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}]},
  {"name":"intermediate","role":"intermediate","section":"two","top":0,"shoe":9000,"segments":[{"from":0,"to":9000,"od":9.625,"weight":47,"grade":"L80","connection":"BTC"}]},
  {"name":"production","role":"production","section":"three","top":0,"shoe":12000,"segments":[{"from":0,"to":12000,"od":7,"weight":29,"grade":"P110","connection":"BTC"}]}],
 "formations":[{"name":"Tarn shale","top":1500,"base":3000,"contents":"none","competent":true},
  {"name":"Cairn coal","top":8800,"base":9100,"contents":"coal"},{"name":"Brant sand","top":11000,"contents":"gas","tds":"9000 ppm"}],
 "water":[{"name":"Tarn aquifer","kind":"base_of_protected_water","depth":1900,"from":"ground"},
  {"name":"least","kind":"shoe_at_least","depth":1950,"from":"rotary"},{"name":"most","kind":"shoe_at_most","depth":2100,"from":"rotary"}],
 "tests":[{"name":"shoe test","kind":"shoe","string":"surface","pressure":400,"fluid":9.2,"new_hole":10},{"name":"deep","kind":"shoe","string":"intermediate","emw":"14 ppg"}],
 "pressures":[{"depth":0,"pore":"9 ppg","fracture":"12 ppg"},{"depth":9000,"pore":"9 ppg","fracture":"14 ppg"},
  {"depth":9000,"pore":"11 ppg","fracture":"14 ppg"},{"depth":12000,"pore":"12 ppg","fracture":"15 ppg"}]`

func changed(t *testing.T, pairs ...string) *well.Well {
	t.Helper()
	return checktest.Well(t, strings.NewReplacer(pairs...).Replace(base))
}

func is(t *testing.T, w *well.Well, c *rules.Check, subject string, want, within float64) rules.Measure {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if !m.Result.Known || m.Absent != "" || m.Err != nil || math.Abs(m.Result.Value.SI-want) > within {
		t.Errorf("%s of %s: got %+v, want %.6g", c.Name, subject, m, want)
	}
	for _, step := range m.Working {
		if err := step.Check(); err != nil {
			t.Errorf("%s of %s: %v", c.Name, subject, err)
		}
	}
	return m
}

func says(t *testing.T, w *well.Well, c *rules.Check, subject string, want bool) {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if !m.Result.Known || m.Absent != "" || m.Result.Value.Truth != want {
		t.Errorf("%s of %s: got %+v, want %v", c.Name, subject, m, want)
	}
}

func lacks(t *testing.T, w *well.Well, c *rules.Check, subject, input string) {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if m.Result.Known || m.Absent != "" || len(m.Result.Lacks) != 1 || !strings.Contains(m.Result.Lacks[0].Input, input) {
		t.Errorf("%s of %s: got %+v, want %q missing", c.Name, subject, m, input)
	}
}

func absent(t *testing.T, w *well.Well, c *rules.Check, subject, why string) {
	t.Helper()
	if m := checktest.Measure(t, w, c, subject); !strings.Contains(m.Absent, why) {
		t.Errorf("%s of %s: got %+v, want not applicable: %q", c.Name, subject, m, why)
	}
}

// TestWindow: the 11 ppg below 9,000 ft isn't part of the hole that ends
// there; fracture pressure at 2,000 ft is 12 + 2 x 2/9 ppg.
func TestWindow(t *testing.T) {
	w := changed(t)
	is(t, w, pressure.MudOverPore, "two", 0.4*ppg, 1e-6)
	is(t, w, pressure.MudOverPore, "three", 0.4*ppg, 1e-6) // 12.4 - 12 at 12,000 ft
	is(t, w, pressure.FractureOverMud, "two", (12+4.0/9-10)*ppg, 1e-6)
	is(t, w, pressure.FractureOverMud, "three", 1*ppg, 1e-6)
	is(t, w, pressure.FractureOverECD, "two", (12+4.0/9-10.6)*ppg, 1e-6)
	lacks(t, w, pressure.FractureOverECD, "three", "circulating density of three")
	absent(t, w, pressure.FractureOverMud, "one", "first hole")
	w = changed(t, `"mud_min":12.4,"mud_max":13`, `"mud_min":12.4,"mud_max":13,"drilled":"air"`)
	absent(t, w, pressure.MudOverPore, "three", "air")
	lacks(t, changed(t, `"mud_min":12.4,"mud_max":13,`, ``), pressure.MudOverPore, "three", "mud density of three")
}

// TestManaged: 500 psi held at 12,000 ft is 500 / (0.0519481 x 12000) ppg.
func TestManaged(t *testing.T) {
	w := changed(t, `"mud_min":12.4,`, `"mud_min":11.5,"drilled":"managed","back_pressure":500,`)
	is(t, w, pressure.MudOverPore, "three", (11.5-12+500/(0.0519480519*12000))*ppg, 1e-3)
	w = changed(t, `"mud_min":12.4,`, `"mud_min":11.5,"drilled":"managed",`)
	lacks(t, w, pressure.MudOverPore, "three", "back pressure")
}

// TestGap: without the last row the curve ends at 9,000 ft, 3,000 ft short.
func TestGap(t *testing.T) {
	w := changed(t, `,{"depth":12000,"pore":"12 ppg","fracture":"15 ppg"}`, "", `,
  {"depth":12000,"pore":"12 ppg","fracture":"15 ppg"}`, "")
	m := checktest.Measure(t, w, pressure.MudOverPore, "three")
	if !m.Result.Known || len(m.Gaps) != 1 || !strings.Contains(m.Gaps[0].Input, "pore pressure below 9,000 ft") {
		t.Errorf("got %+v, want a gap below 9,000 ft", m)
	}
	lacks(t, w, pressure.PoreBottom, "three", "pore pressure below 9,000 ft")
}

func TestPore(t *testing.T) {
	w := changed(t)
	is(t, w, pressure.PoreBottom, "three", 12*0.0519480519*12000*psi, 10)
	is(t, w, pressure.BottomTVD, "three", 12000*foot, 1e-9)
	is(t, w, pressure.PoreSteepestTVD, "three", 12000*foot, 1e-9)
	// A regression below 9,000 ft: the steepest place is the shoe.
	w = changed(t, `"pore":"12 ppg"`, `"pore":"9 ppg"`)
	is(t, w, pressure.PoreSteepestTVD, "three", 9000*foot, 1e-9)
	is(t, w, pressure.PoreSteepest, "three", 11*0.0519480519*9000*psi, 10)
	says(t, w, pressure.MayFlow, "three", true)
	w = changed(t, `"class":"exploration"`, `"class":"development"`)
	says(t, w, pressure.MayFlow, "three", true)
	says(t, w, pressure.MayFlow, "two", false)
	w = changed(t, `"class":"exploration"`, `"class":"development"`, `"top":1500,"base":3000,"contents"`, `"contents"`)
	lacks(t, w, pressure.MayFlow, "one", "formations of one")
}

// TestWater: the base at 1,900 ft below ground is 1,925 ft below a rotary 25 ft
// up; the surface shoe at 2,000 ft is 75 ft below it.
func TestWater(t *testing.T) {
	w := changed(t)
	is(t, w, pressure.ShoeBelowWater, "surface", 75*foot, 1e-6)
	is(t, w, pressure.ShoeOverLeast, "surface", 50*foot, 1e-6)
	is(t, w, pressure.ShoeUnderMost, "surface", 100*foot, 1e-6)
	absent(t, w, pressure.ShoeBelowWater, "intermediate", "protected by surface")
	// Without a surface string the outermost cemented one protects the water.
	w = changed(t, `"role":"surface"`, `"role":"production"`)
	is(t, w, pressure.ShoeBelowWater, "surface", 75*foot, 1e-6)
	w = changed(t, `"depth_reference":{"above_ground":25},`, ``)
	lacks(t, w, pressure.ShoeBelowWater, "surface", "depth of Tarn aquifer")
	w = changed(t, `"kind":"base_of_protected_water"`, `"kind":"shoe_at_least"`)
	lacks(t, w, pressure.ShoeBelowWater, "surface", "base of protected water")
	w = changed(t, `"kind":"base_of_protected_water"`, `"kind":"shoe_at_least"`, `"vertical"`, `"setting":"offshore_surface_bop","vertical"`)
	absent(t, w, pressure.ShoeBelowWater, "surface", "no such depth")
}

func TestRock(t *testing.T) {
	w := changed(t)
	says(t, w, pressure.ShoeUnsound, "surface", false)
	says(t, w, pressure.ShoeUnsound, "intermediate", true)
	says(t, w, pressure.ShoeUnsound, "production", false)
	says(t, w, pressure.ShoeRockStated, "surface", true)
	says(t, w, pressure.ShoeRockStated, "production", false)
	for _, bad := range []string{`"competent":false`, `"competent":true,"losses":true`, `"competent":true,"mobile":true`} {
		says(t, changed(t, `"competent":true`, bad), pressure.ShoeUnsound, "surface", true)
	}
	w = changed(t, `"top":1500,"base":3000`, `"top":2500,"base":3000`)
	says(t, w, pressure.ShoeRockStated, "surface", false)
	absent(t, changed(t, `"section":"one"`, `"set_by":"driven"`), pressure.ShoeUnsound, "surface", "driven")
}

// TestShoeTest: 400 psi on 9.2 ppg at 2,000 ft is
// 9.2 + 400 / (0.0519481 x 2000) = 13.05 ppg.
func TestShoeTest(t *testing.T) {
	w := changed(t)
	is(t, w, pressure.ShoeTest, "surface", (9.2+400/(0.0519480519*2000))*ppg, 1e-3)
	is(t, w, pressure.ShoeTest, "intermediate", 14*ppg, 1e-6)
	is(t, w, pressure.ShoeTestNewHole, "surface", 10*foot, 1e-9)
	lacks(t, w, pressure.ShoeTestNewHole, "intermediate", "new hole")
	lacks(t, w, pressure.ShoeTest, "production", "a shoe test planned at production")
	lacks(t, changed(t, `"fluid":9.2,`, ``), pressure.ShoeTest, "surface", "equivalent mud weight")
	is(t, w, pressure.MudBelow, "surface", 10*ppg, 1e-6)
	is(t, w, pressure.PoreBelow, "intermediate", 12*ppg, 1e-6)
	says(t, w, pressure.ShoeDrilledOut, "surface", true)
	says(t, w, pressure.ShoeDrilledOut, "production", false)
	says(t, changed(t, `"ecd":10.6,"pressure_control":"bop_surface"`, `"pressure_control":"diverter"`), pressure.ShoeDrilledOut, "surface", false)
}

func TestZone(t *testing.T) {
	w := changed(t)
	is(t, w, pressure.ZoneTDS, "production / Brant sand", 0.009, 1e-12)
	if m := checktest.Measure(t, w, pressure.ZoneContents, "production / Brant sand"); m.Result.Value.Text != "gas" {
		t.Errorf("contents: %+v", m)
	}
	lacks(t, w, pressure.ZoneTDS, "surface / Tarn shale", "dissolved solids")
}
