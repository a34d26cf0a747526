package placement_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/placement"
)

// one is 7 in 29 lb/ft to 8,000 ft in an 8-1/2 in hole under a shoe at 4,000 ft:
// spacer 40 bbl of 11 ppg, slurry 75 bbl of 15.8, displaced by the 10 ppg mud.
func one(sand, casing, stage, flow string) string {
	return `"units":"field","well":{"name":"A","vertical":true},
	"rig":{"head_pressure":5000,"line_pressure":10000,"pump_pressure":7500,"slip_length":16},
	"sections":[{"name":"12.25","bit":12.25,"to":4000,"string":"upper","mud_density":9},
	 {"name":"8.5","bit":8.5,"to":8000,"string":"casing","mud_density":10,"mud_plastic_viscosity":15,"mud_yield_point":10}],
	"formations":[{"name":"sand","top":7000,"base":7200,"contents":"gas"` + sand + `},{"name":"under","top":7200}],
	"pressures":[{"depth":0,"pore":8.6,"fracture":14},{"depth":4000,"pore":8.6,"fracture":14},{"depth":8000,"pore":9.5,"fracture":17}],
	"strings":[{"name":"upper","role":"intermediate","section":"12.25","top":0,"shoe":4000,
	  "segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC"}]},
	 {"name":"casing","role":"production","section":"8.5","top":0,"shoe":8000,"float_collar":7920,"top_of_cement":5000` + casing + `,
	  "segments":[{"od":7,"weight":29,"grade":"L80","connection":"LTC"}],
	  "stages":[{"name":"primary","excess":0,"top_plug":true,"rate":1,"mix_rate":1` + stage + `,"fluids":[
	   {"name":"spacer","kind":"spacer","density":11,"volume":40` + flow + `},{"name":"tail","kind":"tail","density":15.8,"volume":75` + flow + `}]}]}]`
}

const (
	flowing = `,"plastic_viscosity":30,"yield_point":12`
	job     = "casing / primary"
)

func value(t *testing.T, w *well.Well, c *rules.Check, subject string) float64 {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if !m.Result.Known || m.Err != nil {
		t.Fatalf("%s: %v %v %q", c.Name, m.Err, m.Result.Lacks, m.Absent)
	}
	if len(m.Refs) == 0 || m.Refs[0] == 0 {
		t.Errorf("%s: nowhere to go", c.Name)
	}
	for _, s := range m.Working {
		if err := s.Check(); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
	}
	return m.Result.Value.SI
}

// By hand, in ft and ppg: cement rises to 4,810.8 ft, spacer to 3,020 or so
// (bbl: bore 6.184^2/1029.4142, annulus (8.5^2 - 49)/1029.4142 below 4,000 ft, of
// 8.681 in above); 1 psi is 1 ppg over 19.25 ft.
func TestByHand(t *testing.T) {
	w := checktest.Well(t, one("", `,"bump_pressure":1500`, "", ""))
	const k = 1029.4142
	cement := 8000 - (75-80*6.184*6.184/k)/((8.5*8.5-49)/k)
	wash := 4000 - (40-(cement-4000)*(8.5*8.5-49)/k)/((8.681*8.681-49)/k)
	out := (10*wash + 11*(cement-wash) + 15.8*(8000-cement)) / 19.25
	in := (10*7920 + 15.8*80) / 19.25
	for _, c := range []struct {
		check *rules.Check
		want  float64
		unit  float64
	}{
		{placement.FractureSpareStill, (14*4000 - 10*wash - 11*(4000-wash)) / 19.25, units.Psi},
		{placement.HeadStill, (out - in) / 5000, 1},
		{placement.BumpSpare, 1500 - (out - in), units.Psi},
		{placement.LiftSpareStill, 29*8000 + in*math.Pi/4*6.184*6.184 - out*math.Pi/4*49, units.Lbf},
	} {
		if got := value(t, w, c.check, job) / c.unit; math.Abs(got-c.want) > 2e-4*math.Abs(c.want) {
			t.Errorf("%s: got %.6g, want %.6g", c.check.Name, got, c.want)
		}
	}
	// The gas sand is held back least by mud alone, before spacer comes by: its
	// pore pressure is 8.6 + 0.9 x 3/4 ppg at 7,000 ft.
	want := (10 - 8.6 - 0.9*0.75) * 7000 / 19.25
	if got := value(t, w, placement.PoreSpare, job) / units.Psi; math.Abs(got-want) > 1e-3*want {
		t.Errorf("over pore pressure: got %v, want %v", got, want)
	}
	// Slurry as light as mud doesn't fall: 40 bbl at 1 bbl/min pass in 40 min.
	even := checktest.Well(t, strings.NewReplacer(`"density":11`, `"density":10`, `"density":15.8`, `"density":10`).Replace(one("", "", "", "")))
	if got := value(t, even, placement.Contact, "casing / sand") / 60; math.Abs(got-40) > 1e-6 {
		t.Errorf("contact %v min", got)
	}
	if got := value(t, even, placement.FreeFall, job); got != 0 {
		t.Errorf("alike fluids fall %v", got)
	}
	if got := value(t, w, placement.FreeFall, job); got <= 0 || got > 0.5 {
		t.Errorf("free fall %v", got)
	}
}

// Friction is added at the rock and the head, and takes from the lift.
func TestFriction(t *testing.T) {
	w := checktest.Well(t, one("", `,"bump_pressure":1500`, "", flowing))
	if value(t, w, placement.FrictionKnown, job) != 0 || !checktest.Measure(t, w, placement.FrictionKnown, job).Result.Value.Truth {
		t.Fatal("all is given for friction")
	}
	if value(t, w, placement.FractureSpare, job) >= value(t, w, placement.FractureSpareStill, job) {
		t.Error("friction leaves more under fracture pressure")
	}
	if value(t, w, placement.Head, job) <= value(t, w, placement.HeadStill, job) {
		t.Error("friction asks less of the head")
	}
	if value(t, w, placement.LiftSpare, job) >= value(t, w, placement.LiftSpareStill, job) {
		t.Error("friction doesn't lift")
	}
	if m := checktest.Measure(t, w, placement.FractureSpare, job); !strings.Contains(m.Note, "equivalent density") {
		t.Errorf("note %q", m.Note)
	}
}

// How the head is held decides which number is judged; the note says both.
func TestHeadHeld(t *testing.T) {
	casing, rig := `,"head_held":"casing"`, `,"head_held":"rig"`
	for stage, says := range map[string]string{"": "head taken as screwed to the casing, the plan doesn't say; held by the rig ", casing: "head screwed to the casing; held by the rig ", rig: "head held by the rig; screwed to the casing "} {
		m := checktest.Measure(t, checktest.Well(t, one("", "", stage, "")), placement.LiftSpareStill, job)
		if !strings.HasPrefix(m.Note, says) {
			t.Errorf("%s: note %q", stage, m.Note)
		}
	}
	on := value(t, checktest.Well(t, one("", "", casing, "")), placement.LiftSpareStill, job)
	if held := value(t, checktest.Well(t, one("", "", rig, "")), placement.LiftSpareStill, job); held <= on {
		t.Errorf("the rig holds it down by %v, the casing alone by %v", held, on)
	}
}

func lacks(m rules.Measure) string {
	var out []string
	for _, l := range m.Result.Lacks {
		out = append(out, l.Input)
	}
	return strings.Join(out, "; ")
}

func TestMissing(t *testing.T) {
	bare := checktest.Well(t, one("", "", "", ""))
	noRig := checktest.Well(t, strings.Replace(one("", "", "", ""), `"head_pressure":5000,"line_pressure":10000,"pump_pressure":7500,`, "", 1))
	const flow = "the rheology of spacer of casing; the rheology of tail of casing"
	for _, c := range []struct {
		w       *well.Well
		check   *rules.Check
		subject string
		want    string
	}{
		{bare, placement.FractureSpare, job, flow},
		{bare, placement.Head, job, flow},
		{bare, placement.LiftSpare, job, flow},
		{bare, placement.BumpSpare, job, "the bump pressure of casing"},
		{bare, placement.SurgeSpare, "casing", "the running speed of casing"},
		{bare, placement.Standoff, "casing / sand", "the centralizers of casing"},
		{bare, placement.Centralized, "casing / sand", "the centralizers of casing"},
		{noRig, placement.HeadStill, job, "the rating of the cementing head; the rating of the cementing line; the rating of the pump"},
	} {
		if got := lacks(checktest.Measure(t, c.w, c.check, c.subject)); got != c.want {
			t.Errorf("%s: got %q, want %q", c.check.Name, got, c.want)
		}
	}
	// One rating known: its number counts, the others are waited for.
	part := checktest.Well(t, strings.Replace(one("", "", "", ""), `"line_pressure":10000,"pump_pressure":7500,`, "", 1))
	if m := checktest.Measure(t, part, placement.HeadStill, job); !m.Result.Known || len(m.Gaps) != 2 {
		t.Errorf("known %v, gaps %v", m.Result.Known, m.Gaps)
	}
	if m := checktest.Measure(t, bare, placement.FrictionKnown, job); !m.Result.Known || m.Result.Value.Truth || !strings.Contains(m.Note, flow) {
		t.Errorf("friction: %+v", m)
	}
	noSlips := checktest.Well(t, strings.Replace(one("", "", "", ""), `,"slip_length":16`, "", 1))
	for _, s := range rules.Subjects(noSlips.Plan, rules.Segment, noSlips.ZonesOf)[1:] {
		if got := lacks(placement.Slips.Measure(noSlips, s)); got != "the contact length of the casing slips" {
			t.Errorf("slips: %q", got)
		}
	}
}

// What comes of centralizers, slips and speed is worked out in package well and
// tested by hand there; the checks hand it on with their steps.
func TestHandedOn(t *testing.T) {
	w := checktest.Well(t, one("", `,"peak_speed":"1 ft/s","centralizers":[{"from":6000,"to":8000,"kind":"rigid","od":8.25,"spacing":40}]`, "", ""))
	g, err := w.Surge(1)
	if err != nil || value(t, w, placement.SurgeSpare, "casing") != float64(g.Spare) {
		t.Error(err)
	}
	if m := checktest.Measure(t, w, placement.SurgeSpare, "casing"); !strings.Contains(m.Note, "at most "+units.Show(float64(g.Fastest), units.Speed, units.Field, false)) {
		t.Errorf("note %q", m.Note)
	}
	// In a vertical hole the rigid centralizer's play is all: (0.75 - 0.125)/0.75.
	if got := value(t, w, placement.Standoff, "casing / sand"); math.Abs(got-0.625/0.75) > 1e-9 {
		t.Errorf("standoff %v", got)
	}
	if !checktest.Measure(t, w, placement.Centralized, "casing / sand").Result.Value.Truth {
		t.Error("centralizers cover the sand")
	}
	for _, s := range rules.Subjects(w.Plan, rules.Segment, w.ZonesOf) {
		if m := placement.Slips.Measure(w, s); !m.Result.Known || m.Result.Value.SI <= 0 || len(m.Working) != 2 {
			t.Errorf("%s: %+v", s.Name, m)
		}
	}
}

// Wells as they are drilled every day raise no alarm: each check gives nothing to
// measure, or a number, never a fault; and never a lack of what such a job
// doesn't have.
func TestNormalWells(t *testing.T) {
	for name, c := range map[string]struct{ text, subject, absent string }{
		"driven conductor": {`"units":"field","well":{"name":"A","vertical":true},"strings":[{"name":"pipe","role":"conductor","set_by":"driven","top":0,"shoe":100,
		  "segments":[{"od":20,"weight":94,"grade":"K55","connection":"BTC"}],"stages":[{"name":"none","fluids":[]}]}]`, "pipe / none", "the string isn't cemented"},
		"top-up":        {one("", "", `,"kind":"top_up"`, ""), job, "a top-up job is pumped down the annulus"},
		"foam":          {one("", "", `,"kind":"foam"`, ""), job, "foamed slurry takes another volume downhole than it's mixed at"},
		"slotted liner": {one("", `,"cemented":false`, "", ""), job, "the string isn't cemented"},
	} {
		w := checktest.Well(t, c.text)
		for _, check := range []*rules.Check{placement.FractureSpareStill, placement.FractureSpare, placement.PoreSpare, placement.HeadStill, placement.Head, placement.BumpSpare, placement.FreeFall, placement.LiftSpareStill, placement.LiftSpare, placement.FrictionKnown} {
			m := checktest.Measure(t, w, check, c.subject)
			if m.Absent != c.absent && !(check == placement.BumpSpare && m.Absent != "") {
				t.Errorf("%s, %s: %q %v %v", name, check.Name, m.Absent, m.Result, m.Err)
			}
		}
	}
	managed := checktest.Well(t, strings.Replace(one("", "", "", ""), `"name":"8.5",`, `"name":"8.5","drilled":"managed",`, 1))
	if m := checktest.Measure(t, managed, placement.PoreSpare, job); m.Absent == "" {
		t.Error("back pressure isn't in the plan of the job")
	}
	dry := checktest.Well(t, one(`,"flow":false`, "", "", ""))
	if m := checktest.Measure(t, dry, placement.PoreSpare, job); m.Absent == "" {
		t.Error("no open zone flows")
	}
}

// A liner is followed through the pipe it is run on, up past its top; a conductor
// cemented through an inner string, and a riserless hole to the sea bed.
func TestOtherWays(t *testing.T) {
	liner := strings.Replace(one("", `,"running_string_id":"4.276 in"`, "", ""), `"role":"production","section":"8.5","top":0`, `"role":"production_liner","section":"8.5","top":3700`, 1)
	inner := one("", `,"running_string_id":"4.276 in"`, `,"kind":"inner_string"`, "")
	sea := strings.Replace(one("", "", "", ""), `"well":{"name":"A",`, `"depth_reference":{"above_sea_level":80,"water_depth":1000},"well":{"setting":"offshore_subsea_bop","name":"A",`, 1)
	sea = strings.Replace(sea, `"name":"12.25",`, `"name":"12.25","returns":"seabed",`, 1)
	sea = strings.Replace(sea, `"name":"8.5",`, `"name":"8.5","riser_bore":19,`, 1)
	sea = strings.ReplaceAll(sea, `"top":0,`, `"top":1080,`)
	sea = strings.Replace(sea, `"float_collar":7920`, `"running_string_id":"4.276 in","float_collar":7920`, 1)
	for name, c := range map[string]struct {
		text   string
		absent string // of lift
	}{
		"liner":  {liner, "the string hangs on the pipe that runs it"},
		"inner":  {inner, ""},
		"subsea": {sea, "the string is landed in the subsea wellhead"},
	} {
		w := checktest.Well(t, c.text)
		for _, check := range []*rules.Check{placement.FractureSpareStill, placement.PoreSpare, placement.HeadStill, placement.FreeFall} {
			if v := value(t, w, check, job); math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s, %s: %v", name, check.Name, v)
			}
		}
		if m := checktest.Measure(t, w, placement.LiftSpareStill, job); m.Absent != c.absent || m.Err != nil {
			t.Errorf("%s: lift %q %v", name, m.Absent, m.Err)
		}
	}
}

// What excess adds to the hole can't be counted on: a note names the hole that
// governs, and the check's number is that of it. By hand as in TestByHand; the
// hole planned takes twice what the gauge one takes.
func TestGaugeHoleGoverns(t *testing.T) {
	excess := strings.Replace(one("", `,"bump_pressure":1500`, "", ""), `"excess":0`, `"excess":"100 %"`, 1)
	w, gauge := checktest.Well(t, excess), checktest.Well(t, one("", `,"bump_pressure":1500`, "", ""))
	for _, c := range []*rules.Check{placement.FractureSpareStill, placement.HeadStill, placement.LiftSpareStill, placement.BumpSpare} {
		if got, want := value(t, w, c, job), value(t, gauge, c, job); math.Abs(got-want) > 1e-6*math.Abs(want) {
			t.Errorf("%s: got %v, at gauge %v", c.Name, got, want)
		}
		if m := checktest.Measure(t, w, c, job); !strings.HasSuffix(m.Note, "; in a gauge hole") {
			t.Errorf("%s: note %q", c.Name, m.Note)
		}
		if m := checktest.Measure(t, gauge, c, job); strings.Contains(m.Note, "gauge") {
			t.Errorf("%s of the one hole: note %q", c.Name, m.Note)
		}
	}
}

// A second stage that begins with the first one's displacement in the string says
// so, until enough is circulated.
func TestHeldBeforeSecondStage(t *testing.T) {
	for circulated, held := range map[string]bool{"": true, `,"circulated":500`: false} {
		second := one("", "", `,"displacement_density":9`, "")
		second = strings.TrimSuffix(second, `]}]`) + `,{"name":"second","kind":"second_stage","collar":6000,"excess":0` + circulated +
			`,"fluids":[{"name":"lead","kind":"lead","density":12,"volume":30}]}]}]`
		m := checktest.Measure(t, checktest.Well(t, second), placement.FractureSpareStill, "casing / second")
		if got := strings.Contains(m.Note, "the displacement of the stage below still stands in the string"); got != held || !m.Result.Known {
			t.Errorf("%q: note %q, %v", circulated, m.Note, m.Err)
		}
	}
}
