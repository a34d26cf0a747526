package well

import (
	"errors"
	"math"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// HasSection searches for the hole section a string is run in. Strings driven,
// jetted or augered, tie-backs, scab liners, strings in the well already and
// contingent ones need none.
func (w *Well) HasSection(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if s.Contingent.V {
		return nil, Absent("the string is run only if needed")
	}
	if len(w.sectionsOf(str)) > 0 {
		return nil, nil
	}
	_, err := w.HoleOf(str)
	var absent Absent
	if errors.As(err, &absent) {
		return nil, absent
	}
	if len(w.Plan.Sections) == 0 {
		return nil, Lack(s.Ref, "the hole sections")
	}
	return Conflicts{{"no hole section is drilled for " + s.Name.V, places(s.Ref, w.Plan.Sections[0].Ref)}}, nil
}

// LinerHangs searches for the string a liner hangs in, which must reach from
// above the liner's top to below it.
func (w *Well) LinerHangs(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !IsLiner(s) {
		return nil, Absent("not a liner")
	}
	i, err := w.Parent(str)
	if err != nil {
		return Conflicts{{"no string of the plan is there for " + s.Name.V + " to hang in", places(firstRef(s.HungIn.Ref, s.Ref))}}, nil
	}
	p := &w.Plan.Strings[i]
	if i == str {
		return Conflicts{{s.Name.V + " hangs in itself", places(s.HungIn.Ref)}}, nil
	}
	top, err := w.topOf(s)
	if err != nil {
		return nil, err
	}
	from, err1 := w.topOf(p)
	shoe, err2 := w.shoeOf(p)
	if err := errors.Join(err1, err2); err != nil {
		return nil, err
	}
	var found search
	ok := !w.past(from, top) && !w.past(top, shoe)
	found.holds(ok, places(topRef(s), w.shoeRef(p)), "liner top at %s; %s runs from %s to %s", w.showMD(top), p.Name.V, w.showMD(from), w.showMD(shoe))
	return found.result("")
}

func firstRef(refs ...place.Ref) place.Ref {
	for _, r := range refs {
		if r != 0 {
			return r
		}
	}
	return 0
}

// RoleFits searches for a role that doesn't go with the string's top: a liner
// that comes up to the wellhead, a casing that doesn't, a casing said to hang
// in another string.
func (w *Well) RoleFits(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !s.Role.Known() || s.Role.V == "tie_back" {
		return nil, Absent("the role says nothing of the top")
	}
	var found search
	if low, ok := w.lowestWellhead(); ok && s.Top.Known() {
		high := s.Top.V <= low
		found.holds(high != IsLiner(s), places(s.Top.Ref, s.Role.Ref), "role %s, top at %s, the wellhead no deeper than %s", words(s.Role.V), w.showMD(s.Top.V), w.showMD(low))
	}
	if s.HungIn.Known() {
		found.holds(IsLiner(s), places(s.HungIn.Ref, s.Role.Ref), "role %s, hung in %s", s.Role.V, s.HungIn.V)
	}
	return found.result("no top is stated")
}

// lowestWellhead is the deepest a string's top can be and still be at the
// wellhead: a cellar of 15 m below the ground or, offshore, a housing on the
// sea bed, where strings of a surface stack may hang too. False where the
// setting or the depth of the sea bed isn't stated.
func (w *Well) lowestWellhead() (units.MD, bool) {
	const cellar = 15 // m
	r := w.Plan.DepthReference
	switch set := w.Plan.Well.Setting; {
	case !set.Known():
		return 0, false
	case set.V == "onshore":
		return units.MD(r.AboveGround.V + cellar), true
	}
	return units.MD(r.AboveSeaLevel.V + r.WaterDepth.V + cellar), r.AboveSeaLevel.Known() && r.WaterDepth.Known()
}

// CementedFits searches for cement planned for a string said not to be
// cemented.
func (w *Well) CementedFits(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !s.Cemented.Known() {
		return nil, Absent("the plan doesn't say whether the string is cemented")
	}
	var found search
	found.holds(s.Cemented.V || !s.TopOfCement.Known(), places(s.Cemented.Ref, s.TopOfCement.Ref), "not cemented, top of cement at %s", w.showMD(s.TopOfCement.V))
	for i := range s.Stages {
		st := &s.Stages[i]
		found.holds(s.Cemented.V, places(s.Cemented.Ref, st.Ref), "not cemented, and %s is planned", st.Name.V)
	}
	return found.result("")
}

// StringsInOrder compares a string with the last one listed before it: no
// shallower and no larger. Tie-backs, scab liners and contingent strings stand
// anywhere.
func (w *Well) StringsInOrder(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if outOfLine(s) {
		return nil, Absent("the string is no part of the nest")
	}
	last := str - 1
	for last >= 0 && outOfLine(&w.Plan.Strings[last]) {
		last--
	}
	if last < 0 {
		return nil, Absent("the first string of the list")
	}
	o := &w.Plan.Strings[last]
	var found search
	a, errA := w.shoeOf(o)
	b, errB := w.shoeOf(s)
	if errA == nil && errB == nil {
		found.holds(!w.past(a, b), places(w.shoeRef(s), w.shoeRef(o)), "shoe at %s, that of %s listed before it at %s", w.showMD(b), o.Name.V, w.showMD(a))
	}
	odA, refA, errA := largestOD(o)
	odB, refB, errB := largestOD(s)
	if errA == nil && errB == nil {
		found.holds(odB <= odA+sameHole, places(refB, refA), "OD %s, that of %s listed before it %s", showSize(odB), o.Name.V, showSize(odA))
	}
	return found.result("neither shoes nor ODs are stated")
}

func outOfLine(s *plan.String) bool {
	return s.Role.V == "tie_back" || s.Role.V == "scab_liner" || s.Contingent.V || s.Expanded.V
}

// SectionsMeet compares a hole section with the one above it: it begins where
// that one ends or, drilled from its shoe through the rathole, at the shoe.
func (w *Well) SectionsMeet(section int) (Conflicts, error) {
	s := &w.Plan.Sections[section]
	var found search
	if s.From.Known() && s.To.Known() {
		found.holds(s.From.V < s.To.V, places(s.To.Ref, s.From.Ref), "from %s to %s, upside down", w.showMD(s.From.V), w.showMD(s.To.V))
	}
	if above := w.sectionAbove(section); above >= 0 && s.From.Known() {
		o := &w.Plan.Sections[above]
		ok := w.meets(s.From.V, o.To.V)
		if i := w.stringIn(above); i >= 0 && !ok {
			shoe, err := w.shoeOf(&w.Plan.Strings[i])
			ok = err == nil && !w.past(shoe, s.From.V) && s.From.V <= o.To.V
		}
		found.holds(ok, places(s.From.Ref, o.To.Ref), "%s begins at %s, %s ends at %s", s.Name.V, w.showMD(s.From.V), o.Name.V, w.showMD(o.To.V))
	}
	return found.result("no two ends of hole to compare")
}

// sectionAbove is the hole section with the deepest bottom above that of a
// section; -1 when there is none.
func (w *Well) sectionAbove(section int) int {
	s, best := &w.Plan.Sections[section], -1
	for i := range w.Plan.Sections {
		o := &w.Plan.Sections[i]
		if !o.To.Known() || !s.To.Known() || o.To.V >= s.To.V {
			continue
		}
		if best < 0 || o.To.V > w.Plan.Sections[best].To.V {
			best = i
		}
	}
	return best
}

// SectionsInOrder compares a hole section with the one listed before it, which
// must end higher.
func (w *Well) SectionsInOrder(section int) (Conflicts, error) {
	s := &w.Plan.Sections[section]
	if section == 0 || !s.To.Known() || !w.Plan.Sections[section-1].To.Known() {
		return nil, Absent("no two bottoms of hole to compare")
	}
	o := &w.Plan.Sections[section-1]
	var found search
	found.holds(s.To.V > o.To.V, places(s.To.Ref, o.To.Ref), "%s ends at %s, %s listed before it at %s", s.Name.V, w.showMD(s.To.V), o.Name.V, w.showMD(o.To.V))
	return found.result("")
}

// PressureControlFits compares what a hole section says of its pressure
// control with the stack that names the section.
func (w *Well) PressureControlFits(section int) (Conflicts, error) {
	s := &w.Plan.Sections[section]
	var found search
	for i := range w.Plan.BOPs {
		b := &w.Plan.BOPs[i]
		if w.Plan.SectionIndex(b.Section.V) != section {
			continue
		}
		if s.PressureControl.Known() {
			found.holds(s.PressureControl.V != "none", places(s.PressureControl.Ref, b.Section.Ref), "drilled without pressure control, and %s serves it", b.Name.V)
		}
		if s.CarriedBy.Known() && b.On.Known() {
			found.holds(plan.Same(s.CarriedBy.V, b.On.V), places(s.CarriedBy.Ref, b.On.Ref), "carried by %s, %s stands on %s", s.CarriedBy.V, b.Name.V, b.On.V)
		}
	}
	return found.result("no stack names the section")
}

// CompletionFits searches for a packer or perforations outside the deepest
// hole, and perforations upside down.
func (w *Well) CompletionFits() (Conflicts, error) {
	c := &w.Plan.Completion
	var found search
	if c.PerforatedFrom.Known() && c.PerforatedTo.Known() {
		found.holds(c.PerforatedFrom.V < c.PerforatedTo.V, places(c.PerforatedTo.Ref, c.PerforatedFrom.Ref), "perforated from %s to %s, upside down", w.showMD(c.PerforatedFrom.V), w.showMD(c.PerforatedTo.V))
	}
	end, ref := w.deepest()
	if ref == 0 {
		return found.result("no depth of hole is stated")
	}
	for _, d := range []struct {
		what string
		md   plan.Val[units.MD]
	}{{"packer", c.Packer}, {"perforations", c.PerforatedFrom}, {"perforations", c.PerforatedTo}} {
		if d.md.Known() {
			found.holds(!w.past(d.md.V, end), places(d.md.Ref, ref), "%s at %s, the well ends at %s", d.what, w.showMD(d.md.V), w.showMD(end))
		}
	}
	return found.result("the completion states no depth")
}

// deepest is the deepest bottom of hole or shoe and where it stands.
func (w *Well) deepest() (units.MD, place.Ref) {
	end, ref := units.MD(math.Inf(-1)), place.Ref(0)
	for i := range w.Plan.Sections {
		if to := w.Plan.Sections[i].To; to.Known() && to.V > end {
			end, ref = to.V, to.Ref
		}
	}
	for i := range w.Plan.Strings {
		s := &w.Plan.Strings[i]
		if shoe, err := w.shoeOf(s); err == nil && (ref == 0 || w.past(shoe, end)) {
			end, ref = shoe, w.shoeRef(s)
		}
	}
	return end, ref
}
