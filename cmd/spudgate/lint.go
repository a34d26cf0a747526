package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"time"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/place"
	"spudgate/plan/read"
	"spudgate/plan/units"
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
	s := &proof{name: name, doc: d}
	switch textOf(d.Root.Get("format")) {
	case basis.Format:
		return c.lintBasis(s, b)
	case rules.VarianceFormat:
		return c.lintVariances(s, g, b)
	default:
		return c.lintBook(s, raw, g, b)
	}
}

func textOf(n *doc.Node) string {
	if n == nil {
		return ""
	}
	return n.Text
}

// lintBasis holds each value by itself against the field of its name.
func (c *command) lintBasis(s *proof, b *basis.Basis) (int, error) {
	root := s.doc.Root
	for _, m := range root.Members {
		switch m.Key {
		case "format":
		case "name":
			s.kind(m.Value, doc.String)
		case "values":
			s.values(m.Value, b)
		case "for":
			if s.kind(m.Value, doc.Array) {
				s.overrides(m.Value, b)
			}
		default:
			s.say(m.KeyRef, "found a member %q that nobody knows", m.Key)
		}
	}
	if textOf(root.Get("name")) == "" {
		s.say(root.Ref, "name: found none, expected what the basis is called")
	}
	return c.tell(s, "a basis called "+textOf(root.Get("name")))
}

func (s *proof) overrides(list *doc.Node, b *basis.Basis) {
	for _, item := range list.Items {
		if !s.kind(item, doc.Object) {
			continue
		}
		role := item.Get("role")
		if known := choicesOf("string.role"); !slices.Contains(known, textOf(role)) {
			s.say(refOf(role, item), "role: found %q, expected one of %s", textOf(role), strings.Join(known, ", "))
		}
		for _, m := range item.Members {
			switch m.Key {
			case "role":
			case "values":
				s.values(m.Value, b)
			default:
				s.say(m.KeyRef, "found a member %q that nobody knows", m.Key)
			}
		}
	}
}

// values lays each value over the basis alone, so that one that can't be used
// hides no other.
func (s *proof) values(n *doc.Node, b *basis.Basis) {
	if !s.kind(n, doc.Object) {
		return
	}
	for _, m := range n.Members {
		if m.Value.Kind != doc.String && m.Value.Kind != doc.Number {
			s.say(m.Value.Ref, "%s: found %s, expected a value", m.Key, m.Value.Kind)
			continue
		}
		var value any = m.Value.Text
		if m.Value.Kind == doc.Number {
			value = json.Number(m.Value.Text)
		}
		one, err := json.Marshal(map[string]any{"format": basis.Format, "values": map[string]any{m.Key: value}})
		if err == nil {
			err = b.Layer(s.name, one)
		}
		if err != nil {
			s.say(m.KeyRef, "%s", strings.TrimPrefix(err.Error(), s.name+": "))
		}
	}
}

// refOf is where a value stands, or the object that lacks it.
func refOf(n, in *doc.Node) place.Ref {
	if n == nil {
		return in.Ref
	}
	return n.Ref
}

// lintVariances finds variances that can't be used: from requirements no
// built-in book has or that can't be varied, unsigned, without dates, or for a
// value nobody can read. One from a book that isn't built in can't be looked up.
func (c *command) lintVariances(s *proof, g *rules.Registry, b *basis.Basis) (int, error) {
	all, err := listed(nil, g, b)
	if err != nil {
		return 0, err
	}
	known := map[string]*rules.Requirement{}
	own := map[string]*rules.Book{}
	for _, book := range all {
		own[book.ID] = book
		for i := range book.Requirements {
			known[book.Requirements[i].Key()] = &book.Requirements[i]
		}
	}
	s.form(s.doc.Root, reflect.TypeFor[struct {
		Format    string           `json:"format"`
		Variances []rules.Variance `json:"variances"`
	}]())
	list := s.doc.Root.Get("variances")
	if list == nil || list.Kind != doc.Array {
		s.say(refOf(list, s.doc.Root), "variances: expected a list of them")
		return c.tell(s, "0 variances")
	}
	for _, v := range list.Items {
		s.variance(v, known, own)
	}
	return c.tell(s, countOf(len(list.Items), "variance"))
}

func (s *proof) variance(v *doc.Node, known map[string]*rules.Requirement, own map[string]*rules.Book) {
	of := func(member string) string { return textOf(v.Get(member)) }
	at := func(member string) place.Ref { return refOf(v.Get(member), v) }
	name := of("requirement")
	id, _, _ := strings.Cut(name, "/")
	r, book := known[name], own[id]
	kind := of("kind")
	switch {
	case name == "":
		s.say(at("requirement"), "requirement: found none, expected one as book/requirement")
	case r == nil && book != nil:
		s.say(at("requirement"), "requirement: found %q, the book %s has no such requirement", name, id)
	case r != nil && !r.Vary:
		s.say(at("requirement"), "requirement: no variance may be granted from %s", name)
	case r != nil && kind == "company" && book.Regulation:
		s.say(at("kind"), "kind: a company can't vary a regulation")
	}
	if kind != "agency" && kind != "company" {
		s.say(at("kind"), "kind: found %q, expected agency or company", kind)
	}
	if of("subject") == "" {
		s.say(at("subject"), "subject: found none, expected what it's granted for")
	}
	if value := of("value"); value != "" {
		if _, err := units.Parse(value); err != nil {
			s.say(at("value"), "value: %v", err)
		}
	}
	s.signed(v)
}

// signed warns of what leaves a variance unsigned, and finds dates no variance
// can have.
func (s *proof) signed(v *doc.Node) {
	for _, m := range []string{"reason", "approver", "reference", "granted", "expires"} {
		if textOf(v.Get(m)) == "" {
			s.found = append(s.found, complaint{s.doc.Place(v.Ref), m + ": found none; the audit holds a plan that rests on it", true})
		}
	}
	granted, expires := textOf(v.Get("granted")), textOf(v.Get("expires"))
	for _, m := range []string{"granted", "expires"} {
		n := v.Get(m)
		if _, err := time.Parse(time.DateOnly, textOf(n)); textOf(n) != "" && err != nil {
			s.say(n.Ref, "%s: found %q, expected a date as yyyy-mm-dd", m, n.Text)
		}
	}
	if granted != "" && expires != "" && expires < granted {
		s.say(v.Get("expires").Ref, "expires: found %s, before %s, when it was granted", expires, granted)
	}
}

func (c *command) lintBook(s *proof, raw []byte, g *rules.Registry, b *basis.Basis) (int, error) {
	s.form(s.doc.Root, reflect.TypeFor[rules.Book]())
	var book rules.Book
	var typ *json.UnmarshalTypeError
	if err := json.Unmarshal(raw, &book); err != nil && !errors.As(err, &typ) {
		return 0, unfitf("%s: %v", s.name, err)
	}
	var list []complaint
	for _, x := range book.Lint(rules.Tools{Checks: g, Basis: b.TypeOf, Parse: books.Given(g, b), Choices: choicesOf, Builtin: books.Names()}) {
		about := x.Member
		if x.Requirement >= 0 {
			about = book.Requirements[x.Requirement].ID + ", " + x.Member
		}
		list = append(list, complaint{placeOf(s.doc, x), about + ": " + x.Text, x.Warning})
	}
	s.besides(list)
	tried := 0
	for i := range book.Requirements {
		tried += len(book.Requirements[i].Cases)
	}
	return c.tell(s, countOf(len(book.Requirements), "requirement")+", "+countOf(tried, "case"))
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
