package icing

import (
	"math"

	"pondwright.example/units"
)

// Constants of the cross-check.
const (
	// FAOLeanSpecificHeat is 0.8 kcal/(kg °C), for lean fish. Source: FAO
	// Fisheries Technical Paper 331 (1992), ch. 3.
	FAOLeanSpecificHeat units.SpecificHeat = 0.8 * 4186.8
	// RuleOfThumb is kg of ice per kg of fish and °C. Source: common practice in
	// the North Atlantic trade; equals 3.8 kJ/(kg K) over 333.5 kJ/kg.
	RuleOfThumb = 0.0114
)

// CrossCheck is the ice for the chill alone, in kg per kg of product, found in
// three ways that should lie within about 15 % of one another.
type CrossCheck struct {
	HeatBalance float64 `json:"heatBalance"` // the load's own specific heat and ice
	FAO         float64 `json:"fao"`         // 0.8 kcal/(kg °C) over 80 kcal/kg
	RuleOfThumb float64 `json:"ruleOfThumb"` // 0.0114 kg per kg and °C
}

// CrossCheck returns the load's ice for the chill alone beside two forms of the
// trade. Its errors are those of [Load.Balance].
func (l Load) CrossCheck() (CrossCheck, error) {
	s, err := l.check()
	if err != nil {
		return CrossCheck{}, err
	}
	return l.crossCheck(s), nil
}

func (l Load) crossCheck(s loadState) CrossCheck {
	out := 0.0
	if l.MeltStays {
		out = s.final
	}
	d := s.start - s.final
	return CrossCheck{
		HeatBalance: s.cp * d / l.Ice.cooling(out, s.cw),
		FAO:         float64(FAOLeanSpecificHeat) * d / float64(OldLatentHeat),
		RuleOfThumb: RuleOfThumb * d,
	}
}

// ChillRatio returns kg of melting ice per kg of product, for the chill alone
// and melt water that drains at 0 °C:
//
//	r = c_p·(T0-T1)/L
//
// c is the product's specific heat, latent the ice's latent heat (zero means
// [DefaultLatentHeat]).
//
// Validity: 0 °C <= end <= start <= 40 °C; c 1.5 to 4.2 kJ/(kg K); latent 250 to
// 340 kJ/kg; errors are ErrDomain with NaN.
//
// Source: FAO Fisheries Technical Paper 331 (Graham, Johnston & Nicholson 1992),
// ch. 3, eq. 4-5.
func ChillRatio(c units.SpecificHeat, start, end units.Temperature, latent units.SpecificEnergy) (float64, error) {
	const fn = "icing.ChillRatio"
	t0, t1 := start.Celsius(), end.Celsius()
	if latent == 0 {
		latent = DefaultLatentHeat
	}
	if err := units.Within(fn, "c", float64(c)/1e3, 1.5, 4.2, "kJ/(kg K)"); err != nil {
		return math.NaN(), err
	}
	if err := waterTemperature(fn, "start", t0); err != nil {
		return math.NaN(), err
	}
	if err := finalTemperature(fn, t1, t0); err != nil {
		return math.NaN(), err
	}
	if err := units.Within(fn, "latent", float64(latent)/1e3, 250, 340, "kJ/kg"); err != nil {
		return math.NaN(), err
	}
	return float64(c) * (t0 - t1) / float64(latent), nil // eq. 5
}

// UsualRatio is what the trade takes along, without a calculation.
type UsualRatio struct {
	Where string  `json:"where"`
	Low   float64 `json:"low"` // kg of ice per kg of fish
	High  float64 `json:"high"`
}

// UsualRatios returns the trade's rules, to hold a plan against: one part of ice
// to three or two of fish in temperate waters, one to one in the tropics, more on
// long tropical trips. Common practice; the tropical rule is also that of
// University of Florida extension (one pound to one pound).
func UsualRatios() []UsualRatio {
	return []UsualRatio{
		{"temperate", 1.0 / 3, 1.0 / 2},
		{"tropical", 1, 1},
	}
}
