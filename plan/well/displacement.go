package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Leg is one length of the path that displacement is pumped down.
type Leg struct {
	From, To units.MD
	ID       units.Meters
	Ref      place.Ref
}

type pathKey struct{ str, st int }

// DisplacementPath is the path of a stage's displacement from the cementing
// head to the collar its plug lands on: the running string of a liner or a
// subsea string from the rotary to its top, an inner string all the way, then
// the string's own segments.
func (w *Well) DisplacementPath(str, st int) ([]Leg, error) {
	return once(w, pathKey{str, st}, func() ([]Leg, error) { return w.displacementPath(str, st) })
}

func (w *Well) displacementPath(str, st int) ([]Leg, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	p := &c.Plan.Stages[st]
	switch p.Kind.V {
	case "top_up", "squeeze":
		return nil, Absent("nothing is displaced down the string to a collar")
	}
	_, landing, _, err := w.StagePath(str, st)
	if err != nil {
		return nil, err
	}
	bore := c.Plan.RunningStringID
	var out []Leg
	inner := p.Kind.V == "inner_string"
	if inner || IsLiner(c.Plan) || w.Subsea() && c.Top > 0 {
		if !bore.Known() {
			return nil, Lack(c.Plan.Ref, "the bore of the pipe %s is run or cemented through", c.Plan.Name.V)
		}
		to := c.Top
		if inner {
			to = landing
		}
		out = append(out, Leg{0, to, bore.V, bore.Ref})
	}
	if inner {
		return out, nil
	}
	return c.legs(out, landing)
}

// legs adds the string's own segments down to a depth.
func (c *Casing) legs(out []Leg, landing units.MD) ([]Leg, error) {
	for i := range c.Pipes {
		q := &c.Pipes[i]
		if q.From >= landing {
			break
		}
		id, err := q.ID()
		if err != nil {
			return nil, err
		}
		out = append(out, Leg{q.From, min(q.To, landing), id, q.Plan.OD.Ref})
	}
	return out, nil
}

// Displacement is the volume of the path of a stage.
func (w *Well) Displacement(str, st int) (units.CubicMeters, error) {
	legs, err := w.DisplacementPath(str, st)
	if err != nil {
		return 0, err
	}
	var sum units.CubicMeters
	for _, l := range legs {
		area, err := fluid.Capacity(l.ID, 0)
		if err != nil {
			return 0, Unusable(err, l.Ref, "a usable bore")
		}
		sum += units.CubicMeters(float64(area) * float64(l.To-l.From))
	}
	return sum, nil
}

// SlurryClock is how long a slurry of a stage is in motion: from its own first
// mixing to the end of displacement, plugs included. Every fluid after it is
// counted at the mixing rate (slurries) or the displacement rate.
func (w *Well) SlurryClock(str, st, fl int) (units.Seconds, error) {
	p := &w.Plan.Strings[str].Stages[st]
	if !slurry(&p.Fluids[fl]) {
		return 0, Absent("not a slurry")
	}
	job, err := w.pumped(str, st, fl)
	if _, lacking := lacks(err); err != nil && !lacking {
		return 0, err
	}
	missing := Missing(nil).and(err)
	if !p.PlugTime.Known() && p.Kind.V != "inner_string" && p.Kind.V != "top_up" {
		missing = missing.and(Lack(p.Ref, "the plug time of %s", w.stageName(str, st)))
	}
	if len(missing) > 0 {
		return 0, missing // all at once, not one after the other
	}
	stops := p.PlugTime.V
	t, err := fluid.Clock(job, 0, stops)
	return t, Unusable(err, p.Ref, "usable rates of "+p.Name.V)
}

func (w *Well) pumped(str, st, from int) ([]fluid.Pumped, error) {
	p := &w.Plan.Strings[str].Stages[st]
	var job []fluid.Pumped
	var missing Missing
	for i := from; i < len(p.Fluids); i++ {
		v, _, err := w.FluidVolume(&p.Fluids[i])
		missing = missing.and(err)
		rate := p.MixRate
		if !slurry(&p.Fluids[i]) && p.Rate.Known() {
			rate = p.Rate
		}
		job = append(job, fluid.Pumped{Volume: v, Rate: rate.V})
	}
	if !p.MixRate.Known() {
		missing = missing.and(Lack(p.Ref, "the mixing rate of %s", w.stageName(str, st)))
	}
	if p.Kind.V == "top_up" || p.Kind.V == "squeeze" {
		return job, missing.orNil()
	}
	v, err := w.planned(str, st)
	missing = missing.and(err)
	if !p.Rate.Known() {
		missing = missing.and(Lack(p.Ref, "the displacement rate of %s", w.stageName(str, st)))
	}
	return append(job, fluid.Pumped{Volume: v, Rate: p.Rate.V}), missing.orNil()
}

// planned is the displacement volume stated, else that of the path.
func (w *Well) planned(str, st int) (units.CubicMeters, error) {
	if v := w.Plan.Strings[str].Stages[st].Displacement; v.Known() {
		return v.V, nil
	}
	return w.Displacement(str, st)
}

func (m Missing) orNil() error {
	if len(m) == 0 {
		return nil
	}
	return m
}

// FlushContact is how long spacers and preflushes take to pass a place at the
// displacement rate.
func (w *Well) FlushContact(st *plan.Stage) (units.Seconds, []place.Ref, error) {
	v, refs, err := w.Flush(st)
	if err != nil || v == 0 {
		return 0, refs, err
	}
	if !st.Rate.Known() || st.Rate.V <= 0 {
		return 0, refs, Lack(st.Ref, "the displacement rate of %s", st.Name.V)
	}
	t, err := fluid.PumpTime(v, st.Rate.V)
	if math.IsInf(float64(t), 0) {
		return 0, refs, Lack(st.Rate.Ref, "a usable displacement rate of %s", st.Name.V)
	}
	return t, append(refs, st.Rate.Ref), err
}

// stageName names a stage with its string, as missing inputs are asked for.
func (w *Well) stageName(str, st int) string {
	s := &w.Plan.Strings[str]
	return s.Stages[st].Name.V + " of " + s.Name.V
}
