package well_test

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// five is a well of five strings with a survey that builds to 88 deg, a liner,
// tests, a completion and cement, so that most cases bear on something.
const five = `"units":"field","well":{"name":"Test 5","class":"development","purpose":"oil","reservoir_pressure":6500},
"survey":[{"md":0,"inclination":0,"azimuth":0},{"md":8000,"inclination":0,"azimuth":0},{"md":9500,"inclination":45,"azimuth":90},{"md":11000,"inclination":88,"azimuth":90},{"md":15000,"inclination":88,"azimuth":90}],
"sections":[
 {"name":"36 hole","string":"C","bit":26,"from":0,"to":300,"mud_type":"water","mud_density":8.6,"pressure_control":"none"},
 {"name":"17 hole","string":"S","bit":17.5,"from":300,"to":3000,"mud_type":"water","mud_density":9.2,"pressure_control":"diverter"},
 {"name":"12 hole","string":"I","bit":12.25,"from":3000,"to":8500,"mud_type":"oil","mud_density":10.5,"mud_max":10.8,"pressure_control":"bop_surface"},
 {"name":"8 hole","string":"L","bit":8.5,"from":8500,"to":11000,"mud_type":"oil","mud_density":12.0,"pressure_control":"bop_surface","build":true},
 {"name":"6 hole","string":"P","bit":6.125,"from":11000,"to":15000,"mud_type":"oil","mud_density":12.5,"pressure_control":"bop_surface"}],
"strings":[
 {"name":"C","role":"conductor","shoe":300,"top_of_cement":0,"segments":[{"from":0,"to":300,"od":20,"weight":94,"grade":"K55","connection":"BTC"}]},
 {"name":"S","role":"surface","shoe":3000,"top_of_cement":0,"segments":[{"from":0,"to":3000,"od":13.375,"weight":68,"grade":"K55","connection":"BTC"}]},
 {"name":"I","role":"intermediate","shoe":8500,"top_of_cement":2500,"float_collar":8420,"bump_pressure":1200,"stages":[{"name":"one","kind":"primary","displacement_density":10.5,"fluids":[{"name":"lead","kind":"lead","density":12.5},{"name":"tail","kind":"tail","density":15.8,"top":7500}]}],
  "segments":[{"from":0,"to":4000,"od":9.625,"weight":53.5,"grade":"P110","connection":"BTC"},{"from":4000,"to":8500,"od":9.625,"weight":47,"grade":"P110","connection":"LTC"}]},
 {"name":"L","role":"drilling_liner","hung_in":"I","top":8000,"shoe":11000,"top_of_cement":8000,"segments":[{"from":8000,"to":11000,"od":7,"weight":29,"grade":"P110","connection":"LTC"}]},
 {"name":"P","role":"production","shoe":15000,"top_of_cement":8000,"segments":[{"from":0,"to":15000,"od":4.5,"weight":13.5,"grade":"P110","connection":"LTC"}]}],
"formations":[{"name":"Salt","top":6000,"base":6500,"contents":"salt","mobile":true},{"name":"Loss","top":9000,"base":9300,"losses":true},{"name":"Sand","top":10500,"base":10900,"contents":"oil"}],
"pressures":[{"depth":0,"pore":8.6,"fracture":12,"overburden":18},{"depth":5000,"pore":9.0,"fracture":14,"overburden":19},{"depth":12000,"pore":11.6,"fracture":16.5,"overburden":20}],
"temperatures":[{"depth":0,"static":70},{"depth":12000,"static":250,"flowing":240}],
"tests":[{"name":"I test","kind":"casing","string":"I","when":"set","pressure":3000,"fluid":10.5},{"name":"lap","kind":"liner_lap","string":"L","when":"set","pressure":2000,"fluid":12},
 {"name":"I fit","kind":"shoe","string":"I","when":"after_drill_out","emw":14.0},{"name":"P test","kind":"casing","string":"P","when":"set","pressure":5000,"fluid":12.5},
 {"name":"inflow","kind":"inflow","string":"L","when":"set","fluid":8.4}],
"completion":{"packer":9000,"packer_fluid":8.6,"depleted_pressure":1500,"stimulation_pressure":7000,"stimulation_fluid":8.5,"stimulation_path":"casing","annulus_pressure":500}`

// factors are the least factors of every case of every string, by name.
func factors(w *well.Well) map[string]float64 {
	out := map[string]float64{}
	for i := range w.Plan.Strings {
		for _, name := range well.StrengthCases() {
			r, err := w.Strength(i, name)
			key := w.Plan.Strings[i].Name.V + " " + name
			switch {
			case err != nil:
				out[key] = -1
			case r.Least == nil:
				out[key] = 0
			default:
				out[key] = r.Least.Factor
			}
		}
	}
	return out
}

func same(t *testing.T, what string, a, b map[string]float64, tolerance float64) {
	t.Helper()
	known := 0
	for key, x := range a {
		if x > 0 {
			known++
		}
		if y, ok := b[key]; !ok || math.Abs(x-y) > tolerance*math.Abs(x) {
			t.Errorf("%s: %s is %.9g, and %.9g", what, key, x, y)
		}
	}
	if known < 40 {
		t.Errorf("%s: only %d factors known", what, known)
	}
}

func TestSplittingASegmentChangesNothing(t *testing.T) {
	split := strings.Replace(five, `{"from":4000,"to":8500,"od":9.625,"weight":47,"grade":"P110","connection":"LTC"}`,
		`{"from":4000,"to":6111,"od":9.625,"weight":47,"grade":"P110","connection":"LTC"},{"from":6111,"to":8500,"od":9.625,"weight":47,"grade":"P110","connection":"LTC"}`, 1)
	same(t, "split", factors(checktest.Well(t, five)), factors(checktest.Well(t, split)), 1e-3)
}

func TestOrderOfStringsChangesNothing(t *testing.T) {
	a := checktest.Well(t, five)
	p := a.Plan.Clone()
	rand.New(rand.NewSource(7)).Shuffle(len(p.Strings), func(i, j int) { p.Strings[i], p.Strings[j] = p.Strings[j], p.Strings[i] })
	same(t, "order", factors(a), factors(well.New(p, a.Assume)), 1e-12)
}

// TestUnitsChangeNothing writes the depths and densities of a plan in metric.
func TestUnitsChangeNothing(t *testing.T) {
	a := factors(checktest.WellWith(t, two, exactly))
	metric := strings.NewReplacer(
		`"units":"field"`, `"units":"metric"`, `"bit":26`, `"bit":"26 in"`, `"bit":17.5`, `"bit":"17-1/2 in"`,
		`"to":3000`, `"to":914.4`, `"to":6000`, `"to":1828.8`, `"from":3000`, `"from":914.4`, `"shoe":3000`, `"shoe":914.4`, `"shoe":6000`, `"shoe":1828.8`,
		`"top_of_cement":2500`, `"top_of_cement":762`, `"depth":3000`, `"depth":914.4`, `"depth":6000`, `"depth":1828.8`,
		`"od":20,"weight":133`, `"od":"20 in","weight":"133 lb/ft"`, `"od":13.375,"weight":68`, `"od":"13-3/8 in","weight":"68 lb/ft"`,
		`:9.0,`, `:"9.0 ppg",`, `:10.0}`, `:"10.0 ppg"}`, `"mud_density":9.0`, `"mud_density":"9.0 ppg"`, `"mud_density":10.0`, `"mud_density":"10.0 ppg"`,
		`"pore":8.6,"fracture":13`, `"pore":"8.6 ppg","fracture":"13 ppg"`, `"pore":9.5,"fracture":14`, `"pore":"9.5 ppg","fracture":"14 ppg"`).Replace(two)
	b := factors(checktest.WellWith(t, metric, func(x *well.Assumptions) {
		exactly(x)
		x.KickMargin, x.FractureMargin = 0, 0
	}))
	for key, x := range a {
		if math.Abs(x-b[key]) > 1e-9*math.Abs(x) {
			t.Errorf("%s: field %.12g, metric %.12g", key, x, b[key])
		}
	}
}

func TestMoreMudOutsideNeverHelpsCollapse(t *testing.T) {
	least := func(ppg string) float64 {
		text := strings.Replace(two, `"mud_density":10.0`, `"mud_density":`+ppg, 1)
		return strength(t, checktest.Well(t, text), 1, "collapse.full_evacuation").Least.Factor
	}
	last := math.Inf(1)
	for _, mud := range []string{"9.6", "10.5", "11.7", "13", "16"} {
		f := least(mud)
		if f > last {
			t.Errorf("%s ppg outside gives %.4f, lighter mud gave %.4f", mud, f, last)
		}
		last = f
	}
}

// TestFinerGrid: places twice as close move no factor by 0.1 %.
func TestFinerGrid(t *testing.T) {
	a := factors(checktest.Well(t, five))
	w := checktest.Well(t, five)
	w.SetGrid(15)
	same(t, "finer", a, factors(w), 1e-3)
}

func TestEveryStringOfALongPlanIsJudged(t *testing.T) {
	w := checktest.Well(t, five)
	for _, l := range w.StrengthLines() {
		if l.Err != nil {
			t.Logf("%-2s %-28s %v", w.Plan.Strings[l.String].Name.V, l.Case, l.Err)
			continue
		}
		t.Logf("%-2s %-28s %-22s %6.0f ft in %6.0f out %6.0f load %8.0f rating %8.0f factor %.3f %s", w.Plan.Strings[l.String].Name.V, l.Case, l.Label,
			float64(l.At.MD.V)/ft, float64(l.Inside)/psi, float64(l.Outside)/psi, shown(l.Load, l.Dim), shown(l.Rating, l.Dim), l.Factor, l.Note)
		if math.IsNaN(l.Factor) || math.IsInf(l.Factor, 0) || l.Factor < 0 {
			t.Errorf("factor %v", l.Factor)
		}
	}
}

func shown(v float64, d units.Dim) float64 {
	if d == units.Force {
		return v / lbf
	}
	return v / psi
}

// BenchmarkStrength is the whole strength of a plan of five strings.
func BenchmarkStrength(b *testing.B) {
	w := checktest.Well(b, five)
	for b.Loop() {
		well.New(w.Plan, w.Assume).StrengthLines()
	}
}

// TestWorkingsGiveTheirResults evaluates every step of the working of every
// governing factor in the language of workings.
func TestWorkingsGiveTheirResults(t *testing.T) {
	w := checktest.Well(t, five)
	steps := 0
	for i := range w.Plan.Strings {
		for _, name := range well.StrengthCases() {
			r, err := w.Strength(i, name)
			if err != nil || r.Least == nil {
				continue
			}
			for _, s := range r.Working {
				steps++
				evaluate(t, name, s)
			}
			if last := r.Working[len(r.Working)-1].Result.SI; math.Abs(last-r.Least.Factor) > 1e-12*last {
				t.Errorf("%s: the working ends in %v, the factor is %v", name, last, r.Least.Factor)
			}
		}
	}
	if steps < 200 {
		t.Errorf("only %d steps", steps)
	}
}

func evaluate(t *testing.T, name string, s expr.Working) {
	t.Helper()
	given := map[string]expr.Input{}
	for _, in := range s.Inputs {
		given[in.Name] = in
	}
	e, err := expr.Compile(s.Formula, func(n string) (expr.Type, bool) {
		in, ok := given[n]
		return expr.Type{Kind: expr.Num, Dim: in.Dim}, ok
	})
	if err != nil {
		t.Errorf("%s: %q: %v", name, s.Formula, err)
		return
	}
	v, err := e.Eval(func(n string) expr.Result { return expr.Known(expr.Number(given[n].SI, given[n].Dim)) })
	if err != nil || !v.Known {
		t.Errorf("%s: %q: %v", name, s.Formula, err)
		return
	}
	if want := s.Result.SI; math.Abs(v.Value.SI-want) > 1e-6*math.Max(math.Abs(want), 1) {
		t.Errorf("%s: %q gives %v, the step says %v", name, s.Formula, v.Value.SI, want)
	}
}

// TestLimitedKick finds the bubble by halving instead of the quadratic: 25 bbl
// at 9,000 ft in 10 ppg mud, 0.5 ppg over it, seen at the surface inside 9-5/8
// 47 (ID 8.681) around 5 in pipe.
func TestLimitedKick(t *testing.T) {
	text := `"units":"field","well":{"name":"K","vertical":true,"class":"exploration","purpose":"oil"},"design":{"kick_volume":25},
"sections":[{"name":"a","string":"I","bit":12.25,"from":0,"to":5000,"mud_density":9},{"name":"b","bit":8.5,"from":5000,"to":9000,"mud_density":10,"pressure_control":"bop_surface"}],
"strings":[{"name":"I","role":"intermediate","shoe":5000,"top_of_cement":0,"segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"BTC"}]}],
"pressures":[{"depth":0,"pore":9,"fracture":15},{"depth":9000,"pore":9.5,"fracture":16}]`
	w := checktest.Well(t, text)
	list, err := w.Profile(0, "burst.limited_kick")
	if err != nil {
		t.Fatal(err)
	}
	const atmosphere = 14.6959
	bottom := hydro(10.5, 9000)
	perFoot := (8.681*8.681 - 25) * math.Pi / 4 / 144 / 5.614583 // bbl/ft
	low, high := 0.0, 9000.0
	for range 200 { // height: mud below it holds it, gas above expands to fill it
		h := (low + high) / 2
		middle := bottom - hydro(10, 9000-h) - 0.1*h/2
		if 25*(bottom+atmosphere)/(middle+atmosphere) > perFoot*h {
			low = h
		} else {
			high = h
		}
	}
	near(t, "surface", float64(list[0].Inside)/psi, bottom-hydro(10, 9000-low)-0.1*low, 0.5)
}

// TestProduction: 1,500 psi left at a packer at 9,000 ft MD holds 8.6 ppg up by
// 1,500 x 231/12 / 8.6 = 3,358 ft; nothing stands above that.
func TestProduction(t *testing.T) {
	w := checktest.Well(t, five)
	list, err := w.Profile(4, "collapse.production")
	if err != nil {
		t.Fatal(err)
	}
	packer, err := w.TVD(9000 * ft)
	if err != nil {
		t.Fatal(err)
	}
	level := float64(packer)/ft - 1500*231/12/8.6
	for _, p := range list {
		if p.MD < 9000*ft {
			near(t, "inside", float64(p.Inside)/psi, math.Max(0, hydro(8.6, float64(p.TVD)/ft-level)), 0.1)
		} else if p.MD > 9000*ft && p.Inside > 1500.01*psi || p.MD > 9000*ft && p.Inside < 1100*psi {
			t.Errorf("below the packer at %v: %v", p.MD, p.Inside)
		}
	}
}

// TestInflowActsOnLinerAndParent holds that a test of a liner's top reaches the
// string above it.
func TestInflowActsOnLinerAndParent(t *testing.T) {
	w := checktest.Well(t, five)
	for str, to := range map[int]float64{2: 8000, 3: 11000} {
		list, err := w.Profile(str, "collapse.inflow")
		if err != nil {
			t.Fatal(err)
		}
		last := list[len(list)-1]
		near(t, "down to", float64(last.MD)/ft, to, 0.01)
		near(t, "inside", float64(last.Inside)/psi, hydro(8.4, float64(last.TVD)/ft), 0.01)
	}
}
