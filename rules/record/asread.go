package record

import (
	"fmt"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// asRead lists every value of the plan as it was read, with its place: what
// the audit rests on, for a reviewer to hold beside the contractor's paper.
func asRead(w *well.Well) finding.Table {
	t := finding.Table{Name: "Plan as read", Title: "The plan as it was read", Columns: []finding.Column{
		{Name: "part", Title: "Part", Width: 20}, {Name: "record", Title: "Record", Width: 30}, {Name: "member", Title: "Value of", Width: 28},
		{Name: "written", Title: "As written", Width: 28}, {Name: "unit", Title: "Unit of a bare number", Width: 14}, {Name: "place", Title: "Place", Width: 18},
	}}
	walk(w, w.Plan.Doc.Root, form.Plan, "", "", &t)
	return t
}

func walk(w *well.Well, n *doc.Node, o *form.Object, part, name string, t *finding.Table) {
	if n == nil || n.Kind != doc.Object {
		return
	}
	for i := range o.Fields {
		f := &o.Fields[i]
		v := n.Get(f.Name)
		if v == nil || v.Kind == doc.Null {
			continue
		}
		switch f.Kind {
		case form.Card:
			walk(w, v, f.Of, f.Title, "", t)
		case form.List:
			for k, item := range v.Items {
				walk(w, item, f.Of, f.Title, recordName(item, name, k), t)
			}
		default:
			t.Rows = append(t.Rows, valueRow(w, v, f, part, name))
		}
	}
}

func recordName(n *doc.Node, parent string, k int) string {
	own := fmt.Sprintf("%d", k+1)
	if v := n.Get("name"); v != nil && v.Text != "" {
		own = v.Text
	}
	if parent != "" {
		return parent + " / " + own
	}
	return own
}

func valueRow(w *well.Well, v *doc.Node, f *form.Field, part, name string) finding.Row {
	text := v.Text
	if v.Kind == doc.Bool {
		text = map[bool]string{true: "yes", false: "no"}[v.Bool]
	}
	unit := ""
	if (f.Kind == form.Quantity || f.Kind == form.Grade) && v.Kind == doc.Number {
		unit = f.Unit[w.Plan.System]
	}
	p := bare(w.Plan.Place(v.Ref))
	return finding.Row{Place: p, Cells: []finding.Cell{{Text: part}, {Text: name}, {Text: f.Title}, {Text: text}, {Text: unit}, {Text: p.String()}}}
}
