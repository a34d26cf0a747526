package well

import (
	"fmt"
	"math"

	"spudgate/plan/units"
)

// Buckling is where a free length is nearest to buckling, or past it.
type Buckling struct {
	Straight bool
	At       At
	Pressed  units.Newtons // effective compression there, positive
	Critical units.Newtons // where the hole begins to buckle it
	Note     string
}

type bucklingKey int

// Buckled looks for buckling above the top of cement in service by effective
// force (force less p_i A_i, plus p_e A_o) against R. Dawson and P. R. Paslay
// (JPT, October 1984): 2 sqrt(E I w sin(inclination) / r). In a vertical hole
// any effective compression buckles.
func (w *Well) Buckled(str int) (Buckling, error) {
	return once(w, bucklingKey(str), func() (Buckling, error) {
		o, err := w.outerOf(str)
		if err != nil {
			return Buckling{}, err
		}
		if !Cemented(&w.Plan.Strings[str]) || o.cement <= o.top {
			return Buckling{}, Absent("nothing of it is free above cement")
		}
		list, err := w.moments(str, caseNamed("triaxial.least"))
		if err != nil {
			return Buckling{}, err
		}
		b := Buckling{Straight: true}
		worst := math.Inf(-1)
		for i := range list {
			if list[i].axial != setFixed {
				continue
			}
			if err := w.buckledBy(str, o, &list[i], &b, &worst); err != nil {
				return b, err
			}
		}
		if math.IsInf(worst, -1) {
			return b, Absent("no service load acts on it")
		}
		return b, nil
	})
}

func (w *Well) buckledBy(str int, o outer, s *scenario, b *Buckling, worst *float64) error {
	spots, f, err := w.forces(str, s, true)
	if err != nil {
		return err
	}
	for i, at := range spots {
		if !at.above(o.cement) || !at.within(s.from, s.to) {
			continue
		}
		pi, err := s.in(at)
		if err != nil {
			return err
		}
		pe, err := s.out(at)
		if err != nil {
			return err
		}
		p, err := w.Rated(str, at.Seg)
		if err != nil {
			return err
		}
		ai, ao := p.areas()
		pressed := -(float64(f[i]) - float64(pi)*ai + float64(pe)*ao)
		critical, err := w.paslayDawson(str, at, p, o.mud)
		if err != nil {
			return err
		}
		if over := pressed - critical; over > *worst {
			*worst = over
			*b = Buckling{over <= 0, w.at(at), units.Newtons(max(pressed, 0)), units.Newtons(critical), s.note}
		}
	}
	return nil
}

// paslayDawson is the effective compression at which an inclined hole lets a
// string buckle, N; zero where the hole is vertical.
func (w *Well) paslayDawson(str int, at Spot, p *Rated, mud units.KgPerM3) (float64, error) {
	m, _, err := w.Depths()
	if err != nil {
		return 0, err
	}
	inc, known := m.Inclination(at.MD)
	if !known {
		return 0, Lack(w.Plan.Well.Ref, "a survey (for inclination)")
	}
	gaps, err := w.Annulus(str)
	if err != nil {
		return 0, err
	}
	r := 0.0
	for _, g := range gaps {
		if at.within(g.From, g.To) {
			r = float64(g.Outer-g.Inner) / 2
		}
	}
	if r <= 0 {
		return 0, nil
	}
	od, id := float64(p.Body.OD), float64(p.Body.OD-2*p.Body.Wall)
	inertia := math.Pi / 64 * (math.Pow(od, 4) - math.Pow(id, 4))
	weight := float64(p.Size.Weight)*units.G - float64(mud)*units.G*p.Body.Area()
	return 2 * math.Sqrt(modulus*inertia*max(weight, 0)*math.Sin(float64(inc))/r), nil
}

// Trapped is an annulus that closes: why, where it does.
func (w *Well) Trapped(str int) (bool, string, error) {
	s := &w.Plan.Strings[str]
	if !Cemented(s) || !w.ReachesWellhead(str) {
		return false, "", Absent("no annulus outside it closes at the wellhead")
	}
	closed := w.Subsea()
	for i := range w.Plan.Barriers {
		b := &w.Plan.Barriers[i]
		closed = closed || b.Kind.V == "valve" && w.Plan.StringIndex(b.String.V) == str
	}
	if !closed {
		return false, "", Absent("the annulus can be bled at the surface")
	}
	prev, err := w.Previous(str)
	if err != nil {
		return false, "", Absent("no string is around it")
	}
	shoe, err := w.shoeOf(&w.Plan.Strings[prev])
	if err != nil {
		return false, "", err
	}
	top, _, err := w.TopOfCement(str)
	if err != nil {
		return false, "", err
	}
	note := fmt.Sprintf("top of cement at %s, previous shoe at %s", show(w, top, units.MDLength), show(w, shoe, units.MDLength))
	if top > shoe {
		return false, note + ": open below", nil
	}
	if !w.heated() {
		return false, note + ": nothing heats it", nil
	}
	return true, note + ": closed, and heated by production", nil
}

// heated reports whether production warms the well: a flowing temperature is
// given, or the well produces.
func (w *Well) heated() bool {
	for i := range w.Plan.Temperatures {
		if w.Plan.Temperatures[i].Flowing.Known() {
			return true
		}
	}
	switch w.Plan.Well.Purpose.V {
	case "oil", "gas", "geothermal":
		return true
	}
	return false
}
