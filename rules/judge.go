package rules

import (
	"fmt"
	"math"
	"strings"

	"spudgate/plan/expr"
	"spudgate/rules/finding"
)

// tolerance is the relative tolerance of every comparison: unit noise decides
// nothing.
const tolerance = 1e-9

// judged is what a requirement gives on one subject, before it's dressed as a
// finding.
type judged struct {
	verdict finding.Verdict
	limit   *expr.Value
	margin  *float64
	lacks   []expr.Lack
	reason  string
	failed  bool
}

// judge holds a measure against a requirement. It is pure: the same function
// judges plans and the cases inside requirements. lookup gives the values of
// names in when and limit; measure is only called when the requirement
// applies.
func (r *Requirement) judge(lookup func(string) expr.Result, measure func() Measure) judged {
	if r.when != nil {
		applies, err := r.when.Eval(lookup)
		switch {
		case err != nil:
			return judged{verdict: finding.NotAssessed, reason: "whether it applies can't be worked out: " + err.Error()}
		case !applies.Known:
			return judged{verdict: finding.NotAssessed, lacks: applies.Lacks, reason: "whether it applies isn't known"}
		case !applies.Value.Truth:
			return judged{verdict: finding.NotApplicable, reason: "applies when " + r.When}
		}
	}
	m := measure()
	switch {
	case m.Err != nil:
		return judged{verdict: finding.NotAssessed, reason: m.Err.Error(), failed: m.failed()}
	case m.Absent != "":
		return judged{verdict: finding.NotApplicable, reason: m.Absent}
	case m.Unloaded != "":
		return judged{verdict: finding.Met, reason: m.Unloaded}
	case !m.Result.Known:
		return judged{verdict: finding.NotAssessed, lacks: m.Result.Lacks, reason: m.Note}
	}
	j := r.hold(m.Result.Value, lookup)
	if len(m.Gaps) > 0 && j.verdict == finding.Met {
		j.verdict, j.lacks = finding.NotAssessed, m.Gaps
	}
	if j.reason == "" {
		j.reason = m.Note
	}
	return j
}

// hold compares a known measure with the limit.
func (r *Requirement) hold(v expr.Value, lookup func(string) expr.Result) judged {
	if r.Is == IsTrue || r.Is == IsFalse {
		return judged{verdict: verdict(v.Truth == (r.Is == IsTrue))}
	}
	limit, j := evalLimit(r.limit, lookup)
	if limit == nil {
		return j
	}
	if v.Kind == expr.Text {
		return judged{verdict: verdict(v.Text == limit.Text), limit: limit}
	}
	ok, margin := compare(r.Is, v.SI, limit.SI)
	if r.Is == Within {
		upper, ju := evalLimit(r.upper, lookup)
		if upper == nil {
			return ju
		}
		lowOK, lowSpare := compare(AtLeast, v.SI, limit.SI)
		highOK, highSpare := compare(AtMost, v.SI, upper.SI)
		ok, margin = lowOK && highOK, math.Min(lowSpare, highSpare)
		if !highOK || (lowOK && highSpare < lowSpare) {
			limit = upper
		}
	}
	j = judged{verdict: verdict(ok), limit: limit}
	if !math.IsNaN(margin) {
		j.margin = &margin
	}
	return j
}

func evalLimit(e *expr.Expr, lookup func(string) expr.Result) (*expr.Value, judged) {
	l, err := e.Eval(lookup)
	if err != nil {
		return nil, judged{verdict: finding.NotAssessed, reason: "the limit can't be worked out: " + err.Error()}
	}
	if !l.Known {
		return nil, judged{verdict: finding.NotAssessed, lacks: l.Lacks, reason: "the limit isn't known"}
	}
	return &l.Value, judged{}
}

func verdict(ok bool) finding.Verdict {
	if ok {
		return finding.Met
	}
	return finding.NotMet
}

// compare is the one comparison of the tool: whether x stands to limit as the
// sense asks, and what is to spare as a part of the limit (NaN for a limit of
// zero).
func compare(is Sense, x, limit float64) (bool, float64) {
	slack := tolerance * math.Max(math.Abs(x), math.Abs(limit))
	spare := x - limit
	if is == AtMost || is == LessThan {
		spare = -spare
	}
	ok := spare >= -slack
	if is == MoreThan || is == LessThan {
		ok = spare > slack
	}
	if limit == 0 {
		return ok, math.NaN()
	}
	return ok, spare / math.Abs(limit)
}

// errPanic is the error of a check that panicked: a fault of the tool.
type errPanic struct{ what string }

func (e errPanic) Error() string { return "the check failed to run: " + e.what }

func (m Measure) failed() bool {
	_, ok := m.Err.(errPanic)
	return ok
}

// Try judges one of the requirement's own cases.
func (r *Requirement) Try(c Case, parse func(name, text string) (expr.Value, error)) (finding.Verdict, error) {
	given := map[string]expr.Value{}
	for name, text := range c.Given {
		v, err := parse(name, text)
		if err != nil {
			return "", fmt.Errorf("%s: %w", name, err)
		}
		given[name] = v
	}
	for name := range given {
		if name != r.Check && !r.uses(name) {
			return "", fmt.Errorf("%s is given and neither the measure nor in the expressions", name)
		}
	}
	lookup := func(name string) expr.Result {
		if v, ok := given[name]; ok {
			return expr.Known(v)
		}
		return expr.Unknown(expr.Lack{Input: name})
	}
	return r.judge(lookup, func() Measure { return Measure{Result: lookup(r.Check)} }).verdict, nil
}

// Names are the names the requirement's expressions use.
func (r *Requirement) Names() []string {
	var out []string
	for _, e := range []*expr.Expr{r.when, r.limit, r.upper} {
		if e != nil {
			out = append(out, e.Names()...)
		}
	}
	return out
}

func (r *Requirement) uses(name string) bool {
	for _, n := range r.Names() {
		if n == name || strings.EqualFold(n, name) {
			return true
		}
	}
	return false
}
