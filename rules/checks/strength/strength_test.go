package strength_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/strength"
)

// frame is a vertical well of a surface and a production string; %s are what a
// test adds to the segment, to the strings and to the plan.
func frame(segment, str, more string) string {
	return `"units":"field","well":{"name":"Test 3","vertical":true,"class":"development","purpose":"oil"},
"sections":[
 {"name":"12 hole","string":"S","bit":12.25,"from":0,"to":2000,"mud_density":9.0,"pressure_control":"diverter"},
 {"name":"8 hole","string":"P","bit":8.75,"from":2000,"to":9000,"mud_density":10.0,"pressure_control":"bop_surface"}],
"strings":[
 {"name":"S","role":"surface","shoe":2000,"top_of_cement":0,"segments":[{"od":9.625,"weight":36,"grade":"J55","connection":"STC"}]},
 {"name":"P","role":"production","shoe":9000,"top_of_cement":4000` + str + `,"segments":[{"od":7,"weight":26,"grade":"L80","connection":"LTC"` + segment + `}]}],
"pressures":[{"depth":0,"pore":8.6,"fracture":14},{"depth":9000,"pore":9.4,"fracture":15}]` + more
}

func value(t *testing.T, m rules.Measure) float64 {
	t.Helper()
	if m.Err != nil || m.Absent != "" || m.Unloaded != "" || !m.Result.Known {
		t.Fatalf("no value: %+v", m)
	}
	return m.Result.Value.SI
}

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.Abs(got-want) > relative*math.Abs(want) {
		t.Errorf("%s: got %.8g, want %.8g", what, got, want)
	}
}

// hydro is a column in psi: 12/231 psi per foot and ppg, exact.
func hydro(ppg, feet float64) float64 { return ppg * feet * 12 / 231 }

// TestGivesPlaceRefsAndSteps holds that a factor comes with what a reader
// needs, and that its last step gives it.
func TestGivesPlaceRefsAndSteps(t *testing.T) {
	w := checktest.Well(t, frame("", "", ""))
	m := checktest.Measure(t, w, strength.FullEvacuation, "P")
	f := value(t, m)
	if len(m.Refs) == 0 || m.Refs[0] == 0 || !m.At.MD.Known() || m.Note == "" {
		t.Errorf("refs %v at %v note %q", m.Refs, m.At, m.Note)
	}
	last := m.Working[len(m.Working)-1].Result
	near(t, "last step", last.SI, f, 1e-12)
	// 7 in 26 L80: collapse 5,410 published; the shoe's mud is 10 ppg at 9,000.
	near(t, "factor", f, 5410/hydro(10, 9000), 1e-6)
}

// TestInternalYieldShare: 5,000 psi on 8.34 ppg against water outside to
// cement, which all but balances it: 5,000 of 7,240 (7 in 26 L80, published)
// at the surface; deeper the fluid inside is lighter than what is outside.
func TestInternalYieldShare(t *testing.T) {
	more := `,"tests":[{"name":"set","kind":"casing","string":"P","when":"set","pressure":5000,"fluid":8.34},
{"name":"no pressure","kind":"casing","string":"P","when":"set","fluid":8.34},
{"name":"plugged","kind":"bop","string":"S","pressure":3000,"isolated":true}]`
	w := checktest.Well(t, frame("", "", more))
	m := checktest.Measure(t, w, strength.TestOverYield, "set")
	near(t, "share", value(t, m), 5000/7240.0, 1e-6)
	if m := checktest.Measure(t, w, strength.TestOverYield, "no pressure"); m.Result.Known || len(m.Result.Lacks) != 1 {
		t.Errorf("no pressure: %+v", m)
	}
	if m := checktest.Measure(t, w, strength.TestOverYield, "plugged"); m.Absent == "" {
		t.Errorf("plugged: %+v", m)
	}
}

// TestStatedRatings: 5,410 psi published collapse, 7,240 internal yield,
// 604,000 lbf body, 511,000 joint for 7 in 26 L80 LTC.
func TestStatedRatings(t *testing.T) {
	w := checktest.Well(t, frame(`,"rating_collapse":5681,"rating_internal_yield":7240,"rating_body":593000`, "", ""))
	name := "P / 7 26 L80 LTC"
	near(t, "collapse", value(t, checktest.Measure(t, w, strength.StatedCollapse, name)), 5681/5410.0-1, 1e-6)
	if v := value(t, checktest.Measure(t, w, strength.StatedInternal, name)); math.Abs(v) > 1e-9 {
		t.Errorf("internal: %v over", v)
	}
	near(t, "body", value(t, checktest.Measure(t, w, strength.StatedBody, name)), 593000/604000.0-1, 1e-6)
	if m := checktest.Measure(t, w, strength.StatedJoint, name); m.Absent == "" {
		t.Errorf("joint: %+v", m)
	}
	// The lower of stated and published is judged: body 593,000.
	b, err := w.Strength(1, "tension.running_body")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "judged body", b.Least.Rating/units.Lbf, 593000, 1e-9)
	proprietary := checktest.Well(t, strings.Replace(frame(`,"rating_collapse":9000`, "", ""), `"grade":"L80"`, `"grade":"HCL-80X"`, 1))
	if m := checktest.Measure(t, proprietary, strength.StatedCollapse, "P / 7 26 HCL-80X LTC"); m.Absent == "" {
		t.Errorf("proprietary: %+v", m)
	}
}

// TestWellheadCompression: S carries 30,000 lbf of BOP, 5,000 of head and P:
// 234,000 in air, less 10 ppg on the steel of its bottom (its mud), or as
// cemented, whichever is more.
func TestWellheadCompression(t *testing.T) {
	more := `,"wellhead":[{"name":"head","kind":"casing_head","string":"S","weight":"5000 lbf"}],"bops":[{"name":"stack","section":"8 hole","on":"S","weight":"30000 lbf"}]`
	w := checktest.Well(t, frame("", "", more))
	hung := 234000 - hydro(10, 9000)*math.Pi/4*(49-6.276*6.276)
	// 9-5/8 36 J55 body yield 564,000 published.
	near(t, "factor", value(t, checktest.Measure(t, w, strength.CompressionWellhead, "S")), 564000/(30000+5000+hung), 1e-5)
	if m := checktest.Measure(t, w, strength.CompressionWellhead, "P"); m.Absent == "" {
		t.Errorf("P: %+v", m)
	}
	bare := checktest.Well(t, frame("", "", ""))
	m := checktest.Measure(t, bare, strength.CompressionWellhead, "S")
	if m.Result.Known || len(m.Result.Lacks) != 2 {
		t.Errorf("no weights: %+v", m.Result)
	}
}

// TestTubingLeak: 2,500 psi shut in on 9 ppg to 8,500 ft; outside water of
// 1,000 kg/m3 (8.3454 ppg) throughout: the net grows down to the packer or to
// the open hole, where the least gradient of 2,000 to 9,000 ft stands: 8.6 + 0.8 x 2/9 ppg.
func TestTubingLeak(t *testing.T) {
	more := `,"completion":{"packer":8500,"packer_fluid":9}`
	text := strings.Replace(frame("", "", more), `"purpose":"oil"`, `"purpose":"oil","shut_in_tubing_pressure":2500`, 1)
	w := checktest.Well(t, text)
	m := checktest.Measure(t, w, strength.TubingLeak, "P")
	near(t, "factor", value(t, m), 7240/(2500+hydro(9-(8.6+0.8*2/9), 8500)), 1e-5)
	near(t, "place", float64(m.At.MD.V)/units.Foot, 8500, 1e-6)
	if m := checktest.Measure(t, w, strength.TubingLeak, "S"); m.Absent == "" {
		t.Error("S faces no tubing")
	}
}

// TestPumpedAndLifted: each down the casing, or on its annulus, at the surface
// where outside is nothing or at the deepest place, by hand.
func TestPumpedAndLifted(t *testing.T) {
	more := `,"completion":{"stimulation_pressure":3000,"stimulation_relief":3500,"stimulation_fluid":8.6,"stimulation_path":"casing","injection_pressure":1200,"injection_fluid":8.6,"gas_lift_pressure":1100,"annulus_pressure":400,"artificial_lift":"gas_lift"}`
	w := checktest.WellWith(t, frame("", "", more), func(a *well.Assumptions) { a.GasColumn = "gradient" })
	// 8.6 ppg inside against 8.78 in open hole; between 0 and 2,000 ft water
	// outside is lighter, so 2,000 ft is worst: 2,000 ft x (8.6 - 8.3454).
	water := 1000 / 119.82642731689663
	most := hydro(8.6-water, 2000)
	near(t, "stimulation", value(t, checktest.Measure(t, w, strength.Stimulation, "P")), 7240/(3500+most), 1e-5)
	near(t, "injection", value(t, checktest.Measure(t, w, strength.Injection, "P")), 7240/(1200+most), 1e-5)
	// Gas of 0.1 psi/ft is lighter than what is outside: worst at the surface.
	near(t, "gas lift", value(t, checktest.Measure(t, w, strength.GasLift, "P")), 7240/1100.0, 1e-5)
	// The string around: 9-5/8 36 J55 STC, internal yield 3,520; 400 psi on 10
	// ppg against the least pore gradient of its open hole, 8.6 ppg.
	near(t, "annulus", value(t, checktest.Measure(t, w, strength.AnnulusPressure, "S")), 3520/(400+hydro(10-8.6, 2000)), 1e-4)
	// Inside that annulus: 400 psi on 10 ppg outside, bled off to 10 ppg inside.
	m := checktest.Measure(t, w, strength.AnnulusOutside, "P")
	// At the top the string hangs with 198,000 lbf, 26,300 psi: the yield left is
	// 80,000 (sqrt(1 - 0.75 x 0.329^2) - 0.5 x 0.329) = 63,500 psi, for which 7 in
	// 26 lb/ft (D/t 19.34, plastic) collapses at 63,500 (3.01/19.34 - 0.0585) -
	// 1,490 = 4,680; over 400 psi, on the published face 5,410.
	if f := value(t, m); f < 4600/400.0 || f > 4850/400.0 {
		t.Errorf("annulus outside: %v", f)
	}
}

// TestEndOfCementing: 10 ppg to 4,000 ft and 15.8 below, 8.34 inside.
func TestEndOfCementing(t *testing.T) {
	str := `,"stages":[{"name":"one","kind":"primary","displacement_density":8.34,"fluids":[{"name":"spacer","kind":"spacer","density":11},{"name":"c","kind":"tail","density":15.8}]}]`
	w := checktest.Well(t, frame("", str, ""))
	m := checktest.Measure(t, w, strength.EndOfCementing, "P")
	load := hydro(10, 4000) + hydro(15.8, 5000) - hydro(8.34, 9000)
	l := m.Working[len(m.Working)-1].Inputs[1]
	near(t, "load", l.SI/units.Psi, load, 1e-6)
	if f := value(t, m); f*load > 5411 || f*load < 5000 {
		t.Errorf("rating %v: published 5,410, a little less under inside pressure", f*load)
	}
	thin := checktest.Well(t, frame("", strings.Replace(str, `"density":15.8`, `"yield":1.15`, 1), ""))
	if m := checktest.Measure(t, thin, strength.EndOfCementing, "P"); m.Result.Known || len(m.Result.Lacks) != 1 {
		t.Errorf("no density: %+v", m)
	}
}

// TestMobileFormation: 1.00 psi/ft at 6,500 ft on an empty string.
func TestMobileFormation(t *testing.T) {
	more := `,"formations":[{"name":"Salt","top":6000,"base":6500,"mobile":true}]`
	w := checktest.Well(t, frame("", "", more))
	m := checktest.Measure(t, w, strength.MobileFormation, "P")
	near(t, "load", m.Working[len(m.Working)-1].Inputs[1].SI/units.Psi, 6500, 1e-9)
	near(t, "place", float64(m.At.MD.V)/units.Foot, 6500, 1e-9)
}

// TestShock: 3 ft/s peak is 1780 x 3 psi (trade rule) on 7.549 in2.
func TestShock(t *testing.T) {
	w := checktest.Well(t, frame("", `,"peak_speed":"3 ft/s"`, ""))
	run := value(t, checktest.Measure(t, w, strength.RunningBody, "P"))
	shock := value(t, checktest.Measure(t, w, strength.ShockBody, "P"))
	force := 604000 * (1/shock - 1/run)
	near(t, "shock", force, 1780*3*math.Pi/4*(49-6.276*6.276), 0.002)
}

// TestShoeTest: an EMW of 13 at 2,000 ft on 10 ppg is 312 psi at surface.
func TestShoeTest(t *testing.T) {
	more := `,"tests":[{"name":"fit","kind":"shoe","string":"S","when":"after_drill_out","emw":13}]`
	w := checktest.Well(t, frame("", "", more))
	m := checktest.Measure(t, w, strength.ShoeTest, "S")
	near(t, "factor", value(t, m), 3520/hydro(13-8.6, 2000), 1e-4)
}

// TestWearAndMeasuredWall: burst x (1 - w); a measured wall takes 0.875's place.
func TestWearAndMeasuredWall(t *testing.T) {
	more := `,"tests":[{"name":"set","kind":"casing","string":"P","when":"set","pressure":5000,"fluid":8.34}]`
	f := func(segment string) float64 {
		return value(t, checktest.Measure(t, checktest.Well(t, frame(segment, "", more)), strength.PressureTest, "P"))
	}
	near(t, "worn", f(`,"wear":"10 %"`), 0.9*f(""), 1e-9)
	near(t, "measured", f(`,"condition":"used","measured_wall":"93 %"`), 0.93/0.875*f(""), 1e-9)
}

// TestFloated: empty below 6,000 ft in 10 ppg.
func TestFloated(t *testing.T) {
	w := checktest.Well(t, frame("", `,"floated":3000`, ""))
	m := checktest.Measure(t, w, strength.Running, "P")
	near(t, "load", m.Working[len(m.Working)-1].Inputs[1].SI/units.Psi, hydro(10, 9000), 1e-6)
}
