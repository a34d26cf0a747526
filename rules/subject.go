// Package rules judges a plan: requirements (data) on measures (checks) of
// subjects, with unknown as a third value. The engine here knows no physics
// and is handed its checks.
package rules

import (
	"spudgate/plan"
	"spudgate/plan/place"
)

// Kind is a kind of subject. The list is closed: every measure is about one.
type Kind string

// The kinds of subject.
const (
	Well    Kind = "well"
	Section Kind = "section"
	String  Kind = "string"
	Segment Kind = "segment"
	Stage   Kind = "stage"
	Fluid   Kind = "fluid"
	Zone    Kind = "zone on string"
	Test    Kind = "test"
	BOP     Kind = "bop"
	Survey  Kind = "survey"
	Claim   Kind = "claim"
)

// kinds lists them with the kind each one belongs to, outermost first.
var kinds = []struct{ kind, parent Kind }{
	{Well, ""}, {Survey, Well}, {Section, Well}, {String, Well}, {Segment, String}, {Stage, String}, {Fluid, Stage}, {Zone, String}, {Test, Well}, {BOP, Well}, {Claim, String},
}

// ancestors is kind and what it belongs to, innermost first.
func ancestors(k Kind) []Kind {
	out := []Kind{k}
	for p := parent(k); p != ""; p = parent(p) {
		out = append(out, p)
	}
	return out
}

func parent(k Kind) Kind {
	for _, e := range kinds {
		if e.kind == k {
			return e.parent
		}
	}
	return ""
}

// Subject is one thing a requirement is judged on. Indexes point into the
// plan's slices; those that don't apply are -1.
type Subject struct {
	Kind    Kind
	Name    string // by names, never by depth or index: the key of a finding
	String  int
	Segment int
	Stage   int
	Fluid   int
	Section int
	Zone    int // index into Formations; len(Formations)+i into Water
	Test    int
	BOP     int
	Claim   int
	Ref     place.Ref
	// Look takes the tool's own measures by name, for a claim that states one:
	// one for each subject the claim's string has of the measure's kind. It is
	// nil for other subjects, and gives nothing for a name no check has.
	Look func(measure string) []Named
}

// Named is a measure of a named subject.
type Named struct {
	Subject string
	Check   *Check
	Measure Measure
}

// As is the subject seen as one of its ancestors: a fluid as its string.
func (s Subject) As(k Kind) Subject { s.Kind = k; return s }

// Subjects lists every subject of the kind, in plan order. Zones on strings
// are those the string's own hole opens; zones says so.
func Subjects(p *plan.Plan, k Kind, zones func(str int) []int) []Subject {
	var out []Subject
	add := func(s Subject) { s.Kind = k; out = append(out, s) }
	none := Subject{String: -1, Segment: -1, Stage: -1, Fluid: -1, Section: -1, Zone: -1, Test: -1, BOP: -1, Claim: -1}
	switch k {
	case Well, Survey:
		s := none
		s.Name, s.Ref = string(k), p.Well.Name.Ref
		add(s)
	case Section:
		for i := range p.Sections {
			s := none
			s.Section, s.Name, s.Ref = i, p.Sections[i].Name.V, p.Sections[i].Ref
			s.String = p.StringIndex(p.Sections[i].String.V)
			add(s)
		}
	case Test:
		for i := range p.Tests {
			s := none
			s.Test, s.Name, s.Ref = i, p.Tests[i].Name.V, p.Tests[i].Ref
			s.String = p.StringIndex(p.Tests[i].String.V)
			add(s)
		}
	case BOP:
		for i := range p.BOPs {
			s := none
			s.BOP, s.Name, s.Ref = i, p.BOPs[i].Name.V, p.BOPs[i].Ref
			s.String = p.StringIndex(p.BOPs[i].On.V)
			s.Section = p.SectionIndex(p.BOPs[i].Section.V)
			add(s)
		}
	case Claim:
		for i := range p.Claims {
			c := &p.Claims[i]
			s := none
			s.Claim, s.Name, s.Ref = i, joinName(c.String.V, c.Measure.V, c.Case.V), c.Ref
			s.String = p.StringIndex(c.String.V)
			add(s)
		}
	default:
		for i := range p.Strings {
			s := none
			s.String, s.Name, s.Ref = i, p.Strings[i].Name.V, p.Strings[i].Ref
			ofString(p, s, k, zones, add)
		}
	}
	return unique(out)
}

// joinName joins what of a name is given.
func joinName(parts ...string) string {
	out := ""
	for _, p := range parts {
		if p != "" && out != "" {
			out += " / "
		}
		out += p
	}
	return out
}

func ofString(p *plan.Plan, s Subject, k Kind, zones func(int) []int, add func(Subject)) {
	str := &p.Strings[s.String]
	switch k {
	case String:
		add(s)
	case Segment:
		for j := range str.Segments {
			t := s
			t.Segment, t.Ref = j, str.Segments[j].Ref
			t.Name = s.Name + " / " + str.Segments[j].Label()
			add(t)
		}
	case Stage, Fluid:
		for j := range str.Stages {
			t := s
			t.Stage, t.Ref = j, str.Stages[j].Ref
			t.Name = s.Name + " / " + str.Stages[j].Name.V
			if k == Stage {
				add(t)
				continue
			}
			for f := range str.Stages[j].Fluids {
				u := t
				u.Fluid, u.Ref = f, str.Stages[j].Fluids[f].Ref
				u.Name = t.Name + " / " + str.Stages[j].Fluids[f].Name.V
				add(u)
			}
		}
	case Zone:
		for _, z := range zones(s.String) {
			t := s
			t.Zone, t.Ref = z, p.Formations[z].Ref
			t.Name = s.Name + " / " + p.Formations[z].Name.V
			add(t)
		}
	}
}

// unique tells subjects of one name apart by a running number, so that no two
// findings share a key.
func unique(list []Subject) []Subject {
	seen := map[string]int{}
	for i := range list {
		n := list[i].Name
		seen[n]++
		if c := seen[n]; c > 1 {
			list[i].Name = n + " (" + itoa(c) + ")"
		}
	}
	return list
}
