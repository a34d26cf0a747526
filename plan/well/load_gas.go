package well

import (
	"fmt"
	"sort"

	"spudgate/plan/fluid"
	"spudgate/plan/units"
)

// gas is one model of a gas column.
type gas struct {
	linear bool
	slope  fluid.PaPerM
	real   fluid.RealGas
	name   string
}

// gases are the models the basis allows, the gradient first.
func (w *Well) gases() []gas {
	gravity, from := w.Assume.GasGravity, "assumed"
	if w.Plan.Well.GasGravity.Known() {
		gravity, from = float64(w.Plan.Well.GasGravity.V), "stated"
	}
	linear := gas{linear: true, slope: fluid.PaPerM(w.Assume.GasGradient), name: "gas gradient of " +
		units.Show(w.Assume.GasGradient, units.Gradient, w.Plan.System, false)}
	real := gas{name: fmt.Sprintf("real gas of gravity %.2f (%s)", gravity, from), real: fluid.RealGas{
		Gravity:     units.Fraction(gravity),
		Temperature: func(z units.TVD) (units.Kelvins, error) { t, _ := w.Temperature(z); return t, nil },
	}}
	switch w.Assume.GasColumn {
	case "gradient":
		return []gas{linear}
	case "real":
		return []gas{real}
	}
	return []gas{linear, real}
}

// to carries a pressure along the column.
func (g gas) to(p units.Pascals, from, to units.TVD) (units.Pascals, error) {
	if g.linear {
		return fluid.LinearGas(p, from, to, g.slope)
	}
	return g.real.Column(p, from, to)
}

// profile is the column between two depths over or under a known pressure, as
// a table every 30 m read linearly: gas bends so little that this moves no
// pressure by 1e-5 of itself.
func (g gas) profile(p units.Pascals, known, top, bottom units.TVD) (profile, error) {
	if g.linear {
		return func(s Spot) (units.Pascals, error) {
			v, err := fluid.LinearGas(p, known, s.TVD, g.slope)
			return max(v, 0), err
		}, nil
	}
	var zs []units.TVD
	var ps []units.Pascals
	const step = 30
	n := int((bottom-top)/step) + 2
	at, v := known, p
	down := known <= top
	for i := 0; i <= n; i++ {
		z := top + (bottom-top)*units.TVD(i)/units.TVD(n)
		if !down {
			z = bottom - (bottom-top)*units.TVD(i)/units.TVD(n)
		}
		var err error
		if v, err = g.to(v, at, z); err != nil {
			return nil, err
		}
		at = z
		zs, ps = append(zs, z), append(ps, v)
	}
	if !down {
		reverse(zs)
		reverse(ps)
	}
	return func(s Spot) (units.Pascals, error) { return along(zs, ps, s.TVD), nil }, nil
}

func reverse[T any](s []T) {
	for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
		s[i], s[j] = s[j], s[i]
	}
}

// along reads a table linearly; its ends hold beyond it by the rounding of a
// depth only.
func along[Q ~float64](zs []units.TVD, ps []Q, z units.TVD) Q {
	i := sort.Search(len(zs), func(i int) bool { return zs[i] >= z })
	i = min(max(i, 1), len(zs)-1)
	a, b := zs[i-1], zs[i]
	if b == a {
		return ps[i]
	}
	return ps[i-1] + (ps[i]-ps[i-1])*Q((z-a)/(b-a))
}

// gasShutIn is a well full of gas: the pressure at the shoe and what governed.
type gasShutIn struct {
	gas     gas
	shoe    units.TVD
	atShoe  units.Pascals
	atTop   units.Pascals
	from    units.TVD     // where the gas comes from
	pore    units.Pascals // there
	arrives units.Pascals // at the shoe, without fracture
	limit   units.Pascals // fracture pressure and allowance at the shoe
	broken  bool          // fracture governed
}

type gasKey struct {
	section int
	shoe    units.MD
}

// GasShutIn is the gas that fills the well from a hole open below a shoe: of
// the gas models the one with the higher pressure at the top.
func (w *Well) gasShutIn(h *Hole, shoe units.MD) (gasShutIn, error) {
	return once(w, gasKey{h.Section, shoe}, func() (gasShutIn, error) {
		zs, err := w.TVD(shoe)
		if err != nil {
			return gasShutIn{}, err
		}
		limit, _, err := w.Fracture(zs, High)
		if err != nil {
			return gasShutIn{}, w.atShoe(err, shoe)
		}
		limit += units.Hydrostatic(w.Assume.FractureMargin, zs)
		var best gasShutIn
		for i, g := range w.gases() {
			s, err := w.fill(g, h, shoe, zs, limit)
			if err != nil {
				return s, err
			}
			if i == 0 || s.atTop > best.atTop {
				best = s
			}
		}
		return best, nil
	})
}

// atShoe names the shoe at which a fracture pressure is missing.
func (w *Well) atShoe(err error, shoe units.MD) error {
	m, ok := lacks(err)
	if !ok {
		return err
	}
	name := units.Show(float64(shoe), units.MDLength, w.Plan.System, false)
	for _, i := range w.InOrder() {
		if s, err := w.shoeOf(&w.Plan.Strings[i]); err == nil && s == shoe {
			name = "the " + w.Plan.Strings[i].Name.V + " shoe"
		}
	}
	return Lack(m[0].Ref, "fracture pressure at %s", name)
}

func (w *Well) fill(g gas, h *Hole, shoe units.MD, zs units.TVD, limit units.Pascals) (gasShutIn, error) {
	s := gasShutIn{gas: g, shoe: zs, limit: limit}
	depths, err := w.openDepths(h, shoe)
	if err != nil {
		return s, err
	}
	for i, z := range depths {
		p, _, err := w.Pore(z, High)
		if err != nil {
			return s, err
		}
		at, err := g.to(p, z, zs)
		if err != nil {
			return s, err
		}
		if i == 0 || at > s.arrives {
			s.arrives, s.from, s.pore = at, z, p
		}
	}
	s.atShoe, s.broken = min(s.arrives, limit), s.arrives > limit
	top, err := w.Mudline()
	if err != nil {
		return s, err
	}
	s.atTop, err = g.to(s.atShoe, zs, top)
	return s, err
}

// openDepths are the true vertical depths of an open hole at which a pressure
// curve may turn: its ends, the rows of the table, and its lowest and highest
// point where it's drilled past horizontal.
func (w *Well) openDepths(h *Hole, shoe units.MD) ([]units.TVD, error) {
	low, high := units.TVD(0), units.TVD(0)
	const parts = 20
	for i := 0; i <= parts; i++ {
		z, err := w.TVD(shoe + (h.To-shoe)*units.MD(i)/parts)
		if err != nil {
			return nil, err
		}
		if i == 0 {
			low, high = z, z
		}
		low, high = min(low, z), max(high, z)
	}
	out := []units.TVD{low}
	for _, z := range w.Curve(PorePressure, High).Rows(low, high) {
		if z > low && z < high {
			out = append(out, z)
		}
	}
	if high > low {
		out = append(out, high)
	}
	return out, nil
}

// note says in a line where the gas comes from and which bound governed.
func (s gasShutIn) note(sys units.System) string {
	show := func(p units.Pascals) string { return units.Show(float64(p), units.Pressure, sys, false) }
	from := fmt.Sprintf("gas from %s; %s", units.Show(float64(s.from), units.TVDLength, sys, false), s.gas.name)
	if s.broken {
		return fmt.Sprintf("fracture pressure and allowance at the shoe govern (%s, gas would bring %s); %s", show(s.limit), show(s.arrives), from)
	}
	return fmt.Sprintf("pore pressure governs (%s at the shoe, it would hold %s); %s", show(s.arrives), show(s.limit), from)
}
