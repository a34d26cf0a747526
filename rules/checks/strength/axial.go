package strength

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

const (
	running  = " The string hangs in the lightest mud of its hole; force by pressure and area (Bourgoyne et al., ch. 7)."
	bending  = " Bending E D kappa / 2 over the section is added, on joints too; curvature: the survey's plus that of the basis in planned builds, elsewhere no less than it, none in a hole the plan calls vertical."
	onBody   = " Rating: body yield."
	onJoint  = " Rating: joint strength, or the one stated."
	overpull = "Running with the planned overpull, else the string's own buoyed weight within the two figures of the basis."
	service  = "Tests after the cement has set, stimulation and injection, ends fixed: above the top of cement 2 nu (mean dp_i A_i - mean dp_e A_o) over the free length, below it the local values; cooling left out, since no plan gives the temperature pumped."
	landed   = "Cemented, bled off, float closed, with the landing pull."
	bump     = "Bump of the plug: real columns and surface pressure, closed at the landing collar."
	shock    = "Running stopped at once: speed times sqrt(E rho) over the section; only with a stated speed, peak or 1.5 times average."
)

// RunningBody is tension while running, on the body.
var RunningBody = factor("tension.running_body", "Running."+running+onBody)

// RunningJoint is tension while running, on the joint.
var RunningJoint = factor("tension.running_joint", "Running."+running+onJoint)

// OverpullBody is tension with overpull and bending, on the body.
var OverpullBody = factor("tension.overpull_body", overpull+running+bending+onBody)

// OverpullJoint is tension with overpull and bending, on the joint.
var OverpullJoint = factor("tension.overpull_joint", overpull+running+bending+onJoint)

// ShockBody is tension with shock and bending, on the body.
var ShockBody = factor("tension.shock_body", shock+running+bending+onBody)

// ShockJoint is tension with shock and bending, on the joint.
var ShockJoint = factor("tension.shock_joint", shock+running+bending+onJoint)

// BumpBody is tension at the bump, on the body.
var BumpBody = factor("tension.bump_body", bump+onBody)

// BumpJoint is tension at the bump, on the joint.
var BumpJoint = factor("tension.bump_joint", bump+onJoint)

// LandedBody is tension as landed, on the body.
var LandedBody = factor("tension.landed_body", landed+onBody)

// LandedJoint is tension as landed, on the joint.
var LandedJoint = factor("tension.landed_joint", landed+onJoint)

// ServiceBody is tension in service, on the body.
var ServiceBody = factor("tension.service_body", service+onBody)

// ServiceJoint is tension in service, on the joint.
var ServiceJoint = factor("tension.service_joint", service+onJoint)

// TriaxialLeast is the least triaxial factor.
var TriaxialLeast = factor("triaxial.least", "Yield over the greatest von Mises stress of every known moment of every other case, nominal wall less wear, both walls, both sides of the bend (API TR 5C3)."+bending)

// CompressionWellhead is compression on the string that carries the wellhead.
var CompressionWellhead = &rules.Check{Name: "compression.wellhead", About: rules.String, Type: number,
	Doc: "Body yield over the load at the wellhead on the string that carries it: the worse of drilling (BOP, wellhead, every string hung) and production (tree, wellhead, strings, tubing). A string hangs with the larger of its force as cemented and its buoyed weight; a liner counts with its parent. A conductor that shares takes its part by EA / free length.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		l, err := w.Compression(s.String)
		switch {
		case err != nil:
			return rules.From(err, s.Ref)
		case l.Load <= 0:
			return rules.Measure{Unloaded: "nothing presses on it", Refs: l.Refs}
		}
		return rules.Num(l.Factor, units.None, append(l.Refs, s.Ref)...).Where(w.AtMD(0, "wellhead")).With(l.Note).By(
			expr.Working{Formula: "body_yield / load", Source: "compression at the wellhead", Result: expr.Input{Name: "factor", SI: l.Factor},
				Inputs: []expr.Input{{Name: "body_yield", SI: float64(l.Rating), Dim: units.Force}, {Name: "load", SI: float64(l.Load), Dim: units.Force}}})
	}}

// Straight is whether a free length stays straight in service.
var Straight = &rules.Check{Name: "buckling.none", About: rules.String, Type: truth,
	Doc: "True where no length above the top of cement buckles in service: effective force against Dawson and Paslay (1984); in a vertical hole any effective compression buckles.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		b, err := w.Buckled(s.String)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		text := "effective compression " + units.Show(float64(b.Pressed), units.Force, w.Plan.System, false) +
			", the hole holds it straight to " + units.Show(float64(b.Critical), units.Force, w.Plan.System, false) + "; " + b.Note
		return rules.Truth(b.Straight, s.Ref).Where(b.At).With(text)
	}}

// TrappedAnnulus is whether the annulus outside a string closes and warms.
var TrappedAnnulus = &rules.Check{Name: "annulus.relieved", About: rules.String, Type: truth,
	Doc: "True where the annulus outside the string stays open below or isn't heated. Closed (subsea wellhead or shut valve, top of cement at or above the previous shoe) and heated, its pressure build-up must be analysed: the measure waits for that.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		trapped, why, err := w.Trapped(s.String)
		switch {
		case err != nil:
			return rules.From(err, s.Ref)
		case trapped:
			m := rules.From(well.Lack(s.Ref, "an analysis of annulus pressure build-up outside %s", s.Name), w.Plan.Strings[s.String].TopOfCement.Ref, s.Ref)
			return m.With(why)
		}
		return rules.Truth(true, w.Plan.Strings[s.String].TopOfCement.Ref, s.Ref).With(why)
	}}
