package well

import (
	"errors"

	"spudgate/plan/expr"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// scenario is one moment of a string's life: the pressures on it and how its
// axial force follows.
type scenario struct {
	from, to units.MD
	in, out  profile
	mud      profile    // what of out is mud; nil where that isn't asked
	edges    []units.MD // judged besides the string's own changes
	axial    axialMode
	extra    units.Newtons // pulled besides
	shock    units.Pascals // of a sudden stop
	heat     heat
	warm     bool // production has warmed the string since it was cemented
	note     string
	refs     []place.Ref
	working  []expr.Working
	lack     Missing // a moment that can't be made for want of these
}

// axialMode is how the axial force of a scenario is found.
type axialMode uint8

const (
	setFixed axialMode = iota // cement has set: as cemented, and what pressures change
	hanging                   // hangs free: its weight and the pressures on its ends
)

// heat is which temperature lowers the yield.
type heat uint8

const (
	static heat = iota // drilling
	hottest
	cold // running: none
)

// Kind is what a case loads.
type Kind uint8

// The kinds of case.
const (
	Burst Kind = iota
	Collapse
	Body  // axial, on the body
	Joint // axial, on the joint
	Triaxial
)

// StrengthLine is one judged place of a string in one case. All values are SI;
// a factor of zero is no load.
type StrengthLine struct {
	String  int
	Case    string
	Kind    Kind
	Segment int
	Label   string
	At      At
	Inside  units.Pascals
	Outside units.Pascals
	Axial   units.Newtons
	Load    float64 // net, Dim
	Rating  float64 // in that state, Dim
	Factor  float64
	Dim     units.Dim
	From    string // what gives the rating
	Ref     place.Ref
	Note    string
	Err     error // of a whole case: Missing, Absent or outside a formula
	spot    Spot
	of      *scenario
}

// StrengthResult is one case of one string: every judged place of every moment
// it covers and the least factor.
type StrengthResult struct {
	Lines []StrengthLine
	// Least is the line with the least factor; nil where no load acts.
	Least *StrengthLine
	// Gaps are inputs missing at some places while others gave a value.
	Gaps    Missing
	Refs    []place.Ref
	Note    string
	Working []expr.Working
}

// loadCase is one case of the design: a name, what it loads and its moments.
type loadCase struct {
	name string
	kind Kind
	make func(*Well, int) ([]scenario, error)
	// bent adds bending to an axial load.
	bent bool
}

type strengthKey struct {
	str  int
	name string
}

// Strength judges a case on a string. The error is Missing, Absent, or of a
// formula asked outside its domain.
func (w *Well) Strength(str int, name string) (*StrengthResult, error) {
	return once(w, strengthKey{str, name}, func() (*StrengthResult, error) {
		if c := caseNamed(name); c != nil {
			return w.judgeCase(str, c)
		}
		return nil, Absent("no case is called " + name)
	})
}

type momentsKey struct {
	str  int
	name string
}

// moments are the scenarios of a case, made once for all that ask.
func (w *Well) moments(str int, c *loadCase) ([]scenario, error) {
	return once(w, momentsKey{str, c.name}, func() ([]scenario, error) { return c.make(w, str) })
}

func (w *Well) judgeCase(str int, c *loadCase) (*StrengthResult, error) {
	list, err := w.moments(str, c)
	if err != nil {
		return nil, err
	}
	r := &StrengthResult{}
	var lack Missing
	for i := range list {
		if err := w.judgeMoment(str, c, &list[i], r, &lack); err != nil {
			return nil, err
		}
	}
	r.Gaps = lack
	w.choose(r)
	if r.Least == nil && len(lack) > 0 {
		return nil, lack // what is known bears nothing
	}
	return r, nil
}

// choose finds the least factor and dresses the result with its moment.
func (w *Well) choose(r *StrengthResult) {
	for i := range r.Lines {
		l := &r.Lines[i]
		if l.Factor > 0 && (r.Least == nil || l.Factor < r.Least.Factor) {
			r.Least = l
		}
	}
	if r.Least == nil {
		return
	}
	r.Refs = append([]place.Ref{r.Least.Ref}, r.Least.of.refs...)
	r.Note = joined(r.Least.of.note, r.Least.Note)
	r.Working = append(r.Working, r.Least.of.working...)
	r.Working = append(r.Working, w.lineWorking(r.Least)...)
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

// judgeMoment judges every place a scenario acts on. Inputs missing at a place
// are collected; any other error is returned.
func (w *Well) judgeMoment(str int, c *loadCase, s *scenario, r *StrengthResult, lack *Missing) error {
	if len(s.lack) > 0 {
		lack.add(s.lack)
		return nil
	}
	spots, forces, err := w.forces(str, s, c.kind != Burst)
	if err != nil {
		return err
	}
	for i, at := range spots {
		if !at.within(s.from, s.to) {
			continue
		}
		l, err := w.judgeSpot(str, c, s, at, forces, i)
		var m Missing
		switch {
		case err == nil:
			r.Lines = append(r.Lines, l)
		case errors.As(err, &m):
			lack.add(m)
		default:
			return err
		}
	}
	return nil
}

// add collects missing inputs, each once.
func (m *Missing) add(more Missing) {
	for _, l := range more {
		known := false
		for _, have := range *m {
			known = known || have.Input == l.Input
		}
		if !known {
			*m = append(*m, l)
		}
	}
}

func (w *Well) judgeSpot(str int, c *loadCase, s *scenario, at Spot, forces []units.Newtons, i int) (StrengthLine, error) {
	p, err := w.Rated(str, at.Seg)
	if err != nil {
		return StrengthLine{}, err
	}
	l := StrengthLine{String: str, Case: c.name, Kind: c.kind, Segment: at.Seg, Label: p.Plan.Label(), Ref: p.Plan.Ref, spot: at, of: s}
	l.At = w.at(at)
	if l.Inside, err = s.in(at); err != nil {
		return l, err
	}
	if l.Outside, err = s.out(at); err != nil {
		return l, err
	}
	if forces != nil {
		l.Axial = forces[i]
	}
	soft, err := w.softening(s.heat, at.TVD)
	if err != nil {
		return l, err
	}
	switch c.kind {
	case Burst:
		return l, w.burst(&l, p, soft)
	case Collapse:
		return l, w.collapse(&l, p, soft)
	case Body, Joint:
		return l, w.pulled(&l, p, soft, c)
	}
	return l, w.triaxial(&l, p, soft)
}

func (w *Well) at(s Spot) At {
	at := AtTVD(s.TVD, "")
	at.MD.V, at.MD.Ref = s.MD, worked
	return at
}

// softening is the share of yield left in the heat of a place, only where the
// plan gives temperatures.
func (w *Well) softening(h heat, z units.TVD) (units.Fraction, error) {
	if h == cold || len(w.Plan.Temperatures) == 0 {
		return 1, nil
	}
	t, stated := w.Temperature(z)
	if !stated && len(w.statics()) > 0 {
		return 0, w.staticLack(z) // never extrapolated: hotter pipe is weaker
	}
	if !stated { // the plan gives temperatures, and no static one
		return 1, nil
	}
	if h == hottest {
		for i := range w.Plan.Temperatures {
			if f := w.Plan.Temperatures[i].Flowing; f.Known() && f.V > t {
				t = f.V
			}
		}
	}
	f, _, err := pipe.YieldFactor(t, pipe.UsualLoss)
	return f, err
}

// burst is the factor against internal yield of the net inside pressure.
func (w *Well) burst(l *StrengthLine, p *Rated, soft units.Fraction) error {
	l.Dim, l.Load = units.Pressure, float64(l.Inside-l.Outside)
	if l.Load <= 0 {
		l.Load = 0
		return nil
	}
	rating, err := p.internal(soft)
	if err != nil {
		return err
	}
	l.From, l.Rating = p.Internal.From, float64(rating)
	l.Factor = l.Rating / l.Load
	return nil
}

// internal is the internal yield in a state: less wear, less heat; for pipe
// whose wall was measured by that wall instead of 0.875.
func (p *Rated) internal(soft units.Fraction) (units.Pascals, error) {
	if p.Internal.Err != nil {
		return 0, p.Internal.Err
	}
	share := soft * (1 - p.Plan.Wear.Or(0))
	if m := p.Plan.MeasuredWall; m.Known() && p.Internal.From == "pipe body" {
		share *= m.V / pipe.WallKept
	}
	return p.Internal.Value * units.Pascals(share), nil
}

// collapse is the factor against collapse under the axial force of the moment.
func (w *Well) collapse(l *StrengthLine, p *Rated, soft units.Fraction) error {
	l.Dim = units.Pressure
	e := w.edition()
	wall := p.Body.Wall * units.Meters(1-p.wear())
	load, _, err := pipe.CollapseLoad(e, l.Outside, l.Inside, p.Body.OD, wall)
	if err != nil {
		return err
	}
	l.Load = float64(max(load, 0))
	if load <= 0 {
		return nil
	}
	rating, err := p.collapseUnder(l, e, soft)
	if err != nil {
		return err
	}
	l.From, l.Rating = p.Collapse.From, float64(rating)
	l.Factor = l.Rating / l.Load
	if l.of.mud != nil {
		if mud, err := l.of.mud(l.spot); err == nil && l.Outside > mud+1 {
			l.Note = "pore pressure outside governs, the mud is lighter"
		}
	}
	return nil
}

// wear is the share of nominal wall gone: worn, and found thinner by measuring.
func (p *Rated) wear() units.Fraction {
	return 1 - (1-p.Plan.Wear.Or(0))*min(p.Plan.MeasuredWall.Or(1), 1)
}

func (p *Rated) state(l *StrengthLine, e pipe.Edition, soft units.Fraction) pipe.State {
	return pipe.State{Axial: l.Axial, Inside: max(l.Inside, 0), Wear: p.wear(), YieldFactor: soft, Edition: e}
}

func (p *Rated) collapseUnder(l *StrengthLine, e pipe.Edition, soft units.Fraction) (units.Pascals, error) {
	if p.Collapse.Err != nil {
		return 0, p.Collapse.Err
	}
	if p.Body.Yield == 0 {
		return 0, Lack(p.Plan.Ref, "minimum yield strength of %s (proprietary grade)", p.Plan.Label())
	}
	under, _, err := p.Body.CollapseUnder(p.state(l, e, soft))
	if err != nil {
		return 0, err
	}
	plain, _, err := p.Body.Collapse()
	if err != nil {
		return 0, err
	}
	return pipe.Judged(p.Collapse.Value, under, plain)
}
