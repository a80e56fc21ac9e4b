package plan

import (
	"math"
	"time"

	"pondwright.example/biomass"
	"pondwright.example/hydraulics"
	"pondwright.example/icing"
	"pondwright.example/units"
)

// load is the icing job of the night, without the product and its containers.
// Water that is carried and water that starts the slurry is the pond's.
func (m *model) load() icing.Load {
	in := m.in
	heat, err := hydraulics.WaterSpecificHeat(in.Water.Temperature, in.Water.Salinity)
	if err != nil {
		heat = 0 // the package's own default
	}
	l := icing.Load{
		ProductSpecificHeat: in.Icing.Specific,
		ProductTemperature:  in.Water.Temperature,
		FinalTemperature:    in.Icing.Final,
		CarriedWater:        in.Icing.CarryOver,
		MakeUpWater:         in.Icing.MakeUp.Mass(m.water.Density),
		WaterSpecificHeat:   heat,
		Ambient:             in.Place.Air,
		Hold:                in.Haul.Door,
		Ice:                 icing.Ice{Temperature: in.Icing.Ice},
		Waste:               in.Icing.Waste,
	}
	if len(in.Haul.Containers) > 0 {
		l.Conductance = in.Haul.Containers[0].Gain
	}
	return l
}

// Ice is the ice of the night: the order for the crop expected, what more to
// have on call for a large one, and how far the ice on hand goes.
type Ice struct {
	icing.Plan
	Expected  units.Mass           `json:"expected"` // order for the middle crop
	Reserve   units.Mass           `json:"reserve"`  // on top of Expected, for the P90 crop; the two make Order
	OnHand    units.Mass           `json:"onHand"`
	Inventory icing.InventoryState `json:"inventory"` // of the ice on hand against the P90 crop
	Core      CoreCooling          `json:"core"`
}

// CoreCooling is how long the middle of an animal takes to be cold.
type CoreCooling struct {
	Diameter units.Length      `json:"diameter"`
	Target   units.Temperature `json:"target"`
	Stirred  time.Duration     `json:"stirred"`
	Still    time.Duration     `json:"still"`
}

// ice orders for the P90 crop and holds the ice on hand against it.
func (m *model) ice(crop biomass.Estimate) (Ice, error) {
	var out Ice
	l := m.load()
	each := m.in.Haul.Containers[0].Product
	var err error
	if out.Plan, err = l.Plan(icing.Crop{P10: crop.P10, P50: crop.P50, P90: crop.P90}, each); err != nil {
		return out, units.AtField("icing", err)
	}
	out.Expected, out.Reserve = out.Median.Order, out.High.Order-out.Median.Order
	out.OnHand = m.in.Icing.OnHand
	l.Product = crop.P90
	l.Containers = containersFor(crop.P90, each)
	if out.Inventory, err = (icing.Inventory{OnHand: out.OnHand, Remaining: l}).Check(); err != nil {
		return out, units.AtField("icing", err)
	}
	c := &out.Core
	c.Diameter, c.Target = m.in.Icing.Body, m.in.Icing.Core
	for _, f := range []struct {
		film units.HeatTransferCoefficient
		out  *time.Duration
	}{{icing.FilmStirredBath, &c.Stirred}, {icing.FilmStillBath, &c.Still}} {
		b := icing.Body{Shape: icing.Cylinder, HalfDimension: c.Diameter / 2, Film: f.film}
		if *f.out, err = b.CoreTime(m.in.Water.Temperature, m.in.Icing.Final, c.Target); err != nil {
			return out, units.AtField("icing.coreTarget", err)
		}
	}
	return out, nil
}

// containersFor is how many containers a mass fills, the last one in part.
func containersFor(product, each units.Mass) int {
	if each <= 0 {
		return 0
	}
	return int(math.Ceil(float64(product / each)))
}
