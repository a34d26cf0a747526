package pipe

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

var (
	ductileEq = equation{"ductility", units.None, false, "exp((index + 1) * ln(0.5)) + exp((index + 1) * ln(1 / sqrt(3)))", "API TR 5C3 clause 7, kdr"}
	soundEq   = equation{"sound", units.Length, true, "kept * wall - count * flaw", "API TR 5C3 clause 7, wall less tolerance and crack-like flaw"}
	ruptureEq = equation{"rupture", units.Pressure, false, "2 * ductility * tensile * sound / (od - sound)", "API TR 5C3 clause 7, ductile rupture"}
)

// ductility is kdr: (1/2)^(n+1) + (1/sqrt 3)^(n+1).
func ductility(n float64) float64 {
	return math.Exp((n+1)*math.Log(0.5)) + math.Exp((n+1)*math.Log(1/math.Sqrt(3)))
}

// Rupture is the inside pressure that bursts the body, ends capped: API TR 5C3
// clause 7, 2 kdr fu tw / (D - tw) with tw = 0.875 t - ka a. The flaw a is the
// deepest crack-like one inspection may miss: 12.5 % of t as a rule, 5 % where
// inspected for it. It counts once for tempered grades, else twice. Exact face
// only: no table prints it. Domain: a flaw not negative, wall left.
func Rupture(s Size, g Grade, flaw units.Meters) (units.Pascals, []expr.Working, error) {
	b := BodyOf(s, g)
	if err := b.check("ductile rupture"); err != nil {
		return 0, nil, err
	}
	count := 2.0
	if g.Tempered {
		count = 1
	}
	sound := WallKept*float64(b.Wall) - count*float64(flaw)
	if !(flaw >= 0 && sound > 0 && g.Hardening > 0) {
		return 0, nil, outside("ductile rupture", "the flaw must be at least zero and leave wall, and the hardening index be known")
	}
	t := &trail{}
	b.ruptureSteps(t, g, count, float64(flaw), sound)
	return units.Pascals(t.value()), t.steps, finite("ductile rupture", t.value())
}

func (b Body) ruptureSteps(t *trail, g Grade, count, flaw, sound float64) {
	k := t.step(ductileEq, ductility(g.Hardening), pure("index", g.Hardening))
	left := t.step(soundEq, sound, pure("kept", WallKept), size("wall", float64(b.Wall)), pure("count", count), size("flaw", flaw))
	od, tensile := float64(b.OD), float64(b.Tensile)
	t.step(ruptureEq, 2*k.SI*tensile*left.SI/(od-left.SI), k, pressure("tensile", tensile), left, size("od", od))
}
