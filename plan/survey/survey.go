// Package survey turns depths along the hole into true vertical depths and
// back: by minimum curvature between survey stations, by straight lines between
// stated pairs, or vertically. It knows no plan.
package survey

import (
	"fmt"
	"math"

	"spudgate/plan/units"
)

// DepthMap relates depth along the hole to true vertical depth, both from the
// plan's depth reference.
type DepthMap interface {
	// TVD is the true vertical depth at md; a *RangeError outside the map, which
	// never extrapolates.
	TVD(md units.MD) (units.TVD, error)
	// MDs lists every depth along the hole at which the hole crosses z, from the
	// top; empty if it never does. A hole that turns up or rolls crosses a depth
	// more than once; of a stretch level at z the first depth is listed.
	MDs(z units.TVD) []units.MD
	// Range is the length of hole the map knows.
	Range() (from, to units.MD)
	// Inclination from the vertical at md, and whether the map knows it.
	Inclination(md units.MD) (units.Radians, bool)
}

// Meet is how far past its end a map still answers, with the value of the end:
// ends that meet within 0.3 m meet (trade practice, no source).
const Meet units.Meters = 0.3

// RangeError is the error of a depth that a map doesn't reach.
type RangeError struct {
	MD       units.MD
	From, To units.MD // what the map knows
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("depth %.2f m lies outside %.2f to %.2f m", float64(e.MD), float64(e.From), float64(e.To))
}

// InputError is the error of stations or pairs that describe no hole.
type InputError struct {
	Index int // of the station or pair, from 0
	Text  string
}

func (e *InputError) Error() string { return fmt.Sprintf("entry %d: %s", e.Index+1, e.Text) }

func wrong(i int, format string, args ...any) error {
	return &InputError{i, fmt.Sprintf(format, args...)}
}

// within brings md into a map from 0 to end, Meet allowed for.
func within(md, end units.MD) (units.MD, error) {
	if md >= 0 && md <= end+units.MD(Meet) {
		return min(md, end), nil
	}
	return 0, &RangeError{md, 0, end}
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Vertical is the map of a hole that is vertical throughout.
type Vertical struct{}

// TVD is md itself; a *RangeError above the depth reference.
func (Vertical) TVD(md units.MD) (units.TVD, error) {
	if !(md >= 0) || !finite(float64(md)) {
		return 0, &RangeError{md, 0, math.MaxFloat64}
	}
	return units.TVD(md), nil
}

// MDs is z itself.
func (Vertical) MDs(z units.TVD) []units.MD {
	if !(z >= 0) || !finite(float64(z)) {
		return nil
	}
	return []units.MD{units.MD(z)}
}

// Range is all depths: a vertical hole has no last station.
func (Vertical) Range() (from, to units.MD) { return 0, math.MaxFloat64 }

// Inclination is zero.
func (Vertical) Inclination(units.MD) (units.Radians, bool) { return 0, true }

// level is how near two depths count as the same when crossings are sought, m.
const level = 1e-9

// reach is a length of hole over which TVD only falls or only rises.
type reach struct {
	from, to   units.MD
	high, low  units.TVD                   // at from and to
	tvd        func(md units.MD) units.TVD // inside
	straightly bool                        // tvd is linear
}

// crossings lists where reaches, in order from the top, cross z.
func crossings(z units.TVD, reaches []reach) []units.MD {
	var out []units.MD
	flat := false // the reach before was level at z
	for i, r := range reaches {
		starts, ends := same(r.high, z), same(r.low, z)
		switch {
		case starts && !flat:
			out = append(out, r.from)
		case !starts && !ends && (r.high < z) != (r.low < z):
			out = append(out, r.crossing(z))
		case !starts && ends && i == len(reaches)-1:
			out = append(out, r.to)
		}
		flat = starts && ends
	}
	return out
}

func same(a, b units.TVD) bool { return math.Abs(float64(a-b)) <= level }

// crossing finds z inside a reach that has it: at once on a straight line, else
// by false position kept safe by halving (Illinois).
func (r reach) crossing(z units.TVD) units.MD {
	a, b := float64(r.from), float64(r.to)
	fa, fb := float64(r.high-z), float64(r.low-z)
	if r.straightly {
		return units.MD(a + (b-a)*fa/(fa-fb))
	}
	for range 200 {
		m := b - fb*(b-a)/(fb-fa)
		fm := float64(r.tvd(units.MD(m)) - z)
		if math.Abs(fm) <= 1e-10 || math.Abs(b-a) <= 1e-11 {
			return units.MD(m)
		}
		if (fm < 0) != (fb < 0) {
			a, fa = b, fb
		} else {
			fa /= 2
		}
		b, fb = m, fm
	}
	return units.MD(b)
}
