package schema

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
)

// maxFaults is how many faults are said before the check stops.
const maxFaults = 1_000

// Check is the form check of a plan, whichever reader made its tree: members
// the form has, values of the right type, choices, dates and what must be
// there. Quantities may be numbers or texts; their units and ranges are judged
// when the plan is decoded. The faults come in order of place.
//
// A walk along the table of fields accepts a good plan at little cost. What it
// refuses is put before the schema itself as well: what that finds and the
// walk didn't is added.
func Check(d *doc.Doc) doc.Faults {
	w := walk{doc: d, about: map[*doc.Node]bool{}}
	w.object(d.Root, form.Plan)
	if len(w.faults) == 0 {
		return nil
	}
	if !w.full() {
		w.addMissed(judge(d.Root))
	}
	return w.faults.Sort()
}

// walk compares a tree with the form.
type walk struct {
	doc    *doc.Doc
	faults doc.Faults
	about  map[*doc.Node]bool // the nodes that have a fault
}

// fault notes a fault of n that stands at r.
func (w *walk) fault(n *doc.Node, r place.Ref, found, expected string) {
	if w.full() {
		return
	}
	w.about[n] = true
	w.faults = append(w.faults, doc.Fault{Place: w.doc.Place(r), Found: found, Expected: expected})
	if len(w.faults) == maxFaults-1 {
		w.fault(n, r, fmt.Sprintf("%d faults", maxFaults-1), "these mended first: the check stopped here")
	}
}

func (w *walk) full() bool { return len(w.faults) >= maxFaults }

// addMissed adds what the schema refuses at places without a fault.
func (w *walk) addMissed(leaves []leaf) {
	for _, l := range leaves {
		if !w.about[l.node] {
			w.faults = append(w.faults, doc.Fault{Place: w.doc.Place(l.node.Ref), Found: shown(l.node), Expected: l.message})
		}
	}
}

func (w *walk) object(n *doc.Node, o *form.Object) {
	if !w.is(n, doc.Object) {
		return
	}
	for _, m := range n.Members {
		if w.full() {
			return
		}
		if f := o.Field(m.Key); f != nil {
			w.member(m.Value, f)
			continue
		}
		w.fault(n, m.KeyRef, "member "+doc.Quote(m.Key), "a member of "+o.Name+": "+likely(m.Key, o))
	}
	for i := range o.Fields {
		if f := &o.Fields[i]; f.Required && n.Get(f.Name) == nil {
			w.fault(n, n.Ref, "no "+doc.Quote(f.Name), "it in every "+o.Name)
		}
	}
}

func (w *walk) member(n *doc.Node, f *form.Field) {
	switch f.Kind {
	case form.Card:
		w.object(n, f.Of)
	case form.List:
		if w.is(n, doc.Array) {
			for _, item := range n.Items {
				w.object(item, f.Of)
			}
		}
	case form.Flag:
		w.is(n, doc.Bool)
	case form.Whole:
		w.whole(n)
	case form.Quantity, form.Grade, form.Free:
		if n.Kind != doc.Number && n.Kind != doc.String {
			w.fault(n, n.Ref, shown(n), "a number or text")
		}
	default:
		if w.is(n, doc.String) {
			w.text(n, f)
		}
	}
}

// is reports whether n is of the kind, and notes a fault if it isn't.
func (w *walk) is(n *doc.Node, k doc.Kind) bool {
	if n.Kind != k {
		w.fault(n, n.Ref, shown(n), k.String())
	}
	return n.Kind == k
}

func (w *walk) whole(n *doc.Node) {
	if n.Kind != doc.Number || n.Num < 0 || n.Num != math.Trunc(n.Num) {
		w.fault(n, n.Ref, shown(n), "a whole number, 0 or more")
	}
}

func (w *walk) text(n *doc.Node, f *form.Field) {
	switch {
	case f.Const != "" && n.Text != f.Const:
		w.fault(n, n.Ref, shown(n), doc.Quote(f.Const))
	case f.Kind == form.Choice && !slices.Contains(f.Choices, n.Text):
		w.fault(n, n.Ref, shown(n), "one of "+strings.Join(f.Choices, ", "))
	case f.Kind == form.Date && !isDate(n.Text):
		w.fault(n, n.Ref, shown(n), "a date such as "+f.Example)
	}
}

// isDate knows the full-date of RFC 3339: a day that the calendar has.
func isDate(s string) bool {
	_, err := time.Parse(time.DateOnly, s)
	return err == nil
}

// shown is a value as a fault shows it.
func shown(n *doc.Node) string {
	switch n.Kind {
	case doc.String:
		return doc.Quote(n.Text)
	case doc.Number:
		return n.Text
	case doc.Bool:
		return fmt.Sprint(n.Bool)
	}
	return n.Kind.String()
}
