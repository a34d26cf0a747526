package well

import (
	"math"

	"spudgate/plan/pipe"
)

// ThreadMade reports whether the standards have a segment's API thread in its
// size and its grade with that thread, and why not. Absent for pipe without
// threads, for a maker's own connection or grade, and for an OD outside the
// catalogue.
func (w *Well) ThreadMade(p *Pipe) (ok bool, why string, err error) {
	switch {
	case Proprietary(p.ConnErr):
		return false, "", Absent("the connection is its maker's own")
	case p.ConnErr != nil:
		return false, "", p.ConnErr
	case p.Conn == pipe.Plain:
		return false, "", Absent("the pipe has no threads")
	case Proprietary(p.GradeErr):
		return false, "", Absent(p.Plan.Grade.V + " is a proprietary grade")
	case p.GradeErr != nil:
		return false, "", p.GradeErr
	}
	if s, listed := SteelOf(p.Grade); listed && !s.MadeWith(p.Conn) {
		return false, s.Grade + " is made with " + s.Threads[0].String() + " only", nil
	}
	size, found, err := threadSize(p)
	switch {
	case err != nil:
		return false, "", err
	case !found:
		return false, "", Absent("the OD isn't one of the catalogue")
	}
	r, err := pipe.RateJoint(size, p.Grade, p.Conn, pipe.Coupling{})
	return r.Known(), r.Missing, err
}

// threadSize is a catalogue size of the segment's OD that has a coupling. Its
// wall decides nothing here: a thread is made for an OD.
func threadSize(p *Pipe) (pipe.Size, bool, error) {
	if !p.Plan.OD.Known() {
		return pipe.Size{}, false, p.SizeErr
	}
	const same = 0.3e-3 // m, as the catalogue takes a written OD for a listed one
	for _, s := range pipe.Sizes() {
		if math.Abs(float64(s.OD-p.Plan.OD.V)) <= same && s.Coupling > 0 {
			return s, true, nil
		}
	}
	return pipe.Size{}, false, nil
}
