// Package placement holds the checks of cement jobs followed volume by volume,
// of centralizers, and of pipe on its way in: pressures at the rock and the
// head, lift, free fall, contact, standoff, slips and surge.
package placement

import (
	"fmt"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// job is a stage as a check sees it.
type job struct {
	*well.Well
	str, st int
	stage   *plan.Stage
	string  *plan.String
}

func ofStage(name string, t expr.Type, doc string, measure func(j job) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Stage, Type: t, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			str := &w.Plan.Strings[s.String]
			return measure(job{w, s.String, s.Stage, &str.Stages[s.Stage], str})
		}}
}

func ofZone(name string, t expr.Type, doc string, measure func(w *well.Well, str, zone int) rules.Measure) *rules.Check {
	return &rules.Check{Name: name, About: rules.Zone, Type: t, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure { return measure(w, s.String, s.Zone) }}
}

func input[Q ~float64](name string, x Q, d units.Dim, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: d, Ref: ref}
}

// less is the step a - b.
func less(result string, a, b expr.Input, source string) expr.Working {
	return expr.Working{Formula: a.Name + " - " + b.Name, Inputs: []expr.Input{a, b},
		Result: expr.Input{Name: result, SI: a.SI - b.SI, Dim: a.Dim}, Source: source}
}

// over is the step a / b.
func over(result string, a, b expr.Input, source string) expr.Working {
	return expr.Working{Formula: a.Name + " / " + b.Name, Inputs: []expr.Input{a, b},
		Result: expr.Input{Name: result, SI: a.SI / b.SI}, Source: source}
}

func show[Q ~float64](w *well.Well, x Q, d units.Dim) string {
	return units.Show(float64(x), d, w.Plan.System, false)
}

// when says what is pumped at a step and how much has been, in which hole, and
// what the string held before where that isn't mud.
func (j job) when(at well.PlacementAt) string {
	p, err := j.PlacementFor(j.str, j.st, at.Hole)
	if err != nil {
		return ""
	}
	s := p.Steps[at.Step]
	out := fmt.Sprintf("with %s pumped (%s)", show(j.Well, s.Pumped, units.Volume), p.Parcels[s.Parcel].Name)
	if h := at.Hole.String(); h != "" {
		out += "; " + h
	}
	if p.Held {
		out += "; the displacement of the stage below still stands in the string: as much mud as it holds isn't planned to be circulated through the collar"
	}
	return out
}

// flows says whether friction is in a number.
func flows(moving bool) string {
	if moving {
		return "friction counted, displacement taken to flow like the mud"
	}
	return "standing still, friction not counted"
}

// refs are the first ref given that stands somewhere, and the rest.
func refs(list ...place.Ref) []place.Ref {
	var out []place.Ref
	for _, r := range list {
		if r != 0 {
			out = append(out, r)
		}
	}
	return out
}

const way = " Followed as pumped: down the path of the displacement, out at shoe or stage collar, up the annulus as the volumes see it, fronts flat, fluids incompressible; volumes stated rise higher in a gauge hole than in the enlarged one, and the worse is judged unless the hole is measured by caliper; where the column inside outweighs the rest the pipe runs empty from the head down, and catches up. Until the plug lands, or the planned displacement is in."

// FrictionKnown is whether friction can be counted.
var FrictionKnown = ofStage("placement.friction_known", rules.TruthType,
	"True when the rheology of the mud and of every fluid of a stage and the mixing and displacement rates are given, so that friction can be counted while it is placed.",
	func(j job) rules.Measure {
		p, err := j.Placement(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		note := ""
		for i, l := range p.Lacks {
			if i > 0 {
				note += "; "
			}
			note += l.Input
		}
		if note != "" {
			note = "missing: " + note
		}
		return rules.Truth(p.Friction, j.stage.Ref).With(note)
	})
