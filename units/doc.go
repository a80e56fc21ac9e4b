/*
Package units holds the quantities that the other packages of this module
compute with: defined float64 types in SI, so that feet, gallons per minute and
degrees Fahrenheit go in and come out at the edges only, and a flow cannot be
passed where a pressure is meant. It imports the standard library only.

# Construct and read

A singular constant multiplies a literal. A plural descriptor converts a
variable, reads a float64 and prints:

	depth := 4 * units.Foot
	depth = units.Feet.Of(n)                  // n is a float64 variable
	depth.Metres()                            // SI reader, one a type
	depth.In(units.Feet)                      // any unit of its type
	depth.Text(units.Feet)                    // "4 ft"
	units.Digits(depth, units.Inches, 3)      // "48 in"
	units.Prefixed(0.00035*units.Metre, 3)    // "350 µm"
	depth.FeetInches(16)                      // "4 ft 0 in"

Names follow the unit: CubicMetrePerHour makes a Flow, CubicMetresPerHour reads
one. Where two types share a unit the later one's name ends in its basis:
BarGauge, KilogramPerCubicMetreTank. UNITS.md lists every unit with its exact
size and the standard that defines it.

# Compute

Quantities of one type add, subtract and compare with the operators of Go and
with min and max. What makes another type is a method, and only where physics
has one:

	volume := area.Times(depth)               // Volume
	flow := volume.Per(2 * time.Hour)         // Flow
	speed := flow.Through(boreArea)           // Velocity
	wait, err := volume.At(flow)              // time.Duration

Elapsed time is a time.Duration. Head is a Length; Length.Pressure and
Pressure.Head need a density. Sum, Mean and Interp work on any type, and the
constraint Quantity lets other code do so. The operators and methods are those
of float64: nothing is allocated or checked, and division by zero gives Inf.

Pressure is a difference. GaugePressure and AbsolutePressure are levels: Sub of
two is a Pressure, Add raises one, Absolute and Gauge convert at a stated
atmosphere. [Temperature] is a level too, and opaque: Celsius(4), t.Celsius(),
t.In(DegreesFahrenheit), t.Sub(u) is a [TempDelta]. An unset Temperature is 0 K,
not a plausible 0 °C.

# Text

Text and JSON carry the unit and read back to the same bits. Every type has
AppendText, MarshalText, UnmarshalText, UnmarshalJSON, Scan, Value and a Parse
function, so that encoding/json, encoding/xml, YAML libraries, map keys,
database/sql and flag.TextVar work. JSON is read as "230 m3/h" or as
{"value": 230, "unit": "m3/h"}. Only finite values have a text.

  - A bare number is refused, zero included; so is null. The error says what the
    number would be in two units.
  - Any unit of the dimension is read, by the symbols of UNITS.md, with SI
    prefixes, in words (cubic feet per minute) or as a UCUM code: [gal_us]/min,
    [psi], Cel, kg.m-3. So are 4 ft 6 in, 4' 6", 12 1/2 in, 12½ in, 5 lb 3 oz,
    m³/h, 20/lb.
  - A product after a stroke needs brackets, W/(m2·K), or a second stroke.
  - Names of more than one unit are refused with the choices: gal, ton, hp, oz,
    gpm, cal, gr. Btu is the International Table Btu; ac and acre-ft are by the
    international foot; t is the tonne.
  - The decimal mark is a point. Thousands may be grouped by spaces, or by commas
    where two groups or a decimal point show that they group: 1 250 and
    1,250,000 and 1,250.5 are read, 1,250 and 1,25 are refused.
  - Where two types share a dimension and a mix-up would pass unseen, the text
    carries the basis and is refused without it: {tank} or {water} for a load,
    {gauge} or {absolute} for a pressure level (psig and psia say it),
    {absolute} for an absolute salinity, {CaCO3} for an alkalinity in mg/L, VA
    for an apparent power. 30 ppt is read as a practical salinity only.
  - Where the type alone decides, it decides: N·m is a torque or an energy, K and
    °C a temperature or a difference, kg/m3 a density or a concentration, m2/s a
    viscosity or a diffusivity, % and ppm in a mass fraction are by mass.

Elapsed time is a time.Duration, which encoding/json writes and reads as a bare
number of nanoseconds: "hold": 6 is six nanoseconds. A program that reads what
people write takes hours as text, by time.ParseDuration.

The help of flag.TextVar shows a default by its lossless SI text. Where it is to
be shown as people write it, read the flag with flag.Func, the default out of
the same words, and put them in the usage:

	load := 250 * units.MilligramPerKilogramHour
	flag.Func("demand", "oxygen demand (default 250 mg/kg/h)",
		func(s string) error { return load.UnmarshalText([]byte(s)) })

Errors are *[ParseError] with the choices as data; errors.Is reports ErrDomain.
Inside encoding/json they become a *json.UnmarshalTypeError, which carries the
path of the field. A Temperature's text is in °C where that reads back to the
same bits, else in K.

# Printing

%v, %s and String print six significant digits in the SI unit, %+v all digits,
%#v Go syntax; %.3g, %.2f and %e print like a float64. All but %#v name the unit.
Digits and Text choose another unit; MarshalText, not String, is the lossless
text.

# Errors and notices

ErrDomain, ErrRange, ErrNoSolution, ErrNoConvergence, [InputError], [Notice] and
[Severity] are the words every package of the module uses. No answer is an
error; an answer with a caveat is a result with a Notice.

# What the types cannot stop

  - A bare literal argument is taken in SI: a function of a Length called with 4
    means 4 m. Always write the unit.
  - 4*units.Foot*units.Foot is still a Length, and so is a quotient of two. Use
    Times and Over.
  - Levels are float64 too: the sum of two gauge pressures compiles. Only
    Temperature is closed.
  - Head of water and length, torque and energy given as N·m, mass of animals
    and mass of ice are what their names say, no more.

# Accuracy

Unit sizes are exact Go constant expressions, each rounded once. A conversion
rounds once a step: x.In(u) is x divided by the size of u, and 4*units.Foot and
units.Feet.Of(4) are the same bits. Reading back what was constructed is not
always exact: about one in six of 1 to 1000 ft differs in the last bit. Compare
with a tolerance.
*/
package units
