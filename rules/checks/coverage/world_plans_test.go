package coverage_test

// meadow is a gas well on land, the rotary 5 m over the ground, vertical, to be
// fractured. Metric: metres, bar, SG. 13-3/8 in 54.5 lb/ft pipe has a bore of
// 12.615 in (API Spec 5CT): 0.0806366 m3/m.
const meadow = `"units":"metric","well":{"name":"M","setting":"onshore","purpose":"gas","class":"development","vertical":true,"spud_date":"2026-12-01","h2s":100},
 "depth_reference":{"above_ground":5},
 "design":{"burst":1.1,"collapse":1.1,"tension":1.6},
 "sections":[
  {"name":"one","bit":"17.5 in","from":5,"to":205,"mud_type":"fresh_water","mud_density":1.05,"pressure_control":"diverter"},
  {"name":"two","bit":"12.25 in","from":205,"to":1000,"mud_type":"fresh_water","mud_density":1.1,"pressure_control":"bop_surface"},
  {"name":"three","bit":"8.5 in","from":1000,"to":2500,"mud_type":"brine","mud_density":1.2,"pressure_control":"bop_surface"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":5,"shoe":205,"wait":8,"top_proven_by":"returns","segments":[{"od":"13.375 in","weight":"54.5 lb/ft","grade":"J55","connection":"BTC"}],
   "stages":[{"name":"primary","top_plug":true,"displacement":15.72,"fluids":[
    {"name":"wash","kind":"preflush"},
    {"name":"tail","kind":"tail","top":5,"strengths":[{"time":4,"strength":10},{"time":8,"strength":36},{"time":36,"strength":"3500 kPa"}]}]}]},
  {"name":"intermediate","role":"intermediate","section":"two","top":5,"shoe":1000,"float_collar":995,"wait":12,"top_proven_by":"bond_log","segments":[{"od":"9.625 in","weight":"40 lb/ft","grade":"L80","connection":"BTC"}],
   "stages":[{"name":"primary","top_plug":true,"excess":"30 %","fluids":[
    {"name":"tail","kind":"tail","top":180,"strengths":[{"time":6,"strength":20},{"time":12,"strength":58.9}]}]}]},
  {"name":"production","role":"production","section":"three","top":5,"shoe":2500,"float_collar":2490,"wait":24,"top_proven_by":"returns","top_of_cement":5,"segments":[{"od":"7 in","weight":"26 lb/ft","grade":"L80","connection":"LTC"}]}],
 "formations":[{"name":"Drift","top":5,"contents":"fresh_water"},{"name":"Wash sand","top":700,"base":720,"contents":"salt_water"},{"name":"Gas sand","top":2300,"base":2350,"contents":"gas"}],
 "water":[{"name":"letter","kind":"base_of_protected_water","depth":105}],
 "completion":{"packer":2200,"perforated_from":2310,"perforated_to":2340,"stimulation_pressure":400,"stimulation_path":"casing","stimulation_top_tvd":2300},
 "wellhead":[{"name":"head","kind":"casing_head","string":"surface","rating":207,"bore":"13.375 in"},{"name":"spool","kind":"casing_spool","string":"intermediate","rating":345,"bore":"11 in"}],
 "bops":[{"name":"first stack","section":"two","on":"surface","rating":345,"test_pressure":207,"bore":"13.625 in","annulars":1,"pipe_rams":2,"blind_rams":1,"shear_rams":1},
  {"name":"second stack","section":"three","on":"intermediate","rating":690,"test_pressure":340,"bore":"11 in","annulars":1,"pipe_rams":2,"blind_rams":0,"shear_rams":1}],
 "tests":[{"name":"surface test","kind":"casing","string":"surface","pressure":100,"minutes":10},
  {"name":"intermediate test","kind":"casing","string":"intermediate","pressure":250,"minutes":10},
  {"name":"production test","kind":"casing","string":"production","pressure":400,"minutes":10},
  {"name":"surface shoe","kind":"shoe","string":"surface","emw":1.5,"fluid":1.1,"new_hole":3},
  {"name":"intermediate shoe","kind":"shoe","string":"intermediate","emw":1.6,"fluid":1.1,"new_hole":10,"minutes":10}],
 "barriers":[{"name":"a","string":"production","kind":"cement"},{"name":"b","string":"production","kind":"seal"}],
 "pressures":[{"depth":0,"pore":"1.05 SG","fracture":"1.8 SG"},{"depth":2500,"pore":"1.05 SG","fracture":"1.8 SG"}]`

// fjord is a subsea well: sea bed at 25 + 275 = 300 m. Pore pressure runs from
// 1.10 SG at 2,000 m to 1.30 SG at 3,500 m.
const fjord = `"units":"metric","well":{"name":"F","setting":"offshore_subsea_bop","purpose":"gas","class":"development","vertical":true,"spud_date":"2026-12-01"},
 "depth_reference":{"above_sea_level":25,"water_depth":275},
 "rig":{"pump_pressure":690,"line_pressure":1034},
 "design":{"burst":1.1,"collapse":1.1,"tension":1.6},
 "sections":[
  {"name":"one","bit":"26 in","from":300,"to":900,"returns":"seabed","pressure_control":"none"},
  {"name":"two","bit":"17.5 in","from":900,"to":2000,"mud_density":1.25,"pressure_control":"bop_subsea"},
  {"name":"three","bit":"12.25 in","from":2000,"to":3500,"mud_density":1.45,"pressure_control":"bop_subsea"}],
 "strings":[
  {"name":"surface","role":"surface","section":"one","top":300,"shoe":900,"top_of_cement":300,"segments":[{"od":"20 in","weight":"133 lb/ft","wall":"0.635 in","connection":"BTC"}]},
  {"name":"intermediate","role":"intermediate","section":"two","top":300,"shoe":2000,"float_collar":1980,"top_of_cement":1500,"top_proven_by":"volume","segments":[{"od":"13.375 in","weight":"72 lb/ft","grade":"P110","connection":"BTC"}]},
  {"name":"production","role":"production","section":"three","top":300,"shoe":3500,"float_collar":3475,"top_of_cement":2800,"top_proven_by":"bond_log","segments":[{"od":"9.625 in","weight":"53.5 lb/ft","grade":"P110","connection":"Gull Lock"}]}],
 "formations":[{"name":"Shale","top":900},{"name":"Brant sand","top":3200,"base":3300,"contents":"gas"}],
 "tests":[{"name":"surface shoe","kind":"shoe","string":"surface","emw":1.4,"new_hole":3},{"name":"deep shoe","kind":"shoe","string":"intermediate","emw":1.6,"new_hole":3}],
 "completion":{"packer":2900},
 "barriers":[{"name":"a","string":"production","kind":"cement"},{"name":"b","string":"production","kind":"seal"}],
 "temperatures":[{"depth":300,"static":4},{"depth":3500,"static":110,"flowing":120}],
 "pressures":[{"depth":300,"pore":"1.03 SG","fracture":"1.2 SG"},{"depth":2000,"pore":"1.1 SG","fracture":"1.6 SG"},{"depth":3500,"pore":"1.3 SG","fracture":"1.8 SG"}]`
