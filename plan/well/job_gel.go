package well

import (
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Gelling is what a zone that can flow sees while the cement over it gels.
type Gelling struct {
	Critical    units.Pascals // gel strength at which the column just balances it
	Overbalance units.Pascals // when the job ends
	Length      units.MD      // of cement over the zone, along the hole
	At          units.MD
	Outer       units.Meters
	Inner       units.Meters
	Stage       int
	Refs        []place.Ref // of the zone, the cement's top and the pore pressure
}

type gellingKey struct{ str, zone int }

// Gelling works out the critical static gel strength of the cement over a zone:
// overbalance (D2 - D1)/(4 L), in field units 300 OBP/(L/Deff) (API RP 10B-6,
// annex A; API Std 65-2).
func (w *Well) Gelling(str, zone int) (*Gelling, error) {
	return once(w, gellingKey{str, zone}, func() (*Gelling, error) { return w.gelling(str, zone) })
}

func (w *Well) gelling(str, zone int) (*Gelling, error) {
	if flows, _ := w.CanFlow(zone); !flows {
		return nil, Absent("the zone can't flow")
	}
	at, z, ref, err := w.FormationTop(zone)
	if err != nil {
		return nil, err
	}
	list, err := w.Sheaths(str)
	if err != nil {
		return nil, err
	}
	s, ok := SheathAt(list, at)
	if !ok || s.Top >= at {
		return nil, Absent("no cement stands over the zone")
	}
	if len(w.Plan.Strings[str].Stages) == 0 {
		return nil, Lack(w.Plan.Strings[str].Ref, "the cement slurries of %s", w.Plan.Strings[str].Name.V)
	}
	g := &Gelling{Length: at - s.Top, At: at, Stage: w.StageAt(str, at)}
	column, err := w.EndColumn(str, g.Stage, at)
	if err != nil {
		return nil, err
	}
	pore, pref, err := w.Pore(z, High)
	if err != nil {
		return nil, err
	}
	g.Refs = []place.Ref{ref, s.Ref, pref}
	if g.Overbalance = column - pore; g.Overbalance <= 0 {
		return nil, Absent("the zone isn't overbalanced to begin with; that is a finding of its own")
	}
	return g, w.criticalGel(str, g)
}

func (w *Well) criticalGel(str int, g *Gelling) error {
	gaps, err := w.Annulus(str)
	if err != nil {
		return err
	}
	for _, v := range gaps {
		if g.At < v.To {
			g.Outer, g.Inner = v.Outer, v.Inner
			break
		}
	}
	g.Critical, err = fluid.CriticalGel(g.Overbalance, g.Length, g.Outer, g.Inner)
	return Unusable(err, g.Refs[0], "an annulus around "+w.Plan.Strings[str].Name.V+" at the zone")
}
