package sheet

import (
	"fmt"
	"testing"

	"spudgate/plan/form"
)

// twoMeanings are names that lead elsewhere on purpose. A column called
// "Coupling" holds the thread: it's the trade's other word for the connection,
// while the member of that name is the type of the coupling.
var twoMeanings = map[string]bool{"segments.coupling: coupling": true}

// Every name of every column and label leads to its own field.
func TestNamesLeadToTheirField(t *testing.T) {
	for _, p := range pages {
		objects := map[string]*form.Object{}
		for _, c := range p.cards {
			objects[c.Name] = c.Of
		}
		if p.list != nil {
			objects[p.list.Name] = p.list.Of
			if own := p.list.Of.NameField(); own != nil && columns(p.list.Of)[0] != own {
				t.Errorf("%s: the name isn't the first column", p.name)
			}
		}
		for name, o := range objects {
			d := directoryOf(columns(o))
			for _, f := range columns(o) {
				for _, s := range append([]string{f.Title, f.Name}, f.Also...) {
					h, ok := d.heading(s)
					if key := name + "." + f.Name + ": " + s; (!ok || h.field != f) && !twoMeanings[key] {
						t.Errorf("%s leads to %v", key, fmt.Sprint(h.field))
					}
				}
			}
		}
		for _, f := range p.parentFields() {
			if f == nil {
				t.Fatalf("%s: a record inside a record without a name", p.name)
			}
			if got, _ := directoryOf(columns(p.list.Of)).find(f.Title); got != nil {
				t.Errorf("%s: column %s means two things", p.name, f.Title)
			}
		}
	}
}

// Sheets are found by all their names, and no name means two sheets.
func TestSheetNames(t *testing.T) {
	for _, p := range pages {
		for _, also := range append(p.also(), p.name) {
			if got := pageOf(also); got != p {
				t.Errorf("%s leads to %s", also, got.name)
			}
		}
	}
	for name, want := range map[string]string{"STRINGS": "Strings", "string": "Strings", " Hole sections ": "Sections", "B.O.P.": "BOP", "temperatures": "Temperature"} {
		if p := pageOf(name); p == nil || p.name != want {
			t.Errorf("%q isn't %s", name, want)
		}
	}
	if pageOf("Costs") != nil {
		t.Error("costs are part of no plan")
	}
}

func TestHeadings(t *testing.T) {
	sections := directoryOf(columns(form.Plan.Field("sections").Of))
	segments := directoryOf(columns(form.Plan.Field("strings").Of.Field("segments").Of))
	for _, c := range []struct {
		dir                       directory
		in                        string
		field, unit, datum, extra string
		alien                     string
	}{
		{dir: sections, in: "To", field: "to"},
		{dir: sections, in: "To (m)", field: "to", unit: "m"},
		{dir: sections, in: "to [ft]", field: "to", unit: "ft"},
		{dir: sections, in: "TO, m", field: "to", unit: "m"},
		{dir: sections, in: "MW ppg", field: "mud_density", unit: "ppg"},
		{dir: sections, in: "Mud\n weight  (SG)", field: "mud_density", unit: "SG"},
		{dir: sections, in: "mud_weight", field: "mud_density"},
		{dir: sections, in: "To (m MDRT)", field: "to", unit: "m", datum: "rotary"},
		{dir: sections, in: "To (mMD)", field: "to", unit: "m"},
		{dir: sections, in: "TVD (mTVDSS)", field: "to_tvd", unit: "m", datum: "sea level"},
		{dir: sections, in: "TVD (ft below ground level)", field: "to_tvd", unit: "ft", datum: "ground"},
		{dir: sections, in: "TVD (ft, GL)", field: "to_tvd", unit: "ft", datum: "ground"},
		{dir: sections, in: "Hole size (in.)", field: "bit", unit: "in"},
		{dir: sections, in: "Bit size inches", field: "bit", unit: "in"},
		{dir: sections, in: "Excess %", field: "excess", unit: "%"},
		{dir: sections, in: "To (planned)", field: "to", extra: "planned"},
		{dir: sections, in: "To (psi)", field: "to", alien: "psi"},
		{dir: segments, in: "Burst psi", field: "rating_internal_yield", unit: "psi"},
		{dir: segments, in: "Burst (bar)", field: "rating_internal_yield", unit: "bar"},
		{dir: segments, in: "lb/ft", field: "weight", unit: "lb/ft"},
		{dir: segments, in: "Wt (#/ft)", field: "weight", unit: "lb/ft"},
		{dir: segments, in: "Joint strength (t)", field: "rating_joint", unit: "t"},
		{dir: segments, in: "Grade", field: "grade"},
		{dir: segments, in: "Cost"},
		{dir: segments, in: "()"},
		{dir: segments, in: "Top (", field: "from"},
	} {
		h, ok := c.dir.heading(c.in)
		got := ""
		if ok {
			got = h.field.Name
		}
		if got != c.field || h.unit != c.unit || h.datum != c.datum || h.extra != c.extra || h.alien != c.alien {
			t.Errorf("%q: field %q unit %q datum %q extra %q alien %q", c.in, got, h.unit, h.datum, h.extra, h.alien)
		}
	}
}
