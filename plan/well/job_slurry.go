package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// SlurrySpan is where a slurry stands outside a string when its stage ends.
type SlurrySpan struct {
	Fluid       int
	Top, Bottom units.MD
}

type spansKey struct{ str, st int }

// SlurrySpans are the lengths that the slurries of a stage fill, in pumping
// order: by volume, else by their planned tops.
func (w *Well) SlurrySpans(str, st int) ([]SlurrySpan, error) {
	return once(w, spansKey{str, st}, func() ([]SlurrySpan, error) { return w.slurrySpans(str, st) })
}

func (w *Well) slurrySpans(str, st int) ([]SlurrySpan, error) {
	p := &w.Plan.Strings[str].Stages[st]
	if p.Kind.V == "top_up" || p.Kind.V == "squeeze" {
		return nil, Absent("the slurry isn't pumped up from below")
	}
	tops, err := w.FluidTops(str, st)
	if err != nil {
		if tops = w.plannedTops(str, st); tops == nil {
			return nil, err
		}
	}
	from, _, _, err := w.StagePath(str, st)
	if err != nil {
		if p.Collar.Known() || p.Kind.V == "second_stage" {
			return nil, err
		}
		if from, err = w.shoeOf(&w.Plan.Strings[str]); err != nil { // no float collar told
			return nil, err
		}
	}
	var out []SlurrySpan
	for i, t := range tops {
		bottom := from
		if i+1 < len(tops) {
			bottom = tops[i+1].Top
		}
		out = append(out, SlurrySpan{t.Fluid, t.Top, bottom})
	}
	if len(out) == 0 {
		return nil, Lack(p.Ref, "the cement slurries of %s", w.stageName(str, st))
	}
	return out, nil
}

// plannedTops are the tops of slurries as planned, the first one's else that of
// the string; nil where they don't tell where each one stands.
func (w *Well) plannedTops(str, st int) []FluidTop {
	s := &w.Plan.Strings[str]
	p := &s.Stages[st]
	if !topsTold(p) {
		return nil
	}
	var out []FluidTop
	for i := range p.Fluids {
		f := &p.Fluids[i]
		if !slurry(f) {
			continue
		}
		top := f.Top
		if len(out) == 0 && !top.Known() && w.uppermost(str) == st {
			top = s.TopOfCement
		}
		if !top.Known() {
			return nil
		}
		out = append(out, FluidTop{i, top.V})
	}
	return out
}

// SlurryAt is the slurry that stands outside a string at a depth once all its
// stages are pumped.
func (w *Well) SlurryAt(str int, md units.MD) (st, fl int, err error) {
	s := &w.Plan.Strings[str]
	if !Cemented(s) {
		return 0, 0, Absent("the string isn't cemented")
	}
	if len(s.Stages) == 0 {
		return 0, 0, Lack(s.Ref, "the cement slurries of %s", s.Name.V)
	}
	var missing Missing
	for i := range s.Stages {
		spans, err := w.SlurrySpans(str, i)
		missing = missing.and(err)
		for _, p := range spans {
			if md >= p.Top && md < p.Bottom {
				return i, p.Fluid, nil
			}
		}
	}
	if len(missing) > 0 {
		return 0, 0, missing
	}
	return 0, 0, Absent("no slurry stands there")
}

// BesideGas reports whether a slurry stands beside a formation of its hole that
// holds gas; BesideHydrocarbon, one that holds oil or gas.
func (w *Well) BesideGas(str, st, fl int) (bool, error) {
	return w.beside(str, st, fl, func(f *plan.Formation) bool {
		return f.Contents.V == "gas" || f.Contents.V == "oil_and_gas"
	})
}

// BesideHydrocarbon is like BesideGas, of oil too.
func (w *Well) BesideHydrocarbon(str, st, fl int) (bool, error) {
	return w.beside(str, st, fl, func(f *plan.Formation) bool {
		return f.Contents.V == "oil" || f.Contents.V == "gas" || f.Contents.V == "oil_and_gas"
	})
}

func (w *Well) beside(str, st, fl int, holds func(*plan.Formation) bool) (bool, error) {
	h, err := w.HoleOf(str)
	if isAbsent(err) {
		return false, nil // cased hole, or none
	} else if err != nil {
		return false, err
	}
	var there []int
	for _, i := range w.OpenHoleZones(h) {
		if holds(&w.Plan.Formations[i]) {
			there = append(there, i)
		}
	}
	if len(there) == 0 {
		return false, nil
	}
	spans, err := w.SlurrySpans(str, st)
	if err != nil {
		return false, err
	}
	for _, p := range spans {
		for _, i := range there {
			top, _, _, _ := w.FormationTop(i)
			base, _, _, err := w.FormationBase(i)
			if err != nil {
				base = h.To
			}
			if p.Fluid == fl && p.Top < base && p.Bottom > max(top, h.From) {
				return true, nil
			}
		}
	}
	return false, nil
}

// Steepest is the greatest inclination along the cement of a stage and the
// depth of it. Needs a survey, or a plan that says the hole is vertical.
func (w *Well) Steepest(str, st int) (units.Radians, units.MD, error) {
	spans, err := w.SlurrySpans(str, st)
	if err != nil {
		return 0, 0, err
	}
	m, source, err := w.Depths()
	if err != nil {
		return 0, 0, err
	}
	most, at := units.Radians(-1), units.MD(0)
	for _, md := range w.turns(spans[0].Top, spans[len(spans)-1].Bottom) {
		inc, ok := m.Inclination(md)
		if !ok {
			return 0, 0, Lack(w.depthRef(), "%s down to %s", mapNeed(source), show(w, md, units.MDLength))
		}
		if inc > most {
			most, at = inc, md
		}
	}
	return most, at, nil
}

// TopTest is the coldest strength test that stands for the top of the uppermost
// slurry of a stage, beside the static temperature there.
type TopTest struct {
	Test   units.Kelvins
	Static units.Kelvins
	Top    units.MD
	Ref    place.Ref
}

// TestedAtTop is the test for the top of a stage's first slurry. It is asked of
// a slurry under which another stands, or that a test for its top is given of;
// the strength of a lone slurry is proven at the shoe.
func (w *Well) TestedAtTop(str, st, fl int) (TopTest, error) {
	var t TopTest
	spans, err := w.SlurrySpans(str, st)
	if err != nil {
		return t, err
	}
	f := &w.Plan.Strings[str].Stages[st].Fluids[fl]
	for i := range f.Strengths {
		s := &f.Strengths[i]
		if s.Place.V == "top" && s.Temperature.Known() && (t.Ref == 0 || s.Temperature.V < t.Test) {
			t.Test, t.Ref = s.Temperature.V, s.Temperature.Ref
		}
	}
	switch {
	case spans[0].Fluid != fl:
		return t, Absent("another slurry stands over it, or it isn't a slurry")
	case t.Ref == 0 && len(spans) == 1:
		return t, Absent("one slurry from top to bottom, tested for the bottom")
	case t.Ref == 0:
		return t, Lack(f.Ref, "a strength test of %s of %s at the temperature of its top", f.Name.V, w.Plan.Strings[str].Name.V)
	}
	t.Top = spans[0].Top
	if stated, _, ok := w.StatedTop(str, st); ok && stated > t.Top {
		t.Top = stated // more is pumped than the plan needs: the top it counts on
	}
	z, err := w.TVD(t.Top)
	if err != nil {
		return t, err
	}
	known := false
	if t.Static, known = w.Temperature(z); !known {
		return t, w.staticLack(z)
	}
	return t, nil
}
