package record

import (
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// profiles lists every load case along every string: load, rating, factor and
// what is used of the rating, at each place kept of the judged ones. The place
// with the least factor is among them.
func profiles(loads []finding.StringLoads) finding.Table {
	t := finding.Table{Name: "Profiles", Title: "Profiles: every load case along its string, in the moment that governs", Columns: []finding.Column{
		{Name: "string", Title: "String", Width: 22}, {Name: "case", Title: "Load case", Width: 28}, {Name: "md", Title: "MD", Width: 10}, {Name: "tvd", Title: "TVD", Width: 10},
		{Name: "load", Title: "Load", Width: 13}, {Name: "rating", Title: "Rating", Width: 13}, {Name: "factor", Title: "Factor", Width: 9, Formula: "rating / load"},
		{Name: "required", Title: "Wanted", Width: 9}, {Name: "used", Title: "Used of what may be", Width: 11}, {Name: "mark", Title: "Governs", Width: 10},
	}}
	for _, s := range loads {
		for i := range s.Cases {
			t.Rows = append(t.Rows, profile(s.Name, &s.Cases[i])...)
		}
	}
	return t
}

func profile(name string, c *finding.CaseLoad) []finding.Row {
	dim := units.Pressure
	if c.Kind == "tension" {
		dim = units.Force
	}
	var out []finding.Row
	worst := -1
	for i := range c.MD {
		if c.Rating[i] <= 0 || c.Load[i] <= 0 {
			continue // nothing loads the place
		}
		if worst < 0 || c.Used[i] > c.Used[worst] {
			worst = i
		}
	}
	for i := range c.MD {
		if c.Rating[i] <= 0 || c.Load[i] <= 0 {
			continue
		}
		cells := make([]finding.Cell, 10)
		cells[0], cells[1] = text(name), text(c.Title)
		cells[2], cells[3] = quantity(float64(c.MD[i]), units.MDLength), quantity(float64(c.TVD[i]), units.TVDLength)
		cells[4], cells[5] = quantity(float64(c.Load[i]), dim), quantity(float64(c.Rating[i]), dim)
		cells[6] = quantity(float64(c.Rating[i]/c.Load[i]), units.None)
		if c.Required != nil {
			cells[7] = quantity(float64(*c.Required), units.None)
		}
		cells[8] = quantity(float64(c.Used[i]), units.None)
		row := finding.Row{Cells: cells, Head: len(out) == 0}
		if i == worst {
			cells[9] = text("least factor")
			if c.NotMet {
				row.Verdict = finding.NotMet
			}
		}
		out = append(out, row)
	}
	return out
}
