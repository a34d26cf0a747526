package well

import (
	"strings"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// The densities a liquid of the trade can have: from the lightest oil mud to
// the heaviest mud or slurry; a foamed slurry may be lighter (common practice,
// no source). A number outside reads as one in another unit.
const (
	lightest units.KgPerM3 = 700
	foamed   units.KgPerM3 = 300
	heaviest units.KgPerM3 = 2650
	water    units.KgPerM3 = 1000
)

// liquid holds that a density is one a liquid can have, and says what it looks
// like when it isn't.
func (w *Well) liquid(found *search, what string, v plan.Val[units.KgPerM3], least units.KgPerM3) {
	if v.Known() {
		found.holds(v.V >= least && v.V <= heaviest, places(v.Ref), "%s of %s%s", what, w.showDensity(v.V), looksLike(v.V))
	}
}

func looksLike(rho units.KgPerM3) string {
	ppg, _ := units.ByName("ppg")
	switch n := ppg.FromSI(float64(rho)); {
	case n >= 0.7 && n <= 2.65: // 1.9 ppg
		return ": it looks like " + units.Decimal(n, 2) + " SG"
	case rho > heaviest:
		return ": heavier than any"
	}
	return ": lighter than any"
}

// MudDensities searches a hole section for densities no mud has. What is
// drilled with air, foam or mist is left alone; a mud of water or brine can't
// be lighter than water by more than the rounding.
func (w *Well) MudDensities(section int) (Conflicts, error) {
	s := &w.Plan.Sections[section]
	least := lightest
	switch s.MudType.V {
	case "air", "gas", "foam", "mist":
		return nil, Absent("drilled with " + s.MudType.V)
	case "water", "fresh_water", "brine":
		least = water - 20
	}
	if s.Drilled.V == "air" || s.Drilled.V == "underbalanced" {
		least = 0
	}
	var found search
	w.liquid(&found, "lowest mud", s.MudMin, least)
	w.liquid(&found, "mud", s.MudDensity, least)
	w.liquid(&found, "highest mud", s.MudMax, least)
	w.liquid(&found, "mud at depth", s.MudDownhole, least)
	w.liquid(&found, "circulating density", s.ECD, least)
	return found.result("no mud density is stated")
}

// FluidDensity searches a cement fluid for a density no slurry or spacer has.
func (w *Well) FluidDensity(str, stage, fluid int) (Conflicts, error) {
	st := &w.Plan.Strings[str].Stages[stage]
	f := &st.Fluids[fluid]
	if !f.Density.Known() {
		return nil, Absent("no density is stated")
	}
	least := lightest
	if st.Kind.V == "foam" || strings.Contains(strings.ToLower(f.Class.V+" "+f.Name.V), "foam") {
		least = foamed
	}
	var found search
	w.liquid(&found, f.Name.V, f.Density, least)
	return found.result("")
}

// OtherDensities searches what tests, strings, stages and the completion state
// for densities no liquid has.
func (w *Well) OtherDensities() (Conflicts, error) {
	var found search
	p := w.Plan
	for i := range p.Strings {
		s := &p.Strings[i]
		w.liquid(&found, "mud with "+s.Name.V, s.MudDensity, lightest)
		for j := range s.Stages {
			w.liquid(&found, "displacement fluid of "+s.Name.V, s.Stages[j].DisplacementDensity, foamed)
		}
	}
	for i := range p.Tests {
		w.liquid(&found, "fluid of "+p.Tests[i].Name.V, p.Tests[i].Fluid, lightest)
		w.liquid(&found, "equivalent density of "+p.Tests[i].Name.V, p.Tests[i].EMW, lightest)
	}
	w.liquid(&found, "packer fluid", p.Completion.PackerFluid, lightest)
	w.liquid(&found, "treating fluid", p.Completion.StimulationFluid, foamed)
	return found.result("no density is stated")
}

// Zeros searches for a nought where the plan means that it doesn't know: a
// pressure, a volume or an amount that no job has.
func (w *Well) Zeros() (Conflicts, error) {
	var found search
	p := w.Plan
	nought(&found, "reservoir pressure", p.Well.ReservoirPressure)
	for i := range p.Strings {
		s := &p.Strings[i]
		nought(&found, "bump pressure of "+s.Name.V, s.BumpPressure)
		for j := range s.Segments {
			g := &s.Segments[j]
			nought(&found, "collapse rating of "+g.Label(), g.RatingCollapse)
			nought(&found, "internal yield rating of "+g.Label(), g.RatingInternalYield)
			nought(&found, "body yield rating of "+g.Label(), g.RatingBody)
			nought(&found, "joint strength of "+g.Label(), g.RatingJoint)
		}
		for j := range s.Stages {
			zeroFluids(&found, &s.Stages[j])
		}
	}
	for i := range p.Pressures {
		if z := p.Pressures[i].Depth; z.V > 0 {
			zeroGrade(&found, "pore pressure at "+w.showTVD(z.V), p.Pressures[i].Pore)
			zeroGrade(&found, "fracture pressure at "+w.showTVD(z.V), p.Pressures[i].Fracture)
		}
	}
	for i := range p.Tests {
		if p.Tests[i].Kind.V != "inflow" {
			nought(&found, "pressure of "+p.Tests[i].Name.V, p.Tests[i].Pressure)
		}
		nought(&found, "minutes of "+p.Tests[i].Name.V, p.Tests[i].Minutes)
	}
	for i := range p.BOPs {
		nought(&found, "rating of "+p.BOPs[i].Name.V, p.BOPs[i].Rating)
		nought(&found, "ram test of "+p.BOPs[i].Name.V, p.BOPs[i].TestPressure)
	}
	return found.result("none of these is stated")
}

func zeroFluids(found *search, st *plan.Stage) {
	for k := range st.Fluids {
		f := &st.Fluids[k]
		nought(found, "volume of "+f.Name.V, f.Volume)
		nought(found, "sacks of "+f.Name.V, f.Sacks)
		nought(found, "thickening time of "+f.Name.V, f.ThickeningTime)
	}
}

func nought[T ~float64](found *search, what string, v plan.Val[T]) {
	notZero(found, what, float64(v.V), v.Ref)
}

func zeroGrade(found *search, what string, v plan.Val[units.Grade]) {
	notZero(found, what, v.V.SI, v.Ref)
}

func notZero(found *search, what string, x float64, ref place.Ref) {
	if ref != 0 {
		found.holds(x != 0, places(ref), "%s is 0: leave it empty if it isn't known", what)
	}
}
