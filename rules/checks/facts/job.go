package facts

import (
	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/rules"
)

// TestKind is what a test row tests.
var TestKind = stated("test.kind", rules.Test, "What is tested: casing, shoe, liner_lap, bop, annular, inflow, seal; as stated.", "what the test is of", "",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		return p.Tests[s.Test].Kind, p.Tests[s.Test].Ref
	})

// TestWhen is when a test is made.
var TestWhen = stated("test.when", rules.Test, "When it's made: bump, green, set, after_drill_out; set where the plan is silent.", "", "set",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		return p.Tests[s.Test].When, p.Tests[s.Test].Ref
	})

// StageKind is how a cement stage is pumped.
var StageKind = stated("stage.kind", rules.Stage, "How the stage is pumped: primary, second_stage, inner_string, top_up, squeeze, foam; primary where the plan is silent.", "", "primary",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		st := &p.Strings[s.String].Stages[s.Stage]
		return st.Kind, st.Ref
	})

// FluidKind is what a fluid of a stage is.
var FluidKind = stated("fluid.kind", rules.Fluid, "What the fluid is: spacer, preflush, lead, tail, slurry, scavenger; as stated.", "what the fluid is", "",
	func(p *plan.Plan, s rules.Subject) (plan.Val[string], place.Ref) {
		f := &p.Strings[s.String].Stages[s.Stage].Fluids[s.Fluid]
		return f.Kind, f.Ref
	})
