package record

import (
	"spudgate/plan/units"
	"spudgate/rules/finding"
	"spudgate/rules/whatif"
)

// excess lists how much excess of the open hole each requirement on cement
// bears with the slurry planned.
func excess(list []whatif.Bearing) finding.Table {
	t := finding.Table{Name: "Excess", Title: "Excess: how large the open hole may be before cement as pumped no longer meets a requirement", Columns: []finding.Column{
		{Name: "string", Title: "String", Width: 22}, {Name: "subject", Title: "Subject", Width: 30}, {Name: "requirement", Title: "Requirement", Width: 34}, {Name: "grade", Title: "Grade", Width: 12},
		{Name: "planned", Title: "Excess planned, part", Width: 11}, {Name: "most", Title: "Met up to, part", Width: 11}, {Name: "spare", Title: "To spare, part", Width: 11, Formula: "most - planned"},
		{Name: "note", Title: "Remark", Width: 40},
	}}
	last := ""
	for _, b := range list {
		f := b.Finding
		row := finding.Row{Head: b.String != last}
		last = b.String
		cells := make([]finding.Cell, len(t.Columns))
		cells[0], cells[1], cells[2], cells[3] = text(b.String), text(f.Subject), text(f.Book+"/"+f.Requirement), text(string(f.Grade))
		cells[4] = quantity(b.Planned, units.None)
		if !b.Stated {
			cells[7] = text("the plan states no excess: the basis's is counted")
		}
		switch {
		case b.Never:
			cells[7] = text("not met in a gauge hole")
			row.Verdict = finding.NotMet
		default:
			cells[5], cells[6] = quantity(b.Most, units.None), quantity(b.Most-b.Planned, units.None)
			switch {
			case b.Most < b.Planned && f.Verdict == finding.Met:
				cells[7] = text("by volume it fails at the excess planned; the verdict rests on the stated top")
			case b.Most < b.Planned:
				row.Verdict = f.Verdict
				cells[7] = text("the excess planned is more than the cement bears")
			}
		}
		if len(f.Places) > 0 {
			row.Place = bare(f.Places[0])
		}
		row.Cells = cells
		t.Rows = append(t.Rows, row)
	}
	return t
}
