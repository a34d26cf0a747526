package well

import (
	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// FluidVolume is the volume of a fluid of a stage: sacks times yield where both
// are stated, else the volume stated. The ref is that of what it rests on.
func (w *Well) FluidVolume(f *plan.Fluid) (units.CubicMeters, place.Ref, error) {
	switch {
	case f.Sacks.Known() && f.Yield.Known():
		v, err := fluid.SlurryVolume(f.Sacks.V, f.Yield.V)
		return v, f.Sacks.Ref, err
	case f.Volume.Known():
		return f.Volume.V, f.Volume.Ref, nil
	case !slurry(f):
		return 0, f.Ref, Lack(f.Ref, "the volume of %s", f.Name.V)
	}
	return 0, f.Ref, Lack(f.Ref, "the volume of %s, or its sacks and yield", f.Name.V)
}

// SlurryVolume is all the cement slurry of a stage and the inputs it rests on.
func (w *Well) SlurryVolume(st *plan.Stage) (units.CubicMeters, []place.Ref, error) {
	var sum units.CubicMeters
	var refs []place.Ref
	var missing Missing
	for i := range st.Fluids {
		f := &st.Fluids[i]
		if !slurry(f) {
			continue
		}
		v, ref, err := w.FluidVolume(f)
		if m, ok := lacks(err); ok {
			missing = append(missing, m...)
		} else if err != nil {
			return 0, nil, err
		}
		sum += v
		refs = append(refs, ref)
	}
	if len(missing) > 0 {
		return 0, refs, missing
	}
	if len(refs) == 0 {
		return 0, nil, Lack(st.Ref, "the cement slurries of %s", st.Name.V)
	}
	return sum, refs, nil
}

// Flush is the volume of spacers and preflushes pumped ahead of the first
// slurry of a stage; zero when there is none.
func (w *Well) Flush(st *plan.Stage) (units.CubicMeters, []place.Ref, error) {
	var sum units.CubicMeters
	var refs []place.Ref
	for i := range st.Fluids {
		f := &st.Fluids[i]
		if slurry(f) {
			break
		}
		if f.Kind.V == "scavenger" {
			continue
		}
		v, ref, err := w.FluidVolume(f)
		if err != nil {
			return 0, refs, err
		}
		sum += v
		refs = append(refs, ref)
	}
	return sum, refs, nil
}
