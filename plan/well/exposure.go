package well

// CarriesBOP reports whether a BOP stands on the string: named by a hole
// section or a stack, or the string reaching the wellhead that a section with
// a BOP starts from.
func (w *Well) CarriesBOP(str int) bool {
	named := false
	for i := range w.Plan.BOPs {
		if on := w.Plan.StringIndex(w.Plan.BOPs[i].On.V); on >= 0 {
			named = true
			if on == str {
				return true
			}
		}
	}
	for i := range w.Plan.Sections {
		s := &w.Plan.Sections[i]
		if s.PressureControl.V != "bop_surface" && s.PressureControl.V != "bop_subsea" {
			continue
		}
		if on := w.Plan.StringIndex(s.CarriedBy.V); on >= 0 {
			named = true
			if on == str {
				return true
			}
		}
	}
	return !named && w.firstUnderBOP() == str
}

// firstUnderBOP is the string reaching the wellhead that the first section
// drilled with a BOP starts from; -1 when there is none.
func (w *Well) firstUnderBOP() int {
	for _, h := range w.Holes() {
		if c := h.Plan.PressureControl.V; c != "bop_surface" && c != "bop_subsea" {
			continue
		}
		best := -1
		for _, i := range w.InOrder() {
			if w.rank(i) < 2*h.Order && w.ReachesWellhead(i) {
				best = i
			}
		}
		return best
	}
	return -1
}

// ProductionExposed reports whether some length of the string faces the tubing
// annulus or produced fluid: production casing, tie-back, production liner
// and, with no tie-back, the parent of a production liner.
func (w *Well) ProductionExposed(str int) bool {
	s := &w.Plan.Strings[str]
	switch s.Role.V {
	case "production", "tie_back", "production_liner":
		return true
	}
	tied := false
	for i := range w.Plan.Strings {
		tied = tied || w.Plan.Strings[i].Role.V == "tie_back"
	}
	if tied {
		return false
	}
	for i := range w.Plan.Strings {
		if w.Plan.Strings[i].Role.V != "production_liner" {
			continue
		}
		if p, err := w.Parent(i); err == nil && p == str {
			return true
		}
	}
	return false
}
