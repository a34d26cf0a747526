package fluid

import (
	"math"

	"spudgate/plan/units"
)

// Units of the rows.
const (
	in   = units.Meters(units.Inch)
	ft   = units.Foot
	md   = units.MD(units.Foot)
	tvd  = units.TVD(units.Foot)
	psi  = units.Pascals(units.Psi)
	gpm  = units.M3PerS(units.Barrel / 42 / 60)
	bbl  = units.CubicMeters(units.Barrel)
	ft3  = units.CubicMeters(units.CuFt)
	gal  = units.Barrel / 42
	lb   = units.Kilograms(units.Pound)
	lbf  = units.Newtons(units.Lbf)
	sk   = units.Kilograms(units.Sack)
	ppf  = units.KgPerM(units.Pound / units.Foot)
	yld  = units.M3PerKg(units.CuFt / units.Sack) // ft3/sk
	deg  = units.Radians(units.Degree)
	fps  = units.MPerS(units.Foot)
	psft = PaPerM(units.Psi / units.Foot)
	gel  = units.Pascals(units.Lbf / (100 * units.Foot * units.Foot)) // lbf/100 ft2
)

// ppg is a density; handbook is the density whose gradient is 0.052 psi/ft for
// each ppg, which is how the handbooks reckon.
func ppg(x float64) units.KgPerM3      { return units.KgPerM3(x * units.PPG) }
func handbook(x float64) units.KgPerM3 { return gradient(0.052 * x) }

// gradient is the density of a gradient in psi/ft.
func gradient(x float64) units.KgPerM3 { return units.KgPerM3(x * float64(psft) / units.G) }

// inHandbook shows a density in the handbooks' ppg.
func inHandbook(rho units.KgPerM3) float64 { return float64(rho / handbook(1)) }

// must is the value of a formula; an error fails the comparison.
func must[Q any](q Q, err error) Q {
	if err != nil {
		panic(err)
	}
	return q
}

// of turns values into the function of a row.
func of[Q ~float64](q func() Q, unit float64) func() float64 {
	return func() float64 { return float64(q()) / unit }
}

// bore is the diameter of a capacity in ft3/ft.
func bore(cap float64) units.Meters {
	return units.Meters(math.Sqrt(4 / math.Pi * cap * units.CuFt / units.Foot))
}

// space is a one-interval annulus.
func space(from, to float64, outer, inner units.Meters, excess units.Fraction) *Annulus {
	return must(NewAnnulus([]Interval{{units.MD(from) * md, units.MD(to) * md, outer, inner, excess}}))
}

func volume(from, to float64, outer, inner units.Meters, excess units.Fraction) func() units.CubicMeters {
	return func() units.CubicMeters {
		return must(space(from, to, outer, inner, excess).Volume(units.MD(from)*md, units.MD(to)*md))
	}
}

func capOf(outer, inner units.Meters) func() M2 {
	return func() M2 { return must(Capacity(outer, inner)) }
}

// head is the pressure at the bottom of layers given by height in ft and
// density.
func head(surface units.Pascals, layers ...Layer) units.Pascals {
	c := must(NewColumn(surface, layers...))
	_, to := c.Range()
	return must(c.Pressure(to))
}

func layer(from, to float64, rho units.KgPerM3) Layer {
	return Layer{units.TVD(from) * tvd, units.TVD(to) * tvd, rho}
}

func column(height float64, rho units.KgPerM3) func() units.Pascals {
	return func() units.Pascals { return head(0, layer(0, height, rho)) }
}

const (
	ft3ft = units.CuFt / units.Foot
	bblft = units.Barrel / units.Foot
	ppsi  = units.Psi
	ukip  = 1000 * units.Lbf
	fpm   = units.Foot / 60
)

func merge(maps ...map[string]value) map[string]value {
	out := map[string]value{}
	for _, m := range maps {
		for k, v := range m {
			out[k] = v
		}
	}
	return out
}

// published is how each row is reproduced.
func published() map[string]value {
	return merge(volumeRows(), slurryRows(), columnRows(), frictionRows(), leakOffRows(), kickRows(), handlingRows(), stretchRows(), surgeRows(), gasRows())
}

func volumeRows() map[string]value {
	return map[string]value{
		"V01": {ours: of(capOf(7.875*in, 5.5*in), ft3ft)},
		"V04": {ours: of(volume(0, 30, bore(0.4256), 0, 0), units.CuFt)},
		"V05": {ours: of(volume(0, 1400, bore(0.3132), 0, 0.35), units.CuFt)},
		"V06": {ours: func() float64 {
			return float64(volume(0, 30, bore(0.4256), 0, 0)()+volume(0, 1400, bore(0.3132), 0, 0.35)()) / units.CuFt
		}},
		"V10": {ours: of(capOf(8.681*in, 7*in), ft3ft)},
		"V12": {ours: of(capOf(6.094*in, 0), ft3ft), why: "0.005454 for pi/576", as: func() float64 { return 0.005454 * 6.094 * 6.094 }},
		"V13": {ours: of(capOf(6.094*in, 0), bblft)},
		"V14": {ours: of(volume(1000, 2670, bore(0.1438), 0, 0), units.CuFt), why: "240.146 rounded up", as: func() float64 {
			return math.Ceil(10*float64(volume(1000, 2670, bore(0.1438), 0, 0)())/units.CuFt) / 10
		}},
		"V15": {ours: of(volume(2670, 4600, bore(0.1268), 0, 0), units.CuFt)},
		"V16": {ours: of(capOf(12.25*in, 0), bblft)},
		"V18": {ours: of(capOf(8.921*in, 0), bblft), right: "0.0773"},
		"V19": {ours: of(capOf(8.6*in, 7*in), bblft)},
		"V20": {ours: of(capOf(12.25*in, 9.625*in), bblft)},
		"V21": {ours: of(volume(0, 3500, 12.25*in, 9.625*in, 0.25), units.Barrel), why: "the capacity rounded to 0.0558", as: of(volume(0, 3500, bore(0.0558*bblft/ft3ft), 0, 0.25), units.Barrel)},
		"V22": {ours: of(func() units.CubicMeters {
			return must(must(NewAnnulus([]Interval{{0, 100, 0.4445, 0.339725, 0}})).Volume(0, 100))
		}, 1)},
		"V24": {ours: of(func() units.CubicMeters {
			return must(must(NewAnnulus([]Interval{{0, 2000, 0.2159, 0.1397, 0}})).Volume(0, 2000))
		}, 1)},
		"V37": {ours: of(capOf(17.5*in, 13.375*in), ft3ft)},
		"V41": {ours: of(volume(0, 2956, 12.615*in, 0, 0), units.Barrel), why: "the capacity rounded to 0.1545", as: of(volume(0, 2956, bore(0.1545*bblft/ft3ft), 0, 0), units.Barrel)},
		// 500 sk of 1.15 ft3/sk, 100 ft left in casing of 0.8679 ft3/ft, 50 % excess
		// on 0.6946 ft3/ft: the inputs of the handbook from memory.
		"V43": {ours: func() float64 {
			v := must(SlurryVolume(500*sk, 1.15*yld)) - volume(0, 100, bore(0.8679), 0, 0)()
			return float64(must(space(0, 3000, bore(0.6946), 0, 0.5).TopFromVolume(v, 3000*md)).MD) / ft
		}},
	}
}

func sacks(volume, yield float64) func() float64 {
	return func() float64 {
		return float64(must(Blend(units.CubicMeters(volume)*ft3, units.M3PerKg(yield)*yld)) / sk)
	}
}

// recipe is one sack of Class A (94 lb, SG 3.14), bentonite and water, with the
// source's 8.33 ppg of water.
func recipe(bentonite, water float64) Mixture {
	return must(Mix(Part{94 * lb, ppg(3.14 * 8.33)}, Part{units.Kilograms(bentonite) * lb, ppg(2.65 * 8.33)}, Part{units.Kilograms(water*8.33) * lb, ppg(8.33)}))
}

func slurryRows() map[string]value {
	weight := func(per float64) func() float64 { // hematite, water 0.34 gal for each per lb
		neat := must(Mix(Part{94 * lb, ppg(3.14 * 8.33)}, Part{4.3 * 8.33 * lb, ppg(8.33)}))
		return func() float64 {
			return float64(must(WeightFor(neat, ppg(17.5), ppg(5.02*8.33), units.M3PerKg(0.34*gal/per/units.Pound), ppg(8.33))) / lb)
		}
	}
	whole := func(volume, yield float64) float64 {
		return float64(must(WholeSacks(must(Blend(units.CubicMeters(volume)*ft3, units.M3PerKg(yield)*yld)), sk)))
	}
	return map[string]value{
		"V03": {ours: sacks(173, 1.18)},
		"V07": {ours: func() float64 { return whole(604.72, 1.536) }},
		"V08": {ours: func() float64 { return 0.04 * whole(604.72, 1.536) * float64(sk/lb) }, why: "1481.4 rounded up",
			as: func() float64 { return math.Ceil(0.04 * whole(604.72, 1.536) * float64(sk/lb)) }},
		"V09": {ours: func() float64 { return whole(604.72, 1.536) * float64(sk/lb) }},
		"V25": {ours: func() float64 { return float64(recipe(3.76, 7.7).Volume) / gal }},
		"V34": {ours: func() float64 {
			return float64(Mixture{172.263 * lb, units.CubicMeters(10.391 * gal)}.Density()) / units.PPG
		}, right: "16.58"},
		"V36": {ours: weight(100)},
		"V38": {ours: func() float64 { return float64(must(Blend(volume(0, 2000, bore(0.6946), 0, 0.5)(), 1.59*yld)) / sk) }},
		"V39": {ours: func() float64 { return float64(must(Blend(volume(0, 1000, bore(0.6946), 0, 0.5)(), 1.15*yld)) / sk) }},
	}
}

func columnRows() map[string]value {
	// Class A job of the handbook, from memory: 8,000 ft, mud 10 ppg, 2,000 ft of
	// 13.8 ppg over 1,000 ft of 15.8 ppg, float collar 44 ft up.
	tube := func() units.Pascals {
		out := must(NewColumn(0, layer(0, 5000, handbook(10)), layer(5000, 7000, handbook(13.8)), layer(7000, 8000, handbook(15.8))))
		in := must(NewColumn(0, layer(0, 7956, handbook(10)), layer(7956, 8000, handbook(15.8))))
		return must(Difference(out, in, 8000*tvd))
	}
	bump := func() units.Pascals {
		out := must(NewColumn(0, layer(0, 7000, handbook(10.5)), layer(7000, 7300, handbook(8.5)), layer(7300, 9000, handbook(12.7)), layer(9000, 10000, handbook(16.7))))
		in := must(NewColumn(0, layer(0, 10000, handbook(9))))
		return must(BumpPressure(must(Difference(out, in, 10000*tvd)), 0, 0))
	}
	slug := func() float64 { return float64(must(Slug(ppg(12.2), ppg(13.2), 184*tvd)) / tvd) }
	return map[string]value{
		"H01": {ours: of(column(12000, handbook(13.5)), ppsi)},
		"H02": {ours: of(column(8500, gradient(0.624)), ppsi)},
		"H03": {ours: of(column(7500, gradient(90.0/144)), ppsi)},
		"H04": {ours: of(column(3700*3.281, handbook(12.2)), ppsi)},
		"H07": {ours: of(tube, ppsi)},
		"H10": {ours: of(bump, ppsi)},
		"H12": {ours: func() float64 { return inHandbook(must(LeakOff(832*psi, handbook(10), 4000*tvd))) }},
		"H14": {ours: of(column(18304, ppg(14)), ppsi), right: "13312"},
		"H15": {ours: of(column(184, handbook(12.2)), ppsi)},
		"H16": {ours: slug, why: "from the head rounded to 117 psi", as: func() float64 { return 117 / 0.052 }},
		"H17": {ours: func() float64 { return slug() * 0.01422 }},
		"H18": {ours: of(column(200, handbook(12)), ppsi)},
	}
}
