package pipe

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Load is what a pipe bears at one depth.
type Load struct {
	Inside, Outside units.Pascals
	Axial           units.Newtons // pressure-area force, tension positive
	Bend            units.RadPerM // not negative
	Torque          units.NewtonMeters
}

// Point is one of the four places where the equivalent stress is worked out.
type Point struct {
	Outer   bool // at the outer wall, else the inner
	Pulled  bool // on the side of the bend in tension
	Stress  units.Pascals
	Working []expr.Working
}

var (
	innerEq   = equation{"ri", units.Length, true, "od / 2 - wall", "inside radius"}
	outerEq   = equation{"ro", units.Length, true, "od / 2", "outside radius"}
	solidEq   = equation{"area", units.Area, false, "pi * (ro^2 - ri^2)", "cross section of the pipe"}
	polarEq   = equation{"polar", units.Dim{Length: 4}, false, "pi / 2 * (ro^4 - ri^4)", "polar moment of the pipe"}
	radialEq  = equation{"radial", units.Pressure, false, "(inside * ri^2 - outside * ro^2 - (inside - outside) * ri^2 * ro^2 / r^2) / (ro^2 - ri^2)", "API TR 5C3, triaxial yield, radial stress (Lame)"}
	hoopEq    = equation{"hoop", units.Pressure, false, "(inside * ri^2 - outside * ro^2 + (inside - outside) * ri^2 * ro^2 / r^2) / (ro^2 - ri^2)", "API TR 5C3, triaxial yield, hoop stress (Lame)"}
	pulledEq  = equation{"along", units.Pressure, false, "axial / area + 30000000 psi * r * bend / 1 rad", "API TR 5C3, triaxial yield, axial and bending stress"}
	pressedEq = equation{"along", units.Pressure, false, "axial / area - 30000000 psi * r * bend / 1 rad", "API TR 5C3, triaxial yield, axial and bending stress"}
	shearEq   = equation{"shear", units.Pressure, false, "torque * r / polar", "API TR 5C3, triaxial yield, shear stress of torque"}
	misesEq   = equation{"von_mises", units.Pressure, false, "(0.5 * ((along - hoop)^2 + (hoop - radial)^2 + (radial - along)^2) + 3 * shear^2)^0.5", "API TR 5C3, triaxial yield, equivalent stress (von Mises)"}
)

func mises(along, hoop, radial, shear float64) float64 {
	a, b, c := along-hoop, hoop-radial, radial-along
	return math.Sqrt(0.5*(a*a+b*b+c*c) + 3*shear*shear)
}

// lame gives radial and hoop stress at radius r.
func lame(in, out, ri, ro, r float64) (radial, hoop float64) {
	common, swing, ring := in*ri*ri-out*ro*ro, (in-out)*ri*ri*ro*ro/(r*r), ro*ro-ri*ri
	return (common - swing) / ring, (common + swing) / ring
}

func (b Body) checkLoad(l Load) error {
	if err := b.check("triaxial stress"); err != nil {
		return err
	}
	if err := finite("triaxial stress", float64(l.Inside), float64(l.Outside), float64(l.Axial), float64(l.Bend), float64(l.Torque)); err != nil {
		return err
	}
	if l.Inside < 0 || l.Outside < 0 || l.Bend < 0 {
		return outside("triaxial stress", "pressures and curvature must not be negative")
	}
	return nil
}

// section is what the geometry of a body gives to its stresses, m.
type section struct{ ri, ro, area, polar float64 }

func (b Body) section() section {
	ro := float64(b.OD) / 2
	ri := ro - float64(b.Wall)
	return section{ri, ro, math.Pi * (ro*ro - ri*ri), math.Pi / 2 * (ro*ro*ro*ro - ri*ri*ri*ri)}
}

// stresses at a radius on one side of the bend.
func (s section) stresses(l Load, r float64, pulled bool) (along, hoop, radial, shear float64) {
	radial, hoop = lame(float64(l.Inside), float64(l.Outside), s.ri, s.ro, r)
	bend := modulus * r * float64(l.Bend)
	if !pulled {
		bend = -bend
	}
	return float64(l.Axial)/s.area + bend, hoop, radial, float64(l.Torque) * r / s.polar
}

// VonMises is the greatest equivalent stress in the body under a load, over both
// walls and both sides of the bend, and where: API TR 5C3, triaxial yield. The
// pipe yields when it reaches the yield strength. Use Worn or a wall of 0.875 t
// for less than nominal. Domain: pressures and curvature not negative.
func (b Body) VonMises(l Load) (stress units.Pascals, outer, pulled bool, err error) {
	if err := b.checkLoad(l); err != nil {
		return 0, false, false, err
	}
	s := b.section()
	worst := -1.0
	for _, at := range places {
		if v := mises(s.stresses(l, s.radius(at.outer), at.pulled)); v > worst {
			worst, outer, pulled = v, at.outer, at.pulled
		}
	}
	return units.Pascals(worst), outer, pulled, finite("triaxial stress", worst)
}

// places are the four points, in the order they are shown.
var places = [...]struct{ outer, pulled bool }{{false, true}, {false, false}, {true, true}, {true, false}}

func (s section) radius(outer bool) float64 {
	if outer {
		return s.ro
	}
	return s.ri
}

// VonMisesWorking is the working of VonMises at all four points: inner then
// outer wall, at each the pulled side first.
func (b Body) VonMisesWorking(l Load) ([]Point, error) {
	if err := b.checkLoad(l); err != nil {
		return nil, err
	}
	var out []Point
	for _, at := range places {
		t := &trail{}
		b.misesSteps(t, l, at.outer, at.pulled)
		out = append(out, Point{at.outer, at.pulled, units.Pascals(t.value()), t.steps})
	}
	return out, nil
}

func (b Body) misesSteps(t *trail, l Load, outer, pulled bool) {
	s := b.section()
	r := s.radius(outer)
	along, hoop, radial, shear := s.stresses(l, r, pulled)
	od, wall, at := size("od", float64(b.OD)), size("wall", float64(b.Wall)), size("r", r)
	in, out := pressure("inside", float64(l.Inside)), pressure("outside", float64(l.Outside))
	ri, ro := t.step(innerEq, s.ri, od, wall), t.step(outerEq, s.ro, od)
	area, polar := t.step(solidEq, s.area, ro, ri), t.step(polarEq, s.polar, ro, ri)
	lameIn := []expr.Input{in, ri, out, ro, at}
	cr, ch := t.step(radialEq, radial, lameIn...), t.step(hoopEq, hoop, lameIn...)
	eq := pressedEq
	if pulled {
		eq = pulledEq
	}
	ca := t.step(eq, along, force("axial", float64(l.Axial)), area, at, curvature(float64(l.Bend)))
	cs := t.step(shearEq, shear, expr.Input{Name: "torque", SI: float64(l.Torque), Dim: units.Torque}, at, polar)
	t.step(misesEq, mises(along, hoop, radial, shear), ca, ch, cr, cs)
}
