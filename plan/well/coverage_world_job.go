package well

import (
	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// LeftInside is the length of cement left inside a string above its shoe when
// the displacement planned for a stage has been pumped: what is inside the pipe
// less the displacement, up from the shoe through its bores. Zero where all of
// it is pushed out. A string with no collar is counted to its shoe. Absent for
// a stage that isn't displaced down the string to the shoe.
func (w *Well) LeftInside(str, st int) (units.Meters, place.Ref, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, 0, err
	}
	p := &c.Plan.Stages[st]
	switch {
	case p.Kind.V == "top_up" || p.Kind.V == "squeeze" || p.Kind.V == "inner_string":
		return 0, 0, Absent("the stage isn't displaced down the string")
	case p.Kind.V == "second_stage" || p.Collar.Known():
		return 0, 0, Absent("the stage leaves through a stage collar")
	case IsLiner(c.Plan) || w.Subsea() && c.Top > 0:
		return 0, 0, Absent("the string is run on another pipe")
	case !p.Displacement.Known():
		return 0, 0, Lack(p.Ref, "the displacement volume of %s", w.stageName(str, st))
	}
	all, err := w.boreVolume(str, c.Top, c.Shoe)
	if err != nil {
		return 0, 0, err
	}
	length, err := c.filled(all - p.Displacement.V)
	return length, p.Displacement.Ref, err
}

// filled is the length of a string that a volume fills up from its shoe; all
// of the string where it holds less.
func (c *Casing) filled(v units.CubicMeters) (units.Meters, error) {
	var length float64
	for i := len(c.Pipes) - 1; i >= 0 && v > 0; i-- {
		p := &c.Pipes[i]
		id, err := p.ID()
		if err != nil {
			return 0, err
		}
		area, err := fluid.Capacity(id, 0)
		if err != nil {
			return 0, Unusable(err, p.Plan.Ref, "a usable bore of "+p.Plan.Label())
		}
		fill := min(float64(v)/float64(area), float64(p.To-p.From))
		length += fill
		v -= units.CubicMeters(fill * float64(area))
	}
	return units.Meters(length), nil
}

// CaliperExcess is the excess stated for a stage whose volume is counted on a
// caliper. Absent for other holes.
func (w *Well) CaliperExcess(str, st int) (plan.Val[units.Fraction], error) {
	s := &w.Plan.Strings[str].Stages[st]
	h, err := w.HoleOf(str)
	if err != nil {
		return s.Excess, err
	}
	if b := s.VolumeBasis.Or(h.Plan.HoleBasis.Or("bit")); b != "caliper" {
		return s.Excess, Absent("the hole isn't counted by caliper")
	}
	for _, v := range []plan.Val[units.Fraction]{s.Excess, h.Plan.Excess} {
		if v.Known() {
			return v, nil
		}
	}
	return s.Excess, Lack(s.Ref, "the excess of %s", w.stageName(str, st))
}

// Preflush reports whether something is pumped ahead of the slurry of a stage
// to clean the hole. Absent where nothing is pumped down ahead, and where the
// hole is drilled with no mud to clean off.
func (w *Well) Preflush(str, st int) (bool, place.Ref, error) {
	s := &w.Plan.Strings[str].Stages[st]
	if s.Kind.V == "top_up" || s.Kind.V == "squeeze" {
		return false, s.Ref, Absent("nothing is pumped down the string ahead")
	}
	h, err := w.HoleOf(str)
	if err != nil {
		return false, s.Ref, err
	}
	switch h.Plan.MudType.V {
	case "water", "air", "gas", "mist", "foam":
		return false, s.Ref, Absent("drilled with " + h.Plan.MudType.V)
	}
	for i := range s.Fluids {
		if k := s.Fluids[i].Kind; k.V == "spacer" || k.V == "preflush" {
			return true, k.Ref, nil
		}
	}
	if len(s.Fluids) == 0 {
		return false, s.Ref, Lack(s.Ref, "the fluids of %s", w.stageName(str, st))
	}
	return false, s.Ref, nil
}

// ShoeTestPressure is the surface pressure of the strongest shoe test of a
// string: as stated, else (EMW - rho) g z of the fluid in the hole.
func (w *Well) ShoeTestPressure(str int) (units.Pascals, *plan.Test, error) {
	emw, t, err := w.ShoeTest(str)
	if err != nil {
		return 0, t, err
	}
	if t.Pressure.Known() {
		return t.Pressure.V, t, nil
	}
	if !t.Fluid.Known() {
		return 0, t, Lack(t.Ref, "the surface pressure of %s, or the fluid in the hole", t.Name.V)
	}
	z, _, err := w.ShoeTVD(str)
	if err != nil {
		return 0, t, err
	}
	return units.Pascals(float64(emw-t.Fluid.V) * units.G * float64(z)), t, nil
}

// TestedBeforeDrillOut reports whether a pressure test of a string is planned
// that isn't made after its shoe is drilled.
func (w *Well) TestedBeforeDrillOut(str int) (bool, place.Ref) {
	for _, t := range w.TestsOf(str, "casing") {
		if t.When.V != "after_drill_out" {
			return true, t.Ref
		}
	}
	return false, w.Plan.Strings[str].Ref
}

// HeadBore is the largest bore of the heads and spools on a string.
func (w *Well) HeadBore(str int) (plan.Val[units.Meters], error) {
	var best plan.Val[units.Meters]
	for i := range w.Plan.Wellhead {
		k := &w.Plan.Wellhead[i]
		switch k.Kind.V {
		case "casing_head", "casing_spool", "tubing_head":
		default:
			continue
		}
		if w.Plan.StringIndex(k.String.V) != str {
			continue
		}
		if !k.Bore.Known() {
			return best, Lack(k.Ref, "the bore of %s", k.Name.V)
		}
		if k.Bore.V > best.V {
			best = k.Bore
		}
	}
	if !best.Known() {
		return best, Lack(w.Plan.Strings[str].Ref, "the bore of the wellhead on %s", w.Plan.Strings[str].Name.V)
	}
	return best, nil
}

// UnitRating is what the cementing unit may pump against: the lesser of its
// pump and its line, of those stated.
func (w *Well) UnitRating() (plan.Val[units.Pascals], error) {
	var best plan.Val[units.Pascals]
	for _, v := range []plan.Val[units.Pascals]{w.Plan.Rig.PumpPressure, w.Plan.Rig.LinePressure} {
		if v.Known() && (!best.Known() || v.V < best.V) {
			best = v
		}
	}
	if !best.Known() {
		return best, Lack(w.Plan.Rig.Ref, "the rated pressure of the cementing pump and line")
	}
	return best, nil
}
