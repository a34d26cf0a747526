package well_test

import (
	"errors"
	"math"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// A vertical well in metres: conductor, surface, intermediate, drilling liner,
// production liner, tie-back. Depths chosen so that every answer is plain.
const nested = `"units":"metric","well":{"name":"W","vertical":true},
"strings":[
 {"name":"tb","role":"tie_back","top":0,"shoe":2400,"segments":[{"od":"5-1/2 in","weight":"20 lb/ft","grade":"L80","connection":"BTC"}]},
 {"name":"prod","role":"production_liner","top":2400,"shoe":3990,"section":"6","segments":[{"od":"4-1/2 in","weight":"13.5 lb/ft","grade":"L80","connection":"BTC"}]},
 {"name":"liner","role":"drilling_liner","top":1900,"shoe":2990,"section":"8","segments":[{"od":"7 in","weight":"29 lb/ft","grade":"L80","connection":"BTC"}]},
 {"name":"int","role":"intermediate","top":0,"shoe":2000,"section":"12","segments":[{"to":1000,"od":"9-5/8 in","weight":"47 lb/ft","grade":"L80","connection":"BTC"},{"to":2000,"od":"9-5/8 in","weight":"53.5 lb/ft","grade":"L80","connection":"BTC"}]},
 {"name":"surf","role":"surface","top":0,"shoe":500,"section":"17","segments":[{"od":"13-3/8 in","weight":"72 lb/ft","grade":"L80","connection":"BTC"}]}],
"sections":[
 {"name":"6","bit":"6 in","to":4000},{"name":"8","bit":"8-1/2 in","to":3000},{"name":"12","bit":"12-1/4 in","to":2010,"pressure_control":"bop_surface"},{"name":"17","bit":"17-1/2 in","to":505}]`

func names(w *well.Well, idx []int) string {
	s := ""
	for _, i := range idx {
		s += w.Plan.Strings[i].Name.V + " "
	}
	return s
}

func TestOrderAndParents(t *testing.T) {
	w := checktest.Well(t, nested)
	if got := names(w, w.InOrder()); got != "surf int liner prod tb " {
		t.Errorf("run in the order %q", got)
	}
	for child, parent := range map[string]string{"prod": "liner", "liner": "int"} {
		p, err := w.Parent(w.Plan.StringIndex(child))
		if err != nil || w.Plan.Strings[p].Name.V != parent {
			t.Errorf("%s hangs in %d, %v", child, p, err)
		}
	}
	if _, err := w.Parent(w.Plan.StringIndex("int")); !errors.As(err, new(well.Absent)) {
		t.Errorf("a string to surface has no parent: %v", err)
	}
	if !w.CarriesBOP(w.Plan.StringIndex("surf")) || w.CarriesBOP(w.Plan.StringIndex("int")) {
		t.Error("the BOP of the first section with one stands on the surface string")
	}
	if !w.ProductionExposed(w.Plan.StringIndex("tb")) || w.ProductionExposed(w.Plan.StringIndex("liner")) {
		t.Error("with a tie-back the liner's parent isn't exposed in production")
	}
}

// The surface string is open to the 12-1/4 in hole only; the intermediate to
// 8-1/2 in, and to 6 in above the drilling liner's top; the liner to 6 in.
func TestExposures(t *testing.T) {
	w := checktest.Well(t, nested)
	type exp struct {
		hole       string
		down, shoe units.MD
	}
	for name, want := range map[string][]exp{
		"surf":  {{"12", 500, 500}},
		"int":   {{"8", 2000, 2000}, {"6", 1900, 2990}},
		"liner": {{"6", 2990, 2990}},
		"prod":  nil,
	} {
		got := w.Exposures(w.Plan.StringIndex(name))
		if len(got) != len(want) {
			t.Errorf("%s is exposed to %d holes, want %d", name, len(got), len(want))
			continue
		}
		for i, g := range got {
			if g.Hole.Plan.Name.V != want[i].hole || g.Down != want[i].down || g.Shoe != want[i].shoe {
				t.Errorf("%s: %s down to %v under shoe %v, want %+v", name, g.Hole.Plan.Name.V, g.Down, g.Shoe, want[i])
			}
		}
	}
}

// The annulus outside the drilling liner: in the intermediate to 2,000 m, then
// open hole.
func TestAnnulus(t *testing.T) {
	w := checktest.Well(t, nested)
	gaps, err := w.Annulus(w.Plan.StringIndex("liner"))
	if err != nil || len(gaps) != 2 {
		t.Fatal(gaps, err)
	}
	if g := gaps[0]; g.From != 1900 || g.To != 2000 || !g.Cased || math.Abs(float64(g.Outer)-8.535*units.Inch) > 1e-9 {
		t.Errorf("%+v", g)
	}
	if g := gaps[1]; g.From != 2000 || g.To != 2990 || g.Cased || math.Abs(float64(g.Outer)-8.5*units.Inch) > 1e-9 {
		t.Errorf("%+v", g)
	}
}

const curve = `"units":"field","well":{"name":"W","vertical":true},
"pressures":[{"depth":1000,"pore":9.0,"fracture":"0.7 psi/ft"},{"depth":3000,"pore":11.0,"fracture":"0.8 psi/ft"},{"depth":3000,"pore":13.0},{"depth":5000,"pore":13.0,"pore_high":14.0,"fracture":"0.9 psi/ft"}]`

// Interpolated in the quantity as written over TVD: at 2,000 ft 10.0 ppg is
// 10 x 0.0519481 x 2,000 = 1,038.96 psi, 0.75 psi/ft is 1,500 psi.
func TestCurve(t *testing.T) {
	w := checktest.Well(t, curve)
	z := units.TVD(2000 * units.Foot)
	p, _, err := w.Pore(z, well.Base)
	if got := float64(p) / units.Psi; err != nil || math.Abs(got-2000*10.0/19.25) > 1e-3 {
		t.Errorf("pore %v psi, %v", got, err)
	}
	f, _, err := w.Fracture(z, well.Low)
	if got := float64(f) / units.Psi; err != nil || math.Abs(got-1500) > 1e-6 {
		t.Errorf("fracture %v psi, %v", got, err)
	}
	// A step: the high estimate takes the higher side, the low the lower.
	step := units.TVD(3000 * units.Foot)
	hi, _, _ := w.Pore(step, well.High)
	lo, _, _ := w.Pore(step, well.Low)
	if math.Abs(float64(hi)/float64(lo)-13.0/11.0) > 1e-9 {
		t.Errorf("at the step %v and %v", hi, lo)
	}
	// Within 100 ft of the rows believed, past them missing.
	for ft, ok := range map[float64]bool{900: true, 899: false, 5100: true, 5101: false} {
		if _, _, err := w.Pore(units.TVD(ft*units.Foot), well.Base); (err == nil) != ok {
			t.Errorf("%v ft: %v", ft, err)
		}
	}
	if _, _, err := checktest.Well(t, `"well":{"name":"W"}`).Pore(100, well.Base); !errors.As(err, new(well.Missing)) {
		t.Errorf("no table: %v", err)
	}
}

// Where the depth map comes from, and that MD is never taken for TVD.
func TestDepths(t *testing.T) {
	for text, want := range map[string]string{
		`"well":{"name":"W","vertical":true}`:                                      string(well.FromVertical),
		`"well":{"name":"W"},"strings":[{"name":"a","shoe":1000,"shoe_tvd":1000}]`: string(well.FromVertical),
		`"well":{"name":"W"},"strings":[{"name":"a","shoe":1000,"shoe_tvd":900}]`:  string(well.FromPairs),
		`"well":{"name":"W"},"survey":[{"md":0,"inclination":0,"azimuth":0},{"md":1000,"inclination":10,"azimuth":0}],"strings":[{"name":"a","shoe":1000,"shoe_tvd":900}]`: string(well.FromSurvey),
		`"well":{"name":"W"}`: "",
	} {
		_, source, err := checktest.Well(t, text).Depths()
		if string(source) != want || (err == nil) != (want != "") {
			t.Errorf("%s: %q %v", text, source, err)
		}
	}
}
