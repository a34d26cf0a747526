package record

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
	"spudgate/rules/finding"
)

// A 7 in job in the vertical well, 8-3/4 hole of 10 ppg: bore 6.276 in, annulus
// 8.75 x 7 in below 2,000 ft and 8.921 x 7 above.
func placedWell(t testing.TB, stage, rheology string) *well.Well {
	fluids := `{"name":"spacer","kind":"spacer","density":11,"volume":40` + rheology + `},{"name":"tail","kind":"tail","density":15.8,"volume":100` + rheology + `}`
	text := strings.Replace(vertical, `"top_of_cement":1500,`, `"top_of_cement":5500,"float_collar":8920,"stages":[{"name":"primary","excess":0,"top_plug":true`+stage+`,"fluids":[`+fluids+`]}],`, 1)
	text = strings.Replace(text, `"mud_density":10.0,`, `"mud_density":10.0,"mud_plastic_viscosity":15,"mud_yield_point":10,`, 1)
	text = strings.NewReplacer(`"0.78 psi/ft"`, "15", `"0.80 psi/ft"`, "15.4").Replace(text)
	return checktest.Well(t, text)
}

const (
	placedRates = `,"rate":5,"mix_rate":5`
	placedFlow  = `,"plastic_viscosity":30,"yield_point":12`
)

// What the drawing says of a job is what hands say of it: psi is ppg x ft/19.25,
// volumes are d^2/1029.4142 bbl/ft.
func TestPlacement(t *testing.T) {
	w := placedWell(t, placedRates, "")
	list := placements(w, []finding.Finding{
		{Subject: "P / primary", Check: "placement.head", Verdict: finding.NotMet, Title: "head"}, {Subject: "P / primary", Check: "placement.pore", Verdict: finding.Met, Title: "pore"},
		{Subject: "P / other", Check: "placement.head", Verdict: finding.NotMet, Title: "other"}, {Subject: "P / primary", Check: "cement.top", Verdict: finding.NotMet, Title: "top"}})
	if len(list) != 1 {
		t.Fatalf("%d placements", len(list))
	}
	p := list[0]
	if p.String != "P" || p.Stage != "primary" || p.Friction || p.HeadMoving != nil || len(p.Lacks) != 2 || !reflect.DeepEqual(p.NotMet, []string{"head"}) {
		t.Errorf("%+v", p)
	}
	const k = 1029.4142
	last := len(p.Pumped) - 1
	total := 140 + 8920*6.276*6.276/k
	near(t, "pumped, bbl", float64(p.Pumped[last])/units.Barrel, total, 1e-3)
	near(t, "time, min", float64(p.Time[last])/60, total/5, 1e-3)
	near(t, "displacement from, bbl", float64(p.Fluids[2].From)/units.Barrel, 140, 1e-9)
	open := (8.75*8.75 - 49) / k
	tail := 9000 - (100-80*6.276*6.276/k)/open
	wash := tail - 40/open
	out := (10*wash + 11*(tail-wash) + 15.8*(9000-tail)) / 19.25
	near(t, "head, psi", float64(p.Head[last])/units.Psi, out-(10*8920+15.8*80)/19.25, 0.05)
	spots := p.Spots
	if len(spots) != 2 || spots[0].Weakest || !spots[1].Weakest {
		t.Fatalf("%+v", spots)
	}
	near(t, "at the shoe, ppg", float64(spots[0].Still[last])/units.PPG, out*19.25/9000, 1e-3)
	near(t, "pore at the shoe, ppg", float64(*spots[0].Pore)/units.PPG, 9.4, 1e-3)
	end := p.Moments[len(p.Moments)-1]
	if n := len(end.Outside); n != 3 || end.Outside[2].Fluid != 1 {
		t.Fatalf("%+v", end.Outside)
	}
	near(t, "top of tail, ft", float64(end.Outside[2].From)/units.Foot, tail, 0.01)
	near(t, "top of spacer, ft", float64(end.Outside[1].From)/units.Foot, wash, 0.01)
	for _, m := range p.Moments {
		if at := m.Outside[len(m.Outside)-1].To; at != p.Exit.MD {
			t.Errorf("%v: the annulus ends at %v", m.Events, at)
		}
	}
}

// The rows kept meet every step left out.
func TestPlacementThinned(t *testing.T) {
	w := placedWell(t, placedRates, placedFlow)
	p, err := w.Placement(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	d := placements(w, nil)[0]
	if !d.Friction || len(d.Pumped) >= len(p.Steps) || len(d.HeadMoving) != len(d.Pumped) {
		t.Fatalf("%d rows of %d", len(d.Pumped), len(p.Steps))
	}
	_, _, moving, _ := columnsOf(p)
	most := 0.0
	for _, v := range moving {
		most = max(most, v)
	}
	for i, s := range p.Steps {
		row := 1
		for float64(d.Pumped[row]) < float64(s.Pumped)-1e-9 {
			row++
		}
		a, b := float64(d.Pumped[row-1]), float64(d.Pumped[row])
		at := float64(d.HeadMoving[row-1]) + float64(d.HeadMoving[row]-d.HeadMoving[row-1])*(float64(s.Pumped)-a)/(b-a)
		near(t, "head", at, moving[i], 1.01*thinSlack*most)
	}
}

// What is written as JSON is read back the same.
func TestPlacementRoundTrip(t *testing.T) {
	for _, rheology := range []string{"", placedFlow} {
		first, err := json.Marshal(finding.Drawings{Placement: placements(placedWell(t, placedRates, rheology), nil)})
		if err != nil {
			t.Fatal(err)
		}
		var d finding.Drawings
		if err := json.Unmarshal(first, &d); err != nil {
			t.Fatal(err)
		}
		again, err := json.Marshal(d)
		if err != nil || string(again) != string(first) {
			t.Errorf("%v\n%s\n%s", err, first, again)
		}
		if len(d.Placement) != 1 || len(d.Placement[0].Moments) < 4 {
			t.Errorf("%+v", d.Placement)
		}
	}
}

// The table has a row for each moment; a stage that waits says for what, and one
// that isn't pumped that way is left out.
func TestPlacedTable(t *testing.T) {
	w := placedWell(t, placedRates+`,"head_held":"rig"`, placedFlow)
	table := placed(w)
	lines, err := w.PlacementLines(1, 0)
	if err != nil || len(table.Rows) != len(lines) {
		t.Fatalf("%d rows, %d moments, %v", len(table.Rows), len(lines), err)
	}
	column := map[string]int{}
	for i, c := range table.Columns {
		column[c.Name] = i
	}
	at := func(row int, name string) float64 {
		q := table.Rows[row].Cells[column[name]].Quantity
		if q == nil {
			t.Fatalf("row %d has no %s", row, name)
		}
		return q.SI
	}
	for i, l := range lines {
		near(t, "under", at(i, "under"), float64(l.Under.Spare), 1e-9)
		near(t, "lift", at(i, "lift"), float64(l.Lift.Net), 1e-9)
		if at(i, "head_moving") < at(i, "head")-1e-6 || at(i, "lift_rig") < at(i, "lift") || at(i, "exit_moving") < at(i, "exit_emw") {
			t.Errorf("row %d: friction takes from it", i)
		}
	}
	near(t, "end, min", at(len(lines)-1, "minutes"), (140+8920*6.276*6.276/1029.4142)/5, 1e-3)
	near(t, "start, ppg", at(0, "exit_emw")/units.PPG, 10, 1e-9)
	if note := table.Rows[0].Cells[column["note"]].Text; !strings.Contains(note, "friction counted") || !strings.Contains(note, "the rig holds the head") {
		t.Errorf("note %q", note)
	}
	still := placed(placedWell(t, "", ""))
	if note := still.Rows[0].Cells[column["note"]].Text; !strings.Contains(note, "friction left out: needs the rheology of spacer of P; the rheology of tail of P; the mixing rate") || !strings.Contains(note, "the plan doesn't say what holds the head") {
		t.Errorf("note %q", note)
	}
	if still.Rows[0].Cells[column["minutes"]].Quantity != nil {
		t.Error("a time without rates")
	}
	none := placedWell(t, placedRates, "")
	none.Plan.Strings[1].Stages[0].Fluids[1].Density.Ref = 0
	rows := placed(none).Rows
	if len(rows) != 1 || rows[0].Verdict != finding.NotAssessed || rows[0].Cells[column["note"]].Text != "needs the density of tail of P" {
		t.Errorf("%+v", rows)
	}
	if rows := placed(placedWell(t, `,"kind":"top_up"`, "")).Rows; len(rows) != 0 {
		t.Errorf("%+v", rows)
	}
}
