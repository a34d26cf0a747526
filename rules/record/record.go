// Package record fills the audit record: the head, the outcome, the findings
// and the tables behind them, all in one place, so that writers only read.
package record

import (
	"sort"
	"strings"

	"spudgate/plan"
	"spudgate/plan/doc"
	"spudgate/plan/place"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/finding"
	"spudgate/rules/whatif"
)

// Input is everything an audit rests on.
type Input struct {
	Plan    *plan.Plan
	Well    *well.Well
	Books   []*rules.Book
	Basis   *basis.Basis
	Sources []finding.Source // besides the plan
	Options rules.Options
	// StageFrom says where the stage came from: plan, option or default.
	StageFrom string
	Version   string
	Excess    []whatif.Bearing // how much excess the requirements on cement bear
}

// Make fills the record from an audit's findings.
func Make(in Input, fs []finding.Finding) *finding.Record {
	p := in.Plan
	r := &finding.Record{
		Format: finding.Format, Tool: finding.Tool{Name: "spudgate", Version: in.Version},
		AsOf: in.Options.AsOf, Caution: finding.Caution, Well: head(in),
		Inputs:   append([]finding.Source{{Role: "plan", Name: p.Doc.File, SHA256: p.Doc.SHA256}}, in.Sources...),
		Basis:    in.Basis.Record(),
		Outcome:  rules.Conclude(fs, in.Books, in.Options),
		Findings: fs,
		Strings:  lines(p, in.Well, fs),
		Waiting:  waiting(fs),
		Notes:    remarks(p.Notes),
		Unread:   remarks(p.Doc.Unread),
	}
	if _, source, err := in.Well.Depths(); err == nil {
		r.Notes = append(r.Notes, finding.Note{Text: "true vertical depths: " + string(source)})
	}
	for _, d := range p.Doubts {
		r.Notes = append(r.Notes, finding.Note{Place: bare(p.Place(d.Ref)), Text: "not used: " + d.Why})
	}
	for _, b := range in.Books {
		r.Books = append(r.Books, book(b))
	}
	r.Drawings = drawings(in.Well, fs)
	r.Tables = tables(in.Well, r.Drawings.Loads, in.Excess)
	return r
}

func head(in Input) finding.Well {
	w := in.Plan.Well
	return finding.Well{
		Name: w.Name.V, Operator: w.Operator.V, Location: w.Location.V, Rig: in.Plan.Rig.Name.V, Revision: w.Revision.V,
		PlanDate: w.PlanDate.V, SpudDate: w.SpudDate.V, Stage: in.Options.Stage, StageFrom: in.StageFrom, Units: in.Plan.System.String(),
	}
}

func book(b *rules.Book) finding.Book {
	return finding.Book{ID: b.ID, Title: b.Title, Publisher: b.Publisher, Edition: b.Edition, Regulation: b.Regulation,
		Judged: len(b.Requirements), ByPerson: len(b.Person), Gaps: b.Gaps, Person: b.Person}
}

func bare(p place.Place) place.Place { p.File = ""; return p }

func remarks(list []doc.Remark) []finding.Note {
	var out []finding.Note
	for _, r := range list {
		out = append(out, finding.Note{Place: bare(r.Place), Text: r.Text})
	}
	return out
}

// lines counts the majors string by string, in running order, and finds what
// has the least to spare.
func lines(p *plan.Plan, w *well.Well, fs []finding.Finding) []finding.Line {
	order := append([]int(nil), w.InOrder()...)
	for i := range p.Strings {
		if p.Strings[i].Contingent.V {
			order = append(order, i)
		}
	}
	out := make([]finding.Line, 0, len(order))
	for _, i := range order {
		l := finding.Line{Name: p.Strings[i].Name.V}
		for k := range fs {
			if fs[k].String == l.Name {
				add(&l, &fs[k])
			}
		}
		out = append(out, l)
	}
	return out
}

func add(l *finding.Line, f *finding.Finding) {
	if f.Grade != finding.Major || f.Governed != "" {
		return
	}
	switch f.Verdict {
	case finding.Met:
		l.Met++
	case finding.NotMet:
		l.NotMet++
	case finding.NotAssessed:
		if !f.NotYetDue {
			l.NotAssessed++
		}
	}
	if f.Margin == nil || f.Grade != finding.Major || (f.Verdict != finding.Met && f.Verdict != finding.NotMet) {
		return
	}
	if l.Margin == nil || *f.Margin < *l.Margin {
		l.Margin, l.Least = f.Margin, f.Title
	}
}

// waiting groups what isn't assessed by the input it waits for, most wanted
// first: that is what a reviewer asks the contractor for.
func waiting(fs []finding.Finding) []finding.Waiting {
	index := map[string]int{}
	var out []finding.Waiting
	for i := range fs {
		f := &fs[i]
		if f.Verdict != finding.NotAssessed || f.NotYetDue {
			continue
		}
		for _, m := range f.Missing {
			k := strings.ToLower(m.Input)
			j, ok := index[k]
			if !ok {
				j = len(out)
				index[k] = j
				out = append(out, finding.Waiting{Input: m.Input, Place: bare(m.Place)})
			}
			out[j].Requirements++
			if f.Grade == finding.Major {
				out[j].Majors++
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Majors != out[j].Majors {
			return out[i].Majors > out[j].Majors
		}
		return out[i].Requirements > out[j].Requirements
	})
	return out
}
