package well

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// gasToSurface is the well full of gas from a later hole, shut in at the
// surface: loads of every hole the string stays open to.
func (w *Well) gasToSurface(str int) ([]scenario, error) {
	return w.eachExposure(str, func(e Exposure) (scenario, error) {
		if why := w.cannotFill(str, e.Hole); why != "" {
			return scenario{}, Absent(why)
		}
		g, err := w.gasShutIn(e.Hole, e.Shoe)
		if err != nil {
			return scenario{}, err
		}
		in, err := g.gas.profile(g.atShoe, g.shoe, 0, g.shoe)
		if err != nil {
			return scenario{}, err
		}
		s, err := w.backed(str, in, 0, e.Down)
		s.note = e.Hole.Plan.Name.V + ": " + g.note(w.Plan.System)
		s.working = g.steps()
		return s, err
	})
}

// eachExposure makes a scenario of every later hole a string is open to. Holes
// for which one is Absent are left out; if all are, so is the case.
func (w *Well) eachExposure(str int, make func(Exposure) (scenario, error)) ([]scenario, error) {
	var out []scenario
	why := error(Absent("no hole is drilled below it while it's exposed"))
	for _, e := range w.Exposures(str) {
		s, err := make(e)
		m, missing := lacks(err)
		switch {
		case err == nil:
			out = append(out, s)
		case missing:
			out = append(out, scenario{lack: m})
		case isAbsent(err):
			why = err
		default:
			return nil, err
		}
	}
	if len(out) == 0 {
		return nil, why
	}
	return out, nil
}

// backed is a load inside the string against the burst back-up.
func (w *Well) backed(str int, in profile, from, to units.MD) (scenario, error) {
	out, edges, err := w.backup(str)
	return scenario{from: from, to: to, in: in, out: out, edges: edges}, err
}

// cannotFill says why gas of a hole can't fill the well and be shut in; empty
// where it can.
func (w *Well) cannotFill(str int, h *Hole) string {
	p := h.Plan
	switch {
	case p.Returns.V == "seabed" || p.Returns.V == "none":
		return p.Name.V + " is drilled without returns to the rig"
	case p.PressureControl.V == "none" || p.PressureControl.V == "diverter":
		return p.Name.V + " is drilled without a BOP: it can't be shut in"
	case w.Plan.Strings[str].Role.V == "conductor" && !w.CarriesBOP(str):
		return "the conductor carries no BOP"
	case w.nothingFlows(h):
		return "the formations table is complete and nothing in " + p.Name.V + " can flow oil or gas"
	}
	return ""
}

func (w *Well) nothingFlows(h *Hole) bool {
	if !w.Plan.Well.FormationsComplete.V || w.Plan.Well.Class.V == "exploration" {
		return false
	}
	for _, i := range w.OpenHoleZones(h) {
		if flows, hc := w.CanFlow(i); flows && hc {
			return false
		}
	}
	return true
}

// steps shows how the pressure at the shoe came about.
func (s gasShutIn) steps() []expr.Working {
	p := func(name string, v units.Pascals) expr.Input {
		return expr.Input{Name: name, SI: float64(v), Dim: units.Pressure}
	}
	z := func(name string, v units.TVD) expr.Input {
		return expr.Input{Name: name, SI: float64(v), Dim: units.TVDLength}
	}
	var out []expr.Working
	if s.gas.linear {
		g := expr.Input{Name: "gas_gradient", SI: float64(s.gas.slope), Dim: units.Gradient}
		out = append(out, expr.Working{Formula: "pore - gas_gradient * (source - shoe)", Source: "gas column of constant gradient",
			Inputs: []expr.Input{p("pore", s.pore), g, z("source", s.from), z("shoe", s.shoe)}, Result: p("gas_at_shoe", s.arrives)})
	}
	return append(out, expr.Working{Formula: "lesser(gas_at_shoe, fracture_and_allowance)", Source: "the lesser of what arrives and what the shoe holds",
		Inputs: []expr.Input{p("gas_at_shoe", s.arrives), p("fracture_and_allowance", s.limit)}, Result: p("pressure_at_shoe", s.atShoe)})
}

// lostReturns is fracture pressure at the shoe with water on top, where a
// later hole names a zone of losses.
func (w *Well) lostReturns(str int) ([]scenario, error) {
	return w.eachExposure(str, func(e Exposure) (scenario, error) {
		if len(w.lossZones(e.Hole)) == 0 {
			return scenario{}, Absent("no zone of losses is named below it")
		}
		if c := e.Hole.Plan.PressureControl.V; c == "none" || c == "diverter" || e.Hole.Plan.Returns.V == "seabed" {
			return scenario{}, Absent(e.Hole.Plan.Name.V + " can't be shut in")
		}
		z, err := w.TVD(e.Shoe)
		if err != nil {
			return scenario{}, err
		}
		frac, _, err := w.Fracture(z, High)
		if err != nil {
			return scenario{}, w.atShoe(err, e.Shoe)
		}
		water := FreshWater
		if w.Subsea() {
			water = SeaWater
		}
		in := func(s Spot) (units.Pascals, error) { return max(frac-units.Hydrostatic(water, z-s.TVD), 0), nil }
		s, err := w.backed(str, in, 0, e.Down)
		s.note = e.Hole.Plan.Name.V + ": fracture pressure at the shoe, water above it"
		return s, err
	})
}

func (w *Well) lossZones(h *Hole) []int {
	var out []int
	for _, i := range w.OpenHoleZones(h) {
		if w.Plan.Formations[i].Losses.V {
			out = append(out, i)
		}
	}
	return out
}

// bumped is the plug landing: total surface pressure on the displacement
// fluid down to the collar, the real columns outside.
func (w *Well) bumped(str int) ([]scenario, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	s := c.Plan
	st := primary(s)
	switch {
	case !Cemented(s):
		return nil, Absent("the string isn't cemented")
	case s.Existing.V:
		return nil, Absent("the string is in the well already")
	case st != nil && (st.Kind.V == "inner_string" || st.TopPlug.Known() && !st.TopPlug.V):
		return nil, Absent("no plug is bumped")
	}
	p := s.BumpPressure
	if st != nil && st.BumpPressure.Known() && st.BumpPressure.V > p.V {
		p = st.BumpPressure
	}
	for i := range w.Plan.Tests {
		t := &w.Plan.Tests[i]
		if t.When.V == "bump" && t.Pressure.Known() && w.Plan.StringIndex(t.String.V) == str && t.Pressure.V > p.V {
			p = t.Pressure
		}
	}
	switch {
	case p.Known():
	case c.RoleIs("conductor", "drive", "tie_back"):
		return nil, Absent("no bump is planned")
	default:
		return nil, Lack(s.Ref, "the bump pressure of %s", s.Name.V)
	}
	return w.plugDown(c, p.V, []place.Ref{p.Ref}, "plug on the collar, total surface pressure")
}

// plugDown is a pressure on a plug that closes the string, before cement has
// strength.
func (w *Well) plugDown(c *Casing, p units.Pascals, refs []place.Ref, note string) ([]scenario, error) {
	rho, _, err := w.displacement(c.Index, primary(c.Plan))
	if err != nil {
		return nil, err
	}
	out, edges, err := w.slurries(c.Index, nil)
	if err != nil {
		return nil, err
	}
	collar, _, ok := c.FloatCollar()
	if !ok || collar > c.Shoe {
		collar = c.Shoe
	}
	in := upper(column(p, 0, rho), collar, out) // the shoe track holds what is outside
	return []scenario{{from: c.Top, to: collar, in: in, out: out, edges: append(edges, collar), axial: hanging, heat: cold, refs: refs, note: note}}, nil
}

// shoeTests are planned leak-off and integrity tests on the string's shoe.
func (w *Well) shoeTests(str int) ([]scenario, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	var out []scenario
	for i := range w.Plan.Tests {
		t := &w.Plan.Tests[i]
		if t.Kind.V != "shoe" || w.Plan.StringIndex(t.String.V) != str {
			continue
		}
		mud := t.Fluid
		if es := w.Exposures(str); !mud.Known() && len(es) > 0 {
			mud.V, mud.Ref, _ = es[0].Hole.RunningMud()
		}
		if !mud.Known() {
			return nil, Lack(t.Ref, "the mud density at the shoe test of %s", c.Plan.Name.V)
		}
		p := t.Pressure
		if !p.Known() && t.EMW.Known() {
			z, err := w.TVD(c.Shoe)
			if err != nil {
				return nil, err
			}
			p.V, p.Ref = max(units.Hydrostatic(t.EMW.V-mud.V, z), 0), t.EMW.Ref
		}
		if !p.Known() {
			return nil, Lack(t.Ref, "the pressure or equivalent mud weight of %s", t.Name.V)
		}
		s, err := w.backed(str, column(p.V, 0, mud.V), 0, c.Shoe)
		if err != nil {
			return nil, err
		}
		s.refs, s.note = []place.Ref{p.Ref}, fmt.Sprintf("%s: %s at surface", t.Name.V, show(w, p.V, units.Pressure))
		out = append(out, s)
	}
	if len(out) == 0 {
		return nil, Absent("no shoe test is planned")
	}
	return out, nil
}
