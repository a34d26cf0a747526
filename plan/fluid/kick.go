package fluid

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Kick is an influx of gas at the bottom of a hole that is to be circulated past
// a weak point, by name the shoe.
type Kick struct {
	Shoe, Bottom units.TVD
	Fracture     units.Pascals // at the shoe, choke-line friction and margins taken off
	Formation    units.Pascals // at the bottom
	Mud, Gas     units.KgPerM3
}

const kickName = "kick tolerance"

func (k Kick) check() error {
	switch {
	case !finite(float64(k.Shoe), float64(k.Bottom), float64(k.Fracture), float64(k.Formation), float64(k.Mud), float64(k.Gas)):
		return outside(kickName, "an input is not a finite number")
	case !(k.Bottom > k.Shoe && k.Shoe >= 0):
		return outside(kickName, "the bottom must be below the shoe")
	case !(k.Mud > k.Gas && k.Gas >= 0):
		return outside(kickName, "the mud must be heavier than the gas")
	}
	return nil
}

var heightEq = equation{"height", units.TVDLength, "lesser((fracture - formation + mud * g * (bottom - shoe)) / ((mud - gas) * g), bottom - shoe)",
	"kick tolerance: height of gas under the shoe that just does not break it, at most the open hole"}

// Height is the vertical height of gas under the shoe that just doesn't break
// it: (Pf - P + rho g (TD - shoe))/((rho - rho_g) g), at most the open hole, when
// whole is true. Zero or negative: the shoe breaks without any gas. Domain:
// bottom below the shoe, mud heavier than gas.
func (k Kick) Height() (h units.TVD, whole bool, err error) {
	if err := k.check(); err != nil {
		return 0, false, err
	}
	open := k.Bottom - k.Shoe
	h = units.TVD((float64(k.Fracture-k.Formation) + float64(k.Mud)*units.G*float64(open)) / (float64(k.Mud-k.Gas) * units.G))
	return min(h, open), h >= open, nil
}

// HeightWorking is Height with its working.
func (k Kick) HeightWorking() (expr.Working, error) {
	h, _, err := k.Height()
	return heightEq.working(float64(h), err, pressure("fracture", k.Fracture), pressure("formation", k.Formation), density("mud", k.Mud), density("gas", k.Gas), depth("bottom", k.Bottom), depth("shoe", k.Shoe))
}

// Tolerance is the influx that a hole can take, as it is shut in at the bottom.
type Tolerance struct {
	Height             units.TVD
	Whole              bool // gas may fill the whole open hole
	MidShoe, MidBottom units.Pascals
	AtShoe             units.CubicMeters // of the height, under the shoe
	Expanded           units.CubicMeters // AtShoe squeezed to the bottom
	AtBottom           units.CubicMeters // of the height, on the bottom, around the drill collars
	Volume             units.CubicMeters // the lesser of Expanded and AtBottom: the tolerance
	Circulating        bool              // Expanded governs: gas is worst once it gets to the shoe
}

// Tolerance is the largest influx that neither breaks the shoe when it is shut
// in nor when its top reaches the shoe. The caller's functions give the annular
// volume of a vertical height, turned along the hole: under the shoe, and on the
// bottom. Between both places the gas follows Boyle's law on absolute pressures
// at mid-height. No gas at all can be taken where Height isn't above zero:
// Volume is zero then. Errors: those of Height and of the functions.
func (k Kick) Tolerance(underShoe, onBottom func(units.TVD) (units.CubicMeters, error)) (Tolerance, error) {
	h, whole, err := k.Height()
	if err != nil || h <= 0 {
		return Tolerance{Height: h}, err
	}
	half := float64(k.Gas) * units.G * float64(h) / 2
	t := Tolerance{Height: h, Whole: whole, MidShoe: k.Fracture + units.Pascals(half), MidBottom: k.Formation - units.Pascals(half)}
	if t.AtShoe, err = underShoe(h); err != nil {
		return Tolerance{}, err
	}
	if t.AtBottom, err = onBottom(h); err != nil {
		return Tolerance{}, err
	}
	t.Expanded, err = Boyle(t.AtShoe, t.MidShoe, t.MidBottom)
	t.Volume, t.Circulating = min(t.Expanded, t.AtBottom), t.Expanded < t.AtBottom
	return t, err
}

var boyleEq = equation{"volume", units.Volume, "volume_1 * (pressure_1 + 1 atm) / (pressure_2 + 1 atm)", "Boyle's law on absolute pressures"}

// Boyle is the volume of a gas taken from one gauge pressure to another at one
// temperature: V p1/p2, absolute. Domain: volume not negative, absolute
// pressures above zero.
func Boyle(v units.CubicMeters, p1, p2 units.Pascals) (units.CubicMeters, error) {
	a, b := float64(p1+Atmosphere), float64(p2+Atmosphere)
	return answer[units.CubicMeters]("Boyle's law", v >= 0 && a > 0 && b > 0, "the volume must not be negative, absolute pressures above zero", float64(v)*a/b)
}

// BoyleWorking is Boyle with its working.
func BoyleWorking(v units.CubicMeters, p1, p2 units.Pascals) (expr.Working, error) {
	out, err := Boyle(v, p1, p2)
	return boyleEq.working(float64(out), err, input("volume_1", v, units.Volume), pressure("pressure_1", p1), pressure("pressure_2", p2))
}

// Intensity is how far the formation at the bottom may be over the mud, as a
// density, when a kick of a height has come in: ((rho_f - rho) z_shoe -
// h (rho - rho_g))/z_bottom; h = 0 is a kick without gain. Domain: bottom not
// above the shoe and below the reference, height not negative, mud heavier than
// gas.
func Intensity(fracture, mud, gas units.KgPerM3, shoe, bottom, height units.TVD) (units.KgPerM3, error) {
	over := float64(fracture-mud)*float64(shoe) - float64(height)*float64(mud-gas)
	return answer[units.KgPerM3]("kick intensity", bottom > 0 && bottom >= shoe && shoe >= 0 && height >= 0 && mud > gas && gas >= 0,
		"the bottom must be below the shoe, the height not negative, the mud heavier than the gas", over/float64(bottom))
}

// KickEMW is the equivalent mud weight that a shut-in kick puts on a depth:
// mud + margin + z_kick/z intensity. Domain: depth above zero, at most that of
// the kick.
func KickEMW(mud, intensity, margin units.KgPerM3, kick, z units.TVD) (units.KgPerM3, error) {
	return answer[units.KgPerM3]("kick equivalent mud weight", z > 0 && z <= kick, "the depth must lie below the reference and not below the kick",
		float64(mud+margin)+float64(kick/z)*float64(intensity))
}

// GasKickSurface is the greatest surface pressure while a gas kick is circulated
// out with weighted mud, the handbook's rule of thumb 0.2 sqrt(P V W/C) in psi,
// bbl, ppg and bbl/ft. Domain: nothing negative, capacity above zero.
func GasKickSurface(formation units.Pascals, gain units.CubicMeters, kill units.KgPerM3, capacity M2) (units.Pascals, error) {
	p, v, w, c := float64(formation)/units.Psi, float64(gain)/units.Barrel, float64(kill)/units.PPG, float64(capacity)/(units.Barrel/units.Foot)
	return answer[units.Pascals]("surface pressure of a gas kick", p >= 0 && v >= 0 && w >= 0 && c > 0, "nothing may be negative, the capacity must be above zero", 0.2*math.Sqrt(p*v*w/c)*units.Psi)
}
