package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"spudgate/rules/books"
	"spudgate/rules/finding"
)

// The register holds every book and every requirement with its cases, in three
// forms, the same bytes each time; what is asked for only holds that.
func TestRegister(t *testing.T) {
	dir := t.TempDir()
	for _, ending := range []string{".json", ".md", ".xlsx"} {
		var last []byte
		for _, name := range []string{"a", "b"} {
			out := filepath.Join(dir, name+ending)
			if status, _, errs := spudgate(t, "requirements", "-o", out); status != statusClear {
				t.Fatalf("%s: status %d, %s", ending, status, errs)
			}
			raw, err := os.ReadFile(out)
			if err != nil {
				t.Fatal(err)
			}
			if last != nil && !bytes.Equal(last, raw) {
				t.Errorf("%s: two runs differ", ending)
			}
			last = raw
		}
	}
	var r finding.Register
	raw, err := os.ReadFile(filepath.Join(dir, "a.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &r); err != nil {
		t.Fatal(err)
	}
	if r.Format != finding.RegisterFormat || r.Caution == "" || len(r.Books) != len(books.Names()) {
		t.Errorf("format %q, %d books, want %d", r.Format, len(r.Books), len(books.Names()))
	}
	text, err := os.ReadFile(filepath.Join(dir, "a.md"))
	if err != nil {
		t.Fatal(err)
	}
	for i := range r.Books {
		l := &r.Books[i]
		for k := range l.Requirements {
			e := &l.Requirements[k]
			if len(e.Cases) == 0 || e.Measure == "" || e.Cite.Document == "" {
				t.Errorf("%s/%s lacks cases, its measure or where it stands", l.ID, e.ID)
			}
			if !strings.Contains(string(text), "| "+e.ID+" |") {
				t.Errorf("%s/%s isn't in the Markdown register", l.ID, e.ID)
			}
		}
	}
	z, err := zip.OpenReader(filepath.Join(dir, "a.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	if len(z.File) < 8 {
		t.Errorf("the workbook has %d parts", len(z.File))
	}
}

// What could be judged on a plan counts every finding of its audit once.
func TestRegisterForPlan(t *testing.T) {
	out := filepath.Join(t.TempDir(), "r.json")
	if status, _, errs := spudgate(t, "requirements", "--for", demo+"harrow-fen-b.json", "-o", out); status != statusClear {
		t.Fatal(errs)
	}
	raw, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	var r finding.Register
	if err := json.Unmarshal(raw, &r); err != nil {
		t.Fatal(err)
	}
	audit, _ := audited(t, demo+"harrow-fen-b.json")
	sum, waits := 0, 0
	for _, l := range r.For.Asked {
		sum += l.Judged + l.Waits + l.NotApplicable + l.NotYetDue
		waits += l.Waits
		if l.Waits > 0 && len(l.Inputs) == 0 {
			t.Errorf("%s/%s waits and doesn't say for what", l.Book, l.Requirement)
		}
	}
	want := 0
	for i := range audit.Findings {
		if f := &audit.Findings[i]; f.Verdict == finding.NotAssessed && !f.NotYetDue {
			want++
		}
	}
	if sum != len(audit.Findings) || waits != want {
		t.Errorf("%d counted, %d wait; the audit has %d findings, %d wait", sum, waits, len(audit.Findings), want)
	}
	if r.Books[0].ID != "consistency" || len(r.Books) != 3 && len(r.Books) != 4 {
		t.Errorf("%d books are listed, want those the plan is held against", len(r.Books))
	}
	status, text, _ := spudgate(t, "requirements", "--for", demo+"harrow-fen-b.json")
	if status != statusClear || !strings.Contains(text, "a shoe test planned at 9-5/8 intermediate") || strings.Contains(text, "HOLD") {
		t.Errorf("status %d: %s", status, text)
	}
	for _, line := range strings.Split(text, "\n") {
		if len([]rune(line)) > 80 {
			t.Errorf("wider than 80 columns: %s", line)
		}
	}
}

// The lists and every explanation keep to 80 columns.
func TestListsFit(t *testing.T) {
	out := filepath.Join(t.TempDir(), "r.json")
	if status, _, errs := spudgate(t, "requirements", "-o", out); status != statusClear {
		t.Fatal(errs)
	}
	raw, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	var r finding.Register
	if err := json.Unmarshal(raw, &r); err != nil {
		t.Fatal(err)
	}
	var all []string
	for i := range r.Books {
		for k := range r.Books[i].Requirements {
			all = append(all, r.Books[i].ID+"/"+r.Books[i].Requirements[k].ID)
		}
	}
	for _, args := range [][]string{nil, {"--books"}, all, {"--for", demo + "harrow-fen-c.json"}} {
		status, text, errs := spudgate(t, append([]string{"requirements"}, args...)...)
		if status != statusClear {
			t.Fatal(errs)
		}
		for _, line := range strings.Split(text, "\n") {
			if len([]rune(line)) > 80 {
				t.Errorf("wider than 80 columns: %s", line)
			}
		}
	}
}

// An explanation shows its cases as a table: a lettered column for each name,
// left empty where the case leaves the value out.
func TestCasesAsTable(t *testing.T) {
	_, text, _ := spudgate(t, "requirements", "good-practice/cover-zone")
	for _, want := range []string{
		"  c  basis.cover\n",
		"  just short    499 ft   true   500 ft  200 ft  3000 ft  7000 ft  not met\n",
		"  c missing     600 ft   true           200 ft  3000 ft  7000 ft  not assessed\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q isn't in\n%s", want, text)
		}
	}
}

// A requirement is in force by the planned spud date, 2027-02-15 in the demo.
func TestInForceBySpud(t *testing.T) {
	for dates, want := range map[string]finding.Verdict{
		`"from":"2027-02-15"`: finding.Met, `"from":"2027-02-16"`: finding.NotApplicable,
		`"until":"2027-02-15"`: finding.Met, `"until":"2027-02-14"`: finding.NotApplicable,
	} {
		book := filepath.Join(t.TempDir(), "own.json")
		text := strings.Replace(fmt.Sprintf(sound, rule("limit=10 ft", "when=string.liner", `cases=[]`)), `"vary":true`, `"vary":true,`+dates, 1)
		if err := os.WriteFile(book, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		r, _ := audited(t, demo+"harrow-fen-a.json", "--book", book)
		found := false
		for i := range r.Findings {
			if f := &r.Findings[i]; f.Book == "own" && f.Subject == "7 drilling liner" {
				found = true
				if f.Verdict != want || want == finding.NotApplicable && !strings.Contains(f.Reason, "2027-02-15") {
					t.Errorf("%s: %s, %q, want %s", dates, f.Verdict, f.Reason, want)
				}
			}
		}
		if !found {
			t.Errorf("%s: the liner isn't judged", dates)
		}
	}
}

// Options that can't be used are refused before anything is read or written.
func TestRegisterOptions(t *testing.T) {
	out := filepath.Join(t.TempDir(), "r.json")
	if err := os.WriteFile(out, []byte("kept"), 0o644); err != nil {
		t.Fatal(err)
	}
	for want, args := range map[string][]string{
		"expected .json, .md or .xlsx": {"-o", "r.txt"},
		"--replace overwrites it":      {"-o", out},
		"--stage without --for":        {"--stage", "permit"},
		"expected permit, programme":   {"--for", demo + "harrow-fen-a.json", "--stage", "late"},
		"neither a built-in book":      {"--book", "nowhere"},
		"no such file":                 {"--for", "nowhere.json"},
	} {
		if status, _, errs := spudgate(t, append([]string{"requirements"}, args...)...); status != statusUnfit || !strings.Contains(errs, want) {
			t.Errorf("%v: status %d, %q, want %q", args, status, errs, want)
		}
	}
	if raw, err := os.ReadFile(out); err != nil || string(raw) != "kept" {
		t.Error("an existing output was overwritten")
	}
}
