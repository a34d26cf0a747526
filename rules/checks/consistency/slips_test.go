package consistency_test

import "testing"

type edits = map[string]any

// TestSlips makes one slip at a time in the sound plan. The book must find it,
// show both places and both values, and find nothing else.
func TestSlips(t *testing.T) {
	tried := map[string]bool{}
	for _, list := range [][]slip{nameSlips, pipeSlips, placeSlips, depthSlips, factSlips, jobSlips, frameSlips} {
		for _, s := range list {
			t.Run(s.name, s.run)
			tried[s.want[0]] = true
		}
	}
	for _, f := range audit(t, "sound.json", sound(t)) {
		if !tried[f.Requirement] {
			t.Errorf("no slip is made against %s", f.Requirement)
			tried[f.Requirement] = true
		}
	}
}

var nameSlips = []slip{
	{"two strings of one name", edits{"strings[4]": edits{"name": "13-3/8  SURFACE", "contingent": true}}, "well", []string{"main-names"},
		[]string{"strings[4].name", "strings[1].name"}, []string{"two strings are called \"13-3/8  SURFACE\""}},
	{"two sections of one name", edits{"sections[3]": edits{"name": "8-1/2 hole"}}, "well", []string{"main-names"},
		[]string{"sections[3].name", "sections[2].name"}, []string{"8-1/2 hole"}},
	{"two formations of one name", edits{"formations[2].name": "Dunn sand"}, "well", []string{"other-names"},
		[]string{"formations[2].name", "formations[1].name"}, []string{"two formations", "Dunn sand"}},
	{"two tests of one name", edits{"tests[2].name": "surface shoe test"}, "well", []string{"other-names"},
		[]string{"tests[2].name", "tests[1].name"}, []string{"two tests"}},
	{"wellhead on a string that isn't there", edits{"wellhead[0].string": "16 surface"}, "well", []string{"list-names"},
		[]string{"wellhead[0].string"}, []string{"casing head", "16 surface"}},
	{"barrier, approval and claim of strings that aren't there", edits{"barriers[0].string": "a", "approved[0].string": "b", "claims[0].string": "c"}, "well", []string{"list-names"},
		[]string{"barriers[0].string", "approved[0].string", "claims[0].string"}, []string{"\"a\"", "\"b\"", "\"c\""}},
	{"section for a string that isn't there", edits{"sections[1].carried_by": "16 surface"}, "12-1/4 hole", []string{"section-names", "pressure-control"},
		[]string{"sections[1].carried_by"}, []string{"16 surface"}},
	{"string in a section that isn't there", edits{"strings[1].section": "16 hole"}, "13-3/8 surface", []string{"string-names"},
		[]string{"strings[1].section"}, []string{"16 hole"}},
	{"test of a string that isn't there", edits{"tests[0].string": "16 surface"}, "surface casing test", []string{"test-names"},
		[]string{"tests[0].string"}, []string{"16 surface"}},
	{"stack on a string that isn't there", edits{"bops[0].on": "16 surface", "sections[1].carried_by": nil, "tests[2].pressure": nil}, "stack 1", []string{"bop-names"},
		[]string{"bops[0].on"}, []string{"16 surface"}},
	{"stack for a section that isn't there", edits{"bops[1].section": "6 hole"}, "stack 2", []string{"bop-names"},
		[]string{"bops[1].section"}, []string{"6 hole"}},
}

var pipeSlips = []slip{
	{"a gap in the pipe", edits{"strings[2].segments[1].from": 4100}, "9-5/8 intermediate", []string{"segments"},
		[]string{"strings[2].segments[1].from", "strings[2].segments[0].to"}, []string{"a gap", "4,000 ft", "4,100 ft"}},
	{"an overlap of the pipe", edits{"strings[2].segments[1].from": 3900}, "9-5/8 intermediate", []string{"segments"},
		[]string{"strings[2].segments[1].from", "strings[2].segments[0].to"}, []string{"an overlap", "3,900 ft"}},
	{"pipe that begins below the top", edits{"strings[3].segments[0].from": 7750}, "7 liner", []string{"segments"},
		[]string{"strings[3].segments[0].from", "strings[3].top"}, []string{"7,700 ft", "7,750 ft"}},
	{"pipe that ends above the shoe", edits{"strings[1].segments[0].to": 2900}, "13-3/8 surface", []string{"segments"},
		[]string{"strings[1].segments[0].to", "strings[1].shoe"}, []string{"2,900 ft", "3,000 ft"}},
	{"a segment upside down", edits{"strings[0].segments[0].from": 90, "strings[0].top": 90}, "20 conductor", []string{"segments", "span", "role"},
		[]string{"strings[0].segments[0].to", "strings[0].segments[0].from"}, []string{"90 ft", "80 ft"}},
	{"a top below the shoe", edits{"strings[3].top": 10100, "strings[3].segments[0].from": nil}, "7 liner", []string{"span", "liner-hangs"},
		[]string{"strings[3].top", "strings[3].shoe"}, []string{"10,100 ft", "10,000 ft"}},
	{"a float collar below the shoe", edits{"strings[1].float_collar": 3040, "strings[1].accessories[1].depth": 3040}, "13-3/8 surface", []string{"placed"},
		[]string{"strings[1].float_collar", "strings[1].shoe", "strings[1].accessories[1].depth"}, []string{"3,040 ft", "3,000 ft"}},
	{"centralizers above the top", edits{"strings[3].centralizers[0]": edits{"from": 7000, "to": 9000}}, "7 liner", []string{"placed"},
		[]string{"strings[3].centralizers[0].from", "strings[3].shoe"}, []string{"7,000 ft", "7,700 ft"}},
	{"a weight out of the catalogue", edits{"strings[2].segments[0].weight": "46 lb/ft"}, "9-5/8 intermediate / 9-5/8 46 L80 BTC", []string{"pipe"},
		[]string{"strings[2].segments[0].weight", "strings[2].segments[0].od"}, []string{"46 lb/ft", "47"}},
	{"a maker's grade without ratings", edits{"strings[3].segments[0].rating_collapse": nil}, "7 liner / 7 29 MK-95 Kestrel-3", []string{"pipe"},
		[]string{"strings[3].segments[0].grade"}, []string{"MK-95"}},
	{"a maker's connection without its strength", edits{"strings[3].segments[0].rating_joint": nil}, "7 liner / 7 29 MK-95 Kestrel-3", []string{"pipe"},
		[]string{"strings[3].segments[0].connection"}, []string{"Kestrel-3"}},
	// 9-5/8 in 53.5 lb/ft has a wall of 0.545 in, 47 lb/ft one of 0.472 in (API Spec 5CT).
	{"the wall of another weight", edits{"strings[2].segments[1].wall": "0.472 in"}, "9-5/8 intermediate / 9-5/8 53.5 P110 BTC", []string{"wall"},
		[]string{"strings[2].segments[1].wall", "strings[2].segments[1].weight", "strings[2].segments[1].od"}, []string{"0.472 in", "0.545 in"}},
	// Plain-end weight of 9-5/8 x 0.7 in: 10.69 (D - t) t = 66.8 lb/ft (API Bull 5C3).
	{"a wall no weight has", edits{"strings[2].segments[1].wall": "0.7 in", "strings[2].segments[1].weight": "60 lb/ft"}, "9-5/8 intermediate / 9-5/8 60 P110 BTC", []string{"wall"},
		[]string{"strings[2].segments[1].wall", "strings[2].segments[1].weight", "strings[2].segments[1].od"}, []string{"66.7", "60.00 lb/ft"}},
	{"a depth in the weight column", edits{"strings[2].segments[0].weight": 3000}, "9-5/8 intermediate / 9-5/8 3,000 L80 BTC", []string{"columns", "pipe"},
		[]string{"strings[2].segments[0].weight", "strings[2].segments[0].od"}, []string{"3,000.00 lb/ft", "9-5/8 in"}},
	{"a weight in the OD column", edits{"strings[0].segments[0].od": "94 in"}, "20 conductor / 94 94 X52 welded", []string{"columns", "pipe"},
		[]string{"strings[0].segments[0].od", "strings[0].segments[0].weight"}, []string{"94 in"}},
}

var placeSlips = []slip{
	{"no hole for a string", edits{"strings[2].section": nil, "sections[1].string": nil, "strings[2].hole": nil, "strings[2].mud_density": nil, "sections[2].from": nil}, "9-5/8 intermediate", []string{"has-section"},
		[]string{"strings[2]", "sections[0]"}, []string{"9-5/8 intermediate"}},
	{"a shoe below its hole", edits{"sections[0].to": 2950, "sections[0].to_tvd": nil, "sections[1].from": 2950}, "13-3/8 surface", []string{"in-hole"},
		[]string{"strings[1].shoe", "sections[0].to"}, []string{"3,000 ft", "2,950 ft"}},
	{"pipe below its hole, no shoe stated", edits{"strings[2].shoe": nil, "strings[2].shoe_tvd": nil, "sections[1].to": 7950, "sections[1].to_tvd": nil, "sections[2].from": 7950}, "9-5/8 intermediate", []string{"in-hole"},
		[]string{"strings[2].segments[1].to", "sections[1].to"}, []string{"8,000 ft", "7,950 ft"}},
	{"a liner that hangs in itself", edits{"strings[3].hung_in": "7 liner"}, "7 liner", []string{"liner-hangs"},
		[]string{"strings[3].hung_in"}, []string{"hangs in itself"}},
	{"a liner below its parent", edits{"strings[3].top": 8200, "strings[3].segments[0].from": 8200}, "7 liner", []string{"liner-hangs"},
		[]string{"strings[3].top", "strings[2].shoe"}, []string{"8,200 ft", "8,000 ft"}},
	{"a liner in a string that isn't there", edits{"strings[3].hung_in": "11-3/4 intermediate"}, "7 liner", []string{"liner-hangs", "string-names"},
		[]string{"strings[3].hung_in"}, []string{"7 liner"}},
	{"a liner at the wellhead", edits{"strings[3].top": 0, "strings[3].segments[0].from": 0}, "7 liner", []string{"role"},
		[]string{"strings[3].top", "strings[3].role"}, []string{"production liner", "0 ft", "74 ft"}},
	{"a casing that stops short of the wellhead", edits{"strings[2].top": 2900, "strings[2].segments[0].from": 2900, "strings[2].top_of_cement": nil}, "9-5/8 intermediate", []string{"role"},
		[]string{"strings[2].top", "strings[2].role"}, []string{"2,900 ft", "74 ft"}},
	{"a casing hung in another", edits{"strings[2].hung_in": "13-3/8 surface"}, "9-5/8 intermediate", []string{"role"},
		[]string{"strings[2].hung_in", "strings[2].role"}, []string{"intermediate", "13-3/8 surface"}},
	{"cement for a string not cemented", edits{"strings[1].cemented": false}, "13-3/8 surface", []string{"cemented"},
		[]string{"strings[1].cemented", "strings[1].top_of_cement", "strings[1].stages[0]"}, []string{"top of cement", "surface job"}},
	{"a string listed before a shallower one", edits{"strings[0].shoe": 3100, "strings[0].segments[0].to": 3100}, "13-3/8 surface", []string{"string-order"},
		[]string{"strings[1].shoe", "strings[0].shoe"}, []string{"3,000 ft", "3,100 ft"}},
	{"a string larger than the one around", edits{"strings[0].segments[0].od": "10-3/4 in", "strings[0].segments[0].weight": "40.5 lb/ft"}, "13-3/8 surface", []string{"string-order"},
		[]string{"strings[1].segments[0].od", "strings[0].segments[0].od"}, []string{"13-3/8 in", "10-3/4 in"}},
	{"a gap between holes", edits{"sections[1].from": 3500}, "12-1/4 hole", []string{"section-ends"},
		[]string{"sections[1].from", "sections[0].to"}, []string{"3,500 ft", "3,010 ft"}},
	{"an overlap of holes", edits{"sections[1].from": 2500}, "12-1/4 hole", []string{"section-ends"},
		[]string{"sections[1].from", "sections[0].to"}, []string{"2,500 ft", "3,010 ft"}},
	{"a hole upside down", edits{"sections[0].from": 3100}, "17-1/2 hole", []string{"section-ends"},
		[]string{"sections[0].to", "sections[0].from"}, []string{"3,100 ft", "3,010 ft"}},
	{"holes listed upwards", edits{"sections[0].to": 8200, "sections[0].to_tvd": nil, "sections[0].from": nil, "sections[1].from": nil, "sections[2].from": nil}, "12-1/4 hole", []string{"section-order"},
		[]string{"sections[1].to", "sections[0].to"}, []string{"8,010 ft", "8,200 ft"}},
	{"a stack on a section without pressure control", edits{"sections[1].pressure_control": "none"}, "12-1/4 hole", []string{"pressure-control"},
		[]string{"sections[1].pressure_control", "bops[0].section"}, []string{"without pressure control", "stack 1"}},
	{"a section and a stack on two strings", edits{"bops[1].on": "13-3/8 surface"}, "8-1/2 hole", []string{"pressure-control"},
		[]string{"sections[2].carried_by", "bops[1].on"}, []string{"9-5/8 intermediate", "13-3/8 surface"}},
	{"perforations below the well", edits{"completion.perforated_to": 10500}, "well", []string{"completion"},
		[]string{"completion.perforated_to", "sections[2].to"}, []string{"10,500 ft", "10,000 ft"}},
	{"perforations upside down", edits{"completion.perforated_from": 9600}, "well", []string{"completion"},
		[]string{"completion.perforated_to", "completion.perforated_from"}, []string{"9,600 ft", "9,550 ft"}},
}
