package fluid

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/units"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, within)
	}
}

// refused holds that an error is one of domain.
func refused(t *testing.T, what string, err error) {
	t.Helper()
	var domain *DomainError
	if !errors.As(err, &domain) {
		t.Errorf("%s: %v", what, err)
	}
}

func randomAnnulus(d draw) *Annulus {
	var list []Interval
	at := units.MD(d.between(0, 500))
	for range 1 + d.Intn(8) {
		to := at + units.MD(d.between(0.5, 900))
		inner := d.between(0, 0.3)
		list = append(list, Interval{at, to, units.Meters(inner + d.between(0.005, 0.3)), units.Meters(inner), units.Fraction(d.between(0, 1.5))})
		at = to
	}
	return must(NewAnnulus(list))
}

func cutOf(d draw, a *Annulus) (from, to units.MD) {
	top, bottom := a.Range()
	x, y := top+(bottom-top)*units.MD(d.Float64()), top+(bottom-top)*units.MD(d.Float64())
	return min(x, y), max(x, y)
}

func randomColumn(d draw) *Column {
	var list []Layer
	at := units.TVD(d.between(0, 500))
	for range 1 + d.Intn(5) {
		to := at + units.TVD(d.between(0.5, 900))
		list = append(list, Layer{at, to, d.density()})
		at = to
	}
	return must(NewColumn(d.pressure(), list...))
}

// TestVolumeRoundTrip: a volume placed from a depth comes to the depth it was
// measured to.
func TestVolumeRoundTrip(t *testing.T) {
	d := draw{rand.New(rand.NewSource(2))}
	for range 5000 {
		a := randomAnnulus(d)
		from, to := cutOf(d, a)
		v := must(a.Volume(from, to))
		top := must(a.TopFromVolume(v, to))
		near(t, "top", float64(top.MD), float64(from), 1e-9*float64(to))
		near(t, "volume", float64(must(a.Volume(top.MD, to))), float64(v), 1e-12*(1+float64(v)))
	}
}

// TestVolumeAddsUp: cutting an interval anywhere changes nothing; more volume
// never ends lower; excess only adds.
func TestVolumeAddsUp(t *testing.T) {
	d := draw{rand.New(rand.NewSource(3))}
	for range 1000 {
		a := randomAnnulus(d)
		from, to := cutOf(d, a)
		mid := from + (to-from)*units.MD(d.Float64())
		whole := float64(must(a.Volume(from, to)))
		near(t, "sum", float64(must(a.Volume(from, mid))+must(a.Volume(mid, to))), whole, 1e-12*(1+whole))
		if gauge := float64(must(a.Gauge().Volume(from, to))); gauge > whole {
			t.Errorf("gauge %v above %v", gauge, whole)
		}
		v := d.volume()
		less, more := must(a.TopFromVolume(v, to)), must(a.TopFromVolume(v*1.1, to))
		if more.MD > less.MD || more.Returned < less.Returned {
			t.Errorf("more cement ends at %v, less at %v", more, less)
		}
	}
}

func TestTopAtSurface(t *testing.T) {
	// 2 m2 over 10 m, then 1 m2 over 10 m: 30 m3.
	wide, narrow := units.Meters(math.Sqrt(8/math.Pi)), units.Meters(math.Sqrt(4/math.Pi))
	a := must(NewAnnulus([]Interval{{0, 10, wide, 0, 0}, {10, 20, narrow, 0, 0}}))
	for _, c := range []struct {
		volume, top, back float64
		full              bool
	}{{0, 20, 0, false}, {5, 15, 0, false}, {10, 10, 0, false}, {20, 5, 0, false}, {29.9, 0.05, 0, false}, {30, 0, 0, true}, {37, 0, 7, true}} {
		top := must(a.TopFromVolume(units.CubicMeters(c.volume), 20))
		near(t, "top", float64(top.MD), c.top, 1e-9)
		near(t, "returned", float64(top.Returned), c.back, 1e-9)
		if top.Full != c.full {
			t.Errorf("%v m3: full %v", c.volume, top.Full)
		}
	}
	near(t, "from a collar", float64(must(a.TopFromVolume(5, 12)).MD), 8.5, 1e-9)
	near(t, "bore", float64(must(must(NewBore([]Bore{{0, 10, wide}, {10, 20, narrow}})).Volume(0, 15))), 25, 1e-9)
}

func TestVolumeRefuses(t *testing.T) {
	nan := units.Meters(math.NaN())
	for what, list := range map[string][]Interval{
		"nothing":   {},
		"no gap":    {{0, 10, 0.2, 0.2, 0}},
		"no length": {{10, 10, 0.2, 0.1, 0}},
		"gap":       {{0, 10, 0.2, 0.1, 0}, {11, 20, 0.2, 0.1, 0}},
		"overlap":   {{0, 10, 0.2, 0.1, 0}, {9, 20, 0.2, 0.1, 0}},
		"no number": {{0, 10, nan, 0.1, 0}},
		"excess":    {{0, 10, 0.2, 0.1, -1}},
	} {
		_, err := NewAnnulus(list)
		refused(t, what, err)
	}
	a := space(0, 100, 0.3, 0.2, 0)
	for what, f := range map[string]func() error{
		"past the end":    func() error { _, err := a.Volume(0, 200); return err },
		"upside down":     func() error { _, err := a.Volume(20, 10); return err },
		"negative volume": func() error { _, err := a.TopFromVolume(-1, 10); return err },
		"no volume":       func() error { _, err := a.TopFromVolume(units.CubicMeters(math.NaN()), 10); return err },
		"from outside":    func() error { _, err := a.TopFromVolume(1, 1000); return err },
		"capacity":        func() error { _, err := Capacity(0.1, 0.2); return err },
		"washed out":      func() error { _, err := WashedOut(0.1, 0.2, 0); return err },
	} {
		refused(t, what, f())
	}
}

// TestWashedOut: the annulus of the washed-out hole holds the excess more.
func TestWashedOut(t *testing.T) {
	d := must(WashedOut(12.25*in, 9.625*in, 0.5))
	near(t, "capacity", float64(must(Capacity(d, 9.625*in))), 1.5*float64(must(Capacity(12.25*in, 9.625*in))), 1e-15)
	// By hand: sqrt(9.625^2 + 1.5 (12.25^2 - 9.625^2)) = sqrt(178.78...) in.
	near(t, "diameter", float64(d/in), math.Sqrt(92.640625+1.5*57.421875), 1e-12)
}

func TestSlurry(t *testing.T) {
	for _, b := range []Batch{{0, 100 * sk, 1.15 * yld}, {115 * ft3, 0, 1.15 * yld}, {115 * ft3, 100 * sk, 0}, {115 * ft3, 100 * sk, 1.15 * yld}} {
		c := must(b.Complete())
		near(t, "volume", float64(c.Volume/ft3), 115, 1e-9)
		near(t, "blend", float64(c.Blend/sk), 100, 1e-9)
		near(t, "yield", float64(c.Yield/yld), 1.15, 1e-12)
		near(t, "off", float64(must(c.Off())), 0, 1e-12)
	}
	near(t, "stated too much", float64(must(Batch{230 * ft3, 100 * sk, 1.15 * yld}.Off())), 1, 1e-12)
	for _, b := range []Batch{{}, {1, 0, 0}, {0, 1, 0}, {-1, 1, 0}, {units.CubicMeters(math.Inf(1)), 1, 0}} {
		_, err := b.Complete()
		refused(t, "one of three", err)
	}
	_, err := Batch{1, 0, 0}.Off()
	refused(t, "off", err)
	for blend, want := range map[units.Kilograms]int{100 * sk: 100, 100.001 * sk: 100, 100.02 * sk: 101, 0: 0} {
		if n := must(WholeSacks(blend, sk)); n != want {
			t.Errorf("%v sacks: %d", blend/sk, n)
		}
	}
}

// TestNeat: densities and yields of neat API cements as handbooks print them
// (from memory), cement of SG 3.14, water of 8.33 ppg.
func TestNeat(t *testing.T) {
	for _, c := range []struct {
		class                 string
		water, density, yield float64 // gal/sk, ppg, ft3/sk
	}{{"A", 5.2, 15.6, 1.18}, {"C", 6.3, 14.8, 1.32}, {"G", 5.0, 15.8, 1.15}, {"H", 4.3, 16.4, 1.06}} {
		mix := recipe(0, c.water)
		near(t, c.class+" density", float64(mix.Density())/units.PPG, c.density, 0.05)
		near(t, c.class+" yield", float64(must(mix.Yield(sk))/yld), c.yield, 0.005)
	}
	mix := must(Mix(Part{sk, 3150}, Part{0.44 * sk, 998}))
	dry := must(Mix(Part{sk, 3150}))
	near(t, "water", float64(must(WaterForDensity(dry, mix.Density(), 998)))/gal, 0.44*94/8.3287, 0.001)
	near(t, "mix water", float64(must(MixWater(100*sk, units.M3PerKg(4.97*gal/units.Sack)))/bbl), 497.0/42, 1e-9)
	_, err := WaterForDensity(dry, 990, 998)
	refused(t, "lighter than water", err)
	_, err = WaterForDensity(dry, 3200, 998)
	refused(t, "heavier than cement", err)
	_, err = Mix()
	refused(t, "nothing", err)
	_, err = Mix(Part{1, 0})
	refused(t, "no density", err)
	_, err = WeightFor(mix, 6000, 5020, 0, 998)
	refused(t, "heavier than the material", err)
}

// TestWeightFor: the mixture that it makes has the wanted density.
func TestWeightFor(t *testing.T) {
	base := must(Mix(Part{94, 3140}, Part{40, 998}))
	x := must(WeightFor(base, 2300, 5020, 0.0003, 998))
	water := 0.0003 * float64(x)
	m := float64(base.Mass) + float64(x) + water*998
	v := float64(base.Volume) + float64(x)/5020 + water
	near(t, "density", m/v, 2300, 1e-9)
}

// TestClock: lead 60 m3 and tail 20 m3 at 1 m3/min, displacement 90 m3 at
// 1.5 m3/min, 10 min for plugs; the tail was batch mixed for 30 min.
func TestClock(t *testing.T) {
	const perMinute = units.M3PerS(1.0 / 60)
	job := []Pumped{{60, perMinute, 0}, {20, perMinute, 1800}, {90, 1.5 * perMinute, 0}}
	near(t, "lead", float64(must(Clock(job, 0, 600)))/60, 60+20+60+10, 1e-9)
	near(t, "tail", float64(must(Clock(job, 1, 600)))/60, 30+20+60+10, 1e-9)
	near(t, "contact", float64(must(PumpTime(10, perMinute)))/60, 10, 1e-9)
	near(t, "contact volume", float64(must(ContactVolume(600, perMinute))), 10, 1e-9)
	for _, i := range []int{-1, 3} {
		_, err := Clock(job, i, 0)
		refused(t, "index", err)
	}
	_, err := Clock([]Pumped{{1, 0, 0}}, 0, 0)
	refused(t, "no rate", err)
}

func TestColumn(t *testing.T) {
	c := must(NewColumn(5e5, Layer{100, 200, 1000}, Layer{200, 300, 1500}))
	near(t, "top", float64(must(c.Pressure(100))), 5e5, 0)
	near(t, "inside", float64(must(c.Pressure(250))), 5e5+(100*1000+50*1500)*9.80665, 1e-6)
	near(t, "EMW", float64(must(c.EMW(250))), (5e5/9.80665+175000)/250, 1e-9)
	for _, z := range []units.TVD{99, 301, units.TVD(math.NaN())} {
		_, err := c.Pressure(z)
		refused(t, "outside", err)
	}
	for what, layers := range map[string][]Layer{
		"nothing": {}, "gap": {{0, 10, 1000}, {11, 20, 1000}}, "upside down": {{10, 0, 1000}}, "negative": {{0, 10, -1}},
	} {
		_, err := NewColumn(0, layers...)
		refused(t, what, err)
	}
	_, err := EMW(1e6, 0)
	refused(t, "EMW at the reference", err)
	_, err = Slug(1200, 1200, 10)
	refused(t, "slug no heavier", err)
}

// TestMoreMud: heavier fluid never presses less.
func TestMoreMud(t *testing.T) {
	d := draw{rand.New(rand.NewSource(4))}
	for range 200 {
		c := randomColumn(d)
		layers := c.Layers()
		layers[d.Intn(len(layers))].Density += 100
		_, z := c.Range()
		if must(must(NewColumn(0, layers...)).Pressure(z)) <= must(must(NewColumn(0, c.Layers()...)).Pressure(z)) {
			t.Error("heavier fluid presses less")
		}
	}
}

func BenchmarkTopFromVolume(b *testing.B) {
	a := randomAnnulus(draw{rand.New(rand.NewSource(5))})
	_, bottom := a.Range()
	for range b.N {
		if _, err := a.TopFromVolume(20, bottom); err != nil {
			b.Fatal(err)
		}
	}
}
