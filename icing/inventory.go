package icing

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Inventory is the ice at the pond at one moment of the harvest, to be held
// against what is still to come.
type Inventory struct {
	OnHand    units.Mass     `json:"onHand"`    // weighed or counted now
	StoreMelt units.MassFlow `json:"storeMelt"` // lost from the store itself meanwhile
	Remaining Load           `json:"remaining"` // harvest still to come; MakeUpWater only of tanks not yet started
	Rate      units.MassFlow `json:"rate"`      // product coming over the table; zero when unknown
	Lead      time.Duration  `json:"lead"`      // from the call for more ice until it is at the pond
}

// InventoryState is the answer: is the ice enough, and if not, by how much and
// when.
type InventoryState struct {
	Need      units.Mass     `json:"need"`      // ice for the remaining load, waste and store melt included
	Spare     units.Mass     `json:"spare"`     // OnHand less Need; negative when short
	Shortfall units.Mass     `json:"shortfall"` // what is missing, or zero
	Covers    units.Mass     `json:"covers"`    // product that the ice on hand can still chill, at most Remaining.Product
	RunsOut   time.Duration  `json:"runsOut"`   // from now until the store is empty at Rate; zero without Rate or when it lasts
	CallIn    time.Duration  `json:"callIn"`    // latest call for more ice, from now: RunsOut less Lead, not below zero
	Notices   []units.Notice `json:"notices"`
}

// Check returns how far the ice on hand goes. The make-up water, the containers
// and OtherHeat are met first, since they do not wait for product; what is left
// is shared out per kilogram of product.
func (v Inventory) Check() (InventoryState, error) {
	const fn = "icing.Inventory"
	err := errors.Join(
		bounds.Amount(fn, "onHand", float64(v.OnHand), "kg"),
		bounds.Amount(fn, "storeMelt", float64(v.StoreMelt), "kg/s"),
		bounds.Amount(fn, "lead", v.Lead.Hours(), "h"),
		units.AtField("remaining", v.Remaining.Validate()))
	if v.Rate != 0 {
		err = errors.Join(err, bounds.Positive(fn, "rate", float64(v.Rate), "kg/s"))
	}
	if err != nil {
		return InventoryState{}, err
	}
	b, err := v.Remaining.Balance()
	if err != nil {
		return InventoryState{}, err
	}
	product := float64(v.Remaining.Product)
	keep := 1 - v.Remaining.Waste
	perKilogram := 0.0
	if product > 0 {
		perKilogram = float64(b.Chill+b.Carried) / keep / product
	}
	fixed := float64(b.MakeUp+b.Leak+b.Other) / keep

	var s InventoryState
	melt := 0.0
	if v.Rate > 0 {
		melt = float64(v.StoreMelt) * product / float64(v.Rate)
	}
	s.Need = b.Order + units.Mass(melt)
	s.Spare = v.OnHand - s.Need
	s.Shortfall = max(0, -s.Spare)
	s.Covers = v.Remaining.Product
	if s.Shortfall > 0 {
		perKilogramAll := perKilogram
		if v.Rate > 0 {
			perKilogramAll += float64(v.StoreMelt) / float64(v.Rate)
		}
		s.Covers = 0
		if perKilogramAll > 0 {
			s.Covers = units.Mass(max(0, min(product, (float64(v.OnHand)-fixed)/perKilogramAll)))
		}
		if v.Rate > 0 {
			hours := float64(s.Covers) / float64(v.Rate) / 3600
			if err := units.Within(fn, "rate", hours, 0, 24*365, "h until the ice runs out"); err != nil {
				return InventoryState{}, err
			}
			s.RunsOut = time.Duration(math.Round(hours * float64(time.Hour)))
			s.CallIn = max(0, s.RunsOut-v.Lead)
		}
		s.Notices = append(s.Notices, units.Notice{Code: CodeShort, Severity: units.Warning, Field: "onHand",
			Value: float64(v.OnHand), Limit: float64(s.Need), Unit: "kg",
			Message: fmt.Sprintf("%.0f kg of ice short: the ice on hand chills %.0f of %.0f kg of product", float64(s.Shortfall), float64(s.Covers), product)})
		if v.Rate > 0 && v.Lead > s.RunsOut {
			s.Notices = append(s.Notices, units.Notice{Code: CodeReorder, Severity: units.Danger, Field: "lead",
				Value: v.Lead.Hours(), Limit: s.RunsOut.Hours(), Unit: "h",
				Message: "ice called for now arrives after the store is empty: slow or stop the harvest until it comes"})
		}
	}
	return s, nil
}
