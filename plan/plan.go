// Package plan is the typed well plan: what a contractor handed over, every
// value in SI with a reference to the place it came from.
//
// A plan holds values and names, no pointers between its records: copying its
// slices copies it, which is how remedies try a change.
package plan

import (
	"spudgate/plan/doc"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Format is the form of document this package reads.
const Format = "spudgate-plan/1"

// Val is one value of a plan with the place it came from. A zero Ref means the
// plan doesn't give it: the third value, never a default.
type Val[T any] struct {
	V   T
	Ref place.Ref
}

// Known reports whether the plan gives the value.
func (v Val[T]) Known() bool { return v.Ref != 0 }

// Get is the value and whether the plan gives it.
func (v Val[T]) Get() (T, bool) { return v.V, v.Ref != 0 }

// Or is the value, or def where the plan gives none. Only for fields whose
// default is a stated convention.
func (v Val[T]) Or(def T) T {
	if v.Ref == 0 {
		return def
	}
	return v.V
}

// Plan is one well's plan.
type Plan struct {
	fields
	Doc    *doc.Doc     // where it came from; places of all Refs
	System units.System // of bare numbers
	// Doubts are values that were read but can't be used as they stand, such
	// as a depth from ground where the height of the rotary isn't stated.
	Doubts []Doubt
	// Zeros are numbers written as 0 that no plan means: read as not stated.
	Zeros []Doubt
	// Notes are small things the reader decided and says once: names made up
	// for nameless records, sizes taken as the listed one.
	Notes []doc.Remark
}

// Doubt is a value that was given and can't be used.
type Doubt struct {
	Ref place.Ref
	Why string
}

// Place is where r stands.
func (p *Plan) Place(r place.Ref) place.Place { return p.Doc.Place(r) }

// Clone copies the plan so that changing one leaves the other alone. The
// document is shared: it never changes.
func (p *Plan) Clone() *Plan {
	q := *p
	q.Strings = append([]String(nil), p.Strings...)
	for i := range q.Strings {
		s := &q.Strings[i]
		s.Segments = append([]Segment(nil), s.Segments...)
		s.Accessories = append([]Accessory(nil), s.Accessories...)
		s.Centralizers = append([]Centralizer(nil), s.Centralizers...)
		s.Tally = append([]TallyItem(nil), s.Tally...)
		s.Stages = append([]Stage(nil), s.Stages...)
		for j := range s.Stages {
			st := &s.Stages[j]
			st.Fluids = append([]Fluid(nil), st.Fluids...)
			for k := range st.Fluids {
				st.Fluids[k].Strengths = append([]Strength(nil), st.Fluids[k].Strengths...)
			}
		}
	}
	q.Sections = append([]Section(nil), p.Sections...)
	q.Formations = append([]Formation(nil), p.Formations...)
	q.Water = append([]Water(nil), p.Water...)
	q.Pressures = append([]Pressure(nil), p.Pressures...)
	q.Temperatures = append([]Temperature(nil), p.Temperatures...)
	q.Survey = append([]Station(nil), p.Survey...)
	q.Tests = append([]Test(nil), p.Tests...)
	q.Wellhead = append([]Wellhead(nil), p.Wellhead...)
	q.BOPs = append([]BOP(nil), p.BOPs...)
	return &q
}
