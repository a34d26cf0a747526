package workbook_test

import (
	"bytes"
	"fmt"
	"testing"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// jobs are stages of cement that can be drawn.
func jobs(n int) []finding.Placement {
	var out []finding.Placement
	for i := range n {
		out = append(out, finding.Placement{String: fmt.Sprintf("string %d", i+1), Stage: "primary", Exit: finding.Depth{MD: 1000},
			Fluids: []finding.PlacedFluid{{Name: "tail", Kind: "tail", Density: 1900, To: 10}, {Name: "displacement", Kind: "displacement", Density: 1100, From: 10, To: 30}},
			Pumped: []finding.Number{0, 10, 30}, Head: []finding.Number{0, 0, 5e6},
			Moments: []finding.Moment{{Events: []string{"start"}, Told: true}, {Events: []string{"plug lands"}, Told: true, Pumped: 30}}})
	}
	return out
}

// Every stage has its drawing on one sheet, one under the other, each on a page
// of its own; a long list of them ends and says so.
func TestPlacementDrawn(t *testing.T) {
	const sheet, rows, most = "Placement drawn", 43, 12
	for _, n := range []int{3, most + 2} {
		r := sample()
		r.Drawings.Placement = jobs(n)
		raw := written(t, r, units.Field)
		if n == 3 && !bytes.Equal(raw, written(t, r, units.Field)) {
			t.Errorf("%d stages: two runs give different files", n)
		}
		f := opened(t, raw)
		for i := range n {
			list, err := f.GetPictures(sheet, fmt.Sprintf("A%d", 1+i*rows))
			want := 1
			if i >= most {
				want = 0
			}
			if err != nil || len(list) != want {
				t.Errorf("%d stages, stage %d: %d pictures, %v", n, i+1, len(list), err)
			}
		}
		if n > most {
			if got := at(t, f, sheet, fmt.Sprintf("A%d", 1+most*rows)); got != "and 2 more, not drawn here" {
				t.Errorf("%q", got)
			}
		}
	}
}
