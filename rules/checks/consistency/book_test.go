package consistency_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"spudgate/plan"
	"spudgate/plan/read"
	"spudgate/plan/well"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
	"spudgate/rules/checks"
	"spudgate/rules/finding"
	"spudgate/schema"
)

// audit judges a plan by the consistency book alone.
func audit(t *testing.T, name string, raw []byte) []finding.Finding {
	t.Helper()
	d, err := read.JSON(name, raw)
	if err != nil {
		t.Fatal(err)
	}
	if faults := schema.Check(d); len(faults) > 0 {
		t.Fatal(faults)
	}
	p, faults := plan.Decode(d)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	g, err := rules.NewRegistry(checks.All())
	if err != nil {
		t.Fatal(err)
	}
	b, err := basis.Default(p.System)
	if err != nil {
		t.Fatal(err)
	}
	book, err := books.Builtin("consistency", g, b.TypeOf)
	if err != nil {
		t.Fatal(err)
	}
	o := rules.Options{Stage: finding.PreSpud, AsOf: "2026-11-25"}
	return rules.New(p, well.New(p, b.Assumptions()), g, b, o).All([]*rules.Book{book})
}

// notMet lists the requirements that aren't met, each once, in book order.
func notMet(fs []finding.Finding) []string {
	var out []string
	for _, f := range fs {
		if f.Verdict == finding.NotMet && !slices.Contains(out, f.Requirement) {
			out = append(out, f.Requirement)
		}
	}
	return out
}

func sound(t *testing.T) []byte {
	t.Helper()
	raw, err := os.ReadFile("testdata/sound.json")
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// TestSound holds that a full plan without a slip meets every requirement of
// the book at least once: none of them is empty.
func TestSound(t *testing.T) {
	met := map[string]bool{}
	all := map[string]bool{}
	for _, f := range audit(t, "sound.json", sound(t)) {
		all[f.Requirement] = true
		met[f.Requirement] = met[f.Requirement] || f.Verdict == finding.Met
		if f.Verdict == finding.NotMet || f.Verdict == finding.NotAssessed {
			t.Errorf("%s: %s: %s %v", f.Key, f.Verdict, f.Reason, f.Missing)
		}
	}
	for r := range all {
		if !met[r] {
			t.Errorf("%s is met nowhere", r)
		}
	}
}

// TestNormal holds that the wells of the trade raise no alarm: nothing major
// not met, nothing not assessed but what the file says it leaves out.
func TestNormal(t *testing.T) {
	files, err := filepath.Glob("testdata/normal/*.json")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d normal wells, %v", len(files), err)
	}
	for _, file := range files {
		raw, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range audit(t, filepath.Base(file), raw) {
			if f.Verdict == finding.NotMet || (f.Verdict == finding.NotAssessed && f.Grade == finding.Major) {
				t.Errorf("%s: %s: %s: %s %v", file, f.Key, f.Verdict, f.Reason, f.Missing)
			}
		}
	}
}

// edit sets the member at a path of a plan, or takes it out when the value is
// nil; the index after the last of a list adds to it.
func edit(t *testing.T, root any, path string, value any) any {
	t.Helper()
	head, rest, more := strings.Cut(path, ".")
	name, index, listed := strings.Cut(head, "[")
	object := root.(map[string]any)
	next := value
	switch {
	case listed:
		i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
		if err != nil {
			t.Fatal(err)
		}
		list, _ := object[name].([]any)
		if i == len(list) {
			list = append(list, map[string]any{})
		}
		if more {
			value = edit(t, list[i], rest, value)
		}
		if value == nil {
			list = slices.Delete(list, i, i+1)
		} else {
			list[i] = value
		}
		next = list
	case more:
		next = edit(t, object[name], rest, value)
	}
	if next == nil {
		delete(object, name)
	} else {
		object[name] = next
	}
	return object
}

// changed is the sound plan with some members set.
func changed(t *testing.T, edits map[string]any) []byte {
	t.Helper()
	var root any
	if err := json.Unmarshal(sound(t), &root); err != nil {
		t.Fatal(err)
	}
	for _, path := range slices.Sorted(maps.Keys(edits)) {
		root = edit(t, root, path, edits[path])
	}
	raw, err := json.Marshal(root)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// slip is one inconsistency: what is changed in the sound plan and what the
// book must say of it.
type slip struct {
	name   string
	edits  map[string]any
	subj   string   // of the first requirement
	want   []string // requirements not met, all of them
	places []string // of the first, in order
	note   []string // words its reason must have: both values
}

func (s slip) run(t *testing.T) {
	fs := audit(t, "slip.json", changed(t, s.edits))
	got := notMet(fs)
	if fmt.Sprint(slices.Sorted(slices.Values(got))) != fmt.Sprint(slices.Sorted(slices.Values(s.want))) {
		for _, f := range fs {
			if f.Verdict == finding.NotMet {
				t.Logf("%s: %s", f.Key, f.Reason)
			}
		}
		t.Fatalf("not met: %v, want %v", got, s.want)
	}
	for _, f := range fs {
		if f.Requirement != s.want[0] || f.Subject != s.subj {
			continue
		}
		var places []string
		for _, p := range f.Places {
			places = append(places, p.Path)
		}
		if f.Verdict != finding.NotMet || fmt.Sprint(places) != fmt.Sprint(s.places) {
			t.Errorf("%s: %s at %v, want not met at %v", f.Key, f.Verdict, places, s.places)
		}
		for _, n := range s.note {
			if !strings.Contains(f.Reason, n) {
				t.Errorf("%s: %q lacks %q", f.Key, f.Reason, n)
			}
		}
		return
	}
	t.Errorf("no finding of %s about %s", s.want[0], s.subj)
}
