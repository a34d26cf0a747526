// Package workbook writes the audit as a workbook: the file on record. Numbers
// that are a closed form are live formulas that hold the audited value;
// changing an input turns the whole workbook into a what-if and says so on
// every sheet.
package workbook

import (
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// changed is the name of the cell that counts the inputs that differ from the
// audit.
const changed = "inputs_changed"

// warning is the formula of the warning that stands at the head of every sheet.
const warning = `IF(` + changed + `>0,"NOT AS AUDITED: what-if only","")`

// Write writes the record as a workbook, shown in the units of s. The same
// record gives the same bytes. It fails on a record with a number that is
// none, and where w does.
func Write(w io.Writer, r *finding.Record, s units.System) error {
	b := &book{record: r, units: s}
	b.layOut()
	f := excelize.NewFile()
	defer f.Close()
	if err := b.prepare(f); err != nil {
		return err
	}
	looks := &styles{f, map[look]int{}}
	for _, g := range b.sheets() {
		if err := g.write(f, looks); err != nil {
			return fmt.Errorf("workbook: sheet %s: %w", g.name, err)
		}
	}
	if err := b.draw(f); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	f.SetZipWriter(newParts)
	return f.Write(w)
}

// book is the workbook while it's laid out.
type book struct {
	record   *finding.Record
	units    units.System
	list     []*finding.Finding // the rows of Findings, in order
	rowOf    map[*finding.Finding]int
	workOf   map[*finding.Finding]int // rows of Workings
	summary  *grid
	findings *grid
	register *grid
	tables   []*grid
	workings *grid
	basis    *grid
	person   int    // row of Register where the clauses for a person begin
	notes    string // where the notes on the plan begin
	counter  string // cell that counts the changed inputs
}

// layOut lays the sheets in the order in which they point at each other.
func (b *book) layOut() {
	b.workings = b.layWorkings()
	b.findings = b.layFindings()
	b.register = b.layRegister()
	for i := range b.record.Tables {
		b.tables = append(b.tables, b.layTable(&b.record.Tables[i]))
	}
	b.basis = b.layBasis()
	b.summary = b.laySummary()
}

// sheets are the sheets in the order they're shown in: what was read comes
// behind what was worked out.
func (b *book) sheets() []*grid {
	out := []*grid{b.summary, b.findings, b.register}
	var read []*grid
	for _, g := range b.tables {
		if g.name == asRead {
			read = append(read, g)
			continue
		}
		out = append(out, g)
	}
	out = append(out, b.workings)
	return append(append(out, read...), b.basis)
}

// asRead is the table of the plan's own values.
const asRead = "Plan as read"

func (b *book) prepare(f *excelize.File) error {
	if err := f.SetDefaultFont(fontName); err != nil {
		return err
	}
	*f.Styles.Fonts.Font[0].Sz.Val = 10 // the width of columns is counted in its digits
	for i, g := range b.sheets() {
		if i == 0 {
			if err := f.SetSheetName("Sheet1", g.name); err != nil {
				return err
			}
			continue
		}
		if _, err := f.NewSheet(g.name); err != nil {
			return err
		}
	}
	if err := f.SetDefinedName(&excelize.DefinedName{Name: changed, RefersTo: b.counter}); err != nil {
		return err
	}
	onLoad := true
	if err := f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &onLoad}); err != nil {
		return err
	}
	return b.properties(f)
}

// properties are the same for the same record: the only date is the audit's.
func (b *book) properties(f *excelize.File) error {
	r := b.record
	if err := f.SetAppProps(&excelize.AppProperties{Application: r.Tool.Name}); err != nil {
		return err
	}
	p := &excelize.DocProperties{Creator: r.Tool.Name, LastModifiedBy: r.Tool.Name, Title: clean("Audit of " + r.Well.Name), Language: "en-GB"}
	if day, err := time.Parse(time.DateOnly, r.AsOf); err == nil {
		p.Created = day.Format(time.RFC3339)
		p.Modified = p.Created
	}
	return f.SetDocProps(p)
}

// sheetName makes a name that a sheet may have and that none has yet.
func (b *book) sheetName(s string) string {
	taken := map[string]bool{"summary": true, "findings": true, "register": true, "workings": true, "basis": true}
	for _, g := range b.tables {
		taken[strings.ToLower(g.name)] = true
	}
	name := allowed(s)
	for n := 2; taken[strings.ToLower(name)]; n++ {
		end := fmt.Sprintf(" %d", n)
		name = allowed(cutTo(allowed(s), mostName-len(end)) + end)
	}
	return name
}

// mostName is how many characters the name of a sheet may have.
const mostName = 31

func cutTo(s string, most int) string {
	r := utf16.Encode([]rune(s))
	return string(utf16.Decode(r[:min(most, len(r))]))
}

func allowed(s string) string {
	s = strings.NewReplacer("[", "(", "]", ")", ":", " ", "*", " ", "?", " ", "/", "-", `\`, "-", "'", " ", "\n", " ").Replace(clean(s))
	if s = strings.TrimSpace(cutTo(s, mostName)); s == "" {
		return "Table"
	}
	return s
}
