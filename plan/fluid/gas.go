package fluid

import (
	"math"

	"spudgate/plan/units"
)

// Atmosphere is the standard atmosphere, what gauge pressure leaves out.
const Atmosphere units.Pascals = 101325

// Constants of the gas law: that of gases (SI, exact since 2019), and the molar
// mass of air, kg/mol, as gas engineering rounds it; with it R/M is the
// handbook's 53.34 ft lbf/(lb R).
const (
	gasConstant = 8.31446261815324
	molarAir    = 0.02897
)

// Kelvin for each degree Rankine.
const rankine = 5.0 / 9

// LinearGas is the pressure at the end of a gas column of constant gradient:
// p + gradient (to - from), down or up. It may come out below zero, which says
// that the assumption has no meaning there. Domain: gradient not negative.
func LinearGas(p units.Pascals, from, to units.TVD, gradient PaPerM) (units.Pascals, error) {
	return answer[units.Pascals]("gas column of constant gradient", gradient >= 0, "the gradient must not be negative", float64(p)+float64(gradient)*float64(to-from))
}

// UniformGas is the pressure at the end of a gas column of one temperature and
// one z: p exp(M g h/(z R T)), gauge in and out. Field form: exp(SG h/(53.34 z T)).
// Domain: absolute pressure, gravity, temperature and z above zero.
func UniformGas(p units.Pascals, from, to units.TVD, gravity units.Fraction, t units.Kelvins, z units.Fraction) (units.Pascals, error) {
	abs := float64(p + Atmosphere)
	lift := molarAir * float64(gravity) * units.G * float64(to-from) / (float64(z) * gasConstant * float64(t))
	return answer[units.Pascals]("gas column", abs > 0 && gravity > 0 && t > 0 && z > 0, "absolute pressure, gravity, temperature and z must be above zero",
		abs*math.Exp(lift)-float64(Atmosphere))
}

// RealGas is a hydrocarbon gas in a hole whose temperature is known by depth.
type RealGas struct {
	Gravity     units.Fraction // to air
	Temperature func(units.TVD) (units.Kelvins, error)
}

// marchStep is the greatest step of Column, m: z and T vary so slowly that a
// finer one changes no pressure by 1e-9 of itself.
const marchStep = 50.0

// Column is the pressure at the end of a column of the gas, gauge in and out:
// dp/dz = M g p/(z R T) marched by fourth-order Runge-Kutta on ln p, up or down,
// z by Z at each step. Errors: those of Z and of the temperature.
func (g RealGas) Column(p units.Pascals, from, to units.TVD) (units.Pascals, error) {
	const name = "real gas column"
	abs := float64(p + Atmosphere)
	if !(abs > 0) || !finite(abs, float64(from), float64(to)) {
		return 0, outside(name, "the absolute pressure must be above zero and the depths finite")
	}
	n := int(math.Ceil(math.Abs(float64(to-from)) / marchStep))
	if n > 1e5 {
		return 0, outside(name, "the column is higher than any well")
	}
	h := float64(to-from) / float64(max(n, 1))
	y := math.Log(abs)
	for i := range n {
		var err error
		if y, err = g.step(float64(from)+float64(i)*h, y, h); err != nil {
			return 0, err
		}
	}
	return answer[units.Pascals](name, true, "", math.Exp(y)-float64(Atmosphere))
}

// step goes from ln p = y at depth x to that at x + h.
func (g RealGas) step(x, y, h float64) (float64, error) {
	var err error
	slope := func(x, y float64) float64 {
		k, e := g.slope(x, y)
		if err == nil {
			err = e
		}
		return k
	}
	k1 := slope(x, y)
	k2 := slope(x+h/2, y+h/2*k1)
	k3 := slope(x+h/2, y+h/2*k2)
	k4 := slope(x+h, y+h*k3)
	return y + h/6*(k1+2*k2+2*k3+k4), err
}

// slope is d(ln p)/dz at a depth.
func (g RealGas) slope(x, y float64) (float64, error) {
	t, err := g.Temperature(units.TVD(x))
	if err != nil {
		return 0, err
	}
	z, err := g.Z(units.Pascals(math.Exp(y))-Atmosphere, t)
	return molarAir * float64(g.Gravity) * units.G / (float64(z) * gasConstant * float64(t)), err
}

// Z is the compressibility factor at a gauge pressure and a temperature, by
// ZFactor at the pseudo-critical point of Sutton (SPE 14265, 1985):
// ppc = 756.8 - 131.0 g - 3.6 g^2 psia, Tpc = 169.2 + 349.5 g - 74.0 g^2 degR.
// Domain: gravity 0.55 (methane) to 1.68, the end of Sutton's data; that of
// ZFactor.
func (g RealGas) Z(p units.Pascals, t units.Kelvins) (units.Fraction, error) {
	sg := float64(g.Gravity)
	if !(sg >= 0.55 && sg <= 1.68) {
		return 0, outside("pseudo-critical point", "gas gravity %.3g lies outside 0.55 to 1.68", sg)
	}
	pc := (756.8 - 131.0*sg - 3.6*sg*sg) * units.Psi
	tc := (169.2 + 349.5*sg - 74.0*sg*sg) * rankine
	return ZFactor(units.Fraction(float64(p+Atmosphere)/pc), units.Fraction(float64(t)/tc))
}

// dak are the coefficients of Dranchuk and Abou-Kassem, A1 to A11.
var dak = [12]float64{0, 0.3265, -1.0700, -0.5339, 0.01569, -0.05165, 0.5475, -0.7361, 0.1844, 0.1056, 0.6134, 0.7210}

// ZFactor is the compressibility factor at a pseudo-reduced pressure and
// temperature by P. M. Dranchuk and J. H. Abou-Kassem (J. Can. Pet. Tech.,
// July-September 1975), solved for the reduced density. Domain: Tpr 1.05 to 3,
// ppr 0 to 30 (fitted from 0.2 up; below it the equation runs into the ideal
// gas, which it equals at 0).
func ZFactor(ppr, tpr units.Fraction) (units.Fraction, error) {
	p, t := float64(ppr), float64(tpr)
	if !(p >= 0 && p < 30 && t >= 1.05 && t <= 3) {
		return 0, outside("compressibility factor", "reduced pressure %.3g and temperature %.3g lie outside 0 to 30 and 1.05 to 3", p, t)
	}
	if p == 0 {
		return 1, nil
	}
	c := isotherm(t)
	want := 0.27 * p / t // z times reduced density
	lo, hi := 0.0, 1.0
	for f, _ := c.at(hi); f < want; f, _ = c.at(hi) {
		lo, hi = hi, 2*hi
	}
	r := min(want, hi)
	for range 100 {
		f, slope := c.at(r)
		if f > want {
			hi = r
		} else {
			lo = r
		}
		next := r - (f-want)/slope
		if !(next > lo && next < hi) { // Newton left the bracket: halve it
			next = (lo + hi) / 2
		}
		if math.Abs(next-r) <= 1e-14*r {
			return units.Fraction(want / next), nil
		}
		r = next
	}
	return units.Fraction(want / r), nil
}

// curve is the equation of state at one reduced temperature.
type curve struct{ c1, c2, c5, ce float64 }

func isotherm(t float64) curve {
	a, t3 := &dak, t*t*t
	return curve{
		c1: a[1] + a[2]/t + a[3]/t3 + a[4]/(t3*t) + a[5]/(t3*t*t),
		c2: a[6] + a[7]/t + a[8]/(t*t),
		c5: -a[9] * (a[7]/t + a[8]/(t*t)),
		ce: a[10] / t3,
	}
}

// at is z r at reduced density r, and its slope.
func (c curve) at(r float64) (f, slope float64) {
	a := dak[11]
	r2 := r * r
	r5 := r2 * r2 * r
	e := math.Exp(-a * r2)
	z := 1 + c.c1*r + c.c2*r2 + c.c5*r5 + c.ce*r2*(1+a*r2)*e
	dz := c.c1 + 2*c.c2*r + 5*c.c5*r2*r2 + 2*c.ce*r*e*(1+a*r2-a*a*r2*r2)
	return z * r, z + r*dz
}

// GasTop is the pressure at the top of a gas column of which two models are
// told apart.
type GasTop struct {
	Pressure     units.Pascals // the higher of the two
	Linear, Real units.Pascals
	ByReal       bool // the real gas gives the higher
}

// GasToTop is the pressure at the top of a gas column known at its bottom: the
// higher of a constant gradient and the real gas. Errors: those of both.
func GasToTop(p units.Pascals, bottom, top units.TVD, gradient PaPerM, gas RealGas) (GasTop, error) {
	linear, err := LinearGas(p, bottom, top, gradient)
	if err != nil {
		return GasTop{}, err
	}
	march, err := gas.Column(p, bottom, top)
	if err != nil {
		return GasTop{}, err
	}
	return GasTop{max(linear, march), linear, march, march > linear}, nil
}
