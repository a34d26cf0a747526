package well_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// TestPoreOutsideGoverns: 10 ppg of mud against 12 ppg of pore pressure at
// 6,000 ft; the surface shoe at 3,000 ft covers the rest.
func TestPoreOutsideGoverns(t *testing.T) {
	w := checktest.Well(t, strings.Replace(two, `"pore":9.5`, `"pore":12`, 1))
	r := strength(t, w, 1, "collapse.full_evacuation")
	near(t, "outside", float64(r.Least.Outside)/psi, hydro(12, 6000), 0.01)
	if !strings.Contains(r.Note, "pore pressure outside governs") {
		t.Errorf("note %q", r.Note)
	}
}

// TestAHoleThatLacksInputsIsAGap: the pressures end 500 ft above the bottom of
// the second hole, so the string is judged by what is known of the first and
// the rest is named.
func TestAHoleThatLacksInputsIsAGap(t *testing.T) {
	text := `"units":"field","well":{"name":"G","vertical":true},"sections":[
 {"name":"a","string":"I","bit":12.25,"from":0,"to":5000,"mud_density":9},
 {"name":"b","string":"L","bit":8.5,"from":5000,"to":8000,"mud_density":10,"pressure_control":"bop_surface"},
 {"name":"c","bit":6,"from":8000,"to":9500,"mud_density":11,"pressure_control":"bop_surface"}],
"strings":[{"name":"I","role":"intermediate","shoe":5000,"top_of_cement":0,"segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"BTC"}]},
{"name":"L","role":"drilling_liner","hung_in":"I","top":4700,"shoe":8000,"segments":[{"od":7,"weight":29,"grade":"L80","connection":"BTC"}]}],
"pressures":[{"depth":0,"pore":9,"fracture":15},{"depth":9000,"pore":9.5,"fracture":16}]`
	r := strength(t, checktest.Well(t, text), 0, "burst.gas_to_surface")
	if len(r.Gaps) != 1 || !strings.Contains(r.Gaps[0].Input, "pore pressure below") {
		t.Errorf("gaps %v", r.Gaps)
	}
	if !strings.HasPrefix(r.Note, "b:") {
		t.Errorf("note %q", r.Note)
	}
}

// TestHistoricalEdition: full of 5 ppg inside, mud outside: the load counts
// the inside pressure by 1 - 2t/D = 1 - 2 x 0.480/13.375.
func TestHistoricalEdition(t *testing.T) {
	text := two + `,"tests":[{"name":"in","kind":"inflow","string":"13","fluid":5}]`
	old := checktest.WellWith(t, text, func(a *well.Assumptions) { a.CollapseEdition = "historical" })
	r := strength(t, old, 1, "collapse.inflow")
	want := hydro(10, 6000) - (1-2*0.480/13.375)*hydro(5, 6000)
	near(t, "load", r.Least.Load/psi, want, 0.01)
	now := strength(t, checktest.Well(t, text), 1, "collapse.inflow")
	near(t, "load of 2015", now.Least.Load/psi, hydro(5, 6000), 0.01)
}

// TestTrappedAnnulus: under a subsea wellhead, cement at or above the previous
// shoe closes the annulus of a producer; below it the annulus is open.
func TestTrappedAnnulus(t *testing.T) {
	w := checktest.Well(t, normal["riserless, subsea, jetted conductor"])
	if closed, _, err := w.Trapped(2); err != nil || closed {
		t.Errorf("cement below the shoe: %v, %v", closed, err)
	}
	w = checktest.Well(t, strings.Replace(normal["riserless, subsea, jetted conductor"], `"top_of_cement":6000`, `"top_of_cement":4400`, 1))
	if closed, why, err := w.Trapped(2); err != nil || !closed {
		t.Errorf("cement over the shoe: %v, %q, %v", closed, why, err)
	}
	_, _, err := checktest.Well(t, two).Trapped(1)
	var a well.Absent
	if !errors.As(err, &a) {
		t.Errorf("onshore: %v", err)
	}
}

// TestBuckling: bled off it hangs straight; 5,000 psi of 10 ppg inside after
// set buckles the free length of a vertical hole just above cement, where
// effective force is hanging weight below it (none) plus 2 nu dp A_i less dp
// A_i: pressed by 0.4 dp A_i and more.
func TestBuckling(t *testing.T) {
	calm := checktest.Well(t, strings.Replace(two, `"role":"production"`, `"role":"intermediate"`, 1))
	b, err := calm.Buckled(1)
	if err != nil || !b.Straight {
		t.Errorf("bled off: %+v, %v", b, err)
	}
	tested := checktest.Well(t, strings.Replace(strings.Replace(two, `"role":"production"`, `"role":"intermediate"`, 1), `"top_of_cement":2500`, `"top_of_cement":5990`, 1)+
		`,"tests":[{"name":"set","kind":"casing","string":"13","pressure":5000,"fluid":10}]`)
	b, err = tested.Buckled(1)
	if err != nil || b.Straight {
		t.Errorf("tested: %+v, %v", b, err)
	}
	ai, ao := 12.415*12.415*math.Pi/4, 13.375*13.375*math.Pi/4
	// Outside falls from mud as cemented to water and, past 3,000 ft, 8.6 ppg:
	// at 5,990 ft by (10 - 8.6) x 5,990 x 12/231, mean over the length by half of
	// what it is at each depth.
	water := 1000 / ppg
	mean := (hydro(water-10, 1500)*3000 + hydro(8.6-10, 4495)*2990) / 5990
	hangs := (68 - 10*12/231.0*(ao-ai)) * 10 // 10 ft left below
	want := 5000*ai - hydro(8.6-10, 5990)*ao - 0.6*(5000*ai-mean*ao) - hangs
	near(t, "pressed", float64(b.Pressed)/lbf, want, 0.001*want)
}
