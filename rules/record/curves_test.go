package record

import (
	"encoding/json"
	"math"
	"path/filepath"
	"sort"
	"testing"

	"spudgate/plan"
	"spudgate/plan/read"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/basis"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// vertical is a plan whose numbers are easy to follow: 9-5/8 in a 12-1/4 hole
// to 2,000 ft, 7 in an 8-3/4 hole to 9,000 ft, no temperatures, no bending.
const vertical = `"units":"field","well":{"name":"Test 3","vertical":true,"class":"development","purpose":"oil"},
"sections":[
 {"name":"12 hole","string":"S","bit":12.25,"from":0,"to":2000,"mud_density":9.0,"pressure_control":"diverter"},
 {"name":"8 hole","string":"P","bit":8.75,"from":2000,"to":9000,"mud_density":10.0,"mud_min":9.8,"mud_max":10.2,"pressure_control":"bop_surface"}],
"strings":[
 {"name":"S","role":"surface","shoe":2000,"top_of_cement":0,"segments":[{"od":9.625,"weight":36,"grade":"J55","connection":"STC"}]},
 {"name":"P","role":"production","shoe":9000,"top_of_cement":1500,"segments":[{"od":7,"weight":26,"grade":"L80","connection":"LTC"}]}],
"formations":[{"name":"Clay","top_tvd":100,"contents":"none"},{"name":"Sand","top_tvd":8000,"base_tvd":9500,"contents":"oil"},{"name":"Under","top_tvd":9500}],
"pressures":[{"depth":0,"pore":8.6,"fracture":14},{"depth":5000,"pore":9.0,"pore_high":9.2,"fracture":"0.78 psi/ft"},{"depth":9000,"pore":9.4,"fracture":"0.80 psi/ft"}],
"tests":[{"name":"set","kind":"casing","string":"P","when":"set","pressure":6500,"fluid":8.34},{"name":"shoe","kind":"shoe","string":"S","when":"after_drill_out","emw":13.5}]`

func demoWell(t *testing.T, name string) *well.Well {
	t.Helper()
	docs, err := read.File(filepath.Join("..", "..", "testdata", "demo", name))
	if err != nil {
		t.Fatal(err)
	}
	p, faults := plan.Decode(docs[0])
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	b, err := basis.Default(p.System)
	if err != nil {
		t.Fatal(err)
	}
	return well.New(p, b.Assumptions())
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func feet(ft float64) float64 { return ft * units.Foot }

// TestSchematic holds the geometry against the plan's own numbers. The bore of
// 9-5/8 in 36 lb/ft is 8.921 in, of 7 in 26 lb/ft 6.276 in (API 5CT tables,
// from memory).
func TestSchematic(t *testing.T) {
	s := drawings(checktest.Well(t, vertical), nil).Schematic
	if s == nil || len(s.Strings) != 2 || len(s.Holes) != 2 {
		t.Fatalf("%+v", s)
	}
	p := s.Strings[1]
	near(t, "shoe", float64(p.Shoe.MD), feet(9000), 1e-9)
	near(t, "bore", float64(p.Pipes[0].ID), 6.276*units.Inch, 1e-6)
	want := [][4]float64{{1500, 2000, 8.921, 7}, {2000, 9000, 8.75, 7}}
	if len(p.Cement) != len(want) {
		t.Fatalf("cement %+v", p.Cement)
	}
	for i, w := range want {
		b := p.Cement[i]
		near(t, "cement from", float64(b.From), feet(w[0]), 1e-6)
		near(t, "cement to", float64(b.To), feet(w[1]), 1e-6)
		near(t, "cement outer", float64(b.Outer), w[2]*units.Inch, 1e-6)
		near(t, "cement inner", float64(b.Inner), w[3]*units.Inch, 1e-6)
	}
	near(t, "hole", float64(s.Holes[0].Diameter), 12.25*units.Inch, 1e-9)
	if len(s.Formations) != 2 {
		t.Fatalf("a formation below the well is drawn: %+v", s.Formations)
	}
	near(t, "base taken from the next top", float64(s.Formations[0].Base.MD), feet(8000), 1e-6)
	near(t, "base cut at the bottom", float64(s.Formations[1].Base.MD), feet(9000), 1e-6)
}

// TestWindow holds the curves against what the plan states. A gradient of 0.78
// psi/ft is 0.78 x 231/12 = 15.015 ppg (231 in3 in a gallon, 12 in in a foot).
func TestWindow(t *testing.T) {
	v := drawings(checktest.Well(t, vertical), nil).Window
	if v == nil {
		t.Fatal("no window")
	}
	for _, c := range []struct {
		of, estimate string
		depth, ppg   float64
	}{
		{"pore pressure", "base", 5000, 9.0},
		{"pore pressure", "high", 5000, 9.2},
		{"pore pressure", "base", 9000, 9.4},
		{"pore pressure", "base", 7000, 9.2}, // halfway, linear in what was written
		{"fracture pressure", "base", 5000, 15.015},
		{"fracture pressure", "base", 9000, 15.4},
	} {
		near(t, c.of+" "+c.estimate, emwAt(t, v, c.of, c.estimate, feet(c.depth))/units.PPG, c.ppg, 2e-3)
	}
	for _, c := range v.Curves {
		if c.Of == "fracture pressure" && c.Estimate != "base" || c.Of == "overburden" {
			t.Errorf("a curve the plan doesn't give: %s %s", c.Of, c.Estimate)
		}
	}
	for _, c := range v.Curves {
		// The rows at 0 and 5,000 ft are written in different ways: between
		// them fracture pressure isn't known.
		if c.Of == "fracture pressure" && float64(c.TVD[0]) < feet(5000)-1e-6 {
			t.Errorf("fracture pressure is drawn from %v m", c.TVD[0])
		}
	}
	last := v.Holes[len(v.Holes)-1]
	near(t, "mud from", float64(last.From), feet(2000), 1e-6)
	near(t, "lightest mud", float64(last.Min)/units.PPG, 9.8, 1e-9)
	near(t, "heaviest mud", float64(last.Max)/units.PPG, 10.2, 1e-9)
	if v.Shoes[0].Test == nil || v.Shoes[1].Test != nil {
		t.Fatalf("shoe tests %+v", v.Shoes)
	}
	near(t, "shoe test", float64(*v.Shoes[0].Test)/units.PPG, 13.5, 1e-9)
}

func emwAt(t *testing.T, v *finding.Window, of, estimate string, z float64) float64 {
	t.Helper()
	for _, c := range v.Curves {
		if c.Of != of || c.Estimate != estimate {
			continue
		}
		i := sort.Search(len(c.TVD), func(i int) bool { return float64(c.TVD[i]) >= z-1e-6 })
		if i == 0 && math.Abs(float64(c.TVD[0])-z) < 1e-6 {
			return float64(c.EMW[0])
		}
		if i < len(c.TVD) && i > 0 {
			a, b := float64(c.TVD[i-1]), float64(c.TVD[i])
			return float64(c.EMW[i-1]) + (z-a)/(b-a)*float64(c.EMW[i]-c.EMW[i-1])
		}
	}
	t.Fatalf("no %s %s at %v", of, estimate, z)
	return 0
}

// TestEllipse holds the picture of yield against the factors of the triaxial
// case, which take another way: Lame's stresses at both walls and both sides
// of the bend. In a straight hole without heat, where the inner wall governs,
// the two are the same number.
func TestEllipse(t *testing.T) {
	points := 0
	for _, l := range drawings(checktest.Well(t, vertical), nil).Loads {
		e := l.Triaxial
		if e == nil {
			t.Fatalf("%s: no ellipse", l.Name)
		}
		for _, p := range e.Points {
			along, hoop := float64(p.Force/e.Area), float64(e.Hoop*p.Pressure)
			got := float64(e.Yield) / math.Sqrt(along*along-along*hoop+hoop*hoop)
			if math.Abs(got/float64(p.Factor)-1) < 1e-9 {
				points++
				continue
			}
			// Where the outer wall governs, the inner one is further from yield.
			if got < float64(p.Factor) {
				t.Errorf("%s, %s: %v at the inner wall, %v over both", l.Name, p.Case, got, p.Factor)
			}
		}
	}
	if points < 6 {
		t.Errorf("only %d points lie where the inner wall governs", points)
	}
}

// TestEllipseCases holds that each case is given its own moment: pressure and
// place are those of the case's own lines.
func TestEllipseCases(t *testing.T) {
	w := demoWell(t, "harrow-fen-a.json")
	for _, l := range drawings(w, nil).Loads {
		str := w.Plan.StringIndex(l.Name)
		for _, p := range l.Triaxial.Points {
			r, err := w.Strength(str, p.Case)
			if err != nil {
				t.Fatalf("%s, %s: %v", l.Name, p.Case, err)
			}
			found := false
			for _, k := range r.Lines {
				dp := max(float64(k.Inside), 0) - max(float64(k.Outside), 0)
				found = found || float64(k.At.MD.V) == float64(p.At.MD) && dp == float64(p.Pressure)
			}
			if !found {
				t.Errorf("%s, %s: no line of the case stands at %v m with %v Pa", l.Name, p.Case, p.At.MD, p.Pressure)
			}
		}
	}
}

// TestThinned holds thinned profiles against the whole ones: joined linearly,
// they meet every place that was left out.
func TestThinned(t *testing.T) {
	for _, name := range []string{"harrow-fen-a.json", "sallow-beck.json"} {
		w := demoWell(t, name)
		cases := 0
		for _, l := range drawings(w, nil).Loads {
			for _, c := range l.Cases {
				cases++
				whole, err := w.Profile(w.Plan.StringIndex(l.Name), c.Case)
				if err != nil {
					t.Fatal(err)
				}
				least := math.Inf(1)
				for _, p := range whole {
					meets(t, l.Name+" "+c.Case+" load", c, c.Load, p, p.Load)
					meets(t, l.Name+" "+c.Case+" rating", c, c.Rating, p, p.Rating)
					if p.Factor > 0 {
						least = min(least, p.Factor)
					}
				}
				near(t, "least factor", float64(c.Least), least, 0)
				worst := 0.0
				for _, u := range c.Used {
					worst = max(worst, float64(u))
				}
				near(t, l.Name+" "+c.Case+" greatest use", worst, 1/least, 1e-12)
			}
		}
		if cases < 20 {
			t.Errorf("%s: only %d cases", name, cases)
		}
	}
}

// meets holds one place against the column joined linearly, on either side of
// a step.
func meets(t *testing.T, what string, c finding.CaseLoad, of []finding.Number, p well.ProfilePoint, want float64) {
	t.Helper()
	best := math.Inf(1)
	for i := 1; i < len(c.MD); i++ {
		a, b := float64(c.MD[i-1]), float64(c.MD[i])
		if float64(p.MD) < a || float64(p.MD) > b {
			continue
		}
		for _, end := range []float64{float64(of[i-1]), float64(of[i])} {
			if a == b {
				best = min(best, math.Abs(end-want))
			}
		}
		if b > a {
			at := float64(of[i-1]) + float64(of[i]-of[i-1])*(float64(p.MD)-a)/(b-a)
			best = min(best, math.Abs(at-want))
		}
	}
	if slack := 0.01 * max(math.Abs(want), 1); best > slack {
		t.Errorf("%s at %v m misses %v by %v", what, p.MD, want, best)
	}
}

// TestPath holds the thinned path against the survey between its stations.
func TestPath(t *testing.T) {
	w := demoWell(t, "harrow-fen-a.json")
	d := drawings(w, nil).Path
	if len(d) > 100 {
		t.Errorf("%d depths are kept", len(d))
	}
	for i := 1; i < len(d); i++ {
		for _, share := range []float64{0.21, 0.5, 0.83} {
			md := d[i-1].MD + finding.Number(share)*(d[i].MD-d[i-1].MD)
			z, err := w.TVD(units.MD(md))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "TVD", float64(*d[i-1].TVD+finding.Number(share)*(*d[i].TVD-*d[i-1].TVD)), float64(z), 0.05)
		}
	}
}

// TestAsked holds that the highest factor counts and one verdict is enough.
func TestAsked(t *testing.T) {
	limit := func(x float64) *finding.Value { return &finding.Value{Quantity: &finding.Quantity{SI: x}} }
	fs := []finding.Finding{
		{Check: "burst.gas_to_surface", String: "P", Title: "burst, gas to surface", Sense: "at least", Limit: limit(1.1), Verdict: finding.Met},
		{Check: "burst.gas_to_surface", String: "P", Title: "burst, gas to surface", Sense: "at least", Limit: limit(1.25), Verdict: finding.NotMet},
		{Check: "burst.gas_to_surface", String: "S", Sense: "at least", Limit: limit(2), Verdict: finding.Met},
		{Check: "burst.gas_to_surface", String: "P", Title: "burst, gas to surface", Sense: "at most", Limit: limit(9), Verdict: finding.Met},
	}
	a := asked(fs, "P", "burst.gas_to_surface")
	if a.factor == nil || *a.factor != 1.25 || !a.notMet || a.title != "burst, gas to surface" {
		t.Errorf("%+v", a)
	}
	if a := asked(fs, "P", "collapse.mud_drop"); a.factor != nil || a.notMet || a.title != "collapse, mud drop" {
		t.Errorf("%+v", a)
	}
	w := checktest.Well(t, vertical)
	for _, c := range drawings(w, []finding.Finding{{Check: "burst.pressure_test", String: "P", Sense: "at least", Limit: limit(2), Verdict: finding.NotMet}}).Loads[1].Cases {
		if c.Case != "burst.pressure_test" {
			continue
		}
		if !c.NotMet {
			t.Error("not met isn't carried")
		}
		near(t, "used", slicesMax(c.Used), 2/float64(c.Least), 1e-12)
	}
}

func slicesMax(list []finding.Number) float64 {
	most := 0.0
	for _, x := range list {
		most = max(most, float64(x))
	}
	return most
}

// TestNothing holds that what a plan doesn't give is left out.
func TestNothing(t *testing.T) {
	d := drawings(checktest.Well(t, `"units":"field","well":{"name":"Bare"}`), nil)
	if d.Schematic != nil || d.Window != nil || d.Loads != nil || d.Path != nil {
		t.Errorf("%+v", d)
	}
	d = drawings(checktest.Well(t, `"units":"field","well":{"name":"No depths"},"strings":[{"name":"S","role":"surface","segments":[{"od":7}]}],"pressures":[{"depth":0,"pore":8.6}]`), nil)
	if d.Schematic != nil || d.Window != nil {
		t.Errorf("%+v", d)
	}
}

// TestJSON holds that drawings survive being written and read, and that a
// number that is none is refused.
func TestJSON(t *testing.T) {
	d := drawings(demoWell(t, "harrow-fen-a.json"), nil)
	first, err := json.Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	var back finding.Drawings
	if err := json.Unmarshal(first, &back); err != nil {
		t.Fatal(err)
	}
	second, err := json.Marshal(back)
	if err != nil {
		t.Fatal(err)
	}
	if string(first) != string(second) {
		t.Error("what was read back is written differently")
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if _, err := json.Marshal(finding.Number(x)); err == nil {
			t.Errorf("%v was written", x)
		}
	}
}
