package consistency

import "spudgate/plan/well"

// Segments is whether the pipe of a string has no gap and no overlap.
var Segments = ofString("segments", "Segments follow one another from the top of the string to its shoe, ends that meet within 1 ft (0.3 m) meeting. An end left out is where the next begins.", (*well.Well).SegmentsMeet)

// Span is whether a string's top is above its shoe.
var Span = ofString("span", "The top of a string is above its shoe.", (*well.Well).Span)

// Placed is whether what is placed along a string lies within it.
var Placed = ofString("placed", "Float collar, accessories, centralizers and stage collars lie between top and shoe of their string. Hangers and wear bushings stand in the wellhead and are left out.", (*well.Well).InsideString)

// Pipe is whether size, grade and connection of a segment are known.
var Pipe = ofSegment("pipe", "Size and weight are in the catalogue or a wall is stated; the grade is an API one, or its yield strength or its ratings are stated; the connection is an API one or its joint strength is stated. Grades and connections of conductors are left out.", (*well.Well).PipeKnown)

// Wall is whether weight and wall of a segment are of one pipe.
var Wall = ofSegment("wall", "The stated wall is the listed one of the stated weight within 1 %; for pipe not listed the weight lies from 1 % under to 10 % over the plain-end weight of the wall.", (*well.Well).WeightAndWall)

// Columns is whether the numbers of a segment stand in their columns.
var Columns = ofSegment("columns", "OD of 2 to 60 in, and a weight that pipe of that OD can have: a wall of at least 1/200 of the OD and at most 0.7 of a solid bar. Common practice, no source.", (*well.Well).Columns)
