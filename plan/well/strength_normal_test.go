package well_test

import (
	"strings"
	"testing"

	"spudgate/plan/well"
	"spudgate/rules/checks/checktest"
)

// normal are wells of every day that must not alarm: strengths that nobody
// would question, and cases that don't apply must say so.
var normal = map[string]string{
	"driven conductor, development onshore": `"units":"field","well":{"name":"N1","vertical":true,"class":"development","purpose":"oil"},
"sections":[{"name":"12 hole","string":"S","bit":12.25,"from":120,"to":1500,"mud_density":9,"pressure_control":"diverter"},{"name":"8 hole","string":"P","bit":8.75,"from":1500,"to":7000,"mud_density":9.5,"pressure_control":"bop_surface"}],
"strings":[{"name":"C","role":"drive","set_by":"driven","shoe":120,"segments":[{"od":20,"weight":94,"grade":"K55","connection":"BTC"}]},
{"name":"S","role":"surface","shoe":1500,"top_of_cement":0,"segments":[{"od":9.625,"weight":36,"grade":"J55","connection":"LTC"}]},
{"name":"P","role":"production","shoe":7000,"top_of_cement":1000,"segments":[{"od":5.5,"weight":17,"grade":"N80","connection":"LTC"}]}],
"pressures":[{"depth":0,"pore":8.5,"fracture":14},{"depth":7000,"pore":9,"fracture":15}]`,
	"riserless, subsea, jetted conductor": `"units":"field","well":{"name":"N2","vertical":true,"class":"development","purpose":"oil","setting":"offshore_subsea_bop"},"depth_reference":{"name":"rotary","above_sea_level":80,"water_depth":1920},
"sections":[{"name":"26 hole","string":"S","bit":26,"from":2300,"to":4500,"returns":"seabed","mud_type":"water","mud_density":8.6,"pressure_control":"none"},
{"name":"17 hole","string":"I","bit":17.5,"from":4500,"to":8500,"mud_type":"oil","mud_density":9.8,"pressure_control":"bop_subsea"}],
"strings":[{"name":"C","role":"conductor","set_by":"jetted","top":2000,"shoe":2300,"segments":[{"od":36,"wall":1.5,"grade":"X56","yield_strength":56000,"connection":"Weld-on","rating_internal_yield":4000,"rating_collapse":2000,"rating_body":9000000,"rating_joint":7000000}]},
{"name":"S","role":"surface","top":2000,"shoe":4500,"top_of_cement":2000,"segments":[{"od":20,"weight":133,"grade":"N80","connection":"BTC"}]},
{"name":"I","role":"intermediate","top":2000,"shoe":8500,"top_of_cement":6000,"segments":[{"od":13.375,"weight":72,"grade":"P110","connection":"BTC"}]}],
"pressures":[{"depth":2000,"pore":8.5,"fracture":9},{"depth":4500,"pore":8.7,"fracture":11.5},{"depth":8500,"pore":9.2,"fracture":13}]`,
	"production liner, no tie-back": `"units":"field","well":{"name":"N3","vertical":true,"class":"development","purpose":"oil"},
"sections":[{"name":"12 hole","string":"I","bit":12.25,"from":0,"to":8000,"mud_density":10,"pressure_control":"bop_surface"},{"name":"8 hole","string":"L","bit":8.5,"from":8000,"to":11000,"mud_density":10.5,"pressure_control":"bop_surface"}],
"strings":[{"name":"I","role":"intermediate","shoe":8000,"top_of_cement":3000,"segments":[{"od":9.625,"weight":53.5,"grade":"P110","connection":"BTC"}]},
{"name":"L","role":"production_liner","hung_in":"I","top":7700,"shoe":11000,"top_of_cement":7700,"segments":[{"od":7,"weight":32,"grade":"P110","connection":"BTC"}]}],
"pressures":[{"depth":0,"pore":8.6,"fracture":14},{"depth":11000,"pore":10,"fracture":16}]`,
	"monobore, tubingless, metric": `"units":"metric","well":{"name":"N4","vertical":true,"class":"development","purpose":"gas"},
"sections":[{"name":"a","string":"S","bit":"12-1/4 in","from":0,"to":400,"mud_density":1.1,"pressure_control":"diverter"},{"name":"b","string":"P","bit":"8-1/2 in","from":400,"to":1800,"mud_density":1.15,"pressure_control":"bop_surface"}],
"strings":[{"name":"S","role":"surface","shoe":400,"top_of_cement":0,"segments":[{"od":"9-5/8 in","weight":"36 lb/ft","grade":"J55","connection":"STC"}]},
{"name":"P","role":"production","shoe":1800,"top_of_cement":0,"segments":[{"od":"4-1/2 in","weight":"11.6 lb/ft","grade":"N80","connection":"LTC"}]}],
"completion":{"tubingless":true},"pressures":[{"depth":0,"pore":1.03,"fracture":1.6},{"depth":1800,"pore":1.08,"fracture":1.75}]`,
}

// programmed are cases asked from the programme on: a plan without cement
// detail or bump pressure may lack their inputs.
func programmed(name string) bool {
	return strings.Contains(name, "bump") || name == "collapse.end_of_cementing"
}

func TestNormalWellsDoNotAlarm(t *testing.T) {
	limits := map[well.Kind]float64{well.Burst: 1.10, well.Collapse: 1.10, well.Body: 1.60, well.Joint: 1.60, well.Triaxial: 1.25}
	for what, text := range normal {
		w := checktest.Well(t, text)
		judged := 0
		for _, l := range w.StrengthLines() {
			who := what + ", " + w.Plan.Strings[l.String].Name.V + " " + l.Case
			limit := limits[l.Kind]
			switch {
			case strings.HasPrefix(l.Case, "tension.overpull"):
				limit = 1.30
			case l.Case == "collapse.full_evacuation" || l.Case == "collapse.mobile_formation":
				limit = 1.00
			}
			var absent well.Absent
			switch {
			case l.Err != nil && !isAbsent(l.Err, &absent) && !programmed(l.Case):
				t.Errorf("%s: %v", who, l.Err)
			case l.Err == nil && l.Factor > 0 && l.Factor < limit:
				t.Errorf("%s: factor %.2f, wants %.2f", who, l.Factor, limit)
			case l.Err == nil && l.Factor > 0:
				judged++
			}
		}
		if judged < 15 {
			t.Errorf("%s: only %d factors", what, judged)
		}
	}
}

func isAbsent(err error, a *well.Absent) bool {
	v, ok := err.(well.Absent)
	*a = v
	return ok
}
