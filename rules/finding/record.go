package finding

import (
	"spudgate/plan/place"
)

// Record is one audit, self-contained: a report can be written from it and
// from nothing else.
type Record struct {
	Format   string    `json:"format"`
	Tool     Tool      `json:"tool"`
	AsOf     string    `json:"as_of"`
	Caution  string    `json:"caution"`
	Well     Well      `json:"well"`
	Inputs   []Source  `json:"inputs"`
	Books    []Book    `json:"books"`
	Basis    Basis     `json:"basis"`
	Outcome  Outcome   `json:"outcome"`
	Strings  []Line    `json:"strings"`
	Waiting  []Waiting `json:"waiting"`
	Findings []Finding `json:"findings"`
	Notes    []Note    `json:"notes"`
	Unread   []Note    `json:"unread"`
	Tables   []Table   `json:"tables"`
	Drawings Drawings  `json:"drawings"`
}

// Caution is printed by every report.
const Caution = "An aid to a competent reviewer. Local codes and the agency's word prevail."

// Tool is the program that made the record.
type Tool struct {
	Name    string `json:"name"`
	Version string `json:"version"`
}

// Well is the head of a report.
type Well struct {
	Name      string `json:"name"`
	Operator  string `json:"operator,omitempty"`
	Location  string `json:"location,omitempty"`
	Rig       string `json:"rig,omitempty"`
	Revision  string `json:"revision,omitempty"`
	PlanDate  string `json:"plan_date,omitempty"`
	SpudDate  string `json:"spud_date,omitempty"`
	Stage     Stage  `json:"stage"`
	StageFrom string `json:"stage_from"` // plan, option or default
	Units     string `json:"units"`
}

// Source is a file the audit rests on.
type Source struct {
	Role   string `json:"role"` // plan, basis, book, variances
	Name   string `json:"name"`
	SHA256 string `json:"sha256"`
}

// Book is a rulebook the plan was judged against.
type Book struct {
	ID         string `json:"id"`
	Title      string `json:"title"`
	Publisher  string `json:"publisher"`
	Edition    string `json:"edition"`
	Regulation bool   `json:"regulation"`
	Judged     int    `json:"judged"`         // requirements the tool judges
	ByPerson   int    `json:"by_person"`      // clauses only a person can judge
	Gaps       []Gap  `json:"gaps,omitempty"` // clauses of the book it doesn't judge
	Person     []Gap  `json:"person,omitempty"`
}

// Gap is a clause of a book no requirement judges.
type Gap struct {
	Clause string `json:"clause"`
	Text   string `json:"text"`
	// Evidence is what a person put behind a clause only a person can judge.
	Evidence *Evidence `json:"evidence,omitempty"`
}

// Evidence is a person's word on a clause: who, when, resting on what.
type Evidence struct {
	By        string `json:"by"`
	Date      string `json:"date"` // yyyy-mm-dd
	Reference string `json:"reference"`
	Note      string `json:"note,omitempty"`
}

// Basis is the design basis used.
type Basis struct {
	Name   string      `json:"name"`
	Values []BasisLine `json:"values"`
}

// BasisLine is one value of the basis.
type BasisLine struct {
	Name  string `json:"name"`
	About string `json:"about"`
	Value Value  `json:"value"`
	From  string `json:"from"` // default, the company file's name, or plan
	For   string `json:"for,omitempty"`
}

// Outcome is the answer.
type Outcome struct {
	Word        string `json:"word"` // CLEAR or HOLD
	Why         string `json:"why"`
	NotMet      int    `json:"not_met"`      // majors not met
	NotAssessed int    `json:"not_assessed"` // majors due and not assessed
	Failed      int    `json:"failed"`
	Minor       int    `json:"minor"`       // minors not met
	Observation int    `json:"observation"` // observations not met
	Met         int    `json:"met"`
	Varied      int    `json:"varied"`
	NotYetDue   int    `json:"not_yet_due"`
	HoldOn      string `json:"hold_on"` // the grade from which a finding holds
}

// The two outcomes.
const (
	Clear = "CLEAR"
	Hold  = "HOLD"
)

// Line is one string's line of the summary.
type Line struct {
	Name        string   `json:"name"`
	Met         int      `json:"met"`
	NotMet      int      `json:"not_met"`
	NotAssessed int      `json:"not_assessed"`
	Least       string   `json:"least,omitempty"`  // requirement with least to spare
	Margin      *float64 `json:"margin,omitempty"` // as a part of its limit
}

// Waiting groups what is not assessed by the input it waits for.
type Waiting struct {
	Input        string      `json:"input"`
	Place        place.Place `json:"place,omitzero"`
	Requirements int         `json:"requirements"`
	Majors       int         `json:"majors"`
}

// Note is something said once about a place.
type Note struct {
	Place place.Place `json:"place,omitzero"`
	Text  string      `json:"text"`
}

// Table is a sheet of numbers behind the findings.
type Table struct {
	Name    string   `json:"name"` // Strength, Cement, Pressures, Plan as read
	Title   string   `json:"title"`
	Columns []Column `json:"columns"`
	Rows    []Row    `json:"rows"`
}

// Column is one column of a table. A column with a Formula is worked out from
// the other columns by their names, so that a workbook can hold it live; its
// cells hold the audited values all the same.
type Column struct {
	Name    string `json:"name"`
	Title   string `json:"title"`
	Formula string `json:"formula,omitempty"`
	Input   bool   `json:"input,omitempty"` // a number the reviewer may change
	Width   int    `json:"width,omitempty"` // in characters, a hint
}

// Row is one row; Head marks a row that starts a group.
type Row struct {
	Cells   []Cell      `json:"cells"`
	Head    bool        `json:"head,omitempty"`
	Verdict Verdict     `json:"verdict,omitempty"`
	Place   place.Place `json:"place,omitzero"`
}

// Cell is one cell: empty, a quantity, or a text.
type Cell struct {
	Quantity *Quantity `json:"quantity,omitempty"`
	Text     string    `json:"text,omitempty"`
}
