package fluid

import (
	"math"
	"testing"

	"spudgate/plan/units"
)

// TestKick: the height caps at the open hole, and vanishes where the shoe can't
// take the mud.
func TestKick(t *testing.T) {
	k := exampleKick
	h, whole, err := k.Height()
	if whole || err != nil {
		t.Errorf("%v %v %v", h, whole, err)
	}
	k.Fracture = 8000 * psi
	if h, whole, _ = k.Height(); !whole || h != k.Bottom-k.Shoe {
		t.Errorf("strong shoe: %v %v", h, whole)
	}
	k.Fracture = 3000 * psi
	none := must(k.Tolerance(nil, nil))
	if none.Volume != 0 || none.Height >= 0 {
		t.Errorf("broken shoe: %+v", none)
	}
	if got := exampleTolerance(); got.Circulating != (got.Expanded < got.AtBottom) || got.Volume != min(got.Expanded, got.AtBottom) {
		t.Errorf("%+v", got)
	}
	for what, bad := range map[string]Kick{
		"upside down": {Shoe: 2, Bottom: 1, Mud: 2, Gas: 1},
		"heavy gas":   {Shoe: 1, Bottom: 2, Mud: 1, Gas: 1},
		"no number":   {Shoe: 1, Bottom: 2, Mud: 1, Fracture: units.Pascals(math.NaN())},
	} {
		_, _, err := bad.Height()
		refused(t, what, err)
	}
}

// TestKickAtShoe: at the height of Height the pressure at the shoe, counted up
// from the formation through mud and gas, is the fracture pressure.
func TestKickAtShoe(t *testing.T) {
	k := exampleKick
	h, _, err := k.Height()
	if err != nil {
		t.Fatal(err)
	}
	open := k.Bottom - k.Shoe
	at := k.Formation - units.Hydrostatic(k.Mud, open-h) - units.Hydrostatic(k.Gas, h)
	near(t, "pressure at the shoe", float64(at/psi), 3750, 1e-6)
}

// TestIntensity: with a gain, what is left is the shoe's margin less the light
// column; by hand (0.6 ppg x 5000 - 500 x (10 - 2))/10000 = -0.1.
func TestIntensity(t *testing.T) {
	got := must(Intensity(ppg(10.6), ppg(10), ppg(2), 5000*tvd, 10000*tvd, 500*tvd))
	near(t, "intensity", float64(got)/units.PPG, -0.1, 1e-9)
	_, err := Intensity(ppg(12), ppg(10), 0, 100, 50, 0)
	refused(t, "bottom above the shoe", err)
	_, err = KickEMW(ppg(10), ppg(0.5), 0, 100, 200)
	refused(t, "below the kick", err)
}

// TestKickBase: K14 and K15 print a base that isn't the one they used.
func TestKickBase(t *testing.T) {
	near(t, "K14", float64(must(KickEMW(ppg(17.5), ppg(0.5), 0, 16000*tvd, 12550*tvd)))/units.PPG, 18.1, 0.05)
	near(t, "K15", float64(must(KickEMW(ppg(17.2), ppg(0.5), 0, 14700*tvd, 12550*tvd)))/units.PPG, 17.79, 0.005)
}

// TestGasKickSurface: 0.2 sqrt(6000 x 20 x 12/0.05) = 1073.3 psi by hand.
func TestGasKickSurface(t *testing.T) {
	got := must(GasKickSurface(6000*psi, 20*bbl, ppg(12), M2(0.05*bblft)))
	near(t, "pressure", float64(got/psi), 1073.313, 0.001)
}

// TestMAASPInverse: the mud's test pressure and leak-off undo each other.
func TestMAASPInverse(t *testing.T) {
	p := must(TestPressure(1700, 1200, 2000))
	near(t, "leak-off", float64(must(LeakOff(p, 1200, 2000))), 1700, 1e-9)
	near(t, "MAASP is the test pressure", float64(must(MAASP(1700, 1200, 2000))), float64(p), 0)
	if m := must(MAASP(1100, 1200, 2000)); m >= 0 {
		t.Error("a mud that breaks the shoe leaves none")
	}
	a := must(AnticipatedSurface(6000*psi, 10000*tvd, 4000*psi, 5000*tvd, 0.1*psft))
	if !a.ByShoe {
		t.Error("the shoe governs")
	}
	near(t, "by shoe", float64(a.Pressure/psi), 3500, 1e-6)
	near(t, "from bottom", float64(a.FromBottom/psi), 5000, 1e-6)
	for what, err := range map[string]error{
		"leak-off":  fault(LeakOff(1, 1, 0)),
		"Eaton":     fault(Eaton(1, 2, 0.4)),
		"Poisson":   fault(Eaton(2, 1, 0.6)),
		"sticking":  fault(StickingLimit(1, 1, 0)),
		"gas":       fault(GasAtSurface(1, -1, 0)),
		"expansion": fault(Boyle(1, -2*Atmosphere, 0)),
	} {
		refused(t, what, err)
	}
}

func fault[Q any](_ Q, err error) error { return err }

// TestGel: the field forms SGS L/(300 d) psi, 1.67 L/d over the overbalance, and
// 300 OBP d/L, all exact.
func TestGel(t *testing.T) {
	near(t, "drop", float64(must(GelDrop(100*gel, 3000*md, 8.5*in, 5.5*in))/psi), 100*3000/(300*3.0), 1e-9)
	near(t, "factor", float64(must(FlowPotential(3000*md, 8.5*in, 5.5*in, 500*psi))), 500.0/300*3000/3/500, 1e-12)
	near(t, "critical", float64(must(CriticalGel(500*psi, 3000*md, 8.5*in, 5.5*in))/gel), 300*500*3/3000.0, 1e-9)
	for f, band := range map[units.Fraction]string{0: "minor", 3: "minor", 3.0001: "moderate", 8: "moderate", 8.0001: "severe"} {
		if got := FlowBand(f); got != band {
			t.Errorf("%v is %s", f, got)
		}
	}
	refused(t, "no overbalance", fault(FlowPotential(1, 0.3, 0.2, 0)))
	refused(t, "no length", fault(CriticalGel(1, 0, 0.3, 0.2)))
}

// TestBuoyed: the field form w + 0.0408 (W_i ID^2 - W_o OD^2), constant within
// its rounding; full of mud inside and out it is the factor on the body weight.
func TestBuoyed(t *testing.T) {
	tube := Tube{9.625 * in, 8.681 * in}
	got := must(BuoyedWeight(47*ppf, tube, ppg(9), ppg(12)))
	near(t, "field form", float64(got/ppf), 47+0.0408*(9*8.681*8.681-12*9.625*9.625), 0.02)
	body := units.KgPerM(float64(must(tube.Section())) * float64(Steel))
	even := must(BuoyedWeight(body, tube, 1500, 1500))
	near(t, "factor", float64(even/body), float64(must(BuoyancyFactor(1500))), 1e-12)
	refused(t, "heavier than steel", fault(BuoyancyFactor(Steel)))
	refused(t, "inside out", fault(BuoyedWeight(1, Tube{1, 2}, 1, 1)))
	near(t, "hook", float64(must(HookLoad{1, 2, 3, 4}.Total())), 10, 0)
	refused(t, "negative drag", fault(HookLoad{1, 2, -3, 4}.Total()))
}

// TestLift: both heads, and a bridge. 1 m2 outside, 0.8 m2 inside.
func TestLift(t *testing.T) {
	tube := Tube{units.Meters(math.Sqrt(4 / math.Pi)), units.Meters(math.Sqrt(3.2 / math.Pi))}
	l := Lift{Weight: 1e6, Tube: tube, Inside: 2e6, Shoe: 3e6, Surface: 5e5}
	near(t, "screwed", float64(must(l.Net())), 1e6+1.6e6-3e6, 1e-6)
	near(t, "screwed, bridged", float64(must(l.Bridged())), 1e6+1.6e6-2.5e6, 1e-6)
	l.HeadOnRig = true
	near(t, "on the rig", float64(must(l.Net())), 1e6+2.0e6-3e6, 1e-6)
	near(t, "on the rig, bridged", float64(must(l.Bridged())), 1e6+2.0e6-2.5e6, 1e-6)
}

// TestSlips: the crush force of 5 in pipe is its yield over 1.42.
func TestSlips(t *testing.T) {
	tube := Tube{5 * in, 4.276 * in}
	yield := 100000 * psi
	pull := float64(yield) * float64(must(tube.Section()))
	got := must(SlipCrush(yield, tube, 16*in, 4))
	near(t, "ratio", pull/float64(got), math.Sqrt(1+0.625+0.625*0.625), 1e-12)
	refused(t, "no slips", fault(SlipCrush(yield, tube, 0, 4)))
	refused(t, "steep", fault(SlipLateral(1.5, 0.2)))
}

func TestJoints(t *testing.T) {
	for length, want := range map[units.MD]int{0: 0, 400: 10, 400.00001: 10, 400.1: 11, 39: 1} {
		if n := must(Joints(length*md, 40.25*units.Meters(ft), 0.25*units.Meters(ft))); n != want {
			t.Errorf("%v ft: %d joints", length, n)
		}
	}
	refused(t, "all loss", fault(Joints(1, 1, 1)))
	refused(t, "too many", fault(Joints(1e9, 1, 0)))
	refused(t, "no coupling", fault(MakeUpLoss(0, 0)))
}

// TestStretch: the trade's field constants: -207 A dT lbf, 9.625e7 in, and
// Dawson and Paslay by hand.
func TestStretch(t *testing.T) {
	inch2 := M2(units.Inch * units.Inch)
	near(t, "thermal", float64(must(ThermalForce(10*inch2, 100*rankine))/lbf), -207*10*100, 1e-3)
	got := float64(must(OwnStretch(10000*tvd, ppg(10))) / in)
	near(t, "own weight", got, 1e8*(65.44-1.44*10)/9.625e7, 0.002*got)
	near(t, "free point", float64(must(FreeLength(must(Stretch(1e5, 2000, 0.004)), 1e5, 0.004))), 2000, 1e-9)
	tube := Tube{5 * in, 4 * in}
	// I = pi/64 (625 - 256) = 18.113 in4; 2 sqrt(30e6 x 18.113 x 1.5 x sin 60/1.5).
	b := must(BucklingInclined(tube, 18*ppf, 1.5*in, 60*deg))
	near(t, "inclined", float64(b.Sinusoidal/lbf), 2*math.Sqrt(30e6*18.1132*1.5*0.8660254/1.5), 1)
	near(t, "helix", float64(b.Helical/b.Sinusoidal), math.Sqrt2, 1e-12)
	up := must(BucklingVertical(tube, 18*ppf))
	near(t, "vertical", float64(up.Sinusoidal/lbf), 1.94*math.Cbrt(30e6*18.1132*1.5*1.5), 1)
	near(t, "no pull", float64(must(CouplingBending(tube, 0, 12))), 1, 0)
	u := 0.5 * 12 * math.Sqrt(1e6/tube.stiffness())
	near(t, "pulled", float64(must(CouplingBending(tube, 1e6, 12))), u/math.Tanh(u), 1e-12)
	refused(t, "vertical", fault(BucklingInclined(tube, 1, 1, 0)))
	refused(t, "no pull", fault(FreeLength(1, 0, 1)))
}

// TestBallooning: 2 nu (A_i dp - A_o dp_o) with 0.3, areas 0.8 and 1 m2, over a
// height of 1,000 m: means 1.5e6 and 0.5e6 Pa.
func TestBallooning(t *testing.T) {
	tube := Tube{units.Meters(math.Sqrt(4 / math.Pi)), units.Meters(math.Sqrt(3.2 / math.Pi))}
	got := must(Ballooning(tube, 1000, Change{1e6, 1000}, Change{0, 1000}))
	near(t, "force", float64(got), 0.6*(0.8*1.5e6-0.5e6), 1e-6)
	near(t, "effective", float64(must(EffectiveForce(1e5, tube, 1e6, 2e6))), 1e5-0.8e6+2e6, 1e-6)
}
