package icing

import (
	"time"

	"pondwright.example/units"
)

// The sets below are starting points for the user's own. They are guidance of one
// authority at one time, not findings that a product is fit to eat; the buyer's
// plan and local law rule. Their limits are steps: the guidance holds that they
// must not be interpolated between temperatures.
//
// Lines marked "from memory" were not read again for this package.
const (
	fdaAppendix = "FDA Fish and Fishery Products Hazards and Controls, 4th ed. (March 2020), Appendix 4"
	fdaScombro  = "FDA Fish and Fishery Products Hazards and Controls, 4th ed., ch. 7 (from memory)"
)

// FDARawReadyToEat returns the time limits for raw ready-to-eat product: with any
// time above 21.1 °C 2 h above 10 °C, otherwise 5 h above 10 °C (from memory).
//
// The guidance counts up to 57.2 °C only, and allows 3 h for the 2 h where
// Staphylococcus aureus is the one pathogen of concern; neither is followed here,
// which errs to the safe side.
//
// Source: FDA Fish and Fishery Products Hazards and Controls, 4th edition (March
// 2020), Appendix 4. Check the current edition.
func FDARawReadyToEat() []Limit {
	return []Limit{
		{Name: "above 10 °C, ever above 21.1 °C", Above: units.Celsius(10), Allowed: 2 * time.Hour, WhenEverAbove: units.Celsius(21.1), Source: fdaAppendix},
		{Name: "above 10 °C, never above 21.1 °C", Above: units.Celsius(10), Allowed: 5 * time.Hour, WhenNeverAbove: units.Celsius(21.1), Source: fdaAppendix + " (from memory)"},
	}
}

// FDARawReadyToEatAlternative returns the other form of the first line of
// [FDARawReadyToEat]: 4 h above 10 °C as long as no more than 2 h of them are
// above 21.1 °C. Source as there.
func FDARawReadyToEatAlternative() []Limit {
	return []Limit{
		{Name: "above 10 °C in total", Above: units.Celsius(10), Allowed: 4 * time.Hour, Source: fdaAppendix},
		{Name: "above 21.1 °C", Above: units.Celsius(21.1), Allowed: 2 * time.Hour, Source: fdaAppendix},
	}
}

// FDAScombroidFresh returns the cumulative limits after chilling for fresh
// scombrotoxin-forming species: 4 h above 4.4 °C when any time is above 21.1 °C,
// 8 h otherwise.
//
// Source: FDA Fish and Fishery Products Hazards and Controls, 4th edition, ch. 7;
// from memory. Check the current edition.
func FDAScombroidFresh() []Limit { return scombroid(4*time.Hour, 8*time.Hour) }

// FDAScombroidFrozen returns the cumulative limits for scombrotoxin-forming
// species that were frozen before: 12 h above 4.4 °C when any time is above 21.1
// °C, 24 h otherwise. Source as [FDAScombroidFresh].
func FDAScombroidFrozen() []Limit { return scombroid(12*time.Hour, 24*time.Hour) }

func scombroid(warm, cool time.Duration) []Limit {
	return []Limit{
		{Name: "above 4.4 °C, ever above 21.1 °C", Above: units.Celsius(4.4), Allowed: warm, WhenEverAbove: units.Celsius(21.1), Source: fdaScombro},
		{Name: "above 4.4 °C, never above 21.1 °C", Above: units.Celsius(4.4), Allowed: cool, WhenNeverAbove: units.Celsius(21.1), Source: fdaScombro},
	}
}

// FDAScombroidFirstChill returns the limits from the death of scombrotoxin-forming
// fish until they lie in ice or slurry at 4.4 °C or below: 6 h when air or water
// were ever above 28.3 °C, 9 h otherwise. Give the exposure the temperature of
// the fish's surroundings. Source as [FDAScombroidFresh]; the 6 h (above 28 °C)
// also stand in FAO Fisheries Technical Paper 444, which gives the older 12 h to
// 4.5 °C, or 9 h to 10 °C, in place of the 9 h.
func FDAScombroidFirstChill() []Limit {
	return []Limit{
		{Name: "to ice, ever above 28.3 °C", Above: units.Celsius(4.4), Allowed: 6 * time.Hour, WhenEverAbove: units.Celsius(28.3), Source: fdaScombro},
		{Name: "to ice, never above 28.3 °C", Above: units.Celsius(4.4), Allowed: 9 * time.Hour, WhenNeverAbove: units.Celsius(28.3), Source: fdaScombro},
	}
}
