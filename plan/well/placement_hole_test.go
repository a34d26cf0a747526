package well_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// long is 5-1/2 in 17 lb/ft (ID 4.892 in) to 10,000 ft in an 8-1/2 in hole under
// 9-5/8 in 40 lb/ft (ID 8.835 in) at 3,000 ft, where 10.7 ppg breaks the rock: 9
// ppg mud, 244.8 bbl of 13.5 ppg lead and 99.78 bbl of 15.8 ppg tail.
func long(section, stage string) string {
	return `"units":"field","well":{"name":"A","vertical":true},"depth_reference":{"above_ground":20},
	"sections":[{"name":"12.25","bit":12.25,"to":3000,"string":"upper","mud_density":9},
	 {"name":"8.5","bit":8.5,"to":10000,"string":"casing","mud_density":9` + section + `}],
	"formations":[{"name":"sand","top":4000,"base":4100,"contents":"oil"},{"name":"under","top":4100}],
	"pressures":[{"depth":0,"pore":8.6,"fracture":10.7},{"depth":3000,"pore":8.6,"fracture":10.7},{"depth":10000,"pore":8.6,"fracture":17}],
	"strings":[{"name":"upper","role":"intermediate","section":"12.25","top":0,"shoe":3000,
	  "segments":[{"od":9.625,"weight":40,"grade":"L80","connection":"LTC"}]},
	 {"name":"casing","role":"production","section":"8.5","top":0,"shoe":10000,"float_collar":9920,
	  "segments":[{"od":5.5,"weight":17,"grade":"L80","connection":"LTC"}],
	  "stages":[{"name":"primary","top_plug":true` + stage + `,"fluids":[
	   {"name":"lead","kind":"lead","density":13.5,"volume":244.8},{"name":"tail","kind":"tail","density":15.8,"volume":99.78}]}]}]`
}

// What long gives by hand in a hole of a size with so much added: bbl, ft, ppg;
// 1 bbl fills 1029.4142/(D^2 - d^2) ft, 1 psi is 1 ppg over 19.25 ft.
type longHand struct{ lead, tail, shoe, out, in float64 }

func longByHand(hole, excess float64) longHand {
	const k = 1029.4142
	open, cased := (hole*hole-5.5*5.5)/k*(1+excess), (8.835*8.835-5.5*5.5)/k
	up := 99.78 - 80*4.892*4.892/k
	top := func(v float64) float64 {
		if v <= 7000*open {
			return 10000 - v/open
		}
		return 3000 - (v-7000*open)/cased
	}
	h := longHand{lead: top(up + 244.8), tail: top(up)}
	lead := min(h.lead, 3000)
	h.shoe = (10.7*3000 - 9*lead - 13.5*(3000-lead)) / 19.25
	h.out = (9*h.lead + 13.5*(h.tail-h.lead) + 15.8*(10000-h.tail)) / 19.25
	h.in = (9*9920 + 15.8*80) / 19.25
	return h
}

// More excess on the same volumes never leaves more under fracture pressure: a
// gauge hole is judged too. There the lead comes up to 1,770 ft and breaks the
// shoe by 23 psi, where with 20 % it stands at the shoe and 265 psi are left.
func TestExcessHidesNothing(t *testing.T) {
	gauge := longByHand(8.5, 0)
	if math.Abs(gauge.lead-1770) > 1 || math.Abs(gauge.shoe+22.6) > 0.5 || longByHand(8.5, 0.2).shoe < 264 {
		t.Fatalf("by hand %+v", gauge)
	}
	for _, excess := range []int{0, 5, 20, 60, 150} {
		w := checktest.Well(t, long("", fmt.Sprintf(`,"excess":"%d %%"`, excess)))
		end, err := w.CementUnderFracture(1, 0)
		placed, err2 := w.PlacementUnderFracture(1, 0, false)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		want := well.InGauge
		if excess == 0 {
			want = well.OneHole
		}
		if end.Hole != want || placed.Hole != want || placed.MD != end.MD {
			t.Errorf("%d %%: %+v %+v", excess, end, placed)
		}
		within(t, "weakest, ft", float64(end.MD)/units.Foot, 3000, 1e-9)
		within(t, "left at the end, psi", float64(end.Spare)/units.Psi, gauge.shoe, 1e-3)
		within(t, "left while placing, psi", float64(placed.Spare)/units.Psi, gauge.shoe, 1e-3)
	}
}

// The head sees most, and least holds the string down, at gauge too: the columns
// are longer. The drawing stays on the planned hole and says what rules.
func TestGaugeAsksMore(t *testing.T) {
	w := checktest.Well(t, long("", `,"excess":"20 %"`))
	h := longByHand(8.5, 0)
	head, at, err := w.PlacementHead(1, 0, false)
	end, ending, err2 := w.PlacementEnd(1, 0, false)
	l, err3 := w.PlacementLift(1, 0, false)
	if err != nil || err2 != nil || err3 != nil || at.Hole != well.InGauge || ending.Hole != well.InGauge || l.Hole != well.InGauge {
		t.Fatal(err, err2, err3, at, ending, l)
	}
	within(t, "head, psi", float64(head)/units.Psi, h.out-h.in, 1e-4)
	within(t, "end, psi", float64(end)/units.Psi, h.out-h.in, 1e-4)
	within(t, "lift, lbf", float64(l.Net)/units.Lbf, 17*10000+h.in*math.Pi/4*4.892*4.892-h.out*math.Pi/4*5.5*5.5, 1e-4)
	p, err := w.Placement(1, 0)
	moments, err2 := w.PlacementMoments(1, 0)
	if err != nil || err2 != nil || p.Hole != well.InEnlarged {
		t.Fatal(err, err2, p.Hole)
	}
	within(t, "drawn top, ft", float64(p.Steps[len(p.Steps)-1].Fronts[0].MD)/units.Foot, longByHand(8.5, 0.2).lead, 1e-5)
	said := ""
	for _, m := range moments {
		said += strings.Join(m.Events, "; ") + "; "
	}
	if !strings.Contains(said, "least under fracture here, less in a gauge hole") {
		t.Error(said)
	}
}

// A light spacer that comes up to a sand leaves least over it where it is
// longest: 60 bbl of 8 ppg are 60/0.0408 = 1,470.6 ft at gauge, and with 20 %
// 1,225.5 ft. Pore pressure is 8.6 ppg at 4,000 ft; the front is within one of
// the march's steps of the sand.
func TestGaugePore(t *testing.T) {
	light := strings.Replace(long("", `,"excess":"20 %"`), `{"name":"lead"`, `{"name":"spacer","kind":"spacer","density":8,"volume":60},{"name":"lead"`, 1)
	m, err := checktest.Well(t, light).PlacementOverPore(1, 0)
	if err != nil || m.Hole != well.InGauge {
		t.Fatal(m, err)
	}
	// 1,000 ft of open hole and then casing of 8.835 in over the sand.
	const k = 1029.4142
	length := 1000 + (60-1000*(8.5*8.5-5.5*5.5)/k)/((8.835*8.835-5.5*5.5)/k)
	least := (9*(4000-length) + 8*length - 8.6*4000) / 19.25
	if got := float64(m.Spare) / units.Psi; got < least-0.01 || got > least+8 {
		t.Errorf("left %v psi, by hand %v when the spacer stands on the sand", got, least)
	}
}

// A hole measured by caliper is what it is: nothing else is judged.
func TestCaliperIsOneHole(t *testing.T) {
	w := checktest.Well(t, long(`,"hole_basis":"caliper","hole_average":8.7`, `,"excess":"5 %"`))
	end, err := w.CementUnderFracture(1, 0)
	placed, err2 := w.PlacementUnderFracture(1, 0, false)
	if err != nil || err2 != nil || end.Hole != well.OneHole || placed.Hole != well.OneHole {
		t.Fatal(err, err2, end, placed)
	}
	want := longByHand(8.7, 0.05).shoe
	within(t, "left at the end, psi", float64(end.Spare)/units.Psi, want, 1e-3)
	within(t, "left while placing, psi", float64(placed.Spare)/units.Psi, want, 1e-3)
}

// The string holds 6,000 ft x 6.184^2/1029.4142 = 222.9 bbl above the collar of a
// second stage: so much mud (10 ppg) sweeps the first stage's 9 ppg out.
func TestCirculatedBetweenStages(t *testing.T) {
	for circulated, c := range map[string]struct {
		held bool
		rho  float64
	}{"": {true, 9}, `,"circulated":222`: {true, 9}, `,"circulated":223`: {false, 10}} {
		second := tail + `]},{"name":"second","kind":"second_stage","collar":6000,"excess":0` + rates + circulated + `,"fluids":[` + tail
		p, err := checktest.Well(t, vertical(second, `,"displacement_density":9`+rates, "")).Placement(1, 1)
		if err != nil {
			t.Fatal(err)
		}
		if p.Held != c.held {
			t.Errorf("%s: held %v", circulated, p.Held)
		}
		inside := p.Steps[0].Inside
		within(t, "inside at the collar, psi", float64(inside[len(inside)-1])/units.Psi, c.rho*6000/19.25, 1e-4)
	}
}

// Nothing holds the rock of a surface hole at the rotary; it is judged from 15 m
// below the ground, 30 + 49.21 ft: 14 ppg against 12 ppg of slurry.
func TestSurfaceJobBeginsInTheGround(t *testing.T) {
	w := checktest.Well(t, `"units":"field","well":{"name":"A","vertical":true},"depth_reference":{"above_ground":30},
	"sections":[{"name":"12.25","bit":12.25,"to":1000,"string":"surface","mud_density":9}],
	"pressures":[{"depth":0,"pore":8.6,"fracture":14},{"depth":1000,"pore":8.6,"fracture":14}],
	"strings":[{"name":"surface","role":"surface","section":"12.25","top":0,"shoe":1000,"float_collar":960,
	  "segments":[{"od":9.625,"weight":40,"grade":"K55","connection":"LTC"}],
	  "stages":[{"name":"primary","excess":"50 %","top_plug":true,"fluids":[{"name":"lead","kind":"lead","density":12,"volume":100}]}]}]`)
	depth := 30 + 15/units.Foot
	end, err := w.CementUnderFracture(0, 0)
	placed, err2 := w.PlacementUnderFracture(0, 0, false)
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	for _, m := range []well.RockMargin{end.RockMargin, placed.RockMargin} {
		within(t, "where least is left, ft", float64(m.MD)/units.Foot, depth, 1e-9)
		within(t, "left, psi", float64(m.Spare)/units.Psi, 2*depth/19.25, 1e-3)
	}
}
