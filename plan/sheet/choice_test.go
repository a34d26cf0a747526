package sheet

import (
	"testing"

	"spudgate/plan/form"
)

// What contractors write for a choice is read as it (the trade's own words,
// common practice); every listed word names a choice, and none is a choice of
// its own under another meaning.
func TestWordsForChoices(t *testing.T) {
	for _, c := range []struct{ object, field, text, want string }{
		{"test", "method", "FIT", "integrity"}, {"test", "method", "lot", "leak_off"}, {"test", "method", "Leak off", "leak_off"},
		{"section", "mud_type", "OBM", "oil"}, {"section", "mud_type", "WBM", "water"}, {"section", "drilled", "MPD", "managed"},
		{"well", "class", "Wildcat", "exploration"}, {"well", "stage", "APD", "permit"}, {"string", "role", "tieback", "tie_back"},
		{"string", "role", "liner", "liner"}, // of which kind isn't said: refused, never guessed
		{"test", "method", "integrity test of sorts", "integrity test of sorts"},
	} {
		f := objectNamed(t, form.Plan, c.object).Field(c.field)
		if got := choice(f, c.text); got != c.want {
			t.Errorf("%s.%s: %q is read as %q, want %q", c.object, c.field, c.text, got, c.want)
		}
	}
	seen := 0
	eachField(form.Plan, map[*form.Object]bool{}, func(o *form.Object, f *form.Field) {
		for _, w := range f.Words {
			seen++
			ok := false
			for _, c := range f.Choices {
				ok = ok || c == w.Choice
				if fold(c) == fold(w.Text) && c != w.Choice {
					t.Errorf("%s.%s: %q is a choice itself and can't stand for %q", o.Name, f.Name, w.Text, w.Choice)
				}
			}
			if !ok {
				t.Errorf("%s.%s: %q stands for %q, which is no choice", o.Name, f.Name, w.Text, w.Choice)
			}
		}
	})
	if seen < 50 {
		t.Errorf("only %d words are known", seen)
	}
}

func objectNamed(t *testing.T, o *form.Object, name string) *form.Object {
	t.Helper()
	var found *form.Object
	eachField(o, map[*form.Object]bool{}, func(o *form.Object, _ *form.Field) {
		if o.Name == name {
			found = o
		}
	})
	if found == nil {
		t.Fatalf("no object is called %s", name)
	}
	return found
}

func eachField(o *form.Object, seen map[*form.Object]bool, do func(*form.Object, *form.Field)) {
	if seen[o] {
		return
	}
	seen[o] = true
	for i := range o.Fields {
		do(o, &o.Fields[i])
		if o.Fields[i].Of != nil {
			eachField(o.Fields[i].Of, seen, do)
		}
	}
}
