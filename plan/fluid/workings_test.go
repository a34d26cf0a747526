package fluid

import (
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// holds evaluates a working from its formula and compares it with what the fast
// function gave, to 1e-12 of what the formula adds up.
func holds[Q ~float64](t *testing.T, w expr.Working, werr error, fast Q, ferr error) {
	t.Helper()
	if werr != nil || ferr != nil {
		t.Fatalf("%v, %v", werr, ferr)
	}
	if w.Result.SI != float64(fast) {
		t.Fatalf("%s: working holds %v, the function gives %v", w.Result.Name, w.Result.SI, fast)
	}
	values := map[string]expr.Value{}
	scale := math.Abs(w.Result.SI)
	for _, in := range w.Inputs {
		values[in.Name] = expr.Number(in.SI, in.Dim)
		if in.Dim == w.Result.Dim {
			scale = max(scale, math.Abs(in.SI))
		}
	}
	e, err := expr.Compile(w.Formula, func(n string) (expr.Type, bool) {
		v, ok := values[n]
		return expr.Type{Kind: v.Kind, Dim: v.Dim}, ok
	})
	if err != nil {
		t.Fatalf("%q: %v", w.Formula, err)
	}
	if len(e.Names()) != len(values) {
		t.Fatalf("%q uses %v of %d inputs", w.Formula, e.Names(), len(values))
	}
	if d, ok := e.Type().Dim.Join(w.Result.Dim); !ok || d != w.Result.Dim {
		t.Fatalf("%q has dimension %v, the result %v", w.Formula, e.Type().Dim, w.Result.Dim)
	}
	r, err := e.Eval(func(n string) expr.Result { return expr.Known(values[n]) })
	if err != nil || !r.Known || w.Source == "" {
		t.Fatalf("%q: %v %v, source %q", w.Formula, err, r.Lacks, w.Source)
	}
	if math.Abs(r.Value.SI-w.Result.SI) > 1e-12*scale {
		t.Fatalf("%s = %s gives %v, the function %v", w.Result.Name, w.Formula, r.Value.SI, w.Result.SI)
	}
}

// chain holds every step of a working, and that steps pass their results on
// unchanged.
func chain[Q ~float64](t *testing.T, steps []expr.Working, werr error, fast Q, ferr error) {
	t.Helper()
	if werr != nil || ferr != nil || len(steps) == 0 {
		t.Fatalf("%d steps, %v, %v", len(steps), werr, ferr)
	}
	results := map[string]float64{}
	for _, w := range steps {
		for _, in := range w.Inputs {
			if r, ok := results[in.Name]; ok && r != in.SI {
				t.Fatalf("%s is %v here, but was worked out as %v", in.Name, in.SI, r)
			}
		}
		holds(t, w, nil, w.Result.SI, nil)
		results[w.Result.Name] = w.Result.SI
	}
	if last := steps[len(steps)-1].Result.SI; math.Abs(last-float64(fast)) > 1e-12*math.Abs(last) {
		t.Fatalf("working ends at %v, the function gives %v", last, fast)
	}
}

// draw gives random inputs of trade size.
type draw struct{ *rand.Rand }

func (d draw) between(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }
func (d draw) density() units.KgPerM3         { return units.KgPerM3(d.between(900, 2300)) }
func (d draw) pressure() units.Pascals        { return units.Pascals(d.between(1e5, 1e8)) }
func (d draw) depth() units.TVD               { return units.TVD(d.between(10, 7000)) }
func (d draw) volume() units.CubicMeters      { return units.CubicMeters(d.between(0.1, 300)) }
func (d draw) mass() units.Kilograms          { return units.Kilograms(d.between(1, 2e5)) }
func (d draw) yield() units.M3PerKg           { return units.M3PerKg(d.between(5e-4, 3e-3)) }
func (d draw) force() units.Newtons           { return units.Newtons(d.between(1e4, 5e6)) }
func (d draw) tube() Tube {
	od := d.between(0.05, 0.6)
	return Tube{units.Meters(od), units.Meters(od * d.between(0.7, 0.97))}
}

// TestWorkings: random inputs, formula against function.
func TestWorkings(t *testing.T) {
	d := draw{rand.New(rand.NewSource(1))}
	for range 500 {
		placing(t, d)
		pressures(t, d)
		kicks(t, d)
		weights(t, d)
	}
}

func placing(t *testing.T, d draw) {
	t.Helper()
	v, m, y := d.volume(), d.mass(), d.yield()
	w, we := BlendWorking(v, y)
	f, fe := Blend(v, y)
	holds(t, w, we, f, fe)
	w, we = SlurryVolumeWorking(m, y)
	s, fe := SlurryVolume(m, y)
	holds(t, w, we, s, fe)
	w, we = MixWaterWorking(m, y)
	s, fe = MixWater(m, y)
	holds(t, w, we, s, fe)
	a := randomAnnulus(d)
	from, to := cutOf(d, a)
	steps, we := a.VolumeWorking(from, to)
	s, fe = a.Volume(from, to)
	chain(t, steps, we, s, fe)
	c := randomColumn(d)
	top, bottom := c.Range()
	z := top + (bottom-top)*units.TVD(d.Float64())
	steps, we = c.PressureWorking(z)
	p, fe := c.Pressure(z)
	chain(t, steps, we, p, fe)
	w, we = DifferenceWorking(c, c, z)
	p, fe = Difference(c, c, z)
	holds(t, w, we, p, fe)
}

func pressures(t *testing.T, d draw) {
	t.Helper()
	p, rho, mud, z := d.pressure(), d.density(), d.density(), d.depth()
	w, we := HydrostaticWorking(rho, z)
	holds(t, w, we, units.Hydrostatic(rho, z), nil)
	w, we = EMWWorking(p, z)
	f, fe := EMW(p, z)
	holds(t, w, we, f, fe)
	w, we = LeakOffWorking(p, mud, z)
	f, fe = LeakOff(p, mud, z)
	holds(t, w, we, f, fe)
	w, we = TestPressureWorking(rho, mud, z)
	g, fe := TestPressure(rho, mud, z)
	holds(t, w, we, g, fe)
	w, we = MAASPWorking(rho, mud, z)
	g, fe = MAASP(rho, mud, z)
	holds(t, w, we, g, fe)
	gas := PaPerM(d.between(0, 3000))
	w, we = GasAtSurfaceWorking(p, z, gas)
	g, fe = GasAtSurface(p, z, gas)
	holds(t, w, we, g, fe)
	fracture, shoe := d.pressure(), d.depth()
	steps, we := AnticipatedSurfaceWorking(p, z, fracture, shoe, gas)
	a, fe := AnticipatedSurface(p, z, fracture, shoe, gas)
	chain(t, steps, we, a.Pressure, fe)
}

func kicks(t *testing.T, d draw) {
	t.Helper()
	shoe := d.depth()
	k := Kick{Shoe: shoe, Bottom: shoe + d.depth(), Fracture: d.pressure(), Formation: d.pressure(), Mud: d.density(), Gas: units.KgPerM3(d.between(0, 500))}
	w, we := k.HeightWorking()
	h, _, fe := k.Height()
	holds(t, w, we, h, fe)
	w, we = BoyleWorking(d.volume(), k.Fracture, k.Formation)
	v, fe := Boyle(units.CubicMeters(w.Inputs[0].SI), k.Fracture, k.Formation)
	holds(t, w, we, v, fe)
	tube, length, over := d.tube(), units.MD(d.between(1, 3000)), d.pressure()
	hole := tube.OD * units.Meters(d.between(1.05, 2))
	w, we = GelDropWorking(200, length, hole, tube.OD)
	p, fe := GelDrop(200, length, hole, tube.OD)
	holds(t, w, we, p, fe)
	w, we = FlowPotentialWorking(length, hole, tube.OD, over)
	f, fe := FlowPotential(length, hole, tube.OD, over)
	holds(t, w, we, f, fe)
	w, we = CriticalGelWorking(over, length, hole, tube.OD)
	p, fe = CriticalGel(over, length, hole, tube.OD)
	holds(t, w, we, p, fe)
}

func weights(t *testing.T, d draw) {
	t.Helper()
	tube, weight := d.tube(), units.KgPerM(d.between(10, 400))
	in, out := d.density(), d.density()
	w, we := BuoyedWeightWorking(weight, tube, in, out)
	b, fe := BuoyedWeight(weight, tube, in, out)
	holds(t, w, we, b, fe)
	w, we = BuoyancyFactorWorking(in)
	f, fe := BuoyancyFactor(in)
	holds(t, w, we, f, fe)
	load := HookLoad{d.force(), d.force(), d.force(), d.force()}
	w, we = load.TotalWorking()
	n, fe := load.Total()
	holds(t, w, we, n, fe)
	w, we = SlipCrushWorking(d.pressure(), tube, 0.4, 4)
	n, fe = SlipCrush(units.Pascals(w.Inputs[0].SI), tube, 0.4, 4)
	holds(t, w, we, n, fe)
	for _, rig := range []bool{false, true} {
		l := Lift{d.force(), tube, d.pressure(), d.pressure(), d.pressure(), rig}
		w, we = l.NetWorking()
		n, fe = l.Net()
		holds(t, w, we, n, fe)
	}
}

// TestWorkingsRefuse: a working has the domain of its function.
func TestWorkingsRefuse(t *testing.T) {
	for what, err := range map[string]error{
		"EMW":       second(EMWWorking(1e6, 0)),
		"leak-off":  second(LeakOffWorking(1e6, 1000, 0)),
		"blend":     second(BlendWorking(1, 0)),
		"height":    second(Kick{}.HeightWorking()),
		"potential": second(FlowPotentialWorking(100, 0.3, 0.2, 0)),
		"crush":     second(SlipCrushWorking(1e8, Tube{1, 2}, 1, 4)),
		"infinite":  second(HydrostaticWorking(units.KgPerM3(math.Inf(1)), 1)),
	} {
		if err == nil {
			t.Errorf("%s gave no error", what)
		}
	}
}

func second(_ expr.Working, err error) error { return err }
