package record

import (
	"math"
	"strings"

	"spudgate/plan/pipe"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// triaxialCase is the case that holds every moment of every other one.
const triaxialCase = "triaxial.least"

// loads are the load cases of every string that any case loads.
func loads(w *well.Well, fs []finding.Finding) []finding.StringLoads {
	var out []finding.StringLoads
	for _, i := range w.InOrder() {
		c, err := w.Casing(i)
		if err != nil {
			continue
		}
		name := w.Plan.Strings[i].Name.V
		s := finding.StringLoads{Name: name, Top: depth(w, c.Top), Shoe: depth(w, c.Shoe)}
		for _, k := range well.StrengthCases() {
			if l, ok := caseLoad(w, i, k, asked(fs, name, k)); ok {
				s.Cases = append(s.Cases, l)
			}
		}
		s.Triaxial = ellipse(w, i, asked(fs, name, triaxialCase))
		if len(s.Cases) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// ask is what the requirements on one case of a string come to: the highest
// factor, and whether one isn't met.
type ask struct {
	title  string
	factor *finding.Number
	notMet bool
}

func asked(fs []finding.Finding, name, check string) ask {
	a := ask{title: strings.NewReplacer(".", ", ", "_", " ").Replace(check)}
	for i := range fs {
		f := &fs[i]
		if f.Check != check || f.String != name {
			continue
		}
		a.title = f.Title
		a.notMet = a.notMet || f.Verdict == finding.NotMet
		if f.Sense != "at least" || f.Limit == nil || f.Limit.Quantity == nil {
			continue
		}
		if v := finding.Number(f.Limit.Quantity.SI); a.factor == nil || v > *a.factor {
			a.factor = &v
		}
	}
	return a
}

// caseLoad is a case along a string; false where no load of it acts.
func caseLoad(w *well.Well, str int, name string, a ask) (finding.CaseLoad, bool) {
	points, err := w.Profile(str, name)
	if err != nil {
		return finding.CaseLoad{}, false
	}
	kind, _, _ := strings.Cut(name, ".")
	c := finding.CaseLoad{Case: name, Title: a.title, Kind: kind, Required: a.factor, NotMet: a.notMet}
	c.Least = finding.Number(leastOf(points))
	required := 1.0
	if a.factor != nil {
		required = float64(*a.factor)
	}
	for _, p := range thinned(points, float64(c.Least)) {
		c.MD = append(c.MD, finding.Number(p.MD))
		c.TVD = append(c.TVD, finding.Number(p.TVD))
		c.Load = append(c.Load, finding.Number(p.Load))
		c.Rating = append(c.Rating, finding.Number(p.Rating))
		c.Used = append(c.Used, finding.Number(required*share(p)))
	}
	return c, c.Least > 0
}

// share is what a place takes up of its rating.
func share(p well.ProfilePoint) float64 {
	if p.Factor <= 0 {
		return 0
	}
	return 1 / p.Factor
}

// leastOf is the least factor; zero where no load acts.
func leastOf(list []well.ProfilePoint) float64 {
	least := 0.0
	for _, p := range list {
		if p.Factor > 0 && (least == 0 || p.Factor < least) {
			least = p.Factor
		}
	}
	return least
}

// thinSlack is how far, as a part of the greatest value, a straight line may
// miss a place that is left out of a profile.
const thinSlack = 0.001

// thinned leaves out the places between which load, rating and their ratio run
// straight. Both sides of a change and the least factor stay.
func thinned(list []well.ProfilePoint, least float64) []well.ProfilePoint {
	if len(list) < 3 {
		return list
	}
	columns := []func(well.ProfilePoint) float64{
		func(p well.ProfilePoint) float64 { return p.Load },
		func(p well.ProfilePoint) float64 { return p.Rating },
		share,
	}
	out := list[:1:1]
	for first := 0; first < len(list)-1; {
		last := first + 1
		for last+1 < len(list) && list[last].Factor != least && runs(list[first:last+2], columns) {
			last++
		}
		out, first = append(out, list[last]), last
	}
	return out
}

// runs reports whether the ends joined linearly meet what lies between.
func runs(list []well.ProfilePoint, columns []func(well.ProfilePoint) float64) bool {
	a, b := list[0], list[len(list)-1]
	if b.MD <= a.MD {
		return false
	}
	for _, of := range columns {
		for _, p := range list[1 : len(list)-1] {
			at := of(a) + (of(b)-of(a))*float64((p.MD-a.MD)/(b.MD-a.MD))
			if math.Abs(at-of(p)) > thinSlack*max(math.Abs(of(a)), math.Abs(of(b)), math.Abs(of(p))) {
				return false
			}
		}
	}
	return true
}

// ellipse is the triaxial yield of the pipe nearest to it, with the place of
// each case that comes nearest on that pipe.
func ellipse(w *well.Well, str int, a ask) *finding.Ellipse {
	all, err := w.Strength(str, triaxialCase)
	if err != nil || all.Least == nil {
		return nil
	}
	seg := all.Least.Segment
	r, err := w.Rated(str, seg)
	if err != nil {
		return nil
	}
	wear := 1 - (1-r.Plan.Wear.Or(0))*min(r.Plan.MeasuredWall.Or(1), 1)
	body, err := r.Body.Worn(wear)
	if err != nil {
		return nil
	}
	ro, ri := float64(body.OD)/2, float64(body.OD)/2-float64(body.Wall)
	e := &finding.Ellipse{Pipe: all.Least.Label, Area: finding.Number(body.Area()), Hoop: finding.Number(2 * ro * ro / (ro*ro - ri*ri)),
		Yield: finding.Number(all.Least.Rating), Required: a.factor, NotMet: a.notMet}
	rest := all.Lines
	for _, name := range well.StrengthCases() {
		var moments []well.StrengthLine
		if moments, rest = momentsOf(w, str, name, rest); moments == nil {
			continue
		}
		if l := nearest(moments, seg); l != nil {
			e.Points = append(e.Points, point(w, e, body, l, name))
			e.Yield = min(e.Yield, finding.Number(l.Rating))
		}
	}
	return e
}

// momentsOf finds the lines of one case in those of the triaxial one, which
// holds them in the order of the cases: the same places under the same
// pressures. What lies before them belongs to cases that lack something.
func momentsOf(w *well.Well, str int, name string, all []well.StrengthLine) (own, rest []well.StrengthLine) {
	r, err := w.Strength(str, name)
	if err != nil || name == triaxialCase || len(r.Lines) == 0 || r.Lines[0].Kind == well.Joint {
		return nil, all
	}
	n := len(r.Lines)
	for from := 0; from+n <= len(all); from++ {
		if same(r.Lines, all[from:from+n]) {
			return all[from : from+n], all[from+n:]
		}
	}
	return nil, all
}

func same(a, b []well.StrengthLine) bool {
	for i := range a {
		if a[i].At.MD.V != b[i].At.MD.V || a[i].Inside != b[i].Inside || a[i].Outside != b[i].Outside || a[i].Segment != b[i].Segment {
			return false
		}
	}
	return true
}

// nearest is the line of a segment with the least factor; nil where none is
// loaded.
func nearest(list []well.StrengthLine, seg int) *well.StrengthLine {
	var out *well.StrengthLine
	for i := range list {
		if l := &list[i]; l.Segment == seg && l.Factor > 0 && (out == nil || l.Factor < out.Factor) {
			out = l
		}
	}
	return out
}

// point places a line by its stresses at the inner wall less the pressure
// there, which a uniform pressure leaves unchanged: radial 0, hoop
// 2 r_o^2 (p_i - p_e) / (r_o^2 - r_i^2), axial F/A + p_i. Of the two sides of a
// bend it is the one nearer to yield.
func point(w *well.Well, e *finding.Ellipse, body pipe.Body, l *well.StrengthLine, name string) finding.EllipsePoint {
	area, inside := float64(e.Area), float64(max(l.Inside, 0))
	dp := inside - float64(max(l.Outside, 0))
	force := float64(l.Axial) + inside*area
	if bend, err := w.Curvature(l.At.MD.V); err == nil {
		if stress, _, err := pipe.BendingStress(body.OD-2*body.Wall, bend); err == nil {
			hoop := float64(e.Hoop) * dp
			side := float64(stress) * area
			if mises(force/area-float64(stress), hoop) > mises(force/area+float64(stress), hoop) {
				side = -side
			}
			force += side
		}
	}
	return finding.EllipsePoint{Case: name, Force: finding.Number(force), Pressure: finding.Number(dp), Factor: finding.Number(l.Factor),
		At: depth(w, units.MD(l.At.MD.V))}
}

// mises is the square of the equivalent stress of two principal stresses with
// the third zero.
func mises(axial, hoop float64) float64 { return axial*axial - axial*hoop + hoop*hoop }
