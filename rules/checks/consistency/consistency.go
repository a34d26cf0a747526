// Package consistency holds the checks of a plan against itself: the same fact
// given twice, names of things that don't exist, depths out of order, numbers
// that can't be meant. Each is true where the plan agrees; where it doesn't the
// note gives both values and the places both sides.
package consistency

import (
	"fmt"
	"strings"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/well"
	"spudgate/rules"
)

// inNote is how many conflicts a note spells out; the places of all are given.
const inNote = 5

// about is a check whose measure is true where a search finds no conflict.
func about(kind rules.Kind, name, doc string, find func(w *well.Well, s rules.Subject) (well.Conflicts, error)) *rules.Check {
	return &rules.Check{Name: "consistency." + name, About: kind, Type: expr.Type{Kind: expr.Truth},
		Doc: doc + " True where the plan agrees with itself; not applicable where there is nothing to compare.",
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			found, err := find(w, s)
			if err != nil {
				return rules.From(err, s.Ref)
			}
			return agreement(found, s.Ref)
		}}
}

func agreement(found well.Conflicts, at place.Ref) rules.Measure {
	if len(found) == 0 {
		return rules.Truth(true, at)
	}
	var texts []string
	var refs []place.Ref
	for i, c := range found {
		refs = append(refs, c.Refs...)
		if i < inNote {
			texts = append(texts, c.Text)
		}
	}
	if more := len(found) - inNote; more > 0 {
		texts = append(texts, fmt.Sprintf("and %d more", more))
	}
	return rules.Truth(false, refs...).With(strings.Join(texts, "; "))
}

func ofWell(name, doc string, find func(*well.Well) (well.Conflicts, error)) *rules.Check {
	return about(rules.Well, name, doc, func(w *well.Well, _ rules.Subject) (well.Conflicts, error) { return find(w) })
}

func ofSurvey(name, doc string, find func(*well.Well) (well.Conflicts, error)) *rules.Check {
	return about(rules.Survey, name, doc, func(w *well.Well, _ rules.Subject) (well.Conflicts, error) { return find(w) })
}

func ofString(name, doc string, find func(w *well.Well, str int) (well.Conflicts, error)) *rules.Check {
	return about(rules.String, name, doc, func(w *well.Well, s rules.Subject) (well.Conflicts, error) { return find(w, s.String) })
}

func ofSegment(name, doc string, find func(w *well.Well, str, seg int) (well.Conflicts, error)) *rules.Check {
	return about(rules.Segment, name, doc, func(w *well.Well, s rules.Subject) (well.Conflicts, error) { return find(w, s.String, s.Segment) })
}

func ofStage(name, doc string, find func(w *well.Well, str, stage int) (well.Conflicts, error)) *rules.Check {
	return about(rules.Stage, name, doc, func(w *well.Well, s rules.Subject) (well.Conflicts, error) { return find(w, s.String, s.Stage) })
}

func ofFluid(name, doc string, find func(w *well.Well, str, stage, fluid int) (well.Conflicts, error)) *rules.Check {
	return about(rules.Fluid, name, doc, func(w *well.Well, s rules.Subject) (well.Conflicts, error) {
		return find(w, s.String, s.Stage, s.Fluid)
	})
}

func ofSection(name, doc string, find func(w *well.Well, section int) (well.Conflicts, error)) *rules.Check {
	return about(rules.Section, name, doc, func(w *well.Well, s rules.Subject) (well.Conflicts, error) { return find(w, s.Section) })
}

func ofTest(name, doc string, find func(w *well.Well, test int) (well.Conflicts, error)) *rules.Check {
	return about(rules.Test, name, doc, func(w *well.Well, s rules.Subject) (well.Conflicts, error) { return find(w, s.Test) })
}

func ofBOP(name, doc string, find func(w *well.Well, bop int) (well.Conflicts, error)) *rules.Check {
	return about(rules.BOP, name, doc, func(w *well.Well, s rules.Subject) (well.Conflicts, error) { return find(w, s.BOP) })
}
