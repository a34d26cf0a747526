package workbook

import (
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"

	"spudgate/rules/finding"
)

// WriteRegister writes a register as a workbook: the requirements, the clauses
// for a person, those not judged, and the worked cases; before them what could
// be judged on the plan where one is given. The same register gives the same
// bytes.
func WriteRegister(w io.Writer, r *finding.Register) error {
	f := excelize.NewFile()
	defer f.Close()
	if err := f.SetDefaultFont(fontName); err != nil {
		return err
	}
	*f.Styles.Fonts.Font[0].Sz.Val = 10
	var sheets []*grid
	if r.For != nil {
		sheets = append(sheets, coverageSheet(r))
	}
	sheets = append(sheets, requirementSheet(r),
		gapSheet(r, "For a person", "Clauses for a person to judge", func(l *finding.Listing) []finding.Gap { return l.Person }),
		gapSheet(r, "Not judged", "Clauses no requirement judges", func(l *finding.Listing) []finding.Gap { return l.Gaps }),
		caseSheet(r))
	looks := &styles{f, map[look]int{}}
	for i, g := range sheets {
		if i == 0 {
			if err := f.SetSheetName("Sheet1", g.name); err != nil {
				return err
			}
		} else if _, err := f.NewSheet(g.name); err != nil {
			return err
		}
	}
	for _, g := range sheets {
		if err := g.write(f, looks); err != nil {
			return fmt.Errorf("workbook: sheet %s: %w", g.name, err)
		}
	}
	if err := f.SetAppProps(&excelize.AppProperties{Application: r.Tool.Name}); err != nil {
		return err
	}
	if err := f.SetDocProps(&excelize.DocProperties{Creator: r.Tool.Name, LastModifiedBy: r.Tool.Name, Title: "Register of requirements", Language: "en-GB"}); err != nil {
		return err
	}
	f.SetZipWriter(newParts)
	return f.Write(w)
}

// registerTop lays the rows a sheet of a register begins with; the second stays empty,
// where an audit's sheets warn.
func (g *grid) registerTop(name string, r *finding.Register) {
	g.high(21, text(name, title))
	g.high(14, text("", plain))
	g.high(14, text(r.Tool.Name+" "+r.Tool.Version+". "+r.Caution, look{size: 8, color: grey, flow: true}))
}

func requirementSheet(r *finding.Register) *grid {
	g := &grid{name: "Requirements", columns: []float64{20, 24, 26, 12, 26, 34, 34, 11, 11, 30, 14, 44}}
	g.registerTop("Register of requirements", r)
	head := g.heads(words("Book"), words("Requirement"), words("Title"), words("About"), words("Measure"), words("Is"), words("When"), words("Grade"), words("Stage"), words("Stands in"), words("Known"), words("Text"))
	for i := range r.Books {
		l := &r.Books[i]
		for k := range l.Requirements {
			e := &l.Requirements[k]
			g.add(text(l.ID, plain), text(e.ID, strong), text(e.Title, plain), text(e.Subject, plain), text(e.Check, plain), text(e.Wants(), plain), text(e.When, plain),
				text(string(e.Grade), plain), text(strings.ReplaceAll(string(e.Stage), "_", "-"), plain), text(e.Cite.String(), plain), text(string(e.Sure), plain), text(e.Text, plain))
		}
	}
	g.filter = at(1, head) + ":" + at(len(g.columns), len(g.rows))
	return g
}

func gapSheet(r *finding.Register, name, heading string, of func(*finding.Listing) []finding.Gap) *grid {
	g := &grid{name: name, columns: []float64{24, 26, 100}}
	g.registerTop(heading, r)
	g.heads(words("Book"), words("Clause"), words("What it asks"))
	for i := range r.Books {
		for _, c := range of(&r.Books[i]) {
			g.add(text(r.Books[i].ID, plain), text(c.Clause, strong), text(c.Text, plain))
		}
	}
	return g
}

func caseSheet(r *finding.Register) *grid {
	g := &grid{name: "Cases", columns: []float64{22, 28, 40, 80, 16}}
	g.registerTop("Worked cases of every requirement", r)
	g.heads(words("Book"), words("Requirement"), words("Case"), words("Given"), words("Gives"))
	for i := range r.Books {
		l := &r.Books[i]
		for k := range l.Requirements {
			for _, c := range l.Requirements[k].Cases {
				var given []string
				for _, v := range c.Given {
					given = append(given, v.Name+" "+v.Value)
				}
				g.add(text(l.ID, plain), text(l.Requirements[k].ID, plain), text(c.Case, plain), text(strings.Join(given, "; "), plain), text(string(c.Gives), of(c.Gives)))
			}
		}
	}
	return g
}

func coverageSheet(r *finding.Register) *grid {
	c := r.For
	g := &grid{name: "For the plan", columns: []float64{20, 30, 30, 12, 10, 10, 12, 12, 60}}
	g.registerTop("What could be judged on "+c.Well+", "+c.Plan.Name+", stage "+strings.ReplaceAll(string(c.Stage), "_", "-"), r)
	g.heads(words("Book"), words("Requirement"), words("Title"), words("Grade"), numbers("Judged"), numbers("Waits"), numbers("Not applicable"), numbers("Not yet due"), words("Waits for"))
	for _, l := range c.Asked {
		g.add(text(l.Book, plain), text(l.Requirement, strong), text(l.Title, plain), text(string(l.Grade), plain), subjects(l.Judged), counted(l.Waits), counted(l.NotApplicable), counted(l.NotYetDue), text(strings.Join(l.Inputs, "; "), plain))
	}
	return g
}

func subjects(n int) cell { return cell{value: float64(n), look: whole} }
