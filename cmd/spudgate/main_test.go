package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

var update = flag.Bool("update", false, "write the goldens")

// spudgate runs the program in process on a fixed day.
func spudgate(t testing.TB, args ...string) (status int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	c := &command{out: &o, errs: &e, now: func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) },
		env: func(string) string { return "" }, tty: func() int { return 0 }}
	status = c.run(args)
	return status, o.String(), e.String()
}

const demo = "../../testdata/demo/"

// golden compares with a file beside the test; -update writes it.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs from what is printed now:\n%s", path, firstDifference(string(want), got))
	}
}

func firstDifference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(w), len(g)) {
		a, b := "", ""
		if i < len(w) {
			a = w[i]
		}
		if i < len(g) {
			b = g[i]
		}
		if a != b {
			return "want: " + a + "\ngot:  " + b
		}
	}
	return ""
}

// README's first command, as written.
func TestReadmeCommand(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile("(?s)```\n(go build .*?)\n```").FindStringSubmatch(string(text))
	if m == nil {
		t.Fatal("the README has no first command")
	}
	// The same command, in a copy of the tree's root, so that nothing is left
	// behind in it.
	dir := t.TempDir()
	line := strings.NewReplacer("-o spudgate ", "-o "+dir+"/spudgate ", "./spudgate", dir+"/spudgate", "-o audit.xlsx", "-o "+dir+"/audit.xlsx").Replace(m[1])
	run := exec.Command("sh", "-c", line)
	run.Dir = "../.."
	out, err := run.CombinedOutput()
	exit, ok := err.(*exec.ExitError)
	if !ok || exit.ExitCode() != statusHold {
		t.Fatalf("%v\n%s", err, out)
	}
	if !bytes.HasPrefix(out, []byte("HOLD")) {
		t.Errorf("it answers\n%s", out)
	}
	if info, err := os.Stat(filepath.Join(dir, "audit.xlsx")); err != nil || info.Size() < 10_000 {
		t.Errorf("the workbook: %v %v", info, err)
	}
}

// Statuses and what is said.
func TestStatuses(t *testing.T) {
	dir := t.TempDir()
	taken := filepath.Join(dir, "taken.json")
	if err := os.WriteFile(taken, []byte("{}"), 0o644); err != nil {
		t.Fatal(err)
	}
	a := demo + "harrow-fen-a.json"
	for _, c := range []struct {
		args   []string
		status int
		says   string
	}{
		{nil, statusUnfit, "spudgate audit PLAN"},
		{[]string{"--help"}, statusClear, "spudgate audit PLAN"},
		{[]string{"--version"}, statusClear, "spudgate"},
		{[]string{"frobnicate"}, statusUnfit, `found command "frobnicate"`},
		{[]string{"audit"}, statusUnfit, "found no plan"},
		{[]string{"audit", "--frob"}, statusUnfit, "unknown flag"},
		{[]string{"audit", a, "--stage", "later"}, statusUnfit, `found "later", expected permit, programme or pre_spud`},
		{[]string{"audit", a, "--as-of", "25/11/26"}, statusUnfit, "expected a date"},
		{[]string{"audit", a, "-o", "x.doc"}, statusUnfit, `found the ending ".doc"`},
		{[]string{"audit", a, "-o", taken}, statusUnfit, "--replace overwrites it"},
		{[]string{"audit", a, "-o", a, "--replace"}, statusUnfit, "an input is never overwritten"},
		{[]string{"audit", a, "--book", "nowhere"}, statusUnfit, "neither a built-in book"},
		{[]string{"audit", a, "--basis", "nowhere.json"}, statusUnfit, "nowhere.json"},
		{[]string{"audit", a, "-o", filepath.Join(dir, "no", "such", "x.json")}, statusFailed, "can't be written"},
		{[]string{"audit", "nowhere.json"}, statusUnfit, "nowhere.json"},
		{[]string{"audit", a, "--quiet"}, statusClear, "CLEAR"},
		{[]string{"audit", a, "--help"}, statusClear, "--hold-on"},
		{[]string{"pipe", "9-5/8", "47", "L80", "BTC"}, statusClear, "4,760 psi"},
		{[]string{"pipe", "9-5/8", "47"}, statusUnfit, "expected SIZE WEIGHT GRADE"},
		{[]string{"pipe", "9-5/8", "48", "L80"}, statusUnfit, "48"},
		{[]string{"pipe", "9-5/8", "47", "XQ90"}, statusUnfit, "XQ90"},
		{[]string{"schema", "plan"}, statusClear, "spudgate-plan/1"},
		{[]string{"schema", "frob"}, statusUnfit, "expected one of"},
		{[]string{"requirements", "--books"}, statusClear, "us-onshore-federal"},
		{[]string{"requirements", "frob"}, statusUnfit, "expected the name of a requirement"},
	} {
		status, out, errs := spudgate(t, c.args...)
		if status != c.status || !strings.Contains(out+errs, c.says) {
			t.Errorf("%q: status %d, want %d; says\n%s%s\nwant %q", c.args, status, c.status, out, errs, c.says)
		}
	}
}

// The status never depends on the format of an output, and the same input
// gives the same bytes.
func TestSameBytes(t *testing.T) {
	for _, plan := range []string{"harrow-fen-a.json", "harrow-fen-b.json"} {
		var seen [2][]byte
		var status [2]int
		for i := range seen {
			dir := t.TempDir()
			var errs string
			files := []string{"a.json"}
			if plan == "harrow-fen-b.json" {
				files = append(files, "a.xlsx") // its pictures take their time: one plan's do
			}
			args := []string{"audit", demo + plan}
			for _, f := range files {
				args = append(args, "-o", filepath.Join(dir, f))
			}
			status[i], _, errs = spudgate(t, args...)
			for _, f := range files {
				b, err := os.ReadFile(filepath.Join(dir, f))
				if err != nil {
					t.Fatal(err, errs)
				}
				seen[i] = append(seen[i], b...)
			}
		}
		if !bytes.Equal(seen[0], seen[1]) {
			t.Errorf("%s: two audits gave different bytes", plan)
		}
		plain, _, _ := spudgate(t, "audit", demo+plan)
		if status[0] != plain || status[1] != plain {
			t.Errorf("%s: status %v with outputs, %d without", plan, status, plain)
		}
	}
}

// pipe --json has what a program asks for; values are those printed in API
// Bul 5C2 for 9-5/8 47 L80 BTC (collapse and internal yield from memory, as the
// rows of plan/pipe's table say).
func TestPipeJSON(t *testing.T) {
	status, out, errs := spudgate(t, "pipe", "9-5/8", "47", "L80", "BTC", "--json")
	if status != statusClear {
		t.Fatal(errs)
	}
	var got map[string]any
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	for k, want := range map[string]float64{
		"collapse_psi": 4760, "internal_yield_psi": 6870, "body_yield_lbf": 1086000, "joint_strength_lbf": 1122000,
		"wall_in": 0.472, "inside_diameter_in": 8.681, "drift_in": 8.525, "coupling_od_in": 10.625,
	} {
		if v, ok := got[k].(float64); !ok || v != want {
			t.Errorf("%s = %v, want %v", k, got[k], want)
		}
	}
	if exact, ok := got["exact"].(map[string]any); !ok || exact["collapse_psi"] == got["collapse_psi"] {
		t.Errorf("exact: %v", got["exact"])
	}
}
