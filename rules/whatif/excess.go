// Package whatif changes a copy of a plan and judges it again: how far an input
// may move before a requirement stops being met.
package whatif

import (
	"strings"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/finding"
)

// MostExcess is the largest excess looked at, in per cent: past it a hole is no
// longer the one planned (up to 400 % is seen riserless, common practice).
const MostExcess = 400

// Bearing is how much excess of its open hole a requirement on cement bears:
// it is met with the slurry planned up to Most, in whole per cent, and not at
// the next.
type Bearing struct {
	String  string
	Finding *finding.Finding
	Planned float64 // excess the volumes count on, a part
	Stated  bool    // the plan states it; else it is the basis's
	Never   bool    // not met in a gauge hole already
	Most    float64 // a part
}

// Judge makes an engine for a plan, as the audit's own was made.
type Judge func(*plan.Plan) *rules.Engine

// Excess finds, for every judged requirement that stands on the cement a job
// places, the excess at which it stops being met. Tops follow from the volumes
// pumped, whatever top is stated. Requirements that don't stand on the excess
// are left out, and those of strings whose job has no volumes.
func Excess(w *well.Well, judge Judge, books []*rules.Book, fs []finding.Finding) []Bearing {
	p := w.Plan
	var out []Bearing
	for str := range p.Strings {
		at := holes{plan: p, str: str, judge: judge, made: map[variant]*rules.Engine{}}
		if !at.pumped() {
			continue
		}
		planned, stated := w.PlannedExcess(str)
		for i := range fs {
			f := &fs[i]
			if f.String != p.Strings[str].Name.V || !onCement(f) {
				continue
			}
			if r := requirement(books, f); r != nil {
				if b, ok := at.bearing(r, f); ok {
					b.Planned, b.Stated = float64(planned), stated
					out = append(out, b)
				}
			}
		}
	}
	return out
}

// onCement reports whether a finding is of the kind whose measure may stand on
// where cement is.
func onCement(f *finding.Finding) bool {
	family, _, _ := strings.Cut(f.Check, ".")
	return (family == "cement" || family == "coverage") && !f.NotYetDue && f.Limit != nil && f.Verdict != finding.NotApplicable && f.Check != "cement.excess"
}

func requirement(books []*rules.Book, f *finding.Finding) *rules.Requirement {
	for _, b := range books {
		for i := range b.Requirements {
			if r := &b.Requirements[i]; b.ID == f.Book && r.ID == f.Requirement {
				return r
			}
		}
	}
	return nil
}

// holes are copies of a plan that differ in the excess of one string's hole.
type holes struct {
	plan  *plan.Plan
	str   int
	judge Judge
	made  map[variant]*rules.Engine
}

// variant is one changed copy: an excess in per cent, and whether the stated
// tops stay, for a requirement that holds volumes against them.
type variant struct {
	percent int
	stated  bool
}

// pumped reports whether the string's job has slurries whose tops volumes tell.
func (h *holes) pumped() bool {
	for i := range h.plan.Strings[h.str].Stages {
		st := &h.plan.Strings[h.str].Stages[i]
		for k := range st.Fluids {
			if f := &st.Fluids[k]; f.Volume.Known() || f.Sacks.Known() && f.Yield.Known() {
				return true
			}
		}
	}
	return false
}

// with is the engine for a changed copy; without the stated tops volumes tell
// them.
func (h *holes) with(v variant) *rules.Engine {
	if e := h.made[v]; e != nil {
		return e
	}
	p := h.plan.Clone()
	s := &p.Strings[h.str]
	if !v.stated {
		s.TopOfCement = plan.Val[units.MD]{}
	}
	x := units.Fraction(float64(v.percent) / 100)
	for i := range s.Stages {
		st := &s.Stages[i]
		st.Excess = plan.Val[units.Fraction]{V: x, Ref: known(st.Excess.Ref, st.Ref)}
		for k := range st.Fluids {
			if !v.stated {
				st.Fluids[k].Top = plan.Val[units.MD]{}
			}
		}
	}
	h.made[v] = h.judge(p)
	return h.made[v]
}

func known(a, b place.Ref) place.Ref {
	if a != 0 {
		return a
	}
	return b
}

// verdict judges the requirement on the finding's subject at an excess.
func (h *holes) verdict(r *rules.Requirement, f *finding.Finding, percent int) finding.Verdict {
	e := h.with(variant{percent, strings.HasSuffix(f.Check, "top_short")})
	for _, s := range e.Subjects(r.Subject) {
		if s.Name == f.Subject {
			return e.One(r, s).Verdict
		}
	}
	return finding.NotApplicable
}

// bearing halves between a gauge hole and MostExcess until it knows the last
// whole per cent at which the requirement is met. What the excess doesn't turn,
// and what isn't judged at both ends, bears nothing.
func (h *holes) bearing(r *rules.Requirement, f *finding.Finding) (Bearing, bool) {
	b := Bearing{String: f.String, Finding: f}
	low, high := h.verdict(r, f, 0), h.verdict(r, f, MostExcess)
	switch {
	case low == finding.Met && high == finding.NotMet:
	case low == finding.NotMet && high == finding.NotMet && strings.Contains(f.Check, "cover"):
		b.Never = true
		return b, true
	default:
		return b, false
	}
	met, not := 0, MostExcess
	for not-met > 1 {
		mid := (met + not) / 2
		if h.verdict(r, f, mid) == finding.Met {
			met = mid
		} else {
			not = mid
		}
	}
	b.Most = float64(met) / 100
	return b, true
}
