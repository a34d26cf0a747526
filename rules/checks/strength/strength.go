// Package strength measures what strings stand: design factors of every load
// case, compression at the wellhead, buckling, and stated ratings beside those
// computed. The loads are those of package well.
package strength

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

var (
	number = expr.Type{Kind: expr.Num, Dim: units.None}
	truth  = expr.Type{Kind: expr.Truth}
)

// factor is a check of the least design factor of a load case, over every
// judged place of the string: each end of each segment, each change outside
// and inside, survey stations, and every 30 m between.
func factor(name, doc string) *rules.Check {
	return &rules.Check{Name: name, About: rules.String, Type: number, NotNegative: true,
		Doc: "Least design factor, rating over load, over every judged place of the string. " + doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			r, err := w.Strength(s.String, name)
			if err != nil {
				return rules.From(err, s.Ref)
			}
			return least(r, s)
		}}
}

// least dresses the least factor of a result.
func least(r *well.StrengthResult, s rules.Subject) rules.Measure {
	if r.Least == nil {
		return rules.Measure{Unloaded: "no load acts: the other side holds at least as much", Refs: append(r.Refs, s.Ref)}
	}
	l := r.Least
	m := rules.Num(l.Factor, units.None, append(r.Refs, s.Ref)...).Where(l.At).With(note(r)).By(r.Working...)
	m.Gaps = r.Gaps
	return m
}

func note(r *well.StrengthResult) string {
	l := r.Least
	text := l.Label + ", " + l.From
	if r.Note != "" {
		text += "; " + r.Note
	}
	return text
}
