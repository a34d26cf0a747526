package well_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// What a step shows in pipe and annulus is one column without gap, and holds
// what was pumped: bore 6.184 in, annulus 8.5 x 7 below 4,000 ft and 8.681 x 7
// above; 40 and 75 bbl, 294.2 bbl of displacement.
func TestPlacementFills(t *testing.T) {
	w := checktest.Well(t, vertical(spacer+","+tail, rates, ""))
	p, err := w.Placement(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	const k = 1029.4142
	ft := func(md units.MD) float64 { return float64(md) / units.Foot }
	for step := range p.Steps {
		inside, outside := p.Fills(step)
		held := make([]float64, len(p.Parcels))
		for side, list := range [][]well.Fill{inside, outside} {
			at := 0.0
			for _, f := range list {
				within(t, "from", ft(f.From)+1, at+1, 1e-9)
				at = ft(f.To)
				if f.Fluid < 0 {
					continue
				}
				v := (ft(f.To) - ft(f.From)) * 6.184 * 6.184 / k
				if side == 1 {
					cased := max(0, min(ft(f.To), 4000)-ft(f.From))
					v = cased*(8.681*8.681-49)/k + (ft(f.To)-ft(f.From)-cased)*(8.5*8.5-49)/k
				}
				held[f.Fluid] += v
			}
			within(t, "to", at, 8000, 1e-9)
		}
		from := 0.0
		for i, f := range p.Parcels {
			pumped := min(max(float64(p.Steps[step].Pumped)-from, 0), float64(f.Volume)) / units.Barrel
			from += float64(f.Volume)
			within(t, f.Name, held[i]+1, pumped+1, 1e-6)
		}
	}
	if !p.Landed() {
		t.Error("the plug lands")
	}
}

// The moments come in order, each event once, the worst ones where the worst
// numbers of the checks are.
func TestPlacementMoments(t *testing.T) {
	w := checktest.Well(t, vertical(flowing(spacer)+","+flowing(tail), rates, ""))
	lines, err := w.PlacementLines(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	p, _ := w.Placement(1, 0)
	at := map[string]well.PlacementLine{}
	for i, l := range lines {
		if i > 0 && l.Step <= lines[i-1].Step {
			t.Errorf("step %d comes after %d", l.Step, lines[i-1].Step)
		}
		for _, e := range l.Events {
			if _, twice := at[e]; twice {
				t.Errorf("%s comes twice", e)
			}
			at[e] = l
		}
	}
	pumped := func(event string) float64 { return float64(p.Steps[at[event].Step].Pumped) / units.Barrel }
	within(t, "tail begins, bbl", pumped("tail begins"), 40, 1e-9)
	within(t, "displacement begins, bbl", pumped("displacement begins"), 115, 1e-9)
	// The plug lands with all ahead and 7,920 ft of bore.
	within(t, "plug lands, bbl", pumped("plug lands"), 115+7920*6.184*6.184/1029.4142, 1e-6)
	// Cement turns the shoe when 8,000 ft of bore are full behind the spacer, or
	// within a step of it.
	turn := 40 + 8000*6.184*6.184/1029.4142
	if v := pumped("cement is out of the string"); v > turn+3 || v < turn-12 {
		t.Errorf("cement is out at %.1f bbl, full bore and spacer %.1f", v, turn)
	}
	under, _ := w.PlacementUnderFracture(1, 0, true)
	over, _ := w.PlacementOverPore(1, 0)
	lift, _ := w.PlacementLift(1, 0, true)
	if at["least under fracture"].Under != under || at["least over pore"].Over != over || at["least against lift"].Lift != lift {
		t.Errorf("%+v", at)
	}
	for _, l := range lines {
		if l.Under.Spare < under.Spare-1 || l.Over.Spare < over.Spare-1 || l.Lift.Net < lift.Net {
			t.Errorf("%v: less is left than the least", l.Events)
		}
	}
	if last := lines[len(lines)-1]; last.Step != len(p.Steps)-1 || !last.Told {
		t.Errorf("the last is %+v", last.Moment)
	}
}

// The exit and the weaker place above, each against its own rock: 14 ppg at 4,000
// ft, 17 at 8,000; pore 8.6 and 9.5.
func TestPlacementSpots(t *testing.T) {
	w := checktest.Well(t, vertical(spacer+","+tail, rates, ""))
	list, err := w.PlacementSpots(1, 0)
	if err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	for i, c := range []struct{ ft, fracture, pore float64 }{{8000, 17, 9.5}, {4000, 14, 8.6}} {
		s := list[i]
		within(t, "at, ft", float64(s.MD)/units.Foot, c.ft, 1e-9)
		within(t, "fracture, psi", float64(s.Fracture)/units.Psi, c.fracture*c.ft/19.25, 1e-4)
		within(t, "pore, psi", float64(s.Pore)/units.Psi, c.pore*c.ft/19.25, 1e-4)
		// 10 ppg mud before the job.
		within(t, "start, psi", float64(s.Still[0])/units.Psi, 10*c.ft/19.25, 1e-4)
		if !slices.Equal(s.Still, s.Moving) {
			t.Error("without rheology nothing moves it")
		}
	}
	cased := strings.Replace(vertical(tail, `,"kind":"second_stage","collar":3000`+rates, ""), `"name":"primary"`, `"name":"above"`, 1)
	list, err = checktest.Well(t, cased).PlacementSpots(1, 0)
	if err != nil || len(list) != 1 || list[0].Fracture != 0 {
		t.Errorf("behind casing there is no rock: %+v %v", list, err)
	}
}

// The head held either way: screwed to the casing the least is weight + inside x
// bore - outside x face; held by the rig what the head sees on the bore comes on
// top, so that another moment may be the least.
func TestPlacementHeadHeld(t *testing.T) {
	said := func(how string) well.StringLift {
		t.Helper()
		w := checktest.Well(t, vertical(spacer+","+tail, rates+how, ""))
		l, err := w.PlacementLift(1, 0, false)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	silent, casing, rig := said(""), said(`,"head_held":"casing"`), said(`,"head_held":"rig"`)
	if silent.Said || !casing.Said || !rig.Said || !rig.ByRig || casing.ByRig {
		t.Errorf("%+v %+v %+v", silent, casing, rig)
	}
	if silent.Spare() != casing.Spare() || casing.Spare() != casing.Net || rig.Spare() != rig.OnRig || rig.Spare() < casing.Spare() {
		t.Errorf("left: silent %v, on casing %v, on rig %v", silent.Spare(), casing.Spare(), rig.Spare())
	}
	// By hand at every step: the rig holds what the head sees on 6.184 in.
	w := checktest.Well(t, vertical(spacer+","+tail, rates+`,"head_held":"rig"`, ""))
	p, _ := w.Placement(1, 0)
	least := math.Inf(1)
	for _, s := range p.Steps {
		in, out, pump := float64(s.Inside[len(s.Inside)-1])/units.Psi, float64(s.Still[len(s.Still)-1])/units.Psi, float64(s.Static)/units.Psi
		least = min(least, 29*8000+(in+pump)*math.Pi/4*6.184*6.184-out*math.Pi/4*49)
	}
	within(t, "held by the rig, lbf", float64(rig.Spare())/units.Lbf, least, 1e-4)
}

// Half the step on a whole plan: peak pressure where it leaves within 0.5 %, tops
// within a foot.
func TestPlacementConverges(t *testing.T) {
	for name, fluids := range map[string]string{"still": spacer + "," + tail, "moving": flowing(spacer) + "," + flowing(tail)} {
		w := checktest.Well(t, vertical(fluids, rates, ""))
		a, err := w.Placement(1, 0)
		b, err2 := w.PlacementIn(1, 0, 2*(len(a.Steps)-1))
		if err != nil || err2 != nil || len(b.Steps) < 2*len(a.Steps)-8 {
			t.Fatal(len(a.Steps), len(b.Steps), err, err2)
		}
		peak := func(p *well.Placement) (most units.Pascals) {
			for _, s := range p.Steps {
				most = max(most, s.Moving[len(s.Moving)-1])
			}
			return most
		}
		within(t, name+", peak", float64(peak(a)), float64(peak(b)), 0.005)
		for i := range a.Parcels {
			x, y := a.Steps[len(a.Steps)-1].Fronts[i].MD, b.Steps[len(b.Steps)-1].Fronts[i].MD
			if math.Abs(float64(x-y)) > units.Foot {
				t.Errorf("%s: front %d moves from %v to %v", name, i, x, y)
			}
		}
	}
}
