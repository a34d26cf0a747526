package fluid

import (
	"math"

	"spudgate/plan/units"
)

// ClingLaminar is the clinging constant of laminar flow in an annulus whose
// inner wall moves, a = d/D: (a^2 - 2 a^2 ln a - 1)/(2 (1 - a^2) ln a) (J. A.
// Burkhardt, JPT, June 1961). Domain: a above 0, below 1.
func ClingLaminar(a units.Fraction) (units.Fraction, error) {
	x := float64(a)
	if !(x > 0 && x < 1) {
		return 0, outside("clinging constant", "the ratio of diameters must lie between 0 and 1")
	}
	if e := 1 - x; e < 1e-3 { // the closed form loses all its digits: its series
		return units.Fraction(0.5 - e/6 - e*e/12), nil
	}
	l := math.Log(x)
	return answer[units.Fraction]("clinging constant", true, "", (x*x-2*x*x*l-1)/(2*(1-x*x)*l))
}

// ClingTurbulent is the clinging constant of turbulent flow:
// (sqrt((a^4 + a)/(1 + a)) - a^2)/(1 - a^2) (Burkhardt). Domain: a above 0, below
// 1.
func ClingTurbulent(a units.Fraction) (units.Fraction, error) {
	x := float64(a)
	return answer[units.Fraction]("clinging constant", x > 0 && x < 1, "the ratio of diameters must lie between 0 and 1", (math.Sqrt((x*x*x*x+x)/(1+x))-x*x)/(1-x*x))
}

// SurgeVelocity is the effective velocity of mud past pipe that is run at a
// speed: v (Kc + d^2/(D^2 - d^2)) with a closed end, and with an open one, levels
// equal, v (Kc + (d^2 - id^2)/(D^2 - d^2 + id^2)). Both terms add: the wall of
// the pipe moves against the mud. id is 0 for a closed end. Domain:
// D above d above id, id not negative, speed and clinging constant not
// negative.
func SurgeVelocity(speed units.MPerS, cling units.Fraction, hole, od, id units.Meters) (units.MPerS, error) {
	dh, d, di := float64(hole), float64(od), float64(id)
	return answer[units.MPerS]("surge velocity", dh > d && d > di && di >= 0 && speed >= 0 && cling >= 0, "the hole must be larger than the pipe, and speed not negative",
		float64(speed)*(float64(cling)+(d*d-di*di)/(dh*dh-d*d+di*di)))
}
