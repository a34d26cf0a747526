package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// How far two statements of one fact may differ and still be one: half of the
// last digit the trade writes, or the trade's rounding (common practice, no
// source).
const (
	sameHole    = 0.3e-3 // m: a bit written in inches and in millimetres
	sameDensity = 6      // kg/m3: half of 0.1 ppg or of 0.01 SG
	sameShare   = 0.005  // of an excess: half of one per cent
	sameBump    = 0.01   // of a pressure
	sameVolume  = 0.02   // of a volume, sacks and yield being rounded
	leastVolume = 0.16   // m3: one barrel
)

const saidOnce = "the plan gives it once"

// HoleTwice compares the hole size the casing table repeats with the section's
// bit or reamed size.
func (w *Well) HoleTwice(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !s.Hole.Known() {
		return nil, Absent(saidOnce)
	}
	var found search
	for _, i := range w.sectionsOf(str) {
		h := &w.Plan.Sections[i]
		bit := h.Bit
		if h.Reamed.Known() && math.Abs(float64(h.Reamed.V-s.Hole.V)) <= sameHole {
			bit = h.Reamed
		}
		if bit.Known() {
			ok := math.Abs(float64(bit.V-s.Hole.V)) <= sameHole
			found.holds(ok, places(s.Hole.Ref, bit.Ref), "hole of %s with the string, %s with %s", showSize(s.Hole.V), showSize(bit.V), h.Name.V)
		}
	}
	return found.result(saidOnce)
}

// sectionsOf are the hole sections that name a string, or that it names.
func (w *Well) sectionsOf(str int) []int {
	var out []int
	for i := range w.Plan.Sections {
		if w.stringIn(i) == str {
			out = append(out, i)
		}
	}
	return out
}

// ShoeTwice compares the shoe of a string with the depth of its float or guide
// shoe, the length of which it may stand above.
func (w *Well) ShoeTwice(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	var found search
	for i := range s.Accessories {
		a := &s.Accessories[i]
		if (a.Kind.V != "float_shoe" && a.Kind.V != "guide_shoe") || !a.Depth.Known() || !s.Shoe.Known() {
			continue
		}
		ok := w.meets(a.Depth.V, s.Shoe.V) || w.meets(a.Depth.V+units.MD(a.Length.V), s.Shoe.V)
		found.holds(ok, places(s.Shoe.Ref, a.Depth.Ref), "shoe at %s, %s at %s", w.showMD(s.Shoe.V), a.Name.Or("the shoe among the accessories"), w.showMD(a.Depth.V))
	}
	return found.result(saidOnce)
}

// InHole compares the shoe of a string with the bottom of the hole it is run
// in, the deepest where it has several.
func (w *Well) InHole(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	shoe, err := w.shoeOf(s)
	if err != nil {
		return nil, Absent("the shoe isn't stated")
	}
	var deepest plan.Val[units.MD]
	for _, i := range w.sectionsOf(str) {
		if to := w.Plan.Sections[i].To; to.Known() && (!deepest.Known() || to.V > deepest.V) {
			deepest = to
		}
	}
	if !deepest.Known() {
		return nil, Absent("no bottom of hole is stated for the string")
	}
	var found search
	found.holds(!w.past(shoe, deepest.V), places(w.shoeRef(s), deepest.Ref), "shoe at %s, the hole ends at %s", w.showMD(shoe), w.showMD(deepest.V))
	return found.result("")
}

// TopOfCementTwice compares the top of cement of a string with the planned top
// of its highest slurry.
func (w *Well) TopOfCementTwice(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !s.TopOfCement.Known() {
		return nil, Absent(saidOnce)
	}
	highest, complete := highestSlurry(s)
	if !highest.Known() {
		return nil, Absent(saidOnce)
	}
	toc := s.TopOfCement.V
	if z, err := w.Mudline(); err == nil { // "surface" is the sea bed there
		toc, highest.V = max(toc, units.MD(z)), max(highest.V, units.MD(z))
	}
	var found search
	ok := w.meets(highest.V, toc) || (!complete && highest.V > toc)
	found.holds(ok, places(s.TopOfCement.Ref, highest.Ref), "top of cement at %s, the highest slurry at %s", w.showMD(toc), w.showMD(highest.V))
	return found.result("")
}

// highestSlurry is the least planned top of a string's slurries, and whether
// every slurry states one.
func highestSlurry(s *plan.String) (top plan.Val[units.MD], complete bool) {
	complete = true
	for i := range s.Stages {
		for k := range s.Stages[i].Fluids {
			f := &s.Stages[i].Fluids[k]
			switch {
			case !isSlurry(f):
			case !f.Top.Known():
				complete = false
			case !top.Known() || f.Top.V < top.V:
				top = f.Top
			}
		}
	}
	return top, complete
}

func isSlurry(f *plan.Fluid) bool {
	return f.Kind.V == "lead" || f.Kind.V == "tail" || f.Kind.V == "slurry"
}

// CementInside searches a string for a top of cement or of a slurry below its
// shoe.
func (w *Well) CementInside(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	shoe, err := w.shoeOf(s)
	if err != nil {
		return nil, Absent("the shoe isn't stated")
	}
	var found search
	above := func(what string, top plan.Val[units.MD]) {
		if top.Known() {
			found.holds(!w.past(top.V, shoe), places(top.Ref, w.shoeRef(s)), "%s at %s, below the shoe at %s", what, w.showMD(top.V), w.showMD(shoe))
		}
	}
	above("top of cement", s.TopOfCement)
	for i := range s.Stages {
		for k := range s.Stages[i].Fluids {
			f := &s.Stages[i].Fluids[k]
			above("top of "+f.Name.V, f.Top)
		}
	}
	return found.result("no top of cement is stated")
}

// MudTwice compares the mud the casing table repeats with the densities of the
// section: their range, or the one stated.
func (w *Well) MudTwice(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !s.MudDensity.Known() {
		return nil, Absent(saidOnce)
	}
	var found search
	for _, i := range w.sectionsOf(str) {
		h := Hole{Plan: &w.Plan.Sections[i]}
		low, lowRef, err := h.LightestMud()
		if err != nil {
			continue
		}
		high, highRef, _ := h.HeaviestMud()
		ok := s.MudDensity.V >= low-sameDensity && s.MudDensity.V <= high+sameDensity
		found.holds(ok, places(s.MudDensity.Ref, highRef, lowRef), "mud of %s with the string, %s with %s", w.showDensity(s.MudDensity.V), w.showRange(low, high), h.Plan.Name.V)
	}
	return found.result(saidOnce)
}

func (w *Well) showRange(low, high units.KgPerM3) string {
	if low == high {
		return w.showDensity(low)
	}
	return w.showDensity(low) + " to " + w.showDensity(high)
}

// MudOfSection compares the densities a section states: lowest, planned,
// highest, circulating.
func (w *Well) MudOfSection(section int) (Conflicts, error) {
	s := &w.Plan.Sections[section]
	var found search
	rising := func(a plan.Val[units.KgPerM3], nameA string, b plan.Val[units.KgPerM3], nameB string) {
		if a.Known() && b.Known() {
			found.holds(a.V <= b.V, places(a.Ref, b.Ref), "%s %s, %s %s", nameA, w.showDensity(a.V), nameB, w.showDensity(b.V))
		}
	}
	const lowest, planned, highest, circulating = "lowest mud", "planned mud", "highest mud", "circulating density"
	rising(s.MudMin, lowest, s.MudDensity, planned)
	rising(s.MudDensity, planned, s.MudMax, highest)
	rising(s.MudMin, lowest, s.MudMax, highest)
	rising(s.MudDensity, planned, s.ECD, circulating)
	return found.result("the section states one density")
}

// CollarTwice compares the float collar of a string with those among its
// accessories, and the collar of each stage with the stage collars.
func (w *Well) CollarTwice(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	var found search
	w.among(&found, s, "float collar", s.FloatCollar, "float_collar", "landing_collar")
	for i := range s.Stages {
		w.among(&found, s, "collar of "+s.Stages[i].Name.V, s.Stages[i].Collar, "stage_collar")
	}
	return found.result(saidOnce)
}

// among holds a depth against the accessories of some kinds: one of them must
// stand there.
func (w *Well) among(found *search, s *plan.String, what string, md plan.Val[units.MD], kinds ...string) {
	refs, listed, ok := places(md.Ref), "", false
	for i := range s.Accessories {
		a := &s.Accessories[i]
		for _, k := range kinds {
			if a.Kind.V != k || !a.Depth.Known() {
				continue
			}
			ok = ok || w.meets(a.Depth.V, md.V) || w.meets(a.Depth.V+units.MD(a.Length.V), md.V)
			refs = append(refs, a.Depth.Ref)
			listed += ", " + w.showMD(a.Depth.V)
		}
	}
	if md.Known() && len(refs) > 1 {
		found.holds(ok, refs, "%s at %s; among the accessories%s", what, w.showMD(md.V), listed)
	}
}

// StageTwice compares what a string and its stages, or a stage and its hole
// section, both state of one cement job: bump pressure, wait, excess, the hole
// its volume is computed on.
func (w *Well) StageTwice(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	var found search
	var bumps []plan.Val[units.Pascals]
	var waits []plan.Val[units.Seconds]
	for i := range s.Stages {
		bumps = append(bumps, s.Stages[i].BumpPressure)
		waits = append(waits, s.Stages[i].Wait)
	}
	oneOf(w, &found, "bump pressure", s.BumpPressure, bumps, units.Pressure, sameBump)
	oneOf(w, &found, "wait on cement", s.Wait, waits, units.Time, 1e-6)
	for _, i := range w.sectionsOf(str) {
		for j := range s.Stages {
			w.stageOnHole(&found, &s.Stages[j], &w.Plan.Sections[i])
		}
	}
	return found.result(saidOnce)
}

func (w *Well) stageOnHole(found *search, st *plan.Stage, h *plan.Section) {
	if st.Excess.Known() && h.Excess.Known() {
		ok := math.Abs(float64(st.Excess.V-h.Excess.V)) <= sameShare
		found.holds(ok, places(st.Excess.Ref, h.Excess.Ref), "excess of %.0f %% in %s, %.0f %% in %s", 100*st.Excess.V, st.Name.V, 100*h.Excess.V, h.Name.V)
	}
	if st.VolumeBasis.Known() && h.HoleBasis.Known() {
		found.holds(st.VolumeBasis.V == h.HoleBasis.V, places(st.VolumeBasis.Ref, h.HoleBasis.Ref), "volume on %s in %s, on %s in %s", st.VolumeBasis.V, st.Name.V, h.HoleBasis.V, h.Name.V)
	}
}

// oneOf holds a value stated for the string against those of its stages: one
// of them must be it.
func oneOf[T ~float64](w *Well, found *search, what string, whole plan.Val[T], parts []plan.Val[T], d units.Dim, part float64) {
	refs, ok, shown := []place.Ref{whole.Ref}, false, ""
	for _, p := range parts {
		if p.Known() {
			refs = append(refs, p.Ref)
			ok = ok || agree(float64(p.V), float64(whole.V), part)
			shown += ", " + w.show(float64(p.V), d)
		}
	}
	if whole.Known() && len(refs) > 1 {
		found.holds(ok, refs, "%s of %s with the string; in its stages%s", what, w.show(float64(whole.V), d), shown)
	}
}

// CentralizersTwice compares how many centralizers a string counts with the
// sum of its rows, when each row counts its own.
func (w *Well) CentralizersTwice(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !s.CentralizersPlanned.Known() || len(s.Centralizers) == 0 {
		return nil, Absent(saidOnce)
	}
	sum, refs := 0, places(s.CentralizersPlanned.Ref)
	for i := range s.Centralizers {
		c := s.Centralizers[i].Count
		if !c.Known() {
			return nil, Absent("a row of centralizers states no count")
		}
		sum += c.V
		refs = append(refs, c.Ref)
	}
	var found search
	found.holds(sum == s.CentralizersPlanned.V, refs, "%d centralizers planned, the rows add up to %d", s.CentralizersPlanned.V, sum)
	return found.result("")
}
