package coverage_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
)

func TestIsolationStandard(t *testing.T) {
	// 500 m of 1.90 SG cement under 1,800 m of 1.20 SG mud hold 3,110 m of water
	// against 2,415 of pore pressure: 6.816 MPa over. In 8-1/2 x 7 in, 38.1 mm
	// wide, that is gone at 6.816 MPa x 0.0381/(4 x 500) = 130 Pa, 271 lbf/100 ft2.
	gelling := func(minutes string) []string {
		return []string{`"top_of_cement":5,"segments":[{"od":"7 in"`, `"stages":[{"name":"primary","fluids":[{"name":"tail","kind":"tail","density":1.9,"top":1800,"gel_transition":` + minutes + `}]}],"segments":[{"od":"7 in"`}
	}
	run(t, "api-65-2", meadow, []trial{
		{"api652-cgsp-45", "critical-gel-period", "production / Gas sand", gelling("45"), met},
		{"api652-cgsp-45", "critical-gel-period", "production / Gas sand", gelling("46"), not},
		{"api652-cgsp-45: brine can't flow", "critical-gel-period", "intermediate / Wash sand", nil, none},
		{"api652-50psi: 58.9 bar", "barrier-strength", "intermediate / primary / tail", nil, none}, // nothing but brine in its hole
		{"api652-50psi: 36 bar at 8 h", "barrier-strength", "surface / primary / tail", nil, met},
		{"api652-50psi: 3.45 bar is 50.04 psi", "barrier-strength", "surface / primary / tail", []string{`"time":8,"strength":36`, `"time":8,"strength":3.45`}, met},
		{"api652-50psi: 3.44 bar is 49.9 psi", "barrier-strength", "surface / primary / tail", []string{`"time":8,"strength":36`, `"time":8,"strength":3.44`}, not},
		{"api652-two-barriers", "two-barriers", "production", nil, met},
		{"api652-two-barriers", "two-barriers", "production", []string{`,{"name":"b","string":"production","kind":"seal"}`, ``}, not},
		{"api652-two-barriers: none listed", "two-barriers", "surface", nil, open},
		{"api652-cgsp-45: no gel of the slurry", "critical-gel-period", "production / Gas sand", nil, open},
	})
}

func TestDeepwaterStandard(t *testing.T) {
	run(t, "api-96", fjord, []trial{
		{"api96-margin: 1.60 - 1.30 SG", "drilling-margin", "three", nil, met},
		{"api96-margin: 1.29 - 1.30 SG", "drilling-margin", "three", []string{`"fracture":"1.6 SG"`, `"fracture":"1.29 SG"`}, not},
		{"api96-margin: riserless", "drilling-margin", "one", nil, none},
		{"api96-df", "design-factors", "well", nil, met},
		{"api96-df", "design-factors", "well", []string{`"collapse":1.1,`, ``}, not},
		{"api96-shoetrack: 25 m", "shoe-track", "production", nil, met},
		{"api96-shoetrack: collar at the shoe", "shoe-track", "production", []string{`3475`, `3500`}, not},
		{"api652-two-barriers", "two-barriers", "production", nil, met},
		{"api652-two-barriers", "two-barriers", "production", []string{`{"name":"a","string":"production","kind":"cement"},`, ``}, not},
		{"hpht-def: 120 degC", "hpht-temperature", "well", nil, met},
		{"hpht-def: 350 degF is 176.67 degC", "hpht-temperature", "well", []string{`"flowing":120`, `"flowing":177`}, not},
		{"hpht-def", "hpht-pressure", "three", nil, met},
		// 3.40 SG at 3,500 m is 1,167 bar, gas over it some 80: more than 1,034 bar.
		// The shoe, at 3,300 m, holds 4 SG, 1,295 bar: it doesn't limit that.
		{"hpht-def", "hpht-pressure", "three", []string{`"pore":"1.3 SG","fracture":"1.8 SG"`, `"pore":"3.4 SG","fracture":"4 SG"`, `"fracture":"1.6 SG"`, `"fracture":"4 SG"`, `"to":2000`, `"to":3300`, `"from":2000`, `"from":3300`, `"shoe":2000`, `"shoe":3300`}, not},
	})
}

func TestFracturedWells(t *testing.T) {
	notFractured := []string{`"stimulation_pressure":400,"stimulation_path":"casing","stimulation_top_tvd":2300`, `"packer_fluid":1.1`}
	run(t, "api-100-1", meadow, []trial{
		{"rp1001-surf-100: 205 - 110 m is 311 ft", "surface-depth", "surface", nil, met},
		{"rp1001-surf-100: 30 m is 98.4 ft", "surface-depth", "surface", []string{`"depth":105`, `"depth":170`}, not},
		{"rp1001-surf-100: 30.5 m is 100.07 ft", "surface-depth", "surface", []string{`"depth":105`, `"depth":169.5`}, met},
		{"rp1001-surf-100: not fractured", "surface-depth", "surface", append([]string{`"depth":105`, `"depth":170`}, notFractured...), none},
		{"rp1001-surf-100: cement", "surface-cement", "surface", nil, met},
		{"rp1001-surf-100: cement", "surface-cement", "surface", []string{`"kind":"tail","top":5`, `"kind":"tail","top":8`}, not},
		{"rp1001-scope: gas under the intermediate", "intermediate-zone", "intermediate / Wash sand", nil, none},
		{"rp1001-scope: gas in its hole, 700 - 180 m", "intermediate-zone", "intermediate / Wash sand", []string{`salt_water`, `gas`}, met},
		{"rp1001-scope: cement from 700 m", "intermediate-zone", "intermediate / Wash sand", []string{`salt_water`, `gas`, `"top":180`, `"top":700`}, not},
		{"rp1001-scope: water under the surface shoe, 305 - 180 m", "intermediate-water", "intermediate", []string{`"depth":105`, `"depth":300`}, met},
		{"rp1001-scope: cement from 310 m", "intermediate-water", "intermediate", []string{`"depth":105`, `"depth":300`, `"top":180`, `"top":310`}, not},
		{"rp1001-scope: covered by surface casing", "intermediate-water", "intermediate", nil, none},
		{"rp1001-prod-500: 2,300 - 2,147 m is 502 ft", "production-cement", "production", []string{`"top_of_cement":5`, `"top_of_cement":2147`}, met},
		{"rp1001-prod-500: 152 m is 498.7 ft", "production-cement", "production", []string{`"top_of_cement":5`, `"top_of_cement":2148`}, not},
		{"rp1001-prod-500: not beside it", "production-cement", "intermediate", nil, none},
		{"rp1001-test", "treating-test", "production", nil, met},
		{"rp1001-test", "treating-test", "production", []string{`"string":"production","pressure":400`, `"string":"production","pressure":399`}, not},
		{"rp1001-test: shoe", "shoe-test", "surface", nil, met},
		{"rp1001-test: shoe", "shoe-test", "surface", []string{`"kind":"shoe","string":"surface"`, `"kind":"seal","string":"surface"`}, not},
		{"rp1001-test: nothing drilled below", "shoe-test", "production", nil, none},
	})
}

func TestSurfaceStacks(t *testing.T) {
	run(t, "api-53", meadow, []trial{
		// 1.05 SG to 2,500 m is 257 bar, less than that at the surface.
		{"bop-ram-masp", "ram-rating", "second stack", nil, met},
		{"bop-ram-masp", "ram-rating", "second stack", []string{`"rating":690`, `"rating":100`}, not},
		{"bop-wellhead-derate: 207 on 207 bar", "test-within-wellhead", "first stack", nil, met},
		{"bop-wellhead-derate: the stack's own rating", "test-within-wellhead", "first stack", []string{`"test_pressure":207`, `"test_pressure":345`}, not},
		{"bop-wellhead-derate: head under the pressure", "pressure-within-wellhead", "second stack", nil, met},
		{"bop-wellhead-derate: head under the pressure", "pressure-within-wellhead", "second stack", []string{`"string":"intermediate","rating":345`, `"string":"intermediate","rating":100`}, not},
		{"bop-min-class: four on 690 bar", "stack-class", "second stack", nil, met},
		{"bop-min-class: three on 690 bar", "stack-class", "second stack", []string{`"pipe_rams":2,"blind_rams":0`, `"pipe_rams":1,"blind_rams":0`}, not},
		{"bop-min-class: three on 345 bar", "stack-class", "second stack", []string{`"rating":690`, `"rating":345`, `"pipe_rams":2,"blind_rams":0`, `"pipe_rams":1,"blind_rams":0`}, met},
		{"bop-class5", "five-annular", "first stack", nil, met},
		{"bop-class5: five rams", "five-annular", "first stack", []string{`"annulars":1,"pipe_rams":2,"blind_rams":1`, `"annulars":0,"pipe_rams":3,"blind_rams":1`}, not},
		{"bop-class5", "five-pipe", "first stack", nil, met},
		{"bop-class5: one pipe ram", "five-pipe", "first stack", []string{`"annulars":1,"pipe_rams":2,"blind_rams":1`, `"annulars":1,"pipe_rams":1,"blind_rams":2`}, not},
		{"bop-class5: a stack of four", "five-pipe", "second stack", nil, none},
		{"bop-class5", "five-shear", "first stack", []string{`"blind_rams":1,"shear_rams":1`, `"blind_rams":2,"shear_rams":0`}, not},
		{"bop-bore: 13-5/8 over 13-3/8 in", "stack-bore", "first stack", nil, met},
		{"bop-bore: 11 in", "stack-bore", "first stack", []string{`"bore":"13.625 in"`, `"bore":"11 in"`}, not},
	})
}

func TestSourStandard(t *testing.T) {
	chrome := []string{`"grade":"L80","connection":"LTC"`, `"grade":"L80-13Cr","connection":"LTC"`}
	run(t, "iso-15156", meadow, []trial{
		// 100 ppm of 248 to 258 bar, reservoir to wellhead, is 2.0 to 2.6 kPa.
		{"sour-threshold, sour-A3-all", "carbon-steel", "production / 7 26 L80 LTC", nil, met},
		{"sour-A3-80: P110 cold", "carbon-steel", "production / 7 26 P110 LTC", []string{`"grade":"L80","connection":"LTC"`, `"grade":"P110","connection":"LTC"`}, not},
		{"sour-threshold: 10 ppm, 0.2 kPa", "carbon-steel", "production / 7 26 P110 LTC", []string{`"grade":"L80","connection":"LTC"`, `"grade":"P110","connection":"LTC"`, `"h2s":100`, `"h2s":10`}, none},
		{"sour-13cr", "chrome-13", "production / 7 26 L80-13Cr LTC", chrome, met},
		{"sour-13cr: 500 ppm, 10 to 13 kPa", "chrome-13", "production / 7 26 L80-13Cr LTC", append([]string{`"h2s":100`, `"h2s":600`}, chrome...), not},
		{"sour-cra-no-floor: 1 ppm", "chrome-13", "production / 7 26 L80-13Cr LTC", append([]string{`"h2s":100`, `"h2s":1`}, chrome...), met},
		{"sour-13cr: carbon steel", "chrome-13", "production / 7 26 L80 LTC", nil, none},
	})
}

func TestFjord(t *testing.T) {
	run(t, "norway", fjord, []trial{
		{"norsok-r4-100", "above-shoe", "intermediate", []string{`"top_of_cement":1500`, `"top_of_cement":1900`}, met},
		{"norsok-r4-100", "above-shoe", "intermediate", []string{`"top_of_cement":1500`, `"top_of_cement":1901`}, not},
		{"norsok-r4-200: 3,500 - 3,300 m", "production-above-shoe", "production", []string{`"top_of_cement":2800`, `"top_of_cement":3300`}, met},
		{"norsok-r4-200", "production-above-shoe", "production", []string{`"top_of_cement":2800`, `"top_of_cement":3301`}, not},
		{"norsok-r3-cement-200: 3,200 - 3,000 m", "zone-cement", "production / Brant sand", []string{`"top_of_cement":2800`, `"top_of_cement":3000`}, met},
		{"norsok-r3-cement-200", "zone-cement", "production / Brant sand", []string{`"top_of_cement":2800`, `"top_of_cement":3001`}, not},
		{"norsok-r3-cement-200: to a shoe 50 m up", "zone-cement", "production / Brant sand", []string{`"top":3200`, `"top":2050`, `"top_of_cement":2800`, `"top_of_cement":2000`}, met},
		{"norsok-r4-interval: logged", "barrier-by-log", "production / Brant sand", []string{`"top_of_cement":2800`, `"top_of_cement":3170`}, met},
		{"norsok-r4-interval: logged", "barrier-by-log", "production / Brant sand", []string{`"top_of_cement":2800`, `"top_of_cement":3171`}, not},
		{"norsok-r4-interval: by volume", "barrier-by-volume", "production / Brant sand", []string{`bond_log`, `returns`, `"top_of_cement":2800`, `"top_of_cement":3150`}, met},
		{"norsok-r4-interval: by volume", "barrier-by-volume", "production / Brant sand", []string{`bond_log`, `returns`, `"top_of_cement":2800`, `"top_of_cement":3151`}, not},
		{"norsok-r4-interval: to the top of the string", "barrier-by-log", "production / Brant sand", []string{`"top":3200`, `"top":2010`, `"top":300,"shoe":3500`, `"top":2000,"shoe":3500`, `"top_of_cement":2800`, `"top_of_cement":2000`}, met},
		{"norsok-r3-cement-verify", "shoe-verified", "intermediate", nil, met},
		{"norsok-r3-cement-verify", "shoe-verified", "intermediate", []string{`"kind":"shoe","string":"intermediate"`, `"kind":"seal","string":"intermediate"`}, not},
		{"norsok-r3-cement-verify", "height-verified", "intermediate", nil, met},
		{"norsok-r3-cement-verify", "height-verified", "intermediate", []string{`"top_proven_by":"volume"`, `"top_proven_by":"none"`}, not},
		{"norsok-casing-gastight", "gas-tight", "production / 9-5/8 53.5 P110 Gull Lock", nil, met},
		{"norsok-casing-gastight: gas below it", "gas-tight", "intermediate / 13-3/8 72 P110 BTC", nil, not},
		{"norsok-casing-gastight: no gas below it", "gas-tight", "intermediate / 13-3/8 72 P110 BTC", []string{`"contents":"gas"`, `"contents":"salt_water"`}, none},
		{"norsok-casing-df", "design-factors", "well", nil, met},
		{"norsok-casing-df", "design-factors", "well", []string{`"tension":1.6`, `"kick_volume":4`}, not},
		// (1.30 x 3,500 - 1.025 x 275)/3,200 m = 1.3338 SG; 1.1283 SG at 2,000 m.
		{"norsok-riser-margin", "riser-margin", "three", []string{`"mud_density":1.45`, `"mud_density":1.334`}, met},
		{"norsok-riser-margin", "riser-margin", "three", []string{`"mud_density":1.45`, `"mud_density":1.333`}, not},
		{"norsok-riser-margin: no riser yet", "riser-margin", "one", nil, none},
		{"no-cement-unit-52", "unit-rating", "three", nil, met},
		{"no-cement-unit-52", "unit-rating", "three", []string{`"pump_pressure":690`, `"pump_pressure":50`}, not},
	})
}

func TestFrontier(t *testing.T) {
	noTest := []string{`"kind":"shoe","string":"intermediate"`, `"kind":"seal","string":"intermediate"`}
	cold := []string{`"grade":"L80","connection":"LTC"`, `"grade":"P110","connection":"LTC"`}
	for _, book := range []struct{ id, row string }{{"canada-federal", "ca-fit-10m"}, {"canada-nova-scotia-offshore", "ca-nsfw-fit-10m"}} {
		run(t, book.id, meadow, []trial{
			{book.row, "shoe-test", "intermediate", nil, met},
			{book.row, "shoe-test", "intermediate", noTest, not},
			{book.row + ": nothing drilled below", "shoe-test", "production", nil, none},
			{book.row, "shoe-test-new-hole", "intermediate", nil, met},
			{book.row, "shoe-test-new-hole", "intermediate", []string{`"new_hole":10`, `"new_hole":10.1`}, not},
			{book.row + ": mud of 1.20 SG below", "shoe-test-pressure", "intermediate", []string{`"emw":1.6`, `"emw":1.2`}, met},
			{book.row, "shoe-test-pressure", "intermediate", []string{`"emw":1.6`, `"emw":1.19`}, not},
		})
	}
	run(t, "canada-federal", meadow, []trial{
		{"ca-sour-equip", "sour-pipe", "production / 7 26 L80 LTC", nil, met},
		{"ca-sour-equip", "sour-pipe", "production / 7 26 P110 LTC", cold, not},
	})
	run(t, "canada-nova-scotia-offshore", meadow, []trial{
		{"ca-nsfw-packer: cement from 2,200 m", "packer-in-cement", "production", []string{`"top_of_cement":5`, `"top_of_cement":2200`}, met},
		{"ca-nsfw-packer", "packer-in-cement", "production", []string{`"top_of_cement":5`, `"top_of_cement":2201`}, not},
		{"ca-nsfw-packer: another string", "packer-in-cement", "intermediate", nil, none},
	})
}

func TestOntario(t *testing.T) {
	used := []string{`"grade":"L80","connection":"BTC"`, `"grade":"L80","connection":"BTC","condition":"used"`}
	usedProduction := []string{`"connection":"LTC"`, `"connection":"LTC","condition":"used"`, `"packer":2200`, `"packer":2200,"depleted_pressure":20`}
	caliper := []string{`"to":1000,`, `"to":1000,"hole_basis":"caliper","hole_average":"13 in",`}
	with := func(more []string, pairs ...string) []string { return append(append([]string{}, more...), pairs...) }
	run(t, "canada-ontario", meadow, []trial{
		{"on-int-toc-25m: 205 - 180 m", "intermediate-top", "intermediate", nil, met},
		{"on-int-toc-25m", "intermediate-top", "intermediate", []string{`"top":180`, `"top":181`}, not},
		{"on-int-toc-25m: surface casing", "intermediate-top", "surface", nil, none},
		{"on-int-excess", "intermediate-excess", "intermediate / primary", nil, met},
		{"on-int-excess", "intermediate-excess", "intermediate / primary", []string{`30 %`, `29 %`}, not},
		{"on-int-excess: caliper", "intermediate-excess", "intermediate / primary", caliper, none},
		{"on-int-excess: caliper", "caliper-excess", "intermediate / primary", with(caliper, `30 %`, `20 %`), met},
		{"on-int-excess: caliper", "caliper-excess", "intermediate / primary", with(caliper, `30 %`, `19 %`), not},
		{"on-int-excess: theoretical", "caliper-excess", "intermediate / primary", nil, none},
		{"on-shoe-joint-5m", "shoe-joint", "intermediate", nil, met}, // 1,000 - 995
		{"on-shoe-joint-5m", "shoe-joint", "intermediate", []string{`"float_collar":995`, `"float_collar":995.1`}, not},
		// 200 x 0.0806366 = 16.127 m3, less 15.72 is 0.407 m3: 5.05 m of pipe.
		{"on-surf-shoe-5m", "surface-left-inside", "surface / primary", nil, met},
		{"on-surf-shoe-5m: 15.73 m3 leave 4.93 m", "surface-left-inside", "surface / primary", []string{`15.72`, `15.73`}, not},
		{"on-woc-6h", "wait", "intermediate", []string{`"wait":12`, `"wait":6`}, met},
		{"on-woc-6h", "wait", "intermediate", []string{`"wait":12`, `"wait":5`}, not},
		// (1.6 - 1.1) x 9.80665 x 1,000 m = 49.03 bar; 120 % of it 58.84 bar.
		{"on-woc-6h: strength", "wait-strength", "intermediate", nil, met},
		{"on-woc-6h: strength", "wait-strength", "intermediate", []string{`58.9`, `58.8`}, not},
		{"on-drillout-3600: 36 bar", "drill-out-strength", "surface", nil, met},
		{"on-drillout-3600: 35 bar, more than 500 psi", "drill-out-strength", "surface", []string{`"time":8,"strength":36`, `"time":8,"strength":35`}, not},
		{"on-ptest-before-drillout", "tested-before-drill-out", "surface", nil, met},
		{"on-ptest-before-drillout", "tested-before-drill-out", "surface", []string{`"kind":"casing","string":"surface"`, `"kind":"casing","when":"after_drill_out","string":"surface"`}, not},
		{"on-preflush", "surface-preflush", "surface / primary", nil, met},
		{"on-preflush", "surface-preflush", "surface / primary", []string{`{"name":"wash","kind":"preflush"},`, ``}, not},
		{"on-preflush: drilled with air", "surface-preflush", "surface / primary", []string{`{"name":"wash","kind":"preflush"},`, ``, `"mud_type":"fresh_water","mud_density":1.05`, `"mud_type":"air"`}, none},
		{"on-integrity-18: reservoir 1.05 SG", "integrity-pressure", "intermediate", []string{`"emw":1.6`, `"emw":1.05`}, met},
		{"on-integrity-18", "integrity-pressure", "intermediate", []string{`"emw":1.6`, `"emw":1.04`}, not},
		{"on-integrity-18", "integrity-time", "intermediate shoe", nil, met},
		{"on-integrity-18", "integrity-time", "intermediate shoe", []string{`"new_hole":10,"minutes":10`, `"new_hole":10,"minutes":9`}, not},
		{"on-used-casing: new", "used-test-drilling", "intermediate", nil, none},
		{"on-used-casing", "used-test-drilling", "intermediate", with(used, `"pressure":250`, `"pressure":300`), met},
		{"on-used-casing", "used-test-drilling", "intermediate", with(used, `"pressure":250`, `"pressure":150`), not},
		{"on-used-casing", "used-test-production", "production", usedProduction, met},
		{"on-used-casing", "used-test-production", "production", with(usedProduction, `"string":"production","pressure":400`, `"string":"production","pressure":150`), not},
		{"on-used-casing", "used-test-time", "intermediate test", used, met},
		{"on-used-casing", "used-test-time", "intermediate test", with(used, `"pressure":250,"minutes":10`, `"pressure":250,"minutes":4`), not},
	})
}

func TestQuebec(t *testing.T) {
	top := func(m string) []string { return []string{`"top_of_cement":5`, `"top_of_cement":` + m} }
	noPore := []string{`"pressures":[{"depth":0,"pore":"1.05 SG","fracture":"1.8 SG"},{"depth":2500,"pore":"1.05 SG","fracture":"1.8 SG"}]`, `"pressures":[{"depth":0,"fracture":"1.8 SG"},{"depth":2500,"fracture":"1.8 SG"}]`}
	half := func(m string) []string { return []string{`"kind":"tail","top":5`, `"kind":"tail","top":` + m} }
	run(t, "canada-quebec", meadow, []trial{
		{"qc-pump-plug", "top-plug", "surface / primary", nil, met},
		{"qc-pump-plug", "top-plug", "surface / primary", []string{`"top_plug":true,"displacement"`, `"top_plug":false,"displacement"`}, not},
		{"qc-pump-plug: to surface", "to-surface", "production", nil, met},
		{"qc-pump-plug: to surface", "to-surface", "production", top("6"), not},
		{"qc-pump-plug: intermediate", "to-surface", "intermediate", nil, none},
		{"qc-pump-plug: log", "bond-log", "intermediate", nil, met},
		{"qc-pump-plug: log", "bond-log", "intermediate", []string{`bond_log`, `volume`}, not},
		{"qc-pump-plug: to surface", "bond-log", "production", nil, none},
		{"qc-surf-min: 100 of 200 m", "surface-half", "surface", half("105"), met},
		{"qc-surf-min", "surface-half", "surface", half("106"), not},
		{"qc-surf-min: to surface", "surface-half", "surface", nil, none},
		{"qc-deep-min: 150 m over 2,500 m", "deep-above-shoe", "production", top("2350"), met},
		{"qc-deep-min", "deep-above-shoe", "production", top("2351"), not},
		{"qc-deep-min: salt water too, 700 - 600 m", "deep-zone", "intermediate / Wash sand", []string{`"top":180`, `"top":600`}, met},
		{"qc-deep-min: salt water too", "deep-zone", "intermediate / Wash sand", []string{`"top":180`, `"top":601`}, not},
		{"qc-deep-min: coal", "deep-zone", "intermediate / Wash sand", []string{`salt_water`, `coal`}, none},
		{"qc-deep-min: 50 m into the string before", "deep-previous", "intermediate", []string{`"top":180`, `"top":155`}, met},
		{"qc-deep-min", "deep-previous", "intermediate", []string{`"top":180`, `"top":156`}, not},
		{"qc-woc-12h", "wait", "intermediate", nil, met},
		{"qc-woc-12h: 8 h", "wait", "surface", nil, not},
		{"qc-test-before-shoe", "tested-before-drill-out", "surface", nil, met},
		{"qc-test-before-shoe", "tested-before-drill-out", "intermediate", []string{`"kind":"casing","string":"intermediate"`, `"kind":"seal","string":"intermediate"`}, not},
		{"qc-fit-60m", "shoe-test", "surface", nil, met},
		{"qc-fit-60m", "shoe-test", "surface", []string{`"kind":"shoe","string":"surface"`, `"kind":"seal","string":"surface"`}, not},
		{"qc-fit-60m", "shoe-test-new-hole", "intermediate", []string{`"new_hole":10`, `"new_hole":60`}, met},
		{"qc-fit-60m", "shoe-test-new-hole", "intermediate", []string{`"new_hole":10`, `"new_hole":61`}, not},
		// 1.05 SG over 2,500 m is 257.4 bar; 11 kPa/m over 2,495 m 274.45 bar.
		{"qc-bop-formation", "bop-rating", "three", []string{`"rating":690`, `"rating":258`}, met},
		{"qc-bop-formation", "bop-rating", "three", []string{`"rating":690`, `"rating":257`}, not},
		{"qc-bop-formation: predicted", "bop-rating-presumed", "three", nil, none},
		{"qc-bop-formation: not predicted", "bop-rating-presumed", "three", append([]string{`"rating":690`, `"rating":275`}, noPore...), met},
		{"qc-bop-formation: not predicted", "bop-rating-presumed", "three", append([]string{`"rating":690`, `"rating":274`}, noPore...), not},
		{"qc-cement-3500-36h: on land", "strength-water", "surface / primary / tail", nil, none},
		{"qc-cement-3500-36h", "strength-water", "surface / primary / tail", []string{`"setting":"onshore"`, `"setting":"offshore_surface_bop"`, `"above_ground":5`, `"above_sea_level":5,"water_depth":0`}, met},
		{"qc-cement-3500-36h", "strength-water", "surface / primary / tail", []string{`"setting":"onshore"`, `"setting":"offshore_surface_bop"`, `"above_ground":5`, `"above_sea_level":5,"water_depth":0`, `3500 kPa`, `3499 kPa`}, not},
	})
}

// TestEveryWorldRow holds that each row collected of these books is where
// testdata/world_rows.csv says, and that no requirement stands on a row that
// isn't listed there.
func TestEveryWorldRow(t *testing.T) {
	f, err := os.Open("testdata/world_rows.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 60 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, name := range []string{"api-65-2", "api-96", "api-100-1", "api-53", "iso-15156", "norway", "canada-federal", "canada-nova-scotia-offshore", "canada-ontario", "canada-quebec", "united-kingdom"} {
		b := builtin(t, name)
		have, clauses := map[string]bool{}, map[string]bool{}
		for i := range b.Requirements {
			for _, row := range strings.Split(b.Requirements[i].Row, ", ") {
				have[row] = true
			}
		}
		note(clauses, "person", b.Person)
		note(clauses, "gap", b.Gaps)
		listed := map[string]bool{}
		for _, r := range rows[1:] {
			switch {
			case r[0] != name:
			case r[2] == "requirement":
				listed[r[1]] = true
				if !have[r[1]] {
					t.Errorf("%s: no requirement stands on %s", name, r[1])
				}
			case !clauses[r[2]+" "+r[3]]:
				t.Errorf("%s: %s isn't in the book as a %s of %s", name, r[1], r[2], r[3])
			}
		}
		for row := range have {
			if !listed[row] {
				t.Errorf("%s: %s isn't listed", name, row)
			}
		}
	}
}
