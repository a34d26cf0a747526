package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// setUp sets everything of a sheet but its rows, which come last.
func (g *grid) setUp(f *excelize.File) error {
	for _, step := range []func(*excelize.File) error{g.sieve, g.paper, g.titles, g.view, g.marks, g.links, g.lock} {
		if err := step(f); err != nil {
			return fmt.Errorf("workbook: sheet %s: %w", g.name, err)
		}
	}
	return nil
}

// sieve comes first: it takes the sheet's other properties away.
func (g *grid) sieve(f *excelize.File) error {
	if g.filter == "" {
		return nil
	}
	return f.AutoFilter(g.name, g.filter, nil)
}

// paper is A4, as wide as the sheet is.
func (g *grid) paper(f *excelize.File) error {
	a4, wide, high, way := 9, 1, 0, "landscape"
	if g.portrait {
		way = "portrait"
	}
	if g.onePage {
		high = 1
	}
	fit := true
	if err := f.SetSheetProps(g.name, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	if err := f.SetPageLayout(g.name, &excelize.PageLayoutOptions{Size: &a4, Orientation: &way, FitToWidth: &wide, FitToHeight: &high}); err != nil {
		return err
	}
	side, top, bottom, edge := 0.45, 0.5, 0.65, 0.3
	return f.SetPageMargins(g.name, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &top, Bottom: &bottom, Header: &edge, Footer: &edge, Horizontally: &g.onePage})
}

// titles are the rows repeated on every page, with the warning among them, and
// the area that is printed.
func (g *grid) titles(f *excelize.File) error {
	area := fmt.Sprintf("%s!$A$1:$%s$%d", quote(g.name), letter(len(g.columns)), len(g.rows))
	if err := f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: area, Scope: g.name}); err != nil {
		return err
	}
	if g.head == 0 {
		return nil
	}
	rows := fmt.Sprintf("%s!$1:$%d", quote(g.name), g.head)
	return f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: rows, Scope: g.name})
}

func (g *grid) view(f *excelize.File) error {
	lines, scale := false, 100.0
	if err := f.SetSheetView(g.name, 0, &excelize.ViewOptions{ShowGridLines: &lines, ZoomScale: &scale}); err != nil {
		return err
	}
	return f.SetHeaderFooter(g.name, &excelize.HeaderFooterOptions{OddFooter: `&L&8&A&R&8page &P of &N`})
}

// marks are the formats that follow the inputs: the warning, an input that
// differs from the audit, a verdict that is worked out anew.
func (g *grid) marks(f *excelize.File) error {
	alarm, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: paper, Bold: true}, Fill: solid(brick)})
	if err != nil {
		return err
	}
	if err := g.mark(f, fmt.Sprintf("A2:%s2", letter(len(g.columns))), "LEN($A$2)>0", alarm); err != nil {
		return err
	}
	changed, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: brick, Bold: true}, Fill: solid(rule)})
	if err != nil {
		return err
	}
	for _, p := range g.inputs {
		area := fmt.Sprintf("%s%d:%s%d", p.input, p.from, p.input, p.to)
		rule := fmt.Sprintf("AND($%s%d<>\"\",$%s%d<>$%s%d)", p.audited, p.from, p.input, p.from, p.audited, p.from)
		if err := g.mark(f, area, rule, changed); err != nil {
			return err
		}
	}
	return g.verdictMarks(f, alarm)
}

// verdictMarks let a column of live verdicts look as its words say once the
// sheet is no longer as audited, and the outcome look like none.
func (g *grid) verdictMarks(f *excelize.File, alarm int) error {
	bare, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: ink}, Fill: solid(paper)})
	if err != nil {
		return err
	}
	if g.outcome != "" {
		return g.mark(f, g.outcome, "LEN($A$2)>0", bare)
	}
	if g.verdicts == "" || len(g.inputs) == 0 {
		return nil
	}
	from := g.head + 1
	area := fmt.Sprintf("%s%d:%s%d", g.verdicts, from, g.verdicts, len(g.rows))
	if err := g.mark(f, area, fmt.Sprintf(`$%s%d="not met"`, g.verdicts, from), alarm); err != nil {
		return err
	}
	return g.mark(f, area, fmt.Sprintf(`AND(LEN($A$2)>0,$%s%d<>"not met")`, g.verdicts, from), bare)
}

func (g *grid) mark(f *excelize.File, area, rule string, style int) error {
	return f.SetConditionalFormat(g.name, area, []excelize.ConditionalFormatOptions{{Type: "formula", Criteria: rule, Format: &style}})
}

func solid(color string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}}
}

func (g *grid) links(f *excelize.File) error {
	for i, l := range g.rows {
		column := 1
		for _, c := range l.cells {
			if c.link != "" {
				if err := f.SetCellHyperLink(g.name, at(column, i+1), c.link, "Location"); err != nil {
					return err
				}
			}
			column += max(c.span, 1)
		}
	}
	return nil
}

// lock guards against a slip of the hand, not against anybody: it has no
// password. Filters and widths stay free.
func (g *grid) lock(f *excelize.File) error {
	return f.ProtectSheet(g.name, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, AutoFilter: true, FormatColumns: true, FormatRows: true,
	})
}
