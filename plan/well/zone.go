package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// FormationTop is the top of a formation along the hole and true vertical,
// each as stated, else from the depth map (its first crossing).
func (w *Well) FormationTop(i int) (units.MD, units.TVD, place.Ref, error) {
	f := &w.Plan.Formations[i]
	return w.bothWays(f.Top.V, f.Top.Ref, f.TopTVD.V, f.TopTVD.Ref, f.Ref, "the top of "+f.Name.V)
}

// FormationBase is the base of a formation; see FormationTop.
func (w *Well) FormationBase(i int) (units.MD, units.TVD, place.Ref, error) {
	f := &w.Plan.Formations[i]
	if !f.Base.Known() && !f.BaseTVD.Known() && i+1 < len(w.Plan.Formations) {
		return w.FormationTop(i + 1)
	}
	return w.bothWays(f.Base.V, f.Base.Ref, f.BaseTVD.V, f.BaseTVD.Ref, f.Ref, "the base of "+f.Name.V)
}

func (w *Well) bothWays(md units.MD, mdRef place.Ref, z units.TVD, zRef, at place.Ref, what string) (units.MD, units.TVD, place.Ref, error) {
	var err error
	switch {
	case mdRef != 0 && zRef != 0:
		return md, z, mdRef, nil
	case mdRef != 0:
		z, err = w.TVD(md)
		return md, z, mdRef, err
	case zRef != 0:
		md, err = w.MD(z)
		return md, z, zRef, err
	}
	return 0, 0, 0, Lack(at, "%s", what)
}

// ZonesOf lists the formations first opened in a string's own hole, by index.
// A formation without a depth is opened by nobody; the consistency book says
// so.
func (w *Well) ZonesOf(str int) []int {
	h, err := w.HoleOf(str)
	if err != nil {
		return nil
	}
	var out []int
	for i := range w.Plan.Formations {
		top, _, _, err := w.FormationTop(i)
		if err == nil && top >= h.From && top < h.To {
			out = append(out, i)
		}
	}
	return out
}

// CanFlow reports whether a formation can flow: as stated, else by what it
// holds.
func (w *Well) CanFlow(i int) (flows, hydrocarbon bool) {
	f := &w.Plan.Formations[i]
	switch f.Contents.V {
	case "oil", "gas", "oil_and_gas":
		hydrocarbon = true
	}
	if f.Flow.Known() {
		return f.Flow.V, hydrocarbon
	}
	return hydrocarbon, hydrocarbon
}

// ToIsolate reports whether cement must cover a formation: as stated, else
// everything that holds hydrocarbons, water up to 10,000 ppm, or can flow.
func (w *Well) ToIsolate(i int) bool {
	f := &w.Plan.Formations[i]
	if f.Isolate.Known() {
		return f.Isolate.V
	}
	flows, hc := w.CanFlow(i)
	return flows || hc || f.Contents.V == "fresh_water" || f.Contents.V == "usable_water"
}

// OpenHoleZones lists the formations whose any part lies in a hole.
func (w *Well) OpenHoleZones(h *Hole) []int {
	var out []int
	for i := range w.Plan.Formations {
		top, _, _, err := w.FormationTop(i)
		if err != nil || top >= h.To {
			continue
		}
		base, _, _, err := w.FormationBase(i)
		if err != nil {
			base = h.To
		}
		if base > h.From {
			out = append(out, i)
		}
	}
	return out
}
