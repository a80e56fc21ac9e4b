package main

// quantity is one Go type of package units.
type quantity struct {
	name   string // type name
	desc   string // descriptor type; name + Unit when empty
	doc    string // what it measures, completing "Length is ..."
	words  string // what a person calls it, in error messages
	reader string // SI reader method; the base unit's descriptor when empty
	dim    string // dimension in the letters of sources.go's dimension list
	basis  string // annotation the text must carry, such as "tank"
	metric string // descriptors named when a text has no unit:
	other  string // an everyday metric and an everyday customary one
	prefix string // base symbol that takes an automatic SI prefix, else empty
	units  []unit // the first is the coherent SI unit with factor 1
}

// unit is one constant and one descriptor of a quantity.
type unit struct {
	name   string // constant
	plural string // descriptor; by the rule in plural.go when empty
	symbol string // as printed
	factor string // Go constant expression in the names of units/exact.go
	source string // key of sources.go
	note   string // definition in words where the expression does not say it
}

var table = []quantity{
	{name: "Length", doc: "a distance, a head or a level", words: "length", dim: "L", metric: "Metres", other: "Feet", prefix: "m", units: []unit{
		{name: "Metre", symbol: "m", factor: "1", source: "si"},
		{name: "Millimetre", symbol: "mm", factor: "1e-3", source: "si"},
		{name: "Centimetre", symbol: "cm", factor: "1e-2", source: "si"},
		{name: "Kilometre", symbol: "km", factor: "1e3", source: "si"},
		{name: "Micrometre", symbol: "µm", factor: "1e-6", source: "si"},
		{name: "Inch", plural: "Inches", symbol: "in", factor: "inch", source: "yard"},
		{name: "Foot", plural: "Feet", symbol: "ft", factor: "foot", source: "yard"},
		{name: "Yard", symbol: "yd", factor: "yard", source: "yard"},
		{name: "Mile", symbol: "mi", factor: "mile", source: "yard"},
	}},
	{name: "Area", doc: "a surface or a cross-section", words: "area", dim: "L2", metric: "Hectares", other: "Acres", units: []unit{
		{name: "SquareMetre", symbol: "m2", factor: "1", source: "si"},
		{name: "SquareCentimetre", symbol: "cm2", factor: "1e-4", source: "si"},
		{name: "SquareMillimetre", symbol: "mm2", factor: "1e-6", source: "si"},
		{name: "Hectare", symbol: "ha", factor: "1e4", source: "nonsi"},
		{name: "SquareInch", plural: "SquareInches", symbol: "in2", factor: "inch * inch", source: "yard"},
		{name: "SquareFoot", plural: "SquareFeet", symbol: "ft2", factor: "foot * foot", source: "yard"},
		{name: "SquareYard", symbol: "yd2", factor: "yard * yard", source: "yard"},
		{name: "Acre", symbol: "acre", factor: "acre", source: "acre", note: "43 560 square international feet"},
	}},
	{name: "Volume", doc: "a volume", words: "volume", dim: "L3", metric: "CubicMetres", other: "USGallons", units: []unit{
		{name: "CubicMetre", symbol: "m3", factor: "1", source: "si"},
		{name: "Litre", symbol: "L", factor: "1e-3", source: "nonsi"},
		{name: "Millilitre", symbol: "mL", factor: "1e-6", source: "nonsi"},
		{name: "CubicDecimetre", symbol: "dm3", factor: "1e-3", source: "si"},
		{name: "CubicCentimetre", symbol: "cm3", factor: "1e-6", source: "si"},
		{name: "CubicInch", plural: "CubicInches", symbol: "in3", factor: "inch * inch * inch", source: "yard"},
		{name: "CubicFoot", plural: "CubicFeet", symbol: "ft3", factor: "foot * foot * foot", source: "yard"},
		{name: "CubicYard", symbol: "yd3", factor: "yard * yard * yard", source: "yard"},
		{name: "AcreFoot", plural: "AcreFeet", symbol: "acre·ft", factor: "acre * foot", source: "acre"},
		{name: "USGallon", symbol: "US gal", factor: "usGallon", source: "usgal", note: "231 cubic inches"},
		{name: "ImperialGallon", symbol: "imp gal", factor: "imperialGallon", source: "impgal"},
		{name: "USFluidOunce", symbol: "US fl oz", factor: "usGallon / 128", source: "usgal"},
		{name: "ImperialFluidOunce", symbol: "imp fl oz", factor: "imperialGallon / 160", source: "impgal"},
		{name: "USMegagallon", symbol: "US Mgal", factor: "1e6 * usGallon", source: "usgal"},
	}},
	{name: "Mass", doc: "a mass", words: "mass", dim: "M", metric: "Kilograms", other: "Pounds", prefix: "g", units: []unit{
		{name: "Kilogram", symbol: "kg", factor: "1", source: "si"},
		{name: "Gram", symbol: "g", factor: "1e-3", source: "si"},
		{name: "Milligram", symbol: "mg", factor: "1e-6", source: "si"},
		{name: "Tonne", symbol: "t", factor: "1e3", source: "nonsi", note: "metric ton"},
		{name: "Pound", symbol: "lb", factor: "pound", source: "yard", note: "avoirdupois"},
		{name: "Ounce", symbol: "oz avdp", factor: "pound / 16", source: "yard", note: "avoirdupois"},
		{name: "ShortTon", symbol: "short ton", factor: "2000 * pound", source: "hb44", note: "2000 lb"},
		{name: "LongTon", symbol: "long ton", factor: "2240 * pound", source: "hb44", note: "2240 lb"},
		{name: "Grain", symbol: "grain", factor: "grain", source: "hb44", note: "1/7000 lb"},
	}},
	{name: "Density", doc: "a mass per volume of the substance itself", words: "density", dim: "M L-3", metric: "KilogramsPerCubicMetre", other: "PoundsPerCubicFoot", units: []unit{
		{name: "KilogramPerCubicMetre", symbol: "kg/m3", factor: "1", source: "si"},
		{name: "GramPerCubicCentimetre", symbol: "g/cm3", factor: "1e3", source: "si"},
		{name: "KilogramPerLitre", symbol: "kg/L", factor: "1e3", source: "nonsi"},
		{name: "PoundPerCubicFoot", symbol: "lb/ft3", factor: "pound / (foot * foot * foot)", source: "yard"},
		{name: "PoundPerUSGallon", symbol: "lb/US gal", factor: "pound / usGallon", source: "usgal"},
	}},
	{name: "Velocity", doc: "a speed, or a depth per time such as rain, evaporation or seepage", words: "velocity", dim: "L T-1", metric: "MetresPerSecond", other: "FeetPerSecond", prefix: "m/s", units: []unit{
		{name: "MetrePerSecond", symbol: "m/s", factor: "1", source: "si"},
		{name: "KilometrePerHour", symbol: "km/h", factor: "1e3 / hour", source: "nonsi"},
		{name: "CentimetrePerHour", symbol: "cm/h", factor: "1e-2 / hour", source: "nonsi"},
		{name: "MillimetrePerHour", symbol: "mm/h", factor: "1e-3 / hour", source: "nonsi"},
		{name: "MillimetrePerDay", symbol: "mm/d", factor: "1e-3 / day", source: "nonsi"},
		{name: "FootPerSecond", plural: "FeetPerSecond", symbol: "ft/s", factor: "foot", source: "yard"},
		{name: "FootPerMinute", plural: "FeetPerMinute", symbol: "ft/min", factor: "foot / minute", source: "yard"},
		{name: "InchPerHour", plural: "InchesPerHour", symbol: "in/h", factor: "inch / hour", source: "yard"},
		{name: "InchPerDay", plural: "InchesPerDay", symbol: "in/d", factor: "inch / day", source: "yard"},
		{name: "MilePerHour", symbol: "mi/h", factor: "mile / hour", source: "yard"},
		{name: "Knot", symbol: "kn", factor: "1852. / hour", source: "nonsi", note: "one nautical mile of 1852 m per hour"},
	}},
	{name: "Acceleration", doc: "an acceleration", words: "acceleration", dim: "L T-2", metric: "MetresPerSecondSquared", other: "FeetPerSecondSquared", units: []unit{
		{name: "MetrePerSecondSquared", symbol: "m/s2", factor: "1", source: "si"},
		{name: "FootPerSecondSquared", plural: "FeetPerSecondSquared", symbol: "ft/s2", factor: "foot", source: "yard"},
		{name: "StandardGravity", plural: "StandardGravities", symbol: "g_n", factor: "gravity", source: "gravity"},
	}},
	{name: "Flow", doc: "a volume per time", words: "flow", dim: "L3 T-1", metric: "CubicMetresPerHour", other: "USGallonsPerMinute", units: []unit{
		{name: "CubicMetrePerSecond", symbol: "m3/s", factor: "1", source: "si"},
		{name: "CubicMetrePerMinute", symbol: "m3/min", factor: "1. / minute", source: "nonsi"},
		{name: "CubicMetrePerHour", symbol: "m3/h", factor: "1. / hour", source: "nonsi"},
		{name: "CubicMetrePerDay", symbol: "m3/d", factor: "1. / day", source: "nonsi"},
		{name: "LitrePerSecond", symbol: "L/s", factor: "1e-3", source: "nonsi"},
		{name: "LitrePerMinute", symbol: "L/min", factor: "1e-3 / minute", source: "nonsi"},
		{name: "LitrePerHour", symbol: "L/h", factor: "1e-3 / hour", source: "nonsi"},
		{name: "CubicFootPerSecond", plural: "CubicFeetPerSecond", symbol: "ft3/s", factor: "foot * foot * foot", source: "yard"},
		{name: "CubicFootPerMinute", plural: "CubicFeetPerMinute", symbol: "ft3/min", factor: "foot * foot * foot / minute", source: "yard"},
		{name: "USGallonPerMinute", symbol: "US gal/min", factor: "usGallon / minute", source: "usgal"},
		{name: "USGallonPerHour", symbol: "US gal/h", factor: "usGallon / hour", source: "usgal"},
		{name: "ImperialGallonPerMinute", symbol: "imp gal/min", factor: "imperialGallon / minute", source: "impgal"},
		{name: "USMegagallonPerDay", symbol: "US Mgal/d", factor: "1e6 * usGallon / day", source: "usgal"},
		{name: "AcreFootPerDay", plural: "AcreFeetPerDay", symbol: "acre·ft/d", factor: "acre * foot / day", source: "acre"},
	}},
	{name: "MassFlow", doc: "a mass per time", words: "mass flow", dim: "M T-1", metric: "KilogramsPerHour", other: "PoundsPerHour", units: []unit{
		{name: "KilogramPerSecond", symbol: "kg/s", factor: "1", source: "si"},
		{name: "KilogramPerMinute", symbol: "kg/min", factor: "1. / minute", source: "nonsi"},
		{name: "KilogramPerHour", symbol: "kg/h", factor: "1. / hour", source: "nonsi"},
		{name: "TonnePerHour", symbol: "t/h", factor: "1e3 / hour", source: "nonsi"},
		{name: "GramPerHour", symbol: "g/h", factor: "1e-3 / hour", source: "nonsi"},
		{name: "PoundPerMinute", symbol: "lb/min", factor: "pound / minute", source: "yard"},
		{name: "PoundPerHour", symbol: "lb/h", factor: "pound / hour", source: "yard"},
	}},
	{name: "Pressure", doc: "a pressure difference", words: "pressure difference", dim: "M L-1 T-2", metric: "Kilopascals", other: "PoundsPerSquareInch", prefix: "Pa", units: []unit{
		{name: "Pascal", symbol: "Pa", factor: "1", source: "si"},
		{name: "Kilopascal", symbol: "kPa", factor: "1e3", source: "si"},
		{name: "Megapascal", symbol: "MPa", factor: "1e6", source: "si"},
		{name: "Bar", symbol: "bar", factor: "1e5", source: "bar"},
		{name: "Millibar", symbol: "mbar", factor: "1e2", source: "bar"},
		{name: "PoundPerSquareInch", symbol: "psi", factor: "poundForce / (inch * inch)", source: "force"},
		{name: "Atmosphere", symbol: "atm", factor: "101325", source: "atm"},
		{name: "MetreOfWater", symbol: "mH2O", factor: "water * gravity", source: "water", note: "conventional water of 1000 kg/m3"},
		{name: "FootOfWater", plural: "FeetOfWater", symbol: "ftH2O", factor: "water * gravity * foot", source: "water", note: "conventional water of 1000 kg/m3"},
		{name: "InchOfWater", plural: "InchesOfWater", symbol: "inH2O", factor: "water * gravity * inch", source: "water", note: "conventional water of 1000 kg/m3"},
		{name: "MillimetreOfMercury", symbol: "mmHg", factor: "mercury * gravity * 1e-3", source: "mercury", note: "conventional mercury of 13 595.1 kg/m3"},
	}},
	{name: "GaugePressure", doc: "a pressure above the surrounding atmosphere", words: "gauge pressure", dim: "M L-1 T-2", basis: "gauge", metric: "KilopascalsGauge", other: "PoundsPerSquareInchGauge", units: []unit{
		{name: "PascalGauge", symbol: "Pa{gauge}", factor: "1", source: "si"},
		{name: "KilopascalGauge", symbol: "kPa{gauge}", factor: "1e3", source: "si"},
		{name: "MegapascalGauge", symbol: "MPa{gauge}", factor: "1e6", source: "si"},
		{name: "BarGauge", symbol: "bar{gauge}", factor: "1e5", source: "bar"},
		{name: "PoundPerSquareInchGauge", symbol: "psi{gauge}", factor: "poundForce / (inch * inch)", source: "force"},
	}},
	{name: "AbsolutePressure", doc: "a pressure above vacuum", words: "absolute pressure", dim: "M L-1 T-2", basis: "absolute", metric: "KilopascalsAbsolute", other: "PoundsPerSquareInchAbsolute", units: []unit{
		{name: "PascalAbsolute", symbol: "Pa{absolute}", factor: "1", source: "si"},
		{name: "KilopascalAbsolute", symbol: "kPa{absolute}", factor: "1e3", source: "si"},
		{name: "HectopascalAbsolute", symbol: "hPa{absolute}", factor: "1e2", source: "si"},
		{name: "BarAbsolute", symbol: "bar{absolute}", factor: "1e5", source: "bar"},
		{name: "PoundPerSquareInchAbsolute", symbol: "psi{absolute}", factor: "poundForce / (inch * inch)", source: "force"},
		{name: "AtmosphereAbsolute", symbol: "atm{absolute}", factor: "101325", source: "atm"},
		{name: "MillimetreOfMercuryAbsolute", symbol: "mmHg{absolute}", factor: "mercury * gravity * 1e-3", source: "mercury", note: "conventional mercury of 13 595.1 kg/m3"},
	}},
	{name: "Power", doc: "a power or a heat flow", words: "power", dim: "M L2 T-3", metric: "Kilowatts", other: "MechanicalHorsepowers", prefix: "W", units: []unit{
		{name: "Watt", symbol: "W", factor: "1", source: "si"},
		{name: "Kilowatt", symbol: "kW", factor: "1e3", source: "si"},
		{name: "Megawatt", symbol: "MW", factor: "1e6", source: "si"},
		{name: "MechanicalHorsepower", symbol: "mechanical hp", factor: "mechanicalHorsepower", source: "hp", note: "550 ft·lbf/s"},
		{name: "MetricHorsepower", symbol: "metric hp", factor: "metricHorsepower", source: "pshp", note: "75 kgf·m/s"},
		{name: "BtuPerHour", symbol: "Btu/h", factor: "btu / hour", source: "btu"},
		{name: "TonOfRefrigeration", symbol: "TR", factor: "12000 * btu / hour", source: "tr", note: "12 000 Btu/h"},
	}},
	{name: "Energy", doc: "an energy or a quantity of heat", words: "energy", dim: "M L2 T-2", metric: "Kilojoules", other: "BtusIT", prefix: "J", units: []unit{
		{name: "Joule", symbol: "J", factor: "1", source: "si"},
		{name: "Kilojoule", symbol: "kJ", factor: "1e3", source: "si"},
		{name: "Megajoule", symbol: "MJ", factor: "1e6", source: "si"},
		{name: "WattHour", symbol: "Wh", factor: "hour", source: "nonsi"},
		{name: "KilowattHour", symbol: "kWh", factor: "1e3 * hour", source: "nonsi"},
		{name: "BtuIT", plural: "BtusIT", symbol: "Btu", factor: "btu", source: "btu", note: "International Table"},
		{name: "KilocalorieThermochemical", plural: "KilocaloriesThermochemical", symbol: "kcal_th", factor: "4184", source: "cal"},
		{name: "KilocalorieIT", plural: "KilocaloriesIT", symbol: "kcal_IT", factor: "1e3 * calorie", source: "cal", note: "International Table"},
	}},
	{name: "Torque", doc: "a moment of force", words: "torque", dim: "M L2 T-2", metric: "NewtonMetres", other: "PoundForceFeet", prefix: "N·m", units: []unit{
		{name: "NewtonMetre", symbol: "N·m", factor: "1", source: "si"},
		{name: "PoundForceFoot", plural: "PoundForceFeet", symbol: "lbf·ft", factor: "poundForce * foot", source: "force"},
		{name: "PoundForceInch", plural: "PoundForceInches", symbol: "lbf·in", factor: "poundForce * inch", source: "force"},
		{name: "KilogramForceMetre", symbol: "kgf·m", factor: "gravity", source: "force"},
	}},
	{name: "RotationalSpeed", doc: "an angle per time", words: "rotational speed", dim: "A T-1", metric: "RevolutionsPerMinute", other: "RadiansPerSecond", units: []unit{
		{name: "RadianPerSecond", symbol: "rad/s", factor: "1", source: "si"},
		{name: "RevolutionPerMinute", symbol: "rpm", factor: "2 * pi / minute", source: "rev"},
		{name: "RevolutionPerSecond", symbol: "rev/s", factor: "2 * pi", source: "rev"},
	}},
	{name: "Displacement", doc: "the volume a pump or motor moves per revolution", words: "displacement per revolution", dim: "L3 A-1", metric: "CubicCentimetresPerRevolution", other: "CubicInchesPerRevolution", units: []unit{
		{name: "CubicMetrePerRevolution", symbol: "m3/rev", factor: "1", source: "rev"},
		{name: "LitrePerRevolution", symbol: "L/rev", factor: "1e-3", source: "rev"},
		{name: "CubicCentimetrePerRevolution", symbol: "cm3/rev", factor: "1e-6", source: "rev"},
		{name: "CubicInchPerRevolution", plural: "CubicInchesPerRevolution", symbol: "in3/rev", factor: "inch * inch * inch", source: "yard"},
	}},
	{name: "Force", doc: "a force", words: "force", dim: "M L T-2", metric: "Newtons", other: "PoundsForce", prefix: "N", units: []unit{
		{name: "Newton", symbol: "N", factor: "1", source: "si"},
		{name: "Kilonewton", symbol: "kN", factor: "1e3", source: "si"},
		{name: "PoundForce", plural: "PoundsForce", symbol: "lbf", factor: "poundForce", source: "force"},
		{name: "KilogramForce", plural: "KilogramsForce", symbol: "kgf", factor: "gravity", source: "force"},
	}},
	{name: "ForcePerLength", doc: "a force per length, such as surface tension or a line load", words: "force per length", dim: "M T-2", metric: "NewtonsPerMetre", other: "PoundsForcePerFoot", prefix: "N/m", units: []unit{
		{name: "NewtonPerMetre", symbol: "N/m", factor: "1", source: "si"},
		{name: "MillinewtonPerMetre", symbol: "mN/m", factor: "1e-3", source: "si"},
		{name: "KilonewtonPerMetre", symbol: "kN/m", factor: "1e3", source: "si"},
		{name: "PoundForcePerFoot", plural: "PoundsForcePerFoot", symbol: "lbf/ft", factor: "poundForce / foot", source: "force"},
	}},
	{name: "DynamicViscosity", doc: "a dynamic viscosity", words: "dynamic viscosity", dim: "M L-1 T-1", metric: "MillipascalSeconds", other: "Centipoises", prefix: "Pa·s", units: []unit{
		{name: "PascalSecond", symbol: "Pa·s", factor: "1", source: "si"},
		{name: "MillipascalSecond", symbol: "mPa·s", factor: "1e-3", source: "si"},
		{name: "Centipoise", symbol: "cP", factor: "1e-3", source: "cgs"},
	}},
	{name: "KinematicViscosity", doc: "a dynamic viscosity per density", words: "kinematic viscosity", dim: "L2 T-1", metric: "Centistokes", other: "SquareFeetPerSecond", units: []unit{
		{name: "SquareMetrePerSecond", symbol: "m2/s", factor: "1", source: "si"},
		{name: "Centistoke", symbol: "cSt", factor: "1e-6", source: "cgs"},
		{name: "SquareFootPerSecond", plural: "SquareFeetPerSecond", symbol: "ft2/s", factor: "foot * foot", source: "yard"},
	}},
	{name: "Diffusivity", doc: "a diffusivity of heat or of a dissolved substance", words: "diffusivity", reader: "SquareMetresPerSecond", dim: "L2 T-1", metric: "SquareMetresPerSecondDiffusivity", other: "SquareMillimetresPerSecondDiffusivity", units: []unit{
		{name: "SquareMetrePerSecondDiffusivity", symbol: "m2/s", factor: "1", source: "si"},
		{name: "SquareMillimetrePerSecondDiffusivity", symbol: "mm2/s", factor: "1e-6", source: "si"},
	}},
	{name: "HeatFlux", doc: "a power per area, of heat or of the aerators on a pond", words: "heat flux", dim: "M T-3", metric: "WattsPerSquareMetre", other: "BtusPerHourSquareFoot", prefix: "W/m2", units: []unit{
		{name: "WattPerSquareMetre", symbol: "W/m2", factor: "1", source: "si"},
		{name: "KilowattPerHectare", symbol: "kW/ha", factor: "0.1", source: "nonsi"},
		{name: "MechanicalHorsepowerPerAcre", symbol: "mechanical hp/acre", factor: "mechanicalHorsepower / acre", source: "hp"},
		{name: "BtuPerHourSquareFoot", symbol: "Btu/(h·ft2)", factor: "btu / (hour * foot * foot)", source: "btu"},
	}},
	{name: "HeatTransferCoefficient", doc: "a heat flux per temperature difference", words: "heat transfer coefficient", dim: "M T-3 K-1", metric: "WattsPerSquareMetreKelvin", other: "BtusPerHourSquareFootFahrenheit", prefix: "W/(m2·K)", units: []unit{
		{name: "WattPerSquareMetreKelvin", symbol: "W/(m2·K)", factor: "1", source: "si"},
		{name: "BtuPerHourSquareFootFahrenheit", symbol: "Btu/(h·ft2·°F)", factor: "btu / (hour * foot * foot * fahrenheit)", source: "btu"},
	}},
	{name: "ThermalConductance", doc: "a heat flow per temperature difference", words: "thermal conductance", dim: "M L2 T-3 K-1", metric: "WattsPerKelvin", other: "BtusPerHourFahrenheit", prefix: "W/K", units: []unit{
		{name: "WattPerKelvin", symbol: "W/K", factor: "1", source: "si"},
		{name: "BtuPerHourFahrenheit", symbol: "Btu/(h·°F)", factor: "btu / (hour * fahrenheit)", source: "btu"},
	}},
	{name: "ThermalConductivity", doc: "a thermal conductivity of a material", words: "thermal conductivity", dim: "M L T-3 K-1", metric: "WattsPerMetreKelvin", other: "BtusPerHourFootFahrenheit", prefix: "W/(m·K)", units: []unit{
		{name: "WattPerMetreKelvin", symbol: "W/(m·K)", factor: "1", source: "si"},
		{name: "BtuPerHourFootFahrenheit", symbol: "Btu/(h·ft·°F)", factor: "btu / (hour * foot * fahrenheit)", source: "btu"},
	}},
	{name: "HeatCapacity", doc: "a heat per temperature rise of a body", words: "heat capacity", dim: "M L2 T-2 K-1", metric: "KilojoulesPerKelvin", other: "BtusPerFahrenheit", prefix: "J/K", units: []unit{
		{name: "JoulePerKelvin", symbol: "J/K", factor: "1", source: "si"},
		{name: "KilojoulePerKelvin", symbol: "kJ/K", factor: "1e3", source: "si"},
		{name: "BtuPerFahrenheit", symbol: "Btu/°F", factor: "btu / fahrenheit", source: "btu"},
	}},
	{name: "SpecificHeat", doc: "a heat per mass and temperature rise of a substance", words: "specific heat", dim: "M M^-1 L2 T-2 K-1", metric: "KilojoulesPerKilogramKelvin", other: "BtusPerPoundFahrenheit", prefix: "J/(kg·K)", units: []unit{
		{name: "JoulePerKilogramKelvin", symbol: "J/(kg·K)", factor: "1", source: "si"},
		{name: "KilojoulePerKilogramKelvin", symbol: "kJ/(kg·K)", factor: "1e3", source: "si"},
		{name: "BtuPerPoundFahrenheit", symbol: "Btu/(lb·°F)", factor: "btu / (pound * fahrenheit)", source: "btu"},
		{name: "KilocaloriePerKilogramKelvin", symbol: "kcal_IT/(kg·K)", factor: "1e3 * calorie", source: "cal", note: "International Table"},
	}},
	{name: "SpecificEnergy", doc: "an energy per mass, such as a latent heat", words: "specific energy", dim: "M M^-1 L2 T-2", metric: "KilojoulesPerKilogram", other: "BtusPerPound", prefix: "J/kg", units: []unit{
		{name: "JoulePerKilogram", symbol: "J/kg", factor: "1", source: "si"},
		{name: "KilojoulePerKilogram", symbol: "kJ/kg", factor: "1e3", source: "si"},
		{name: "BtuPerPound", symbol: "Btu/lb", factor: "btu / pound", source: "btu"},
		{name: "KilocaloriePerKilogram", symbol: "kcal_IT/kg", factor: "1e3 * calorie", source: "cal", note: "International Table"},
	}},
	{name: "Concentration", doc: "a mass of dissolved or suspended substance per volume of solution", words: "concentration", reader: "KilogramsPerCubicMetre", dim: "M L-3", metric: "MilligramsPerLitre", other: "GrainsPerUSGallon", prefix: "g/L", units: []unit{
		{name: "GramPerLitre", symbol: "g/L", factor: "1", source: "nonsi", note: "the same as kg/m3"},
		{name: "MilligramPerLitre", symbol: "mg/L", factor: "1e-3", source: "nonsi"},
		{name: "MicrogramPerLitre", symbol: "µg/L", factor: "1e-6", source: "nonsi"},
		{name: "GrainPerUSGallon", symbol: "grain/US gal", factor: "grain / usGallon", source: "usgal"},
	}},
	{name: "MassFraction", doc: "a mass of a part per mass of the whole", words: "mass fraction", dim: "M M^-1", metric: "GramsPerKilogram", other: "PercentsByMass", units: []unit{
		{name: "KilogramPerKilogram", symbol: "kg/kg", factor: "1", source: "si"},
		{name: "GramPerKilogram", symbol: "g/kg", factor: "1e-3", source: "si"},
		{name: "MilligramPerKilogram", symbol: "mg/kg", factor: "1e-6", source: "si"},
		{name: "PartPerMillionByMass", plural: "PartsPerMillionByMass", symbol: "ppm{mass}", factor: "1e-6", source: "ppm"},
		{name: "PercentByMass", plural: "PercentsByMass", symbol: "%{mass}", factor: "1e-2", source: "ppm"},
	}},
	{name: "PracticalSalinity", desc: "UnitOfPracticalSalinity", doc: "a salinity on the practical scale PSS-78, a pure number", words: "practical salinity", reader: "PSU", dim: "S", metric: "PracticalSalinityUnits", other: "PracticalSalinityUnits", units: []unit{
		{name: "PracticalSalinityUnit", symbol: "PSU", factor: "1", source: "pss"},
	}},
	{name: "AbsoluteSalinity", doc: "a mass of dissolved salt per mass of seawater", words: "absolute salinity", reader: "GramsPerKilogram", dim: "M M^-1", basis: "absolute", metric: "GramsPerKilogramSalinity", other: "GramsPerKilogramSalinity", units: []unit{
		{name: "GramPerKilogramSalinity", symbol: "g/kg{absolute}", factor: "1", source: "teos"},
	}},
	{name: "Alkalinity", doc: "a total alkalinity, an amount of charge per volume", words: "alkalinity", dim: "Q L-3", metric: "MilliequivalentsPerLitre", other: "MilligramsPerLitreCaCO3", units: []unit{
		{name: "MilliequivalentPerLitre", symbol: "meq/L", factor: "1", source: "meq"},
		{name: "MilligramPerLitreCaCO3", plural: "MilligramsPerLitreCaCO3", symbol: "mg/L{CaCO3}", factor: "1. / 50", source: "caco3", note: "50 mg of calcium carbonate per milliequivalent, the analyst's convention"},
	}},
	{name: "MassSpecificRate", doc: "a mass per time and mass of animals, such as oxygen use or ammonia excretion", words: "mass-specific rate", dim: "M M^-1 T-1", metric: "MilligramsPerKilogramHour", other: "GramsPerKilogramDay", units: []unit{
		{name: "KilogramPerKilogramSecond", symbol: "kg/(kg·s)", factor: "1", source: "si"},
		{name: "MilligramPerKilogramHour", symbol: "mg/(kg·h)", factor: "1e-6 / hour", source: "nonsi"},
		{name: "MilligramPerKilogramMinute", symbol: "mg/(kg·min)", factor: "1e-6 / minute", source: "nonsi"},
		{name: "GramPerKilogramDay", symbol: "g/(kg·d)", factor: "1e-3 / day", source: "nonsi"},
	}},
	{name: "ArealRate", doc: "a mass per time and area, such as a sediment's oxygen demand", words: "areal rate", dim: "M L-2 T-1", metric: "GramsPerSquareMetreDay", other: "GramsPerSquareMetreHour", units: []unit{
		{name: "KilogramPerSquareMetreSecond", symbol: "kg/(m2·s)", factor: "1", source: "si"},
		{name: "GramPerSquareMetreDay", symbol: "g/(m2·d)", factor: "1e-3 / day", source: "nonsi"},
		{name: "GramPerSquareMetreHour", symbol: "g/(m2·h)", factor: "1e-3 / hour", source: "nonsi"},
	}},
	{name: "ArealDensity", doc: "a mass per area, such as a standing crop", words: "areal density", dim: "M L-2", metric: "KilogramsPerHectare", other: "PoundsPerAcre", units: []unit{
		{name: "KilogramPerSquareMetre", symbol: "kg/m2", factor: "1", source: "si"},
		{name: "KilogramPerHectare", symbol: "kg/ha", factor: "1e-4", source: "nonsi"},
		{name: "TonnePerHectare", symbol: "t/ha", factor: "1e-1", source: "nonsi"},
		{name: "PoundPerAcre", symbol: "lb/acre", factor: "pound / acre", source: "acre"},
	}},
	{name: "LoadPerTankVolume", doc: "a mass of animals per volume of the tank, water and animals together", words: "load per tank volume", dim: "M L-3", basis: "tank", metric: "KilogramsPerCubicMetreTank", other: "PoundsPerUSGallonTank", units: []unit{
		{name: "KilogramPerCubicMetreTank", symbol: "kg/m3{tank}", factor: "1", source: "si"},
		{name: "KilogramPerLitreTank", symbol: "kg/L{tank}", factor: "1e3", source: "nonsi"},
		{name: "PoundPerUSGallonTank", symbol: "lb/US gal{tank}", factor: "pound / usGallon", source: "usgal"},
		{name: "PoundPerCubicFootTank", symbol: "lb/ft3{tank}", factor: "pound / (foot * foot * foot)", source: "yard"},
	}},
	{name: "LoadPerWaterVolume", doc: "a mass of animals per volume of the water alone", words: "load per water volume", dim: "M L-3", basis: "water", metric: "KilogramsPerCubicMetreWater", other: "PoundsPerUSGallonWater", units: []unit{
		{name: "KilogramPerCubicMetreWater", symbol: "kg/m3{water}", factor: "1", source: "si"},
		{name: "KilogramPerLitreWater", symbol: "kg/L{water}", factor: "1e3", source: "nonsi"},
		{name: "PoundPerUSGallonWater", symbol: "lb/US gal{water}", factor: "pound / usGallon", source: "usgal"},
		{name: "PoundPerCubicFootWater", symbol: "lb/ft3{water}", factor: "pound / (foot * foot * foot)", source: "yard"},
	}},
	{name: "CountPerMass", doc: "a number of animals per mass, the trade's size grade", words: "count per mass", dim: "M^-1", metric: "CountsPerKilogram", other: "CountsPerPound", units: []unit{
		{name: "PerKilogram", plural: "CountsPerKilogram", symbol: "/kg", factor: "1", source: "si"},
		{name: "PerPound", plural: "CountsPerPound", symbol: "/lb", factor: "1 / pound", source: "yard"},
	}},
	{name: "CountPerArea", doc: "a number of animals per area", words: "count per area", dim: "L-2", metric: "CountsPerSquareMetre", other: "CountsPerAcre", units: []unit{
		{name: "PerSquareMetre", plural: "CountsPerSquareMetre", symbol: "/m2", factor: "1", source: "si"},
		{name: "PerHectare", plural: "CountsPerHectare", symbol: "/ha", factor: "1e-4", source: "nonsi"},
		{name: "PerAcre", plural: "CountsPerAcre", symbol: "/acre", factor: "1 / acre", source: "acre"},
	}},
	{name: "Angle", doc: "a plane angle", words: "angle", dim: "A", metric: "Degrees", other: "Radians", units: []unit{
		{name: "Radian", symbol: "rad", factor: "1", source: "si"},
		{name: "Degree", symbol: "°", factor: "pi / 180", source: "rev"},
		{name: "Revolution", symbol: "rev", factor: "2 * pi", source: "rev"},
	}},
	{name: "Slope", doc: "a rise over run", words: "slope", reader: "Ratio", dim: "", metric: "PercentGrades", other: "MillimetresPerMetre", units: []unit{
		{name: "RisePerRun", plural: "RisesPerRun", symbol: "m/m", factor: "1", source: "si"},
		{name: "PercentGrade", symbol: "%{grade}", factor: "1e-2", source: "ppm"},
		{name: "MillimetrePerMetre", symbol: "mm/m", factor: "1e-3", source: "si"},
	}},
	{name: "Frequency", doc: "a number of cycles per time", words: "frequency", dim: "C T-1", metric: "Hertzes", other: "Kilohertzes", prefix: "Hz", units: []unit{
		{name: "Hertz", plural: "Hertzes", symbol: "Hz", factor: "1", source: "si"},
		{name: "Kilohertz", plural: "Kilohertzes", symbol: "kHz", factor: "1e3", source: "si"},
	}},
	{name: "Rate", doc: "a first-order rate, a fraction per time", words: "first-order rate", dim: "T-1", metric: "TimesPerHour", other: "TimesPerDay", units: []unit{
		{name: "PerSecond", plural: "TimesPerSecond", symbol: "/s", factor: "1", source: "si"},
		{name: "PerMinute", plural: "TimesPerMinute", symbol: "/min", factor: "1. / minute", source: "nonsi"},
		{name: "PerHour", plural: "TimesPerHour", symbol: "/h", factor: "1. / hour", source: "nonsi"},
		{name: "PerDay", plural: "TimesPerDay", symbol: "/d", factor: "1. / day", source: "nonsi"},
	}},
	{name: "TempDelta", doc: "a temperature difference", words: "temperature difference", dim: "K", metric: "CelsiusDegrees", other: "FahrenheitDegrees", units: []unit{
		{name: "Kelvin", symbol: "K", factor: "1", source: "si"},
		{name: "CelsiusDegree", symbol: "Δ°C", factor: "1", source: "si"},
		{name: "FahrenheitDegree", symbol: "Δ°F", factor: "fahrenheit", source: "degf"},
	}},
	{name: "TempRate", doc: "a temperature change per time", words: "rate of temperature change", dim: "K T-1", metric: "KelvinsPerHour", other: "FahrenheitsPerHour", units: []unit{
		{name: "KelvinPerSecond", symbol: "K/s", factor: "1", source: "si"},
		{name: "KelvinPerMinute", symbol: "K/min", factor: "1. / minute", source: "nonsi"},
		{name: "KelvinPerHour", symbol: "K/h", factor: "1. / hour", source: "nonsi"},
		{name: "FahrenheitPerHour", symbol: "°F/h", factor: "fahrenheit / hour", source: "degf"},
	}},
	{name: "ElectricPotential", doc: "a voltage", words: "electric potential", dim: "M L2 T-3 I-1", metric: "Volts", other: "Kilovolts", prefix: "V", units: []unit{
		{name: "Volt", symbol: "V", factor: "1", source: "si"},
		{name: "Kilovolt", symbol: "kV", factor: "1e3", source: "si"},
	}},
	{name: "Current", doc: "an electric current", words: "electric current", dim: "I", metric: "Amperes", other: "Milliamperes", prefix: "A", units: []unit{
		{name: "Ampere", symbol: "A", factor: "1", source: "si"},
		{name: "Milliampere", symbol: "mA", factor: "1e-3", source: "si"},
	}},
	{name: "Resistance", doc: "an electric resistance", words: "electric resistance", dim: "M L2 T-3 I-2", metric: "Ohms", other: "Milliohms", prefix: "Ω", units: []unit{
		{name: "Ohm", symbol: "Ω", factor: "1", source: "si"},
		{name: "Milliohm", symbol: "mΩ", factor: "1e-3", source: "si"},
	}},
	{name: "ResistancePerLength", doc: "an electric resistance per length of cable", words: "resistance per length", dim: "M L T-3 I-2", metric: "OhmsPerKilometre", other: "OhmsPerMetre", prefix: "Ω/m", units: []unit{
		{name: "OhmPerMetre", symbol: "Ω/m", factor: "1", source: "si"},
		{name: "OhmPerKilometre", symbol: "Ω/km", factor: "1e-3", source: "si"},
	}},
	{name: "ApparentPower", doc: "a voltage times a current, which a generator is sized by", words: "apparent power", dim: "M L2 T-3", basis: "apparent", metric: "KilovoltAmperes", other: "VoltAmperes", prefix: "VA", units: []unit{
		{name: "VoltAmpere", symbol: "VA", factor: "1", source: "si"},
		{name: "KilovoltAmpere", symbol: "kVA", factor: "1e3", source: "si"},
	}},
	{name: "SpecificFuelConsumption", doc: "a mass of fuel per shaft energy", words: "specific fuel consumption", dim: "M M^-1 L-2 T2", metric: "GramsPerKilowattHour", other: "PoundsPerHorsepowerHour", units: []unit{
		{name: "KilogramPerJoule", symbol: "kg/J", factor: "1", source: "si"},
		{name: "GramPerKilowattHour", symbol: "g/kWh", factor: "1e-3 / (1e3 * hour)", source: "nonsi"},
		{name: "PoundPerHorsepowerHour", symbol: "lb/(mechanical hp·h)", factor: "pound / (mechanicalHorsepower * hour)", source: "hp"},
	}},
}
