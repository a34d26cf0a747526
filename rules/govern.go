package rules

import (
	"math"

	"spudgate/rules/finding"
)

// Govern marks, among findings of one measure on one subject in one sense, all
// but the strictest: every one stays visible with its numbers, the strictest
// speaks for them in the summary. A finding is never hidden behind one that is
// less grave, and one that is varied governs nothing: what a variance doesn't
// cover must still be seen. Of two equal limits a regulation's governs.
func Govern(fs []finding.Finding, books []*Book) {
	type group struct{ check, kind, subject, sense string }
	strictest := map[group]int{}
	of := func(f *finding.Finding) group { return group{f.Check, f.Kind, f.Subject, f.Sense} }
	for i := range fs {
		f := &fs[i]
		if !governs(f) {
			continue
		}
		if j, ok := strictest[of(f)]; !ok || stricter(f, &fs[j], books) {
			strictest[of(f)] = i
		}
	}
	for i := range fs {
		f := &fs[i]
		j, ok := strictest[of(f)]
		if !ok || i == j || !governs(f) || fs[j].Grade.Rank() > f.Grade.Rank() {
			continue
		}
		f.Governed = fs[j].Key
		f.Reason = joinReason(f.Reason, fs[j].Book+"/"+fs[j].Requirement+" is as strict or stricter and governs")
	}
}

// governs reports whether a finding can stand for others: judged against a
// number.
func governs(f *finding.Finding) bool {
	return (f.Verdict == finding.Met || f.Verdict == finding.NotMet) && f.Limit != nil && f.Limit.Quantity != nil && Sense(f.Sense) != Within
}

// stricter reports whether a asks more than b.
func stricter(a, b *finding.Finding, books []*Book) bool {
	x, y := a.Limit.Quantity.SI, b.Limit.Quantity.SI
	if math.Abs(x-y) <= tolerance*math.Max(math.Abs(x), math.Abs(y)) {
		if a.Grade.Rank() != b.Grade.Rank() {
			return a.Grade.Rank() < b.Grade.Rank()
		}
		return regulation(a.Book, books) && !regulation(b.Book, books)
	}
	if Sense(a.Sense) == AtMost || Sense(a.Sense) == LessThan {
		return x < y
	}
	return x > y
}

func regulation(id string, books []*Book) bool {
	for _, b := range books {
		if b.ID == id {
			return b.Regulation
		}
	}
	return false
}
