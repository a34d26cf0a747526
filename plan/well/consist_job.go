package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// VolumeTwice compares the volume of a fluid with its sacks times its yield.
func (w *Well) VolumeTwice(str, stage, fluid int) (Conflicts, error) {
	f := &w.Plan.Strings[str].Stages[stage].Fluids[fluid]
	if !f.Volume.Known() || !f.Sacks.Known() || !f.Yield.Known() {
		return nil, Absent("volume, sacks and yield aren't all stated")
	}
	made := float64(f.Sacks.V) * float64(f.Yield.V)
	off := math.Abs(made - float64(f.Volume.V))
	var found search
	found.holds(off <= math.Max(sameVolume*made, leastVolume), places(f.Volume.Ref, f.Sacks.Ref, f.Yield.Ref), "volume %s, sacks times yield %s",
		w.show(float64(f.Volume.V), units.Volume), w.show(made, units.Volume))
	return found.result("")
}

// TopsInOrder searches a stage for a slurry with its planned top above that of
// one pumped before it.
func (w *Well) TopsInOrder(str, stage int) (Conflicts, error) {
	st := &w.Plan.Strings[str].Stages[stage]
	var found search
	last := -1
	for k := range st.Fluids {
		f := &st.Fluids[k]
		if !isSlurry(f) || !f.Top.Known() {
			continue
		}
		if last >= 0 {
			o := &st.Fluids[last]
			found.holds(!w.past(o.Top.V, f.Top.V), places(f.Top.Ref, o.Top.Ref), "top of %s at %s, that of %s pumped before it at %s",
				f.Name.V, w.showMD(f.Top.V), o.Name.V, w.showMD(o.Top.V))
		}
		last = k
	}
	return found.result("the stage has no two slurries with planned tops")
}

// CementRepeated searches for cement entered twice: two fluids of one stage,
// two stages of a string, or a stage and one of the string listed before, alike
// in amount, density and planned top. A casing table that repeats the cement on
// each row of a tapered string reads that way.
func (w *Well) CementRepeated(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	var found search
	for i := range s.Stages {
		st := &s.Stages[i]
		for k := range st.Fluids {
			for l := range st.Fluids[:k] {
				a, b := &st.Fluids[k], &st.Fluids[l]
				found.holds(!sameFluid(a, b), places(a.Ref, b.Ref), "%s and %s of %s are alike", b.Name.V, a.Name.V, st.Name.V)
			}
		}
		for j := range s.Stages[:i] {
			found.holds(!sameStage(st, &s.Stages[j]), places(st.Ref, s.Stages[j].Ref), "%s and %s of %s are alike", s.Stages[j].Name.V, st.Name.V, s.Name.V)
		}
		if str > 0 {
			o := &w.Plan.Strings[str-1]
			for j := range o.Stages {
				found.holds(!sameStage(st, &o.Stages[j]), places(st.Ref, o.Stages[j].Ref), "%s of %s and %s of %s are alike", st.Name.V, s.Name.V, o.Stages[j].Name.V, o.Name.V)
			}
		}
	}
	return found.result("no two cement jobs to compare")
}

// sameStage reports whether two stages pump the same slurries.
func sameStage(a, b *plan.Stage) bool {
	x, y := slurriesOf(a), slurriesOf(b)
	if len(x) == 0 || len(x) != len(y) {
		return false
	}
	for i := range x {
		if !sameFluid(x[i], y[i]) {
			return false
		}
	}
	return true
}

func slurriesOf(st *plan.Stage) []*plan.Fluid {
	var out []*plan.Fluid
	for k := range st.Fluids {
		if isSlurry(&st.Fluids[k]) {
			out = append(out, &st.Fluids[k])
		}
	}
	return out
}

// sameFluid reports whether two slurries have one amount, one density and one
// planned top; an amount must be stated.
func sameFluid(a, b *plan.Fluid) bool {
	amount := (a.Volume.Known() && a.Volume.V == b.Volume.V) || (a.Sacks.Known() && a.Sacks.V == b.Sacks.V)
	return isSlurry(a) && isSlurry(b) && amount && a.Density.V == b.Density.V && a.Volume.V == b.Volume.V && a.Sacks.V == b.Sacks.V && a.Top.V == b.Top.V
}

// ShoeTestTwice compares the equivalent density of a shoe test with what its
// pressure and fluid make at the shoe.
func (w *Well) ShoeTestTwice(test int) (Conflicts, error) {
	t := &w.Plan.Tests[test]
	i := w.Plan.StringIndex(t.String.V)
	if t.Kind.V != "shoe" || i < 0 || !t.EMW.Known() || !t.Pressure.Known() || !t.Fluid.Known() {
		return nil, Absent("pressure, fluid and equivalent density of a shoe test aren't all stated")
	}
	shoe, err := w.shoeOf(&w.Plan.Strings[i])
	if err != nil {
		return nil, Absent("the shoe isn't stated")
	}
	z, err := w.TVD(shoe)
	if err != nil || z <= 0 {
		return nil, Absent("the true vertical depth of the shoe isn't known")
	}
	made := t.Fluid.V + units.KgPerM3(float64(t.Pressure.V)/(units.G*float64(z)))
	var found search
	// Half the last digit of fluid, pressure and result: 0.1 ppg.
	ok := math.Abs(float64(made-t.EMW.V)) <= 2*sameDensity
	found.holds(ok, places(t.EMW.Ref, t.Pressure.Ref, t.Fluid.Ref), "%s as stated; %s on %s at %s makes %s", w.showDensity(t.EMW.V),
		w.show(float64(t.Pressure.V), units.Pressure), w.showDensity(t.Fluid.V), w.showTVD(z), w.showDensity(made))
	return found.result("")
}

// BOPTestTwice compares a BOP test among the tests with the test pressure of
// the stacks on the same string; one of them must have it.
func (w *Well) BOPTestTwice(test int) (Conflicts, error) {
	t := &w.Plan.Tests[test]
	if (t.Kind.V != "bop" && t.Kind.V != "annular") || !t.Pressure.Known() || !t.String.Known() {
		return nil, Absent("not a BOP test with its pressure and string")
	}
	var stacks []plan.Val[units.Pascals]
	for i := range w.Plan.BOPs {
		b := &w.Plan.BOPs[i]
		if !plan.Same(b.On.V, t.String.V) {
			continue
		}
		if t.Kind.V == "bop" {
			stacks = append(stacks, b.TestPressure)
		} else {
			stacks = append(stacks, b.AnnularTest)
		}
	}
	var found search
	refs, ok, shown := []place.Ref{t.Pressure.Ref}, false, ""
	for _, p := range stacks {
		if p.Known() {
			refs = append(refs, p.Ref)
			ok = ok || agree(float64(p.V), float64(t.Pressure.V), sameBump)
			shown += ", " + w.show(float64(p.V), units.Pressure)
		}
	}
	if len(refs) > 1 {
		found.holds(ok, refs, "%s among the tests; with the stack%s", w.show(float64(t.Pressure.V), units.Pressure), shown)
	}
	return found.result(saidOnce)
}

// TestFluidFits compares the fluid of a casing or shoe test with the fluids
// the plan has in the well then: water, the muds of the string's hole and the
// next, the displacement fluids of its cement.
func (w *Well) TestFluidFits(test int) (Conflicts, error) {
	t := &w.Plan.Tests[test]
	i := w.Plan.StringIndex(t.String.V)
	if !t.Fluid.Known() || i < 0 || (t.Kind.V != "casing" && t.Kind.V != "shoe") {
		return nil, Absent("not a casing or shoe test with its fluid and string")
	}
	low, high, refs := w.fluidsAround(i)
	if len(refs) == 0 {
		return nil, Absent("no mud of the holes around the test is stated")
	}
	if t.Kind.V == "casing" {
		low = min(low, water)
	}
	var found search
	ok := t.Fluid.V >= low-sameDensity && t.Fluid.V <= high+sameDensity
	found.holds(ok, append(places(t.Fluid.Ref), refs...), "tested with %s; the fluids then in the well have %s", w.showDensity(t.Fluid.V), w.showRange(low, high))
	return found.result("")
}

// fluidsAround is the range of the densities stated for the hole of a string,
// the next hole and the displacement of its cement, and where they stand.
func (w *Well) fluidsAround(str int) (low, high units.KgPerM3, refs []place.Ref) {
	low = units.KgPerM3(math.Inf(1))
	add := func(v units.KgPerM3, ref place.Ref, err error) {
		if err == nil {
			low, high, refs = min(low, v), max(high, v), append(refs, ref)
		}
	}
	own, err := w.HoleOf(str)
	for _, h := range w.Holes() {
		if err == nil && (h.Order == own.Order || h.Order == own.Order+1) {
			add(h.HeaviestMud())
			add(h.LightestMud())
		}
	}
	for i := range w.Plan.Strings[str].Stages {
		if d := w.Plan.Strings[str].Stages[i].DisplacementDensity; d.Known() {
			add(d.V, d.Ref, nil)
		}
	}
	return low, high, refs
}
