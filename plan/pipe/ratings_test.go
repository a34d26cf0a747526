package pipe

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"spudgate/plan/units"
)

// table reads a test table as one map a row.
func table(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, c := range cells {
			row[all[0][i]] = c
		}
		out = append(out, row)
	}
	return out
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func ppf(x float64) units.KgPerM { return units.KgPerM(x * units.Pound / units.Foot) }

// audit counts how a quantity compares with the printed tables.
type audit struct {
	t                             *testing.T
	reasons                       map[string]map[string]string
	used                          map[string]bool
	equal, explained, disagreeing map[string]int
}

func (a *audit) compare(row map[string]string, quantity, printed string, got, exact, step float64) {
	if printed == "" {
		return
	}
	want := number(a.t, printed)
	if math.Abs(got-want) < 1e-6*want {
		a.equal[quantity]++
		return
	}
	key := rowKey(row) + "," + quantity
	why, ok := a.reasons[key]
	switch {
	case !ok:
		a.disagreeing[quantity]++
		a.t.Errorf("%s: printed %s, ours %.6g (exact %.8g); %s, %s", key, printed, got, exact, row["confidence"], row["note"])
		return
	case why["kind"] == "unrounded" && math.Abs(rounding{step, ""}.halfUp(exact)-want) > 1e-6*want:
		a.t.Errorf("%s: explained by D/t unrounded, but that gives %.8g against %s", key, exact, printed)
	case why["kind"] == "tie" && math.Abs(math.Abs(exact-want)-step/2) > 1e-6*step:
		a.t.Errorf("%s: explained by a tie, but %.8g is none", key, exact)
	}
	a.used[key] = true
	a.explained[quantity]++
}

func rowKey(row map[string]string) string {
	return strings.Join([]string{row["od_in"], row["weight_ppf"], row["grade"], row["joint_type"]}, ",")
}

// TestPrintedRatings compares every rating with the printed tables of API Bul
// 5C2 and API RP 5C1 (each row names its source and how sure it is).
func TestPrintedRatings(t *testing.T) {
	a := &audit{t, map[string]map[string]string{}, map[string]bool{}, map[string]int{}, map[string]int{}, map[string]int{}}
	for _, r := range table(t, "explained.csv") {
		a.reasons[rowKey(r)+","+r["quantity"]] = r
	}
	for _, row := range table(t, "pipe-ratings.csv") {
		a.row(row)
	}
	for key := range a.reasons {
		if !a.used[key] {
			t.Errorf("explained without need: %s", key)
		}
	}
	for _, q := range []string{"collapse", "internal", "body", "joint", "torque"} {
		t.Logf("%-9s equal %3d  explained %2d  disagreeing %d", q, a.equal[q], a.explained[q], a.disagreeing[q])
	}
}

func (a *audit) row(row map[string]string) {
	p, err := Rate(inches(number(a.t, row["od_in"])), ppf(number(a.t, row["weight_ppf"])), row["grade"], row["joint_type"], Coupling{})
	if err != nil {
		a.t.Errorf("%s: %v", rowKey(row), err)
		return
	}
	if wall := number(a.t, row["wall_in"]); math.Abs(float64(p.Size.Wall)/units.Inch-wall) > 1e-9 {
		a.t.Errorf("%s: wall %v", rowKey(row), p.Size.Wall)
	}
	const kip, ftlb = 1000 * units.Lbf, units.Foot * units.Lbf
	a.compare(row, "collapse", row["collapse_psi"], float64(p.Collapse.Published)/units.Psi, float64(p.Collapse.Exact)/units.Psi, 10)
	a.compare(row, "internal", row["internal_yield_psi"], float64(p.BodyInternal.Published)/units.Psi, float64(p.BodyInternal.Exact)/units.Psi, 10)
	a.compare(row, "body", row["body_yield_klb"], float64(p.BodyYield.Published)/kip, float64(p.BodyYield.Exact)/kip, 1)
	if row["joint_strength_klb"] != "" {
		a.compare(row, "joint", row["joint_strength_klb"], float64(p.Joint.Published)/kip, float64(p.Joint.Exact)/kip, 1)
	}
	for col, v := range map[string]units.NewtonMeters{"torque_opt_ftlb": p.Torque.Optimum, "torque_min_ftlb": p.Torque.Least, "torque_max_ftlb": p.Torque.Most} {
		a.compare(row, "torque", row[col], float64(v)/ftlb, 0, 10)
	}
}

// TestPrintedSizes compares the catalogue with the table of API Spec 5CT sizes,
// and inside diameter, drift and plain-end weight with their rules.
func TestPrintedSizes(t *testing.T) {
	rows := table(t, "casing-sizes.csv")
	if len(Sizes()) != len(rows) {
		t.Errorf("catalogue has %d sizes, the table %d", len(Sizes()), len(rows))
	}
	equal, ties, odd := 0, 0, 0
	for _, r := range rows {
		s, err := Lookup(inches(number(t, r["od_in"])), ppf(number(t, r["weight_ppf"])))
		if err != nil {
			t.Error(err)
			continue
		}
		wants := map[string]float64{
			"wall_in": float64(s.Wall), "id_in": float64(s.ID()), "coupling_od_in": float64(s.Coupling), "coupling_od_special_in": float64(s.Special),
			"drift_in": float64(s.Drift), "drift_alt_in": float64(s.DriftAlternate),
		}
		for col, v := range wants {
			want := 0.0
			if r[col] != "" {
				want = number(t, r[col])
			}
			if math.Abs(v/units.Inch-want) > 1e-9 {
				odd++
				t.Errorf("%s %s: %s printed %s, ours %.4f", r["od_in"], r["weight_ppf"], col, r[col], v/units.Inch)
				continue
			}
			equal++
		}
		// The table prints to 0.001 in what the rule gives to 1/32 in.
		if d := float64(DriftOf(s.OD, s.ID())-s.Drift) / units.Inch; math.Abs(d) > 0.0005+1e-9 {
			odd++
			t.Errorf("%s %s: drift rule is off by %.4f in", r["od_in"], r["weight_ppf"], d)
		}
		// 5-1/2 26.8 is a tie, 10.69 x 5.0 x 0.5 = 26.725, printed 26.72.
		switch off := math.Abs(float64(s.PlainEnd())/units.Pound*units.Foot - number(t, r["plain_end_ppf"])); {
		case off <= 0.005-1e-9:
			equal++
		case off <= 0.005+1e-9:
			ties++
		default:
			odd++
			t.Errorf("%s %s: plain end printed %s, off by %.4f", r["od_in"], r["weight_ppf"], r["plain_end_ppf"], off)
		}
		equal++
	}
	t.Logf("%d sizes: %d values equal, %d explained as ties, %d disagreeing", len(rows), equal, ties, odd)
	if ties != 1 {
		t.Errorf("%d ties, one is known", ties)
	}
}
