package well

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// CollarRoom is the length between a stage collar and the cement pumped round
// the shoe below it.
type CollarRoom struct {
	Collar, Top units.MD // of the collar; of the cement below it
	Below       int      // the stage below
	Ref, TopRef place.Ref
	ByVolume    bool
}

// CollarRoom is the room between the collar a second stage leaves through and
// the top of the stage below it, by volume, else as planned. Absent where the
// stage below is planned to pass the collar.
func (w *Well) CollarRoom(str, st int) (CollarRoom, error) {
	r := CollarRoom{Below: -1}
	s := &w.Plan.Strings[str]
	if !s.Stages[st].Collar.Known() && s.Stages[st].Kind.V != "second_stage" {
		return r, Absent("the stage doesn't leave through a stage collar")
	}
	var err error
	if r.Collar, _, r.Ref, err = w.StagePath(str, st); err != nil {
		return r, err
	}
	lowest := units.MD(0)
	for i := range s.Stages {
		if k := s.Stages[i].Kind.V; k == "top_up" || k == "squeeze" || i == st {
			continue
		}
		from, _, _, err := w.StagePath(str, i)
		if err != nil {
			return r, err
		}
		if from > r.Collar && (r.Below < 0 || from < lowest) {
			r.Below, lowest = i, from
		}
	}
	if r.Below < 0 {
		return r, Absent("no stage is pumped below the collar")
	}
	if c, err := w.CementStage(str, r.Below); err == nil {
		r.Top, r.TopRef, r.ByVolume = c.Top.MD, c.Refs[0], true
	} else if top, ref, ok := w.StatedTop(str, r.Below); ok {
		r.Top, r.TopRef = top, ref
	} else {
		return r, err
	}
	if r.Top <= r.Collar {
		return r, Absent("the stage below comes up past the collar")
	}
	return r, nil
}

// CollarRock is the formation that a stage collar stands in; -1 when none
// listed reaches it. Absent inside casing.
func (w *Well) CollarRock(str, st int) (formation int, collar units.MD, ref place.Ref, err error) {
	s := &w.Plan.Strings[str]
	if !s.Stages[st].Collar.Known() && s.Stages[st].Kind.V != "second_stage" {
		return -1, 0, 0, Absent("the stage doesn't leave through a stage collar")
	}
	if collar, _, ref, err = w.StagePath(str, st); err != nil {
		return -1, 0, 0, err
	}
	if k, err := w.Previous(str); err == nil {
		if shoe, err := w.shoeOf(&w.Plan.Strings[k]); err == nil && collar <= shoe {
			return -1, collar, ref, Absent("the collar stands inside casing")
		}
	}
	formation = -1
	for i := range w.Plan.Formations {
		top, _, _, err := w.FormationTop(i)
		if err != nil || top > collar {
			continue
		}
		if base, _, _, err := w.FormationBase(i); err == nil && base < collar {
			continue
		}
		formation = i
	}
	return formation, collar, ref, nil
}

// ToolLoad is the pressure that sets, opens or inflates a tool, on the pipe
// that it's pumped through.
type ToolLoad struct {
	Tool            *plan.Accessory
	Inside, Outside units.Pascals // columns alone, at MD
	Load, Rating    units.Pascals
	MD              units.MD
	Pipe            *Rated
}

// Share is the load over internal yield.
func (l *ToolLoad) Share() float64 { return float64(l.Load) / float64(l.Rating) }

// ToolOperation is the worst load that setting, opening or inflating a tool of
// a string puts on its pipe: surface pressure and the column inside, less the
// mud outside, against internal yield as published. Above a stage collar down
// to it; for a hanger or packer down to the collar that the ball or plug lands
// on. Cement outside isn't counted: it helps. Absent where no tool states a
// pressure.
func (w *Well) ToolOperation(str int) (*ToolLoad, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	var worst *ToolLoad
	for i := range c.Plan.Accessories {
		a := &c.Plan.Accessories[i]
		if k := a.Kind.V; k != "stage_collar" && k != "packer" && k != "hanger" || !a.OperatingPressure.Known() {
			continue
		}
		l, err := w.toolLoad(c, a)
		if err != nil {
			return nil, err
		}
		if worst == nil || l.Share() > worst.Share() {
			worst = l
		}
	}
	if worst == nil {
		return nil, Absent("no tool of the string states a setting, opening or inflation pressure")
	}
	return worst, nil
}

func (w *Well) toolLoad(c *Casing, a *plan.Accessory) (*ToolLoad, error) {
	down, _, ok := c.FloatCollar()
	if !ok {
		down = c.Shoe
	}
	if a.Kind.V == "stage_collar" {
		if down = a.Depth.V; !a.Depth.Known() {
			return nil, Lack(a.Ref, "the depth of the stage collar of %s", c.Plan.Name.V)
		}
	}
	mud, _, err := w.RunIn(c.Index)
	if err != nil {
		return nil, err
	}
	in := mud
	if a.Kind.V != "hanger" { // a hanger is set before the cement is pumped
		if in, _, err = w.displacement(c.Index, primary(c.Plan)); err != nil {
			return nil, err
		}
	}
	var worst *ToolLoad
	for i := range c.Pipes {
		r, err := w.Rated(c.Index, i)
		if err != nil {
			return nil, err
		}
		if r.From >= down {
			break
		}
		if r.Internal.Err != nil {
			return nil, r.Internal.Err
		}
		for _, md := range []units.MD{r.From, min(r.To, down)} {
			z, err := w.TVD(md)
			if err != nil {
				return nil, err
			}
			l := &ToolLoad{Tool: a, MD: md, Pipe: r, Rating: r.Internal.Value, Inside: units.Hydrostatic(in, z), Outside: units.Hydrostatic(mud, z)}
			l.Load = a.OperatingPressure.V + l.Inside - l.Outside
			if worst == nil || l.Share() > worst.Share() {
				worst = l
			}
		}
	}
	return worst, nil
}

// TopUpGap is the room left between the cement pumped down an annulus and the
// top of what was pumped up it, along the hole; below zero they overlap.
func (w *Well) TopUpGap(str, st int) (bottom, top units.MD, refs []place.Ref, err error) {
	s := &w.Plan.Strings[str]
	if s.Stages[st].Kind.V != "top_up" {
		return 0, 0, nil, Absent("not a top-up job")
	}
	if _, _, err := w.SlurryVolume(&s.Stages[st]); err != nil {
		return 0, 0, nil, err
	}
	up, err := w.topUp(str, st)
	if err != nil {
		return 0, 0, nil, err
	}
	found := false
	for i := range s.Stages {
		if k := s.Stages[i].Kind.V; k == "top_up" || k == "squeeze" {
			continue
		}
		md, ref, err := w.topOfStage(str, i)
		if err != nil {
			return 0, 0, nil, err
		}
		if !found || md < top {
			top, refs, found = md, []place.Ref{up.Ref, ref}, true
		}
	}
	if !found {
		return 0, 0, nil, Lack(s.Ref, "the cement pumped up the annulus of %s", s.Name.V)
	}
	return up.Bottom, top, refs, nil
}

func (w *Well) topOfStage(str, st int) (units.MD, place.Ref, error) {
	c, err := w.CementStage(str, st)
	if err == nil {
		return c.Top.MD, c.Refs[0], nil
	}
	if top, ref, ok := w.StatedTop(str, st); ok {
		return top, ref, nil
	}
	return 0, 0, err
}

// LossesBehind is a formation of a cemented string's own open hole that takes
// losses; Absent where the plan names none.
func (w *Well) LossesBehind(str int) (int, error) {
	if !Cemented(&w.Plan.Strings[str]) {
		return -1, Absent("the string isn't cemented")
	}
	h, err := w.HoleOf(str)
	if err != nil {
		return -1, err
	}
	for _, i := range w.OpenHoleZones(h) {
		if w.Plan.Formations[i].Losses.V {
			return i, nil
		}
	}
	return -1, Absent("the plan names no losses in its hole")
}
