package consistency

import "spudgate/plan/well"

// HasSection is whether a hole is drilled for a string.
var HasSection = ofString("has_section", "A hole section is drilled for the string. Driven, jetted and augered strings, tie-backs, scab liners, strings in the well already and contingent ones need none.", (*well.Well).HasSection)

// InHole is whether a string ends within its hole.
var InHole = ofString("in_hole", "The shoe is no deeper than the hole it is run in, within 1 ft (0.3 m).", (*well.Well).InHole)

// LinerHangs is whether a liner has a string to hang in.
var LinerHangs = ofString("liner_hangs", "A liner's top lies within the string it hangs in: the one it names, else the last run before it.", (*well.Well).LinerHangs)

// Role is whether a string's role goes with its top.
var Role = ofString("role", "Liners begin below the wellhead, other strings at it: no deeper than 15 m below the ground or, offshore, the sea bed. Only liners hang in another string.", (*well.Well).RoleFits)

// Cemented is whether cement is planned only for strings that are cemented.
var Cemented = ofString("cemented", "A string said not to be cemented has no stages and no top of cement.", (*well.Well).CementedFits)

// StringOrder is whether strings are listed from the outside in.
var StringOrder = ofString("string_order", "A string is set no shallower and is no larger than the one listed before it. Tie-backs, scab liners, expandable and contingent strings stand anywhere.", (*well.Well).StringsInOrder)

// SectionEnds is whether hole sections follow one another.
var SectionEnds = ofSection("section_ends", "A section begins where the one above ends, or between the shoe set in that one and its bottom; its own top is above its bottom.", (*well.Well).SectionsMeet)

// SectionOrder is whether hole sections are listed from the top down.
var SectionOrder = ofSection("section_order", "A section ends deeper than the one listed before it.", (*well.Well).SectionsInOrder)

// PressureControl is whether a section and its stack say one thing.
var PressureControl = ofSection("pressure_control", "A section that a stack names isn't drilled without pressure control, and both name the same string beneath.", (*well.Well).PressureControlFits)

// Completion is whether the completion lies within the well.
var Completion = ofWell("completion", "Packer and perforations are no deeper than the well; the perforations' top is above their bottom.", (*well.Well).CompletionFits)
