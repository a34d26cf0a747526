// Package units holds physical dimensions, the trade's units, typed SI
// quantities and the reading of quantities as the trade writes them
// ("13-3/8 in", "12.3 ppg", "9,850 ft").
//
// Everything inside the program is SI; conversions are exact by definition.
package units

import (
	"fmt"
	"strings"
)

// G is the standard acceleration of gravity, m/s2 (exact, CGPM 1901).
const G = 9.80665

// Line tells along-hole depths and true vertical depths apart. Both are
// lengths, but adding or comparing one with the other is the classic mistake
// of the trade, so a dimension carries the difference.
type Line uint8

// The kinds of length. Plain fits with either of the other two; MD and TVD
// never fit with each other.
const (
	Plain Line = iota
	Along      // measured along the hole (MD)
	Down       // true vertical (TVD)
)

// Dim is a physical dimension: exponents of the base quantities, and for a
// length which line it was measured on. The zero Dim is a pure number.
//
// A trade sack counts as its 94 lb mass, an angle as a base of its own so that
// an inclination can't be taken for a ratio.
type Dim struct {
	Mass, Length, Time, Temp, Angle int8
	Line                            Line
}

// The dimensions the trade uses.
var (
	None        = Dim{}
	Length      = Dim{Length: 1}
	MDLength    = Dim{Length: 1, Line: Along}
	TVDLength   = Dim{Length: 1, Line: Down}
	Area        = Dim{Length: 2}
	Volume      = Dim{Length: 3}
	Mass        = Dim{Mass: 1}
	Time        = Dim{Time: 1}
	Pressure    = Dim{Mass: 1, Length: -1, Time: -2}
	Gradient    = Dim{Mass: 1, Length: -2, Time: -2}
	Density     = Dim{Mass: 1, Length: -3}
	Force       = Dim{Mass: 1, Length: 1, Time: -2}
	Torque      = Dim{Mass: 1, Length: 2, Time: -2}
	LinearMass  = Dim{Mass: 1, Length: -1}
	Speed       = Dim{Length: 1, Time: -1}
	Accel       = Dim{Length: 1, Time: -2}
	Rate        = Dim{Length: 3, Time: -1}
	Yield       = Dim{Mass: -1, Length: 3}
	Temperature = Dim{Temp: 1}
	TempGrad    = Dim{Temp: 1, Length: -1}
	Angle       = Dim{Angle: 1}
	Curvature   = Dim{Angle: 1, Length: -1}
	Viscosity   = Dim{Mass: 1, Length: -1, Time: -1}
	Capacity    = Dim{Length: 2}
)

// Mul is the dimension of a product. Which line a length was measured on is
// lost: pressure from a TVD is just a pressure.
func (d Dim) Mul(e Dim) Dim {
	if d == None {
		return e
	}
	if e == None {
		return d
	}
	return Dim{d.Mass + e.Mass, d.Length + e.Length, d.Time + e.Time, d.Temp + e.Temp, d.Angle + e.Angle, Plain}
}

// Div is the dimension of a quotient; see Mul.
func (d Dim) Div(e Dim) Dim {
	if e == None {
		return d
	}
	return Dim{d.Mass - e.Mass, d.Length - e.Length, d.Time - e.Time, d.Temp - e.Temp, d.Angle - e.Angle, Plain}
}

// Join is the dimension of a sum, a difference or a comparison, and whether
// the two may be joined at all: equal exponents, and not MD with TVD.
func (d Dim) Join(e Dim) (Dim, bool) {
	a, b := d, e
	a.Line, b.Line = Plain, Plain
	if a != b {
		return Dim{}, false
	}
	if d.Line != Plain && e.Line != Plain && d.Line != e.Line {
		return Dim{}, false
	}
	if d.Line == Plain {
		d.Line = e.Line
	}
	return d, true
}

var dimNames = map[Dim]string{
	None: "a number", Length: "a length", MDLength: "a measured depth", TVDLength: "a true vertical depth",
	Area: "an area", Volume: "a volume", Mass: "a mass", Time: "a time", Pressure: "a pressure",
	Gradient: "a pressure gradient", Density: "a density", Force: "a force", Torque: "a torque",
	LinearMass: "a weight per length", Speed: "a speed", Accel: "an acceleration", Rate: "a flow rate",
	Yield: "a slurry yield", Temperature: "a temperature", TempGrad: "a temperature gradient",
	Angle: "an angle", Curvature: "a curvature", Viscosity: "a viscosity",
}

// String names the dimension in words ("a pressure"), or spells its base
// units.
func (d Dim) String() string {
	if s, ok := dimNames[d]; ok {
		return s
	}
	return "a quantity in " + d.SI()
}

// SI is the SI unit of the dimension in base units, such as "kg m-1 s-2";
// the familiar name where there is one ("Pa").
func (d Dim) SI() string {
	line := d.Line
	d.Line = Plain
	switch d {
	case None:
		return "1"
	case Pressure:
		return "Pa"
	case Force:
		return "N"
	case Length:
		switch line {
		case Along:
			return "m MD"
		case Down:
			return "m TVD"
		}
		return "m"
	case Angle:
		return "rad"
	}
	var parts []string
	for _, b := range []struct {
		n string
		e int8
	}{{"kg", d.Mass}, {"m", d.Length}, {"s", d.Time}, {"K", d.Temp}, {"rad", d.Angle}} {
		switch b.e {
		case 0:
		case 1:
			parts = append(parts, b.n)
		default:
			parts = append(parts, fmt.Sprintf("%s%d", b.n, b.e))
		}
	}
	return strings.Join(parts, " ")
}

// DimBySI reads what SI wrote.
func DimBySI(s string) (Dim, bool) {
	switch s {
	case "1":
		return None, true
	case "Pa":
		return Pressure, true
	case "N":
		return Force, true
	case "m MD":
		return MDLength, true
	case "m TVD":
		return TVDLength, true
	}
	var d Dim
	for _, part := range strings.Fields(s) {
		base := strings.TrimRight(part, "-0123456789")
		exp := 1
		if rest := part[len(base):]; rest != "" {
			if _, err := fmt.Sscanf(rest, "%d", &exp); err != nil {
				return Dim{}, false
			}
		}
		switch base {
		case "kg":
			d.Mass = int8(exp)
		case "m":
			d.Length = int8(exp)
		case "s":
			d.Time = int8(exp)
		case "K":
			d.Temp = int8(exp)
		case "rad":
			d.Angle = int8(exp)
		default:
			return Dim{}, false
		}
	}
	return d, true
}
