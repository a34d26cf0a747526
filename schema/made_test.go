package schema

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/read"
)

// full is an object with every field of the form, n records in each list.
func full(o *form.Object, n int) map[string]any {
	object := map[string]any{}
	for i := range o.Fields {
		object[o.Fields[i].Name] = filled(&o.Fields[i], n)
	}
	return object
}

// filled is a value the field may have.
func filled(f *form.Field, n int) any {
	switch f.Kind {
	case form.Card:
		return full(f.Of, n)
	case form.List:
		list := make([]any, n)
		for i := range list {
			list[i] = full(f.Of, max(1, n/2))
		}
		return list
	case form.Flag:
		return true
	case form.Whole:
		return 3.0
	case form.Choice:
		return f.Choices[len(f.Choices)-1]
	case form.Date:
		return "2027-02-28"
	case form.Quantity, form.Grade, form.Free:
		if n%2 == 0 {
			return 12.5
		}
		return f.Example
	}
	if f.Const != "" {
		return f.Const
	}
	return "Fell " + f.Name
}

// tree reads the JSON text of a value.
func tree(t testing.TB, v any) *doc.Doc {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	d, err := read.JSON("plan.json", b)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// spot is one value inside a generic value, with the way to change it.
type spot struct {
	value any
	put   func(any)
	drop  func()
}

// spots lists every value below v in an order that is always the same.
func spots(v any, list []spot) []spot {
	switch v := v.(type) {
	case map[string]any:
		for _, k := range sortedKeys(v) {
			list = append(list, spot{v[k], func(x any) { v[k] = x }, func() { delete(v, k) }})
			list = spots(v[k], list)
		}
	case []any:
		for i := range v {
			list = append(list, spot{v[i], func(x any) { v[i] = x }, func() { v[i] = map[string]any{} }})
			list = spots(v[i], list)
		}
	}
	return list
}

// wrong are values to put where others stood: some fit by chance.
var wrong = []any{
	nil, true, false, 0.0, math.Copysign(0, -1), 1.0, -1.0, 1.5, 1e300, -2.0, "", "x", "field", "onshore", "2026-02-30", "2026-2-3", "2026-02-28",
	"2026-02-28 ", "26-02-28", "spudgate-plan/2", "7", " ", []any{}, []any{1.0}, []any{map[string]any{}}, map[string]any{}, map[string]any{"a": 1.0},
}

// strange are member names nobody knows, with all that a pointer or a URL
// would escape.
var strange = []string{"od", "OD", "name ", "13 3/8", "a~b", "~1", "100%", "é°", "", "%2F", "0", "a/b/c", "?#", "\"", "\\", "⅜"}

// mutate changes one thing, at random but from a seed.
func mutate(r *rand.Rand, v map[string]any) {
	all := append(spots(v, nil), spot{value: v})
	s := all[r.IntN(len(all))]
	object, isObject := s.value.(map[string]any)
	switch {
	case isObject && r.IntN(2) == 0:
		object[strange[r.IntN(len(strange))]] = wrong[r.IntN(len(wrong))]
	case s.put == nil:
		delete(v, []string{"format", "well"}[r.IntN(2)])
	case r.IntN(4) == 0:
		s.drop()
	default:
		s.put(wrong[r.IntN(len(wrong))])
	}
}

// copied is a deep copy by way of JSON.
func copied(t testing.TB, v any) map[string]any {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	var c map[string]any
	if err := json.NewDecoder(strings.NewReader(string(b))).Decode(&c); err != nil {
		t.Fatal(err)
	}
	return c
}
