package cement

import (
	"fmt"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// VolumeOff is a stated slurry volume against sacks and yield.
var VolumeOff = ofFluid("cement.volume_off", rules.NumType(units.None),
	"Stated slurry volume over sacks times yield, less one, without sign. Only where all three are stated.",
	func(p pumped) rules.Measure {
		f := p.fluid
		if !f.Volume.Known() || !f.Sacks.Known() || !f.Yield.Known() || f.Sacks.V <= 0 || f.Yield.V <= 0 {
			return rules.None("volume, sacks and yield aren't all stated")
		}
		by := float64(f.Sacks.V) * float64(f.Yield.V)
		off := float64(f.Volume.V)/by - 1
		if off < 0 {
			off = -off
		}
		return rules.Num(off, units.None, f.Volume.Ref, f.Sacks.Ref, f.Yield.Ref).
			With(volume(p.Well, f.Volume.V) + " stated, " + volume(p.Well, units.CubicMeters(by)) + " by sacks and yield").
			By(expr.Working{Formula: "abs(volume / (sacks * yield) - 1)", Inputs: []expr.Input{input("volume", f.Volume.V, units.Volume, f.Volume.Ref), input("sacks", f.Sacks.V, units.Mass, f.Sacks.Ref), input("yield", f.Yield.V, units.Yield, f.Yield.Ref)},
				Result: input("off", units.Fraction(off), units.None, 0), Source: "slurry volume = sacks x yield"})
	})

// water is the density of mix water.
const water = 1000.0

// DensityOff is a stated density against mix water and yield.
var DensityOff = ofFluid("cement.density_off", rules.NumType(units.None),
	"Stated slurry density against the balance of mass, (1 + silica + water)/yield for each mass of cement with water at 1,000 kg/m3, less one, without sign. Other additives aren't in it; not for foamed jobs.",
	func(p pumped) rules.Measure {
		f := p.fluid
		if p.stage.Kind.V == "foam" || !p.cement() || !f.Density.Known() || !f.MixWater.Known() || !f.Yield.Known() || f.Yield.V <= 0 {
			return rules.None("density, mix water and yield aren't all stated")
		}
		silica := f.Silica.Or(0) // a sack is of cement, silica comes on top
		by := (1 + float64(silica) + float64(f.MixWater.V)*water) / float64(f.Yield.V)
		off := float64(f.Density.V)/by - 1
		if off < 0 {
			off = -off
		}
		return rules.Num(off, units.None, f.Density.Ref, f.MixWater.Ref, f.Yield.Ref).
			With(units.Show(by, units.Density, p.Plan.System, false) + " by mix water and yield").
			By(expr.Working{Formula: "abs(density * yield / (1 + silica + water * 1000 kg/m3) - 1)", Inputs: []expr.Input{input("density", f.Density.V, units.Density, f.Density.Ref), input("yield", f.Yield.V, units.Yield, f.Yield.Ref), input("water", f.MixWater.V, units.Yield, f.MixWater.Ref), input("silica", silica, units.None, f.Silica.Ref)},
				Result: input("off", units.Fraction(off), units.None, 0), Source: "balance of mass and volume of a slurry"})
	})

// ThickeningSpare is thickening time over the slurry's clock.
var ThickeningSpare = ofFluid("cement.thickening_spare", rules.NumType(units.Time),
	"Thickening time less the slurry's own clock: from its first mixing to the end of displacement, each later fluid at its rate, plug time included. The displacement is as planned, else that of the path. Time to open a stage collar and circulate isn't in it: no input tells it.",
	func(p pumped) rules.Measure {
		if !p.cement() {
			return rules.None("not a slurry")
		}
		clock, err := p.SlurryClock(p.str, p.st, p.fl)
		m := stated(p.fluid.ThickeningTime, units.Time, p.fluid.Ref, "the thickening time of %s of %s", p.fluid.Name.V, p.string.Name.V)
		if err != nil {
			c := rules.From(err, p.fluid.Ref)
			c.Result.Lacks = append(m.Result.Lacks, c.Result.Lacks...)
			return c
		}
		if !m.Result.Known {
			return m
		}
		t := p.fluid.ThickeningTime
		return rules.Num(float64(t.V-clock), units.Time, t.Ref, p.stage.MixRate.Ref, p.stage.Rate.Ref).
			By(less("spare", input("thickening", t.V, units.Time, t.Ref), input("clock", clock, units.Time, 0), "clock: from first mixing to the end of displacement"))
	})

// FreeFluid is the free fluid of a slurry.
var FreeFluid = ofFluid("cement.free_fluid", rules.NumType(units.None), "Free fluid of a slurry, as stated.",
	func(p pumped) rules.Measure {
		if !p.cement() {
			return rules.None("not a slurry")
		}
		return stated(p.fluid.FreeFluid, units.None, p.fluid.Ref, "the free fluid of %s of %s", p.fluid.Name.V, p.string.Name.V)
	})

// Silica is the silica in a slurry.
var Silica = ofFluid("cement.silica", rules.NumType(units.None), "Silica by weight of cement, as stated.",
	func(p pumped) rules.Measure {
		if !p.cement() {
			return rules.None("not a slurry")
		}
		return stated(p.fluid.Silica, units.None, p.fluid.Ref, "the silica of %s of %s", p.fluid.Name.V, p.string.Name.V)
	})

// BottomTemperature is the static temperature where a stage leaves the string.
var BottomTemperature = ofStage("cement.bottom_temperature", rules.NumType(units.Temperature),
	"Static temperature at the bottom of a stage: stated for it, else of the temperature table, else by the basis's gradient.",
	func(j job) rules.Measure {
		if t := j.stage.BottomStatic; t.Known() {
			return rules.Num(float64(t.V), units.Temperature, t.Ref)
		}
		c, err := j.Casing(j.str)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		at := c.Shoe
		if j.stage.Collar.Known() {
			at = j.stage.Collar.V
		}
		z, err := j.TVD(at)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		t, known := j.Temperature(z)
		note := "from the plan's temperatures"
		if !known {
			note = "by the basis's gradient"
		}
		return rules.Num(float64(t), units.Temperature, j.stage.Ref).Where(well.AtTVD(z, "bottom of the stage")).With(note)
	})

// StrengthAtDrillOut is the cement's strength at the shoe when it's drilled.
var StrengthAtDrillOut = rules.OfString("cement.strength_at_drill_out", rules.NumType(units.Pressure),
	"Compressive strength at the shoe at the planned wait, hours from plug down: of the last slurry of the stage that leaves at the shoe, laboratory points that stand for the shoe, linear between them. Past the last point that point counts; before the first it isn't known.",
	func(w *well.Well, str int) rules.Measure {
		s, err := w.StrengthAtDrillOut(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		note := fmt.Sprintf("%s at %s", s.Fluid, units.Show(float64(s.Age), units.Time, w.Plan.System, false))
		if s.Last {
			note += ", past the last laboratory point, which counts"
		}
		return rules.Num(float64(s.Strength), units.Pressure, present(s.Wait, s.Ref)...).With(note)
	})

// present leaves out refs of nothing.
func present(refs ...place.Ref) []place.Ref {
	var out []place.Ref
	for _, r := range refs {
		if r != 0 {
			out = append(out, r)
		}
	}
	return out
}
