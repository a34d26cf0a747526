package placement

import (
	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

const overRating = "Greatest pressure at the head while a stage is pumped over the least of the stated ratings of cementing head, line and pump. The bump isn't in it."

// HeadStill is the pressure of the columns at the head over what it may be.
var HeadStill = head("placement.surface_pressure_over_rating_still", overRating+" Columns standing still: friction in pipe and annulus isn't in it, so that the pump sees more."+way, false)

// Head is the pressure at the head, friction counted, over what it may be.
var Head = head("placement.surface_pressure_over_rating", overRating+" With the friction of pipe and annulus."+way, true)

func head(name, doc string, moving bool) *rules.Check {
	return ofStage(name, rules.NumType(units.None), doc, func(j job) rules.Measure {
		p, at, err := j.PlacementHead(j.str, j.st, moving)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		rating, name, gaps := leastRating(&j.Plan.Rig)
		if !rating.Known() {
			return rules.Lacking(refs(j.Plan.Rig.Ref), gaps...)
		}
		m := rules.Num(float64(p)/float64(rating.V), units.None, refs(j.stage.Ref, rating.Ref)...).
			With(name + " governs; " + flows(moving) + "; " + j.when(at)).
			By(over("part", input("surface_pressure", p, units.Pressure, 0), input("rating", rating.V, units.Pressure, rating.Ref), "job followed volume by volume"))
		m.Gaps = gaps
		return m
	})
}

// leastRating is the least rating of the pump side that is stated, and what isn't.
func leastRating(r *plan.Rig) (least plan.Val[units.Pascals], name string, gaps []expr.Lack) {
	for _, v := range []struct {
		of string
		v  plan.Val[units.Pascals]
	}{{"cementing head", r.HeadPressure}, {"cementing line", r.LinePressure}, {"pump", r.PumpPressure}} {
		switch {
		case !v.v.Known() || v.v.V <= 0:
			gaps = append(gaps, expr.Lack{Input: "the rating of the " + v.of, Ref: r.Ref})
		case !least.Known() || v.v.V < least.V:
			least, name = v.v, v.of
		}
	}
	return least, name, gaps
}

// BumpSpare is the bump pressure stated over that before the bump.
var BumpSpare = ofStage("placement.bump_spare", rules.NumType(units.Pressure),
	"Total surface pressure stated for the bump less the pressure at the head just before the plug lands; friction counted where every rheology and rate is given, else standing still. Not for a job without a plug."+way,
	func(j job) rules.Measure {
		switch k := j.stage.Kind.V; {
		case k == "inner_string" || k == "top_up" || k == "squeeze":
			return rules.None("no plug is pumped in such a job")
		case j.stage.TopPlug.Known() && !j.stage.TopPlug.V:
			return rules.None("no top plug is planned")
		}
		p, err := j.Placement(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		end, at, err := j.PlacementEnd(j.str, j.st, p.Friction)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		bump := j.stage.BumpPressure
		if !bump.Known() {
			bump = j.string.BumpPressure
		}
		if !bump.Known() {
			return rules.From(well.Lack(j.stage.Ref, "the bump pressure of %s", j.string.Name.V), j.stage.Ref)
		}
		return rules.Num(float64(bump.V-end), units.Pressure, bump.Ref).With(flows(p.Friction) + "; " + j.when(at)).
			By(less("spare", input("bump", bump.V, units.Pressure, bump.Ref), input("end", end, units.Pressure, 0), "job followed volume by volume"))
	})

// FreeFall is how far a pipe runs empty.
var FreeFall = ofStage("placement.free_fall", rules.NumType(units.None),
	"Longest empty length under the head while a stage is pumped, over the length of the path down to where it leaves the string. Without rheology friction doesn't hold the column back, and the length is the longest it can be."+way,
	func(j job) rules.Measure {
		p, err := j.Placement(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		length, step, err := j.Well.FreeFall(j.str, j.st)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		part := float64(length) / float64(p.Exit)
		return rules.Num(part, units.None, refs(j.stage.Ref)...).With(flows(p.Friction) + "; " + j.when(well.PlacementAt{Step: step, Hole: p.Hole})).
			By(over("part", input("empty", length, units.MDLength, 0), input("way", p.Exit, units.MDLength, 0), "job followed volume by volume"))
	})

const liftDoc = "Least force that keeps a string down while a stage is pumped round its shoe; below zero it lifts. Head screwed to the casing: weight in air (vertical component) + hydrostatic pressure inside x bore - pressure outside at the shoe x face, shoulders where the size changes counted. Held by the rig, the pump pressure on the bore comes on top. Where the plan doesn't say which, screwed to the casing, the harder one. Not for a liner, nor a string landed in a subsea wellhead, nor above a stage collar."

// LiftSpareStill is what keeps a string down, standing still.
var LiftSpareStill = lift("placement.lift_spare_still", liftDoc+" Columns standing still."+way, false)

// LiftSpare is what keeps a string down, friction counted.
var LiftSpare = lift("placement.lift_spare", liftDoc+" With the friction of the annulus."+way, true)

func lift(name, doc string, moving bool) *rules.Check {
	return ofStage(name, rules.NumType(units.Force), doc, func(j job) rules.Measure {
		l, err := j.PlacementLift(j.str, j.st, moving)
		if err != nil {
			return rules.From(err, j.stage.Ref)
		}
		net := l.Spare()
		var at place.Ref
		if len(j.string.Segments) > 0 {
			at = j.string.Segments[0].Weight.Ref
		}
		return rules.Num(float64(net), units.Force, refs(j.stage.Ref, at, j.stage.HeadHeld.Ref)...).
			With(j.held(l) + "; " + flows(moving) + "; " + j.when(l.PlacementAt)).
			By(less("net", input("weight", l.Weight, units.Force, at), input("fluids", l.Weight-net, units.Force, 0), "pressure-area, job followed volume by volume"))
	})
}

// held says how the head is held, and what it would be the other way.
func (j job) held(l well.StringLift) string {
	onCasing, onRig := show(j.Well, l.Net, units.Force), show(j.Well, l.OnRig, units.Force)
	switch {
	case l.ByRig:
		return "head held by the rig; screwed to the casing " + onCasing
	case l.Said:
		return "head screwed to the casing; held by the rig " + onRig
	}
	return "head taken as screwed to the casing, the plan doesn't say; held by the rig " + onRig
}
