package well

import (
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// PlacementMargin is a column of a job against the rock at the place and the
// moment where least is left.
type PlacementMargin struct {
	RockMargin
	PlacementAt
}

// PlacementAt is a moment of a job and the hole that it is followed in.
type PlacementAt struct {
	Step int
	Hole JobHole
}

// counts reports why friction can't be counted; nil where it is or isn't wanted.
func (p *Placement) counts(moving bool) error {
	if moving && !p.Friction {
		return p.Lacks.orNil()
	}
	return nil
}

// everyStep asks for the step of a job where least is left.
const everyStep = -1

// PlacementUnderFracture is the least left under fracture pressure, low
// estimate, at any moment of a stage and any place of the open hole: standing
// still, or moving with friction in the annulus counted. The worse of the planned
// hole and one at gauge, unless a caliper has told which it is.
func (w *Well) PlacementUnderFracture(str, st int, moving bool) (PlacementMargin, error) {
	return worstHole(w, str, st, func(h JobHole) (PlacementMargin, error) {
		return w.underFracture(str, st, h, moving, everyStep)
	}, marginLeft)
}

func marginLeft(m PlacementMargin) float64 { return float64(m.Spare) }

func (w *Well) underFracture(str, st int, h JobHole, moving bool, step int) (PlacementMargin, error) {
	p, err := w.openPlacement(str, st, h, moving)
	if err != nil {
		return PlacementMargin{}, err
	}
	return p.least(0, p.Rock, step, moving, func(md units.MD) (units.Pascals, place.Ref, error) {
		z, err := w.TVD(md)
		if err != nil {
			return 0, 0, err
		}
		return w.Fracture(z, Low)
	}, func(column, rock units.Pascals) units.Pascals { return rock - column })
}

// PlacementOverPore is the least by which the column stands over pore pressure,
// high estimate, at any moment of a stage and any open zone that can flow.
// Standing still: friction only adds. The worse hole as for fracture pressure.
func (w *Well) PlacementOverPore(str, st int) (PlacementMargin, error) {
	return worstHole(w, str, st, func(h JobHole) (PlacementMargin, error) {
		return w.overPore(str, st, h, everyStep)
	}, marginLeft)
}

func (w *Well) overPore(str, st int, h JobHole, step int) (PlacementMargin, error) {
	p, err := w.openPlacement(str, st, h, false)
	if err != nil {
		return PlacementMargin{}, err
	}
	if p.Flows == 0 {
		return PlacementMargin{}, Absent("no zone that can flow is open")
	}
	return p.least(p.Rock, p.Rock+p.Flows, step, false, func(md units.MD) (units.Pascals, place.Ref, error) {
		z, err := w.TVD(md)
		if err != nil {
			return 0, 0, err
		}
		return w.Pore(z, High)
	}, func(column, rock units.Pascals) units.Pascals { return column - rock })
}

func (w *Well) openPlacement(str, st int, h JobHole, moving bool) (*Placement, error) {
	p, err := w.PlacementFor(str, st, h)
	if err != nil {
		return nil, err
	}
	if _, _, err := w.openTo(str, st); err != nil {
		return nil, err
	}
	return p, p.counts(moving)
}

// sumNoise is what the sum of a column may wander by while nothing changes, Pa.
const sumNoise = 0.01

// least is the least spare of the watched depths from one to before another, at
// a step or at every one.
func (p *Placement) least(from, to, step int, moving bool, rock func(units.MD) (units.Pascals, place.Ref, error), spare func(column, rock units.Pascals) units.Pascals) (PlacementMargin, error) {
	var worst PlacementMargin
	first := true
	start, end := step, step+1
	if step == everyStep {
		start, end = 0, len(p.Steps)
	}
	for i := from; i < to; i++ {
		limit, ref, err := rock(p.Watched[i])
		if err != nil {
			return worst, err
		}
		for k := start; k < end; k++ {
			column := p.Steps[k].Still[i]
			if moving {
				column = p.Steps[k].Moving[i]
			}
			if s := spare(column, limit); first || s < worst.Spare-sumNoise {
				worst = PlacementMargin{RockMargin{p.Watched[i], column, limit, s, ref}, PlacementAt{k, p.Hole}}
				first = false
			}
		}
	}
	return worst, nil
}

// PlacementHead is the greatest pressure at the head while a stage is pumped and
// when it comes: columns standing still, or with friction in pipe and annulus. In
// the hole, planned or at gauge, that asks more.
func (w *Well) PlacementHead(str, st int, moving bool) (units.Pascals, PlacementAt, error) {
	m, err := worstHole(w, str, st, func(h JobHole) (headPressure, error) {
		return w.headIn(str, st, h, moving)
	}, headLeft)
	return m.Pressure, m.PlacementAt, err
}

type headPressure struct {
	Pressure units.Pascals
	PlacementAt
}

func headLeft(m headPressure) float64 { return -float64(m.Pressure) }

func (w *Well) headIn(str, st int, h JobHole, moving bool) (headPressure, error) {
	p, err := w.PlacementFor(str, st, h)
	if err != nil {
		return headPressure{}, err
	}
	most := headPressure{PlacementAt: PlacementAt{Hole: p.Hole}}
	for k := range p.Steps {
		if v := head(&p.Steps[k], moving); v > most.Pressure {
			most.Pressure, most.Step = v, k
		}
	}
	return most, p.counts(moving)
}

func (p *Placement) last() fluid.Step { return p.Steps[len(p.Steps)-1] }

// PlacementEnd is the pressure at the head just before the plug lands, in the
// hole that asks more.
func (w *Well) PlacementEnd(str, st int, moving bool) (units.Pascals, PlacementAt, error) {
	m, err := worstHole(w, str, st, func(h JobHole) (headPressure, error) {
		p, err := w.PlacementFor(str, st, h)
		if err != nil {
			return headPressure{}, err
		}
		last := p.last()
		return headPressure{head(&last, moving), PlacementAt{len(p.Steps) - 1, p.Hole}}, p.counts(moving)
	}, headLeft)
	return m.Pressure, m.PlacementAt, err
}

// FreeFall is the longest empty length under the head while a stage is pumped,
// and the step it comes at.
func (w *Well) FreeFall(str, st int) (units.MD, int, error) {
	p, err := w.Placement(str, st)
	if err != nil {
		return 0, 0, err
	}
	most, at := units.MD(0), 0
	for k := range p.Steps {
		if p.Steps[k].Air > most {
			most, at = p.Steps[k].Air, k
		}
	}
	return most, at, nil
}

// FrontContact is how long spacers and preflushes stand at a depth outside a
// string before the slurry comes, by the history of their fronts. Where the
// slurry doesn't come, nothing is to be cleaned.
func (w *Well) FrontContact(str, st int, md units.MD) (units.Seconds, error) {
	p, err := w.Placement(str, st)
	if err != nil {
		return 0, err
	}
	behind := 0
	for behind < len(p.Plan.Fluids) && !slurry(&p.Plan.Fluids[behind]) && p.Plan.Fluids[behind].Kind.V != "scavenger" {
		behind++
	}
	if behind == 0 {
		return 0, Absent("no spacer or preflush is pumped ahead")
	}
	if !p.Timed {
		var missing Missing
		for _, l := range p.Lacks {
			if l.Ref == p.Plan.Ref {
				missing = append(missing, l)
			}
		}
		return 0, missing.orNil()
	}
	to, ok := p.passes(behind, md)
	if !ok {
		return 0, Absent("the slurry doesn't reach it")
	}
	from, _ := p.passes(0, md) // what goes ahead came by before
	return to - from, nil
}

// passes is when a front comes by a depth of the annulus on its way up.
func (p *Placement) passes(front int, md units.MD) (units.Seconds, bool) {
	for k := 1; k < len(p.Steps); k++ {
		a, b := p.Steps[k-1].Fronts[front], p.Steps[k].Fronts[front]
		if !b.Ring || !b.Out && b.MD > md {
			continue
		}
		from, to := p.Steps[k-1].Time, p.Steps[k].Time
		if !a.Ring || b.Out || a.MD <= b.MD {
			return to, true
		}
		return from + units.Seconds(float64(a.MD-md)/float64(a.MD-b.MD))*(to-from), true
	}
	return 0, false
}

// head is the pressure at the surface at a step.
func head(s *fluid.Step, moving bool) units.Pascals {
	if moving {
		return s.Head
	}
	return s.Static
}
