package strength

const outside = " Outside: the heaviest mud of the string's hole as a full column, in open hole no less than high pore pressure. Rating: API TR 5C3 under the axial force of the case without bending, in the edition of the basis; wall less wear."

// FullEvacuation is collapse of an empty string.
var FullEvacuation = factor("collapse.full_evacuation", "Nothing inside: production strings, the parent of a production liner where gas or a pump may empty it, and any string with a hole drilled by air, gas, foam or mist below."+outside)

// MudDrop is collapse by mud falling on losses.
var MudDrop = factor("collapse.mud_drop", "Mud of a later hole fallen to the deepest level that balances a named zone of losses at low pore pressure; none named, over the whole open hole at the lesser of low pore pressure and the loss gradient of the basis. Nothing above the level, mud below."+outside)

// EndOfCementing is collapse with the cement in place.
var EndOfCementing = factor("collapse.end_of_cementing", "Each stage in place, displacement fluid inside, bled off, float holding; outside, mud and slurries. A tail whose top isn't planned: the heaviest slurry over the whole cemented length.")

// Production is collapse in production.
var Production = factor("collapse.production", "Depleted pressure below the packer; above it packer fluid fallen to balance it, or nothing with gas lift."+outside)

// MobileFormation is collapse by a formation that moves.
var MobileFormation = factor("collapse.mobile_formation", "Overburden, or 1.00 psi/ft, across each mobile formation; inside the lowest that evacuation and losses leave.")

// Running is collapse while running.
var Running = factor("collapse.running", "Empty between fills (a joint of 40 ft where not stated), or over the floated length; mud outside at landed depth.")

// Inflow is collapse at an inflow test.
var Inflow = factor("collapse.inflow", "The lighter fluid of a planned inflow test inside, no pressure on it."+outside)

// AnnulusOutside is collapse by pressure held on the annulus.
var AnnulusOutside = factor("collapse.annulus_pressure", "Highest pressure held on the annulus outside a production string, its inside bled off to the fluid in it.")
