package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// StatedRating is a rating as the plan states it beside the published one.
type StatedRating struct {
	Stated, Published float64 // SI, Dim
	Dim               units.Dim
	Ref               place.Ref
	Note              string
}

// Over is how much more the stated one is, as a part of the published one;
// negative where it's less.
func (s StatedRating) Over() float64 { return s.Stated/s.Published - 1 }

// The ratings a segment may state.
const (
	RatingCollapse = "collapse"
	RatingInternal = "internal_yield"
	RatingBody     = "body_yield"
	RatingJoint    = "joint_strength"
)

// StatedRating holds a stated rating of a segment beside the published one.
// Absent where none is stated or the pipe is a maker's own, which no standard
// rates.
func (w *Well) StatedRating(str, seg int, which string) (StatedRating, error) {
	c, err := w.Casing(str)
	if err != nil {
		return StatedRating{}, err
	}
	p := &c.Pipes[seg]
	s, err := stated(p.Plan, which)
	if err != nil {
		return s, err
	}
	for _, err := range []error{p.SizeErr, p.GradeErr, p.connectionNeeded(which)} {
		if Proprietary(err) {
			return s, Absent("a maker's own pipe: no standard rates it")
		}
		if err != nil {
			return s, err
		}
	}
	k, err := p.coupling()
	if err != nil {
		return s, Absent("a maker's own coupling: no standard rates it")
	}
	r, err := pipe.RateSize(p.Size, p.Grade, p.Conn, k)
	if err != nil {
		return s, err
	}
	return beside(s, r, which)
}

// connectionNeeded is the error of the connection for ratings that rest on it.
func (p *Pipe) connectionNeeded(which string) error {
	if which == RatingCollapse || which == RatingBody {
		return nil
	}
	return p.ConnErr
}

func stated(g *plan.Segment, which string) (StatedRating, error) {
	s := StatedRating{Dim: units.Pressure}
	known := true
	switch which {
	case RatingCollapse:
		s.Stated, s.Ref, known = float64(g.RatingCollapse.V), g.RatingCollapse.Ref, g.RatingCollapse.Known()
	case RatingInternal:
		s.Stated, s.Ref, known = float64(g.RatingInternalYield.V), g.RatingInternalYield.Ref, g.RatingInternalYield.Known()
	case RatingBody:
		s.Stated, s.Ref, known = float64(g.RatingBody.V), g.RatingBody.Ref, g.RatingBody.Known()
	default:
		s.Stated, s.Ref, known = float64(g.RatingJoint.V), g.RatingJoint.Ref, g.RatingJoint.Known()
	}
	if which == RatingBody || which == RatingJoint {
		s.Dim = units.Force
	}
	if !known {
		return s, Absent("the plan states none")
	}
	return s, nil
}

// beside puts the published rating next to a stated one and says what else of
// the pipe the stated one equals.
func beside(s StatedRating, r *pipe.Pipe, which string) (StatedRating, error) {
	switch which {
	case RatingCollapse:
		s.Published = float64(r.Collapse.Published)
		s.Note = r.Collapse.Governs + " collapse"
	case RatingInternal:
		s.Published = float64(r.Internal.Published)
		if equal(s.Stated, float64(r.BodyInternal.Published)) && s.Published < s.Stated {
			s.Note = "the stated one is the pipe body's; the " + internalGoverns(r) + " is less"
		}
	case RatingBody:
		s.Published = float64(r.BodyYield.Published)
	default:
		if !r.Joint.Known() {
			return s, Absent("no standard rates the joint: " + r.Joint.Missing)
		}
		s.Published = float64(r.Joint.Published)
		if equal(s.Stated, float64(r.BodyYield.Published)) && s.Published < s.Stated {
			s.Note = "the stated one is the body's; the joint is less"
		}
	}
	step := 10.0 * units.Psi
	if s.Dim == units.Force {
		step = 1000 * units.Lbf
	}
	if d := math.Abs(s.Stated - s.Published); d > 0 && d < 1.5*step && s.Note == "" {
		s.Note = "one step of the printed tables apart: rounded coefficients, or an older edition"
	}
	return s, nil
}

func equal(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Max(math.Abs(a), math.Abs(b)) }

func internalGoverns(r *pipe.Pipe) string {
	if r.Leak.Known() && r.Leak.Published == r.Internal.Published {
		return "leak resistance"
	}
	return "coupling"
}
