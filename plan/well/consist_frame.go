package well

import (
	"strings"

	"spudgate/plan/units"
)

// Datums lists the depths that were given and can't be used, because they
// count from a datum the plan doesn't place.
func (w *Well) Datums() (Conflicts, error) {
	var found Conflicts
	for _, d := range w.Plan.Doubts {
		found.add(places(firstRef(d.Ref), w.Plan.DepthReference.Ref), "%s", d.Why)
	}
	return found, nil
}

// SettingFits searches for what doesn't go with the setting of the well: water
// depth, returns to the sea bed, a riser or a subsea stack onshore; a stack at
// the surface where the BOP is said to stand on the sea bed, and the reverse.
func (w *Well) SettingFits() (Conflicts, error) {
	set := w.Plan.Well.Setting
	if !set.Known() {
		return nil, Absent("the setting isn't stated")
	}
	found := search{compared: true}
	onshore := set.V == "onshore"
	if d := w.Plan.DepthReference.WaterDepth; d.Known() {
		found.holds(!onshore || d.V == 0, places(d.Ref, set.Ref), "%s, water depth %s", words(set.V), w.show(float64(d.V), units.Length))
	}
	for i := range w.Plan.Sections {
		s := &w.Plan.Sections[i]
		subsea, surface := s.PressureControl.V == "bop_subsea", s.PressureControl.V == "bop_surface"
		found.holds(!subsea || w.Subsea(), places(s.PressureControl.Ref, set.Ref), "%s, BOP on the sea bed in %s", words(set.V), s.Name.V)
		found.holds(!surface || !w.Subsea(), places(s.PressureControl.Ref, set.Ref), "%s, BOP at the surface in %s", words(set.V), s.Name.V)
		found.holds(!onshore || s.Returns.V != "seabed", places(s.Returns.Ref, set.Ref), "%s, returns to the sea bed in %s", words(set.V), s.Name.V)
		found.holds(!onshore || !s.RiserBore.Known(), places(s.RiserBore.Ref, set.Ref), "%s, a riser in %s", words(set.V), s.Name.V)
	}
	return found.result("")
}

// words writes a word of the plan's form as a reader does.
func words(s string) string { return strings.ReplaceAll(s, "_", " ") }

// Dates searches the dates of the plan for a spud before the plan was issued,
// and documents dated after the spud they are for.
func (w *Well) Dates() (Conflicts, error) {
	issued, spud := w.Plan.Well.PlanDate, w.Plan.Well.SpudDate
	var found search
	if issued.Known() && spud.Known() {
		found.holds(issued.V <= spud.V, places(spud.Ref, issued.Ref), "plan of %s, spud on %s", issued.V, spud.V)
	}
	for i := range w.Plan.Documents {
		d := &w.Plan.Documents[i]
		if d.Date.Known() && issued.Known() {
			found.holds(d.Date.V <= issued.V, places(d.Date.Ref, issued.Ref), "%s of %s, named in a plan of %s", d.Name.V, d.Date.V, issued.V)
		}
	}
	return found.result("the plan states no two dates")
}
