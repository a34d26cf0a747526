package consistency

import "spudgate/plan/well"

// MainNames is whether strings and hole sections have names of their own.
var MainNames = ofWell("main_names", "Names of strings and of hole sections, case and spaces folded, are each used once.", (*well.Well).MainNames)

// OtherNames is whether formations, tests and stacks have names of their own.
var OtherNames = ofWell("other_names", "Stated names of formations, of tests and of stacks are each used once.", (*well.Well).OtherNames)

// ListNames is whether the lists of the plan name strings that exist.
var ListNames = ofWell("list_names", "Strings that the wellhead, barriers, approved baseline and claims name are in the plan.", (*well.Well).ListNames)

// SectionNames is whether a hole section names strings that exist.
var SectionNames = ofSection("section_names", "The string set in the section and the one its pressure control stands on are in the plan.", (*well.Well).SectionNames)

// StringNames is whether a string names a section and a string that exist.
var StringNames = ofString("string_names", "The hole section a string is run in and the string it hangs in are in the plan.", (*well.Well).StringNames)

// TestNames is whether a test names a string that exists.
var TestNames = ofTest("test_names", "The string a test acts on is in the plan.", (*well.Well).TestNames)

// BOPNames is whether a stack names a string and a section that exist.
var BOPNames = ofBOP("bop_names", "The string a stack stands on and the section it serves are in the plan.", (*well.Well).BOPNames)
