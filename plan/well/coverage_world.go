package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// DrillingMargin is the room a hole leaves to any mud: its least fracture
// pressure (low estimate) and its greatest pore pressure (high estimate), as
// equivalent mud weights, each wherever along the open hole it is met. Absent
// for the first hole, which no shoe stands over. Definition: API RP 96 (2013).
func (w *Well) DrillingMargin(h *Hole) (fracture, pore Margin, err error) {
	if err := windowed(h); err != nil {
		return Margin{}, Margin{}, err
	}
	if w.ShoeAbove(h) < 0 {
		return Margin{}, Margin{}, Absent("the first hole of the well: no shoe stands above it")
	}
	if fracture, err = w.margin(h, FracturePressure, Low, 0, 0, 0, 1); err != nil {
		return fracture, pore, err
	}
	pore, err = w.margin(h, PorePressure, High, 0, 0, 0, -1)
	return fracture, pore, err
}

// GreatestPore is the highest pore pressure, high estimate, along an open hole.
func (w *Well) GreatestPore(h *Hole) (p units.Pascals, at units.TVD, ref place.Ref, err error) {
	s, err := w.OpenHole(h)
	if err != nil {
		return 0, 0, 0, err
	}
	for _, z := range w.levels(s, w.Curve(PorePressure, High)) {
		q, r, err := w.inside(s, PorePressure, High, z)
		if err != nil {
			return 0, 0, r, err
		}
		if q >= p {
			p, at, ref = q, z, r
		}
	}
	return p, at, ref, nil
}

// PoreStated reports whether the plan states pore pressure anywhere.
func (w *Well) PoreStated() (bool, place.Ref) {
	for i := range w.Plan.Pressures {
		r := &w.Plan.Pressures[i]
		for _, v := range []place.Ref{r.Pore.Ref, r.PoreHigh.Ref, r.PoreLow.Ref} {
			if v != 0 {
				return true, v
			}
		}
	}
	return false, w.Plan.Doc.Root.Ref
}

// RiserMargin is the mud that holds back an open hole with the riser gone, and
// the lightest mud planned in it. With the riser off, the mud stands from the
// sea bed down and sea water over it: at a depth D below the rotary, the sea
// bed at L and the water depth Dw,
//
//	rho = (p/g - rho_sea Dw) / (D - L)
//
// balances the pore pressure p (high estimate); the greatest along the hole
// counts. Own pressure balance; sea water of 1,025 kg/m3. Between two rows of
// the pressure table the balance has its greatest value at one of them while
// the pore pressure at the sea bed is no less than the sea's. Absent where no
// riser stands on the well. Domain: holes more than a metre below the sea bed.
func (w *Well) RiserMargin(h *Hole) (m Margin, err error) {
	if !w.Subsea() || h.Plan.PressureControl.V != "bop_subsea" {
		return m, Absent("no riser stands on the well while it's drilled")
	}
	if err := windowed(h); err != nil {
		return m, err
	}
	bed, _, err := w.Surroundings()
	if err != nil {
		return m, err
	}
	mud, ref, err := h.LightestMud()
	if err != nil {
		return m, err
	}
	return w.riserless(h, bed, mud, ref)
}

func (w *Well) riserless(h *Hole, bed units.TVD, mud units.KgPerM3, ref place.Ref) (Margin, error) {
	s, err := w.OpenHole(h)
	if err != nil {
		return Margin{}, err
	}
	sea := float64(SeaWater) * float64(w.Plan.DepthReference.WaterDepth.V)
	best, found := Margin{Curve: units.KgPerM3(math.Inf(-1)), Mud: mud}, false
	var gaps Missing
	for _, z := range w.levels(s, w.Curve(PorePressure, High)) {
		below := float64(z - bed)
		if below <= shallow {
			continue
		}
		p, at, err := w.inside(s, PorePressure, High, z)
		if err != nil {
			gaps = gaps.and(err)
			continue
		}
		if need := units.KgPerM3((float64(p)/units.G - sea) / below); need > best.Curve {
			best.Curve, best.At, best.Refs, found = need, z, []place.Ref{ref, at}, true
		}
	}
	switch {
	case !found && len(gaps) > 0:
		return best, gaps
	case !found:
		return best, Absent("the hole isn't below the sea bed")
	}
	best.Spare, best.Gaps = mud-best.Curve, []expr.Lack(gaps)
	return best, nil
}

// HydrocarbonExposed reports whether the inside of a string may meet oil or
// gas: it faces produced fluid of an oil, gas or storage well, or a later hole
// it is open to has a formation that can flow them.
func (w *Well) HydrocarbonExposed(str int) (bool, string) {
	switch w.Plan.Well.Purpose.V {
	case "oil", "gas", "storage":
		if w.ProductionExposed(str) {
			return true, "faces produced fluid"
		}
	}
	for _, e := range w.Exposures(str) {
		for _, i := range w.OpenHoleZones(e.Hole) {
			if flows, hydrocarbon := w.CanFlow(i); flows && hydrocarbon {
				return true, "open to " + w.Plan.Formations[i].Name.V
			}
		}
	}
	return false, ""
}

// Porous reports whether a formation is porous and permeable: it holds a fluid
// or can flow. One of which the plan says nothing isn't.
func (w *Well) Porous(i int) bool {
	f := &w.Plan.Formations[i]
	switch f.Contents.V {
	case "fresh_water", "usable_water", "salt_water", "oil", "gas", "oil_and_gas":
		return true
	}
	flows, _ := w.CanFlow(i)
	return flows
}

// StimulatedTop is the top of the stimulated formation along the hole, where
// the string is cemented beside it. Absent where it isn't.
func (w *Well) StimulatedTop(str int) (units.MD, place.Ref, error) {
	top := w.Plan.Completion.StimulationTopTVD
	if !top.Known() {
		return 0, 0, Lack(w.Plan.Completion.Ref, "the top of the stimulated formation, true vertical")
	}
	md, err := w.MD(top.V)
	if err != nil {
		return 0, 0, err
	}
	c, err := w.Casing(str)
	switch {
	case err != nil:
		return 0, 0, err
	case !w.ProductionExposed(str) || md > c.Shoe || md < c.Top:
		return 0, 0, Absent("the string isn't beside the stimulated formation")
	}
	return md, top.Ref, nil
}

// PackerIn is the depth of the packer in a string. Absent where it's set in
// another string, and in a tie-back, round which another string stands.
func (w *Well) PackerIn(str int) (units.MD, place.Ref, error) {
	p := w.Plan.Completion.Packer
	c, err := w.Casing(str)
	switch {
	case err != nil:
		return 0, 0, err
	case !w.ProductionExposed(str):
		return 0, 0, Absent("no packer is set in it: it doesn't face production")
	case c.Plan.Role.V == "tie_back":
		return 0, 0, Absent("a tie-back stands inside another string")
	case !p.Known():
		return 0, 0, Lack(w.Plan.Completion.Ref, "the packer")
	case p.V < c.Top || p.V > c.Shoe || w.deeperLinerAt(str, p.V):
		return 0, 0, Absent("the packer is set in another string")
	}
	return p.V, p.Ref, nil
}

// deeperLinerAt reports whether a liner or tie-back inside a string lines the
// depth too.
func (w *Well) deeperLinerAt(str int, md units.MD) bool {
	k := w.innerOf(str)
	if k < 0 {
		return false
	}
	c, err := w.Casing(k)
	return err == nil && w.ProductionExposed(k) && md >= c.Top && md <= c.Shoe
}

// HottestStated is the highest static or flowing temperature the plan states.
func (w *Well) HottestStated() (t plan.Val[units.Kelvins], err error) {
	for i := range w.Plan.Temperatures {
		r := &w.Plan.Temperatures[i]
		for _, v := range []plan.Val[units.Kelvins]{r.Static, r.Flowing} {
			if v.Known() && (!t.Known() || v.V > t.V) {
				t = v
			}
		}
	}
	if !t.Known() {
		return t, Lack(w.Plan.Doc.Root.Ref, "the temperatures")
	}
	return t, nil
}
