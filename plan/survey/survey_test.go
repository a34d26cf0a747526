package survey

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/units"
)

const (
	deg = units.Degree
	ft  = units.Foot
)

func path(t testing.TB, stations ...Station) *Path {
	t.Helper()
	p, err := New(stations)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func at(t testing.TB, p *Path, md units.MD) Point {
	t.Helper()
	pt, err := p.At(md)
	if err != nil {
		t.Fatal(err)
	}
	return pt
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, within)
	}
}

// arc is a circle of curvature k that starts with tangent t and bends towards
// n, written down by its own equation.
func arc(t, n vector, k, s float64) (pos, tangent vector) {
	sin, cos := math.Sincos(k * s)
	half := math.Sin(k * s / 2)
	return t.times(sin/k).plus(2*half*half/k, n), t.times(cos).plus(sin, n)
}

func angles(md float64, t vector) Station {
	return Station{units.MD(md), units.Radians(math.Atan2(math.Hypot(t.north, t.east), t.down)), units.Radians(math.Atan2(t.east, t.north))}
}

// TestArcInPlane: from vertical, at constant curvature, TVD = R sin(inc) and the
// departure is R (1 - cos(inc)).
func TestArcInPlane(t *testing.T) {
	const radius = 286.4789
	var list []Station
	for _, inc := range []float64{0, 7, 30, 31, 88, 120, 170} {
		list = append(list, Station{units.MD(radius * inc * deg), units.Radians(inc * deg), 1})
	}
	p := path(t, list...)
	for inc := 0.5; inc < 170; inc += 0.5 {
		pt := at(t, p, units.MD(radius*inc*deg))
		sin, cos := math.Sincos(inc * deg)
		near(t, "TVD", float64(pt.TVD), radius*sin, 1e-9)
		near(t, "north", float64(pt.North), radius*(1-cos)*math.Cos(1), 1e-9)
		near(t, "east", float64(pt.East), radius*(1-cos)*math.Sin(1), 1e-9)
		near(t, "inclination", float64(pt.Inc), inc*deg, 1e-12)
		near(t, "azimuth", float64(pt.Azi), 1, 1e-9)
		near(t, "curvature", float64(pt.DLS), 1/radius, 1e-12)
	}
}

// TestArcAnywhere: arcs of any plane and curvature, down to almost straight,
// against the equation of the circle.
func TestArcAnywhere(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 2000 {
		inc, azi, tool := r.Float64()*math.Pi, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi
		t1 := tangent(Station{Inc: units.Radians(inc), Azi: units.Radians(azi)})
		high := vector{-math.Sin(inc), math.Cos(inc) * math.Cos(azi), math.Cos(inc) * math.Sin(azi)}
		right := vector{0, -math.Sin(azi), math.Cos(azi)}
		n := high.times(math.Cos(tool)).plus(math.Sin(tool), right)
		k := math.Pow(10, -12+10.4*r.Float64())
		length := 100.0
		_, t2 := arc(t1, n, k, length)
		p := path(t, angles(0, t1), angles(length, t2))
		s := r.Float64() * length
		pos, tan := arc(t1, n, k, s)
		pt := at(t, p, units.MD(s))
		near(t, "TVD", float64(pt.TVD), pos.down, 1e-9)
		near(t, "north", float64(pt.North), pos.north, 1e-9)
		near(t, "east", float64(pt.East), pos.east, 1e-9)
		near(t, "down", math.Cos(float64(pt.Inc)), tan.down, 1e-11)
	}
}

// wander is a random hole, which may turn up and roll.
func wander(r *rand.Rand, n int) []Station {
	list := []Station{{0, 0, 0}}
	inc, azi := 0.0, 1.0
	for i := 1; i < n; i++ {
		inc = math.Abs(inc + (r.Float64()-0.4)*0.3)
		if inc > 2 {
			inc = 1.8
		}
		azi = math.Mod(azi+(r.Float64()-0.5)*0.4, 2*math.Pi)
		list = append(list, Station{list[i-1].MD + units.MD(1+40*r.Float64()), units.Radians(inc), units.Radians(azi)})
	}
	return list
}

// TestSubdivision: more stations on the same arcs change nothing.
func TestSubdivision(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 50 {
		list := wander(r, 30)
		p := path(t, list...)
		var fine []Station
		for i, s := range list {
			if i > 0 {
				pt := at(t, p, list[i-1].MD+(s.MD-list[i-1].MD)*units.MD(0.1+0.8*r.Float64()))
				fine = append(fine, Station{pt.MD, pt.Inc, pt.Azi})
			}
			fine = append(fine, s)
		}
		q := path(t, fine...)
		for range 40 {
			md := units.MD(r.Float64()) * list[len(list)-1].MD
			a, b := at(t, p, md), at(t, q, md)
			near(t, "TVD", float64(a.TVD), float64(b.TVD), 1e-9)
			near(t, "north", float64(a.North), float64(b.North), 1e-9)
			near(t, "east", float64(a.East), float64(b.East), 1e-9)
			near(t, "curvature", float64(a.DLS), float64(b.DLS), 1e-9)
		}
	}
}

// TestRoundTrip: every depth listed for a TVD has that TVD, the depth asked for
// is among them, and they are in order.
func TestRoundTrip(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	several := 0
	for range 60 {
		p := path(t, wander(r, 40)...)
		_, end := p.Range()
		for range 50 {
			md := end * units.MD(r.Float64())
			z, err := p.TVD(md)
			if err != nil {
				t.Fatal(err)
			}
			if checkCrossings(t, p, z, md) > 1 {
				several++
			}
		}
	}
	if several < 100 {
		t.Errorf("only %d depths were crossed more than once", several)
	}
}

func checkCrossings(t *testing.T, p DepthMap, z units.TVD, md units.MD) int {
	t.Helper()
	all := p.MDs(z)
	found := false
	for i, c := range all {
		back, err := p.TVD(c)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "TVD of a crossing", float64(back), float64(z), 1e-9)
		if i > 0 && c <= all[i-1] {
			t.Errorf("crossings out of order: %v", all)
		}
		// Where the hole is nearly level a depth isn't given by its TVD.
		inc, known := p.Inclination(md)
		flat := known && math.Abs(math.Cos(float64(inc))) < 1e-3
		found = found || flat || math.Abs(float64(c-md)) < 1e-5
	}
	if !found {
		t.Errorf("%v is missing among the crossings %v of %v", md, all, z)
	}
	return len(all)
}

// TestCountsCrossings compares the number of crossings with a fine sweep.
func TestCountsCrossings(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for range 20 {
		p := path(t, wander(r, 25)...)
		_, end := p.Range()
		z, _ := p.TVD(end * units.MD(0.3+0.6*r.Float64()))
		z += 0.0123
		count, last := 0, units.TVD(0)
		for i := 0; i <= 40000; i++ {
			now, err := p.TVD(end * units.MD(i) / 40000)
			if err != nil {
				t.Fatal(err)
			}
			if i > 0 && (last < z) != (now < z) {
				count++
			}
			last = now
		}
		if got := len(p.MDs(z)); got != count {
			t.Errorf("%d crossings of %v, the sweep finds %d", got, z, count)
		}
	}
}

// TestHorizontal: a lateral that undulates through its own depth.
func TestHorizontal(t *testing.T) {
	p := path(t, Station{0, 0, 0}, Station{900, 0, 0}, Station{900 + 100*math.Pi, 90 * deg, 0},
		Station{1500, 92 * deg, 0}, Station{1800, 88 * deg, 0}, Station{2100, 92 * deg, 0})
	flat := path(t, Station{0, 0, 0}, Station{900, 0, 0}, Station{900 + 100*math.Pi, 90 * deg, 0}, Station{2000, 90 * deg, 0}, Station{2500, 90 * deg, 1})
	for _, z := range []units.TVD{1099, 1095, 900, 0} {
		if all := flat.MDs(z); len(all) != 1 {
			t.Errorf("level lateral crosses %v at %v", z, all)
		}
	}
	// A quarter circle of radius 200 m ends 200 m below its start.
	if all := flat.MDs(1100); len(all) != 1 || math.Abs(float64(all[0])-(900+100*math.Pi)) > 1e-3 {
		t.Errorf("a level stretch is listed by its first depth, got %v", all)
	}
	if all := p.MDs(1099); len(all) < 2 {
		t.Errorf("undulating lateral crosses at %v only", all)
	}
	if all := p.MDs(1200); len(all) != 0 {
		t.Errorf("never gets to 1200 m TVD, got %v", all)
	}
}

func TestEnds(t *testing.T) {
	p := path(t, Station{0, 0, 0}, Station{1000, 0.5, 2})
	last := at(t, p, 1000)
	if over := at(t, p, 1000.3); over != last {
		t.Errorf("within 0.3 m of the end it is the end: %v, %v", over, last)
	}
	for _, md := range []units.MD{1000.31, -0.001, units.MD(math.NaN()), units.MD(math.Inf(1))} {
		var outside *RangeError
		if _, err := p.At(md); !errors.As(err, &outside) {
			t.Errorf("At(%v): %v", md, err)
		}
		if _, err := p.TVD(md); !errors.As(err, &outside) {
			t.Errorf("TVD(%v): %v", md, err)
		}
		if _, known := p.Inclination(md); known {
			t.Errorf("inclination known at %v", md)
		}
	}
	if from, to := p.Range(); from != 0 || to != 1000 {
		t.Errorf("range %v to %v", from, to)
	}
}

func TestTie(t *testing.T) {
	p := path(t, Station{500, 0.2, 1}, Station{700, 0.2, 1})
	if md, tied := p.Tie(); md != 500 || !tied {
		t.Errorf("tie %v %v", md, tied)
	}
	near(t, "TVD in the tie", float64(at(t, p, 450).TVD), 450, 0)
	near(t, "TVD below", float64(at(t, p, 600).TVD), 500+100*math.Cos(0.2), 1e-9)
	if _, tied := path(t, Station{0, 0, 0}, Station{9, 0, 0}).Tie(); tied {
		t.Error("a survey from the depth reference needs no tie")
	}
	one := path(t, Station{MD: 500})
	near(t, "one station", float64(at(t, one, 500).TVD), 500, 0)
	if got := p.Stations(); len(got) != 2 || got[0].MD != 500 {
		t.Errorf("stations %v", got)
	}
}

func TestRefused(t *testing.T) {
	nan := units.Radians(math.NaN())
	for what, list := range map[string][]Station{
		"nothing":         {},
		"one at zero":     {{0, 0, 0}},
		"same depth":      {{0, 0, 0}, {10, 0, 0}, {10, 0, 0}},
		"going up":        {{0, 0, 0}, {10, 0, 0}, {9, 0, 0}},
		"negative":        {{-1, 0, 0}, {10, 0, 0}},
		"inc below zero":  {{0, 0, 0}, {10, -0.01, 0}},
		"inc over 180":    {{0, 0, 0}, {10, 3.15, 0}},
		"azi over 360":    {{0, 0, 0}, {10, 1, 6.3}},
		"not a number":    {{0, 0, 0}, {10, nan, 0}},
		"turned backward": {{0, 0, 0}, {10, 179.5 * deg, 0}},
	} {
		var input *InputError
		if _, err := New(list); !errors.As(err, &input) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if _, err := New([]Station{{0, 0, 0}, {10, 178.9 * deg, 0}}); err != nil {
		t.Error(err)
	}
}

func TestDLS(t *testing.T) {
	p := path(t, Station{0, 0, 0}, Station{100, 0, 0}, Station{200, 0.02, 0}, Station{300, 0.07, 0}, Station{400, 0.08, 0})
	for _, c := range []struct {
		from, to units.MD
		want     float64
	}{{0, 100, 0}, {0, 101, 2e-4}, {100, 200, 2e-4}, {150, 250, 5e-4}, {300, 400, 1e-4}, {0, 400, 5e-4}} {
		got, err := p.MaxDLS(c.from, c.to)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "greatest curvature", float64(got), c.want, 1e-15)
	}
	at200, err := p.DLS(200)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "curvature at a station is that above", float64(at200), 2e-4, 1e-15)
	for _, c := range [][2]units.MD{{-1, 100}, {0, 401}, {100, 100}, {200, 100}} {
		if _, err := p.MaxDLS(c[0], c[1]); err == nil {
			t.Errorf("MaxDLS(%v, %v) gave no error", c[0], c[1])
		}
	}
	if _, err := p.DLS(500); err == nil {
		t.Error("DLS past the end gave no error")
	}
}

func TestVertical(t *testing.T) {
	var m DepthMap = Vertical{}
	if z, err := m.TVD(1234); z != 1234 || err != nil {
		t.Errorf("%v %v", z, err)
	}
	for _, md := range []units.MD{-1, units.MD(math.NaN()), units.MD(math.Inf(1))} {
		if _, err := m.TVD(md); err == nil {
			t.Errorf("TVD(%v) gave no error", md)
		}
		if got := m.MDs(units.TVD(md)); got != nil {
			t.Errorf("MDs(%v) gave %v", md, got)
		}
	}
	if got := m.MDs(5); len(got) != 1 || got[0] != 5 {
		t.Errorf("MDs(5) = %v", got)
	}
	if inc, known := m.Inclination(5); inc != 0 || !known {
		t.Errorf("inclination %v %v", inc, known)
	}
	if from, to := m.Range(); from != 0 || to < 1e12 {
		t.Errorf("range %v to %v", from, to)
	}
}

func BenchmarkTVD(b *testing.B) {
	p := path(b, wander(rand.New(rand.NewSource(5)), 300)...)
	_, end := p.Range()
	for i := range b.N {
		if _, err := p.TVD(end * units.MD(i%1000) / 1000); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMDs(b *testing.B) {
	p := path(b, wander(rand.New(rand.NewSource(5)), 300)...)
	_, end := p.Range()
	z, _ := p.TVD(end / 2)
	for range b.N {
		if len(p.MDs(z)) == 0 {
			b.Fatal("no crossing")
		}
	}
}
