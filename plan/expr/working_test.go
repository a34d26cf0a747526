package expr_test

import (
	"math"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

func TestCheck(t *testing.T) {
	od := expr.Input{Name: "od", SI: 0.244475, Dim: units.Length, Small: true} // 9-5/8 in
	wall := expr.Input{Name: "wall", SI: 0.0119888, Dim: units.Length, Small: true}
	bore := expr.Input{Name: "bore", SI: 0.2204974, Dim: units.Length, Small: true} // by hand: 0.244475 - 0.0239776
	role := expr.Input{Name: "role", Text: "liner"}
	in := func(list ...expr.Input) []expr.Input { return list }
	off := func(x float64) expr.Input { b := bore; b.SI = x; return b }
	for _, c := range []struct {
		formula string
		inputs  []expr.Input
		result  expr.Input
		want    string
	}{
		{"od - 2 * wall", in(od, wall), bore, ""},
		{"od - 2 * wall", in(od, wall), off(0.2204974 * (1 + 5e-10)), ""},
		{"od - 2 * wall", in(od, wall), off(0.2204975), "bore = od - 2 * wall: it gives 0.2204974, the result is 0.2204975 (SI)"},
		{"od - 2 * wall", in(od, wall), off(math.NaN()), "bore = od - 2 * wall: it gives 0.2204974, the result is NaN (SI)"},
		{"od - 2 * wall", in(od, wall), off(math.Inf(1)), "bore = od - 2 * wall: it gives 0.2204974, the result is +Inf (SI)"},
		{"od - 2 * wall", in(od), bore, `bore = od - 2 * wall: column 10: nothing is called "wall"`},
		{"od", in(od, wall, od), bore, "bore = od: input od is given twice\ninput wall is not used\nit gives 0.244475, the result is 0.2204974 (SI)"},
		{"od * wall", in(od, wall), bore, "bore = od * wall: it gives an area, the result is a length"},
		{"od / (wall - wall)", in(od, wall), bore, "bore = od / (wall - wall): column 4: division by zero"},
		{"role", in(role), role, ""},
		{"role", in(role), bore, "bore = role: it gives a text, the result is a length"},
		{"role", in(role), expr.Input{Name: "role", Text: "tieback"}, `role = role: it gives "liner", the result is "tieback"`},
		{"role = 'liner'", in(role), expr.Input{Name: "lined", Text: "yes"}, ""},
		{"role = 'liner'", in(role), expr.Input{Name: "lined", Text: "no"}, `lined = role = 'liner': it gives "yes", the result is "no"`},
		{"role = 'liner'", in(role), expr.Input{Name: "lined", SI: 1}, `lined = role = 'liner': it gives "yes", the result is ""`},
	} {
		err := expr.Working{Formula: c.formula, Inputs: c.inputs, Result: c.result}.Check()
		if got := message(err); got != c.want {
			t.Errorf("%s: %q\n want %q", c.formula, got, c.want)
		}
	}
}

func message(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}
