package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// ConsolidatedRock is the top of the shallowest formation stated to be
// competent: where consolidated rock begins.
func (w *Well) ConsolidatedRock() (units.TVD, *plan.Formation, error) {
	var best units.TVD
	var at *plan.Formation
	for i := range w.Plan.Formations {
		f := &w.Plan.Formations[i]
		if !f.Competent.V {
			continue
		}
		_, z, _, err := w.FormationTop(i)
		if err != nil {
			return 0, f, err
		}
		if at == nil || z < best {
			best, at = z, f
		}
	}
	if at == nil {
		return 0, nil, Lack(w.Plan.Doc.Root.Ref, "where consolidated rock begins: a formation stated competent")
	}
	return best, at, nil
}

// LowestCentralizer is the distance from the shoe of a string up to the lowest
// centralizer planned on it, along the hole.
func (w *Well) LowestCentralizer(str int) (units.MD, place.Ref, error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, 0, err
	}
	order := c.centralizersUpward()
	if len(order) == 0 {
		return 0, 0, Lack(c.Plan.Ref, "the centralizers of %s", c.Plan.Name.V)
	}
	for _, i := range order {
		r := &c.Plan.Centralizers[i]
		if !r.To.Known() {
			return 0, 0, Lack(r.Ref, "the bottom of centralizer interval %d of %s", i+1, c.Plan.Name.V)
		}
	}
	lowest := c.Plan.Centralizers[order[0]].To
	return max(c.Shoe-lowest.V, 0), lowest.Ref, nil
}

// DeepestTVD is the true vertical depth of the deepest point of any hole.
func (w *Well) DeepestTVD() (units.TVD, place.Ref, error) {
	hs := w.Holes()
	if len(hs) == 0 {
		return 0, 0, Lack(w.Plan.Doc.Root.Ref, "the hole sections")
	}
	var best units.TVD
	var ref place.Ref
	for i := range hs {
		s, err := w.OpenHole(&hs[i])
		if _, none := err.(Absent); none {
			continue
		}
		if err != nil {
			return 0, 0, err
		}
		if s.Bottom > best {
			best, ref = s.Bottom, hs[i].Plan.To.Ref
		}
	}
	return best, ref, nil
}

// CementTopTVD is the top of the cement outside a string at a depth, or of the
// nearest below it, true vertical.
func (w *Well) CementTopTVD(str int, md units.MD) (units.TVD, CementReach, error) {
	c, err := w.CementAt(str, md)
	if err != nil {
		return 0, c, err
	}
	z, err := w.TVD(c.Top)
	return z, c, err
}

// FreshWater reports whether the plan lists protected water or a formation
// that holds fresh or usable water. A plan that lists neither waters nor
// formations doesn't say.
func (w *Well) FreshWater() (bool, place.Ref, error) {
	for i := range w.Plan.Water {
		if r := &w.Plan.Water[i]; r.Kind.V == "base_of_protected_water" {
			return true, r.Ref, nil
		}
	}
	for i := range w.Plan.Formations {
		f := &w.Plan.Formations[i]
		if f.Contents.V == "fresh_water" || f.Contents.V == "usable_water" {
			return true, f.Contents.Ref, nil
		}
	}
	if len(w.Plan.Formations) == 0 {
		return false, 0, Lack(w.Plan.Doc.Root.Ref, "whether there is fresh water: its base, or the formations and what they hold")
	}
	return false, w.Plan.Formations[0].Ref, nil
}

// WaterBase is the depth along the hole of the deepest base of protected water
// in the open hole of a string. Absent where the string before covers it or
// this one ends above it.
func (w *Well) WaterBase(str int) (units.MD, place.Ref, error) {
	base, _, err := w.ProtectedWater()
	if err != nil {
		return 0, 0, err
	}
	md, err := w.MD(base.V)
	if err != nil {
		return 0, 0, err
	}
	previous, _, _, err := w.PreviousShoe(str)
	if _, first := err.(Absent); err != nil && !first {
		return 0, 0, err
	}
	c, err := w.Casing(str)
	switch {
	case err != nil:
		return 0, 0, err
	case md <= previous:
		return 0, 0, Absent("the string before covers the protected water")
	case md > c.Shoe:
		return 0, 0, Absent("the string ends above the base of the protected water")
	}
	return md, base.Ref, nil
}

// HeldInside is the pressure planned on the annulus inside a string, the one
// outside the production string.
func (w *Well) HeldInside(str int) (plan.Val[units.Pascals], error) {
	p := w.Plan.Completion.AnnulusPressure
	if !p.Known() {
		return p, Absent("no annulus pressure is planned")
	}
	if k := w.innerOf(str); k < 0 || !w.ReachesWellhead(str) || !w.ProductionExposed(k) {
		return p, Absent("the annulus inside it isn't the one held")
	}
	return p, nil
}
