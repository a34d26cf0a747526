package well

import (
	"math"
	"strings"
	"unicode"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Reading is what a claimed result comes to by one convention of the trade, SI.
type Reading struct {
	Value float64
	By    string // the convention in words; empty for the tool's own
	Whole bool   // counted in wholes, rounded up
}

// Claimed is what a claim of the plan is about, worked out: the tool's own
// reading first, then those of the other conventions a planner may have used.
type Claimed struct {
	Dim      units.Dim
	Small    bool
	Readings []Reading
	Refs     []place.Ref
}

// quantity is a result that plans state, under the names they give it.
type quantity struct {
	names []string // folded, see claimWords
	of    func(*Well, int, string) (Claimed, error)
}

// quantities are the results a claim may be about. The first name is how the
// tool calls it.
func quantities() []quantity {
	return []quantity{
		{[]string{"burst factor", "burst"}, claimedFactor("burst.")},
		{[]string{"collapse factor", "collapse"}, claimedFactor("collapse.")},
		{[]string{"tension factor", "tension", "tensile", "axial"}, (*Well).claimedTension},
		{[]string{"triaxial factor", "triaxial", "vme", "von mises"}, claimedFactor("triaxial.")},
		{[]string{"collapse rating", "collapse resistance", "collapse strength"}, claimedRating(func(r *Rated) rated { return of(r.Collapse, units.Pressure) })},
		{[]string{"internal yield", "burst rating", "burst resistance", "burst strength", "miyp"}, claimedRating(func(r *Rated) rated { return of(r.Internal, units.Pressure) })},
		{[]string{"body yield", "pipe body yield", "pipe body strength", "body strength"}, claimedRating(func(r *Rated) rated { return of(r.Yield, units.Force) })},
		{[]string{"joint strength", "connection strength"}, claimedRating(func(r *Rated) rated { return of(r.Joint, units.Force) })},
		{[]string{"weight in air", "air weight", "string weight"}, (*Well).claimedAir},
		{[]string{"buoyed weight", "weight in mud", "buoyant weight"}, (*Well).claimedBuoyed},
		{[]string{"buoyancy factor", "buoyancy"}, (*Well).claimedBuoyancy},
		{[]string{"hook load", "hookload"}, (*Well).claimedHook},
		{[]string{"slurry volume", "cement volume"}, (*Well).claimedSlurry},
		{[]string{"annulus volume", "annular volume"}, (*Well).claimedAnnulus},
		{[]string{"sacks", "sacks of cement", "sxs"}, (*Well).claimedSacks},
		{[]string{"displacement", "displacement volume"}, (*Well).claimedDisplacement},
		{[]string{"top of cement", "toc", "cement top"}, (*Well).claimedTop},
		{[]string{"pore pressure at shoe", "pore pressure", "formation pressure"}, claimedPressure((*Well).porePressure)},
		{[]string{"fracture pressure at shoe", "fracture pressure"}, claimedPressure((*Well).fracturePressure)},
		{[]string{"hydrostatic at shoe", "hydrostatic pressure", "hydrostatic", "mud pressure"}, claimedPressure((*Well).mudPressure)},
		{[]string{"anticipated surface pressure", "surface pressure", "masp", "maximum anticipated surface pressure"}, claimedPressure((*Well).surfacePressureBelow)},
		{[]string{"joints", "number of joints"}, (*Well).claimedJoints},
		{[]string{"centralizers", "number of centralizers"}, (*Well).claimedCentralizers},
		{[]string{"kick tolerance", "kick volume"}, (*Well).claimedKick},
	}
}

// ClaimNames are the results a claim may be about, as the tool calls them.
func ClaimNames() []string {
	var out []string
	for _, q := range quantities() {
		out = append(out, q.names[0])
	}
	return out
}

// Claim works out what a claim of the plan states; known is false where the
// claim's measure is none of ClaimNames. The error is Missing, Absent, or of a
// formula asked outside its domain.
func (w *Well) Claim(i int) (out Claimed, known bool, err error) {
	c := &w.Plan.Claims[i]
	want := claimWords(c.Measure.V)
	for _, q := range quantities() {
		for _, n := range q.names {
			if claimWords(n) != want {
				continue
			}
			str := w.Plan.StringIndex(c.String.V)
			if str < 0 {
				return out, true, Lack(c.Ref, "the string of the claim %s", c.Measure.V)
			}
			out, err = q.of(w, str, c.Case.V)
			return out, true, err
		}
	}
	for _, name := range StrengthCases() {
		if name != c.Measure.V {
			continue
		}
		str := w.Plan.StringIndex(c.String.V)
		if str < 0 {
			return out, true, Lack(c.Ref, "the string of the claim %s", c.Measure.V)
		}
		out.Readings, out.Refs, err = w.readFactor(str, name)
		return out, true, err
	}
	return out, false, nil
}

// claimWords folds a name: case, punctuation, and the words that only say it's
// a design or least factor are left out.
func claimWords(s string) string {
	var out []string
	for _, f := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) }) {
		switch f {
		case "design", "safety", "factor", "sf", "df", "minimum", "min", "least", "calculated", "total", "the", "of", "at", "shoe", "planned":
		default:
			out = append(out, f)
		}
	}
	return strings.Join(out, " ")
}

// constants are the conversions planners use in place of the exact ones, as
// what a pressure worked out with them is of ours.
var constants = []struct {
	ratio float64
	by    string
}{
	{0.052 / (units.PPG * units.G * units.Foot / units.Psi), "0.052 psi/ft for 1 ppg"},
	{0.433 / (units.SG * units.G * units.Foot / units.Psi), "0.433 psi/ft for fresh water"},
	{0.434 / (units.SG * units.G * units.Foot / units.Psi), "0.434 psi/ft for fresh water"},
	{9.8 / units.G, "g of 9.8 m/s2"},
	{9.81 / units.G, "g of 9.81 m/s2"},
	{1e5 / 10.2 / (1000 * units.G), "10.2 m for 1 bar"},
}

// capacities are the constants planners divide square inches by for barrels to
// the foot, as what a volume worked out with them is of ours.
var capacities = []struct {
	ratio float64
	by    string
}{
	{bblFoot / 1029, "1029 for bbl/ft"},
	{bblFoot / 1029.4, "1029.4 for bbl/ft"},
}

// bblFoot is 4/pi times the square inches of a barrel to the foot, 1029.414...
const bblFoot = 4 / math.Pi * units.Barrel / units.Foot / (units.Inch * units.Inch)

// withCapacities adds to volumes those with each constant.
func withCapacities(list []Reading) []Reading {
	out := list
	for _, r := range list {
		for _, c := range capacities {
			out = append(out, Reading{Value: r.Value * c.ratio, By: joined(r.By, c.by), Whole: r.Whole})
		}
	}
	return out
}

// withConstants adds to readings those with each conversion in place of the
// exact one; power is how the reading goes with pressure: 1, or -1 for a factor.
func withConstants(list []Reading, power float64) []Reading {
	out := list
	for _, r := range list {
		for _, c := range constants {
			out = append(out, Reading{Value: r.Value * math.Pow(c.ratio, power), By: joined(r.By, c.by), Whole: r.Whole})
		}
	}
	return out
}
