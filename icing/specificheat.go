package icing

import (
	"math"

	"pondwright.example/units"
)

// SiebelSpecificHeat returns the specific heat in J/(kg K) from the water
// content alone (mass fraction, 0 to 1):
//
//	above freezing  c = 837 + 3349 x
//	below freezing  c = 837 + 1256 x
//
// Validity: 0 <= water <= 1, meant for 0.6 to 0.82; errors are ErrDomain with
// NaN. Accuracy: some 5 to 10 % low for lean fish.
//
// Source: Siebel (1892), in SI form as handbooks carry it.
func SiebelSpecificHeat(water float64, frozen bool) (units.SpecificHeat, error) {
	if err := units.Within("icing.SiebelSpecificHeat", "water", water, 0, 1, ""); err != nil {
		return units.SpecificHeat(math.NaN()), err
	}
	if frozen {
		return units.SpecificHeat(837 + 1256*water), nil
	}
	return units.SpecificHeat(837 + 3349*water), nil
}

// FAOSpecificHeat returns the specific heat above freezing in J/(kg K) from the
// mass fractions of lipid, other solids and water:
//
//	c = 0.5 lipid + 0.3 solids + 1.0 water   kcal/(kg °C), 4186.8 J each
//
// Validity: each 0 to 1, sum 0.98 to 1.02; errors are ErrDomain with NaN.
//
// Source: FAO Fisheries Technical Paper 331 (1992), ch. 3.
func FAOSpecificHeat(lipid, solids, water float64) (units.SpecificHeat, error) {
	const fn = "icing.FAOSpecificHeat"
	for _, err := range [...]error{
		units.Within(fn, "lipid", lipid, 0, 1, ""), units.Within(fn, "solids", solids, 0, 1, ""),
		units.Within(fn, "water", water, 0, 1, ""), units.Within(fn, "sum of fractions", lipid+solids+water, 0.98, 1.02, "")} {
		if err != nil {
			return units.SpecificHeat(math.NaN()), err
		}
	}
	return units.SpecificHeat(4186.8 * (0.5*lipid + 0.3*solids + water)), nil
}

// ChenSpecificHeat returns the specific heat above freezing in J/(kg K) from the
// mass fraction of solids (0 to 1):
//
//	c = 4190 - 2300 x - 628 x³
//
// Validity: 0 <= solids <= 1; errors are ErrDomain with NaN.
//
// Source: Chen (1985), in ASHRAE Handbook Refrigeration (2006), ch. 9; from
// memory.
func ChenSpecificHeat(solids float64) (units.SpecificHeat, error) {
	if err := units.Within("icing.ChenSpecificHeat", "solids", solids, 0, 1, ""); err != nil {
		return units.SpecificHeat(math.NaN()), err
	}
	return units.SpecificHeat(4190 - 2300*solids - 628*solids*solids*solids), nil
}

// FishLatentHeat returns the heat in J/kg that freezing all of a product's water
// takes, 333.6 kJ/kg times the water's mass fraction.
//
// Validity: 0 <= water <= 1; errors are ErrDomain with NaN.
//
// Source: ASHRAE Handbook Refrigeration (2006), ch. 9.
func FishLatentHeat(water float64) (units.SpecificEnergy, error) {
	if err := units.Within("icing.FishLatentHeat", "water", water, 0, 1, ""); err != nil {
		return units.SpecificEnergy(math.NaN()), err
	}
	return units.SpecificEnergy(float64(DefaultLatentHeat) * water), nil
}

// FrozenFraction returns the mass of ice per mass of product at t, given its
// fractions of water and protein and the temperature at which it starts to
// freeze:
//
//	x_ice = (x_w - 0.4 x_p)·(1 - T_f/T)   T < T_f
//
// and zero at or above the start of freezing; temperatures in °C. Handbooks take
// -2.2 °C for whole fish, flesh was measured at -0.9 to -2.0 °C.
//
// Validity: -40 °C to freezing; fractions 0 to 1, freezing -5 to -0.1 °C;
// otherwise ErrDomain with NaN.
//
// Source: Schwartzberg (1976) and Miles (1974), in ASHRAE Handbook
// Refrigeration, ch. 19 of later editions; from memory.
func FrozenFraction(water, protein float64, freezing, t units.Temperature) (float64, error) {
	const fn = "icing.FrozenFraction"
	tf, x := freezing.Celsius(), t.Celsius()
	for _, err := range [...]error{
		units.Within(fn, "water", water, 0, 1, ""), units.Within(fn, "protein", protein, 0, 1, ""),
		units.Within(fn, "freezing", tf, -5, -0.1, "°C"), units.Within(fn, "t", x, -40, 60, "°C")} {
		if err != nil {
			return math.NaN(), err
		}
	}
	if x >= tf {
		return 0, nil
	}
	return max(0, water-0.4*protein) * (1 - tf/x), nil
}

// ChenFrozenSpecificHeat returns the apparent specific heat below freezing in
// J/(kg K), the melting of ice included, from the mass fractions of solids,
// water and bound water (0.4 of the protein):
//
//	c = 1550 + 1260 x_s - (x_w - x_b)·L0·t_f/t²
//
// temperatures in °C, L0 = 333.6 kJ/kg.
//
// Validity: t from -40 °C to freezing, fractions 0 to 1, freezing -5 to -0.1 °C;
// otherwise ErrDomain with NaN.
//
// Source: Chen (1985), in ASHRAE Handbook Refrigeration (2006), ch. 9; from
// memory, and confirmed by the handbook's 0.51 Btu/(lb °F) for cod at -40 °C.
func ChenFrozenSpecificHeat(solids, water, bound float64, freezing, t units.Temperature) (units.SpecificHeat, error) {
	const fn = "icing.ChenFrozenSpecificHeat"
	tf, x := freezing.Celsius(), t.Celsius()
	for _, err := range [...]error{
		units.Within(fn, "solids", solids, 0, 1, ""), units.Within(fn, "water", water, 0, 1, ""),
		units.Within(fn, "bound", bound, 0, water, ""), units.Within(fn, "freezing", tf, -5, -0.1, "°C"),
		units.Within(fn, "t", x, -40, tf, "°C")} {
		if err != nil {
			return units.SpecificHeat(math.NaN()), err
		}
	}
	return units.SpecificHeat(1550 + 1260*solids - (water-bound)*float64(DefaultLatentHeat)*tf/(x*x)), nil
}

// WaterActivity returns the water activity of a product from the temperature at
// which it starts to freeze:
//
//	ln a_w = L·M/R·(1/273.15 - 1/T_f)
//
// with L the latent heat of water, M its molar mass.
//
// Validity: freezing -10 to 0 °C; otherwise ErrDomain with NaN. Accuracy: 0.002.
//
// Source: Raoult's law with the Clausius-Clapeyron relation; IAPWS R10-06 for L.
func WaterActivity(freezing units.Temperature) (float64, error) {
	c := freezing.Celsius()
	if err := units.Within("icing.WaterActivity", "freezing", c, -10, 0, "°C"); err != nil {
		return math.NaN(), err
	}
	const latent, molar, gas = 333426.5, 0.018015268, 8.31446261815324
	return math.Exp(latent * molar / gas * (1/zeroCelsius - 1/(c+zeroCelsius))), nil
}

// WholeFishFreezing returns the temperature at which handbooks have whole fish
// and shrimp start to freeze, -2.2 °C (28.0 °F). Flesh by itself was measured at
// -0.9 to -2.0 °C: to warn of freezing, [FreezingNotice] uses -1 °C.
//
// Source: ASHRAE Handbook Refrigeration (2006), ch. 9, table 3.
func WholeFishFreezing() units.Temperature { return units.Celsius(-2.2) }
