package well

import (
	"errors"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Rated is one segment with its ratings: new, cold and unloaded as published,
// or as the plan states them where the pipe is a maker's own.
type Rated struct {
	*Pipe
	Body     pipe.Body // nominal; Yield is zero where nobody tells it
	Collapse Strength[units.Pascals]
	Internal Strength[units.Pascals] // least of body, coupling, leak resistance and stated
	Yield    Strength[units.Newtons] // of the body
	Joint    Strength[units.Newtons]
}

// Strength is one rating of a segment and what gives it.
type Strength[Q ~float64] struct {
	Value Q
	// Exact is the same at full precision, what a load's effect is a part of;
	// equal to Value where the rating is stated.
	Exact Q
	// From is what governs: pipe body, coupling, leak resistance, joint, stated.
	From    string
	Ref     place.Ref
	Working []expr.Working
	Err     error // Missing, Absent, or why there is none
}

type ratedKey struct{ str, seg int }

// Rated rates a segment of a string. What can't be rated is an error of its
// own; the error of Rated itself is of the string's depths or the pipe's size.
func (w *Well) Rated(str, seg int) (*Rated, error) {
	return once(w, ratedKey{str, seg}, func() (*Rated, error) { return w.rated(str, seg) })
}

func (w *Well) rated(str, seg int) (*Rated, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	p := &c.Pipes[seg]
	if p.SizeErr != nil {
		return nil, p.SizeErr
	}
	r := &Rated{Pipe: p, Body: pipe.Body{OD: p.Size.OD, Wall: p.Size.Wall}}
	of := p.Plan.Label() + " in " + c.Plan.Name.V
	grade, gradeErr := p.grade()
	r.Body.Yield, r.Body.Tensile = grade.Yield, grade.Tensile
	kind, couplingErr := p.coupling()
	conn, connErr := p.Conn, p.ConnErr
	if couplingErr != nil && connErr == nil {
		connErr = couplingErr
	}
	r.rateBody(gradeErr, of)
	r.rateConnection(grade, gradeErr, conn, connErr, kind, of)
	return r, nil
}

// grade is the API grade, or one of the stated minimum yield strength.
func (p *Pipe) grade() (pipe.Grade, error) {
	if p.GradeErr != nil && p.Plan.YieldStrength.Known() {
		return pipe.Grade{Name: p.Plan.Grade.V, Yield: p.Plan.YieldStrength.V}, nil
	}
	return p.Grade, p.GradeErr
}

func (p *Pipe) coupling() (pipe.Coupling, error) {
	k := pipe.Coupling{Special: p.Plan.Coupling.V == "special_clearance"}
	if p.Plan.CouplingGrade.Known() {
		g, err := pipe.ParseGrade(p.Plan.CouplingGrade.V)
		if err != nil {
			return k, err
		}
		k.Grade = &g
	}
	return k, nil
}

func (r *Rated) rateBody(gradeErr error, of string) {
	var collapse pipe.Rating[units.Pascals]
	var body pipe.Rating[units.Newtons]
	err, err2 := gradeErr, gradeErr
	if gradeErr == nil {
		collapse, err = r.Body.RateCollapse()
		body, err2 = r.Body.RateBodyYield()
	}
	at := r.Plan.Grade.Ref
	r.Collapse = lesser(computed(collapse, err, "pipe body", at), r.Plan.RatingCollapse, needs(gradeErr, "collapse", of, "grade"), r.Plan.Ref)
	r.Yield = lesser(computed(body, err2, "pipe body", at), r.Plan.RatingBody, needs(gradeErr, "body yield", of, "grade"), r.Plan.Ref)
}

func (r *Rated) rateConnection(g pipe.Grade, gradeErr error, c pipe.Connection, connErr error, k pipe.Coupling, of string) {
	whose, err := "grade", gradeErr
	if err == nil && g.Tensile == 0 {
		err = &pipe.Unknown{What: "grade", Text: g.Name}
	}
	if connErr != nil && err == nil {
		whose, err = "connection", connErr
	}
	at := r.Plan.Connection.Ref
	internal := Strength[units.Pascals]{Err: err}
	joint := Strength[units.Newtons]{Err: err}
	switch {
	case err != nil:
	case c == pipe.Plain:
		body, e := r.Body.RateInternalYield(pipe.WallKept)
		internal = computed(body, e, "pipe body", at)
		joint.Err = Absent("plain-end pipe has no threaded joint")
	default:
		if p, e := pipe.RateSize(r.Size, g, c, k); e != nil {
			internal.Err, joint.Err = e, e
		} else {
			internal = connected(p, at, r.Plan.Ref, of)
			joint = computed(p.Joint, nil, "joint, "+p.Joint.Governs, at)
		}
	}
	if r.Plan.RatingInternalYield.Known() && err != nil {
		internal = r.statedInternal(g)
	}
	r.Internal = lesser(internal, r.Plan.RatingInternalYield, needs(err, "internal yield", of, whose), r.Plan.Ref)
	r.Joint = lesser(joint, r.Plan.RatingJoint, needs(err, "joint strength", of, whose), r.Plan.Ref)
}

// statedInternal is the internal yield of the body, where it's known, beside
// the one stated for a maker's own pipe: a stated rating never lifts the body
// of an API grade.
func (r *Rated) statedInternal(g pipe.Grade) Strength[units.Pascals] {
	if g.Yield == 0 {
		return Strength[units.Pascals]{Err: Absent("stated")}
	}
	body, err := r.Body.RateInternalYield(pipe.WallKept)
	return computed(body, err, "pipe body", r.Plan.Grade.Ref)
}

// connected is the internal yield of an API pipe; a thread that isn't made in
// the size has none.
func connected(p *pipe.Pipe, at, seg place.Ref, of string) Strength[units.Pascals] {
	if !p.CouplingInternal.Known() && !p.Leak.Known() {
		return Strength[units.Pascals]{Err: Lack(seg, "stated internal yield of %s (%s)", of, p.CouplingInternal.Missing)}
	}
	from := "leak resistance"
	switch {
	case p.Internal.Published == p.BodyInternal.Published:
		from = "pipe body"
	case p.CouplingInternal.Known() && p.Internal.Published == p.CouplingInternal.Published:
		from = "coupling"
	}
	return computed(p.Internal, nil, from, at)
}

func computed[Q ~float64](r pipe.Rating[Q], err error, from string, at place.Ref) Strength[Q] {
	if err == nil && !r.Known() {
		err = Lack(at, "a rating (%s)", r.Missing)
	}
	return Strength[Q]{Value: r.Published, Exact: r.Exact, From: from, Ref: at, Working: r.Working, Err: err}
}

// needs turns the error of a maker's own grade or connection into the stated
// rating it needs, and leaves any other.
func needs(err error, rating, of, what string) error {
	if err != nil && Proprietary(err) {
		return Missing{expr.Lack{Input: "stated " + rating + " rating of " + of + " (proprietary " + what + ")"}}
	}
	return err
}

// lesser is the lower of a computed rating and a stated one; the stated one
// alone where none can be computed, and without it the error that says so.
func lesser[Q ~float64](c Strength[Q], stated plan.Val[Q], lack error, seg place.Ref) Strength[Q] {
	switch {
	case stated.Known() && (c.Err != nil || stated.V < c.Value):
		return Strength[Q]{Value: stated.V, Exact: stated.V, From: "stated rating", Ref: stated.Ref}
	case c.Err == nil:
		return c
	}
	if lack == nil {
		lack = c.Err
	}
	var m Missing
	if errors.As(lack, &m) {
		for i := range m {
			if m[i].Ref == 0 {
				m[i].Ref = seg
			}
		}
	}
	c.Err = lack
	return c
}
