package well

import (
	"sort"
	"spudgate/plan"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// FluidTop is how high a slurry of a stage rises by the volumes.
type FluidTop struct {
	Fluid int
	Top   units.MD
}

// FluidTops are the tops of the slurries of a stage by volume, in pumping
// order: the last one pumped stands lowest, less what stays in the shoe track.
func (w *Well) FluidTops(str, st int) ([]FluidTop, error) {
	return w.fluidTops(str, st, OneHole)
}

func (w *Well) fluidTops(str, st int, h JobHole) ([]FluidTop, error) {
	c, err := w.CementStage(str, st)
	if err != nil {
		return nil, err
	}
	var out []FluidTop
	sum := -c.Track
	for i := len(c.Plan.Fluids) - 1; i >= 0; i-- {
		f := &c.Plan.Fluids[i]
		if !slurry(f) {
			continue
		}
		v, _, err := w.FluidVolume(f)
		if err != nil {
			return nil, err
		}
		sum += v
		t, err := c.annulusIn(h).TopFromVolume(max(sum, 0), c.From)
		if err != nil {
			return nil, Unusable(err, f.Ref, "a usable volume of "+f.Name.V)
		}
		out = append(out, FluidTop{i, t.MD})
	}
	reverse(out)
	return out, nil
}

// endLayers are the slurries in the annulus at the end of a stage: by volume,
// else by their planned tops.
func (w *Well) endLayers(str, st int) ([]layer, error) { return w.layersIn(str, st, OneHole) }

func (w *Well) layersIn(str, st int, h JobHole) ([]layer, error) {
	s := &w.Plan.Strings[str]
	p := &s.Stages[st]
	tops, err := w.fluidTops(str, st, h)
	if err != nil {
		top, _, ok := w.StatedTop(str, st)
		if !ok || !topsTold(p) {
			return nil, err // which slurry stands where isn't known
		}
		return cementLayers(s, p, top)
	}
	var out []layer
	for _, t := range tops {
		f := &p.Fluids[t.Fluid]
		if !f.Density.Known() {
			return nil, Lack(f.Ref, "the density of %s of %s", f.Name.V, s.Name.V)
		}
		out = append(out, layer{t.Top, f.Density.V})
	}
	return out, nil
}

// topsTold reports whether a stage tells where each of its slurries ends: the
// first reaches the top of cement, the others say.
func topsTold(st *plan.Stage) bool {
	first := true
	for i := range st.Fluids {
		f := &st.Fluids[i]
		if !slurry(f) {
			continue
		}
		if !first && !f.Top.Known() {
			return false
		}
		first = false
	}
	return true
}

// EndColumn is the pressure of the annulus at a depth when a stage has just
// been pumped and stands still: mud over the slurries, spacers taken as mud. The
// hole is that of the plan's volumes.
func (w *Well) EndColumn(str, st int, md units.MD) (units.Pascals, error) {
	return w.endColumnAt(str, st, OneHole, md)
}

func (w *Well) endColumnAt(str, st int, h JobHole, md units.MD) (units.Pascals, error) {
	p, err := w.endColumn(str, st, h)
	if err != nil {
		return 0, err
	}
	z, err := w.TVD(md)
	if err != nil {
		return 0, err
	}
	return p(Spot{MD: md, TVD: z, Below: true})
}

type endColumnKey struct {
	str, st int
	gauge   bool
}

func (w *Well) endColumn(str, st int, h JobHole) (profile, error) {
	return once(w, endColumnKey{str, st, h == InGauge}, func() (profile, error) {
		layers, err := w.layersIn(str, st, h)
		if err != nil {
			return nil, err
		}
		o, err := w.outerOf(str)
		if err != nil {
			return nil, err
		}
		p, _, err := w.stack(o, layers)
		return p, err
	})
}

// RockMargin is an annular column against the rock at the place where least is
// left.
type RockMargin struct {
	MD           units.MD
	Column, Rock units.Pascals
	Spare        units.Pascals
	Ref          place.Ref // of the rock's pressure
}

// EndMargin is a RockMargin at the end of a stage, and the hole it is least in.
type EndMargin struct {
	RockMargin
	Hole JobHole
}

// unjudged is how far below the ground or the sea bed an open hole isn't judged,
// m: as deep as a cellar. Fracture pressure and column both go to nothing there,
// so that what is left between them does too, whatever the rock further down
// holds; and what is lost comes up beside the pipe.
const unjudged = 15

// openTo is the open hole that a stage is pumped into and that is judged, along
// the hole.
func (w *Well) openTo(str, st int) (from, to units.MD, err error) {
	o, err := w.outerOf(str)
	if err != nil {
		return 0, 0, err
	}
	if to, _, _, err = w.StagePath(str, st); err != nil {
		if to, err = w.shoeOf(&w.Plan.Strings[str]); err != nil {
			return 0, 0, err
		}
	}
	if to <= o.previous {
		return 0, 0, Absent("the stage is pumped behind casing only")
	}
	ground, _, _ := w.Surroundings() // zero where not stated: then more is judged, not less
	if from, err = w.MD(ground + unjudged); err != nil {
		return 0, 0, err
	}
	if from = max(from, o.previous); to <= from {
		return 0, 0, Absent("the hole is no deeper than a cellar")
	}
	return from, to, nil
}

// CementUnderFracture is what is left between the column at the end of a stage
// and the low estimate of fracture pressure, at the weakest place of the open
// hole: in the planned hole, or in one at gauge, where the volumes rise higher,
// if less is left there. Nothing moves: friction isn't in it.
func (w *Well) CementUnderFracture(str, st int) (EndMargin, error) {
	from, to, err := w.openTo(str, st)
	if err != nil {
		return EndMargin{}, err
	}
	depths, err := w.rockDepths(from, to)
	if err != nil {
		return EndMargin{}, err
	}
	return w.leastMargin(str, st, depths, func(md units.MD, z units.TVD, column units.Pascals) (RockMargin, error) {
		rock, ref, err := w.Fracture(z, Low)
		return RockMargin{md, column, rock, rock - column, ref}, err
	})
}

// rockDepths are the depths of an open hole at which its fracture pressure is
// judged: the ends, the formations and the rows of the curve.
func (w *Well) rockDepths(from, to units.MD) ([]units.MD, error) {
	out := w.turns(from, to)
	for i := range w.Plan.Formations {
		if md, _, _, err := w.FormationTop(i); err == nil && md > from && md < to {
			out = append(out, md)
		}
	}
	for _, z := range w.Curve(FracturePressure, Low).Rows(0, units.TVD(1e5)) {
		if md, err := w.MD(z); err == nil && md > from && md < to {
			out = append(out, md)
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out, nil
}

// CementOverPore is how far the column at the end of a stage stands over the
// high estimate of pore pressure, at the zone that can flow where least is
// left; the worse hole as for fracture pressure.
func (w *Well) CementOverPore(str, st int) (EndMargin, error) {
	from, to, err := w.openTo(str, st)
	if err != nil {
		return EndMargin{}, err
	}
	var depths []units.MD
	for i := range w.Plan.Formations {
		md, _, _, err := w.FormationTop(i)
		if flows, _ := w.CanFlow(i); err == nil && flows && md >= from && md < to {
			depths = append(depths, md)
		}
	}
	if len(depths) == 0 {
		return EndMargin{}, Absent("no zone that can flow is open")
	}
	return w.leastMargin(str, st, depths, func(md units.MD, z units.TVD, column units.Pascals) (RockMargin, error) {
		rock, ref, err := w.Pore(z, High)
		return RockMargin{md, column, rock, column - rock, ref}, err
	})
}

type marginAt func(md units.MD, z units.TVD, column units.Pascals) (RockMargin, error)

func (w *Well) leastMargin(str, st int, depths []units.MD, at marginAt) (EndMargin, error) {
	return worstHole(w, str, st, func(h JobHole) (EndMargin, error) {
		m, err := w.marginIn(str, st, h, depths, at)
		return EndMargin{m, h}, err
	}, func(m EndMargin) float64 { return float64(m.Spare) })
}

func (w *Well) marginIn(str, st int, h JobHole, depths []units.MD, at marginAt) (RockMargin, error) {
	var worst RockMargin
	for i, md := range depths {
		z, err := w.TVD(md)
		if err != nil {
			return worst, err
		}
		column, err := w.endColumnAt(str, st, h, md)
		if err != nil {
			return worst, err
		}
		m, err := at(md, z, column)
		if err != nil {
			return worst, err
		}
		if i == 0 || m.Spare < worst.Spare {
			worst = m
		}
	}
	return worst, nil
}

// FloatDifferential is the pressure outside less that inside at the collar the
// plug lands on, when a stage has been pumped and nothing moves.
func (w *Well) FloatDifferential(str, st int) (outside, inside units.Pascals, at units.MD, err error) {
	_, at, _, err = w.StagePath(str, st)
	if err != nil {
		return 0, 0, 0, err
	}
	if outside, err = w.EndColumn(str, st, at); err != nil {
		return 0, 0, at, err
	}
	rho, _, err := w.displacement(str, &w.Plan.Strings[str].Stages[st])
	if err != nil {
		return 0, 0, at, err
	}
	z, err := w.TVD(at)
	return outside, units.Hydrostatic(rho, z), at, err
}
