// Package claims holds what a plan states beside what it comes to: a claim is
// reproduced when one of the trade's conventions gives its printed digits.
package claims

import (
	"fmt"
	"math"
	"strings"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// Reproduced is whether a stated result is what the plan comes to.
var Reproduced = &rules.Check{Name: "claim.reproduced", About: rules.Claim, Type: rules.TruthType,
	Doc:     "One of the conventions of the trade gives the printed digits of what the plan states (half a unit of the last digit; zeros at the end of a whole number may come of rounding as far as three digits stay): the tool's own; 0.052 psi/ft for 1 ppg, 0.433 or 0.434 psi/ft for fresh water, g of 9.8 or 9.81, 10.2 m for 1 bar; steel of 65.4, 65.44 or 65.5 ppg; nominal or plain-end weight, in air or buoyed, measured or vertical length; ratings as the tables print them or at full precision, the other edition of collapse; excess on the annulus, on the hole or none; counts rounded up. Common practice, no source. The note names the convention, or the nearest one.",
	Measure: reproduced}

func reproduced(w *well.Well, s rules.Subject) rules.Measure {
	c := &w.Plan.Claims[s.Claim]
	switch {
	case !c.Measure.Known():
		return rules.Lacking(refs(c.Ref), expr.Lack{Input: "what " + c.String.V + " claims", Ref: c.Ref})
	case !c.Value.Known():
		return rules.Lacking(refs(c.Ref), expr.Lack{Input: "the value claimed for " + s.Name, Ref: c.Ref})
	}
	q, known, err := w.Claim(s.Claim)
	if err != nil {
		return rules.From(err, c.Value.Ref, c.Ref)
	}
	if !known {
		if q, err = looked(s, c.Measure.V); err != nil {
			return rules.From(err, c.Value.Ref, c.Ref)
		}
	}
	if len(q.Readings) == 0 {
		return rules.Lacking(refs(c.Measure.Ref), expr.Lack{Input: fmt.Sprintf("a result that can be worked out: %q is neither a measure of this tool nor one of %s", c.Measure.V, strings.Join(well.ClaimNames(), ", ")), Ref: c.Measure.Ref})
	}
	said, err := read(c.Value.V, q, w.Plan.System)
	if err != nil {
		return rules.Lacking(refs(c.Value.Ref), expr.Lack{Input: fmt.Sprintf("a readable value of %s: %s", s.Name, err), Ref: c.Value.Ref})
	}
	ok, note := said.heldAgainst(q)
	return rules.Truth(ok, append(refs(c.Value.Ref, c.Ref), q.Refs...)...).With(note)
}

// looked reads a claim about one of the tool's own measures, on each subject the
// string has of its kind.
func looked(s rules.Subject, name string) (well.Claimed, error) {
	var out well.Claimed
	if s.Look == nil {
		return out, nil
	}
	var lack well.Missing
	for _, n := range s.Look(name) {
		m := n.Measure
		switch {
		case m.Err != nil:
			return out, m.Err
		case !m.Result.Known:
			lack = append(lack, m.Result.Lacks...)
		case m.Result.Value.Kind == expr.Num && m.Absent == "" && m.Unloaded == "":
			out.Dim, out.Small = n.Check.Type.Dim, n.Check.Small
			out.Readings = append(out.Readings, well.Reading{Value: m.Result.Value.SI, By: n.Subject})
			out.Refs = append(out.Refs, m.Refs...)
		}
	}
	if len(out.Readings) == 0 && len(lack) > 0 {
		return out, lack
	}
	return out, nil
}

// written is a claimed value as printed.
type written struct {
	text   string
	number float64
	unit   units.Unit
	half   float64 // half a unit of the last printed digit, in unit
}

// read reads a claimed value: in its own unit, or in the one the quantity is
// shown in. A count of sacks may stand bare.
func read(text string, q well.Claimed, s units.System) (written, error) {
	v, err := units.Parse(text)
	if err != nil {
		return written{}, err
	}
	out := written{text: text, number: v.Number, unit: v.Unit, half: digits(text)}
	if !v.HasUnit {
		out.unit, _ = units.Best(q.Readings[0].Value, q.Dim, s, q.Small)
		if q.Dim == units.Mass {
			out.unit, _ = units.ByName("sk")
		}
		return out, nil
	}
	if v.Unit.Dim == units.Mass && q.Dim == units.Force { // a weight told as a mass, as hook loads are
		out.unit.Factor *= units.G
		return out, nil
	}
	if _, ok := v.Unit.Dim.Join(q.Dim); !ok {
		return out, fmt.Errorf("%q isn't %s", text, q.Dim)
	}
	return out, nil
}

// digits is half a unit of the last digit a number is printed with: 0.005 of
// 1.32, 0.5 of 8163. Zeros a whole number ends in may come of rounding as far
// as three digits stay: 5 of 8160 and of 8000, 500 of 144,000, 0.5 of 250.
func digits(text string) float64 {
	number := strings.TrimLeft(strings.TrimSpace(text), "+-")
	end := strings.IndexFunc(number, func(r rune) bool { return r != '.' && r != ',' && (r < '0' || r > '9') })
	if end >= 0 {
		number = number[:end]
	}
	whole, decimals, found := strings.Cut(number, ".")
	switch {
	case found:
		return 0.5 * math.Pow10(-len(decimals))
	}
	half := 0.5
	whole = strings.ReplaceAll(whole, ",", "")
	for n := len(whole); n > 3 && strings.HasSuffix(whole[:n], "0"); n-- {
		half *= 10
	}
	return half
}

// heldAgainst says whether a reading gives the printed digits, by which
// convention, and else which comes nearest.
func (v written) heldAgainst(q well.Claimed) (bool, string) {
	near, apart := 0, math.Inf(1)
	for i, r := range q.Readings {
		x := v.unit.FromSI(r.Value)
		off := math.Abs(x - v.number)
		half := v.half
		if r.Whole {
			x, half = math.Ceil(x-1e-9), 1e-9
			off = math.Abs(x - v.number)
		}
		if off <= half*(1+1e-9) {
			return true, "stated " + v.text + ", " + v.ours(q) + v.by(r, i)
		}
		if off < apart {
			near, apart = i, off
		}
	}
	text := "stated " + v.text + ", " + v.ours(q) + v.by(q.Readings[0], 0)
	if near > 0 {
		text += "; the nearest is " + v.show(q.Readings[near].Value) + v.by(q.Readings[near], near)
	}
	return false, text
}

func (v written) ours(q well.Claimed) string { return "worked out " + v.show(q.Readings[0].Value) }

// by names a convention in brackets; the tool's own needs no name.
func (v written) by(r well.Reading, i int) string {
	switch {
	case r.By == "":
		return ""
	case i == 0:
		return " (" + r.By + ")"
	}
	return "; by " + r.By
}

// show writes a value in the claim's own unit, with a digit more than it has
// where that digit isn't 0.
func (v written) show(si float64) string {
	decimals := 0
	for h := v.half; h < 0.4 && decimals < 6; h *= 10 {
		decimals++
	}
	x := v.unit.FromSI(si)
	text := units.Decimal(x, decimals+1)
	if strings.HasSuffix(text, "0") {
		text = units.Decimal(x, decimals)
	}
	if v.unit.Symbol != "1" {
		text += " " + v.unit.Symbol
	}
	return text
}

func refs(list ...place.Ref) []place.Ref { return list }
