package strength

const backup = " Outside: the burst back-up of the basis. Rating: the lowest of body, coupling, leak resistance and stated rating, less wear and heat (API TR 5C3)."

// GasToSurface is burst by a well full of gas.
var GasToSurface = factor("burst.gas_to_surface", "Gas from the worst depth of each later hole the string is open to, limited by fracture pressure plus allowance at the shoe of the deepest string then in the hole; of the constant gradient and the real gas the one with the higher pressure at the top (Bourgoyne et al., ch. 7)."+backup)

// LimitedKick is burst by a kick circulated out.
var LimitedKick = factor("burst.limited_kick", "A kick of the volume the plan sets, circulated out at constant bottom-hole pressure as one bubble, p V kept; the greatest pressure at each depth."+backup)

// LostReturns is burst by fracture pressure with water on top.
var LostReturns = factor("burst.lost_returns", "High fracture pressure at the shoe and water above it, where a later hole names a zone of losses."+backup)

// PressureTest is burst by pressure tests.
var PressureTest = factor("burst.pressure_test", "Every test row that acts on the string, on its fluid, or at its relief setting; a liner's test acts on what stands over its top too."+backup)

// PlugBump is burst by the bump of the plug.
var PlugBump = factor("burst.plug_bump", "Total surface pressure at the bump on displacement fluid down to the collar; outside, mud and slurries as they stand.")

// TubingLeak is burst by a tubing leak near the surface.
var TubingLeak = factor("burst.tubing_leak", "Shut-in tubing pressure on packer fluid down to the packer; without packer, gas inside the casing. Not stated: initial reservoir pressure less gas, no relief at a shoe."+backup)

// Stimulation is burst by stimulation.
var Stimulation = factor("burst.stimulation", "Relief, trip or treating pressure down casing, or down tubing leaking near the surface."+backup)

// Injection is burst by injection.
var Injection = factor("burst.injection", "Highest injection pressure down casing, or down tubing leaking near the surface."+backup)

// ShoeTest is burst by leak-off and integrity tests.
var ShoeTest = factor("burst.shoe_test", "Planned leak-off or integrity pressure on the mud in use, down to the shoe."+backup)

// GasLift is burst by gas-lift kick-off.
var GasLift = factor("burst.gas_lift", "Kick-off pressure on the tubing annulus full of gas, down to the packer."+backup)

// AnnulusPressure is burst of the string around an annulus under pressure.
var AnnulusPressure = factor("burst.annulus_pressure", "Highest pressure held on the annulus outside the production string, on the string around it."+backup)
