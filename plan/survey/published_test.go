package survey

import (
	"encoding/csv"
	"math"
	"os"
	"strings"
	"testing"

	"spudgate/plan/units"
)

// step lays two stations a length apart and gives the step between them, ft.
func step(t *testing.T, length, inc1, azi1, inc2, azi2 float64) (p *Path, tvd, north, east float64) {
	t.Helper()
	p = path(t, Station{0, units.Radians(inc1 * deg), units.Radians(azi1 * deg)}, Station{units.MD(length * ft), units.Radians(inc2 * deg), units.Radians(azi2 * deg)})
	pt := at(t, p, units.MD(length*ft))
	return p, float64(pt.TVD) / ft, float64(pt.North) / ft, float64(pt.East) / ft
}

// TestPublished holds the survey rows of the table of published values. Their
// source computed S7 to S9 with the radius of curvature, another curve through
// the same stations: TestRadiusOfCurvature shows that its digits are those of
// that method. On this course (9.7 degrees of turn in 95 ft) the two curves end
// 0.25 ft apart east, 0.17 ft north and 0.07 ft down, so these rows only bound
// ours. Two printed values are wrong (see the note of each row).
func TestPublished(t *testing.T) {
	a, tvd, _, _ := step(t, 100, 15, 20, 25, 45)
	turned := a.courses[0].turn
	_, z, n, e := step(t, 95, 45, 130, 52, 139)
	want := map[string]struct{ got, right, within float64 }{
		"S1": {turned, 0.22605, 0.000005},
		"S3": {ratio(turned), 1.00428, 0.000005}, // printed 1.00408
		"S6": {tvd, 94.01, 0.005},
		"S7": {n, -49.79, 0.2}, // printed -49.97
		"S8": {e, 50.66, 0.3},
		"S9": {z, 62.91, 0.1},
	}
	used := 0
	for _, row := range rows(t) {
		if !strings.HasPrefix(row[0], "T4 ") {
			continue
		}
		w, ok := want[row[1]]
		if !ok {
			t.Errorf("row %s isn't used", row[1])
			continue
		}
		used++
		if wrong := row[5] == "published value is wrong"; wrong == (printed(t, row[4]) == w.right) {
			t.Errorf("row %s prints %s, expected %v", row[1], row[4], w.right)
		}
		near(t, row[1]+" "+row[3], w.got, w.right, w.within)
	}
	t.Logf("used %d of %d rows", used, len(want))
	if used != len(want) {
		t.Errorf("used %d rows of %d", used, len(want))
	}
}

// TestRadiusOfCurvature reproduces S7 to S9 with the method of their source,
// so that the difference to ours is known to be the method's: dN = dMD
// (cos I1 - cos I2)(sin A2 - sin A1)/((I2 - I1)(A2 - A1)).
func TestRadiusOfCurvature(t *testing.T) {
	i1, a1, i2, a2 := 45*deg, 130*deg, 52*deg, 139*deg
	both := 95 * (math.Cos(i1) - math.Cos(i2)) / ((i2 - i1) * (a2 - a1))
	near(t, "S7", both*(math.Sin(a2)-math.Sin(a1)), -49.79, 0.005)
	near(t, "S8", both*(math.Cos(a1)-math.Cos(a2)), 50.66, 0.005)
	near(t, "S9", 95*(math.Sin(i2)-math.Sin(i1))/(i2-i1), 62.91, 0.005)
}

func rows(t *testing.T) [][]string {
	t.Helper()
	f, err := os.Open("../fluid/testdata/cement-pressure.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return all[1:]
}

func printed(t *testing.T, s string) float64 {
	t.Helper()
	u, err := units.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return u.Number
}
