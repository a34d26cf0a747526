package schema

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/read"
)

func leavesOf(t *testing.T, root *doc.Node, err error) []leaf {
	t.Helper()
	var refused *jsonschema.ValidationError
	if !errors.As(err, &refused) {
		t.Fatal(err)
	}
	return leaves(root, refused)
}

// The largest trees the reader gives, each with something for the schema to
// refuse.
func TestHostile(t *testing.T) {
	stations := strings.Repeat(`{"md":1,"inclination":2,"azimuth":3},`, 62_000)
	unknown := strings.Repeat(`{"nclination":1},`, 60_000)
	var names strings.Builder
	for i := range 100_000 {
		fmt.Fprintf(&names, `,"inclinatoin_%d":1`, i)
	}
	for _, c := range []struct {
		name, text string
		faults     int
	}{
		{"one fault in a long list", plan(`,"survey":[` + stations + `{"md":null}]`), 1},
		{"a fault in each record", plan(`,"survey":[` + unknown + `{}]`), maxFaults},
		{"many names", plan(names.String()), maxFaults},
		{"a long list instead of a text", plan(`,"units":[` + strings.Repeat(`{},`, 240_000) + `{}]`), 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := read.JSON("p", []byte(c.text))
			if err != nil {
				t.Fatal(err)
			}
			runtime.GC()
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			faults := Check(d)
			took := time.Since(start)
			runtime.ReadMemStats(&after)
			allocated := (after.TotalAlloc - before.TotalAlloc) >> 20
			t.Logf("%v, %d MB allocated in all", took.Round(time.Millisecond), allocated)
			if len(faults) != c.faults {
				t.Errorf("%d faults, want %d", len(faults), c.faults)
			}
			if took > 10*time.Second || allocated > 512 {
				t.Errorf("took %v and %d MB", took, allocated)
			}
		})
	}
}

// sixty is a tree of about 60 KB.
func sixty(b *testing.B) *doc.Doc {
	v := full(form.Plan, 1)
	var survey []any
	for range 800 {
		survey = append(survey, full(form.Plan.Field("survey").Of, 1))
	}
	v["survey"] = survey
	return tree(b, v)
}

func BenchmarkCheck(b *testing.B) {
	d := sixty(b)
	b.ReportAllocs()
	for b.Loop() {
		if faults := Check(d); faults != nil {
			b.Fatal(faults)
		}
	}
}

// BenchmarkRefuse has one fault, so that the schema is asked as well.
func BenchmarkRefuse(b *testing.B) {
	d := sixty(b)
	d.Root.Get("well").Get("name").Kind = doc.Number
	b.ReportAllocs()
	for b.Loop() {
		if faults := Check(d); len(faults) != 1 {
			b.Fatal(faults)
		}
	}
}
