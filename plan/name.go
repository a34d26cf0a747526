package plan

import (
	"fmt"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// name gives nameless strings, sections and the like a name made of size and
// role, and says so. Findings are keyed by names, never by index or depth.
func (p *Plan) name() {
	for i := range p.Sections {
		s := &p.Sections[i]
		if !s.Name.Known() && s.Bit.Known() {
			s.Name.V = units.Size(s.Bit.V) + " hole"
			p.named("section", s.Name.V, s.Ref)
		}
	}
	for i := range p.Strings {
		s := &p.Strings[i]
		if !s.Name.Known() {
			s.Name.V = stringName(s, i)
			p.named("string", s.Name.V, s.Ref)
		}
		for j := range s.Stages {
			st := &s.Stages[j]
			if !st.Name.Known() {
				st.Name.V = fallback(st.Kind.V, "stage", j)
			}
			for k := range st.Fluids {
				if f := &st.Fluids[k]; !f.Name.Known() {
					f.Name.V = fallback(f.Kind.V, "fluid", k)
				}
			}
		}
	}
	for i := range p.Formations {
		if f := &p.Formations[i]; !f.Name.Known() {
			f.Name.V = fallback(f.Contents.V, "formation", i)
		}
	}
	for i := range p.Tests {
		if t := &p.Tests[i]; !t.Name.Known() {
			t.Name.V = strings.TrimSpace(t.String.V + " " + fallback(t.Kind.V, "test", i))
		}
	}
	for i := range p.BOPs {
		if b := &p.BOPs[i]; !b.Name.Known() {
			b.Name.V = strings.TrimSpace(b.Section.V + " BOP")
		}
	}
	for i := range p.Wellhead {
		if w := &p.Wellhead[i]; !w.Name.Known() {
			w.Name.V = strings.TrimSpace(w.String.V + " " + fallback(w.Kind.V, "component", i))
		}
	}
}

func stringName(s *String, i int) string {
	role := strings.ReplaceAll(s.Role.V, "_", " ")
	if len(s.Segments) > 0 && s.Segments[0].OD.Known() {
		return strings.TrimSpace(units.Size(s.Segments[0].OD.V) + " " + role)
	}
	if role != "" {
		return role
	}
	return fmt.Sprintf("string %d", i+1)
}

// fallback names a record by its kind and, where several may share it, its
// number in the list.
func fallback(kind, what string, i int) string {
	if kind == "" {
		kind = what
	}
	return fmt.Sprintf("%s %d", strings.ReplaceAll(kind, "_", " "), i+1)
}

func (p *Plan) named(what, name string, ref place.Ref) {
	p.Notes = append(p.Notes, doc.Remark{Place: p.Doc.Place(ref), Text: fmt.Sprintf("a %s without a name is called %q", what, name)})
}
