package read_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/read"
)

func TestFile(t *testing.T) {
	dir := t.TempDir()
	good := filepath.Join(dir, "plan.txt")
	if err := os.WriteFile(good, []byte(`{"units": "field"}`), 0o600); err != nil {
		t.Fatal(err)
	}
	docs, err := read.File(good)
	if err != nil || len(docs) != 1 || docs[0].File != "plan.txt" || docs[0].Root.Get("units").Text != "field" {
		t.Fatalf("%v, %v", docs, err)
	}
	for path, want := range map[string]string{
		filepath.Join(dir, "none.json"): "none.json: found no such file, expected a JSON plan or an .xlsx workbook",
		dir:                             filepath.Base(dir) + ": found a folder, expected a JSON plan or an .xlsx workbook",
		filepath.Join(good, "x.json"):   "x.json: found not a directory, expected a JSON plan or an .xlsx workbook",
	} {
		_, err := read.File(path)
		var faults doc.Faults
		if !errors.As(err, &faults) || err.Error() != want {
			t.Errorf("got  %v\nwant %s", err, want)
		}
	}
}

// A file over the limit is refused by its size alone: the 210 MB here are a
// hole in the file, and reading them would show as memory.
func TestFileTooLarge(t *testing.T) {
	path := filepath.Join(t.TempDir(), "big.json")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.Truncate(210_000_000); err != nil {
		t.Fatal(err)
	}
	allocated := testing.AllocsPerRun(1, func() { _, err = read.File(path) })
	if want := "big.json: found 210000000 bytes, expected at most 200000000 bytes"; err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	if allocated > 50 {
		t.Errorf("%.0f allocations to refuse a file by its size", allocated)
	}
	if peak := peakOf(t, func() { _, err = read.File(path) }); peak > 1<<20 {
		t.Errorf("%d bytes to refuse a file by its size", peak)
	}
}
