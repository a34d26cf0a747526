package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Pumped is the greatest surface pressure of a string's cement jobs.
type Pumped struct {
	Pressure units.Pascals
	Stage    int
	Bump     bool // it is that of the bump as stated
	Moving   bool // friction is counted
	Ref      place.Ref
}

// MostPumped is the greatest pressure the cementing line sees over the jobs of a
// string: while pumping, friction counted where every rheology and rate is
// given, and at the bump as stated.
func (w *Well) MostPumped(str int) (most Pumped, err error) {
	s := &w.Plan.Strings[str]
	if s.Existing.V || len(s.Stages) == 0 {
		return most, Absent("no cement is pumped")
	}
	followed := false
	for st := range s.Stages {
		p, err := w.Placement(str, st)
		if isAbsent(err) {
			continue
		}
		if err != nil {
			return most, err
		}
		followed = true
		head, _, err := w.PlacementHead(str, st, p.Friction)
		if err != nil {
			return most, err
		}
		if head >= most.Pressure {
			most = Pumped{head, st, false, p.Friction, s.Stages[st].Ref}
		}
		if b := bumpOf(&s.Stages[st], s); b.Known() && b.V > most.Pressure {
			most = Pumped{b.V, st, true, p.Friction, b.Ref}
		}
	}
	if !followed {
		return most, Absent("no job of the string is followed down its own path")
	}
	return most, nil
}
