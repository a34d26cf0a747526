package plan

import (
	"strings"

	"spudgate/plan/units"
)

// StringIndex finds a string by name; -1 if there is none. Names match with
// case and spaces folded.
func (p *Plan) StringIndex(name string) int {
	if name == "" {
		return -1
	}
	f := fold(name)
	for i := range p.Strings {
		if fold(p.Strings[i].Name.V) == f {
			return i
		}
	}
	return -1
}

// SectionIndex finds a hole section by name; -1 if there is none.
func (p *Plan) SectionIndex(name string) int {
	if name == "" {
		return -1
	}
	f := fold(name)
	for i := range p.Sections {
		if fold(p.Sections[i].Name.V) == f {
			return i
		}
	}
	return -1
}

func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// Same reports whether two names are one, with case and spaces folded.
func Same(a, b string) bool { return fold(a) == fold(b) }

// Label names a segment by what it is: "9-5/8 47 L80 BTC".
func (s *Segment) Label() string {
	var parts []string
	if s.OD.Known() {
		parts = append(parts, units.Size(s.OD.V))
	}
	if s.Weight.Known() {
		u, _ := units.ByName("lb/ft")
		parts = append(parts, trim(u.FromSI(float64(s.Weight.V))))
	}
	for _, t := range []Val[string]{s.Grade, s.Connection} {
		if t.Known() {
			parts = append(parts, t.V)
		}
	}
	if len(parts) == 0 {
		return "segment"
	}
	return strings.Join(parts, " ")
}
