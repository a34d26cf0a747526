package well

// PlacementIn follows a stage in another number of steps, to see what the step
// is worth.
func (w *Well) PlacementIn(str, st, steps int) (*Placement, error) {
	return w.placement(str, st, OneHole, steps)
}
