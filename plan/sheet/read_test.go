package sheet

import (
	"strings"
	"testing"

	"spudgate/plan/doc"
)

// want is a value at a path, as "cell=value"; "" for an absent one.
func check(t *testing.T, d *doc.Doc, path, want string) {
	t.Helper()
	n := at(d.Root, path)
	got := ""
	if n != nil {
		got = d.Place(n.Ref).String() + "=" + string(shownNode(n))
		if p := d.Place(n.Ref).Path; p != path {
			t.Errorf("%s has path %s", path, p)
		}
	}
	if got != want {
		t.Errorf("%s: got %q, want %q", path, got, want)
	}
}

// at finds a node by path.
func at(n *doc.Node, path string) *doc.Node {
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' }) {
		if n == nil {
			return nil
		}
		if i, ok := strings.CutSuffix(step, "]"); ok {
			k := int(i[0] - '0')
			if k >= len(n.Items) {
				return nil
			}
			n = n.Items[k]
			continue
		}
		n = n.Get(step)
	}
	return n
}

func shownNode(n *doc.Node) string {
	switch {
	case n.Kind == doc.Bool && n.Bool:
		return "true"
	case n.Kind == doc.Bool:
		return "false"
	case n.Kind == doc.Number:
		return n.Text
	}
	return "'" + n.Text
}

func readTabs(t *testing.T, tabs ...tab) *doc.Doc {
	t.Helper()
	return readOne(t, packTabs(tabs...).bytes())
}

func TestCards(t *testing.T) {
	d := readTabs(t, tab{name: "well", rows: [][]any{
		{"Casing plan for approval"},
		{"Units", "metric"},
		{"WELL"},
		{"Well no.", "Tarn Hollow 3"},
		{"Revision", 2.0},
		{"Type of rig", "big"},
		{"Setting", "Offshore, surface BOP"},
		{"Vertical", "Y"},
		{"H2S ppm", 20.0},
		{"CO2", formatted{0.015, "0.0%"}},
		{"Plan date", formatted{46450, "d-mmm-yy"}},
		{"Water depth (ft)", 300.0},
		{nil, nil, "Rotary above ground", "n/a"},
		{"KB elevation", 40.0, "ft"},
		{"Depth reference"},
		{"Depth of water", 90.0},
		{"Rig"},
		{"Rig", "Rig 7"},
		{"Block weight", "35,000 lbf", "ft"},
		{"Completion"},
		{42.0, "no label"},
	}})
	for path, want := range map[string]string{
		"format": "well='spudgate-plan/1", "units": "well!B2='metric", "well.name": "well!B4='Tarn Hollow 3", "well.revision": "well!B5='2",
		"well.setting": "well!B7='offshore_surface_bop", "well.vertical": "well!B8=true", "well.h2s": "well!B9=20", "well.co2": "well!B10='1.5 %",
		"well.plan_date": "well!B11='2027-03-04", "depth_reference.water_depth": "well!B12='300 ft", "depth_reference.above_ground": "",
		"depth_reference.above_sea_level": "well!B14='40 ft", "rig.name": "well!B18='Rig 7", "rig.block_weight": "well!B19='35,000 lbf",
	} {
		check(t, d, path, want)
	}
	checkRemarks(t, d,
		`well!A6: "Type of rig" isn't a label of this sheet; its value isn't read`,
		"well!A21: no label stands before it; it isn't read",
		`well!D13: no well has its values in this column; the cell isn't read`,
		"well!B16: stated again: well!B12 is read, this isn't",
		"well!C19: no well has its values in this column; the cell isn't read",
	)
	// Three cards have a name: outside of them the label means none.
	vague := readTabs(t, tab{name: "Well", rows: [][]any{{"Name", "x"}, {"Operator", "y"}}})
	checkRemarks(t, vague, `Well!A1: "Name" isn't a label of this sheet; its value isn't read`)
	if k := d.Root.Get("well").Members[0].KeyRef; d.Place(k).String() != "well!A4" || d.Text(k) != "Well no." {
		t.Errorf("key at %s, %q", d.Place(k), d.Text(k))
	}
}

func checkRemarks(t *testing.T, d *doc.Doc, want ...string) {
	t.Helper()
	got := map[string]bool{}
	for _, r := range d.Unread {
		got[r.Place.String()+": "+r.Text] = true
	}
	for _, w := range want {
		if !got[w] {
			t.Errorf("no remark %s", w)
		}
		delete(got, w)
	}
	for g := range got {
		t.Errorf("remark %s", g)
	}
}

func TestList(t *testing.T) {
	d := readTabs(t, tab{name: "Well", rows: [][]any{{"Well name", "Tarn Hollow 3"}}},
		tab{name: "Casing strings"},
		tab{name: "HOLE SECTIONS", rows: [][]any{
			{"Tarn Hollow 3, hole sections"},
			{},
			{"Remarks", "Hole size (in)", "Section", "TO [m]", "Mud weight", "Excess", "Build", "Mud type", "Rotating hours", "Section TD", nil},
			{"driven", 13.375, "13 3/8", 1000.0, "1,56", formatted{0.25, "0%"}, "x", "Fresh-water", formatted{0.5, "h:mm"}, 1.0},
			{},
			{nil, formatted{9.625, "# ?/?"}, 7.0, "3,000 ft", formatted{1.25, `0.00" SG"`}, 25.0, false, "mist", 12.0, nil, "stray"},
			{nil, "12¼\"", formatted{2, "0.0"}, " 9850 ", 10.4, "0.25", "no", "-", "12 h"},
		}})
	for path, want := range map[string]string{
		"sections[0].bit": "HOLE SECTIONS!B4=13.375", "sections[0].name": "HOLE SECTIONS!C4='13 3/8", "sections[0].to": "HOLE SECTIONS!D4='1000 m",
		"sections[0].mud_density": "HOLE SECTIONS!E4='1,56", "sections[0].excess": "HOLE SECTIONS!F4='25 %", "sections[0].build": "HOLE SECTIONS!G4=true",
		"sections[0].mud_type": "HOLE SECTIONS!H4='fresh_water", "sections[0].rotating_hours": "HOLE SECTIONS!I4='720 min",
		"sections[1].bit": "HOLE SECTIONS!B6=9.625", "sections[1].name": "HOLE SECTIONS!C6='7", "sections[1].to": "HOLE SECTIONS!D6='3,000 ft",
		"sections[1].mud_density": "HOLE SECTIONS!E6='1.25 SG", "sections[1].excess": "HOLE SECTIONS!F6=25", "sections[1].build": "HOLE SECTIONS!G6=false",
		"sections[2].bit": `HOLE SECTIONS!B7='12¼"`, "sections[2].name": "HOLE SECTIONS!C7='2.0", "sections[2].to": "HOLE SECTIONS!D7='9850 m",
		"sections[2].mud_density": "HOLE SECTIONS!E7=10.4", "sections[2].mud_type": "", "sections[2].build": "HOLE SECTIONS!G7=false", "sections[3]": "",
	} {
		check(t, d, path, want)
	}
	checkRemarks(t, d,
		"Casing strings: no part of a plan is called so; the sheet isn't read",
		`HOLE SECTIONS!A3: "Remarks" isn't a column of this sheet; it isn't read`,
		`HOLE SECTIONS!J3: column D is read for "To"; this one isn't`,
		"HOLE SECTIONS!K6: the column has no header; it isn't read",
		`HOLE SECTIONS!H7: "-" is taken as left blank`,
	)
}

func TestUnitRow(t *testing.T) {
	d := readTabs(t, tab{name: "Survey", rows: [][]any{{"MD", "Inc", "Azi", "TVD"}, {"(m)", "deg", "deg", "m"}, {100.0, 1.0, 2.0, 99.0}}})
	check(t, d, "survey[0].md", "Survey!A3='100 m")
	check(t, d, "survey[0].inclination", "Survey!B3=1")
	check(t, d, "survey[0].tvd", "Survey!D3='99 m")
	check(t, d, "survey[1]", "")
}

func TestDatumInHeader(t *testing.T) {
	d := readTabs(t, tab{name: "Formations", rows: [][]any{{"Formation", "Top TVD (m TVDSS)", "Base TVD (ft)", "TDS (ppm)"}, {"Brant sand", 1200.0, "900 m from ground", 5.0}}})
	check(t, d, "formations[0].top_tvd", "Formations!B2='1200 m from sea level")
	check(t, d, "formations[0].base_tvd", "Formations!C2='900 m from ground")
	check(t, d, "formations[0].tds", "Formations!D2=5")
}

func TestParents(t *testing.T) {
	strings := tab{name: "Strings", rows: [][]any{{"String", "Shoe"}, {"13 3/8 surface", 3200.0}, {"9-5/8 Intermediate", 9840.0}, {nil, 12000.0}}}
	stages := tab{name: "Stages", rows: [][]any{{"String", "Stage", "Kind"}, {"13-3/8 SURFACE", "primary", "primary"}, {"#3", "one", "primary"}, {"#3", "two", "squeeze"}}}
	cement := tab{name: "Cement", rows: [][]any{{"Casing", "Stage", "Fluid", "Density"},
		{"13 3/8 surface", nil, "lead", 12.8}, {nil, nil, "tail", 15.8}, {"9-5/8 intermediate", nil, "lead", 13.0}, {"#3", "two", "tail", 16.0}},
		extra: `<mergeCells count="2"><mergeCell ref="A2:A3"/><mergeCell ref="D4:D5"/></mergeCells>`}
	strengths := tab{name: "Strengths", rows: [][]any{{"String", "Stage", "Fluid", "Time", "Strength"}, {"13 3/8 surface", "primary", "tail", 24.0, 1200.0}}}
	d := readTabs(t, strings, stages, cement, strengths)
	for path, want := range map[string]string{
		"strings[0].stages[0].fluids[0].name": "Cement!C2='lead", "strings[0].stages[0].fluids[1].density": "Cement!D3=15.8",
		"strings[1].stages[0].fluids[0].density": "Cement!D4=13", "strings[2].stages[1].fluids[0].name": "Cement!C5='tail",
		"strings[0].stages[0].fluids[1].strengths[0].strength": "Strengths!E2=1200", "strings[2].stages[0].fluids": "",
	} {
		check(t, d, path, want)
	}
	checkRemarks(t, d, "Cement!B4: sheet Stages has no row for it: one stage is taken to be meant")
}

func TestSeveralWells(t *testing.T) {
	docs, err := Read("pad.xlsx", packTabs(
		tab{name: "Well", rows: [][]any{{"Well"}, {"Well name", "Tarn 1", "Tarn 2"}, {"Units", "field", "metric"}, {"Revision", "A", "B"}, {"Purpose", nil, "gas"}}},
		tab{name: "Completion", rows: [][]any{{"Tubing OD", "2-7/8", nil}, {"Packer (ft)", 9000.0, 9100.0}}},
		tab{name: "Strings", rows: [][]any{{"Well", "String", "Shoe (ft)"}, {"Tarn 1", "surface", 3000.0}, {"tarn  2", "surface", 3100.0}, {"Tarn 2", "intermediate", 9000.0}}},
	).bytes())
	if err != nil || len(docs) != 2 {
		t.Fatal(len(docs), err)
	}
	for path, want := range map[string]string{"well.name": "Well!B2='Tarn 1", "well.purpose": "", "completion.packer": "Completion!B2=9000", "strings[0].shoe": "Strings!C2=3000", "strings[1]": ""} {
		check(t, docs[0], path, want)
	}
	for path, want := range map[string]string{"well.name": "Well!C2='Tarn 2", "well.purpose": "Well!C5='gas", "completion.tubing_od": "", "completion.packer": "Completion!C2='9100 ft", "strings[0].shoe": "Strings!C3='3100 ft", "strings[1].name": "Strings!B4='intermediate"} {
		check(t, docs[1], path, want)
	}
	if docs[0].SHA256 != docs[1].SHA256 || len(docs[0].SHA256) != 64 {
		t.Error("both plans are of one file")
	}
}

// Each fault at its place, and no other.
func TestFaults(t *testing.T) {
	well := tab{name: "Well", rows: [][]any{{"Well name", "Tarn 1"}}}
	two := tab{name: "Well", rows: [][]any{{"Well name", "Tarn 1", "Tarn 2"}}}
	named := tab{name: "Strings", rows: [][]any{{"String", "Shoe"}, {"surface", 1.0}, {"production", 2.0}}}
	segment := func(header string, cells ...any) tab {
		return tab{name: "Segments", rows: [][]any{{header, "OD", "Weight"}, cells}}
	}
	for _, c := range []struct {
		tabs []tab
		want string
	}{
		{[]tab{well, named, segment("String", "liner", 7.0)}, `plan.xlsx Segments!A2: found string "liner", expected a name from sheet Strings: surface, production`},
		{[]tab{well, named, segment("String", nil, 7.0)}, "plan.xlsx Segments!A2: found no name, expected a name from sheet Strings: surface, production"},
		{[]tab{well, named, segment("Wall", 0.5, 7.0)}, `plan.xlsx Segments!A1: found no column "String", expected one, with a name from sheet Strings: surface, production`},
		{[]tab{well, segment("String", "surface", 7.0)}, `plan.xlsx Segments!A2: found string "surface", expected a row for it on sheet Strings`},
		{[]tab{well, {name: "Strings", rows: [][]any{{"String", "Shoe"}, {"a", 1.0}, {"a", 2.0}}}, segment("String", "a", 7.0)}, `plan.xlsx Segments!A2: found 2 records of sheet Strings called "a", expected a name of its own for each, or its number as #1`},
		{[]tab{two, named}, "plan.xlsx Strings!A2: found no well's name, expected a name from sheet Well: Tarn 1, Tarn 2\nplan.xlsx Strings!A3: found no well's name, expected a name from sheet Well: Tarn 1, Tarn 2"},
		{[]tab{two, {name: "Survey", rows: [][]any{{"Well", "MD"}, {"Tarn 3", 1.0}}}}, `plan.xlsx Survey!A2: found well "Tarn 3", expected a name from sheet Well: Tarn 1, Tarn 2`},
		{[]tab{{name: "Well", rows: [][]any{{"Well name", "A", "a"}}}}, `plan.xlsx Well!C1: found well "a" again, expected a name of its own for each well`},
		{[]tab{well, {name: "Survey", rows: [][]any{{"MD", "TVD"}, {rawCell(`<c r="%s"><f>B2</f></c>`), 1.0}}}}, "plan.xlsx Survey!A2: found a formula without its value, expected a value: open the workbook in a spreadsheet program and save it"},
		{[]tab{well, {name: "Survey", rows: [][]any{{"MD", "TVD"}, {1.0, rawCell(`<c r="%s" t="e"><f>X1</f><v>#REF!</v></c>`)}}}}, "plan.xlsx Survey!B2: found the error #REF!, expected a value"},
		{[]tab{well, {name: "Survey", rows: [][]any{{"MD (psi)", "TVD"}, {1.0, 2.0}}}}, "plan.xlsx Survey!A1: found the unit psi, expected a unit of a measured depth such as ft or m"},
		{[]tab{well, {name: "Sections", rows: [][]any{{"Section", "Bit"}, {"a", formatted{45000, "d-mmm"}}}}}, "plan.xlsx Sections!B2: found the date 2023-03-15, expected a value; to keep a fraction such as 9-5/8 from becoming a date, make the cell a text cell first"},
		{[]tab{well, {name: "Survey", rows: [][]any{{"a", "b"}, {1.0, 2.0}}}}, "plan.xlsx Survey!A1: found no row of column names, expected one in the first 20 rows, with names such as MD"},
		{[]tab{{name: "Costs"}}, "plan.xlsx: found no sheet of a plan, expected sheets such as Well, Strings and Segments"},
	} {
		_, err := Read("plan.xlsx", packTabs(c.tabs...).bytes())
		if err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}

func TestFormulasAndKinds(t *testing.T) {
	d := readTabs(t, tab{name: "Strings", rows: [][]any{{"String", "Shoe", "Cemented", "Role", "Wait on cement", "Centralizers planned"},
		{rawCell(`<c r="%s" t="str"><f>"sur"&amp;"face"</f><v>surface</v></c>`), rawCell(`<c r="%s"><f>1+1</f><v>1.1000000000000001</v></c>`), true, rawCell(`<c r="%s" t="str"><f>""</f><v></v></c>`), rawCell(`<c r="%s" t="n"/>`), "1,200"},
		{"=1+1", rawCell(`<c r="%s" t="inlineStr"><is><r><rPr/><t>98</t></r><r><t>40 ft</t></r><rPh><t>x</t></rPh></is></c>`), "maybe", "Drilling liner", "24", 12.0}}})
	for path, want := range map[string]string{
		"strings[0].name": "Strings!A2='surface", "strings[0].shoe": "Strings!B2=1.1", "strings[0].cemented": "Strings!C2=true", "strings[0].role": "", "strings[0].wait": "",
		"strings[0].centralizers_planned": "Strings!F2=1200", "strings[1].name": "Strings!A3='=1+1", "strings[1].shoe": "Strings!B3='9840 ft",
		"strings[1].cemented": "Strings!C3='maybe", "strings[1].role": "Strings!D3='drilling_liner", "strings[1].wait": "Strings!E3='24",
	} {
		check(t, d, path, want)
	}
}

func TestHiddenMacrosAndLinks(t *testing.T) {
	p := packTabs(tab{name: "Survey", state: "veryHidden", rows: [][]any{{"MD"}, {1.0}}}, tab{name: "surveys", rows: [][]any{{"MD"}}})
	p.add("xl/vbaProject.bin", "not a macro").add("xl/externalLinks/externalLink1.xml", "<externalLink/>")
	b := p.bytes()
	d := readOne(t, b)
	check(t, d, "survey[0].md", "Survey!A2=1")
	checkRemarks(t, d, "Survey: the sheet is hidden; its values were taken all the same", `surveys: sheet "Survey" is taken for this part; the sheet isn't read`,
		": the workbook holds macros; they weren't run", ": the workbook links to other files; the links weren't followed, values are those it was saved with")

}
