package pipe

import (
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/units"
)

// TestNothingInfinite: whatever goes in, no formula hands out a value without an
// error unless it is a finite number.
func TestNothingInfinite(t *testing.T) {
	wild := []float64{0, -1, 1, 1e-300, 1e300, math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1), 0.0254, 0.2, 0.01, 5.5e8, 1e6}
	r := rand.New(rand.NewSource(3))
	x := func() float64 { return wild[r.Intn(len(wild))] }
	ok := func(what string, v float64, err error) {
		if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%s gives %v", what, v)
		}
	}
	for range 200000 {
		b := Body{units.Meters(x()), units.Meters(x()), units.Pascals(x()), units.Pascals(x())}
		if r.Intn(2) == 0 {
			b = body(7, 0.362, 80000, 100000)
		}
		s := Size{OD: b.OD, Wall: b.Wall}
		g := Grade{Yield: b.Yield, Tensile: b.Tensile, Hardening: x()}
		p, _, err := b.Collapse()
		ok("collapse", float64(p), err)
		p, _, err = b.CollapseUnder(State{units.Newtons(x()), units.Pascals(x()), units.Fraction(x()), units.Fraction(x()), Edition(r.Intn(2))})
		ok("collapse under load", float64(p), err)
		p, err = b.InternalYield(units.Fraction(x()))
		ok("internal yield", float64(p), err)
		f, err := b.BodyYield()
		ok("body yield", float64(f), err)
		p, _, _, err = b.VonMises(Load{units.Pascals(x()), units.Pascals(x()), units.Newtons(x()), units.RadPerM(x()), units.NewtonMeters(x())})
		ok("triaxial", float64(p), err)
		p, _, err = Rupture(s, g, units.Meters(x()))
		ok("rupture", float64(p), err)
		f, _, err = BentJoint(s, g, units.RadPerM(x()))
		ok("bent joint", float64(f), err)
		p, _, err = BendingStress(units.Meters(x()), units.RadPerM(x()))
		ok("bending", float64(p), err)
		p, _, err = CollapseLoad(Edition(r.Intn(2)), units.Pascals(x()), units.Pascals(x()), b.OD, b.Wall)
		ok("collapse load", float64(p), err)
		h, _, err := YieldFactor(units.Kelvins(x()), x())
		ok("heat", float64(h), err)
		p, err = Judged(units.Pascals(x()), units.Pascals(x()), units.Pascals(x()))
		ok("judged", float64(p), err)
	}
}

// TestUnloadedState: a state without load, wear or heat leaves collapse as it is,
// and in compression it stays so.
func TestUnloadedState(t *testing.T) {
	for _, s := range Sizes() {
		b := BodyOf(s, grades[5])
		plain, _, err := b.Collapse()
		if err != nil {
			t.Fatal(err)
		}
		for _, st := range []State{{}, {YieldFactor: 1}, {Axial: -1e6}, {Edition: Historical}, {Axial: -1e6, Edition: Historical}} {
			if p, _, err := b.CollapseUnder(st); err != nil || math.Abs(float64(p/plain)-1) > 1e-12 {
				t.Errorf("%s %s, %+v: %v against %v, %v", units.Size(s.OD), trimmed(s.Weight), st, p, plain, err)
			}
		}
	}
}
