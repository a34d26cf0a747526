package main

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/place"
)

// complaint is something wrong with a document, where it stands.
type complaint struct {
	at      place.Place
	text    string
	warning bool
}

// proof collects what is wrong with one document.
type proof struct {
	name  string
	doc   *doc.Doc
	found []complaint
}

func (s *proof) say(at place.Ref, format string, args ...any) {
	s.found = append(s.found, complaint{at: s.doc.Place(at), text: fmt.Sprintf(format, args...)})
}

// besides adds what stands at a place the form has nothing against: a value of
// the wrong type isn't missing as well.
func (s *proof) besides(list []complaint) {
	form := s.found
	for _, c := range list {
		if !slices.ContainsFunc(form, func(f complaint) bool { return f.at == c.at }) {
			s.found = append(s.found, c)
		}
	}
}

// tell lists everything found in the order in which it stands, and says at the
// end how much of it there is.
func (c *command) tell(s *proof, what string) (int, error) {
	slices.SortStableFunc(s.found, func(a, b complaint) int {
		return cmp.Or(cmp.Compare(a.at.Line, b.at.Line), cmp.Compare(a.at.Column, b.at.Column))
	})
	faults, warnings := 0, 0
	for _, x := range s.found {
		word := ""
		if x.warning {
			warnings++
			word = "warning: "
		} else {
			faults++
		}
		fmt.Fprintf(c.errs, "%s: %s%s\n", spot(s.name, x.at), word, x.text)
	}
	if faults > 0 {
		return 0, unfitf("%s: %s, %s", s.name, countOf(faults, "fault"), countOf(warnings, "warning"))
	}
	text := "nothing wrong with it"
	if warnings > 0 {
		text = countOf(warnings, "warning")
	}
	fmt.Fprintf(c.out, "%s: %s, %s\n", s.name, what, text)
	return statusClear, nil
}

func spot(name string, p place.Place) string {
	if p.Line == 0 {
		return name
	}
	return fmt.Sprintf("%s:%d:%d", name, p.Line, p.Column)
}

// form finds every member nobody knows and every value of a wrong type, where
// decoding stops at the first.
func (s *proof) form(n *doc.Node, t reflect.Type) {
	switch t.Kind() {
	case reflect.Pointer:
		s.form(n, t.Elem())
	case reflect.Struct:
		if s.kind(n, doc.Object) {
			s.members(n, t)
		}
	case reflect.Map:
		if s.kind(n, doc.Object) {
			for _, m := range n.Members {
				s.form(m.Value, t.Elem())
			}
		}
	case reflect.Slice:
		if s.kind(n, doc.Array) {
			for _, item := range n.Items {
				s.form(item, t.Elem())
			}
		}
	case reflect.String:
		s.kind(n, doc.String)
	case reflect.Bool:
		s.kind(n, doc.Bool)
	}
}

func (s *proof) kind(n *doc.Node, want doc.Kind) bool {
	if n.Kind != want && n.Kind != doc.Null {
		s.say(n.Ref, "found %s, expected %s", n.Kind, want)
	}
	return n.Kind == want
}

func (s *proof) members(n *doc.Node, t reflect.Type) {
	for _, m := range n.Members {
		known := false
		for i := range t.NumField() {
			name, _, _ := strings.Cut(t.Field(i).Tag.Get("json"), ",")
			if t.Field(i).IsExported() && name == m.Key {
				known = true
				s.form(m.Value, t.Field(i).Type)
			}
		}
		if !known {
			s.say(m.KeyRef, "found a member %q that nobody knows", m.Key)
		}
	}
}
