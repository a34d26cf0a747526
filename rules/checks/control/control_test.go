package control_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/checks/control"
)

const (
	psi = 6894.757293168361
	bbl = 0.158987294928
)

func gradient(pa float64) func(*well.Assumptions) {
	return func(a *well.Assumptions) { a.GasColumn, a.GasGradient = "gradient", pa }
}

func measure(t *testing.T, w *well.Well, c *rules.Check, subject string, want, within float64) rules.Measure {
	t.Helper()
	m := checktest.Measure(t, w, c, subject)
	if !m.Result.Known || m.Absent != "" || m.Unloaded != "" || m.Err != nil {
		t.Errorf("%s of %s: not measured: %+v", c.Name, subject, m)
		return m
	}
	if math.Abs(m.Result.Value.SI-want) > within {
		t.Errorf("%s of %s: got %.6g, want %.6g", c.Name, subject, m.Result.Value.SI, want)
	}
	for _, step := range m.Working {
		if err := step.Check(); err != nil {
			t.Errorf("%s of %s: %v", c.Name, subject, err)
		}
	}
	return m
}

const casing = `"units":"field",
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":0,"shoe":%SHOE%,"segments":[{"from":0,"to":%SHOE%,"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}]}],`

func plan(shoe, rest string) string {
	return strings.ReplaceAll(casing, "%SHOE%", shoe) + rest
}

// TestShoeBound: a shoe at 12,000 ft that holds 12 ppg, 4 ppg added, with gas
// of 0.12 psi/ft. Published: 9,984 psi at the shoe, 8,544 psi at the surface
// (globalspec.com reference 32794). The source counts 0.052 psi/ft to the ppg
// where 0.051948 is exact: 0.1 % of 9,984 is 10 psi.
func TestShoeBound(t *testing.T) {
	text := plan("12000", `"well":{"name":"A","class":"exploration","vertical":true},
	 "sections":[{"name":"one","bit":17.5,"from":0,"to":12000,"mud_density":10},{"name":"two","bit":12.25,"from":12000,"to":13000,"mud_density":12,"pressure_control":"bop_surface"}],
	 "pressures":[{"depth":0,"pore":"18 ppg","fracture":"12 ppg"},{"depth":13000,"pore":"18 ppg","fracture":"12 ppg"}]`)
	w := checktest.WellWith(t, text, func(a *well.Assumptions) {
		gradient(0.12 * psi / 0.3048)(a)
		a.FractureMargin = 4 * 119.826427316897
	})
	m := measure(t, w, control.SurfacePressure, "two", 8544*psi, 10.5*psi)
	if m.Note != well.BoundShoe {
		t.Errorf("governed by %q, want %q", m.Note, well.BoundShoe)
	}
	exact := (16*0.0519480519*12000 - 0.12*12000) * psi
	measure(t, w, control.SurfacePressure, "two", exact, 0.5*psi)
}

// TestPoreBound: 9,984 psi at 12,000 ft less gas of 0.12 psi/ft is 8,544 psi
// (same source); the first hole has no shoe that could break down.
func TestPoreBound(t *testing.T) {
	text := `"units":"field","well":{"name":"A","vertical":true},
	 "sections":[{"name":"one","bit":17.5,"from":0,"to":12000,"mud_density":10}],
	 "pressures":[{"depth":0,"pore":"0 psi"},{"depth":12000,"pore":"9984 psi"}]`
	w := checktest.WellWith(t, text, gradient(0.12*psi/0.3048))
	m := measure(t, w, control.SurfacePressure, "one", 8544*psi, 1e-6*psi)
	if m.Note != well.BoundPore || len(m.Working) != 0 {
		t.Errorf("governed by %q, want %q alone", m.Note, well.BoundPore)
	}
}

const kicking = `"well":{"name":"A","class":"%CLASS%","vertical":true},
 "sections":[{"name":"one","bit":17.5,"from":0,"to":5000,"mud_density":9},
  {"name":"two","bit":12.25,"from":5000,"to":8000,"mud_density":11.55,"pressure_control":"%CONTROL%","carried_by":"surface"}],
 "formations":[{"name":"Brant sand","top":7500,"contents":"%CONTENTS%"}],
 "pressures":[{"depth":0,"pore":"0 psi","fracture":"0 psi"},{"depth":5000,"pore":"2500 psi","fracture":"3750 psi"},{"depth":8000,"pore":"5280 psi","fracture":"7000 psi"}],
 "bops":[{"name":"stack","on":"surface","rating":5000,"annulars":1,"pipe_rams":1,"shear_rams":1,"test_pressure":5000,"test_plug":true}]`

func kicker(t *testing.T, class, ctl, contents string) *well.Well {
	s := strings.NewReplacer("%CLASS%", class, "%CONTROL%", ctl, "%CONTENTS%", contents).Replace(kicking)
	return checktest.WellWith(t, plan("5000", s), gradient(0.1*psi/0.3048))
}

// TestKickTolerance takes Devereux's worked example (Practical Well Planning
// and Drilling Manual, pages 460 to 462) through a plan: mud of 11.55 ppg is
// 0.6 psi/ft; 5 in pipe assumed in 12-1/4 in hole gives 0.1215 bbl/ft where the
// page has 0.1214. 540 x 0.1215 x 3777 / 5253
// = 47.17 bbl as the page has it in gauge pressure; absolute, 3791.7 / 5267.7,
// 47.22.
func TestKickTolerance(t *testing.T) {
	m := measure(t, kicker(t, "development", "bop_surface", "gas"), control.KickTolerance, "two", 47.22*bbl, 0.05*bbl)
	if !strings.Contains(m.Note, "drill pipe assumed") {
		t.Errorf("note %q doesn't say that the pipe is assumed", m.Note)
	}
	// Intensity: (11.55 + 0.5) ppg x 0.051948 x 8000 = 5,008 psi stays below the
	// pore pressure of 5,280 psi, so appraisal gives the same.
	measure(t, kicker(t, "appraisal", "bop_surface", "gas"), control.KickTolerance, "two", 47.22*bbl, 0.05*bbl)
	for _, c := range []struct{ class, ctl, contents, why string }{
		{"development", "diverter", "gas", "diverter"},
		{"development", "none", "gas", "without pressure control"},
		{"development", "bop_surface", "none", "no formation"},
	} {
		if m := checktest.Measure(t, kicker(t, c.class, c.ctl, c.contents), control.KickTolerance, "two"); !strings.Contains(m.Absent, c.why) {
			t.Errorf("%v: not applicable because %q, want %q", c, m.Absent, c.why)
		}
	}
	if m := checktest.Measure(t, kicker(t, "development", "bop_surface", "gas"), control.KickTolerance, "one"); m.Absent == "" {
		t.Errorf("the first hole has a kick tolerance: %+v", m)
	}
}

func TestKickNeedsClass(t *testing.T) {
	s := strings.NewReplacer(`"class":"%CLASS%",`, "", "%CONTROL%", "bop_surface", "%CONTENTS%", "gas").Replace(kicking)
	m := checktest.Measure(t, checktest.Well(t, plan("5000", s)), control.KickTolerance, "two")
	if m.Result.Known || len(m.Result.Lacks) != 1 || !strings.Contains(m.Result.Lacks[0].Input, "class of the well") {
		t.Errorf("without a class: %+v", m)
	}
}

// TestStack: pore 5,280 psi at 8,000 ft less gas of 0.1 psi/ft is 4,480 psi;
// the shoe gives 3,750 + 0.3 ppg x 0.051948 x 5000 - 500 = 3,327.9 psi and
// governs.
func TestStack(t *testing.T) {
	w := kicker(t, "exploration", "bop_surface", "gas")
	measure(t, w, control.SurfacePressure, "two", 3327.9*psi, 0.1*psi)
	measure(t, w, control.AnticipatedBelow, "surface", 3327.9*psi, 0.1*psi)
	measure(t, w, control.BOPSurfacePressure, "stack", 3327.9*psi, 0.1*psi)
	measure(t, w, control.StackRating, "two", 5000*psi, 1)
	measure(t, w, control.StackRatingBelow, "surface", 5000*psi, 1)
	measure(t, w, control.BOPRams, "stack", 2, 0)
	measure(t, w, control.BOPBlindRams, "stack", 1, 0)
	measure(t, w, control.BOPAnnulars, "stack", 1, 0)
	for _, c := range []*rules.Check{control.BOPChokes, control.BOPAnnularTest, control.BOPTestTime, control.BOPRemoteChoke} {
		if m := checktest.Measure(t, w, c, "stack"); m.Result.Known || len(m.Result.Lacks) != 1 {
			t.Errorf("%s: %+v, want one missing input", c.Name, m)
		}
	}
	if m := checktest.Measure(t, w, control.WellheadLeast, "surface"); m.Result.Known {
		t.Errorf("a wellhead out of nothing: %+v", m)
	}
	if m := checktest.Measure(t, w, control.StandsOnCemented, "two"); !m.Result.Known || !m.Result.Value.Truth {
		t.Errorf("the stack stands on a cemented string: %+v", m)
	}
	if m := checktest.Measure(t, w, control.StandsOnCemented, "one"); !m.Result.Known || m.Result.Value.Truth {
		t.Errorf("nothing stands above the first hole: %+v", m)
	}
}

// TestBarren: a complete list of formations without oil or gas leaves no
// surface pressure to anticipate, unless the well is exploration.
func TestBarren(t *testing.T) {
	for class, want := range map[string]bool{"development": true, "exploration": false} {
		s := strings.NewReplacer("%CLASS%", class, `"vertical"`, `"formations_complete":true,"vertical"`, "%CONTROL%", "bop_surface", "%CONTENTS%", "salt_water").Replace(kicking)
		m := checktest.Measure(t, checktest.Well(t, plan("5000", s)), control.SurfacePressure, "two")
		if (m.Absent != "") != want {
			t.Errorf("%s: not applicable %q, want %v", class, m.Absent, want)
		}
	}
}

// TestProductionPressure: 5,280 psi at 8,000 ft less 0.1 psi/ft is 4,480 psi.
// The reservoir is the perforated interval, else the deepest zone that flows.
func TestProductionPressure(t *testing.T) {
	w := kicker(t, "development", "bop_surface", "gas")
	// Brant sand at 7,500 ft: 2500 + 2780 x 2500/3000 = 4,816.7 psi, less 750.
	measure(t, w, control.ProductionPressure, "well", 4066.7*psi, 0.1*psi)
	w.Plan.Well.ShutInTubingPressure.V, w.Plan.Well.ShutInTubingPressure.Ref = 4100*psi, 1
	w = well.New(w.Plan, w.Assume)
	measure(t, w, control.ProductionPressure, "well", 4100*psi, 1)
	w.Plan.Well.Purpose.V, w.Plan.Well.Purpose.Ref = "disposal", 1
	if m := checktest.Measure(t, well.New(w.Plan, w.Assume), control.ProductionPressure, "well"); m.Absent == "" {
		t.Errorf("a disposal well produces: %+v", m)
	}
	if m := checktest.Measure(t, w, control.ProductionLeast, "well"); m.Absent == "" {
		t.Errorf("no completion: %+v, want not applicable", m)
	}
}

func TestTree(t *testing.T) {
	completed := func(extra string) *well.Well {
		return checktest.Well(t, plan("5000", strings.NewReplacer("%CLASS%", "development", "%CONTROL%", "bop_surface", "%CONTENTS%", "gas").Replace(kicking)+extra))
	}
	w := completed(`,"completion":{"tree_rating":5000},"wellhead":[{"name":"tubing head","kind":"tubing_head","rating":3000},{"name":"head","kind":"casing_head","string":"surface","rating":2000}]`)
	if m := measure(t, w, control.ProductionLeast, "well", 3000*psi, 1); m.Note != "tubing head" {
		t.Errorf("weakest is %q, want the tubing head", m.Note)
	}
	measure(t, w, control.WellheadLeast, "surface", 2000*psi, 1)
	w = completed(`,"completion":{"tubing_od":2.875}`)
	if m := checktest.Measure(t, w, control.ProductionLeast, "well"); m.Result.Known || len(m.Result.Lacks) != 1 {
		t.Errorf("no tree: %+v, want one missing input", m)
	}
}

// TestUnderBOP: as stated, else by a stack named for the section; silence is a
// missing input.
func TestUnderBOP(t *testing.T) {
	for _, c := range []struct {
		from, to    string
		known, want bool
	}{
		{`"bop_surface"`, `"bop_surface"`, true, true}, {`"bop_surface"`, `"bop_subsea"`, true, true}, {`"bop_surface"`, `"diverter"`, true, false},
		{`"pressure_control":"bop_surface",`, "", false, false},
	} {
		s := strings.NewReplacer("%CLASS%", "development", "%CONTROL%", "bop_surface", "%CONTENTS%", "gas").Replace(kicking)
		m := checktest.Measure(t, checktest.Well(t, plan("5000", strings.ReplaceAll(s, c.from, c.to))), control.UnderBOP, "two")
		if m.Result.Known != c.known || m.Result.Value.Truth != c.want {
			t.Errorf("%q to %q: got %+v, want known %v, %v", c.from, c.to, m, c.known, c.want)
		}
	}
	s := strings.NewReplacer("%CLASS%", "development", `"pressure_control":"%CONTROL%",`, "", "%CONTENTS%", "gas", `"on":"surface"`, `"on":"surface","section":"two"`).Replace(kicking)
	if m := checktest.Measure(t, checktest.Well(t, plan("5000", s)), control.UnderBOP, "two"); !m.Result.Known || !m.Result.Value.Truth {
		t.Errorf("a stack is named for it: %+v", m)
	}
}

// TestOpenToPressure: no hole is drilled below the string, or only with a
// diverter: nothing to be proven for.
func TestOpenToPressure(t *testing.T) {
	for ctl, want := range map[string]bool{"bop_surface": true, "diverter": false} {
		if m := checktest.Measure(t, kicker(t, "development", ctl, "gas"), control.OpenToPressure, "surface"); m.Result.Value.Truth != want {
			t.Errorf("%s: %+v, want %v", ctl, m, want)
		}
	}
}
