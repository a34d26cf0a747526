package well

import (
	"math"
	"testing"

	"spudgate/plan/units"
)

// The worked kick tolerance of the handbook turned round: the shoe that stands
// its 47.17 bbl is the shoe of the example, 3,750 psi at 5,000 ft; one barrel
// more asks for more, and no kick at all for the mud column's own balance,
// 5,280 - 0.6 x 3,000 = 3,480 psi.
func TestShoeStrengthForAKick(t *testing.T) {
	f := published()
	at, err := f.Largest()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ volume, want float64 }{{float64(at.Volume) / bbl, 3750}, {0, 3480}} {
		p, err := f.strength(units.CubicMeters(c.volume * bbl))
		if err != nil || math.Abs(float64(p/psi)-c.want) > 0.01 {
			t.Errorf("%.2f bbl: got %.2f psi, %v, want %.2f", c.volume, float64(p/psi), err, c.want)
		}
	}
	more, err := f.strength(at.Volume + units.CubicMeters(bbl))
	if err != nil || more <= 3750*psi {
		t.Errorf("a larger kick asks for %.1f psi, %v, want more than 3,750", float64(more/psi), err)
	}
	f.Mud = 100 // lighter than the gas: no column
	if _, err := f.strength(units.CubicMeters(bbl)); err == nil {
		t.Error("a shoe without a mud column over the kick has a strength")
	}
}
