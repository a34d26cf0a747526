package fluid

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// value is how one published row is reproduced.
type value struct {
	ours func() float64 // by the formulas, from the inputs of the row
	// why and as: how the source came to another digit, and our formulas with
	// that rounding or constant, which must give it.
	why string
	as  func() float64
	// within: the source's inputs are only known so well that the value is
	// uncertain by this much, for the reason in why.
	within float64
	// right is the corrected value of a row whose published one is wrong, within
	// its last digit.
	right string
}

func num(t testing.TB, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// half is half a unit of the last printed digit, and float noise.
func half(s string) float64 {
	digits := 0
	if _, after, found := strings.Cut(s, "."); found {
		digits = len(after)
	}
	return 0.5*math.Pow(10, -float64(digits)) + 1e-9
}

// TestPublished compares the formulas with published values, to half a unit of
// the last printed digit. Each row names its source and how it was seen.
func TestPublished(t *testing.T) {
	f, err := os.Open("testdata/cement-pressure.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	table, skip := published(), skipped
	count := map[string]int{}
	for _, row := range all[1:] {
		id := row[1]
		v, ok := table[id]
		delete(table, id)
		switch why, left := skip[id]; {
		case ok && left:
			t.Errorf("%s is both used and skipped", id)
		case strings.HasPrefix(row[0], "T4 "):
			count["of surveys"]++
		case left:
			count["skipped"]++
			t.Logf("%s skipped: %s", id, why)
		case !ok:
			t.Errorf("%s (%s) isn't used", id, row[3])
		default:
			count[compare(t, row, v)]++
		}
	}
	for id := range table {
		t.Errorf("%s isn't a row", id)
	}
	t.Logf("equal %d, explained %d, published value wrong and corrected %d, disagreeing %d; skipped %d, in package survey %d",
		count["equal"], count["explained"], count["corrected"], count["disagreeing"], count["skipped"], count["of surveys"])
}

func compare(t *testing.T, row []string, v value) string {
	t.Helper()
	id, what, printed := row[1], row[3], row[4]
	got := v.ours()
	fits := func(x float64, s string) bool { return math.Abs(x-num(t, s)) <= half(s) }
	if wrong := row[5] == "published value is wrong"; wrong != (v.right != "") {
		t.Errorf("%s: status %q, corrected value %q", id, row[5], v.right)
	}
	switch {
	case v.right != "" && fits(got, v.right) && !fits(got, printed):
		return "corrected"
	case v.right == "" && fits(got, printed):
		if v.why != "" {
			t.Errorf("%s: explained without need: %s", id, v.why)
		}
		return "equal"
	case v.as != nil && fits(v.as(), printed), math.Abs(got-num(t, printed)) <= v.within:
		t.Logf("%s %s: published %s, ours %.6g: %s", id, what, printed, got, v.why)
		return "explained"
	}
	if v.as != nil {
		t.Errorf("%s %s: published %s, explained value %.8g", id, what, printed, v.as())
	}
	t.Errorf("%s %s: published %s, corrected %q, ours %.8g", id, what, printed, v.right, got)
	return "disagreeing"
}

// skipped are rows that give nothing to compute, and why.
var skipped = map[string]string{
	"V33": "the recipe isn't in the row, nor the corrected value in its note",
	"H09": "the job isn't in the row; multiple choice",
	"F13": "the flow is that of a row that isn't in the table",
	"X6":  "the pipe isn't in the row",
	"R15": "fluid and length aren't in the row; TestSurgeAdds holds the sign",
	"J5a": "make-up torque is in package pipe",
	"J5c": "make-up torque is in package pipe",
	"J7b": "make-up torque is in package pipe",
	"J8b": "make-up torque is in package pipe",
}
