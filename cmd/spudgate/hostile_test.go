package main

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
	"unicode/utf16"
)

// bomb is a workbook whose first sheet unpacks to 512 MB of zeros.
func bomb(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, text := range map[string]string{
		"[Content_Types].xml": `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/></Types>`,
		"xl/workbook.xml":     `<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheets><sheet name="Well" sheetId="1"/></sheets></workbook>`,
	} {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, text); err != nil {
			t.Fatal(err)
		}
	}
	w, err := z.Create("xl/worksheets/sheet1.xml")
	if err != nil {
		t.Fatal(err)
	}
	block := make([]byte, 1<<20)
	for range 512 {
		if _, err := w.Write(block); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func wide(s string) []byte {
	out := []byte{0xFF, 0xFE}
	for _, u := range utf16.Encode([]rune(s)) {
		out = append(out, byte(u), byte(u>>8))
	}
	return out
}

// Each bad input ends with status 2, says where there is a where, under 10 s
// and 512 MB, with nothing written.
func TestBadInputs(t *testing.T) {
	good, err := os.ReadFile(demo + "harrow-fen-a.json")
	if err != nil {
		t.Fatal(err)
	}
	z := filepath.Join(t.TempDir(), "z.xlsx")
	if status, _, errs := spudgate(t, "convert", demo+"harrow-fen-a.json", z); status != 0 {
		t.Fatal(errs)
	}
	packed, err := os.ReadFile(z)
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		bytes []byte
		says  string
	}{
		"empty.json":    {nil, "an empty file"},
		"cut.json":      {good[:len(good)/2], ":"},
		"twice.json":    {[]byte(`{"format":"spudgate-plan/1","well":{"name":"a","name":"b"}}`), "1:"},
		"trailing.json": {append(append([]byte{}, good...), "more"...), ":"},
		"huge.json":     {[]byte(`{"format":"spudgate-plan/1","well":{"name":"a","h2s":1e400}}`), "1e400"},
		"deep.json":     {[]byte(strings.Repeat("[", 200_000)), "64"},
		"bomb.xlsx":     {bomb(t), "found"},
		"cut.xlsx":      {packed[:len(packed)/2], "found"},
		"wide.json":     {wide(string(good)), "UTF-16"},
		"list.json":     {[]byte(`[]`), "at least one plan"},
		"text.json":     {[]byte(`well: a`), "found"},
		"member.json":   {[]byte(`{"format":"spudgate-plan/1","well":{"nam":"a"}}`), "name"},
		"old.json":      {[]byte(`{"format":"spudgate-plan/0","well":{"name":"a"}}`), "spudgate-plan/1"},
		"unit.json":     {[]byte(`{"format":"spudgate-plan/1","well":{"name":"a","reservoir_pressure":"9 ft"}}`), "a pressure"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, name)
			if err := os.WriteFile(path, c.bytes, 0o644); err != nil {
				t.Fatal(err)
			}
			refused(t, dir, path, c.says)
		})
	}
	t.Run("missing", func(t *testing.T) {
		dir := t.TempDir()
		refused(t, dir, filepath.Join(dir, "no.json"), "no.json")
	})
	t.Run("210 MB", func(t *testing.T) {
		dir := t.TempDir()
		path := filepath.Join(dir, "large.json")
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.Truncate(210_000_000); err != nil {
			t.Fatal(err)
		}
		f.Close()
		refused(t, dir, path, "200")
	})
}

func refused(t *testing.T, dir, path, says string) {
	t.Helper()
	before, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	from, start := m.TotalAlloc, time.Now()
	status, out, errs := spudgate(t, "audit", path, "-o", filepath.Join(dir, "out.xlsx"))
	runtime.ReadMemStats(&m)
	took, used := time.Since(start), m.TotalAlloc-from
	if status != statusUnfit {
		t.Errorf("status %d, want %d", status, statusUnfit)
	}
	if !strings.Contains(errs, says) || out != "" {
		t.Errorf("says %q and prints %q, want %q", errs, out, says)
	}
	if took > 10*time.Second || used > 512<<20 {
		t.Errorf("took %v and %d MB", took, used>>20)
	}
	after, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	if len(after) != len(before) {
		t.Errorf("something was written: %v", fmt.Sprint(after))
	}
}
