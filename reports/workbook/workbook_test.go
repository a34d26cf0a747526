package workbook_test

import (
	"bytes"
	"os"
	"path/filepath"
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

func TestSheets(t *testing.T) {
	f := opened(t, written(t, sample(), units.Field))
	got := f.GetSheetList()
	want := []string{"Summary", "Findings", "Register", "Strength", "Cement", "Pressures", "Workings", "Plan as read", "Basis"}
	if len(got) != len(want) {
		t.Fatal(got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("sheet %d is %q, want %q", i, got[i], want[i])
		}
	}
}

func saved(t testing.TB, b []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "audit.xlsx")
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}
