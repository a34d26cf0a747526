package pressure

import (
	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules"
)

// ZoneContents is what a zone holds.
var ZoneContents = &rules.Check{Name: "zone.contents", About: rules.Zone, Type: expr.Type{Kind: expr.Text},
	Doc: "What the formation holds: none, fresh_water, usable_water, salt_water, oil, gas, oil_and_gas, coal, salt, mineral; as stated.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		f := &w.Plan.Formations[s.Zone]
		if !f.Contents.Known() {
			return rules.From(well.Lack(f.Ref, "what %s holds", f.Name.V))
		}
		return rules.Text(f.Contents.V, f.Contents.Ref)
	}}

// ZoneTDS is how salty a zone's water is.
var ZoneTDS = &rules.Check{Name: "zone.tds", About: rules.Zone, Type: rules.NumType(units.None),
	Doc: "Total dissolved solids of the formation's water, as stated.",
	Measure: func(w *well.Well, s rules.Subject) rules.Measure {
		f := &w.Plan.Formations[s.Zone]
		if !f.TDS.Known() {
			return rules.From(well.Lack(f.Ref, "the dissolved solids of the water in %s", f.Name.V))
		}
		return rules.Num(float64(f.TDS.V), units.None, f.TDS.Ref)
	}}
