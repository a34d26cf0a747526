package well

import (
	"errors"
	"math"
	"sort"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/survey"
	"spudgate/plan/units"
)

// statedTwice is a depth the plan states along the hole and vertically.
type statedTwice struct {
	of  string
	md  plan.Val[units.MD]
	tvd plan.Val[units.TVD]
}

func (w *Well) statedTwice() []statedTwice {
	var out []statedTwice
	add := func(of string, md plan.Val[units.MD], tvd plan.Val[units.TVD]) {
		if md.Known() && tvd.Known() {
			out = append(out, statedTwice{of, md, tvd})
		}
	}
	p := w.Plan
	for i := range p.Strings {
		add("shoe of "+p.Strings[i].Name.V, p.Strings[i].Shoe, p.Strings[i].ShoeTVD)
	}
	for i := range p.Sections {
		add("bottom of "+p.Sections[i].Name.V, p.Sections[i].To, p.Sections[i].ToTVD)
	}
	for i := range p.Formations {
		f := &p.Formations[i]
		add("top of "+f.Name.V, f.Top, f.TopTVD)
		add("base of "+f.Name.V, f.Base, f.BaseTVD)
	}
	for i := range p.Survey {
		add("survey station", p.Survey[i].MD, p.Survey[i].TVD)
	}
	return out
}

// TVDOverMD searches for true vertical depths greater than the depth along the
// hole, and for two depths further apart vertically than along the hole. Both
// count from the rotary, so no hole has either.
func (w *Well) TVDOverMD() (Conflicts, error) {
	var found search
	for _, b := range w.statedTwice() {
		ok := !w.past(units.MD(b.tvd.V), b.md.V)
		found.holds(ok, places(b.tvd.Ref, b.md.Ref), "%s: TVD %s, MD %s", b.of, w.showTVD(b.tvd.V), w.showMD(b.md.V))
	}
	if len(found.found) == 0 {
		w.steeperThanDown(&found)
	}
	return found.result("no depth is stated both ways")
}

func (w *Well) steeperThanDown(found *search) {
	all := w.statedTwice()
	sort.SliceStable(all, func(i, j int) bool { return all[i].md.V < all[j].md.V })
	for i := 1; i < len(all); i++ {
		a, b := all[i-1], all[i]
		ok := float64(b.tvd.V-a.tvd.V)-float64(b.md.V-a.md.V) <= float64(w.Rounding())+1e-6
		found.holds(ok, places(b.tvd.Ref, a.tvd.Ref), "from %s to %s TVD grows by %s and MD by %s", a.of, b.of, w.showTVD(b.tvd.V-a.tvd.V), w.showMD(b.md.V-a.md.V))
	}
}

// TVDTwice compares each stated TVD with the survey, or with the MD where the
// plan says the well is vertical, and the depths of one place with each other:
// a shoe with the bottom of its hole when both stand at one MD.
func (w *Well) TVDTwice() (Conflicts, error) {
	all := w.statedTwice()
	var found search
	m, source, err := w.Depths()
	if err == nil && source != FromPairs {
		for _, b := range all {
			if z, err := m.TVD(b.md.V); err == nil {
				ok := math.Abs(float64(z-b.tvd.V)) <= float64(w.Rounding())+1e-6
				found.holds(ok, places(b.tvd.Ref, b.md.Ref), "%s: TVD %s as stated, %s by the %s", b.of, w.showTVD(b.tvd.V), w.showTVD(z), mapWords(source))
			}
		}
	}
	w.onePlace(&found, all)
	return found.result("each TVD is given once")
}

// onePlace compares the TVDs stated at one MD with each other.
func (w *Well) onePlace(found *search, all []statedTwice) {
	sort.SliceStable(all, func(i, j int) bool { return all[i].md.V < all[j].md.V })
	for i := 1; i < len(all); i++ {
		a, b := all[i], all[i-1]
		if float64(a.md.V-b.md.V) < 0.01 {
			ok := math.Abs(float64(a.tvd.V-b.tvd.V)) <= float64(w.Rounding())+1e-6
			found.holds(ok, places(a.tvd.Ref, b.tvd.Ref), "at %s, TVD %s for %s and %s for %s", w.showMD(a.md.V), w.showTVD(a.tvd.V), a.of, w.showTVD(b.tvd.V), b.of)
		}
	}
}

func mapWords(s DepthSource) string {
	if s == FromSurvey {
		return "survey"
	}
	return "vertical hole"
}

// VerticalFits searches for inclination in a well said to be vertical: over 5
// degrees is no longer the wander of a straight hole (common practice, no
// source).
func (w *Well) VerticalFits() (Conflicts, error) {
	const wander = 5 * math.Pi / 180
	v := w.Plan.Well.Vertical
	if !v.V || len(w.Plan.Survey) == 0 {
		return nil, Absent("the plan doesn't both say the well is vertical and hold a survey")
	}
	var found search
	for i := range w.Plan.Survey {
		s := &w.Plan.Survey[i]
		if s.Inclination.Known() {
			found.holds(s.Inclination.V <= wander, places(s.Inclination.Ref, v.Ref), "vertical as stated, inclination %s at %s", w.show(float64(s.Inclination.V), units.Angle), w.showMD(s.MD.V))
		}
	}
	return found.result("no station states an inclination")
}

// SurveyInOrder searches the survey for depths that don't increase and for
// stations that describe no hole.
func (w *Well) SurveyInOrder() (Conflicts, error) {
	if len(w.Plan.Survey) == 0 {
		return nil, Absent("the plan holds no survey")
	}
	var found search
	var last plan.Val[units.MD]
	for i := range w.Plan.Survey {
		md := w.Plan.Survey[i].MD
		if md.Known() && last.Known() {
			found.holds(md.V > last.V, places(md.Ref, last.Ref), "station at %s after one at %s", w.showMD(md.V), w.showMD(last.V))
		}
		if md.Known() {
			last = md
		}
	}
	if len(found.found) == 0 {
		w.usable(&found)
	}
	return found.result("no station states its depth")
}

// usable holds that the stations, their depths in order, make a hole.
func (w *Well) usable(found *search) {
	var list []survey.Station
	for i := range w.Plan.Survey {
		s := &w.Plan.Survey[i]
		if !s.MD.Known() || !s.Inclination.Known() {
			return // thin, not inconsistent
		}
		list = append(list, survey.Station{MD: s.MD.V, Inc: s.Inclination.V, Azi: s.Azimuth.V})
	}
	_, err := survey.New(list)
	var input *survey.InputError
	if !errors.As(err, &input) {
		found.compared = true
		return
	}
	i := min(max(input.Index, 0), len(list)-1)
	found.holds(false, places(w.Plan.Survey[i].Ref, w.Plan.Survey[max(i-1, 0)].Ref), "station at %s: %s", w.showMD(list[i].MD), input.Text)
}

// SurveyReaches compares the last survey station with the deepest hole or
// shoe: the path must reach it and end there.
func (w *Well) SurveyReaches() (Conflicts, error) {
	end, ref := w.deepest()
	var last plan.Val[units.MD]
	for i := range w.Plan.Survey {
		if md := w.Plan.Survey[i].MD; md.Known() && (!last.Known() || md.V > last.V) {
			last = md
		}
	}
	if ref == 0 || !last.Known() {
		return nil, Absent("the plan doesn't hold both a survey and a depth of hole")
	}
	var found search
	found.holds(w.meets(last.V, end), places(last.Ref, ref), "the survey ends at %s, the well at %s", w.showMD(last.V), w.showMD(end))
	return found.result("")
}

// boundary is a depth of a formation, along the hole or vertical.
type boundary struct {
	z   float64
	ref place.Ref
	txt string
}

// sameWay gives the depths of two formation boundaries measured the same way;
// false when no one way is stated of both.
func (w *Well) sameWay(md1, md2 plan.Val[units.MD], tvd1, tvd2 plan.Val[units.TVD]) (a, b boundary, ok bool) {
	if md1.Known() && md2.Known() {
		return boundary{float64(md1.V), md1.Ref, w.showMD(md1.V)}, boundary{float64(md2.V), md2.Ref, w.showMD(md2.V)}, true
	}
	if tvd1.Known() && tvd2.Known() {
		return boundary{float64(tvd1.V), tvd1.Ref, w.showTVD(tvd1.V)}, boundary{float64(tvd2.V), tvd2.Ref, w.showTVD(tvd2.V)}, true
	}
	return a, b, false
}

// FormationsInOrder searches the formations for tops that don't go down the
// list and for bases above their tops.
func (w *Well) FormationsInOrder() (Conflicts, error) {
	var found search
	for i := range w.Plan.Formations {
		f := &w.Plan.Formations[i]
		if top, base, ok := w.sameWay(f.Top, f.Base, f.TopTVD, f.BaseTVD); ok {
			found.holds(base.z > top.z, places(base.ref, top.ref), "%s: top at %s, base at %s", f.Name.V, top.txt, base.txt)
		}
		if i == 0 {
			continue
		}
		o := &w.Plan.Formations[i-1]
		if a, b, ok := w.sameWay(o.Top, f.Top, o.TopTVD, f.TopTVD); ok {
			found.holds(b.z >= a.z, places(b.ref, a.ref), "top of %s at %s, that of %s listed before it at %s", f.Name.V, b.txt, o.Name.V, a.txt)
		}
	}
	return found.result("no two depths of formations are stated")
}

// FormationsApart searches the formations for a base below the next top.
func (w *Well) FormationsApart() (Conflicts, error) {
	var found search
	for i := 1; i < len(w.Plan.Formations); i++ {
		o, f := &w.Plan.Formations[i-1], &w.Plan.Formations[i]
		if a, b, ok := w.sameWay(o.Base, f.Top, o.BaseTVD, f.TopTVD); ok {
			found.holds(b.z >= a.z-float64(w.Meet()), places(a.ref, b.ref), "base of %s at %s, top of %s at %s", o.Name.V, a.txt, f.Name.V, b.txt)
		}
	}
	return found.result("no base and next top are stated")
}
