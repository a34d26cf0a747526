// Package well works out what follows from a plan: depths, pressures, hole and
// string geometry, loads, volumes. Each result is worked out once, when first
// asked for, keyed by name and arguments. It knows no limit and no verdict.
package well

import (
	"fmt"
	"strings"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Assumptions are the conventions of the design basis that the physics needs.
type Assumptions struct {
	CollapseEdition string  // 2015 or historical
	BurstBackup     string  // pore_least, pore_local, mix_water, mud
	GasColumn       string  // worse, gradient, real
	GasGradient     float64 // Pa/m
	GasGravity      float64
	FractureMargin  units.KgPerM3 // over fracture pressure at a shoe
	SurfaceTemp     units.Kelvins
	TempGradient    float64 // K/m
	LossGradient    float64 // Pa/m
	OverpullMost    units.Newtons
	OverpullLeast   units.Newtons
	ExtraCurvature  units.RadPerM
	DragDeviated    units.Fraction
	ExcessSurface   units.Fraction
	ExcessMiddle    units.Fraction
	ExcessDeep      units.Fraction
	KickIntensity   units.KgPerM3
	KickLarge       units.CubicMeters // design kick in 12-1/4 in holes and larger
	KickSmall       units.CubicMeters // and below
	KickMargin      units.KgPerM3
	TensionBasis    string // buoyed or hand
}

// Well is a plan with what follows from it. It isn't safe for concurrent use:
// an audit has one of its own.
type Well struct {
	Plan   *plan.Plan
	Assume Assumptions
	memo   map[any]any
}

// New makes a well of a plan. Nothing is worked out yet.
func New(p *plan.Plan, a Assumptions) *Well {
	return &Well{Plan: p, Assume: a, memo: map[any]any{}}
}

// Missing is the error of a result that lacks inputs.
type Missing []expr.Lack

func (m Missing) Error() string {
	names := make([]string, len(m))
	for i, l := range m {
		names[i] = l.Input
	}
	return "missing: " + strings.Join(names, "; ")
}

// Lack is the error of one missing input; ref is where it would stand.
func Lack(ref place.Ref, format string, args ...any) error {
	return Missing{{Input: fmt.Sprintf(format, args...), Ref: ref}}
}

// Absent is the error of asking for something the plan doesn't have and needs
// none of; it says why.
type Absent string

func (a Absent) Error() string { return string(a) }

// At is a place in the well.
type At struct {
	MD  plan.Val[units.MD] // a Ref of 1 marks a depth that was worked out
	TVD plan.Val[units.TVD]
	Why string
}

// worked marks a value as known though it stands nowhere in the plan.
const worked place.Ref = 1

// AtTVD is a place given by its true vertical depth.
func AtTVD(z units.TVD, why string) At {
	return At{TVD: plan.Val[units.TVD]{V: z, Ref: worked}, Why: why}
}

// AtMD is a place given by its depth along the hole, with its true vertical
// depth where the well knows it.
func (w *Well) AtMD(md units.MD, why string) At {
	at := At{MD: plan.Val[units.MD]{V: md, Ref: worked}, Why: why}
	if z, err := w.TVD(md); err == nil {
		at.TVD = plan.Val[units.TVD]{V: z, Ref: worked}
	}
	return at
}

// once works f out the first time key is asked for and keeps it, error and
// all. Keys are small structs of their own types, so that no two results mix.
func once[T any](w *Well, key any, f func() (T, error)) (T, error) {
	type kept struct {
		v   T
		err error
	}
	if k, ok := w.memo[key]; ok {
		r := k.(kept)
		return r.v, r.err
	}
	v, err := f()
	w.memo[key] = kept{v, err}
	return v, err
}
