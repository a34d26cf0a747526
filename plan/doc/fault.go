package doc

import (
	"fmt"
	"sort"
	"strings"

	"spudgate/plan/place"
)

// Fault is one thing that can't be read: where, what stands there, what was
// expected.
type Fault struct {
	Place    place.Place
	Found    string
	Expected string
}

func (f Fault) String() string {
	s := f.Place.Full()
	if s != "" {
		s += ": "
	}
	if f.Place.Path != "" {
		s += f.Place.Path + ": "
	}
	return fmt.Sprintf("%sfound %s, expected %s", s, f.Found, f.Expected)
}

// Faults is the error of a document that can't be used.
type Faults []Fault

func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.String()
	}
	return strings.Join(lines, "\n")
}

// Sort puts faults in order of place, then text, and drops exact repeats.
func (fs Faults) Sort() Faults {
	sort.SliceStable(fs, func(i, j int) bool {
		a, b := fs[i], fs[j]
		if place.Less(a.Place, b.Place) != place.Less(b.Place, a.Place) {
			return place.Less(a.Place, b.Place)
		}
		if a.Expected != b.Expected {
			return a.Expected < b.Expected
		}
		return a.Found < b.Found
	})
	out := fs[:0]
	for i, f := range fs {
		if i == 0 || f != fs[i-1] {
			out = append(out, f)
		}
	}
	return out
}

// Quote shows a found text in a fault: quoted, cut to a readable length, with
// control characters made visible.
func Quote(s string) string {
	r := []rune(s)
	if len(r) > 40 {
		s = string(r[:39]) + "…"
	}
	return fmt.Sprintf("%q", s)
}
