package plan

import (
	"pondwright.example/hydraulics"
	"pondwright.example/icing"
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
