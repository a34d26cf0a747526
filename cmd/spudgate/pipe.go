package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"spudgate/plan/expr"
	"spudgate/plan/pipe"
	"spudgate/plan/units"
)

// pipe prints the ratings of one pipe with their workings.
func (c *command) pipe(args []string) (int, error) {
	f := c.flags("pipe SIZE WEIGHT GRADE [CONNECTION]", "The ratings of one casing as the standard's tables print them, with the working.\nSIZE as 9-5/8, WEIGHT in lb/ft (or \"69.9 kg/m\"), CONNECTION STC, LTC or BTC.")
	asJSON := f.Bool("json", false, "print JSON, in psi, lbf and inches")
	special := f.Bool("special-clearance", false, "with the special clearance coupling")
	if err := parse(f, args); err != nil {
		return 0, err
	}
	if f.NArg() < 3 || f.NArg() > 4 {
		return 0, unfitf("found %d values, expected SIZE WEIGHT GRADE and perhaps CONNECTION", f.NArg())
	}
	od, err := given(f.Arg(0), units.Length, "in")
	if err != nil {
		return 0, unfitf("SIZE: %w", err)
	}
	weight, err := given(f.Arg(1), units.LinearMass, "lb/ft")
	if err != nil {
		return 0, unfitf("WEIGHT: %w", err)
	}
	p, err := pipe.Rate(units.Meters(od), units.KgPerM(weight), f.Arg(2), f.Arg(3), pipe.Coupling{Special: *special})
	if err != nil {
		return 0, unfit{err}
	}
	if *asJSON {
		return statusClear, pipeJSON(c.out, p)
	}
	return statusClear, pipeText(c.out, p)
}

// given reads a quantity of the command line.
func given(text string, want units.Dim, unit string) (float64, error) {
	w, err := units.Parse(text)
	if err != nil {
		return 0, fmt.Errorf("found %q: %w", text, err)
	}
	u, _ := units.ByName(unit)
	if w.HasUnit {
		u = w.Unit
	}
	if _, ok := u.Dim.Join(want); !ok {
		return 0, fmt.Errorf("found %q, expected %s", text, want)
	}
	return u.ToSI(w.Number), nil
}

// faces of a rating in trade units.
type faces struct {
	Published map[string]any
	Exact     map[string]any
}

func (f *faces) add(name string, published, exact, unit float64, known bool) {
	if !known {
		f.Published[name], f.Exact[name] = nil, nil
		return
	}
	f.Published[name] = tidy(published / unit)
	f.Exact[name] = tidy(exact / unit)
}

// tidy drops the noise of unit conversion from a number: 12 significant digits.
func tidy(x float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 12, 64), 64)
	if err != nil || math.IsNaN(y) {
		return x
	}
	return y
}

func pipeJSON(w io.Writer, p *pipe.Pipe) error {
	f := faces{map[string]any{}, map[string]any{}}
	f.add("collapse_psi", float64(p.Collapse.Published), float64(p.Collapse.Exact), units.Psi, p.Collapse.Known())
	f.add("internal_yield_psi", float64(p.BodyInternal.Published), float64(p.BodyInternal.Exact), units.Psi, p.BodyInternal.Known())
	f.add("internal_pressure_psi", float64(p.Internal.Published), float64(p.Internal.Exact), units.Psi, p.Internal.Known())
	f.add("coupling_internal_yield_psi", float64(p.CouplingInternal.Published), float64(p.CouplingInternal.Exact), units.Psi, p.CouplingInternal.Known())
	f.add("leak_resistance_psi", float64(p.Leak.Published), float64(p.Leak.Exact), units.Psi, p.Leak.Known())
	f.add("body_yield_lbf", float64(p.BodyYield.Published), float64(p.BodyYield.Exact), units.Lbf, p.BodyYield.Known())
	f.add("joint_strength_lbf", float64(p.Joint.Published), float64(p.Joint.Exact), units.Lbf, p.Joint.Known())
	out := f.Published
	out["format"] = "spudgate-pipe/1"
	out["od_in"] = tidy(float64(p.Size.OD) / units.Inch)
	out["weight_lb_ft"] = tidy(float64(p.Size.Weight) / (units.Pound / units.Foot))
	out["grade"] = p.Grade.Name
	out["connection"] = p.Connection.String()
	out["wall_in"] = tidy(float64(p.Size.Wall) / units.Inch)
	out["inside_diameter_in"] = tidy(float64(p.Size.ID()) / units.Inch)
	out["drift_in"] = tidy(float64(p.Size.Drift) / units.Inch)
	out["coupling_od_in"] = nil
	if p.CouplingOD > 0 {
		out["coupling_od_in"] = tidy(float64(p.CouplingOD) / units.Inch)
	}
	out["exact"] = f.Exact
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(out)
}

func pipeText(w io.Writer, p *pipe.Pipe) error {
	var b strings.Builder
	name := fmt.Sprintf("%s %s lb/ft %s", units.Size(p.Size.OD), strconv.FormatFloat(tidy(float64(p.Size.Weight)/(units.Pound/units.Foot)), 'f', -1, 64), p.Grade.Name)
	if p.Connection != pipe.Plain {
		name += " " + p.Connection.String()
	}
	fmt.Fprintf(&b, "%s\n\n", name)
	inch := func(label string, m units.Meters) {
		if m > 0 {
			fmt.Fprintf(&b, "  %-26s %12s\n", label, units.Show(float64(m), units.Length, units.Field, true))
		}
	}
	inch("wall", p.Size.Wall)
	inch("inside diameter", p.Size.ID())
	inch("drift", p.Size.Drift)
	inch("alternate drift", p.Size.DriftAlternate)
	inch("coupling OD", p.CouplingOD)
	if p.Size.Sure != "" {
		fmt.Fprintf(&b, "  %-26s %s\n", "dimensions known", p.Size.Sure)
	}
	fmt.Fprintf(&b, "\n  %-26s %12s   %s\n", "", "published", "exact")
	rating(&b, "collapse", p.Collapse, units.Pressure)
	rating(&b, "internal yield, body", p.BodyInternal, units.Pressure)
	rating(&b, "internal pressure, least", p.Internal, units.Pressure)
	rating(&b, "body yield", p.BodyYield, units.Force)
	rating(&b, "joint strength", p.Joint, units.Force)
	torque(&b, p)
	b.WriteString("\nWorking\n")
	steps(&b, "collapse", p.Collapse.Working)
	steps(&b, "internal yield, body", p.BodyInternal.Working)
	if p.Internal.Governs != p.BodyInternal.Governs {
		steps(&b, "internal pressure, least: "+p.Internal.Governs, p.Internal.Working)
	}
	steps(&b, "body yield", p.BodyYield.Working)
	steps(&b, "joint strength", p.Joint.Working)
	b.WriteString("\nAn aid to a competent reviewer. Local codes and the agency's word prevail.\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func rating[Q ~float64](b *strings.Builder, label string, r pipe.Rating[Q], d units.Dim) {
	if !r.Known() {
		fmt.Fprintf(b, "  %-26s %12s   %s\n", label, "-", r.Missing)
		return
	}
	u, _ := units.ShownIn(d, units.Field, false)
	fmt.Fprintf(b, "  %-26s %12s   %s", label, units.Show(float64(r.Published), d, units.Field, false), units.Decimal(u.FromSI(float64(r.Exact)), 1))
	if r.Governs != "" {
		fmt.Fprintf(b, "   (%s)", r.Governs)
	}
	b.WriteByte('\n')
}

func torque(b *strings.Builder, p *pipe.Pipe) {
	t := p.Torque
	show := func(q units.NewtonMeters) string { return units.Show(float64(q), units.Torque, units.Field, false) }
	switch {
	case t.Missing != "" || p.Connection == pipe.Plain:
	case t.ByPosition && t.Least > 0:
		fmt.Fprintf(b, "  %-26s made up by position, at least %s\n", "make-up", show(t.Least))
	case t.ByPosition:
		fmt.Fprintf(b, "  %-26s made up by position, no torque\n", "make-up")
	default:
		fmt.Fprintf(b, "  %-26s %12s   %s to %s\n", "make-up torque, optimum", show(t.Optimum), show(t.Least), show(t.Most))
	}
}

// steps prints a working step by step in trade units.
func steps(b *strings.Builder, title string, list []expr.Working) {
	if len(list) == 0 {
		return
	}
	fmt.Fprintf(b, "\n  %s\n", title)
	for _, w := range list {
		fmt.Fprintf(b, "    %s = %s = %s\n", w.Result.Name, w.Formula, showInput(w.Result))
		var ins []string
		for _, in := range w.Inputs {
			ins = append(ins, in.Name+" "+showInput(in))
		}
		if len(ins) > 0 {
			fmt.Fprintf(b, "        with %s\n", strings.Join(ins, ", "))
		}
		if w.Source != "" {
			fmt.Fprintf(b, "        %s\n", w.Source)
		}
	}
}

// showInput shows a number of a working with six significant digits.
func showInput(in expr.Input) string {
	if in.Text != "" {
		return in.Text
	}
	u, _ := units.ShownIn(in.Dim, units.Field, in.Small)
	t := strconv.FormatFloat(u.FromSI(in.SI), 'g', 6, 64)
	if strings.Contains(t, "e+") {
		t = units.Decimal(u.FromSI(in.SI), 0)
	}
	if u.Symbol == "1" {
		return t
	}
	return t + " " + u.Symbol
}
