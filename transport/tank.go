package transport

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// DefaultFishDensity stands in for the density of live fish and shrimp when none
// is given; trout have 1020 kg/m3. Source: NC State Extension, weighing trout by
// water displacement (specific gravity 1.02); 1000 is the rounded value of
// common practice.
const DefaultFishDensity units.Density = 1000

// TroutDensity is that of live trout. Source: NC State Extension, weighing trout
// by water displacement: specific gravity 1.02.
const TroutDensity units.Density = 1020

// Loads per water volume at which a plan draws attention to itself.
const (
	highPerWater = 600.0  // kg/m3
	mostPerWater = 1000.0 // kg/m3

	mostFreeboard = 0.2 // beyond it the water surges
)

// Tank is one live-haul tank, or several taken together.
type Tank struct {
	Volume    units.Volume `json:"volume"`    // to the brim
	Freeboard float64      `json:"freeboard"` // share of the volume left empty, 0 to 0.5
}

// Loaded is a tank with animals in it.
type Loaded struct {
	Product        units.Mass               `json:"product"`
	Displaced      units.Volume             `json:"displaced"`      // by the animals
	Water          units.Volume             `json:"water"`          // left in the tank, and what to fill in before loading
	PerTank        units.LoadPerTankVolume  `json:"perTank"`        // product over Tank.Volume
	PerWater       units.LoadPerWaterVolume `json:"perWater"`       // product over Water
	PerWaterBefore units.LoadPerWaterVolume `json:"perWaterBefore"` // product over the water of a tank filled to its freeboard without animals
	Notices        []units.Notice           `json:"notices"`
}

// Validate reports a volume that is not positive or a freeboard outside 0 to 0.5.
func (t Tank) Validate() error {
	const fn = "transport.Tank"
	return errors.Join(bounds.Positive(fn, "volume", float64(t.Volume), "m3"), units.Within(fn, "freeboard", t.Freeboard, 0, 0.5, ""))
}

func (t Tank) room() float64 { return float64(t.Volume) * (1 - t.Freeboard) }

func fishDensity(fn string, d units.Density) (float64, error) {
	if d == 0 {
		return float64(DefaultFishDensity), nil
	}
	return float64(d), units.Within(fn, "density", float64(d), 950, 1100, "kg/m3")
}

// Load returns the water left beside a mass of animals and the load on each
// basis:
//
//	water = V·(1 - freeboard) - m/ρ
//
// density zero means [DefaultFishDensity]. Animals that fill the tank are refused
// with the largest mass that leaves any water; a load above 0.6 kg per litre of
// water is noticed, above 1.0 kg/L as a danger: per litre of tank the same load
// looks harmless.
//
// Validity: as [Tank.Validate]; density 950 to 1100 kg/m3; errors are ErrDomain,
// too much product ErrNoSolution.
//
// Source: displacement, by definition of density; 521 g/L of a published catfish
// test is per litre of water left, 343 g per litre of tank.
func (t Tank) Load(product units.Mass, density units.Density) (Loaded, error) {
	const fn = "transport.Tank.Load"
	rho, err := fishDensity(fn, density)
	err = errors.Join(t.Validate(), bounds.Amount(fn, "product", float64(product), "kg"), err)
	if err != nil {
		return Loaded{}, err
	}
	l := Loaded{Product: product, Displaced: units.Volume(float64(product) / rho)}
	water := t.room() - float64(l.Displaced)
	if !(water > 0) {
		return Loaded{}, &units.InputError{Func: fn, Field: "product", Value: float64(product), Unit: "kg", Min: 0, Max: t.room() * rho,
			Reason: fmt.Sprintf("the animals alone fill the tank; only less than %.0f kg leaves any water", t.room()*rho), Kind: units.ErrNoSolution}
	}
	l.Water = units.Volume(water)
	l.PerTank = product.PerTankVolume(t.Volume)
	l.PerWater = product.PerWaterVolume(l.Water)
	l.PerWaterBefore = product.PerWaterVolume(units.Volume(t.room()))
	l.Notices = l.notices()
	if t.Freeboard > mostFreeboard {
		l.Notices = append(l.Notices, units.Notice{Code: CodeSurge, Severity: units.Warning, Field: "freeboard", Value: t.Freeboard, Limit: mostFreeboard,
			Message: "a tank less than four fifths full surges: baffles, or fill it", Source: "common practice, no source"})
	}
	if err := units.Finite(fn, "product", float64(l.PerWater), "kg/m3 of water"); err != nil {
		return Loaded{}, err
	}
	return l, nil
}

func (l Loaded) notices() []units.Notice {
	var out []units.Notice
	w, k := float64(l.PerWater), float64(l.PerTank)
	if w > highPerWater {
		n := units.Notice{Code: CodeLoadHigh, Severity: units.Caution, Field: "perWater", Value: w / 1000, Limit: highPerWater / 1000, Unit: "kg/L of water",
			Message: fmt.Sprintf("%.2f kg of animals per litre of water left in the tank", w/1000), Source: "common practice, no source"}
		if w > mostPerWater {
			n.Severity, n.Limit = units.Danger, mostPerWater/1000
			n.Message += ": more animals than water; only short hauls with strong aeration are done so"
		}
		out = append(out, n)
	}
	if w > 1.5*k {
		out = append(out, units.Notice{Code: CodeLoadBasis, Severity: units.Caution, Field: "perTank", Value: k / 1000, Limit: w / 1000, Unit: "kg/L",
			Message: fmt.Sprintf("the same load is %.2f kg per litre of tank and %.2f kg per litre of water: say which is meant", k/1000, w/1000)})
	}
	return out
}

// LoadDensity is a load with its basis. Exactly one field is set: a load in
// pounds per gallon or kilograms per litre means nothing until its basis is said.
type LoadDensity struct {
	PerTank        units.LoadPerTankVolume  `json:"perTank"`
	PerWater       units.LoadPerWaterVolume `json:"perWater"`       // of the water left after loading
	PerWaterBefore units.LoadPerWaterVolume `json:"perWaterBefore"` // of the water of a tank filled to its freeboard before loading
}

// Product returns the mass of animals that gives the tank the stated load:
//
//	per tank          m = d·V
//	per water after   m = d·V_u/(1 + d/ρ)      V_u = V·(1 - freeboard)
//	per water before  m = d·V_u
//
// Validity: exactly one basis, above zero; density as [Tank.Load]; errors are
// ErrDomain with NaN. A load that leaves no water is ErrNoSolution.
//
// Source: by definition of the bases.
func (t Tank) Product(d LoadDensity, density units.Density) (units.Mass, error) {
	const fn = "transport.LoadDensity"
	nan := units.Mass(math.NaN())
	rho, err := fishDensity(fn, density)
	err = errors.Join(t.Validate(), err,
		bounds.Amount(fn, "perTank", float64(d.PerTank), "kg/m3"), bounds.Amount(fn, "perWater", float64(d.PerWater), "kg/m3"),
		bounds.Amount(fn, "perWaterBefore", float64(d.PerWaterBefore), "kg/m3"))
	if err != nil {
		return nan, err
	}
	set := 0
	for _, v := range [...]float64{float64(d.PerTank), float64(d.PerWater), float64(d.PerWaterBefore)} {
		if v > 0 {
			set++
		}
	}
	if set != 1 {
		return nan, &units.InputError{Func: fn, Field: "basis", Value: float64(set), Min: 1, Max: 1,
			Reason: "state the load on exactly one basis: per tank volume, per water left after loading, or per water before loading"}
	}
	var m float64
	switch {
	case d.PerTank > 0:
		m = float64(d.PerTank.Times(t.Volume))
	case d.PerWater > 0:
		m = float64(d.PerWater) * t.room() / (1 + float64(d.PerWater)/rho)
	default:
		m = float64(d.PerWaterBefore) * t.room()
	}
	if !(m < t.room()*rho) {
		return nan, &units.InputError{Func: fn, Field: "basis", Value: m, Unit: "kg", Min: 0, Max: t.room() * rho,
			Reason: "so many animals leave no water", Kind: units.ErrNoSolution}
	}
	return units.Mass(m), nil
}

// GrossMass returns the mass of a tank of the given tare with its water and
// animals, for the truck's limit:
//
//	tare + ρ_w·V_w + m
//
// Validity: all not negative, water 990 to 1050 kg/m3; errors are ErrDomain with
// NaN. Source: by definition.
func (l Loaded) GrossMass(tare units.Mass, water units.Density) (units.Mass, error) {
	const fn = "transport.Loaded.GrossMass"
	err := errors.Join(bounds.Amount(fn, "tare", float64(tare), "kg"), units.Within(fn, "water", float64(water), 990, 1050, "kg/m3"),
		bounds.Amount(fn, "water", float64(l.Water), "m3"), bounds.Amount(fn, "product", float64(l.Product), "kg"))
	if err != nil {
		return units.Mass(math.NaN()), err
	}
	return tare + l.Water.Mass(water) + l.Product, nil
}
