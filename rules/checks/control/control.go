// Package control holds the checks of well control: anticipated surface
// pressures, kick tolerance, the blowout preventers and what they stand on.
package control

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// stack is a check of one stated number of a BOP; what names it where it's
// missing.
func stack[Q ~float64 | ~int](name, what, doc string, d units.Dim, get func(*plan.BOP) plan.Val[Q]) *rules.Check {
	return &rules.Check{Name: name, About: rules.BOP, Type: rules.NumType(d), Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			b := &w.Plan.BOPs[s.BOP]
			v := get(b)
			if !v.Known() {
				return rules.From(well.Lack(b.Ref, "%s of %s", what, b.Name.V))
			}
			return rules.Num(float64(v.V), d, v.Ref)
		}}
}

func stress(name string, p units.Pascals, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(p), Dim: units.Pressure, Ref: ref}
}
