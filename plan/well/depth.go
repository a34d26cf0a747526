package well

import (
	"math"
	"sort"

	"spudgate/plan/place"
	"spudgate/plan/survey"
	"spudgate/plan/units"
)

// Rounding is how far a stated TVD may be from the survey's and still be it:
// 1 ft in field units, 0.5 m in metric (common practice, no source).
func (w *Well) Rounding() units.Meters {
	if w.Plan.System == units.Metric {
		return 0.5
	}
	return units.Foot
}

// Meet is how far two ends may be apart and still meet: 1 ft or 0.3 m.
func (w *Well) Meet() units.Meters {
	if w.Plan.System == units.Metric {
		return 0.3
	}
	return units.Foot
}

// DepthSource says what the depth map of a well rests on.
type DepthSource string

// The sources, in the order they are preferred.
const (
	FromSurvey   DepthSource = "survey, minimum curvature"
	FromPairs    DepthSource = "stated MD and TVD pairs, joined linearly"
	FromVertical DepthSource = "vertical, as stated"
)

type depthKey struct{}

type depths struct {
	survey.DepthMap
	source DepthSource
}

// Depths is the map between MD and TVD and what it rests on: the survey, else
// the stated pairs, else vertical if the plan says so or every stated TVD
// equals its MD. MD is never taken for TVD silently.
func (w *Well) Depths() (survey.DepthMap, DepthSource, error) {
	d, err := once(w, depthKey{}, w.depths)
	return d.DepthMap, d.source, err
}

func (w *Well) depths() (depths, error) {
	if len(w.Plan.Survey) > 0 {
		path, err := w.path()
		return depths{path, FromSurvey}, err
	}
	pairs := w.StatedPairs()
	if w.Plan.Well.Vertical.V || (len(pairs) > 0 && allVertical(pairs, w.Rounding())) {
		return depths{survey.Vertical{}, FromVertical}, nil
	}
	if len(pairs) == 0 {
		return depths{}, Lack(w.Plan.Well.Ref, "a survey, a stated TVD, or that the well is vertical")
	}
	list := make([]survey.Pair, len(pairs))
	for i, p := range pairs {
		list[i] = survey.Pair{MD: p.MD, TVD: p.TVD}
	}
	m, err := survey.NewPairs(list)
	if err != nil {
		return depths{}, Lack(pairs[0].Ref, "consistent MD and TVD pairs (%v)", err)
	}
	return depths{m, FromPairs}, nil
}

func (w *Well) path() (*survey.Path, error) {
	var list []survey.Station
	for i := range w.Plan.Survey {
		s := &w.Plan.Survey[i]
		if !s.MD.Known() || !s.Inclination.Known() || (!s.Azimuth.Known() && s.Inclination.V > 1e-6) {
			return nil, Lack(s.Ref, "MD, inclination and azimuth of survey station %d", i+1)
		}
		list = append(list, survey.Station{MD: s.MD.V, Inc: s.Inclination.V, Azi: s.Azimuth.V})
	}
	path, err := survey.New(list)
	if err != nil {
		return nil, Lack(w.Plan.Survey[0].Ref, "a usable survey (%v)", err)
	}
	return path, nil
}

// StatedPair is a depth the plan states both ways.
type StatedPair struct {
	MD  units.MD
	TVD units.TVD
	Ref place.Ref // of the TVD
	Of  string
}

// StatedPairs lists every depth stated both ways, by depth.
func (w *Well) StatedPairs() []StatedPair {
	var out []StatedPair
	add := func(md units.MD, okMD bool, tvd units.TVD, ref place.Ref, of string) {
		if okMD && ref != 0 {
			out = append(out, StatedPair{md, tvd, ref, of})
		}
	}
	p := w.Plan
	for i := range p.Strings {
		s := &p.Strings[i]
		add(s.Shoe.V, s.Shoe.Known(), s.ShoeTVD.V, s.ShoeTVD.Ref, s.Name.V+" shoe")
	}
	for i := range p.Sections {
		s := &p.Sections[i]
		add(s.To.V, s.To.Known(), s.ToTVD.V, s.ToTVD.Ref, s.Name.V+" bottom")
	}
	for i := range p.Formations {
		f := &p.Formations[i]
		add(f.Top.V, f.Top.Known(), f.TopTVD.V, f.TopTVD.Ref, f.Name.V+" top")
		add(f.Base.V, f.Base.Known(), f.BaseTVD.V, f.BaseTVD.Ref, f.Name.V+" base")
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].MD < out[j].MD })
	return out
}

func allVertical(pairs []StatedPair, within units.Meters) bool {
	for _, p := range pairs {
		if math.Abs(float64(p.MD)-float64(p.TVD)) > float64(within) {
			return false
		}
	}
	return true
}

// TVD is the true vertical depth of a depth along the hole.
func (w *Well) TVD(md units.MD) (units.TVD, error) {
	m, source, err := w.Depths()
	if err != nil {
		return 0, err
	}
	z, err := m.TVD(md)
	if err != nil {
		return 0, Lack(w.depthRef(), "%s down to %s", mapNeed(source), units.Show(float64(md), units.MDLength, w.Plan.System, false))
	}
	return z, nil
}

func mapNeed(s DepthSource) string {
	if s == FromSurvey {
		return "a survey"
	}
	return "a stated TVD"
}

func (w *Well) depthRef() place.Ref {
	if len(w.Plan.Survey) > 0 {
		return w.Plan.Survey[len(w.Plan.Survey)-1].Ref
	}
	return w.Plan.Well.Ref
}

// MD is the shallowest depth along the hole at a true vertical depth.
func (w *Well) MD(z units.TVD) (units.MD, error) {
	m, source, err := w.Depths()
	if err != nil {
		return 0, err
	}
	all := m.MDs(z)
	if len(all) == 0 {
		return 0, Lack(w.depthRef(), "%s down to %s", mapNeed(source), units.Show(float64(z), units.TVDLength, w.Plan.System, false))
	}
	return all[0], nil
}

// Mudline is the depth of the sea bed below the depth reference; zero onshore,
// where strings begin at the rotary.
func (w *Well) Mudline() (units.TVD, error) {
	if !w.Subsea() {
		return 0, nil
	}
	r := w.Plan.DepthReference
	if !r.AboveSeaLevel.Known() || !r.WaterDepth.Known() {
		return 0, Lack(r.Ref, "rotary height over sea level and water depth")
	}
	return units.TVD(r.AboveSeaLevel.V + r.WaterDepth.V), nil
}

// Subsea reports whether the wellhead is on the sea bed.
func (w *Well) Subsea() bool { return w.Plan.Well.Setting.V == "offshore_subsea_bop" }
