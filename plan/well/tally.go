package well

import (
	"math"
	"strings"

	"spudgate/plan"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// TallyRow is one row of a tally where it comes to stand in the hole.
type TallyRow struct {
	Plan     *plan.TallyItem
	From, To units.MD
	Joints   int // none for a pup joint or an accessory
}

// Tally is the pipe of a string as measured, from the top down, its lower end
// at the planned shoe.
type Tally struct {
	Rows   []TallyRow
	Length units.Meters
	Joints int
}

type tallyKey int

// Tally adds up the rows of a string's tally. A string that isn't run has none.
func (w *Well) Tally(str int) (*Tally, error) {
	return once(w, tallyKey(str), func() (*Tally, error) { return w.tally(str) })
}

func (w *Well) tally(str int) (*Tally, error) {
	s := &w.Plan.Strings[str]
	if err := run(s); err != nil {
		return nil, err
	}
	if len(s.Tally) == 0 {
		return nil, Lack(s.Ref, "the tally of %s", s.Name.V)
	}
	shoe, err := w.shoeOf(s)
	if err != nil {
		return nil, err
	}
	t := &Tally{}
	for i := range s.Tally {
		r := row(&s.Tally[fromTop(s, i)])
		if !r.Plan.Length.Known() || r.Plan.Length.V <= 0 {
			return nil, Lack(r.Plan.Ref, "the length of row %d of the tally of %s", fromTop(s, i)+1, s.Name.V)
		}
		t.Length += r.Plan.Length.V
		t.Joints += r.Joints
		t.Rows = append(t.Rows, r)
	}
	t.hang(shoe)
	return t, nil
}

// run says why a string isn't run from the rotary on pipe slips; nil where it is.
func run(s *plan.String) error {
	switch {
	case s.Existing.V:
		return Absent("the string is in the well already")
	case s.SetBy.V == "driven" || s.SetBy.V == "jetted" || s.SetBy.V == "augered":
		return Absent("the string is " + s.SetBy.V + ", not run")
	}
	return nil
}

// fromTop is the row that is i-th from the top.
func fromTop(s *plan.String, i int) int {
	if s.TallyOrder.V == "bottom_up" {
		return len(s.Tally) - 1 - i
	}
	return i
}

func row(p *plan.TallyItem) TallyRow {
	r := TallyRow{Plan: p}
	if p.Kind.Or("joint") == "joint" {
		r.Joints = p.Joints.Or(1)
	}
	return r
}

// hang puts the rows into the hole, the last one's lower end at the shoe.
func (t *Tally) hang(shoe units.MD) {
	for i := len(t.Rows) - 1; i >= 0; i-- {
		r := &t.Rows[i]
		r.To = shoe
		shoe -= units.MD(r.Plan.Length.V)
		r.From = shoe
	}
}

// Sum is a tally added up against its string.
type Sum struct {
	*Tally
	StickUp units.Meters // as stated; zero where it can't be one
	String  units.Meters // shoe less top
	Off     units.Meters // tally less stick-up and string; below zero it's shorter
	Missing Missing      // a stick-up that can be one
}

// TallyOff is by how much the tally, less the stick-up stated, is longer than
// the string. A stick-up below nothing or of more than a joint isn't taken off,
// and is missing.
func (w *Well) TallyOff(str int) (sum Sum, err error) {
	if sum.Tally, err = w.Tally(str); err != nil {
		return sum, err
	}
	s := &w.Plan.Strings[str]
	top, err := w.topOf(s)
	if err != nil {
		return sum, err
	}
	shoe, err := w.shoeOf(s)
	if err != nil {
		return sum, err
	}
	sum.String, sum.StickUp = units.Meters(shoe-top), s.StickUp.V
	if most := longestJoint(s); s.StickUp.V < 0 || s.StickUp.V > most {
		sum.StickUp = 0
		sum.Missing = sum.Missing.and(Lack(s.StickUp.Ref, "a stick-up of %s between nothing and one joint of %s",
			s.Name.V, units.Show(float64(most), units.Length, w.Plan.System, false)))
	}
	sum.Off = sum.Length - sum.StickUp - sum.String
	return sum, nil
}

// longestJoint is the longest joint of the ranges a string is ordered in, the
// usual one where none is stated.
func longestJoint(s *plan.String) units.Meters {
	longest := units.Meters(0)
	for i := range s.Segments {
		if _, most, ok := JointRange(s.Segments[i].Range.V); ok {
			longest = max(longest, most)
		}
	}
	if longest == 0 {
		return usualJoint
	}
	return longest
}

// Tallied is the tally where there is one; Absent where there is none, so that
// only one check asks for it.
func (w *Well) Tallied(str int) (*Tally, error) {
	if len(w.Plan.Strings[str].Tally) == 0 {
		return nil, Absent("the plan has no tally of the string")
	}
	return w.Tally(str)
}

// JointsOver is by how many the joints of the tally exceed those planned.
func (w *Well) JointsOver(str int) (over, planned int, err error) {
	t, err := w.Tallied(str)
	if err != nil {
		return 0, 0, err
	}
	s := &w.Plan.Strings[str]
	for i := range s.Segments {
		g := &s.Segments[i]
		if !g.Joints.Known() {
			return 0, 0, Lack(g.Ref, "the number of joints of %s in %s", g.Label(), s.Name.V)
		}
		planned += g.Joints.V
	}
	return t.Joints - planned, planned, nil
}

// CentralizersShort is by how many the centralizers of the tally fall short of
// those the plan lists by interval.
func (w *Well) CentralizersShort(str int) (short, listed int, err error) {
	t, err := w.Tallied(str)
	if err != nil {
		return 0, 0, err
	}
	n, told := 0, false
	for _, r := range t.Rows {
		n += r.Plan.Centralizers.V
		told = told || r.Plan.Centralizers.Known()
	}
	switch {
	case !told:
		return 0, 0, Absent("the tally counts no centralizers")
	case len(w.Plan.Strings[str].Centralizers) == 0:
		return 0, 0, Lack(w.Plan.Strings[str].Ref, "the centralizers of %s", w.Plan.Strings[str].Name.V)
	}
	listed, err = w.CentralizersListed(str)
	return listed - n, listed, err
}

// Landed is a piece of equipment where the plan has it and where the tally puts
// it.
type Landed struct {
	Name    string
	Planned units.MD
	Row     TallyRow
	Off     units.Meters // from the nearer end of the row; zero within it
	Ref     place.Ref    // of the planned depth
}

// FarthestLanded is the collar, hanger, packer or crossover that the tally puts
// farthest from where the plan has it. What the tally doesn't name is missing,
// and given beside the rest. A hanger of casing stands in the wellhead and isn't
// looked for.
func (w *Well) FarthestLanded(str int) (worst Landed, unnamed Missing, err error) {
	t, err := w.Tallied(str)
	if err != nil {
		return worst, nil, err
	}
	found := false
	for _, l := range w.equipment(str) {
		if !t.find(&l) {
			unnamed = unnamed.and(Lack(w.Plan.Strings[str].Ref, "%s in the tally of %s", l.Name, w.Plan.Strings[str].Name.V))
			continue
		}
		if !found || l.Off > worst.Off {
			worst, found = l, true
		}
	}
	switch {
	case found:
		return worst, unnamed, nil
	case unnamed != nil:
		return worst, nil, unnamed
	}
	return worst, nil, Absent("the plan gives no depth of float equipment, hangers or collars")
}

// equipment is what a tally has to land at a depth of the plan.
func (w *Well) equipment(str int) []Landed {
	s := &w.Plan.Strings[str]
	var out []Landed
	collar := false
	for i := range s.Accessories {
		a := &s.Accessories[i]
		switch a.Kind.V {
		case "float_collar", "landing_collar":
			collar = collar || a.Depth.Known()
		case "stage_collar", "flotation_collar", "crossover":
		case "hanger", "packer":
			if !IsLiner(s) {
				continue
			}
		default:
			continue
		}
		if a.Depth.Known() {
			out = append(out, Landed{Name: a.Name.Or(kindWords(a.Kind.V)), Planned: a.Depth.V, Ref: a.Depth.Ref})
		}
	}
	if !collar && s.FloatCollar.Known() {
		out = append(out, Landed{Name: "float collar", Planned: s.FloatCollar.V, Ref: s.FloatCollar.Ref})
	}
	return out
}

func kindWords(kind string) string { return strings.ReplaceAll(kind, "_", " ") }

// find sets the row that has the name, the nearest where several have.
func (t *Tally) find(l *Landed) bool {
	found := false
	for _, r := range t.Rows {
		if !plan.Same(r.Plan.Name.V, l.Name) {
			continue
		}
		off := units.Meters(math.Max(0, math.Max(float64(r.From-l.Planned), float64(l.Planned-r.To))))
		if !found || off < l.Off {
			l.Row, l.Off, found = r, off, true
		}
	}
	return found
}

// Couplings are the depths at which pieces of a string meet, from the top down,
// as the tally puts them, its ends left out. A tally that counts several joints in one row
// doesn't tell them.
func (w *Well) Couplings(str int) ([]units.MD, error) {
	t, err := w.Tally(str)
	if err != nil {
		return nil, err
	}
	var out []units.MD
	for i, r := range t.Rows {
		if r.Joints > 1 {
			return nil, Lack(r.Plan.Ref, "a tally of %s joint by joint", w.Plan.Strings[str].Name.V)
		}
		if i > 0 {
			out = append(out, r.From)
		}
	}
	return out, nil
}

// TallyPipe searches a tally for pipe that isn't the plan's where it comes to
// stand: OD, weight and grade as far as the row gives them, against the segments
// within a joint of it.
func (w *Well) TallyPipe(str int) (Conflicts, error) {
	t, err := w.Tallied(str)
	if err != nil {
		return nil, err
	}
	c, err := w.Casing(str)
	if err != nil {
		return nil, err
	}
	var found search
	for _, r := range t.Rows {
		p := r.Plan
		if p.Kind.V == "accessory" || !p.OD.Known() && !p.Weight.Known() && !p.Grade.Known() {
			continue
		}
		near := c.nearby(r)
		ok := near == nil
		for _, g := range near {
			ok = ok || sameRow(p, g)
		}
		if near != nil {
			item := plan.Segment{OD: p.OD, Weight: p.Weight, Grade: p.Grade}
			found.holds(ok, places(p.Ref, near[0].Ref), "the tally has %s from %s to %s, the plan %s", item.Label(), w.showMD(r.From), w.showMD(r.To), near[0].Label())
		}
	}
	return found.result("the tally tells no size, weight or grade")
}

// nearby are the segments within a joint of the middle of a row.
func (c *Casing) nearby(r TallyRow) []*plan.Segment {
	middle := (r.From + r.To) / 2
	var out []*plan.Segment
	for i := range c.Pipes {
		if p := &c.Pipes[i]; middle > p.From-units.MD(nearJoint) && middle < p.To+units.MD(nearJoint) {
			out = append(out, p.Plan)
		}
	}
	return out
}

func sameRow(p *plan.TallyItem, g *plan.Segment) bool {
	switch {
	case p.OD.Known() && g.OD.Known() && differ(p.OD.V, g.OD.V):
		return false
	case p.Weight.Known() && g.Weight.Known() && !agree(float64(p.Weight.V), float64(g.Weight.V), 0.005):
		return false
	}
	return !p.Grade.Known() || !g.Grade.Known() || sameGrade(p.Grade.V, g.Grade.V)
}

// sameGrade compares grades as the catalogue reads them, else as written.
func sameGrade(a, b string) bool {
	ga, errA := pipe.ParseGrade(a)
	gb, errB := pipe.ParseGrade(b)
	if errA == nil && errB == nil {
		return ga.Name == gb.Name
	}
	return plan.Same(a, b)
}
