package pipe

import (
	"strings"

	"spudgate/plan/units"
)

// Grade is a steel grade of API Spec 5CT with its minima.
type Grade struct {
	Name           string
	Yield, Tensile units.Pascals
	// Historic grades are no longer in the standard; old stock still is about.
	Historic bool
	// Hardening is the stress-strain index n of ductile rupture (TR 5C3 clause 7).
	Hardening float64
	// Tempered is true where quenching and tempering is required, or for 13Cr:
	// crack-like flaws count once, not twice, in ductile rupture.
	Tempered bool
}

// grades are minima from API Spec 5CT, in psi. The hardening index follows
// n = 0.1693 - 0.000812 Yp (ksi) to two decimals, as the standard tabulates it.
var grades = []Grade{
	ksi("H40", 40, 60, 0.14, false, false),
	ksi("J55", 55, 75, 0.12, false, false),
	ksi("K55", 55, 95, 0.12, false, false),
	ksi("M65", 65, 85, 0.12, true, false),
	ksi("C75", 75, 95, 0.11, true, false),
	ksi("N80", 80, 100, 0.10, false, false),
	ksi("N80-1", 80, 100, 0.10, false, false),
	ksi("N80Q", 80, 100, 0.10, false, true),
	ksi("L80", 80, 95, 0.10, false, true),
	ksi("L80-1", 80, 95, 0.10, false, true),
	ksi("L80-9Cr", 80, 95, 0.10, false, true),
	ksi("L80-13Cr", 80, 95, 0.10, false, true),
	ksi("C90", 90, 100, 0.10, false, true),
	ksi("R95", 95, 105, 0.09, false, true),
	ksi("T95", 95, 105, 0.09, false, true),
	ksi("C95", 95, 105, 0.09, true, false),
	ksi("P105", 105, 120, 0.08, true, false),
	ksi("P110", 110, 125, 0.08, false, true),
	ksi("C110", 110, 115, 0.08, false, true),
	ksi("Q125", 125, 135, 0.07, false, true),
}

func ksi(name string, yield, tensile, n float64, historic, tempered bool) Grade {
	return Grade{name, units.Pascals(yield * 1000 * units.Psi), units.Pascals(tensile * 1000 * units.Psi), historic, n, tempered}
}

// gradeAliases are other ways of writing a grade, folded.
var gradeAliases = map[string]string{
	"N80TYPE1": "N801", "L80TYPE1": "L801", "N80TYPEQ": "N80Q",
	"C901": "C90", "C90TYPE1": "C90", "T951": "T95", "T95TYPE1": "T95", "Q1251": "Q125", "Q125TYPE1": "Q125",
}

// Grades lists the grades of the catalogue by strength.
func Grades() []Grade { return append([]Grade(nil), grades...) }

// ParseGrade finds a grade as plans write it ("P-110", "K 55", "J_55", "P110.").
// Spacing, hyphens, dots and underscores don't count; letters and digits all
// do, so that a proprietary grade such as "HCP-110" is never taken for an API
// one. The error is an *Unknown.
func ParseGrade(text string) (Grade, error) {
	key := fold(text)
	if a, ok := gradeAliases[key]; ok {
		key = a
	}
	for _, g := range grades {
		if fold(g.Name) == key {
			return g, nil
		}
	}
	return Grade{}, &Unknown{"grade", text}
}

// Unknown is the error of a grade or connection outside the API standards.
type Unknown struct {
	What string // "grade" or "connection"
	Text string // as written
}

func (e *Unknown) Error() string {
	return e.What + " " + quoted(e.Text) + " is not an API one (proprietary: use stated ratings)"
}

// quoted keeps a hostile text from flooding a message.
func quoted(s string) string {
	if r := []rune(s); len(r) > 24 {
		s = string(r[:24]) + "..."
	}
	return "'" + s + "'"
}

// fold strips what the trade writes at will: case, spacing, hyphens, dots and
// underscores.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '\t', '\u00a0', '-', '‐', '‑', '–', '_', '.':
			return -1
		}
		return r
	}, strings.ToUpper(s))
}
