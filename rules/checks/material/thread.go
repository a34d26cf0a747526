package material

import (
	"spudgate/plan/expr"
	"spudgate/plan/pipe"
	"spudgate/plan/well"
	"spudgate/rules"
)

// GasInProduction is whether a string faces gas while the well produces.
var GasInProduction = &rules.Check{Name: "material.gas_in_production", About: rules.String, Type: expr.Type{Kind: expr.Truth},
	Doc: "True when some length of the string faces the tubing annulus or produced fluid and the well is for gas or storage, gas lift is planned, or a zone of its own hole can flow gas.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		yes, why, err := w.GasInProduction(s.String)
		if err != nil {
			return rules.From(err, s.Ref)
		}
		return rules.Truth(yes, s.Ref).With(why)
	}}

// APIThread is whether a segment is joined by an API thread.
var APIThread = ofPipe("material.api_thread", expr.Truth,
	"True for the threads of API Spec 5B that seal by compound: STC, LTC, BTC. A connection of another name is taken as its maker's and gas-tight.",
	func(w *well.Well, str int, p *well.Pipe) rules.Measure {
		switch {
		case well.Proprietary(p.ConnErr):
			return rules.Truth(false, p.Plan.Connection.Ref)
		case p.ConnErr != nil:
			return rules.From(p.ConnErr, p.Plan.Ref)
		}
		return rules.Truth(p.Conn != pipe.Plain, p.Plan.Connection.Ref)
	})

// ThreadMade is whether the standards make a thread in this size and grade.
var ThreadMade = ofPipe("material.thread_made", expr.Truth,
	"True when API Spec 5B and 5CT have the thread and its coupling in this size, and the grade with this thread: long round thread from 4-1/2 to 9-5/8 in and in 20 in only, H40 with short round thread only. From memory.",
	func(w *well.Well, str int, p *well.Pipe) rules.Measure {
		ok, why, err := w.ThreadMade(p)
		if err != nil {
			return rules.From(err, p.Plan.Connection.Ref)
		}
		return rules.Truth(ok, p.Plan.Connection.Ref, p.Plan.OD.Ref, p.Plan.Grade.Ref).With(why)
	})
