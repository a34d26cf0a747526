package rules

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// BookFormat is the form of a rulebook document.
const BookFormat = "spudgate-book/1"

// Book is a rulebook: requirements of one publisher and one edition, as data.
type Book struct {
	Format     string `json:"format"`
	ID         string `json:"id"`
	Title      string `json:"title"`
	Publisher  string `json:"publisher"`
	Edition    string `json:"edition"`
	Regulation bool   `json:"regulation,omitempty"`
	// Sources are the documents its requirements cite, named once.
	Sources map[string]Source `json:"sources"`
	// From and Until are the dates the edition is in force, yyyy-mm-dd.
	From         string        `json:"from,omitempty"`
	Until        string        `json:"until,omitempty"`
	Requirements []Requirement `json:"requirements"`
	// Person are the clauses only a person can judge; Gaps the clauses of the
	// book this edition doesn't judge yet.
	Person []finding.Gap `json:"person,omitempty"`
	Gaps   []finding.Gap `json:"gaps,omitempty"`
}

// Source is a document requirements cite.
type Source struct {
	Title   string `json:"title"`
	Edition string `json:"edition,omitempty"`
}

// Requirement is one clause as data: what is measured, on which kind of
// subject, when it applies and how the measure is held against a limit.
type Requirement struct {
	ID      string        `json:"id"`
	Title   string        `json:"title"`
	Subject Kind          `json:"subject"`
	When    string        `json:"when,omitempty"`
	Check   string        `json:"check"`
	Is      Sense         `json:"is"`
	Limit   string        `json:"limit,omitempty"`
	Upper   string        `json:"upper,omitempty"` // the upper end of "within"
	Grade   finding.Grade `json:"grade"`
	Stage   finding.Stage `json:"stage"`
	Sure    finding.Sure  `json:"sure"`
	Source  string        `json:"source"` // key into Book.Sources
	Clause  string        `json:"clause,omitempty"`
	From    string        `json:"from,omitempty"`
	Until   string        `json:"until,omitempty"`
	Vary    bool          `json:"vary"` // may a variance be granted
	Text    string        `json:"text"`
	Remedy  string        `json:"remedy"` // may use {measure}, {limit}, {short}
	Row     string        `json:"row,omitempty"`
	Cases   []Case        `json:"cases"`

	when, limit, upper *expr.Expr
	check              *Check
	book               *Book
	only               string // the one subject, or string, it is asked of; empty for all
}

// Case is a worked example inside a requirement: what is given and the verdict
// that follows. What isn't given is missing.
type Case struct {
	Case  string            `json:"case"`
	Given map[string]string `json:"given"`
	Gives finding.Verdict   `json:"gives"`
}

// Sense is how a measure is held against its limit.
type Sense string

// The senses. AtLeast, AtMost and Within include the limit; MoreThan and
// LessThan don't.
const (
	AtLeast  Sense = "at least"
	AtMost   Sense = "at most"
	MoreThan Sense = "more than"
	LessThan Sense = "less than"
	Within   Sense = "within"
	IsTrue   Sense = "true"
	IsFalse  Sense = "false"
)

// Key is book/requirement.
func (r *Requirement) Key() string { return r.book.ID + "/" + r.ID }

// Book is the book the requirement stands in.
func (r *Requirement) Book() *Book { return r.book }

// CheckType is the type of the measure the requirement judges.
func (r *Requirement) CheckType() expr.Type { return r.check.Type }

// Cite is where the requirement stands.
func (r *Requirement) Cite() finding.Cite {
	s := r.book.Sources[r.Source]
	return finding.Cite{Document: s.Title, Clause: r.Clause, Edition: s.Edition}
}

// Registry is the set of checks, by name.
type Registry struct {
	list  []*Check
	index map[string]*Check
}

// NewRegistry validates the checks and indexes them.
func NewRegistry(checks []*Check) (*Registry, error) {
	g := &Registry{index: map[string]*Check{}}
	for _, c := range checks {
		switch {
		case c.Name == "" || c.Doc == "" || c.Measure == nil || c.About == "":
			return nil, fmt.Errorf("check %q lacks its name, subject, documentation or function", c.Name)
		case g.index[c.Name] != nil:
			return nil, fmt.Errorf("two checks are called %q", c.Name)
		}
		g.index[c.Name] = c
		g.list = append(g.list, c)
	}
	return g, nil
}

// All lists the checks in registration order.
func (g *Registry) All() []*Check { return g.list }

// Find is the check called name, or nil.
func (g *Registry) Find(name string) *Check { return g.index[name] }

// typeOf resolves a name in the expressions of a requirement about kind k:
// a measure of k or of what k belongs to, or a field of the basis.
func (g *Registry) typeOf(k Kind, basis func(string) (expr.Type, bool)) func(string) (expr.Type, bool) {
	return func(name string) (expr.Type, bool) {
		if t, ok := basis(name); ok {
			return t, true
		}
		c := g.index[name]
		if c == nil {
			return expr.Type{}, false
		}
		for _, a := range ancestors(k) {
			if c.About == a || (a == Test || a == BOP || a == Section) && c.About == String {
				return c.Type, true
			}
		}
		return expr.Type{}, false
	}
}

// Compile checks a book against the registry: every check known, every
// expression well-typed. Errors name the requirement.
func (b *Book) Compile(g *Registry, basis func(string) (expr.Type, bool)) error {
	if b.Format != BookFormat {
		return fmt.Errorf("book %q: format is %q, expected %q", b.ID, b.Format, BookFormat)
	}
	seen := map[string]bool{}
	for i := range b.Requirements {
		r := &b.Requirements[i]
		r.book = b
		if seen[r.ID] {
			return fmt.Errorf("%s: two requirements are called %q", b.ID, r.ID)
		}
		seen[r.ID] = true
		if err := r.compile(g, basis); err != nil {
			return fmt.Errorf("%s/%s: %w", b.ID, r.ID, err)
		}
	}
	return nil
}

func (r *Requirement) compile(g *Registry, basis func(string) (expr.Type, bool)) error {
	if r.check = g.Find(r.Check); r.check == nil {
		return fmt.Errorf("unknown check %q", r.Check)
	}
	if r.check.About != r.Subject {
		return fmt.Errorf("check %q is about a %s, the requirement about a %s", r.Check, r.check.About, r.Subject)
	}
	if err := r.complete(); err != nil {
		return err
	}
	names := g.typeOf(r.Subject, basis)
	var err error
	if r.when, err = compilePart("when", r.When, names, expr.Type{Kind: expr.Truth}); err != nil {
		return err
	}
	if r.Is == IsTrue || r.Is == IsFalse {
		if r.check.Type.Kind != expr.Truth || r.Limit != "" {
			return fmt.Errorf("%q needs a yes-or-no measure and no limit", r.Is)
		}
		return nil
	}
	if r.Limit == "" {
		return fmt.Errorf("%q needs a limit", r.Is)
	}
	if r.limit, err = compilePart("limit", r.Limit, names, r.check.Type); err != nil {
		return err
	}
	r.upper, err = compilePart("upper", r.Upper, names, r.check.Type)
	return err
}

// complete refuses a requirement that doesn't say where it comes from, how
// grave it is or what to do.
func (r *Requirement) complete() error {
	_, cited := r.book.Sources[r.Source]
	switch {
	case !cited:
		return fmt.Errorf("cites source %q, which the book doesn't list", r.Source)
	case r.Title == "" || r.Text == "" || r.Remedy == "":
		return fmt.Errorf("lacks a title, text or remedy")
	case r.Grade != finding.Major && r.Grade != finding.Minor && r.Grade != finding.Observation:
		return fmt.Errorf("unknown grade %q", r.Grade)
	case r.Stage != finding.Permit && r.Stage != finding.Programme && r.Stage != finding.PreSpud:
		return fmt.Errorf("unknown stage %q", r.Stage)
	case r.Sure != finding.Read && r.Sure != finding.OlderCopy && r.Sure != finding.FromMemory && r.Sure != finding.CommonPractice:
		return fmt.Errorf("unknown \"how sure\" %q", r.Sure)
	case r.Is == Within && r.Upper == "":
		return fmt.Errorf("\"within\" needs an upper limit")
	}
	switch r.Is {
	case AtLeast, AtMost, MoreThan, LessThan, Within, IsTrue, IsFalse:
		return nil
	}
	return fmt.Errorf("unknown sense %q", r.Is)
}

func compilePart(what, src string, names func(string) (expr.Type, bool), want expr.Type) (*expr.Expr, error) {
	if src == "" {
		return nil, nil
	}
	e, err := expr.Compile(src, names)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", what, err)
	}
	t := e.Type()
	_, joins := t.Dim.Join(want.Dim)
	if t.Kind != want.Kind || !joins {
		return nil, fmt.Errorf("%s: %q is %s, expected %s", what, src, describe(t), describe(want))
	}
	return e, nil
}

func describe(t expr.Type) string {
	switch t.Kind {
	case expr.Truth:
		return "a yes or no"
	case expr.Text:
		return "a text"
	}
	if t.Dim == units.None {
		return "a number"
	}
	return t.Dim.String()
}
