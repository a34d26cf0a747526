package well

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"spudgate/plan/pipe"
	"spudgate/plan/units"
)

//go:embed material.csv
var materialCSV string

// SourService is where a grade may meet H2S.
type SourService string

// The services a grade can have in the table of the standard.
const (
	SourAny   SourService = "any"   // at any temperature
	SourFrom  SourService = "from"  // at and above a temperature
	SourAsk   SourService = "ask"   // not listed: needs a qualification of its own
	SourPart3 SourService = "part3" // an alloy with limits of another kind
)

// Steel is what a grade of the catalogue stands besides load.
type Steel struct {
	Grade  string
	Sour   SourService
	Chrome bool // an alloy that resists CO2
	// Threads are the API threads the grade is made with; nil for all.
	Threads []pipe.Connection
	// Sure is how well the row of the table is known.
	Sure    string
	celsius string
	fahren  string
}

// steels reads the table once, by grade.
var steels = sync.OnceValue(func() map[string]Steel {
	out := map[string]Steel{}
	for i, f := range materialRows() {
		if i == 0 || len(f) != 7 {
			continue
		}
		s := Steel{Grade: f[0], Sour: SourService(f[1]), celsius: f[2], fahren: f[3], Chrome: f[4] == "chrome", Sure: f[6]}
		for _, t := range strings.Fields(f[5]) {
			if c, err := pipe.ParseConnection(t); err == nil {
				s.Threads = append(s.Threads, c)
			}
		}
		out[s.Grade] = s
	}
	return out
})

// materialRows are the cells of the table, its head first.
func materialRows() [][]string {
	var out [][]string
	for line := range strings.Lines(materialCSV) {
		if line = strings.TrimSpace(line); line != "" && line[0] != '#' {
			out = append(out, strings.Split(line, ","))
		}
	}
	return out
}

// SteelOf is the row of a grade; false for a grade the table doesn't list.
func SteelOf(g pipe.Grade) (Steel, bool) {
	s, ok := steels()[g.Name]
	return s, ok
}

// Least is the lowest temperature at which the grade may meet H2S. The standard
// prints it in two scales, rounded apart (80 degC, 175 degF): the plan's own
// one is read. False where the grade has no such temperature.
func (s Steel) Least(sys units.System) (units.Kelvins, bool) {
	if s.Sour != SourFrom {
		return 0, false
	}
	text, unit := s.fahren, "degF"
	if sys == units.Metric {
		text, unit = s.celsius, "degC"
	}
	x, err := strconv.ParseFloat(text, 64)
	u, ok := units.ByName(unit)
	if err != nil || !ok {
		return 0, false
	}
	return units.Kelvins(u.ToSI(x)), true
}

// MadeWith reports whether the standard has the grade with the API thread.
func (s Steel) MadeWith(c pipe.Connection) bool {
	for _, t := range s.Threads {
		if t == c {
			return true
		}
	}
	return len(s.Threads) == 0
}

// Coldest is the lowest temperature a segment can have while it's exposed:
// that of the undisturbed ground beside it, to which a shut-in well cools.
// Cold fluid pumped down isn't counted. stated is false where the plan gives
// no temperatures and the basis's gradient was taken.
func (w *Well) Coldest(str, seg int) (t units.Kelvins, at At, stated bool, err error) {
	c, err := w.Casing(str)
	if err != nil {
		return 0, At{}, false, err
	}
	p := &c.Pipes[seg]
	top, err := w.TVD(p.From)
	if err != nil {
		return 0, At{}, false, err
	}
	bottom, err := w.TVD(p.To)
	if err != nil {
		return 0, At{}, false, err
	}
	t, stated = w.Temperature(top)
	at = w.AtMD(p.From, "coldest place of the pipe")
	if low, _ := w.Temperature(bottom); low < t {
		t, at = low, w.AtMD(p.To, "coldest place of the pipe")
	}
	for i := range w.Plan.Temperatures { // cold sea water, or a dip of the table
		z := w.Plan.Temperatures[i].Depth
		if !z.Known() || z.V <= min(top, bottom) || z.V >= max(top, bottom) {
			continue
		}
		if low, _ := w.Temperature(z.V); low < t {
			t, at = low, AtTVD(z.V, "coldest place of the pipe")
		}
	}
	return t, at, stated, nil
}

// Fit is whether the steel of a segment may meet H2S where it is coldest.
type Fit struct {
	OK   bool
	At   At
	Note string
}

// SourFit holds the grade of a segment, and that of its couplings where it is
// another one, against ISO 15156-2 table A.3 at the lowest temperature it is
// exposed to. A proprietary grade, and one the table doesn't list, lacks its
// qualification; an alloy of part 3 is Absent.
func (w *Well) SourFit(str, seg int) (Fit, error) {
	c, err := w.Casing(str)
	if err != nil {
		return Fit{}, err
	}
	p := &c.Pipes[seg]
	list, err := w.steelsOf(p, c.Plan.Name.V)
	if err != nil {
		return Fit{}, err
	}
	t, at, stated, err := w.Coldest(str, seg)
	if err != nil {
		return Fit{}, err
	}
	out := Fit{OK: true, At: at}
	var notes []string
	for _, s := range list {
		least, limited := s.Least(w.Plan.System)
		if limited && t < least-1e-6 {
			out.OK = false
		}
		if limited {
			notes = append(notes, fmt.Sprintf("%s from %s", s.Grade, show(w, least, units.Temperature)))
		} else {
			notes = append(notes, s.Grade+" at any temperature")
		}
	}
	cold := "coldest exposed " + show(w, t, units.Temperature)
	if !stated {
		cold += " (assumed: no temperatures stated)"
	}
	out.Note = strings.Join(append(notes, cold), ", ")
	return out, nil
}

// steelsOf are the steels of a segment that table A.3 lists: the pipe's, then
// the couplings' where stated.
func (w *Well) steelsOf(p *Pipe, of string) ([]Steel, error) {
	type named struct {
		grade pipe.Grade
		err   error
		text  string
		part  string
	}
	parts := []named{{p.Grade, p.GradeErr, p.Plan.Grade.V, of}}
	if k := p.Plan.CouplingGrade; k.Known() {
		g, err := pipe.ParseGrade(k.V)
		parts = append(parts, named{g, err, k.V, "the couplings of " + of})
	}
	var out []Steel
	var lack Missing
	for _, n := range parts {
		if n.err != nil && !Proprietary(n.err) {
			return nil, n.err
		}
		s, ok := SteelOf(n.grade)
		switch {
		case n.err != nil, !ok, s.Sour == SourAsk:
			m, _ := lacks(Lack(p.Plan.Grade.Ref, "the sour qualification of %s, %s", n.text, n.part))
			lack.add(m)
		case s.Sour != SourPart3:
			out = append(out, s)
		}
	}
	if len(lack) > 0 {
		return nil, lack
	}
	if len(out) == 0 {
		return nil, Absent(p.Plan.Grade.V + " has a limit of its own in H2S")
	}
	return out, nil
}
