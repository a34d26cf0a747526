package well

import (
	"fmt"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// pressed is a load inside a string against the usual greatest pressure
// outside.
func (w *Well) pressed(l Length, in profile, note string, edges []units.MD, refs ...place.Ref) (scenario, error) {
	out, mud, more, err := w.loaded(l.String)
	return scenario{from: l.From, to: l.To, in: in, out: out, mud: mud, edges: append(edges, more...), note: note, refs: refs}, err
}

// evacuated is a string empty inside: production strings, the parent of a
// production liner where gas or a pump may empty it, and whatever a hole is
// drilled below with air, gas, foam or mist.
func (w *Well) evacuated(str int) ([]scenario, error) {
	var out []scenario
	if l, why := w.emptied(str); why == "" {
		s, err := w.pressed(l, empty, "empty inside", nil)
		if err != nil {
			return nil, err
		}
		s.heat, s.warm = hottest, true
		out = append(out, s)
	}
	for _, e := range w.Exposures(str) {
		if !byAir(e.Hole) {
			continue
		}
		c, err := w.Casing(str)
		if err != nil {
			return nil, err
		}
		s, err := w.pressed(Length{str, c.Top, e.Down}, empty, e.Hole.Plan.Name.V+" drilled with air, gas, foam or mist", nil)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		return nil, Absent("it can't be emptied: no production exposure, no hole drilled with air or foam below it")
	}
	return out, nil
}

func byAir(h *Hole) bool {
	switch h.Plan.MudType.V {
	case "air", "gas", "foam", "mist":
		return true
	}
	return h.Plan.Drilled.V == "air"
}

// emptied is the length of a string that production may empty, or why none.
func (w *Well) emptied(str int) (Length, string) {
	l, err := w.facesTubing(str)
	if err != nil {
		return l, err.Error()
	}
	if role := w.Plan.Strings[str].Role.V; role == "production" || role == "tie_back" || role == "production_liner" {
		return l, ""
	}
	lift := w.Plan.Completion.ArtificialLift.V
	if w.Plan.Well.Purpose.V == "gas" || lift == "gas_lift" || lift == "pump" {
		return l, ""
	}
	return l, "neither gas nor a pump empties it"
}

// mudDrops is mud falling on losses in a later hole: nothing above the level,
// the hole's heaviest mud below it.
func (w *Well) mudDrops(str int) ([]scenario, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	return w.eachExposure(str, func(e Exposure) (scenario, error) {
		switch named := w.lossZones(e.Hole); {
		case e.Hole.Plan.Returns.V == "seabed" || e.Hole.Plan.Returns.V == "none":
			return scenario{}, Absent(e.Hole.Plan.Name.V + " is drilled without returns to the rig")
		case byAir(e.Hole):
			return scenario{}, Absent(e.Hole.Plan.Name.V + " is drilled with air, gas, foam or mist")
		case len(named) == 0 && c.RoleIs("conductor", "drive"):
			return scenario{}, Absent("no zone of losses is named below it")
		}
		d, err := w.dropOf(e)
		if err != nil {
			return scenario{}, err
		}
		s, err := w.pressed(Length{str, c.Top, e.Down}, column(0, d.level, d.mud), d.note(w, e.Hole), w.levelAt(d.level), d.ref)
		return s, err
	})
}

// drop is how far mud falls in a hole.
type drop struct {
	level units.TVD // below the rotary
	at    units.TVD // the place that takes it
	mud   units.KgPerM3
	ref   place.Ref
	zone  string
}

func (d drop) note(w *Well, h *Hole) string {
	return fmt.Sprintf("%s: %s falls to %s on losses at %s (%s)", h.Plan.Name.V, show(w, d.mud, units.Density),
		show(w, d.level, units.TVDLength), show(w, d.at, units.TVDLength), d.zone)
}

type dropKey struct {
	section int
	shoe    units.MD
}

// dropOf is the deepest level z - p_pore,low / (rho g) over the named zones of
// losses, or over the whole open hole with the pore pressure of the basis where
// that is lower.
func (w *Well) dropOf(e Exposure) (drop, error) {
	return once(w, dropKey{e.Hole.Section, e.Shoe}, func() (d drop, err error) {
		if d.mud, d.ref, err = e.Hole.HeaviestMud(); err != nil {
			return d, err
		}
		if d.mud <= 0 {
			return d, Absent("no mud is used in " + e.Hole.Plan.Name.V)
		}
		zones := w.lossZones(e.Hole)
		for _, i := range zones {
			if err := w.dropInto(&d, i, e); err != nil {
				return d, err
			}
		}
		if len(zones) > 0 {
			return d, nil
		}
		depths, err := w.openDepths(e.Hole, e.Shoe)
		if err != nil {
			return d, err
		}
		for _, z := range depths {
			p, _, err := w.Pore(z, Low)
			if err != nil {
				return d, err
			}
			d.lower(z, min(p, units.Pascals(w.Assume.LossGradient*float64(z))), "no zone named, the whole open hole")
		}
		return d, nil
	})
}

// dropInto lowers the level by a named zone, both its ends and the rows
// between.
func (w *Well) dropInto(d *drop, zone int, e Exposure) error {
	top, _, _, err := w.FormationTop(zone)
	if err != nil {
		return err
	}
	base, _, _, err := w.FormationBase(zone)
	if err != nil {
		base = e.Hole.To
	}
	top, base = max(top, e.Shoe), min(base, e.Hole.To)
	if base < top {
		return nil
	}
	depths, err := w.openDepths(&Hole{From: top, To: base}, top)
	if err != nil {
		return err
	}
	for _, z := range depths {
		p, _, err := w.Pore(z, Low)
		if err != nil {
			return err
		}
		d.lower(z, p, w.Plan.Formations[zone].Name.V)
	}
	return nil
}

func (d *drop) lower(z units.TVD, p units.Pascals, zone string) {
	level := max(z-units.TVD(float64(p)/(float64(d.mud)*units.G)), 0)
	if d.zone == "" || level > d.level {
		d.level, d.at, d.zone = level, z, zone
	}
}

// levelAt are the depths along the hole of a fluid level.
func (w *Well) levelAt(z units.TVD) []units.MD {
	m, _, err := w.Depths()
	if err != nil || z <= 0 {
		return nil
	}
	return m.MDs(z)
}

// cementedUp is the end of each cement stage: slurry and mud outside,
// displacement fluid inside, bled to zero, the float holding.
func (w *Well) cementedUp(str int) ([]scenario, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	switch {
	case !Cemented(c.Plan):
		return nil, Absent("the string isn't cemented")
	case c.Plan.Existing.V:
		return nil, Absent("the string is in the well already")
	case len(c.Plan.Stages) == 0:
		return nil, Lack(c.Plan.Ref, "the cement slurries of %s", c.Plan.Name.V)
	}
	o, err := w.outerOf(str)
	if err != nil {
		return nil, err
	}
	var out []scenario
	for i := range c.Plan.Stages {
		st := &c.Plan.Stages[i]
		if k := st.Kind.V; k == "top_up" || k == "squeeze" {
			continue
		}
		outside, edges, err := w.slurries(str, st)
		if err != nil {
			return nil, err
		}
		rho, ref, err := w.displacement(str, st)
		if err != nil {
			return nil, err
		}
		bottom := min(st.Collar.Or(c.Shoe), c.Shoe)
		out = append(out, scenario{from: c.Top, to: bottom, in: column(o.realOver, o.realFrom, rho), out: outside, edges: edges, axial: hanging, heat: cold,
			refs: []place.Ref{ref}, note: st.Name.V + " in place, " + show(w, rho, units.Density) + " inside, bled off"})
	}
	if len(out) == 0 {
		return nil, Absent("no primary cement job")
	}
	return out, nil
}

// produced is production: below the packer depleted pressure, above it the
// annulus fluid fallen to balance it, or nothing with gas lift.
func (w *Well) produced(str int) ([]scenario, error) {
	l, err := w.facesTubing(str)
	if err != nil {
		return nil, err
	}
	c := &w.Plan.Completion
	if !c.DepletedPressure.Known() || !c.Packer.Known() {
		return nil, Absent("no depleted pressure or no packer is planned; full evacuation stands for it")
	}
	zp, err := w.TVD(c.Packer.V)
	if err != nil {
		return nil, err
	}
	above, edges := profile(empty), []units.MD{c.Packer.V}
	if c.ArtificialLift.V != "gas_lift" {
		if !c.PackerFluid.Known() || c.PackerFluid.V <= 0 {
			return nil, Lack(c.Ref, "the density of the packer fluid")
		}
		level := max(zp-units.TVD(float64(c.DepletedPressure.V)/(float64(c.PackerFluid.V)*units.G)), 0)
		above = column(0, level, c.PackerFluid.V)
		edges = append(edges, w.levelAt(level)...)
	}
	zr, err := w.reservoirDepth()
	if err != nil {
		return nil, err
	}
	below, err := w.gases()[0].profile(c.DepletedPressure.V, max(zr, zp), 0, max(zr, zp))
	if err != nil {
		return nil, err
	}
	s, err := w.pressed(l, upper(above, c.Packer.V, below), "depleted pressure below the packer", edges, c.DepletedPressure.Ref)
	s.heat, s.warm = hottest, true
	return []scenario{s}, err
}

// squeezed is a mobile formation: overburden, or 1.00 psi/ft where the plan
// gives none, across it; inside whatever is lowest there.
func (w *Well) squeezed(str int) ([]scenario, error) {
	o, err := w.outerOf(str)
	if err != nil {
		return nil, err
	}
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	var out []scenario
	for i := range w.Plan.Formations {
		f := &w.Plan.Formations[i]
		if !f.Mobile.V {
			continue
		}
		top, _, _, err := w.FormationTop(i)
		if err != nil {
			return nil, err
		}
		base, _, _, err := w.FormationBase(i)
		if err != nil {
			base = c.Shoe
		}
		if top, base = max(top, o.previous), min(base, c.Shoe); base <= top {
			continue
		}
		out = append(out, w.squeezedBy(str, Length{str, top, base}, f.Name.V, f.Mobile.Ref)...)
	}
	if len(out) == 0 {
		return nil, Absent("no mobile formation outside it")
	}
	return out, nil
}

func (w *Well) squeezedBy(str int, l Length, name string, ref place.Ref) []scenario {
	overburden := func(s Spot) (units.Pascals, error) {
		if p, _, err := w.worst(Overburden, s.TVD, High); err == nil {
			return p, nil
		}
		return units.Pascals(units.Psi / units.Foot * float64(s.TVD)), nil
	}
	var out []scenario
	for _, inside := range []string{"collapse.full_evacuation", "collapse.mud_drop"} {
		list, err := w.moments(str, caseNamed(inside))
		if err != nil {
			continue
		}
		for _, s := range list {
			s.from, s.to = max(s.from, l.From), min(s.to, l.To)
			if s.to <= s.from || len(s.lack) > 0 {
				continue
			}
			s.mud = nil
			s.out, s.edges = overburden, append(append([]units.MD(nil), s.edges...), l.From, l.To)
			s.note, s.refs = name+" squeezes in; "+s.note, append([]place.Ref{ref}, s.refs...)
			out = append(out, s)
		}
	}
	if len(out) > 0 {
		return out
	}
	mud, mudRef, err := w.RunIn(str)
	if err != nil {
		return nil
	}
	return []scenario{{from: l.From, to: l.To, in: column(0, 0, mud), out: overburden, edges: []units.MD{l.From, l.To},
		note: name + " squeezes in; full of mud inside", refs: []place.Ref{ref, mudRef}}}
}
