package well_test

import (
	"fmt"
	"os"
	"testing"

	"spudgate/plan"
	"spudgate/plan/read"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/basis"
)

func TestScratch(t *testing.T) {
	for _, f := range []string{"harrow-fen-a", "harrow-fen-c", "sallow-beck"} {
		raw, _ := os.ReadFile("../../testdata/demo/" + f + ".json")
		d, err := read.JSON(f, raw)
		if err != nil {
			t.Fatal(err)
		}
		p, faults := plan.Decode(d)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		b, _ := basis.Default(p.System)
		w := well.New(p, b.Assumptions())
		for i := range p.Strings {
			for j := range p.Strings[i].Stages {
				fmt.Println(f, p.Strings[i].Name.V, p.Strings[i].Stages[j].Name.V)
				pl, err := w.Placement(i, j)
				if err != nil {
					fmt.Println("   ", err)
					continue
				}
				s := pl.Steps[len(pl.Steps)-1]
				fmt.Println("  steps", len(pl.Steps), pl.Friction, pl.Timed, len(pl.Lacks), "end air", s.Air, "fronts", s.Fronts)
				tops, _ := w.FluidTops(i, j)
				fmt.Println("  tops", tops)
				m, err := w.PlacementUnderFracture(i, j, false)
				fmt.Println("  fracture spare psi", float64(m.Spare)/units.Psi, "at ft", float64(m.MD)/units.Foot, m.Step, err)
				m0, err := w.CementUnderFracture(i, j)
				fmt.Println("    end static", float64(m0.Spare)/units.Psi, err)
				m, err = w.PlacementOverPore(i, j)
				fmt.Println("  pore spare psi", float64(m.Spare)/units.Psi, "at ft", float64(m.MD)/units.Foot, m.Step, err)
				m0, err = w.CementOverPore(i, j)
				fmt.Println("    end static", float64(m0.Spare)/units.Psi, err)
				h, k, err := w.PlacementHead(i, j, false)
				fmt.Println("  head psi", float64(h)/units.Psi, k, err)
				e, err := w.PlacementEnd(i, j, false)
				fmt.Println("  end psi", float64(e)/units.Psi, "bump", float64(p.Strings[i].Stages[j].BumpPressure.V)/units.Psi, err)
				a, k, err := w.FreeFall(i, j)
				fmt.Println("  air ft", float64(a)/units.Foot, k, err)
				l, err := w.PlacementLift(i, j, false)
				fmt.Println("  lift klbf", float64(l.Net)/units.Lbf/1000, float64(l.OnRig)/units.Lbf/1000, float64(l.Weight)/units.Lbf/1000, l.Step, err)
				for _, z := range w.ZonesOf(i) {
					md, _, _, _ := w.FormationTop(z)
					c, err := w.FrontContact(i, j, md)
					fmt.Println("   contact min", p.Formations[z].Name.V, float64(c)/60, err)
				}
			}
		}
	}
}
