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

// TestSlurriesStandByVolume: two slurries with volumes and no tops. By hand, in
// 17-1/2 x 13-3/8 in, 0.123719 bbl/ft: 300 bbl of tail less the shoe track of
// 80 ft (0.149727 bbl/ft, 11.98 bbl) reach from 6,000 to 3,672 ft, 60 bbl of
// lead to 3,187 ft, under the 20 in shoe.
func TestSlurriesStandByVolume(t *testing.T) {
	text := replace(two, `"top_of_cement":2500`, `"top_of_cement":2500,"float_collar":5920,"bump_pressure":1000,"stages":[{"name":"one","kind":"primary","excess":0,"fluids":[{"name":"l","kind":"lead","density":12.5,"volume":60},{"name":"c","kind":"tail","density":15.8,"volume":300}]}]`)
	text = replace(text, `"bit":17.5,`, `"bit":17.5,"excess":0,`)
	f := strength(t, checktest.Well(t, text), 1, "tension.bump_body")
	ann, bore := (17.5*17.5-13.375*13.375)/1029.4142, 12.415*12.415/1029.4142
	tail := 6000 - (300-80*bore)/ann
	lead := tail - 60/ann
	out := func(z float64) float64 { return hydro(10, lead) + hydro(12.5, tail-lead) + hydro(15.8, z-tail) }
	in, steel := 12.415*12.415*math.Pi/4, (13.375*13.375-12.415*12.415)*math.Pi/4
	want := 408000 - out(6000)*steel + (1000+hydro(10, 5920)-out(5920))*in
	near(t, "pull", f.Least.Load/lbf, want, 5)
}

// TestTemperaturesAreNeverExtrapolated: rows out of order are put in order, and
// pipe 100 ft below the last row waits for its temperature.
func TestTemperaturesAreNeverExtrapolated(t *testing.T) {
	test := `,"tests":[{"name":"casing test","kind":"casing","string":"13","when":"set","pressure":2000,"fluid":10}]`
	rows := func(a, b string) string { return two + test + `,"temperatures":[` + a + `,` + b + `]` }
	up, down := `{"depth":0,"static":60}`, `{"depth":6000,"static":160}`
	asked := func(text string) (*well.StrengthResult, error) {
		return checktest.Well(t, text).Strength(1, "burst.pressure_test")
	}
	one, err := asked(rows(up, down))
	if err != nil {
		t.Fatal(err)
	}
	two, err := asked(rows(down, up))
	if err != nil || two.Least.Factor != one.Least.Factor {
		t.Errorf("the order of rows matters: %v and %v, %v", one.Least.Factor, two.Least.Factor, err)
	}
	short, err := asked(rows(up, `{"depth":4000,"static":130}`))
	if err == nil && len(short.Gaps) == 0 {
		t.Error("pipe 2,000 ft below the last temperature is judged as if it were known")
	}
}
