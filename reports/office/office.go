// Package office lets tests look at a workbook through an office program that
// knows nothing of the code that wrote it: it works the formulas out anew, or
// prints.
package office

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Need reports whether the office program and the tools to read its prints are
// at hand. Where they aren't, the test says what is missing and goes on
// without; on the build machine, where the variable CI is set, it fails.
func Need(t testing.TB) bool {
	t.Helper()
	var missing []string
	for _, tool := range []string{"soffice", "pdftotext"} {
		if _, err := exec.LookPath(tool); err != nil {
			missing = append(missing, tool)
		}
	}
	if len(missing) == 0 {
		return true
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("missing: %s", strings.Join(missing, ", "))
	}
	t.Logf("not looked at by an office program; missing: %s", strings.Join(missing, ", "))
	return false
}

// recalculate makes the program work every formula out when it opens a
// workbook: left alone, it believes what the file says.
const recalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`

// Recalculate gives the workbooks saved again with every formula worked out
// anew, all by one start of the program, in the order they were given. Their
// file names must differ.
func Recalculate(t testing.TB, paths ...string) []string {
	t.Helper()
	return convert(t, "xlsx", paths)
}

// Print prints a workbook to a PDF and gives its path.
func Print(t testing.TB, path string) string {
	t.Helper()
	return convert(t, "pdf", []string{path})[0]
}

// Text prints a workbook and gives the text of each page, laid out as printed.
func Text(t testing.TB, path string) []string {
	t.Helper()
	out, err := exec.Command("pdftotext", "-layout", Print(t, path), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

// convert runs the program with a home of its own, so that nobody's settings
// and no other run of it matter.
func convert(t testing.TB, to string, paths []string) []string {
	t.Helper()
	home, out := t.TempDir(), t.TempDir()
	if err := os.MkdirAll(filepath.Join(home, "user"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(home, "user", "registrymodifications.xcu"), []byte(recalculate), 0o644); err != nil {
		t.Fatal(err)
	}
	args := []string{"-env:UserInstallation=file://" + filepath.ToSlash(home), "--headless", "--convert-to", to, "--outdir", out}
	if said, err := exec.Command("soffice", append(args, paths...)...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	var made []string
	for _, path := range paths {
		m := filepath.Join(out, strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))+"."+to)
		if _, err := os.Stat(m); err != nil {
			t.Fatal(err)
		}
		made = append(made, m)
	}
	return made
}
