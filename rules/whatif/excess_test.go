package whatif_test

import (
	"fmt"
	"strings"
	"testing"

	"spudgate/plan"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
	"spudgate/rules/checks"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
	"spudgate/rules/whatif"
)

// job is a vertical 12-1/4 in hole with 9-5/8 in 47 lb/ft to 10,000 ft, float
// collar at 9,920 ft, cemented with one slurry of 1.15 ft3/sk.
const job = `"units":"field","well":{"name":"C","setting":"onshore","purpose":"oil","class":"development","vertical":true},
 "sections":[{"name":"one","bit":12.25,"from":0,"to":10000,"mud_density":10,"excess":"25 %%"},{"name":"two","bit":8.5,"from":10000,"to":12000,"mud_density":11}],
 "strings":[
  {"name":"casing","role":"intermediate","section":"one","top":0,"shoe":10000,"top_of_cement":%s,"float_collar":9920,
   "segments":[{"od":9.625,"weight":47,"grade":"L80","connection":"BTC"}],
   "stages":[{"name":"primary","kind":"primary","fluids":[{"name":"tail","kind":"tail","density":15.8,"yield":1.15,"sacks":%d}]}]}]`

// The annulus is 0.055783 bbl/ft in gauge, the shoe track 80 ft of 0.073206
// bbl/ft, 5.86 bbl. 1,085 sacks are 222.24 bbl: 216.38 bbl go up; 30 ft short of
// 7,000 ft, 2,970 ft hold 165.67 bbl, so the hole may be 30.6 % larger. 200
// sacks are 40.97 bbl: 35.11 bbl go up, 500 ft over the shoe hold 27.89 bbl: 25.9 %.
// 150 sacks leave 24.87 bbl, which don't fill 500 ft of a gauge hole.
func TestExcess(t *testing.T) {
	for _, c := range []struct {
		top   string
		sacks int
		of    string
		most  float64
		never bool
	}{
		{"7000", 1085, "good-practice/top-by-volume", 0.30, false},
		{"9500", 200, "good-practice/cover-shoe", 0.25, false},
		{"9500", 150, "good-practice/cover-shoe", 0, true},
	} {
		found := false
		for _, b := range bearings(t, fmt.Sprintf(job, c.top, c.sacks)) {
			if b.Finding.Book+"/"+b.Finding.Requirement != c.of {
				continue
			}
			found = true
			if b.Most != c.most || b.Never != c.never || b.Planned != 0.25 {
				t.Errorf("%d sacks: %s bears %v (never %v) of %v planned, want %v (%v)", c.sacks, c.of, b.Most, b.Never, b.Planned, c.most, c.never)
			}
		}
		if !found {
			t.Errorf("%d sacks: nothing is said of %s", c.sacks, c.of)
		}
	}
}

// Where the plan states no excess its volumes count on the basis's, and the
// table says so.
func TestExcessAssumed(t *testing.T) {
	for _, b := range bearings(t, strings.Replace(fmt.Sprintf(job, "7000", 1085), `,"excess":"25 %"`, "", 1)) {
		if b.Stated || b.Planned != 0.25 { // the default basis's, intermediate
			t.Errorf("%s: planned %v, stated %v; want the basis's 0.25", b.Finding.Key, b.Planned, b.Stated)
		}
	}
}

// A job without volumes bears nothing that can be told.
func TestExcessNeedsVolumes(t *testing.T) {
	text := fmt.Sprintf(job, "9500", 200)
	p := checktest.Plan(t, text)
	p.Strings[0].Stages[0].Fluids[0].Sacks.Ref = 0
	if got := of(t, p); len(got) > 0 {
		t.Errorf("got %d bearings of a job without volumes", len(got))
	}
}

func bearings(t *testing.T, text string) []whatif.Bearing { return of(t, checktest.Plan(t, text)) }

func of(t *testing.T, p *plan.Plan) []whatif.Bearing {
	t.Helper()
	b, err := basis.Default(p.System)
	if err != nil {
		t.Fatal(err)
	}
	g, err := rules.NewRegistry(checks.All())
	if err != nil {
		t.Fatal(err)
	}
	book, err := books.Builtin("good-practice", g, b.TypeOf)
	if err != nil {
		t.Fatal(err)
	}
	judge := func(p *plan.Plan) *rules.Engine {
		return rules.New(p, well.New(p, b.Assumptions()), g, b, rules.Options{Stage: finding.Programme, AsOf: "2026-11-25"})
	}
	list := []*rules.Book{book}
	return whatif.Excess(well.New(p, b.Assumptions()), judge, list, judge(p).All(list))
}
