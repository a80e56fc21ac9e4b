package icing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Composition is the make-up of a product above freezing, as mass fractions.
type Composition struct {
	Water        float64 `json:"water"`
	Protein      float64 `json:"protein"`
	Fat          float64 `json:"fat"`
	Carbohydrate float64 `json:"carbohydrate"`
	Fibre        float64 `json:"fibre"`
	Ash          float64 `json:"ash"`
	Porosity     float64 `json:"porosity"` // share of the volume that is air, 0 to below 1
}

// Compositions of flesh, from memory of the ASHRAE Handbook Refrigeration and
// USDA tables; catfish is approximate. For whole fish the flesh value serves
// (common practice).
var (
	Cod        = Composition{Water: 0.8122, Protein: 0.1781, Fat: 0.0067, Ash: 0.0116}
	Haddock    = Composition{Water: 0.7992, Protein: 0.1891, Fat: 0.0072, Ash: 0.0121}
	PinkSalmon = Composition{Water: 0.7635, Protein: 0.1994, Fat: 0.0345, Ash: 0.0122}
	Mackerel   = Composition{Water: 0.6355, Protein: 0.1860, Fat: 0.1389, Ash: 0.0135}
	Shrimp     = Composition{Water: 0.7586, Protein: 0.2031, Fat: 0.0173, Carbohydrate: 0.0091, Ash: 0.0120}
	Catfish    = Composition{Water: 0.76, Protein: 0.165, Fat: 0.065, Ash: 0.010}
)

// Properties are those of a mixture at one temperature. Conductivity depends on
// how the constituents lie: Parallel to the heat flow (along the fibres) and in
// Series are its bounds.
type Properties struct {
	SpecificHeat units.SpecificHeat        `json:"specificHeat"`
	Density      units.Density             `json:"density"`
	Parallel     units.ThermalConductivity `json:"parallel"`
	Series       units.ThermalConductivity `json:"series"`
	Diffusivity  units.Diffusivity         `json:"diffusivity"` // Parallel over the density without gaps and the specific heat
	Notices      []units.Notice            `json:"notices"`
}

func (c Composition) fractions() [6]float64 {
	return [6]float64{c.Protein, c.Fat, c.Carbohydrate, c.Fibre, c.Ash, c.Water}
}

// Validate reports every fraction outside 0 to 1, a sum outside 0.95 to 1.05 and
// a porosity outside 0 to 0.95.
func (c Composition) Validate() error {
	const fn = "icing.Composition"
	x := c.fractions()
	err := errors.Join(
		units.Within(fn, "water", c.Water, 0, 1, ""),
		units.Within(fn, "protein", c.Protein, 0, 1, ""),
		units.Within(fn, "fat", c.Fat, 0, 1, ""),
		units.Within(fn, "carbohydrate", c.Carbohydrate, 0, 1, ""),
		units.Within(fn, "fibre", c.Fibre, 0, 1, ""),
		units.Within(fn, "ash", c.Ash, 0, 1, ""),
		units.Within(fn, "porosity", c.Porosity, 0, 0.95, ""))
	if err != nil {
		return err
	}
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	if e := units.Within(fn, "sum of fractions", sum, 0.95, 1.05, ""); e != nil {
		return e
	}
	return nil
}

// Properties returns specific heat, density, conductivity and diffusivity of the
// unfrozen product at t, with the fractions scaled to a sum of one (a notice
// says so when they were more than 2 % off):
//
//	c = Σ x_i c_i ;  1/ρ_s = Σ x_i/ρ_i ;  v_i = ρ_s x_i/ρ_i ;  ρ = ρ_s (1-ε)
//	k_parallel = Σ v_i k_i ;  k_series = 1/Σ(v_i/k_i) ;  a = k_parallel/(ρ_s c)
//
// Porosity ε lowers the density alone: conductivities and diffusivity are those
// of the flesh between the gaps.
//
// Validity: 0 to 100 °C here, since below freezing part of the water is ice
// ([FrozenFraction]). Accuracy: 2.5 % of tabulated specific heats; the two
// conductivities lie 17 to 20 % apart, and their mean serves across the fibres
// (common practice).
//
// Source: Choi & Okos (1986), in ASHRAE Handbook Refrigeration (2006), ch. 9.
func (c Composition) Properties(t units.Temperature) (Properties, error) {
	if err := c.Validate(); err != nil {
		return Properties{}, err
	}
	x := t.Celsius()
	if err := units.Within("icing.Composition.Properties", "t", x, 0, 100, "°C"); err != nil {
		return Properties{}, err
	}
	frac := c.fractions()
	sum := 0.0
	for _, v := range frac {
		sum += v
	}
	heat, volume := 0.0, 0.0
	for i, v := range frac {
		v /= sum
		heat += v * Component(i).heat(x)
		volume += v / componentDensity[i].at(x)
	}
	parallel, series := 0.0, 0.0
	for i, v := range frac {
		share := v / sum / componentDensity[i].at(x) / volume
		k := componentConductance[i].at(x)
		parallel += share * k
		series += share / k
	}
	rho := (1 - c.Porosity) / volume
	p := Properties{
		SpecificHeat: units.SpecificHeat(heat),
		Density:      units.Density(rho),
		Parallel:     units.ThermalConductivity(parallel),
		Series:       units.ThermalConductivity(1 / series),
		Diffusivity:  units.Diffusivity(parallel * volume / heat),
	}
	if math.Abs(sum-1) > 0.02 {
		p.Notices = append(p.Notices, units.Notice{Code: CodeCompositionScaled, Severity: units.Caution, Field: "composition",
			Value: sum, Limit: 1, Message: "the mass fractions do not sum to one and were scaled: is a constituent missing?"})
	}
	return p, nil
}
