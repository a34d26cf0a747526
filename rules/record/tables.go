package record

import (
	"errors"
	"strings"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
	"spudgate/rules/whatif"
)

// tables are the sheets of numbers behind the findings.
func tables(w *well.Well, loads []finding.StringLoads, bearings []whatif.Bearing) []finding.Table {
	return []finding.Table{strength(w), profiles(loads), cement(w), placed(w), excess(bearings), pressures(w), asRead(w)}
}

// quantity makes a cell of a number.
func quantity(si float64, d units.Dim) finding.Cell {
	return finding.Cell{Quantity: &finding.Quantity{SI: si, Dim: d}}
}

func small(si float64) finding.Cell {
	return finding.Cell{Quantity: &finding.Quantity{SI: si, Dim: units.Length, Small: true}}
}

func text(s string) finding.Cell { return finding.Cell{Text: s} }

// depths are the two cells of a place in the well.
func depths(at well.At) (md, tvd finding.Cell) {
	if v, ok := at.MD.Get(); ok {
		md = quantity(float64(v), units.MDLength)
	}
	if v, ok := at.TVD.Get(); ok {
		tvd = quantity(float64(v), units.TVDLength)
	}
	return md, tvd
}

// reason says in a cell why there is no number.
func reason(err error) string {
	var absent well.Absent
	var missing well.Missing
	switch {
	case errors.As(err, &absent):
		return "not applicable: " + string(absent)
	case errors.As(err, &missing):
		var names []string
		for _, l := range missing {
			names = append(names, l.Input)
		}
		return "needs " + strings.Join(names, "; ")
	}
	return err.Error()
}

// strength lists the governing place of every case, string and segment. Cases
// that don't apply are left to the register.
func strength(w *well.Well) finding.Table {
	t := finding.Table{Name: "Strength", Title: "Strength: the governing place of every load case", Columns: []finding.Column{
		{Name: "string", Title: "String", Width: 22}, {Name: "pipe", Title: "Pipe", Width: 20}, {Name: "case", Title: "Load case", Width: 28},
		{Name: "md", Title: "MD", Width: 10}, {Name: "tvd", Title: "TVD", Width: 10},
		{Name: "inside", Title: "Inside", Width: 11}, {Name: "outside", Title: "Outside", Width: 11}, {Name: "axial", Title: "Axial force", Width: 12},
		{Name: "load", Title: "Load", Width: 12, Input: true}, {Name: "rating", Title: "Rating", Width: 12, Input: true},
		{Name: "factor", Title: "Factor", Width: 9, Formula: "rating / load"},
		{Name: "from", Title: "Rating of", Width: 18}, {Name: "note", Title: "What governed, or is missing", Width: 48},
	}}
	last := ""
	for _, l := range w.StrengthLines() {
		var absent well.Absent
		if l.Err != nil && errors.As(l.Err, &absent) {
			continue
		}
		name := w.Plan.Strings[l.String].Name.V
		row := finding.Row{Head: name != last, Place: bare(w.Plan.Place(l.Ref))}
		last = name
		cells := make([]finding.Cell, len(t.Columns))
		cells[0], cells[1], cells[2] = text(name), text(l.Label), text(well.CaseWords(l.Case))
		cells[12] = text(l.Note)
		if l.Err != nil {
			row.Verdict = finding.NotAssessed
			cells[12] = text(reason(l.Err))
		} else {
			fillLoad(cells, l)
		}
		row.Cells = cells
		t.Rows = append(t.Rows, row)
	}
	return t
}

func fillLoad(cells []finding.Cell, l well.StrengthLine) {
	cells[3], cells[4] = depths(l.At)
	cells[5], cells[6] = quantity(float64(l.Inside), units.Pressure), quantity(float64(l.Outside), units.Pressure)
	cells[7] = quantity(float64(l.Axial), units.Force)
	if l.Factor <= 0 {
		cells[12] = text(strings.TrimPrefix(l.Note+"; no load", "; "))
		return
	}
	cells[8], cells[9] = quantity(l.Load, l.Dim), quantity(l.Rating, l.Dim)
	cells[10], cells[11] = quantity(l.Factor, units.None), text(l.From)
}

// pressures lists every hole with its window and surface pressure.
func pressures(w *well.Well) finding.Table {
	t := finding.Table{Name: "Pressures", Title: "Pressures: every open hole, its window and what may come to the surface", Columns: []finding.Column{
		{Name: "hole", Title: "Hole section", Width: 20}, {Name: "from", Title: "From", Width: 10}, {Name: "to", Title: "To", Width: 10},
		{Name: "mud_min", Title: "Lightest mud", Width: 11}, {Name: "pore", Title: "Pore there", Width: 11}, {Name: "over", Title: "Mud over pore", Width: 11, Formula: "mud_min - pore"},
		{Name: "mud_max", Title: "Heaviest mud", Width: 11}, {Name: "fracture", Title: "Fracture there", Width: 11}, {Name: "under", Title: "Fracture over mud", Width: 11, Formula: "fracture - mud_max"},
		{Name: "surface", Title: "Anticipated surface pressure", Width: 14}, {Name: "bound", Title: "Bound that governed", Width: 34},
		{Name: "kick", Title: "Kick tolerance", Width: 11}, {Name: "note", Title: "What is missing", Width: 44},
	}}
	for _, l := range w.PressureLines() {
		cells := make([]finding.Cell, len(t.Columns))
		cells[0] = text(l.Hole.Plan.Name.V)
		cells[1], cells[2] = quantity(float64(l.From), units.MDLength), quantity(float64(l.To), units.MDLength)
		var notes []string
		note := func(err error) bool {
			if err == nil {
				return true
			}
			if r := reason(err); !strings.HasPrefix(r, "not applicable") && !contains(notes, r) {
				notes = append(notes, r)
			}
			return false
		}
		if note(l.PoreErr) {
			fillMargin(cells[3:6], l.Pore, 1)
		}
		if note(l.FractureErr) {
			fillMargin(cells[6:9], l.Fracture, -1)
		}
		if note(l.DrillingErr) {
			cells[9], cells[10] = quantity(float64(l.Drilling.P), units.Pressure), text(l.Drilling.Bound)
		}
		if note(l.KickErr) {
			cells[11] = text("any volume")
			if !l.Kick.Full {
				cells[11] = quantity(float64(l.Kick.Volume), units.Volume)
			}
		}
		cells[12] = text(strings.Join(notes, "; "))
		t.Rows = append(t.Rows, finding.Row{Cells: cells})
	}
	return t
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// fillMargin fills mud, curve and what is between: mud over the curve for sign
// +1, the curve over the mud for -1.
func fillMargin(cells []finding.Cell, m well.Margin, sign float64) {
	cells[0], cells[1] = quantity(float64(m.Mud), units.Density), quantity(float64(m.Curve), units.Density)
	cells[2] = quantity(sign*float64(m.Mud-m.Curve), units.Density)
}
