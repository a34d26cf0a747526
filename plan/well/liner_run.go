package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// LinerLoad is what a liner puts on something that carries it.
type LinerLoad struct {
	Liner, Pipe    units.Newtons // buoyed liner; buoyed running string above it
	Drag, Overpull units.Newtons
	Load, Rating   units.Newtons
	Bump           units.Newtons // what the bump pulls down, not in Load
	Ref            place.Ref     // of the rating
	BumpRef        place.Ref     // of the bump pressure; zero where none is stated
}

// OnRunningString is the load on the top of the pipe a liner is run on: liner and
// pipe buoyed, vertical components, the drag of both, overpull, against its
// stated rating.
func (w *Well) OnRunningString(str int) (l LinerLoad, err error) {
	h, err := w.linerHangs(str)
	if err != nil {
		return l, err
	}
	s := &w.Plan.Strings[str]
	var missing Missing
	if !s.RunningStringRating.Known() || s.RunningStringRating.V <= 0 {
		missing = missing.and(Lack(s.Ref, "the tension rating of the pipe %s is run on", s.Name.V))
	}
	if !s.RunningStringWeight.Known() {
		missing = missing.and(noPipe(s))
	}
	l.Liner, l.Pipe, l.Drag, l.Overpull = h.String, h.Pipe, h.Drag+h.PipeDrag, h.Overpull
	l.Load = l.Liner + l.Pipe + l.Drag + l.Overpull
	l.Rating, l.Ref = s.RunningStringRating.V, s.RunningStringRating.Ref
	return l, missing.orNil()
}

func (w *Well) linerHangs(str int) (Hanging, error) {
	if !IsLiner(&w.Plan.Strings[str]) {
		return Hanging{}, Absent("not a liner")
	}
	return w.Hanging(str)
}

// runningPipe is the buoyed weight of the pipe from the rotary to a liner's top,
// vertical component.
func (w *Well) runningPipe(str int) (units.Newtons, error) {
	part, err := w.runningPart(str)
	if err != nil {
		return 0, err
	}
	return w.hangVertical([]hungPart{part})
}

func noPipe(s *plan.String) error {
	return Lack(s.Ref, "the weight of the pipe %s is run on", s.Name.V)
}

// runningPart is the pipe from the rotary to a liner's top, its steel in the mud
// the liner is run in, inside and outside.
func (w *Well) runningPart(str int) (part hungPart, err error) {
	s := &w.Plan.Strings[str]
	if !s.RunningStringWeight.Known() {
		return part, noPipe(s)
	}
	if part.to, err = w.topOf(s); err != nil {
		return part, err
	}
	mud, ref, err := w.RunIn(str)
	if err != nil {
		return part, err
	}
	b, err := fluid.BuoyancyFactor(mud)
	part.weight = float64(s.RunningStringWeight.V) * units.G * float64(b)
	return part, Unusable(err, ref, "a usable mud density of "+s.Name.V)
}

// OnHanger is the buoyed weight of a liner against the tension its hanger is
// rated for. What the bump adds is kept apart: only a hanger set before it
// carries it, and the plan doesn't tell when it is set.
func (w *Well) OnHanger(str int) (l LinerLoad, err error) {
	h, err := w.linerHangs(str)
	if err != nil {
		return l, err
	}
	a, ok := w.hangerOf(str, func(a *plan.Accessory) bool { return a.RatingTension.Known() && a.RatingTension.V > 0 })
	if !ok {
		s := &w.Plan.Strings[str]
		return l, Lack(s.Ref, "the load rating of the hanger of %s", s.Name.V)
	}
	l.Liner, l.Load, l.Rating, l.Ref = h.String, h.String, a.RatingTension.V, a.RatingTension.Ref
	l.Bump, l.BumpRef, err = w.bumpPull(str)
	return l, err
}

// bumpPull is the pull of the bump pressure on the bore where the plug lands;
// nothing where no job is pumped or no pressure stated.
func (w *Well) bumpPull(str int) (units.Newtons, place.Ref, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, 0, err
	}
	st := primary(c.Plan)
	if st == nil {
		return 0, 0, nil
	}
	bump := bumpOf(st, c.Plan)
	lands, _, ok := c.FloatCollar()
	if !ok {
		lands = c.Shoe
	}
	p := c.At(lands)
	if p.SizeErr != nil {
		return 0, 0, p.SizeErr
	}
	bore := float64(p.Size.ID())
	return units.Newtons(float64(bump.V) * math.Pi / 4 * bore * bore), bump.Ref, nil
}

func (w *Well) hangerOf(str int, with func(*plan.Accessory) bool) (*plan.Accessory, bool) {
	s := &w.Plan.Strings[str]
	for i := range s.Accessories {
		if a := &s.Accessories[i]; a.Kind.V == "hanger" && with(a) {
			return a, true
		}
	}
	return nil, false
}

// RunningStringOver is by how much the pipe on the rig is longer than the way from
// the rotary to a liner's top.
func (w *Well) RunningStringOver(str int) (units.Meters, place.Ref, error) {
	s := &w.Plan.Strings[str]
	switch {
	case !IsLiner(s):
		return 0, 0, Absent("not a liner")
	case run(s) != nil:
		return 0, 0, run(s)
	case !s.RunningStringLength.Known():
		return 0, 0, Absent("the plan doesn't count the pipe it is run on")
	}
	top, err := w.topOf(s)
	return s.RunningStringLength.V - units.Meters(top), s.RunningStringLength.Ref, err
}

// SetEarly is the greatest pressure that a cement job puts across a liner's
// hanger, against the pressure that sets it.
type SetEarly struct {
	Across, Sets units.Pascals
	Moving       bool // with friction
	Ref          place.Ref
}

// HangerSets is the pressure inside less that outside at a liner's top, greatest
// while its job is pumped: the head's pressure and the columns. Friction in the
// pipe it is run on isn't taken off, so that the pressure is no higher than this
// says; by the bump a hanger is set.
func (w *Well) HangerSets(str, st int) (e SetEarly, err error) {
	if !IsLiner(&w.Plan.Strings[str]) {
		return e, Absent("not a liner")
	}
	a, ok := w.hangerOf(str, func(a *plan.Accessory) bool { return a.OperatingPressure.Known() && a.OperatingPressure.V > 0 })
	if !ok {
		return e, Absent("its hanger states no setting pressure")
	}
	p, err := w.Placement(str, st)
	if err != nil {
		return e, err
	}
	e.Sets, e.Ref, e.Moving = a.OperatingPressure.V, a.OperatingPressure.Ref, p.Friction
	top := len(p.Watched) - len(p.Edges)
	for k := range p.Steps {
		q := &p.Steps[k]
		out, surface := q.Still[top], q.Static
		if p.Friction {
			out, surface = q.Moving[top], q.Head
		}
		if across := surface + q.Inside[0] - out; across > e.Across {
			e.Across = across
		}
	}
	return e, nil
}

// bumpOf is the surface pressure at the bump: of the stage, else of the string.
func bumpOf(st *plan.Stage, s *plan.String) plan.Val[units.Pascals] {
	if st.BumpPressure.Known() {
		return st.BumpPressure
	}
	return s.BumpPressure
}

// OnSeal is a test of a liner's lap across the seal at its top.
type OnSeal struct {
	Across, Rating units.Pascals
	Test           *plan.Test
	Seal           string
	Ref            place.Ref
}

// LapOnSeal is the strongest pressure test of a liner's lap across the packer at
// its top: test pressure and its fluid above, the mud the liner was run in
// below.
func (w *Well) LapOnSeal(str int) (o OnSeal, err error) {
	s := &w.Plan.Strings[str]
	if !IsLiner(s) {
		return o, Absent("not a liner")
	}
	for i := range s.Accessories {
		a := &s.Accessories[i]
		if a.Kind.V == "packer" && a.RatingDifferential.Known() && (o.Ref == 0 || a.RatingDifferential.V < o.Rating) {
			o.Seal, o.Rating, o.Ref = a.Name.Or("packer"), a.RatingDifferential.V, a.RatingDifferential.Ref
		}
	}
	if o.Ref == 0 || o.Rating <= 0 {
		return o, Absent("no packer at its top states a differential rating")
	}
	p, test, err := w.LapTest(str)
	if err != nil {
		return o, err
	}
	top, err := w.topOf(s)
	if err != nil {
		return o, err
	}
	z, err := w.TVD(top)
	if err != nil {
		return o, err
	}
	mud, _, err := w.RunIn(str)
	if err != nil {
		return o, err
	}
	if !test.Fluid.Known() {
		return o, Lack(test.Ref, "the density of the fluid of %s", test.Name.V)
	}
	o.Test = test
	o.Across = p + units.Hydrostatic(test.Fluid.V, z) - units.Hydrostatic(mud, z)
	return o, nil
}
