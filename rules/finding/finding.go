// Package finding is the audit record: everything a report may read. The
// engine fills it once; writers choose, order, break lines and convert units
// for display, and compute nothing.
package finding

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Format is the form of the findings document.
const Format = "spudgate-findings/1"

// Verdict is what was found of one requirement on one subject.
type Verdict string

// The five verdicts.
const (
	Met           Verdict = "met"
	NotMet        Verdict = "not met"
	NotAssessed   Verdict = "not assessed"
	NotApplicable Verdict = "not applicable"
	Varied        Verdict = "varied"
)

// Grade is what happens if a requirement isn't met (ISO/IEC 17021-1 for major
// and minor).
type Grade string

// The grades, gravest first.
const (
	Major       Grade = "major"
	Minor       Grade = "minor"
	Observation Grade = "observation"
)

// Rank orders grades, gravest first.
func (g Grade) Rank() int {
	switch g {
	case Major:
		return 0
	case Minor:
		return 1
	}
	return 2
}

// Sure says how well a clause is known. It never moves the grade.
type Sure string

// How a clause is known.
const (
	Read           Sure = "read"
	OlderCopy      Sure = "older copy"
	FromMemory     Sure = "from memory"
	CommonPractice Sure = "common practice"
)

// Stage is how far a plan has come; a requirement is asked from a stage on.
type Stage string

// The stages, in order.
const (
	Permit    Stage = "permit"
	Programme Stage = "programme"
	PreSpud   Stage = "pre_spud"
)

// Rank orders stages; a plan as run has passed them all.
func (s Stage) Rank() int {
	switch s {
	case Permit:
		return 0
	case Programme:
		return 1
	}
	return 2
}

// Quantity is a number of the record: SI, with its dimension, so that any
// writer can show it in any unit system.
type Quantity struct {
	SI    float64
	Dim   units.Dim
	Small bool // a size or a gap: shown in inches or millimetres
}

// Show writes the quantity for a reader.
func (q Quantity) Show(s units.System) string { return units.Show(q.SI, q.Dim, s, q.Small) }

type quantityJSON struct {
	SI    json.Number `json:"si"`
	Unit  string      `json:"unit"`
	Small bool        `json:"small,omitempty"`
}

// MarshalJSON writes 12 significant digits and the SI unit.
func (q Quantity) MarshalJSON() ([]byte, error) {
	if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) {
		return nil, fmt.Errorf("a quantity that is no number reached the record")
	}
	return json.Marshal(quantityJSON{json.Number(strconv.FormatFloat(q.SI, 'g', 12, 64)), q.Dim.SI(), q.Small})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (q *Quantity) UnmarshalJSON(b []byte) error {
	var j quantityJSON
	if err := json.Unmarshal(b, &j); err != nil {
		return err
	}
	d, ok := units.DimBySI(j.Unit)
	if !ok {
		return fmt.Errorf("unknown SI unit %q", j.Unit)
	}
	x, err := j.SI.Float64()
	if err != nil {
		return err
	}
	*q = Quantity{x, d, j.Small}
	return nil
}

// Value is a measure or a limit: a quantity, a yes-or-no, or a text.
type Value struct {
	Quantity *Quantity `json:"quantity,omitempty"`
	Truth    *bool     `json:"truth,omitempty"`
	Text     string    `json:"text,omitempty"`
}

// ValueOf turns a value of an expression into one of the record.
func ValueOf(v expr.Value, small bool) *Value {
	switch v.Kind {
	case expr.Truth:
		t := v.Truth
		return &Value{Truth: &t}
	case expr.Text:
		return &Value{Text: v.Text}
	}
	return &Value{Quantity: &Quantity{v.SI, v.Dim, small}}
}

// Show writes the value for a reader.
func (v *Value) Show(s units.System) string {
	switch {
	case v == nil:
		return ""
	case v.Quantity != nil:
		return v.Quantity.Show(s)
	case v.Truth != nil && *v.Truth:
		return "yes"
	case v.Truth != nil:
		return "no"
	}
	return v.Text
}

// At is a place in the well.
type At struct {
	MD  *Quantity `json:"md,omitempty"`
	TVD *Quantity `json:"tvd,omitempty"`
	Why string    `json:"why,omitempty"`
}

// Input is one named input of a working.
type Input struct {
	Name  string      `json:"name"`
	Value Value       `json:"value"`
	Place place.Place `json:"place,omitzero"`
	Note  string      `json:"note,omitempty"`
}

// Working is how a number came about: a formula in the expression language and
// its inputs.
type Working struct {
	Formula string  `json:"formula"`
	Inputs  []Input `json:"inputs"`
	Result  Input   `json:"result"`
	Source  string  `json:"source,omitempty"`
}

// Cite is where a requirement stands.
type Cite struct {
	Document string `json:"document"`
	Clause   string `json:"clause,omitempty"`
	Edition  string `json:"edition,omitempty"`
}

func (c Cite) String() string {
	s := c.Document
	if c.Clause != "" {
		s += " " + c.Clause
	}
	if c.Edition != "" {
		s += " (" + c.Edition + ")"
	}
	return s
}

// Finding is one requirement judged on one subject.
type Finding struct {
	Key         string        `json:"key"` // book/requirement@subject
	Book        string        `json:"book"`
	Requirement string        `json:"requirement"`
	Kind        string        `json:"kind"`
	Subject     string        `json:"subject"`
	String      string        `json:"string,omitempty"` // the string it counts for
	Title       string        `json:"title"`
	Verdict     Verdict       `json:"verdict"`
	Grade       Grade         `json:"grade"`
	Sure        Sure          `json:"sure"`
	Stage       Stage         `json:"stage"`
	Cite        Cite          `json:"cite"`
	Text        string        `json:"text"`
	Check       string        `json:"check"`
	Measure     *Value        `json:"measure,omitempty"`
	Sense       string        `json:"sense"`
	Limit       *Value        `json:"limit,omitempty"`
	Margin      *float64      `json:"margin,omitempty"` // to spare as a part of the limit; negative when short
	LimitSource string        `json:"limit_source,omitempty"`
	At          *At           `json:"at,omitempty"`
	Reason      string        `json:"reason,omitempty"` // why not applicable, not assessed, or which bound governed
	Missing     []Missing     `json:"missing,omitempty"`
	NotYetDue   bool          `json:"not_yet_due,omitempty"`
	Governed    string        `json:"governed,omitempty"` // key of the finding that is stricter and speaks for this one
	Failed      bool          `json:"failed,omitempty"`   // the check failed to run: a fault of the tool
	Places      []place.Place `json:"places,omitempty"`   // the first is where a reader goes
	Remedy      string        `json:"remedy,omitempty"`
	Working     []Working     `json:"working,omitempty"` // the steps, the last giving the measure
}

// Missing is one input a finding waits for.
type Missing struct {
	Input string      `json:"input"`
	Place place.Place `json:"place,omitzero"`
}

// Holds reports whether the finding holds a plan by itself: a major not met, a
// major due and not assessed, or a check that failed to run.
func (f *Finding) Holds() bool {
	if f.Failed {
		return true
	}
	return f.Grade == Major && (f.Verdict == NotMet || (f.Verdict == NotAssessed && !f.NotYetDue))
}
