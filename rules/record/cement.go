package record

import (
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// cement lists the volumes of every stage, interval by interval from the shoe
// up, and the tops they give.
func cement(w *well.Well) finding.Table {
	t := finding.Table{Name: "Cement", Title: "Cement: volumes from the shoe up, and the tops they give", Columns: []finding.Column{
		{Name: "string", Title: "String", Width: 22}, {Name: "stage", Title: "Stage", Width: 16}, {Name: "part", Title: "Part", Width: 18},
		{Name: "from", Title: "From", Width: 10}, {Name: "to", Title: "To", Width: 10},
		{Name: "outer", Title: "Hole or bore", Width: 11}, {Name: "inner", Title: "Pipe OD", Width: 11},
		{Name: "length", Title: "Length", Width: 10, Formula: "to - from"},
		{Name: "gauge", Title: "Gauge volume", Width: 12}, {Name: "excess", Title: "Excess", Width: 9, Input: true},
		{Name: "enlarged", Title: "With excess", Width: 12, Formula: "gauge * (1 + excess)"},
		{Name: "slurry", Title: "Slurry pumped", Width: 12}, {Name: "top", Title: "Top from volume", Width: 12}, {Name: "gauge_top", Title: "Top in gauge hole", Width: 12},
		{Name: "note", Title: "Remark", Width: 26},
	}}
	last := ""
	for _, l := range w.CementLines() {
		s := &w.Plan.Strings[l.String]
		stage := s.Stages[l.Stage].Name.V
		row := finding.Row{Head: s.Name.V+stage != last, Place: bare(w.Plan.Place(s.Stages[l.Stage].Ref))}
		last = s.Name.V + stage
		cells := make([]finding.Cell, len(t.Columns))
		cells[0], cells[1], cells[2] = text(s.Name.V), text(stage), text("annulus")
		cells[3], cells[4] = quantity(float64(l.From), units.MDLength), quantity(float64(l.To), units.MDLength)
		if l.Track {
			cells[2] = text("shoe track, inside")
		} else {
			cells[5], cells[6] = small(float64(l.Outer)), small(float64(l.Inner))
		}
		cells[7] = quantity(float64(l.To-l.From), units.Length)
		cells[8], cells[9] = quantity(float64(l.Gauge), units.Volume), quantity(excessOf(l), units.None)
		cells[10] = quantity(float64(l.Enlarged), units.Volume)
		if row.Head {
			fillStage(cells, l)
		}
		row.Cells = cells
		t.Rows = append(t.Rows, row)
	}
	return t
}

// excessOf is the enlargement of a line in volume, whichever way it was given:
// an excess on the annulus, or a hole larger than the bit.
func excessOf(l well.CementLine) float64 {
	if l.Gauge <= 0 {
		return 0
	}
	return float64(l.Enlarged/l.Gauge) - 1
}

// fillStage writes what is the same on each line of a stage.
func fillStage(cells []finding.Cell, l well.CementLine) {
	cells[11] = quantity(float64(l.Slurry), units.Volume)
	cells[12], cells[13] = quantity(float64(l.Top), units.MDLength), quantity(float64(l.GaugeTop), units.MDLength)
	if l.Full {
		cells[14] = text("to the top of the string; the rest is returned")
	}
}
