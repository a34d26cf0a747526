package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Sacks is the cement of all slurries of a string: as stated, else volume over
// yield, squeezes left out.
func (w *Well) Sacks(str int) (units.Kilograms, []place.Ref, error) {
	s := &w.Plan.Strings[str]
	if !Cemented(s) {
		return 0, nil, Absent("the string isn't cemented")
	}
	var sum units.Kilograms
	var refs []place.Ref
	var missing Missing
	for st := range s.Stages {
		p := &s.Stages[st]
		for i := range p.Fluids {
			if p.Kind.V == "squeeze" || !slurry(&p.Fluids[i]) {
				continue
			}
			mass, ref, err := w.bulk(&p.Fluids[i])
			if err != nil {
				missing = missing.and(err)
			}
			sum, refs = sum+mass, append(refs, ref)
		}
	}
	if len(refs) == 0 {
		return 0, nil, Lack(s.Ref, "the slurries of %s", s.Name.V)
	}
	return sum, refs, missing.orNil()
}

// AnnulusFill is slurry against the space it's to fill.
type AnnulusFill struct {
	Slurry units.CubicMeters // pumped, less what stays in the shoe track
	Space  units.CubicMeters // annulus at bit size, from the shoe to the ground
	Refs   []place.Ref
}

// FillToGround is the slurry of a string against its theoretical annulus, bit
// size, from the shoe up to the ground or the sea bed. Squeezes aren't counted.
func (w *Well) FillToGround(str int) (AnnulusFill, error) {
	var out AnnulusFill
	c, err := w.Casing(str)
	if err != nil {
		return out, err
	}
	if !Cemented(c.Plan) {
		return out, Absent("the string isn't cemented")
	}
	if len(c.Plan.Stages) == 0 {
		return out, Lack(c.Plan.Ref, "the slurries of %s", c.Plan.Name.V)
	}
	for st := range c.Plan.Stages {
		if err := w.addFill(&out, str, st); err != nil {
			return out, err
		}
	}
	ground, _, err := w.Surroundings()
	if err != nil {
		return out, err
	}
	_, gauge, _, err := w.cementAnnulus(str, &c.Plan.Stages[0])
	if err != nil {
		return out, err
	}
	out.Space, err = gauge.Volume(max(c.Top, units.MD(ground)), c.Shoe)
	if err == nil && out.Space <= 0 {
		err = Lack(c.Plan.Ref, "an annulus outside %s", c.Plan.Name.V)
	}
	return out, Unusable(err, c.Plan.Ref, "the whole annulus of "+c.Plan.Name.V)
}

// addFill adds what one stage leaves in the annulus.
func (w *Well) addFill(out *AnnulusFill, str, st int) error {
	p := &w.Plan.Strings[str].Stages[st]
	if p.Kind.V == "squeeze" {
		return nil
	}
	v, refs, err := w.SlurryVolume(p)
	if err != nil {
		return err
	}
	track := units.CubicMeters(0)
	if p.Kind.V != "top_up" {
		if track, _, err = w.TrackVolume(str, st); err != nil {
			return err
		}
	}
	out.Slurry, out.Refs = out.Slurry+max(v-track, 0), append(out.Refs, refs...)
	return nil
}
