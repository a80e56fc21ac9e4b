package plan

import (
	"pondwright.example/biomass"
	"pondwright.example/units"
)

// Crop is what stands in the pond.
type Crop struct {
	biomass.Crop
	Weight   biomass.MeanWeight `json:"weight"`
	HeadOn   biomass.LotGrade   `json:"headOn"`   // whole animals per kilogram
	Headless biomass.LotGrade   `json:"headless"` // tails per pound, through the stated yield
	// AtLowYield and AtHighYield are the headless count were the yield at the
	// ends of its band.
	AtLowYield  units.CountPerMass `json:"atLowYield"`
	AtHighYield units.CountPerMass `json:"atHighYield"`
}

// weightRange is the farm's own range of plausible weights.
func (s Stock) weightRange() *biomass.WeightRange {
	return &biomass.WeightRange{Species: s.Species, Low: s.WeightLow, High: s.WeightHigh, Source: "the farm's own range"}
}

// sweptArea is the area of one cast; casts of different areas are scaled to
// their mean.
func (s Stock) sweptArea() units.Area {
	sum := units.Area(0)
	for _, c := range s.Casts {
		sum += c.Area
	}
	return sum / units.Area(max(1, len(s.Casts)))
}

// estimateCrop weighs the cast-net sample against the stocking record.
func estimateCrop(in Input, water units.Area) (Crop, error) {
	s := in.Stock
	var c Crop
	w, err := biomass.SampleMean(s.Weights, biomass.SampleOptions{Range: s.weightRange()})
	if err != nil {
		return c, units.AtField("stock.weights", err)
	}
	c.Weight = w
	counts := make([]int, len(s.Casts))
	for i, cast := range s.Casts {
		counts[i] = cast.Count
	}
	casts, err := biomass.SummariseCasts(counts)
	if err != nil {
		return c, units.AtField("stock.casts", err)
	}
	c.Crop, err = biomass.EstimateCrop(biomass.CropInput{
		Casts: &biomass.CastNet{Casts: casts, SweptArea: s.sweptArea(),
			Efficiency: s.NetEfficiency, EfficiencySD: s.NetDoubt},
		PondArea:     water,
		Stocking:     &biomass.Stocking{Stocked: s.Stocked, Survival: s.Survival, SurvivalCV: s.SurvivalCV},
		MeanWeight:   w.Mean,
		MeanWeightCV: w.CV,
	})
	if err != nil {
		return c, units.AtField("stock", err)
	}
	// The yield's band is taken as P10 to P90 of a normal error.
	const p90 = 1.2815515655446004
	lot := biomass.LotInput{MeanWeight: w.Mean, MeanWeightCV: w.CV, MeanWeightDOF: float64(w.N - 1),
		Yield: s.TailYield, YieldSD: (s.TailYieldHigh - s.TailYieldLow) / (2 * p90)}
	lot.Table = biomass.HeadOnPerKilogram(s.Edge)
	if c.HeadOn, err = lot.Grade(); err != nil {
		return c, units.AtField("stock", err)
	}
	lot.Table = biomass.HeadlessPerPound(s.Edge)
	if c.Headless, err = lot.Grade(); err != nil {
		return c, units.AtField("stock", err)
	}
	if c.AtLowYield, err = biomass.HeadlessCount(c.HeadOn.HeadOn, s.TailYieldLow); err != nil {
		return c, units.AtField("stock", err)
	}
	c.AtHighYield, err = biomass.HeadlessCount(c.HeadOn.HeadOn, s.TailYieldHigh)
	return c, units.AtField("stock", err)
}
