package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/read"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
)

// lint looks over a company's book, basis or variances and lists what is wrong
// with it, in the order in which it stands.
func (c *command) lint(file string, g *rules.Registry, b *basis.Basis) (int, error) {
	raw, err := os.ReadFile(file)
	if err != nil {
		return 0, unfit{err}
	}
	name := filepath.Base(file)
	d, err := read.JSON(name, raw)
	if err != nil {
		return 0, err
	}
	switch format := textOf(d.Root.Get("format")); format {
	case basis.Format:
		if err := b.Layer(name, raw); err != nil {
			return 0, unfit{err}
		}
		fmt.Fprintf(c.out, "%s: a basis called %s, nothing wrong with it\n", name, b.Name)
		return statusClear, nil
	case rules.VarianceFormat:
		vs, err := rules.ParseVariances(name, raw)
		if err != nil {
			return 0, unfit{err}
		}
		return c.lintVariances(name, vs, g, b)
	default:
		return c.lintBook(name, raw, d, g, b)
	}
}

func textOf(n *doc.Node) string {
	if n == nil {
		return ""
	}
	return n.Text
}

// lintVariances finds variances from requirements no built-in book has.
func (c *command) lintVariances(name string, vs []rules.Variance, g *rules.Registry, b *basis.Basis) (int, error) {
	known := map[string]bool{}
	all, err := listed(nil, g, b)
	if err != nil {
		return 0, err
	}
	own := map[string]bool{}
	for _, book := range all {
		own[book.ID] = true
		for i := range book.Requirements {
			known[book.Requirements[i].Key()] = book.Requirements[i].Vary
		}
	}
	wrong := 0
	for i, v := range vs {
		vary, ok := known[v.Requirement]
		book, _, _ := strings.Cut(v.Requirement, "/")
		switch {
		case !ok && own[book]:
			wrong++
			fmt.Fprintf(c.errs, "%s: variance %d: found %q, the book %s has no such requirement\n", name, i+1, v.Requirement, book)
		case ok && !vary:
			wrong++
			fmt.Fprintf(c.errs, "%s: variance %d: no variance may be granted from %s\n", name, i+1, v.Requirement)
		}
	}
	if wrong > 0 {
		return 0, unfitf("%s: %d of %d variances can't be used", name, wrong, len(vs))
	}
	fmt.Fprintf(c.out, "%s: %s, nothing wrong with it\n", name, countOf(len(vs), "variance"))
	return statusClear, nil
}

func (c *command) lintBook(name string, raw []byte, d *doc.Doc, g *rules.Registry, b *basis.Basis) (int, error) {
	var book rules.Book
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&book); err != nil {
		return 0, unfitf("%s: %s", whereIs(d, name, err), strings.TrimPrefix(err.Error(), "json: "))
	}
	list := book.Lint(rules.Tools{Checks: g, Basis: b.TypeOf, Parse: books.Given(g, b), Choices: choicesOf, Builtin: books.Names()})
	sort.SliceStable(list, func(i, j int) bool { return before(placeOf(d, list[i]), placeOf(d, list[j])) })
	errs, warns, tried := 0, 0, 0
	for _, x := range list {
		word := ""
		if x.Warning {
			warns++
			word = "warning: "
		} else {
			errs++
		}
		about := x.Member
		if x.Requirement >= 0 {
			about = book.Requirements[x.Requirement].ID + ", " + x.Member
		}
		fmt.Fprintf(c.errs, "%s: %s%s: %s\n", spot(name, placeOf(d, x)), word, about, x.Text)
	}
	for i := range book.Requirements {
		tried += len(book.Requirements[i].Cases)
	}
	if errs > 0 {
		return 0, unfitf("%s: %s, %s", name, countOf(errs, "fault"), countOf(warns, "warning"))
	}
	text := "nothing wrong with it"
	if warns > 0 {
		text = countOf(warns, "warning")
	}
	fmt.Fprintf(c.out, "%s: %s, %s, %s\n", name, countOf(len(book.Requirements), "requirement"), countOf(tried, "case"), text)
	return statusClear, nil
}

func countOf(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// placeOf is where the member of a complaint stands: its value, else the
// requirement, else the file.
func placeOf(d *doc.Doc, c rules.Complaint) place.Place {
	n := d.Root
	if list := d.Root.Get("requirements"); c.Requirement >= 0 && list != nil && c.Requirement < len(list.Items) {
		n = list.Items[c.Requirement]
	}
	if m := n.Get(c.Member); m != nil {
		n = m
	}
	return d.Place(n.Ref)
}

func before(a, b place.Place) bool {
	if a.Line != b.Line {
		return a.Line < b.Line
	}
	return a.Column < b.Column
}

func spot(name string, p place.Place) string {
	if p.Line == 0 {
		return name
	}
	return fmt.Sprintf("%s:%d:%d", name, p.Line, p.Column)
}

// whereIs finds the place of a decoding error: a member nobody knows, or a
// value of another type.
func whereIs(d *doc.Doc, name string, err error) string {
	if _, key, ok := strings.Cut(err.Error(), `unknown field "`); ok {
		if ref := keyed(d.Root, strings.TrimSuffix(key, `"`)); ref != 0 {
			return spot(name, d.Place(ref))
		}
	}
	var typ *json.UnmarshalTypeError
	if errors.As(err, &typ) {
		steps := strings.Split(typ.Field, ".")
		if ref := keyed(d.Root, steps[len(steps)-1]); ref != 0 {
			return spot(name, d.Place(ref))
		}
	}
	return name
}

// keyed is where the first member called key stands.
func keyed(n *doc.Node, key string) place.Ref {
	if n == nil {
		return 0
	}
	for _, m := range n.Members {
		if m.Key == key {
			return m.KeyRef
		}
		if ref := keyed(m.Value, key); ref != 0 {
			return ref
		}
	}
	for _, item := range n.Items {
		if ref := keyed(item, key); ref != 0 {
			return ref
		}
	}
	return 0
}

// choicesOf are the texts that a fact such as string.role may have: those of the
// plan's form.
func choicesOf(name string) []string {
	object, member, _ := strings.Cut(name, ".")
	if object == "zone" {
		object = "formation"
	}
	f := fieldOf(form.Plan, object, member, nil)
	if f == nil {
		return nil
	}
	return f.Choices
}

// fieldOf finds a member of a named object anywhere in the form.
func fieldOf(o *form.Object, object, member string, seen []*form.Object) *form.Field {
	if slices.Contains(seen, o) {
		return nil
	}
	if o.Name == object {
		return o.Field(member)
	}
	for i := range o.Fields {
		if of := o.Fields[i].Of; of != nil {
			if f := fieldOf(of, object, member, append(seen, o)); f != nil {
				return f
			}
		}
	}
	return nil
}
