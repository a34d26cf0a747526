package well

import (
	"slices"

	"spudgate/plan/fluid"
	"spudgate/plan/units"
)

// JobHole is the hole that a cement job is followed in.
type JobHole int

const (
	// OneHole is the only one there is: measured by caliper, at bit size with
	// nothing added, or behind casing.
	OneHole JobHole = iota
	// InEnlarged is the hole that the volumes are planned on.
	InEnlarged
	// InGauge is the hole at bit or reamed size. The planned volumes rise higher
	// in it, so that what is added for safety of cover is no safety of the rock.
	InGauge
)

// String is how a note names the hole; empty where there is but one.
func (h JobHole) String() string {
	switch h {
	case InEnlarged:
		return "in the enlarged hole"
	case InGauge:
		return "in a gauge hole"
	}
	return ""
}

// jobHoles are the holes that a stage is judged in, the planned one first.
func (c *CementStage) jobHoles() []JobHole {
	same := slices.Equal(above(c.Annulus, c.From), above(c.Gauge, c.From))
	if same || c.Hole.Basis == "caliper" {
		return []JobHole{OneHole}
	}
	return []JobHole{InEnlarged, InGauge}
}

// above are the intervals of an annulus down to a depth.
func above(a *fluid.Annulus, md units.MD) []fluid.Interval {
	var list []fluid.Interval
	for _, v := range a.Intervals() {
		if v.To = min(v.To, md); v.To > v.From {
			list = append(list, v)
		}
	}
	return list
}

// annulusIn is the annulus of a stage in a hole.
func (c *CementStage) annulusIn(h JobHole) *fluid.Annulus {
	if h == InGauge {
		return c.Gauge
	}
	return c.Annulus
}

// holesOf are the holes that a stage is judged in; one where its volumes don't
// say how high it rises.
func (w *Well) holesOf(str, st int) []JobHole {
	c, err := w.CementStage(str, st)
	if err != nil {
		return []JobHole{OneHole}
	}
	return c.jobHoles()
}

// worstHole is what a measure of a job is in the hole where least is left.
func worstHole[T any](w *Well, str, st int, measure func(JobHole) (T, error), left func(T) float64) (T, error) {
	var worst T
	for i, h := range w.holesOf(str, st) {
		v, err := measure(h)
		if err != nil {
			return v, err
		}
		if i == 0 || left(v) < left(worst)-sumNoise {
			worst = v
		}
	}
	return worst, nil
}
