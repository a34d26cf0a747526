package well_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// slant is 7 in 29 lb/ft in an 8-1/2 in hole held at 30 degrees from 4,000 ft
// (build from 1,000 ft), cement of 15.8 ppg, 10 ppg inside.
func slant(centralizers string) string {
	text := vertical(tail, rates, `,"centralizers":[`+centralizers+`]`)
	text = strings.Replace(text, `"vertical":true`, `"name_note":0`, 1)
	text = strings.Replace(text, `,"name_note":0`, ``, 1)
	return text + `,"survey":[{"md":1000,"inclination":0,"azimuth":0},{"md":4000,"inclination":30,"azimuth":0},{"md":8000,"inclination":30,"azimuth":0}]`
}

// By hand in the straight hold, 30 degrees, spans of 40 ft across 7,000 to 7,200
// ft: buoyed 29 + 0.0408 (10 x 6.184^2 - 15.8 x 49) lb/ft; a rigid centralizer
// of 8.25 in drops (8.5 - 8.25)/2 in; the sag without tension is
// 3.0558e-6 w L^4 sin(inc)/(D^4 - d^4) in, less a tenth of u^2 of it for the
// tension w (8,000 - md) cos(inc) there, u^2 = T L^2/(4 E I), E 30e6 psi.
func TestStandoffByHand(t *testing.T) {
	w := checktest.Well(t, slant(`{"from":6000,"to":8000,"kind":"rigid","od":8.25,"spacing":40}`))
	s, err := w.ZoneStandoff(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	buoyed := 29 + 0.0408*(10*6.184*6.184-15.8*49)
	within(t, "load, lbf", float64(s.Load)/units.Lbf, math.Abs(buoyed)*40*0.5, 2e-3)
	sag := 3.0558e-6 * math.Abs(buoyed) * math.Pow(40, 4) * 0.5 / (math.Pow(7, 4) - math.Pow(6.184, 4))
	pull := math.Abs(buoyed) * (8000 - float64(s.MD)/units.Foot) * math.Cos(math.Pi/6)
	square := pull * 480 * 480 / (4 * 30e6 * math.Pi / 64 * (math.Pow(7, 4) - math.Pow(6.184, 4)))
	within(t, "sag, in", float64(s.Sag)/units.Inch, sag*(1-square/10), 4e-3)
	within(t, "standoff", float64(s.Least), (0.75-0.125-float64(s.Sag)/units.Inch)/0.75, 1e-3)
	if s.MD < 6960*units.Foot || s.MD > 7240*units.Foot {
		t.Errorf("least at %v ft, outside the zone", s.MD/units.Foot)
	}
}

// A bow that gives 67 % under its restoring force gives (1 - 0.33 F/F67) under
// F: with F67 of 500 lbf.
func TestStandoffOfBows(t *testing.T) {
	w := checktest.Well(t, slant(`{"from":6000,"to":8000,"kind":"bow","restoring_force":500,"spacing":40}`))
	s, err := w.ZoneStandoff(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "standoff", float64(s.Least), 1-0.33*float64(s.Load)/units.Lbf/500-float64(s.Sag)/(0.75*units.Inch), 1e-9)
	far := checktest.Well(t, slant(`{"from":6000,"to":8000,"kind":"bow","restoring_force":500,"spacing":160}`))
	if wide, err := far.ZoneStandoff(1, 0); err != nil || wide.Least >= s.Least {
		t.Errorf("four times as far apart: %v against %v, %v", wide.Least, s.Least, err)
	}
}

func TestStandoffMissing(t *testing.T) {
	for _, c := range []struct{ row, want string }{
		{``, "missing: the centralizers of casing"},
		{`{"from":6000,"to":8000,"kind":"rigid","spacing":40}`, "missing: the OD of the rigid centralizers of casing"},
		{`{"from":6000,"to":8000,"kind":"bow","spacing":40}`, "missing: the restoring force of the centralizers of casing"},
		{`{"from":6000,"to":8000,"kind":"bow","restoring_force":500}`, "missing: the top, bottom and spacing of centralizer interval 1 of casing"},
		{`{"from":6000,"to":8000,"kind":"bow","restoring_force":500,"spacing":0.001}`, "missing: the top, bottom and spacing of centralizer interval 1 of casing"},
	} {
		if _, err := checktest.Well(t, slant(c.row)).ZoneStandoff(1, 0); err == nil || err.Error() != c.want {
			t.Errorf("%s: got %v, want %q", c.row, err, c.want)
		}
	}
	var absent well.Absent
	if _, err := checktest.Well(t, slant(`{"from":7500,"to":8000,"kind":"rigid","od":8.25,"spacing":40}`)).ZoneStandoff(1, 0); !errors.As(err, &absent) {
		t.Errorf("none across the zone: %v", err)
	}
}

func TestCentralizedZone(t *testing.T) {
	for rows, want := range map[string]bool{
		`{"from":6000,"to":8000}`:                         true,
		`{"from":7040,"to":7160}`:                         true, // within a joint of 40 ft
		`{"from":7000,"to":7100}`:                         false,
		`{"from":7100,"to":7300},{"from":6900,"to":7070}`: true,
		`{"from":7500,"to":8000}`:                         false,
	} {
		ok, _, err := checktest.Well(t, slant(rows)).CentralizedZone(1, 0)
		if err != nil || ok != want {
			t.Errorf("%s: got %v %v, want %v", rows, ok, err, want)
		}
	}
}

// By hand: 8,000 x (29 + 0.408 (6.184^2 - 49)) = 196.9 klbf in 10 ppg; pipe of
// 8.4494 in2 and 80 ksi in slips of 16 in, x = 7 x 4.00/32 = 0.875, crushes at
// 675.95/sqrt(1 + 0.875 + 0.7656) = 416.0 klbf.
func TestOnSlipsByHand(t *testing.T) {
	w := checktest.Well(t, vertical(tail, rates, ""))
	s, err := w.OnSlips(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "load, lbf", float64(s.Load)/units.Lbf, 8000*(29+0.408*(6.184*6.184-49)), 2e-4)
	within(t, "crush, lbf", float64(s.Crush)/units.Lbf, 416.0e3, 1e-3)
	bare := checktest.Well(t, strings.Replace(vertical(tail, rates, ""), `,"slip_length":16`, "", 1))
	if _, err := bare.OnSlips(1, 0); err == nil || err.Error() != "missing: the contact length of the casing slips" {
		t.Errorf("no slip length: %v", err)
	}
}

// By hand: at 1 ft/s (1.5 times 0.6667) mud of PV 15 and YP 10 passes 7 in pipe in
// 8-1/2 in hole at v = Kc + 49/(72.25 - 49); Burkhardt's laminar Kc of a =
// 7/8.5; the loss is PV v/(1000 d^2) + YP/(200 d) psi/ft, d = 1.5 in, below 4,000
// ft, and the same with 8.681 in above.
func TestSurgeByHand(t *testing.T) {
	w := checktest.Well(t, vertical(tail, rates, `,"peak_speed":"1 ft/s"`))
	s, err := w.Surge(1)
	if err != nil {
		t.Fatal(err)
	}
	along := func(hole, length float64) float64 {
		a, d := 7/hole, hole-7
		kc := (a*a - 2*a*a*math.Log(a) - 1) / (2 * (1 - a*a) * math.Log(a))
		v := kc + 49/(hole*hole-49)
		return length * (15*v/(1000*d*d) + 10/(200*d))
	}
	// The 4,000 ft shoe (14 ppg) is weaker than what lies below.
	added := along(8.681, 4000)
	if s.MD != 4000*units.Foot {
		t.Fatalf("weakest at %v ft", s.MD/units.Foot)
	}
	within(t, "surge, psi", float64(s.Added)/units.Psi, added, 5e-3)
	within(t, "spare, psi", float64(s.Spare)/units.Psi, 4*4000/19.25-added, 5e-3)
	// At the greatest speed nothing is left: a millimetre a second more breaks it.
	if !s.Peak || s.Fastest <= s.Speed {
		t.Fatalf("%+v", s)
	}
	for step, ok := range map[units.MPerS]bool{0: true, 0.001: false} {
		q := w.Plan.Clone()
		q.Strings[1].PeakSpeed.V = s.Fastest + step
		at, err := well.New(q, w.Assume).Surge(1)
		if err != nil || (at.Spare >= 0) != ok {
			t.Errorf("%v m/s over the greatest: %v left, %v", step, at.Spare, err)
		}
	}
	slow := checktest.Well(t, vertical(tail, rates, `,"running_speed":"1 ft/s"`))
	if a, err := slow.Surge(1); err != nil || math.Abs(float64(a.Speed)/1.5/units.Foot-1) > 1e-9 || a.Spare >= s.Spare {
		t.Errorf("from the average: %+v, %v", a, err)
	}
}

func TestSurgeMissing(t *testing.T) {
	if _, err := checktest.Well(t, vertical(tail, rates, "")).Surge(1); err == nil || err.Error() != "missing: the running speed of casing" {
		t.Errorf("no speed: %v", err)
	}
	w := checktest.Well(t, strings.Replace(vertical(tail, rates, `,"peak_speed":"1 ft/s"`), `,"mud_plastic_viscosity":15,"mud_yield_point":10`, "", 1))
	if _, err := w.Surge(1); err == nil || err.Error() != "missing: the rheology of the mud of 8.5" {
		t.Errorf("no rheology: %v", err)
	}
}
