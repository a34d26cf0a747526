package well

import (
	"errors"
	"math"

	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// overStages adds up what a claim about a whole string comes to over its
// stages, and reads each stage alone too.
func (w *Well) overStages(str int, d units.Dim, read func(st int) ([]Reading, []place.Ref, error)) (Claimed, error) {
	out := Claimed{Dim: d}
	s := &w.Plan.Strings[str]
	if len(s.Stages) == 0 {
		return out, Lack(s.Ref, "the cement job of %s", s.Name.V)
	}
	var sum []Reading
	for st := range s.Stages {
		list, refs, err := read(st)
		if err != nil {
			return out, err
		}
		out.Refs = append(out.Refs, refs...)
		for i, r := range list {
			if st == 0 {
				sum = append(sum, r)
			} else if i < len(sum) {
				sum[i].Value += r.Value
			}
			if len(s.Stages) > 1 {
				out.Readings = append(out.Readings, Reading{r.Value, s.Stages[st].Name.V + andBy(r.By), r.Whole})
			}
		}
	}
	out.Readings = append(sum, out.Readings...)
	if d == units.Volume {
		out.Readings = withCapacities(out.Readings)
	}
	return out, nil
}

func andBy(by string) string {
	if by == "" {
		return ""
	}
	return "; " + by
}

func (w *Well) claimedSlurry(str int, _ string) (Claimed, error) {
	return w.overStages(str, units.Volume, func(st int) ([]Reading, []place.Ref, error) {
		p := &w.Plan.Strings[str].Stages[st]
		v, refs, err := w.SlurryVolume(p)
		if err != nil {
			return nil, nil, err
		}
		list := []Reading{{Value: float64(v), By: "as pumped"}}
		need, err := w.volumesToTop(str, st)
		for i := range need {
			need[i].By = "to the planned top and the shoe track; " + need[i].By
		}
		return append(list, need...), refs, ignoreMissing(err)
	})
}

// ignoreMissing drops an error that only says one more reading can't be made.
func ignoreMissing(err error) error {
	var m Missing
	var a Absent
	if errors.As(err, &m) || errors.As(err, &a) {
		return nil
	}
	return err
}

// volumesToTop are the volumes from where a stage leaves the string to its
// planned top, with the shoe track, by each way of counting excess.
func (w *Well) volumesToTop(str, st int) ([]Reading, error) {
	list, err := w.annulusVolumes(str, st)
	if err != nil {
		return nil, err
	}
	track, _, err := w.TrackVolume(str, st)
	for i := range list {
		list[i].Value += float64(track)
	}
	return list, err
}

// annulusVolumes are the volumes outside a string from where a stage leaves it
// to its planned top: excess on the open annulus, none, on the whole annulus,
// or on the volume of the hole.
func (w *Well) annulusVolumes(str, st int) ([]Reading, error) {
	s := &w.Plan.Strings[str]
	top, _, ok := w.StatedTop(str, st)
	if !ok {
		return nil, Lack(s.Ref, "the planned top of cement of %s", s.Name.V)
	}
	from, _, _, err := w.StagePath(str, st)
	if err != nil {
		return nil, err
	}
	large, gauge, e, err := w.cementAnnulus(str, &s.Stages[st])
	if err != nil {
		return nil, err
	}
	ours, err := large.Volume(top, from)
	if err != nil {
		return nil, Unusable(err, s.Ref, "a top of cement inside the annulus of "+s.Name.V)
	}
	plain, err := gauge.Volume(top, from)
	if err != nil {
		return nil, Unusable(err, s.Ref, "a top of cement inside the annulus of "+s.Name.V)
	}
	return []Reading{
		{Value: float64(ours), By: "excess on the open-hole annulus"},
		{Value: float64(plain), By: "no excess"},
		{Value: float64(plain) * (1 + float64(e.Excess)), By: "excess on the whole annulus"},
		{Value: holeExcessVolume(large.Intervals(), top, from), By: "excess on the volume of the hole"},
	}, nil
}

// holeExcessVolume counts the excess on the volume of the whole open hole, pipe
// and all.
func holeExcessVolume(list []fluid.Interval, top, bottom units.MD) float64 {
	sum := 0.0
	for _, v := range list {
		from, to := max(v.From, top), min(v.To, bottom)
		if to <= from {
			continue
		}
		outer, inner := math.Pi/4*float64(v.Outer*v.Outer), math.Pi/4*float64(v.Inner*v.Inner)
		sum += (outer*(1+float64(v.Excess)) - inner) * float64(to-from)
	}
	return sum
}

func (w *Well) claimedAnnulus(str int, _ string) (Claimed, error) {
	return w.overStages(str, units.Volume, func(st int) ([]Reading, []place.Ref, error) {
		list, err := w.annulusVolumes(str, st)
		return list, []place.Ref{w.Plan.Strings[str].Stages[st].Ref}, err
	})
}

// claimedSacks counts sacks: as stated, by volume over yield, and rounded up.
func (w *Well) claimedSacks(str int, _ string) (Claimed, error) {
	return w.overStages(str, units.Mass, func(st int) ([]Reading, []place.Ref, error) {
		sum := 0.0
		var refs []place.Ref
		p := &w.Plan.Strings[str].Stages[st]
		for i := range p.Fluids {
			f := &p.Fluids[i]
			if !slurryKind(f) {
				continue
			}
			mass, ref, err := w.bulk(f)
			if err != nil {
				return nil, nil, err
			}
			sum += float64(mass)
			refs = append(refs, ref)
		}
		return []Reading{{Value: sum, By: "volume over yield"}, {Value: math.Ceil(sum/units.Sack-1e-9) * units.Sack, By: "volume over yield, sacks rounded up"}}, refs, nil
	})
}

// slurryKind reports whether a fluid of a stage holds cement.
func slurryKind(f *plan.Fluid) bool { return f.Kind.V != "spacer" && f.Kind.V != "preflush" }

// bulk is the mass of blend of a slurry: stated, else its volume over its yield.
func (w *Well) bulk(f *plan.Fluid) (units.Kilograms, place.Ref, error) {
	if f.Sacks.Known() {
		return f.Sacks.V, f.Sacks.Ref, nil
	}
	v, ref, err := w.FluidVolume(f)
	if err != nil {
		return 0, 0, err
	}
	if !f.Yield.Known() || f.Yield.V <= 0 {
		return 0, 0, Lack(f.Ref, "the yield of %s", f.Name.V)
	}
	return units.Kilograms(float64(v) / float64(f.Yield.V)), ref, nil
}

func (w *Well) claimedDisplacement(str int, _ string) (Claimed, error) {
	return w.overStages(str, units.Volume, func(st int) ([]Reading, []place.Ref, error) {
		v, err := w.Displacement(str, st)
		if err != nil {
			return nil, nil, err
		}
		from, landing, ref, err := w.StagePath(str, st)
		if err != nil {
			return nil, nil, err
		}
		own, err := w.boreVolume(str, w.Plan.Strings[str].Top.V, landing)
		track, err2 := w.boreVolume(str, landing, from)
		if err != nil || err2 != nil {
			return nil, nil, errors.Join(err, err2)
		}
		return []Reading{{Value: float64(v), By: "path from the head to the collar"}, {Value: float64(own), By: "the string's own bore to the collar"}, {Value: float64(v + track), By: "path from the head to the shoe"}}, []place.Ref{ref}, nil
	})
}

func (w *Well) claimedTop(str int, _ string) (Claimed, error) {
	out := Claimed{Dim: units.MDLength}
	s := &w.Plan.Strings[str]
	if len(s.Stages) == 0 {
		return out, Lack(s.Ref, "the cement job of %s", s.Name.V)
	}
	for st := range s.Stages {
		c, err := w.CementStage(str, st)
		if err != nil {
			return out, err
		}
		name := ""
		if len(s.Stages) > 1 {
			name = s.Stages[st].Name.V
		}
		out.Readings = append(out.Readings, Reading{Value: float64(c.Top.MD), By: joined(name, "volume with enlargement")}, Reading{Value: float64(c.GaugeTop.MD), By: joined(name, "volume in a gauge hole")})
		out.Refs = append(out.Refs, c.Refs...)
	}
	return out, nil
}
