package fluid

import (
	"math"
	"math/rand"
	"testing"

	"spudgate/plan/units"
)

// The two parts of ISO 10427-2 in and across the plane of the dogleg, put
// together, are the vector form.
func TestSpanLoadParts(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 2000 {
		i1, i2, da := r.Float64()*1.4, r.Float64()*1.4, r.Float64()-0.5
		cosB := math.Cos(i1)*math.Cos(i2) + math.Sin(i1)*math.Sin(i2)*math.Cos(da)
		b := math.Acos(cosB)
		if b < 0.01 || b > 1.5 {
			continue
		}
		w, l, pull := 20+r.Float64()*60, 5+r.Float64()*30, 1e6*(r.Float64()-0.3)
		dp := w*units.G*l*(math.Cos(i2)-math.Cos(i1))/(2*math.Sin(b/2)) + 2*pull*math.Sin(b/2)
		p := w * units.G * l * math.Sin(i1) * math.Sin(i2) * math.Sin(da) / math.Sin(b)
		got, err := SpanLoad(units.KgPerM(w), units.MD(l), units.Newtons(pull), Direction{units.Radians(i1), 1}, Direction{units.Radians(i2), units.Radians(1 + da)})
		if want := math.Hypot(dp, p); err != nil || math.Abs(float64(got)-want) > 1e-6*want+1e-6 {
			t.Fatalf("inclinations %v %v, turn %v: got %v %v, want %v", i1, i2, da, got, err, want)
		}
	}
}

// Straight hole: only the weight across it. 40 kg/m x 9.80665 x 12 m x sin 30.
func TestSpanLoadStraight(t *testing.T) {
	d := Direction{Inc: 30 * units.Degree, Azi: 2}
	got, err := SpanLoad(40, 12, 5e5, d, d)
	meets(t, 0, "load", units.Pascals(got), 40*9.80665*12*0.5, 1e-9)
	if up, _ := SpanLoad(40, 12, 5e5, Direction{}, Direction{}); err != nil || up > 1e-6 {
		t.Errorf("vertical pipe presses with %v, %v", up, err)
	}
	if _, err := SpanLoad(40, 12, 0, Direction{}, Direction{Inc: math.Pi / 2 * 1.01}); err == nil {
		t.Error("a dogleg over 90 degrees gives no error")
	}
}

// Without tension: 3.0558e-6 w L^4 sin(inc)/(D^4 - d^4) in, lb/ft, ft, in (the
// field form of the beam held at both ends): 40 lb/ft, 40 ft, 60 degrees, 7 in
// 6.184 in.
func TestSagField(t *testing.T) {
	const w, l = 40.0, 40.0
	inc := 60 * math.Pi / 180
	want := 3.0558e-6 * w * l * l * l * l * math.Sin(inc) / (math.Pow(7, 4) - math.Pow(6.184, 4))
	load := units.Newtons(w * l * math.Sin(inc) * units.Lbf)
	got, err := Sag(load, l*units.Foot, Tube{7 * units.Inch, 6.184 * units.Inch}, 0)
	if err != nil {
		t.Fatal(err)
	}
	meets(t, 0, "sag, in", units.Pascals(float64(got)/units.Inch), want, 2e-4)
}

// With tension and compression, by the deflection that solves the beam equation
// E I y”” - T y” = w for held ends: in the middle w L^2/(8 T) - w L/(2 T k)
// tanh(k L/4), k = sqrt(T/(E I)); with P = -T, -w L^2/(8 P) + w L/(2 P k) tan(k L/4).
func TestSagPulled(t *testing.T) {
	tube := Tube{0.1778, 0.157}
	ei := tube.stiffness()
	const w, l = 400.0, 12.0
	for _, pull := range []float64{-8e5, -1e5, -2e4, 1e3, 2e4, 3e5, 2e6} {
		k := math.Sqrt(math.Abs(pull) / ei)
		want := w*l*l/(8*pull) - w*l/(2*pull*k)*math.Tanh(k*l/4)
		if pull < 0 {
			want = w*l*l/(8*pull) - w*l/(2*pull*k)*math.Tan(k*l/4)
		}
		got, err := Sag(w*l, l, tube, units.Newtons(pull))
		// The closed forms lose digits as k L goes to nothing.
		if err != nil || math.Abs(float64(got)/want-1) > 1e-9/math.Min(1, math.Pow(k*l, 4)) {
			t.Errorf("pull %v N: got %v %v, want %v", pull, got, err, want)
		}
	}
	buckles := units.Newtons(-4 * math.Pi * math.Pi * ei / (l * l))
	if _, err := Sag(w*l, l, tube, buckles*1.0001); err == nil {
		t.Error("over the buckling load there's no error")
	}
	if s, err := Sag(w*l, l, tube, buckles*0.999); err != nil || s < 100*w*l*l*l*l/units.Meters(384*ei) {
		t.Errorf("near buckling the sag is %v, %v", s, err)
	}
}
