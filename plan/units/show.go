package units

import (
	"math"
	"strconv"
	"strings"
)

// System is the set of units a plan is written in or a report is shown in.
type System uint8

// The two unit systems of the trade.
const (
	Field System = iota
	Metric
)

// SystemByName reads "field" or "metric".
func SystemByName(s string) (System, bool) {
	switch s {
	case "field":
		return Field, true
	case "metric":
		return Metric, true
	}
	return Field, false
}

func (s System) String() string {
	if s == Metric {
		return "metric"
	}
	return "field"
}

// face is how a dimension is shown: its unit and how many decimals, per
// system.
type face struct {
	unit     [2]string
	decimals [2]int
}

var faces = map[Dim]face{
	None:        {[2]string{"1", "1"}, [2]int{2, 2}},
	Length:      {[2]string{"ft", "m"}, [2]int{0, 1}},
	MDLength:    {[2]string{"ft", "m"}, [2]int{0, 1}},
	TVDLength:   {[2]string{"ft", "m"}, [2]int{0, 1}},
	Area:        {[2]string{"in2", "mm2"}, [2]int{3, 0}},
	Volume:      {[2]string{"bbl", "m3"}, [2]int{1, 2}},
	Mass:        {[2]string{"lb", "kg"}, [2]int{0, 0}},
	Time:        {[2]string{"h", "h"}, [2]int{1, 1}},
	Pressure:    {[2]string{"psi", "bar"}, [2]int{0, 1}},
	Gradient:    {[2]string{"psi/ft", "kPa/m"}, [2]int{3, 2}},
	Density:     {[2]string{"ppg", "SG"}, [2]int{2, 3}},
	Force:       {[2]string{"lbf", "kN"}, [2]int{0, 0}},
	Torque:      {[2]string{"ft-lbf", "N.m"}, [2]int{0, 0}},
	LinearMass:  {[2]string{"lb/ft", "kg/m"}, [2]int{2, 2}},
	Speed:       {[2]string{"ft/min", "m/min"}, [2]int{0, 1}},
	Rate:        {[2]string{"bbl/min", "L/min"}, [2]int{1, 0}},
	Yield:       {[2]string{"ft3/sk", "L/100kg"}, [2]int{2, 1}},
	Temperature: {[2]string{"degF", "degC"}, [2]int{0, 0}},
	TempGrad:    {[2]string{"degF/100ft", "degC/100m"}, [2]int{2, 2}},
	Angle:       {[2]string{"deg", "deg"}, [2]int{1, 1}},
	Curvature:   {[2]string{"deg/100ft", "deg/30m"}, [2]int{2, 2}},
	Viscosity:   {[2]string{"cP", "cP"}, [2]int{1, 1}},
}

// ShownIn is the unit a dimension is shown in, and its usual decimals.
// small says the length is a size or a gap, shown in in or mm.
func ShownIn(d Dim, s System, small bool) (Unit, int) {
	if small && d.Length == 1 && d == Length {
		if s == Metric {
			return unitIndex["mm"], 1
		}
		return unitIndex["in"], 3
	}
	f, ok := faces[d]
	if !ok {
		return Unit{Symbol: d.SI(), Dim: d, Factor: 1}, 4
	}
	return unitIndex[f.unit[s]], f.decimals[s]
}

// Best is ShownIn for one value: a time under two hours is shown in minutes.
func Best(si float64, d Dim, s System, small bool) (Unit, int) {
	if d == Time && math.Abs(si) < 7200 {
		return unitIndex["min"], 0
	}
	return ShownIn(d, s, small)
}

// Show writes an SI value for a reader: "9,850 ft", "1.25". A pure number has
// no unit.
func Show(si float64, d Dim, s System, small bool) string {
	u, dec := Best(si, d, s, small)
	t := Decimal(u.FromSI(si), dec)
	if d == None || u.Symbol == "1" {
		return t
	}
	return t + " " + u.Symbol
}

// Decimal formats x with dec decimals and thousands commas, never "-0".
func Decimal(x float64, dec int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "-"
	}
	t := strconv.FormatFloat(x, 'f', dec, 64)
	neg := strings.HasPrefix(t, "-")
	t = strings.TrimPrefix(t, "-")
	whole, frac, _ := strings.Cut(t, ".")
	var b strings.Builder
	for i, r := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(r)
	}
	if frac != "" {
		b.WriteByte('.')
		b.WriteString(frac)
	}
	out := b.String()
	if neg && strings.ContainsAny(out, "123456789") {
		out = "-" + out
	}
	return out
}

// Size writes an OD or a bit size as the trade does: "9-5/8", "12-1/4", or
// decimals where it's off the eighths.
func Size(m Meters) string {
	in := float64(m) / inch
	eighths := math.Round(in * 8)
	if math.Abs(in*8-eighths) > 0.1 { // 0.0125 in = 0.32 mm
		return strconv.FormatFloat(math.Round(in*1000)/1000, 'f', -1, 64)
	}
	w, f := int(eighths)/8, int(eighths)%8
	if f == 0 {
		return strconv.Itoa(w)
	}
	den := 8
	for f%2 == 0 {
		f, den = f/2, den/2
	}
	s := strconv.Itoa(f) + "/" + strconv.Itoa(den)
	if w > 0 {
		s = strconv.Itoa(w) + "-" + s
	}
	return s
}
