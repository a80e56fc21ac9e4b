package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// MassLoss returns the mass lost when a fraction (0 to 1) of it goes, such as in
// purging before a live haul.
//
// Errors: ErrDomain for a negative mass or a fraction outside 0 to 1.
//
// Source: by definition.
func MassLoss(m units.Mass, lost float64) (units.Mass, error) {
	const fn = "biomass.MassLoss"
	if err := errors.Join(units.NonNegative(fn, "m", m.Kilograms(), "kg"), units.Within(fn, "lost", lost, 0, 1, "")); err != nil {
		return units.Mass(math.NaN()), err
	}
	return m * units.Mass(lost), nil
}

// HarvestInput is one harvest when all is weighed.
type HarvestInput struct {
	// Crop is the estimate before the harvest; its zero value leaves closure out.
	Crop Estimate `json:"crop"`
	// Product is the net weight sold, all tickets together.
	Product NetWeight `json:"product"`
	// Mortality is what died in the harvest and was not sold, as a line of its own
	// and never as shrinkage.
	Mortality units.Mass `json:"mortality"`
	// Rejected is what was weighed and not accepted.
	Rejected units.Mass `json:"rejected"`
	// Residual is what was seen to stay in the pond or was taken by hand after.
	Residual units.Mass `json:"residual"`
	// Earlier is what partial harvests took from this crop before.
	Earlier units.Mass `json:"earlier"`
	// MeanWeight of the harvested animals, for the numbers below; zero leaves them
	// out.
	MeanWeight units.Mass `json:"meanWeight"`
	// Stocked is the number of animals put in; zero leaves survival out.
	Stocked float64 `json:"stocked"`
	// CastMean is the mean count per cast of the sample before harvest, SweptArea
	// the area of a cast and PondArea the pond's; zero leaves the efficiency out.
	CastMean  float64    `json:"castMean"`
	SweptArea units.Area `json:"sweptArea"`
	PondArea  units.Area `json:"pondArea"`
}

// HarvestAccount is what a harvest teaches for the next plan.
type HarvestAccount struct {
	// Found is all that was in the pond at the start of this harvest: product,
	// mortality, rejected and residual.
	Found units.Mass `json:"found"`
	// Recovery is Product over Found, MortalityFraction the dead over Found.
	Recovery          float64 `json:"recovery"`
	MortalityFraction float64 `json:"mortalityFraction"`
	// Closure is Found less the crop's median; ClosureZ is the difference of their
	// logarithms in standard deviations of the estimate. Zero without a crop.
	Closure  units.Mass `json:"closure"`
	ClosureZ float64    `json:"closureZ"`
	// Animals is Found over the mean weight; Survival is Animals, those of earlier
	// harvests included at the same mean weight, over Stocked.
	Animals  float64 `json:"animals"`
	Survival float64 `json:"survival"`
	// CatchEfficiency is the one the casts turned out to have.
	CatchEfficiency float64        `json:"catchEfficiency"`
	Notices         []units.Notice `json:"notices,omitempty"`
}

// Account closes a harvest: what was found against what was expected, with
// mortality as its own line, and the survival and catch efficiency that it
// teaches.
//
//	recovery = P/(P + M + R + r),  e = c̄ A/(a N)
//
// Errors: ErrDomain for masses or numbers that are negative, or nothing found.
//
// Source: bookkeeping, by definition.
func (in HarvestInput) Account() (HarvestAccount, error) {
	const fn = "biomass.HarvestInput.Account"
	kg := func(field string, m units.Mass) error { return units.NonNegative(fn, field, m.Kilograms(), "kg") }
	err := errors.Join(kg("product.net", in.Product.Net), kg("mortality", in.Mortality), kg("rejected", in.Rejected),
		kg("residual", in.Residual), kg("earlier", in.Earlier), kg("meanWeight", in.MeanWeight),
		units.NonNegative(fn, "stocked", in.Stocked, "animals"), units.NonNegative(fn, "castMean", in.CastMean, "animals"),
		units.NonNegative(fn, "sweptArea", in.SweptArea.SquareMetres(), "m2"), units.NonNegative(fn, "pondArea", in.PondArea.SquareMetres(), "m2"))
	a := HarvestAccount{Found: in.Product.Net + in.Mortality + in.Rejected + in.Residual}
	if err == nil && !(a.Found > 0) {
		err = units.Positive(fn, "product.net", a.Found.Kilograms(), "kg")
	}
	if err != nil {
		return HarvestAccount{}, err
	}
	a.Recovery = float64(in.Product.Net / a.Found)
	a.MortalityFraction = float64(in.Mortality / a.Found)
	if in.Crop.P50 > 0 {
		a.Closure = a.Found - in.Crop.P50
		if in.Crop.LogSD > 0 {
			a.ClosureZ = math.Log(float64(a.Found/in.Crop.P50)) / in.Crop.LogSD
		}
	}
	if in.MeanWeight > 0 {
		a.Animals = float64(a.Found / in.MeanWeight)
		a.learn(in)
	}
	if err := soundAll(fn, a.Found.Kilograms(), a.Recovery, a.MortalityFraction, a.Closure.Kilograms(), a.ClosureZ, a.Animals, a.Survival, a.CatchEfficiency); err != nil {
		return HarvestAccount{}, err
	}
	return a, nil
}

// learn fills survival and catch efficiency.
func (a *HarvestAccount) learn(in HarvestInput) {
	if in.Stocked > 0 {
		a.Survival = (a.Animals + float64(in.Earlier/in.MeanWeight)) / in.Stocked
		if a.Survival > 1 {
			a.Notices = append(a.Notices, units.Notice{Code: CodeAboveStocked, Severity: units.Warning, Field: "survival",
				Value: a.Survival, Limit: 1, Message: "more animals came out than were stocked: check stocking count, mean weight and water on the scale"})
		}
	}
	if in.CastMean > 0 && in.SweptArea > 0 && in.PondArea > 0 {
		a.CatchEfficiency = in.CastMean * in.PondArea.SquareMetres() / (in.SweptArea.SquareMetres() * a.Animals)
	}
}
