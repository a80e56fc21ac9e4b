package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// DragLaw is a published law for the drag of a body that falls alone. It is
// [HaiderLevenspiel], [SchillerNaumann], [CliftGauvin] or [CliftGraceWeber].
type DragLaw uint8

// The laws, by authors and year. HaiderLevenspiel is the default.
const (
	HaiderLevenspiel DragLaw = iota // 1989; any sphericity from 0.5
	SchillerNaumann                 // 1933; sphere, 0.44 above re 1000
	CliftGauvin                     // 1970; sphere
	CliftGraceWeber                 // 1978; sphere, ten ranges
)

// The Reynolds number at which each law ends, and the least sphericity.
var dragMaxRe = [...]float64{2e5, 1e5, 3e5, 1e7}

const (
	minSphericity        = 0.5
	maxReNotSphere       = 2.5e4
	sphere               = 1.0
	newtonDrag, newtonRe = 0.44, 1000.0
)

// DragCoefficient returns the drag coefficient of a body with the volume of a
// sphere of diameter d at Reynolds number re = v d/ν, on the cross-section of
// that sphere. Sphericity is the surface of the sphere over that of the body; 0
// takes 1.
//
// Validity: HaiderLevenspiel re to 2e5 (2.5e4 below sphericity 1, from 0.5);
// SchillerNaumann to 1e5; CliftGauvin to 3e5; CliftGraceWeber to 1e7; the last
// three are for spheres. ErrRange with the value above; ErrDomain for re <= 0 or
// a sphericity that the law does not know.
//
// Source: Haider & Levenspiel 1989, Powder Technol. 58:63;
// Schiller & Naumann 1933; Clift & Gauvin 1970; Clift, Grace & Weber 1978,
// Bubbles, Drops and Particles, table 5.2. Coefficients from memory, proved
// against general code.
func DragCoefficient(law DragLaw, re, sphericity float64) (float64, error) {
	const fn = "hydraulics.DragCoefficient"
	if sphericity == 0 {
		sphericity = sphere
	}
	if err := errors.Join(units.Within(fn, "re", re, leastRe, greatestRe, ""), dragShape(fn, law, sphericity)); err != nil {
		return math.NaN(), err
	}
	cd := drag(law, re, sphericity)
	if most := dragLimit(law, sphericity); re > most {
		return cd, &units.InputError{Func: fn, Field: "re", Value: re, Min: 0, Max: most, Kind: units.ErrRange}
	}
	return cd, nil
}

func dragShape(fn string, law DragLaw, sphericity float64) error {
	if int(law) >= len(dragMaxRe) {
		return units.Within(fn, "law", float64(law), 0, float64(len(dragMaxRe)-1), "")
	}
	if law != HaiderLevenspiel && sphericity != sphere {
		return &units.InputError{Func: fn, Field: "sphericity", Value: sphericity, Min: sphere, Max: sphere,
			Reason: law.String() + " is for spheres: take Haider & Levenspiel"}
	}
	return units.Within(fn, "sphericity", sphericity, minSphericity, sphere, "")
}

func dragLimit(law DragLaw, sphericity float64) float64 {
	if law == HaiderLevenspiel && sphericity < sphere {
		return maxReNotSphere
	}
	return dragMaxRe[law]
}

func drag(law DragLaw, re, psi float64) float64 {
	switch law {
	case SchillerNaumann:
		if re >= newtonRe {
			return newtonDrag
		}
		return 24 / re * (1 + 0.15*math.Pow(re, 0.687))
	case CliftGauvin:
		return 24/re*(1+0.15*math.Pow(re, 0.687)) + 0.42/(1+42500*math.Pow(re, -1.16))
	case CliftGraceWeber:
		return cliftGraceWeber(re)
	}
	a, b, c, d := 0.1806, 0.6459, 0.4251, 6880.95 // sphere
	if psi < sphere {                             // other shapes
		a = math.Exp(2.3288 - 6.4581*psi + 2.4486*psi*psi)
		b = 0.0964 + 0.5565*psi
		c = math.Exp(4.905 - 13.8944*psi + 18.4222*psi*psi - 10.2599*psi*psi*psi)
		d = math.Exp(1.4681 + 12.2584*psi - 20.7322*psi*psi + 15.8855*psi*psi*psi)
	}
	return 24/re*(1+a*math.Pow(re, b)) + c/(1+d/re)
}

// cliftGraceWeber is the standard drag curve in ten ranges, table 5.2.
func cliftGraceWeber(re float64) float64 {
	w := math.Log10(re)
	switch {
	case re < 0.01:
		return 24/re + 3.0/16
	case re < 20:
		return 24 / re * (1 + 0.1315*math.Pow(re, 0.82-0.05*w))
	case re < 260:
		return 24 / re * (1 + 0.1935*math.Pow(re, 0.6305))
	case re < 1500:
		return math.Pow(10, 1.6435+w*(-1.1242+w*0.1558))
	case re < 1.2e4:
		return math.Pow(10, -2.4571+w*(2.5558+w*(-0.9295+w*0.1049)))
	case re < 4.4e4:
		return math.Pow(10, -1.9181+w*(0.6370+w*-0.0636))
	case re < 3.38e5:
		return math.Pow(10, -4.3390+w*(1.5809+w*-0.1546))
	case re < 4e5:
		return 29.78 - 5.3*w
	case re < 1e6:
		return 0.1*w - 0.49
	}
	return 0.19 - 8e4/re
}

// Body is an animal as it sinks or floats when it does not swim.
type Body struct {
	Diameter   units.Length  `json:"diameter"`   // of the sphere of equal volume
	Density    units.Density `json:"density"`    // of the animal
	Sphericity float64       `json:"sphericity"` // surface of that sphere over the animal's; 0 takes 1; shrimp and fish about 0.7
}

// BodyOfMass returns the body of an animal by its mass.
//
// Equation: d = (6 m/(π ρ))^(1/3).
//
// Source: volume of a sphere, by definition.
func BodyOfMass(m units.Mass, density units.Density, sphericity float64) (Body, error) {
	const fn = "hydraulics.BodyOfMass"
	shape := sphericity
	if shape == 0 {
		shape = sphere
	}
	err := errors.Join(units.Within(fn, "m", m.Kilograms(), 1e-12, 1e5, "kg"),
		units.Within(fn, "density", density.KilogramsPerCubicMetre(), 100, 3000, "kg/m3"), dragShape(fn, HaiderLevenspiel, shape))
	if err != nil {
		return Body{}, err
	}
	return Body{units.Length(math.Cbrt(6 * m.Kilograms() / (math.Pi * density.KilogramsPerCubicMetre()))), density, sphericity}, nil
}

// TerminalSpeed returns the speed at which a body that does not swim sinks in
// still water; negative when it floats up. A live animal adds its swimming:
// about one to two body lengths a second for fish (common practice).
//
// Equation: v = √(4 g d |ρs - ρ|/(3 ρ Cd)), Cd by the law at re = v d/ν.
//
// Validity: that of [DragCoefficient]; ErrRange with the value outside.
//
// Source: balance of weight, buoyancy and drag.
func TerminalSpeed(b Body, f Fluid, law DragLaw) (units.Velocity, error) {
	const fn = "hydraulics.TerminalSpeed"
	nan := units.Velocity(math.NaN())
	psi := b.Sphericity
	if psi == 0 {
		psi = sphere
	}
	d := b.Diameter.Metres()
	// Drag knows gases too: only the viscosity must be a number.
	err := errors.Join(units.Within(fn, "diameter", d, 1e-7, 5, "m"),
		units.Within(fn, "density", b.Density.KilogramsPerCubicMetre(), 1, 25e3, "kg/m3"),
		units.Within(fn, "f.density", f.Density.KilogramsPerCubicMetre(), 0.1, 5e3, "kg/m3"),
		units.Within(fn, "f.viscosity", f.Viscosity.PascalSeconds(), 1e-6, 1e3, "Pa·s"), dragShape(fn, law, psi))
	if err != nil {
		return nan, err
	}
	rho, nu := f.Density.KilogramsPerCubicMetre(), f.KinematicViscosity().SquareMetresPerSecond()
	excess := b.Density.KilogramsPerCubicMetre() - rho
	if excess == 0 {
		return 0, nil
	}
	// Cd re² rises with re and must equal the Archimedes number times 4/3.
	want := 4.0 / 3 * gravity * d * d * d * math.Abs(excess) / (rho * nu * nu)
	misfit := func(lnRe float64) float64 {
		re := math.Exp(lnRe)
		return math.Log(drag(law, re, psi) * re * re / want)
	}
	lo, hi, fLo, fHi, err := root.Expand(misfit, math.Log(want/24), math.Log(want/24)+1, -700, 700)
	if err != nil {
		return nan, fmt.Errorf("%s: %w", fn, err)
	}
	x, err := root.FindBetween(misfit, lo, hi, fLo, fHi, 1e-14)
	if err != nil {
		return nan, fmt.Errorf("%s: %w", fn, err)
	}
	re := math.Exp(x)
	v := units.Velocity(math.Copysign(re*nu/d, excess))
	if most := dragLimit(law, psi); re > most {
		return v, &units.InputError{Func: fn, Field: "re", Value: re, Min: 0, Max: most,
			Reason: "Reynolds number of the body; " + law.String(), Kind: units.ErrRange}
	}
	return v, nil
}

// AnimalDensity is the density of one kind of animal, a band.
type AnimalDensity struct {
	Kind    string        `json:"kind"`
	Low     units.Density `json:"low"`
	Typical units.Density `json:"typical"`
	High    units.Density `json:"high"`
	Source  string        `json:"source"`
}

// AnimalDensities lists the densities of the animals of the trade. All are
// common practice without a source: weigh a bucketful in water for your own.
func AnimalDensities() []AnimalDensity {
	const s = "common practice, no source"
	return []AnimalDensity{
		{"shrimp", 1050, 1070, 1080, s},
		{"fish without swim bladder", 1040, 1055, 1070, s},
		{"fish with swim bladder", 995, 1005, 1010, s},
		{"crayfish", 1100, 1120, 1150, s},
	}
}
