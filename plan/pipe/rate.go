package pipe

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Pipe is a casing with its API ratings: new, cold, unloaded.
type Pipe struct {
	Size       Size
	Grade      Grade
	Connection Connection
	Coupling   Coupling
	CouplingOD units.Meters // zero without a coupling

	Collapse         Rating[units.Pascals]
	BodyInternal     Rating[units.Pascals] // internal yield of the body
	CouplingInternal Rating[units.Pascals] // internal yield of the coupling
	Leak             Rating[units.Pascals] // leak resistance of the thread
	// Internal is the least of body, coupling and leak resistance; Governs names
	// which.
	Internal Rating[units.Pascals]

	BodyYield Rating[units.Newtons]
	Joint     Rating[units.Newtons]
	Torque    Torque

	MillTest        units.Pascals
	MillTestWorking expr.Working
}

// Rate looks a casing up as the trade names it and rates it. The error is a
// *NotFound, an *Unknown, or a *DomainError. A connection that isn't made in the
// size is no error: its ratings are missing and say why.
func Rate(od units.Meters, weight units.KgPerM, grade, connection string, k Coupling) (*Pipe, error) {
	s, err := Lookup(od, weight)
	if err != nil {
		return nil, err
	}
	g, err := ParseGrade(grade)
	if err != nil {
		return nil, err
	}
	c, err := ParseConnection(connection)
	if err != nil {
		return nil, err
	}
	return RateSize(s, g, c, k)
}

// RateSize rates a casing whose parts are known. The error is a *DomainError.
func RateSize(s Size, g Grade, c Connection, k Coupling) (*Pipe, error) {
	p := &Pipe{Size: s, Grade: g, Connection: c, Coupling: k}
	if made(s, c) == "" {
		p.CouplingOD = couplingOD(s, k)
	}
	if err := p.rateBody(); err != nil {
		return nil, err
	}
	if err := p.rateConnection(); err != nil {
		return nil, err
	}
	p.Internal = leastOf(p.BodyInternal, p.CouplingInternal, p.Leak)
	return p, nil
}

func (p *Pipe) rateBody() (err error) {
	b := BodyOf(p.Size, p.Grade)
	if p.Collapse, err = b.RateCollapse(); err != nil {
		return err
	}
	if p.BodyInternal, err = b.RateInternalYield(WallKept); err != nil {
		return err
	}
	if p.BodyYield, err = b.RateBodyYield(); err != nil {
		return err
	}
	p.MillTest, p.MillTestWorking, err = MillTest(p.Size, p.Grade)
	return err
}

func (p *Pipe) rateConnection() (err error) {
	if p.CouplingInternal, err = RateCouplingYield(p.Size, p.Grade, p.Connection, p.Coupling); err != nil {
		return err
	}
	if p.Leak, err = RateLeak(p.Size, p.Connection, p.Coupling); err != nil {
		return err
	}
	if p.Joint, err = RateJoint(p.Size, p.Grade, p.Connection, p.Coupling); err != nil {
		return err
	}
	p.Torque, err = MakeUp(p.Size, p.Grade, p.Connection)
	return err
}

// leastOf is the lowest published of the known ratings, the first of equals.
func leastOf(all ...Rating[units.Pascals]) Rating[units.Pascals] {
	least := all[0]
	for _, r := range all[1:] {
		if r.Known() && (!least.Known() || r.Published < least.Published) {
			least = r
		}
	}
	return least
}
