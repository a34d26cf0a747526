package well_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// TestJoints: the joint of a case carries what the body carries, so factors
// stand as the strengths printed: 13-3/8 68 N80 BTC joint 1,585,000, body
// 1,556,000 lbf (API Bul 5C2, from memory). The plan says vertical: no bending.
func TestJoints(t *testing.T) {
	text := replace(two, `"top_of_cement":2500`, `"top_of_cement":2500,"float_collar":5920,"bump_pressure":1000,"peak_speed":300,"stages":[{"name":"one","kind":"primary","fluids":[{"name":"c","kind":"lead","density":15.8}]}]`) +
		`,"tests":[{"name":"casing test","kind":"casing","string":"13","when":"set","pressure":2000,"fluid":10}]`
	w := checktest.Well(t, text)
	for _, pair := range [][2]string{
		{"tension.running_joint", "tension.running_body"}, {"tension.overpull_joint", "tension.overpull_body"}, {"tension.shock_joint", "tension.shock_body"},
		{"tension.bump_joint", "tension.bump_body"}, {"tension.landed_joint", "tension.landed_body"}, {"tension.service_joint", "tension.service_body"},
	} {
		joint, body := strength(t, w, 1, pair[0]).Least.Factor, strength(t, w, 1, pair[1]).Least.Factor
		near(t, pair[0], joint/body, 1585.0/1556.0, 1e-5)
	}
}

// TestTriaxialByHand works the least triaxial factor out again from the state
// at its place, by the thick-wall formulas of Lame at both walls and von Mises
// (API TR 5C3, clause 6): nothing bends in a vertical well.
func TestTriaxialByHand(t *testing.T) {
	text := two + `,"tests":[{"name":"casing test","kind":"casing","string":"13","when":"set","pressure":3500,"fluid":10}]`
	w := checktest.Well(t, text)
	l := strength(t, w, 1, "triaxial.least").Least
	pi, po, axial := float64(l.Inside)/psi, float64(l.Outside)/psi, float64(l.Axial)/lbf
	ri, ro := 12.415/2, 13.375/2
	sz := axial / (math.Pi * (ro*ro - ri*ri))
	worst := 0.0
	for _, r := range []float64{ri, ro} {
		a := (pi*ri*ri - po*ro*ro) / (ro*ro - ri*ri)
		b := (pi - po) * ri * ri * ro * ro / (r * r * (ro*ro - ri*ri))
		sr, st := a-b, a+b
		worst = math.Max(worst, math.Sqrt(((sz-st)*(sz-st)+(st-sr)*(st-sr)+(sr-sz)*(sr-sz))/2))
	}
	near(t, "factor", l.Factor, 80000/worst, 1e-6)
	if worst < 20000 {
		t.Errorf("a stress of %.0f psi proves little", worst)
	}
}

// TestEvidence walks testdata/evidence.csv: every load case stands in it with a
// published example or a hand calculation, in a test that names the case; a
// case with neither stands in DEVELOPERS.md under "No outside check".
func TestEvidence(t *testing.T) {
	f, err := os.Open("testdata/evidence.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	tests := bodies(t, "*_test.go", "../../rules/checks/strength/*_test.go")
	notes, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, unchecked, found := strings.Cut(string(notes), "## No outside check")
	if !found {
		t.Fatal("DEVELOPERS.md has no part called \"No outside check\"")
	}
	left := map[string]bool{"compression.wellhead": true}
	for _, c := range well.StrengthCases() {
		left[c] = true
	}
	count := map[string]int{}
	for _, r := range rows[1:] {
		name, kind, test, called := r[0], r[1], r[2], r[3]
		count[kind]++
		if !left[name] {
			t.Errorf("%s stands twice, or is no case", name)
		}
		delete(left, name)
		switch kind {
		case "published", "hand":
			if body, ok := tests[test]; !ok || !strings.Contains(body, called) {
				t.Errorf("%s: %s is no test that calls it %s", name, test, called)
			}
		case "none":
			if !strings.Contains(unchecked, "`"+name+"`") {
				t.Errorf("%s isn't said to have no outside check", name)
			}
		default:
			t.Errorf("%s: found %q, expected published, hand or none", name, kind)
		}
	}
	for name := range left {
		t.Errorf("%s has no line", name)
	}
	t.Logf("%d published, %d by hand, %d with no outside check", count["published"], count["hand"], count["none"])
}

func bodies(t *testing.T, globs ...string) map[string]string {
	t.Helper()
	out := map[string]string{}
	fn := regexp.MustCompile(`(?ms)^func (Test\w+)\(.*?^}`)
	for _, g := range globs {
		files, err := filepath.Glob(g)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range files {
			raw, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range fn.FindAllStringSubmatch(string(raw), -1) {
				out[m[1]] = m[0]
			}
		}
	}
	return out
}

// TestLanded: the string of TestPlugBump bled off, 50,000 lbf pulled on it: the
// same sum of end areas without the surface pressure.
func TestLanded(t *testing.T) {
	text := replace(two, `"top_of_cement":2500`, `"top_of_cement":2500,"float_collar":5920,"landing_pull":50000,"stages":[{"name":"one","kind":"primary","fluids":[{"name":"c","kind":"lead","density":15.8}]}]`)
	w := checktest.Well(t, text)
	out := func(z float64) float64 { return hydro(10, 2500) + hydro(15.8, z-2500) }
	in, steel := 12.415*12.415*math.Pi/4, (13.375*13.375-12.415*12.415)*math.Pi/4
	want := 408000 - out(6000)*steel + (hydro(10, 5920)-out(5920))*in + 50000
	near(t, "pull", strength(t, w, 1, "tension.landed_body").Least.Load/lbf, want, 2)
}
