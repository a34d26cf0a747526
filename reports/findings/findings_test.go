package findings_test

import (
	"bytes"
	"math"
	"reflect"
	"strings"
	"testing"

	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/reports/findings"
	"spudgate/rules/finding"
)

func number(x float64, d units.Dim) *finding.Quantity { return &finding.Quantity{SI: x, Dim: d} }

// sample fills every part of a record once, with awkward texts and numbers.
func sample() *finding.Record {
	yes, margin := true, -1.0/3
	at := finding.At{MD: number(1000, units.MDLength), TVD: number(975.5, units.TVDLength), Why: "shoe"}
	working := finding.Working{Formula: "rating / load", Source: "definition", Result: finding.Input{Name: "factor", Value: finding.Value{Quantity: number(2.0/3, units.None)}},
		Inputs: []finding.Input{{Name: "rating", Value: finding.Value{Quantity: number(2e7, units.Pressure)}, Place: place.Place{Sheet: "Strings", Cell: "F9"}, Note: "as stated"}}}
	f := finding.Finding{
		Key: "a/b@7 liner", Book: "a", Requirement: "b", Kind: "string", Subject: "7 liner <&>", String: "7 liner", Title: "burst", Verdict: finding.NotMet, Grade: finding.Major,
		Sure: finding.Read, Stage: finding.Permit, Cite: finding.Cite{Document: "D", Clause: "1", Edition: "2026"}, Text: "text \u2028 مسار 🛢️", Check: "burst_factor", Sense: "at least",
		Measure: &finding.Value{Quantity: number(2.0/3, units.None)}, Limit: &finding.Value{Quantity: number(1, units.None)}, Margin: &margin, At: &at,
		Missing: []finding.Missing{{Input: "wall", Place: place.Place{Line: 3, Column: 9, Path: "strings[0].wall"}}}, Places: []place.Place{{Line: 3, Column: 9}}, Remedy: "{short} more", Working: []finding.Working{working},
	}
	return &finding.Record{
		Format: finding.Format, Tool: finding.Tool{Name: "spudgate", Version: "1"}, AsOf: "2026-11-25", Caution: finding.Caution, Well: finding.Well{Name: "Tarn", Stage: finding.Permit},
		Inputs: []finding.Source{{Role: "plan", Name: "p.json", SHA256: "00"}}, Books: []finding.Book{{ID: "a", Gaps: []finding.Gap{{Clause: "9", Text: "no"}}}},
		Basis:   finding.Basis{Name: "default", Values: []finding.BasisLine{{Name: "seawater", Value: finding.Value{Truth: &yes}, From: "default"}}},
		Outcome: finding.Outcome{Word: finding.Hold, Why: "1 not met", NotMet: 1, HoldOn: "major"}, Strings: []finding.Line{{Name: "7 liner", NotMet: 1, Margin: &margin}},
		Waiting: []finding.Waiting{{Input: "wall", Requirements: 1}}, Findings: []finding.Finding{f}, Notes: []finding.Note{{Text: "n"}}, Unread: []finding.Note{{Text: "u"}},
		Tables: []finding.Table{{Name: "T", Columns: []finding.Column{{Name: "x", Formula: "x", Input: true, Width: 3}}, Rows: []finding.Row{{Head: true, Verdict: finding.Met, Cells: []finding.Cell{{Quantity: &finding.Quantity{SI: 0.339725, Dim: units.Length, Small: true}}}}}}},
	}
}

func written(t *testing.T, r *finding.Record) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := findings.Write(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestWrite(t *testing.T) {
	text := string(written(t, sample()))
	for _, want := range []string{
		"{\n  \"format\": \"spudgate-findings/1\",\n", `"margin": -0.333333333333,`, `"subject": "7 liner <&>"`, `"verdict": "not met"`,
		"\"quantity\": {\n          \"si\": 0.666666666667,\n          \"unit\": \"1\"\n        }", `"unit": "m MD"`, `"unit": "Pa"`, "مسار 🛢️",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing in it says %s", want)
		}
	}
	if !strings.HasSuffix(text, "}\n") {
		t.Errorf("ends %q", text[len(text)-9:])
	}
}

// What is read back is what was written, but for digits beyond the twelfth.
func TestRoundTrip(t *testing.T) {
	first := written(t, sample())
	r, err := findings.Read(first)
	if err != nil {
		t.Fatal(err)
	}
	if again := written(t, r); !bytes.Equal(first, again) {
		t.Errorf("written again it differs:\n%s\n%s", first, again)
	}
	want := sample()
	third, thirds := -0.333333333333, 0.666666666667
	want.Findings[0].Margin, want.Strings[0].Margin = &third, &third
	want.Findings[0].Measure.Quantity.SI, want.Findings[0].Working[0].Result.Value.Quantity.SI = thirds, thirds
	if !reflect.DeepEqual(r, want) {
		t.Errorf("read %+v\nwant %+v", r, want)
	}
}

func TestWriteLeavesTheRecordAlone(t *testing.T) {
	r := sample()
	written(t, r)
	if !reflect.DeepEqual(r, sample()) {
		t.Error("writing changed the record")
	}
}

func TestWriteRefusesNoNumbers(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(*finding.Record){
		"margin":            func(r *finding.Record) { r.Findings[0].Margin = &nan },
		"margin of a line":  func(r *finding.Record) { r.Strings[0].Margin = &inf },
		"measure":           func(r *finding.Record) { r.Findings[0].Measure.Quantity.SI = inf },
		"cell":              func(r *finding.Record) { r.Tables[0].Rows[0].Cells[0].Quantity.SI = nan },
		"input of a step":   func(r *finding.Record) { r.Findings[0].Working[0].Inputs[0].Value.Quantity.SI = nan },
		"place in the well": func(r *finding.Record) { r.Findings[0].At.MD.SI = nan },
	} {
		r := sample()
		spoil(r)
		var b bytes.Buffer
		if err := findings.Write(&b, r); err == nil || b.Len() > 0 {
			t.Errorf("%s: no error, or something written before it (%d bytes, %v)", name, b.Len(), err)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	good := string(written(t, sample()))
	swap := func(old, new string) string {
		if !strings.Contains(good, old) {
			t.Fatalf("nothing to swap: %s", old)
		}
		return strings.Replace(good, old, new, 1)
	}
	for name, c := range map[string]struct{ in, says string }{
		"nothing":       {"", "1:1"},
		"another kind":  {`{"format": "spudgate-plan/1"}`, `format "spudgate-plan/1", expected "spudgate-findings/1"`},
		"no format":     {`{}`, `format ""`},
		"a list":        {`[]`, "1:"},
		"syntax":        {"{\n  \"format\": spud}", "2:"},
		"cut":           {good[:len(good)/2], "unexpected EOF"},
		"more behind":   {good + "{}", "something follows"},
		"a new member":  {swap(`"as_of"`, `"as_off"`), `unknown field "as_off"`},
		"a wrong type":  {swap(`"not_met": 1`, `"not_met": "one"`), "cannot unmarshal string"},
		"a wrong word":  {swap(`"verdict": "not met"`, `"verdict": "failed"`), `unknown verdict "failed"`},
		"a wrong grade": {swap(`"grade": "major"`, `"grade": "grave"`), `unknown grade "grave"`},
		"the outcome":   {swap(`"word": "HOLD"`, `"word": "GO"`), `outcome "GO"`},
		"a wrong unit":  {swap(`"unit": "Pa"`, `"unit": "psi"`), "psi"},
		"a huge number": {swap(`"si": 20000000`, `"si": 1e999`), "out of range"},
		"not UTF-8":     {swap("Tarn", "Tarn\xff"), "not UTF-8"},
	} {
		r, err := findings.Read([]byte(c.in))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, %v; want an error that says %q", name, r, err, c.says)
		}
	}
}

func FuzzRead(f *testing.F) {
	var b bytes.Buffer
	if err := findings.Write(&b, sample()); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte(`{"format":"spudgate-findings/1","outcome":{"word":"CLEAR"}}`))
	f.Fuzz(func(t *testing.T, in []byte) {
		r, err := findings.Read(in)
		if err != nil {
			return
		}
		var once, twice bytes.Buffer
		if err := findings.Write(&once, r); err != nil {
			t.Fatal(err)
		}
		again, err := findings.Read(once.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		if err := findings.Write(&twice, again); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(once.Bytes(), twice.Bytes()) {
			t.Error("a second round changes the document")
		}
	})
}
