package plan

import (
	"time"

	"pondwright.example/transport"
	"pondwright.example/units"
)

// HaulPlan is the way of the product to the plant.
type HaulPlan struct {
	Median  transport.Packing    `json:"median"` // at the P50 crop
	High    transport.Packing    `json:"high"`   // at the P90 crop: bins and trucks are planned for it
	Trips   transport.TripPlan   `json:"trips"`  // at the P50 crop
	Melt    []transport.RoadMelt `json:"melt"`   // ice of each trip at the plant's door
	Notices []units.Notice       `json:"notices,omitempty"`
}

// haul packs the bins, loads the trucks and sends them off. The bins go to the
// plant as slurry: all ice and water of the night is in them.
func (m *model) haul(c Crop, ice Ice, start time.Time, work time.Duration) (HaulPlan, error) {
	var h HaulPlan
	kind := m.in.Haul.Containers[0]
	cargo := transport.Cargo{
		Container: transport.Container{Name: kind.Name, Volume: kind.Volume, Tare: kind.Tare, Conductance: kind.Gain},
		Available: kind.Number,
	}
	for _, t := range m.in.Haul.Trucks {
		cargo.Trucks = append(cargo.Trucks, transport.Truck{Name: t.Name, Payload: t.Payload, Slots: t.Slots, Layers: t.Layers})
	}
	var err error
	for _, at := range []struct {
		crop units.Mass
		ice  units.Mass
		out  *transport.Packing
	}{{c.Estimate.P50, ice.Median.Order, &h.Median}, {c.Estimate.P90, ice.High.Order, &h.High}} {
		product := at.crop
		cargo.Product = product
		cargo.Filling = transport.Filling{
			Product:     kind.Product,
			Ice:         float64(at.ice / product),
			Water:       m.in.Icing.CarryOver + float64(m.in.Icing.MakeUp.Mass(m.water.Density)/product),
			ProductBulk: m.in.Haul.ProductBulk,
			IceBulk:     m.in.Haul.IceBulk,
			Fill:        m.in.Haul.Fill,
		}
		if *at.out, err = cargo.Pack(); err != nil {
			return h, units.AtField("haul", err)
		}
	}
	h.Notices = append(h.Notices, h.High.Notices...)
	s := transport.Schedule{
		Product: c.Estimate.P50, Start: start, Rate: c.Estimate.P50.Per(work),
		Turn:    transport.Turn{Load: m.in.Haul.Loading, Haul: m.in.Haul.Drive, Unload: m.in.Haul.Unloading, Return: m.in.Haul.Drive},
		Windows: []transport.Window{{Opens: m.in.Haul.Opens, Closes: m.in.Haul.Closes}},
	}
	for i, t := range m.in.Haul.Trucks {
		if i < len(h.Median.Loads) && h.Median.Loads[i].Product > 0 {
			s.Haulers = append(s.Haulers, transport.Hauler{Name: t.Name, Ready: t.Ready, Product: h.Median.Loads[i].Product})
		}
	}
	if h.Trips, err = s.Plan(); err != nil {
		return h, units.AtField("haul", err)
	}
	h.Notices = append(h.Notices, h.Trips.Notices...)
	left := ice.Median.Order - (ice.Median.Chill + ice.Median.Carried + ice.Median.MakeUp)
	for _, t := range h.Trips.Trips {
		n := containersFor(t.Product, kind.Product)
		r := transport.Road{Containers: n, Conductance: kind.Gain, Ambient: m.in.Place.Air, Haul: t.Arrives.Sub(t.Loading), Wait: t.WaitPlant}
		melt, err := r.Melt(left * units.Mass(t.Product/c.Estimate.P50))
		if err != nil {
			return h, units.AtField("haul", err)
		}
		h.Melt = append(h.Melt, melt)
		h.Notices = append(h.Notices, melt.Notices...)
	}
	return h, nil
}
