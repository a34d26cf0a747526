package well

import (
	"errors"
	"math"
	"sort"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Span is an open hole seen vertically: from the shoe above it to its deepest
// point.
type Span struct {
	Top, Bottom units.TVD
	First       bool // no string stands above: the hole begins at the surface
	Shoe        int  // the string it begins from; -1 when First
}

type spanKey int

// OpenHole is the open hole of a section while its deepest part is drilled:
// from the shoe of the deepest string in the well then.
func (w *Well) OpenHole(h *Hole) (Span, error) {
	return once(w, spanKey(h.Section), func() (Span, error) { return w.openHole(h) })
}

func (w *Well) openHole(h *Hole) (Span, error) {
	s := Span{Shoe: w.ShoeAbove(h), First: true}
	from := units.MD(0)
	if s.Shoe >= 0 {
		s.First = false
		from, _ = w.shoeOf(&w.Plan.Strings[s.Shoe])
	}
	if from >= h.To {
		return s, Absent("the hole ends above the shoe over it")
	}
	s.Top, s.Bottom = units.TVD(math.Inf(1)), units.TVD(math.Inf(-1))
	for _, md := range w.turns(from, h.To) {
		z, err := w.TVD(md)
		if err != nil {
			return s, err
		}
		s.Top, s.Bottom = min(s.Top, z), max(s.Bottom, z)
	}
	return s, nil
}

// turns are the ends of a length of hole and the survey stations between: a
// hole may climb again, so its deepest point needn't be its end.
func (w *Well) turns(from, to units.MD) []units.MD {
	out := []units.MD{from, to}
	for i := range w.Plan.Survey {
		if s := &w.Plan.Survey[i]; s.MD.Known() && s.MD.V > from && s.MD.V < to {
			out = append(out, s.MD.V)
		}
	}
	return out
}

// ShoeAbove is the string with the deepest shoe in the well when a hole is
// drilled; -1 when there is none.
func (w *Well) ShoeAbove(h *Hole) int {
	best, at := -1, units.MD(-1)
	for _, i := range w.InOrder() {
		if w.rank(i) >= 2*h.Order || w.Plan.Strings[i].Role.V == "tie_back" {
			continue
		}
		if shoe, err := w.shoeOf(&w.Plan.Strings[i]); err == nil && shoe > at {
			best, at = i, shoe
		}
	}
	return best
}

// levels are the depths at which a profile of the open hole is judged: its
// ends and every row of the curve between. Both an equivalent mud weight and a
// pressure linear in depth have their extremes of equivalent weight there.
func (w *Well) levels(s Span, curves ...*Curve) []units.TVD {
	out := []units.TVD{s.Top, s.Bottom}
	for _, c := range curves {
		out = append(out, c.Rows(s.Top, s.Bottom)...)
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	kept := out[:0]
	for i, z := range out {
		if i == 0 || z != out[i-1] {
			kept = append(kept, z)
		}
	}
	return kept
}

// inside is a curve at a depth of the open hole. At a step only what lies in
// the hole counts: below it at the top, above it at the bottom, the worse of
// both between.
func (w *Well) inside(s Span, q Quantity, e Estimate, z units.TVD) (units.Pascals, place.Ref, error) {
	above, below, ref, err := w.Curve(q, e).At(z)
	switch {
	case err != nil:
		return 0, ref, err
	case z == s.Top:
		return below, ref, nil
	case z == s.Bottom:
		return above, ref, nil
	case e == High:
		return max(above, below), ref, nil
	}
	return min(above, below), ref, nil
}

// Margin is the least spare of a profile, as an equivalent mud weight, and
// where it is. Gaps are depths at which the curve isn't known.
type Margin struct {
	Spare units.KgPerM3
	Curve units.KgPerM3 // the curve there, as an equivalent mud weight
	Mud   units.KgPerM3 // the mud compared, back pressure counted
	At    units.TVD
	Gaps  []expr.Lack
	Refs  []place.Ref // mud, curve
}

// shallow is the depth, m, above which an equivalent mud weight says nothing:
// it divides by the depth.
const shallow = 1.0

// margin compares a mud with a curve all along the open hole. sign is +1 where
// the curve must lie over the mud, -1 where the mud must lie over the curve;
// back is the pressure held at the surface.
func (w *Well) margin(h *Hole, q Quantity, e Estimate, mud units.KgPerM3, ref place.Ref, back units.Pascals, sign float64) (Margin, error) {
	s, err := w.OpenHole(h)
	if err != nil {
		return Margin{}, err
	}
	best, found := Margin{Spare: units.KgPerM3(math.Inf(1))}, false
	var gaps Missing
	for _, z := range w.levels(s, w.Curve(q, e)) {
		if z <= shallow {
			continue
		}
		p, at, err := w.inside(s, q, e, z)
		if err != nil {
			gaps = gaps.and(err)
			continue
		}
		emw := units.KgPerM3(float64(p) / (units.G * float64(z)))
		held := EMW(back, mud, z)
		if spare := units.KgPerM3(sign * float64(emw-held)); spare < best.Spare {
			best, found = Margin{Spare: spare, Curve: emw, Mud: held, At: z, Refs: []place.Ref{ref, at}}, true
		}
	}
	if !found {
		return best, gaps
	}
	best.Gaps = gaps
	return best, nil
}

// and adds the inputs another error lacks, each named once.
func (m Missing) and(err error) Missing {
	var more Missing
	if !errors.As(err, &more) {
		return m
	}
	for _, l := range more {
		seen := false
		for _, k := range m {
			seen = seen || k.Input == l.Input
		}
		if !seen {
			m = append(m, l)
		}
	}
	return m
}

// backPressure is what managed drilling holds at the surface, zero otherwise.
func backPressure(h *Hole) units.Pascals {
	if h.Plan.Drilled.V != "managed" {
		return 0
	}
	return h.Plan.BackPressure.V
}

// HoleAt is the hole of a section of the plan.
func (w *Well) HoleAt(section int) (*Hole, error) {
	hs := w.Holes()
	for i := range hs {
		if hs[i].Section == section {
			return &hs[i], nil
		}
	}
	s := &w.Plan.Sections[section]
	return nil, Lack(s.Ref, "the bottom of %s", s.Name.V)
}

// windowed says why a hole has no mud window, or nil.
func windowed(h *Hole) error {
	switch {
	case h.Plan.Returns.V == "seabed":
		return Absent("drilled with returns to the sea bed")
	case h.Plan.Returns.V == "none":
		return Absent("drilled without returns")
	case h.Plan.Drilled.V == "underbalanced":
		return Absent("drilled underbalanced")
	case h.Plan.Drilled.V == "air":
		return Absent("drilled with air")
	}
	return nil
}

// MudOverPore is the least of lightest mud less pore pressure (high estimate)
// along the open hole.
func (w *Well) MudOverPore(h *Hole) (Margin, error) {
	if err := windowed(h); err != nil {
		return Margin{}, err
	}
	mud, ref, err := h.LightestMud()
	if err != nil {
		return Margin{}, err
	}
	if h.Plan.Drilled.V == "managed" && !h.Plan.BackPressure.Known() {
		return Margin{}, Lack(h.Plan.Ref, "the back pressure held in %s", h.Plan.Name.V)
	}
	return w.margin(h, PorePressure, High, mud, ref, backPressure(h), -1)
}

// FractureOverMud is the least of fracture pressure (low estimate) less
// heaviest mud along the open hole, standing still.
func (w *Well) FractureOverMud(h *Hole) (Margin, error) {
	mud, ref, err := h.HeaviestMud()
	return w.fractureOver(h, mud, ref, err)
}

// FractureOverECD is FractureOverMud while circulating.
func (w *Well) FractureOverECD(h *Hole) (Margin, error) {
	var err error
	if !h.Plan.ECD.Known() {
		err = Lack(h.Plan.Ref, "the equivalent circulating density of %s", h.Plan.Name.V)
	}
	return w.fractureOver(h, h.Plan.ECD.V, h.Plan.ECD.Ref, err)
}

func (w *Well) fractureOver(h *Hole, mud units.KgPerM3, ref place.Ref, err error) (Margin, error) {
	if stop := windowed(h); stop != nil {
		return Margin{}, stop
	}
	if w.ShoeAbove(h) < 0 {
		return Margin{}, Absent("the first hole of the well: no shoe stands above it")
	}
	if err != nil {
		return Margin{}, err
	}
	return w.margin(h, FracturePressure, Low, mud, ref, backPressure(h), 1)
}

// PoreIn is the pore pressure, high estimate, at a depth of a hole.
func (w *Well) PoreIn(h *Hole, z units.TVD) (units.Pascals, place.Ref, error) {
	s, err := w.OpenHole(h)
	if err != nil {
		return 0, 0, err
	}
	return w.inside(s, PorePressure, High, z)
}

// PoreSteepest is the pore pressure, high estimate, of an open hole where it is
// greatest as an equivalent mud weight.
func (w *Well) PoreSteepest(h *Hole) (units.Pascals, units.TVD, place.Ref, error) {
	m, err := w.margin(h, PorePressure, High, 0, 0, 0, -1)
	if err != nil {
		return 0, 0, 0, err
	}
	if len(m.Gaps) > 0 {
		return 0, 0, 0, Missing(m.Gaps)
	}
	p, ref, err := w.PoreIn(h, m.At)
	return p, m.At, ref, err
}
