package sheet

import (
	"strconv"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
)

// A record is referred to by its name. Where a name can't do that, because it
// is missing or another record of the list has the same, "#2" stands for the
// second record of the list. A record that says nothing itself and is only
// there for the records inside it has such a mark in place of its name.

// numbered reads a reference by number, from 1.
func numbered(s string) (int, bool) {
	digits, ok := strings.CutPrefix(s, "#")
	n, err := strconv.Atoi(digits)
	return n, ok && err == nil && n > 0 && digits == strconv.Itoa(n)
}

// dropPlaceholder takes the mark away from a record that has nothing else.
func dropPlaceholder(rec *doc.Node) {
	if len(rec.Members) == 1 && rec.Members[0].Key == "name" {
		if _, ok := numbered(rec.Members[0].Value.Text); ok {
			rec.Members = nil
		}
	}
}

// names finds the records of a list by name: as written, and as people vary it.
type names struct {
	size          int // of the list when this was made
	exact, folded map[string][]int
}

func namesOf(list *doc.Node) names {
	n := names{len(list.Items), map[string][]int{}, map[string][]int{}}
	for i, item := range list.Items {
		if v := item.Get("name"); v != nil && v.Text != "" {
			n.exact[v.Text] = append(n.exact[v.Text], i)
			n.folded[loose(v.Text)] = append(n.folded[loose(v.Text)], i)
		}
	}
	return n
}

// loose is a name without case, punctuation and spaces.
func loose(s string) string { return singular(fold(s)) }

// listOf is the list a row belongs to: the list itself, or that inside the
// records its first columns name.
func (r *reader) listOf(w *well, t *table, row *row) (*doc.Node, bool) {
	at := r.at(t.grid, row.cells[0].col, row.n)
	of := w.root(at)
	for i, f := range t.page.chain {
		var ok bool
		if of, ok = r.parent(w, t, row, i, w.child(of, f)); !ok {
			return nil, false
		}
	}
	header := &t.rows[t.header]
	return w.member(of, t.page.list, r.at(t.grid, header.cells[0].col, header.n)), true
}

// child is the list of an object, or an empty one that isn't part of the tree.
func (w *well) child(of *doc.Node, f *form.Field) childList {
	if n := of.Get(f.Name); n != nil {
		return childList{n, of, f}
	}
	return childList{&doc.Node{Kind: doc.Array}, of, f}
}

type childList struct {
	*doc.Node
	of    *doc.Node
	field *form.Field
}

// parent finds the record that a row names at one level. A row that names none
// belongs to the only one there is. A middle level that was never written down
// (slurries of a string, and no word of stages) is made up, and that is said.
func (r *reader) parent(w *well, t *table, row *row, level int, list childList) (*doc.Node, bool) {
	col := t.parents[level]
	s := r.key(t, row, col)
	at := r.at(t.grid, row.cells[0].col, row.n)
	if col != 0 {
		at = r.at(t.grid, col, row.n)
	}
	switch {
	case s == "" && len(list.Items) == 1:
		return list.Items[0], true
	case s == "" && len(list.Items) == 0 && level > 0:
		return r.made(w, list, at), true
	case s == "":
		r.nameless(t, at, list, level)
		return nil, false
	}
	found := t.lookup(list.Node, s)
	if len(found) == 1 {
		return list.Items[found[0]], true
	}
	what := list.field.Of.NameField().Title
	if len(found) > 1 {
		r.fault(at, strconv.Itoa(len(found))+" records of sheet "+list.field.Sheet+" called "+doc.Quote(s), "a name of its own for each, or its number as #"+strconv.Itoa(found[0]+1))
		return nil, false
	}
	r.fault(at, strings.ToLower(what)+" "+doc.Quote(s), known(list))
	return nil, false
}

// made adds a record for a level that the workbook leaves out.
func (r *reader) made(w *well, list childList, at place.Place) *doc.Node {
	rec := &doc.Node{Kind: doc.Object, Ref: w.doc.Add(at, "")}
	n := w.member(list.of, list.field, at)
	n.Items = append(n.Items, rec)
	w.doc.Unread = append(w.doc.Unread, doc.Remark{Place: w.doc.Place(rec.Ref), Text: "sheet " + list.field.Sheet + " has no row for it: one " + list.field.Of.Name + " is taken to be meant"})
	return rec
}

// nameless is the fault of a row that must say what it belongs to; a missing
// column is said once.
func (r *reader) nameless(t *table, at place.Place, list childList, level int) {
	title := list.field.Of.NameField().Title
	if t.parents[level] != 0 {
		r.fault(at, "no name", known(list))
		return
	}
	if t.told {
		return
	}
	t.told = true
	header := &t.rows[t.header]
	r.fault(r.at(t.grid, header.cells[0].col, header.n), "no column "+doc.Quote(title), "one, with "+known(list))
}

// known says which names would do.
func known(list childList) string {
	var all []string
	for i, item := range list.Items {
		if v := item.Get("name"); v != nil {
			all = append(all, v.Text)
		} else {
			all = append(all, "#"+strconv.Itoa(i+1))
		}
		if len(all) > 8 {
			break
		}
	}
	if len(all) == 0 {
		return "a row for it on sheet " + list.field.Sheet
	}
	return "a name from sheet " + list.field.Sheet + ": " + several(all)
}

// lookup gives the records of a list that a name or number means.
func (t *table) lookup(list *doc.Node, s string) []int {
	n, ok := t.index[list]
	if !ok || n.size != len(list.Items) {
		n = namesOf(list)
		t.index[list] = n
	}
	if found := n.exact[s]; len(found) > 0 {
		return found
	}
	if i, ok := numbered(s); ok && i <= len(list.Items) {
		return []int{i - 1}
	}
	return n.folded[loose(s)]
}
