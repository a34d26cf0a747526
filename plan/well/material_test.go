package well

import (
	"testing"

	"spudgate/plan/pipe"
	"spudgate/plan/units"
)

// TestSteels holds that the table is whole: every grade of the catalogue once,
// a temperature in both scales exactly where one is needed, and the two within
// the rounding of the standard (1 K).
func TestSteels(t *testing.T) {
	if n, want := len(materialRows())-1, len(pipe.Grades()); n != want {
		t.Errorf("%d rows for %d grades", n, want)
	}
	for _, g := range pipe.Grades() {
		s, ok := SteelOf(g)
		if !ok {
			t.Errorf("%s isn't in the table", g.Name)
			continue
		}
		f, inF := s.Least(units.Field)
		c, inC := s.Least(units.Metric)
		if inF != (s.Sour == SourFrom) || inC != inF || f-c > 1 || c-f > 1 || s.Sure == "" {
			t.Errorf("%s: %s, %v K and %v K, sure %q", g.Name, s.Sour, f, c, s.Sure)
		}
		switch s.Sour {
		case SourAny, SourFrom, SourAsk, SourPart3:
		default:
			t.Errorf("%s: unknown service %q", g.Name, s.Sour)
		}
	}
}

// TestMadeWith: H40 has short round thread only, others have all.
func TestMadeWith(t *testing.T) {
	for _, c := range []struct {
		grade string
		conn  pipe.Connection
		want  bool
	}{{"H40", pipe.STC, true}, {"H40", pipe.LTC, false}, {"H40", pipe.BTC, false}, {"J55", pipe.LTC, true}} {
		g, err := pipe.ParseGrade(c.grade)
		if err != nil {
			t.Fatal(err)
		}
		if s, _ := SteelOf(g); s.MadeWith(c.conn) != c.want {
			t.Errorf("%s with %s: %v", c.grade, c.conn, !c.want)
		}
	}
}
