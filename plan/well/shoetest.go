package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// ShoeTestUnderFracture is the fracture pressure at a shoe, high estimate, as
// an equivalent mud weight, less that of a test of the shoe, with where both
// stand.
func (w *Well) ShoeTestUnderFracture(t *plan.Test) (units.KgPerM3, []place.Ref, error) {
	refs := []place.Ref{t.EMW.Ref, t.Pressure.Ref}
	str := w.Plan.StringIndex(t.String.V)
	if str < 0 {
		return 0, refs, Lack(t.Ref, "the string of %s", t.Name.V)
	}
	emw, err := w.shoeEMW(str, t)
	if err != nil {
		return 0, refs, err
	}
	z, _, err := w.ShoeTVD(str)
	if err != nil {
		return 0, refs, err
	}
	if z <= shallow {
		return 0, refs, Absent("the shoe is at the surface")
	}
	p, ref, err := w.Fracture(z, High)
	return EMW(p, 0, z) - emw, append(refs, ref), err
}
