package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
)

// named is a name a plan uses for something else, and where.
type named struct {
	what string // "the string of test casing 9-5/8"
	name plan.Val[string]
}

// SectionNames searches a hole section for names of strings that don't exist.
func (w *Well) SectionNames(section int) (Conflicts, error) {
	s := &w.Plan.Sections[section]
	return w.strings(named{"the string set in " + s.Name.V, s.String}, named{"what " + s.Name.V + " is drilled on", s.CarriedBy})
}

// StringNames searches a string for names of sections and strings that don't
// exist.
func (w *Well) StringNames(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	var found search
	w.lookStrings(&found, named{"what " + s.Name.V + " hangs in", s.HungIn})
	w.lookSection(&found, named{"the section of " + s.Name.V, s.Section})
	return found.result("the string names no other")
}

// TestNames searches a test for the name of a string that doesn't exist.
func (w *Well) TestNames(test int) (Conflicts, error) {
	t := &w.Plan.Tests[test]
	return w.strings(named{"the string of " + t.Name.V, t.String})
}

// BOPNames searches a stack for names of strings and sections that don't exist.
func (w *Well) BOPNames(bop int) (Conflicts, error) {
	b := &w.Plan.BOPs[bop]
	var found search
	w.lookStrings(&found, named{"what " + b.Name.V + " stands on", b.On})
	w.lookSection(&found, named{"the section of " + b.Name.V, b.Section})
	return found.result("the stack names no string and no section")
}

// ListNames searches the wellhead, barriers, approved baseline and claims for
// names of strings that don't exist.
func (w *Well) ListNames() (Conflicts, error) {
	var all []named
	for i := range w.Plan.Wellhead {
		c := &w.Plan.Wellhead[i]
		all = append(all, named{"the string of " + c.Name.V, c.String})
	}
	for i := range w.Plan.Barriers {
		b := &w.Plan.Barriers[i]
		all = append(all, named{"the string of barrier " + b.Name.V, b.String})
	}
	for i := range w.Plan.Approved {
		all = append(all, named{"an approved string", w.Plan.Approved[i].String})
	}
	for i := range w.Plan.Claims {
		all = append(all, named{"the string of a claim", w.Plan.Claims[i].String})
	}
	return w.strings(all...)
}

func (w *Well) strings(all ...named) (Conflicts, error) {
	var found search
	w.lookStrings(&found, all...)
	return found.result("no string is named")
}

func (w *Well) lookStrings(found *search, all ...named) {
	for _, n := range all {
		if n.name.Known() {
			found.holds(w.Plan.StringIndex(n.name.V) >= 0, places(n.name.Ref), "%s is %q; no string has that name", n.what, n.name.V)
		}
	}
}

func (w *Well) lookSection(found *search, n named) {
	if n.name.Known() {
		found.holds(w.Plan.SectionIndex(n.name.V) >= 0, places(n.name.Ref), "%s is %q; no hole section has that name", n.what, n.name.V)
	}
}

// MainNames searches strings and hole sections for names used twice: everything
// that names one of two would be taken for the first.
func (w *Well) MainNames() (Conflicts, error) {
	var found search
	var list []plan.Val[string]
	for i := range w.Plan.Strings {
		s := &w.Plan.Strings[i]
		list = append(list, placed(s.Name, s.Ref))
	}
	found.twice("strings", list)
	list = nil
	for i := range w.Plan.Sections {
		s := &w.Plan.Sections[i]
		list = append(list, placed(s.Name, s.Ref))
	}
	found.twice("hole sections", list)
	return found.result("the plan has no two strings and no two hole sections")
}

// OtherNames searches formations, tests and stacks for names the plan uses
// twice.
func (w *Well) OtherNames() (Conflicts, error) {
	var found search
	var formations, tests, stacks []plan.Val[string]
	for i := range w.Plan.Formations {
		formations = append(formations, w.Plan.Formations[i].Name)
	}
	for i := range w.Plan.Tests {
		tests = append(tests, w.Plan.Tests[i].Name)
	}
	for i := range w.Plan.BOPs {
		stacks = append(stacks, w.Plan.BOPs[i].Name)
	}
	found.twice("formations", formations)
	found.twice("tests", tests)
	found.twice("stacks", stacks)
	return found.result("no list of the plan has two named rows")
}

// placed gives a name made up on reading the place of its record.
func placed(name plan.Val[string], record place.Ref) plan.Val[string] {
	if !name.Known() {
		name.Ref = record
	}
	return name
}

// twice compares each name with those before it. Names the plan doesn't state
// are left out.
func (s *search) twice(what string, list []plan.Val[string]) {
	for i, n := range list {
		for _, earlier := range list[:i] {
			if !n.Known() || !earlier.Known() || n.V == "" {
				continue
			}
			s.compared = true
			if plan.Same(n.V, earlier.V) {
				s.found.add(places(n.Ref, earlier.Ref), "two %s are called %q", what, n.V)
				break
			}
		}
	}
}
