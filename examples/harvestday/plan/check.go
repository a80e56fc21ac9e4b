package plan

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/biomass"
	"pondwright.example/units"
)

const checkFunc = "plan.Input"

// checkStock holds the crop's inputs to what the estimate can use.
func (m *model) checkStock() error {
	s := m.in.Stock
	var errs []error
	for i, c := range s.Casts {
		errs = append(errs, units.Positive(checkFunc, fmt.Sprintf("stock.casts[%d].area", i), c.Area.SquareMetres(), "m2"))
	}
	if len(s.Casts) == 0 {
		errs = append(errs, &units.InputError{Func: checkFunc, Field: "stock.casts", Value: 0, Reason: "casts.csv lists no cast"})
	}
	if len(s.Weights) == 0 {
		errs = append(errs, &units.InputError{Func: checkFunc, Field: "stock.weights", Value: 0, Reason: "weights.csv lists no animal"})
	}
	for i, w := range s.Weights {
		errs = append(errs, units.Positive(checkFunc, fmt.Sprintf("stock.weights[%d]", i), w.In(units.Grams), "g"))
	}
	net := biomass.CastNet{Casts: biomass.Casts{N: 2, Mean: 1, SD: 1}, SweptArea: 1, Efficiency: s.NetEfficiency, EfficiencySD: s.NetDoubt}
	errs = append(errs,
		units.AtField("stock", renamed(net.Validate(), "efficiencySD", "netEfficiencySD", "efficiency", "netEfficiency")),
		units.AtField("stock", renamed(biomass.Stocking{Stocked: s.Stocked, Survival: s.Survival, SurvivalCV: s.SurvivalCV}.Validate())),
		units.AtField("stock", renamed(s.weightRange().Validate(), "low", "smallestPlausibleWeight", "high", "largestPlausibleWeight")),
		units.AtField("stock", renamed(biomass.HeadlessPerPound(s.Edge).Validate(), "edge", "classEdge")))
	for _, y := range []struct {
		key string
		v   float64
	}{{"tailYieldLow", s.TailYieldLow}, {"tailYield", s.TailYield}, {"tailYieldHigh", s.TailYieldHigh}} {
		errs = append(errs, fraction("stock."+y.key, y.v))
	}
	if s.TailYieldLow > s.TailYield || s.TailYield > s.TailYieldHigh {
		errs = append(errs, &units.InputError{Func: checkFunc, Field: "stock.tailYield", Value: s.TailYield,
			Min: s.TailYieldLow, Max: s.TailYieldHigh, Reason: "the three yields must rise"})
	}
	return errors.Join(errs...)
}

// fraction demands 0 < v <= 1.
func fraction(field string, v float64) error {
	if v > 0 && v <= 1 {
		return nil
	}
	return &units.InputError{Func: checkFunc, Field: field, Value: v, Reason: "a fraction above 0 and at most 1 is needed, such as 0.65 for 65 %"}
}

// checkWork holds the night, the basin, the ice and the trucks to sense.
func (m *model) checkWork() error {
	in := m.in
	errs := []error{
		after("night.opening", in.Night.Opening, "night.preDrain", in.Night.PreDrain),
		after("night.readyBy", in.Night.ReadyBy, "night.opening", in.Night.Opening),
		units.NonNegative(checkFunc, "night.margin", in.Night.Margin.Minutes(), "min"),
		units.Positive(checkFunc, "basin.volume", in.Basin.Volume.CubicMetres(), "m3"),
		units.Positive(checkFunc, "basin.refill", in.Basin.Refill.In(units.CubicMetresPerHour), "m3/h"),
		units.Within(checkFunc, "basin.flushes", float64(in.Basin.Flushes), 0, 50, ""),
		units.Positive(checkFunc, "basin.crowded", in.Basin.Crowded.Kilograms(), "kg"),
		milligrams("basin.oxygen", in.Basin.Oxygen),
		milligrams("basin.inflow", in.Basin.Inflow),
		milligrams("basin.oxygenFloor", in.Basin.Floor),
		milligrams("basin.oxygenHold", in.Basin.Hold),
		units.Positive(checkFunc, "basin.respiration", in.Basin.Respiration.In(units.MilligramsPerKilogramHour), "mg/kg/h"),
		units.NonNegative(checkFunc, "icing.makeUpWater", in.Icing.MakeUp.In(units.Litres), "L"),
		units.NonNegative(checkFunc, "icing.onHand", in.Icing.OnHand.Kilograms(), "kg"),
		units.Within(checkFunc, "haul.doorToDoor", in.Haul.Door.Hours(), 0, 240, "h"),
		after("haul.plantCloses", in.Haul.Closes, "haul.plantOpens", in.Haul.Opens),
	}
	if in.Haul.Door >= 0 {
		errs = append(errs, units.Within(checkFunc, "haul.drive", in.Haul.Drive.Hours(), 0, in.Haul.Door.Hours(), "h"))
	}
	if in.Basin.Excited < in.Basin.Respiration {
		errs = append(errs, &units.InputError{Func: checkFunc, Field: "basin.respirationHigh", Value: in.Basin.Excited.In(units.MilligramsPerKilogramHour),
			Unit: "mg/kg/h", Min: in.Basin.Respiration.In(units.MilligramsPerKilogramHour), Max: math.Inf(1), Reason: "crowded animals breathe more than quiet ones"})
	}
	if in.Basin.Floor >= in.Basin.Oxygen {
		errs = append(errs, &units.InputError{Func: checkFunc, Field: "basin.oxygenFloor", Value: in.Basin.Floor.In(units.MilligramsPerLitre),
			Unit: "mg/L", Min: math.Inf(-1), Max: in.Basin.Oxygen.In(units.MilligramsPerLitre), Reason: "the floor must lie below what the basin has"})
	}
	// What is wrong above is not told again for the ice.
	load := m.load()
	load.Product, load.Containers, load.Hold = 1*units.Kilogram, 1, max(0, load.Hold)
	if t := load.ProductTemperature.Celsius(); !(t >= coldest && t <= hottest) {
		load.ProductTemperature = units.Celsius(hottest)
	}
	errs = append(errs, units.AtField("icing", renamed(load.Validate(), "finalTemperature", "final", "carriedWater", "carryOver",
		"ice.temperature", "ice", "productSpecificHeat", "specificHeat")))
	if len(in.Haul.Containers) == 0 {
		errs = append(errs, &units.InputError{Func: checkFunc, Field: "haul.containers", Value: 0, Reason: "containers.csv lists no bin"})
	}
	if len(in.Haul.Trucks) == 0 {
		errs = append(errs, &units.InputError{Func: checkFunc, Field: "haul.trucks", Value: 0, Reason: "trucks.csv lists no truck"})
	}
	for i, p := range in.Crew {
		errs = append(errs, units.Within(checkFunc, fmt.Sprintf("crew[%d].people", i), float64(p.People), 1, 1000, ""))
	}
	return errors.Join(errs...)
}

func after(field string, t time.Time, thanField string, than time.Time) error {
	if t.After(than) {
		return nil
	}
	return &units.InputError{Func: checkFunc, Field: field, Value: t.Sub(than).Hours(), Unit: "h",
		Reason: fmt.Sprintf("%s is not later than %s (%s)", t.Format(time.RFC3339), thanField, than.Format(time.RFC3339))}
}

func milligrams(field string, c units.Concentration) error {
	return units.Within(checkFunc, field, c.In(units.MilligramsPerLitre), 0, 30, "mg/L")
}
