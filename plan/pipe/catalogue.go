package pipe

import (
	_ "embed"
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
	"sync"

	"spudgate/plan/units"
)

//go:embed sizes.csv
var sizesCSV string

// Size is one size and weight of casing, in SI. A length is zero where the
// standard has none.
type Size struct {
	OD, Wall       units.Meters
	Weight         units.KgPerM // nominal, threads and couplings included
	Coupling       units.Meters // OD of the regular coupling
	Special        units.Meters // OD of the special clearance coupling
	Drift          units.Meters // mandrel of the standard's rule
	DriftAlternate units.Meters // larger mandrel, only when ordered
	// Sure says how well the row is known: read, checked (recalled, wall
	// confirmed by printed strengths), from memory, or stated (by the caller).
	Sure string
}

// ID is the nominal inside diameter.
func (s Size) ID() units.Meters { return s.OD - 2*s.Wall }

// PlainEnd is the weight of the pipe without threads: 10.69 (D - t) t in lb/ft
// and inches, API TR 5C3; here with that coefficient in SI. It is
// pi rho (D - t) t for a steel of 7,849 kg/m3.
func (s Size) PlainEnd() units.KgPerM {
	const k = 10.69 * units.Pound / units.Foot / (units.Inch * units.Inch)
	return units.KgPerM(k * float64((s.OD-s.Wall)*s.Wall))
}

// DriftOf is the mandrel diameter of API Spec 5CT for casing of the given OD and
// inside diameter: less 1/8 in below 9-5/8, less 5/32 in from 9-5/8 to 13-3/8,
// less 3/16 in above.
func DriftOf(od, id units.Meters) units.Meters {
	const slack = 0.01 * units.Inch // a size never sits within this of an edge
	switch in := float64(od); {
	case in < 9.625*units.Inch-slack:
		return id - 0.125*units.Inch
	case in <= 13.375*units.Inch+slack:
		return id - 0.15625*units.Inch
	default:
		return id - 0.1875*units.Inch
	}
}

var catalogue = sync.OnceValue(func() []Size { return readSizes(sizesCSV) })

// Sizes lists the catalogue by OD, then weight.
func Sizes() []Size { return append([]Size(nil), catalogue()...) }

func readSizes(text string) []Size {
	var out []Size
	for _, f := range rows(text) {
		n := numbers(f[:7])
		out = append(out, Size{
			OD: inches(n[0]), Weight: units.KgPerM(n[1] * units.Pound / units.Foot), Wall: inches(n[2]),
			Coupling: inches(n[3]), Special: inches(n[4]), Drift: inches(n[5]), DriftAlternate: inches(n[6]), Sure: f[7],
		})
	}
	return out
}

// rows splits an embedded table, skipping comments and the head. The tables
// are our own and hold no quoted cells; a test reads every one of them.
func rows(text string) [][]string {
	var out [][]string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			out = append(out, strings.Split(line, ","))
		}
	}
	return out[1:]
}

// numbers reads cells, a blank one being zero.
func numbers(cells []string) []float64 {
	out := make([]float64, len(cells))
	for i, c := range cells {
		out[i], _ = strconv.ParseFloat(c, 64)
	}
	return out
}

func inches(x float64) units.Meters { return units.Meters(x * units.Inch) }

// sameOD is how far a written OD may be from a listed one, m; sameWeight how
// far a weight, as a share.
const (
	sameOD     = 0.3e-3
	sameWeight = 0.01
)

// Lookup finds the casing of an OD and nominal weight: the OD within 0.3 mm of a
// listed one, the weight within 1 %, the nearest weight where two fit. The error
// is a *NotFound.
func Lookup(od units.Meters, weight units.KgPerM) (Size, error) {
	best, off := -1, math.Inf(1)
	for i, s := range catalogue() {
		d := math.Abs(float64(s.Weight/weight) - 1)
		if sameSize(s.OD, od) && d <= sameWeight && d < off {
			best, off = i, d
		}
	}
	if best < 0 {
		return Size{}, notFound(od, weight)
	}
	return catalogue()[best], nil
}

func sameSize(a, b units.Meters) bool { return math.Abs(float64(a-b)) <= sameOD }

// NotFound is the error of a size or weight that is not in the catalogue.
type NotFound struct {
	OD     units.Meters
	Weight units.KgPerM
	// Nearest are the listed weights around the one asked for; none if the OD
	// itself is not listed.
	Nearest []Size
}

func (e *NotFound) Error() string {
	if len(e.Nearest) == 0 {
		return fmt.Sprintf("%s in casing is not in the catalogue", units.Size(e.OD))
	}
	var near []string
	for _, s := range e.Nearest {
		near = append(near, trimmed(s.Weight))
	}
	return fmt.Sprintf("%s in casing has no weight of %s lb/ft; nearest are %s", units.Size(e.OD), trimmed(e.Weight), strings.Join(near, " and "))
}

// trimmed is a weight in lb/ft without idle zeros.
func trimmed(w units.KgPerM) string {
	return strconv.FormatFloat(math.Round(float64(w)/units.Pound*units.Foot*100)/100, 'f', -1, 64)
}

// notFound names the listed weights next below and next above.
func notFound(od units.Meters, weight units.KgPerM) *NotFound {
	e := &NotFound{OD: od, Weight: weight}
	var same []Size
	for _, s := range catalogue() {
		if sameSize(s.OD, od) {
			same = append(same, s)
		}
	}
	at := sort.Search(len(same), func(i int) bool { return same[i].Weight >= weight })
	for _, i := range []int{at - 1, at} {
		if i >= 0 && i < len(same) {
			e.Nearest = append(e.Nearest, same[i])
		}
	}
	return e
}

// PlainEndSize is a conductor or other pipe of 20 to 36 in known by OD and wall
// alone: its weight is the plain-end weight, and it has no coupling and no
// drift mandrel. The error is a *DomainError.
func PlainEndSize(od, wall units.Meters) (Size, error) {
	if !(od >= inches(20)-sameOD && od <= inches(36)+sameOD) {
		return Size{}, outside("plain-end pipe", "the OD must be 20 to 36 in")
	}
	if !(wall > 0 && wall < od/2) {
		return Size{}, outside("plain-end pipe", "the wall must be above zero and below half the OD")
	}
	s := Size{OD: od, Wall: wall, Sure: "stated"}
	s.Weight = s.PlainEnd()
	return s, nil
}
