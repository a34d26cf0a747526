package fluid

import (
	"math"

	"spudgate/plan/units"
)

// Rheology is a fluid whose shear stress is Yield + K rate^N
// (Herschel-Bulkley). N = 1 makes it Bingham, with K the plastic viscosity;
// Yield = 0 makes it a power law.
type Rheology struct {
	Yield units.Pascals
	K     float64 // Pa s^N
	N     units.Fraction
}

// Bingham is the fluid of a plastic viscosity and a yield point.
func Bingham(plastic units.PascalSeconds, yield units.Pascals) Rheology {
	return Rheology{yield, float64(plastic), 1}
}

// PowerLaw is the fluid of a consistency, Pa s^n, and an index.
func PowerLaw(k float64, n units.Fraction) Rheology { return Rheology{0, k, n} }

// dialYield is what the trade reads a degree of the viscometer's dial as, for a
// yield point: 1 lbf/100 ft2.
const dialYield = units.Lbf / (100 * units.Foot * units.Foot)

// FannBingham is the Bingham fluid of two dial readings: PV = t600 - t300 in cP,
// YP = t300 - PV in lbf/100 ft2. Domain: 0 < t600 - t300 <= t300.
func FannBingham(t600, t300 float64) (Rheology, error) {
	pv := t600 - t300
	if !(pv > 0 && pv <= t300) || !finite(t600, t300) {
		return Rheology{}, outside("dial readings", "the reading at 600 must lie above that at 300 and be at most twice that")
	}
	return Bingham(units.PascalSeconds(pv*1e-3), units.Pascals((t300-pv)*dialYield)), nil
}

// FannPowerLaw is the power law of two dial readings: n = log2(t600/t300),
// K = 510 t300/511^n equivalent cP. Domain: 0 < t300 < t600 <= 2 t300.
func FannPowerLaw(t600, t300 float64) (Rheology, error) {
	n := math.Log2(t600 / t300)
	if !(t300 > 0 && n > 0 && n <= 1) || !finite(t600) {
		return Rheology{}, outside("dial readings", "the reading at 600 must lie above that at 300 and be at most twice that")
	}
	return PowerLaw(0.510*t300/math.Pow(511, n), units.Fraction(n)), nil
}

// Passage is what a fluid flows through: an annulus, or a bore with Inner 0.
type Passage struct{ Outer, Inner units.Meters }

// gap is the hydraulic diameter, m.
func (p Passage) gap() float64 { return float64(p.Outer - p.Inner) }

// equivalent is the diameter of the pipe that a turbulent flow sees: that of
// the slot form of an annulus, sqrt(2/3) of its hydraulic diameter.
func (p Passage) equivalent() float64 {
	if p.Inner == 0 {
		return float64(p.Outer)
	}
	return math.Sqrt(2.0/3) * p.gap()
}

// Velocity is the mean velocity of a flow, q/A. Field form:
// 24.51 gpm/(D^2 - d^2) ft/min. Domain: outer above inner, rate not negative.
func (p Passage) Velocity(q units.M3PerS) (units.MPerS, error) {
	area, err := Capacity(p.Outer, p.Inner)
	if err != nil {
		return 0, err
	}
	return answer[units.MPerS]("velocity", q >= 0, "the rate must not be negative", float64(q)/float64(area))
}

// Friction is the flow of a fluid through a passage.
type Friction struct {
	Loss     PaPerM // along the hole
	Reynolds units.Fraction
	Factor   units.Fraction // Fanning
	// Turbulent is the share of turbulence: 0 laminar, 1 turbulent, between in
	// transition.
	Turbulent units.Fraction
}

// Friction is the pressure loss of a fluid moving at a mean velocity. Laminar:
// narrow slot or pipe, wall stress as in API RP 13D; for a Bingham fluid 48 mu
// v/d^2 + 6 ty/d (annulus), 32 mu v/d^2 + 16/3 ty/d (pipe). The Reynolds number
// is that which makes the laminar factor 16/Re. Turbulent: Dodge and Metzner
// (1959) on the Reynolds number of the fluid without its yield, but no less than
// laminar. Turbulence begins at Re 3470 - 1370 n and is whole at 4270 - 1370 n
// (2100 and 2900 for n = 1); between, the factor is joined linearly, a choice of
// ours. Domain: outer above inner, K above zero, 0.1 <= n <= 1, yield, density
// and velocity not negative, Reynolds number up to 10^8.
func (r Rheology) Friction(p Passage, rho units.KgPerM3, v units.MPerS) (Friction, error) {
	const name = "friction"
	if !(p.Outer > p.Inner && p.Inner >= 0 && r.K > 0 && r.N >= 0.1 && r.N <= 1 && r.Yield >= 0 && rho >= 0 && v >= 0) ||
		!finite(float64(p.Outer), r.K, float64(r.Yield), float64(rho), float64(v)) {
		return Friction{}, outside(name, "needs a passage with a gap, K above zero, n from 0.1 to 1; yield, density and velocity not negative")
	}
	lam := r.laminar(p, float64(v))
	inertia := 2 * float64(rho) * float64(v) * float64(v) / p.equivalent() // loss at factor 1
	if lam == 0 || inertia == 0 {
		return Friction{Loss: PaPerM(lam)}, nil
	}
	re := 16 * inertia / lam
	f, share := 16/re, turbulence(re, float64(r.N))
	if share > 0 {
		plain := r
		plain.Yield = 0
		turb, err := DodgeMetzner(units.Fraction(16*inertia/plain.laminar(p, float64(v))), r.N)
		if err != nil {
			return Friction{}, err
		}
		f += share * (max(float64(turb), f) - f)
	}
	loss, err := answer[PaPerM](name, true, "", f*inertia)
	return Friction{loss, units.Fraction(re), units.Fraction(f), units.Fraction(share)}, err
}

// laminar is the loss of laminar flow, 4 tau_w/d, Pa/m.
func (r Rheology) laminar(p Passage, v float64) float64 {
	n, d := float64(r.N), p.gap()
	rate, plug := 12*v/d*(2*n+1)/(3*n), 3.0/2
	if p.Inner == 0 {
		rate, plug = 8*v/d*(3*n+1)/(4*n), 4.0/3
	}
	return 4 / d * (math.Pow(plug, n)*float64(r.Yield) + r.K*math.Pow(rate, n))
}

// turbulence is the share of turbulence at a Reynolds number.
func turbulence(re, n float64) float64 {
	return min(1, max(0, (re-(3470-1370*n))/800))
}

// Blasius is the Fanning factor of a smooth pipe, 0.0791/Re^0.25. Domain:
// Reynolds number 2,100 to 100,000.
func Blasius(re units.Fraction) (units.Fraction, error) {
	return answer[units.Fraction]("Blasius", re >= 2100 && re <= 1e5, "the Reynolds number must lie between 2,100 and 100,000", blasius(float64(re)))
}

func blasius(re float64) float64 { return 0.0791 / math.Pow(re, 0.25) }

// DodgeMetzner is the turbulent Fanning factor of a power law in smooth pipe,
// D. W. Dodge and A. B. Metzner (AIChE J., 1959): sqrt(1/f) = 4/n^0.75
// log10(Re f^(1 - n/2)) - 0.395/n^1.2, solved by Newton on x = 1/sqrt(f).
// Domain: 0.1 <= n <= 1, Reynolds number 1,000 to 10^8.
func DodgeMetzner(re, n units.Fraction) (units.Fraction, error) {
	r, m := float64(re), float64(n)
	if !(m >= 0.1 && m <= 1 && r >= 1000 && r <= 1e8) {
		return 0, outside("Dodge and Metzner", "n %.3g and Reynolds number %.4g lie outside 0.1 to 1 and 1,000 to 10^8", m, r)
	}
	a, b := 4/math.Pow(m, 0.75), 0.395/math.Pow(m, 1.2)
	x := 1 / math.Sqrt(blasius(r))
	for range 50 {
		miss := x - a*(math.Log10(r)-(2-m)*math.Log10(x)) + b
		next := x - miss/(1+a*(2-m)/(x*math.Ln10))
		if !(next > 0) {
			next = x / 2
		}
		if math.Abs(next-x) <= 1e-14*x {
			return units.Fraction(1 / (next * next)), nil
		}
		x = next
	}
	return 0, outside("Dodge and Metzner", "no factor was found at n %.3g, Reynolds number %.4g", m, r)
}

// ECD is the equivalent circulating density at a depth: mud + friction above
// it/(g h). Domain: depth above zero.
func ECD(mud units.KgPerM3, friction units.Pascals, z units.TVD) (units.KgPerM3, error) {
	return answer[units.KgPerM3]("equivalent circulating density", z > 0, "the depth must be above zero", float64(mud)+float64(friction)/(units.G*float64(z)))
}
