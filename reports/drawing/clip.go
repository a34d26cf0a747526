package drawing

import "math"

// A record may hold depths and loads that lie far off the page. What is drawn
// is cut at its edges, so that no dash and no hatch line is worked out that
// nobody sees.

// edges are the four sides of a page: how far inside of each a point lies.
func (s *Scene) edges() [4]func(p point) float64 {
	return [4]func(p point) float64{
		func(p point) float64 { return p.x },
		func(p point) float64 { return s.wide - p.x },
		func(p point) float64 { return p.y },
		func(p point) float64 { return s.high - p.y },
	}
}

// inside is what of a polyline lies on the page (Liang and Barsky, 1984).
func (s *Scene) inside(points []point) [][]point {
	var out [][]point
	var now []point
	for i := 1; i < len(points); i++ {
		a, b, ok := s.piece(points[i-1], points[i])
		if !ok {
			continue
		}
		if len(now) == 0 || now[len(now)-1] != a {
			if len(now) > 0 {
				out = append(out, now)
			}
			now = []point{a}
		}
		now = append(now, b)
	}
	if len(now) > 0 {
		out = append(out, now)
	}
	return out
}

// piece is what of one straight piece lies on the page.
func (s *Scene) piece(a, b point) (from, to point, ok bool) {
	t0, t1 := 0.0, 1.0
	for _, in := range s.edges() {
		da, db := in(a), in(b)
		switch {
		case !finite(da) || !finite(db) || da < 0 && db < 0:
			return a, b, false
		case da < 0:
			t0 = max(t0, da/(da-db))
		case db < 0:
			t1 = min(t1, da/(da-db))
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	from, to = a, b
	if t0 > 0 {
		from = along(a, b, t0)
	}
	if t1 < 1 {
		to = along(a, b, t1)
	}
	return from, to, true
}

// within is what of a polygon lies on the page (Sutherland and Hodgman, 1974).
func (s *Scene) within(points []point) []point {
	for _, p := range points {
		if !finite(p.x) || !finite(p.y) {
			return nil
		}
	}
	for _, in := range s.edges() {
		var kept []point
		for i, b := range points {
			a := points[(i+len(points)-1)%len(points)]
			da, db := in(a), in(b)
			if (da < 0) != (db < 0) {
				kept = append(kept, along(a, b, da/(da-db)))
			}
			if db >= 0 {
				kept = append(kept, b)
			}
		}
		points = kept
	}
	return points
}

func along(a, b point, t float64) point { return point{a.x + t*(b.x-a.x), a.y + t*(b.y-a.y)} }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
