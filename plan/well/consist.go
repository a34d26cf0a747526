package well

import (
	"fmt"
	"math"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Conflict is one place where a plan contradicts itself, or says something
// that can't be meant.
type Conflict struct {
	Text string      // both sides with their values, in the contractor's words
	Refs []place.Ref // where both stand; the first is where a reader goes
}

// Conflicts are what a search through a plan found. An empty list means what
// was searched agrees; a search with nothing to compare gives Absent instead.
type Conflicts []Conflict

func (c *Conflicts) add(refs []place.Ref, format string, args ...any) {
	*c = append(*c, Conflict{fmt.Sprintf(format, args...), refs})
}

func places(refs ...place.Ref) []place.Ref { return refs }

// search collects conflicts and remembers whether there was anything to
// compare.
type search struct {
	found    Conflicts
	compared bool
}

// result is what was found, or Absent with the words for "nothing to compare".
func (s *search) result(nothing string) (Conflicts, error) {
	if !s.compared {
		return nil, Absent(nothing)
	}
	return s.found, nil
}

// holds records one comparison; when it doesn't hold it's a conflict.
func (s *search) holds(ok bool, refs []place.Ref, format string, args ...any) {
	s.compared = true
	if !ok {
		s.found.add(refs, format, args...)
	}
}

// meets reports whether two depths are one: ends that meet within 1 ft or
// 0.3 m meet. A stated end may lie off by the rounding of its unit, so that
// the last digit of a conversion decides nothing.
func (w *Well) meets(a, b units.MD) bool { return math.Abs(float64(a-b)) <= float64(w.Meet())+1e-6 }

// past reports whether a depth lies deeper than another and doesn't meet it.
func (w *Well) past(a, b units.MD) bool { return a > b && !w.meets(a, b) }

// agree reports whether two numbers differ by no more than a part of the
// greater one.
func agree(a, b, part float64) bool {
	return math.Abs(a-b) <= part*math.Max(math.Abs(a), math.Abs(b))+1e-12
}

func (w *Well) show(si float64, d units.Dim) string { return units.Show(si, d, w.Plan.System, false) }

func (w *Well) showMD(md units.MD) string { return w.show(float64(md), units.MDLength) }

func (w *Well) showTVD(z units.TVD) string { return w.show(float64(z), units.TVDLength) }

func (w *Well) showDensity(rho units.KgPerM3) string { return w.show(float64(rho), units.Density) }

func showSize(d units.Meters) string { return units.Size(d) + " in" }
