package sheet

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"spudgate/plan/form"
	"spudgate/plan/units"
)

// TemplateJSON writes a plan as JSON with one record of each kind, filled with
// the examples of the form, to write one's own over. Quantities carry their
// units; in a metric template the examples of the field system are converted.
func TemplateJSON(w io.Writer, s units.System) error {
	var b strings.Builder
	exampleObject(&b, form.Plan, s, 0)
	b.WriteByte('\n')
	_, err := io.WriteString(w, b.String())
	return err
}

func exampleObject(b *strings.Builder, o *form.Object, s units.System, depth int) {
	pad := strings.Repeat("  ", depth+1)
	b.WriteString("{")
	first := true
	for i := range o.Fields {
		f := &o.Fields[i]
		if f.Example == "" && f.Of == nil {
			continue
		}
		if !first {
			b.WriteString(",")
		}
		first = false
		fmt.Fprintf(b, "\n%s%q: ", pad, f.Name)
		switch f.Kind {
		case form.Card:
			exampleObject(b, f.Of, s, depth+1)
		case form.List:
			b.WriteString("[")
			exampleObject(b, f.Of, s, depth+1)
			b.WriteString("]")
		default:
			b.WriteString(exampleValue(f, s))
		}
	}
	fmt.Fprintf(b, "\n%s}", strings.Repeat("  ", depth))
}

// exampleValue is the example of a field as JSON.
func exampleValue(f *form.Field, s units.System) string {
	text := f.Example
	if f.Name == "units" {
		text = s.String()
	}
	switch f.Kind {
	case form.Flag, form.Whole:
		return text
	case form.Quantity, form.Grade:
		if v, err := strconv.ParseFloat(text, 64); err == nil {
			from, to := f.Bare(units.Field), f.Bare(s)
			if to != from && f.Kind == form.Quantity {
				v, _ = strconv.ParseFloat(strconv.FormatFloat(to.FromSI(from.ToSI(v)), 'g', 4, 64), 64)
			}
			if f.Kind == form.Grade && s == units.Metric {
				return quoted(text + " " + from.Symbol)
			}
			return strconv.FormatFloat(v, 'f', -1, 64)
		}
		if w, err := units.Parse(text); err == nil && !w.HasUnit && s == units.Metric {
			return quoted(text + " " + f.Unit[units.Field])
		}
	}
	return quoted(text)
}

func quoted(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		return `""`
	}
	return string(b)
}
