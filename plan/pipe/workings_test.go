package pipe

import (
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// holds evaluates every step of a working from its formula and compares it with
// what the Go function gave, to 1e-12; a step that takes a result of the same
// working must take its value.
func holds(t *testing.T, what string, steps ...expr.Working) {
	t.Helper()
	if len(steps) == 0 {
		t.Fatalf("%s: no working", what)
	}
	results := map[string]float64{}
	for _, w := range steps {
		values := map[string]expr.Value{}
		for _, in := range w.Inputs {
			values[in.Name] = expr.Number(in.SI, in.Dim)
			if r, ok := results[in.Name]; ok && r != in.SI {
				t.Fatalf("%s: %s is %v here, but was worked out as %v", what, in.Name, in.SI, r)
			}
		}
		got := evaluate(t, what, w, values)
		if math.Abs(got-w.Result.SI) > 1e-12*math.Max(math.Abs(w.Result.SI), scale(w)) {
			t.Fatalf("%s: %s = %s gives %v, the function %v", what, w.Result.Name, w.Formula, got, w.Result.SI)
		}
		if w.Source == "" {
			t.Fatalf("%s: %s has no source", what, w.Result.Name)
		}
		results[w.Result.Name] = w.Result.SI
	}
}

// scale is the size of what a formula adds up: a difference of two great
// pressures cannot be held to 1e-12 of itself.
func scale(w expr.Working) float64 {
	most := 0.0
	for _, in := range w.Inputs {
		if in.Dim == w.Result.Dim {
			most = math.Max(most, math.Abs(in.SI))
		}
	}
	return most
}

func evaluate(t *testing.T, what string, w expr.Working, values map[string]expr.Value) float64 {
	t.Helper()
	e, err := expr.Compile(w.Formula, func(name string) (expr.Type, bool) {
		v, ok := values[name]
		return expr.Type{Kind: v.Kind, Dim: v.Dim}, ok
	})
	if err != nil {
		t.Fatalf("%s: %q: %v", what, w.Formula, err)
	}
	if len(e.Names()) != len(values) {
		t.Fatalf("%s: %q uses %v of %v", what, w.Formula, e.Names(), values)
	}
	if d, ok := e.Type().Dim.Join(w.Result.Dim); !ok || d != w.Result.Dim {
		t.Fatalf("%s: %q has dimension %v, the result %v", what, w.Formula, e.Type().Dim, w.Result.Dim)
	}
	r, err := e.Eval(func(name string) expr.Result { return expr.Known(values[name]) })
	if err != nil || !r.Known {
		t.Fatalf("%s: %q: %v %v", what, w.Formula, err, r.Lacks)
	}
	return r.Value.SI
}

// TestWorkingsOfRatings: every size in every grade with every connection.
func TestWorkingsOfRatings(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 400 {
		s, g := Sizes()[r.Intn(len(Sizes()))], Grades()[r.Intn(len(Grades()))]
		c, k := Connection(r.Intn(4)), Coupling{Special: r.Intn(2) == 0}
		what := units.Size(s.OD) + " " + trimmed(s.Weight) + " " + g.Name + " " + c.String()
		p, err := RateSize(s, g, c, k)
		if err != nil {
			t.Fatal(what, err)
		}
		for _, one := range []Rating[units.Pascals]{p.Collapse, p.BodyInternal, p.CouplingInternal, p.Leak, p.Internal} {
			holdsRating(t, what, one)
		}
		holdsRating(t, what, p.BodyYield)
		holdsRating(t, what, p.Joint)
		holds(t, what, p.MillTestWorking)
		if p.Torque.Working != nil {
			holds(t, what, p.Torque.Working...)
		}
	}
}

func holdsRating[Q ~float64](t *testing.T, what string, r Rating[Q]) {
	t.Helper()
	if !r.Known() {
		if r.Published != 0 || r.Exact != 0 || r.Working != nil {
			t.Errorf("%s: missing (%s) and yet %v", what, r.Missing, r.Published)
		}
		return
	}
	holds(t, what, r.Working...)
	holds(t, what, r.Precise...)
	if last := r.Working[len(r.Working)-1]; Q(last.Result.SI) != r.Published || last.Check() != nil {
		t.Errorf("%s: working ends at %v, published %v: %v", what, last.Result.SI, r.Published, last.Check())
	}
	if last := r.Precise[len(r.Precise)-1]; Q(last.Result.SI) != r.Exact {
		t.Errorf("%s: working ends at %v, exact %v", what, last.Result.SI, r.Exact)
	}
	if off := math.Abs(float64(r.Published/r.Exact) - 1); off > 0.02 {
		t.Errorf("%s: faces differ by %.1f %%", what, off*100)
	}
}

// randomBody is a pipe of any wall and strength the formulas serve.
func randomBody(r *rand.Rand) (Size, Grade, Body) {
	s, g := Sizes()[r.Intn(len(Sizes()))], Grades()[r.Intn(len(Grades()))]
	s.Wall *= units.Meters(0.5 + r.Float64())
	return s, g, BodyOf(s, g)
}

// TestWorkingsUnderLoad: loads at random; the fast functions and the last step
// agree.
func TestWorkingsUnderLoad(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	seen := map[Regime]bool{}
	for range 500 {
		s, g, b := randomBody(r)
		st := State{Axial: units.Newtons(between(-0.3, 0.25) * float64(b.Yield) * b.Area()), Inside: units.Pascals(between(0, 0.2) * float64(b.Yield)),
			Wear: units.Fraction(between(0, 0.15)), YieldFactor: units.Fraction(between(0.9, 1)), Edition: Edition(r.Intn(2))}
		p, regime, err := b.CollapseUnder(st)
		if err != nil {
			t.Fatal(err)
		}
		seen[regime] = true
		steps, err := b.CollapseUnderWorking(st)
		if err != nil {
			t.Fatal(err)
		}
		holds(t, "collapse under load", steps...)
		if last := steps[len(steps)-1].Result.SI; math.Abs(last/float64(p)-1) > 1e-12 {
			t.Fatalf("collapse under load: %v, its working %v", p, last)
		}
		holdsLoads(t, b, st, between)
		_, heat, err := YieldFactor(units.Kelvins(between(270, 450)), UsualLoss)
		if err != nil {
			t.Fatal(err)
		}
		holds(t, "heat", heat)
		if _, steps, err = Rupture(s, g, s.Wall/units.Meters(between(8, 20))); err != nil {
			t.Fatal(err)
		}
		holds(t, "rupture", steps...)
		_, bend, err := BendingStress(s.OD, units.RadPerM(between(0, 20)*perCurve))
		if err != nil {
			t.Fatal(err)
		}
		holds(t, "bending", bend)
		if _, joint, err := BentJoint(s, g, units.RadPerM(between(0, 6)*perCurve)); err == nil {
			holds(t, "bent joint", joint)
		}
	}
	if len(seen) != 4 {
		t.Errorf("regimes tried: %v", seen)
	}
}

func holdsLoads(t *testing.T, b Body, st State, between func(lo, hi float64) float64) {
	t.Helper()
	_, load, err := CollapseLoad(st.Edition, units.Pascals(between(0, 9e7)), st.Inside, b.OD, b.Wall)
	if err != nil {
		t.Fatal(err)
	}
	holds(t, "collapse load", load)
	judged, err := JudgedWorking(units.Pascals(between(1e7, 2e7)), 2e7, 3e7, units.Pressure)
	if err != nil {
		t.Fatal(err)
	}
	holds(t, "judged", judged)
	l := Load{Inside: st.Inside, Outside: units.Pascals(between(0, 9e7)), Axial: st.Axial, Bend: units.RadPerM(between(0, 10) * perCurve), Torque: units.NewtonMeters(between(0, 3e4))}
	points, err := b.VonMisesWorking(l)
	if err != nil {
		t.Fatal(err)
	}
	worst := units.Pascals(0)
	for _, p := range points {
		holds(t, "triaxial", p.Working...)
		worst = max(worst, p.Stress)
	}
	if v, _, _, err := b.VonMises(l); err != nil || v != worst {
		t.Errorf("triaxial: %v, its working %v, %v", v, worst, err)
	}
}
