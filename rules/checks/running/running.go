// Package running holds the checks of running strings: what hangs on the rig,
// make-up and joints.
package running

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

func input[Q ~float64](name string, x Q, d units.Dim, ref place.Ref) expr.Input {
	return expr.Input{Name: name, SI: float64(x), Dim: d, Ref: ref}
}

const hookDoc = " Load: string at bottom in the mud it is run in, buoyed by pressure-area, vertical component; drag as stated, else by the friction factor stated (C. A. Johancsik, D. B. Friesen and R. Dawson, JPT, June 1984), else none in a vertical hole and the basis's part of buoyed weight in a deviated one; overpull as planned, else the string's weight within the basis's bounds. The pipe that runs a liner is in it, buoyed, where its weight is stated, and drags by the same part of its weight, or rubs by the same factor, where the hole is deviated above the liner's top."

// OnHook is the load on the hoisting system over its rating.
var OnHook = onRig("running.on_hook", "Load on the hook, block included, over the rating of the hoisting system.", "hook load rating", true,
	func(r *plan.Rig) plan.Val[units.Newtons] { return r.HookLoad })

// OnDerrick is the load on the derrick over its rating.
var OnDerrick = onRig("running.on_derrick", "Load on the hook, block included, over the rating of the derrick as stated.", "derrick rating", true,
	func(r *plan.Rig) plan.Val[units.Newtons] { return r.Derrick })

// OnElevator is the load on the casing elevator over its rating.
var OnElevator = onRig("running.on_elevator", "Load below the block over the rating of the casing elevator.", "casing elevator rating", false,
	func(r *plan.Rig) plan.Val[units.Newtons] { return r.Elevator })

// OnSpider is the load on the casing spider over its rating.
var OnSpider = onRig("running.on_spider", "Load below the block over the rating of the casing spider.", "casing spider rating", false,
	func(r *plan.Rig) plan.Val[units.Newtons] { return r.Spider })

func onRig(name, doc, what string, block bool, rating func(*plan.Rig) plan.Val[units.Newtons]) *rules.Check {
	return &rules.Check{Name: name, About: rules.String, Type: rules.NumType(units.None), Doc: doc + hookDoc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			h, err := w.Hanging(s.String)
			if err != nil {
				return rules.From(err, w.Plan.Strings[s.String].Ref)
			}
			rig := &w.Plan.Rig
			v := rating(rig)
			if lacks := rigLacks(rig, v, what, block); len(lacks) > 0 {
				return rules.Lacking([]place.Ref{rig.Ref}, lacks...)
			}
			if !block {
				h.Block = 0
			}
			h.String += h.Pipe
			h.Drag += h.PipeDrag
			return held(w, h, v)
		}}
}

func rigLacks(rig *plan.Rig, v plan.Val[units.Newtons], what string, block bool) []expr.Lack {
	var out []expr.Lack
	if !v.Known() || v.V <= 0 {
		out = append(out, expr.Lack{Input: "the " + what + " of the rig", Ref: rig.Ref})
	}
	if block && !rig.BlockWeight.Known() {
		out = append(out, expr.Lack{Input: "the weight of block and top drive", Ref: rig.Ref})
	}
	return out
}

// held is the load over a rating, with its steps.
func held(w *well.Well, h well.Hanging, rating plan.Val[units.Newtons]) rules.Measure {
	load, err := h.Total()
	if err != nil {
		return rules.From(well.Unusable(err, h.Refs[0], "a usable hook load"), h.Refs...)
	}
	step, err := h.TotalWorking()
	if err != nil {
		return rules.From(err, h.Refs...)
	}
	part := float64(load) / float64(rating.V)
	return rules.Num(part, units.None, append([]place.Ref{rating.Ref}, h.Refs...)...).
		With(h.DragNote+"; "+h.OverpullNote).
		By(step, expr.Working{Formula: "load / rating", Inputs: []expr.Input{input("load", load, units.Force, 0), input("rating", rating.V, units.Force, rating.Ref)},
			Result: input("part", units.Fraction(part), units.None, 0), Source: "load over rating as stated"})
}

// RoundTorque is planned make-up torque over the optimum of a round thread.
var RoundTorque = torque("running.torque", "Planned make-up torque over the optimum of API 8-round thread, 1 % of joint strength (API RP 5C1; 75 to 125 % of the optimum is its window). Not for buttress, made up by position, nor for a maker's own connection, made up to its data sheet.")

func torque(name, doc string) *rules.Check {
	return &rules.Check{Name: name, About: rules.Segment, Type: rules.NumType(units.None), Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			seg := &w.Plan.Strings[s.String].Segments[s.Segment]
			best, r, err := w.BestTorque(s.String, s.Segment)
			if err != nil {
				return rules.From(err, seg.Ref)
			}
			if !seg.Torque.Known() {
				return rules.From(well.Lack(seg.Ref, "the make-up torque of %s", seg.Label()), seg.Ref)
			}
			part := float64(seg.Torque.V) / float64(best)
			return rules.Num(part, units.None, seg.Torque.Ref, r.Joint.Ref).
				With("optimum "+units.Show(float64(best), units.Torque, w.Plan.System, false)).
				By(expr.Working{Formula: "0.01 ft * joint", Inputs: []expr.Input{input("joint", r.Joint.Value, units.Force, r.Joint.Ref)},
					Result: input("optimum", best, units.Torque, 0), Source: "API RP 5C1: 1 % of joint strength, ft-lbf of lbf"},
					expr.Working{Formula: "torque / optimum", Inputs: []expr.Input{input("torque", seg.Torque.V, units.Torque, seg.Torque.Ref), input("optimum", best, units.Torque, 0)},
						Result: input("part", units.Fraction(part), units.None, 0), Source: "planned over optimum"})
		}}
}

// JointLength is the average length of the joints planned.
var JointLength = ofSegment("running.joint_length", "Length of a segment over the number of joints planned.",
	func(w *well.Well, s rules.Subject) (units.Meters, error) { return w.AverageJoint(s.String, s.Segment) },
	func(seg *plan.Segment) place.Ref { return seg.Joints.Ref })

// ShortestJoint is the least length of the range ordered.
var ShortestJoint = ofSegment("running.shortest_joint", "Shortest joint of the range ordered (API Spec 5CT): R1 16 ft, R2 25 ft, R3 34 ft.",
	func(w *well.Well, s rules.Subject) (units.Meters, error) {
		least, _, err := jointRange(w, s)
		return least, err
	}, func(seg *plan.Segment) place.Ref { return seg.Range.Ref })

// LongestJoint is the greatest length of the range ordered.
var LongestJoint = ofSegment("running.longest_joint", "Longest joint of the range ordered (API Spec 5CT): R1 25 ft, R2 34 ft, R3 48 ft.",
	func(w *well.Well, s rules.Subject) (units.Meters, error) {
		_, most, err := jointRange(w, s)
		return most, err
	}, func(seg *plan.Segment) place.Ref { return seg.Range.Ref })

func ofSegment(name, doc string, measure func(*well.Well, rules.Subject) (units.Meters, error), at func(*plan.Segment) place.Ref) *rules.Check {
	return &rules.Check{Name: name, About: rules.Segment, Type: rules.NumType(units.Length), Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			seg := &w.Plan.Strings[s.String].Segments[s.Segment]
			v, err := measure(w, s)
			if err != nil {
				return rules.From(err, seg.Ref)
			}
			return rules.Num(float64(v), units.Length, at(seg))
		}}
}

func jointRange(w *well.Well, s rules.Subject) (least, most units.Meters, err error) {
	seg := &w.Plan.Strings[s.String].Segments[s.Segment]
	least, most, ok := well.JointRange(seg.Range.V)
	if !ok {
		return 0, 0, well.Lack(seg.Ref, "the length range of %s in %s", seg.Label(), w.Plan.Strings[s.String].Name.V)
	}
	return least, most, nil
}
