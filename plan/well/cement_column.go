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
		t, err := c.Annulus.TopFromVolume(max(sum, 0), c.From)
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
func (w *Well) endLayers(str, st int) ([]layer, error) {
	s := &w.Plan.Strings[str]
	p := &s.Stages[st]
	tops, err := w.FluidTops(str, st)
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
// been pumped and stands still: mud over the slurries, spacers taken as mud.
func (w *Well) EndColumn(str, st int, md units.MD) (units.Pascals, error) {
	p, err := w.endColumn(str, st)
	if err != nil {
		return 0, err
	}
	z, err := w.TVD(md)
	if err != nil {
		return 0, err
	}
	return p(Spot{MD: md, TVD: z, Below: true})
}

type endColumnKey struct{ str, st int }

func (w *Well) endColumn(str, st int) (profile, error) {
	return once(w, endColumnKey{str, st}, func() (profile, error) {
		layers, err := w.endLayers(str, st)
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

// openTo is the open hole that a stage is pumped into, along the hole.
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
	return o.previous, to, nil
}

// CementUnderFracture is what is left between the column at the end of a stage
// and the low estimate of fracture pressure, at the weakest place of the open
// hole. Nothing moves: friction isn't in it.
func (w *Well) CementUnderFracture(str, st int) (RockMargin, error) {
	from, to, err := w.openTo(str, st)
	if err != nil {
		return RockMargin{}, err
	}
	depths, err := w.rockDepths(from, to)
	if err != nil {
		return RockMargin{}, err
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
// left.
func (w *Well) CementOverPore(str, st int) (RockMargin, error) {
	from, to, err := w.openTo(str, st)
	if err != nil {
		return RockMargin{}, err
	}
	var depths []units.MD
	for i := range w.Plan.Formations {
		md, _, _, err := w.FormationTop(i)
		if flows, _ := w.CanFlow(i); err == nil && flows && md >= from && md < to {
			depths = append(depths, md)
		}
	}
	if len(depths) == 0 {
		return RockMargin{}, Absent("no zone that can flow is open")
	}
	return w.leastMargin(str, st, depths, func(md units.MD, z units.TVD, column units.Pascals) (RockMargin, error) {
		rock, ref, err := w.Pore(z, High)
		return RockMargin{md, column, rock, column - rock, ref}, err
	})
}

func (w *Well) leastMargin(str, st int, depths []units.MD, at func(units.MD, units.TVD, units.Pascals) (RockMargin, error)) (RockMargin, error) {
	var worst RockMargin
	for i, md := range depths {
		z, err := w.TVD(md)
		if err != nil {
			return worst, err
		}
		column, err := w.EndColumn(str, st, md)
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
