package units

import (
	"math"
	"testing"
	"unicode/utf8"
)

// FuzzParse holds that no text panics, that what is read is finite, and that a
// number written plainly is read as it stands.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"13-3/8 in", "9 5/8\"", "13⅜", "9,850 ft", "1,56", "1.48 SG", "250/3000", "-3", "1e999", "0x1p4", "12.3 ppg from ground", "½", "1/0", "#", " "} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w, err := Parse(s)
		if err != nil {
			if !utf8.ValidString(err.Error()) && utf8.ValidString(s) {
				t.Errorf("%q: the error is no text", s)
			}
			return
		}
		if math.IsNaN(w.Number) || math.IsInf(w.Number, 0) || w.HasUnit && w.Unit.Symbol == "" {
			t.Errorf("%q is read as %+v", s, w)
		}
	})
}
