package fluid

import (
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/units"
)

// job is a 1,000 m vertical hole: 0.2 m bore, 0.3 m hole, 0.22 m pipe; tail
// cement displaced to 30 m above the shoe.
func straight(rho units.KgPerM3, flow *Rheology) (Route, []Parcel) {
	pipe, _ := NewBore([]Bore{{0, 1000, 0.2}})
	ring, _ := NewAnnulus([]Interval{{0, 1000, 0.3, 0.22, 0}})
	const rate = 0.01
	r := Route{Pipe: pipe, Ring: ring, Depth: func(md units.MD) units.TVD { return units.TVD(md) },
		Inside: Parcel{Density: rho, Flow: flow}, Outside: Parcel{Density: rho, Flow: flow},
		InRing: []units.MD{0, 500, 1000}, InPipe: []units.MD{500, 1000}, Lands: 0}
	bore := math.Pi / 4 * 0.2 * 0.2
	return r, []Parcel{{"spacer", 3, rho, rate, flow}, {"slurry", 12, rho, rate, flow}, {"mud", units.CubicMeters(970 * bore), rho, rate, flow}}
}

// Every fluid alike: the pressures are the hand formulas, rho g z in the column
// and 48 mu v/d^2 + 6 ty/d along it outside, 32 mu v/d^2 + 16/3 ty/d inside
// (Bingham, laminar), at each step.
func TestMarchOfOneFluid(t *testing.T) {
	flow := Bingham(0.03, 5)
	r, list := straight(1200, &flow)
	job, err := March(r, list, 50)
	if err != nil || !job.Friction {
		t.Fatal(job, err)
	}
	vo, vi := 0.01/(math.Pi/4*(0.09-0.0484)), 0.01/(math.Pi/4*0.04)
	outside := 48*0.03*vo/(0.08*0.08) + 6*5/0.08
	inside := 32*0.03*vi/0.04 + 16.0/3*5/0.2
	for i, s := range job.Steps[1:] {
		meets(t, i, "head", s.Head, 1000*(outside+inside), 1e-9)
		meets(t, i, "static", s.Static+1, 1, 1e-6)
		meets(t, i, "shoe", s.Moving[2], 1200*units.G*1000+1000*outside, 1e-9)
		meets(t, i, "half way", s.Moving[1], 1200*units.G*500+500*outside, 1e-9)
		meets(t, i, "inside", s.Inside[0], 1200*units.G*500, 1e-9)
		if s.Air != 0 || s.Pumped != s.Moved {
			t.Fatalf("step %d: alike fluids fall freely", i)
		}
	}
}

func meets(t *testing.T, step int, what string, got units.Pascals, want, relative float64) {
	t.Helper()
	if math.Abs(float64(got)-want) > relative*math.Abs(want) {
		t.Fatalf("step %d, %s: got %.12g, want %.12g", step, what, float64(got), want)
	}
}

// At the end, no friction: slurry 12 m3 of which 30 m of bore stays inside; the
// tops and the shoe pressure by hand.
func TestMarchEnd(t *testing.T) {
	r, list := straight(1000, nil)
	list[0].Density, list[1].Density = 1300, 1900
	job, err := March(r, list, 100)
	if err != nil || job.Friction || !job.Timed {
		t.Fatal(job, err)
	}
	bore, gap := math.Pi/4*0.04, math.Pi/4*(0.09-0.0484)
	cement := (12 - 30*bore) / gap
	spacer := 3 / gap
	end := job.Steps[len(job.Steps)-1]
	meets(t, 0, "top of spacer", units.Pascals(end.Fronts[0].MD), 1000-cement-spacer, 1e-9)
	meets(t, 0, "top of cement", units.Pascals(end.Fronts[1].MD), 1000-cement, 1e-9)
	meets(t, 0, "plug", units.Pascals(end.Fronts[2].MD), 970, 1e-9)
	out := units.G * (1000*(1000-cement-spacer) + 1300*spacer + 1900*cement)
	in := units.G * (1000*970 + 1900*30)
	meets(t, 0, "shoe", end.Still[2], out, 1e-9)
	meets(t, 0, "head", end.Static, out-in, 1e-9)
	meets(t, 0, "time", units.Pascals(end.Time), (15+970*bore)/0.01, 1e-9)
}

// volumes sums what stands in the route by its fronts, what came out of the top,
// and the mud pushed out before; less the empty length it is what was pumped.
func (s Step) volumes(r Route) float64 {
	held := func(a, b Front) float64 { // from the trailing end a to the leading end b
		var v units.CubicMeters
		switch {
		case a.Ring && b.Ring:
			v, _ = r.Ring.Volume(b.MD, a.MD)
		case b.Ring:
			v, _ = r.Ring.Volume(b.MD, 1000)
			w, _ := r.Pipe.Volume(a.MD, 1000)
			v += w
		default:
			v, _ = r.Pipe.Volume(a.MD, b.MD)
		}
		return float64(v)
	}
	sum := 0.0
	for i := 1; i < len(s.Fronts); i++ {
		sum += held(s.Fronts[i], s.Fronts[i-1])
	}
	last := s.Fronts[len(s.Fronts)-1]
	return sum + held(Front{MD: s.AirTo}, last)*b2f(!last.Waiting)
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// What stands between the fronts is what was pumped, at every step, falling
// freely or not, as long as nothing has come out at the top.
func TestMarchKeepsVolume(t *testing.T) {
	for _, flow := range []*Rheology{nil, {5, 0.03, 1}, {2, 0.4, 0.7}} {
		r, list := straight(1000, flow)
		list[1].Density = 1950
		job, err := March(r, list, 120)
		if err != nil {
			t.Fatal(err)
		}
		most := 0.0
		for i, s := range job.Steps {
			most = max(most, float64(s.Air))
			if s.Fronts[0].Out {
				t.Fatal("the spacer is out; the sum doesn't hold there")
			}
			if got := s.volumes(r); math.Abs(got-float64(s.Pumped)) > 1e-9 {
				t.Fatalf("step %d: %.12g m3 stand, %.12g were pumped", i, got, float64(s.Pumped))
			}
			if s.Moved < s.Pumped || s.Air > 0 && s.Head > 1 {
				t.Fatalf("step %d: %+v", i, s)
			}
		}
		if flow == nil && most < 50 {
			t.Errorf("heavy slurry falls freely; the longest empty length is %.1f m", most)
		}
	}
}

// Free fall by hand: only slurry of twice the mud's density, pumped down a pipe
// without friction. With h m of slurry in the pipe at v m3 pumped the column
// balances while the empty length a is such that 2 h = h + a, a = h, as long as
// none has turned the shoe: the level stands where h = v/bore, at a = h.
func TestFreeFallByHand(t *testing.T) {
	r, _ := straight(1000, nil)
	bore := math.Pi / 4 * 0.04
	list := []Parcel{{"slurry", units.CubicMeters(400 * bore), 2000, 0.01, nil}}
	job, err := March(r, list, 40)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range job.Steps[1:] {
		h := float64(s.Pumped) / bore
		meets(t, i, "empty length", units.Pascals(s.Air), h, 1e-9)
		meets(t, i, "front", units.Pascals(s.Fronts[0].MD), 2*h, 1e-9)
	}
}

// Twice the steps: peak shoe pressure within 0.5 %, tops within a foot.
func TestMarchConverges(t *testing.T) {
	for _, flow := range []*Rheology{nil, {5, 0.03, 1}, {0, 0.5, 0.6}} {
		r, list := straight(1100, flow)
		list[0].Density, list[1].Density = 1300, 1950
		peak := func(steps int) (float64, Step) {
			job, err := March(r, list, steps)
			if err != nil {
				t.Fatal(err)
			}
			p := 0.0
			for _, s := range job.Steps {
				p = max(p, float64(s.Moving[2]))
			}
			return p, job.Steps[len(job.Steps)-1]
		}
		p, a := peak(100)
		q, b := peak(200)
		if math.Abs(p/q-1) > 0.005 {
			t.Errorf("peak at the shoe %.6g Pa, with half the step %.6g", p, q)
		}
		for i := range a.Fronts {
			if math.Abs(float64(a.Fronts[i].MD-b.Fronts[i].MD)) > units.Foot {
				t.Errorf("front %d at %.3f and %.3f m", i, float64(a.Fronts[i].MD), float64(b.Fronts[i].MD))
			}
		}
	}
}

func TestMarchDomain(t *testing.T) {
	r, list := straight(1000, nil)
	for what, change := range map[string]func() (*Placement, error){
		"few steps":  func() (*Placement, error) { return March(r, list, 5) },
		"nothing":    func() (*Placement, error) { return March(r, nil, 50) },
		"no density": func() (*Placement, error) { return March(r, []Parcel{{"a", 1, 0, 1, nil}}, 50) },
		"a broken one": func() (*Placement, error) {
			return March(r, []Parcel{{"a", units.CubicMeters(math.NaN()), 1, 1, nil}}, 50)
		},
	} {
		if _, err := change(); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}

func BenchmarkMarch(b *testing.B) {
	for name, flow := range map[string]*Rheology{"static": nil, "friction": {2, 0.4, 0.7}} {
		b.Run(name, func(b *testing.B) {
			r, list := straight(1100, flow)
			list[0].Density, list[1].Density = 1300, 1950
			for b.Loop() {
				job, err := March(r, list, 200)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(len(job.Steps)), "steps")
			}
		})
	}
}

// Any way and any fluids: what stands is what was pumped, the fluids keep their
// order, nothing flows back, and every pressure is a finite number.
func TestMarchAnyJob(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	fell := 0
	for n := range 150 {
		route, list := anyJob(r)
		job, err := March(route, list, 40)
		if err != nil {
			t.Fatal(n, err)
		}
		last := Step{}
		for i, s := range job.Steps {
			if s.Air > 0 {
				fell++
			}
			if s.Moved < last.Moved || s.Time < last.Time || s.Moved < s.Pumped {
				t.Fatalf("job %d, step %d goes back: %+v after %+v", n, i, s, last)
			}
			for _, p := range append(append(append([]units.Pascals{s.Head, s.Static}, s.Still...), s.Moving...), s.Inside...) {
				if !finite(float64(p)) || p < -1e-6 { // noise of sums
					t.Fatalf("job %d, step %d: pressure %v", n, i, p)
				}
			}
			if !s.Fronts[0].Out {
				if got := s.volumes(route); math.Abs(got-float64(s.Pumped)) > 1e-9*math.Max(1, got) {
					t.Fatalf("job %d, step %d: %.12g m3 stand, %.12g were pumped", n, i, got, float64(s.Pumped))
				}
			}
			last = s
		}
	}
	if fell == 0 {
		t.Error("no job fell freely")
	}
}

// anyJob is a random job down to 1,000 m along the hole, slanting below 300.
func anyJob(r *rand.Rand) (Route, []Parcel) {
	cut := units.MD(100 + r.Float64()*800)
	id, od := 0.1+r.Float64()*0.1, 0.22+r.Float64()*0.05
	pipe, _ := NewBore([]Bore{{0, cut, units.Meters(id)}, {cut, 1000, units.Meters(0.2)}})
	ring, _ := NewAnnulus([]Interval{{0, cut / 2, 0.32, units.Meters(od), 0}, {cut / 2, 1000, 0.31, units.Meters(od), units.Fraction(r.Float64())}})
	slant := math.Cos(r.Float64() * 1.5)
	flow := func() *Rheology {
		return &Rheology{units.Pascals(r.Float64() * 10), 0.002 + r.Float64(), units.Fraction(0.3 + 0.7*r.Float64())}
	}
	if r.Intn(2) == 0 {
		flow = func() *Rheology { return nil }
	}
	parcel := func(name string) Parcel {
		return Parcel{name, units.CubicMeters(0.1 + r.Float64()*12), units.KgPerM3(900 + r.Float64()*1200), units.M3PerS(0.002 + r.Float64()*0.03), flow()}
	}
	mud := parcel("mud")
	out := Route{Pipe: pipe, Ring: ring, Inside: mud, Outside: mud, InRing: []units.MD{0, cut, 1000}, InPipe: []units.MD{0, cut, 1000},
		Depth: func(md units.MD) units.TVD { return units.TVD(min(md, 300)) + units.TVD(slant*float64(max(0, md-300))) }}
	list := []Parcel{parcel("a"), parcel("b"), parcel("c"), parcel("d")}
	if r.Intn(2) == 0 {
		bore, _ := pipe.Volume(0, 980)
		out.Lands = bore + list[0].Volume + list[1].Volume + list[2].Volume
	}
	return out, list
}

// Half the step, on any job: peak pressure at the exit within 0.5 %; the fronts
// within a foot where the pipe is full again at the end, and within 2 m where
// the job ends while fluid still falls (the step is of first order there).
func TestMarchAnyJobConverges(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	peak := func(p *Placement) (most float64) {
		for _, s := range p.Steps {
			most = max(most, float64(s.Moving[2]))
		}
		return most
	}
	full := 0
	for n := range 100 {
		route, list := anyJob(r)
		a, err := March(route, list, 150)
		if err != nil {
			t.Fatal(err)
		}
		b, err := March(route, list, 300)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(peak(a)/peak(b) - 1); d > 0.005 {
			t.Errorf("job %d: peak moves by %.3g", n, d)
		}
		x, y := a.Steps[len(a.Steps)-1], b.Steps[len(b.Steps)-1]
		allowed := 2.0
		if x.Air == 0 && y.Air == 0 {
			allowed, full = units.Foot, full+1
		}
		for i := range x.Fronts {
			if d := math.Abs(float64(x.Fronts[i].MD - y.Fronts[i].MD)); d > allowed {
				t.Errorf("job %d: front %d moves by %.3g m", n, i, d)
			}
		}
	}
	if full < 20 {
		t.Errorf("only %d jobs end with a full pipe", full)
	}
}
