package well

import (
	"math"

	"sort"

	"spudgate/plan"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// CementStage is a stage of a cement job as its volumes place it: pumped down
// the string, out at the shoe or a stage collar, up the annulus.
type CementStage struct {
	String, Stage int
	Plan          *plan.Stage
	From          units.MD // where it leaves the string
	Landing       units.MD // where its plug lands
	LandingRef    place.Ref
	Track         units.CubicMeters // left inside below the landing
	Slurry        units.CubicMeters
	Annulus       *fluid.Annulus // with enlargement
	Gauge         *fluid.Annulus
	Hole          HoleExcess
	Top, GaugeTop fluid.Top
	Refs          []place.Ref // the slurries' inputs first
}

type cementStageKey struct{ str, st int }

// CementStage places a stage by its volumes: the slurry less what stays in the
// shoe track, up from the shoe or collar. A stage pumped another way (top-up,
// squeeze, foam) has no top from volumes.
func (w *Well) CementStage(str, st int) (*CementStage, error) {
	return once(w, cementStageKey{str, st}, func() (*CementStage, error) { return w.cementStage(str, st) })
}

func (w *Well) cementStage(str, st int) (*CementStage, error) {
	s := &w.Plan.Strings[str]
	p := &s.Stages[st]
	switch {
	case !Cemented(s):
		return nil, Absent("the string isn't cemented")
	case p.Kind.V == "top_up":
		return nil, Absent("a top-up job is pumped down the annulus")
	case p.Kind.V == "squeeze":
		return nil, Absent("a squeeze has no top from volumes")
	case p.Kind.V == "foam":
		return nil, Absent("foamed slurry takes another volume downhole than it's mixed at")
	}
	c := &CementStage{String: str, Stage: st, Plan: p}
	var err error
	if c.Slurry, c.Refs, err = w.SlurryVolume(p); err != nil {
		return nil, err
	}
	if err = w.leaves(c); err != nil {
		return nil, err
	}
	if c.Track, err = w.boreVolume(str, c.Landing, c.From); err != nil {
		return nil, err
	}
	if c.Annulus, c.Gauge, c.Hole, err = w.cementAnnulus(str, p); err != nil {
		return nil, err
	}
	return c, w.rise(c)
}

// rise finds the tops: what is left for the annulus, up from where it leaves.
func (w *Well) rise(c *CementStage) (err error) {
	up := max(c.Slurry-c.Track, 0)
	if c.Top, err = c.Annulus.TopFromVolume(up, c.From); err == nil {
		c.GaugeTop, err = c.Gauge.TopFromVolume(up, c.From)
	}
	return Unusable(err, c.Plan.Ref, "a stage collar inside the string")
}

// leaves finds where a stage leaves the string and where its plug lands.
func (w *Well) leaves(c *CementStage) error {
	from, landing, ref, err := w.StagePath(c.String, c.Stage)
	c.From, c.Landing, c.LandingRef = from, landing, ref
	return err
}

// StagePath is where a stage leaves the string, where its plug lands and what
// tells that: through a stage collar both are the collar; at the shoe the plug
// lands on the float or landing collar. An inner string with no collar stabs in
// at the shoe.
func (w *Well) StagePath(str, st int) (from, landing units.MD, ref place.Ref, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, 0, 0, err
	}
	p := &c.Plan.Stages[st]
	if p.Collar.Known() {
		return p.Collar.V, p.Collar.V, p.Collar.Ref, nil
	}
	if p.Kind.V == "second_stage" {
		md, ref, ok := onlyCollar(c.Plan)
		if !ok {
			return 0, 0, 0, Lack(p.Ref, "the stage collar of %s of %s", p.Name.V, c.Plan.Name.V)
		}
		return md, md, ref, nil
	}
	md, ref, ok := c.FloatCollar()
	switch {
	case ok && md <= c.Shoe && md >= c.Top:
		return c.Shoe, md, ref, nil
	case ok:
		return 0, 0, 0, Lack(ref, "a float collar inside %s", c.Plan.Name.V)
	case p.Kind.V == "inner_string":
		return c.Shoe, c.Shoe, p.Ref, nil
	}
	return 0, 0, 0, Lack(c.Plan.Ref, "the float collar of %s", c.Plan.Name.V)
}

// onlyCollar is the stage collar among a string's accessories when there is
// exactly one.
func onlyCollar(s *plan.String) (md units.MD, ref place.Ref, ok bool) {
	n := 0
	for i := range s.Accessories {
		if a := &s.Accessories[i]; a.Kind.V == "stage_collar" && a.Depth.Known() {
			md, ref, n = a.Depth.V, a.Depth.Ref, n+1
		}
	}
	return md, ref, n == 1
}

// Sheath is a length of annulus filled with cement, merged from the stages that
// meet.
type Sheath struct {
	Top, Bottom units.MD
	Ref         place.Ref // what tells its top
	ByVolume    bool
}

type sheathsKey int

// Sheaths lists where cement stands outside a string, from the top down: by
// volumes with enlargement where they're planned, else between the stated top
// and where the stage leaves the string.
func (w *Well) Sheaths(str int) ([]Sheath, error) {
	return once(w, sheathsKey(str), func() ([]Sheath, error) {
		list, err := w.sheaths(str)
		return w.merge(list), err
	})
}

func (w *Well) sheaths(str int) ([]Sheath, error) {
	s := &w.Plan.Strings[str]
	if !Cemented(s) {
		return nil, Absent("the string isn't cemented")
	}
	if len(s.Stages) == 0 {
		return w.statedSheath(s)
	}
	var out []Sheath
	for i := range s.Stages {
		if s.Stages[i].Kind.V == "squeeze" {
			continue
		}
		a, err := w.sheath(str, i)
		if err != nil {
			return nil, err
		}
		out = append(out, a)
	}
	return out, nil
}

func (w *Well) statedSheath(s *plan.String) ([]Sheath, error) {
	shoe, err := w.shoeOf(s)
	if err != nil {
		return nil, err
	}
	if !s.TopOfCement.Known() {
		return nil, Lack(s.Ref, "the top of cement of %s", s.Name.V)
	}
	return []Sheath{{Top: s.TopOfCement.V, Bottom: shoe, Ref: s.TopOfCement.Ref}}, nil
}

// sheath is the cement of one stage. Where its volumes say nothing, its stated
// top counts.
func (w *Well) sheath(str, st int) (Sheath, error) {
	if w.Plan.Strings[str].Stages[st].Kind.V == "top_up" {
		return w.topUp(str, st)
	}
	c, err := w.CementStage(str, st)
	if err == nil {
		return Sheath{c.Top.MD, c.From, c.Refs[0], true}, nil
	}
	top, ref, ok := w.StatedTop(str, st)
	if !ok {
		return Sheath{}, err
	}
	from, _, _, perr := w.StagePath(str, st)
	if perr != nil && w.Plan.Strings[str].Stages[st].Kind.V != "second_stage" {
		from, perr = w.shoeOf(&w.Plan.Strings[str])
	}
	return Sheath{top, from, ref, false}, perr
}

// topUp is cement pumped down the annulus from its top: the depth its volume
// fills, or none where the volume isn't planned.
func (w *Well) topUp(str, st int) (Sheath, error) {
	p := &w.Plan.Strings[str].Stages[st]
	a, _, _, err := w.cementAnnulus(str, p)
	if err != nil {
		return Sheath{}, err
	}
	left, refs, err := w.SlurryVolume(p)
	top, _ := a.Range()
	if err != nil {
		return Sheath{Top: top, Bottom: top, Ref: p.Ref}, nil
	}
	md := top
	for _, v := range a.Intervals() {
		whole, err := a.Volume(v.From, v.To)
		if err != nil {
			return Sheath{}, err
		}
		part := min(1, float64(left)/float64(whole))
		md, left = v.From+units.MD(part)*(v.To-v.From), max(0, left-whole)
	}
	return Sheath{top, md, refs[0], true}, nil
}

// merge joins sheaths that meet.
func (w *Well) merge(list []Sheath) []Sheath {
	sort.SliceStable(list, func(i, j int) bool { return list[i].Top < list[j].Top })
	var out []Sheath
	for _, s := range list {
		n := len(out)
		if n > 0 && float64(s.Top) <= float64(out[n-1].Bottom)+float64(w.Meet()) {
			out[n-1].Bottom = max(out[n-1].Bottom, s.Bottom)
			continue
		}
		out = append(out, s)
	}
	return out
}

// StatedTop is the top of cement the plan states for a stage: the shallowest
// planned top of its slurries, else, for a string's only stage, the string's
// own.
func (w *Well) StatedTop(str, st int) (units.MD, place.Ref, bool) {
	s := &w.Plan.Strings[str]
	var top plan.Val[units.MD]
	for i := range s.Stages[st].Fluids {
		f := &s.Stages[st].Fluids[i]
		if slurry(f) && f.Top.Known() && (!top.Known() || f.Top.V < top.V) {
			top = f.Top
		}
	}
	if !top.Known() && w.uppermost(str) == st {
		top = s.TopOfCement
	}
	return top.V, top.Ref, top.Known()
}

// SheathAt is the sheath a depth lies in, or the nearest one below it; false
// when there is none.
func SheathAt(list []Sheath, md units.MD) (Sheath, bool) {
	for _, s := range list {
		if md <= s.Bottom {
			return s, true
		}
	}
	return Sheath{}, false
}

// uppermost is the stage the string's own top of cement belongs to: the only
// one, else the one that leaves through the highest collar; -1 for a string
// topped up from above or without stages.
func (w *Well) uppermost(str int) int {
	best, at := -1, units.MD(0)
	for i := range w.Plan.Strings[str].Stages {
		st := &w.Plan.Strings[str].Stages[i]
		if st.Kind.V == "top_up" || st.Kind.V == "squeeze" {
			return -1
		}
		from := units.MD(math.Inf(1)) // the shoe
		if st.Collar.Known() {
			from = st.Collar.V
		}
		if best < 0 || from < at {
			best, at = i, from
		}
	}
	return best
}
