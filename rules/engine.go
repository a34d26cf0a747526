package rules

import (
	"fmt"
	"strings"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/basis"
	"spudgate/rules/finding"
)

// Options are what an audit is asked to do.
type Options struct {
	Stage  finding.Stage
	AsOf   string // yyyy-mm-dd
	HoldOn finding.Grade
}

// Engine judges one plan. It works measures out once and shares them between
// requirements.
type Engine struct {
	plan     *plan.Plan
	well     *well.Well
	checks   *Registry
	basis    *basis.Basis
	options  Options
	measures map[measureKey]Measure
	subjects map[Kind][]Subject
}

type measureKey struct{ check, subject string }

// New makes an engine for one plan.
func New(p *plan.Plan, w *well.Well, checks *Registry, b *basis.Basis, o Options) *Engine {
	return &Engine{plan: p, well: w, checks: checks, basis: b, options: o,
		measures: map[measureKey]Measure{}, subjects: map[Kind][]Subject{}}
}

// All judges every requirement of the books on every subject, in book order,
// then requirement order, then plan order.
func (e *Engine) All(books []*Book) []finding.Finding {
	var out []finding.Finding
	for _, b := range books {
		for i := range b.Requirements {
			r := &b.Requirements[i]
			for _, s := range e.Subjects(r.Subject) {
				if r.concerns(s, e.Subjects) {
					out = append(out, e.One(r, s))
				}
			}
		}
	}
	return out
}

// Subjects lists the plan's subjects of a kind.
func (e *Engine) Subjects(k Kind) []Subject {
	if s, ok := e.subjects[k]; ok {
		return s
	}
	s := Subjects(e.plan, k, e.well.ZonesOf)
	for i := range s {
		if k == Claim {
			s[i].Look = e.look(s[i])
		}
	}
	e.subjects[k] = s
	return s
}

// One judges one requirement on one subject and works out only what that pair
// needs.
func (e *Engine) One(r *Requirement, s Subject) finding.Finding {
	f := finding.Finding{
		Key: r.Key() + "@" + s.Name, Book: r.book.ID, Requirement: r.ID, Kind: string(s.Kind), Subject: s.Name,
		Title: r.Title, Grade: r.Grade, Sure: r.Sure, Stage: r.Stage, Cite: r.Cite(), Text: r.Text, Check: r.Check, Sense: string(r.Is),
	}
	if s.String >= 0 {
		f.String = e.plan.Strings[s.String].Name.V
	}
	if why := e.outOfForce(r); why != "" {
		f.Verdict, f.Reason = finding.NotApplicable, why
		return f
	}
	if r.Stage.Rank() > e.options.Stage.Rank() {
		f.Verdict, f.NotYetDue = finding.NotAssessed, true
		f.Reason = "not yet due: asked from stage " + strings.ReplaceAll(string(r.Stage), "_", "-")
		return f
	}
	var m Measure
	measured, nothing := false, ""
	j := r.judge(e.lookup(s, &nothing), func() Measure { m = e.measure(r.check, s); measured = true; return m })
	if j.verdict == finding.NotAssessed && len(j.lacks) == 0 && nothing != "" && !j.failed && m.Err == nil {
		// What the limit stands on isn't there: nothing to hold the measure to.
		j.verdict, j.reason = finding.NotApplicable, nothing
	}
	f.Verdict, f.Reason, f.Margin, f.Failed = j.verdict, j.reason, j.margin, j.failed
	for _, l := range j.lacks {
		f.Missing = append(f.Missing, finding.Missing{Input: l.Input, Place: e.plan.Place(l.Ref)})
	}
	if j.limit != nil {
		f.Limit, f.LimitSource = finding.ValueOf(*j.limit, r.check.Small), r.Limit
	}
	if measured {
		e.dress(&f, m, r)
	}
	if len(f.Places) == 0 {
		f.Places = e.places([]place.Ref{s.Ref})
	}
	if f.Verdict == finding.NotMet {
		f.Remedy = r.Remedy
	}
	return f
}

// dress copies what the measure knows onto the finding.
func (e *Engine) dress(f *finding.Finding, m Measure, r *Requirement) {
	if m.Result.Known && m.Absent == "" && m.Unloaded == "" && m.Err == nil {
		f.Measure = finding.ValueOf(m.Result.Value, r.check.Small)
	}
	f.At = recordAt(m.At)
	f.Places = e.places(m.Refs)
	for _, w := range m.Working {
		f.Working = append(f.Working, e.working(w))
	}
}

func (e *Engine) places(refs []place.Ref) []place.Place {
	var out []place.Place
	seen := map[place.Ref]bool{}
	for _, r := range refs {
		if r != 0 && !seen[r] {
			seen[r] = true
			p := e.plan.Place(r)
			p.File = ""
			out = append(out, p)
		}
	}
	return out
}

// recordAt copies a place in the well; nil where there's none.
func recordAt(at well.At) *finding.At {
	if !at.MD.Known() && !at.TVD.Known() {
		return nil
	}
	out := &finding.At{Why: at.Why}
	if md, ok := at.MD.Get(); ok {
		out.MD = &finding.Quantity{SI: float64(md), Dim: units.MDLength}
	}
	if z, ok := at.TVD.Get(); ok {
		out.TVD = &finding.Quantity{SI: float64(z), Dim: units.TVDLength}
	}
	return out
}

func (e *Engine) working(w expr.Working) finding.Working {
	out := finding.Working{Formula: w.Formula, Source: w.Source, Result: e.input(w.Result)}
	for _, in := range w.Inputs {
		out.Inputs = append(out.Inputs, e.input(in))
	}
	return out
}

func (e *Engine) input(in expr.Input) finding.Input {
	out := finding.Input{Name: in.Name, Note: in.Note}
	if in.Text != "" {
		out.Value.Text = in.Text
	} else {
		out.Value.Quantity = &finding.Quantity{SI: in.SI, Dim: in.Dim, Small: in.Small}
	}
	if in.Ref != 0 {
		out.Place = e.plan.Place(in.Ref)
		out.Place.File = ""
	}
	return out
}

// lookup gives the value of a name for a subject: a basis field, or a measure
// of the subject or of what it belongs to. Where a measure finds nothing to
// measure, nothing is set to why.
func (e *Engine) lookup(s Subject, nothing *string) func(string) expr.Result {
	return func(name string) expr.Result {
		if v, ok := e.basis.Value(name, e.roleOf(s)); ok {
			return v
		}
		c := e.checks.Find(name)
		if c == nil {
			return expr.Unknown(expr.Lack{Input: name})
		}
		t := s.As(c.About)
		if c.About != s.Kind {
			if t = e.ancestor(s, c.About); t.Kind == "" {
				return expr.Unknown(expr.Lack{Input: fmt.Sprintf("the %s of %s", c.About, s.Name)})
			}
		}
		m := e.measure(c, t)
		switch {
		case m.Err != nil:
			return expr.Unknown(expr.Lack{Input: m.Err.Error(), Ref: t.Ref})
		case m.Absent != "" || m.Unloaded != "":
			*nothing = m.Absent + m.Unloaded
			return expr.Unknown()
		}
		return m.Result
	}
}

// ancestor finds the subject of kind k that s belongs to.
func (e *Engine) ancestor(s Subject, k Kind) Subject {
	for _, c := range e.Subjects(k) {
		switch k {
		case Well:
			return c
		case String:
			if c.String == s.String && s.String >= 0 {
				return c
			}
		case Stage:
			if c.String == s.String && c.Stage == s.Stage {
				return c
			}
		case Section:
			if c.Section == s.Section && s.Section >= 0 {
				return c
			}
		}
	}
	return Subject{}
}

// look is how a claim reads the tool's own measures of its string.
func (e *Engine) look(claim Subject) func(string) []Named {
	return func(name string) []Named {
		c := e.checks.Find(name)
		if c == nil || c.About == Claim {
			return nil
		}
		var out []Named
		for _, s := range e.Subjects(c.About) {
			if s.String == claim.String || s.String < 0 {
				out = append(out, Named{s.Name, c, e.measure(c, s)})
			}
		}
		return out
	}
}

func (e *Engine) roleOf(s Subject) string {
	if s.String >= 0 {
		return e.plan.Strings[s.String].Role.V
	}
	return ""
}

// measure runs a check once for a subject. A panic inside a check is a fault
// of the tool for that check only, never a pass.
func (e *Engine) measure(c *Check, s Subject) (m Measure) {
	key := measureKey{c.Name, s.Name}
	if m, ok := e.measures[key]; ok {
		return m
	}
	defer func() {
		if p := recover(); p != nil {
			m = Measure{Err: errPanic{fmt.Sprint(p)}, Result: expr.Unknown()}
		}
		e.measures[key] = m
	}()
	return c.Measure(e.well, s)
}

// outOfForce says why a requirement isn't in force on the planned spud date.
func (e *Engine) outOfForce(r *Requirement) string {
	date, planned := e.plan.Well.SpudDate.Or(e.options.AsOf), "spud is planned for "
	if !e.plan.Well.SpudDate.Known() {
		planned = "no spud date is given, the audit is of "
	}
	from, until := later(r.From, r.book.From), earlier(r.Until, r.book.Until)
	switch {
	case from != "" && date < from:
		return "in force from " + from + ", " + planned + date
	case until != "" && date > until:
		return "in force until " + until + ", " + planned + date
	}
	return ""
}

func later(a, b string) string {
	if a > b {
		return a
	}
	return b
}

func earlier(a, b string) string {
	if a == "" || (b != "" && b < a) {
		return b
	}
	return a
}

// Conclude draws the outcome from the findings.
func Conclude(fs []finding.Finding, books []*Book, o Options) finding.Outcome {
	out := finding.Outcome{Word: finding.Clear, HoldOn: string(o.HoldOn)}
	regulated := false
	for _, b := range books {
		regulated = regulated || b.Regulation && b.ID != ConditionsBook
	}
	hold := false
	for i := range fs {
		f := &fs[i]
		count(&out, f)
		hold = hold || f.Holds() || (f.Verdict == finding.NotMet && f.Grade.Rank() <= o.HoldOn.Rank())
	}
	if hold {
		out.Word = finding.Hold
	}
	out.Why = why(out, hold)
	if !regulated {
		out.Why += "; judged against good practice only"
	}
	return out
}

func count(out *finding.Outcome, f *finding.Finding) {
	switch {
	case f.Failed:
		out.Failed++
	case f.NotYetDue:
		out.NotYetDue++
	case f.Governed != "" && f.Verdict == finding.NotMet:
		// counted with the finding that governs it
	case f.Verdict == finding.Met:
		out.Met++
	case f.Verdict == finding.Varied:
		out.Varied++
	case f.Verdict == finding.NotMet && f.Grade == finding.Major:
		out.NotMet++
	case f.Verdict == finding.NotMet && f.Grade == finding.Minor:
		out.Minor++
	case f.Verdict == finding.NotMet:
		out.Observation++
	case f.Verdict == finding.NotAssessed && f.Grade == finding.Major:
		out.NotAssessed++
	}
}

// why says in a line what decided.
func why(o finding.Outcome, hold bool) string {
	var parts []string
	if o.NotMet > 0 {
		parts = append(parts, fmt.Sprintf("%d not met", o.NotMet))
	}
	if o.NotAssessed > 0 {
		parts = append(parts, fmt.Sprintf("%d not assessed", o.NotAssessed))
	}
	if o.Failed > 0 {
		parts = append(parts, fmt.Sprintf("%d failed to run", o.Failed))
	}
	if !hold {
		return fmt.Sprintf("%d met, nothing holds it", o.Met)
	}
	if len(parts) == 0 {
		return fmt.Sprintf("%d minor and %d observations not met, held by option", o.Minor, o.Observation)
	}
	n := o.NotMet + o.NotAssessed + o.Failed
	verb := "hold it"
	if n == 1 {
		verb = "holds it"
	}
	if len(parts) == 1 {
		return parts[0] + " " + verb
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1] + " " + verb
}
