package finding

import (
	"sort"
	"strings"

	"spudgate/plan/units"
)

// Causes are the findings that hold the plan: not met before not assessed,
// gravest first, then from the top of the hole down.
func (r *Record) Causes() []*Finding {
	var out []*Finding
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Governed != "" {
			continue
		}
		if f.Holds() || (f.Verdict == NotMet && f.Grade.Rank() <= Grade(r.Outcome.HoldOn).Rank()) {
			out = append(out, f)
		}
	}
	r.Order(out)
	return out
}

// Order sorts findings as every report lists them.
func (r *Record) Order(fs []*Finding) {
	depth := map[string]int{"": -1}
	for i, l := range r.Strings {
		depth[l.Name] = i
	}
	sort.SliceStable(fs, func(i, j int) bool {
		a, b := fs[i], fs[j]
		if verdictRank[a.Verdict] != verdictRank[b.Verdict] {
			return verdictRank[a.Verdict] < verdictRank[b.Verdict]
		}
		if a.Grade.Rank() != b.Grade.Rank() {
			return a.Grade.Rank() < b.Grade.Rank()
		}
		return depth[a.String] < depth[b.String]
	})
}

var verdictRank = map[Verdict]int{NotMet: 0, NotAssessed: 1, Varied: 2, Met: 3, NotApplicable: 4}

// Mend is the remedy in the reader's units: {measure}, {limit} and {short}
// (how much is wanting) are filled in.
func (f *Finding) Mend(s units.System) string {
	short := ""
	if f.Measure != nil && f.Limit != nil && f.Measure.Quantity != nil && f.Limit.Quantity != nil {
		q := *f.Measure.Quantity
		q.SI -= f.Limit.Quantity.SI
		if q.SI < 0 {
			q.SI = -q.SI
		}
		short = q.Show(s)
	}
	return strings.NewReplacer("{measure}", f.Measure.Show(s), "{limit}", f.Limit.Show(s), "{short}", short).Replace(f.Remedy)
}

// MarginText writes what is to spare as a signed per cent of the limit; never
// rounded to zero where something is wanting.
func MarginText(m *float64) string {
	if m == nil {
		return ""
	}
	if *m < -9.99 || *m > 9.99 {
		return map[bool]string{true: "< -999 %", false: "> 999 %"}[*m < 0]
	}
	t := units.Decimal(*m*100, 0)
	if *m < 0 && t == "0" {
		return "-<1 %"
	}
	return t + " %"
}
