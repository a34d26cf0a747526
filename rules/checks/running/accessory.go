package running

import (
	"fmt"

	"spudgate/plan"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// AccessoryBurst is the weakest accessory inside against its pipe.
var AccessoryBurst = accessory("running.accessory_burst", "Least internal pressure rating of an accessory of the string, as stated, over the internal yield of the pipe it stands in. Accessories that state none aren't counted.",
	func(a *plan.Accessory) plan.Val[units.Pascals] { return a.RatingBurst },
	func(r *well.Rated) (units.Pascals, error) { return r.Internal.Value, r.Internal.Err })

// AccessoryCollapse is the weakest accessory outside against its pipe.
var AccessoryCollapse = accessory("running.accessory_collapse", "Least external pressure rating of an accessory of the string, as stated, over the collapse rating of the pipe it stands in. Accessories that state none aren't counted.",
	func(a *plan.Accessory) plan.Val[units.Pascals] { return a.RatingCollapse },
	func(r *well.Rated) (units.Pascals, error) { return r.Collapse.Value, r.Collapse.Err })

// AccessoryTension is the weakest accessory in tension against its pipe.
var AccessoryTension = accessory("running.accessory_tension", "Least tension rating of an accessory of the string, as stated, over the joint strength of the pipe it stands in, the body's where it has no threaded joint. Accessories that state none aren't counted.",
	func(a *plan.Accessory) plan.Val[units.Newtons] { return a.RatingTension },
	func(r *well.Rated) (units.Newtons, error) {
		if r.Joint.Err != nil {
			return r.Yield.Value, r.Yield.Err
		}
		return r.Joint.Value, nil
	})

func accessory[Q ~float64](name, doc string, rating func(*plan.Accessory) plan.Val[Q], pipe func(*well.Rated) (Q, error)) *rules.Check {
	return &rules.Check{Name: name, About: rules.String, Type: rules.NumType(units.None), Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			c, err := w.Casing(s.String)
			if err != nil {
				return rules.From(err, w.Plan.Strings[s.String].Ref)
			}
			best := rules.None("no accessory of the string states such a rating")
			least := 0.0
			for i := range c.Plan.Accessories {
				a := &c.Plan.Accessories[i]
				v := rating(a)
				if !v.Known() || !a.Depth.Known() {
					continue
				}
				part, err := against(w, c, a, v.V, pipe)
				if err != nil {
					return rules.From(err, a.Ref)
				}
				if best.Absent == "" && part >= least {
					continue
				}
				least = part
				best = rules.Num(part, units.None, v.Ref).Where(w.AtMD(a.Depth.V, a.Name.V)).With(fmt.Sprintf("%s governs", a.Name.V))
			}
			return best
		}}
}

func against[Q ~float64](w *well.Well, c *well.Casing, a *plan.Accessory, v Q, pipe func(*well.Rated) (Q, error)) (float64, error) {
	r, err := w.Rated(c.Index, c.At(a.Depth.V).Segment)
	if err != nil {
		return 0, err
	}
	p, err := pipe(r)
	if err != nil {
		return 0, err
	}
	if p <= 0 {
		return 0, well.Lack(r.Plan.Ref, "a usable rating of %s", r.Plan.Label())
	}
	return float64(v) / float64(p), nil
}
