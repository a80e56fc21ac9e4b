package transport

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/units"
)

// Cargo is product to be packed in containers and onto trucks, in the order the
// trucks stand.
type Cargo struct {
	Product   units.Mass `json:"product"`
	Container Container  `json:"container"`
	Filling   Filling    `json:"filling"`
	Trucks    []Truck    `json:"trucks"`
	Available int        `json:"available"` // containers at hand; zero means as many as needed
}

// TruckLoad is what one truck carries.
type TruckLoad struct {
	Truck      string     `json:"truck"`
	Containers int        `json:"containers"`
	Product    units.Mass `json:"product"`
	Ice        units.Mass `json:"ice"`
	Cargo      units.Mass `json:"cargo"`   // containers with all that is in them
	Payload    units.Mass `json:"payload"` // permitted
	Most       int        `json:"most"`    // full containers it could take
	Binds      Limit      `json:"binds"`   // what limits Most
}

// Packing is the plan for the cargo.
type Packing struct {
	Containers int            `json:"containers"` // needed; the last may be part-filled
	Each       Filled         `json:"each"`       // a full one
	Last       Filled         `json:"last"`       // the last one
	Gross      units.Mass     `json:"gross"`      // of all containers
	Loads      []TruckLoad    `json:"loads"`
	Left       int            `json:"left"`       // containers without a truck
	LeftBehind units.Mass     `json:"leftBehind"` // product in them, or without a container
	Notice     []units.Notice `json:"notices"`
}

// Capacity returns how many containers of the given gross mass a truck takes and
// what stops it: its payload, its floor positions and layers, or an axle.
//
// Validity: gross above zero; errors are ErrDomain beside -1. Source: by
// definition; the smallest of the limits.
func (t Truck) Capacity(gross units.Mass) (int, Limit, error) {
	payload, err := t.PayloadLimit()
	if err == nil {
		err = positive("transport.Truck.Capacity", "gross", float64(gross), "kg")
	}
	if err != nil {
		return -1, ByNothing, err
	}
	n, binds := wholes(float64(payload)/float64(gross)), ByMass
	if t.Slots > 0 {
		if c := float64(t.Slots * max(1, t.Layers)); c <= n {
			n, binds = c, ByCount
		}
	}
	if a := wholes(t.Axles.most() / float64(gross)); a < n {
		n, binds = a, ByAxle
	}
	return int(min(n, 1e6)), binds, nil
}

// wholes is the whole containers in a quotient, with a hair of slack for sums
// that come out even.
func wholes(x float64) float64 { return math.Floor(x*(1+1e-12) + 1e-12) }

// Pack fills containers, then trucks in the order given, each to its limit, and
// says what binds. It never loads a truck beyond its permitted mass; what finds
// no room is left behind and noticed.
//
// Errors are ErrDomain, named by field and truck. Source: by definition of the
// limits.
func (c Cargo) Pack() (Packing, error) {
	const fn = "transport.Cargo"
	err := errors.Join(amount(fn, "Product", float64(c.Product), "kg"), amount(fn, "Available", float64(c.Available), ""))
	each, e := c.Container.Fill(c.Filling)
	err = errors.Join(err, units.AtField("Container", e))
	for i, t := range c.Trucks {
		err = errors.Join(err, units.AtField(fmt.Sprintf("Trucks[%d]", i), t.Validate()))
	}
	if err != nil {
		return Packing{}, err
	}
	p := Packing{Each: each, Last: each}
	need := math.Ceil(float64(c.Product)/float64(each.Product) - 1e-12)
	if err := units.Within(fn, "Product", need, 0, 1e6, "containers"); err != nil {
		return Packing{}, err
	}
	p.Containers = int(need)
	unpacked := 0.0
	if c.Available > 0 && p.Containers > c.Available {
		unpacked = float64(c.Product) - float64(c.Available)*float64(each.Product)
		p.Containers = c.Available
	}
	if p.Containers > 0 && unpacked == 0 {
		p.Last = c.Container.filled(float64(c.Product)-float64(p.Containers-1)*float64(each.Product), c.Filling, ByNothing)
	}
	p.Gross = units.Mass(max(0, p.Containers-1))*each.Gross + p.gross(p.Containers-1)
	left := p.Containers
	for _, t := range c.Trucks {
		most, binds, err := t.Capacity(each.Gross)
		if err != nil {
			return Packing{}, err
		}
		payload, _ := t.PayloadLimit()
		load := TruckLoad{Truck: t.Name, Containers: min(most, left), Payload: payload, Most: most, Binds: binds}
		for range load.Containers {
			box := each
			if left == 1 {
				box = p.Last
			}
			load.Product += box.Product
			load.Ice += box.Ice
			load.Cargo += box.Gross
			left--
		}
		p.Loads = append(p.Loads, load)
	}
	p.Left = left
	if left > 0 {
		p.LeftBehind = units.Mass(left-1)*each.Product + p.Last.Product
	}
	p.LeftBehind += units.Mass(unpacked)
	if p.LeftBehind > 0 {
		p.Notice = append(p.Notice, units.Notice{Code: CodeLeftBehind, Severity: units.Warning, Field: "Trucks",
			Value: float64(p.LeftBehind), Limit: 0, Unit: "kg",
			Message: fmt.Sprintf("%.0f kg of product have no container or truck (%d containers left standing)", float64(p.LeftBehind), left)})
	}
	return p, nil
}

// gross is the gross mass of container i, counted from zero.
func (p Packing) gross(i int) units.Mass {
	switch {
	case i < 0:
		return 0
	case i == p.Containers-1:
		return p.Last.Gross
	}
	return p.Each.Gross
}

// Weigh holds a cargo as loaded against the truck: notices for a cargo beyond
// the payload, an axle beyond its limit or a front axle made light.
func (t Truck) Weigh(cargo units.Mass) ([]units.Notice, error) {
	payload, err := t.PayloadLimit()
	if err == nil {
		err = amount("transport.Truck.Weigh", "cargo", float64(cargo), "kg")
	}
	if err != nil {
		return nil, err
	}
	var out []units.Notice
	if cargo > payload {
		out = append(out, units.Notice{Code: CodeOverweight, Severity: units.Danger, Field: "Payload",
			Value: float64(cargo), Limit: float64(payload), Unit: "kg",
			Message: fmt.Sprintf("%s is %.0f kg over its payload", nameOf(t.Name), float64(cargo-payload)), Source: "the truck's own plate"})
	}
	a := t.Axles
	if a.Wheelbase == 0 {
		return out, nil
	}
	onRear := float64(cargo) * float64(a.LoadCentre/a.Wheelbase)
	front, rear := float64(a.FrontTare)+float64(cargo)-onRear, float64(a.RearTare)+onRear
	if a.RearLimit != 0 && rear > float64(a.RearLimit) {
		out = append(out, units.Notice{Code: CodeOverweight, Severity: units.Danger, Field: "Axles.RearLimit",
			Value: rear, Limit: float64(a.RearLimit), Unit: "kg", Message: "rear axle over its limit: move the load forward or take some off"})
	}
	if a.FrontLimit != 0 && front > float64(a.FrontLimit) {
		out = append(out, units.Notice{Code: CodeOverweight, Severity: units.Danger, Field: "Axles.FrontLimit",
			Value: front, Limit: float64(a.FrontLimit), Unit: "kg", Message: "front axle over its limit: move the load back or take some off"})
	}
	if least := 0.2 * (front + rear); front < least {
		out = append(out, units.Notice{Code: CodeSteeringLight, Severity: units.Danger, Field: "Axles.LoadCentre",
			Value: front, Limit: least, Unit: "kg", Message: "less than a fifth of the gross mass is on the steering axle", Source: "common practice, no source"})
	}
	return out, nil
}

func nameOf(s string) string {
	if s == "" {
		return "the truck"
	}
	return s
}
