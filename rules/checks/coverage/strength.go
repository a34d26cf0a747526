package coverage

import (
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

const hour = units.Seconds(3600)

// SlurryBottom is where in the column a slurry begins.
var SlurryBottom = of(rules.Fluid, "coverage.slurry_above_shoe", rules.NumType(units.MDLength),
	"Lowest part of the slurry in the annulus above the shoe of the string, along the hole: zero for the slurry round the shoe. By volumes with enlargement, else by the planned top of the slurry below it. Not for spacers, squeezes and top-ups.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		d, ref, err := w.SlurryBottom(s.String, s.Stage, s.Fluid)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Num(float64(d), units.MDLength, ref)
	})

// StrengthAtWait is the strength of a slurry when its string is drilled out.
var StrengthAtWait = of(rules.Fluid, "coverage.strength_at_wait", rules.NumType(units.Pressure),
	"Compressive strength of the slurry at the wait planned from plug down, linear between laboratory points that stand for its place (the shoe for the last slurry of a stage, the top for those above). Past the last point that point counts.",
	func(w *well.Well, s rules.Subject) rules.Measure {
		l, err := w.SlurryStrengthAtWait(s.String, s.Stage, s.Fluid)
		return strength(l, err, s)
	})

// The strengths of a slurry at the ages laboratories report.
var (
	StrengthDay       = aged("coverage.strength_24h", "24 hours", 24*hour)
	StrengthThreeDays = aged("coverage.strength_72h", "72 hours", 72*hour)
)

func aged(name, words string, age units.Seconds) *rules.Check {
	return of(rules.Fluid, name, rules.NumType(units.Pressure),
		"Compressive strength of the slurry at "+words+", linear between laboratory points that stand for its place (the shoe for the last slurry of a stage, the top for those above). Past the last point that point counts.",
		func(w *well.Well, s rules.Subject) rules.Measure {
			l, err := w.SlurryStrength(s.String, s.Stage, s.Fluid, age)
			return strength(l, err, s)
		})
}

func strength(l well.LabStrength, err error, s rules.Subject) rules.Measure {
	if err != nil {
		return rules.From(err, s.Ref)
	}
	m := rules.Num(float64(l.Strength), units.Pressure, l.Ref, l.Wait, s.Ref)
	if l.Last {
		m = m.With("the last laboratory point counts: none is as old")
	}
	return m
}
