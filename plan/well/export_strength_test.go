package well

import "spudgate/plan/units"

// SetGrid makes judged places of a new well lie as close as step.
func (w *Well) SetGrid(step units.MD) {
	_, _ = once(w, stepKey{}, func() (units.MD, error) { return step, nil })
}
