package survey

import (
	"math"
	"sort"

	"spudgate/plan/units"
)

// Station is one station of a survey.
type Station struct {
	MD       units.MD
	Inc, Azi units.Radians // from the vertical; from north, clockwise
}

// Point is the hole at one depth.
type Point struct {
	MD          units.MD
	TVD         units.TVD
	North, East units.Meters
	Inc, Azi    units.Radians // Azi from 0 up to 2 pi; 0 where the hole is vertical
	DLS         units.RadPerM // of the course that holds the point, at a station the one above
}

// maxTurn is the greatest angle between two stations of one course. As it nears
// 180 degrees the plane of the arc is no longer given by its ends.
const maxTurn = 179 * units.Degree

// vector is down, north, east.
type vector struct{ down, north, east float64 }

func (a vector) plus(k float64, b vector) vector {
	return vector{a.down + k*b.down, a.north + k*b.north, a.east + k*b.east}
}

func (a vector) times(k float64) vector { return vector{k * a.down, k * a.north, k * a.east} }

// course is the arc from one station to the next.
type course struct {
	from, to units.MD
	start    vector // position at from
	t1, t2   vector // tangents at both ends
	turn     float64
}

// Path is a hole surveyed from the depth reference down, by minimum curvature:
// between two stations it is the circular arc that has the measured tangents
// at both ends (S. J. Sawaryn and J. L. Thorogood, SPE 84246, 2005).
type Path struct {
	stations []Station
	courses  []course
	reaches  []reach
	tie      units.MD
}

// New makes a path from stations in order of depth. A first station below the
// depth reference is tied to it by a vertical line; see Tie. Errors: an
// *InputError for fewer than two stations without a tie, depths that don't
// increase, an inclination outside 0 to pi, an azimuth outside -2 pi to 2 pi,
// a turn over 179 degrees between two stations.
func New(stations []Station) (*Path, error) {
	if len(stations) == 0 {
		return nil, wrong(0, "there is no station")
	}
	p := &Path{stations: append([]Station(nil), stations...)}
	for i, s := range p.stations {
		if err := s.check(i); err != nil {
			return nil, err
		}
	}
	var at vector
	if first := p.stations[0]; first.MD > 0 {
		p.tie = first.MD
		at = p.add(Station{}, Station{MD: first.MD}, at)
	}
	for i := 1; i < len(p.stations); i++ {
		a, b := p.stations[i-1], p.stations[i]
		if !(b.MD > a.MD) {
			return nil, wrong(i, "depth %.3f m isn't below the station before, %.3f m", float64(b.MD), float64(a.MD))
		}
		if turn(a, b) > maxTurn {
			return nil, wrong(i, "the hole turns by more than 179 degrees from the station before")
		}
		at = p.add(a, b, at)
	}
	if len(p.courses) == 0 {
		return nil, wrong(0, "one station at the depth reference describes no hole")
	}
	for i := range p.courses {
		p.reaches = append(p.reaches, p.courses[i].reaches()...)
	}
	return p, nil
}

func (s Station) check(i int) error {
	switch {
	case !finite(float64(s.MD), float64(s.Inc), float64(s.Azi)):
		return wrong(i, "a value is not a finite number")
	case s.MD < 0:
		return wrong(i, "depth %.3f m lies above the depth reference", float64(s.MD))
	case s.Inc < 0 || s.Inc > math.Pi:
		return wrong(i, "inclination outside 0 to 180 degrees")
	case math.Abs(float64(s.Azi)) > 2*math.Pi:
		return wrong(i, "azimuth outside -360 to 360 degrees")
	}
	return nil
}

func (p *Path) add(a, b Station, at vector) vector {
	c := course{from: a.MD, to: b.MD, start: at, t1: tangent(a), t2: tangent(b), turn: turn(a, b)}
	p.courses = append(p.courses, c)
	end, _ := c.at(b.MD)
	return end
}

func tangent(s Station) vector {
	sinI, cosI := math.Sincos(float64(s.Inc))
	sinA, cosA := math.Sincos(float64(s.Azi))
	return vector{cosI, sinI * cosA, sinI * sinA}
}

// turn is the angle between the tangents of two stations:
// sin2(b/2) = sin2((I2-I1)/2) + sin I1 sin I2 sin2((A2-A1)/2).
func turn(a, b Station) float64 {
	si := math.Sin(float64(b.Inc-a.Inc) / 2)
	sa := math.Sin(float64(b.Azi-a.Azi) / 2)
	h := si*si + math.Sin(float64(a.Inc))*math.Sin(float64(b.Inc))*sa*sa
	return 2 * math.Atan2(math.Sqrt(h), math.Sqrt(max(0, 1-h)))
}

// ratio is the ratio factor of minimum curvature, 2/b tan(b/2); by its series
// where b is tiny.
func ratio(b float64) float64 {
	if b < 1e-4 {
		return 1 + b*b/12
	}
	return 2 / b * math.Tan(b/2)
}

// share is sin(f b)/sin b, the weight of an end's tangent at a fraction of the
// turn.
func share(f, b float64) float64 {
	if b < 1e-8 {
		return f
	}
	return math.Sin(f*b) / math.Sin(b)
}

// at is position and tangent at md, which must lie on the course: the tangents
// are blended along their great circle, then the step from the course's start
// is taken again with the blended tangent as its end.
func (c *course) at(md units.MD) (pos, t vector) {
	s := float64(md - c.from)
	f := s / float64(c.to-c.from)
	t = c.t1.times(share(1-f, c.turn)).plus(share(f, c.turn), c.t2)
	step := s / 2 * ratio(f*c.turn)
	return c.start.plus(step, c.t1).plus(step, t), t
}

func (c *course) dls() units.RadPerM {
	return units.RadPerM(c.turn / float64(c.to-c.from))
}

// reaches cuts the course where it is level, so that TVD only falls or only
// rises on each part. An arc of less than half a circle is level once at most.
func (c *course) reaches() []reach {
	tvd := func(md units.MD) units.TVD {
		pos, _ := c.at(md)
		return units.TVD(pos.down)
	}
	part := func(from, to units.MD) reach {
		return reach{from, to, tvd(from), tvd(to), tvd, c.turn < 1e-12}
	}
	if (c.t1.down > 0) == (c.t2.down > 0) {
		return []reach{part(c.from, c.to)}
	}
	// Along the arc the down part of the tangent is t1 cos a + n sin a, n being
	// that of the normal in its plane; it vanishes where tan a = -t1/n.
	n := (c.t2.down - c.t1.down*math.Cos(c.turn)) / math.Sin(c.turn)
	a := math.Atan2(math.Abs(c.t1.down), -math.Copysign(n, n*c.t1.down))
	flat := c.from + units.MD(a/c.turn)*(c.to-c.from)
	if !(flat > c.from && flat < c.to) {
		return []reach{part(c.from, c.to)}
	}
	return []reach{part(c.from, flat), part(flat, c.to)}
}

// Stations are those the path was made from.
func (p *Path) Stations() []Station { return append([]Station(nil), p.stations...) }

// Tie is the depth of the first station if it lies below the depth reference,
// down to which the hole was taken as vertical; else false.
func (p *Path) Tie() (units.MD, bool) { return p.tie, p.tie > 0 }

// Range is from the depth reference to the last station.
func (p *Path) Range() (from, to units.MD) { return 0, p.courses[len(p.courses)-1].to }

// find is the course that holds md; at a station the one above.
func (p *Path) find(md units.MD) (*course, units.MD, error) {
	_, end := p.Range()
	md, err := within(md, end)
	if err != nil {
		return nil, 0, err
	}
	i := sort.Search(len(p.courses), func(i int) bool { return p.courses[i].to >= md })
	return &p.courses[i], md, nil
}

// At is the hole at md; a *RangeError outside the surveyed hole. Past the last
// station, within Meet, it is the last station.
func (p *Path) At(md units.MD) (Point, error) {
	c, md, err := p.find(md)
	if err != nil {
		return Point{}, err
	}
	pos, t := c.at(md)
	azi := math.Atan2(t.east, t.north)
	if azi < 0 {
		azi += 2 * math.Pi
	}
	return Point{
		MD: md, TVD: units.TVD(pos.down), North: units.Meters(pos.north), East: units.Meters(pos.east),
		Inc: units.Radians(math.Atan2(math.Hypot(t.north, t.east), t.down)), Azi: units.Radians(azi), DLS: c.dls(),
	}, nil
}

// TVD is the true vertical depth at md; a *RangeError outside the surveyed hole.
func (p *Path) TVD(md units.MD) (units.TVD, error) {
	c, md, err := p.find(md)
	if err != nil {
		return 0, err
	}
	pos, _ := c.at(md)
	return units.TVD(pos.down), nil
}

// MDs lists every depth along the hole that crosses z.
func (p *Path) MDs(z units.TVD) []units.MD { return crossings(z, p.reaches) }

// Inclination at md; unknown outside the surveyed hole.
func (p *Path) Inclination(md units.MD) (units.Radians, bool) {
	pt, err := p.At(md)
	return pt.Inc, err == nil
}

// DLS is the curvature of the course that holds md, at a station that of the
// course above; a *RangeError outside the surveyed hole.
func (p *Path) DLS(md units.MD) (units.RadPerM, error) {
	c, _, err := p.find(md)
	if err != nil {
		return 0, err
	}
	return c.dls(), nil
}

// MaxDLS is the greatest curvature between two depths, courses that only touch
// the interval at its end left out; a *RangeError outside the surveyed hole or
// if from isn't above to.
func (p *Path) MaxDLS(from, to units.MD) (units.RadPerM, error) {
	_, end := p.Range()
	if _, err := within(to, end); err != nil {
		return 0, err
	}
	if !(from >= 0 && from < min(to, end)) {
		return 0, &RangeError{from, 0, to}
	}
	var most units.RadPerM
	for i := range p.courses {
		if c := &p.courses[i]; c.from < to && c.to > from {
			most = max(most, c.dls())
		}
	}
	return most, nil
}
