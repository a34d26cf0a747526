package schema

import (
	"encoding/json"
	"errors"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"spudgate/plan/doc"
	"spudgate/plan/form"
)

func sortedKeys(m map[string]any) []string { return slices.Sorted(maps.Keys(m)) }

// agree holds the walk against the schema on one value: both accept, or both
// refuse and the walk has a fault wherever the schema has one. It reports
// whether they accept.
func agree(t *testing.T, v any) bool {
	t.Helper()
	s, err := compiled()
	if err != nil {
		t.Fatal(err)
	}
	d := tree(t, v)
	w := walk{doc: d, about: map[*doc.Node]bool{}}
	w.object(d.Root, form.Plan)
	// The schema sees the value itself here, not what generic makes of the tree.
	err = s.Validate(v)
	if (err == nil) != (len(w.faults) == 0) {
		b, _ := json.Marshal(v)
		t.Errorf("the schema says %v, the walk says %v of %s", err, w.faults, b)
	}
	var refused *jsonschema.ValidationError
	if errors.As(err, &refused) {
		for _, l := range leaves(d.Root, refused) {
			if !w.about[l.node] {
				t.Errorf("the walk has nothing on %s: %s", d.Place(l.node.Ref).Path, l.message)
			}
		}
	}
	return err == nil
}

func TestWalkAgreesWithSchemaOnMutations(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2026))
	good := full(form.Plan, 1)
	if !agree(t, good) {
		t.Fatal("the unchanged plan is refused")
	}
	rounds := 500
	if os.Getenv("CI") != "" {
		rounds = 2_000
	}
	refused := 0
	for range rounds {
		v := copied(t, good)
		for range 1 + r.IntN(3) {
			mutate(r, v)
		}
		if !agree(t, v) {
			refused++
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("%d of %d refused by both", refused, rounds)
	if refused < rounds/2 || refused > rounds*19/20 {
		t.Errorf("%d of %d refused: the mutations try too little", refused, rounds)
	}
}

// Every field of the form meets every wrong value once, in a plan that has
// nothing besides its part and what must be there.
func TestWalkAgreesWithSchemaOnEveryField(t *testing.T) {
	cases := 0
	for i := range form.Plan.Fields {
		part := &form.Plan.Fields[i]
		made := func() map[string]any {
			v := map[string]any{"format": "spudgate-plan/1", "well": map[string]any{"name": "Tarn Hollow 3"}}
			v[part.Name] = filled(part, 1)
			return v
		}
		for j := range spots(made(), nil) {
			v := made()
			s := spots(v, nil)[j]
			for _, x := range wrong {
				s.put(x)
				agree(t, v)
				cases++
			}
			s.drop()
			agree(t, v)
		}
	}
	t.Logf("%d cases", cases)
}

func TestWalkAgreesWithSchemaOnRoots(t *testing.T) {
	for _, v := range wrong {
		if agree(t, v) {
			t.Errorf("%v is accepted as a plan", v)
		}
	}
}
