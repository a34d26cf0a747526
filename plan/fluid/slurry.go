package fluid

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Batch is an amount of slurry. Of its three members any two give the third;
// zero is not stated.
type Batch struct {
	Volume units.CubicMeters
	Blend  units.Kilograms // dry blend; a trade sack is 94 lb
	Yield  units.M3PerKg   // slurry volume for each mass of blend
}

// Complete works the missing member out: volume = blend x yield. Domain: at
// least two stated, none negative. With all three stated it changes nothing;
// see Off.
func (b Batch) Complete() (Batch, error) {
	const name = "slurry volume, blend and yield"
	v, m, y := float64(b.Volume), float64(b.Blend), float64(b.Yield)
	if !finite(v, m, y) || v < 0 || m < 0 || y < 0 {
		return b, outside(name, "none may be negative or not finite")
	}
	switch {
	case v > 0 && m > 0 && y > 0:
	case m > 0 && y > 0:
		b.Volume = units.CubicMeters(m * y)
	case v > 0 && y > 0:
		b.Blend = units.Kilograms(v / y)
	case v > 0 && m > 0:
		b.Yield = units.M3PerKg(v / m)
	default:
		return b, outside(name, "two of the three must be stated")
	}
	return b, nil
}

// Off is how far the stated volume of a complete batch is over blend x yield,
// as a fraction of that.
func (b Batch) Off() (units.Fraction, error) {
	by := float64(b.Blend) * float64(b.Yield)
	return answer[units.Fraction]("volume against blend and yield", by > 0 && b.Volume > 0, "all three must be stated", float64(b.Volume)/by-1)
}

var blendEq = equation{"blend", units.Mass, "volume / yield", "sacks = slurry volume / yield; a sack is 94 lb"}

// Blend is the dry blend for a volume: volume/yield. In sacks, divide by
// units.Sack. Domain: volume not negative, yield above zero.
func Blend(volume units.CubicMeters, yield units.M3PerKg) (units.Kilograms, error) {
	return answer[units.Kilograms]("blend", volume >= 0 && yield > 0, "the yield must be above zero, the volume not negative", float64(volume)/float64(yield))
}

// BlendWorking is Blend with its working.
func BlendWorking(volume units.CubicMeters, yield units.M3PerKg) (expr.Working, error) {
	m, err := Blend(volume, yield)
	return blendEq.working(float64(m), err, input("volume", volume, units.Volume), input("yield", yield, units.Yield))
}

var slurryEq = equation{"volume", units.Volume, "blend * yield", "slurry volume = sacks x yield; a sack is 94 lb"}

// SlurryVolume is the slurry of a dry blend: blend x yield. Domain: neither
// negative.
func SlurryVolume(blend units.Kilograms, yield units.M3PerKg) (units.CubicMeters, error) {
	return answer[units.CubicMeters]("slurry volume", blend >= 0 && yield >= 0, "neither may be negative", float64(blend)*float64(yield))
}

// SlurryVolumeWorking is SlurryVolume with its working.
func SlurryVolumeWorking(blend units.Kilograms, yield units.M3PerKg) (expr.Working, error) {
	v, err := SlurryVolume(blend, yield)
	return slurryEq.working(float64(v), err, input("blend", blend, units.Mass), input("yield", yield, units.Yield))
}

// WholeSacks is a blend in sacks of the given mass, rounded up; a hundredth of
// a sack is noise. Domain: the blend not negative, the sack above zero, at most
// a million million of them.
func WholeSacks(blend, sack units.Kilograms) (int, error) {
	n := float64(blend) / float64(sack)
	if !(blend >= 0 && sack > 0 && n <= 1e12) {
		return 0, outside("whole sacks", "the blend must not be negative and the sack above zero")
	}
	return int(math.Ceil(n - 0.01)), nil
}

var waterEq = equation{"water", units.Volume, "blend * ratio", "mix water = sacks x water per sack"}

// MixWater is the water for a blend at a ratio of volume to mass of blend.
// Domain: neither negative.
func MixWater(blend units.Kilograms, ratio units.M3PerKg) (units.CubicMeters, error) {
	return answer[units.CubicMeters]("mix water", blend >= 0 && ratio >= 0, "neither may be negative", float64(blend)*float64(ratio))
}

// MixWaterWorking is MixWater with its working.
func MixWaterWorking(blend units.Kilograms, ratio units.M3PerKg) (expr.Working, error) {
	v, err := MixWater(blend, ratio)
	return waterEq.working(float64(v), err, input("blend", blend, units.Mass), input("ratio", ratio, units.Yield))
}

// Part is one material of a slurry, with the density of its grains or of the
// liquid.
type Part struct {
	Mass    units.Kilograms
	Density units.KgPerM3
}

// Mixture is a slurry made of parts.
type Mixture struct {
	Mass   units.Kilograms
	Volume units.CubicMeters
}

// Mix adds parts up, volumes being additive. Domain: masses not negative,
// densities above zero, some mass.
func Mix(parts ...Part) (Mixture, error) {
	var m Mixture
	for i, p := range parts {
		if !(p.Mass >= 0 && p.Density > 0) || !finite(float64(p.Mass), float64(p.Density)) {
			return Mixture{}, outside("mixture", "part %d needs a mass not negative and a density above zero", i+1)
		}
		m.Mass += p.Mass
		m.Volume += units.CubicMeters(float64(p.Mass) / float64(p.Density))
	}
	if m.Mass <= 0 {
		return Mixture{}, outside("mixture", "there is nothing in it")
	}
	return m, nil
}

// Density is mass over volume.
func (m Mixture) Density() units.KgPerM3 {
	return units.KgPerM3(float64(m.Mass) / float64(m.Volume))
}

// Yield is the volume for each mass of blend. Domain: blend above zero and no
// more than the mixture.
func (m Mixture) Yield(blend units.Kilograms) (units.M3PerKg, error) {
	return answer[units.M3PerKg]("yield", blend > 0 && blend <= m.Mass, "the blend must be above zero and part of the mixture", float64(m.Volume)/float64(blend))
}

// WaterForDensity is the water that brings dry material to a slurry density:
// (m - rho V)/(rho - rho_w). Domain: the slurry between water and dry material.
func WaterForDensity(dry Mixture, slurry, water units.KgPerM3) (units.CubicMeters, error) {
	rho, w := float64(slurry), float64(water)
	return answer[units.CubicMeters]("water for a density", slurry > water && water > 0 && slurry <= dry.Density(),
		"the slurry must be denser than water and lighter than what is mixed", (float64(dry.Mass)-rho*float64(dry.Volume))/(rho-w))
}

// WeightFor is the mass of weighting material, which itself takes up water at a
// ratio, that brings a slurry to a density: balance of mass and volume. Domain:
// the wanted density above that of the slurry and below that of the wetted
// material.
func WeightFor(base Mixture, wanted, material units.KgPerM3, ratio units.M3PerKg, water units.KgPerM3) (units.Kilograms, error) {
	rho, wet := float64(wanted), float64(ratio)
	gain := 1 + wet*float64(water) - rho*(1/float64(material)+wet)
	return answer[units.Kilograms]("weighting material", gain > 0 && material > 0 && ratio >= 0 && water > 0 && wanted >= base.Density(),
		"the wanted density must lie between the slurry's and that of the wetted material", (rho*float64(base.Volume)-float64(base.Mass))/gain)
}

// Pumped is one fluid of a job in pumping order.
type Pumped struct {
	Volume  units.CubicMeters
	Rate    units.M3PerS
	Surface units.Seconds // spent mixed before it is pumped: batch mixing
}

// PumpTime is volume over rate; contact time of a spacer too. Domain: rate above
// zero, volume not negative.
func PumpTime(volume units.CubicMeters, rate units.M3PerS) (units.Seconds, error) {
	return answer[units.Seconds]("pumping time", volume >= 0 && rate > 0, "the rate must be above zero, the volume not negative", float64(volume)/float64(rate))
}

// Clock is how long the fluid at index i of a job is in motion: its own time at
// surface and of mixing, every later fluid, displacement being the last of them,
// and the stops (dropping plugs, opening a collar) after it. Domain: see
// PumpTime; times not negative.
func Clock(job []Pumped, i int, stops units.Seconds) (units.Seconds, error) {
	if i < 0 || i >= len(job) || !(job[i].Surface >= 0) || !(stops >= 0) {
		return 0, outside("clock", "there is no fluid %d, or a time is negative", i+1)
	}
	sum := job[i].Surface + stops
	for _, p := range job[i:] {
		t, err := PumpTime(p.Volume, p.Rate)
		if err != nil {
			return 0, err
		}
		sum += t
	}
	return answer[units.Seconds]("clock", true, "", float64(sum))
}

// ContactVolume is the spacer that passes a depth for a time: t q. Domain:
// neither negative.
func ContactVolume(t units.Seconds, rate units.M3PerS) (units.CubicMeters, error) {
	return answer[units.CubicMeters]("contact volume", t >= 0 && rate >= 0, "neither may be negative", float64(t)*float64(rate))
}
