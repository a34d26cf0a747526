package well_test

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// surfaceJob is the cement job of the handbook's sacks-required example
// (Lapeyrouse, Formulas and Calculations for Drilling, Production and Workover,
// from memory): 13-3/8 54.5 lb/ft (ID 12.615) in a 17-1/2 in hole to 3,000 ft,
// float collar 44 ft up, lead yield 1.59, tail 1.15, 50 % excess.
func surfaceJob(stages string) string {
	return `"units":"field","well":{"name":"A","vertical":true},
	"sections":[{"name":"17.5","bit":17.5,"to":3000,"string":"surface","mud_density":9}],
	"strings":[{"name":"surface","role":"surface","section":"17.5","top":0,"shoe":3000,"float_collar":2956,
	 "segments":[{"od":13.375,"weight":54.5,"grade":"K55","connection":"STC"}],
	 "stages":[` + stages + `]}]`
}

func within(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.Abs(got-want) > relative*math.Abs(want) {
		t.Errorf("%s: got %.9g, want %.9g", what, got, want)
	}
}

// The job's printed answers are lead 1,311 sk for 2,000 ft and tail 906 sk for
// 1,000 ft (1,310.6 and 906.0 before rounding up); the shoe track takes 33.2 sk
// more (44 ft of 0.86796 ft3/ft is 38.19 ft3; over 1.15). Placed back, they must
// reach the surface to half a foot: the annulus takes 0.6946 ft3/ft x 1.5.
func TestHandbookJobReachesSurface(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"primary","excess":"50 %","fluids":[
	 {"name":"lead","kind":"lead","sacks":1310.6,"yield":1.59},{"name":"tail","kind":"tail","sacks":939.2,"yield":1.15}]}`))
	c, err := w.CementStage(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	// 1,310.6 x 1.59 + 939.2 x 1.15 = 3,163.93 ft3; less the track's 38.19,
	// 3,125.74 ft3 over 1.041957 ft3/ft (0.694638 x 1.5) is 2,999.9 ft.
	if c.Top.MD > 0.5*units.Foot {
		t.Errorf("top %v m, want surface within half a foot", c.Top.MD)
	}
	within(t, "track, ft3", float64(c.Track)/units.CuFt, 12.615*12.615*math.Pi/4/144*44, 1e-12)
	tops, err := w.FluidTops(0, 0)
	if err != nil || len(tops) != 2 {
		t.Fatal(tops, err)
	}
	// Tail: (939.2 x 1.15 - 38.19)/1.041957 = 999.9 ft above the shoe.
	within(t, "tail top, ft", float64(tops[1].Top)/units.Foot, 3000-(939.2*1.15-12.615*12.615*math.Pi/576*44)/(math.Pi/576*(17.5*17.5-13.375*13.375)*1.5), 1e-9)
}

// At gauge the same volume comes back, with 50 % it doesn't: 600 sk of tail is
// 690 ft3, less the track's 38.190 ft3, is 651.810 ft3; over 0.694638 ft3/ft gauge
// it's 938.34 ft, over 1.041957 it's 625.56 ft above 3,000.
func TestTopEnlargedAndGauge(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"primary","excess":"50 %","fluids":[{"name":"tail","kind":"tail","sacks":600,"yield":1.15}]}`))
	c, err := w.CementStage(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	left := 690 - 12.615*12.615*math.Pi/576*44
	per := math.Pi / 576 * (17.5*17.5 - 13.375*13.375)
	within(t, "top", float64(c.Top.MD)/units.Foot, 3000-left/(1.5*per), 1e-9)
	within(t, "gauge top", float64(c.GaugeTop.MD)/units.Foot, 3000-left/per, 1e-9)
	within(t, "top by hand", float64(c.Top.MD)/units.Foot, 2374.44, 5e-6)
	within(t, "gauge top by hand", float64(c.GaugeTop.MD)/units.Foot, 2061.66, 5e-6)
	top, _, err := w.TopOfCement(0)
	if err != nil || top != c.Top.MD {
		t.Errorf("top of cement %v %v, want that by volume", top, err)
	}
}

// Printed displacement 456.7 bbl is 2,956 ft x 0.1545 bbl/ft, a rounded
// capacity; 12.615^2/1029.4142 = 0.1545914, 456.972 bbl.
func TestDisplacementPath(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"primary","fluids":[]}`))
	v, err := w.Displacement(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "displacement, bbl", float64(v)/units.Barrel, 2956*12.615*12.615/1029.4142, 1e-7)
	within(t, "against print", float64(v)/units.Barrel, 456.7, 0.1546/0.1545-1)
}

// More cement never lowers the top, and a volume placed and measured again is
// the volume.
func TestMoreCementRises(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"primary","excess":"20 %","fluids":[{"name":"tail","kind":"tail","sacks":600,"yield":1.15}]}`))
	r := rand.New(rand.NewSource(1))
	last, lastSacks := units.MD(1e9), 0.0
	for range 300 {
		sacks := lastSacks + r.Float64()*20
		q := w.Plan.Clone()
		q.Strings[0].Stages[0].Fluids[0].Sacks.V = units.Kilograms(sacks * units.Sack)
		c, err := well.New(q, w.Assume).CementStage(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		if c.Top.MD > last {
			t.Fatalf("%v sacks: top %v below %v", sacks, c.Top.MD, last)
		}
		if c.Slurry > c.Track {
			back, err := c.Annulus.Volume(c.Top.MD, c.From)
			if err != nil {
				t.Fatal(err)
			}
			within(t, "volume back", float64(back+c.Track+c.Top.Returned), float64(c.Slurry), 1e-9)
		}
		last, lastSacks = c.Top.MD, sacks
	}
}

// A two-stage job with a gap planned below the collar: two sheaths.
func TestStageCollarWithGap(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"first","kind":"primary","excess":"0 %","fluids":[{"name":"tail","kind":"tail","volume":"100 bbl"}]},
	 {"name":"second","kind":"second_stage","collar":1500,"excess":"0 %","fluids":[{"name":"lead","kind":"lead","volume":"100 bbl"}]}`))
	list, err := w.Sheaths(0)
	if err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	per := (17.5*17.5 - 13.375*13.375) / 1029.4142 // bbl/ft
	within(t, "second stage top", float64(list[0].Top)/units.Foot, 1500-100/per, 1e-6)
	within(t, "first stage top", float64(list[1].Top)/units.Foot, 3000-(100-44*12.615*12.615/1029.4142)/per, 1e-6)
	if s, _ := well.SheathAt(list, 1600*units.Foot); s.Top < 1600*units.Foot {
		t.Errorf("cement at 1,600 ft, in the gap: %+v", s)
	}
}

// A top-up of 10 bbl fills the annulus down from its top.
func TestTopUp(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"first","kind":"primary","excess":"0 %","fluids":[{"name":"tail","kind":"tail","volume":"100 bbl"}]},
	 {"name":"top-up","kind":"top_up","excess":"0 %","fluids":[{"name":"neat","kind":"slurry","volume":"10 bbl"}]}`))
	list, err := w.Sheaths(0)
	if err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	within(t, "filled", float64(list[0].Bottom)/units.Foot, 10*1029.4142/(17.5*17.5-13.375*13.375), 1e-6)
	if list[0].Top != 0 {
		t.Errorf("a top-up begins at %v, want the top", list[0].Top)
	}
}

// Clocks by hand. Mixing 5 bbl/min, displacing 8 bbl/min, plugs 15 min, 400 bbl
// displaced: tail 100/5 + 15 + 400/8 = 85 min; lead 200/5 more, 125 min.
func TestClocks(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"primary","mix_rate":5,"rate":8,"plug_time":15,"displacement":400,"fluids":[
	 {"name":"spacer","kind":"spacer","volume":"40 bbl"},{"name":"lead","kind":"lead","volume":"200 bbl"},{"name":"tail","kind":"tail","volume":"100 bbl"}]}`))
	for fl, want := range map[int]float64{1: 125, 2: 85} {
		got, err := w.SlurryClock(0, 0, fl)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "clock, min", float64(got)/60, want, 1e-12)
	}
	if _, err := w.SlurryClock(0, 0, 0); err == nil {
		t.Error("a spacer has no clock")
	}
	got, _, err := w.FlushContact(&w.Plan.Strings[0].Stages[0])
	if err != nil {
		t.Fatal(err)
	}
	within(t, "contact, min", float64(got)/60, 5, 1e-12)
}

// Each missing input is named.
func TestCementMissing(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"primary","fluids":[{"name":"tail","kind":"tail","sacks":600}]}`))
	_, err := w.CementStage(0, 0)
	if err == nil || err.Error() != "missing: the volume of tail, or its sacks and yield" {
		t.Errorf("got %v", err)
	}
	_, err = w.SlurryClock(0, 0, 0)
	want := "missing: the volume of tail, or its sacks and yield; the mixing rate of primary of surface; the displacement rate of primary of surface; the plug time of primary of surface"
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// End of job by hand: 9 ppg to 1,000 ft, 12 ppg to 2,000, 15 ppg to 3,000:
// 0.0519481 (9 + 12 + 15) x 1,000 = 1,870.13 psi at the shoe. Volumes: the
// annulus takes (17.5^2 - 13.375^2)/1029.4142 = 0.1237203 bbl/ft, the track
// 0.1545914 x 44 = 6.80202 bbl.
func TestEndOfJobColumn(t *testing.T) {
	w := checktest.Well(t, surfaceJob(`{"name":"primary","excess":"0 %","displacement_density":9,"fluids":[
	 {"name":"lead","kind":"lead","density":12,"volume":"123.7203 bbl"},{"name":"tail","kind":"tail","density":15,"volume":"130.5223 bbl"}]}`))
	p, err := w.EndColumn(0, 0, 3000*units.Foot)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "column, psi", float64(p)/units.Psi, 1870.13, 1e-5)
	out, in, _, err := w.FloatDifferential(0, 0)
	if err != nil {
		t.Fatal(err)
	}
	// At 2,956 ft: 0.0519481 (9000 + 12000 + 15 x 956) = 1,835.84; inside 9 ppg
	// x 2,956 = 1,382.03.
	within(t, "float, psi", float64(out-in)/units.Psi, 1835.84-1382.03, 5e-5)
}

// Hook load by hand: 54.5 lb/ft in 9 ppg by pressure-area: 54.5 + 0.0408 x 9
// (12.615^2 - 13.375^2) = 47.25 lb/ft; x 3,000 ft = 141.8 klbf.
func TestHanging(t *testing.T) {
	w := checktest.Well(t, surfaceJob(``))
	h, err := w.Hanging(0)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "buoyed, lbf", float64(h.String)/units.Lbf, 3000*(54.5+0.0408*9*(12.615*12.615-13.375*13.375)), 1e-4)
	if h.Drag != 0 {
		t.Errorf("drag %v in a vertical hole", h.Drag)
	}
	within(t, "overpull, lbf", float64(h.Overpull)/units.Lbf, 100000, 1e-12) // the least of 100,000 and its weight
}

func BenchmarkCementStage(b *testing.B) {
	w := checktest.Well(b, surfaceJob(`{"name":"primary","fluids":[{"name":"tail","kind":"tail","sacks":600,"yield":1.15}]}`))
	for range b.N {
		if _, err := well.New(w.Plan, w.Assume).CementStage(0, 0); err != nil {
			b.Fatal(err)
		}
	}
}

// The lines of a stage add up to what is pumped: track, annulus with
// enlargement, and what comes back.
func TestCementLinesBalance(t *testing.T) {
	for _, volume := range []string{"100 bbl", "900 bbl"} {
		w := checktest.Well(t, surfaceJob(`{"name":"primary","excess":"50 %","fluids":[{"name":"tail","kind":"tail","volume":"`+volume+`"}]}`))
		lines := w.CementLines()
		if len(lines) != 2 || !lines[0].Track || lines[1].Track {
			t.Fatalf("%s: got %+v, want the track and one length of annulus", volume, lines)
		}
		sum := lines[0].Enlarged + lines[1].Enlarged + lines[1].Returned
		within(t, "balance", float64(sum), float64(lines[0].Slurry), 1e-12)
		within(t, "enlarged", float64(lines[1].Enlarged), 1.5*float64(lines[1].Gauge), 1e-12)
		if lines[1].Full != (volume == "900 bbl") {
			t.Errorf("%s: full is %v", volume, lines[1].Full)
		}
	}
}

// A caliper's mean diameter is the hole, and a tenth is added where no excess is
// stated; a riserless hole is taken twice.
func TestHoleForVolumes(t *testing.T) {
	job := surfaceJob(`{"name":"primary","fluids":[{"name":"tail","kind":"tail","volume":"100 bbl"}]}`)
	for _, c := range []struct {
		with     string
		diameter float64
		excess   float64
	}{
		{``, 17.5, 0.5},
		{`"hole_basis":"caliper","hole_average":18.2,`, 18.2, 0.1},
		{`"hole_basis":"enlarged","hole_average":19,`, 19, 0},
		{`"returns":"seabed",`, 17.5, 1},
		{`"excess":"30 %",`, 17.5, 0.3},
	} {
		w := checktest.Well(t, strings.Replace(job, `"bit":17.5,`, `"bit":17.5,`+c.with, 1))
		s, err := w.CementStage(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		within(t, c.with+" diameter", float64(s.Hole.Diameter)/units.Inch, c.diameter, 1e-12)
		if math.Abs(float64(s.Hole.Excess)-c.excess) > 1e-12 {
			t.Errorf("%s: excess %v, want %v", c.with, s.Hole.Excess, c.excess)
		}
	}
}
