package fluid

import (
	"math"

	"spudgate/plan/units"
)

// Elastic constants of pipe steel, as the trade rounds them.
const (
	Modulus   units.Pascals  = 30e6 * units.Psi
	Poisson   units.Fraction = 0.3
	Expansion float64        = 6.9e-6 / rankine // of length, 1/K; 6.9e-6 1/degF
)

// Stretch is the elongation of pipe under a pull: F L/(E A). Domain: area above
// zero, length not negative.
func Stretch(pull units.Newtons, length units.MD, area M2) (units.Meters, error) {
	return answer[units.Meters]("stretch", area > 0 && length >= 0, "the area must be above zero, the length not negative", float64(pull)*float64(length)/(float64(Modulus)*float64(area)))
}

// FreeLength is the length of pipe that stretches under a pull, which is free:
// e E A/F. Domain: pull and area above zero, stretch not negative.
func FreeLength(stretch units.Meters, pull units.Newtons, area M2) (units.MD, error) {
	return answer[units.MD]("free length", pull > 0 && area > 0 && stretch >= 0, "pull and area must be above zero", float64(stretch)*float64(Modulus)*float64(area)/float64(pull))
}

// OwnStretch is the elongation of pipe hanging in a fluid under its own weight,
// the squeeze of the fluid counted: L^2 (rho_s - 2 (1 - nu) rho_f) g/(2 E).
// Field form: L^2 (65.44 - 1.44 W)/9.625e7 in, which is nu 0.28. Domain: length
// and fluid density not negative.
func OwnStretch(length units.TVD, fluid units.KgPerM3) (units.Meters, error) {
	const nu = 0.28
	l := float64(length)
	return answer[units.Meters]("stretch under own weight", length >= 0 && fluid >= 0, "length and density must not be negative",
		l*l*(float64(Steel)-2*(1-nu)*float64(fluid))*units.G/(2*float64(Modulus)))
}

// Elongation is the change of a free length with temperature: alpha L dT.
// Domain: length not negative.
func Elongation(length units.MD, rise float64) (units.Meters, error) {
	return answer[units.Meters]("thermal elongation", length >= 0, "the length must not be negative", Expansion*float64(length)*rise)
}

// ThermalForce is the change of force in pipe held at both ends when it warms by
// a rise in K: -E alpha A dT, compression negative. Domain: area above zero.
func ThermalForce(area M2, rise float64) (units.Newtons, error) {
	return answer[units.Newtons]("thermal force", area > 0, "the area must be above zero", -float64(Modulus)*Expansion*float64(area)*rise)
}

// Change is how pressure inside or outside changes over a length: at its top,
// and by how much more for each metre down.
type Change struct {
	Top      units.Pascals
	Gradient PaPerM
}

// mean over a length, Pa.
func (c Change) mean(length units.TVD) float64 {
	return float64(c.Top) + float64(c.Gradient)*float64(length)/2
}

// Ballooning is the change of force in pipe held at both ends when pressures
// change: 2 nu (A_i mean dp_i - A_o mean dp_o), tension positive. Domain: OD above
// ID, length not negative.
func Ballooning(t Tube, length units.TVD, inside, outer Change) (units.Newtons, error) {
	return answer[units.Newtons]("ballooning", t.valid() && length >= 0, tubeDomain+", the length not negative",
		2*float64(Poisson)*(t.bore()*inside.mean(length)-t.face()*outer.mean(length)))
}

// EffectiveForce is the force that decides on buckling: F - p_i A_i + p_o A_o,
// tension positive. Domain: OD above ID.
func EffectiveForce(axial units.Newtons, t Tube, inside, outer units.Pascals) (units.Newtons, error) {
	return answer[units.Newtons]("effective force", t.valid(), tubeDomain, float64(axial)-float64(inside)*t.bore()+float64(outer)*t.face())
}

// stiffness is E I, N m2.
func (t Tube) stiffness() float64 {
	o, i := float64(t.OD), float64(t.ID)
	return float64(Modulus) * math.Pi / 64 * (o*o*o*o - i*i*i*i)
}

// Buckling is the effective compression at which pipe buckles.
type Buckling struct{ Sinusoidal, Helical units.Newtons }

// BucklingInclined is the critical force in an inclined straight hole by R.
// Dawson and P. R. Paslay (JPT, October 1984): 2 sqrt(E I w sin(inc)/r), and
// sqrt(2) times that for a helix. w is the buoyed weight, r the radial clearance.
// Domain: OD above ID, weight and clearance above zero, inclination above 0 and
// below 180 degrees.
func BucklingInclined(t Tube, weight units.KgPerM, clearance units.Meters, inc units.Radians) (Buckling, error) {
	f, err := answer[units.Newtons]("buckling", t.valid() && weight > 0 && clearance > 0 && inc > 0 && inc < math.Pi, tubeDomain+", weight and clearance above zero, the hole inclined",
		2*math.Sqrt(t.stiffness()*float64(weight)*units.G*math.Sin(float64(inc))/float64(clearance)))
	return Buckling{f, f * math.Sqrt2}, err
}

// BucklingVertical is the critical force in a vertical hole, 1.94 and 5.55
// (E I w^2)^(1/3) (A. Lubinski, 1950; J. Wu, 1992; the constants from memory).
// Domain: OD above ID, buoyed weight above zero.
func BucklingVertical(t Tube, weight units.KgPerM) (Buckling, error) {
	w := float64(weight) * units.G
	base, err := answer[units.Newtons]("buckling", t.valid() && weight > 0, tubeDomain+", the weight above zero", math.Cbrt(t.stiffness()*w*w))
	return Buckling{1.94 * base, 5.55 * base}, err
}

// CouplingBending is how much more a pulled pipe bends that touches the hole
// only at its couplings: u/tanh(u), u = sqrt(T/(E I)) L/2 (A. Lubinski, 1961).
// Domain: OD above ID, tension not negative, joint longer than nothing.
func CouplingBending(t Tube, tension units.Newtons, joint units.Meters) (units.Fraction, error) {
	u := math.Sqrt(float64(tension)/t.stiffness()) * float64(joint) / 2
	if !(t.valid() && tension >= 0 && joint > 0) || u < 1e-4 {
		return answer[units.Fraction]("bending at couplings", t.valid() && tension >= 0 && joint > 0, tubeDomain+", tension not negative, the joint longer than nothing", 1+u*u/3)
	}
	return answer[units.Fraction]("bending at couplings", true, "", u/math.Tanh(u))
}
