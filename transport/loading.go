package transport

import (
	"errors"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Practice is a load that somebody hauled and wrote down, with the conditions of
// the report. It is a starting point for a first haul, not a limit.
type Practice struct {
	Animal      string            `json:"animal"`
	Low         float64           `json:"low"`
	High        float64           `json:"high"`
	Unit        string            `json:"unit"`  // kg/L of tank, kg/L of water, animals/L, kg/kg
	Hours       float64           `json:"hours"` // of the haul; zero when not said
	Temperature units.Temperature `json:"temperature,omitzero"`
	Source      string            `json:"source"`
}

// Practices returns loads found in print. The basis of a load in print is often
// not said; where it is not, the unit says kg/L only.
func Practices() []Practice {
	const gal = 0.11982642731689664 // kg/L per lb/US gal
	return []Practice{
		{Animal: "channel catfish, food size", Low: 0.7, High: 1.0, Unit: "kg/L", Hours: 4, Source: "Wynne (2007), World Aquaculture, March, pp. 41-43: with blowers, 10 to 16 °C, feed off 3 to 5 days"},
		{Animal: "channel catfish, 16 inch", Low: 4 * gal, High: 4 * gal, Unit: "kg/L", Temperature: units.Fahrenheit(65), Source: "Piper et al. (1982), Fish Hatchery Management, p. 362"},
		{Animal: "trout", Low: 2 * gal, High: 2.5 * gal, Unit: "kg/L", Source: "NC State Extension, with oxygen"},
		{Animal: "shrimp, 5.5 g", Low: 3, High: 3, Unit: "animals/L", Hours: 10, Source: "Jensen et al. (2014), Farfantepenaeus brasiliensis"},
		{Animal: "shrimp, live, chilled stepwise", Low: 0.2641720523581484, High: 0.2641720523581484, Unit: "kg/L", Hours: 6, Temperature: units.Celsius(5), Source: "practice reported from China, 1 kg per US gallon"},
		{Animal: "shrimp", Low: 1.0 / 3, High: 1.0 / 3, Unit: "kg/kg of water", Source: "Virginia Tech, Food Science and Technology note 245"},
		{Animal: "freshwater prawn postlarvae, in bags", Low: 250, High: 400, Unit: "animals/L", Hours: 16, Source: "New, FAO manual on freshwater prawn farming"},
	}
}

// Survival is a share that died in a published trial.
type Survival struct {
	Hours float64 `json:"hours"`
	Died  float64 `json:"died"`
}

// CrawfishCooler returns the mortality of crawfish held in a cooler at 4 °C.
// Source: McClain (1994).
func CrawfishCooler() []Survival { return []Survival{{48, 0.078}, {96, 0.108}, {144, 0.217}} }

// catfish table: lb per US gal of water for 8, 12 and 16 h at 65 °F, by fish per
// lb. Source: Piper et al. (1982), Fish Hatchery Management, table 41; from
// memory.
var catfishTable = [...]struct {
	perPound float64
	lbPerGal [3]float64
}{
	{10000, [3]float64{0.20, 0.20, 0.20}},
	{1000, [3]float64{1.25, 1.00, 0.70}},
	{500, [3]float64{1.75, 1.65, 1.25}},
	{250, [3]float64{2.20, 1.75, 1.50}},
	{125, [3]float64{2.95, 2.20, 1.80}},
	{50, [3]float64{3.45, 2.50, 2.05}},
	{4, [3]float64{5.00, 4.10, 2.95}},
	{2, [3]float64{5.90, 4.80, 3.45}},
	{1, [3]float64{6.30, 5.55, 4.80}},
}

// CatfishLoad returns the load of channel catfish per volume of water for a haul
// of the given hours at t, from a hatchery table: linear in the hours and in the
// logarithm of the mean mass, times [CatfishLoadFactor].
//
// Validity: mean mass 0.045 to 454 g, 8 to 16 h, 50 to 80 °F (10 to 26.7 °C);
// outside, the value at the table's edge (mass, hours) or of the doubled rate
// (temperature) comes with ErrRange. Mass or hours not positive, more than 24 h
// or t outside 0 to 35 °C: ErrDomain and NaN. Above 16 h the practice is a full
// change of water.
//
// Source: Piper et al. (1982), Fish Hatchery Management, table 41, from memory;
// its text on p. 362 was read.
func CatfishLoad(mean units.Mass, hours float64, t units.Temperature) (units.LoadPerWaterVolume, error) {
	const fn = "transport.CatfishLoad"
	nan := units.LoadPerWaterVolume(math.NaN())
	err := errors.Join(bounds.Positive(fn, "mean", float64(mean), "kg"), units.Within(fn, "hours", hours, 0, 24, "h"),
		units.Within(fn, "t", t.Celsius(), 0, 35, "°C"))
	if err != nil {
		return nan, err
	}
	last := len(catfishTable) - 1
	g := func(i int) float64 { return -math.Log(catfishTable[i].perPound) } // log of mass in lb
	x := math.Log(mean.In(units.Pounds))
	xc := min(max(x, g(0)), g(last))
	i := 0
	for i < last-1 && xc > g(i+1) {
		i++
	}
	w := (xc - g(i)) / (g(i+1) - g(i))
	hc := min(max(hours, 8), 16)
	k := 0
	if hc > 12 {
		k = 1
	}
	v := (hc - 8 - 4*float64(k)) / 4
	at := func(row int) float64 {
		r := catfishTable[row].lbPerGal
		return r[k] + v*(r[k+1]-r[k])
	}
	load := units.PoundsPerUSGallonWater.Of(at(i) + w*(at(i+1)-at(i)))
	f, ferr := CatfishLoadFactor(units.Fahrenheit(65), t)
	load *= units.LoadPerWaterVolume(f)
	const slack = 1e-6
	if math.Abs(x-xc) > slack {
		ferr = errors.Join(ferr, &units.InputError{Func: fn, Field: "mean", Value: mean.In(units.Grams), Unit: "g", Min: 453.592 / 10000, Max: 453.592,
			Reason: "the table's nearest size is used", Kind: units.ErrRange})
	}
	if hours != hc {
		ferr = errors.Join(ferr, &units.InputError{Func: fn, Field: "hours", Value: hours, Unit: "h", Min: 8, Max: 16, Reason: "the table's nearest time is used", Kind: units.ErrRange})
	}
	return load, ferr
}

// CatfishLoadFactor returns the load at to over the load at from: a quarter more
// for each 10 °F colder, linear. More than 15 °F away the linear form fails; the
// value then halves with every 18 °F warmer and comes with ErrRange.
//
// Validity: 0 to 40 °C; otherwise ErrDomain with NaN.
//
// Source: Piper et al. (1982), Fish Hatchery Management, p. 362; University of
// Missouri Extension MX392 for the doubling.
func CatfishLoadFactor(from, to units.Temperature) (float64, error) {
	return loadFactor("transport.CatfishLoadFactor", from, to, 0.025)
}

// TroutLoadFactor returns the load of trout at to over the load at from: 5.56 %
// less for each °F warmer; otherwise as [CatfishLoadFactor].
//
// Source: Piper et al. (1982), Fish Hatchery Management, p. 356: 1000 lb at 52 °F
// become 722 at 57 °F and 1278 at 47 °F.
func TroutLoadFactor(from, to units.Temperature) (float64, error) {
	return loadFactor("transport.TroutLoadFactor", from, to, 0.0556)
}

func loadFactor(fn string, from, to units.Temperature, perDegree float64) (float64, error) {
	err := errors.Join(units.Within(fn, "from", from.Celsius(), 0, 40, "°C"), units.Within(fn, "to", to.Celsius(), 0, 40, "°C"))
	if err != nil {
		return math.NaN(), err
	}
	d := to.Sub(from).In(units.FahrenheitDegrees)
	if math.Abs(d) <= 15+1e-9 {
		return 1 - perDegree*d, nil
	}
	return math.Exp2(-d / 18), &units.InputError{Func: fn, Field: "to", Value: d, Unit: "°F from the table's temperature", Min: -15, Max: 15,
		Reason: "a doubling of the rate with 18 °F is used", Kind: units.ErrRange}
}
