package consistency

import "spudgate/plan/well"

// TVDOverMD is whether no vertical depth is over its depth along the hole.
var TVDOverMD = ofWell("tvd_over_md", "No stated true vertical depth is over its depth along the hole by more than 1 ft (0.3 m), and none grows faster than it by more than the rounding of 1 ft (0.5 m).", (*well.Well).TVDOverMD)

// TVDTwice is whether stated vertical depths agree with the survey.
var TVDTwice = ofSurvey("tvd_twice", "Each stated true vertical depth is the survey's, or the depth along the hole where the well is vertical, within 1 ft (0.5 m); two stated at one depth are equal.", (*well.Well).TVDTwice)

// Vertical is whether a vertical well's survey is vertical.
var Vertical = ofSurvey("vertical", "No station of a well said to be vertical has an inclination over 5 degrees. Common practice, no source.", (*well.Well).VerticalFits)

// SurveyOrder is whether the survey describes a hole.
var SurveyOrder = ofSurvey("survey_order", "Depths of stations increase and make a hole by minimum curvature.", (*well.Well).SurveyInOrder)

// SurveyReach is whether the survey ends where the well ends.
var SurveyReach = ofSurvey("survey_reach", "The last station is at the deepest bottom of hole or shoe, within 1 ft (0.3 m).", (*well.Well).SurveyReaches)

// FormationOrder is whether formations are listed from the top down.
var FormationOrder = ofWell("formation_order", "Tops go down the list, and each base is below its top.", (*well.Well).FormationsInOrder)

// FormationOverlap is whether formations follow one another.
var FormationOverlap = ofWell("formation_overlap", "No base is below the next top.", (*well.Well).FormationsApart)

// PressureRows is whether the pressures of a row are in order.
var PressureRows = ofWell("pressure_rows", "In each row low, base and high estimates rise, and pore pressure is no more than fracture pressure. Values written in different ways are compared as pressures at the row's depth.", (*well.Well).PressureRows)

// Overburden is whether pressures stay under the overburden.
var Overburden = ofWell("overburden", "In each row pore and fracture pressure are no more than the overburden; a breakdown pressure may be.", (*well.Well).Overburdens)

// Reservoir is whether the reservoir pressure goes with the pore pressures.
var Reservoir = ofWell("reservoir", "The reservoir pressure stated for the well lies within a tenth of the pore pressures, low to high, at the tops and bases of its zones that can flow oil or gas (common practice, no source).", (*well.Well).ReservoirTwice)

// TableOrder is whether the rows of tables over depth go down.
var TableOrder = ofWell("table_order", "Rows of the pressures and of the temperatures go down; two at one depth are a step.", (*well.Well).TablesInOrder)

// TemperatureRise is whether the ground gets warmer downwards.
var TemperatureRise = ofWell("temperature_rise", "Static temperature doesn't fall with depth below the ground or the sea bed.", (*well.Well).TemperaturesRise)
