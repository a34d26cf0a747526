package record

import (
	"errors"
	"math"
	"strings"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// placements are the stages that can be followed volume by volume.
func placements(w *well.Well, fs []finding.Finding) []finding.Placement {
	var out []finding.Placement
	for _, i := range w.InOrder() {
		for st := range w.Plan.Strings[i].Stages {
			if p, ok := placement(w, i, st); ok {
				p.NotMet = failing(fs, p.String+" / "+p.Stage)
				out = append(out, p)
			}
		}
	}
	return out
}

// failing are the titles of the requirements on the placement of a stage that
// aren't met, each once.
func failing(fs []finding.Finding, subject string) []string {
	var out []string
	for i := range fs {
		f := &fs[i]
		if f.Subject == subject && f.Verdict == finding.NotMet && f.Governed == "" && strings.HasPrefix(f.Check, "placement.") && !contains(out, f.Title) {
			out = append(out, f.Title)
		}
	}
	return out
}

func placement(w *well.Well, str, st int) (finding.Placement, bool) {
	p, err := w.Placement(str, st)
	if err != nil {
		return finding.Placement{}, false
	}
	spots, err := w.PlacementSpots(str, st)
	if err != nil {
		return finding.Placement{}, false
	}
	moments, err := w.PlacementMoments(str, st)
	if err != nil {
		return finding.Placement{}, false
	}
	d := finding.Placement{String: w.Plan.Strings[str].Name.V, Stage: p.Plan.Name.V, Exit: depth(w, p.Exit), Friction: p.Friction}
	if c, err := w.Casing(str); err == nil {
		d.Collar = p.Exit < c.Shoe
	}
	if !p.Friction {
		for _, l := range p.Lacks {
			d.Lacks = append(d.Lacks, l.Input)
		}
	}
	d.Fluids = placedFluids(p)
	for _, m := range moments {
		d.Moments = append(d.Moments, momentOf(p, m))
	}
	fillSteps(&d, w, p, spots, moments)
	return d, true
}

// placedFluids are the fluids and the volumes pumped between which each goes
// in: no more of the last than until the plug lands.
func placedFluids(p *well.Placement) []finding.PlacedFluid {
	var out []finding.PlacedFluid
	end := p.Steps[len(p.Steps)-1].Pumped
	from := units.CubicMeters(0)
	for i, f := range p.Parcels {
		kind := "displacement"
		if i < len(p.Plan.Fluids) {
			kind = p.Plan.Fluids[i].Kind.V
		}
		to := min(from+f.Volume, end)
		out = append(out, finding.PlacedFluid{Name: f.Name, Kind: kind, Density: finding.Number(f.Density), From: finding.Number(from), To: finding.Number(to)})
		from = to
	}
	return out
}

func momentOf(p *well.Placement, m well.Moment) finding.Moment {
	inside, outside := p.Fills(m.Step)
	return finding.Moment{Events: m.Events, Told: m.Told, Pumped: finding.Number(p.Steps[m.Step].Pumped), Inside: fills(inside), Outside: fills(outside)}
}

func fills(list []well.Fill) []finding.Fill {
	out := make([]finding.Fill, len(list))
	for i, f := range list {
		out[i] = finding.Fill{Fluid: f.Fluid, From: finding.Number(f.From), To: finding.Number(f.To)}
	}
	return out
}

// fillSteps fills the columns of a job with the steps that bend them, and with
// those of its moments.
func fillSteps(d *finding.Placement, w *well.Well, p *well.Placement, spots []well.PlacementSpot, moments []well.Moment) {
	pumped, head, moving, time := columnsOf(p)
	columns := [][]float64{head}
	if p.Friction {
		columns = append(columns, moving)
	}
	if p.Timed {
		columns = append(columns, time)
	}
	for _, s := range spots {
		columns = append(columns, plainly(s.Still), plainly(s.Moving))
	}
	keep := map[int]bool{}
	for _, m := range moments {
		keep[m.Step] = true
	}
	list := bends(pumped, columns, keep)
	d.Pumped, d.Head = picked(pumped, list, 1), picked(head, list, 1)
	if p.Timed {
		d.Time = picked(time, list, 1)
	}
	if p.Friction {
		d.HeadMoving = picked(moving, list, 1)
	}
	for _, s := range spots {
		if spot, ok := spotOf(w, s, list, p.Friction); ok {
			d.Spots = append(d.Spots, spot)
		}
	}
}

func columnsOf(p *well.Placement) (pumped, head, moving, time []float64) {
	for k := range p.Steps {
		s := &p.Steps[k]
		pumped, head = append(pumped, float64(s.Pumped)), append(head, float64(s.Static))
		moving, time = append(moving, float64(s.Head)), append(time, float64(s.Time))
	}
	return pumped, head, moving, time
}

// spotOf makes equivalent mud weights of the pressures at a depth; false where
// there is no column over it.
func spotOf(w *well.Well, s well.PlacementSpot, list []int, friction bool) (finding.Spot, bool) {
	out := finding.Spot{At: depth(w, s.MD), Weakest: s.Weakest}
	if out.At.TVD == nil || *out.At.TVD <= 0 {
		return out, false
	}
	one := 1 / float64(well.EMW(1, 0, units.TVD(*out.At.TVD))) // Pa for each kg/m3
	out.Still = picked(plainly(s.Still), list, 1/one)
	if friction {
		out.Moving = picked(plainly(s.Moving), list, 1/one)
	}
	weight := func(p units.Pascals) *finding.Number {
		if p <= 0 {
			return nil
		}
		n := finding.Number(float64(p) / one)
		return &n
	}
	out.Fracture, out.Pore = weight(s.Fracture), weight(s.Pore)
	return out, true
}

func plainly(list []units.Pascals) []float64 {
	out := make([]float64, len(list))
	for i, p := range list {
		out[i] = float64(p)
	}
	return out
}

func picked(list []float64, rows []int, by float64) []finding.Number {
	out := make([]finding.Number, len(rows))
	for i, k := range rows {
		out[i] = finding.Number(list[k] * by)
	}
	return out
}

// bends are the rows between which every column runs straight over x, and those
// to keep; the first and the last among them.
func bends(x []float64, columns [][]float64, keep map[int]bool) []int {
	slack := make([]float64, len(columns))
	for i, c := range columns {
		for _, v := range c {
			slack[i] = max(slack[i], thinSlack*math.Abs(v))
		}
	}
	out := []int{0}
	for first := 0; first < len(x)-1; {
		last := first + 1
		for last+1 < len(x) && !keep[last] && runsOver(x, columns, slack, first, last+1) {
			last++
		}
		out, first = append(out, last), last
	}
	return out
}

// runsOver reports whether two rows joined linearly meet those between.
func runsOver(x []float64, columns [][]float64, slack []float64, a, b int) bool {
	if x[b] <= x[a] {
		return false
	}
	for i, c := range columns {
		for k := a + 1; k < b; k++ {
			if math.Abs(c[a]+(c[b]-c[a])*(x[k]-x[a])/(x[b]-x[a])-c[k]) > slack[i] {
				return false
			}
		}
	}
	return true
}

// placed lists the moments of every stage followed volume by volume.
func placed(w *well.Well) finding.Table {
	t := finding.Table{Name: "Placement", Title: "Placement: every stage followed volume by volume, values from the audit. Fluids incompressible and unmixed, flat fronts; couplings and eccentric pipe ignored", Columns: []finding.Column{
		{Name: "string", Title: "String", Width: 22}, {Name: "stage", Title: "Stage", Width: 14}, {Name: "event", Title: "What happens", Width: 30},
		{Name: "pumped", Title: "Pumped", Width: 10}, {Name: "minutes", Title: "Minutes", Width: 9},
		{Name: "exit", Title: "Pressure where it leaves", Width: 12}, {Name: "exit_emw", Title: "As mud weight", Width: 10}, {Name: "exit_moving", Title: "With friction", Width: 10},
		{Name: "under", Title: "Left under fracture", Width: 11}, {Name: "under_at", Title: "Weakest at", Width: 10},
		{Name: "over", Title: "Left over pore", Width: 11}, {Name: "over_at", Title: "Zone at", Width: 10},
		{Name: "head", Title: "Surface, still", Width: 11}, {Name: "head_moving", Title: "Surface, with friction", Width: 11},
		{Name: "rate", Title: "Pump rate", Width: 10}, {Name: "returns", Title: "Rate of returns", Width: 10}, {Name: "empty", Title: "Empty under the head", Width: 11},
		{Name: "lift", Title: "Holds it down, head on casing", Width: 13}, {Name: "lift_rig", Title: "Holds it down, head on rig", Width: 13},
		{Name: "note", Title: "Friction, and what is missing", Width: 44},
	}}
	for _, i := range w.InOrder() {
		for st := range w.Plan.Strings[i].Stages {
			t.Rows = append(t.Rows, placedRows(w, i, st, len(t.Columns))...)
		}
	}
	return t
}

func placedRows(w *well.Well, str, st, wide int) []finding.Row {
	s := &w.Plan.Strings[str]
	var absent well.Absent
	lines, err := w.PlacementLines(str, st)
	if errors.As(err, &absent) {
		return nil // the register says so
	}
	at := bare(w.Plan.Place(s.Stages[st].Ref))
	start := func() []finding.Cell {
		cells := make([]finding.Cell, wide)
		cells[0], cells[1] = text(s.Name.V), text(s.Stages[st].Name.V)
		return cells
	}
	if err != nil {
		cells := start()
		cells[wide-1] = text(reason(err))
		return []finding.Row{{Cells: cells, Head: true, Verdict: finding.NotAssessed, Place: at}}
	}
	var out []finding.Row
	p, _ := w.Placement(str, st)
	for k, l := range lines {
		cells := start()
		fillMoment(cells, w, p, l)
		if k == 0 {
			cells[wide-1] = text(remarkOn(p, l))
		}
		out = append(out, finding.Row{Cells: cells, Head: k == 0, Place: at})
	}
	return out
}

func fillMoment(cells []finding.Cell, w *well.Well, p *well.Placement, l well.PlacementLine) {
	step := &p.Steps[l.Step]
	last := len(p.Watched) - 1
	cells[2], cells[3] = text(strings.Join(l.Events, "; ")), quantity(float64(step.Pumped), units.Volume)
	cells[5] = quantity(float64(step.Still[last]), units.Pressure)
	if z, err := w.TVD(p.Exit); err == nil && z > 0 {
		cells[6] = quantity(float64(well.EMW(step.Still[last], 0, z)), units.Density)
		if p.Friction {
			cells[7] = quantity(float64(well.EMW(step.Moving[last], 0, z)), units.Density)
		}
	}
	if l.UnderErr == nil {
		cells[8], cells[9] = quantity(float64(l.Under.Spare), units.Pressure), quantity(float64(l.Under.MD), units.MDLength)
	}
	if l.OverErr == nil {
		cells[10], cells[11] = quantity(float64(l.Over.Spare), units.Pressure), quantity(float64(l.Over.MD), units.MDLength)
	}
	cells[12] = quantity(float64(step.Static), units.Pressure)
	if p.Friction {
		cells[13] = quantity(float64(step.Head), units.Pressure)
	}
	if p.Timed {
		cells[4] = quantity(float64(step.Time)/60, units.None)
		cells[14], cells[15] = quantity(float64(p.Parcels[step.Parcel].Rate), units.Rate), quantity(float64(step.Rate), units.Rate)
	}
	cells[16] = quantity(float64(step.Air), units.Length)
	if l.LiftErr == nil {
		cells[17], cells[18] = quantity(float64(l.Lift.Net), units.Force), quantity(float64(l.Lift.OnRig), units.Force)
	}
}

// remarkOn says what stands behind the numbers of a stage.
func remarkOn(p *well.Placement, l well.PlacementLine) string {
	out := "friction counted in what is left and in the lift"
	if !p.Friction {
		out = "standing still, friction left out: " + reason(p.Lacks)
	}
	switch {
	case l.LiftErr != nil:
	case l.Lift.ByRig:
		out += "; the rig holds the head"
	case l.Lift.Said:
		out += "; the head is screwed to the casing"
	default:
		out += "; the plan doesn't say what holds the head"
	}
	for _, err := range []error{l.UnderErr, l.OverErr} {
		if r := ""; err != nil {
			if r = reason(err); !strings.Contains(out, r) {
				out += "; " + r
			}
		}
	}
	return out
}
