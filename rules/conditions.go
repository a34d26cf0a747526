package rules

import (
	"fmt"
	"strings"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/rules/finding"
)

// ConditionsBook is the book made of the conditions attached to an approval.
const ConditionsBook = "conditions"

// conditionSenses are the senses a condition may have, as the plan writes them.
var conditionSenses = map[string]Sense{"at_least": AtLeast, "at_most": AtMost, "more_than": MoreThan, "less_than": LessThan}

// Conditions makes a book of the conditions of approval the plan carries, to be
// judged like any other requirement on the subject each one names; nil where
// there are none. A condition without a measure is for a person to judge. One
// that can't be judged (an unknown measure, a limit that can't be read, a
// subject the plan doesn't have) is a finding that holds the plan: it isn't
// passed in silence.
func Conditions(p *plan.Plan, g *Registry, basis func(string) (expr.Type, bool), subjects func(Kind) []Subject) (*Book, []finding.Finding) {
	if len(p.Conditions) == 0 {
		return nil, nil
	}
	b := &Book{Format: BookFormat, ID: ConditionsBook, Title: "Conditions of approval", Publisher: "The agency, as the plan gives them",
		Edition: fmt.Sprintf("%d attached", len(p.Conditions)), Sources: map[string]Source{}, Regulation: true}
	var unfit []finding.Finding
	times := map[string]int{}
	for i := range p.Conditions {
		c := &p.Conditions[i]
		name := c.Reference.V
		if name == "" {
			name = fmt.Sprintf("condition %d", i+1)
		}
		if times[name]++; times[name] > 1 {
			name = fmt.Sprintf("%s (%d)", name, times[name]) // two conditions of one number stay two
		}
		b.Sources[name] = Source{Title: "Condition of approval"}
		if !c.Measure.Known() {
			b.Person = append(b.Person, finding.Gap{Clause: name, Text: c.Text.V})
			continue
		}
		r := conditionOf(c, name)
		r.book = b
		why := ""
		if r.check = g.Find(r.Check); r.check == nil {
			why = fmt.Sprintf("no measure is called %q", r.Check)
		} else {
			why = r.fit(c, g, basis, subjects)
		}
		if why != "" {
			unfit = append(unfit, r.unjudged(p, c, why))
			continue
		}
		b.Requirements = append(b.Requirements, *r)
	}
	return b, unfit
}

func conditionOf(c *plan.Condition, name string) *Requirement {
	text := c.Text.V
	if text == "" {
		text = "The condition is kept."
	}
	return &Requirement{
		ID: strings.Join(strings.Fields(name), "-"), Title: "condition " + name, Check: c.Measure.V, Is: conditionSenses[c.Sense.V], Limit: c.Limit.V, only: c.Subject.V,
		Grade: finding.Major, Stage: finding.Permit, Sure: finding.Read, Source: name, Clause: name, Vary: true, Text: text,
		Remedy: "Bring the plan to the condition, or have the agency change it.",
	}
}

// fit completes the requirement with what its measure tells, and says why the
// condition can't be judged, or nothing.
func (r *Requirement) fit(c *plan.Condition, g *Registry, basis func(string) (expr.Type, bool), subjects func(Kind) []Subject) string {
	r.Subject = r.check.About
	if r.check.Type.Kind == expr.Truth {
		switch strings.ToLower(strings.TrimSpace(c.Limit.V)) {
		case "", "yes", "true":
			r.Is = IsTrue
		case "no", "false":
			r.Is = IsFalse
		default:
			return fmt.Sprintf("found the limit %q, expected yes or no", c.Limit.V)
		}
		r.Limit = ""
	} else if r.Is == "" {
		return "it doesn't say in which sense the measure is held against its limit"
	}
	if err := r.compile(g, basis); err != nil {
		return err.Error()
	}
	for _, s := range subjects(r.Subject) {
		if r.concerns(s, subjects) {
			return ""
		}
	}
	return fmt.Sprintf("the plan has no %s called %q", r.Subject, c.Subject.V)
}

// concerns reports whether the requirement is asked of a subject: of every one,
// or, for a condition, of those it names in full ("7 liner / primary"), by their
// own name ("primary") or by their string's.
func (r *Requirement) concerns(s Subject, subjects func(Kind) []Subject) bool {
	own := s.Name[strings.LastIndex(s.Name, " / ")+1:]
	if r.only == "" || plan.Same(s.Name, r.only) || plan.Same(strings.TrimPrefix(own, "/ "), r.only) {
		return true
	}
	for _, str := range subjects(String) {
		if s.String >= 0 && str.String == s.String && plan.Same(str.Name, r.only) {
			return true
		}
	}
	return false
}

// unjudged is the finding of a condition nothing can judge as it is written.
func (r *Requirement) unjudged(p *plan.Plan, c *plan.Condition, why string) finding.Finding {
	return finding.Finding{
		Key: r.Key() + "@" + c.Subject.V, Book: r.book.ID, Requirement: r.ID, Kind: "condition", Subject: c.Subject.V, Title: r.Title,
		Verdict: finding.NotAssessed, Grade: finding.Major, Sure: finding.Read, Stage: finding.Permit, Sense: string(IsTrue),
		Cite: r.Cite(), Text: r.Text, Reason: why, Places: []place.Place{barePlace(p, c.Ref)},
	}
}

func barePlace(p *plan.Plan, ref place.Ref) place.Place {
	at := p.Place(ref)
	at.File = ""
	return at
}
