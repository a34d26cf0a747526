package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// outer is what stands outside a string: where its columns change and what
// they are.
type outer struct {
	top, cement units.MD // of the string, of cement
	previous    units.MD // shoe of the string around it; its own top where none is
	over        units.Pascals
	from        units.TVD // where columns begin once nothing stands above: rotary, or mudline under sea water
	realOver    units.Pascals
	realFrom    units.TVD // where they begin while the hole is drilled and cemented: rotary too in a riser
	mud, water  units.KgPerM3
	mudRef      place.Ref
	edges       []units.MD
}

type outerKey int

// outerOf gathers it. The error lacks the mud or the top of cement.
func (w *Well) outerOf(str int) (outer, error) {
	return once(w, outerKey(str), func() (outer, error) { return w.outer(str) })
}

func (w *Well) outer(str int) (o outer, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return o, err
	}
	o.top = c.Top
	if o.cement, _, err = w.TopOfCement(str); isAbsent(err) {
		o.cement, err = c.Shoe, nil
	}
	if err != nil {
		return o, err
	}
	o.cement = min(max(o.cement, c.Top), c.Shoe)
	o.previous = c.Top
	if k, err := w.Previous(str); err == nil {
		if s, err := w.shoeOf(&w.Plan.Strings[k]); err == nil {
			o.previous = min(max(s, c.Top), c.Shoe)
		}
	}
	if _, err := w.HoleOf(str); isAbsent(err) && c.RoleIs("tie_back", "scab_liner") {
		o.previous = c.Shoe
	}
	if o.from, err = w.Mudline(); err != nil {
		return o, err
	}
	if w.Subsea() {
		o.over = units.Hydrostatic(SeaWater, units.TVD(w.Plan.DepthReference.WaterDepth.V))
	}
	if h, err := w.HoleOf(str); err == nil && h.Plan.Returns.V == "seabed" {
		o.realOver, o.realFrom = o.over, o.from
	}
	if o.mud, o.mudRef, err = w.RunIn(str); err != nil {
		return o, err
	}
	o.water = w.baseFluid(str)
	o.edges = []units.MD{o.cement, o.previous}
	return o, nil
}

// RunIn is the fluid a string is run in: the mud of its hole, the density its
// own row repeats, and for what is set without one, water.
func (w *Well) RunIn(str int) (units.KgPerM3, place.Ref, error) {
	s := &w.Plan.Strings[str]
	h, err := w.HoleOf(str)
	if err == nil {
		rho, ref, err := h.RunningMud()
		if err != nil && s.MudDensity.Known() {
			return s.MudDensity.V, s.MudDensity.Ref, nil
		}
		return rho, ref, err
	}
	switch {
	case s.MudDensity.Known():
		return s.MudDensity.V, s.MudDensity.Ref, nil
	case !isAbsent(err):
		return 0, 0, err
	case s.Role.V == "tie_back" || s.Role.V == "scab_liner":
		return w.lastMud()
	}
	return FreshWater, s.Ref, nil
}

// lastMud is the heaviest mud of the deepest hole.
func (w *Well) lastMud() (units.KgPerM3, place.Ref, error) {
	hs := w.Holes()
	if len(hs) == 0 {
		return 0, 0, Lack(w.Plan.Well.Ref, "the fluid a tie-back is run in")
	}
	return hs[len(hs)-1].HeaviestMud()
}

// baseFluid is what a mud leaves behind when it settles.
func (w *Well) baseFluid(str int) units.KgPerM3 {
	h, err := w.HoleOf(str)
	if err != nil {
		return FreshWater
	}
	switch {
	case h.Plan.MudType.V == "oil" || h.Plan.MudType.V == "synthetic":
		return baseOil
	case h.Plan.Returns.V == "seabed":
		return SeaWater
	}
	return FreshWater
}

// backup is the least pressure outside a string once its cement has set, for
// burst: the lighter of mud and its base fluid down to cement, water in the
// cement up to the previous shoe, and in open hole the least pore gradient of
// that hole, low estimate, or what the basis chooses.
func (w *Well) backup(str int) (profile, []units.MD, error) {
	o, err := w.outerOf(str)
	if err != nil {
		return nil, nil, err
	}
	light := min(o.mud, o.water)
	switch w.Assume.BurstBackup {
	case "mud":
		light = o.mud
	case "mix_water":
		light = FreshWater
	}
	inCased, err := w.lightAndWater(o, light)
	if err != nil {
		return nil, nil, err
	}
	var open profile
	switch w.Assume.BurstBackup {
	case "mud", "mix_water":
		open = column(o.over, o.from, light)
	case "pore_local":
		open = func(s Spot) (units.Pascals, error) { p, _, err := w.Pore(s.TVD, Low); return p, err }
	default:
		open = w.leastPore(str, o)
	}
	return upper(inCased, o.previous, open), o.edges, nil
}

// lightAndWater is the light fluid down to the top of cement, water below it.
func (w *Well) lightAndWater(o outer, light units.KgPerM3) (profile, error) {
	turn, err := w.TVD(min(o.cement, o.previous))
	if err != nil {
		return nil, err
	}
	above := column(o.over, o.from, light)
	at, _ := above(Spot{TVD: turn})
	return upper(above, min(o.cement, o.previous), column(at, turn, FreshWater)), nil
}

// leastPore is the least pore gradient of the string's open hole times depth.
func (w *Well) leastPore(str int, o outer) profile {
	return func(s Spot) (units.Pascals, error) {
		g, err := once(w, leastPoreKey(str), func() (float64, error) { return w.leastPoreGradient(str, o.previous) })
		return units.Pascals(g * float64(s.TVD)), err
	}
}

type leastPoreKey int

func (w *Well) leastPoreGradient(str int, from units.MD) (float64, error) {
	shoe, err := w.shoeOf(&w.Plan.Strings[str])
	if err != nil {
		return 0, err
	}
	zs, err := w.openDepths(&Hole{From: from, To: shoe}, from)
	if err != nil {
		return 0, err
	}
	least := 0.0
	for _, z := range zs {
		z = max(z, 1) // m: a gradient has no meaning at the rotary itself
		p, _, err := w.Pore(z, Low)
		if err != nil {
			return 0, err
		}
		if g := float64(p) / float64(z); least == 0 || g < least {
			least = g
		}
	}
	return least, nil
}

// loaded is the greatest usual pressure outside, for collapse: the heaviest mud
// of the string's hole as a full column, and in open hole no less than pore
// pressure, high estimate. The mud alone comes beside it.
func (w *Well) loaded(str int) (out, mud profile, edges []units.MD, err error) {
	o, err := w.outerOf(str)
	if err != nil {
		return nil, nil, nil, err
	}
	rho := o.mud
	if h, err := w.HoleOf(str); err == nil {
		if rho, _, err = h.HeaviestMud(); err != nil {
			return nil, nil, nil, err
		}
	}
	mud = column(o.realOver, o.realFrom, rho)
	pore := func(s Spot) (units.Pascals, error) { p, _, err := w.Pore(s.TVD, High); return p, err }
	return upper(mud, o.previous, higher(mud, pore)), mud, o.edges, nil
}
