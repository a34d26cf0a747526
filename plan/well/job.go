package well

import (
	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// pumpedRound refuses what isn't pumped down the string and up its annulus.
func (w *Well) pumpedRound(str, st int) error {
	s := &w.Plan.Strings[str]
	switch {
	case s.Existing.V:
		return Absent("the string is in the well already")
	case !Cemented(s):
		return Absent("the string isn't cemented")
	}
	switch s.Stages[st].Kind.V {
	case "top_up", "squeeze":
		return Absent("nothing is pumped down the string and round")
	}
	return nil
}

// PipeContents is the volume that goes round inside before a stage is cemented:
// the path from the cementing head to where the stage leaves the string.
func (w *Well) PipeContents(str, st int) (path, track units.CubicMeters, err error) {
	if err = w.pumpedRound(str, st); err != nil {
		return 0, 0, err
	}
	if path, err = w.Displacement(str, st); err != nil {
		return 0, 0, err
	}
	track, _, err = w.TrackVolume(str, st)
	return path, track, err
}

// BottomsUp is the annulus from where a stage leaves the string up to where the
// mud comes back, with the depths between them; above a liner, and in a riser,
// around the pipe that the string is run on. The hole is as the volumes measure
// it (bit, caliper or expected diameter); excess is for cement and isn't in it.
func (w *Well) BottomsUp(str, st int) (a *fluid.Annulus, from, to units.MD, err error) {
	if err = w.pumpedRound(str, st); err != nil {
		return nil, 0, 0, err
	}
	s := &w.Plan.Strings[str]
	if to, _, _, err = w.StagePath(str, st); err != nil {
		return nil, 0, 0, err
	}
	ring, _, _, err := w.cementAnnulus(str, &s.Stages[st])
	if err != nil {
		return nil, 0, 0, err
	}
	list := ring.Gauge().Intervals()
	top, _ := ring.Range()
	if top > 0 && (IsLiner(s) || w.Subsea() && w.returnsToRig(str)) {
		above, err := w.aboveTop(str, top)
		if err != nil {
			return nil, 0, 0, err
		}
		list = append(above, list...)
	}
	a, err = fluid.NewAnnulus(list)
	return a, list[0].From, to, Unusable(err, s.Ref, "an annulus without gap of "+s.Name.V)
}

func (w *Well) returnsToRig(str int) bool {
	h, err := w.HoleOf(str)
	return err != nil || h.Plan.Returns.V != "seabed"
}

// JobSupply is the blend and the mix water that the slurries of a stage take.
type JobSupply struct {
	Blend units.Kilograms
	Water units.CubicMeters
	Parts []SlurrySupply
}

// SlurrySupply is the share of one slurry.
type SlurrySupply struct {
	Fluid *plan.Fluid
	Blend units.Kilograms
	Ref   place.Ref // of what the blend rests on
}

// JobBlend is the dry blend of a stage: of each slurry its sacks, else its
// volume over its yield.
func (w *Well) JobBlend(str, st int) (JobSupply, error) {
	var j JobSupply
	p := &w.Plan.Strings[str].Stages[st]
	var missing Missing
	for i := range p.Fluids {
		f := &p.Fluids[i]
		if !slurryKind(f) {
			continue
		}
		mass, ref, err := w.bulk(f)
		if m, lacking := lacks(err); lacking {
			missing = missing.and(m)
		} else if err != nil {
			return j, err
		}
		j.Blend += mass
		j.Parts = append(j.Parts, SlurrySupply{f, mass, ref})
	}
	if len(j.Parts) == 0 {
		missing = missing.and(Lack(p.Ref, "the cement slurries of %s", w.stageName(str, st)))
	}
	return j, missing.orNil()
}

// JobWater is JobBlend with the mix water: sacks times the water of a sack.
// Water of spacers, for washing up and left in tanks isn't in it.
func (w *Well) JobWater(str, st int) (JobSupply, error) {
	j, err := w.JobBlend(str, st)
	missing, lacking := lacks(err)
	if err != nil && !lacking {
		return j, err
	}
	for _, p := range j.Parts {
		if !p.Fluid.MixWater.Known() {
			missing = missing.and(Lack(p.Fluid.Ref, "the mix water of %s of %s", p.Fluid.Name.V, w.Plan.Strings[str].Name.V))
			continue
		}
		v, err := fluid.MixWater(p.Blend, p.Fluid.MixWater.V)
		if err != nil {
			return j, Unusable(err, p.Fluid.MixWater.Ref, "a usable mix water of "+p.Fluid.Name.V)
		}
		j.Water += v
	}
	return j, missing.orNil()
}
