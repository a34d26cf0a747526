package control

import (
	"spudgate/plan"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// StackRating is the rating of the BOP that serves a section.
var StackRating = rules.OfHole("control.bop_rating", rules.NumType(units.Pressure),
	"Rated working pressure of the rams of the BOP that serves the section: the one named for it, else the one on the string that carries it, else the only one.",
	func(w *well.Well, h *well.Hole) rules.Measure {
		i := w.StackOf(h)
		if i < 0 || !w.Plan.BOPs[i].Rating.Known() {
			return rules.From(well.Lack(h.Plan.Ref, "the rated working pressure of the BOP over %s", h.Plan.Name.V))
		}
		r := w.Plan.BOPs[i].Rating
		return rules.Num(float64(r.V), units.Pressure, r.Ref).With(w.Plan.BOPs[i].Name.V)
	})

// StackRatingBelow is the rating of the BOP over the hole drilled from a shoe.
var StackRatingBelow = rules.OfString("control.bop_rating_below", rules.NumType(units.Pressure),
	"Rated working pressure of the rams of the BOP over the hole drilled from the string's shoe.",
	func(w *well.Well, str int) rules.Measure {
		h, err := w.DrilledOut(str)
		if err != nil {
			return rules.From(err, w.Plan.Strings[str].Ref)
		}
		return StackRating.Measure(w, rules.Subject{Kind: rules.Section, Section: h.Section, Ref: h.Plan.Ref})
	})

// The stated numbers of a stack.
var (
	BOPRating          = stack("bop.rating", "the rated working pressure", "Rated working pressure of the rams.", units.Pressure, func(b *plan.BOP) plan.Val[units.Pascals] { return b.Rating })
	BOPAnnularRating   = stack("bop.annular_rating", "the rating of the annular", "Rated working pressure of the annular preventer.", units.Pressure, func(b *plan.BOP) plan.Val[units.Pascals] { return b.AnnularRating })
	BOPTest            = stack("bop.test_pressure", "the test pressure of the rams", "Pressure the rams are tested to.", units.Pressure, func(b *plan.BOP) plan.Val[units.Pascals] { return b.TestPressure })
	BOPAnnularTest     = stack("bop.annular_test", "the test pressure of the annular", "Pressure the annular preventer is tested to.", units.Pressure, func(b *plan.BOP) plan.Val[units.Pascals] { return b.AnnularTest })
	BOPTestTime        = stack("bop.test_time", "the holding time of the tests", "How long each test of the stack is held.", units.Time, func(b *plan.BOP) plan.Val[units.Seconds] { return b.TestMinutes })
	BOPTestInterval    = stack("bop.test_interval", "the days between tests", "Longest time between tests of the stack.", units.Time, func(b *plan.BOP) plan.Val[units.Seconds] { return b.TestDays })
	BOPAnnulars        = stack("bop.annulars", "the number of annular preventers", "Number of annular preventers.", units.None, func(b *plan.BOP) plan.Val[int] { return b.Annulars })
	BOPPipeRams        = stack("bop.pipe_rams", "the number of pipe rams", "Number of pipe or variable-bore rams.", units.None, func(b *plan.BOP) plan.Val[int] { return b.PipeRams })
	BOPChokes          = stack("bop.chokes", "the number of chokes", "Number of chokes.", units.None, func(b *plan.BOP) plan.Val[int] { return b.Chokes })
	BOPBlindRams       = counted("bop.blind_rams", "the number of blind or blind-shear rams", "Number of rams that close on open hole: blind and shear rams together.", blind)
	BOPRams            = counted("bop.rams", "the numbers of pipe and blind rams", "Number of rams: pipe, variable-bore, blind and shear together.", rams)
	BOPIsolated        = flag("bop.test_isolated", "True when a plug keeps the test of the stack off the casing.", "whether a plug keeps the test off the casing under", func(b *plan.BOP) plan.Val[bool] { return b.TestPlug })
	BOPRemoteChoke     = flag("bop.remote_choke", "True when a choke is worked from the floor.", "whether a choke is worked from the floor, of", func(b *plan.BOP) plan.Val[bool] { return b.RemoteChoke })
	BOPSurfacePressure = &rules.Check{Name: "bop.surface_pressure", About: rules.BOP, Type: rules.NumType(units.Pressure),
		Doc: "Greatest anticipated surface pressure while drilling of the sections the stack serves; see control.surface_pressure.", Measure: served}
)

func blind(b *plan.BOP) plan.Val[int] { return sum(b.BlindRams, b.ShearRams) }

// rams counts all rams; a plan that counts only one kind has only that kind.
func rams(b *plan.BOP) plan.Val[int] { return sum(b.PipeRams, blind(b)) }

func sum(a, b plan.Val[int]) plan.Val[int] {
	if !a.Known() {
		return b
	}
	return plan.Val[int]{V: a.V + b.V, Ref: a.Ref}
}

func counted(name, what, doc string, get func(*plan.BOP) plan.Val[int]) *rules.Check {
	return stack(name, what, doc, units.None, get)
}

func flag(name, doc, what string, get func(*plan.BOP) plan.Val[bool]) *rules.Check {
	return &rules.Check{Name: name, About: rules.BOP, Type: rules.TruthType, Doc: doc,
		Measure: func(w *well.Well, s rules.Subject) rules.Measure {
			b := &w.Plan.BOPs[s.BOP]
			v := get(b)
			if !v.Known() {
				return rules.From(well.Lack(b.Ref, "%s %s", what, b.Name.V))
			}
			return rules.Truth(v.V, v.Ref)
		}}
}

// served is the greatest anticipated surface pressure of the holes a stack
// serves.
func served(w *well.Well, s rules.Subject) rules.Measure {
	b := &w.Plan.BOPs[s.BOP]
	none := rules.None("no hole is drilled with the stack")
	best, found := rules.Measure{}, false
	hs := w.Holes()
	for i := range hs {
		if w.StackOf(&hs[i]) != s.BOP {
			continue
		}
		p, err := w.DrillingSurfacePressure(&hs[i])
		if why, ok := err.(well.Absent); ok {
			none = rules.None(string(why))
			continue
		}
		if err != nil {
			return rules.From(err, b.Ref)
		}
		m := surface(w, p)
		if !found || m.Result.Value.SI > best.Result.Value.SI {
			best, found = m, true
		}
	}
	if !found {
		return none
	}
	return best
}
