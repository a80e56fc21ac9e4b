package icing

import (
	"errors"
	"math"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// IceKind is a form in which ice is made and sold.
type IceKind struct {
	Name      string        `json:"name"`
	BulkLow   units.Density `json:"bulkLow"`  // as stowed, loosest
	BulkHigh  units.Density `json:"bulkHigh"` // as stowed, densest
	Delivered string        `json:"delivered"`
}

// The kinds of ice and their stowage, 2.2 to 2.3 m3/t for flake, 1.7 to 1.8 for
// plate, 1.6 to 2.0 for tube, 1.4 to 1.5 for crushed block. From memory of FAO
// Fisheries Technical Papers 331 and 436. Ice settles by 10 to 15 % in a bin
// (common practice).
var (
	FlakeIce        = IceKind{Name: "flake", BulkLow: 1000 / 2.3, BulkHigh: 1000 / 2.2, Delivered: "dry, subcooled to -5 to -8 °C, 2 to 3 mm thick"}
	PlateIce        = IceKind{Name: "plate", BulkLow: 1000 / 1.8, BulkHigh: 1000 / 1.7, Delivered: "8 to 15 mm thick"}
	TubeIce         = IceKind{Name: "tube", BulkLow: 1000 / 2.0, BulkHigh: 1000 / 1.6, Delivered: "wet, 50 mm tubes with 10 to 12 mm walls"}
	CrushedBlockIce = IceKind{Name: "crushed block", BulkLow: 1000 / 1.5, BulkHigh: 1000 / 1.4, Delivered: "wet, uneven"}
)

// Tote is a container to be filled with product and ice.
type Tote struct {
	Volume         units.Volume  `json:"volume"`         // inside
	Fill           float64       `json:"fill"`           // share of the volume used, above 0 to 1
	ProductDensity units.Density `json:"productDensity"` // of the flesh; zero means 1050 kg/m3
	Voids          float64       `json:"voids"`          // share of air between the animals when heaped, 0.35 to 0.45 (common practice)
	IceBulk        units.Density `json:"iceBulk"`        // as stowed, see [IceKind]
	Ratio          float64       `json:"ratio"`          // kg of ice per kg of product
}

// Filling is what a [Tote] holds.
type Filling struct {
	Product units.Mass `json:"product"`
	Ice     units.Mass `json:"ice"`
	Most    units.Mass `json:"most"` // product if the ice filled the gaps between the animals, an upper bound
}

// Fillings returns the product and ice that fill the tote, product and ice each
// taking their own bulk volume:
//
//	m = V·f/(1/(ρ(1-ε)) + r/ρ_ice)
//
// which is low, since ice falls into the gaps; Most lets it, up to solid ice at
// 917 kg/m3 and the same voids over all:
//
//	m = V·f·(1-ε)/(1/ρ + r/917)
//
// Validity: volume, fill, ice density positive, voids 0 to 0.9, ratio 0 to 5;
// errors are ErrDomain.
//
// Source: volume balance, by definition of the bulk densities.
func (t Tote) Fillings() (Filling, error) {
	const fn = "icing.Tote"
	rho := float64(t.ProductDensity)
	if rho == 0 {
		rho = 1050
	}
	err := errors.Join(
		bounds.Positive(fn, "volume", float64(t.Volume), "m3"),
		units.Within(fn, "fill", t.Fill, 0.01, 1, ""),
		units.Within(fn, "productDensity", rho, 900, 1200, "kg/m3"),
		units.Within(fn, "voids", t.Voids, 0, 0.9, ""),
		units.Within(fn, "iceBulk", float64(t.IceBulk), 200, 917, "kg/m3"),
		units.Within(fn, "ratio", t.Ratio, 0, 5, ""))
	if err != nil {
		return Filling{}, err
	}
	space := float64(t.Volume) * t.Fill
	m := space / (1/(rho*(1-t.Voids)) + t.Ratio/float64(t.IceBulk))
	return Filling{
		Product: units.Mass(m),
		Ice:     units.Mass(m * t.Ratio),
		Most:    units.Mass(space * (1 - t.Voids) / (1/rho + t.Ratio/917)),
	}, nil
}

// Layers returns how many layers of product, each with a layer of ice, go into a
// box of the given inside depth above a bed of ice (0.05 m under the first layer
// is common practice):
//
//	n = floor((depth - bed)/(product + ice))
//
// Validity: lengths not negative, product above zero; ErrDomain beside -1.
//
// Source: by definition; FAO Fisheries Technical Paper 331 (1992) for layered
// icing.
func Layers(depth, bed, product, ice units.Length) (int, error) {
	const fn = "icing.Layers"
	err := errors.Join(units.Within(fn, "depth", float64(depth), 0, 10, "m"), bounds.Amount(fn, "bed", float64(bed), "m"),
		units.Within(fn, "product", float64(product), 0.001, 10, "m"), bounds.Amount(fn, "ice", float64(ice), "m"))
	if err != nil {
		return -1, err
	}
	// A hair of slack, so that 0.4 m holds four layers of 0.1 m in floating point.
	n := math.Floor(float64(depth-bed)/float64(product+ice) + 1e-9)
	return int(max(0, n)), nil
}

// StackNotice returns a notice when product and ice are stacked deeper than the
// trade allows: 0.6 m for white fish, 0.4 m for fatty fish, 0.2 m for fillets
// (NRI 1991, maximum depth of fish boxes). limit is the user's choice among
// them.
func StackNotice(depth, limit units.Length) (units.Notice, bool) {
	n, out := units.Outside(CodeBoxHeight, "depth", float64(depth), 0, float64(limit), "m", "NRI (1991), maximum depth of fish boxes")
	if out && depth > limit {
		n.Message = "product is stacked deeper than the limit: the bottom layer is crushed and loses weight"
	}
	return n, out
}
