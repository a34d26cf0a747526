package fluid

import (
	"math"

	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Steel is the density of steel, 7,850 kg/m3 (65.5 ppg, 490 lb/ft3).
const Steel units.KgPerM3 = 7850

// Tube is a pipe by its diameters.
type Tube struct{ OD, ID units.Meters }

// bore and face are the areas inside the pipe and over its outside, m2.
func (t Tube) bore() float64 { return capacity(float64(t.ID), 0) }
func (t Tube) face() float64 { return capacity(float64(t.OD), 0) }

// Section is the cross section of the wall. Domain: OD above ID, ID not negative.
func (t Tube) Section() (M2, error) { return Capacity(t.OD, t.ID) }

func (t Tube) valid() bool { return t.OD > t.ID && t.ID >= 0 }

const tubeDomain = "the outside diameter must be above the inside one"

var buoyedEq = equation{"buoyed", units.LinearMass, "weight + inside * pi / 4 * id^2 - outside * pi / 4 * od^2", "buoyed weight by pressure-area, w + rho_i A_i - rho_o A_o"}

// BuoyedWeight is the weight of pipe hanging with fluid inside and outside, by
// pressure-area: w + rho_i A_i - rho_o A_o. Field form:
// w + 0.0408 (W_i ID^2 - W_o OD^2). Negative if it floats. Domain: weight above
// zero, densities not negative, OD above ID.
func BuoyedWeight(weight units.KgPerM, t Tube, inside, outside units.KgPerM3) (units.KgPerM, error) {
	return answer[units.KgPerM]("buoyed weight", t.valid() && weight > 0 && inside >= 0 && outside >= 0, tubeDomain+", the weight above zero, densities not negative",
		float64(weight)+float64(inside)*t.bore()-float64(outside)*t.face())
}

// BuoyedWeightWorking is BuoyedWeight with its working.
func BuoyedWeightWorking(weight units.KgPerM, t Tube, inside, outside units.KgPerM3) (expr.Working, error) {
	w, err := BuoyedWeight(weight, t, inside, outside)
	return buoyedEq.working(float64(w), err, input("weight", weight, units.LinearMass), density("inside", inside), size("id", t.ID), density("outside", outside), size("od", t.OD))
}

var factorEq = equation{"factor", units.None, "1 - mud / 7850 kg/m3", "buoyancy factor, 1 - rho/7850"}

// BuoyancyFactor is what is left of the weight of steel in a mud: 1 - rho/7850.
// Field form: 1 - W/65.5. Domain: mud not negative and lighter than steel.
func BuoyancyFactor(mud units.KgPerM3) (units.Fraction, error) {
	return answer[units.Fraction]("buoyancy factor", mud >= 0 && mud < Steel, "the mud must be lighter than steel", 1-float64(mud)/float64(Steel))
}

// BuoyancyFactorWorking is BuoyancyFactor with its working.
func BuoyancyFactorWorking(mud units.KgPerM3) (expr.Working, error) {
	f, err := BuoyancyFactor(mud)
	return factorEq.working(float64(f), err, density("mud", mud))
}

// AxialWeight is the force of a length of pipe along a hole of an inclination:
// w L cos(inc), w as a mass per length. Domain: length not negative.
func AxialWeight(weight units.KgPerM, length units.MD, inc units.Radians) (units.Newtons, error) {
	return answer[units.Newtons]("weight along the hole", length >= 0, "the length must not be negative", float64(weight)*units.G*float64(length)*math.Cos(float64(inc)))
}

// HookLoad is what hangs on the hook.
type HookLoad struct {
	String   units.Newtons // buoyed, along the hole
	Block    units.Newtons // travelling block, hook, top drive
	Drag     units.Newtons // friction while pulling
	Overpull units.Newtons
}

var hookEq = equation{"hook_load", units.Force, "string + block + drag + overpull", "hook load: buoyed string, block, drag and overpull"}

// Total is the sum. Domain: none of block, drag and overpull negative.
func (h HookLoad) Total() (units.Newtons, error) {
	return answer[units.Newtons]("hook load", h.Block >= 0 && h.Drag >= 0 && h.Overpull >= 0, "block, drag and overpull must not be negative",
		float64(h.String+h.Block+h.Drag+h.Overpull))
}

// TotalWorking is Total with its working.
func (h HookLoad) TotalWorking() (expr.Working, error) {
	f, err := h.Total()
	return hookEq.working(float64(f), err, input("string", h.String, units.Force), input("block", h.Block, units.Force), input("drag", h.Drag, units.Force), input("overpull", h.Overpull, units.Force))
}

// SlipLateral is the factor that slips turn the pull on them into squeeze by:
// 1/tan(taper + atan mu); 4.00 for a taper of 9 deg 27' 45" and mu 0.08. Domain:
// taper above zero, friction not negative, together under 90 degrees.
func SlipLateral(taper units.Radians, friction units.Fraction) (units.Fraction, error) {
	sum := float64(taper) + math.Atan(float64(friction))
	return answer[units.Fraction]("slips", taper > 0 && friction >= 0 && sum < math.Pi/2, "the taper must be above zero, friction not negative", 1/math.Tan(sum))
}

var crushEq = equation{"crush", units.Force, "yield * area / sqrt(1 + od * lateral / (2 * slips) + (od * lateral / (2 * slips))^2)", "slip crushing, W. Reinhold and J. Spiri, World Oil, October 1959"}

// SlipCrush is the pull at which slips begin to crush pipe, by W. Reinhold and
// J. Spiri (World Oil, October 1959): Sy A/sqrt(1 + x + x^2), x = D K/(2 L).
// Domain: OD above ID, yield, length of slips and lateral factor above zero.
func SlipCrush(yield units.Pascals, t Tube, slips units.Meters, lateral units.Fraction) (units.Newtons, error) {
	x := float64(t.OD) * float64(lateral) / (2 * float64(slips))
	return answer[units.Newtons]("slip crushing", t.valid() && yield > 0 && slips > 0 && lateral > 0, tubeDomain+", yield, length of slips and lateral factor above zero",
		float64(yield)*capacity(float64(t.OD), float64(t.ID))/math.Sqrt(1+x+x*x))
}

// SlipCrushWorking is SlipCrush with its working.
func SlipCrushWorking(yield units.Pascals, t Tube, slips units.Meters, lateral units.Fraction) (expr.Working, error) {
	f, err := SlipCrush(yield, t, slips, lateral)
	area := input("area", M2(capacity(float64(t.OD), float64(t.ID))), units.Area)
	area.Small = true
	return crushEq.working(float64(f), err, pressure("yield", yield), area, size("od", t.OD), pure("lateral", lateral), size("slips", slips))
}

// Lift is what lifts a string while it is cemented.
type Lift struct {
	Weight  units.Newtons // of the string in air
	Tube    Tube
	Inside  units.Pascals // hydrostatic inside, at the shoe
	Shoe    units.Pascals // outside at the shoe, annular friction included
	Surface units.Pascals // pump pressure at the head
	// HeadOnRig: the head hangs on the rig instead of being screwed to the
	// casing, so that the pump pressure inside isn't held by the pipe itself.
	HeadOnRig bool
}

var (
	screwedEq = equation{"net", units.Force, "weight + inside * pi / 4 * id^2 - shoe * pi / 4 * od^2", "lift while cementing, head screwed to the casing"}
	onRigEq   = equation{"net", units.Force, "weight + (inside + surface) * pi / 4 * id^2 - shoe * pi / 4 * od^2", "lift while cementing, head held by the rig"}
)

// Net is the force that keeps the string down, by pressure-area: W + P_in A_i -
// P_shoe A_o, and P_surf A_i more where the head is on the rig. Negative: it
// lifts. Domain: OD above ID, weight above zero.
func (l Lift) Net() (units.Newtons, error) {
	in := l.Inside
	if l.HeadOnRig {
		in += l.Surface
	}
	return answer[units.Newtons]("lift while cementing", l.Tube.valid() && l.Weight > 0 && finite(float64(l.Surface)), tubeDomain+", the weight above zero",
		float64(l.Weight)+float64(in)*l.Tube.bore()-float64(l.Shoe)*l.Tube.face())
}

// NetWorking is Net with its working.
func (l Lift) NetWorking() (expr.Working, error) {
	f, err := l.Net()
	in := []expr.Input{input("weight", l.Weight, units.Force), pressure("inside", l.Inside), size("id", l.Tube.ID), pressure("shoe", l.Shoe), size("od", l.Tube.OD)}
	if l.HeadOnRig {
		return onRigEq.working(float64(f), err, append(in, pressure("surface", l.Surface))...)
	}
	return screwedEq.working(float64(f), err, in...)
}

// Bridged is the net force if the annulus bridges at the shoe: what is inside
// then acts outside too, W + P A_i - (P + P_surf) A_o, with P_surf added inside
// as well where the head is on the rig.
func (l Lift) Bridged() (units.Newtons, error) {
	l.Shoe = l.Inside + l.Surface
	return l.Net()
}

// MakeUpLoss is the length that a joint loses when it is made up: half the
// coupling less the stand-off J. Domain: coupling above zero, J not negative and
// under half of it.
func MakeUpLoss(coupling, standoff units.Meters) (units.Meters, error) {
	return answer[units.Meters]("make-up loss", coupling > 0 && standoff >= 0 && standoff < coupling/2, "the coupling must be longer than twice the stand-off", float64(coupling)/2-float64(standoff))
}

// Joints is how many joints of an average length, less what each loses, make a
// length, rounded up; a millionth of a joint is noise. Domain: length not
// negative, joints longer than their loss, at most ten million.
func Joints(length units.MD, average, loss units.Meters) (int, error) {
	n := float64(length) / float64(average-loss)
	if !(length >= 0 && loss >= 0 && average > loss && n <= 1e7) {
		return 0, outside("joints", "joints must be longer than what they lose, and the length not negative")
	}
	return int(math.Ceil(n - 1e-6)), nil
}
