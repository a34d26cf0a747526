package coverage_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/coverage"
)

// deep is a subsea well, sea bed at 80 + 920 = 1,000 ft, with a liner of each
// kind, the first one expandable.
const deep = `"units":"field","well":{"name":"C","setting":"offshore_subsea_bop","purpose":"oil","class":"development"},
 "depth_reference":{"above_sea_level":80,"water_depth":920},
 "sections":[
  {"name":"one","bit":26,"from":1000,"to":3000,"returns":"seabed"},
  {"name":"two","bit":12.25,"from":3000,"to":10000,"mud_density":10,"mud_type":"synthetic","pressure_control":"bop_subsea","rotating_hours":100},
  {"name":"three","bit":8.5,"from":10000,"to":12000,"mud_density":11,"mud_type":"water","pressure_control":"bop_subsea","rotating_hours":60},
  {"name":"four","bit":6,"from":12000,"to":13000,"mud_density":12,"pressure_control":"bop_subsea"}],
 "strings":[
  {"name":"drive","role":"drive","set_by":"jetted","top":1000,"shoe":1300,"segments":[{"od":36,"weight":552,"wall":1.5}]},
  {"name":"surface","role":"surface","section":"one","top":1000,"shoe":3000,"top_of_cement":1000,"wait":10,"segments":[{"od":20,"weight":133,"wall":0.635}]},
  {"name":"middle","role":"intermediate","section":"two","top":1000,"shoe":10000,"top_of_cement":7000,"segments":[{"od":9.625,"weight":47}]},
  {"name":"drilling liner","role":"drilling_liner","section":"three","hung_in":"middle","top":9800,"shoe":12000,"top_of_cement":9800,"expanded":true,"segments":[{"od":7,"weight":29}]},
  {"name":"liner","role":"production_liner","section":"four","hung_in":"drilling liner","top":11900,"shoe":13000,"top_of_cement":11900,"segments":[{"od":5,"weight":18}]}],
 "tests":[
  {"name":"drilling liner test","kind":"casing","string":"drilling liner","pressure":2500,"fluid":11},
  {"name":"lap test","kind":"liner_lap","string":"liner","pressure":3000,"fluid":12},
  {"name":"inflow","kind":"inflow","string":"liner"}],
 "approved":[{"string":"middle","shoe_tvd":10100},{"string":"liner"}],
 "barriers":[{"name":"a","string":"middle","kind":"cement"},{"name":"b","string":"middle","kind":"float"},{"name":"c","string":"middle","kind":"seal"},{"name":"d","string":"liner"}],
 "bops":[{"name":"stack","annulars":2,"pipe_rams":3,"shear_rams":2},{"name":"other","annulars":1}],
 "documents":[{"name":"Design certificate","kind":"certificate"}],
 "pressures":[{"depth":0,"pore":"9 ppg","fracture":"14 ppg"},{"depth":13000,"pore":"9 ppg","fracture":"14 ppg"}]`

type want struct {
	check   *rules.Check
	subject string
	value   string // a number in unit, yes, no or a text; empty where it has none
	missing string // an input it waits for
	absent  string // part of why there's nothing to measure
}

func measure(t *testing.T, text string, cases []want) {
	t.Helper()
	w := checktest.Well(t, text)
	for _, c := range cases {
		m := checktest.Measure(t, w, c.check, c.subject)
		switch {
		case c.absent != "":
			if !strings.Contains(m.Absent, c.absent) {
				t.Errorf("%s on %s: got %+v, want nothing to measure: %s", c.check.Name, c.subject, m, c.absent)
			}
		case c.missing != "":
			if m.Result.Known || len(m.Result.Lacks) == 0 || m.Result.Lacks[0].Input != c.missing {
				t.Errorf("%s on %s: got %+v, want missing %q", c.check.Name, c.subject, m.Result, c.missing)
			}
		default:
			hold(t, c, m)
		}
	}
}

func hold(t *testing.T, c want, m rules.Measure) {
	t.Helper()
	if !m.Result.Known {
		t.Errorf("%s on %s: not known: %v %s %v", c.check.Name, c.subject, m.Result.Lacks, m.Absent, m.Err)
		return
	}
	switch v := m.Result.Value; v.Kind {
	case expr.Truth:
		if v.Truth != (c.value == "yes") {
			t.Errorf("%s on %s: got %v, want %s", c.check.Name, c.subject, v.Truth, c.value)
		}
	case expr.Text:
		if v.Text != c.value {
			t.Errorf("%s on %s: got %s, want %s", c.check.Name, c.subject, v.Text, c.value)
		}
	default:
		n, err := units.Parse(c.value)
		one, _ := units.ByName("1")
		if err != nil || math.Abs(v.SI-n.SI(one)) > 1e-6*math.Max(1, math.Abs(v.SI)) {
			t.Errorf("%s on %s: got %v SI, want %s", c.check.Name, c.subject, v.SI, c.value)
		}
	}
}

func TestMeasures(t *testing.T) {
	vertical := strings.Replace(deep, `"name":"C"`, `"name":"C","vertical":true`, 1)
	measure(t, strings.Replace(vertical, `"depth_reference":{"above_sea_level":80,"water_depth":920},`, "", 1), []want{
		{check: coverage.BelowGround, subject: "surface", missing: "rotary height over sea level and water depth"},
		{check: coverage.ShoeBelowGround, subject: "surface", missing: "rotary height over sea level and water depth"},
	})
	measure(t, vertical, []want{
		{check: coverage.AboveShoe, subject: "middle", value: "3000 ft"},
		{check: coverage.AboveShoe, subject: "drive", value: "0 ft"},
		{check: coverage.AbovePrevious, subject: "middle", value: "-4000 ft"},
		{check: coverage.AbovePrevious, subject: "liner", value: "100 ft"},
		{check: coverage.AbovePrevious, subject: "drive", absent: "first string"},
		{check: coverage.PreviousLength, subject: "middle", value: "2000 ft"},
		{check: coverage.BelowGround, subject: "surface", value: "0 ft"},
		{check: coverage.BelowGround, subject: "middle", value: "6000 ft"},
		{check: coverage.BelowGround, subject: "drive", value: "300 ft"},
		{check: coverage.ShoeBelowGround, subject: "middle", value: "9000 ft"},
		{check: coverage.ShoeAboveHydrocarbon, subject: "surface", missing: "the formations and what they hold"},
		{check: coverage.ShoeMoved, subject: "middle", value: "100 ft"},
		{check: coverage.ShoeMoved, subject: "liner", missing: "the approved true vertical depth of the shoe of liner"},
		{check: coverage.ShoeMoved, subject: "surface", absent: "no approved depth"},
		{check: coverage.Wait, subject: "surface", value: "10 h"},
		{check: coverage.Wait, subject: "middle", missing: "the wait on cement of middle"},
		{check: coverage.Wait, subject: "drive", absent: "isn't cemented"},
		{check: coverage.TopProof, subject: "middle", value: "volume"},
		{check: coverage.Uncentralized, subject: "middle", missing: "the centralizers of middle"},
		{check: coverage.HoleOverPipe, subject: "middle", value: "2.625 in"},
		{check: coverage.HoleOverPipe, subject: "drive", absent: "no hole is drilled"},
		{check: coverage.Expanded, subject: "drilling liner", value: "yes"},
		{check: coverage.Expanded, subject: "liner", value: "no"},
		{check: coverage.Riserless, subject: "surface", value: "yes"},
		{check: coverage.Riserless, subject: "middle", value: "no"},
		{check: coverage.HungInRole, subject: "drilling liner", value: "intermediate"},
		{check: coverage.HungInRole, subject: "middle", absent: "not a liner"},
		{check: coverage.AsConductor, subject: "liner", value: "no"},
		{check: coverage.AnnulusBarriers, subject: "middle", value: "3"},
		{check: coverage.MechanicalBarriers, subject: "middle", value: "1"},
		{check: coverage.MechanicalBarriers, subject: "liner", missing: "what kind of barrier d is"},
		{check: coverage.AnnulusBarriers, subject: "surface", missing: "the barriers of the annulus of surface"},
		{check: coverage.RotatingHours, subject: "surface", value: "100 h"},
		{check: coverage.RotatingHours, subject: "middle", missing: "the rotating hours of four"},
		{check: coverage.RotatingHours, subject: "liner", absent: "no later hole"},
		{check: coverage.CementedStrings, subject: "well", value: "2"},
		{check: coverage.HasConductor, subject: "well", value: "no"},
		{check: coverage.HasSurface, subject: "well", value: "yes"},
		{check: coverage.Depth, subject: "well", value: "13000 ft"},
		{check: coverage.Certified, subject: "well", value: "yes"},
		{check: coverage.Vertical, subject: "well", value: "yes"},
		{check: coverage.BeforeSurface, subject: "one", value: "yes"},
		{check: coverage.BeforeSurface, subject: "two", value: "no"},
		{check: coverage.FreshMud, subject: "two", value: "no"},
		{check: coverage.FreshMud, subject: "three", missing: "whether the water of the mud of three is fresh"},
		{check: coverage.FreshMud, subject: "four", missing: "the base of the mud of four"},
		{check: coverage.ShearRams, subject: "stack", value: "2"},
		{check: coverage.Preventers, subject: "stack", value: "7"},
		{check: coverage.Preventers, subject: "other", missing: "the numbers of annulars, pipe rams and shear rams of other"},
		{check: coverage.InflowPlanned, subject: "well", value: "yes"},
		{check: coverage.SealPlanned, subject: "liner", value: "yes"},
		{check: coverage.SealPlanned, subject: "middle", value: "no"},
		{check: coverage.ShoePlanned, subject: "middle", value: "no"},
		{check: coverage.TreatedThrough, subject: "liner", value: "no"},
		{check: coverage.Stimulated, subject: "well", value: "no"},
		{check: coverage.TreatingPressure, subject: "well", missing: "the highest treating pressure"},
		{check: coverage.WaterToStimulated, subject: "well", missing: "the top of the stimulated formation, true vertical"},
		// 0.0519480519 psi/ft per ppg. 2,500 + 11 x 0.0519481 x 12,000 = 9,357.143
		// psi at the liner's shoe against 14 x 0.0519481 x 12,000 = 8,727.273.
		{check: coverage.TestAtShoe, subject: "drilling liner", value: "9357.143 psi"},
		{check: coverage.RockAtShoe, subject: "drilling liner", value: "8727.273 psi"},
		// The liner laps the shoe at 12,000 ft: 3,000 + 12 x 0.0519481 x 12,000.
		{check: coverage.TestAtParent, subject: "liner", value: "10480.519 psi"},
		{check: coverage.RockAtParent, subject: "liner", value: "8727.273 psi"},
		{check: coverage.TestAtShoe, subject: "middle", absent: "not a liner"},
	})
	measure(t, strings.Replace(vertical, `"pressure":2500,"fluid":11`, `"pressure":2500`, 1), []want{
		{check: coverage.TestAtShoe, subject: "drilling liner", missing: "the fluid in the hole during drilling liner test"},
		{check: coverage.RockAtShoe, subject: "drilling liner", value: "8727.273 psi"},
	})
}

// TestUncentralized by hand: a string of 1,000 ft in joints of 40 ft.
func TestUncentralized(t *testing.T) {
	for _, c := range []struct{ intervals, joints string }{
		{`{"from":0,"to":1000,"spacing":160}`, "4"},
		{`{"from":0,"to":1000,"per_joint":0.5}`, "2"},
		{`{"from":0,"to":1000,"count":11}`, "2.5"},                                                  // ten gaps of 100 ft
		{`{"from":0,"to":880,"spacing":40}`, "3"},                                                   // none on the bottom 120 ft
		{`{"from":800,"to":1000,"spacing":40},{"from":0,"to":400,"spacing":40}`, "10"},              // none from 400 to 800 ft
		{`{"from":0,"to":400,"spacing":40},{"from":800,"to":1000,"spacing":40}`, "10"},              // in whatever order
		{`{"from":200,"to":1000,"spacing":40}`, "5"},                                                // none on the top 200 ft
		{`{"from":500,"to":1000,"spacing":40},{"from":0,"to":600,"spacing":120}`, "3"},              // intervals that overlap
		{`{"from":1000,"to":1000,"count":1},{"from":0,"to":960,"spacing":80}`, "2"},                 // one on the shoe
		{`{"from":960,"to":1000,"per_joint":1},{"from":0,"to":960,"spacing":"40 m"}`, "3.28083990"}, // 131.23 ft
	} {
		w := checktest.Well(t, `"units":"field","well":{"name":"A"},"strings":[{"name":"surface","role":"surface","top":0,"shoe":1000,
		 "segments":[{"od":13.375,"weight":54.5}],"centralizers":[`+c.intervals+`]}]`)
		hold(t, want{check: coverage.Uncentralized, subject: "surface " + c.intervals, value: c.joints}, checktest.Measure(t, w, coverage.Uncentralized, "surface"))
	}
}

// TestSlurryByVolume: in a 17-1/2 in hole with 13-3/8 in pipe the annulus takes
// (17.5^2 - 13.375^2)/1029.4142 = 0.1237203 bbl/ft; 61.86015 bbl of tail round
// the shoe, with no float collar's track below (inner string), is 500 ft.
func TestSlurryByVolume(t *testing.T) {
	w := checktest.Well(t, `"units":"field","well":{"name":"A","vertical":true},
	"sections":[{"name":"17.5","bit":17.5,"to":3000,"string":"surface","mud_density":9}],
	"strings":[{"name":"surface","role":"surface","section":"17.5","top":0,"shoe":3000,"segments":[{"od":13.375,"weight":54.5}],
	 "stages":[{"name":"primary","kind":"inner_string","excess":"0 %","wait":12,"fluids":[{"name":"spacer","kind":"spacer","volume":"40 bbl"},
	  {"name":"lead","kind":"lead","volume":"200 bbl","strengths":[{"time":8,"strength":100,"place":"top"},{"time":16,"strength":300,"place":"top"},{"time":8,"strength":900,"place":"shoe"}]},
	  {"name":"tail","kind":"tail","volume":"61.86015 bbl","strengths":[{"time":16,"strength":900}]}]}]}]`)
	for _, c := range []want{
		{check: coverage.SlurryBottom, subject: "surface / primary / tail", value: "0 ft"},
		{check: coverage.SlurryBottom, subject: "surface / primary / spacer", absent: "not a slurry"},
		{check: coverage.StrengthAtWait, subject: "surface / primary / lead", value: "200 psi"}, // half way from 100 to 300
		{check: coverage.StrengthDay, subject: "surface / primary / lead", value: "300 psi"},
		{check: coverage.StrengthThreeDays, subject: "surface / primary / tail", value: "900 psi"},
		{check: coverage.StrengthAtWait, subject: "surface / primary / tail", missing: "a compressive strength of tail at or before the planned wait"},
	} {
		m := checktest.Measure(t, w, c.check, c.subject)
		switch {
		case c.absent != "":
			if m.Absent != c.absent {
				t.Errorf("%s: %+v", c.subject, m)
			}
		case c.missing != "":
			if len(m.Result.Lacks) != 1 || m.Result.Lacks[0].Input != c.missing {
				t.Errorf("%s: %+v", c.subject, m.Result)
			}
		default:
			hold(t, c, m)
		}
	}
	m := checktest.Measure(t, w, coverage.SlurryBottom, "surface / primary / lead")
	if ft := m.Result.Value.SI / units.Foot; math.Abs(ft-500) > 0.001 {
		t.Errorf("lead begins %v ft above the shoe, want 500", ft)
	}
}

// TestFacts are facts that turn on one member of the plan.
func TestFacts(t *testing.T) {
	const head = `"units":"field","well":{"name":"A"},`
	measure(t, head+`"strings":[{"name":"pile","role":"drive","top":0,"shoe":300,"segments":[{"od":30,"weight":310,"wall":1}]},
	 {"name":"short","role":"drilling_liner","hung_in":"pile","top":200,"shoe":900,"segments":[{"od":20,"weight":133}]}]`, []want{
		{check: coverage.AsConductor, subject: "short", value: "yes"},
		{check: coverage.AsConductor, subject: "pile", absent: "not a liner"},
		{check: coverage.HungInRole, subject: "short", value: "drive"},
		{check: coverage.Vertical, subject: "well", missing: "the path, or that the hole is vertical"},
		{check: coverage.Certified, subject: "well", value: "no"},
		{check: coverage.InflowPlanned, subject: "well", value: "no"},
		{check: coverage.Depth, subject: "well", missing: "the hole sections"},
	})
	measure(t, head+`"survey":[{"md":0,"inclination":0},{"md":1000,"inclination":4.9}]`, []want{{check: coverage.Vertical, subject: "well", value: "yes"}})
	measure(t, head+`"survey":[{"md":0,"inclination":0},{"md":1000,"inclination":5.1}]`, []want{{check: coverage.Vertical, subject: "well", value: "no"}})
	const production = `"strings":[{"name":"production","role":"production","top":0,"shoe":900,"segments":[{"od":7,"weight":26}]}],`
	measure(t, head+production+`"completion":{"stimulation_pressure":5000}`, []want{
		{check: coverage.TreatedThrough, subject: "production", missing: "whether the treatment goes down casing or tubing"},
		{check: coverage.TreatingPressure, subject: "well", value: "5000 psi"},
		{check: coverage.Stimulated, subject: "well", value: "yes"},
	})
	measure(t, head+production+`"completion":{"stimulation_pressure":5000,"stimulation_path":"tubing"}`, []want{{check: coverage.TreatedThrough, subject: "production", value: "no"}})
	measure(t, head+production+`"completion":{"stimulation_pressure":5000,"stimulation_path":"casing"}`, []want{{check: coverage.TreatedThrough, subject: "production", value: "yes"}})
}
