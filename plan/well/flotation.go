package well

import (
	"math"

	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/survey"
	"spudgate/plan/units"
)

// hungPart is a length of a hanging string with its effective weight.
type hungPart struct {
	from, to units.MD
	weight   float64 // N/m, by pressure-area; below zero it floats
}

// hungParts are the parts of a string in mud, from the top down, filled with it
// down to a depth and empty below.
func (w *Well) hungParts(c *Casing, mud units.KgPerM3, emptyFrom units.MD) ([]hungPart, error) {
	var out []hungPart
	for i := range c.Pipes {
		p := &c.Pipes[i]
		middle := min(max(p.From, emptyFrom), p.To)
		for _, part := range []struct {
			from, to units.MD
			in       units.KgPerM3
		}{{p.From, middle, mud}, {middle, p.To, 0}} {
			if part.to <= part.from {
				continue
			}
			n, err := w.perMeter(p, part.in, mud)
			if err != nil {
				return nil, err
			}
			out = append(out, hungPart{part.from, part.to, float64(n) * units.G})
		}
	}
	return out, nil
}

// hangVertical is the vertical weight of parts: what hangs where nothing rubs.
func (w *Well) hangVertical(parts []hungPart) (units.Newtons, error) {
	sum := 0.0
	for _, p := range parts {
		from, err := w.TVD(p.from)
		if err != nil {
			return 0, err
		}
		to, err := w.TVD(p.to)
		if err != nil {
			return 0, err
		}
		sum += p.weight * float64(to-from)
	}
	return units.Newtons(sum), nil
}

// dragStep is the length a string is cut into where it rubs; halving it moves no
// load a thousandth.
const dragStep = 3.0 // m

// softString is the load at the top of parts that rub with a friction factor,
// pulled up for above zero, let down for below: a string without stiffness
// whose side force is that of its weight and of tension round bends (C. A.
// Johancsik, D. B. Friesen and R. Dawson, JPT, June 1984).
func (w *Well) softString(parts []hungPart, friction float64) (units.Newtons, error) {
	pull := 0.0
	for i := len(parts) - 1; i >= 0; i-- {
		p := parts[i]
		n := int(math.Ceil(float64(p.to-p.from) / dragStep))
		step := (p.to - p.from) / units.MD(n)
		for k := 0; k < n; k++ {
			bottom := p.to - units.MD(k)*step
			// Rounding mustn't put the last step above the part, maybe above the survey.
			b, err := w.bend(max(bottom-step, p.from), bottom)
			if err != nil {
				return 0, err
			}
			hung := p.weight * b.down
			// The tension that bends the side force is that at mid-length.
			side := math.Hypot((pull+hung/2)*b.turn, (pull+hung/2)*b.build+p.weight*b.across)
			pull += hung + friction*side
		}
	}
	return units.Newtons(pull), nil
}

// bend is how a short length of hole lies.
type bend struct {
	down, across float64 // its vertical and horizontal extent, m
	build, turn  float64 // inclination gained going up, rad; azimuth gained, rad, by the sine of inclination
}

func (w *Well) bend(top, bottom units.MD) (bend, error) {
	i0, a0, err := w.direction(top)
	if err != nil {
		return bend{}, err
	}
	i1, a1, err := w.direction(bottom)
	if err != nil {
		return bend{}, err
	}
	mid := (i0 + i1) / 2
	length := float64(bottom - top)
	return bend{length * math.Cos(mid), length * math.Sin(mid), i0 - i1, math.Remainder(a0-a1, 2*math.Pi) * math.Sin(mid)}, nil
}

// direction is the inclination and azimuth at a depth, rad.
func (w *Well) direction(md units.MD) (inc, azi float64, err error) {
	m, _, err := w.Depths()
	if err != nil {
		return 0, 0, err
	}
	if path, ok := m.(*survey.Path); ok {
		p, err := path.At(md)
		if err == nil {
			return float64(p.Inc), float64(p.Azi), nil
		}
	} else if i, known := m.Inclination(md); known {
		return float64(i), 0, nil
	}
	return 0, 0, Lack(w.Plan.Well.Ref, "a survey")
}

// Slide is what is left on the hook when a string reaches bottom going in.
type Slide struct {
	Load   units.Newtons // block left out; below zero the string must be pushed
	Hung   units.Newtons // vertical weight, nothing rubbing
	Empty  units.Meters  // floated length
	Factor float64       // friction factor, else the part of weight that drag takes in a vertical hole
	Rubs   bool          // Factor is a friction factor
	Refs   []place.Ref
}

// SlackOff is the load that goes on pulling a string into the hole as it
// reaches bottom: weight in mud with its floated length empty, less friction by
// the factor stated. Without one, in a vertical hole, less drag as stated; in a
// deviated one a part of the weight would never stop it, so that the factor is
// missing, but for a string that floats with nothing rubbing. The pipe a liner
// is run on pushes too where its weight is stated.
func (w *Well) SlackOff(str int) (s Slide, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return s, err
	}
	if err := run(c.Plan); err != nil {
		return s, err
	}
	mud, ref, err := w.RunIn(str)
	if err != nil {
		return s, err
	}
	s.Empty = floatedOf(c)
	parts, err := w.hungParts(c, mud, c.Shoe-units.MD(s.Empty))
	if err != nil {
		return s, err
	}
	if IsLiner(c.Plan) && c.Plan.RunningStringWeight.Known() {
		pipe, err := w.runningPart(str)
		if err != nil {
			return s, err
		}
		parts = append([]hungPart{pipe}, parts...)
	}
	s.Refs = []place.Ref{c.Plan.Floated.Ref, c.Plan.Friction.Ref, c.Plan.Drag.Ref, ref}
	if s.Hung, err = w.hangVertical(parts); err != nil {
		return s, err
	}
	if f := c.Plan.Friction; f.Known() {
		s.Factor, s.Rubs = float64(f.V), true
		s.Load, err = w.softString(parts, -s.Factor)
		return s, err
	}
	if w.deviated(c.Shoe) {
		if s.Hung >= 0 {
			return s, Lack(c.Plan.Ref, "the friction factor of running %s", c.Plan.Name.V)
		}
		s.Load = s.Hung
		return s, nil
	}
	s.Factor = float64(c.Plan.Drag.V)
	s.Load = s.Hung - units.Newtons(s.Factor*math.Abs(float64(s.Hung)))
	return s, nil
}

// floatedOf is the length run empty, no longer than the string.
func floatedOf(c *Casing) units.Meters {
	return max(0, min(c.Plan.Floated.V, units.Meters(c.Shoe-c.Top)))
}

// FloatedLoad is the pressure across a piece that keeps mud out of the floated
// length.
type FloatedLoad struct {
	Name         string
	Load, Rating units.Pascals
	MD           units.MD
	Ref          place.Ref
}

// FloatedLoads are the pressures across both ends of a floated length with the
// string at bottom: mud inside on the flotation collar, mud outside on the
// weakest float, nothing behind either. A rating that isn't stated is missing.
func (w *Well) FloatedLoads(str int) ([]FloatedLoad, Missing, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, nil, err
	}
	if floatedOf(c) == 0 {
		return nil, nil, Absent("no length of the string is floated")
	}
	mud, _, err := w.RunIn(str)
	if err != nil {
		return nil, nil, err
	}
	var out []FloatedLoad
	var missing Missing
	for _, end := range []struct {
		what  string
		md    units.MD
		kinds []string
	}{
		{"the flotation collar", c.Shoe - units.MD(floatedOf(c)), []string{"flotation_collar"}},
		{"the float shoe or collar", c.Shoe, []string{"float_shoe", "float_collar"}},
	} {
		l := FloatedLoad{MD: end.md}
		z, err := w.TVD(end.md)
		if err != nil {
			return nil, nil, err
		}
		l.Load = units.Hydrostatic(mud, z)
		for i := range c.Plan.Accessories {
			a := &c.Plan.Accessories[i]
			if anyOf(a.Kind.V, end.kinds) && a.RatingDifferential.Known() && (l.Ref == 0 || a.RatingDifferential.V < l.Rating) {
				l.Name, l.Rating, l.Ref = a.Name.Or(kindWords(a.Kind.V)), a.RatingDifferential.V, a.RatingDifferential.Ref
			}
		}
		if l.Ref == 0 || l.Rating <= 0 {
			missing = missing.and(Lack(c.Plan.Ref, "the differential rating of %s of %s", end.what, c.Plan.Name.V))
			continue
		}
		out = append(out, l)
	}
	if len(out) == 0 {
		return nil, nil, missing
	}
	return out, missing, nil
}

func anyOf(kind string, kinds []string) bool {
	for _, k := range kinds {
		if k == kind {
			return true
		}
	}
	return false
}

// perMeter is the buoyed mass per length of a segment.
func (w *Well) perMeter(p *Pipe, in, out units.KgPerM3) (units.KgPerM, error) {
	if p.SizeErr != nil {
		return 0, p.SizeErr
	}
	mass := p.Size.Weight
	if p.Plan.Weight.Known() {
		mass = p.Plan.Weight.V
	}
	if mass <= 0 {
		return 0, Lack(p.Plan.Ref, "the weight of %s", p.Plan.Label())
	}
	b, err := fluid.BuoyedWeight(mass, fluid.Tube{OD: p.Size.OD, ID: p.Size.ID()}, in, out)
	return b, Unusable(err, p.Plan.Ref, "a usable weight of "+p.Plan.Label())
}
