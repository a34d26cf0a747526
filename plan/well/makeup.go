package well

import (
	"spudgate/plan/expr"
	"spudgate/plan/pipe"
	"spudgate/plan/units"
)

// large is the OD from which round thread is made up by position (API RP 5C1: 16,
// 18-5/8 and 20 in), less what a metric size may be rounded by.
const large = 16*units.Inch - 0.0003

// byMark reports whether a joint is made up to a mark: buttress to its triangle,
// large round thread to the last scratch, each whatever torque that takes.
func byMark(r *Rated) bool {
	round := r.Conn == pipe.STC || r.Conn == pipe.LTC
	return r.ConnErr == nil && (r.Conn == pipe.BTC || round && r.Size.OD >= large)
}

// MadeByMark reports whether the plan makes a joint up by position where its
// connection asks for that. A torque planned alone isn't; Absent where nothing
// is planned.
func (w *Well) MadeByMark(str, seg int) (bool, error) {
	r, err := w.Rated(str, seg)
	if err != nil {
		return false, err
	}
	g := r.Plan
	switch {
	case r.ConnErr != nil && !Proprietary(r.ConnErr):
		return false, r.ConnErr
	case !byMark(r):
		return false, Absent("its connection isn't made up by position")
	case g.MadeUpBy.Known():
		return g.MadeUpBy.V != "torque", nil
	case g.Torque.Known():
		return false, nil
	}
	return false, Absent("no make-up is planned")
}

// LeastTorque is the least make-up torque of round thread from 16 in up: 75 % of
// 1 % of pull-out strength (API RP 5C1).
func (w *Well) LeastTorque(str, seg int) (units.NewtonMeters, []expr.Working, error) {
	r, err := w.Rated(str, seg)
	if err != nil {
		return 0, nil, err
	}
	switch {
	case r.ConnErr != nil && !Proprietary(r.ConnErr):
		return 0, nil, r.ConnErr
	case !byMark(r) || r.Conn == pipe.BTC:
		return 0, nil, Absent("not round thread of 16 in or more")
	case r.GradeErr != nil:
		return 0, nil, Lack(r.Plan.Ref, "an API grade of %s, for its make-up torque", r.Plan.Label())
	}
	t, err := pipe.MakeUp(r.Size, r.Grade, r.Conn)
	if err == nil && t.Missing != "" {
		err = Lack(r.Plan.Ref, "a make-up torque of %s (%s)", r.Plan.Label(), t.Missing)
	}
	return t.Least, t.Working, err
}

// MakersOwn says why a segment isn't made up to a maker's data sheet; nil where it
// is.
func (w *Well) MakersOwn(str, seg int) error {
	c, err := w.Casing(str)
	if err != nil {
		return err
	}
	p := &c.Pipes[seg]
	switch {
	case run(c.Plan) != nil:
		return run(c.Plan)
	case p.ConnErr == nil:
		return Absent("an API connection is made up as API RP 5C1 says")
	case !Proprietary(p.ConnErr):
		return p.ConnErr
	case p.Plan.Coupling.V == "none":
		return Absent("the pipe has no threaded joint")
	}
	return nil
}
