package transport

import (
	"errors"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Container is a bin, tote or box for iced product.
type Container struct {
	Name        string                   `json:"name"`
	Volume      units.Volume             `json:"volume"`      // inside
	Tare        units.Mass               `json:"tare"`        // empty, with lid
	MaxGross    units.Mass               `json:"maxGross"`    // of its plate or of the handling gear; zero means none
	Conductance units.ThermalConductance `json:"conductance"` // U·A of the whole box; zero means not known
}

// Filling says what goes into a container.
type Filling struct {
	Product     units.Mass    `json:"product"`     // cap of the caller's own; zero means as much as fits
	Ice         float64       `json:"ice"`         // kg of ice per kg of product when it is closed
	Water       float64       `json:"water"`       // kg of water left with it per kg of product
	ProductBulk units.Density `json:"productBulk"` // product heaped without ice, 550 to 650 kg/m3 (from memory); in slurry, without gaps, the flesh's own 1050
	IceBulk     units.Density `json:"iceBulk"`     // ice as shovelled, 430 to 715 kg/m3, in slurry 917; needed when Ice is not zero
	Fill        float64       `json:"fill"`        // share of the volume used, above 0 to 1
}

// Filled is a container as it is closed.
type Filled struct {
	Product units.Mass   `json:"product"`
	Ice     units.Mass   `json:"ice"`
	Water   units.Mass   `json:"water"`
	Gross   units.Mass   `json:"gross"` // tare included
	Volume  units.Volume `json:"volume"`
	Binds   Limit        `json:"binds"` // volume, mass or the caller's choice
}

func (c Container) validate() error {
	const fn = "transport.Container"
	err := errors.Join(
		bounds.Positive(fn, "volume", float64(c.Volume), "m3"),
		bounds.Amount(fn, "tare", float64(c.Tare), "kg"),
		bounds.Amount(fn, "maxGross", float64(c.MaxGross), "kg"),
		bounds.Amount(fn, "conductance", float64(c.Conductance), "W/K"))
	if err == nil && c.MaxGross != 0 && c.MaxGross <= c.Tare {
		err = &units.InputError{Func: fn, Field: "maxGross", Value: float64(c.MaxGross), Unit: "kg", Min: float64(c.Tare), Max: 1e5,
			Reason: "must exceed the tare"}
	}
	return err
}

// Fill returns what one container holds and what stops it from holding more:
//
//	m ≤ V·f/(1/ρ_p + r/ρ_i + w/1000)   volume
//	m ≤ (max gross - tare)/(1 + r + w)  mass
//
// with ice r and water w per product. Ice and product are given their own bulk
// volumes, water the water's, which is on the low side.
//
// Validity: as the fields say; errors are ErrDomain. Source: volume and mass
// balance, by definition of the bulk densities.
func (c Container) Fill(f Filling) (Filled, error) {
	const fn = "transport.Filling"
	err := errors.Join(c.validate(),
		bounds.Amount(fn, "product", float64(f.Product), "kg"),
		units.Within(fn, "ice", f.Ice, 0, 5, "kg/kg"),
		units.Within(fn, "water", f.Water, 0, 5, "kg/kg"),
		units.Within(fn, "productBulk", float64(f.ProductBulk), 200, 1200, "kg/m3"),
		units.Within(fn, "fill", f.Fill, 0.01, 1, ""))
	perProduct := 1 / float64(f.ProductBulk)
	if f.Ice != 0 {
		err = errors.Join(err, units.Within(fn, "iceBulk", float64(f.IceBulk), 200, 917, "kg/m3"))
		perProduct += f.Ice / float64(f.IceBulk)
	}
	if err != nil {
		return Filled{}, err
	}
	perProduct += f.Water / 1000
	m, binds := float64(c.Volume)*f.Fill/perProduct, ByVolume
	if c.MaxGross != 0 {
		if by := float64(c.MaxGross-c.Tare) / (1 + f.Ice + f.Water); by < m {
			m, binds = by, ByMass
		}
	}
	if f.Product != 0 && float64(f.Product) <= m {
		m, binds = float64(f.Product), ByChoice
	}
	return c.filled(m, f, binds), nil
}

func (c Container) filled(product float64, f Filling, binds Limit) Filled {
	v := product / float64(f.ProductBulk)
	if f.Ice != 0 {
		v += product * f.Ice / float64(f.IceBulk)
	}
	return Filled{
		Product: units.Mass(product),
		Ice:     units.Mass(product * f.Ice),
		Water:   units.Mass(product * f.Water),
		Gross:   c.Tare + units.Mass(product*(1+f.Ice+f.Water)),
		Volume:  units.Volume(v + product*f.Water/1000),
		Binds:   binds,
	}
}
