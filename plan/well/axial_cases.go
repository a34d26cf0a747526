package well

import (
	"fmt"
	"math"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// running is a string hanging in the lightest mud of its hole; by hand, in air.
func (w *Well) running(str int) ([]scenario, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	switch s := c.Plan; {
	case s.Existing.V:
		return nil, Absent("the string is in the well already")
	case s.SetBy.V == "driven" || s.SetBy.V == "jetted" || s.SetBy.V == "augered":
		return nil, Absent("the string is " + s.SetBy.V + ", not run")
	}
	mud, ref, err := w.lightestAround(str)
	if err != nil {
		return nil, err
	}
	held := mud
	if w.Assume.TensionBasis == "hand" {
		held = 0
	}
	o, err := w.outerOf(str)
	if err != nil {
		return nil, err
	}
	p := column(o.realOver, o.realFrom, held)
	if held == 0 {
		p = empty
	}
	s := scenario{from: c.Top, to: c.Shoe, in: p, out: p, axial: hanging, heat: cold, refs: []place.Ref{ref}}
	air, err := w.weightInAir(str)
	if err != nil {
		return nil, err
	}
	s.note = fmt.Sprintf("buoyed in %s by pressure and area; weight in air %s", show(w, mud, units.Density), show(w, air, units.Force))
	if held == 0 {
		s.note = "weight in air, by hand as the basis asks"
	}
	return []scenario{s}, nil
}

func (w *Well) lightestAround(str int) (units.KgPerM3, place.Ref, error) {
	if h, err := w.HoleOf(str); err == nil {
		if rho, ref, err := h.LightestMud(); err == nil {
			return rho, ref, nil
		}
	}
	return w.RunIn(str)
}

// weightInAir is the vertical part of a string's weight, nothing around it.
func (w *Well) weightInAir(str int) (units.Newtons, error) {
	spots, err := w.spots(str)
	if err != nil {
		return 0, err
	}
	f, err := w.hung(str, spots, empty, empty)
	if err != nil || len(f) == 0 {
		return 0, err
	}
	return f[0], nil
}

// overpulled is running with the planned overpull, or what the basis assumes:
// the string's own buoyed weight, no more than the one and no less than the
// other figure of the basis.
func (w *Well) overpulled(str int) ([]scenario, error) {
	list, err := w.running(str)
	if err != nil {
		return nil, err
	}
	s := &list[0]
	if v := w.Plan.Strings[str].Overpull; v.Known() {
		s.extra, s.refs = v.V, append([]place.Ref{v.Ref}, s.refs...)
		s.note = "overpull " + show(w, v.V, units.Force) + " as planned; " + s.note
		return list, nil
	}
	_, f, err := w.forces(str, s, true)
	if err != nil {
		return nil, err
	}
	s.extra = max(min(f[0], w.Assume.OverpullMost), w.Assume.OverpullLeast)
	s.note = "overpull " + show(w, s.extra, units.Force) + " assumed; " + s.note
	return list, nil
}

// shocked is running stopped at once: the speed times sqrt(E rho) over the
// section, at the peak speed or 1.5 times the average one.
func (w *Well) shocked(str int) ([]scenario, error) {
	s := &w.Plan.Strings[str]
	v, ref := float64(s.PeakSpeed.V), s.PeakSpeed.Ref
	if !s.PeakSpeed.Known() {
		v, ref = 1.5*float64(s.RunningSpeed.V), s.RunningSpeed.Ref
	}
	if ref == 0 {
		return nil, Absent("no running speed is stated")
	}
	list, err := w.running(str)
	if err != nil {
		return nil, err
	}
	stress := v * math.Sqrt(modulus*steel)
	list[0].shock = units.Pascals(stress)
	list[0].refs = append([]place.Ref{ref}, list[0].refs...)
	list[0].note = "shock stress " + show(w, list[0].shock, units.Pressure) + "; " + list[0].note
	return list, nil
}

// Steel, SI: Young's modulus of 30,000,000 psi and its density.
const (
	modulus = 30e6 * units.Psi
	steel   = 7849
)

// landed is the string cemented, bled off, with its landing pull: where all
// service begins.
func (w *Well) landed(str int) ([]scenario, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	if c.Plan.SetBy.V == "driven" || c.Plan.SetBy.V == "jetted" {
		return nil, Absent("the string is " + c.Plan.SetBy.V + ", not hung")
	}
	k, err := w.asCemented(str)
	if err != nil {
		return nil, err
	}
	s := scenario{from: c.Top, to: c.Shoe, in: k.in, out: k.out, edges: k.edges, note: "as cemented, bled off", refs: []place.Ref{c.Plan.LandingPull.Ref}}
	if p := c.Plan.LandingPull; p.Known() {
		s.note += ", landing pull " + show(w, p.V, units.Force)
	}
	return []scenario{s}, nil
}

// serviced is the pull of service at fixed ends: tests after cement has set,
// stimulation and injection.
func (w *Well) serviced(str int) ([]scenario, error) {
	var out []scenario
	var lack Missing
	for _, name := range []string{"burst.pressure_test", "burst.stimulation", "burst.injection"} {
		list, err := w.moments(str, caseNamed(name))
		if m, ok := lacks(err); ok {
			lack.add(m)
		} else if err != nil && !isAbsent(err) {
			return nil, err
		}
		for _, s := range list {
			if s.axial == setFixed || len(s.lack) > 0 {
				out = append(out, s)
			}
		}
	}
	switch {
	case len(lack) > 0:
		return nil, lack
	case len(out) == 0:
		return nil, Absent("no test after the cement has set, no stimulation, no injection")
	}
	return out, nil
}

// everything is every moment of every other case, for triaxial yield. A moment
// that lacks inputs is left to its own case to complain of.
func (w *Well) everything(str int) ([]scenario, error) {
	var out []scenario
	var lack Missing
	for _, c := range loadCases() {
		if c.kind == Joint || c.kind == Triaxial {
			continue
		}
		list, err := w.moments(str, &c)
		if m, ok := lacks(err); ok {
			lack.add(m)
			continue
		}
		if err != nil {
			if isAbsent(err) {
				continue
			}
			return nil, err
		}
		for _, s := range list {
			if len(s.lack) == 0 {
				s.note = joined(CaseWords(c.name), s.note) // which case the moment is of
				out = append(out, s)
			}
		}
	}
	if len(out) == 0 {
		if len(lack) > 0 {
			return nil, lack
		}
		return nil, Absent("no load acts on it")
	}
	return out, nil
}
