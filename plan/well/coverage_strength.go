package well

import (
	"sort"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// SlurryBottom is how far above the shoe the lowest part of a slurry stands in
// the annulus, along the hole: zero for the one that fills round the shoe.
// By the volumes pumped where they're planned, else by the planned top of the
// slurry below it.
func (w *Well) SlurryBottom(str, st, fl int) (units.MD, place.Ref, error) {
	s := &w.Plan.Strings[str]
	f := &s.Stages[st].Fluids[fl]
	if !slurry(f) {
		return 0, 0, Absent("not a slurry")
	}
	if s.Stages[st].Kind.V == "squeeze" || s.Stages[st].Kind.V == "top_up" {
		return 0, 0, Absent("a squeeze or top-up is placed from elsewhere")
	}
	shoe, err := w.shoeOf(s)
	if err != nil {
		return 0, 0, err
	}
	bottom, ref, err := w.slurryBottom(str, st, fl)
	return shoe - bottom, ref, err
}

func (w *Well) slurryBottom(str, st, fl int) (units.MD, place.Ref, error) {
	s := &w.Plan.Strings[str]
	p := &s.Stages[st]
	below := nextSlurry(p, fl)
	if below < 0 {
		from, _, _, err := w.StagePath(str, st)
		if err != nil && p.Kind.V != "second_stage" && !p.Collar.Known() {
			from, err = w.shoeOf(s)
		}
		return from, p.Fluids[fl].Ref, err
	}
	tops, err := w.FluidTops(str, st)
	if err == nil {
		for _, t := range tops {
			if t.Fluid == below {
				return t.Top, p.Fluids[below].Ref, nil
			}
		}
	}
	f := &p.Fluids[below]
	if f.Top.Known() {
		return f.Top.V, f.Top.Ref, nil
	}
	return 0, 0, Lack(f.Ref, "the top of %s of %s, or its volume", f.Name.V, s.Name.V)
}

// nextSlurry is the slurry pumped after fl, -1 when it's the last.
func nextSlurry(p *plan.Stage, fl int) int {
	for i := fl + 1; i < len(p.Fluids); i++ {
		if slurry(&p.Fluids[i]) {
			return i
		}
	}
	return -1
}

// SlurryStrengthAtWait is the strength of a slurry of a stage at the wait
// planned from plug down.
func (w *Well) SlurryStrengthAtWait(str, st, fl int) (LabStrength, error) {
	wait, err := w.PlannedWait(str, st)
	if err != nil {
		return LabStrength{}, err
	}
	out, err := w.SlurryStrength(str, st, fl, wait.V)
	out.Wait = wait.Ref
	return out, err
}

// PlannedWait is the time from plug down before drilling out: of the stage,
// else of the string.
func (w *Well) PlannedWait(str, st int) (plan.Val[units.Seconds], error) {
	s := &w.Plan.Strings[str]
	if st >= 0 && st < len(s.Stages) && s.Stages[st].Wait.Known() {
		return s.Stages[st].Wait, nil
	}
	if s.Wait.Known() {
		return s.Wait, nil
	}
	return s.Wait, Lack(s.Ref, "the wait on cement of %s", s.Name.V)
}

// ShortestWait is the shortest wait planned on a string's cement stages.
func (w *Well) ShortestWait(str int) (plan.Val[units.Seconds], error) {
	s := &w.Plan.Strings[str]
	if !Cemented(s) {
		return s.Wait, Absent("the string isn't cemented")
	}
	best, err := w.PlannedWait(str, 0)
	for st := 1; st < len(s.Stages) && err == nil; st++ {
		var v plan.Val[units.Seconds]
		if v, err = w.PlannedWait(str, st); err == nil && v.V < best.V {
			best = v
		}
	}
	return best, err
}

// SlurryStrength is the strength of a slurry at an age, linear between the
// laboratory points that stand for its place: the shoe for the last slurry of
// a stage, the top for those above it, where points name a place at all.
func (w *Well) SlurryStrength(str, st, fl int, age units.Seconds) (LabStrength, error) {
	s := &w.Plan.Strings[str]
	f := &s.Stages[st].Fluids[fl]
	if !slurry(f) {
		return LabStrength{}, Absent("not a slurry")
	}
	where := "top"
	if nextSlurry(&s.Stages[st], fl) < 0 {
		where = "shoe"
	}
	points := pointsAt(f, where)
	if len(points) == 0 {
		return LabStrength{}, Lack(f.Ref, "the compressive strength of %s of %s", f.Name.V, s.Name.V)
	}
	return strengthAt(points, age, f.Name.V)
}

// pointsAt are the tests of a slurry that name a place or none, by age; where
// there are none, all of them.
func pointsAt(f *plan.Fluid, where string) []plan.Strength {
	var at, all []plan.Strength
	for _, p := range f.Strengths {
		if !p.Time.Known() || !p.Strength.Known() {
			continue
		}
		all = append(all, p)
		if p.Place.V == "" || p.Place.V == where {
			at = append(at, p)
		}
	}
	if len(at) == 0 && where != "shoe" {
		at = all
	}
	sort.SliceStable(at, func(i, j int) bool { return at[i].Time.V < at[j].Time.V })
	return at
}
