package rules

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"time"

	"spudgate/plan/expr"
	"spudgate/rules/finding"
)

// Complaint is something wrong with a book: in which requirement (-1 for the
// head), in which member, and whether it only warns.
type Complaint struct {
	Requirement int
	Member      string
	Text        string
	Warning     bool
}

// Tools are what a book is held against when it's looked over.
type Tools struct {
	Checks *Registry
	Basis  func(string) (expr.Type, bool)
	Parse  func(name, text string) (expr.Value, error) // of a value in a case
	// Choices are the texts a name may have; nil where it isn't a closed list.
	Choices func(name string) []string
	Builtin []string // names of the books every audit has
}

// Lint looks a book over and lists everything wrong with it, in order, where
// Compile stops at the first: an unknown check or source, an expression that
// doesn't compile, a limit that can never be met or always is, a condition that
// never holds, dates that run backwards or overlap, a requirement twice, cases
// that give another verdict.
func (b *Book) Lint(t Tools) []Complaint {
	l := &linter{book: b, tools: t}
	l.head()
	for i := range b.Requirements {
		r := &b.Requirements[i]
		r.book = b
		l.at = i
		l.requirement(r)
	}
	l.overlaps()
	l.sources()
	return l.found
}

type linter struct {
	book  *Book
	tools Tools
	at    int
	found []Complaint
}

func (l *linter) say(member, format string, args ...any) {
	l.found = append(l.found, Complaint{Requirement: l.at, Member: member, Text: fmt.Sprintf(format, args...)})
}

func (l *linter) warn(member, format string, args ...any) {
	l.say(member, format, args...)
	l.found[len(l.found)-1].Warning = true
}

func (l *linter) head() {
	l.at = -1
	b := l.book
	if b.Format != BookFormat {
		l.say("format", "found %q, expected %q", b.Format, BookFormat)
	}
	for _, m := range []struct{ name, value string }{{"id", b.ID}, {"title", b.Title}, {"publisher", b.Publisher}, {"edition", b.Edition}} {
		if m.value == "" {
			l.say(m.name, "found none, expected the book's %s", m.name)
		}
	}
	for _, n := range l.tools.Builtin {
		if n == b.ID {
			l.say("id", "found %q, the name of a built-in book; expected another", b.ID)
		}
	}
	l.dates(b.From, b.Until)
}

// dates looks at a range of dates in force.
func (l *linter) dates(from, until string) {
	for _, d := range []struct{ name, value string }{{"from", from}, {"until", until}} {
		if _, err := time.Parse(time.DateOnly, d.value); d.value != "" && err != nil {
			l.say(d.name, "found %q, expected a date as yyyy-mm-dd", d.value)
		}
	}
	if from != "" && until != "" && until < from {
		l.say("until", "found %s, before %s, from when it's in force", until, from)
	}
}

func (l *linter) requirement(r *Requirement) {
	for k := 0; k < l.at; k++ {
		if l.book.Requirements[k].ID == r.ID {
			l.say("id", "found %q a second time, expected a name of its own", r.ID)
		}
	}
	l.complete(r)
	l.dates(r.From, r.Until)
	if r.check = l.tools.Checks.Find(r.Check); r.check == nil {
		l.say("check", "found %q, no measure has that name%s", r.Check, l.meant(r.Check))
		return
	}
	if r.check.About != r.Subject {
		l.say("subject", "found %q, the measure %s is about a %s", r.Subject, r.Check, r.check.About)
		return
	}
	if l.expressions(r) {
		l.constants(r)
		l.cases(r)
	}
}

// complete says what a requirement leaves out or has of a kind nobody knows,
// one by one.
func (l *linter) complete(r *Requirement) {
	if _, ok := l.book.Sources[r.Source]; !ok {
		l.say("source", "found %q, the book's sources don't list it: where does the clause stand?", r.Source)
	}
	for _, m := range []struct{ name, value string }{{"id", r.ID}, {"title", r.Title}, {"text", r.Text}, {"remedy", r.Remedy}} {
		if m.value == "" {
			l.say(m.name, "found none, expected one")
		}
	}
	if r.Clause == "" && l.book.Regulation {
		l.warn("clause", "found none; a regulation's requirement names its clause")
	}
	one := func(name, value string, of ...string) {
		for _, o := range of {
			if value == o {
				return
			}
		}
		l.say(name, "found %q, expected %s", value, strings.Join(of, ", "))
	}
	one("grade", string(r.Grade), string(finding.Major), string(finding.Minor), string(finding.Observation))
	one("stage", string(r.Stage), string(finding.Permit), string(finding.Programme), string(finding.PreSpud))
	one("sure", string(r.Sure), string(finding.Read), string(finding.OlderCopy), string(finding.FromMemory), string(finding.CommonPractice))
	one("is", string(r.Is), string(AtLeast), string(AtMost), string(MoreThan), string(LessThan), string(Within), string(IsTrue), string(IsFalse))
}

// expressions compiles each of them by itself and reports whether all do.
func (l *linter) expressions(r *Requirement) bool {
	before := len(l.found)
	names := l.tools.Checks.typeOf(r.Subject, l.tools.Basis)
	part := func(member, src string, want expr.Type) *expr.Expr {
		e, err := compilePart(member, src, names, want)
		if err != nil {
			l.say(member, "%s%s", strings.TrimPrefix(err.Error(), member+": "), l.meantIn(src, names))
		}
		return e
	}
	r.when = part("when", r.When, expr.Type{Kind: expr.Truth})
	truth := r.Is == IsTrue || r.Is == IsFalse
	switch {
	case truth && r.check.Type.Kind != expr.Truth:
		l.say("is", "found %q, the measure %s is %s", r.Is, r.Check, describe(r.check.Type))
	case truth && r.Limit != "":
		l.say("limit", "found %q, a yes or no has no limit", r.Limit)
	case truth:
	case r.Limit == "":
		l.say("limit", "found none, %q needs one", r.Is)
	default:
		r.limit = part("limit", r.Limit, r.check.Type)
		r.upper = part("upper", r.Upper, r.check.Type)
		if r.Is == Within && r.Upper == "" {
			l.say("upper", "found none, \"within\" needs one")
		}
	}
	l.texts("when", r.When)
	return len(l.found) == before
}

// constants finds what decides itself, whatever the plan.
func (l *linter) constants(r *Requirement) {
	if v, ok := constant(r.when); ok {
		l.say("when", "%q is always %v: it says nothing of a plan", r.When, v.Truth)
	}
	low, ok := constant(r.limit)
	if !ok || low.Kind != expr.Num {
		return
	}
	high, capped := constant(r.upper)
	if capped && r.Is == Within && high.SI < low.SI {
		l.say("upper", "%s lies under the lower end %s: it can never be met", r.Upper, r.Limit)
	}
	if !r.check.NotNegative {
		return
	}
	switch {
	case r.Is == AtMost && low.SI < 0, r.Is == LessThan && low.SI <= 0, r.Is == Within && capped && high.SI < 0:
		l.say("limit", "%s %s can never be met: %s is never negative", r.Is, r.Limit, r.Check)
	case r.Is == AtLeast && low.SI <= 0, r.Is == MoreThan && low.SI < 0:
		l.say("limit", "%s %s is always met: %s is never negative", r.Is, r.Limit, r.Check)
	}
}

// constant is the value of an expression that no name moves.
func constant(e *expr.Expr) (expr.Value, bool) {
	if e == nil || len(e.Names()) > 0 {
		return expr.Value{}, false
	}
	v, err := e.Eval(func(string) expr.Result { return expr.Unknown() })
	return v.Value, err == nil && v.Known
}

// equals and among find a name held against texts.
var (
	equals = regexp.MustCompile(`([a-z_]+\.[a-z_]+)\s*(?:=|<>)\s*'([^']*)'`)
	among  = regexp.MustCompile(`([a-z_]+\.[a-z_]+)\s+in\s+\(([^)]*)\)`)
	quoted = regexp.MustCompile(`'([^']*)'`)
)

// texts finds a name held against a text it can never have.
func (l *linter) texts(member, src string) {
	look := func(name, text string) {
		list := l.tools.Choices(name)
		for _, c := range list {
			if c == text {
				return
			}
		}
		if len(list) > 0 {
			l.say(member, "%s is never '%s'; it is %s", name, text, strings.Join(list, ", "))
		}
	}
	for _, m := range equals.FindAllStringSubmatch(src, -1) {
		look(m[1], m[2])
	}
	for _, m := range among.FindAllStringSubmatch(src, -1) {
		for _, q := range quoted.FindAllStringSubmatch(m[2], -1) {
			look(m[1], q[1])
		}
	}
}

// cases tries the requirement's own examples.
func (l *linter) cases(r *Requirement) {
	if len(r.Cases) == 0 {
		l.warn("cases", "found none; worked cases are what tells a reader, and this tool, that the limit means what it should")
	}
	for _, c := range r.Cases {
		got, err := r.Try(c, l.tools.Parse)
		switch {
		case err != nil:
			l.say("cases", "case %q: %v", c.Case, err)
		case got != c.Gives:
			l.say("cases", "case %q gives %s, expected %s", c.Case, got, c.Gives)
		}
	}
}

// overlaps finds two requirements that ask one thing of one clause at one time.
func (l *linter) overlaps() {
	list := l.book.Requirements
	for i := range list {
		for k := 0; k < i; k++ {
			a, b := &list[k], &list[i]
			if a.Check != b.Check || a.Subject != b.Subject || a.Is != b.Is || a.When != b.When || a.Clause != b.Clause || a.Source != b.Source || a.ID == b.ID {
				continue
			}
			if (a.Until == "" || b.From == "" || a.Until >= b.From) && (b.Until == "" || a.From == "" || b.Until >= a.From) {
				l.at = i
				l.say("from", "asks the same measure of the same clause as %q while both are in force", a.ID)
			}
		}
	}
}

// sources warns of a source nothing cites.
func (l *linter) sources() {
	l.at = -1
	for _, s := range slices.Sorted(maps.Keys(l.book.Sources)) {
		used := false
		for i := range l.book.Requirements {
			used = used || l.book.Requirements[i].Source == s
		}
		if !used {
			l.warn("sources", "nothing cites %q", s)
		}
	}
}

// meant proposes the check whose name is nearest.
func (l *linter) meant(name string) string {
	best, far := "", len(name)/3+1
	for _, c := range l.tools.Checks.All() {
		if d := apart(name, c.Name, far); d < far {
			best, far = c.Name, d
		}
	}
	if best == "" {
		return ""
	}
	return "; did you mean " + best + "?"
}

// dotted finds the names of an expression.
var dotted = regexp.MustCompile(`[a-z_]+\.[a-z_0-9]+`)

// meantIn proposes a name for the first one an expression has and nobody knows.
func (l *linter) meantIn(src string, names func(string) (expr.Type, bool)) string {
	for _, n := range dotted.FindAllString(src, -1) {
		if _, ok := names(n); !ok {
			return l.meant(n)
		}
	}
	return ""
}

// apart is how many letters have to be changed, added or left out to make one
// name of the other (Levenshtein), no more than most.
func apart(a, b string, most int) int {
	if len(a)-len(b) >= most || len(b)-len(a) >= most {
		return most
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		last := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := last
			if a[i-1] != b[j-1] {
				cost++
			}
			last = row[j]
			row[j] = min(cost, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}
