package well

// loadCases are the cases of the design, in the order they are reported.
func loadCases() []loadCase {
	return []loadCase{
		{"burst.gas_to_surface", Burst, (*Well).gasToSurface, false},
		{"burst.limited_kick", Burst, (*Well).kicked, false},
		{"burst.lost_returns", Burst, (*Well).lostReturns, false},
		{"burst.pressure_test", Burst, (*Well).tested, false},
		{"burst.plug_bump", Burst, (*Well).bumped, false},
		{"burst.tubing_leak", Burst, (*Well).tubingLeak, false},
		{"burst.stimulation", Burst, (*Well).stimulated, false},
		{"burst.injection", Burst, (*Well).injected, false},
		{"burst.shoe_test", Burst, (*Well).shoeTests, false},
		{"burst.gas_lift", Burst, (*Well).gasLifted, false},
		{"burst.annulus_pressure", Burst, (*Well).annulusHeld, false},
		{"collapse.full_evacuation", Collapse, (*Well).evacuated, false},
		{"collapse.mud_drop", Collapse, (*Well).mudDrops, false},
		{"collapse.end_of_cementing", Collapse, (*Well).cementedUp, false},
		{"collapse.production", Collapse, (*Well).produced, false},
		{"collapse.mobile_formation", Collapse, (*Well).squeezed, false},
		{"collapse.running", Collapse, (*Well).ran, false},
		{"collapse.inflow", Collapse, (*Well).inflow, false},
		{"collapse.annulus_pressure", Collapse, (*Well).annulusOutside, false},
		{"tension.running_body", Body, (*Well).running, false},
		{"tension.running_joint", Joint, (*Well).running, false},
		{"tension.overpull_body", Body, (*Well).overpulled, true},
		{"tension.overpull_joint", Joint, (*Well).overpulled, true},
		{"tension.shock_body", Body, (*Well).shocked, true},
		{"tension.shock_joint", Joint, (*Well).shocked, true},
		{"tension.bump_body", Body, (*Well).bumped, false},
		{"tension.bump_joint", Joint, (*Well).bumped, false},
		{"tension.landed_body", Body, (*Well).landed, false},
		{"tension.landed_joint", Joint, (*Well).landed, false},
		{"tension.service_body", Body, (*Well).serviced, false},
		{"tension.service_joint", Joint, (*Well).serviced, false},
		{"triaxial.least", Triaxial, (*Well).everything, true},
	}
}

// caseNamed is a case by name; nil where none is called so.
func caseNamed(name string) *loadCase {
	for _, c := range loadCases() {
		if c.name == name {
			return &c
		}
	}
	return nil
}
