package well

import (
	"math"
	"sort"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Hole is one hole section with its depths and the string set in it.
type Hole struct {
	Order    int // from the top down
	Section  int // index into the plan's sections
	Plan     *plan.Section
	From, To units.MD
	String   int // set in it; -1 when none is
}

type holesKey struct{}

// Holes lists the hole sections from the top down. A section whose bottom
// nothing tells is left out; the consistency book says so.
func (w *Well) Holes() []Hole {
	hs, _ := once(w, holesKey{}, func() ([]Hole, error) { return w.holes(), nil })
	return hs
}

func (w *Well) holes() []Hole {
	var out []Hole
	for i := range w.Plan.Sections {
		s := &w.Plan.Sections[i]
		h := Hole{Section: i, Plan: s, String: w.stringIn(i)}
		switch {
		case s.To.Known():
			h.To = s.To.V
		case h.String >= 0:
			shoe, err := w.shoeOf(&w.Plan.Strings[h.String])
			if err != nil {
				continue
			}
			h.To = shoe
		default:
			continue
		}
		out = append(out, h)
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].To < out[b].To })
	var from units.MD
	for i := range out {
		out[i].Order = i
		out[i].From = out[i].Plan.From.Or(from)
		from = out[i].To
	}
	return out
}

// stringIn is the string set in a section, named by either side.
func (w *Well) stringIn(section int) int {
	s := &w.Plan.Sections[section]
	if i := w.Plan.StringIndex(s.String.V); i >= 0 {
		return i
	}
	for i := range w.Plan.Strings {
		if plan.Same(w.Plan.Strings[i].Section.V, s.Name.V) && s.Name.V != "" && w.Plan.Strings[i].Role.V != "tie_back" {
			return i
		}
	}
	return -1
}

// HoleOf is the hole a string is set in.
func (w *Well) HoleOf(str int) (*Hole, error) {
	hs := w.Holes()
	for i := range hs {
		if hs[i].String == str {
			return &hs[i], nil
		}
	}
	s := &w.Plan.Strings[str]
	switch {
	case s.Role.V == "tie_back" || s.Role.V == "scab_liner":
		return nil, Absent("a " + roleWords(s.Role.V) + " is run in cased hole")
	case s.SetBy.V == "driven" || s.SetBy.V == "jetted" || s.SetBy.V == "augered":
		return nil, Absent("the string is " + s.SetBy.V + ", no hole is drilled for it")
	case s.Existing.V:
		return nil, Absent("the string is in the well already")
	}
	return nil, Lack(s.Ref, "the hole section of %s", s.Name.V)
}

func roleWords(role string) string {
	if role == "tie_back" {
		return "tie-back"
	}
	if role == "scab_liner" {
		return "scab liner"
	}
	return role
}

// Bore is the diameter of a hole for clearance and volume: reamed if reamed.
func (h *Hole) Bore() (units.Meters, place.Ref, error) {
	if h.Plan.Reamed.Known() {
		return h.Plan.Reamed.V, h.Plan.Reamed.Ref, nil
	}
	if h.Plan.Bit.Known() {
		return h.Plan.Bit.V, h.Plan.Bit.Ref, nil
	}
	return 0, 0, Lack(h.Plan.Ref, "the bit size of %s", h.Plan.Name.V)
}

// HeaviestMud is the highest mud density planned in the hole.
func (h *Hole) HeaviestMud() (units.KgPerM3, place.Ref, error) {
	best, ref := units.KgPerM3(0), place.Ref(0)
	for _, v := range []plan.Val[units.KgPerM3]{h.Plan.MudMax, h.Plan.MudDensity, h.Plan.MudMin} {
		if v.Known() && v.V > best {
			best, ref = v.V, v.Ref
		}
	}
	if ref == 0 {
		return 0, 0, Lack(h.Plan.Ref, "the mud density of %s", h.Plan.Name.V)
	}
	return best, ref, nil
}

// LightestMud is the lowest mud density planned in the hole.
func (h *Hole) LightestMud() (units.KgPerM3, place.Ref, error) {
	best, ref := units.KgPerM3(math.Inf(1)), place.Ref(0)
	for _, v := range []plan.Val[units.KgPerM3]{h.Plan.MudMin, h.Plan.MudDensity, h.Plan.MudMax} {
		if v.Known() && v.V < best {
			best, ref = v.V, v.Ref
		}
	}
	if ref == 0 {
		return 0, 0, Lack(h.Plan.Ref, "the mud density of %s", h.Plan.Name.V)
	}
	return best, ref, nil
}

// RunningMud is the mud in the hole when its string is run: the density
// planned at section depth, else the heaviest.
func (h *Hole) RunningMud() (units.KgPerM3, place.Ref, error) {
	if h.Plan.MudDensity.Known() {
		return h.Plan.MudDensity.V, h.Plan.MudDensity.Ref, nil
	}
	return h.HeaviestMud()
}

// rank places a string in the order of running: twice the order of its hole,
// one more for what is run into cased hole after it. Strings set without a
// hole come first. A contingent string ranks like any other; chains leave it
// out.
func (w *Well) rank(str int) int {
	s := &w.Plan.Strings[str]
	if h, err := w.HoleOf(str); err == nil {
		return 2 * h.Order
	}
	if s.Role.V == "tie_back" || s.Role.V == "scab_liner" {
		return w.rankInCased(s)
	}
	return -1
}

// rankInCased ranks a tie-back after the liner it ties to, a scab liner after
// the last hole: it covers what is already there.
func (w *Well) rankInCased(s *plan.String) int {
	shoe, err := w.shoeOf(s)
	best := 2*len(w.Holes()) - 1
	if err != nil || s.Role.V != "tie_back" {
		return best
	}
	const stab = 30 // m: a tie-back stabs into a receptacle near the liner top
	for i := range w.Plan.Strings {
		o := &w.Plan.Strings[i]
		top, err := w.topOf(o)
		if !IsLiner(o) || err != nil || math.Abs(float64(top-shoe)) > stab {
			continue
		}
		if h, err := w.HoleOf(i); err == nil {
			best = min(best, 2*h.Order+1)
		}
	}
	return best
}

type orderKey struct{}

// InOrder lists strings in the order they are run, contingent ones left out.
func (w *Well) InOrder() []int {
	list, _ := once(w, orderKey{}, func() ([]int, error) {
		var out []int
		for i := range w.Plan.Strings {
			if !w.Plan.Strings[i].Contingent.V {
				out = append(out, i)
			}
		}
		sort.SliceStable(out, func(a, b int) bool {
			ra, rb := w.rank(out[a]), w.rank(out[b])
			if ra != rb {
				return ra < rb
			}
			// A tie-back goes through a scab liner, never the other way.
			if a, b := w.Plan.Strings[out[a]].Role.V, w.Plan.Strings[out[b]].Role.V; (a == "tie_back") != (b == "tie_back") {
				return b == "tie_back"
			}
			sa, _ := w.shoeOf(&w.Plan.Strings[out[a]])
			sb, _ := w.shoeOf(&w.Plan.Strings[out[b]])
			return sa < sb
		})
		return out, nil
	})
	return list
}

// before lists the strings in the well when str is run, in order.
func (w *Well) before(str int) []int {
	var out []int
	for _, i := range w.InOrder() {
		if i == str {
			return out
		}
		if !w.Plan.Strings[str].Contingent.V || w.rank(i) < w.rank(str) {
			out = append(out, i)
		}
	}
	return out
}

// ReachesWellhead reports whether a string comes up to the wellhead.
func (w *Well) ReachesWellhead(str int) bool {
	s := &w.Plan.Strings[str]
	if IsLiner(s) {
		return false
	}
	top, err := w.topOf(s)
	if err != nil {
		return false
	}
	z, err := w.Mudline()
	if err != nil {
		return true
	}
	const cellar = 15 // m below the wellhead depth and still at the wellhead
	return float64(top) <= float64(z)+cellar
}

// Exposure is a later hole a string stays open to, and how far down.
type Exposure struct {
	Hole  *Hole
	Down  units.MD // exposed from its top to here
	Shoe  units.MD // shoe of the deepest string then in the hole
	Owner int      // the string that shoe belongs to
}

type exposureKey int

// Exposures lists the later holes a string is open to. It stays exposed until
// a string that reaches the wellhead is cemented inside it; a liner ends the
// exposure only below its own top.
func (w *Well) Exposures(str int) []Exposure {
	list, _ := once(w, exposureKey(str), func() ([]Exposure, error) { return w.exposures(str), nil })
	return list
}

func (w *Well) exposures(str int) []Exposure {
	own := w.rank(str)
	shoe, err := w.shoeOf(&w.Plan.Strings[str])
	if err != nil {
		return nil
	}
	down := shoe
	deepest, owner := shoe, str
	var out []Exposure
	hs := w.Holes()
	for i := range hs {
		h := &hs[i]
		covered := false
		for _, k := range w.InOrder() {
			r := w.rank(k)
			if k == str || r <= own || r >= 2*h.Order {
				continue
			}
			top, _ := w.topOf(&w.Plan.Strings[k])
			covered = covered || w.ReachesWellhead(k)
			down = min(down, top)
			if s, err := w.shoeOf(&w.Plan.Strings[k]); err == nil && s > deepest {
				deepest, owner = s, k
			}
		}
		if covered {
			break
		}
		if 2*h.Order > own {
			out = append(out, Exposure{h, down, deepest, owner})
		}
	}
	return out
}

// Parent is the string a liner hangs in: named, else the deepest string run
// before it that covers its top.
func (w *Well) Parent(str int) (int, error) {
	s := &w.Plan.Strings[str]
	if !IsLiner(s) {
		return -1, Absent("not a liner")
	}
	if i := w.Plan.StringIndex(s.HungIn.V); i >= 0 {
		return i, nil
	}
	if s.HungIn.Known() {
		return -1, Lack(s.HungIn.Ref, "a string called %q for %s to hang in", s.HungIn.V, s.Name.V)
	}
	before := w.before(str)
	if len(before) == 0 {
		return -1, Lack(s.Ref, "a string for %s to hang in", s.Name.V)
	}
	return before[len(before)-1], nil
}

// Previous is the string whose shoe the hole of str starts from.
func (w *Well) Previous(str int) (int, error) {
	best, at := -1, units.MD(-1)
	for _, i := range w.before(str) {
		if w.Plan.Strings[i].Role.V == "tie_back" {
			continue
		}
		if shoe, err := w.shoeOf(&w.Plan.Strings[i]); err == nil && shoe > at {
			best, at = i, shoe
		}
	}
	if best < 0 {
		return -1, Absent("the first string of the well")
	}
	return best, nil
}
