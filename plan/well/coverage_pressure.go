package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// DownholeMud is the static mud density at depth: as stated for depth, else
// the density planned at the surface, the heaviest or the lightest.
func (h *Hole) DownholeMud(heaviest bool) (units.KgPerM3, place.Ref, error) {
	if v := h.Plan.MudDownhole; v.Known() {
		return v.V, v.Ref, nil
	}
	if heaviest {
		return h.HeaviestMud()
	}
	return h.LightestMud()
}

// DownholeOverPore is the least of static mud at depth less pore pressure
// along the open hole.
func (w *Well) DownholeOverPore(h *Hole) (Margin, error) {
	if err := windowed(h); err != nil {
		return Margin{}, err
	}
	mud, ref, err := h.DownholeMud(false)
	if err != nil {
		return Margin{}, err
	}
	return w.margin(h, PorePressure, High, mud, ref, backPressure(h), -1)
}

// UnderFracture is the lesser of the shoe test above a hole and the lowest
// fracture pressure along it, less a density: the static mud at depth, or the
// circulating density. A shoe test that isn't planned is a gap: what is known
// of the fracture curve can fail but not pass.
func (w *Well) UnderFracture(h *Hole, circulating bool) (Margin, error) {
	if err := windowed(h); err != nil {
		return Margin{}, err
	}
	if w.ShoeAbove(h) < 0 {
		return Margin{}, Absent("the first hole of the well: no shoe stands above it")
	}
	mud, ref, err := h.DownholeMud(true)
	if circulating {
		mud, ref, err = h.Plan.ECD.V, h.Plan.ECD.Ref, nil
		if ref == 0 {
			err = Lack(h.Plan.Ref, "the equivalent circulating density of %s", h.Plan.Name.V)
		}
	}
	if err != nil {
		return Margin{}, err
	}
	m, err := w.margin(h, FracturePressure, Low, mud, ref, backPressure(h), 1)
	if err != nil {
		return m, err
	}
	return w.withShoeTest(m, h, mud, ref)
}

func (w *Well) withShoeTest(m Margin, h *Hole, mud units.KgPerM3, ref place.Ref) (Margin, error) {
	shoe := w.ShoeAbove(h)
	emw, t, err := w.ShoeTest(shoe)
	if err != nil {
		m.Gaps = Missing(m.Gaps).and(err)
		return m, nil
	}
	z, _, err := w.ShoeTVD(shoe)
	if err != nil || z <= shallow {
		return m, err
	}
	held := EMW(backPressure(h), mud, z)
	if spare := emw - held; spare < m.Spare {
		m.Spare, m.Curve, m.Mud, m.At, m.Refs = spare, emw, held, z, []place.Ref{ref, t.Ref}
	}
	return m, nil
}

// TestAtShoe is the pressure a test puts at a depth: surface pressure and the
// column of the test fluid.
type TestAtShoe struct {
	P, Rock units.Pascals // what the test puts there; fracture pressure there
	At      units.TVD
	Test    *plan.Test
	RockRef place.Ref
}

// LinerTest is the strongest test of a liner or its top, at the liner's own
// shoe or at that of the string it hangs in, and the fracture pressure there.
func (w *Well) LinerTest(str int, parent bool) (TestAtShoe, error) {
	s := &w.Plan.Strings[str]
	if !IsLiner(s) {
		return TestAtShoe{}, Absent("not a liner")
	}
	at := str
	if parent {
		var err error
		if at, err = w.Parent(str); err != nil {
			return TestAtShoe{}, err
		}
	}
	z, _, err := w.ShoeTVD(at)
	if err != nil {
		return TestAtShoe{}, err
	}
	out := TestAtShoe{At: z}
	if out.Rock, out.RockRef, err = w.Fracture(z, Base); err != nil {
		return out, err
	}
	_, t, err := w.strongest(str, "the test pressure of %s or of its top", "casing", "liner_lap", "seal")
	if err != nil {
		return out, err
	}
	out.Test = t
	if !t.Fluid.Known() {
		return out, Lack(t.Ref, "the fluid in the hole during %s", t.Name.V)
	}
	out.P = t.Pressure.V + units.Hydrostatic(t.Fluid.V, z)
	return out, nil
}

// ShoeMoved is how far a planned shoe lies from the approved one, true
// vertical, without sign.
func (w *Well) ShoeMoved(str int) (units.TVD, []place.Ref, error) {
	for i := range w.Plan.Approved {
		a := &w.Plan.Approved[i]
		if w.Plan.StringIndex(a.String.V) != str {
			continue
		}
		if !a.ShoeTVD.Known() {
			return 0, nil, Lack(a.Ref, "the approved true vertical depth of the shoe of %s", a.String.V)
		}
		z, ref, err := w.ShoeTVD(str)
		if z < a.ShoeTVD.V {
			return a.ShoeTVD.V - z, []place.Ref{ref, a.ShoeTVD.Ref}, err
		}
		return z - a.ShoeTVD.V, []place.Ref{ref, a.ShoeTVD.Ref}, err
	}
	return 0, nil, Absent("no approved depth is given")
}

// RotatingHours is how long pipe turns inside a string: the rotating hours of
// the later holes it's open to.
func (w *Well) RotatingHours(str int) (units.Seconds, place.Ref, error) {
	exposed := w.Exposures(str)
	if len(exposed) == 0 {
		return 0, 0, Absent("no later hole is drilled through the string")
	}
	var sum units.Seconds
	var ref place.Ref
	var missing Missing
	for _, e := range exposed {
		v := e.Hole.Plan.RotatingHours
		if !v.Known() {
			missing = missing.and(Lack(e.Hole.Plan.Ref, "the rotating hours of %s", e.Hole.Plan.Name.V))
			continue
		}
		sum += v.V
		ref = v.Ref
	}
	return sum, ref, missing.orNil()
}
