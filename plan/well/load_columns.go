package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// displacement is the fluid inside a string when the plug is down: of the
// stage, or of the string's first stage where none is named.
func (w *Well) displacement(str int, st *plan.Stage) (units.KgPerM3, place.Ref, error) {
	s := &w.Plan.Strings[str]
	if st == nil && len(s.Stages) > 0 {
		st = &s.Stages[0]
	}
	if st != nil && st.DisplacementDensity.Known() && st.Kind.V != "inner_string" {
		return st.DisplacementDensity.V, st.DisplacementDensity.Ref, nil
	}
	return w.RunIn(str)
}

// primary is the stage that goes round the shoe; nil where the plan has none.
func primary(s *plan.String) *plan.Stage {
	for i := range s.Stages {
		if k := s.Stages[i].Kind.V; k == "" || k == "primary" || k == "inner_string" || k == "foam" {
			return &s.Stages[i]
		}
	}
	return nil
}

// slurries are the real columns outside at the end of cementing: the mud down
// to the top of cement, the slurries below it, each as high as its volume
// brings it, else as high as the plan says.
func (w *Well) slurries(str int, st *plan.Stage) (profile, []units.MD, error) {
	o, err := w.outerOf(str)
	if err != nil {
		return nil, nil, err
	}
	s := &w.Plan.Strings[str]
	if st == nil {
		st = primary(s)
	}
	if st == nil {
		return nil, nil, Lack(s.Ref, "the cement slurries of %s", s.Name.V)
	}
	for i := range s.Stages {
		if &s.Stages[i] == st {
			layers, err := w.endLayers(str, i)
			if err != nil {
				return nil, nil, err
			}
			return w.stack(o, layers)
		}
	}
	return nil, nil, Lack(s.Ref, "the cement slurries of %s", s.Name.V)
}

// layer is a fluid of the annulus from a depth down.
type layer struct {
	top units.MD
	rho units.KgPerM3
}

func cementLayers(s *plan.String, st *plan.Stage, cement units.MD) ([]layer, error) {
	var out []layer
	heaviest, told := units.KgPerM3(0), true
	for i := range st.Fluids {
		f := &st.Fluids[i]
		if !slurry(f) {
			continue
		}
		if !f.Density.Known() {
			return nil, Lack(f.Ref, "the density of %s of %s", f.Name.V, s.Name.V)
		}
		top := f.Top.Or(cement)
		if len(out) == 0 {
			top = cement
		} else {
			told = told && f.Top.Known()
		}
		heaviest = max(heaviest, f.Density.V)
		out = append(out, layer{top, f.Density.V})
	}
	if len(out) == 0 {
		return nil, Lack(st.Ref, "the cement slurries of %s", s.Name.V)
	}
	if !told {
		return []layer{{cement, heaviest}}, nil
	}
	return out, nil
}

func slurry(f *plan.Fluid) bool {
	switch f.Kind.V {
	case "spacer", "preflush", "scavenger":
		return false
	}
	return true
}

// stack lays layers under the mud, each carrying on at the pressure above it.
func (w *Well) stack(o outer, layers []layer) (profile, []units.MD, error) {
	p := column(o.realOver, o.realFrom, o.mud)
	var edges []units.MD
	for _, l := range layers {
		z, err := w.TVD(l.top)
		if err != nil {
			return nil, nil, err
		}
		at, err := p(Spot{MD: l.top, TVD: z})
		if err != nil {
			return nil, nil, err
		}
		p = upper(p, l.top, column(at, z, l.rho))
		edges = append(edges, l.top)
	}
	return p, edges, nil
}
