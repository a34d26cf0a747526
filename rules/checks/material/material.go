// Package material holds the checks of steel and thread against what flows:
// H2S, CO2, gas, and what the pipe standard makes.
package material

import (
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// ofPipe is a check of one segment resolved against the catalogue.
func ofPipe(name string, k expr.Kind, doc string, measure func(w *well.Well, str int, p *well.Pipe) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Segment, Type: expr.Type{Kind: k}, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			c, err := w.Casing(s.String)
			if err != nil {
				return rules.From(err, s.Ref)
			}
			return measure(w, s.String, &c.Pipes[s.Segment])
		}}
}

// unlisted is the measure of a grade that isn't in the catalogue, or of none.
func unlisted(p *well.Pipe) rules.Measure {
	if well.Proprietary(p.GradeErr) {
		return rules.None(p.Plan.Grade.V + " is a proprietary grade")
	}
	return rules.From(p.GradeErr, p.Plan.Ref)
}

// partial is a check of a partial pressure inside the string of a segment.
func partial(name, doc string, of func(*well.Well, int) (well.Partial, error)) *rules.Check {
	return &rules.Check{Name: name, About: rules.Segment, Type: expr.Type{Kind: expr.Num, Dim: units.Pressure}, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			g := w.Plan.Strings[s.String].Segments[s.Segment].Grade
			return first(partialOf(of(w, s.String)), g.Ref)
		}}
}

func partialOf(x well.Partial, err error) rules.Measure {
	if err != nil {
		return rules.From(err)
	}
	return rules.Num(float64(x.Pressure), units.Pressure, x.Ref, x.Gas.Ref).Where(x.Gas.At).With(x.Gas.Note).By(x.Working)
}

// first puts a place before the others of a measure.
func first(m rules.Measure, ref place.Ref) rules.Measure {
	m.Refs = append([]place.Ref{ref}, m.Refs...)
	return m
}
