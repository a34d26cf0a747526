package well

import (
	"fmt"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Length is a length of one string.
type Length struct {
	String   int
	From, To units.MD
}

// ActsOn lists the lengths a pressure test acts on: a casing test its own
// string, a test of a liner or of its lap also the strings above the liner's
// top, a BOP test without a plug the string it's made on.
func (w *Well) ActsOn(test int) ([]Length, error) {
	t := &w.Plan.Tests[test]
	switch {
	case t.Kind.V == "shoe" || t.Kind.V == "inflow" || t.Kind.V == "seal":
		return nil, Absent("not a test of the pipe by pressure inside")
	case t.Isolated.V:
		return nil, Absent("a plug keeps the pressure off the casing")
	}
	str := w.Plan.StringIndex(t.String.V)
	if str < 0 {
		return nil, Lack(t.Ref, "the string %s acts on", t.Name.V)
	}
	return w.upToWellhead(str)
}

// upToWellhead is a string, and for a liner what stands over its top, up to
// the wellhead.
func (w *Well) upToWellhead(str int) ([]Length, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	out := []Length{{str, c.Top, c.Shoe}}
	for IsLiner(c.Plan) && len(out) <= len(w.Plan.Strings) {
		top := c.Top
		k := w.tieBackTo(c.Index)
		if k < 0 {
			if k, err = w.Parent(c.Index); err != nil {
				return nil, err
			}
		}
		if c, err = w.Casing(k); err != nil {
			return nil, err
		}
		out = append(out, Length{k, c.Top, min(top, c.Shoe)})
	}
	return out, nil
}

// tieBackTo is the tie-back that stands on a liner; -1 without one.
func (w *Well) tieBackTo(liner int) int {
	for i := range w.Plan.Strings {
		s := &w.Plan.Strings[i]
		if s.Role.V == "tie_back" && w.rank(i) == w.rank(liner)+1 {
			return i
		}
	}
	return -1
}

// testedWith is the fluid in the hole at a test: stated, else what displaced
// the cement, or after drill-out the next hole's mud.
func (w *Well) testedWith(t *plan.Test, str int) (plan.Val[units.KgPerM3], error) {
	if t.Fluid.Known() {
		return t.Fluid, nil
	}
	var v plan.Val[units.KgPerM3]
	var err error
	if es := w.Exposures(str); t.When.V == "after_drill_out" && len(es) > 0 {
		v.V, v.Ref, err = es[0].Hole.RunningMud()
		return v, err
	}
	v.V, v.Ref, err = w.displacement(str, nil)
	return v, err
}

// held is the greatest pressure of a test: its own, or the relief setting that
// would let it go that far.
func held(t *plan.Test) (plan.Val[units.Pascals], error) {
	if t.Relief.Known() && t.Relief.V > t.Pressure.V {
		return t.Relief, nil
	}
	if !t.Pressure.Known() {
		return t.Pressure, Lack(t.Ref, "the pressure of %s", t.Name.V)
	}
	return t.Pressure, nil
}

// tested is every pressure test that acts on a string: rows of the plan, and a
// BOP stack tested without a plug on the string it stands on.
func (w *Well) tested(str int) ([]scenario, error) {
	var out []scenario
	why := error(Absent("no pressure test acts on it"))
	for i := range w.Plan.Tests {
		t := &w.Plan.Tests[i]
		if t.When.V == "bump" {
			continue
		}
		lengths, err := w.ActsOn(i)
		if isAbsent(err) {
			continue
		}
		if err != nil {
			if w.Plan.StringIndex(t.String.V) == str {
				return nil, err
			}
			continue
		}
		for _, l := range lengths {
			if l.String != str {
				continue
			}
			s, err := w.testRow(t, l)
			if m, ok := lacks(err); ok {
				s = scenario{lack: m}
			} else if err != nil {
				return nil, err
			}
			out = append(out, s)
		}
	}
	bops, err := w.bopTests(str)
	if err != nil {
		return nil, err
	}
	if out = append(out, bops...); len(out) == 0 {
		return nil, why
	}
	return out, nil
}

func (w *Well) testRow(t *plan.Test, l Length) (scenario, error) {
	p, err := held(t)
	if err != nil {
		return scenario{}, err
	}
	rho, err := w.testedWith(t, w.Plan.StringIndex(t.String.V))
	if err != nil {
		return scenario{}, err
	}
	note := fmt.Sprintf("%s: %s on %s", t.Name.V, show(w, p.V, units.Pressure), show(w, rho.V, units.Density))
	if t.When.V == "green" {
		c, err := w.Casing(l.String)
		if err != nil {
			return scenario{}, err
		}
		s, err := w.plugDown(c, p.V, []place.Ref{p.Ref}, note+", before the cement has strength")
		if err != nil {
			return scenario{}, err
		}
		return s[0], nil
	}
	s, err := w.backed(l.String, column(p.V, 0, rho.V), l.From, l.To)
	s.refs, s.note = []place.Ref{p.Ref, rho.Ref}, note
	return s, err
}

// bopTests are stacks on the string tested without a plug.
func (w *Well) bopTests(str int) ([]scenario, error) {
	var out []scenario
	for i := range w.Plan.BOPs {
		b := &w.Plan.BOPs[i]
		if !b.TestPlug.Known() || b.TestPlug.V || !b.TestPressure.Known() || w.Plan.StringIndex(b.On.V) != str {
			continue
		}
		c, err := w.Casing(str)
		if err != nil {
			return nil, err
		}
		rho, ref, err := w.displacement(str, nil)
		if err != nil {
			return nil, err
		}
		s, err := w.backed(str, column(b.TestPressure.V, 0, rho), c.Top, c.Shoe)
		if err != nil {
			return nil, err
		}
		s.refs, s.note = []place.Ref{b.TestPressure.Ref, ref}, b.Name.V+" tested without a plug"
		out = append(out, s)
	}
	return out, nil
}

// OverInternalYield is the greatest share of internal yield a test takes up:
// at every depth of every length it acts on, surface pressure and fluid inside
// less the burst back-up outside, over the weakest of body, coupling, thread
// and stated rating.
func (w *Well) OverInternalYield(test int) (*StrengthResult, error) {
	lengths, err := w.ActsOn(test)
	if err != nil {
		return nil, err
	}
	t := &w.Plan.Tests[test]
	if t.When.V == "bump" {
		return nil, Absent("made on the plug; the case of the plug bump judges it")
	}
	out := &StrengthResult{}
	c := &loadCase{name: "test", kind: Burst}
	var lack Missing
	for _, l := range lengths {
		s, err := w.testRow(t, l)
		if err != nil {
			return nil, err
		}
		if err := w.judgeMoment(l.String, c, &s, out, &lack); err != nil {
			return nil, err
		}
	}
	out.Gaps = lack
	w.choose(out)
	if out.Least == nil && len(lack) > 0 {
		return nil, lack
	}
	return out, nil
}
