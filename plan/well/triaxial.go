package well

import (
	"spudgate/plan/expr"
	"spudgate/plan/pipe"
	"spudgate/plan/units"
)

// triaxial is the factor of yield over the greatest equivalent stress, nominal
// wall less wear, both walls and both sides of the bend.
func (w *Well) triaxial(l *StrengthLine, p *Rated, soft units.Fraction) error {
	l.Dim = units.Pressure
	if p.Body.Yield == 0 {
		return Lack(p.Plan.Ref, "minimum yield strength of %s (proprietary grade)", p.Plan.Label())
	}
	worn, load, err := w.triaxialLoad(l, p)
	if err != nil {
		return err
	}
	stress, outer, pulled, err := worn.VonMises(load)
	if err != nil {
		return err
	}
	l.Load, l.Rating = float64(stress), float64(p.Body.Yield)*float64(soft)
	l.From, l.Note = "minimum yield", wallWords(outer, pulled, load.Bend > 0)
	if l.Load > 0 {
		l.Factor = l.Rating / l.Load
	}
	return nil
}

func (w *Well) triaxialLoad(l *StrengthLine, p *Rated) (pipe.Body, pipe.Load, error) {
	bend, err := w.Curvature(l.spot.MD)
	if err != nil {
		return pipe.Body{}, pipe.Load{}, err
	}
	worn, err := p.Body.Worn(p.wear())
	return worn, pipe.Load{Inside: max(l.Inside, 0), Outside: max(l.Outside, 0), Axial: l.Axial, Bend: bend}, err
}

func wallWords(outer, pulled, bent bool) string {
	words := "greatest at the inner wall"
	if outer {
		words = "greatest at the outer wall"
	}
	switch {
	case bent && pulled:
		words += ", pulled side of the bend"
	case bent:
		words += ", pressed side of the bend"
	}
	return words
}

// lineWorking shows how the rating, the load and the factor of a line came
// about.
func (w *Well) lineWorking(l *StrengthLine) []expr.Working {
	p, err := w.Rated(l.String, l.Segment)
	if err != nil {
		return nil
	}
	soft, _ := w.softening(l.of.heat, l.spot.TVD)
	var out []expr.Working
	switch l.Kind {
	case Burst:
		out = append(w.internalWorking(p, l, soft), difference(l))
	case Collapse:
		out = w.collapseWorking(p, l, soft)
	case Body, Joint:
		out = w.pulledWorking(p, l)
	case Triaxial:
		out = w.triaxialWorking(p, l)
	}
	return append(out, ratio(l))
}

func given(name string, v float64, d units.Dim) expr.Input {
	return expr.Input{Name: name, SI: v, Dim: d}
}

// difference is the net load of burst.
func difference(l *StrengthLine) expr.Working {
	return expr.Working{Formula: "inside - outside", Source: "net pressure", Result: given("load", l.Load, units.Pressure),
		Inputs: []expr.Input{given("inside", float64(l.Inside), units.Pressure), given("outside", float64(l.Outside), units.Pressure)}}
}

// ratio is the factor itself.
func ratio(l *StrengthLine) expr.Working {
	return expr.Working{Formula: "rating / load", Source: "design factor", Result: given("factor", l.Factor, units.None),
		Inputs: []expr.Input{given("rating", l.Rating, l.Dim), given("load", l.Load, l.Dim)}}
}

func (w *Well) internalWorking(p *Rated, l *StrengthLine, soft units.Fraction) []expr.Working {
	out := append([]expr.Working(nil), p.Internal.Working...)
	if l.Rating == float64(p.Internal.Value) {
		return out
	}
	in := given("published", float64(p.Internal.Value), units.Pressure)
	in.Ref = p.Internal.Ref
	wall := 1.0
	if m := p.Plan.MeasuredWall; m.Known() && p.Internal.From == "pipe body" {
		wall = float64(m.V) / pipe.WallKept
	}
	return append(out, expr.Working{Formula: "published * yield_factor * (1 - wear) * wall", Source: "wear, heat, and measured wall in place of 0.875",
		Inputs: []expr.Input{in, given("yield_factor", float64(soft), units.None), given("wear", float64(p.Plan.Wear.Or(0)), units.None), given("wall", wall, units.None)},
		Result: given("rating", l.Rating, units.Pressure)})
}

func (w *Well) collapseWorking(p *Rated, l *StrengthLine, soft units.Fraction) []expr.Working {
	e := w.edition()
	out := append([]expr.Working(nil), p.Collapse.Working...)
	steps, err := p.Body.CollapseUnderWorking(p.state(l, e, soft))
	if err != nil || len(steps) == 0 {
		return out
	}
	out = append(out, steps...)
	plain, _, err := p.Body.Collapse()
	if err != nil {
		return out
	}
	last := steps[len(steps)-1].Result.SI
	if step, err := pipe.JudgedWorking(float64(p.Collapse.Value), last, float64(plain), units.Pressure); err == nil {
		out = append(out, step)
	}
	_, load, err := pipe.CollapseLoad(e, l.Outside, l.Inside, p.Body.OD, p.Body.Wall*units.Meters(1-p.wear()))
	if err == nil {
		load.Result.Name = "load"
		load.Source += "; edition " + e.String()
		out = append(out, load)
	}
	return out
}

func (w *Well) pulledWorking(p *Rated, l *StrengthLine) []expr.Working {
	out := append([]expr.Working(nil), p.Joint.Working...)
	if l.Kind == Body {
		out = append([]expr.Working(nil), p.Yield.Working...)
	}
	axial := given("axial", float64(l.Axial), units.Force)
	if l.Load == float64(l.Axial) {
		return append(out, expr.Working{Formula: "axial", Source: "pressure-area force", Inputs: []expr.Input{axial}, Result: given("load", l.Load, units.Force)})
	}
	bend, err := w.Curvature(l.spot.MD)
	if err != nil {
		return out
	}
	stress, step, err := pipe.BendingStress(p.Body.OD, bend)
	if err != nil {
		return out
	}
	return append(out, step, expr.Working{Formula: "axial + bending * area", Source: "pressure-area force, and bending over the section",
		Inputs: []expr.Input{axial, given("bending", float64(stress), units.Pressure), given("area", p.Body.Area(), units.Area)},
		Result: given("load", l.Load, units.Force)})
}

func (w *Well) triaxialWorking(p *Rated, l *StrengthLine) []expr.Working {
	worn, load, err := w.triaxialLoad(l, p)
	if err != nil {
		return nil
	}
	points, err := worn.VonMisesWorking(load)
	if err != nil {
		return nil
	}
	best := points[0]
	for _, q := range points[1:] {
		if q.Stress > best.Stress {
			best = q
		}
	}
	return best.Working
}
