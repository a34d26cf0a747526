package material

import (
	"strings"

	"spudgate/plan/expr"
	"spudgate/plan/well"
	"spudgate/rules"
)

// H2S is the partial pressure of hydrogen sulphide a pipe sees.
var H2S = partial("material.h2s_partial_pressure",
	"Partial pressure of H2S inside the string the pipe belongs to, absolute: mole fraction times the highest absolute pressure at which gas can stand there "+
		"(gas of later holes shut in, reservoir pressure in production life). ISO 15156-2 7.1.2, from memory. Fugacity isn't counted.",
	(*well.Well).H2SInside)

// SourFit is whether pipe and couplings may meet H2S where they're coldest.
var SourFit = ofPipe("material.sour_fit", expr.Truth,
	"True when the grade of the pipe, and that of its couplings, is listed for H2S at the lowest temperature it's exposed to: undisturbed ground beside it, to which a shut-in well cools. "+
		"ISO 15156-2 table A.3, from memory. N80 without a type is taken as type 1; L80, C90, T95 and Q125 as type 1. A proprietary or unlisted grade waits for its qualification.",
	func(w *well.Well, str int, p *well.Pipe) rules.Measure {
		f, err := w.SourFit(str, p.Segment)
		if err != nil {
			return rules.From(err, p.Plan.Grade.Ref, p.Plan.CouplingGrade.Ref)
		}
		return rules.Truth(f.OK, p.Plan.Grade.Ref, p.Plan.CouplingGrade.Ref).Where(f.At).With(f.Note)
	})

// Grade is the grade of a segment as the catalogue names it.
var Grade = ofPipe("material.grade", expr.Text,
	"Grade of the pipe as API Spec 5CT names it, or as written where it's a proprietary one.",
	func(w *well.Well, str int, p *well.Pipe) rules.Measure {
		switch {
		case well.Proprietary(p.GradeErr):
			return rules.Text(strings.TrimSpace(p.Plan.Grade.V), p.Plan.Grade.Ref)
		case p.GradeErr != nil:
			return rules.From(p.GradeErr, p.Plan.Ref)
		}
		return rules.Text(p.Grade.Name, p.Plan.Grade.Ref)
	})
