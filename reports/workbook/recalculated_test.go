package workbook_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"spudgate/plan/units"
	"spudgate/reports/office"
)

// formulas are the cells of all sheets that hold formulas.
func formulas(t *testing.T, f *excelize.File) [][2]string {
	t.Helper()
	var out [][2]string
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r := range rows {
			for c := 1; c <= 20; c++ {
				name, err := excelize.CoordinatesToCellName(c, r+1)
				if err != nil {
					t.Fatal(err)
				}
				if formula, _ := f.GetCellFormula(sheet, name); formula != "" {
					out = append(out, [2]string{sheet, name})
				}
			}
		}
	}
	return out
}

// Another program's arithmetic gives the audited values: what stands in the
// file is what its formulas say.
func TestCachedValuesAreRecalculatedOnes(t *testing.T) {
	if !office.Need(t) {
		return
	}
	systems := []units.System{units.Field, units.Metric}
	var files [][]byte
	var paths []string
	for _, s := range systems {
		b := written(t, sample(), s)
		files, paths = append(files, b), append(paths, saved(t, s.String(), b))
	}
	for i, path := range office.Recalculate(t, paths...) {
		f, anew := opened(t, files[i]), reopened(t, path)
		cells := formulas(t, f)
		for _, c := range cells {
			before, after := at(t, f, c[0], c[1]), at(t, anew, c[0], c[1])
			if !same(before, after) {
				t.Errorf("%v, %s!%s holds %q, worked out anew it's %q", systems[i], c[0], c[1], before, after)
			}
		}
		if len(cells) < 200 {
			t.Errorf("only %d formulas", len(cells))
		}
	}
}

func same(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX != nil || errY != nil {
		return a == b
	}
	return math.Abs(x-y) <= 1e-12*math.Max(math.Abs(x), math.Abs(y))
}

// reopened opens a workbook that the office program saved.
func reopened(t *testing.T, path string) *excelize.File {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return opened(t, b)
}

const warning = "NOT AS AUDITED: what-if only"

// edit is a cell that somebody changes.
type edit struct {
	sheet, cell string
	to          any
}

// edited are the sample's workbooks with one edit each, worked out anew.
func edited(t *testing.T, edits []edit) []*excelize.File {
	t.Helper()
	var paths []string
	for i, e := range edits {
		f := opened(t, written(t, sample(), units.Field))
		if err := f.SetCellValue(e.sheet, e.cell, e.to); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, saved(t, fmt.Sprint("edit", i), b.Bytes()))
	}
	var out []*excelize.File
	for _, path := range office.Recalculate(t, paths...) {
		out = append(out, reopened(t, path))
	}
	return out
}

// One changed input is seen on every sheet, and what rests on it follows: the
// load is inside less outside, the factor is the rating over it.
func TestNotAsAudited(t *testing.T) {
	if !office.Need(t) {
		return
	}
	edits := []edit{{"Strength", "E7", 4190.0}, {"Strength", "E7", "4200?"}, {"Cement", "C6", nil}, {"Workings", "C7", 8000.0}, {"Strength", "J8", 4000.0}}
	files := edited(t, edits)
	for i, f := range files {
		for _, sheet := range f.GetSheetList() {
			if got := at(t, f, sheet, "A2"); got != warning {
				t.Errorf("%v: %s says %q", edits[i], sheet, got)
			}
		}
		if got := at(t, f, "Summary", "A3"); got != "" {
			t.Errorf("%v: the outcome still says %q", edits[i], got)
		}
		if got := at(t, f, "Summary", "D3"); !strings.HasPrefix(got, "1 input differs") {
			t.Errorf("%v: beside the outcome: %q", edits[i], got)
		}
		if got := at(t, f, "Cement", "P8"); got != "" {
			t.Errorf("%v: a verdict that can't follow still says %q", edits[i], got)
		}
	}
	for _, c := range []struct {
		file              int
		sheet, cell, want string
	}{
		{0, "Strength", "I7", "4190"}, {0, "Strength", "L7", "1.21718377088305"}, {0, "Strength", "N7", "met"}, // 5,100 / 4,190
		{3, "Workings", "C9", "6800"}, {3, "Workings", "C14", "1.02941176470588"}, {3, "Workings", "C17", "no"}, // 7,000 / (8,000 - 1,200)
		{4, "Strength", "L8", "0.909090909090909"}, {4, "Strength", "N8", "not met"}, // 4,000 / 4,400
	} {
		if got := at(t, files[c.file], c.sheet, c.cell); !near(got, c.want) {
			t.Errorf("%v: %s!%s is %q, want %q", edits[c.file], c.sheet, c.cell, got, c.want)
		}
	}
}

func near(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX != nil || errY != nil {
		return a == b
	}
	return math.Abs(x-y) <= 1e-9*math.Abs(y)
}

// The summary is one printed page, and every page says what it's of.
func TestPrinted(t *testing.T) {
	if !office.Need(t) {
		return
	}
	pages := office.Text(t, saved(t, "audit", written(t, sample(), units.Field)))
	for _, want := range []string{"Audit of a casing and cementing plan", "HOLD", "Hold points", "Signatures", "SHA-256 begins", "competent reviewer"} {
		if !strings.Contains(pages[0], want) {
			t.Errorf("the first page doesn't say %q", want)
		}
	}
	titles := []string{"Findings", "Register of requirements", "Strength of casing", "Cement, string", "Pressures by depth", "Workings", "The plan as it was read", "Design basis"}
	for i, page := range pages[1:] {
		first, _, _ := strings.Cut(strings.TrimSpace(page), "\n")
		known := false
		for _, title := range titles {
			known = known || strings.HasPrefix(first, title)
		}
		if !known {
			t.Errorf("page %d begins %q", i+2, first)
		}
	}
}
