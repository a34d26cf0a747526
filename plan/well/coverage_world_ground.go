package well

import "spudgate/plan/place"

// FluidsStated reports whether the plan lists formations and says of each what
// it holds, nothing included; where it doesn't, the first it is silent on.
func (w *Well) FluidsStated() (bool, place.Ref) {
	f := w.Plan.Formations
	if len(f) == 0 {
		return false, w.Plan.Well.Ref
	}
	for i := range f {
		if !f[i].Contents.Known() {
			return false, f[i].Ref
		}
	}
	return true, f[0].Ref
}

// FractureStated reports whether the plan states fracture pressure anywhere.
func (w *Well) FractureStated() (bool, place.Ref) {
	for i := range w.Plan.Pressures {
		r := &w.Plan.Pressures[i]
		for _, v := range []place.Ref{r.Fracture.Ref, r.FractureHigh.Ref, r.FractureLow.Ref} {
			if v != 0 {
				return true, v
			}
		}
	}
	return false, w.Plan.Well.Ref
}
