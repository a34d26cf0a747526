package fluid

import (
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/units"
)

// account is where a job's volumes are at a step, by its fronts and nothing
// else: of each parcel what stands in pipe and annulus, and what of the mud that
// was there before is left.
type account struct {
	pipe, ring []float64 // of each parcel, m3
	mud        float64
}

func accountOf(r Route, s Step) account {
	bottom := r.Pipe.list[len(r.Pipe.list)-1].To
	top := r.Ring.list[0].From
	between := func(a *Annulus, from, to units.MD) float64 {
		if to <= from {
			return 0
		}
		v, _ := a.Volume(from, to)
		return float64(v)
	}
	// up is how high a front stands outside, or the bottom; down how deep inside.
	up := func(f Front) units.MD {
		switch {
		case f.Out:
			return top
		case f.Ring:
			return f.MD
		}
		return bottom
	}
	down := func(f Front) units.MD {
		if f.Ring {
			return bottom
		}
		return f.MD
	}
	var a account
	for i := 1; i < len(s.Fronts); i++ {
		lead, tail := s.Fronts[i-1], s.Fronts[i]
		a.pipe = append(a.pipe, between(r.Pipe, down(tail), down(lead)))
		a.ring = append(a.ring, between(r.Ring, up(lead), up(tail)))
	}
	a.mud = between(r.Ring, top, up(s.Fronts[0])) + between(r.Pipe, down(s.Fronts[0]), bottom)
	return a
}

// At every step of any job what was pumped of each fluid stands in the pipe, in
// the annulus, or has been returned; only fluid whose front is out has been;
// and all that was returned, mud included, is what went into the annulus.
func TestMarchAccounts(t *testing.T) {
	r := rand.New(rand.NewSource(23))
	returned := 0
	for n := range 120 {
		route, list := anyJob(r)
		if n%2 == 0 { // enough to come back at the top
			list[0].Volume *= 6
		}
		job, err := March(route, list, 60)
		if err != nil {
			t.Fatal(n, err)
		}
		start := accountOf(route, job.Steps[0]).mud
		for k, s := range job.Steps {
			a, slack := accountOf(route, s), 1e-9*float64(s.Pumped)
			out := start - a.mud
			from := 0.0
			for i, p := range list {
				pumped := min(max(float64(s.Pumped)-from, 0), float64(p.Volume))
				from += float64(p.Volume)
				gone := pumped - a.pipe[i] - a.ring[i]
				if !s.Fronts[i].Out && math.Abs(gone) > slack || gone < -slack {
					t.Fatalf("job %d, step %d: %s lacks %.3g of %.12g m3", n, k, p.Name, gone, pumped)
				}
				if gone > 1e-6 {
					returned++
				}
				out += gone
			}
			if math.Abs(out-float64(s.Moved)) > slack {
				t.Fatalf("job %d, step %d: %.12g m3 came back, %.12g went into the annulus", n, k, out, float64(s.Moved))
			}
		}
	}
	if returned < 100 {
		t.Errorf("only %d steps returned a fluid of the job", returned)
	}
}

// Hand formulas of a straight, gauge, vertical well whose spacer and mud are
// alike, plug down to the shoe: nothing falls while all is alike; at the end the
// bump differential is (cement - displacement) g h with h the cement outside.
func TestMarchHandFormulas(t *testing.T) {
	const bore, gap = math.Pi / 4 * 0.04, math.Pi / 4 * (0.09 - 0.0484)
	for _, c := range []struct{ mud, cement, behind units.KgPerM3 }{
		{1200, 1900, 1200}, {1000, 1500, 1000}, {1200, 1200, 1200}, {1100, 1900, 1030}, {1000, 2200, 1700},
	} {
		r, list := straight(c.mud, nil)
		list[0].Density, list[1].Density, list[2].Density = c.mud, c.cement, c.behind
		list[1].Volume, list[2].Volume = units.CubicMeters(600*gap), units.CubicMeters(1000*bore)
		r.Lands = list[0].Volume + list[1].Volume + list[2].Volume
		job, err := March(r, list, 100)
		if err != nil {
			t.Fatal(err)
		}
		end := job.Steps[len(job.Steps)-1]
		meets(t, 0, "top of cement", units.Pascals(end.Fronts[1].MD), 400, 1e-9)
		// Outside 600 m of cement under 400 m of mud, inside 1,000 m of what displaced it.
		want := units.G * (600*float64(c.cement-c.behind) + 400*float64(c.mud-c.behind))
		meets(t, 0, "bump", end.Static, max(0, want), 1e-9)
		meets(t, 0, "shoe", end.Still[2], units.G*(400*float64(c.mud)+600*float64(c.cement)), 1e-9)
		for _, s := range job.Steps {
			if s.Parcel == 0 && (s.Air != 0 || s.Static > 1e-6) {
				t.Errorf("alike fluids: %v empty, %v at the head", s.Air, s.Static)
			}
		}
	}
}

// Bourgoyne et al., Applied Drilling Engineering (SPE, 1986), example 4.1, from
// memory: outside 7,000 ft of 10.5 ppg mud, 300 ft of 8.5 ppg flush, 1,700 ft of
// 12.7 ppg filler and 1,000 ft of 16.7 ppg cement, inside 9 ppg brine down to
// 10,000 ft: 1,266 psi at the pump.
func TestMarchPublishedColumn(t *testing.T) {
	ft := func(x float64) units.MD { return units.MD(x * units.Foot) }
	pipe, _ := NewBore([]Bore{{0, ft(10000), 0.2}})
	ring, _ := NewAnnulus([]Interval{{0, ft(10000), 0.3, 0.22, 0}})
	r := Route{Pipe: pipe, Ring: ring, Depth: func(md units.MD) units.TVD { return units.TVD(md) },
		Inside: Parcel{Density: ppg(10.5)}, Outside: Parcel{Density: ppg(10.5)}, InRing: []units.MD{ft(10000)}, InPipe: []units.MD{ft(10000)}}
	outside := func(name string, long, rho float64) Parcel {
		v, _ := ring.Volume(0, ft(long))
		return Parcel{Name: name, Volume: v, Density: ppg(rho)}
	}
	bore, _ := pipe.Volume(0, ft(10000))
	job, err := March(r, []Parcel{outside("flush", 300, 8.5), outside("filler", 1700, 12.7), outside("cement", 1000, 16.7), {Name: "brine", Volume: bore, Density: ppg(9)}}, 100)
	if err != nil {
		t.Fatal(err)
	}
	got := float64(job.Steps[len(job.Steps)-1].Static) / units.Psi
	// Where the source's 0.052 psi/ft/ppg stands for 0.0519480.
	if got *= 0.052 / (units.PPG * units.G * units.Foot / units.Psi); math.Abs(got-1266) > 0.5 {
		t.Errorf("%.2f psi at the pump, published 1,266", got)
	}
}

// Annular friction of 10.5 ppg, PV 35 cP, YP 6 lbf/100 ft2 at 300 gal/min as
// published ("Applied Drilling Circulation Systems", annulus example): 73 psi on
// 6,500 ft of 8.755 x 4.5 in, 38 psi on 3,000 ft of 8.5 x 4.5 in, 31 psi on 450 ft
// of 8.5 x 6.75 in; each to half a psi.
func TestMarchPublishedFriction(t *testing.T) {
	const in = 0.0254
	flow := Bingham(units.PascalSeconds(0.035), 6*dialYield)
	mud := Parcel{Name: "mud", Volume: 20, Density: ppg(10.5), Rate: units.M3PerS(300 * units.Barrel / 42 / 60), Flow: &flow}
	ft := func(x float64) units.MD { return units.MD(x * units.Foot) }
	pipe, _ := NewBore([]Bore{{0, ft(9950), 4 * in}})
	ring, _ := NewAnnulus([]Interval{{0, ft(6500), 8.755 * in, 4.5 * in, 0}, {ft(6500), ft(9500), 8.5 * in, 4.5 * in, 0}, {ft(9500), ft(9950), 8.5 * in, 6.75 * in, 0}})
	r := Route{Pipe: pipe, Ring: ring, Depth: func(md units.MD) units.TVD { return units.TVD(md) }, Inside: mud, Outside: mud,
		InRing: []units.MD{ft(6500), ft(9500), ft(9950)}}
	job, err := March(r, []Parcel{mud}, 20)
	if err != nil || !job.Friction {
		t.Fatal(job, err)
	}
	s := job.Steps[len(job.Steps)-1]
	last := 0.0
	for i, want := range []float64{73, 38, 31} {
		drag := float64(s.Moving[i]-s.Still[i]) / units.Psi
		if got := drag - last; math.Abs(got-want) > 0.5 {
			t.Errorf("length %d: %.2f psi, published %.0f", i+1, got, want)
		}
		last = drag
	}
}
