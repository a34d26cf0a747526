package well

import (
	"slices"

	"spudgate/plan"
	"spudgate/plan/units"
)

// What fills a length of the way besides the fluids of a stage.
const (
	MudFill   = -1 // mud that was there before
	EmptyFill = -2 // nothing: the pipe has run empty under the head
)

// Fill is a length of the way that one fluid fills.
type Fill struct {
	Fluid    int // by the order of pumping, or MudFill, or EmptyFill
	From, To units.MD
}

// Fills are what stands in the pipe and in the annulus at a step, from the top
// down.
func (p *Placement) Fills(step int) (inside, outside []Fill) {
	s := &p.Steps[step]
	top := s.AirTo - s.Air
	if s.Air > 0 {
		inside = append(inside, Fill{EmptyFill, top, s.AirTo})
	}
	for i := len(p.Parcels) - 1; i >= 0; i-- {
		head, tail := s.Fronts[i], s.Fronts[i+1]
		if head.Waiting || tail.Ring {
			continue
		}
		to := head.MD
		if head.Ring {
			to = p.Exit
		}
		inside = filled(inside, Fill{i, tail.MD, to})
	}
	if first := s.Fronts[0]; !first.Ring {
		inside = filled(inside, Fill{MudFill, first.MD, p.Exit})
	}
	at := p.route.Ring.Intervals()[0].From
	for i := range s.Fronts {
		next, to := s.Fronts[i], p.Exit
		if next.Ring {
			to = max(next.MD, at)
		}
		outside, at = filled(outside, Fill{i - 1, at, to}), to // what stands over a front was pumped before it
		if !next.Ring {
			break
		}
	}
	return inside, outside
}

func filled(list []Fill, f Fill) []Fill {
	if f.To-f.From < 1e-9 {
		return list
	}
	return append(list, f)
}

// Landed reports whether the top plug has landed at the end of the job.
func (p *Placement) Landed() bool {
	return p.route.Lands > 0 && p.last().Moved >= p.route.Lands*(1-1e-9)
}

// Moment is a step of a job at which something happens.
type Moment struct {
	Step   int
	Events []string
	Told   bool // the columns then are worth a picture
}

// PlacementMoments are the steps of a stage that a reader asks about, in order:
// its start, where each fluid begins, cement at the exit, the worst of pressure
// at the rock and the head, free fall and lift, and the end.
func (w *Well) PlacementMoments(str, st int) ([]Moment, error) {
	p, err := w.Placement(str, st)
	if err != nil {
		return nil, err
	}
	var out []Moment
	add := func(step int, event string, told bool) {
		i, found := slices.BinarySearchFunc(out, step, func(m Moment, step int) int { return m.Step - step })
		if !found {
			out = slices.Insert(out, i, Moment{Step: step})
		}
		out[i].Events, out[i].Told = append(out[i].Events, event), out[i].Told || told
	}
	add(0, "start", true)
	for i := 1; i < len(p.Parcels); i++ {
		if k := p.lastOf(i - 1); k > 0 {
			add(k, p.Parcels[i].Name+" begins", false)
		}
	}
	if k, ok := p.CementAtExit(); ok {
		add(k, "cement is out of the string", true)
	}
	w.worstMoments(p, add)
	switch end := len(p.Steps) - 1; {
	case p.Landed():
		add(end, "plug lands", true)
	default:
		add(end, "all is pumped", true)
	}
	return out, nil
}

// lastOf is the last step at which a fluid is pumped; 0 where none is.
func (p *Placement) lastOf(parcel int) int {
	k := 0
	for i := range p.Steps[1:] {
		if p.Steps[i+1].Parcel == parcel {
			k = i + 1
		}
	}
	return k
}

// CementAtExit is the first step with cement in the annulus.
func (p *Placement) CementAtExit() (step int, ok bool) {
	first := slices.IndexFunc(p.Plan.Fluids, func(f plan.Fluid) bool { return slurry(&f) })
	if first < 0 {
		return 0, false
	}
	for k := range p.Steps {
		if f := p.Steps[k].Fronts[first]; f.Ring && !f.Waiting {
			return k, true
		}
	}
	return 0, false
}

// worstMoments adds the steps where least is left, or most is asked.
func (w *Well) worstMoments(p *Placement, add func(int, string, bool)) {
	if m, err := w.underFracture(p.String, p.Stage, p.Hole, p.Friction, everyStep); err == nil {
		add(m.Step, "least under fracture"+w.ruledBy(p), true)
	}
	if m, err := w.overPore(p.String, p.Stage, p.Hole, everyStep); err == nil {
		add(m.Step, "least over pore", false)
	}
	if m, err := w.headIn(p.String, p.Stage, p.Hole, p.Friction); err == nil && m.Pressure > 0 {
		add(m.Step, "most at the surface", false)
	}
	if a, k, err := w.FreeFall(p.String, p.Stage); err == nil && a > 0 {
		add(k, "longest free fall", true)
	}
	if l, err := w.lift(p.String, p.Stage, p.Hole, p.Friction, everyStep); err == nil {
		add(l.Step, "least against lift", false)
	}
}

// ruledBy says that the rock is judged by a gauge hole, where more stands on it
// than in the hole that is told of.
func (w *Well) ruledBy(p *Placement) string {
	m, err := w.PlacementUnderFracture(p.String, p.Stage, p.Friction)
	if err != nil || m.Hole == p.Hole {
		return ""
	}
	return " here, less " + m.Hole.String()
}

// PlacementLine is a moment of a job in numbers. A number that can't be given
// carries the reason.
type PlacementLine struct {
	String, Stage int
	Moment
	Moving bool // friction is in Under, Lift and Head
	Under  PlacementMargin
	Over   PlacementMargin
	Lift   StringLift

	UnderErr, OverErr, LiftErr error
}

// PlacementLines are the moments of a stage with what is left at each.
func (w *Well) PlacementLines(str, st int) ([]PlacementLine, error) {
	p, err := w.Placement(str, st)
	if err != nil {
		return nil, err
	}
	moments, err := w.PlacementMoments(str, st)
	if err != nil {
		return nil, err
	}
	var out []PlacementLine
	for _, m := range moments {
		l := PlacementLine{String: str, Stage: st, Moment: m, Moving: p.Friction}
		l.Under, l.UnderErr = w.underFracture(str, st, p.Hole, p.Friction, m.Step)
		l.Over, l.OverErr = w.overPore(str, st, p.Hole, m.Step)
		l.Lift, l.LiftErr = w.lift(str, st, p.Hole, p.Friction, m.Step)
		out = append(out, l)
	}
	return out, nil
}

// PlacementSpot is a depth outside whose pressure is followed through a job,
// with what the rock holds there where that is known.
type PlacementSpot struct {
	MD            units.MD
	Weakest       bool            // least is left under fracture pressure here
	Still, Moving []units.Pascals // of each step; without friction both are the same
	Fracture      units.Pascals   // low estimate; zero where not known
	Pore          units.Pascals   // high estimate; zero where not known
}

// PlacementSpots are the exit and, where it is another depth, the place where
// least is left under fracture pressure.
func (w *Well) PlacementSpots(str, st int) ([]PlacementSpot, error) {
	p, err := w.Placement(str, st)
	if err != nil {
		return nil, err
	}
	out := []PlacementSpot{w.spot(p, len(p.Watched)-1)}
	m, err := w.underFracture(str, st, p.Hole, p.Friction, everyStep)
	i := slices.Index(p.Watched, m.MD)
	switch {
	case err != nil || i < 0 || p.Rock == 0:
		return out, nil
	case p.Exit-m.MD > 1e-6:
		out = append(out, w.spot(p, i))
	}
	out[len(out)-1].Weakest = true
	return out, nil
}

func (w *Well) spot(p *Placement, i int) PlacementSpot {
	s := PlacementSpot{MD: p.Watched[i]}
	for k := range p.Steps {
		s.Still, s.Moving = append(s.Still, p.Steps[k].Still[i]), append(s.Moving, p.Steps[k].Moving[i])
	}
	z, err := w.TVD(s.MD)
	if err != nil || p.Rock == 0 { // all behind the string is cased
		return s
	}
	if v, _, err := w.Fracture(z, Low); err == nil {
		s.Fracture = v
	}
	if v, _, err := w.Pore(z, High); err == nil {
		s.Pore = v
	}
	return s
}
