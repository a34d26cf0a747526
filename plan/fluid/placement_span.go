package fluid

import (
	"math"

	"spudgate/plan/units"
)

// Direction is where a hole points.
type Direction struct{ Inc, Azi units.Radians }

// unit is the tangent: north, east, down.
func (d Direction) unit() [3]float64 {
	si, ci := math.Sincos(float64(d.Inc))
	sa, ca := math.Sincos(float64(d.Azi))
	return [3]float64{si * ca, si * sa, ci}
}

// SpanLoad is the force that presses a length of pipe against the side of the
// hole, in three dimensions: its weight across the hole and the tension that its
// curvature turns sideways, w L (z - (z.t) t) + T (t2 - t1), t the mean of the
// tangents at its ends. It is the vector form of ISO 10427-2 (API RP 10D-2),
// whose two parts in and across the plane of the dogleg are
// w L (cos i2 - cos i1)/(2 sin(b/2)) + 2 T sin(b/2) and
// w L sin i1 sin i2 sin(dA)/sin b; it holds in straight hole too. Domain: length
// not negative, dogleg under 90 degrees.
func SpanLoad(weight units.KgPerM, length units.MD, tension units.Newtons, upper, lower Direction) (units.Newtons, error) {
	a, b := upper.unit(), lower.unit()
	var mean [3]float64
	long := 0.0
	for i := range mean {
		mean[i] = a[i] + b[i]
		long += mean[i] * mean[i]
	}
	long = math.Sqrt(long)
	if !(length >= 0 && long > math.Sqrt2) {
		return 0, outside("load between centralizers", "the length must not be negative, the dogleg under 90 degrees")
	}
	own := float64(weight) * units.G * float64(length)
	down := mean[2] / long
	sum := 0.0
	for i := range mean {
		f := -own*down*mean[i]/long + float64(tension)*(b[i]-a[i])
		if i == 2 {
			f += own
		}
		sum += f * f
	}
	return answer[units.Newtons]("load between centralizers", true, "", math.Sqrt(sum))
}

// Sag is how far pipe held at both ends bends off a straight line in the middle,
// under a load spread over its length and an effective tension:
// F L^3/(384 E I) 24/u^4 (u^2/2 - u tanh(u/2)), u^2 = T L^2/(4 E I), and
// 24/v^4 (v tan(v/2) - v^2/2), v^2 = -u^2, in compression (ISO 10427-2, API RP
// 10D-2). Domain: OD above ID, length above zero, load not negative, compression
// below that at which the length buckles, v = pi.
func Sag(load units.Newtons, length units.MD, t Tube, tension units.Newtons) (units.Meters, error) {
	if !(t.valid() && length > 0 && load >= 0) {
		return 0, outside("sag", "%s, the length above zero, the load not negative", tubeDomain)
	}
	l, stiff := float64(length), t.stiffness()
	square := float64(tension) * l * l / (4 * stiff)
	if square <= -math.Pi*math.Pi {
		return 0, outside("sag", "the compression would buckle the length")
	}
	return answer[units.Meters]("sag", true, "", float64(load)*l*l*l/(384*stiff)*stiffening(square))
}

// stiffening is what tension makes of the sag of a beam, u^2 given.
func stiffening(square float64) float64 {
	switch {
	case math.Abs(square) < 1e-3: // the closed form loses its digits: its series
		return 1 - square/10 + 17*square*square/1680
	case square > 0:
		u := math.Sqrt(square)
		return 24 / (square * square) * (square/2 - u*math.Tanh(u/2))
	}
	v := math.Sqrt(-square)
	return 24 / (square * square) * (v*math.Tan(v/2) + square/2)
}
