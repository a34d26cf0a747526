package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// facesTubing is the length of a string that faces the tubing annulus or
// produced fluid: production casing, tie-back and production liner whole, a
// production liner's parent down to the liner's top.
func (w *Well) facesTubing(str int) (Length, error) {
	if !w.ProductionExposed(str) {
		return Length{}, Absent("it never faces the tubing or produced fluid")
	}
	c, err := w.Casing(str)
	if err != nil {
		return Length{}, err
	}
	l := Length{str, c.Top, c.Shoe}
	if c.RoleIs("production", "tie_back", "production_liner") {
		return l, nil
	}
	for i := range w.Plan.Strings {
		if w.Plan.Strings[i].Role.V != "production_liner" {
			continue
		}
		if p, err := w.Parent(i); err != nil || p != str {
			continue
		}
		top, err := w.topOf(&w.Plan.Strings[i])
		if err != nil {
			return l, err
		}
		l.To = min(l.To, top)
	}
	return l, nil
}

// depletes lowers the back-up to depleted pressure across the producing
// interval in production life.
func (w *Well) depletes(out profile) (profile, []units.MD) {
	c := &w.Plan.Completion
	if !c.DepletedPressure.Known() || !c.PerforatedFrom.Known() || !c.PerforatedTo.Known() {
		return out, nil
	}
	from, to := c.PerforatedFrom.V, c.PerforatedTo.V
	return func(s Spot) (units.Pascals, error) {
		p, err := out(s)
		if s.within(from, to) {
			p = min(p, c.DepletedPressure.V)
		}
		return p, err
	}, []units.MD{from, to}
}

// inLife is a load of production life inside a length of a string.
func (w *Well) inLife(l Length, in profile, note string, refs ...place.Ref) ([]scenario, error) {
	s, err := w.backed(l.String, in, l.From, l.To)
	if err != nil {
		return nil, err
	}
	var edges []units.MD
	s.out, edges = w.depletes(s.out)
	s.edges = append(append([]units.MD(nil), s.edges...), edges...)
	s.heat, s.note, s.refs = hottest, note, refs
	return []scenario{s}, nil
}

// shutIn is the highest shut-in tubing pressure: stated, else initial
// reservoir pressure less a gas column, without relief at a shoe.
func (w *Well) shutIn() (p units.Pascals, g gas, z units.TVD, bottom units.Pascals, note string, err error) {
	x := &w.Plan.Well
	switch x.Purpose.V {
	case "injection", "disposal", "geothermal", "water":
		return p, g, z, bottom, "", Absent("the well doesn't produce oil or gas")
	}
	z, err = w.reservoirDepth()
	if err != nil {
		return
	}
	bottom, note = x.ReservoirPressure.V, "initial reservoir pressure less gas, no relief at a shoe"
	if !x.ReservoirPressure.Known() {
		if bottom, _, err = w.Pore(z, High); err != nil {
			return
		}
		note = "pore pressure at the reservoir less gas, no relief at a shoe"
	}
	for i, model := range w.gases() {
		top, e := model.to(bottom, z, 0)
		if e != nil {
			return p, g, z, bottom, note, e
		}
		if i == 0 || top > p {
			p, g = top, model
		}
	}
	if x.ShutInTubingPressure.Known() {
		p, note = x.ShutInTubingPressure.V, "shut-in tubing pressure as stated"
	}
	return
}

// reservoirDepth is the bottom of the perforated interval, else of the deepest
// hole.
func (w *Well) reservoirDepth() (units.TVD, error) {
	if c := &w.Plan.Completion; c.PerforatedTo.Known() {
		return w.TVD(c.PerforatedTo.V)
	}
	hs := w.Holes()
	if len(hs) == 0 {
		return 0, Lack(w.Plan.Well.Ref, "the depth of the reservoir")
	}
	return w.TVD(hs[len(hs)-1].To)
}

// tubingLeak is a leak of the tubing near the surface: shut-in tubing pressure
// on packer fluid down to the packer. Without a packer, or without tubing, the
// casing holds the gas column itself.
func (w *Well) tubingLeak(str int) ([]scenario, error) {
	l, err := w.facesTubing(str)
	if err != nil {
		return nil, err
	}
	p, g, z, bottom, note, err := w.shutIn()
	if err != nil {
		return nil, err
	}
	return w.warmed(w.leaked(l, p, g, z, bottom, note))
}

// warmed marks loads of a well that has produced.
func (w *Well) warmed(list []scenario, err error) ([]scenario, error) {
	for i := range list {
		list[i].warm = true
	}
	return list, err
}

func (w *Well) leaked(l Length, p units.Pascals, g gas, z units.TVD, bottom units.Pascals, note string) ([]scenario, error) {
	var err error
	c := &w.Plan.Completion
	if !c.Packer.Known() || c.Tubingless.V {
		if w.Plan.Well.ShutInTubingPressure.Known() {
			if bottom, err = g.to(p, 0, z); err != nil {
				return nil, err
			}
		}
		in, err := g.profile(bottom, z, 0, z)
		if err != nil {
			return nil, err
		}
		return w.inLife(l, in, "no packer, gas inside the casing; "+note, w.Plan.Well.ReservoirPressure.Ref)
	}
	if l.From >= c.Packer.V {
		return nil, Absent("it lies below the packer")
	}
	if !c.PackerFluid.Known() {
		return nil, Lack(c.Ref, "the density of the packer fluid")
	}
	l.To = min(l.To, c.Packer.V)
	return w.inLife(l, column(p, 0, c.PackerFluid.V), note+", on packer fluid", w.Plan.Well.ShutInTubingPressure.Ref, c.PackerFluid.Ref)
}

// treated is a pressure pumped from the surface down casing, or down tubing
// that leaks near the surface onto the packer fluid.
func (w *Well) treated(str int, p plan.Val[units.Pascals], rho plan.Val[units.KgPerM3], path, what string) ([]scenario, error) {
	if !p.Known() {
		return nil, Absent("no " + what + " is planned")
	}
	l, err := w.facesTubing(str)
	if err != nil {
		return nil, err
	}
	c := &w.Plan.Completion
	if path == "" && c.Packer.Known() {
		path = "tubing"
	}
	note := what + " at " + show(w, p.V, units.Pressure)
	if path == "tubing" {
		if !c.Packer.Known() {
			return nil, Lack(c.Ref, "the depth of the packer")
		}
		if l.From >= c.Packer.V {
			return nil, Absent("it lies below the packer")
		}
		l.To, rho = min(l.To, c.Packer.V), c.PackerFluid
		note += " down tubing, leaking near surface"
	}
	if !rho.Known() {
		return nil, Lack(c.Ref, "the density of the fluid of the %s", what)
	}
	return w.inLife(l, column(p.V, 0, rho.V), note, p.Ref, rho.Ref)
}

func (w *Well) stimulated(str int) ([]scenario, error) {
	c := &w.Plan.Completion
	p := c.StimulationPressure
	if c.StimulationRelief.Known() {
		p = c.StimulationRelief
	}
	return w.treated(str, p, c.StimulationFluid, c.StimulationPath.V, "stimulation")
}

func (w *Well) injected(str int) ([]scenario, error) {
	c := &w.Plan.Completion
	return w.treated(str, c.InjectionPressure, c.InjectionFluid, "", "injection")
}

// gasLifted is kick-off pressure on the tubing annulus full of gas.
func (w *Well) gasLifted(str int) ([]scenario, error) {
	c := &w.Plan.Completion
	if !c.GasLiftPressure.Known() {
		return nil, Absent("no gas lift is planned")
	}
	l, err := w.facesTubing(str)
	if err != nil {
		return nil, err
	}
	if c.Packer.Known() {
		if l.From >= c.Packer.V {
			return nil, Absent("it lies below the packer")
		}
		l.To = min(l.To, c.Packer.V)
	}
	z, err := w.TVD(l.To)
	if err != nil {
		return nil, err
	}
	var best profile
	var most units.Pascals
	for _, g := range w.gases() { // the model that weighs more at the bottom
		in, err := g.profile(c.GasLiftPressure.V, 0, 0, z)
		if err != nil {
			return nil, err
		}
		if p, _ := in(Spot{TVD: z}); best == nil || p > most {
			best, most = in, p
		}
	}
	return w.warmed(w.inLife(l, best, "kick-off pressure on the annulus", c.GasLiftPressure.Ref))
}

// innerOf is the string that closes the annulus inside str: the next one run
// that reaches the wellhead.
func (w *Well) innerOf(str int) int {
	past := false
	for _, k := range w.InOrder() {
		if past && w.ReachesWellhead(k) {
			return k
		}
		past = past || k == str
	}
	return -1
}

// annulusHeld is pressure held on the annulus outside the production string,
// for the string around it.
func (w *Well) annulusHeld(str int) ([]scenario, error) {
	p := w.Plan.Completion.AnnulusPressure
	if !p.Known() {
		return nil, Absent("no annulus pressure is planned")
	}
	k := w.innerOf(str)
	if k < 0 || !w.ReachesWellhead(str) || !w.ProductionExposed(k) {
		return nil, Absent("the annulus inside it isn't the one held")
	}
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	o, err := w.outerOf(k)
	if err != nil {
		return nil, err
	}
	return w.inLife(Length{str, c.Top, min(c.Shoe, max(o.cement, c.Top))}, column(p.V, 0, o.mud), "pressure held on the annulus inside it", p.Ref)
}
