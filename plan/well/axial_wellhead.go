package well

import (
	"fmt"
	"strings"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// WellheadLoad is what presses on the string that carries the wellhead.
type WellheadLoad struct {
	Carrier int
	Load    units.Newtons // on the carrier
	Rating  units.Newtons // body yield
	Factor  float64
	Note    string
	Refs    []place.Ref
	// Parts of the load in each of the two times.
	Hung, Wellhead, BOP, Tree, Tubing units.Newtons
	Share                             float64
	Producing                         bool // the worse time
}

type wellheadKey int

// Compression is the load at the wellhead on a string that carries it: the
// worse of drilling (BOP, wellhead and every string hung) and production (tree,
// wellhead, strings and tubing), over body yield. A string that carries none is
// Absent.
func (w *Well) Compression(str int) (WellheadLoad, error) {
	return once(w, wellheadKey(str), func() (WellheadLoad, error) { return w.compression(str) })
}

func (w *Well) compression(str int) (l WellheadLoad, err error) {
	s := &w.Plan.Strings[str]
	if !w.ReachesWellhead(str) {
		return l, Absent("it doesn't reach the wellhead")
	}
	carrier := w.carrier()
	l.Carrier, l.Share = carrier, 1
	shares := s.Role.V == "conductor" && s.LoadShared.V && carrier >= 0
	if str != carrier && !shares {
		return l, Absent("it doesn't carry the wellhead")
	}
	if err := w.weights(&l); err != nil {
		return l, err
	}
	if err := w.shareLoad(&l, str); err != nil {
		return l, err
	}
	p, err := w.Rated(str, 0)
	if err != nil {
		return l, err
	}
	if p.Yield.Err != nil {
		return l, p.Yield.Err
	}
	drilling, producing := l.BOP+l.Wellhead+l.Hung, l.Tree+l.Wellhead+l.Hung+l.Tubing
	l.Load, l.Producing = max(drilling, producing), producing > drilling
	l.Load *= units.Newtons(l.Share)
	l.Rating = p.Yield.Value
	if l.Load > 0 {
		l.Factor = float64(l.Rating / l.Load)
	}
	l.Refs = append([]place.Ref{p.Plan.Ref}, l.Refs...)
	l.Note = w.wellheadNote(&l)
	return l, nil
}

// carrier is the outermost string that carries the wellhead: the surface
// casing, else the outermost intermediate or production casing at the
// wellhead; -1 without one.
func (w *Well) carrier() int {
	for _, roles := range [][]string{{"surface"}, {"intermediate", "production"}} {
		for _, i := range w.InOrder() {
			for _, r := range roles {
				if w.Plan.Strings[i].Role.V == r && w.ReachesWellhead(i) {
					return i
				}
			}
		}
	}
	return -1
}

// weights gathers what stands and hangs on the wellhead.
func (w *Well) weights(l *WellheadLoad) error {
	var lack Missing
	miss := func(ref place.Ref, what string) {
		m, _ := lacks(Lack(ref, "%s", what))
		lack.add(m)
	}
	for i := range w.Plan.BOPs {
		if b := w.Plan.BOPs[i].Weight; b.Known() {
			l.BOP = max(l.BOP, b.V)
			l.Refs = append(l.Refs, b.Ref)
		}
	}
	if l.BOP == 0 {
		miss(w.Plan.Well.Ref, "the weight of the BOP")
	}
	for i := range w.Plan.Wellhead {
		if h := &w.Plan.Wellhead[i]; h.Weight.Known() && h.Kind.V != "tree" {
			l.Wellhead += h.Weight.V
			l.Refs = append(l.Refs, h.Weight.Ref)
		} else if h.Weight.Known() {
			l.Tree = max(l.Tree, h.Weight.V)
		}
	}
	if l.Wellhead == 0 {
		miss(w.Plan.Well.Ref, "the weight of the wellhead")
	}
	if t := w.Plan.Completion.TreeWeight; t.Known() {
		l.Tree = t.V
	}
	l.Tubing = w.tubingWeight()
	if err := w.hangOn(l); err != nil {
		m, ok := lacks(err)
		if !ok {
			return err
		}
		lack.add(m)
	}
	if len(lack) > 0 {
		return lack
	}
	return nil
}

// tubingWeight is tubing in air to the packer, else to the perforations.
func (w *Well) tubingWeight() units.Newtons {
	c := &w.Plan.Completion
	bottom := c.Packer
	if !bottom.Known() {
		bottom = c.PerforatedFrom
	}
	if !c.TubingWeight.Known() || !bottom.Known() {
		return 0
	}
	z, err := w.TVD(bottom.V)
	if err != nil {
		return 0
	}
	return units.Newtons(float64(c.TubingWeight.V) * units.G * float64(z))
}

// hangOn adds every string run after the carrier that hangs at the wellhead,
// each with the larger of its force as cemented and its buoyed weight, and the
// liners that hang in it.
func (w *Well) hangOn(l *WellheadLoad) error {
	past := false
	for _, i := range w.InOrder() {
		if past && (w.ReachesWellhead(i) || IsLiner(&w.Plan.Strings[i])) {
			f, err := w.hangerForce(i)
			if err != nil {
				return err
			}
			l.Hung += f
		}
		past = past || i == l.Carrier
	}
	return nil
}

func (w *Well) hangerForce(str int) (units.Newtons, error) {
	list, err := w.moments(str, caseNamed("tension.running_body"))
	if isAbsent(err) { // in the well already: weighed in its own fluid
		list, err = w.moments(str, caseNamed("tension.landed_body"))
	}
	if err != nil {
		return 0, err
	}
	most := units.Newtons(0)
	for _, s := range list {
		_, f, err := w.forces(str, &s, true)
		if err != nil {
			return 0, err
		}
		most = max(most, f[0])
	}
	if IsLiner(&w.Plan.Strings[str]) {
		return most, nil
	}
	if list, err = w.moments(str, caseNamed("tension.landed_body")); err != nil {
		return most, err
	}
	_, f, err := w.forces(str, &list[0], true)
	if err != nil {
		return 0, err
	}
	return max(most, f[0]), nil
}

// shareLoad splits the load with the conductor by EA / free length where the
// plan says they share.
func (w *Well) shareLoad(l *WellheadLoad, str int) error {
	other := -1
	for _, i := range w.InOrder() {
		if s := &w.Plan.Strings[i]; s.Role.V == "conductor" && s.LoadShared.V {
			other = i
		}
	}
	if other < 0 || l.Carrier < 0 {
		return nil
	}
	a, err := w.stiffness(l.Carrier)
	if err != nil {
		return err
	}
	b, err := w.stiffness(other)
	if err != nil {
		return err
	}
	if a == 0 || b == 0 {
		return nil // one of them is held by cement to the wellhead: no free length to share by
	}
	l.Share = a / (a + b)
	if str == other {
		l.Share = b / (a + b)
	}
	return nil
}

// stiffness is EA over the free length; zero where there's none.
func (w *Well) stiffness(str int) (float64, error) {
	o, err := w.outerOf(str)
	if err != nil {
		return 0, err
	}
	p, err := w.Rated(str, 0)
	if err != nil {
		return 0, err
	}
	free := float64(o.cement - o.top)
	if free < 1 {
		return 0, nil
	}
	return modulus * p.Body.Area() / free, nil
}

func (w *Well) wellheadNote(l *WellheadLoad) string {
	parts := []string{"wellhead " + show(w, l.Wellhead, units.Force), "strings hung " + show(w, l.Hung, units.Force)}
	if l.Producing {
		parts = append([]string{"producing: tree " + show(w, l.Tree, units.Force)}, append(parts, "tubing "+show(w, l.Tubing, units.Force))...)
	} else {
		parts = append([]string{"drilling: BOP " + show(w, l.BOP, units.Force)}, parts...)
	}
	if l.Share < 1 {
		parts = append(parts, fmt.Sprintf("%.0f %% of it by EA / free length", 100*l.Share))
	}
	return strings.Join(parts, ", ")
}
