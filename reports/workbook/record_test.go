package workbook_test

import (
	"fmt"
	"strings"

	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

func quantity(x float64, d units.Dim) *finding.Quantity { return &finding.Quantity{SI: x, Dim: d} }

func psi(x float64) *finding.Quantity    { return quantity(x*units.Psi, units.Pressure) }
func md(feet float64) *finding.Quantity  { return quantity(feet*units.Foot, units.MDLength) }
func tvd(feet float64) *finding.Quantity { return quantity(feet*units.Foot, units.TVDLength) }
func pure(x float64) *finding.Quantity   { return quantity(x, units.None) }
func inches(x float64) *finding.Quantity {
	return &finding.Quantity{SI: x * units.Inch, Dim: units.Length, Small: true}
}

func value(q *finding.Quantity) finding.Value { return finding.Value{Quantity: q} }

func truth(b bool) *finding.Value { return &finding.Value{Truth: &b} }

func cell(sheet, name string) place.Place { return place.Place{Sheet: sheet, Cell: name} }

// hostile is text that a spreadsheet might take for more than text.
const hostile = "=HYPERLINK(\"http://invalid\",\"x\")"

// sample is an audit as the engine would record one, made up from top to
// bottom: all verdicts, all kinds of value, long and awkward texts.
func sample() *finding.Record {
	r := &finding.Record{
		Format: finding.Format, Tool: finding.Tool{Name: "spudgate", Version: "0.9.0"}, AsOf: "2026-11-25", Caution: finding.Caution,
		Well: finding.Well{Name: "Tarn Hollow 3", Operator: "Brackenfell Energy", Location: "Section 14, Hallow Ridge", Rig: "Fell Rig 7", Revision: "B", PlanDate: "2026-11-02", SpudDate: "2026-12-10", Stage: finding.PreSpud, StageFrom: "plan", Units: "field"},
		Inputs: []finding.Source{
			{Role: "plan", Name: "tarn-hollow-b.xlsx", SHA256: strings.Repeat("4f1c9a2e07d5b3a8", 4)},
			{Role: "basis", Name: "brackenfell-basis.json", SHA256: strings.Repeat("90ab12cd34ef5678", 4)},
		},
		Books: []finding.Book{
			{ID: "consistency", Title: "A plan that agrees with itself", Publisher: "spudgate", Edition: "2026-11", Judged: 41},
			{ID: "good-practice", Title: "Good practice in casing and cementing", Publisher: "spudgate", Edition: "2026-11", Judged: 118, ByPerson: 2, Person: []finding.Gap{
				{Clause: "Offset wells", Text: "Wells within a mile looked at, and what they met taken into the plan."}, {Clause: "Crew", Text: "The cementing crew has pumped this kind of job."}}},
			{ID: "us-onshore-federal", Title: "Onshore order on drilling operations, federal and Indian leases", Publisher: "US federal government", Edition: "2023-06-16", Regulation: true, Judged: 37, ByPerson: 1,
				Person: []finding.Gap{{Clause: "3172.7(b)(5)", Text: "Mud test results are kept on location."}}, Gaps: []finding.Gap{{Clause: "3172.9", Text: "Drill stem testing."}}},
		},
		Basis: finding.Basis{Name: "Brackenfell basis 2026", Values: []finding.BasisLine{
			{Name: "burst", About: "least burst factor of casing", Value: value(pure(1.1)), From: "default", For: "burst, all cases"},
			{Name: "collapse", About: "least collapse factor of casing", Value: value(pure(1.05)), From: "brackenfell-basis.json"},
			{Name: "kick_volume", About: "kick taken in the kick case", Value: value(quantity(40*units.Barrel, units.Volume)), From: "plan"},
			{Name: "gas_gradient", About: "gradient of gas where its pressure isn't worked out step by step", Value: value(quantity(0.115*units.Psi/units.Foot, units.Gradient)), From: "default"},
			{Name: "seawater", About: "whether the annulus falls back to sea water", Value: *truth(false), From: "default"},
		}},
		Outcome: finding.Outcome{Word: finding.Hold, Why: "12 not met and 6 not assessed hold it; a regulation was named.", NotMet: 12, NotAssessed: 6, Minor: 2, Observation: 1, Met: 30, Varied: 2, NotYetDue: 2, HoldOn: "major"},
		Waiting: []finding.Waiting{
			{Input: "fracture pressure below 8,000 ft", Place: cell("Pressures", "D14"), Requirements: 23, Majors: 6},
			{Input: "gel transition time of the tail slurry", Place: cell("Cement", "R14"), Requirements: 4, Majors: 2},
			{Input: "wall of the intermediate casing as measured", Requirements: 1},
		},
		Notes:  []finding.Note{{Text: "true vertical depths: from the survey"}, {Place: cell("Strings", "K4"), Text: "make-up torque not used: no connection named"}},
		Unread: []finding.Note{{Place: place.Place{Sheet: "Logistics"}, Text: "sheet is none of the plan's"}},
	}
	r.Findings = findings()
	for i, name := range names {
		margin := -0.11 + float64(i)*0.06
		l := finding.Line{Name: name, Least: "burst, gas to surface", Margin: &margin}
		for k := range r.Findings {
			if r.Findings[k].String == name {
				tally(&l, r.Findings[k].Verdict)
			}
		}
		r.Strings = append(r.Strings, l)
	}
	r.Tables = []finding.Table{strength(), cement(), pressures(), asRead()}
	return r
}

func tally(l *finding.Line, v finding.Verdict) {
	switch v {
	case finding.Met:
		l.Met++
	case finding.NotMet:
		l.NotMet++
	case finding.NotAssessed:
		l.NotAssessed++
	}
}

var names = []string{"20 conductor", "13-3/8 surface", "9-5/8 intermediate", "7 liner"}

// findings are 60: every verdict, every grade, all kinds of measure.
func findings() []finding.Finding {
	verdicts := []finding.Verdict{finding.NotMet, finding.Met, finding.Met, finding.NotAssessed, finding.Met, finding.Met, finding.NotMet, finding.NotApplicable, finding.Met, finding.Varied}
	grades := []finding.Grade{finding.Major, finding.Major, finding.Major, finding.Minor, finding.Observation}
	var out []finding.Finding
	for i := range 60 {
		v := verdicts[i%len(verdicts)]
		f := finding.Finding{
			Book: "good-practice", Requirement: fmt.Sprintf("gp-%03d", i), Kind: "string", Subject: names[i%4], String: names[i%4], Title: titles[i%len(titles)],
			Verdict: v, Grade: grades[i%7%5], Sure: []finding.Sure{finding.Read, finding.OlderCopy, finding.FromMemory, finding.CommonPractice}[i%4], Stage: finding.Programme,
			Cite:   finding.Cite{Document: "Good practice in casing and cementing", Clause: fmt.Sprintf("%d.%d", i/10+1, i%10), Edition: "2026-11"},
			Places: []place.Place{cell("Strings", fmt.Sprintf("F%d", i+2))}, Remedy: "heavier pipe by {short} from surface down, or a lower kick volume",
			Sense: "at least",
		}
		f.Key = f.Book + "/" + f.Requirement + "@" + f.Subject
		fill(&f, i)
		out = append(out, f)
	}
	return out
}

var titles = []string{"burst, gas to surface", "collapse, losses to the weakest zone", "tension while running, with overpull", "top of cement over the shallowest hydrocarbon", "gas flow while the cement gels", "shoe strength against a kick circulated out", "casing test pressure"}

func fill(f *finding.Finding, i int) {
	load, rating := 5000+float64(i)*37, 7000+float64(i%9)*100
	if f.Verdict != finding.Met {
		load = rating * (0.95 + float64(i)/1000)
	}
	factor := rating / load
	margin := (factor - 1.1) / 1.1
	f.Limit = &finding.Value{Quantity: pure(1.1)}
	switch f.Verdict {
	case finding.NotApplicable:
		f.Limit, f.Reason = nil, "applies when well.class = 'exploration'"
		return
	case finding.NotAssessed:
		f.Limit, f.Reason, f.Remedy = nil, "whether it applies isn't known", ""
		f.Missing = []finding.Missing{{Input: "fracture pressure below 8,000 ft", Place: cell("Pressures", "D14")}, {Input: "gel transition time of the tail slurry"}}
		f.NotYetDue = i > 45
		f.Stage = finding.PreSpud
		return
	}
	switch i % 6 {
	case 0:
		f.Title = "burst, gas to surface"
		f.Measure, f.Margin = &finding.Value{Quantity: pure(factor)}, &margin
		f.Working = working(load, rating)
	case 1:
		f.Measure, f.Limit = &finding.Value{Quantity: psi(load)}, &finding.Value{Quantity: psi(load + 0.2)}
		f.Sense = "at most"
	case 2:
		f.Measure, f.Limit, f.Sense, f.Remedy = truth(f.Verdict == finding.Met), nil, "true", ""
	case 3:
		f.Measure, f.Limit = &finding.Value{Text: "premium"}, &finding.Value{Text: "premium"}
		f.Remedy = ""
	case 4:
		tight := -0.001
		f.Measure, f.Limit, f.Margin = &finding.Value{Quantity: pure(1.0989)}, &finding.Value{Quantity: pure(1.1)}, &tight
	default:
		f.Measure, f.Limit = &finding.Value{Quantity: quantity(15*units.Degree/(100*units.Foot), units.Curvature)}, &finding.Value{Quantity: quantity(12*units.Degree/(100*units.Foot), units.Curvature)}
	}
	f.At = &finding.At{MD: md(3180 + float64(i)*100), TVD: tvd(3100 + float64(i)*95), Why: "inside pressure is greatest there"}
	switch i {
	case 0:
		f.Subject = "مسار أحمر 7"
	case 6:
		f.Subject, f.Reason = hostile, "a control \x07 and a turned \u202Etext, _x0041_, emoji 🛢️ and "+strings.Repeat("a very long reason ", 30)
	case 16:
		f.Reason = strings.Repeat("long ", 9000)
	}
}

// working is a factor in two steps: load, then factor.
func working(load, rating float64) []finding.Working {
	inside, outside := load+1200, 1200.0
	return []finding.Working{
		{Formula: "inside - outside", Source: "difference of pressures at one depth", Result: finding.Input{Name: "load", Value: value(psi(load))}, Inputs: []finding.Input{
			{Name: "inside", Value: value(psi(inside)), Place: cell("Pressures", "C9")}, {Name: "outside", Value: value(psi(outside)), Note: "pore pressure behind the pipe"}}},
		{Formula: "rating * wear / load", Source: "definition of a design factor", Result: finding.Input{Name: "factor", Value: value(pure(rating / load))}, Inputs: []finding.Input{
			{Name: "rating", Value: value(psi(rating)), Place: cell("Strings", "H7")}, {Name: "wear", Value: value(pure(1)), Note: "unworn"}, {Name: "load", Value: value(psi(load))}}},
		{Formula: "factor >= 1.1", Result: finding.Input{Name: "enough", Value: *truth(rating/load >= 1.1)}, Inputs: []finding.Input{{Name: "factor", Value: value(pure(rating / load))}}},
	}
}

func strength() finding.Table {
	t := finding.Table{Name: "Strength", Title: "Strength of casing, case by case", Columns: []finding.Column{
		{Name: "string", Title: "String", Width: 16}, {Name: "case", Title: "Case", Width: 22}, {Name: "md", Title: "MD", Width: 9}, {Name: "tvd", Title: "TVD", Width: 9},
		{Name: "inside", Title: "Inside", Width: 11, Input: true}, {Name: "outside", Title: "Outside", Width: 11, Input: true},
		{Name: "load", Title: "Load", Formula: "inside - outside", Width: 11}, {Name: "rating", Title: "Rating", Width: 11, Input: true},
		{Name: "factor", Title: "Factor", Formula: "rating / load", Width: 9}, {Name: "limit", Title: "Least factor", Width: 9}, {Name: "verdict", Title: "Verdict", Formula: "factor >= limit", Width: 13},
	}}
	for s, name := range names[1:] {
		t.Rows = append(t.Rows, finding.Row{Head: true, Cells: []finding.Cell{{Text: name}}})
		for k := range 9 {
			inside, outside, rating := 4200+300*float64(k), 100*float64(k), 5100+400*float64(s)
			factor := rating / (inside - outside)
			v := finding.Met
			if factor < 1.1 {
				v = finding.NotMet
			}
			t.Rows = append(t.Rows, finding.Row{Verdict: v, Place: cell("Strings", fmt.Sprintf("F%d", k)), Cells: []finding.Cell{{Text: name}, {Text: titles[k%len(titles)]},
				{Quantity: md(1000 * float64(k))}, {Quantity: tvd(980 * float64(k))}, {Quantity: psi(inside)}, {Quantity: psi(outside)}, {Quantity: psi(inside - outside)},
				{Quantity: psi(rating)}, {Quantity: pure(factor)}, {Quantity: pure(1.1)}, {Text: string(v)}}})
		}
		// A load worked out step by step, which is none of inside less outside.
		t.Rows = append(t.Rows, finding.Row{Verdict: finding.NotAssessed, Cells: []finding.Cell{{Text: name}, {Text: "triaxial, gas to surface"}, {Quantity: md(100)}, {Quantity: tvd(100)}, {Quantity: psi(4000)}, {Quantity: psi(10)},
			{Quantity: psi(4444)}, {}, {}, {Quantity: pure(1.25)}, {Text: "not assessed"}}})
	}
	return t
}

func cement() finding.Table {
	t := finding.Table{Name: "Cement", Title: "Cement, string by string", Columns: []finding.Column{
		{Name: "string", Title: "String", Width: 18}, {Name: "fluid", Title: "Fluid", Width: 20}, {Name: "hole", Title: "Hole", Width: 10, Input: true}, {Name: "od", Title: "Pipe outside", Width: 10, Input: true},
		{Name: "length", Title: "Length", Width: 10, Input: true}, {Name: "excess", Title: "Excess", Width: 9, Input: true}, {Name: "volume", Title: "Volume", Formula: "pi / 4 * (hole^2 - od^2) * length * (1 + excess)", Width: 11},
		{Name: "temperature", Title: "Temperature", Input: true, Width: 12}, {Name: "warmer", Title: "Warmer by 20 K", Formula: "temperature + 20 K", Width: 12},
		{Name: "stated", Title: "As stated", Width: 12}, {Name: "verdict", Title: "Verdict", Width: 13}}}
	for i, name := range names[1:] {
		hole, od := 17.5-3*float64(i), 13.375-3*float64(i)
		length, excess := 2000*units.Foot, 0.3
		volume := 3.141592653589793 / 4 * (hole*hole - od*od) * units.Inch * units.Inch * length * (1 + excess)
		t.Rows = append(t.Rows, finding.Row{Verdict: finding.Varied, Cells: []finding.Cell{{Text: name}, {Text: "lead, 12.3 ppg"}, {Quantity: inches(hole)}, {Quantity: inches(od)},
			{Quantity: quantity(length, units.Length)}, {Quantity: pure(excess)}, {Quantity: quantity(volume, units.Volume)}, {Quantity: quantity(350, units.Temperature)}, {Quantity: quantity(370, units.Temperature)}, {Text: "512 bbl"}, {Text: []string{"not met", "met", "varied"}[i]}}})
	}
	return t
}

func pressures() finding.Table {
	t := finding.Table{Name: "Pressures", Title: "Pressures by depth", Columns: []finding.Column{
		{Name: "where", Title: "Where", Width: 24}, {Name: "tvd", Title: "TVD", Width: 10}, {Name: "pore", Title: "Pore pressure", Width: 12}, {Name: "fracture", Title: "Fracture pressure", Width: 12}, {Name: "kick", Title: "Kick tolerance", Width: 14}}}
	for k := range 12 {
		z := 800 * float64(k+1)
		t.Rows = append(t.Rows, finding.Row{Cells: []finding.Cell{{Text: fmt.Sprintf("Brant sand %d", k)}, {Quantity: tvd(z)}, {Quantity: psi(0.46 * z)}, {Quantity: psi(0.78 * z)}, {Quantity: quantity(25*units.Barrel, units.Volume)}}})
	}
	return t
}

func asRead() finding.Table {
	t := finding.Table{Name: "Plan as read", Title: "The plan as it was read", Columns: []finding.Column{
		{Name: "part", Title: "Part", Width: 20}, {Name: "record", Title: "Record", Width: 30}, {Name: "member", Title: "Value of", Width: 28}, {Name: "written", Title: "As written", Width: 28}, {Name: "place", Title: "Place", Width: 18}}}
	for i, written := range []string{"9-5/8", hostile, "+1+1", "-2", "@SUM(1)", "ق 7", "🛢️", "tab\there", strings.Repeat("x", 40000)} {
		t.Rows = append(t.Rows, finding.Row{Cells: []finding.Cell{{Text: "Strings"}, {Text: "9-5/8 intermediate / 1"}, {Text: "outside diameter"}, {Text: written}, {Text: fmt.Sprintf("Strings!C%d", i+2)}}})
	}
	return t
}
