package survey

import (
	"math"
	"testing"

	"spudgate/plan/units"
)

func TestPairs(t *testing.T) {
	// Given out of order, one of them twice; the toe of the well turns up.
	m, err := NewPairs([]Pair{{3000, 2000}, {1000, 1000}, {1000.2, 1000.1}, {4000, 1900}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		md  units.MD
		tvd float64
	}{{0, 0}, {500, 500}, {1000, 1000}, {2000, 1500}, {3000, 2000}, {3500, 1950}, {4000, 1900}, {4000.3, 1900}} {
		z, err := m.TVD(c.md)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "TVD", float64(z), c.tvd, 1e-9)
	}
	for _, md := range []units.MD{-1, 4000.4, units.MD(math.NaN())} {
		if _, err := m.TVD(md); err == nil {
			t.Errorf("TVD(%v) gave no error", md)
		}
	}
	all := m.MDs(1950)
	if len(all) != 2 {
		t.Fatalf("crossings %v", all)
	}
	near(t, "going down", float64(all[0]), 2900, 1e-9)
	near(t, "going up", float64(all[1]), 3500, 1e-9)
	for z, n := range map[units.TVD]int{2000: 1, 2001: 0, 1000: 1, 1900: 2, 0: 1, -1: 0} {
		if got := m.MDs(z); len(got) != n {
			t.Errorf("%v is crossed at %v, want %d", z, got, n)
		}
	}
	if _, known := m.Inclination(500); known {
		t.Error("pairs know no inclination")
	}
	if from, to := m.Range(); from != 0 || to != 4000 {
		t.Errorf("range %v to %v", from, to)
	}
}

func TestPairsRefused(t *testing.T) {
	for what, list := range map[string][]Pair{
		"nothing":      {},
		"at zero":      {{0, 0}},
		"TVD over MD":  {{1000, 1000.51}},
		"too steep":    {{1000, 900}, {1100, 1000.51}},
		"too steep up": {{1000, 900}, {1100, 799}},
		"same depth":   {{1000, 900}, {1000, 901}},
		"negative":     {{1000, -1}},
		"infinite":     {{units.MD(math.Inf(1)), 5}},
	} {
		if _, err := NewPairs(list); err == nil {
			t.Errorf("%s was accepted", what)
		}
	}
	for what, list := range map[string][]Pair{
		"rounded TVD":  {{1000, 1000.5}},
		"rounded step": {{1000, 900}, {1100, 1000.5}},
	} {
		if _, err := NewPairs(list); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
}
