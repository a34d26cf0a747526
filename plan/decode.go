package plan

import (
	"fmt"
	"math"
	"reflect"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Decode makes the typed plan of a document. It judges what the form check
// doesn't: units, dimensions and ranges. Each wrong value gives one fault; a
// value of the wrong JSON type is left to the form check and passed over here.
func Decode(d *doc.Doc) (*Plan, doc.Faults) {
	p := &Plan{Doc: d}
	if n := d.Root.Get("units"); n != nil {
		p.System, _ = units.SystemByName(n.Text)
	}
	dec := &decoder{plan: p, doc: d}
	dec.elevations(d.Root.Get("depth_reference"))
	dec.faults = nil // they come again with the whole plan
	dec.object(d.Root, form.Plan, reflect.ValueOf(&p.fields).Elem())
	p.name()
	return p, dec.faults.Sort()
}

type decoder struct {
	plan   *Plan
	doc    *doc.Doc
	faults doc.Faults
	// below is the depth of each datum below the depth reference, m, where
	// known.
	below map[string]float64
}

func (d *decoder) fault(n *doc.Node, expected string) {
	d.faults = append(d.faults, doc.Fault{Place: d.doc.Place(n.Ref), Found: found(n), Expected: expected})
}

func found(n *doc.Node) string {
	switch n.Kind {
	case doc.String:
		return doc.Quote(n.Text)
	case doc.Number:
		return n.Text
	}
	return n.Kind.String()
}

// elevations fills the datum table from the depth reference: depths from
// another datum need it before anything else is read.
func (d *decoder) elevations(n *doc.Node) {
	d.below = map[string]float64{"rotary": 0}
	var ref DepthReference
	if n != nil {
		d.object(n, form.Plan.Field("depth_reference").Of, reflect.ValueOf(&ref).Elem())
	}
	if v, ok := ref.AboveGround.Get(); ok {
		d.below["ground"] = float64(v)
	}
	if v, ok := ref.AboveSeaLevel.Get(); ok {
		d.below["sea_level"] = float64(v)
		if w, ok := ref.WaterDepth.Get(); ok {
			d.below["mudline"] = float64(v + w)
		}
	}
}

// object fills a generated struct, whose fields after Ref stand in the order
// of the form.
func (d *decoder) object(n *doc.Node, o *form.Object, out reflect.Value) {
	if n == nil || n.Kind != doc.Object {
		return
	}
	first := 0
	if out.Type().NumField() > len(o.Fields) {
		out.Field(0).SetUint(uint64(n.Ref))
		first = 1
	}
	datum := d.rowDatum(n, o)
	for i := range o.Fields {
		f := &o.Fields[i]
		if v := n.Get(f.Name); v != nil && v.Kind != doc.Null {
			d.member(v, f, out.Field(first+i), datum)
		}
	}
}

// rowDatum is what the depths of a record are measured from when they don't
// say so themselves. Depths set by an agency or protecting water are from
// ground unless stated, on the sea bed offshore.
func (d *decoder) rowDatum(n *doc.Node, o *form.Object) string {
	if f := o.Field("from"); f != nil && f.Kind == form.Choice {
		if v := n.Get("from"); v != nil && v.Kind == doc.String {
			return v.Text
		}
	}
	if o.Name == "water" {
		if w := d.doc.Root.Get("well").Get("setting"); w != nil && strings.HasPrefix(w.Text, "offshore") {
			return "mudline"
		}
		return "ground"
	}
	return "rotary"
}

func (d *decoder) member(n *doc.Node, f *form.Field, out reflect.Value, datum string) {
	switch f.Kind {
	case form.Card:
		d.object(n, f.Of, out)
	case form.List:
		if n.Kind != doc.Array {
			return
		}
		list := reflect.MakeSlice(out.Type(), len(n.Items), len(n.Items))
		for i, item := range n.Items {
			d.object(item, f.Of, list.Index(i))
		}
		out.Set(list)
	case form.Flag:
		if n.Kind == doc.Bool {
			set(out, n.Ref, func(v reflect.Value) { v.SetBool(n.Bool) })
		}
	case form.Whole:
		d.whole(n, out)
	case form.Quantity:
		d.quantity(n, f, out, datum)
	case form.Grade:
		d.grade(n, f, out)
	default:
		if (n.Kind == doc.String || n.Kind == doc.Number) && strings.TrimSpace(n.Text) != "" {
			text := strings.TrimSpace(n.Text)
			set(out, n.Ref, func(v reflect.Value) { v.SetString(text) })
		}
	}
}

// mostWhole bounds counts: joints, centralizers, rams.
const mostWhole = 1_000_000

func (d *decoder) whole(n *doc.Node, out reflect.Value) {
	if n.Kind != doc.Number || n.Num != math.Trunc(n.Num) || n.Num < 0 {
		return // the form check says so
	}
	if n.Num > mostWhole {
		d.fault(n, fmt.Sprintf("a whole number up to %d", mostWhole))
		return
	}
	set(out, n.Ref, func(v reflect.Value) { v.SetInt(int64(n.Num)) })
}

func set(out reflect.Value, r place.Ref, put func(reflect.Value)) {
	put(out.Field(0))
	out.Field(1).SetUint(uint64(r))
}

// quantity reads a number with a unit, converts it to SI and, for a depth, to
// the plan's depth reference.
func (d *decoder) quantity(n *doc.Node, f *form.Field, out reflect.Value, datum string) {
	w, ok := d.written(n, f)
	if !ok {
		return
	}
	unit := f.Bare(d.plan.System)
	if w.HasUnit {
		unit = w.Unit
	}
	// The trade writes a force in pounds or tonnes of mass: what it weighs.
	weight := f.Dim == units.Force && unit.Dim == units.Mass
	if _, ok := f.Dim.Join(unit.Dim); !ok && !weight {
		d.fault(n, fmt.Sprintf("%s, such as one in %s", f.Dim, f.Unit[d.plan.System]))
		return
	}
	si := unit.ToSI(w.Number)
	if weight {
		si *= units.G
	}
	if d.zero(n, f, w) {
		return
	}
	if f.Ranged() && (si < f.Min || si > f.Max) {
		u := f.Bare(d.plan.System)
		d.fault(n, fmt.Sprintf("%s to %s %s", trim(u.FromSI(f.Min)), trim(u.FromSI(f.Max)), u.Symbol))
		return
	}
	if f.Dim.Line != units.Plain {
		if w.Datum != "" {
			datum = w.Datum
		}
		off, known := d.below[datum]
		if !known {
			d.plan.Doubts = append(d.plan.Doubts, Doubt{n.Ref, "a depth from " + strings.ReplaceAll(datum, "_", " ") + ", and the height of the rotary table over it isn't stated"})
			return
		}
		si += off
	} else if w.Datum != "" {
		d.fault(n, "a length with no datum: only a depth is measured from one")
		return
	}
	set(out, n.Ref, func(v reflect.Value) { v.SetFloat(si) })
}

// zero reports a number written as 0 where the form takes that for "not known",
// and remembers it: it is read as not stated, and said.
func (d *decoder) zero(n *doc.Node, f *form.Field, w units.Written) bool {
	if !f.ZeroUnknown || w.Number != 0 {
		return false
	}
	d.plan.Zeros = append(d.plan.Zeros, Doubt{n.Ref, f.Title})
	return true
}

// written reads the number and unit of a node; a depth may say "surface".
func (d *decoder) written(n *doc.Node, f *form.Field) (units.Written, bool) {
	switch n.Kind {
	case doc.Number:
		return units.Written{Number: n.Num}, true
	case doc.String:
		if f.Dim == units.MDLength && isSurface(n.Text) {
			return units.Written{Number: 0}, true
		}
		w, err := units.Parse(n.Text)
		if err != nil {
			d.fault(n, expectedQuantity(f, d.plan.System)+": "+err.Error())
			return w, false
		}
		return w, true
	}
	return units.Written{}, false // the form check says so
}

func isSurface(s string) bool {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "surface", "surf", "surf.", "circ", "circulated", "to surface":
		return true
	}
	return false
}

func expectedQuantity(f *form.Field, s units.System) string {
	u := f.Bare(s)
	if u.Dim == units.None {
		return "a number"
	}
	return fmt.Sprintf("%s such as %q", f.Dim, strings.TrimSpace(f.Example+" "+u.Symbol))
}

func (d *decoder) grade(n *doc.Node, f *form.Field, out reflect.Value) {
	var w units.Written
	switch n.Kind {
	case doc.Number:
		w.Number = n.Num
	case doc.String:
		var err error
		if w, err = units.Parse(n.Text); err != nil {
			d.fault(n, "a mud weight, a gradient or a pressure: "+err.Error())
			return
		}
	default:
		return
	}
	u := f.Bare(d.plan.System)
	if w.HasUnit {
		u = w.Unit
	}
	// No pressure at the top of a table is a fact; no mud weight isn't.
	if u.Dim != units.Pressure && d.zero(n, f, w) {
		return
	}
	g := units.Grade{SI: u.ToSI(w.Number), Dim: u.Dim}
	var most float64
	switch u.Dim {
	case units.Density:
		most = 4000
	case units.Gradient:
		most = 4000 * units.G
	case units.Pressure:
		most = 4e8
	default:
		d.fault(n, "a mud weight, a gradient or a pressure, such as 9.6 ppg or 0.5 psi/ft")
		return
	}
	if g.SI < 0 || g.SI > most {
		d.fault(n, "0 to "+trim(u.FromSI(most))+" "+u.Symbol)
		return
	}
	set(out, n.Ref, func(v reflect.Value) { v.Set(reflect.ValueOf(g)) })
}

func trim(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(units.Decimal(x, 3), "0"), ".")
}
