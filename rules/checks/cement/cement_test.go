package cement_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/cement"
	"spudgate/rules/checks/checktest"
)

// two is a surface string to 1,000 ft and a production string to 6,000 ft; the
// job is the production string's stages, more its other members.
func two(job, more string) string {
	return `"units":"field","well":{"name":"B","vertical":true},
	"rig":{"head_pressure":5000,"line_pressure":10000,"pump_pressure":7500},
	"formations":[{"name":"sand","top":4000,"contents":"gas"},{"name":"shale","top":4200}],
	"pressures":[{"depth":0,"pore":"8.6 ppg","fracture":"13 ppg"},{"depth":7000,"pore":"8.6 ppg","fracture":"13 ppg"}],
	"sections":[{"name":"12.25","bit":12.25,"to":1000,"string":"surface","mud_density":9},
	            {"name":"8.5","bit":8.5,"to":6000,"string":"production","mud_density":9}],
	"strings":[{"name":"surface","role":"surface","section":"12.25","top":0,"shoe":1000,"top_of_cement":"surface",
	   "segments":[{"od":9.625,"weight":40,"grade":"K55","connection":"LTC","range":"R3"}]},
	  {"name":"production","role":"production","section":"8.5","top":0,"shoe":6000,"float_collar":5920` + more + `,
	   "segments":[{"od":5.5,"weight":17,"grade":"L80","connection":"LTC","range":"R3"}],
	   "stages":[` + job + `]}]`
}

const primary = `{"name":"primary","kind":"primary","excess":"15 %","top_plug":true,"rate":5,"mix_rate":5,"plug_time":15,"displacement":137,
 "displacement_density":8.4,"wait":24,"bump_pressure":1500,"fluids":[
 {"name":"spacer","kind":"spacer","density":10,"volume":"60 bbl"},
 {"name":"tail","kind":"tail","density":15.8,"class":"G neat","volume":"60 bbl","top":5000,"thickening_time":3,"free_fluid":"0 %",
  "strengths":[{"time":12,"strength":400,"place":"shoe"},{"time":36,"strength":1600,"place":"shoe"}]}]}`

// num is the SI value of a measure; a working that doesn't give its own result
// fails the test.
func num(t *testing.T, w *well.Well, c *rules.Check, subject string) float64 {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if !m.Result.Known {
		t.Fatalf("%s of %s: absent %q, lacks %v, error %v", c.Name, subject, m.Absent, m.Result.Lacks, m.Err)
	}
	for _, step := range m.Working {
		if err := step.Check(); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
	}
	if c.Type.Kind == expr.Truth {
		return map[bool]float64{true: 1}[m.Result.Value.Truth]
	}
	return m.Result.Value.SI
}

// Hand values. 8-1/2 x 5-1/2 is (72.25 - 30.25)/1029.4142 = 0.0407999 bbl/ft,
// with 15 % 0.0469199; ID 4.892: 23.931664/1029.4142 = 0.0232479 bbl/ft; the
// track of 80 ft 1.859828 bbl; 58.140172 bbl of tail reach 1,239.136 ft up.
const tailTop = 6000 - 1239.136

func TestNumbers(t *testing.T) {
	w := checktest.Well(t, two(primary, ""))
	const stage, tail, whole, sand = "production / primary", "production / primary / tail", "production", "production / sand"
	for _, c := range []struct {
		check   *rules.Check
		subject string
		want    float64
		unit    float64
	}{
		{cement.TopByVolume, stage, tailTop, units.Foot},
		{cement.TopShort, stage, tailTop - 5000, units.Foot},
		{cement.BelowSurface, whole, tailTop, units.Foot},
		{cement.BelowSurface, "surface", 0, units.Foot},
		{cement.FluidTopShort, tail, tailTop - 5000, units.Foot},
		{cement.Cover, sand, 4000 - tailTop, units.Foot},
		{cement.CoverShoe, whole, 1239.136, units.Foot},
		{cement.ZoneBelowShoe, sand, 3000, units.Foot},
		{cement.ZoneInString, sand, 4000, units.Foot},
		{cement.OpenLength, whole, 5000, units.Foot},
		{cement.OpenLength, "surface", 1000, units.Foot}, // nothing stands above
		{cement.StringLength, whole, 6000, units.Foot},
		{cement.ShoeTrack, whole, 80, units.Foot},
		{cement.ShoeTrackJoints, whole, 80.0 / 34, 1},
		{cement.Excess, stage, 0.15, 1},
		{cement.Contact, stage, 12, 60}, // 60 bbl at 5 bbl/min
		{cement.DisplacementPath, stage, 5920 * 23.931664 / 1029.4142, units.Barrel},
		{cement.DisplacementOff, stage, 137 - 5920*23.931664/1029.4142, units.Barrel},
		{cement.TrackVolume, stage, 1.859828, units.Barrel},
		// 3 h less 60/5 + 15 + 137/5 = 54.4 min
		{cement.ThickeningSpare, tail, 180 - 54.4, 60},
		{cement.FreeFluid, tail, 0, 1},
		{cement.StrengthAtDrillOut, whole, 1000, units.Psi}, // halfway from 400 to 1,600
		{cement.BumpPressure, stage, 1500, units.Psi},
		{cement.PumpSide, "well", 5000, units.Psi},
		// Least at the previous shoe: (13 - 9) 1,000 x 12/231 = 207.79 psi. At the
		// shoe 9 ppg to 4,760.864 ft and 15.8 below leave 809.04 psi.
		{cement.FractureSpare, stage, 207.792, units.Psi},
		// The sand at 4,000 ft, 9 against 8.6 ppg: 1,600 x 12/231 = 83.117 psi.
		{cement.PoreSpare, stage, 83.117, units.Psi},
		// At 5,920 ft: 9 x 4,760.864 + 15.8 x 1,159.136 less 8.4 x 5,920 =
		// 11,434.1 ppg ft, 593.98 psi.
		{cement.FloatDifferential, stage, 593.98, units.Psi},
	} {
		if got := num(t, w, c.check, c.subject) / c.unit; math.Abs(got-c.want) > 3e-5*math.Max(1, math.Abs(c.want)) {
			t.Errorf("%s of %s: got %.6g, want %.6g", c.check.Name, c.subject, got, c.want)
		}
	}
	for c, want := range map[*rules.Check]float64{cement.TopPlug: 1, cement.MudKeptOut: 1, cement.DensityOrder: 1} {
		if got := num(t, w, c, stage); got != want {
			t.Errorf("%s: got %v, want %v", c.Name, got, want)
		}
	}
}

// One change, one measure: what it then is. A number, "true", "false", "not
// applicable", or what it waits for.
func TestOneChange(t *testing.T) {
	const stage, tail, str = "production / primary", "production / primary / tail", "production"
	for _, c := range []struct {
		from, to, more string
		check          *rules.Check
		subject, want  string
	}{
		{`"top_plug":true,`, ``, ``, cement.TopPlug, stage, "whether primary of production has a top plug"},
		{`"kind":"primary"`, `"kind":"inner_string"`, ``, cement.TopPlug, stage, "not applicable"},
		{`"kind":"primary"`, `"kind":"top_up"`, ``, cement.DisplacementPath, stage, "not applicable"},
		{`"kind":"primary"`, `"kind":"foam"`, ``, cement.TopByVolume, stage, "not applicable"},
		{`"kind":"primary"`, `"kind":"foam"`, ``, cement.BelowSurface, str, "5000"}, // as stated for the tail
		{`"kind":"primary"`, `"kind":"foam"`, ``, cement.DensityOrder, stage, "not applicable"},
		{`"kind":"spacer",`, `"kind":"scavenger",`, ``, cement.MudKeptOut, stage, "false"},
		{`"density":10,`, `"density":9.1,`, ``, cement.DensityOrder, stage, "true"},
		{`"density":10,`, `"density":16,`, ``, cement.DensityOrder, stage, "false"},
		{`"density":10,`, `"density":8.4,`, ``, cement.DensityOrder, stage, "not applicable"},
		{`"wait":24`, `"wait":12`, ``, cement.StrengthAtDrillOut, str, "400"},
		{`"wait":24`, `"wait":100`, ``, cement.StrengthAtDrillOut, str, "1600"}, // never past the last point
		{`"wait":24`, `"wait":6`, ``, cement.StrengthAtDrillOut, str, "a compressive strength of tail at or before the planned wait"},
		{`"wait":24,`, ``, ``, cement.StrengthAtDrillOut, str, "the wait on cement of production"},
		{`"thickening_time":3,`, ``, ``, cement.ThickeningSpare, tail, "the thickening time of tail of production"},
		{`"plug_time":15,`, ``, ``, cement.ThickeningSpare, tail, "the plug time of primary of production"},
		{`"displacement":137,`, ``, ``, cement.DisplacementOff, stage, "the displacement volume of primary of production"},
		{`"kind":"primary"`, `"kind":"inner_string"`, ``, cement.DisplacementOff, stage, "the bore of the pipe production is run or cemented through"},
		{`"volume":"60 bbl","top"`, `"volume":"60 bbl","sacks":292.94,"yield":1.15,"top"`, ``, cement.VolumeOff, tail, "0.0000"}, // 336.88 ft3 both ways
		{`"volume":"60 bbl","top"`, `"volume":"60 bbl","sacks":300,"yield":1.15,"top"`, ``, cement.VolumeOff, tail, "0.0236"},    // 336.875 over 345 ft3,
		{`"volume":"60 bbl","top"`, `"sacks":300,"yield":1.15,"top"`, ``, cement.VolumeOff, tail, "not applicable"},
		// Neat class G, 5 gal/sk: (94 + 5 x 8.3454)/(1.15 x 7.48052) = 15.778 ppg.
		{`"volume":"60 bbl","top"`, `"sacks":300,"yield":1.15,"mix_water":5,"top"`, ``, cement.DensityOff, tail, "0.0014"},
		{`"density":15.8`, `"density":14.5,"mix_water":5,"yield":1.15`, ``, cement.DensityOff, tail, "0.0810"},
		{`"name":"x"`, ``, `,"cemented":false`, cement.BelowSurface, str, "not applicable"},
		{`"name":"x"`, ``, `,"cemented":false`, cement.CoverShoe, str, "not applicable"},
		{`"name":"x"`, ``, `,"cemented":false`, cement.ShoeTrack, str, "not applicable"},
		{`"name":"x"`, ``, `,"centralizers":[{"from":5700,"to":6000,"per_joint":1}]`, cement.CentralizedBottomThree, str, "true"},
		{`"name":"x"`, ``, `,"centralizers":[{"from":5925,"to":6000,"per_joint":1}]`, cement.CentralizedBottomThree, str, "false"},
		{`"name":"x"`, ``, `,"centralizers":[{"from":5700,"to":6000,"spacing":80}]`, cement.CentralizedBottomThree, str, "false"},
		{`"name":"x"`, ``, ``, cement.CentralizedBottomThree, str, "the centralizers of production"},
		{`"name":"x"`, ``, `,"centralizers_planned":10,"centralizers":[{"from":5700,"to":6000,"count":8}]`, cement.CentralizersShort, str, "2.0000"},
		{`"name":"x"`, ``, ``, cement.CentralizersShort, str, "not applicable"},
		{`"name":"x"`, ``, ``, cement.FloatRating, str, "the differential rating of the floats of production"},
		{`"name":"x"`, ``, ``, cement.Silica, tail, "the silica of tail of production"},
		{`"name":"x"`, ``, ``, cement.Silica, "production / primary / spacer", "not applicable"},
		{`"name":"x"`, ``, ``, cement.Unbroken, str, "true"},
		{`"name":"x"`, ``, ``, cement.GasFlow, "production / shale", "not applicable"},
		{`"name":"x"`, ``, ``, cement.GasFlow, "production / sand", "not applicable"}, // bare: its own finding
	} {
		w := checktest.Well(t, two(strings.Replace(primary, c.from, c.to, 1), c.more))
		if got := say(checktest.Measure(t, w, c.check, c.subject)); got != c.want {
			t.Errorf("%s of %s with %s: got %s, want %s", c.check.Name, c.subject, c.to+c.more, got, c.want)
		}
	}
}

func say(m rules.Measure) string {
	v := m.Result.Value
	switch {
	case m.Err != nil:
		return m.Err.Error()
	case m.Absent != "":
		return "not applicable"
	case !m.Result.Known:
		var out []string
		for _, l := range m.Result.Lacks {
			out = append(out, l.Input)
		}
		return strings.Join(out, "; ")
	case v.Kind == expr.Truth:
		return fmt.Sprint(v.Truth)
	case v.Dim.Line != units.Plain:
		return fmt.Sprintf("%.0f", v.SI/units.Foot)
	case v.Dim == units.Pressure:
		return fmt.Sprintf("%.0f", v.SI/units.Psi)
	}
	return fmt.Sprintf("%.4f", v.SI)
}

// A gas zone under cement, by hand: 120 bbl of tail reach (120 - 1.859828)/
// 0.0469199 = 2,517.91 ft up, to 3,482.09; 517.91 ft over the sand. Gelled to
// 500 lbf/100 ft2: 500 x 517.91/(300 x 3) = 287.73 psi. Overbalance: 9 x 3,482.09
// + 15.8 x 517.91 - 8.6 x 4,000 = 5,121.79 ppg ft, 266.07 psi. Factor 1.0814.
func TestGasFlow(t *testing.T) {
	w := checktest.Well(t, two(strings.Replace(primary, `"volume":"60 bbl","top"`, `"volume":"120 bbl","top"`, 1), ""))
	if got := num(t, w, cement.GasFlow, "production / sand"); math.Abs(got-1.0814) > 2e-3 {
		t.Errorf("got %v, want 1.0814", got)
	}
}

// Strings that are no fault: a driven conductor has no cement to judge, and a
// plan of a permit states only tops.
func TestNormalWells(t *testing.T) {
	w := checktest.Well(t, `"units":"field","well":{"name":"C","vertical":true},
	 "strings":[{"name":"drive pipe","role":"drive","set_by":"driven","top":0,"shoe":200,"segments":[{"od":20,"weight":94,"grade":"K55","connection":"welded"}]}]`)
	for _, c := range []*rules.Check{cement.BelowSurface, cement.CoverShoe, cement.ShoeTrack, cement.StrengthAtDrillOut, cement.CentralizedBottomThree, cement.Unbroken} {
		if m := checktest.Measure(t, w, c, "drive pipe"); m.Absent == "" {
			t.Errorf("%s of a driven string: %s", c.Name, say(m))
		}
	}
	w = checktest.Well(t, two("", `,"top_of_cement":3000`))
	if got := say(checktest.Measure(t, w, cement.Cover, "production / sand")); got != "1000" {
		t.Errorf("cover from the stated top: got %s, want 1000", got)
	}
}

// The end column is judged at gauge too: 15 % of excess leave no more than none.
// 235 bbl of 15.8 ppg by hand, at gauge: 1.86 stay in the track, 204.0 fill the
// 5,000 ft open; the rest stands 627 ft over the 1,000 ft shoe in 8.835 in. With
// the excess it would stop at the shoe. Least is left at 6,000 ft, of 13 ppg.
func TestExcessLeavesNoMore(t *testing.T) {
	const stage = "production / primary"
	job := strings.Replace(primary, `"volume":"60 bbl","top"`, `"volume":"235 bbl","top"`, 1)
	w := checktest.Well(t, two(job, ""))
	const k = 1029.4142
	open, cased := (8.5*8.5-5.5*5.5)/k, (8.835*8.835-5.5*5.5)/k
	over := (235 - 1.859828 - 5000*open) / cased
	want := (13*6000 - 9*(1000-over) - 15.8*(5000+over)) / 19.25
	if got := num(t, w, cement.FractureSpare, stage) / units.Psi; math.Abs(got-want) > 0.05 {
		t.Errorf("left %v psi at gauge, by hand %v", got, want)
	}
	if m := checktest.Measure(t, w, cement.FractureSpare, stage); !strings.HasSuffix(m.Note, "; in a gauge hole") {
		t.Errorf("note %q", m.Note)
	}
}
