package well

import (
	"strings"

	"spudgate/plan"
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
	for i := range p.Pressures {
		r := &p.Pressures[i]
		gradient(&found, "pore pressure", r.Pore)
		gradient(&found, "fracture pressure", r.Fracture)
	}
	return found.result("no density is stated")
}

// gradient searches a pressure read as a mud weight for one lighter than any
// fluid: a gradient in psi/ft typed into a column of mud weights.
func gradient(found *search, what string, g plan.Val[units.Grade]) {
	if g.Known() && g.V.Dim == units.Density {
		ppg, _ := units.ByName("ppg")
		n := ppg.FromSI(g.V.SI)
		found.holds(g.V.SI >= float64(foamed), places(g.Ref), "a %s of %s ppg is lighter than any fluid; it looks like %s psi/ft", what, units.Decimal(n, 3), units.Decimal(n, 3))
	}
}

// Zeros lists the numbers written as 0 that no plan means: the decoder read
// them as not stated. A test at no pressure is one too, unless it's an inflow
// test.
func (w *Well) Zeros() (Conflicts, error) {
	var found search
	found.holds(true, nil, "")
	for _, z := range w.Plan.Zeros {
		found.holds(false, places(z.Ref), "%s (%s) is 0: leave it empty if it isn't known", strings.ToLower(z.Why), w.Plan.Place(z.Ref).Path)
	}
	for i := range w.Plan.Tests {
		t := &w.Plan.Tests[i]
		zero := t.Pressure.Known() && t.Pressure.V == 0 && t.Kind.V != "inflow"
		found.holds(!zero, places(t.Pressure.Ref), "pressure of %s is 0: leave it empty if it isn't known", t.Name.V)
	}
	return found.result("no number is stated")
}
