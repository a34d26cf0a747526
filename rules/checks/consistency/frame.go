package consistency

import "spudgate/plan/well"

// Datum is whether every depth counts from a datum the plan places.
var Datum = ofWell("datum", "Each depth given from the ground, the sea bed or the sea level can be turned into one from the rotary by the heights the plan states.", (*well.Well).Datums)

// Setting is whether the plan goes with the setting of the well.
var Setting = ofWell("setting", "Onshore there is no water depth, riser, return to the sea bed or stack on it; stacks stand on the sea bed where the setting says so and at the surface elsewhere.", (*well.Well).SettingFits)

// Dates is whether the plan's dates are in order.
var Dates = ofWell("dates", "The plan is issued before spud, and no document it names is dated after it.", (*well.Well).Dates)

// MudDensity is whether a section's mud has a density mud can have.
var MudDensity = ofSection("mud_density", "Each density of the section is 0.70 to 2.65 SG, with a mud of water or brine at least 0.98 SG. Air, gas, foam, mist and underbalanced drilling aside. Common practice, no source.", (*well.Well).MudDensities)

// FluidDensity is whether a cement fluid has a density one can have.
var FluidDensity = ofFluid("fluid_density", "The density of a slurry or spacer is 0.70 to 2.65 SG, of a foamed one at least 0.30 SG. Common practice, no source.", (*well.Well).FluidDensity)

// OtherDensities is whether the other liquids have densities liquids can have.
var OtherDensities = ofWell("other_densities", "Densities with strings, tests, displacements and the completion are 0.70 to 2.65 SG, foams at least 0.30 SG. Common practice, no source.", (*well.Well).OtherDensities)

// Zeros is whether no nought stands for a number that isn't known.
var Zeros = ofWell("zeros", "No pressure, rating, volume or amount that a job has is stated as 0.", (*well.Well).Zeros)
