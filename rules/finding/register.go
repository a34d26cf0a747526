package finding

import "slices"

// RegisterFormat is the form of a register document.
const RegisterFormat = "spudgate-register/1"

// Register is what the books judge, whatever the plan: self-contained, to be
// read by people and programs that have no books.
type Register struct {
	Format  string    `json:"format"`
	Tool    Tool      `json:"tool"`
	Caution string    `json:"caution"`
	Books   []Listing `json:"books"`
	// For is what could be judged on one plan; nil for the books alone.
	For *Coverage `json:"for,omitempty"`
}

// Listing is one book of a register.
type Listing struct {
	ID           string  `json:"id"`
	Title        string  `json:"title"`
	Publisher    string  `json:"publisher"`
	Edition      string  `json:"edition"`
	Regulation   bool    `json:"regulation"`
	From         string  `json:"from,omitempty"`
	Until        string  `json:"until,omitempty"`
	Requirements []Entry `json:"requirements"`
	Person       []Gap   `json:"person,omitempty"`
	Gaps         []Gap   `json:"gaps,omitempty"`
}

// Entry is one requirement of a register, its expressions as written.
type Entry struct {
	ID      string    `json:"id"`
	Title   string    `json:"title"`
	Subject string    `json:"subject"`
	When    string    `json:"when,omitempty"`
	Check   string    `json:"check"`
	Measure string    `json:"measure"` // what the check measures
	Is      string    `json:"is"`
	Limit   string    `json:"limit,omitempty"`
	Upper   string    `json:"upper,omitempty"`
	Grade   Grade     `json:"grade"`
	Stage   Stage     `json:"stage"`
	Sure    Sure      `json:"sure"`
	Cite    Cite      `json:"cite"`
	From    string    `json:"from,omitempty"`
	Until   string    `json:"until,omitempty"`
	Vary    bool      `json:"vary"`
	Text    string    `json:"text"`
	Remedy  string    `json:"remedy"`
	Cases   []Example `json:"cases,omitempty"`
}

// Wants is how the measure is held against the limit, in a line.
func (e *Entry) Wants() string {
	s := e.Is
	if e.Limit != "" {
		s += " " + e.Limit
	}
	if e.Upper != "" {
		s += " to " + e.Upper
	}
	return s
}

// Example is a worked case of a requirement.
type Example struct {
	Case  string  `json:"case"`
	Given []Given `json:"given,omitempty"`
	Gives Verdict `json:"gives"`
}

// Value is what the example gives for a name; nothing where it leaves it out.
func (x *Example) Value(name string) string {
	for _, g := range x.Given {
		if g.Name == name {
			return g.Value
		}
	}
	return ""
}

// Given is one value of an example.
type Given struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

// Coverage is what could be judged on one plan at its stage, without saying
// what came of it.
type Coverage struct {
	Plan    Source         `json:"plan"`
	Well    string         `json:"well"`
	Stage   Stage          `json:"stage"`
	Asked   []CoverageLine `json:"asked"`
	Waiting []Waiting      `json:"waiting,omitempty"`
}

// CoverageLine counts the subjects of one requirement.
type CoverageLine struct {
	Book          string   `json:"book"`
	Requirement   string   `json:"requirement"`
	Title         string   `json:"title"`
	Grade         Grade    `json:"grade"`
	Judged        int      `json:"judged"`
	Waits         int      `json:"waits"`
	NotApplicable int      `json:"not_applicable"`
	NotYetDue     int      `json:"not_yet_due"`
	Inputs        []string `json:"inputs,omitempty"` // what it waits for
}

// Covers counts, requirement by requirement in the order of the findings, what
// of a record was judged. The input most requirements wait for comes first.
func (r *Record) Covers() *Coverage {
	out := &Coverage{Plan: r.Inputs[0], Well: r.Well.Name, Stage: r.Well.Stage, Waiting: slices.Clone(r.Waiting)}
	slices.SortStableFunc(out.Waiting, func(a, b Waiting) int { return b.Requirements - a.Requirements })
	index := map[string]int{}
	seen := map[string]bool{}
	for i := range r.Findings {
		f := &r.Findings[i]
		k := f.Book + "/" + f.Requirement
		j, ok := index[k]
		if !ok {
			j = len(out.Asked)
			index[k] = j
			out.Asked = append(out.Asked, CoverageLine{Book: f.Book, Requirement: f.Requirement, Title: f.Title, Grade: f.Grade})
		}
		l := &out.Asked[j]
		switch {
		case f.NotYetDue:
			l.NotYetDue++
		case f.Verdict == NotAssessed:
			l.Waits++
		case f.Verdict == NotApplicable:
			l.NotApplicable++
		default:
			l.Judged++
		}
		for _, m := range f.Missing {
			if key := k + "\x00" + m.Input; !f.NotYetDue && !seen[key] {
				seen[key] = true
				l.Inputs = append(l.Inputs, m.Input)
			}
		}
	}
	return out
}
