package running

import (
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
)

// stated leaves out the places of what the plan doesn't state.
func stated(refs ...place.Ref) []place.Ref {
	var out []place.Ref
	for _, r := range refs {
		if r != 0 {
			out = append(out, r)
		}
	}
	return out
}

func show[Q ~float64](w *well.Well, x Q, d units.Dim) string {
	return units.Show(float64(x), d, w.Plan.System, false)
}

// fine shows a depth or length with a decimal more than is usual: tallies are
// measured to a hundredth.
func fine[Q ~float64](w *well.Well, x Q) string {
	u, dec := units.ShownIn(units.MDLength, w.Plan.System, false)
	return units.Decimal(u.FromSI(float64(x)), dec+1) + " " + u.Symbol
}

// over is the step that divides two inputs.
func over(a, b expr.Input, source string) expr.Working {
	return expr.Working{Formula: a.Name + " / " + b.Name, Inputs: []expr.Input{a, b},
		Result: expr.Input{Name: "part", SI: a.SI / b.SI}, Source: source}
}

// less is the step that takes an input from another.
func less(name string, a, b expr.Input, source string) expr.Working {
	return expr.Working{Formula: a.Name + " - " + b.Name, Inputs: []expr.Input{a, b},
		Result: expr.Input{Name: name, SI: a.SI - b.SI, Dim: a.Dim}, Source: source}
}
