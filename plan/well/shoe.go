package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// WaterString is the string that protects water: the cemented surface string,
// else the outermost cemented string inside the conductor, else the outermost
// cemented one. -1 when no string is cemented.
func (w *Well) WaterString() int {
	inside, outermost := -1, -1
	for _, i := range w.InOrder() {
		s := &w.Plan.Strings[i]
		if !Cemented(s) || IsLiner(s) {
			continue
		}
		if s.Role.V == "surface" {
			return i
		}
		if outermost < 0 {
			outermost = i
		}
		if inside < 0 && s.Role.V != "drive" && s.Role.V != "conductor" {
			inside = i
		}
	}
	if inside >= 0 {
		return inside
	}
	return outermost
}

// ShoeTVD is the shoe of a string, true vertical: from the depth map, else as
// stated.
func (w *Well) ShoeTVD(str int) (units.TVD, place.Ref, error) {
	s := &w.Plan.Strings[str]
	shoe, err := w.shoeOf(s)
	if err != nil {
		return 0, 0, err
	}
	z, err := w.TVD(shoe)
	if err != nil && s.ShoeTVD.Known() {
		return s.ShoeTVD.V, s.ShoeTVD.Ref, nil
	}
	return z, s.Shoe.Ref, err
}

// AgencyDepth is the depth of one kind in the water table: the deepest of
// "base_of_protected_water" and "shoe_at_least", the shallowest of
// "shoe_at_most". Absent when the plan has no row of the kind.
func (w *Well) AgencyDepth(kind string) (plan.Val[units.TVD], string, error) {
	var best plan.Val[units.TVD]
	name, rows := "", 0
	for i := range w.Plan.Water {
		r := &w.Plan.Water[i]
		if r.Kind.V != kind {
			continue
		}
		rows++
		if !r.Depth.Known() {
			return best, "", Lack(r.Ref, "the depth of %s below the rotary table", r.Name.Or("the water"))
		}
		further := r.Depth.V > best.V
		if kind == "shoe_at_most" {
			further = r.Depth.V < best.V
		}
		if !best.Known() || further {
			best, name = r.Depth, r.Name.V
		}
	}
	if rows == 0 {
		return best, "", Absent("the plan gives no such depth")
	}
	return best, name, nil
}

// ProtectedWater is the deepest base of protected water. Onshore a plan
// without one lacks it.
func (w *Well) ProtectedWater() (plan.Val[units.TVD], string, error) {
	v, name, err := w.AgencyDepth("base_of_protected_water")
	if _, none := err.(Absent); none && w.Plan.Well.Setting.V != "offshore_subsea_bop" && w.Plan.Well.Setting.V != "offshore_surface_bop" {
		return v, name, Lack(w.Plan.Well.Ref, "the base of protected water")
	}
	return v, name, err
}

// Rock is the formation a shoe stands in; -1 when none listed reaches it.
func (w *Well) Rock(str int) (int, error) {
	shoe, err := w.shoeOf(&w.Plan.Strings[str])
	if err != nil {
		return -1, err
	}
	at := -1
	for i := range w.Plan.Formations {
		top, _, _, err := w.FormationTop(i)
		if err != nil || top > shoe {
			continue
		}
		if base, _, _, err := w.FormationBase(i); err == nil && base < shoe {
			continue
		}
		at = i
	}
	return at, nil
}

// Unsound says what makes a formation unfit to set a shoe in, empty when
// nothing stated does.
func (w *Well) Unsound(i int) (string, place.Ref) {
	f := &w.Plan.Formations[i]
	switch {
	case f.Competent.Known() && !f.Competent.V:
		return "not competent", f.Competent.Ref
	case f.Losses.V:
		return "takes losses", f.Losses.Ref
	case f.Mobile.V:
		return "mobile", f.Mobile.Ref
	case f.Contents.V == "coal" || f.Contents.V == "salt":
		return f.Contents.V, f.Contents.Ref
	}
	return "", f.Ref
}

// testReach is how much new hole a shoe test is taken to open where the plan
// doesn't say: 20 ft (common practice, no source).
const testReach units.MD = 20 * units.Foot

// UnsoundBelow is the first formation unfit to hold a shoe whose top lies in the
// new hole a shoe test opens below a shoe: the test would measure it, not the
// shoe's own rock. -1 where there's none. The reach is the longest new hole of
// the string's shoe tests, else 20 ft.
func (w *Well) UnsoundBelow(str int) (formation int, reach units.MD, err error) {
	if _, err := w.DrilledOut(str); err != nil {
		return -1, 0, err
	}
	shoe, err := w.shoeOf(&w.Plan.Strings[str])
	if err != nil {
		return -1, 0, err
	}
	for _, t := range w.TestsOf(str, "shoe") {
		reach = max(reach, units.MD(t.NewHole.V))
	}
	if reach == 0 {
		reach = testReach
	}
	for i := range w.Plan.Formations {
		top, _, _, err := w.FormationTop(i)
		if err != nil || top <= shoe || top > shoe+reach {
			continue
		}
		if why, _ := w.Unsound(i); why != "" {
			return i, reach, nil
		}
	}
	return -1, reach, nil
}

// DrilledOut is the hole drilled from a string's shoe with a BOP, so that the
// shoe must hold its mud.
func (w *Well) DrilledOut(str int) (*Hole, error) {
	hs := w.Holes()
	for i := range hs {
		h := &hs[i]
		if w.ShoeAbove(h) != str {
			continue
		}
		if err := windowed(h); err != nil {
			return nil, err
		}
		switch h.Plan.PressureControl.V {
		case "none", "diverter":
			return nil, Absent("the hole below is drilled without a BOP")
		}
		return h, nil
	}
	return nil, Absent("no hole is drilled from its shoe")
}

// ShoeTest is the strongest shoe test planned at a string, as an equivalent
// mud weight at the shoe: stated, else p/(g z) + rho.
func (w *Well) ShoeTest(str int) (units.KgPerM3, *plan.Test, error) {
	var best units.KgPerM3
	var at *plan.Test
	name := w.Plan.Strings[str].Name.V
	for _, t := range w.TestsOf(str, "shoe") {
		emw, err := w.shoeEMW(str, t)
		if err != nil {
			return 0, t, err
		}
		if at == nil || emw > best {
			best, at = emw, t
		}
	}
	if at == nil {
		return 0, nil, Lack(w.Plan.Strings[str].Ref, "a shoe test planned at %s", name)
	}
	return best, at, nil
}

func (w *Well) shoeEMW(str int, t *plan.Test) (units.KgPerM3, error) {
	if t.EMW.Known() {
		return t.EMW.V, nil
	}
	if !t.Pressure.Known() || !t.Fluid.Known() {
		return 0, Lack(t.Ref, "the equivalent mud weight of %s", t.Name.V)
	}
	z, _, err := w.ShoeTVD(str)
	if err != nil {
		return 0, err
	}
	if z <= shallow {
		return 0, Absent("the shoe is at the surface")
	}
	return EMW(t.Pressure.V, t.Fluid.V, z), nil
}

// EMW is the equivalent mud weight of a surface pressure on a fluid at a
// depth z > 0: rho + p/(g z). Bourgoyne et al., Applied Drilling Engineering
// (SPE, 1986), ch. 6.
func EMW(p units.Pascals, rho units.KgPerM3, z units.TVD) units.KgPerM3 {
	return rho + units.KgPerM3(float64(p)/(units.G*float64(z)))
}

// TestsOf lists the tests of one of the kinds on a string.
func (w *Well) TestsOf(str int, kinds ...string) []*plan.Test {
	var out []*plan.Test
	for i := range w.Plan.Tests {
		t := &w.Plan.Tests[i]
		if w.Plan.StringIndex(t.String.V) != str {
			continue
		}
		for _, k := range kinds {
			if t.Kind.V == k {
				out = append(out, t)
			}
		}
	}
	return out
}
