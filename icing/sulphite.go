package icing

import (
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Molar masses in g/mol, IUPAC 2021 abridged.
const (
	molarMetabisulphite = 190.107 // Na2S2O5
	molarBisulphite     = 104.061 // NaHSO3
	molarSulphurDioxide = 64.066
	molarOxygen         = 31.998
)

// Sulphite is a salt used against black spot on shrimp.
type Sulphite uint8

// The two salts of the trade.
const (
	SodiumMetabisulphite Sulphite = iota // Na2S2O5
	SodiumBisulphite                     // NaHSO3
)

func (s Sulphite) check(fn string) error {
	if s > SodiumBisulphite {
		return &units.InputError{Func: fn, Field: "salt", Value: float64(s), Reason: "must be SodiumMetabisulphite or SodiumBisulphite"}
	}
	return nil
}

// SulphurDioxide returns the mass of SO2 that the salt can release per mass of
// salt, by its formula: 2·64.066/190.107 for metabisulphite, 64.066/104.061 for
// bisulphite, dimensionless. Real powder holds less, and less with age.
//
// Errors: ErrDomain with NaN for an unknown salt.
//
// Source: stoichiometry with IUPAC (2021) atomic masses.
func (s Sulphite) SulphurDioxide() (float64, error) {
	if err := s.check("icing.Sulphite.SulphurDioxide"); err != nil {
		return math.NaN(), err
	}
	if s == SodiumBisulphite {
		return molarSulphurDioxide / molarBisulphite, nil
	}
	return 2 * molarSulphurDioxide / molarMetabisulphite, nil
}

// OxygenDemand returns the mass of oxygen that the spent salt takes from
// receiving water per mass of salt (HSO3- + ½ O2 -> HSO4-), dimensionless. Ten
// kilograms of metabisulphite take all the oxygen of some 185 m3 of pond water:
// neutralise before discharge, as local rules say.
//
// Errors and source as [Sulphite.SulphurDioxide].
func (s Sulphite) OxygenDemand() (float64, error) {
	if err := s.check("icing.Sulphite.OxygenDemand"); err != nil {
		return math.NaN(), err
	}
	if s == SodiumBisulphite {
		return molarOxygen / 2 / molarBisulphite, nil
	}
	return molarOxygen / molarMetabisulphite, nil
}

// SulphiteSalt returns the salt to dissolve in water for a bath of strength
// mass of salt per mass of bath:
//
//	m = M_w·w/(1-w)
//
// The trade also says "w per cent" for 10·w grams per litre of water, which is
// 1 to 5 % less salt: ask which is meant. The result is a mass, not a treatment:
// time, residue, label and ventilation are ruled by law and the label.
//
// Validity: strength 0 to 0.10; above it ErrDomain with NaN.
//
// Source: by definition of mass fraction.
func SulphiteSalt(water units.Mass, strength units.MassFraction) (units.Mass, error) {
	const fn = "icing.SulphiteSalt"
	if err := bounds.Amount(fn, "water", float64(water), "kg"); err != nil {
		return units.Mass(math.NaN()), err
	}
	w := float64(strength)
	if err := units.Within(fn, "strength", w, 0, 0.10, "kg/kg"); err != nil {
		return units.Mass(math.NaN()), err
	}
	return water * units.Mass(w/(1-w)), nil
}

// ResidueLimit is a limit on sulphite residue as SO2 in the edible part. It is
// the user's data; these are cited starting points.
type ResidueLimit struct {
	Where  string             `json:"where"`
	Limit  units.MassFraction `json:"limit"`
	Source string             `json:"source"`
}

// SulphiteLimits returns limits found in print, none of them checked against the
// law in force.
func SulphiteLimits() []ResidueLimit {
	const article = "Boyd & Gautier, Responsible Seafood Advocate"
	return []ResidueLimit{
		{"Japan", 30e-6, article},
		{"European Community, as the article has it", 80e-6, article},
		{"label, USA: detectable, and to be declared, from", 10e-6, "21 CFR 130.9(a), standardised foods"},
		{"USA, action level", 100e-6, "FDA Hazards Guide, ch. 19 (from memory)"},
	}
}

// DipPractice is a dip as farms report it.
type DipPractice struct {
	Strength    units.MassFraction `json:"strength"`
	Minutes     [2]float64         `json:"minutes"`
	ResidueLow  units.MassFraction `json:"residueLow"` // aimed at, as SO2 in the shrimp
	ResidueHigh units.MassFraction `json:"residueHigh"`
	Source      string             `json:"source"`
}

// FarmDip returns a published farm practice: 5 % bisulphite for 2 to 5 minutes,
// aiming at 30 to 50 mg of SO2 per kg. Uptake depends on size, shell, ice and
// freshness of the solution: measure the residue, do not calculate it.
//
// Source: Boyd & Gautier, Responsible Seafood Advocate.
func FarmDip() DipPractice {
	return DipPractice{Strength: 0.05, Minutes: [2]float64{2, 5}, ResidueLow: 30e-6, ResidueHigh: 50e-6, Source: "Boyd & Gautier, Responsible Seafood Advocate"}
}
