package fluid

import (
	"math"
	"testing"

	"spudgate/plan/units"
)

// TestZPublished holds the correlation against values printed to seven digits
// for Dranchuk and Abou-Kassem in the documentation of the R package zFactor
// (comparison of correlations, Beggs and Brill page).
func TestZPublished(t *testing.T) {
	ppr := []units.Fraction{0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5}
	for tpr, row := range map[units.Fraction][]float64{
		1.3: {0.9203019, 0.7543694, 0.6377871, 0.6339357, 0.6898314, 0.7663247, 0.8499523},
		1.5: {0.9509373, 0.8593144, 0.7929993, 0.7710525, 0.7896224, 0.8331893, 0.8904317},
		1.7: {0.9681353, 0.9128087, 0.8753784, 0.8619509, 0.8721085, 0.9003962, 0.9409634},
		2.0: {0.9824731, 0.9551087, 0.9400752, 0.9385273, 0.9497137, 0.9715388, 1.0015560},
	} {
		for i, want := range row {
			near(t, "z", float64(must(ZFactor(ppr[i], tpr))), want, 1e-7)
		}
	}
}

// hall is z by K. R. Hall and L. Yarborough (Oil and Gas Journal, June 1973),
// another equation for the same chart.
func hall(p, tpr float64) float64 {
	t := 1 / tpr
	a := 0.06125 * t * math.Exp(-1.2*(1-t)*(1-t))
	lo, hi := 1e-12, 0.99
	for range 200 {
		y := (lo + hi) / 2
		f := -a*p + (y+y*y+y*y*y-y*y*y*y)/math.Pow(1-y, 3) - (14.76*t-9.76*t*t+4.58*t*t*t)*y*y +
			(90.7*t-242.2*t*t+42.4*t*t*t)*math.Pow(y, 2.18+2.82*t)
		if f > 0 {
			hi = y
		} else {
			lo = y
		}
	}
	return a * p / lo
}

func TestZAnotherRoute(t *testing.T) {
	for tpr := 1.2; tpr <= 2.5; tpr += 0.1 {
		for ppr := 0.2; ppr < 29; ppr += 0.4 {
			want := hall(ppr, tpr)
			near(t, "z", float64(must(ZFactor(units.Fraction(ppr), units.Fraction(tpr)))), want, 0.025*want)
		}
	}
}

func TestZDomain(t *testing.T) {
	for _, c := range [][2]units.Fraction{{-0.1, 1.5}, {30, 1.5}, {1, 1.04}, {1, 3.01}, {units.Fraction(math.NaN()), 2}, {1, units.Fraction(math.NaN())}} {
		_, err := ZFactor(c[0], c[1])
		refused(t, "z", err)
	}
	near(t, "no pressure", float64(must(ZFactor(0, 1.5))), 1, 0)
	near(t, "next to none", float64(must(ZFactor(1e-9, 1.5))), 1, 1e-8)
	for ppr := units.Fraction(0.01); ppr < 30; ppr += 0.05 {
		for tpr := units.Fraction(1.05); tpr <= 3; tpr += 0.01 {
			if z := must(ZFactor(ppr, tpr)); !(z > 0.1 && z < 4) {
				t.Fatalf("z(%v, %v) = %v", ppr, tpr, z)
			}
		}
	}
}

// warm is 70 degF at surface and 1.5 degF/100 ft.
func warm(z units.TVD) (units.Kelvins, error) {
	return units.Kelvins((70 + 459.67 + 1.5*float64(z/tvd)/100) * rankine), nil
}

// TestGasMarch: down and up again; against the closed form where temperature
// and z are all but constant; step by step against halves.
func TestGasMarch(t *testing.T) {
	g := RealGas{0.6, warm}
	down := must(g.Column(300*psi, 0, 15000*tvd))
	near(t, "there and back", float64(must(g.Column(down, 15000*tvd, 0))/psi), 300, 1e-6)
	half := must(g.Column(300*psi, 0, 7500*tvd))
	near(t, "in two parts", float64(must(g.Column(half, 7500*tvd, 15000*tvd))/psi), float64(down/psi), 1e-6)
	if same := must(g.Column(300*psi, 500, 500)); math.Abs(float64(same-300*psi)) > 1e-6 {
		t.Errorf("no height changes %v", same/psi)
	}
	// Low pressure over a short height: z and T hardly change.
	mid, err := warm(50 * tvd)
	if err != nil {
		t.Fatal(err)
	}
	z := must(g.Z(100*psi, mid))
	near(t, "closed form", float64(must(g.Column(100*psi, 0, 100*tvd))/psi), float64(must(UniformGas(100*psi, 0, 100*tvd, 0.6, mid, z))/psi), 1e-4)
}

// TestGasHeavy: a heavier gas loses more, and a gas of zero gauge pressure
// below still has its atmosphere.
func TestGasHeavy(t *testing.T) {
	light, heavy := RealGas{0.6, warm}, RealGas{0.8, warm}
	if a, b := must(light.Column(5000*psi, 10000*tvd, 0)), must(heavy.Column(5000*psi, 10000*tvd, 0)); a <= b {
		t.Errorf("light gas gives %v, heavy %v", a/psi, b/psi)
	}
	if p := must(light.Column(0, 10000*tvd, 0)); !(p < 0 && p > -Atmosphere) {
		t.Errorf("an atmosphere thins out to %v", p)
	}
	for _, g := range []RealGas{{0.5, warm}, {1.7, warm}} {
		_, err := g.Column(5000*psi, 1000, 0)
		refused(t, "gravity", err)
	}
	_, err := light.Column(-Atmosphere, 1000, 0)
	refused(t, "vacuum", err)
}

// TestGasToTop: the higher of both at the top. A deep column at high pressure is
// denser than 0.10 psi/ft, a shallow one lighter.
func TestGasToTop(t *testing.T) {
	g := RealGas{0.6, warm}
	for _, c := range []struct {
		p    units.Pascals
		z    units.TVD
		real bool
	}{{12000 * psi, 15000 * tvd, false}, {2000 * psi, 4000 * tvd, true}} {
		top := must(GasToTop(c.p, c.z, 0, 0.10*psft, g))
		if top.ByReal != c.real || top.Pressure != max(top.Linear, top.Real) {
			t.Errorf("%v psi: %+v", c.p/psi, top)
		}
		near(t, "linear", float64(top.Linear/psi), float64(c.p/psi)-0.10*float64(c.z/tvd), 1e-6)
	}
}

// TestFriction: the field forms, laminar Bingham (1000, 200 and 1500,
// 225) within the rounding of their constants, and the power law by its own
// slot formula.
func TestFriction(t *testing.T) {
	v := 2.0 // ft/s
	slot := must(plastic.Friction(Passage{8.5 * in, 4.5 * in}, ppg(10.5), units.MPerS(v)*fps))
	near(t, "Bingham annulus", float64(slot.Loss/psft), 35*v/(1000*16)+6.0/(200*4), 3e-3*0.012)
	pipe := must(plastic.Friction(Passage{4 * in, 0}, ppg(10.5), units.MPerS(v)*fps))
	near(t, "Bingham pipe", float64(pipe.Loss/psft), 35*v/(1500*16)+6.0/(225*4), 1e-2*0.0096)
	m := must(power.Friction(Passage{8.5 * in, 6.5 * in}, 10, units.MPerS(v)*fps))
	d := 2 * units.Inch
	h := d / 2
	near(t, "power law", float64(m.Loss), 2*0.020/h*math.Pow(2*v*ft*(2+1/0.8)/h, 0.8), 1e-9)
	near(t, "Newtonian", float64(must(Bingham(1e-3, 0).Friction(Passage{0.1, 0}, 1000, 0.01)).Loss), 32*1e-3*0.01/0.01, 1e-12)
	if slot.Turbulent != 0 || pipe.Turbulent != 0 || m.Turbulent != 0 {
		t.Error("these flows are laminar")
	}
}

// TestFrictionRises: more speed never costs less, and nothing jumps.
func TestFrictionRises(t *testing.T) {
	for _, r := range []Rheology{plastic, power, {5 * gel, 0.5, 0.6}, {0, 1e-3, 1}, Bingham(0.01, 15*gel)} {
		for _, p := range []Passage{{8.5 * in, 5 * in}, {4 * in, 0}} {
			last := must(r.Friction(p, 1500, 0.0005)).Loss
			for v := 0.0005005; v < 8; v *= 1.001 {
				f := must(r.Friction(p, 1500, units.MPerS(v)))
				if f.Loss < last || f.Loss > last*1.02 {
					t.Fatalf("%+v in %+v at %v m/s: %v after %v", r, p, v, f.Loss, last)
				}
				last = f.Loss
			}
			if f := must(r.Friction(p, 1500, 8)); f.Turbulent != 1 {
				t.Errorf("%+v in %+v isn't turbulent at 8 m/s: Re %v", r, p, f.Reynolds)
			}
		}
	}
	if f := must(plastic.Friction(Passage{0.2, 0.1}, 1500, 0)); f.Loss <= 0 {
		t.Error("a yield holds at rest")
	}
}

// TestDodgeMetzner: at n = 1 it is near Blasius in the range of that (von Karman
// and Nikuradse's law is within 3 %), and every factor solves the equation.
func TestDodgeMetzner(t *testing.T) {
	for _, re := range []units.Fraction{5000, 1e4, 3e4, 1e5} {
		b := float64(must(Blasius(re)))
		near(t, "near Blasius", float64(must(DodgeMetzner(re, 1))), b, 0.03*b)
	}
	for _, n := range []units.Fraction{0.2, 0.5, 0.8, 1} {
		f := float64(must(DodgeMetzner(2e4, n)))
		m := float64(n)
		near(t, "its own equation", 1/math.Sqrt(f), 4/math.Pow(m, 0.75)*math.Log10(2e4*math.Pow(f, 1-m/2))-0.395/math.Pow(m, 1.2), 1e-9)
	}
	_, err := DodgeMetzner(999, 1)
	refused(t, "slow", err)
	_, err = Blasius(2e5)
	refused(t, "fast", err)
	_, err = plastic.Friction(Passage{1, 2}, 1000, 1)
	refused(t, "no gap", err)
	_, err = FannBingham(30, 40)
	refused(t, "dial", err)
	_, err = FannPowerLaw(90, 40)
	refused(t, "dial", err)
}

// TestSurgeAdds: 10.75 in pipe going into a 14.75 in hole at 110 ft/min. The mud
// pushed out moves at 2.08 ft/s and clings at 0.45 of 1.83 ft/s; the two add to
// 2.90 ft/s, while a source that takes them off each other calls the run safe.
func TestSurgeAdds(t *testing.T) {
	v := must(SurgeVelocity(110*fpm, 0.45, 14.75*in, 10.75*in, 0))
	near(t, "velocity", float64(v/fps), 2.077+0.45*110/60, 0.001)
}

func TestCling(t *testing.T) {
	near(t, "thin gap", float64(must(ClingLaminar(0.99999999))), 0.5, 1e-8)
	for _, a := range []units.Fraction{0.9989, 0.999, 0.99901, 0.9991} { // series against closed form
		l, x := math.Log(float64(a)), float64(a)
		near(t, "joined", float64(must(ClingLaminar(a))), (x*x-2*x*x*l-1)/(2*(1-x*x)*l), 2e-9)
	}
	for a := units.Fraction(0.05); a < 1; a += 0.05 {
		if lam, turb := must(ClingLaminar(a)), must(ClingTurbulent(a)); !(lam > 0 && lam < 0.5 && turb >= 0 && turb < 0.5) {
			t.Errorf("clinging at %v: %v, %v", a, lam, turb)
		}
	}
	for _, a := range []units.Fraction{0, 1, -1, units.Fraction(math.NaN())} {
		_, err := ClingLaminar(a)
		refused(t, "laminar", err)
		_, err = ClingTurbulent(a)
		refused(t, "turbulent", err)
	}
	_, err := SurgeVelocity(1, 0.4, 0.2, 0.3, 0)
	refused(t, "pipe in no hole", err)
}

func BenchmarkGasMarch(b *testing.B) {
	g := RealGas{0.6, warm}
	for range b.N {
		if _, err := g.Column(9000*psi, 18000*tvd, 0); err != nil {
			b.Fatal(err)
		}
	}
}
