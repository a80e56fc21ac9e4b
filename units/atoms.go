package units

import (
	"strings"
	"sync"
)

// atomRecord is what one name in a unit expression stands for.
type atomRecord struct {
	num    float64 // size in coherent SI is num * 10^exp10
	exp10  int
	dim    dimension
	prefix prefixKind
	basis  string // what the name says beside its size, as psig says gauge
}

// prefixKind tells which SI prefixes a name takes.
type prefixKind uint8

const (
	noPrefix   prefixKind = iota
	signPrefix            // km
	wordPrefix            // kilometre
)

// prefixes of the SI, the longer sign first.
var prefixes = [...]struct {
	sign  string
	exp10 int
	kind  prefixKind
}{
	{"mega", 6, wordPrefix}, {"kilo", 3, wordPrefix}, {"hecto", 2, wordPrefix}, {"deci", -1, wordPrefix},
	{"centi", -2, wordPrefix}, {"milli", -3, wordPrefix}, {"micro", -6, wordPrefix},
	{"da", 1, signPrefix}, {"T", 12, signPrefix}, {"G", 9, signPrefix}, {"M", 6, signPrefix}, {"k", 3, signPrefix},
	{"h", 2, signPrefix}, {"d", -1, signPrefix}, {"c", -2, signPrefix}, {"m", -3, signPrefix},
	{"µ", -6, signPrefix}, {"u", -6, signPrefix}, {"n", -9, signPrefix}, {"p", -12, signPrefix},
}

// surveyFoot is the US survey foot, retired but still behind UCUM's acre.
const surveyFoot = 1200. / 3937

// atoms lists the names a unit expression may hold, those of one size in one
// row: the trade's, then UCUM's in their brackets. Sizes are those of UNITS.md.
var atoms = [...]struct {
	names  string // separated by commas
	num    float64
	exp10  int
	dim    dimension
	prefix prefixKind
	basis  string
}{
	{"m", 1, 0, lengthDim, signPrefix, ""},
	{"metre,metres,meter,meters", 1, 0, lengthDim, wordPrefix, ""},
	{"in,inch,inches,[in_i]", inch, 0, lengthDim, noPrefix, ""},
	{"ft,foot,feet,[ft_i]", foot, 0, lengthDim, noPrefix, ""},
	{"yd,yard,yards,[yd_i]", yard, 0, lengthDim, noPrefix, ""},
	{"mi,mile,miles,[mi_i]", mile, 0, lengthDim, noPrefix, ""},
	{"[ft_us]", surveyFoot, 0, lengthDim, noPrefix, ""},

	{"ha,hectare,hectares,har", 1, 4, areaDim, noPrefix, ""},
	{"ac,acre,acres", acre, 0, areaDim, noPrefix, ""},
	{"[acr_us]", 43560 * surveyFoot * surveyFoot, 0, areaDim, noPrefix, ""},

	{"L,l", 1, -3, volumeDim, signPrefix, ""},
	{"litre,litres,liter,liters", 1, -3, volumeDim, wordPrefix, ""},
	{"cc", 1, -6, volumeDim, noPrefix, ""},
	{"US gal,US gallon,US gallons,[gal_us]", usGallon, 0, volumeDim, noPrefix, ""},
	{"imp gal,imp gallon,imp gallons,imperial gallon,imperial gallons,UK gal,[gal_br]", imperialGallon, 0, volumeDim, noPrefix, ""},
	{"US fl oz,US fluid ounce,US fluid ounces,[foz_us]", usGallon / 128, 0, volumeDim, noPrefix, ""},
	{"imp fl oz,imperial fluid ounce,imperial fluid ounces,[foz_br]", imperialGallon / 160, 0, volumeDim, noPrefix, ""},
	{"US qt,US quart,US quarts,[qt_us]", usGallon / 4, 0, volumeDim, noPrefix, ""},
	{"US pt,US pint,US pints,[pt_us]", usGallon / 8, 0, volumeDim, noPrefix, ""},
	{"US Mgal,US megagallon,US megagallons", usGallon, 6, volumeDim, noPrefix, ""},

	{"g", 1, -3, massDim, signPrefix, ""},
	{"gram,grams,gramme,grammes", 1, -3, massDim, wordPrefix, ""},
	{"t,tonne,tonnes,metric ton,metric tons", 1, 3, massDim, signPrefix, ""},
	{"lb,lbs,lbm,pound,pounds,[lb_av]", pound, 0, massDim, noPrefix, ""},
	{"oz avdp,avdp oz,avoirdupois ounce,avoirdupois ounces,[oz_av]", pound / 16, 0, massDim, noPrefix, ""},
	{"short ton,short tons,US ton,US tons,[ston_av]", 2000 * pound, 0, massDim, noPrefix, ""},
	{"long ton,long tons,imperial ton,imperial tons,[lton_av]", 2240 * pound, 0, massDim, noPrefix, ""},
	{"grain,grains,[gr]", grain, 0, massDim, noPrefix, ""},

	{"s", 1, 0, timeDim, signPrefix, ""},
	{"sec,second,seconds", 1, 0, timeDim, noPrefix, ""},
	{"min,minute,minutes", minute, 0, timeDim, noPrefix, ""},
	{"h,hr,hrs,hour,hours", hour, 0, timeDim, noPrefix, ""},
	{"d,day,days", day, 0, timeDim, noPrefix, ""},
	{"wk,week,weeks", 7 * day, 0, timeDim, noPrefix, ""},

	{"kn,knot,knots,[kn_i]", 1852. / hour, 0, speedDim, noPrefix, ""},
	{"mph", mile / hour, 0, speedDim, noPrefix, ""},
	{"kph", 1e3 / hour, 0, speedDim, noPrefix, ""},
	{"fps", foot, 0, speedDim, noPrefix, ""},
	{"g_n,[g]", gravity, 0, accelDim, noPrefix, ""},

	{"cfs", foot * foot * foot, 0, flowDim, noPrefix, ""},
	{"cfm", foot * foot * foot / minute, 0, flowDim, noPrefix, ""},
	{"lps,LPS", 1, -3, flowDim, noPrefix, ""},
	{"lpm,LPM", 1e-3 / minute, 0, flowDim, noPrefix, ""},
	{"US gpm,US GPM,gpm US", usGallon / minute, 0, flowDim, noPrefix, ""},
	{"US gph", usGallon / hour, 0, flowDim, noPrefix, ""},
	{"US gpd", usGallon / day, 0, flowDim, noPrefix, ""},
	{"US mgd,US MGD", 1e6 * usGallon / day, 0, flowDim, noPrefix, ""},
	{"imp gpm,imp GPM", imperialGallon / minute, 0, flowDim, noPrefix, ""},

	{"N", 1, 0, forceDim, signPrefix, ""},
	{"newton,newtons", 1, 0, forceDim, wordPrefix, ""},
	{"lbf,[lbf_av]", poundForce, 0, forceDim, noPrefix, ""},
	{"kgf", gravity, 0, forceDim, noPrefix, ""},

	{"Pa", 1, 0, pressureDim, signPrefix, ""},
	{"bar", 1, 5, pressureDim, signPrefix, ""},
	{"pascal,pascals", 1, 0, pressureDim, wordPrefix, ""},
	{"psi,[psi]", poundForce / (inch * inch), 0, pressureDim, noPrefix, ""},
	{"psid", poundForce / (inch * inch), 0, pressureDim, noPrefix, "difference"},
	{"psig", poundForce / (inch * inch), 0, pressureDim, noPrefix, "gauge"},
	{"psia", poundForce / (inch * inch), 0, pressureDim, noPrefix, "absolute"},
	{"barg", 1, 5, pressureDim, signPrefix, "gauge"},
	{"bara", 1, 5, pressureDim, signPrefix, "absolute"},
	{"Pag", 1, 0, pressureDim, signPrefix, "gauge"},
	{"Paa", 1, 0, pressureDim, signPrefix, "absolute"},
	{"atm", 101325, 0, pressureDim, noPrefix, ""},
	{"mH2O,m[H2O]", water * gravity, 0, pressureDim, signPrefix, ""},
	{"m of water,m H2O", water * gravity, 0, pressureDim, noPrefix, ""},
	{"ftH2O,ft H2O,ft of water,feet of water,[ft_i'H2O]", water * gravity * foot, 0, pressureDim, noPrefix, ""},
	{"inH2O,in H2O,in of water,inches of water,inWC,in WC,[in_i'H2O]", water * gravity * inch, 0, pressureDim, noPrefix, ""},
	{"mm H2O", water * gravity, -3, pressureDim, noPrefix, ""},
	{"mHg,m[Hg]", mercury * gravity, 0, pressureDim, signPrefix, ""},
	{"mm Hg", mercury * gravity, -3, pressureDim, noPrefix, ""},
	{"inHg,in Hg,[in_i'Hg]", mercury * gravity * inch, 0, pressureDim, noPrefix, ""},

	{"W", 1, 0, powerDim, signPrefix, ""},
	{"watt,watts", 1, 0, powerDim, wordPrefix, ""},
	{"mechanical hp,mech hp,mechanical horsepower,[HP]", mechanicalHorsepower, 0, powerDim, noPrefix, ""},
	{"metric hp,metric horsepower,PS,cv", metricHorsepower, 0, powerDim, noPrefix, ""},
	{"TR,ton of refrigeration,tons of refrigeration", 12000 * btu / hour, 0, powerDim, noPrefix, ""},
	{"VA", 1, 0, powerDim, signPrefix, "apparent"},

	{"J,Ws", 1, 0, energyDim, signPrefix, ""},
	{"joule,joules", 1, 0, energyDim, wordPrefix, ""},
	{"Wh", hour, 0, energyDim, signPrefix, ""},
	{"Btu,BTU,Btu_IT,[Btu_IT]", btu, 0, energyDim, noPrefix, ""},
	{"Btu_th,[Btu_th]", 4184 * pound * fahrenheit, 0, energyDim, noPrefix, ""},
	{"cal_th", 4.184, 0, energyDim, signPrefix, ""},
	{"cal_IT,cal_[IT]", calorie, 0, energyDim, signPrefix, ""},

	{"P,poise", 1, -1, viscosityDim, signPrefix, ""},
	{"St,stokes", 1, -4, kinematicDim, signPrefix, ""},

	{"K", 1, 0, temperatureDim, signPrefix, ""},
	{"kelvin,kelvins,°C,degC,Cel,Δ°C", 1, 0, temperatureDim, noPrefix, ""},
	{"°F,degF,[degF],Δ°F", fahrenheit, 0, temperatureDim, noPrefix, ""},

	{"V", 1, 0, voltageDim, signPrefix, ""},
	{"volt,volts", 1, 0, voltageDim, wordPrefix, ""},
	{"A", 1, 0, currentDim, signPrefix, ""},
	{"amp,amps,ampere,amperes", 1, 0, currentDim, wordPrefix, ""},
	{"Ω,Ohm", 1, 0, resistanceDim, signPrefix, ""},
	{"ohm,ohms", 1, 0, resistanceDim, wordPrefix, ""},

	{"rad", 1, 0, angleDim, signPrefix, ""},
	{"radian,radians", 1, 0, angleDim, noPrefix, ""},
	{"°,deg,degree,degrees", pi / 180, 0, angleDim, noPrefix, ""},
	{"rev,r,revolution,revolutions,circ", 2 * pi, 0, angleDim, noPrefix, ""},
	{"rpm,RPM", 2 * pi / minute, 0, turningDim, noPrefix, ""},
	{"rps", 2 * pi, 0, turningDim, noPrefix, ""},
	{"Hz", 1, 0, cyclesDim, signPrefix, ""},
	{"hertz", 1, 0, cyclesDim, wordPrefix, ""},

	{"eq", 1, 0, chargeDim, signPrefix, ""},
	{"PSU,psu,ppt,‰", 1, 0, salinityDim, noPrefix, ""},
	{"%,percent", 1, -2, dimension{}, noPrefix, ""},
	{"ppm,[ppm]", 1, -6, dimension{}, noPrefix, ""},
	{"ppmw", 1, -6, dimension{}, noPrefix, "mass"},
	{"count,counts,animal,animals,pcs,pieces,shrimp,fish", 1, 0, dimension{}, noPrefix, ""},
}

// ambiguousNames lists words that name more than one unit, in lower case, and
// what each may mean.
var ambiguousNames = map[string][]string{
	"gal": gallons, "gals": gallons, "gallon": gallons, "gallons": gallons,
	"ton": tons, "tons": tons,
	"hp": horsepowers, "horsepower": horsepowers,
	"oz": ounces, "ounce": ounces, "ounces": ounces,
	"fl oz": fluidOunces, "fluid ounce": fluidOunces, "fluid ounces": fluidOunces,
	"gpm": {"US gal/min", "imp gal/min"}, "gph": {"US gal/h", "imp gal/h"}, "gpd": {"US gal/d", "imp gal/d"},
	"mgal": {"US Mgal"}, "mgd": {"US Mgal/d"},
	"cal": {"cal_th", "cal_IT"}, "kcal": {"kcal_th", "kcal_IT"},
	"calorie": {"cal_th", "cal_IT"}, "calories": {"cal_th", "cal_IT"},
	"gr": {"grain", "g"},
	"qt": {"US qt"}, "quart": {"US qt"}, "pt": {"US pt"}, "pint": {"US pt"},
}

var (
	gallons     = []string{"US gal", "imp gal"}
	tons        = []string{"short ton", "long ton", "t", "TR"}
	horsepowers = []string{"mechanical hp", "metric hp"}
	ounces      = []string{"oz avdp", "US fl oz", "imp fl oz"}
	fluidOunces = []string{"US fl oz", "imp fl oz"}
)

// ambiguous returns what a word may mean, nil when it has one meaning or none.
func ambiguous(word string) []string { return ambiguousNames[strings.ToLower(word)] }

// atomIndex maps names to atoms; built at the first text that is not a plain
// number and symbol.
var atomIndex = sync.OnceValue(func() map[string]*atomRecord {
	m := make(map[string]*atomRecord, 4*len(atoms))
	for i := range atoms {
		a := &atoms[i]
		r := &atomRecord{a.num, a.exp10, a.dim, a.prefix, a.basis}
		for name := range strings.SplitSeq(a.names, ",") {
			m[name] = r
		}
	}
	return m
})

// findAtom returns the atom with exactly this name.
func findAtom(name string) (*atomRecord, bool) {
	a, ok := atomIndex()[name]
	return a, ok
}
