package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// DeepestBase is the base of the deepest formation a plan lists that has a
// property, true vertical. Absent where none has it.
func (w *Well) DeepestBase(has func(f *plan.Formation) bool) (units.TVD, *plan.Formation, error) {
	var best units.TVD
	var at *plan.Formation
	for i := range w.Plan.Formations {
		f := &w.Plan.Formations[i]
		if !has(f) {
			continue
		}
		_, z, _, err := w.FormationBase(i)
		if err != nil {
			return 0, f, err
		}
		if at == nil || z > best {
			best, at = z, f
		}
	}
	if at == nil {
		return 0, nil, Absent("no such formation is listed")
	}
	return best, at, nil
}

// Fresh reports whether a formation holds fresh or usable water.
func Fresh(f *plan.Formation) bool {
	return f.Contents.V == "fresh_water" || f.Contents.V == "usable_water"
}

// Frozen reports whether a formation is permafrost.
func Frozen(f *plan.Formation) bool { return f.Permafrost.V }

// OpensHydrocarbon reports whether the hole of a string opens a formation that
// holds oil or gas. A plan that lists no formations doesn't say.
func (w *Well) OpensHydrocarbon(str int) (bool, place.Ref, error) {
	if len(w.Plan.Formations) == 0 {
		return false, 0, Lack(w.Plan.Doc.Root.Ref, "the formations and what they hold")
	}
	for _, i := range w.ZonesOf(str) {
		switch f := &w.Plan.Formations[i]; f.Contents.V {
		case "oil", "gas", "oil_and_gas":
			return true, f.Contents.Ref, nil
		}
	}
	return false, w.Plan.Strings[str].Ref, nil
}

// Horizontal reports whether the planned path reaches 80 degrees: from there on
// a hole counts as horizontal. Common practice, no source.
func (w *Well) Horizontal() (bool, place.Ref, error) {
	v := w.Plan.Well.Vertical
	switch {
	case len(w.Plan.Survey) == 0 && !v.V:
		return false, 0, Lack(w.Plan.Well.Ref, "the path of the well")
	case len(w.Plan.Survey) == 0:
		return false, v.Ref, nil
	}
	const level = 1.3962634015954636 // rad, 80 degrees
	for i := range w.Plan.Survey {
		s := &w.Plan.Survey[i]
		if s.Inclination.Known() && float64(s.Inclination.V) >= level {
			return true, s.Inclination.Ref, nil
		}
	}
	return false, w.Plan.Survey[0].Ref, nil
}

// CementStages is how many stages place cement round a string: squeezes and
// top-ups aside.
func CementStages(s *plan.String) int {
	n := 0
	for i := range s.Stages {
		if k := s.Stages[i].Kind.V; k != "squeeze" && k != "top_up" {
			n++
		}
	}
	return n
}

// DropPressure is the fall in pressure a test allows.
func DropPressure(t *plan.Test) (units.Pascals, error) {
	var missing Missing
	if !t.Pressure.Known() {
		missing = missing.and(Lack(t.Ref, "the pressure of %s", t.Name.V))
	}
	if !t.Drop.Known() {
		missing = missing.and(Lack(t.Ref, "the drop allowed in %s", t.Name.V))
	}
	return t.Pressure.V * units.Pascals(t.Drop.V), missing.orNil()
}

// HoopOverYield is the greatest hoop stress a surface pressure p sets up in a
// string as a part of its minimum yield strength: p D / (2 t Y), nominal
// diameter and wall, nothing outside (Barlow).
func (w *Well) HoopOverYield(str int, p units.Pascals) (units.Fraction, *Rated, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, nil, err
	}
	var worst units.Fraction
	var at *Rated
	for i := range c.Pipes {
		r, err := w.Rated(str, i)
		if err != nil {
			return 0, nil, err
		}
		if r.Body.Yield <= 0 {
			return 0, nil, Lack(r.Plan.Ref, "the grade of %s in %s", r.Plan.Label(), c.Plan.Name.V)
		}
		used := units.Fraction(float64(p) * float64(r.Body.OD) / (2 * float64(r.Body.Wall) * float64(r.Body.Yield)))
		if at == nil || used > worst {
			worst, at = used, r
		}
	}
	return worst, at, nil
}

// StrongestPoint is the greatest strength a laboratory reports of a slurry.
func (w *Well) StrongestPoint(str, st, fl int) (plan.Val[units.Pascals], error) {
	s := &w.Plan.Strings[str]
	f := &s.Stages[st].Fluids[fl]
	var best plan.Val[units.Pascals]
	if !slurry(f) {
		return best, Absent("not a slurry")
	}
	for i := range f.Strengths {
		if v := f.Strengths[i].Strength; v.Known() && (!best.Known() || v.V > best.V) {
			best = v
		}
	}
	if !best.Known() {
		return best, Lack(f.Ref, "the compressive strength of %s of %s", f.Name.V, s.Name.V)
	}
	return best, nil
}
