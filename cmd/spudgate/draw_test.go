package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// drew runs the command in process on a fixed day.
func drew(args ...string) (status int, errs string) {
	var o, e bytes.Buffer
	c := &command{out: &o, errs: &e, now: func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) },
		env: func(string) string { return "" }, tty: func() int { return 0 }}
	return c.finish(c.draw(args)), e.String()
}

func TestDrawWritesEveryKind(t *testing.T) {
	dir := t.TempDir()
	heads := map[string]string{".svg": "<svg ", ".png": "\x89PNG", ".pdf": "%PDF-"}
	for _, kind := range []string{"schematic", "window", "loads", "placement"} {
		args := []string{"--of", kind}
		if kind == "loads" || kind == "placement" {
			args = append(args, "--string", "9-5/8 intermediate") // a page for each string otherwise
		}
		for ending, head := range heads {
			out := filepath.Join(dir, kind+ending)
			if status, errs := drew(append([]string{demo + "harrow-fen-a.json", out}, args...)...); status != statusClear {
				t.Fatalf("%s%s: status %d: %s", kind, ending, status, errs)
			}
			raw, err := os.ReadFile(out)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.HasPrefix(string(raw), head) {
				t.Errorf("%s%s begins %.10q", kind, ending, raw)
			}
		}
	}
}

func TestDrawOneString(t *testing.T) {
	dir := t.TempDir()
	one, all := filepath.Join(dir, "one.svg"), filepath.Join(dir, "all.svg")
	for out, more := range map[string][]string{one: {"--string", "7 Drilling Liner"}, all: nil} {
		if status, errs := drew(append([]string{demo + "harrow-fen-a.json", out, "--of", "loads", "--units", "metric"}, more...)...); status != statusClear {
			t.Fatalf("status %d: %s", status, errs)
		}
	}
	first, _ := os.ReadFile(one)
	whole, _ := os.ReadFile(all)
	for name, want := range map[string]int{"7 drilling liner: loads": 1, "tie-back: loads": 0} {
		if got := bytes.Count(first, []byte(">"+name)); got != want {
			t.Errorf("one: %d pages of %s, want %d", got, name, want)
		}
		if got := bytes.Count(whole, []byte(">"+name)); got != 1 {
			t.Errorf("all: %d pages of %s", got, name)
		}
	}
	if !bytes.Contains(first, []byte("MD m<")) {
		t.Error("depths aren't in metres")
	}
}

// The placement is drawn stage by stage, and says whether friction is counted.
func TestDrawPlacement(t *testing.T) {
	for name, friction := range map[string]string{"9-5/8 intermediate": "Friction is counted in pipe and annulus", "13-3/8 intermediate": "FRICTION IS LEFT OUT"} {
		out := filepath.Join(t.TempDir(), "one.svg")
		if status, errs := drew(demo+"harrow-fen-a.json", out, "--of", "placement", "--string", name); status != statusClear {
			t.Fatalf("status %d: %s", status, errs)
		}
		raw, _ := os.ReadFile(out)
		for _, want := range []string{">" + name + ", primary: cement placement", friction, "ppg<"} {
			if bytes.Count(raw, []byte(want)) == 0 {
				t.Errorf("%s: the drawing doesn't say %q", name, want)
			}
		}
		if n := bytes.Count(raw, []byte("volume by volume</text>")); n != 1 {
			t.Errorf("%s: %d pages", name, n)
		}
	}
}

func TestDrawRefuses(t *testing.T) {
	dir := t.TempDir()
	there := filepath.Join(dir, "there.svg")
	bare := filepath.Join(dir, "bare.json")
	for name, text := range map[string]string{there: "kept", bare: `{"format":"spudgate-plan/1","units":"field","well":{"name":"Bare"}}`} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	plan, out := demo+"harrow-fen-a.json", filepath.Join(dir, "out.svg")
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{plan, out}, "expected one of schematic, window, loads, placement"},
		{[]string{plan, out, "--of", "forces"}, `found "forces", expected one of schematic`},
		{[]string{plan, "--of", "window"}, "found 1 names"},
		{[]string{plan, filepath.Join(dir, "out.gif"), "--of", "window"}, "expected one of .svg, .png, .pdf"},
		{[]string{plan, there, "--of", "window"}, "--replace overwrites it"},
		{[]string{plan, out, "--of", "window", "--string", "tie-back"}, "with --of loads or placement"},
		{[]string{plan, out, "--of", "loads", "--string", "Nemo"}, "expected one of 30 conductor, 20 surface"},
		{[]string{plan, out, "--of", "placement", "--string", "Nemo"}, "expected one of 30 conductor, 20 surface"},
		{[]string{bare, out, "--of", "placement"}, "there is no placement to draw"},
		{[]string{plan, out, "--of", "loads", "--units", "furlongs"}, "expected field or metric"},
		{[]string{plan, out, "--of", "loads", "--as-of", "soon"}, "expected a date"},
		{[]string{bare, out, "--of", "schematic"}, "there is no well to draw"},
		{[]string{bare, out, "--of", "window"}, "there is no window to draw"},
		{[]string{bare, out, "--of", "loads"}, "there are no loads to draw"},
		{[]string{filepath.Join(dir, "none.json"), out, "--of", "loads"}, "none.json"},
	} {
		status, errs := drew(c.args...)
		if status != statusUnfit || !strings.Contains(errs, c.says) {
			t.Errorf("%v: status %d: %s", c.args, status, errs)
		}
		if _, err := os.Stat(out); err == nil {
			t.Fatalf("%v: an output was written", c.args)
		}
	}
	if raw, _ := os.ReadFile(there); string(raw) != "kept" {
		t.Error("an existing file was overwritten")
	}
}
