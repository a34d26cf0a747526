package pipe

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
)

// Form of the 8-round thread, API Spec 5B: height of the sharp thread and
// truncation of its root; and the taper on diameter.
const (
	sharpHeight   = 0.10825 * units.Inch
	rootCut       = 0.017 * units.Inch
	roundTaper    = 0.0625
	buttressDepth = 0.062 * units.Inch
	modulus       = 30e6 * units.Psi // of steel, as in API TR 5C3
)

// from5B is the note of thread dimensions in workings.
const from5B = "API Spec 5B, from memory"

var (
	roundRootEq    = equation{"root", units.Length, true, "pitch - (hand_tight + advance) * taper + sharp - 2 * cut", "API TR 5C3, coupling root diameter at the end of the pin, round thread"}
	buttressRootEq = equation{"root", units.Length, true, "pitch - (perfect + advance) * taper + depth", "API TR 5C3, coupling root diameter at the end of the pin, buttress"}
	couplingAreaEq = equation{"coupling_area", units.Area, false, "pi / 4 * (coupling^2 - root^2)", "API TR 5C3, cross section of the coupling"}
	couplingOldEq  = equation{"coupling_area", units.Area, false, "0.7854 * (coupling^2 - root^2)", "API Bul 5C3, cross section of the coupling"}
	couplingEq     = equation{"coupling_yield", units.Pressure, false, "coupling_yield_strength * (coupling - root) / coupling", "API TR 5C3, internal yield of couplings"}
	leakEq         = equation{"leak_resistance", units.Pressure, false, "30000000 psi * taper * advance * (coupling^2 - pitch^2) / (2 * pitch * coupling^2)", "API TR 5C3, leak resistance at the E1 or E7 plane"}
)

// thread is what rating a coupling needs of either kind of thread.
type thread struct {
	root    equation
	value   float64 // of root
	in      []expr.Input
	pitch   expr.Input
	advance expr.Input // make-up past hand tight: turns times thread pitch
	taper   expr.Input
}

// threadOf is the thread of a size; the caller knows that it is made.
func threadOf(s Size, c Connection) thread {
	if c == BTC {
		b, _ := buttressOf(s)
		return b.thread()
	}
	r, _ := roundOf(s, c)
	return r.thread()
}

func (r round) thread() thread {
	t := thread{root: roundRootEq, value: r.e1 - (r.l1+r.a)*roundTaper + sharpHeight - 2*rootCut}
	t.pitch, t.advance, t.taper = noted(size("pitch", r.e1), from5B), noted(size("advance", r.a), from5B), pure("taper", roundTaper)
	t.in = []expr.Input{t.pitch, noted(size("hand_tight", r.l1), from5B), t.advance, t.taper, size("sharp", sharpHeight), size("cut", rootCut)}
	return t
}

func (b buttress) thread() thread {
	t := thread{root: buttressRootEq, value: b.e7 - (b.l7+b.i)*b.taper + buttressDepth}
	t.pitch, t.advance, t.taper = noted(size("pitch", b.e7), from5B), noted(size("advance", b.i), from5B), pure("taper", b.taper)
	t.in = []expr.Input{t.pitch, noted(size("perfect", b.l7), from5B), t.advance, t.taper, size("depth", buttressDepth)}
	return t
}

// step records the root diameter.
func (th thread) step(t *trail) expr.Input { return t.rounded(th.root, toMil, th.value, th.in...) }

// coupled gathers what the ratings of a connection need, or why there are none.
func coupled(s Size, c Connection, k Coupling) (od float64, why string) {
	if why := made(s, c); why != "" {
		return 0, why
	}
	if couplingOD(s, k) == 0 {
		return 0, "no special clearance coupling in " + units.Size(s.OD) + " in"
	}
	return float64(couplingOD(s, k)), ""
}

// gradeOf is the grade of the coupling.
func (k Coupling) gradeOf(g Grade) Grade {
	if k.Grade != nil {
		return *k.Grade
	}
	return g
}

// RateCouplingYield is the inside pressure at which the coupling yields at its
// root: Yc (W - d1) / W. API TR 5C3. The rating is missing where the connection
// or the coupling isn't made.
func RateCouplingYield(s Size, g Grade, c Connection, k Coupling) (Rating[units.Pascals], error) {
	w, why := coupled(s, c, k)
	if why != "" {
		return missing[units.Pascals](why), nil
	}
	y := float64(k.gradeOf(g).Yield)
	return rate[units.Pascals](func(t *trail) (string, error) {
		root := threadOf(s, c).step(t)
		t.rounded(couplingEq, toTenPsi, y*(w-root.SI)/w, pressure("coupling_yield_strength", y), size("coupling", w), root)
		return "coupling", nil
	})
}

// RateLeak is the inside pressure that opens the thread, the contact pressure of
// make-up: E T N p (W2 - Es2) / (2 Es W2) at the plane of the pitch diameter.
// API TR 5C3. The rating is missing where the connection isn't made.
func RateLeak(s Size, c Connection, k Coupling) (Rating[units.Pascals], error) {
	w, why := coupled(s, c, k)
	if why != "" {
		return missing[units.Pascals](why), nil
	}
	th := threadOf(s, c)
	es := th.pitch.SI
	p := modulus * th.taper.SI * th.advance.SI * (w*w - es*es) / (2 * es * w * w)
	return rate[units.Pascals](func(t *trail) (string, error) {
		t.rounded(leakEq, toTenPsi, p, th.taper, th.advance, size("coupling", w), th.pitch)
		return "leak resistance", nil
	})
}
