package well

import (
	"sort"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// LabStrength is a compressive strength read from laboratory points at an age.
type LabStrength struct {
	Age      units.Seconds
	Strength units.Pascals
	Ref      place.Ref // of the point at or before the age
	Last     bool      // the age is past the last point: that point counts
	Fluid    string
	Wait     place.Ref
}

// StrengthAtDrillOut is the strength of the cement at a string's shoe when it
// is drilled out: of the last slurry of the stage that leaves at the shoe, at
// the wait planned from plug down, linear between laboratory points. Past the
// last point that point counts; nothing is extrapolated.
func (w *Well) StrengthAtDrillOut(str int) (LabStrength, error) {
	s := &w.Plan.Strings[str]
	if !Cemented(s) {
		return LabStrength{}, Absent("the string isn't cemented")
	}
	p := primary(s)
	if p == nil {
		return LabStrength{}, Lack(s.Ref, "the cement slurries of %s", s.Name.V)
	}
	f := lastSlurry(p)
	if f == nil {
		return LabStrength{}, Lack(p.Ref, "the cement slurries of %s", s.Name.V)
	}
	wait := s.Wait
	if p.Wait.Known() {
		wait = p.Wait
	}
	var missing Missing
	if !wait.Known() {
		missing = missing.and(Lack(s.Ref, "the wait on cement of %s", s.Name.V))
	}
	points := shoePoints(f)
	if len(points) == 0 {
		missing = missing.and(Lack(f.Ref, "the compressive strength of %s at the shoe of %s", f.Name.V, s.Name.V))
	}
	if err := missing.orNil(); err != nil {
		return LabStrength{}, err
	}
	out, err := strengthAt(points, wait.V, f.Name.V)
	out.Wait = wait.Ref
	return out, err
}

func lastSlurry(p *plan.Stage) *plan.Fluid {
	for i := len(p.Fluids) - 1; i >= 0; i-- {
		if slurry(&p.Fluids[i]) {
			return &p.Fluids[i]
		}
	}
	return nil
}

// shoePoints are the tests of a slurry that stand for the shoe, by age.
func shoePoints(f *plan.Fluid) []plan.Strength {
	var out []plan.Strength
	for _, s := range f.Strengths {
		if s.Time.Known() && s.Strength.Known() && (s.Place.V == "" || s.Place.V == "shoe") {
			out = append(out, s)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Time.V < out[j].Time.V })
	return out
}

func strengthAt(points []plan.Strength, age units.Seconds, name string) (LabStrength, error) {
	out := LabStrength{Age: age, Fluid: name}
	if age < points[0].Time.V {
		return out, Lack(points[0].Ref, "a compressive strength of %s at or before the planned wait", name)
	}
	for i, p := range points {
		if p.Time.V > age {
			a := points[i-1]
			t := float64(age-a.Time.V) / float64(p.Time.V-a.Time.V)
			out.Strength = a.Strength.V + units.Pascals(t)*(p.Strength.V-a.Strength.V)
			return out, nil
		}
		out.Strength, out.Ref = p.Strength.V, p.Strength.Ref
	}
	out.Last = age > points[len(points)-1].Time.V
	return out, nil
}
