package consistency

import "spudgate/plan/well"

// Volume is whether a slurry's volume is its sacks times its yield.
var Volume = ofFluid("volume", "The volume of a fluid is its sacks times its yield, within 2 % or one barrel (0.16 m3). Common practice, no source.", (*well.Well).VolumeTwice)

// SlurryOrder is whether slurries are placed in the order pumped.
var SlurryOrder = ofStage("slurry_order", "The planned top of a slurry isn't above that of one pumped before it in the stage.", (*well.Well).TopsInOrder)

// CementRepeated is whether no cement is entered twice.
var CementRepeated = ofString("cement_repeated", "No two slurries of a stage, no two stages of a string and no stage and one of the string listed before are alike in amount, density and planned top.", (*well.Well).CementRepeated)

// ShoeTest is whether a shoe test's numbers make one another.
var ShoeTest = ofTest("shoe_test", "The equivalent density of a shoe test is fluid + pressure / (g TVD of the shoe), within 0.1 ppg (0.012 SG).", (*well.Well).ShoeTestTwice)

// BOPTest is whether a BOP test is one wherever it is given.
var BOPTest = ofTest("bop_test", "The pressure of a BOP test among the tests is the test pressure of a stack on the same string, within 1 %.", (*well.Well).BOPTestTwice)

// TestFluid is whether a test's fluid is one the well has then.
var TestFluid = ofTest("test_fluid", "The fluid of a casing or shoe test lies within the muds of the string's hole and the next, and its displacement fluids; a casing test may be on water.", (*well.Well).TestFluidFits)
