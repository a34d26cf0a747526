package fluid

import "spudgate/plan/units"

// fluid is the parcel of a span; the two after the last are what fills pipe and
// annulus at first.
func (m *march) fluid(i int) Parcel {
	switch n := len(m.parcels); {
	case i < n:
		return m.parcels[i]
	case i == n:
		return m.Inside
	}
	return m.Outside
}

// spans lists what fills the route, the way fluid flows, when volumes have been
// pumped and moved.
func (m *march) spans(in, out float64) []span {
	list := append(make([]span, 0, len(m.parcels)+3), span{air, 0, out - in})
	end := 0.0
	for i := range m.parcels {
		from := end
		end = m.ends[i]
		list = append(list, span{i, out - min(end, in), out - min(from, in)})
	}
	n := len(m.parcels)
	// The last pumped stands nearest the head.
	for a, b := 1, n; a < b; a, b = a+1, b-1 {
		list[a], list[b] = list[b], list[a]
	}
	list = append(list, span{n, out, out + m.turn}, span{n + 1, out + m.turn, m.end + out + m.turn})
	kept := list[:0]
	for _, s := range list {
		if s.to = min(s.to, m.end); s.to > s.from {
			kept = append(kept, s)
		}
	}
	return kept
}

// knots walks a run of parts with a pressure at its first end. A column hangs
// from its upper end; walked from the top, down is true.
func (m *march) knots(spans []span, from, to int, down bool, over units.Pascals, rate float64) ([]knot, error) {
	out := make([]knot, 0, to-from+len(spans)+1)
	still, drag := over, units.Pascals(0)
	add := func(p int, s span) error {
		pt := m.parts[p]
		a, b := max(s.from, pt.start), min(s.to, pt.start+pt.volume())
		if b-a <= 0 {
			return nil
		}
		k := knot{md: pt.at(a), to: pt.at(b), still: still, drag: drag}
		if !down {
			k.md, k.to = k.to, k.md
		}
		k.z = m.Depth(k.md)
		if s.fluid != air {
			k.rho = m.fluid(s.fluid).Density
			var err error
			if k.loss, err = m.loss(p, s.fluid, rate); err != nil {
				return err
			}
		}
		still, drag = k.at(k.to, m.Depth(k.to))
		out = append(out, k)
		return nil
	}
	for i := range to - from {
		p := from + i
		if !down {
			p = to - 1 - i
		}
		for j := range spans {
			if !down {
				j = len(spans) - 1 - j
			}
			if err := add(p, spans[j]); err != nil {
				return nil, err
			}
		}
	}
	last := knot{md: out[len(out)-1].to, to: out[len(out)-1].to, still: still, drag: drag}
	last.z = m.Depth(last.md)
	return append(out, last), nil
}

// loss is the friction gradient of a fluid in a part; none where friction isn't
// counted.
func (m *march) loss(p, fluid int, rate float64) (PaPerM, error) {
	if !m.drag || rate <= 0 {
		return 0, nil
	}
	key := lossKey{p, fluid, rate}
	if v, ok := m.cached[key]; ok {
		return v, nil
	}
	f := m.fluid(fluid)
	fr, err := f.Flow.Friction(m.parts[p].way, f.Density, units.MPerS(rate/m.parts[p].area))
	if len(m.cached) > 4096 { // rates of free fall never come again
		clear(m.cached)
	}
	m.cached[key] = fr.Loss
	return fr.Loss, err
}

// columns are the knots inside the pipe and outside it, from the top down.
func (m *march) columns(in, out, rate float64) (pipe, ring []knot, err error) {
	spans := m.spans(in, out)
	if pipe, err = m.knots(spans, 0, m.pipe, true, 0, rate); err != nil {
		return nil, nil, err
	}
	ring, err = m.knots(spans, m.pipe, len(m.parts), false, m.Over, rate)
	return pipe, ring, err
}

// head is the pressure that the head must hold: negative where the column
// inside outweighs all.
func (m *march) head(in, out, rate float64) (units.Pascals, error) {
	pipe, ring, err := m.columns(in, out, rate)
	if err != nil {
		return 0, err
	}
	a, b := pipe[len(pipe)-1], ring[len(ring)-1]
	return b.still + b.drag - a.still + a.drag, nil
}

// state describes the job when volumes have been pumped and moved.
func (m *march) state(in, out, rate float64) (Step, error) {
	s := Step{Pumped: units.CubicMeters(in), Moved: units.CubicMeters(out), Rate: units.M3PerS(rate)}
	pipe, ring, err := m.columns(in, out, rate)
	if err != nil {
		return s, err
	}
	a, b := pipe[len(pipe)-1], ring[len(ring)-1]
	s.Head = max(0, b.still+b.drag-a.still+a.drag)
	s.Static = max(0, b.still-a.still)
	s.AirTo, _ = m.at(out - in)
	s.Air = s.AirTo - m.parts[0].from
	for i := range m.parcels {
		start := 0.0
		if i > 0 {
			start = m.ends[i-1]
		}
		s.Fronts = append(s.Fronts, m.front(in, out, start))
	}
	s.Fronts = append(s.Fronts, m.front(in, out, m.ends[len(m.ends)-1]))
	for i, md := range m.InPipe {
		still, _ := under(pipe, md, m.inPipe[i])
		s.Inside = append(s.Inside, still)
	}
	for i, md := range m.InRing {
		still, drag := under(ring, md, m.inRing[i])
		s.Still, s.Moving = append(s.Still, still), append(s.Moving, still+drag)
	}
	return s, nil
}

func (m *march) front(in, out, start float64) Front {
	f := Front{Waiting: start > in, Out: out-start >= m.end}
	f.MD, f.Ring = m.at(max(out-start, out-in))
	return f
}

// under is the pressure at a watched depth of a column, knots from the top down.
func under(list []knot, md units.MD, z units.TVD) (still, drag units.Pascals) {
	for _, k := range list {
		if md <= k.to {
			return k.at(md, z)
		}
	}
	return list[len(list)-1].at(md, z)
}
