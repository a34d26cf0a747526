package finding

import (
	"math"

	"spudgate/plan/units"
)

// mostApart is how many decimals more a number may get to tell it from another.
const mostApart = 6

// Decimals is how many decimals it takes to tell two numbers of one unit apart,
// decimals at least: rounding never makes a measure look like its limit. Numbers
// that differ by unit noise only, and numbers no reasonable count tells apart,
// keep their decimals.
func Decimals(x, y float64, decimals int) int {
	if math.Abs(x-y) <= 1e-9*math.Max(math.Abs(x), math.Abs(y)) {
		return decimals
	}
	for d := decimals; d <= decimals+mostApart; d++ {
		if units.Decimal(x, d) != units.Decimal(y, d) {
			return d
		}
	}
	return decimals
}

// Apart shows a measure and its limit with as many decimals as it takes to tell
// them apart.
func Apart(m, l *Value, s units.System) (string, string) {
	got, want := m.Show(s), l.Show(s)
	if got != want || m == nil || l == nil || m.Quantity == nil || l.Quantity == nil {
		return got, want
	}
	u, dec := units.Best(m.Quantity.SI, m.Quantity.Dim, s, m.Quantity.Small)
	x, y := u.FromSI(m.Quantity.SI), u.FromSI(l.Quantity.SI)
	d := Decimals(x, y, dec)
	if d == dec {
		return got, want
	}
	unit := ""
	if u.Symbol != "1" {
		unit = " " + u.Symbol
	}
	return units.Decimal(x, d) + unit, units.Decimal(y, d) + unit
}
