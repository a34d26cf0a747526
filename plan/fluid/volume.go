package fluid

import (
	"fmt"
	"math"
	"strings"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Capacity is the volume per length between two diameters, pi/4 (D^2 - d^2);
// of a bore with inner 0; also the area of a pipe's wall. Field form:
// (D^2 - d^2)/1029.4 bbl/ft. Domain: outer above inner, inner not negative.
func Capacity(outer, inner units.Meters) (M2, error) {
	return answer[M2]("capacity", outer > inner && inner >= 0, "the outer diameter must be above the inner, the inner not negative", capacity(float64(outer), float64(inner)))
}

func capacity(outer, inner float64) float64 { return math.Pi / 4 * (outer*outer - inner*inner) }

// WashedOut is the diameter of a hole whose annulus around od holds excess more
// than that of the bit: sqrt(od^2 + (bit^2 - od^2)(1 + excess)). Domain: bit
// above od, excess above -1.
func WashedOut(bit, od units.Meters, excess units.Fraction) (units.Meters, error) {
	b, d := float64(bit), float64(od)
	return answer[units.Meters]("washed-out diameter", b > d && d >= 0 && excess > -1, "the bit must be above the pipe, the excess above -100 %",
		math.Sqrt(d*d+(b*b-d*d)*(1+float64(excess))))
}

// Interval is a length of an annulus with one size. Excess is added to its
// volume; Inner 0 makes it a bore.
type Interval struct {
	From, To     units.MD
	Outer, Inner units.Meters
	Excess       units.Fraction
}

func (i Interval) perMeter() float64 {
	return capacity(float64(i.Outer), float64(i.Inner)) * (1 + float64(i.Excess))
}

func (i Interval) volume() float64 { return i.perMeter() * float64(i.To-i.From) }

// Annulus is a run of intervals without gap, from the top down.
type Annulus struct{ list []Interval }

// join is how near two interval ends must be to be one, m.
const join = 1e-6

// NewAnnulus makes an annulus of intervals in order of depth. Domain: at least
// one, each longer than nothing, outer above inner, excess above -1, no gap and
// no overlap.
func NewAnnulus(list []Interval) (*Annulus, error) {
	const name = "annulus"
	if len(list) == 0 {
		return nil, outside(name, "there is no interval")
	}
	for i, v := range list {
		switch {
		case !finite(float64(v.From), float64(v.To), float64(v.Outer), float64(v.Inner), float64(v.Excess)):
			return nil, outside(name, "interval %d holds a value that is not a finite number", i+1)
		case !(v.To > v.From && v.Outer > v.Inner && v.Inner >= 0 && v.Excess > -1):
			return nil, outside(name, "interval %d needs a length, an outer diameter above the inner, and an excess above -100 %%", i+1)
		case i > 0 && math.Abs(float64(v.From-list[i-1].To)) > join:
			return nil, outside(name, "interval %d begins at %.3f m, the one above ends at %.3f m", i+1, float64(v.From), float64(list[i-1].To))
		}
	}
	return &Annulus{append([]Interval(nil), list...)}, nil
}

// Range is from the top of the annulus to its bottom.
func (a *Annulus) Range() (from, to units.MD) { return a.list[0].From, a.list[len(a.list)-1].To }

// Intervals are those the annulus was made from.
func (a *Annulus) Intervals() []Interval { return append([]Interval(nil), a.list...) }

// Gauge is the same annulus without any excess.
func (a *Annulus) Gauge() *Annulus {
	g := &Annulus{a.Intervals()}
	for i := range g.list {
		g.list[i].Excess = 0
	}
	return g
}

// cut is the part of the annulus from one depth to another, by interval.
func (a *Annulus) cut(from, to units.MD) ([]Interval, error) {
	top, bottom := a.Range()
	if !(from >= top-join && to <= bottom+join && from <= to) {
		return nil, outside("volume", "%.2f to %.2f m isn't a length inside %.2f to %.2f m", float64(from), float64(to), float64(top), float64(bottom))
	}
	var parts []Interval
	for _, v := range a.list {
		v.From, v.To = max(v.From, from), min(v.To, to)
		if v.To > v.From {
			parts = append(parts, v)
		}
	}
	return parts, nil
}

// Volume is the volume between two depths, excess included: the sum of
// pi/4 (D^2 - d^2)(1 + excess) L, L along the hole. A *DomainError outside the
// annulus or from below to.
func (a *Annulus) Volume(from, to units.MD) (units.CubicMeters, error) {
	parts, err := a.cut(from, to)
	sum := 0.0
	for _, p := range parts {
		sum += p.volume()
	}
	return units.CubicMeters(sum), err
}

var partEq = equation{"volume", units.Volume, "pi / 4 * (outer^2 - inner^2) * (to - from) * (1 + excess)", "geometry: cross section by length along the hole"}

// VolumeWorking is Volume as one step for each interval, and their sum last.
func (a *Annulus) VolumeWorking(from, to units.MD) ([]expr.Working, error) {
	parts, err := a.cut(from, to)
	if err != nil {
		return nil, err
	}
	total, _ := a.Volume(from, to)
	var steps []expr.Working
	var names []string
	var sum []expr.Input
	for i, p := range parts {
		w, _ := partEq.working(p.volume(), nil, size("outer", p.Outer), size("inner", p.Inner), along("to", p.To), along("from", p.From), pure("excess", p.Excess))
		w.Result.Name = fmt.Sprintf("volume_%d", i+1)
		names, sum = append(names, w.Result.Name), append(sum, w.Result)
		steps = append(steps, w)
	}
	if len(parts) == 0 {
		names = []string{"0 m3"}
	}
	w, err := equation{"volume", units.Volume, strings.Join(names, " + "), "sum over the intervals"}.working(float64(total), nil, sum...)
	return append(steps, w), err
}

// Top is where a volume placed in an annulus ends.
type Top struct {
	MD units.MD
	// Full: the volume reaches the top of the annulus, and Returned is what comes
	// out there.
	Full     bool
	Returned units.CubicMeters
}

// TopFromVolume is how high a volume rises in the annulus from a depth, walking
// upward interval by interval; the inverse of Volume. Domain: the volume not
// negative, the depth inside the annulus.
func (a *Annulus) TopFromVolume(volume units.CubicMeters, from units.MD) (Top, error) {
	top, _ := a.Range()
	parts, err := a.cut(top, from)
	if err != nil {
		return Top{}, err
	}
	left := float64(volume)
	if !(left >= 0) || !finite(left) {
		return Top{}, outside("top from volume", "the volume must not be negative")
	}
	for i := len(parts) - 1; i >= 0; i-- {
		p := parts[i]
		if v := p.volume(); left > v {
			left -= v
			continue
		}
		md := p.To - units.MD(left/p.perMeter())
		if md > top+join {
			return Top{MD: md}, nil
		}
		left = 0
	}
	return Top{MD: top, Full: true, Returned: units.CubicMeters(left)}, nil
}

// Bore is a length of the path that fluid is pumped down.
type Bore struct {
	From, To units.MD
	ID       units.Meters
}

// NewBore makes the space inside pipe from bores in order of depth; see
// NewAnnulus for its domain. Displacement is its Volume from the top to the
// landing collar, a shoe track its Volume from there to the shoe.
func NewBore(list []Bore) (*Annulus, error) {
	as := make([]Interval, len(list))
	for i, b := range list {
		as[i] = Interval{From: b.From, To: b.To, Outer: b.ID}
	}
	return NewAnnulus(as)
}
