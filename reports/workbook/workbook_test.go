package workbook_test

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"spudgate/plan/units"
	"spudgate/reports/workbook"
	"spudgate/rules/finding"
)

func written(t testing.TB, r *finding.Record, s units.System) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := workbook.Write(&b, r, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func opened(t testing.TB, b []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(b), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

// saved writes a workbook to a file of some name.
func saved(t testing.TB, name string, b []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name+".xlsx")
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// at is the value of a cell.
func at(t testing.TB, f *excelize.File, sheet, cell string) string {
	t.Helper()
	v, err := f.GetCellValue(sheet, cell)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// find is the name of the first cell of a column, or of any column where none
// is named, that holds exactly a text.
func find(t testing.TB, f *excelize.File, sheet, column, text string) string {
	t.Helper()
	names, err := f.SearchSheet(sheet, text)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range names {
		if column == "" || strings.TrimRight(n, "0123456789") == column {
			return n
		}
	}
	t.Fatalf("%s: nothing in column %q says %q", sheet, column, text)
	return ""
}

// row is the values of a row of a sheet.
func row(t testing.TB, f *excelize.File, sheet string, n int) []string {
	t.Helper()
	rows, err := f.GetRows(sheet)
	if err != nil || len(rows) < n {
		t.Fatal(err, len(rows))
	}
	return rows[n-1]
}

func TestSheets(t *testing.T) {
	got := opened(t, written(t, sample(), units.Field)).GetSheetList()
	want := []string{"Summary", "Findings", "Register", "Strength", "Cement", "Pressures", "Workings", "Plan as read", "Basis"}
	if !slices.Equal(got, want) {
		t.Errorf("sheets %q, want %q", got, want)
	}
}

func TestFindingsListWhatIsntMet(t *testing.T) {
	r := sample()
	want := 0
	for _, f := range r.Findings {
		if f.Verdict == finding.NotMet || f.Verdict == finding.NotAssessed || f.Verdict == finding.Varied {
			want++
		}
	}
	f := opened(t, written(t, r, units.Field))
	rows, err := f.GetRows("Findings")
	if err != nil || len(rows) != 4+want {
		t.Fatalf("%d rows, want %d behind a head of 4 (%v)", len(rows), want, err)
	}
	first := row(t, f, "Findings", 5)
	// 1 / (0.95 + 0/1000) = 1.05263...; its margin below 1.1 is -4.3 %.
	for i, want := range []string{"1", "major", "not met", "مسار أحمر 7", "burst, gas to surface", "1.05263157894737", "1.1", "-0.0430622009569378", "3,180 ft MD, 3,100 ft TVD: inside pressure is greatest there", "Strings!F2", "", "Good practice in casing and cementing 1.0 (2026-11)", "read"} {
		if !near(first[i], want) {
			t.Errorf("column %d: %q, want %q", i+1, first[i], want)
		}
	}
	register, err := f.GetRows("Register")
	if err != nil || len(register) < 4+len(r.Findings) {
		t.Errorf("the register has %d rows, want %d at least (%v)", len(register), 4+len(r.Findings), err)
	}
}

// Rounding never makes a measure look like the limit it misses.
func TestMeasureAndLimitLookApart(t *testing.T) {
	f, err := excelize.OpenReader(bytes.NewReader(written(t, sample(), units.Field)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for n := 5; n <= 28; n++ {
		r := row(t, f, "Findings", n)
		if len(r) > 6 && r[5] == "1.099" && !strings.Contains(r[6], "1.100") || r[5] == "1.10" {
			t.Errorf("row %d: measure %q against limit %q", n, r[5], r[6])
		}
	}
}

// The first load is 7,000 psi x 0.95 = 6,650 psi; 1 bar is 14.5037738 psi.
func TestUnits(t *testing.T) {
	for s, want := range map[units.System]string{units.Field: "audited: 6,650 psi", units.Metric: "audited: 458.5 bar"} {
		f := opened(t, written(t, sample(), s))
		load := row(t, f, "Workings", 9)
		if load[1] != "load" || load[8] != want {
			t.Errorf("%v: %q, want the load to say %q", s, load, want)
		}
	}
}

func TestHostileText(t *testing.T) {
	f := opened(t, written(t, sample(), units.Field))
	for cell, want := range map[string]string{"D6": hostile, "D7": "+1+1", "D8": "-2", "D9": "@SUM(1)", "D10": "ق 7", "D11": "🛢️", "D12": "tab here"} {
		if got := at(t, f, "Plan as read", cell); got != want {
			t.Errorf("%s: %q, want %q", cell, got, want)
		}
		if formula, _ := f.GetCellFormula("Plan as read", cell); formula != "" {
			t.Errorf("%s became the formula %s", cell, formula)
		}
	}
	long := at(t, f, "Plan as read", "D13")
	if n := len(long); !strings.HasPrefix(long, "xxxx") || !strings.HasSuffix(long, "longer than a cell holds)") || n < 32000 {
		t.Errorf("a text of 40,000 letters became one of %d bytes that ends %q", n, long[max(0, n-30):])
	}
	why := at(t, f, "Findings", "K"+find(t, f, "Findings", "D", hostile)[1:])
	if want := "a control ␇ and a turned ·text, _x0041_, emoji 🛢️ and a very"; !strings.HasPrefix(why, want) {
		t.Errorf("%q, want it to begin %q", why, want)
	}
}

func TestSameBytes(t *testing.T) {
	first := written(t, sample(), units.Field)
	for i := range 20 {
		if !bytes.Equal(written(t, sample(), units.Field), first) {
			t.Fatalf("writing the same record again gave other bytes (time %d)", i+2)
		}
	}
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range z.File {
		names = append(names, f.Name)
		if f.ModifiedDate != 0 || f.ModifiedTime != 0 || len(f.Extra) > 0 {
			t.Errorf("%s carries the time %v", f.Name, f.Modified)
		}
	}
	if names[0] != "[Content_Types].xml" || !slices.IsSorted(names[1:]) {
		t.Errorf("parts in the order %q", names)
	}
}

func TestOnlyDateIsTheAudits(t *testing.T) {
	p, err := opened(t, written(t, sample(), units.Field)).GetDocProps()
	if err != nil || p.Created != "2026-11-25T00:00:00Z" || p.Modified != p.Created || p.Creator != "spudgate" {
		t.Errorf("%+v, %v", p, err)
	}
}

// Every link leads to a cell that says something.
func TestLinks(t *testing.T) {
	f := opened(t, written(t, sample(), units.Field))
	n := 0
	for _, sheet := range f.GetSheetList() {
		cells, err := f.GetHyperLinkCells(sheet, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cells {
			_, target, err := f.GetCellHyperLink(sheet, c)
			if err != nil {
				t.Fatal(err)
			}
			n++
			where, cell, _ := strings.Cut(strings.ReplaceAll(target, "'", ""), "!")
			if at(t, f, where, cell) == "" {
				t.Errorf("%s!%s leads to %s, which is empty", sheet, c, target)
			}
		}
	}
	if n < 40 {
		t.Errorf("only %d links", n)
	}
}

// What may be changed is open, the rest is locked.
func TestLocks(t *testing.T) {
	f := opened(t, written(t, sample(), units.Field))
	for cell, open := range map[string]bool{"E7": true, "F7": false, "G7": true, "I7": false, "J7": true, "L7": false, "N7": false} {
		id, err := f.GetCellStyle("Strength", cell)
		if err != nil {
			t.Fatal(err)
		}
		s, err := f.GetStyle(id)
		if err != nil || s.Protection == nil || s.Protection.Locked == open {
			t.Errorf("%s: %+v (%v), want open: %v", cell, s.Protection, err, open)
		}
	}
	for _, sheet := range f.GetSheetList() {
		p, err := f.GetSheetProtection(sheet)
		if err != nil || !p.AutoFilter || !p.FormatColumns || p.FormatCells {
			t.Errorf("%s: %+v, %v", sheet, p, err)
		}
	}
}

func TestClear(t *testing.T) {
	r := sample()
	var met []finding.Finding
	for _, f := range r.Findings {
		if f.Verdict == finding.Met {
			met = append(met, f)
		}
	}
	r.Findings, r.Waiting = met, nil
	r.Outcome = finding.Outcome{Word: finding.Clear, Why: "nothing holds it", Met: len(met), HoldOn: "major"}
	f := opened(t, written(t, r, units.Metric))
	find(t, f, "Summary", "A", "CLEAR")
	find(t, f, "Summary", "A", "Least to spare")
	if got := at(t, f, "Findings", "A5"); got != "Every requirement that applies is met." {
		t.Errorf("Findings begins %q", got)
	}
}

// A record with nothing in it still gives a workbook.
func TestEmptyRecord(t *testing.T) {
	opened(t, written(t, &finding.Record{}, units.Field))
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, os.ErrClosed }

func TestWriterThatFails(t *testing.T) {
	if err := workbook.Write(broken{}, sample(), units.Field); err == nil {
		t.Error("no error from a writer that can't write")
	}
}

func BenchmarkWrite(b *testing.B) {
	r := sample()
	for range 5 {
		r.Findings = append(r.Findings, r.Findings...)
	}
	var out bytes.Buffer
	for b.Loop() {
		out.Reset()
		if err := workbook.Write(&out, r, units.Field); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(r.Findings)), "findings")
}
