package well

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/fluid"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// GasInside is the highest pressure at which gas can stand inside a string.
type GasInside struct {
	Pressure units.Pascals // gauge
	At       At
	Note     string
	Ref      place.Ref
}

type gasInsideKey int

// GasInside is the highest pressure at which gas of the well can stand inside
// a string: gas from every later hole it stays open to, at the bottom of the
// length exposed, and in production life reservoir pressure carried up to the
// bottom of the length that faces tubing. Gas is taken to reach a production
// string at any depth, packer or not. Absent where no gas can.
func (w *Well) GasInside(str int) (GasInside, error) {
	return once(w, gasInsideKey(str), func() (GasInside, error) {
		var best GasInside
		var lack Missing
		found, why := false, error(Absent("no oil or gas can reach its inside"))
		take := func(g GasInside, err error) error {
			m, missing := lacks(err)
			switch {
			case missing:
				lack.add(m)
			case isAbsent(err):
				why = err
			case err != nil:
				return err
			case !found || g.Pressure > best.Pressure:
				best, found = g, true
			}
			return nil
		}
		for _, e := range w.Exposures(str) {
			if err := take(w.gasDrilling(str, e)); err != nil {
				return best, err
			}
		}
		if err := take(w.gasProducing(str)); err != nil {
			return best, err
		}
		switch {
		case len(lack) > 0:
			return best, lack
		case !found:
			return best, why
		}
		return best, nil
	})
}

// gasDrilling is gas of a later hole, shut in.
func (w *Well) gasDrilling(str int, e Exposure) (GasInside, error) {
	if why := w.cannotFill(str, e.Hole); why != "" {
		return GasInside{}, Absent(why)
	}
	g, err := w.gasShutIn(e.Hole, e.Shoe)
	if err != nil {
		return GasInside{}, err
	}
	z, err := w.TVD(e.Down)
	if err != nil {
		return GasInside{}, err
	}
	p, err := g.gas.to(g.atShoe, g.shoe, z)
	return GasInside{Pressure: p, At: w.AtMD(e.Down, "where gas stands highest"), Ref: e.Hole.Plan.Ref,
		Note: e.Hole.Plan.Name.V + ": " + g.note(w.Plan.System)}, err
}

// gasProducing is reservoir pressure less gas at the bottom of what faces the
// tubing; at the reservoir itself where the string passes it.
func (w *Well) gasProducing(str int) (GasInside, error) {
	l, err := w.facesTubing(str)
	if err != nil {
		return GasInside{}, err
	}
	switch w.Plan.Well.Purpose.V {
	case "injection", "disposal", "geothermal", "water":
		return GasInside{}, Absent("the well doesn't produce oil or gas")
	}
	at, err := w.reservoirDepth()
	if err != nil {
		return GasInside{}, err
	}
	bottom, ref, note := w.Plan.Well.ReservoirPressure.V, w.Plan.Well.ReservoirPressure.Ref, "reservoir pressure"
	if ref == 0 {
		if bottom, ref, err = w.Pore(at, High); err != nil {
			return GasInside{}, err
		}
		note = "pore pressure at the reservoir"
	}
	z, err := w.TVD(l.To)
	if err != nil {
		return GasInside{}, err
	}
	if z >= at {
		return GasInside{Pressure: bottom, At: AtTVD(at, "the reservoir"), Ref: ref, Note: note}, nil
	}
	var best units.Pascals
	for i, g := range w.gases() {
		p, err := g.to(bottom, at, z)
		if err != nil {
			return GasInside{}, err
		}
		if i == 0 || p > best {
			best = p
		}
	}
	return GasInside{Pressure: best, At: w.AtMD(l.To, "where gas stands highest"), Ref: ref, Note: note + " less gas"}, nil
}

// Partial is the partial pressure of one gas.
type Partial struct {
	Pressure units.Pascals // absolute, by its nature
	Gas      GasInside
	Ref      place.Ref // the content as stated
	Working  expr.Working
}

// H2SInside is the partial pressure of hydrogen sulphide inside a string: mole
// fraction times the highest absolute pressure at which gas can stand there
// (ISO 15156-2 7.1.2, from memory). Absent where no gas reaches it, or the
// plan states that there is none.
func (w *Well) H2SInside(str int) (Partial, error) {
	return w.partial(str, w.Plan.Well.H2S, "H2S")
}

// CO2Inside is the same of carbon dioxide.
func (w *Well) CO2Inside(str int) (Partial, error) {
	return w.partial(str, w.Plan.Well.CO2, "CO2")
}

func (w *Well) partial(str int, y plan.Val[units.Fraction], name string) (Partial, error) {
	if y.Known() && y.V == 0 {
		return Partial{}, Absent("the plan states no " + name)
	}
	g, err := w.GasInside(str)
	lack, missing := lacks(err)
	if err != nil && !missing {
		return Partial{}, err
	}
	if !y.Known() {
		lack = append(Missing{{Input: name + " content", Ref: w.Plan.Well.Ref}}, lack...)
	}
	if len(lack) > 0 {
		return Partial{}, lack
	}
	p := Partial{Pressure: units.Pascals(float64(y.V) * float64(g.Pressure+fluid.Atmosphere)), Gas: g, Ref: y.Ref}
	p.Working = expr.Working{Formula: "content * (pressure + atmosphere)", Source: "Dalton's law: mole fraction times absolute pressure",
		Inputs: []expr.Input{
			{Name: "content", SI: float64(y.V), Dim: units.None, Ref: y.Ref},
			{Name: "pressure", SI: float64(g.Pressure), Dim: units.Pressure, Ref: g.Ref, Note: g.Note},
			{Name: "atmosphere", SI: float64(fluid.Atmosphere), Dim: units.Pressure}},
		Result: expr.Input{Name: "partial_pressure", SI: float64(p.Pressure), Dim: units.Pressure}}
	return p, nil
}

// GasInProduction reports whether a string faces gas while the well produces:
// a gas or storage well, a zone that can flow gas, or gas lift. Where nothing
// says so and the purpose isn't stated, that is missing.
func (w *Well) GasInProduction(str int) (yes bool, why string, err error) {
	x := &w.Plan.Well
	switch {
	case !w.ProductionExposed(str):
		return false, "it never faces the tubing or produced fluid", nil
	case x.Purpose.V == "gas" || x.Purpose.V == "storage":
		return true, "the well is for " + x.Purpose.V, nil
	case w.Plan.Completion.GasLiftPressure.Known():
		return true, "gas lift is planned", nil
	case !x.Purpose.Known():
		return false, "", Lack(x.Ref, "the purpose of the well")
	case x.Purpose.V != "oil":
		return false, "the well is for " + x.Purpose.V, nil
	}
	for _, i := range w.ZonesOf(str) {
		f := &w.Plan.Formations[i]
		if flows, _ := w.CanFlow(i); flows && (f.Contents.V == "gas" || f.Contents.V == "oil_and_gas") {
			return true, f.Name.V + " holds gas", nil
		}
	}
	return false, "an oil well with no gas zone in its own hole", nil
}
