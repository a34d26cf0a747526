package drawing

import (
	"math"
	"math/rand/v2"
	"testing"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// TestDashes cuts a corner of 10 and 10 by 6 on and 3 off: 0-6, 9-15, 18-20.
func TestDashes(t *testing.T) {
	got := dashes([]point{{0, 0}, {10, 0}, {10, 10}}, []float64{6, 3})
	want := [][]point{{{0, 0}, {6, 0}}, {{9, 0}, {10, 0}, {10, 5}}, {{10, 8}, {10, 10}}}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if len(got[i]) != len(want[i]) {
			t.Fatalf("dash %d: %v", i, got[i])
		}
		for k := range want[i] {
			near(t, "dash", far(got[i][k], want[i][k]), 0, 1e-9)
		}
	}
}

// TestHatch lays lines down a square of 10 at 45 degrees, 5 apart: y - x runs
// from -10 to 10, so that the diagonals at -5, 0 and 5 are 5, 10 and 5 across.
func TestHatch(t *testing.T) {
	s := newScene("")
	s.hatch(rect(0, 0, 10, 10), 1, 5, 0.4, black)
	var across float64
	for _, p := range s.ops[0].lines.paths {
		across += p[1].x - p[0].x
		for _, q := range p {
			if q.x < -1e-9 || q.x > 10+1e-9 || q.y < -1e-9 || q.y > 10+1e-9 {
				t.Errorf("%v lies outside", q)
			}
		}
	}
	near(t, "hatch across", across, 20, 1e-9)
}

// TestOutline gives a right angle of two legs a width of 2: the outer corner
// stands 1 and 1 out, the inner 1 and 1 in.
func TestOutline(t *testing.T) {
	got := outline([]point{{0, 0}, {10, 0}, {10, 10}}, 1)
	want := []point{{0, 1}, {9, 1}, {9, 10}, {11, 10}, {11, -1}, {0, -1}}
	for i := range want {
		near(t, "corner", far(got[i], want[i]), 0, 1e-9)
	}
	square := append(rect(0, 0, 10, 10), point{0, 0})
	got = outline(square, 1)
	near(t, "closed corner", far(got[0], point{1, 1}), 0, 1e-9)
	near(t, "closed corner", far(got[len(got)-1], point{-1, -1}), 0, 1e-9)
}

func TestRoundStep(t *testing.T) {
	for x, want := range map[float64]float64{1: 1, 1.01: 2, 0.03: 0.05, 730: 1000, 2000: 2000, 4.9e-7: 5e-7, 0: 0, -1: 0} {
		near(t, "step", roundStep(x), want, want*1e-12)
	}
	if roundStep(math.NaN()) != 0 || roundStep(math.Inf(1)) != 0 {
		t.Error("no step of what is no number")
	}
}

// TestTicks: 0 to 914.4 m is 0 to 3,000 ft.
func TestTicks(t *testing.T) {
	u, _ := units.ShownIn(units.MDLength, units.Field, false)
	got := axis{0, 914.4, 0, 1}.ticks(u, 6)
	if len(got) != 7 {
		t.Fatalf("%v", got)
	}
	near(t, "second tick", got[1], 152.4, 1e-9)
}

// TestSpaced holds over random columns: nothing overlaps, nothing leaves the
// column, the order is kept, and a label alone stays where it belongs.
func TestSpaced(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		var list []tag
		for range rnd.IntN(60) {
			list = append(list, tag{at: point{0, 100 + 600*rnd.Float64()}, lines: make([]string, 1+rnd.IntN(4)), rank: rnd.IntN(3)})
		}
		kept, gone := fitting(list, 600)
		if len(kept)+gone != len(list) {
			t.Fatalf("%d kept, %d gone of %d", len(kept), gone, len(list))
		}
		y := spaced(kept, 100, 700)
		for i := range y {
			if y[i] < 100-1e-9 || y[i]+kept[i].high() > 700+1e-9 {
				t.Errorf("label %d at %v leaves the column", i, y[i])
			}
			if i > 0 && y[i] < y[i-1]+kept[i-1].high()-1e-9 {
				t.Errorf("label %d at %v overlaps", i, y[i])
			}
		}
	}
	alone := []tag{{at: point{0, 300}, lines: []string{"a"}}}
	near(t, "alone", spaced(alone, 100, 700)[0], 300-lineHigh+4.5, 1e-9)
}

// TestFittingDropsLeastNeeded: of three labels with room for one, the one of
// the lowest rank stays.
func TestFittingDropsLeastNeeded(t *testing.T) {
	list := []tag{{lines: []string{"a"}, rank: 2}, {lines: []string{"b"}, rank: 0}, {lines: []string{"c"}, rank: 1}}
	kept, gone := fitting(list, list[0].high())
	if len(kept) != 1 || kept[0].lines[0] != "b" || gone != 2 {
		t.Errorf("%+v, %d", kept, gone)
	}
}

// TestStretches: burst uses 0.2 + md/1000 and tension 0.7, so that tension
// governs to 500 m, burst below, and burst is over from 800 m.
func TestStretches(t *testing.T) {
	of := sampleLoads()
	l := &loaded{of: &of, cases: letter(of.Cases), deep: axis{0, 1000, 0, 1}}
	if l.cases[0].Kind != "burst" || l.cases[0].letter != "A" {
		t.Fatalf("the most used is %s, %s", l.cases[0].letter, l.cases[0].Title)
	}
	got := l.stretches()
	want := []struct {
		kind     string
		from, to float64
		over     bool
	}{{"tension", 0, 500, false}, {"burst", 500, 800, false}, {"burst", 800, 1000, true}}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, w := range want {
		g := got[i]
		if l.cases[g.by].Kind != w.kind || g.over != w.over {
			t.Errorf("stretch %d: %s, over %v", i, l.cases[g.by].Kind, g.over)
		}
		near(t, "from", g.md[0], w.from, 6.3) // one step is 6.25 m
		near(t, "to", g.md[len(g.md)-1], w.to, 6.3)
		for k, md := range g.md {
			near(t, "share", g.share[k], max(0.7, 0.2+md/1000), 0.007)
		}
	}
}

// TestSteps: at a step in a case the bar takes each side's own value.
func TestSteps(t *testing.T) {
	of := finding.StringLoads{Cases: []finding.CaseLoad{{Case: "burst.a", Kind: "burst", MD: numbers(0, 400, 400, 1000), Used: numbers(0.9, 0.9, 0.3, 0.3)}}}
	l := &loaded{of: &of, cases: letter(of.Cases), deep: axis{0, 1000, 0, 1}}
	seen := 0
	for _, s := range l.stretches() {
		seen += len(s.md)
		for i, md := range s.md {
			if md < 400-1e-6 {
				near(t, "above", s.share[i], 0.9, 1e-9)
			}
			if md > 400+1e-6 {
				near(t, "below", s.share[i], 0.3, 1e-9)
			}
		}
	}
	if seen < 300 {
		t.Errorf("only %d depths are drawn", seen)
	}
}

// TestLimit holds the drawn ellipse against cases known without it: a pull
// alone yields at Y times the area, a pressure alone at Y over the hoop stress
// it makes, and with hoop = axial stress both are Y (von Mises in two axes).
func TestLimit(t *testing.T) {
	of := sampleLoads()
	e := of.Triaxial
	f, q := 1.2*float64(e.Yield)*0.005, 1.2*float64(e.Yield)/10
	r := &round{loaded: &loaded{page: &page{Scene: newScene("")}}, of: e, force: axis{-f, f, 100, 500}, press: axis{-q, q, 500, 100}}
	for _, factor := range []float64{1, 1.25} {
		r.ops = nil
		r.limit(factor, 1)
		list := r.ops[0].lines.paths[0]
		y := float64(e.Yield) / factor
		for _, want := range []point{{y, 0}, {-y, 0}, {0, y}, {0, -y}, {y, y}, {-y, -y}} {
			at := point{r.force.at(want.x * 0.005), r.press.at(want.y / 10)}
			best := math.Inf(1)
			for i := 1; i < len(list); i++ {
				best = min(best, away(at, list[i-1], list[i]))
			}
			near(t, "distance from the ellipse, points of the page", best, 0, 0.1)
		}
	}
}

// away is how far a point lies from a straight piece.
func away(p, a, b point) float64 {
	t := ((p.x-a.x)*(b.x-a.x) + (p.y-a.y)*(b.y-a.y)) / (far(a, b) * far(a, b))
	return far(p, along(a, b, min(max(t, 0), 1)))
}

// TestCut holds that what lies far off a page costs nothing and leaves what
// lies on it: a line from -1e12 to 1e12 across is 595 long on an A4 page.
func TestCut(t *testing.T) {
	s := newScene("")
	s.line([]point{{-1e12, 100}, {1e12, 100}}, 1, black)
	got := s.ops[0].lines.paths[0]
	near(t, "length", far(got[0], got[1]), 595, 1e-3)
	s.ops = nil
	s.line([]point{{-1e12, 100}, {1e12, 100}}, 1, black, 10, 10)
	if n := len(s.ops[0].lines.paths); n < 29 || n > 31 {
		t.Errorf("%d dashes", n)
	}
	s.ops = nil
	s.hatch(rect(-1e12, -1e12, 2e12, 2e12), 1, 10, 1, black)
	if n := len(s.ops[0].lines.paths); n < 140 || n > 145 { // (595 + 842) / 10
		t.Errorf("%d hatch lines", n)
	}
	s.ops = nil
	s.line([]point{{10, 10}, {-10, 10}, {-10, 20}, {10, 20}}, 1, black)
	if n := len(s.ops[0].lines.paths); n != 2 {
		t.Errorf("a line that leaves and comes back is %d lines", n)
	}
	s.ops = nil
	s.fill(black, point{math.NaN(), 1}, point{1, 2}, point{3, 4})
	s.line([]point{{math.Inf(1), 1}, {1, 1}}, 1, black)
	s.line([]point{{-5, -5}, {-9, -9}}, 1, black)
	s.write(label{at: point{math.NaN(), 1}, text: "x", size: 8}, 0)
	if len(s.ops) != 0 {
		t.Errorf("%d things off the page are drawn", len(s.ops))
	}
}

// TestToScale holds that the steel of two strings is as long as they are.
func TestToScale(t *testing.T) {
	s := drawn(t, sample(), "schematic", units.Metric)[0]
	var long []float64
	for _, o := range s.ops {
		if o.area == nil || o.area.color != steel || len(o.area.points) != 4 || o.area.points[0].x > wellX || o.area.points[0].y > pageFoot-50 {
			continue
		}
		long = append(long, o.area.points[2].y-o.area.points[0].y)
	}
	want := []float64{1000, 900, 1500, 700}
	if len(long) != len(want) {
		t.Fatalf("%v", long)
	}
	for i := range want {
		near(t, "length", long[i]/long[0], want[i]/want[0], 1e-9)
	}
}

// TestWidth holds the measured widths against the face itself: Go Regular is
// 2,048 units to the em, its figures 1,139 wide (the font's own table).
func TestWidth(t *testing.T) {
	near(t, "figures", width("0123", 10, false), 4*10*1139.0/2048, 0.01)
	if width("Bold", 10, true) <= width("Bold", 10, false) {
		t.Error("bold isn't wider")
	}
}

func TestPathOfDepths(t *testing.T) {
	p := path{deep(0), deep(1000), deep(3000)}
	z, ok := p.tvd(2000)
	near(t, "tvd", z, 1800, 1e-9)
	md, ok2 := p.md(1800)
	near(t, "md", md, 2000, 1e-9)
	if !ok || !ok2 {
		t.Error("a depth inside isn't known")
	}
	for _, outside := range []float64{-1, 3000.1} {
		if _, ok := p.tvd(outside); ok {
			t.Errorf("%v is known", outside)
		}
	}
	if usable([]finding.Depth{{MD: 1}}) != nil {
		t.Error("a path without TVD is used")
	}
}
