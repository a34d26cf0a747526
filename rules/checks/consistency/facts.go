package consistency

import "spudgate/plan/well"

// Hole is whether the hole size is one wherever it is given.
var Hole = ofString("hole", "The hole size given with the string is the bit or the reamed size of its section, within 0.3 mm.", (*well.Well).HoleTwice)

// Shoe is whether the shoe depth is one wherever it is given.
var Shoe = ofString("shoe", "The shoe is where the float or guide shoe among the accessories is, within 1 ft (0.3 m) or its length.", (*well.Well).ShoeTwice)

// TopOfCement is whether the top of cement is one wherever it is given.
var TopOfCement = ofString("top_of_cement", "The top of cement of a string is the highest planned top of its slurries, within 1 ft (0.3 m).", (*well.Well).TopOfCementTwice)

// CementInside is whether cement is planned above the shoe.
var CementInside = ofString("cement_inside", "No top of cement and no planned top of a fluid is below the shoe.", (*well.Well).CementInside)

// Mud is whether the mud is one wherever it is given.
var Mud = ofString("mud", "The mud given with the string lies within the densities of its section, within 0.05 ppg (0.006 SG).", (*well.Well).MudTwice)

// SectionMud is whether the densities of a section are in order.
var SectionMud = ofSection("section_mud", "Lowest, planned and highest density of a section rise; the circulating density is no less than the planned one.", (*well.Well).MudOfSection)

// Collar is whether collars are where the accessories say.
var Collar = ofString("collar", "The float collar of a string is at a float or landing collar among its accessories, the collar of a stage at a stage collar, within 1 ft (0.3 m) or its length.", (*well.Well).CollarTwice)

// Stage is whether a cement job says what its string and section say.
var Stage = ofString("stage", "Bump pressure (within 1 %) and wait of a string are those of one of its stages; excess and basis of volume of a stage are those of its hole section.", (*well.Well).StageTwice)

// Centralizers is whether centralizers add up.
var Centralizers = ofString("centralizers", "The number of centralizers planned is the sum of the rows.", (*well.Well).CentralizersTwice)
