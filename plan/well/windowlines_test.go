package well_test

import (
	"errors"
	"math"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// TestPressureLines: each hole has its line, and what can't be worked out says
// why. Hand values: fracture 12 ppg at 2,000 ft less 10 ppg of mud; 10.5 ppg of
// mud less 9.5 ppg of pore pressure at 8,000 ft.
func TestPressureLines(t *testing.T) {
	w := checktest.Well(t, `"units":"field","well":{"name":"A","class":"development","vertical":true},
	 "sections":[{"name":"one","bit":17.5,"from":0,"to":2000,"mud_density":9,"pressure_control":"diverter"},
	  {"name":"two","bit":12.25,"from":2000,"to":8000,"mud_density":10.5,"pressure_control":"bop_surface"}],
	 "strings":[{"name":"surface","role":"surface","section":"one","top":0,"shoe":2000,"segments":[{"to":2000,"od":13.375,"weight":54.5,"grade":"J55","connection":"BTC"}]}],
	 "formations":[{"name":"Brant sand","top":7000,"contents":"gas"}],
	 "pressures":[{"depth":0,"pore":"8.6 ppg","fracture":"12 ppg"},{"depth":8000,"pore":"9.5 ppg","fracture":"12 ppg"}]`)
	lines := w.PressureLines()
	if len(lines) != 2 {
		t.Fatalf("got %d lines, want 2", len(lines))
	}
	const ppg = 119.826427316897
	two := lines[1]
	if two.FractureErr != nil || math.Abs(float64(two.Fracture.Spare)-1.5*ppg) > 1e-6 {
		t.Errorf("fracture over mud: got %v, %v; want 1.5 ppg", two.Fracture.Spare, two.FractureErr)
	}
	if two.PoreErr != nil || math.Abs(float64(two.Pore.Spare)-1*ppg) > 1e-6 || math.Abs(float64(two.Pore.At)-8000*0.3048) > 1e-6 {
		t.Errorf("mud over pore: got %v at %v, %v; want 1 ppg at 8,000 ft", two.Pore.Spare, two.Pore.At, two.PoreErr)
	}
	if two.DrillingErr != nil || two.KickErr != nil || two.MudErr != nil || two.SpanErr != nil {
		t.Errorf("second hole: %+v", two)
	}
	var missing well.Missing
	if !errors.As(two.ECDErr, &missing) {
		t.Errorf("no circulating density: error %v, want a missing input", two.ECDErr)
	}
	var absent well.Absent
	if !errors.As(lines[0].FractureErr, &absent) || !errors.As(lines[0].KickErr, &absent) {
		t.Errorf("first hole: %v, %v; want reasons", lines[0].FractureErr, lines[0].KickErr)
	}
}
