package plan_test

import (
	"math"
	"strings"
	"testing"

	"spudgate/plan"
	"spudgate/plan/doc"
	"spudgate/plan/read"
	"spudgate/plan/units"
)

func decode(t *testing.T, text string) (*plan.Plan, doc.Faults) {
	t.Helper()
	d, err := read.JSON("p.json", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return plan.Decode(d)
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

// Expected SI values by the exact factors: 1 ft = 0.3048 m, 1 in = 0.0254 m,
// 1 lb = 0.45359237 kg, g = 9.80665 m/s2.
func TestQuantities(t *testing.T) {
	p, faults := decode(t, `{"format":"spudgate-plan/1","units":"field","well":{"name":"W","h2s":20,"co2":"1.5 %"},
	 "depth_reference":{"above_ground":25},"rig":{"hook_load":"225 t","elevator":500000},
	 "strings":[{"name":"a","shoe":"3,200 ft","top_of_cement":"surface","segments":[{"od":"13 3/8","weight":"72#"}]}],
	 "pressures":[{"depth":1000,"pore":9.6,"fracture":"0.7 psi/ft","overburden":"900 psi"}]}`)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	s := p.Strings[0]
	for what, c := range map[string][2]float64{
		"shoe":      {float64(s.Shoe.V), 975.36},
		"OD":        {float64(s.Segments[0].OD.V), 0.339725},
		"weight":    {float64(s.Segments[0].Weight.V), 72 * 0.45359237 / 0.3048},
		"hook load": {float64(p.Rig.HookLoad.V), 225000 * 9.80665}, // a mass is read as what it weighs
		"elevator":  {float64(p.Rig.Elevator.V), 500000 * 0.45359237 * 9.80665},
		"H2S":       {float64(p.Well.H2S.V), 20e-6},
		"CO2":       {float64(p.Well.CO2.V), 0.015},
	} {
		if !near(c[0], c[1]) {
			t.Errorf("%s = %v, want %v", what, c[0], c[1])
		}
	}
	if !s.TopOfCement.Known() || s.TopOfCement.V != 0 {
		t.Errorf("top of cement at surface: %+v", s.TopOfCement)
	}
	r := p.Pressures[0]
	if r.Pore.V.Dim != units.Density || r.Fracture.V.Dim != units.Gradient || r.Overburden.V.Dim != units.Pressure {
		t.Errorf("pressures keep how they were written: %v %v %v", r.Pore.V.Dim, r.Fracture.V.Dim, r.Overburden.V.Dim)
	}
	if s.ShoeTVD.Known() {
		t.Error("a value the plan doesn't give is known")
	}
	if got := p.Place(s.Shoe.Ref).String(); got != "3:33" {
		t.Errorf("the shoe stands at %s", got)
	}
}

// Depths from another datum become depths below the rotary table.
func TestDatum(t *testing.T) {
	head := `{"format":"spudgate-plan/1","units":"metric","well":{"name":"W","setting":"offshore_subsea_bop"},"depth_reference":{"above_sea_level":25,"water_depth":100},`
	p, faults := decode(t, head+`"formations":[{"name":"f","top_tvd":900,"from":"sea_level"},{"name":"g","top_tvd":"800 m from mudline"}],"water":[{"kind":"base_of_protected_water","depth":50}]}`)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if got := p.Formations[0].TopTVD.V; got != 925 {
		t.Errorf("900 m from sea level is %v below the rotary", got)
	}
	if got := p.Formations[1].TopTVD.V; got != 925 {
		t.Errorf("800 m from the mudline is %v below the rotary", got)
	}
	if got := p.Water[0].Depth.V; got != 175 {
		t.Errorf("protected water offshore counts from the mudline: %v", got)
	}
	// Onshore it counts from ground; without the rotary's height it's a doubt,
	// never a silent zero.
	p, _ = decode(t, `{"format":"spudgate-plan/1","well":{"name":"W"},"water":[{"depth":500}]}`)
	if p.Water[0].Depth.Known() || len(p.Doubts) != 1 || !strings.Contains(p.Doubts[0].Why, "ground") {
		t.Errorf("%+v %+v", p.Water[0].Depth, p.Doubts)
	}
}

// Each wrong value gives one fault with its place, what was found and what was
// expected.
func TestFaults(t *testing.T) {
	for _, c := range []struct{ member, value, found, expected string }{
		{"shoe", `"1,56"`, `"1,56"`, "write 1.56"},
		{"shoe", `"12 ppg"`, `"12 ppg"`, "a measured depth"},
		{"shoe", `"12 furlongs"`, `"12 furlongs"`, "unknown unit"},
		{"shoe", `9e9`, "9e9", "-164.042 to 65,616.798 ft"},
		{"shoe", `"100 ft from the moon"`, `"100 ft from the moon"`, "rotary, ground, mudline or sea level"},
		{"mud_density", `-1`, "-1", "0 to 33.382 ppg"},
		{"fill_every", `"40 ft from ground"`, `"40 ft from ground"`, "a length with no datum"},
		{"centralizers_planned", `1e300`, "1e300", "a whole number up to 1000000"},
	} {
		_, faults := decode(t, `{"format":"spudgate-plan/1","units":"field","well":{"name":"W"},"depth_reference":{"above_ground":25},"strings":[{"`+c.member+`":`+c.value+`}]}`)
		if len(faults) != 1 {
			t.Errorf("%s %s: %d faults: %v", c.member, c.value, len(faults), faults)
			continue
		}
		f := faults[0]
		if f.Found != c.found || !strings.Contains(f.Expected, c.expected) || f.Place.Line != 1 || f.Place.Path != "strings[0]."+c.member {
			t.Errorf("%s %s: %v", c.member, c.value, f)
		}
	}
}

func TestNames(t *testing.T) {
	p, _ := decode(t, `{"format":"spudgate-plan/1","well":{"name":"W"},"strings":[{"role":"surface","segments":[{"od":9.625}]},{}],"sections":[{"bit":12.25}]}`)
	if p.Strings[0].Name.V != "9-5/8 surface" || p.Strings[1].Name.V != "string 2" || p.Sections[0].Name.V != "12-1/4 hole" {
		t.Errorf("%q %q %q", p.Strings[0].Name.V, p.Strings[1].Name.V, p.Sections[0].Name.V)
	}
	if len(p.Notes) != 3 {
		t.Errorf("made-up names are said: %v", p.Notes)
	}
	if p.StringIndex("9-5/8  SURFACE") != 0 || p.StringIndex("none") != -1 || p.StringIndex("") != -1 {
		t.Error("names match with case and spaces folded")
	}
}

func TestCloneIsApart(t *testing.T) {
	p, _ := decode(t, `{"format":"spudgate-plan/1","well":{"name":"W"},"strings":[{"name":"a","segments":[{"grade":"L80"}],"stages":[{"fluids":[{"name":"x","strengths":[{"time":1}]}]}]}]}`)
	q := p.Clone()
	q.Strings[0].Segments[0].Grade.V = "P110"
	q.Strings[0].Stages[0].Fluids[0].Strengths[0].Time.V = 2
	if p.Strings[0].Segments[0].Grade.V != "L80" || p.Strings[0].Stages[0].Fluids[0].Strengths[0].Time.V != 3600 {
		t.Error("changing the copy changed the plan")
	}
}

func BenchmarkDecode(b *testing.B) {
	docs, err := read.File("../testdata/demo/harrow-fen-a.json")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, faults := plan.Decode(docs[0]); len(faults) > 0 {
			b.Fatal(faults)
		}
	}
}

func BenchmarkClone(b *testing.B) {
	docs, err := read.File("../testdata/demo/harrow-fen-a.json")
	if err != nil {
		b.Fatal(err)
	}
	p, _ := plan.Decode(docs[0])
	for b.Loop() {
		p.Clone()
	}
}
