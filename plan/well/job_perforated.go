package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Perforated is the perforated interval and the string that carries it.
type Perforated struct {
	String   int
	From, To units.MD
	Refs     []place.Ref
}

type perforatedKey struct{}

// Perforated finds the string that the planned perforations are in: of the
// strings around their top the one run last. Absent without perforations, below
// every shoe, below the well's end, and in a string that isn't cemented, which is slotted or screened.
func (w *Well) Perforated() (*Perforated, error) {
	return once(w, perforatedKey{}, w.perforated)
}

func (w *Well) perforated() (*Perforated, error) {
	c := &w.Plan.Completion
	switch {
	case !c.PerforatedFrom.Known() && !c.PerforatedTo.Known():
		return nil, Absent("the plan holds no perforations")
	case !c.PerforatedFrom.Known():
		return nil, Lack(c.PerforatedTo.Ref, "the top of the perforations")
	case !c.PerforatedTo.Known() || c.PerforatedTo.V < c.PerforatedFrom.V:
		return nil, Lack(c.PerforatedFrom.Ref, "the bottom of the perforations")
	}
	p := &Perforated{String: -1, From: c.PerforatedFrom.V, To: c.PerforatedTo.V, Refs: []place.Ref{c.PerforatedFrom.Ref, c.PerforatedTo.Ref}}
	for _, i := range w.InOrder() {
		s := &w.Plan.Strings[i]
		top, err := w.topOf(s)
		if err != nil {
			return nil, err
		}
		shoe, err := w.shoeOf(s)
		if err != nil {
			return nil, err
		}
		if top <= p.From && p.From < shoe {
			p.String = i
		}
	}
	if end, ref := w.deepest(); p.String < 0 && ref != 0 && w.past(p.From, end) {
		return nil, Absent("the perforations lie below the well's end")
	}
	if p.String < 0 {
		return nil, Absent("the well is completed in open hole")
	}
	if !Cemented(&w.Plan.Strings[p.String]) {
		return nil, Absent("the string it's completed in isn't cemented")
	}
	return p, nil
}

// PerforatedIn is Perforated for one string; Absent for the others.
func (w *Well) PerforatedIn(str int) (*Perforated, error) {
	p, err := w.Perforated()
	if err == nil && p.String != str {
		return nil, Absent("the perforations aren't in this string")
	}
	return p, err
}

// PerforatedZone is a zone to isolate that the top of the perforations lies in,
// whose cover is judged already; false when there is none.
func (w *Well) PerforatedZone(p *Perforated) (int, bool) {
	for _, i := range w.ZonesOf(p.String) {
		top, _, _, err := w.FormationTop(i)
		if err != nil || !w.ToIsolate(i) || p.From < top {
			continue
		}
		if base, _, _, err := w.FormationBase(i); err == nil && p.From < base {
			return i, true
		}
	}
	return -1, false
}

// BesidePerforations is the stage collar or crossover nearest to the
// perforations, and how far off it stands; zero inside them.
func (w *Well) BesidePerforations(p *Perforated) (*plan.Accessory, units.MD, error) {
	s := &w.Plan.Strings[p.String]
	var nearest *plan.Accessory
	least := units.MD(0)
	for i := range s.Accessories {
		a := &s.Accessories[i]
		if a.Kind.V != "stage_collar" && a.Kind.V != "crossover" {
			continue
		}
		if !a.Depth.Known() {
			return nil, 0, Lack(a.Ref, "the depth of %s of %s", a.Name.Or(a.Kind.V), s.Name.V)
		}
		if off := max(p.From-a.Depth.V, a.Depth.V-p.To, 0); nearest == nil || off < least {
			nearest, least = a, off
		}
	}
	if nearest == nil {
		return nil, 0, Absent("the string has no stage collar or crossover")
	}
	return nearest, least, nil
}
