package well

import (
	"math"
	"sort"

	"spudgate/plan/pipe"
	"spudgate/plan/survey"
	"spudgate/plan/units"
)

// areas are the inside and outside area of a segment, m2.
func (p *Rated) areas() (in, out float64) {
	d, id := float64(p.Body.OD), float64(p.Body.OD-2*p.Body.Wall)
	return math.Pi / 4 * id * id, math.Pi / 4 * d * d
}

// hung is the axial force of a string that hangs free in its own columns, by
// pressure and area: at its closed or open bottom the effective force
// (force less p_i A_i, plus p_e A_o) is zero; upward it grows by weight in air,
// vertical part, plus what the columns change inside and outside. That is the
// pressure-area force, each change of area counted.
func (w *Well) hung(str int, spots []Spot, in, out profile) ([]units.Newtons, error) {
	forces := make([]units.Newtons, len(spots))
	effective := 0.0
	var deeper struct{ z, in, out float64 }
	for i := len(spots) - 1; i >= 0; i-- {
		s := spots[i]
		p, err := w.Rated(str, s.Seg)
		if err != nil {
			return nil, err
		}
		pi, err := in(s)
		if err != nil {
			return nil, err
		}
		pe, err := out(s)
		if err != nil {
			return nil, err
		}
		ai, ao := p.areas()
		if i+1 < len(spots) && spots[i+1].MD != s.MD {
			weight := p.Size.Weight
			if p.Plan.Weight.Known() {
				weight = p.Plan.Weight.V
			}
			effective += float64(weight)*units.G*(deeper.z-float64(s.TVD)) + (deeper.in-float64(pi))*ai - (deeper.out-float64(pe))*ao
		}
		forces[i] = units.Newtons(effective + float64(pi)*ai - float64(pe)*ao)
		deeper.z, deeper.in, deeper.out = float64(s.TVD), float64(pi), float64(pe)
	}
	return forces, nil
}

// forces are the judged places of a scenario and, where asked for, the axial
// force at each.
func (w *Well) forces(str int, s *scenario, need bool) ([]Spot, []units.Newtons, error) {
	spots, err := w.spotsWith(str, append([]units.MD{s.from, s.to}, s.edges...))
	if err != nil || !need {
		return spots, nil, err
	}
	if s.axial == hanging {
		f, err := w.hung(str, spots, s.in, s.out)
		for i := range f {
			p, _ := w.Rated(str, spots[i].Seg)
			f[i] += s.extra + units.Newtons(float64(s.shock)*p.Body.Area())
		}
		return spots, f, err
	}
	f, err := w.afterSetting(str, spots, s)
	return spots, f, err
}

// cemented are the pressures when the cement is in place: bled off, the float
// closed, displacement fluid inside, mud and slurries outside.
type cemented struct {
	in, out profile
	edges   []units.MD
	free    units.MD // top of cement: free above
}

type cementedKey int

func (w *Well) asCemented(str int) (cemented, error) {
	return once(w, cementedKey(str), func() (c cemented, err error) {
		o, err := w.outerOf(str)
		if err != nil {
			return c, err
		}
		inside := o.mud
		if d, _, err := w.displacement(str, nil); err == nil {
			inside = d
		}
		c.free = o.cement
		c.in = column(o.realOver, o.realFrom, inside)
		c.out, c.edges, err = w.slurries(str, nil)
		if err != nil { // densities nobody gives: mud to the shoe
			c.out, c.edges = column(o.realOver, o.realFrom, o.mud), []units.MD{o.cement}
		}
		// The plug and float close the string at the landing collar; the shoe
		// track below holds what is outside.
		if k, err := w.Casing(str); err == nil {
			if collar, _, ok := k.FloatCollar(); ok && collar < k.Shoe {
				c.in, c.edges = upper(c.in, collar, c.out), append(c.edges, collar)
			}
		}
		return c, nil
	})
}

// afterSetting is the force of a string whose cement has set: as cemented, the
// landing pull, and what pressures change since at fixed ends. Above the top of
// cement that is one change for the whole free length, its segments stretching
// together; below it what each place alone would take, 2 nu (dp_i A_i - dp_e
// A_o) less E alpha A_s dT.
func (w *Well) afterSetting(str int, spots []Spot, s *scenario) ([]units.Newtons, error) {
	c, err := w.asCemented(str)
	if err != nil {
		return nil, err
	}
	force, err := w.hung(str, spots, c.in, c.out)
	if err != nil {
		return nil, err
	}
	local := make([]float64, len(spots))
	jump := make([]float64, len(spots)) // below a change of area, against the top
	for i, at := range spots {
		p, err := w.Rated(str, at.Seg)
		if err != nil {
			return nil, err
		}
		di, do := w.change(at, s, c)
		ai, ao := p.areas()
		local[i] = 2*poisson*(di*ai-do*ao) - w.warming(s, at.TVD)*p.Body.Area()
		if i == 0 {
			continue
		}
		jump[i] = jump[i-1]
		if prev := spots[i-1].Seg; prev != at.Seg {
			q, err := w.Rated(str, prev)
			if err != nil {
				return nil, err
			}
			qi, qo := q.areas()
			jump[i] += di*(qi-ai) - do*(qo-ao)
		}
	}
	w.share(str, spots, c.free, local, jump, force)
	pull := w.Plan.Strings[str].LandingPull.Or(0)
	for i, at := range spots {
		if at.above(c.free) || c.free <= spots[0].MD {
			force[i] += pull
		}
	}
	return force, nil
}

// Poisson's ratio and the expansion of steel, 1/K (6.9e-6 per degF).
const (
	poisson   = 0.3
	expansion = 6.9e-6 * 9 / 5
)

// warming is the stress that fixed ends put on a string warmed by production,
// E alpha dT, where the plan gives both its static and its flowing temperature;
// nothing otherwise.
func (w *Well) warming(s *scenario, z units.TVD) float64 {
	static, stated := w.Temperature(z)
	if !s.warm || !stated {
		return 0
	}
	var zs []units.TVD
	var ts []units.Kelvins
	for i := range w.Plan.Temperatures {
		if r := &w.Plan.Temperatures[i]; r.Depth.Known() && r.Flowing.Known() {
			zs, ts = append(zs, r.Depth.V), append(ts, r.Flowing.V)
		}
	}
	if len(zs) < 2 || !sort.SliceIsSorted(zs, func(i, j int) bool { return zs[i] < zs[j] }) || z < zs[0] || z > zs[len(zs)-1] {
		return 0
	}
	return modulus * expansion * (float64(along(zs, ts, z)) - float64(static))
}

// change is what the pressures of a scenario differ by from those as cemented,
// Pa; nothing where the scenario doesn't act or isn't known.
func (w *Well) change(at Spot, s *scenario, c cemented) (in, out float64) {
	diff := func(now, then profile) float64 {
		a, err := now(at)
		if err != nil {
			return 0
		}
		b, err := then(at)
		if err != nil {
			return 0
		}
		return float64(a - b)
	}
	if !at.within(s.from, s.to) {
		return 0, 0
	}
	return diff(s.in, c.in), diff(s.out, c.out)
}

// share adds the changes to the forces: the free length as one, the cemented
// length place by place.
func (w *Well) share(str int, spots []Spot, free units.MD, local, jump []float64, force []units.Newtons) {
	var sum, flex float64
	for i := 1; i < len(spots) && spots[i].above(free); i++ {
		p, err := w.Rated(str, spots[i].Seg)
		if err != nil {
			return
		}
		f := float64(spots[i].MD-spots[i-1].MD) / p.Body.Area()
		flex += f
		sum += f * ((local[i]+local[i-1])/2 + (jump[i]+jump[i-1])/2)
	}
	for i, at := range spots {
		if at.above(free) && flex > 0 {
			force[i] += units.Newtons(sum/flex - jump[i])
		} else {
			force[i] += units.Newtons(local[i])
		}
	}
}

// pulled is the factor of an axial load on body or joint; a bent load carries
// E D kappa / 2 over the section besides.
func (w *Well) pulled(l *StrengthLine, p *Rated, soft units.Fraction, c *loadCase) error {
	l.Dim = units.Force
	load := float64(l.Axial)
	if c.bent {
		bend, err := w.Curvature(l.spot.MD)
		if err != nil {
			return err
		}
		stress, _, err := pipe.BendingStress(p.Body.OD, bend)
		if err != nil {
			return err
		}
		load += float64(stress) * p.Body.Area()
	}
	if load <= 0 || l.Axial <= 0 {
		return nil
	}
	s, share := p.Joint, soft
	if c.kind == Body {
		s, share = p.Yield, soft*units.Fraction(p.kept())
	}
	if s.Err != nil {
		return s.Err
	}
	l.Load, l.From, l.Rating = load, s.From, float64(s.Value)*float64(share)
	l.Factor = l.Rating / l.Load
	if extra := l.of.extra; extra > 0 {
		l.Note = "overpull to the rating " + show(w, units.Newtons(l.Rating-l.Load)+extra, units.Force)
	}
	return nil
}

// kept is the share of section a worn body keeps.
func (p *Rated) kept() float64 {
	worn, err := p.Body.Worn(p.wear())
	if err != nil {
		return 1
	}
	return worn.Area() / p.Body.Area()
}

// Curvature is what a string is bent to at a depth: the survey's, with what
// the basis adds on planned builds and turns, and no less than that elsewhere;
// none where the plan says vertical and the hole is under 3 deg.
func (w *Well) Curvature(md units.MD) (units.RadPerM, error) {
	m, source, err := w.Depths()
	if err != nil {
		return 0, err
	}
	extra := w.Assume.ExtraCurvature
	path, surveyed := m.(*survey.Path)
	if source == FromPairs {
		return 0, Lack(w.Plan.Well.Ref, "a survey (for curvature)")
	}
	stated := w.Plan.Well.Vertical.V
	if !surveyed {
		if stated {
			return 0, nil
		}
		return extra, nil
	}
	const nearlyVertical = 3 * units.Degree
	if inc, _ := path.Inclination(md); stated && float64(inc) < nearlyVertical {
		return 0, nil
	}
	dls, err := path.DLS(md)
	if _, end := path.Range(); err == nil && md < end {
		var below units.RadPerM // at a station the course below counts as well
		below, err = path.DLS(min(md+0.01, end))
		dls = max(dls, below)
	}
	if err != nil {
		return 0, Lack(w.depthRef(), "a survey down to %s", units.Show(float64(md), units.MDLength, w.Plan.System, false))
	}
	if w.builds(md) {
		return dls + extra, nil
	}
	return max(dls, extra), nil
}

func (w *Well) builds(md units.MD) bool {
	hs := w.Holes()
	for i := range hs {
		if md >= hs[i].From && md <= hs[i].To {
			return hs[i].Plan.Build.V
		}
	}
	return false
}
