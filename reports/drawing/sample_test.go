package drawing

import (
	"strings"

	"spudgate/rules/finding"
)

func number(x float64) *finding.Number { n := finding.Number(x); return &n }

func deep(md float64) finding.Depth {
	return finding.Depth{MD: finding.Number(md), TVD: number(md * 0.9)}
}

func numbers(list ...float64) []finding.Number {
	out := make([]finding.Number, len(list))
	for i, x := range list {
		out[i] = finding.Number(x)
	}
	return out
}

// sample is a record of a well of two strings and a liner, with every part a
// drawing can show and a case that isn't met.
func sample() *finding.Record {
	return &finding.Record{
		Tool: finding.Tool{Name: "spudgate", Version: "0.9.0"}, AsOf: "2026-11-25", Caution: finding.Caution,
		Well:   finding.Well{Name: "Tarn Hollow 3", Revision: "B"},
		Inputs: []finding.Source{{Role: "plan", Name: "tarn-hollow-b.xlsx", SHA256: strings.Repeat("4f1c9a2e07d5b3a8", 4)}},
		Drawings: finding.Drawings{
			Path:      []finding.Depth{deep(0), deep(1000), deep(3000)},
			Schematic: sampleSchematic(),
			Window:    sampleWindow(),
			Loads:     []finding.StringLoads{sampleLoads()},
			Placement: []finding.Placement{samplePlacement()},
		},
	}
}

func sampleSchematic() *finding.Schematic {
	return &finding.Schematic{
		Strings: []finding.DrawnString{
			{Name: "9-5/8 surface", Top: deep(0), Shoe: deep(1000), Pipes: []finding.DrawnPipe{{From: 0, To: 1000, OD: 0.2445, ID: 0.2266, Label: "9-5/8 36 J55 STC"}},
				Cement: []finding.Band{{From: 0, To: 1000, Outer: 0.3112, Inner: 0.2445}},
				Marks:  []finding.Mark{{Kind: "float_collar", Name: "collar", At: deep(980)}}},
			{Name: "7 production", Top: deep(0), Shoe: deep(2400), Pipes: []finding.DrawnPipe{{From: 0, To: 900, OD: 0.1778, ID: 0.1594, Label: "7 26 L80 LTC"}, {From: 900, To: 2400, OD: 0.1778, ID: 0.157, Label: "7 29 L80 LTC"}},
				Cement: []finding.Band{{From: 800, To: 1000, Outer: 0.2266, Inner: 0.1778}, {From: 1000, To: 2400, Outer: 0.2159, Inner: 0.1778}}},
			{Name: "4-1/2 liner", Liner: true, Top: deep(2300), Shoe: deep(3000), Pipes: []finding.DrawnPipe{{From: 2300, To: 3000, OD: 0.1143, ID: 0.1016, Label: "4-1/2 11.6 L80 BTC"}},
				Lacks: "needs volume of the slurry", Marks: []finding.Mark{{Kind: "hanger", Name: "hanger", At: deep(2300)}}},
		},
		Holes: []finding.DrawnHole{{Name: "12-1/4 hole", From: deep(0), To: deep(1005), Diameter: 0.3112}, {Name: "8-1/2 hole", From: deep(1005), To: deep(2405), Diameter: 0.2159}, {Name: "6 hole", From: deep(2405), To: deep(3000), Diameter: 0.1524}},
		Formations: []finding.DrawnFormation{{Name: "Tarn gravel", Contents: "fresh_water", Top: deep(5), Base: deep(60)}, {Name: "Hollow clay", Contents: "none", Top: deep(60), Base: deep(80)},
			{Name: "Brant sand", Contents: "oil_and_gas", Top: deep(2500), Base: deep(2600)}, {Name: "Brant salt", Contents: "salt", Top: deep(2600), Base: deep(3000)}},
		Marks: []finding.Mark{{Kind: "base_of_protected_water", Name: "base", At: deep(60)}, {Kind: "completion_packer", Name: "packer", At: deep(2200)}},
	}
}

func sampleWindow() *finding.Window {
	curve := func(of, estimate string, at ...float64) finding.Curve {
		return finding.Curve{Of: of, Estimate: estimate, TVD: numbers(10, 900, 2700), EMW: numbers(at...)}
	}
	return &finding.Window{
		Curves: []finding.Curve{curve("pore pressure", "low", 1000, 1010, 1200), curve("pore pressure", "base", 1010, 1030, 1250), curve("pore pressure", "high", 1020, 1050, 1300),
			curve("fracture pressure", "base", 1500, 1700, 1900), curve("overburden", "base", 1900, 2100, 2300)},
		Holes: []finding.MudRange{{Name: "12-1/4 hole", From: 0, To: 904.5, Min: 1050, Max: 1090}, {Name: "8-1/2 hole", From: 900, To: 2164.5, Min: 1150, Max: 1150}},
		Shoes: []finding.ShoeMark{{Name: "9-5/8 surface", At: deep(1000), Test: number(1600)}, {Name: "7 production", At: deep(2400)}},
	}
}

// sampleLoads has two cases on 0 to 1000 m: burst that uses 0.2 to 1.2, and
// tension that uses 0.7 all the way.
func sampleLoads() finding.StringLoads {
	return finding.StringLoads{Name: "7 production", Top: deep(0), Shoe: deep(1000),
		Cases: []finding.CaseLoad{
			{Case: "tension.running_body", Title: "tension, running, body", Kind: "tension", Required: number(1.4), Least: 2,
				MD: numbers(0, 1000), TVD: numbers(0, 900), Load: numbers(1e6, 1e6), Rating: numbers(2e6, 2e6), Used: numbers(0.7, 0.7)},
			{Case: "burst.gas_to_surface", Title: "burst, gas to surface", Kind: "burst", Required: number(1.2), NotMet: true, Least: 1,
				MD: numbers(0, 1000), TVD: numbers(0, 900), Load: numbers(1e7, 6e7), Rating: numbers(6e7, 6e7), Used: numbers(0.2, 1.2)},
		},
		Triaxial: &finding.Ellipse{Pipe: "7 26 L80 LTC", Area: 0.005, Hoop: 10, Yield: 5.5e8, Required: number(1.25),
			Points: []finding.EllipsePoint{{Case: "burst.gas_to_surface", Force: 1e6, Pressure: 3e7, Factor: 1.4, At: deep(0)}, {Case: "tension.running_body", Force: 1e6, Pressure: 3e7, Factor: 1.4, At: deep(0)}}},
	}
}

// samplePlacement is a job of spacer and slurry with friction, one empty length,
// a place that is weaker than the shoe and a requirement that isn't met.
func samplePlacement() finding.Placement {
	fill := func(fluid int, from, to float64) finding.Fill {
		return finding.Fill{Fluid: fluid, From: finding.Number(from), To: finding.Number(to)}
	}
	return finding.Placement{String: "7 production", Stage: "primary", Exit: deep(2400), Friction: true, NotMet: []string{"fracture while placing"},
		Fluids: []finding.PlacedFluid{{Name: "spacer", Kind: "spacer", Density: 1320, From: 0, To: 6}, {Name: "slurry", Kind: "slurry", Density: 1890, From: 6, To: 22},
			{Name: "displacement", Kind: "displacement", Density: 1150, From: 22, To: 68}},
		Pumped: numbers(0, 6, 22, 50, 68), Time: numbers(0, 600, 2400, 4200, 5400),
		Head: numbers(0, 0, 0, 0, 6e6), HeadMoving: numbers(0, 2e6, 0, 1e6, 9e6),
		Spots: []finding.Spot{{At: deep(2400), Still: numbers(1150, 1150, 1200, 1300, 1500), Moving: numbers(1150, 1200, 1300, 1400, 1650), Fracture: number(1850), Pore: number(1250)},
			{At: deep(1000), Weakest: true, Still: numbers(1150, 1150, 1150, 1150, 1400), Moving: numbers(1150, 1170, 1180, 1180, 1720), Fracture: number(1700), Pore: number(1040)}},
		Moments: []finding.Moment{
			{Events: []string{"start"}, Told: true, Inside: []finding.Fill{fill(-1, 0, 2400)}, Outside: []finding.Fill{fill(-1, 0, 2400)}},
			{Events: []string{"slurry begins"}, Pumped: 6, Inside: []finding.Fill{fill(0, 0, 300), fill(-1, 300, 2400)}, Outside: []finding.Fill{fill(-1, 0, 2400)}},
			{Events: []string{"displacement begins", "longest free fall"}, Told: true, Pumped: 22,
				Inside: []finding.Fill{fill(-2, 0, 400), fill(1, 400, 1200), fill(0, 1200, 1500), fill(-1, 1500, 2400)}, Outside: []finding.Fill{fill(-1, 0, 2400)}},
			{Events: []string{"least under fracture", "plug lands"}, Told: true, Pumped: 68,
				Inside: []finding.Fill{fill(2, 0, 2380), fill(1, 2380, 2400)}, Outside: []finding.Fill{fill(-1, 0, 700), fill(0, 700, 1000), fill(1, 1000, 2400)}},
		}}
}
