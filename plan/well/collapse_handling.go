package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// jointLength is the length of pipe filled at a time where the plan doesn't say: a
// joint of range 3, 40 ft.
const jointLength = 40 * units.Foot

// ran is a string being run: empty from the surface between fills, or floated
// from the shoe up; full mud outside at landed depth.
func (w *Well) ran(str int) ([]scenario, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	s := c.Plan
	if s.Existing.V || s.SetBy.V == "driven" || s.SetBy.V == "jetted" || s.SetBy.V == "augered" {
		return nil, Absent("it isn't run into a hole full of mud")
	}
	mud, ref, err := w.RunIn(str)
	if err != nil {
		return nil, err
	}
	o, err := w.outerOf(str)
	if err != nil {
		return nil, err
	}
	head, err := w.Mudline()
	if err != nil {
		return nil, err
	}
	full := column(o.realOver, o.realFrom, mud)
	fill := float64(s.FillEvery.Or(units.Meters(jointLength)))
	m := scenario{from: c.Top, to: c.Shoe, in: column(0, head+units.TVD(fill), mud), out: full, axial: hanging, heat: cold,
		refs: []place.Ref{s.FillEvery.Ref, ref}, edges: w.levelAt(head + units.TVD(fill)),
		note: "filled every " + units.Show(fill, units.Length, w.Plan.System, false)}
	if s.Floated.Known() && s.Floated.V > 0 {
		from := max(c.Shoe-units.MD(s.Floated.V), c.Top)
		m.in = upper(full, from, empty)
		m.refs[0], m.edges, m.note = s.Floated.Ref, []units.MD{from}, "floated empty from "+show(w, from, units.MDLength)+" to the shoe"
	}
	return []scenario{m}, nil
}

// inflow is a planned inflow test: the lighter fluid inside, nothing on it.
func (w *Well) inflow(str int) ([]scenario, error) {
	var out []scenario
	for i := range w.Plan.Tests {
		t := &w.Plan.Tests[i]
		k := w.Plan.StringIndex(t.String.V)
		if t.Kind.V != "inflow" || k < 0 {
			continue
		}
		lengths, err := w.upToWellhead(k)
		if err != nil {
			return nil, err
		}
		for _, l := range lengths {
			if l.String != str {
				continue
			}
			if !t.Fluid.Known() {
				return nil, Lack(t.Ref, "the density of the fluid of %s", t.Name.V)
			}
			s, err := w.pressed(l, column(0, 0, t.Fluid.V), t.Name.V+" on "+show(w, t.Fluid.V, units.Density), nil, t.Fluid.Ref)
			if err != nil {
				return nil, err
			}
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		return nil, Absent("no inflow test is planned")
	}
	return out, nil
}

// annulusOutside is pressure held on the annulus outside a production string,
// its inside bled off to the fluid in it.
func (w *Well) annulusOutside(str int) ([]scenario, error) {
	p := w.Plan.Completion.AnnulusPressure
	switch {
	case !p.Known():
		return nil, Absent("no annulus pressure is planned")
	case !w.ProductionExposed(str) || !w.ReachesWellhead(str):
		return nil, Absent("the annulus outside it isn't the one held")
	}
	l, err := w.facesTubing(str)
	if err != nil {
		return nil, err
	}
	o, err := w.outerOf(str)
	if err != nil {
		return nil, err
	}
	rho := w.Plan.Completion.PackerFluid
	if !rho.Known() {
		rho.V, rho.Ref = o.mud, o.mudRef
	}
	l.To = min(l.To, max(o.cement, l.From))
	s := scenario{from: l.From, to: l.To, in: column(0, 0, rho.V), out: column(p.V, 0, o.mud), edges: o.edges, heat: hottest,
		note: "annulus pressure outside, inside bled off", refs: []place.Ref{p.Ref, rho.Ref}}
	return []scenario{s}, nil
}
