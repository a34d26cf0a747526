package cement_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/fluid"
	"spudgate/plan/units"
	"spudgate/rules"
	"spudgate/rules/checks/cement"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// leadTail is a job of 100 bbl of lead and 60 bbl of tail, all that design needs
// told.
const leadTail = `{"name":"primary","kind":"primary","excess":"15 %","top_plug":true,"rate":5,"mix_rate":5,"plug_time":15,
 "displacement_density":8.4,"circulated":260,"water_on_site":200,"bulk_on_site":700,"fluids":[
 {"name":"scavenger","kind":"scavenger","density":10,"volume":"10 bbl","yield":4,"mix_water":27},
 {"name":"lead","kind":"lead","density":12.5,"volume":"100 bbl","sacks":280.7292,"yield":2,"mix_water":11,"top":2700,"fluid_loss":300,
  "strengths":[{"time":24,"strength":500,"temperature":110,"place":"top"},{"time":24,"strength":700,"temperature":140,"place":"top"}]},
 {"name":"tail","kind":"tail","density":15.8,"volume":"60 bbl","yield":1.15,"mix_water":5,"top":4800,"fluid_loss":40,"gel_transition":30,"free_fluid":"0 %"}]}`

// table is a temperature table and perforations.
const table = `"temperatures":[{"depth":0,"static":70},{"depth":7000,"static":175}],
 "completion":{"perforated_from":5600,"perforated_to":5700},`

func designed(t *testing.T, job, more string, edits ...string) func(c *rules.Check, subject string) rules.Measure {
	t.Helper()
	text := table + two(job, more)
	for i := 0; i+1 < len(edits); i += 2 {
		if !strings.Contains(text, edits[i]) {
			t.Fatalf("nothing says %q", edits[i])
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	w := checktest.Well(t, text)
	return func(c *rules.Check, subject string) rules.Measure { return checktest.Measure(t, w, c, subject) }
}

const tools = `,"top_proven_by":"bond_log","accessories":[{"name":"collar","kind":"stage_collar","depth":3000,"operating_pressure":3000}]`

// Hand values. 8-1/2 x 5-1/2 is 42/1029.4142 bbl/ft, with 15 % 48.3/1029.4142 =
// 0.0469199; 8.835 x 5.5 is 47.807225/1029.4142 = 0.0464412; ID 4.892 is
// 23.931664/1029.4142 bbl/ft, the track of 80 ft 1.859828 bbl.
func TestDesignNumbers(t *testing.T) {
	w := checktest.Well(t, table+two(leadTail, tools))
	const stage, lead, tail, str, sand = "production / primary", "production / primary / lead", "production / primary / tail", "production", "production / sand"
	for _, c := range []struct {
		check   *rules.Check
		subject string
		want    float64
		unit    float64
	}{
		{cement.Circulated, stage, 260, units.Barrel},
		{cement.PipeContents, stage, 6000 * 23.931664 / 1029.4142, units.Barrel},
		// 5,000 ft of hole at bit size and 1,000 ft of casing.
		{cement.BottomsUp, stage, (5000*42 + 1000*47.807225) / 1029.4142, units.Barrel},
		// Scavenger: 10 x 5.614583/4 = 14.0365 sacks at 27 gal; lead 280.7292 at 11;
		// tail: 60 x 5.614583/1.15 = 292.9348 sacks at 5.
		{cement.BlendNeeded, stage, 14.0365 + 280.7292 + 292.9348, units.Sack},
		{cement.MixWater, stage, (14.0365*27 + 280.7292*11 + 292.9348*5) / 42, units.Barrel},
		{cement.BlendOnSite, stage, 700, units.Sack},
		{cement.WaterOnSite, stage, 200, units.Barrel},
		{cement.FluidLoss, lead, 300, 1},
		{cement.BesideGas, lead, 1, 1}, // 2,629 to 4,761 ft, the sand at 4,000
		{cement.BesideGas, tail, 0, 1},
		{cement.BesideHydrocarbon, lead, 1, 1},
		{cement.Steepest, stage, 0, 1}, // the plan says vertical
		{cement.TailLength, stage, 1239.136, units.Foot},
		// 160 bbl less the track: 158.140172/0.0469199 = 3,370.43 ft.
		{cement.StageLength, stage, 158.140172 / (48.3 / 1029.4142), units.Foot},
		{cement.TailOverZone, sand, 4000 - tailTop, units.Foot},
		{cement.TopTestTemperature, lead, 110 + 459.67, 5.0 / 9},         // the colder of two
		{cement.TopStatic, lead, 70 + 459.67 + 105*2700.0/7000, 5.0 / 9}, // 1.5 degF/100 ft at the stated top, under that by volume
		{cement.ToolOperation, str, 3000.0 / 7740, 1},                    // 7,740 psi: API internal yield of 5-1/2 17 L80; worst at surface
		{cement.PerforationsOverCollar, str, 5920 - 5700, units.Foot},
		{cement.PerforationsCover, str, 5600 - (6000 - 3370.43), units.Foot},
		{cement.PerforationsBelowShoe, str, 4600, units.Foot},
		{cement.PerforationsInString, str, 5600, units.Foot},
		{cement.CementUnderPerforations, str, 300, units.Foot},
		{cement.PerforationsClear, str, 2600, units.Foot},
		{cement.ScavengerBetween, "production / primary / scavenger", 1, 1},
		{cement.MustIsolate, str, 1, 1},
		{cement.MustIsolate, "surface", 0, 1},
		{cement.TopProven, str, 1, 1},
		{cement.TopMeasured, str, 1, 1},
	} {
		if got := num(t, w, c.check, c.subject) / c.unit; math.Abs(got-c.want) > 3e-6*math.Max(1, math.Abs(c.want)) {
			t.Errorf("%s of %s: got %.7g, want %.7g", c.check.Name, c.subject, got, c.want)
		}
	}
}

// The zone under gelling cement of TestGasFlow: 266.07 psi over 517.91 ft of
// cement in 8-1/2 x 5-1/2; 300 x 266.07/(517.91/3) = 462.36 lbf/100 ft2, as 500
// over the potential factor 1.0814 of that test.
func TestCriticalGel(t *testing.T) {
	job := strings.Replace(primary, `"volume":"60 bbl","top"`, `"volume":"120 bbl","gel_transition":50,"top"`, 1)
	w := checktest.Well(t, two(job, ""))
	unit := units.Lbf / (100 * units.Foot * units.Foot)
	if got := num(t, w, cement.CriticalGel, "production / sand") / unit; math.Abs(got-462.36) > 0.9 {
		t.Errorf("critical gel: got %v, want 462.36", got)
	}
	if got := num(t, w, cement.CriticalGelPeriod, "production / sand"); got != 3000 {
		t.Errorf("period: got %v s, want 3,000", got)
	}
}

// API RP 10B-6, annex A (addendum 1, 2020), prints 300 pfo/(L/Deff) for psi, ft
// and in, in lbf/100 ft2, and 2.5 pfo/(L/Deff) for kPa, m and cm, in Pa. Both give
// what the formula gives: 100 psi on 1,000 ft of 8-1/2 x 5-1/2 in is 90.
func TestCriticalGelForms(t *testing.T) {
	got, err := fluid.CriticalGel(100*units.Psi, 1000*units.Foot, 8.5*units.Inch, 5.5*units.Inch)
	if err != nil {
		t.Fatal(err)
	}
	field := 300 * 100 / (1000.0 / 3)                               // lbf/100 ft2
	metric := 2.5 * (100 * 6.894757) / (1000 * 0.3048 / (3 * 2.54)) // Pa
	if math.Abs(float64(got)/(units.Lbf/(100*units.Foot*units.Foot))-field) > 1e-4 || math.Abs(float64(got)-metric) > 1e-4 {
		t.Errorf("got %v Pa, want %v Pa, %v lbf/100 ft2", got, metric, field)
	}
}

// One change, one measure.
func TestDesignChanges(t *testing.T) {
	const stage, lead, tail, str, sand = "production / primary", "production / primary / lead", "production / primary / tail", "production", "production / sand"
	second := leadTail + `,{"name":"second","kind":"second_stage","collar":3000,"fluids":[{"name":"slurry","kind":"slurry","density":13,"volume":"50 bbl"}]}`
	single := strings.Replace(primary, `"plug_time":15,`, `"plug_time":15,"circulated":300,`, 1)
	twoStage := primary + `,{"name":"second","kind":"second_stage","collar":3000,"fluids":[{"name":"slurry","kind":"slurry","density":13,"volume":"50 bbl"}]}`
	topUp := primary + `,{"name":"top-up","kind":"top_up","excess":"15 %","fluids":[{"name":"slurry","kind":"slurry","density":13,"volume":"50 bbl"}]}`
	for _, c := range []struct {
		job, more, from, to string
		check               *rules.Check
		subject, want       string
	}{
		{leadTail, tools, `"circulated":260,`, ``, cement.Circulated, stage, "the volume circulated before primary of production"},
		{leadTail, tools, `"kind":"primary"`, `"kind":"squeeze"`, cement.Circulated, stage, "not applicable"},
		{leadTail, tools, `"shoe":6000,`, `"shoe":6000,"existing":true,`, cement.Circulated, stage, "not applicable"},
		{leadTail, tools, `"float_collar":5920`, `"wait":8`, cement.PipeContents, stage, "the float collar of production"},
		{leadTail, tools, `"sacks":280.7292,"yield":2,`, ``, cement.BlendNeeded, stage, "the yield of lead"},
		{leadTail, tools, `"mix_water":11,`, ``, cement.MixWater, stage, "the mix water of lead of production"},
		{leadTail, tools, `"water_on_site":200,`, ``, cement.WaterOnSite, stage, "the mix water on site for primary of production"},
		{leadTail, tools, `"bulk_on_site":700,`, ``, cement.BlendOnSite, stage, "the cement on site for primary of production"},
		{leadTail, tools, `"fluid_loss":300,`, ``, cement.FluidLoss, lead, "the fluid loss of lead of production"},
		{leadTail, tools, `"fluid_loss":300,`, ``, cement.FluidLoss, "production / primary / scavenger", "not applicable"},
		{leadTail, tools, `"contents":"gas"`, `"contents":"oil"`, cement.BesideGas, lead, "false"},
		{leadTail, tools, `"contents":"gas"`, `"contents":"oil"`, cement.BesideHydrocarbon, lead, "true"},
		{leadTail, tools, `"volume":"100 bbl","sacks":280.7292,"yield":2,`, ``, cement.BesideGas, lead, "true"}, // planned 2,700 to 4,800
		{single, tools, `"top_plug":true,`, ``, cement.TailLength, stage, "not applicable"},
		{second, tools, `"top_plug":true,`, ``, cement.TailLength, "production / second", "not applicable"},
		{leadTail, tools, `"volume":"100 bbl","sacks":280.7292,"yield":2,`, ``, cement.TailLength, stage, "1200"}, // as planned
		{leadTail, tools, `"volume":"100 bbl","sacks":280.7292,"yield":2,"mix_water":11,"top":2700,`, ``, cement.TailLength, stage, "the volume of lead, or its sacks and yield"},
		{leadTail, tools, `"contents":"gas"`, `"contents":"salt_water"`, cement.TailOverZone, sand, "not applicable"},
		{primary, tools, `"top_plug":true,`, ``, cement.TailOverZone, sand, "not applicable"}, // bare: its own finding
		{leadTail, tools, `"temperature":110,"place":"top"`, `"temperature":110,"place":"shoe"`, cement.TopTestTemperature, lead, "333.1500"},
		{leadTail, tools, `{"time":24,"strength":500,"temperature":110,"place":"top"},{"time":24,"strength":700,"temperature":140,"place":"top"}`, ``, cement.TopTestTemperature, lead, "a strength test of lead of production at the temperature of its top"},
		{leadTail, tools, `"top_plug":true,`, ``, cement.TopTestTemperature, tail, "not applicable"},
		{single, tools, `"top_plug":true,`, ``, cement.TopTestTemperature, tail, "not applicable"},
		{leadTail, tools, `"temperatures":[{"depth":0,"static":70},{"depth":7000,"static":175}],`, ``, cement.TopStatic, lead, "static temperature"},
		{leadTail, tools, `"gel_transition":30,`, ``, cement.CriticalGelPeriod, sand, "the gel transition time of lead of production"},
		{leadTail, tools, `"contents":"gas"`, `"contents":"salt_water"`, cement.CriticalGel, sand, "not applicable"},
		{leadTail, tools, `"pore":"8.6 ppg","fracture":"13 ppg"}]`, `"pore":"14 ppg","fracture":"15 ppg"}]`, cement.CriticalGel, sand, "not applicable"}, // underbalanced
		{leadTail, tools, `"density":10,"volume":"10 bbl"`, `"density":8.9,"volume":"10 bbl"`, cement.ScavengerBetween, "production / primary / scavenger", "false"},
		{leadTail, tools, `"density":10,"volume":"10 bbl"`, `"density":12.6,"volume":"10 bbl"`, cement.ScavengerBetween, "production / primary / scavenger", "false"},
		{leadTail, tools, `"density":10,"volume":"10 bbl"`, `"density":12.5,"volume":"10 bbl"`, cement.ScavengerBetween, "production / primary / scavenger", "true"},
		{leadTail, tools, `"density":10,"volume":"10 bbl"`, `"volume":"10 bbl"`, cement.ScavengerBetween, "production / primary / scavenger", "the density of scavenger of production"},
		{leadTail, tools, `"top_plug":true,`, ``, cement.ScavengerBetween, lead, "not applicable"},

		{leadTail, tools, `"bond_log"`, `"none"`, cement.TopProven, str, "false"},
		{leadTail, tools, `"bond_log"`, `"none"`, cement.TopMeasured, str, "not applicable"},
		{leadTail, tools, `"top_proven_by":"bond_log",`, ``, cement.TopProven, str, "how the top of cement of production will be proven"},
		{leadTail, tools, `"top_proven_by":"bond_log",`, ``, cement.TopMeasured, str, "not applicable"},
		{leadTail, tools, `"bond_log"`, `"volume"`, cement.TopProven, str, "true"},
		{leadTail, tools, `"bond_log"`, `"volume"`, cement.TopMeasured, str, "false"},
		{leadTail, tools, `"bond_log"`, `"returns"`, cement.TopMeasured, str, "false"}, // the top is at 2,630 ft
		{leadTail, tools, `"volume":"100 bbl","sacks":280.7292,"yield":2,`, `"volume":"300 bbl",`, cement.TopMeasured, str, "true"},
		{leadTail, tools, `"float_collar":5920`, `"float_collar":5920,"cemented":false`, cement.TopProven, str, "not applicable"},

		// Displacement of 12 against mud of 9 ppg: at 3,000 ft 3 x 3,000 x 12/231 =
		// 467.53 psi more; 3,467.53/7,740.
		{leadTail, tools, `"displacement_density":8.4`, `"displacement_density":12`, cement.ToolOperation, str, "0.4480"},
		// A hanger is set in mud: the same pressure at every depth.
		{leadTail, strings.Replace(tools, "stage_collar", "hanger", 1), `"displacement_density":8.4`, `"displacement_density":12`, cement.ToolOperation, str, "0.3876"},
		{leadTail, tools, `,"operating_pressure":3000`, ``, cement.ToolOperation, str, "not applicable"},
		{leadTail, tools, `"depth":3000,"op`, `"op`, cement.ToolOperation, str, "the depth of the stage collar of production"},

		// 1,000 ft of casing take 46.4412 bbl, 3.5588 bbl go 75.85 ft on; the cement
		// below begins at 4,760.86 ft.
		{topUp, tools, `"top_plug":true,`, ``, cement.TopUpGap, "production / top-up", "3685"},
		{topUp, tools, `"volume":"60 bbl","top"`, `"volume":"300 bbl","top"`, cement.TopUpGap, "production / top-up", "-1076"}, // to surface
		{topUp, tools, `"volume":"50 bbl"`, `"yield":2`, cement.TopUpGap, "production / top-up", "the volume of slurry, or its sacks and yield"},
		{topUp, tools, `"top_plug":true,`, ``, cement.TopUpGap, stage, "not applicable"},

		{topUp, tools, `"contents":"gas"`, `"losses":true`, cement.TopUpPlanned, str, "true"},
		{leadTail, tools, `"contents":"gas"`, `"losses":true`, cement.TopUpPlanned, str, "false"},
		{leadTail, tools, `"contents":"gas"`, `"losses":false`, cement.TopUpPlanned, str, "not applicable"},
		{leadTail, tools, `"string":"production",`, ``, cement.TopUpPlanned, str, "not applicable"}, // the string names its section

		{twoStage, tools, `"top_plug":true,`, ``, cement.CollarRoom, "production / second", "1761"},
		{twoStage, tools, `"volume":"60 bbl","top":5000,`, `"top":5000,`, cement.CollarRoom, "production / second", "2000"}, // as planned
		{twoStage, tools, `"volume":"60 bbl","top":5000,`, ``, cement.CollarRoom, "production / second", "the volume of tail, or its sacks and yield"},
		{second, tools, `"top_plug":true,`, ``, cement.CollarRoom, "production / second", "not applicable"}, // passes it
		{twoStage, tools, `"top_plug":true,`, ``, cement.CollarRoom, stage, "not applicable"},
		{twoStage, tools, `"collar":3000`, `"collar":4100`, cement.CollarInBadRock, "production / second", "false"},
		{twoStage, tools, `"top":4000,`, `"top":2900,"losses":true,`, cement.CollarInBadRock, "production / second", "true"},
		{twoStage, tools, `"contents":"gas"`, `"contents":"coal"`, cement.CollarInBadRock, "production / second", "not applicable"}, // none listed at 3,000 ft
		{twoStage, tools, `"collar":3000`, `"collar":900`, cement.CollarInBadRock, "production / second", "not applicable"},         // inside casing

		{leadTail, tools, `"perforated_to":5700`, `"perforated_to":5950`, cement.PerforationsOverCollar, str, "-30"},
		{leadTail, tools, `,"perforated_to":5700`, ``, cement.PerforationsOverCollar, str, "the bottom of the perforations"},
		{leadTail, tools, `"perforated_from":5600,`, ``, cement.PerforationsOverCollar, str, "the top of the perforations"},
		{leadTail, tools, `"perforated_from":5600,"perforated_to":5700`, `"packer":5000`, cement.PerforationsOverCollar, str, "not applicable"},
		{leadTail, tools, `"perforated_from":5600,"perforated_to":5700`, `"perforated_from":6010,"perforated_to":6050`, cement.PerforationsOverCollar, str, "not applicable"}, // open hole
		{leadTail, tools, `"float_collar":5920`, `"float_collar":5920,"cemented":false`, cement.PerforationsCover, str, "not applicable"},                                     // slotted
		{leadTail, tools, `"top_plug":true,`, ``, cement.PerforationsCover, "surface", "not applicable"},
		{leadTail, tools, `"perforated_from":5600`, `"perforated_from":4100`, cement.PerforationsCover, str, "not applicable"}, // at the sand
		{leadTail, tools, `"perforated_to":5700`, `"perforated_to":6040`, cement.CementUnderPerforations, str, "-40"},
		{leadTail, tools, `"depth":3000`, `"depth":5650`, cement.PerforationsClear, str, "0"},
		{leadTail, tools, `"kind":"stage_collar"`, `"kind":"packer"`, cement.PerforationsClear, str, "not applicable"},
	} {
		got := say(designed(t, c.job, c.more, c.from, c.to)(c.check, c.subject))
		if got != c.want {
			t.Errorf("%s of %s with %s: got %s, want %s", c.check.Name, c.subject, c.to, got, c.want)
		}
	}
}

// The steps of the measures that only jobs in stages have.
func TestStagedWorkings(t *testing.T) {
	more := `,{"name":"second","kind":"second_stage","collar":3000,"fluids":[{"name":"slurry","kind":"slurry","density":13,"volume":"50 bbl"}]},
	 {"name":"top-up","kind":"top_up","excess":"15 %","fluids":[{"name":"slurry","kind":"slurry","density":13,"volume":"50 bbl"}]}`
	w := checktest.Well(t, two(primary+more, tools))
	if got := num(t, w, cement.CollarRoom, "production / second") / units.Foot; math.Abs(got-(tailTop-3000)) > 0.01 {
		t.Errorf("room: got %v ft", got)
	}
	// The second stage: 50 bbl reach 50/0.0469199 = 1,065.65 ft up, to 1,934.35; the
	// top-up comes down to 1,075.85.
	if got := num(t, w, cement.TopUpGap, "production / top-up") / units.Foot; math.Abs(got-(1934.35-1075.85)) > 0.05 {
		t.Errorf("gap: got %v ft", got)
	}
}

// Over 30 deg: a hole that builds to 40 deg between 1,000 and 2,000 ft.
func TestSteepest(t *testing.T) {
	survey := `"vertical":false},"survey":[{"md":0,"inclination":0,"azimuth":0},{"md":1000,"inclination":0,"azimuth":0},{"md":2000,"inclination":40,"azimuth":90},{"md":6000,"inclination":40,"azimuth":90}]`
	m := designed(t, leadTail, tools, `"vertical":true}`, survey)(cement.Steepest, "production / primary")
	if got := m.Result.Value.SI * 180 / math.Pi; math.Abs(got-40) > 1e-6 {
		t.Errorf("got %v deg, want 40", got)
	}
	m = designed(t, leadTail, tools, `"vertical":true}`, `"vertical":false}`)(cement.Steepest, "production / primary")
	if m.Result.Known || len(m.Result.Lacks) == 0 {
		t.Errorf("without a survey: %+v", m.Result)
	}
}

// Bottoms-up of a liner goes on around the drill pipe it's run on: 4-1/2 in a 6
// in hole from 5,500 to 8,000 ft under 7 in 29 lb/ft (ID 6.184) to 6,000 ft,
// on 3-1/2 in pipe. By hand: 5,500 ft of 6.184 x 3.5, 500 ft of 6.184 x 4.5 and
// 2,000 ft of 6 x 4.5: (5,500 x 25.991856 + 500 x 17.991856 + 2,000 x
// 15.75)/1029.4142 = 178.208 bbl.
func TestLinerBottomsUp(t *testing.T) {
	w := checktest.Well(t, `"units":"field","well":{"name":"L","vertical":true},
	"sections":[{"name":"8.5","bit":8.5,"to":6000,"string":"casing","mud_density":10},
	 {"name":"6","bit":6,"to":8000,"string":"liner","mud_density":11,"drill_pipe":"3.5 in","drill_collar":"4.75 in","drill_collar_length":300,"excess":"25 %"}],
	"strings":[{"name":"casing","role":"intermediate","section":"8.5","top":0,"shoe":6000,"segments":[{"od":7,"weight":29,"grade":"L80","connection":"LTC"}]},
	 {"name":"liner","role":"production_liner","section":"6","top":5500,"shoe":8000,"float_collar":7920,"hung_in":"casing","running_string_id":"2.764 in",
	  "segments":[{"od":4.5,"weight":11.6,"grade":"L80","connection":"LTC"}],
	  "stages":[{"name":"primary","kind":"primary","fluids":[{"name":"slurry","kind":"slurry"}]}]}]`)
	want := (5500*(6.184*6.184-3.5*3.5) + 500*(6.184*6.184-4.5*4.5) + 2000*(36-4.5*4.5)) / 1029.4142
	if got := num(t, w, cement.BottomsUp, "liner / primary") / units.Barrel; math.Abs(got-want) > 1e-4*want {
		t.Errorf("got %v bbl, want %v", got, want)
	}
	// 5,500 ft of pipe of 2.764 in and 2,500 ft of 4.000 in: 40.82 + 38.86 bbl.
	want = (5500*2.764*2.764 + 2500*16) / 1029.4142
	if got := num(t, w, cement.PipeContents, "liner / primary") / units.Barrel; math.Abs(got-want) > 1e-4*want {
		t.Errorf("contents: got %v bbl, want %v", got, want)
	}
}

// The requirements on a whole plan.
func TestDesignJudged(t *testing.T) {
	got := checktest.Judge(t, table+two(leadTail, tools), "good-practice", finding.PreSpud)
	for key, want := range map[string]finding.Verdict{
		"top-up-planned@surface":                             finding.NotApplicable,
		"circulated@production / primary":                    finding.Met,           // 260 of 250.4 bbl
		"circulated@surface / primary":                       "",                    // no such stage
		"perforations-over-collar@production":                finding.Met,           // 220 ft
		"perforations-cover@production":                      finding.Met,           // 2,970 ft
		"perforations-base@production":                       finding.Met,           // 300 of 50 ft
		"perforations-clear@production":                      finding.Met,           // 2,600 ft
		"fluid-loss-gas@production / primary / lead":         finding.NotMet,        // 300 of 50
		"fluid-loss-gas@production / primary / tail":         finding.NotApplicable, // no gas beside it
		"free-fluid-deviated@production / primary / tail":    finding.NotApplicable,
		"tail-length@production / primary":                   finding.Met,    // 1,239 of 500 ft
		"tail-over-zone@production / sand":                   finding.NotMet, // 761 ft below
		"lead-tested-at-top@production / primary / lead":     finding.Met,    // 110 of 119 degF
		"top-proven@production":                              finding.Met,
		"top-proven@surface":                                 finding.NotAssessed,
		"top-measured@production":                            finding.Met,
		"tool-operation@production":                          finding.Met,
		"water-on-site@production / primary":                 finding.Met, // 200 of 117.4 bbl
		"cement-on-site@production / primary":                finding.Met, // 700 of 587.7 sk
		"scavenger-density@production / primary / scavenger": finding.Met,
		"critical-gel-period@production / sand":              finding.NotAssessed, // the lead's time isn't given
	} {
		if got[key].Verdict != want {
			t.Errorf("%s: got %q (%s), want %q", key, got[key].Verdict, got[key].Reason, want)
		}
	}
}
