package fluid

import (
	"math"

	"spudgate/plan/units"
)

// Parcel is one fluid of a cement job, in pumping order.
type Parcel struct {
	Name    string
	Volume  units.CubicMeters
	Density units.KgPerM3
	Rate    units.M3PerS // that it is pumped at; zero where not known
	Flow    *Rheology    // nil where not known
}

// Route is the way of a cement job: down the pipe, out at its lower end, up the
// annulus.
type Route struct {
	Pipe, Ring *Annulus                 // bores from the head down; annulus from where it returns down
	Depth      func(units.MD) units.TVD // true vertical depth along the whole way
	Over       units.Pascals            // pressure at the top of the annulus
	Inside     Parcel                   // what fills the pipe at first
	Outside    Parcel                   // what fills the annulus at first
	Lands      units.CubicMeters        // volume out of the head at which the plug lands; zero without a plug
	InPipe     []units.MD               // depths watched inside
	InRing     []units.MD               // depths watched outside
}

// Front is where the leading end of a parcel is.
type Front struct {
	MD      units.MD
	Ring    bool // in the annulus
	Out     bool // past the top of the annulus
	Waiting bool // not pumped yet
}

// Step is the state of a job when a volume has been pumped.
type Step struct {
	Pumped units.CubicMeters // at the head
	Moved  units.CubicMeters // into the annulus; more than Pumped when it falls freely
	Time   units.Seconds     // zero throughout where a rate isn't known
	Parcel int               // being pumped
	Rate   units.M3PerS      // into the annulus
	// Fronts are the leading ends of the parcels, and the trailing end of the last.
	Fronts []Front
	AirTo  units.MD        // lower end of the empty length under the head
	Air    units.MD        // how long that is
	Head   units.Pascals   // at the surface, friction counted where it is known
	Static units.Pascals   // at the surface if nothing moved
	Inside []units.Pascals // hydrostatic at InPipe, nothing held at the head
	Still  []units.Pascals // at InRing without friction
	Moving []units.Pascals // at InRing with friction, where it is known
}

// Placement is a cement job from the first barrel to the last.
type Placement struct {
	Parcels  []Parcel
	Steps    []Step
	Friction bool // counted: every fluid's rheology and rate is known
	Timed    bool // every rate is known
}

// march holds a job while it is stepped through.
type march struct {
	Route
	course
	parcels []Parcel
	ends    []float64 // volume pumped when each parcel is, m3
	drag    bool
	timed   bool
	cached  map[lossKey]PaPerM
	inRing  []units.TVD
	inPipe  []units.TVD
	in, out float64 // pumped, and moved
	clock   float64
}

type lossKey struct {
	part, fluid int
	rate        float64
}

// March follows a job through the steps given, and through the end of every
// parcel. All is incompressible and fluids don't mix; fronts are flat. Where the
// column inside outweighs what stands against it the pipe empties from the head
// down (free fall): the annulus then takes as much as balances at atmospheric
// pressure on the fluid, inertia left out, and nothing flows back. Friction is
// that of laminar and turbulent flow along concentric pipe. Domain: parcels with
// volume and density, at least ten steps, a plug that isn't landed already.
func March(r Route, parcels []Parcel, steps int) (*Placement, error) {
	m, err := newMarch(r, parcels, steps)
	if err != nil {
		return nil, err
	}
	job := &Placement{Parcels: parcels, Friction: m.drag, Timed: m.timed}
	first, err := m.state(0, 0, 0)
	if err != nil {
		return nil, err
	}
	job.Steps = append(job.Steps, first)
	whole := m.whole()
	for i := range parcels {
		from, to := m.in, min(m.ends[i], whole)
		n := int(math.Ceil(float64(steps) * (to - from) / whole))
		for k := 1; k <= n; k++ {
			s, err := m.step(i, from+(to-from)*float64(k)/float64(n))
			if err != nil {
				return nil, err
			}
			job.Steps = append(job.Steps, s)
		}
	}
	return job, nil
}

// whole is what is pumped in all: up to the plug's landing where there is one.
func (m *march) whole() float64 {
	all := m.ends[len(m.ends)-1]
	if m.Lands > 0 {
		return min(all, float64(m.Lands))
	}
	return all
}

func newMarch(r Route, parcels []Parcel, steps int) (*march, error) {
	const name = "placement"
	c, err := newCourse(r.Pipe, r.Ring)
	if err != nil {
		return nil, err
	}
	m := &march{Route: r, course: c, parcels: parcels, drag: r.Inside.Flow != nil && r.Outside.Flow != nil, timed: true, cached: map[lossKey]PaPerM{}}
	sum := 0.0
	for i, s := range parcels {
		if !(s.Volume >= 0 && s.Density > 0 && s.Rate >= 0) || !finite(float64(s.Volume), float64(s.Density), float64(s.Rate)) {
			return nil, outside(name, "fluid %d needs a volume, a density and a rate that are not negative", i+1)
		}
		sum += float64(s.Volume)
		m.ends = append(m.ends, sum)
		m.timed = m.timed && s.Rate > 0
		m.drag = m.drag && s.Flow != nil
	}
	m.drag = m.drag && m.timed
	if !(sum > 0 && steps >= 10 && r.Outside.Density >= 0 && r.Inside.Density >= 0 && r.Lands >= 0) || !finite(float64(r.Over)) {
		return nil, outside(name, "needs something pumped, at least ten steps, and densities that are not negative")
	}
	for _, md := range r.InRing {
		m.inRing = append(m.inRing, r.Depth(md))
	}
	for _, md := range r.InPipe {
		m.inPipe = append(m.inPipe, r.Depth(md))
	}
	return m, nil
}

// step pumps parcel i on until a volume has been pumped in all.
func (m *march) step(i int, in float64) (Step, error) {
	lapse := 0.0
	if m.timed {
		lapse = (in - m.in) / float64(m.parcels[i].Rate)
	}
	out, err := m.balance(in, lapse)
	if err != nil {
		return Step{}, err
	}
	m.clock += lapse
	rate := 0.0
	if lapse > 0 {
		rate = (out - m.out) / lapse
	}
	m.in, m.out = in, out
	s, err := m.state(in, out, rate)
	s.Parcel, s.Time = i, units.Seconds(m.clock)
	return s, err
}

// balance is the volume in the annulus after a step: what was pumped while the
// head sees pressure, else what balances the columns with an empty length
// under the head; the plug stops it.
func (m *march) balance(in, lapse float64) (float64, error) {
	most := in + m.turn
	if m.Lands > 0 {
		most = min(most, float64(m.Lands))
	}
	low := min(max(m.out, in), most)
	head := func(out float64) (float64, error) {
		rate := 0.0
		if lapse > 0 {
			rate = max(0, out-m.out) / lapse
		}
		p, err := m.head(in, out, rate)
		return float64(p), err
	}
	// A head this much below nothing is the noise of sums, Pa.
	const noise = 1e-3
	p, err := head(low)
	if err != nil || p >= -noise {
		return low, err
	}
	for width := in - m.in; ; width *= 2 {
		high := min(low+width, most)
		q, err := head(high)
		switch {
		case err != nil || q < 0 && high >= most:
			return high, err
		case q >= 0:
			return crossing(low, high, p, q, head)
		}
		low, p = high, q
	}
}

// crossing finds where a function goes through zero between low, where it is p
// below it, and high, where it is q above: by regula falsi, Illinois.
func crossing(low, high, p, q float64, f func(float64) (float64, error)) (float64, error) {
	side := 0
	for range 100 {
		at := (low*q - high*p) / (q - p)
		v, err := f(at)
		if err != nil || math.Abs(v) < 1e-6 || high-low < 1e-13 {
			return at, err
		}
		if v < 0 {
			low, p = at, v
			if side < 0 {
				q /= 2
			}
			side = -1
			continue
		}
		high, q = at, v
		if side > 0 {
			p /= 2
		}
		side = 1
	}
	return high, nil
}
