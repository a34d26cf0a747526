package survey

import (
	"math"
	"sort"

	"spudgate/plan/units"
)

// Pair is a depth stated both along the hole and vertically.
type Pair struct {
	MD  units.MD
	TVD units.TVD
}

// Rounded is how far stated pairs may break the geometry of a hole (TVD over
// MD, a step steeper than vertical) before they are refused: half a metre is
// the rounding of stated depths.
const Rounded units.Meters = 0.5

// Pairs is a depth map made of stated pairs joined by straight lines, the depth
// reference (0, 0) implied. It knows no inclination.
type Pairs struct{ reaches []reach }

// NewPairs makes a map from pairs in any order. Pairs within Meet of each other
// along the hole are one, of which the shallowest is kept, and the first given
// of equal ones. Errors: an *InputError for no pair below the reference, a value
// that is negative or not finite, TVD over MD, or a step in TVD longer than the
// step in MD, both by more than Rounded.
func NewPairs(pairs []Pair) (*Pairs, error) {
	sorted := append([]Pair(nil), pairs...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].MD < sorted[j].MD })
	m, last := &Pairs{}, Pair{}
	for i, p := range sorted {
		if err := p.check(i, last); err != nil {
			return nil, err
		}
		if p.MD-last.MD > units.MD(Meet) {
			m.reaches = append(m.reaches, reach{from: last.MD, to: p.MD, high: last.TVD, low: p.TVD, straightly: true})
			last = p
		}
	}
	if len(m.reaches) == 0 {
		return nil, wrong(0, "there is no pair below the depth reference")
	}
	return m, nil
}

func (p Pair) check(i int, above Pair) error {
	const slack = float64(Rounded)
	md, z := float64(p.MD), float64(p.TVD)
	switch {
	case !finite(md, z) || md < 0 || z < 0:
		return wrong(i, "a depth is negative or not a finite number")
	case z > md+slack:
		return wrong(i, "TVD %.2f m is over MD %.2f m", z, md)
	case math.Abs(z-float64(above.TVD)) > md-float64(above.MD)+slack:
		return wrong(i, "from MD %.2f m to %.2f m, TVD changes from %.2f m to %.2f m: more than the hole is long", float64(above.MD), md, float64(above.TVD), z)
	}
	return nil
}

// Range is from the depth reference to the deepest pair.
func (m *Pairs) Range() (from, to units.MD) { return 0, m.reaches[len(m.reaches)-1].to }

// TVD is the true vertical depth at md; a *RangeError past the deepest pair.
func (m *Pairs) TVD(md units.MD) (units.TVD, error) {
	_, end := m.Range()
	md, err := within(md, end)
	if err != nil {
		return 0, err
	}
	i := sort.Search(len(m.reaches), func(i int) bool { return m.reaches[i].to >= md })
	r := m.reaches[i]
	f := float64(md-r.from) / float64(r.to-r.from)
	return r.high + units.TVD(f)*(r.low-r.high), nil
}

// MDs lists every depth along the hole that crosses z.
func (m *Pairs) MDs(z units.TVD) []units.MD { return crossings(z, m.reaches) }

// Inclination is unknown: a straight line between two pairs is no hole.
func (m *Pairs) Inclination(units.MD) (units.Radians, bool) { return 0, false }
