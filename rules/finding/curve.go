package finding

import (
	"fmt"
	"math"
	"strconv"
)

// Drawings is what the drawings of a well show. A part the plan gives nothing
// for is nil or empty.
type Drawings struct {
	Path      []Depth       `json:"path,omitempty"` // MD against TVD, from the top down, joined linearly
	Schematic *Schematic    `json:"schematic,omitempty"`
	Window    *Window       `json:"window,omitempty"`
	Loads     []StringLoads `json:"loads,omitempty"`
	Placement []Placement   `json:"placement,omitempty"`
}

// Number is a plain SI number of a drawing. It is written with 12 significant
// digits.
type Number float64

// MarshalJSON fails on a number that is none.
func (n Number) MarshalJSON() ([]byte, error) {
	x := float64(n)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, fmt.Errorf("a drawing holds a number that is none")
	}
	return strconv.AppendFloat(nil, x, 'g', 12, 64), nil
}

// Depth is a place of the well, m below the depth reference; TVD is nil where
// nothing tells it.
type Depth struct {
	MD  Number  `json:"md"`
	TVD *Number `json:"tvd,omitempty"`
}

// Schematic is the well as built: all depths along the hole, sizes in m.
type Schematic struct {
	Strings    []DrawnString    `json:"strings,omitempty"`
	Holes      []DrawnHole      `json:"holes,omitempty"`
	Formations []DrawnFormation `json:"formations,omitempty"`
	Marks      []Mark           `json:"marks,omitempty"` // what belongs to no string
}

// DrawnString is one string, from its top to its shoe.
type DrawnString struct {
	Name   string      `json:"name"`
	Liner  bool        `json:"liner,omitempty"`
	Top    Depth       `json:"top"`
	Shoe   Depth       `json:"shoe"`
	Pipes  []DrawnPipe `json:"pipes"`
	Cement []Band      `json:"cement,omitempty"` // outside the string
	Marks  []Mark      `json:"marks,omitempty"`  // collars, packers, hangers
	Lacks  string      `json:"lacks,omitempty"`  // why its cement isn't drawn
}

// DrawnPipe is a length of one pipe.
type DrawnPipe struct {
	From  Number `json:"from"`
	To    Number `json:"to"`
	OD    Number `json:"od"`
	ID    Number `json:"id"`
	Label string `json:"label"`
}

// Band is a filled length of an annulus between two diameters.
type Band struct {
	From  Number `json:"from"`
	To    Number `json:"to"`
	Outer Number `json:"outer"`
	Inner Number `json:"inner"`
}

// DrawnHole is one hole section.
type DrawnHole struct {
	Name     string `json:"name"`
	From     Depth  `json:"from"`
	To       Depth  `json:"to"`
	Diameter Number `json:"diameter"`
}

// DrawnFormation is a formation and what it holds.
type DrawnFormation struct {
	Name     string `json:"name"`
	Contents string `json:"contents,omitempty"`
	Top      Depth  `json:"top"`
	Base     Depth  `json:"base"`
}

// Mark is something at one depth.
type Mark struct {
	Kind string `json:"kind"` // as the plan's form calls it
	Name string `json:"name"`
	At   Depth  `json:"at"`
}

// Window is the pressures of the ground against the mud, all as equivalent mud
// weights in kg/m3 over true vertical depth in m.
type Window struct {
	Curves []Curve    `json:"curves"`
	Holes  []MudRange `json:"holes,omitempty"`
	Shoes  []ShoeMark `json:"shoes,omitempty"`
}

// Curve is one pressure of the ground over depth.
type Curve struct {
	Of       string   `json:"of"`       // pore pressure, fracture pressure, overburden
	Estimate string   `json:"estimate"` // base, low, high
	TVD      []Number `json:"tvd"`
	EMW      []Number `json:"emw"`
}

// MudRange is the lightest and the heaviest mud of an open hole.
type MudRange struct {
	Name string `json:"name"`
	From Number `json:"from"`
	To   Number `json:"to"`
	Min  Number `json:"min"`
	Max  Number `json:"max"`
}

// ShoeMark is a shoe and the strongest test planned at it.
type ShoeMark struct {
	Name string  `json:"name"`
	At   Depth   `json:"at"`
	Test *Number `json:"test,omitempty"` // equivalent mud weight
}

// StringLoads is every load case of one string along it.
type StringLoads struct {
	Name     string     `json:"name"`
	Top      Depth      `json:"top"`
	Shoe     Depth      `json:"shoe"`
	Cases    []CaseLoad `json:"cases"`
	Triaxial *Ellipse   `json:"triaxial,omitempty"`
}

// CaseLoad is one load case along a string in the moment that governs. The
// columns have one row for each judged place, from the top down; load and
// rating are Pa, of a tension case N.
type CaseLoad struct {
	Case     string   `json:"case"`
	Title    string   `json:"title"`
	Kind     string   `json:"kind"` // burst, collapse, tension, triaxial
	Required *Number  `json:"required,omitempty"`
	NotMet   bool     `json:"not_met,omitempty"`
	Least    Number   `json:"least"` // the least factor
	MD       []Number `json:"md"`
	TVD      []Number `json:"tvd"`
	Load     []Number `json:"load"`
	Rating   []Number `json:"rating"` // 0 where nothing loads the place
	Used     []Number `json:"used"`   // load x required factor / rating; required 1 where none is
}

// Ellipse is the yield of one pipe at its inner wall: with f the force,
// p the pressure inside less outside, Area that of the steel, and Hoop the
// hoop stress of a unit p there, it is
// (f/Area)^2 - (f/Area)(Hoop p) + (Hoop p)^2 = Yield^2.
type Ellipse struct {
	Pipe     string         `json:"pipe"`
	Area     Number         `json:"area"`  // m2
	Hoop     Number         `json:"hoop"`  // stress over pressure
	Yield    Number         `json:"yield"` // Pa, the lowest of the points
	Required *Number        `json:"required,omitempty"`
	NotMet   bool           `json:"not_met,omitempty"`
	Points   []EllipsePoint `json:"points"`
}

// EllipsePoint is the place of a case nearest to yield.
type EllipsePoint struct {
	Case     string `json:"case"`
	Force    Number `json:"force"`    // N: axial, with bending, and the pressure inside on the steel
	Pressure Number `json:"pressure"` // Pa, inside less outside
	Factor   Number `json:"factor"`   // of both walls and both sides of the bend
	At       Depth  `json:"at"`
}
