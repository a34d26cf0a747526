package units

import "math"

// Unit is one unit of measure: SI = Factor x + Offset.
type Unit struct {
	Symbol string
	Dim    Dim
	Factor float64
	Offset float64
}

// ToSI converts x in u to SI.
func (u Unit) ToSI(x float64) float64 { return u.Factor*x + u.Offset }

// FromSI converts an SI value to u.
func (u Unit) FromSI(x float64) float64 { return (x - u.Offset) / u.Factor }

// Exact conversion factors. The pound, inch and gallon are exact by the 1959
// international agreement and US law; the rest follows from them and G.
const (
	inch   = 0.0254
	foot   = 0.3048
	pound  = 0.45359237
	lbf    = pound * G
	psi    = lbf / (inch * inch)
	gallon = 231 * inch * inch * inch
	barrel = 42 * gallon
	cuft   = foot * foot * foot
	sack   = 94 * pound
	ppg    = pound / gallon
	degree = math.Pi / 180
)

// Exported factors for code that must speak in field units at an edge.
const (
	Inch   = inch
	Foot   = foot
	Psi    = psi
	Lbf    = lbf
	Pound  = pound
	Barrel = barrel
	CuFt   = cuft
	PPG    = ppg
	Sack   = sack
	Degree = degree
	SG     = 1000.0 // fresh water, the trade's 1.00 SG
)

var unitList = []Unit{
	{"m", Length, 1, 0}, {"ft", Length, foot, 0}, {"in", Length, inch, 0}, {"mm", Length, 1e-3, 0}, {"cm", Length, 1e-2, 0}, {"km", Length, 1e3, 0},
	{"in2", Area, inch * inch, 0}, {"mm2", Area, 1e-6, 0}, {"cm2", Area, 1e-4, 0}, {"m2", Area, 1, 0},
	{"bbl/ft", Capacity, barrel / foot, 0}, {"ft3/ft", Capacity, cuft / foot, 0}, {"L/m", Capacity, 1e-3, 0}, {"m3/m", Capacity, 1, 0},
	{"bbl", Volume, barrel, 0}, {"ft3", Volume, cuft, 0}, {"gal", Volume, gallon, 0}, {"L", Volume, 1e-3, 0}, {"m3", Volume, 1, 0},
	{"lb", Mass, pound, 0}, {"klb", Mass, 1e3 * pound, 0}, {"kg", Mass, 1, 0}, {"t", Mass, 1e3, 0}, {"sk", Mass, sack, 0},
	{"psi", Pressure, psi, 0}, {"ksi", Pressure, 1e3 * psi, 0}, {"Pa", Pressure, 1, 0}, {"kPa", Pressure, 1e3, 0}, {"MPa", Pressure, 1e6, 0}, {"bar", Pressure, 1e5, 0}, {"atm", Pressure, 101325, 0},
	{"lbf/100ft2", Pressure, lbf / (100 * foot * foot), 0},
	{"psi/ft", Gradient, psi / foot, 0}, {"psi/1000ft", Gradient, psi / (1000 * foot), 0}, {"kPa/m", Gradient, 1e3, 0}, {"Pa/m", Gradient, 1, 0}, {"bar/m", Gradient, 1e5, 0}, {"bar/10m", Gradient, 1e4, 0},
	{"ppg", Density, ppg, 0}, {"SG", Density, SG, 0}, {"kg/m3", Density, 1, 0}, {"g/cm3", Density, 1e3, 0}, {"kg/L", Density, 1e3, 0}, {"lb/ft3", Density, pound / cuft, 0},
	{"lbf", Force, lbf, 0}, {"klbf", Force, 1e3 * lbf, 0}, {"N", Force, 1, 0}, {"kN", Force, 1e3, 0}, {"MN", Force, 1e6, 0}, {"daN", Force, 10, 0}, {"kgf", Force, G, 0}, {"tonf", Force, 1e3 * G, 0}, {"short tonf", Force, 2e3 * lbf, 0},
	{"ft-lbf", Torque, foot * lbf, 0}, {"kft-lbf", Torque, 1e3 * foot * lbf, 0}, {"N.m", Torque, 1, 0}, {"kN.m", Torque, 1e3, 0},
	{"lb/ft", LinearMass, pound / foot, 0}, {"kg/m", LinearMass, 1, 0},
	{"ft/s", Speed, foot, 0}, {"ft/min", Speed, foot / 60, 0}, {"m/s", Speed, 1, 0}, {"m/min", Speed, 1.0 / 60, 0},
	{"m/s2", Accel, 1, 0},
	{"bbl/min", Rate, barrel / 60, 0}, {"gal/min", Rate, gallon / 60, 0}, {"L/min", Rate, 1e-3 / 60, 0}, {"m3/min", Rate, 1.0 / 60, 0}, {"L/s", Rate, 1e-3, 0}, {"m3/s", Rate, 1, 0},
	{"ft3/sk", Yield, cuft / sack, 0}, {"gal/sk", Yield, gallon / sack, 0}, {"L/sk", Yield, 1e-3 / sack, 0}, {"m3/sk", Yield, 1 / sack, 0}, {"L/100kg", Yield, 1e-5, 0}, {"m3/t", Yield, 1e-3, 0}, {"L/kg", Yield, 1e-3, 0},
	{"degF", Temperature, 5.0 / 9, 459.67 * 5 / 9}, {"degC", Temperature, 1, 273.15}, {"K", Temperature, 1, 0},
	{"degF/100ft", TempGrad, 5.0 / 9 / (100 * foot), 0}, {"degC/100m", TempGrad, 0.01, 0}, {"degC/km", TempGrad, 1e-3, 0}, {"K/m", TempGrad, 1, 0},
	{"s", Time, 1, 0}, {"min", Time, 60, 0}, {"h", Time, 3600, 0}, {"d", Time, 86400, 0},
	{"deg", Angle, degree, 0}, {"rad", Angle, 1, 0},
	{"deg/100ft", Curvature, degree / (100 * foot), 0}, {"deg/30m", Curvature, degree / 30, 0}, {"rad/m", Curvature, 1, 0},
	{"cP", Viscosity, 1e-3, 0}, {"mPa.s", Viscosity, 1e-3, 0}, {"Pa.s", Viscosity, 1, 0},
	{"1", None, 1, 0}, {"%", None, 1e-2, 0}, {"ppm", None, 1e-6, 0},
}

// aliases are other spellings met in plans, already folded by foldUnit.
var aliases = map[string]string{
	`"`: "in", "″": "in", "''": "in", "inch": "in", "inches": "in", "ins": "in",
	"'": "ft", "′": "ft", "feet": "ft", "foot": "ft", "ftmd": "ft", "fttvd": "ft", "mmd": "m", "mtvd": "m",
	"meter": "m", "meters": "m", "metre": "m", "metres": "m", "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
	"sqin": "in2", "in²": "in2", "in^2": "in2", "m²": "m2", "mm²": "mm2",
	"bbls": "bbl", "barrel": "bbl", "barrels": "bbl", "cuft": "ft3", "cf": "ft3", "ft³": "ft3", "ft^3": "ft3", "gals": "gal", "gallon": "gal", "gallons": "gal", "l": "L", "ltr": "L", "litre": "L", "litres": "L", "liter": "L", "liters": "L", "m³": "m3", "m^3": "m3", "cum": "m3",
	"lbs": "lb", "lbm": "lb", "pounds": "lb", "klbs": "klb", "kips": "klbf", "kip": "klbf", "tonne": "t", "tonnes": "t", "mt": "t", "te": "t",
	"sx": "sk", "sks": "sk", "sack": "sk", "sacks": "sk", "sax": "sk",
	"psig": "psi", "barg": "bar", "bars": "bar", "kpag": "kPa", "mpag": "MPa", "pa": "Pa", "lbf/100sqft": "lbf/100ft2", "lb/100ft2": "lbf/100ft2", "lb/100ft²": "lbf/100ft2", "lbf/100ft²": "lbf/100ft2",
	"ppgemw": "ppg", "emwppg": "ppg", "lb/gal": "ppg", "lbm/gal": "ppg", "lbs/gal": "ppg", "sgemw": "SG", "s.g.": "SG", "s.g": "SG", "specificgravity": "SG", "kg/m³": "kg/m3", "kg/m^3": "kg/m3", "g/cc": "g/cm3", "g/cm³": "g/cm3", "g/ml": "g/cm3", "kg/l": "kg/L", "pcf": "lb/ft3", "lb/cuft": "lb/ft3", "lb/ft³": "lb/ft3",
	"lbsf": "lbf", "klbsf": "klbf", "kn": "kN", "mn": "MN", "n": "N", "dan": "daN",
	"ft.lbf": "ft-lbf", "ftlbf": "ft-lbf", "ft-lb": "ft-lbf", "ftlb": "ft-lbf", "ft.lb": "ft-lbf", "ft-lbs": "ft-lbf", "ftlbs": "ft-lbf", "lbf-ft": "ft-lbf", "nm": "N.m", "n.m": "N.m", "n-m": "N.m", "knm": "kN.m", "kn.m": "kN.m", "kn-m": "kN.m",
	"#": "lb/ft", "#/ft": "lb/ft", "ppf": "lb/ft", "lbs/ft": "lb/ft", "lbm/ft": "lb/ft", "lbf/ft": "lb/ft",
	"fps": "ft/s", "ft/sec": "ft/s", "fpm": "ft/min", "m/sec": "m/s",
	"bpm": "bbl/min", "gpm": "gal/min", "lpm": "L/min", "l/min": "L/min", "l/s": "L/s", "m³/min": "m3/min",
	"ft³/sk": "ft3/sk", "cuft/sk": "ft3/sk", "cf/sk": "ft3/sk", "ft3/sx": "ft3/sk", "ft3/sack": "ft3/sk", "gal/sx": "gal/sk", "gal/sack": "gal/sk", "l/sk": "L/sk", "l/100kg": "L/100kg", "l/kg": "L/kg", "m³/t": "m3/t", "m3/mt": "m3/t",
	"f": "degF", "°f": "degF", "deg f": "degF", "degf": "degF", "c": "degC", "°c": "degC", "degc": "degC", "k": "K",
	"°f/100ft": "degF/100ft", "degf/100ft": "degF/100ft", "f/100ft": "degF/100ft", "°c/100m": "degC/100m", "degc/100m": "degC/100m", "°c/km": "degC/km", "c/km": "degC/km",
	"sec": "s", "seconds": "s", "mins": "min", "minute": "min", "minutes": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "day": "d", "days": "d",
	"°": "deg", "degrees": "deg", "degree": "deg", "°/100ft": "deg/100ft", "°/30m": "deg/30m", "degrees/100ft": "deg/100ft",
	"cp": "cP", "mpa.s": "mPa.s", "pa.s": "Pa.s", "mpas": "mPa.s",
	"percent": "%", "pct": "%", "fraction": "1", "mg/l": "ppm",
	"kpa": "kPa", "mpa": "MPa", "kpa/m": "kPa/m", "pa/m": "Pa/m", "bar/10m": "bar/10m", "sg": "SG",
}
