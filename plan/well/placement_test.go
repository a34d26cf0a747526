package well_test

import (
	"errors"
	"math"
	"math/rand"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// vertical is 7 in 29 lb/ft (ID 6.184 in) to 8,000 ft in an 8-1/2 in hole under
// a shoe at 4,000 ft, 10 ppg mud; spacer and slurry as given, 10 ppg behind.
func vertical(fluids, stage, more string) string {
	return `"units":"field","well":{"name":"A","vertical":true},
	"rig":{"head_pressure":5000,"line_pressure":10000,"pump_pressure":7500,"slip_length":16},
	"sections":[{"name":"12.25","bit":12.25,"to":4000,"string":"upper","mud_density":9},
	 {"name":"8.5","bit":8.5,"to":8000,"string":"casing","mud_density":10,"mud_plastic_viscosity":15,"mud_yield_point":10}],
	"formations":[{"name":"sand","top":7000,"base":7200,"contents":"gas"},{"name":"under","top":7200}],
	"pressures":[{"depth":0,"pore":8.6,"fracture":14},{"depth":4000,"pore":8.6,"fracture":14},{"depth":8000,"pore":9.5,"fracture":17}],
	"strings":[{"name":"upper","role":"intermediate","section":"12.25","top":0,"shoe":4000,
	  "segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"LTC"}]},
	 {"name":"casing","role":"production","section":"8.5","top":0,"shoe":8000,"float_collar":7920,"top_of_cement":5000` + more + `,
	  "segments":[{"od":7,"weight":29,"grade":"L80","connection":"LTC"}],
	  "stages":[{"name":"primary","excess":0,"top_plug":true` + stage + `,"fluids":[` + fluids + `]}]}]`
}

const (
	spacer = `{"name":"spacer","kind":"spacer","density":11,"volume":40}`
	tail   = `{"name":"tail","kind":"tail","density":15.8,"volume":75}`
	rates  = `,"rate":5,"mix_rate":5`
	flowy  = `,"plastic_viscosity":30,"yield_point":12`
)

func flowing(f string) string { return strings.TrimSuffix(f, "}") + flowy + "}" }

// By hand, in bbl, ft, ppg: bore 6.184^2/1029.4142 = 0.0371492 bbl/ft, annulus
// (8.5^2 - 7^2)/1029.4142 = 0.0225856. Track 80 ft takes 2.9719 bbl; cement
// (75 - 2.9719)/0.0225856 = 3,189.1 ft, top at 4,810.9; spacer 40 bbl 1,771.0 ft,
// in open hole to 4,000 and in 9-5/8 casing of ID 8.681 above.
func TestPlacementEndByHand(t *testing.T) {
	w := checktest.Well(t, vertical(spacer+","+tail, rates, ""))
	p, err := w.Placement(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	const k = 1029.4142
	bore, open, cased := 6.184*6.184/k, (8.5*8.5-49)/k, (8.681*8.681-49)/k
	cement := 8000 - (75-80*bore)/open
	wash := 4000 - (40-(cement-4000)*open)/cased
	end := p.Steps[len(p.Steps)-1]
	within(t, "top of cement, ft", float64(end.Fronts[1].MD)/units.Foot, cement, 1e-6)
	within(t, "top of spacer, ft", float64(end.Fronts[0].MD)/units.Foot, wash, 1e-6)
	within(t, "plug, ft", float64(end.Fronts[2].MD)/units.Foot, 7920, 1e-9)
	// 1 psi is 1 ppg over 19.25 ft.
	out := (10*wash + 11*(cement-wash) + 15.8*(8000-cement)) / 19.25
	in := (10*7920 + 15.8*80) / 19.25
	last, _, err := w.PlacementEnd(1, 0, false)
	within(t, "last pressure, psi", float64(last)/units.Psi, out-in, 1e-5)
	head, at, err2 := w.PlacementHead(1, 0, false)
	if err != nil || err2 != nil || head != last || at.Step != len(p.Steps)-1 {
		t.Errorf("head %v at step %d of %d, %v %v", head, at.Step, len(p.Steps), err, err2)
	}
	// At the 4,000 ft shoe 14 ppg breaks it: spacer and mud stand above.
	m, err := w.PlacementUnderFracture(1, 0, false)
	want := (14*4000 - 10*wash - 11*(4000-wash)) / 19.25
	if err != nil || m.MD != 4000*units.Foot {
		t.Fatal(m, err)
	}
	within(t, "under fracture, psi", float64(m.Spare)/units.Psi, want, 1e-5)
	// Lift at the end, head on the casing: 29 x 8,000 + pressures on bore and face.
	l, err := w.PlacementLift(1, 0, false)
	net := 29*8000 + in*math.Pi/4*6.184*6.184 - out*math.Pi/4*49
	if err != nil {
		t.Fatal(err)
	}
	within(t, "lift, lbf", float64(l.Net)/units.Lbf, net, 1e-4)
	within(t, "lift, held by the rig", float64(l.OnRig)/units.Lbf, net+(out-in)*math.Pi/4*6.184*6.184, 1e-4)
}

// With friction the head is the static difference and the Bingham losses of each
// length: none of them turbulent at 1 bbl/min (laminar pipe PV v/(1500 d^2) +
// YP/(225 d), annulus PV v/(1000 d^2) + YP/(200 d); v in ft/s, d in in; 42 gpm).
func TestPlacementFrictionByHand(t *testing.T) {
	w := checktest.Well(t, vertical(flowing(spacer)+","+flowing(tail), `,"rate":1,"mix_rate":1`, ""))
	p, err := w.Placement(1, 0)
	if err != nil || !p.Friction {
		t.Fatal(p, err)
	}
	still, _, _ := w.PlacementEnd(1, 0, false)
	moving, _, err := w.PlacementEnd(1, 0, true)
	if err != nil {
		t.Fatal(err)
	}
	end := p.Steps[len(p.Steps)-1]
	ft := func(md units.MD) float64 { return float64(md) / units.Foot }
	annulus := func(pv, yp, length, hole float64) float64 {
		v := 42 / (2.448 * (hole*hole - 49))
		d := hole - 7
		return length * (pv*v/(1000*d*d) + yp/(200*d))
	}
	pipe := func(pv, yp, length float64) float64 {
		v := 42 / (2.448 * 6.184 * 6.184)
		return length * (pv*v/(1500*6.184*6.184) + yp/(225*6.184))
	}
	wash := ft(end.Fronts[0].MD)
	want := annulus(15, 10, wash, 8.681) + annulus(30, 12, 4000-wash, 8.681) + annulus(30, 12, 4000, 8.5) +
		pipe(15, 10, 7920) + pipe(30, 12, 80)
	within(t, "friction, psi", float64(moving-still)/units.Psi, want, 5e-3)
	a, _ := w.PlacementUnderFracture(1, 0, false)
	b, err := w.PlacementUnderFracture(1, 0, true)
	if err != nil || b.Spare >= a.Spare {
		t.Errorf("friction leaves %v under fracture, without %v; %v", b.Spare, a.Spare, err)
	}
}

// The tops at the end are those of the volumes placed from the shoe, whatever
// falls freely on the way.
func TestPlacementTopsAreVolumes(t *testing.T) {
	w := checktest.Well(t, vertical(spacer+`,{"name":"lead","kind":"lead","density":12,"volume":30},`+tail, rates, ""))
	r := rand.New(rand.NewSource(4))
	for range 40 {
		q := w.Plan.Clone()
		s := &q.Strings[1].Stages[0]
		s.Fluids[1].Volume.V = units.CubicMeters(r.Float64() * 40 * units.Barrel)
		s.Fluids[2].Volume.V = units.CubicMeters((5 + r.Float64()*60) * units.Barrel)
		s.Fluids[2].Density.V = units.KgPerM3(1100 + r.Float64()*1000)
		s.Excess.V = units.Fraction(r.Float64())
		v := well.New(q, w.Assume)
		p, err := v.Placement(1, 0)
		if err != nil {
			t.Fatal(err)
		}
		tops, err := v.FluidTops(1, 0)
		if err != nil {
			t.Fatal(err)
		}
		end := p.Steps[len(p.Steps)-1]
		for i := range tops {
			if d := math.Abs(float64(end.Fronts[i+1].MD - tops[i].Top)); d > 1e-6 {
				t.Fatalf("top %d at %v by the march, %v by volume", i, end.Fronts[i+1].MD, tops[i].Top)
			}
		}
	}
}

// 40 bbl of spacer at 5 bbl/min pass any place in 8 minutes, slurry no heavier
// than mud falling nowhere.
func TestFrontContact(t *testing.T) {
	light := `{"name":"spacer","kind":"spacer","density":10,"volume":40},{"name":"tail","kind":"tail","density":10,"volume":75}`
	w := checktest.Well(t, vertical(light, rates, ""))
	c, err := w.FrontContact(1, 0, 7000*units.Foot)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "contact, min", float64(c)/60, 8, 1e-6)
	var absent well.Absent
	if _, err := w.FrontContact(1, 0, 4100*units.Foot); !errors.As(err, &absent) {
		t.Errorf("above the slurry: %v", err)
	}
}

func TestPlacementMissing(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"density":      {vertical(`{"name":"tail","kind":"tail","volume":75}`, rates, ""), "missing: the density of tail of casing"},
		"volume":       {vertical(`{"name":"spacer","kind":"spacer","density":11},`+tail, rates, ""), "missing: the volume of spacer"},
		"float collar": {strings.Replace(vertical(spacer+","+tail, rates, ""), `"float_collar":7920,`, "", 1), "missing: the float collar of casing"},
	} {
		if _, err := checktest.Well(t, c.text).Placement(1, 0); err == nil || err.Error() != c.want {
			t.Errorf("%s: got %v, want %q", name, err, c.want)
		}
	}
	w := checktest.Well(t, vertical(spacer+","+tail, "", ""))
	p, err := w.Placement(1, 0)
	if err != nil || p.Friction || p.Timed {
		t.Fatal("without rates and rheology the columns still stand:", err)
	}
	const want = "missing: the rheology of spacer of casing; the rheology of tail of casing; the mixing rate of primary of casing; the displacement rate of primary of casing"
	if _, err := w.PlacementUnderFracture(1, 0, true); err == nil || err.Error() != want {
		t.Errorf("got %v, want %q", err, want)
	}
	if _, err := w.FrontContact(1, 0, 7000*units.Foot); err == nil || err.Error() != "missing: the mixing rate of primary of casing; the displacement rate of primary of casing" {
		t.Errorf("contact without rates: %v", err)
	}
}

// What isn't pumped down and round, isn't followed.
func TestPlacementAbsent(t *testing.T) {
	var absent well.Absent
	for _, stage := range []string{`,"kind":"top_up"`, `,"kind":"squeeze"`, `,"kind":"foam"`} {
		if _, err := checktest.Well(t, vertical(spacer+","+tail, stage, "")).Placement(1, 0); !errors.As(err, &absent) {
			t.Errorf("%s: %v", stage, err)
		}
	}
	for _, casing := range []string{`,"cemented":false`, `,"existing":true`} {
		if _, err := checktest.Well(t, vertical(spacer+","+tail, rates, casing)).Placement(1, 0); !errors.As(err, &absent) {
			t.Errorf("%s: %v", casing, err)
		}
	}
}

// A second stage leaves through its collar; behind it the hole is that above
// the collar, and it lifts nothing.
func TestPlacementSecondStage(t *testing.T) {
	w := checktest.Well(t, vertical(tail, `,"kind":"second_stage","collar":6000`+rates, ""))
	p, err := w.Placement(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "exit, ft", float64(p.Exit)/units.Foot, 6000, 1e-12)
	end := p.Steps[len(p.Steps)-1]
	// 75 bbl: 2,000 ft of open hole 0.0225856 bbl/ft, the rest in the casing.
	want := 4000 - (75-2000*(8.5*8.5-49)/1029.4142)/((8.681*8.681-49)/1029.4142)
	within(t, "top, ft", float64(end.Fronts[0].MD)/units.Foot, want, 1e-6)
	var absent well.Absent
	if _, err := w.PlacementLift(1, 0, false); !errors.As(err, &absent) {
		t.Errorf("lift: %v", err)
	}
}

func BenchmarkPlacement(b *testing.B) {
	for name, text := range map[string]string{"static": vertical(spacer+","+tail, rates, ""), "friction": vertical(flowing(spacer)+","+flowing(tail), rates, "")} {
		b.Run(name, func(b *testing.B) {
			w := checktest.Well(b, text)
			for b.Loop() {
				p, err := well.New(w.Plan, w.Assume).Placement(1, 0)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(p.Steps)), "steps")
			}
		})
	}
}
