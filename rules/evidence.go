package rules

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"spudgate/plan"
	"spudgate/rules/finding"
)

// EvidenceFormat is the form of an evidence document.
const EvidenceFormat = "spudgate-evidence/1"

// Evidence answers one clause only a person can judge.
type Evidence struct {
	Book   string `json:"book"`
	Clause string `json:"clause"`
	Text   string `json:"text"` // how the clause's text begins, far enough to name one
	finding.Evidence
}

// ParseEvidence reads an evidence document; an error names the entry.
func ParseEvidence(file string, raw []byte) ([]Evidence, error) {
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	var doc struct {
		Format   string     `json:"format"`
		Evidence []Evidence `json:"evidence"`
	}
	if err := d.Decode(&doc); err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if doc.Format != EvidenceFormat {
		return nil, fmt.Errorf("%s: found format %q, expected %q", file, doc.Format, EvidenceFormat)
	}
	for i, e := range doc.Evidence {
		if err := e.complete(); err != nil {
			return nil, fmt.Errorf("%s: evidence %d: %w", file, i+1, err)
		}
	}
	return doc.Evidence, nil
}

// AnswerFromPlan puts the evidence the plan itself carries behind the clauses
// it names. What can't be used is noted with its place, never dropped.
func AnswerFromPlan(r *finding.Record, p *plan.Plan) {
	for i := range p.Evidence {
		e := &p.Evidence[i]
		ev := Evidence{Book: e.Book.V, Clause: e.Clause.V, Text: e.Text.V,
			Evidence: finding.Evidence{By: e.By.V, Date: e.Date.V, Reference: e.Reference.V, Note: e.Note.V}}
		err := ev.complete()
		if err == nil {
			err = Answer(r, []Evidence{ev})
		}
		if err != nil {
			r.Notes = append(r.Notes, finding.Note{Place: barePlace(p, e.Ref), Text: "evidence not used: " + err.Error()})
		}
	}
}

// complete refuses evidence that doesn't say who judged what, when and on
// which ground.
func (e Evidence) complete() error {
	if _, err := time.Parse(time.DateOnly, e.Date); err != nil || e.By == "" || e.Reference == "" || e.Book == "" || e.Text == "" {
		return fmt.Errorf("expected book, text, by, reference and a date as yyyy-mm-dd")
	}
	return nil
}

// Answer puts evidence behind the clauses it names in the books of a record.
// Evidence that names no clause, or more than one, is an error: it would be
// lost. Evidence dated after the audit is one too.
func Answer(r *finding.Record, list []Evidence) error {
	for i, e := range list {
		var hit []*finding.Gap
		for b := range r.Books {
			if r.Books[b].ID != e.Book {
				continue
			}
			r.Books[b].Person = append([]finding.Gap(nil), r.Books[b].Person...) // the book itself stays as it is
			for k := range r.Books[b].Person {
				if g := &r.Books[b].Person[k]; (e.Clause == "" || g.Clause == e.Clause) && strings.HasPrefix(g.Text, e.Text) {
					hit = append(hit, g)
				}
			}
		}
		switch {
		case len(hit) != 1:
			return fmt.Errorf("evidence %d: found %d clauses of %s that begin %q, expected one", i+1, len(hit), e.Book, e.Text)
		case e.Date > r.AsOf:
			return fmt.Errorf("evidence %d: dated %s, after the audit's date %s", i+1, e.Date, r.AsOf)
		}
		ev := e.Evidence
		hit[0].Evidence = &ev
	}
	for b := range r.Books {
		open := 0
		for _, g := range r.Books[b].Person {
			if g.Evidence == nil {
				open++
			}
		}
		r.Books[b].ByPerson = open
	}
	return nil
}
