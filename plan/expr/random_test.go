package expr_test

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"sync"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// extremes are the numbers that break arithmetic.
var extremes = []float64{0, 1, -1, 0.5, 2, 1e-300, -1e-300, 5e-324, 1e300, -1e300, math.MaxFloat64, -math.MaxFloat64, 1e-9, 710, math.Pi}

// randomNumber writes a random expression of pure numbers over a, b and c.
func randomNumber(r *rand.Rand, depth int) string {
	if depth == 0 {
		return []string{"a", "b", "c", "0", "1", "0.5", "pi", "1e300", "1e-300"}[r.Intn(9)]
	}
	sub := func() string { return randomNumber(r, depth-1-r.Intn(depth)) }
	switch r.Intn(9) {
	case 0:
		return "(" + sub() + ")^" + []string{"2", "-1", "0.5", "-0.59", "40"}[r.Intn(5)]
	case 1:
		return []string{"sqrt", "exp", "ln", "abs", "sin", "cos", "tan"}[r.Intn(7)] + "(" + sub() + ")"
	case 2:
		return []string{"greater", "lesser"}[r.Intn(2)] + "(" + sub() + ", " + sub() + ")"
	case 3:
		return "round(" + sub() + ", " + []string{"10", "0.001", "1e-300", "1e300"}[r.Intn(4)] + ")"
	case 4:
		return "band(" + randomNumber(r, 0) + ", -1: " + sub() + ", 2: " + sub() + ", else: " + sub() + ")"
	case 5:
		return "-" + randomNumber(r, 0)
	}
	return "(" + sub() + " " + []string{"+", "-", "*", "/"}[r.Intn(4)] + " " + sub() + ")"
}

// TestNeverNaN: whatever is worked out of whatever numbers, the answer is a
// finite number or an error.
func TestNeverNaN(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	pure := func(name string) (expr.Type, bool) { return expr.Type{}, strings.Contains("abc", name) }
	fine, refused := 0, 0
	for range 20000 {
		src := randomNumber(r, 1+r.Intn(6))
		if len(src) > 4096 {
			continue
		}
		e, err := expr.Compile(src, pure)
		if err != nil {
			t.Fatalf("%s: %v", src, err)
		}
		values := map[string]float64{}
		for _, n := range []string{"a", "b", "c"} {
			values[n] = extremes[r.Intn(len(extremes))]
			if r.Intn(2) == 0 {
				values[n] = r.NormFloat64() * 100
			}
		}
		got, err := e.Eval(func(n string) expr.Result { return expr.Known(expr.Number(values[n], units.None)) })
		switch {
		case err != nil:
			refused++
		case !got.Known || math.IsNaN(got.Value.SI) || math.IsInf(got.Value.SI, 0):
			t.Fatalf("%s with %v = %+v", src, values, got)
		default:
			fine++
		}
	}
	if fine < 5000 || refused < 1000 {
		t.Errorf("lopsided: %d worked out, %d refused", fine, refused)
	}
}

// TestBandIsATable holds bands against a search written another way.
func TestBandIsATable(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 2000 {
		edges := make([]int, 1+r.Intn(8))
		for i := range edges {
			edges[i] = r.Intn(200) - 100
		}
		slices.Sort(edges)
		edges = slices.Compact(edges)
		src, x, want := "band(", r.Intn(220)-110, len(edges)
		src += fmt.Sprint(x)
		for i := len(edges) - 1; i >= 0; i-- {
			if x <= edges[i] {
				want = i
			}
		}
		for i, e := range edges {
			src += fmt.Sprintf(", %d: %d", e, i)
		}
		src += fmt.Sprintf(", else: %d)", len(edges))
		if got := eval(t, src).Value.SI; got != float64(want) {
			t.Fatalf("%s = %v, want %d", src, got, want)
		}
	}
}

// TestTogether shares one expression between goroutines; the race detector
// watches.
func TestTogether(t *testing.T) {
	e := compile(t, "greater(mud * g * tvd, p) + round(p, 10 psi) > p_missing")
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			if r, err := e.Eval(lookup); err != nil || r.Known || len(r.Lacks) != 1 || e.Sheet(cell) == "" || len(e.Names()) != 4 {
				t.Errorf("got %+v, %v", r, err)
			}
		})
	}
	wg.Wait()
}

func FuzzCompile(f *testing.F) {
	for _, c := range refusals {
		f.Add(c.src)
	}
	for _, src := range []string{
		"band(md, 300 ft: 25 ft, 1000 ft: 50 ft, else: 10 % * md)", "string.role in ('liner', 'it''s') and not yes or x >= -1e-3",
		"round(0.875 * 2 * p * gap / (3 * gap), 10 psi)^2 - 4 psi * p", "15 lbf/100ft2 + -p_missing", "-40 degF < warm", "sqrt(area) / abs(gap)^1 * sin(3 deg/100ft * md)",
	} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		e, err := expr.Compile(src, typeOf)
		if err != nil {
			at, ok := err.(*expr.Error)
			if !ok || at.Column < 1 || at.Column > len([]rune(src))+1 || at.Text == "" {
				t.Fatalf("%q: %v", src, err)
			}
			return
		}
		if e.Source() != src || !slices.IsSorted(e.Names()) || e.Sheet(func(string) string { return "A1" }) == "" {
			t.Fatalf("%q: %+v", src, e)
		}
		r, err := e.Eval(lookup)
		switch {
		case err != nil:
		case !r.Known && len(r.Lacks) == 0:
			t.Fatalf("%q is unknown and lacks nothing", src)
		case r.Known && r.Value.Kind != e.Type().Kind:
			t.Fatalf("%q gives %+v, compiled as %v", src, r.Value, e.Type())
		case r.Known && (math.IsNaN(r.Value.SI) || math.IsInf(r.Value.SI, 0) || r.Value.Dim != e.Type().Dim):
			t.Fatalf("%q gives %+v, compiled as %v", src, r.Value, e.Type())
		}
	})
}

const usual = "greater(0.52 psi/ft * tvd, mud * g * tvd) * 1.1 <= band(md, 300 ft: p, 1000 ft: p / 2, else: p / 4) or string.role in ('liner', 'tieback')"

func BenchmarkCompile(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		compile(b, usual)
	}
}

func BenchmarkEval(b *testing.B) {
	e := compile(b, usual)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := e.Eval(lookup); err != nil {
			b.Fatal(err)
		}
	}
}
