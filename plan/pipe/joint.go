package pipe

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// threadCut is twice the depth of an 8-round thread at its last perfect one.
const threadCut = 0.1425 * units.Inch

var (
	threadAreaEq    = equation{"thread_area", units.Area, false, "pi / 4 * ((od - 0.1425 in)^2 - bore^2)", "API TR 5C3, cross section under the last perfect round thread"}
	threadAreaOldEq = equation{"thread_area", units.Area, false, "0.7854 * ((od - 0.1425 in)^2 - bore^2)", "API Bul 5C3, cross section under the last perfect round thread"}
	engagedEq       = equation{"engaged", units.Length, true, "thread_length - face", "API TR 5C3, length of engaged thread L4 - M"}
	fractureEq      = equation{"fracture", units.Force, false, "0.95 * thread_area * tensile", "API TR 5C3, round thread joint, fracture"}
	pullOutEq       = equation{"pull_out", units.Force, false, "0.95 * thread_area * engaged * (0.74 * (1 in / od)^0.59 * tensile / (0.5 * engaged + 0.14 * od) + yield / (engaged + 0.14 * od))", "API TR 5C3, round thread joint, pull-out"}
	couplingForceEq = equation{"coupling_fracture", units.Force, false, "0.95 * coupling_area * coupling_tensile", "API TR 5C3, coupling fracture"}
	pinEq           = equation{"pin", units.Force, false, "0.95 * area * tensile * (1.008 - 0.0396 * (1.083 - yield / tensile) * od / 1 in)", "API TR 5C3, buttress joint, pipe thread"}
	roundJointEq    = equation{"joint", units.Force, false, "lesser(fracture, pull_out, coupling_fracture)", "API TR 5C3, round thread joint strength"}
	buttressJointEq = equation{"joint", units.Force, false, "lesser(pin, coupling_fracture)", "API TR 5C3, buttress joint strength"}
)

func pullOut(area, engaged, od, yield, tensile float64) float64 {
	return 0.95 * area * engaged * (0.74*math.Pow(units.Inch/od, 0.59)*tensile/(0.5*engaged+0.14*od) + yield/(engaged+0.14*od))
}

func pin(area, od, yield, tensile float64) float64 {
	return 0.95 * area * tensile * (1.008 - 0.0396*(1.083-yield/tensile)*od/units.Inch)
}

// RateJoint is the strength of the joint in tension: for round threads the least
// of fracture and pull-out of the pin and fracture of the coupling, for buttress
// the lesser of pin and coupling. API TR 5C3. Governs names the part. The rating
// is missing where the connection or the coupling isn't made.
func RateJoint(s Size, g Grade, c Connection, k Coupling) (Rating[units.Newtons], error) {
	if _, why := coupled(s, c, k); why != "" {
		return missing[units.Newtons](why), nil
	}
	b := BodyOf(s, g)
	if err := b.check("joint strength"); err != nil {
		return Rating[units.Newtons]{}, err
	}
	j := joint{s, b, c, k, k.gradeOf(g)}
	return rate[units.Newtons](func(t *trail) (string, error) {
		if c == BTC {
			return j.buttress(t), nil
		}
		return j.round(t), nil
	})
}

// joint is what the strength of a joint rests on.
type joint struct {
	size     Size
	body     Body
	conn     Connection
	coupling Coupling
	box      Grade // of the coupling
}

func (j joint) round(t *trail) string {
	pulled, broken := j.pin(t)
	box := j.boxStep(t)
	t.rounded(roundJointEq, toKip, min(broken.SI, pulled.SI, box.SI), broken, pulled, box)
	return weakest(broken, pulled, box)
}

// pin records pull-out and fracture of the round-threaded pipe.
func (j joint) pin(t *trail) (pulled, broken expr.Input) {
	od, wall := size("od", float64(j.body.OD)), size("wall", float64(j.body.Wall))
	yield, tensile := pressure("yield", float64(j.body.Yield)), pressure("tensile", float64(j.body.Tensile))
	th, _ := roundOf(j.size, j.conn)
	bore := t.step(boreEq, od.SI-2*wall.SI, od, wall)
	area := t.rounded(t.pick(threadAreaEq, threadAreaOldEq), toMil2, ring(t.quarterPi(), od.SI-threadCut, bore.SI), od, bore)
	engaged := t.step(engagedEq, th.l4-th.hub, noted(size("thread_length", th.l4), from5B), noted(size("face", th.hub), from5B))
	broken = t.step(fractureEq, 0.95*area.SI*tensile.SI, area, tensile)
	pulled = t.step(pullOutEq, pullOut(area.SI, engaged.SI, od.SI, yield.SI, tensile.SI), area, engaged, od, tensile, yield)
	return pulled, broken
}

func (j joint) buttress(t *trail) string {
	od, yield, tensile := size("od", float64(j.body.OD)), pressure("yield", float64(j.body.Yield)), pressure("tensile", float64(j.body.Tensile))
	area := j.body.areaSteps(t)
	torn := t.step(pinEq, pin(area.SI, od.SI, yield.SI, tensile.SI), area, tensile, yield, od)
	box := j.boxStep(t)
	t.rounded(buttressJointEq, toKip, min(torn.SI, box.SI), torn, box)
	return weakest(torn, box)
}

// boxStep records the fracture of the coupling.
func (j joint) boxStep(t *trail) expr.Input {
	w := size("coupling", float64(couplingOD(j.size, j.coupling)))
	tensile := pressure("coupling_tensile", float64(j.box.Tensile))
	root := threadOf(j.size, j.conn).step(t)
	area := t.rounded(t.pick(couplingAreaEq, couplingOldEq), toMil2, ring(t.quarterPi(), w.SI, root.SI), w, root)
	return t.step(couplingForceEq, 0.95*area.SI*tensile.SI, area, tensile)
}

// pick is the form of an equation for the face.
func (t *trail) pick(exact, printed equation) equation {
	if t.printed {
		return printed
	}
	return exact
}

// weakest names the least of some parts, the first of equals.
func weakest(parts ...expr.Input) string {
	least := parts[0]
	for _, p := range parts[1:] {
		if p.SI < least.SI {
			least = p
		}
	}
	switch least.Name {
	case "pull_out":
		return "pull-out"
	case "coupling_fracture":
		return "coupling"
	}
	return least.Name
}
