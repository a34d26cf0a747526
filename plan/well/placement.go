package well

import (
	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Placement is a stage of a cement job followed volume by volume.
type Placement struct {
	*fluid.Placement
	String, Stage int
	Plan          *plan.Stage
	Hole          JobHole // that its volumes rise in
	Held          bool    // the displacement of the stage below still fills the string when it begins
	Exit, Landing units.MD
	Watched       []units.MD // outside, that the pressures of each step are at; the last is the exit
	Rock, Flows   int        // how many of the first are depths of open hole that may break, and after those, that may flow
	Edges         []units.MD // inside and outside: top, crossovers and shoe of the string
	Lacks         Missing    // why friction isn't counted
	Refs          []place.Ref
	route         fluid.Route
}

// placementSteps is into how many volumes a job is cut at least; twice as many
// move the peak pressure at the shoe less than half a percent.
const placementSteps = 150

type placementKey struct {
	str, st int
	gauge   bool
}

// Placement follows a stage as pumped: down the path of its displacement, out
// at the shoe or stage collar, up the annulus as its volumes see it, to the rig
// or the sea bed, in the hole that the volumes are planned on. Friction is counted when rheology and rate of every fluid are
// given; Lacks names what is missing. A stage that isn't pumped that way is
// Absent.
func (w *Well) Placement(str, st int) (*Placement, error) {
	return w.PlacementFor(str, st, OneHole)
}

// PlacementFor is Placement in a hole: at gauge where that is asked for, else as
// planned.
func (w *Well) PlacementFor(str, st int, h JobHole) (*Placement, error) {
	return once(w, placementKey{str, st, h == InGauge}, func() (*Placement, error) { return w.placement(str, st, h, placementSteps) })
}

// placement is Placement in about as many steps as are wanted, ten at least.
func (w *Well) placement(str, st int, h JobHole, steps int) (*Placement, error) {
	if w.Plan.Strings[str].Existing.V {
		return nil, Absent("the string is in the well already")
	}
	c, err := w.CementStage(str, st)
	if err != nil {
		return nil, err
	}
	if h != InGauge {
		h = c.jobHoles()[0]
	}
	p := &Placement{String: str, Stage: st, Plan: c.Plan, Hole: h, Exit: c.From, Landing: c.Landing, Refs: c.Refs}
	parcels, err := w.parcels(p)
	if err != nil {
		return nil, err
	}
	if err := w.placementRoute(p, c, parcels); err != nil {
		return nil, err
	}
	p.Placement, err = fluid.March(p.route, parcels, steps)
	if err != nil {
		return nil, Unusable(err, c.Plan.Ref, "usable volumes, densities and rates of "+c.Plan.Name.V)
	}
	return p, nil
}

// parcels are the fluids of a stage in pumping order, displacement last.
func (w *Well) parcels(p *Placement) ([]fluid.Parcel, error) {
	var out []fluid.Parcel
	var missing Missing
	for i := range p.Plan.Fluids {
		f := &p.Plan.Fluids[i]
		v, _, err := w.FluidVolume(f)
		missing = missing.and(err)
		if !f.Density.Known() {
			missing = missing.and(Lack(f.Ref, "the density of %s of %s", f.Name.V, w.Plan.Strings[p.String].Name.V))
		}
		flow, err := rheologyOf(f, w.Plan.Strings[p.String].Name.V)
		p.Lacks = p.Lacks.and(err)
		rate := p.Plan.MixRate
		if !slurry(f) && p.Plan.Rate.Known() {
			rate = p.Plan.Rate
		}
		out = append(out, fluid.Parcel{Name: f.Name.V, Volume: v, Density: f.Density.V, Rate: rate.V, Flow: flow})
	}
	last, err := w.chaser(p)
	missing = missing.and(err)
	w.rates(p)
	return append(out, last), missing.orNil()
}

// rates notes the rates that friction waits for.
func (w *Well) rates(p *Placement) {
	if !p.Plan.MixRate.Known() || p.Plan.MixRate.V <= 0 {
		p.Lacks = p.Lacks.and(Lack(p.Plan.Ref, "the mixing rate of %s", w.stageName(p.String, p.Stage)))
	}
	if !p.Plan.Rate.Known() || p.Plan.Rate.V <= 0 {
		p.Lacks = p.Lacks.and(Lack(p.Plan.Ref, "the displacement rate of %s", w.stageName(p.String, p.Stage)))
	}
}

// chaser is the displacement, taken to flow like the mud.
func (w *Well) chaser(p *Placement) (fluid.Parcel, error) {
	var missing Missing
	v, err := w.planned(p.String, p.Stage)
	missing = missing.and(err)
	rho, _, err := w.displacement(p.String, p.Plan)
	missing = missing.and(err)
	flow, err := w.mudFlow(p.String)
	p.Lacks = p.Lacks.and(err)
	return fluid.Parcel{Name: "displacement", Volume: v, Density: rho, Rate: p.Plan.Rate.V, Flow: flow}, missing.orNil()
}

// rheologyOf is how a fluid of a stage flows: Herschel-Bulkley or power law where
// index and consistency are given, else Bingham.
func rheologyOf(f *plan.Fluid, str string) (*fluid.Rheology, error) {
	return rheology(f.FlowIndex, f.Consistency, f.YieldStress, f.PlasticViscosity, f.YieldPoint, f.Ref, f.Name.V+" of "+str)
}

// mudFlow is how the mud that a string is run in flows.
func (w *Well) mudFlow(str int) (*fluid.Rheology, error) {
	h, err := w.HoleOf(str)
	if err != nil {
		s := &w.Plan.Strings[str]
		return nil, Lack(s.Ref, "the rheology of the mud of %s", s.Name.V)
	}
	s := h.Plan
	return rheology(s.MudFlowIndex, s.MudConsistency, s.MudYieldStress, s.MudPlasticViscosity, s.MudYieldPoint, s.Ref, "the mud of "+s.Name.V)
}

func rheology(n plan.Val[units.Fraction], k, yield plan.Val[units.Pascals], pv plan.Val[units.PascalSeconds], yp plan.Val[units.Pascals], ref place.Ref, of string) (*fluid.Rheology, error) {
	var r fluid.Rheology
	switch {
	case n.Known() && k.Known():
		r = fluid.Rheology{Yield: yield.V, K: float64(k.V), N: n.V}
	case pv.Known() && yp.Known():
		r = fluid.Bingham(pv.V, yp.V)
	default:
		return nil, Lack(ref, "the rheology of %s", of)
	}
	if !(r.K > 0 && r.N >= 0.1 && r.N <= 1 && r.Yield >= 0) {
		return nil, Lack(ref, "a usable rheology of %s (viscosity above zero, index 0.1 to 1)", of)
	}
	return &r, nil
}
