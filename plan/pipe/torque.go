package pipe

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Torque is the make-up of a joint, API RP 5C1.
type Torque struct {
	// ByPosition joints are made up to a mark: buttress, which has no torque, and
	// round thread from 16 in up, which has a least torque only.
	ByPosition           bool
	Optimum, Least, Most units.NewtonMeters // zero where there is none
	Working              []expr.Working     // of all that are given
	Missing              string             // why there is no joint at all
}

var (
	optimumEq = equation{"optimum", units.Torque, false, "0.01 ft * pull_out", "API RP 5C1, optimum make-up torque: 1 % of pull-out, lbf read as ft-lbf"}
	leastEq   = equation{"least", units.Torque, false, "0.75 * optimum", "API RP 5C1, least make-up torque"}
	mostEq    = equation{"most", units.Torque, false, "1.25 * optimum", "API RP 5C1, most make-up torque"}
)

// MakeUp is the make-up torque of a connection as API RP 5C1 lists it, each to
// 10 ft-lbf: 1 % of the pull-out strength, also where fracture governs the joint,
// and 75 and 125 % of it.
func MakeUp(s Size, g Grade, c Connection) (Torque, error) {
	if why := made(s, c); why != "" {
		return Torque{Missing: why}, nil
	}
	b := BodyOf(s, g)
	if err := b.check("make-up torque"); err != nil {
		return Torque{}, err
	}
	if c == BTC {
		return Torque{ByPosition: true}, nil
	}
	t := &trail{printed: true}
	pulled, _ := joint{size: s, body: b, conn: c}.pin(t)
	best := t.rounded(optimumEq, toTenFootPound, 0.01*units.Foot*pulled.SI, pulled)
	least := t.rounded(leastEq, toTenFootPound, 0.75*best.SI, best)
	out := Torque{Optimum: units.NewtonMeters(best.SI), Least: units.NewtonMeters(least.SI)}
	if s.OD >= inches(16)-sameOD {
		out.ByPosition, out.Optimum = true, 0
	} else {
		out.Most = units.NewtonMeters(t.rounded(mostEq, toTenFootPound, 1.25*best.SI, best).SI)
	}
	out.Working = t.steps
	return out, nil
}
