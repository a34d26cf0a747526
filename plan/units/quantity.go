package units

// Typed SI quantities. A depth along the hole and a true vertical depth are
// different types, so the compiler refuses the exchange of one for the other.
type (
	// MD is a depth along the hole below the plan's depth reference, m.
	MD float64
	// TVD is a true vertical depth below the plan's depth reference, m.
	TVD float64
	// Meters is any other length: a size, an interval, an elevation, m.
	Meters float64
	// Pascals is a gauge pressure, Pa.
	Pascals float64
	// KgPerM3 is a density, kg/m3.
	KgPerM3 float64
	// Newtons is a force, N.
	Newtons float64
	// NewtonMeters is a torque, N m.
	NewtonMeters float64
	// Kilograms is a mass, kg.
	Kilograms float64
	// KgPerM is a weight per length, kg/m.
	KgPerM float64
	// CubicMeters is a volume, m3.
	CubicMeters float64
	// M3PerS is a flow rate, m3/s.
	M3PerS float64
	// M3PerKg is a slurry yield or a mix-water ratio, m3 for each kg of blend
	// (a trade sack is 94 lb).
	M3PerKg float64
	// Kelvins is an absolute temperature, K.
	Kelvins float64
	// Seconds is a duration, s.
	Seconds float64
	// Radians is an angle, rad.
	Radians float64
	// RadPerM is a curvature, rad/m.
	RadPerM float64
	// MPerS is a speed, m/s.
	MPerS float64
	// PascalSeconds is a viscosity, Pa s.
	PascalSeconds float64
	// Fraction is a pure number: a ratio, an excess, a mole fraction.
	Fraction float64
)

// Grade is a pore, fracture or overburden value as the plan wrote it: an
// equivalent mud weight, a gradient or a pressure. What it was written as
// decides how it is interpolated.
type Grade struct {
	SI  float64
	Dim Dim // Density, Gradient or Pressure
}

// Pressure turns g at depth z below the depth reference into a gauge pressure.
// An equivalent mud weight and a gradient count from the depth reference.
func (g Grade) Pressure(z TVD) Pascals {
	switch g.Dim {
	case Density:
		return Pascals(g.SI * G * float64(z))
	case Gradient:
		return Pascals(g.SI * float64(z))
	}
	return Pascals(g.SI)
}

// Hydrostatic is the pressure of a column of density rho over a vertical
// height h: rho g h.
func Hydrostatic(rho KgPerM3, h TVD) Pascals { return Pascals(float64(rho) * G * float64(h)) }
