// Package cement holds the checks of cement jobs: tops, cover, clocks,
// displacement, strength and the columns a job leaves behind.
package cement

import (
	"fmt"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// job is a stage as a check sees it.
type job struct {
	*well.Well
	str, st int
	stage   *plan.Stage
	string  *plan.String
}

func ofStage(name string, t expr.Type, doc string, measure func(j job) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Stage, Type: t, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			str := &w.Plan.Strings[s.String]
			return measure(job{w, s.String, s.Stage, &str.Stages[s.Stage], str})
		}}
}

// pumped is a fluid of a stage as a check sees it.
type pumped struct {
	job
	fl    int
	fluid *plan.Fluid
}

// cement reports whether the fluid is a slurry, not what goes ahead of one.
func (p pumped) cement() bool {
	switch p.fluid.Kind.V {
	case "spacer", "preflush", "scavenger":
		return false
	}
	return true
}

func ofFluid(name string, t expr.Type, doc string, measure func(p pumped) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Fluid, Type: t, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			str := &w.Plan.Strings[s.String]
			st := &str.Stages[s.Stage]
			return measure(pumped{job{w, s.String, s.Stage, st, str}, s.Fluid, &st.Fluids[s.Fluid]})
		}}
}

func ofZone(name string, t expr.Type, doc string, measure func(w *well.Well, str, zone int) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Zone, Type: t, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure { return measure(w, s.String, s.Zone) }}
}

func md(name string, x units.MD, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: units.MDLength, Ref: ref}
}

func input[Q ~float64](name string, x Q, d units.Dim, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: d, Ref: ref}
}

// less is the step a - b.
func less(result string, a, b expr.Input, source string) expr.Working {
	return expr.Working{Formula: a.Name + " - " + b.Name, Inputs: []expr.Input{a, b},
		Result: expr.Input{Name: result, SI: a.SI - b.SI, Dim: a.Dim}, Source: source}
}

func depth(w *well.Well, x units.MD) string {
	return units.Show(float64(x), units.MDLength, w.Plan.System, false)
}

func volume(w *well.Well, v units.CubicMeters) string {
	return units.Show(float64(v), units.Volume, w.Plan.System, false)
}

// how says what a top of cement rests on.
func how(s well.Sheath) string {
	if s.ByVolume {
		return "top of cement by volume, enlargement counted"
	}
	return "top of cement as stated, not worked out from volumes"
}

// stated is a check of a number a record states.
func stated[Q ~float64](v plan.Val[Q], d units.Dim, ref place.Ref, format string, args ...any) rules.Measure {
	if v.Known() {
		return rules.Num(float64(v.V), d, v.Ref)
	}
	return rules.Lacking([]place.Ref{ref}, expr.Lack{Input: fmt.Sprintf(format, args...), Ref: ref})
}
