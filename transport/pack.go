package transport

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Cargo is product to be packed in containers and onto trucks, in the order the
// trucks stand.
type Cargo struct {
	Product   units.Mass `json:"product"`
	Container Container  `json:"container"`
	Filling   Filling    `json:"filling"`
	Available int        `json:"available"`        // containers at hand; zero means as many as needed
	Others    []Boxes    `json:"others,omitempty"` // kinds used, in order, when those before have run out
	Trucks    []Truck    `json:"trucks"`
}

// Boxes is another kind of container.
type Boxes struct {
	Container Container `json:"container"`
	Filling   Filling   `json:"filling"`
	Available int       `json:"available"` // zero means as many as needed
}

// TruckLoad is what one truck carries.
type TruckLoad struct {
	Truck      string     `json:"truck"`
	Containers int        `json:"containers"`
	Product    units.Mass `json:"product"`
	Ice        units.Mass `json:"ice"`
	Cargo      units.Mass `json:"cargo"`   // containers with all that is in them
	Payload    units.Mass `json:"payload"` // permitted
	Most       int        `json:"most"`    // full containers of the first kind it could take
	Binds      Limit      `json:"binds"`   // what limits Most
}

// Packed is the containers of one kind that are used.
type Packed struct {
	Name       string `json:"name"`
	Containers int    `json:"containers"`
	Each       Filled `json:"each"` // a full one
	Last       Filled `json:"last"` // the last one, which may be part-filled
}

// Packing is the plan for the cargo.
type Packing struct {
	Containers int            `json:"containers"` // needed, of all kinds
	Each       Filled         `json:"each"`       // a full one of the first kind
	Last       Filled         `json:"last"`       // the last one of all
	Kinds      []Packed       `json:"kinds"`      // by kind
	Gross      units.Mass     `json:"gross"`      // of all containers
	Loads      []TruckLoad    `json:"loads"`
	Left       int            `json:"left"`       // containers without a truck
	LeftBehind units.Mass     `json:"leftBehind"` // product in them, or without a container
	Notices    []units.Notice `json:"notices"`
}

// Capacity returns how many containers of the given gross mass a truck takes and
// what stops it: its payload, its floor positions and layers, or an axle.
//
// Validity: gross above zero; errors are ErrDomain beside -1. Source: by
// definition; the smallest of the limits.
func (t Truck) Capacity(gross units.Mass) (int, Limit, error) {
	payload, err := t.PayloadLimit()
	if err == nil {
		err = bounds.Positive("transport.Truck.Capacity", "gross", float64(gross), "kg")
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

// Pack fills containers, kind by kind, then trucks in the order given, each to
// its limit, and says what binds. It never loads a truck beyond its permitted
// mass; what finds no room is left behind and noticed.
//
// Errors are ErrDomain, named by field and truck. Source: by definition of the
// limits.
func (c Cargo) Pack() (Packing, error) {
	p, unpacked, err := c.fill()
	if err != nil {
		return Packing{}, err
	}
	next := boxes{kinds: p.Kinds}
	for _, t := range c.Trucks {
		load, err := t.take(p.Each.Gross, &next)
		if err != nil {
			return Packing{}, err
		}
		p.Loads = append(p.Loads, load)
	}
	for box, ok := next.peek(); ok; box, ok = next.peek() {
		p.Left++
		p.LeftBehind += box.Product
		next.drop()
	}
	p.LeftBehind += units.Mass(unpacked)
	if p.LeftBehind > 0 {
		p.Notices = append(p.Notices, units.Notice{Code: CodeLeftBehind, Severity: units.Warning, Field: "trucks",
			Value: float64(p.LeftBehind), Limit: 0, Unit: "kg",
			Message: fmt.Sprintf("%.0f kg of product have no container or truck (%d containers left standing)", float64(p.LeftBehind), p.Left)})
	}
	return p, nil
}

// fill checks the cargo, fills containers and returns the product for which
// there is none.
func (c Cargo) fill() (p Packing, unpacked float64, err error) {
	const fn = "transport.Cargo"
	err = bounds.Amount(fn, "product", float64(c.Product), "kg")
	for i, t := range c.Trucks {
		err = errors.Join(err, units.AtField(fmt.Sprintf("trucks[%d]", i), t.Validate()))
	}
	left := float64(c.Product)
	for i, b := range append([]Boxes{{c.Container, c.Filling, c.Available}}, c.Others...) {
		at := ""
		if i > 0 {
			at = fmt.Sprintf("others[%d].", i-1)
		}
		each, e := b.Container.Fill(b.Filling)
		e = errors.Join(units.AtField(at+"container", e), bounds.Amount(fn, at+"available", float64(b.Available), ""))
		if err = errors.Join(err, e); err != nil {
			continue
		}
		need := math.Ceil(left/float64(each.Product) - 1e-12)
		if err = units.Within(fn, at+"container", need, 0, 1e6, "containers"); err != nil {
			continue
		}
		k := Packed{Name: b.Container.Name, Containers: int(need), Each: each, Last: each}
		if b.Available > 0 && k.Containers > b.Available {
			k.Containers = b.Available
			left -= float64(b.Available) * float64(each.Product)
		} else {
			if k.Containers > 0 {
				k.Last = b.Container.filled(left-float64(k.Containers-1)*float64(each.Product), b.Filling, ByNothing)
			}
			left = 0
		}
		p.Kinds = append(p.Kinds, k)
	}
	if err != nil {
		return Packing{}, 0, err
	}
	p.Each, p.Last = p.Kinds[0].Each, p.Kinds[0].Last
	for _, k := range p.Kinds {
		if k.Containers > 0 {
			p.Containers += k.Containers
			p.Gross += units.Mass(k.Containers-1)*k.Each.Gross + k.Last.Gross
			p.Last = k.Last
		}
	}
	return p, left, nil
}

// boxes walks the filled containers, kind by kind.
type boxes struct {
	kinds []Packed
	kind  int
	taken int // of the kind
}

// peek returns the next container.
func (b *boxes) peek() (Filled, bool) {
	for b.kind < len(b.kinds) && b.taken >= b.kinds[b.kind].Containers {
		b.kind, b.taken = b.kind+1, 0
	}
	if b.kind == len(b.kinds) {
		return Filled{}, false
	}
	k := b.kinds[b.kind]
	if b.taken == k.Containers-1 {
		return k.Last, true
	}
	return k.Each, true
}

func (b *boxes) drop() { b.taken++ }

// take loads the truck with the next containers up to its limits.
func (t Truck) take(full units.Mass, next *boxes) (TruckLoad, error) {
	most, binds, err := t.Capacity(full)
	if err != nil {
		return TruckLoad{}, err
	}
	payload, err := t.PayloadLimit()
	if err != nil {
		return TruckLoad{}, err
	}
	load := TruckLoad{Truck: t.Name, Payload: payload, Most: most, Binds: binds}
	room := min(float64(payload), t.Axles.most()) * (1 + 1e-12)
	for box, ok := next.peek(); ok; box, ok = next.peek() {
		if t.Slots > 0 && load.Containers == t.Slots*max(1, t.Layers) || float64(load.Cargo+box.Gross) > room {
			break
		}
		load.Containers++
		load.Product += box.Product
		load.Ice += box.Ice
		load.Cargo += box.Gross
		next.drop()
	}
	return load, nil
}

// Weigh holds a cargo as loaded against the truck: notices for a cargo beyond
// the payload, an axle beyond its limit or a front axle made light.
func (t Truck) Weigh(cargo units.Mass) ([]units.Notice, error) {
	payload, err := t.PayloadLimit()
	if err == nil {
		err = bounds.Amount("transport.Truck.Weigh", "cargo", float64(cargo), "kg")
	}
	if err != nil {
		return nil, err
	}
	var out []units.Notice
	if cargo > payload {
		out = append(out, units.Notice{Code: CodeOverweight, Severity: units.Danger, Field: "payload",
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
		out = append(out, units.Notice{Code: CodeOverweight, Severity: units.Danger, Field: "axles.rearLimit",
			Value: rear, Limit: float64(a.RearLimit), Unit: "kg", Message: "rear axle over its limit: move the load forward or take some off"})
	}
	if a.FrontLimit != 0 && front > float64(a.FrontLimit) {
		out = append(out, units.Notice{Code: CodeOverweight, Severity: units.Danger, Field: "axles.frontLimit",
			Value: front, Limit: float64(a.FrontLimit), Unit: "kg", Message: "front axle over its limit: move the load back or take some off"})
	}
	if least := 0.2 * (front + rear); front < least {
		out = append(out, units.Notice{Code: CodeSteeringLight, Severity: units.Danger, Field: "axles.loadCentre",
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
