package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// WearAllowed reports whether the plan allows wear in some pipe of a string that
// later holes are drilled through, and how long pipe turns in it as far as the
// plan says.
func (w *Well) WearAllowed(str int) (allowed bool, hours units.Seconds, refs []place.Ref, err error) {
	if w.Plan.Strings[str].Existing.V {
		return false, 0, nil, Absent("the string's wear is measured, it is in the well already")
	}
	for _, e := range w.Exposures(str) {
		if h := e.Hole.Plan.RotatingHours; h.Known() && h.V > 0 {
			hours += h.V
			refs = append(refs, h.Ref)
		}
	}
	if hours == 0 {
		return false, 0, nil, Absent("no rotating hours in it are stated")
	}
	for i := range w.Plan.Strings[str].Segments {
		g := &w.Plan.Strings[str].Segments[i]
		allowed = allowed || g.Wear.V > 0
		if g.Wear.Known() {
			refs = append(refs, g.Wear.Ref)
		}
	}
	return allowed, hours, refs, nil
}
