package icing

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Layer is one sheet of a container's wall.
type Layer struct {
	Thickness    units.Length              `json:"thickness"`
	Conductivity units.ThermalConductivity `json:"conductivity"`
}

// Conductivities of wall materials in W/(m K), from memory of the trade's tables;
// wet insulation conducts two to three times more. Piper et al. (1982), Fish
// Hatchery Management, p. 351, has 0.026 for urethane, 0.040 for polystyrene
// foam, 0.042 for cork and 0.107 for pine (0.18, 0.28, 0.29 and 0.74, taken as
// Btu in/(h ft2 °F)): an old or cheap polystyrene box leaks a seventh more than the value here.
const (
	PolyurethaneFoam    units.ThermalConductivity = 0.025
	ExpandedPolystyrene units.ThermalConductivity = 0.035
	ExtrudedPolystyrene units.ThermalConductivity = 0.029
	Cork                units.ThermalConductivity = 0.043
	PineWood            units.ThermalConductivity = 0.12
	Polyethylene        units.ThermalConductivity = 0.4
	GlassPolyester      units.ThermalConductivity = 0.4
	Steel               units.ThermalConductivity = 45
)

// Wall is a flat wall between air and ice.
type Wall struct {
	OutsideFilm units.HeatTransferCoefficient `json:"outsideFilm"` // zero means 8 W/(m2 K), still air; 20 to 35 on the road
	InsideFilm  units.HeatTransferCoefficient `json:"insideFilm"`  // zero means 500 W/(m2 K), wet ice
	Layers      []Layer                       `json:"layers"`
}

// U returns the overall heat transfer coefficient of the wall:
//
//	1/U = 1/h_o + Σ d/k + 1/h_i
//
// in W/(m2 K). Joints, lid and drain add 20 to 50 % to the box as a whole
// (common practice): test the box with [FitMeltTest].
//
// Validity: at least one layer, thickness 1 µm to 1 m, conductivity 0.005 to
// 500 W/(m K), films above zero; errors are ErrDomain with NaN. A result above
// 15 W/(m2 K) is ErrRange: no container's wall has it in air.
//
// Source: FAO Fisheries Technical Paper 436 (Shawyer & Medina Pizzali 2003),
// ch. 7, eq. 2.
func (w Wall) U() (units.HeatTransferCoefficient, error) {
	const fn = "icing.Wall"
	ho, hi := float64(w.OutsideFilm), float64(w.InsideFilm)
	if ho == 0 {
		ho = 8
	}
	if hi == 0 {
		hi = 500
	}
	var errs []error
	if len(w.Layers) == 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "layers", Reason: "a wall has at least one layer"})
	}
	sum := 1/ho + 1/hi
	for i, l := range w.Layers {
		d, k := float64(l.Thickness), float64(l.Conductivity)
		if !(d >= 1e-6 && d <= 1) || !(k >= 0.005 && k <= 500) {
			at := fmt.Sprintf("layers[%d]", i)
			errs = append(errs, units.Within(fn, at+".Thickness", d, 1e-6, 1, "m"),
				units.Within(fn, at+".Conductivity", k, 0.005, 500, "W/(m K)"))
		}
		sum += d / k
	}
	errs = append(errs, bounds.Positive(fn, "outsideFilm", ho, "W/(m2 K)"), bounds.Positive(fn, "insideFilm", hi, "W/(m2 K)"))
	if err := errors.Join(errs...); err != nil {
		return units.HeatTransferCoefficient(math.NaN()), err
	}
	u := units.HeatTransferCoefficient(1 / sum)
	if u > 15 {
		return u, &units.InputError{Func: fn, Field: "u", Value: float64(u), Unit: "W/(m2 K)", Min: 0, Max: 15,
			Reason: "no container's wall conducts so well in air", Kind: units.ErrRange}
	}
	return u, nil
}

// meltInput checks what every melt formula needs and returns the temperature
// difference that drives it, not below zero.
func meltInput(fn string, ua units.ThermalConductance, ambient units.Temperature, sun units.TempDelta, latent units.SpecificEnergy) (drive, l float64, err error) {
	l = float64(latent)
	if l == 0 {
		l = float64(DefaultLatentHeat)
	}
	amb := ambient.Celsius()
	if ua >= 0 && ua <= bounds.Largest && amb >= -40 && amb <= 60 && sun >= 0 && sun <= 40 && l >= 250e3 && l <= 340e3 {
		return max(0, amb+float64(sun)), l, nil
	}
	return math.NaN(), l, errors.Join(bounds.Amount(fn, "ua", float64(ua), "W/K"),
		units.Within(fn, "ambient", amb, -40, 60, "°C"), units.Within(fn, "sun", float64(sun), 0, 40, "K"),
		units.Within(fn, "latent", l/1e3, 250, 340, "kJ/kg"))
}

// MeltRate returns the ice that melts per time in a container whose walls
// conduct ua, in air at ambient with sun on the walls:
//
//	dm/dt = UA·(T_a + ΔT_sun)/L
//
// and zero in frost. latent zero means [DefaultLatentHeat]; seawater ice takes
// 77.8 kcal/kg.
//
// Validity: ambient -40 to 60 °C, sun 0 to 40 K; errors are ErrDomain with NaN.
//
// Source: FAO Fisheries Technical Paper 436 (2003), ch. 7, eq. 1.
func MeltRate(ua units.ThermalConductance, ambient units.Temperature, sun units.TempDelta, latent units.SpecificEnergy) (units.MassFlow, error) {
	drive, l, err := meltInput("icing.MeltRate", ua, ambient, sun, latent)
	if err != nil {
		return units.MassFlow(math.NaN()), err
	}
	return units.MassFlow(float64(ua) * drive / l), nil
}

// ReserveTime returns how long free ice (beyond what the chill takes) lasts
// against the heat through the walls, the mass over [MeltRate]; re-ice before a
// fifth of the first charge is left (common practice). In frost it lasts for
// ever: ErrNoSolution. Other errors are those of MeltRate.
func ReserveTime(free units.Mass, ua units.ThermalConductance, ambient units.Temperature, sun units.TempDelta, latent units.SpecificEnergy) (time.Duration, error) {
	const fn = "icing.ReserveTime"
	if err := bounds.Amount(fn, "free", float64(free), "kg"); err != nil {
		return 0, err
	}
	drive, l, err := meltInput(fn, ua, ambient, sun, latent)
	if err != nil {
		return 0, err
	}
	if p := float64(ua) * drive; p > 0 {
		return durationOf(fn, float64(free)*l/p)
	}
	return 0, &units.InputError{Func: fn, Field: "ambient", Value: ambient.Celsius(), Unit: "°C", Min: 0, Max: 60,
		Reason: "no heat leaks in: the ice does not melt", Kind: units.ErrNoSolution}
}

// Weather is the air temperature at one moment of a trip.
type Weather struct {
	After   time.Duration     `json:"after"` // from the start
	Ambient units.Temperature `json:"ambient"`
	Sun     units.TempDelta   `json:"sun"` // excess of a sunlit wall
}

// MeltOver returns the ice that melts through the walls while the air changes,
// with straight lines between the entries, which come in order of time and at
// least two. Stretches in frost melt nothing. latent zero means
// [DefaultLatentHeat]; errors are ErrDomain with NaN, named by entry.
//
// Source: FAO Fisheries Technical Paper 436 (2003), ch. 7, eq. 1, integrated.
func MeltOver(ua units.ThermalConductance, weather []Weather, latent units.SpecificEnergy) (units.Mass, error) {
	const fn = "icing.MeltOver"
	nan := units.Mass(math.NaN())
	if len(weather) < 2 {
		return nan, &units.InputError{Func: fn, Field: "weather", Value: float64(len(weather)), Min: 2, Max: math.Inf(1), Reason: "needs at least two entries"}
	}
	sum, last, l := 0.0, 0.0, 0.0
	for i, w := range weather {
		if _, lat, err := meltInput(fn, ua, w.Ambient, w.Sun, latent); err != nil {
			return nan, units.AtField(fmt.Sprintf("weather[%d]", i), err)
		} else {
			l = lat
		}
		now := w.Ambient.Celsius() + float64(w.Sun)
		if i > 0 {
			dt := (w.After - weather[i-1].After).Seconds()
			if !(dt > 0) {
				return nan, &units.InputError{Func: fn, Field: fmt.Sprintf("weather[%d].After", i), Value: w.After.Hours(), Unit: "h",
					Min: weather[i-1].After.Hours(), Max: math.Inf(1), Reason: "must be later than the entry before"}
			}
			sum += positiveArea(last, now, dt)
		}
		last = now
	}
	return units.Mass(float64(ua) * sum / l), nil
}

// positiveArea is the integral over dt of the positive part of a straight line
// from a to b.
func positiveArea(a, b, dt float64) float64 {
	switch {
	case a >= 0 && b >= 0:
		return dt * (a + b) / 2
	case a < 0 && b < 0:
		return 0
	}
	top := max(a, b)
	return dt * top / math.Abs(b-a) * top / 2
}

// MeltTest is one weighing of a melt test.
type MeltTest struct {
	After time.Duration `json:"after"`
	Ice   units.Mass    `json:"ice"` // ice still in the box
}

// MeltFit is what a melt test shows.
type MeltFit struct {
	Conductance units.ThermalConductance `json:"conductance"` // U·A of the whole box, lid and joints included
	StdError    units.ThermalConductance `json:"stdError"`    // standard error of Conductance
	Rate        units.MassFlow           `json:"rate"`        // melt at the test's ambient
	RSquared    float64                  `json:"rSquared"`
}

// FitMeltTest returns U·A of a box from a melt test: filled with ice, standing
// at constant ambient, its ice weighed at least three times, by the slope of a
// straight line through the weighings (least squares). Ice must be left at the
// last one. latent zero means [DefaultLatentHeat].
//
// Validity: ambient above 1 °C, times rising, ice falling; errors are ErrDomain.
//
// Source: melt test of FAO Fisheries Technical Paper 436 (2003), ch. 7, eq. 1.
func FitMeltTest(tests []MeltTest, ambient units.Temperature, latent units.SpecificEnergy) (MeltFit, error) {
	const fn = "icing.FitMeltTest"
	drive, l, err := meltInput(fn, 0, ambient, 0, latent)
	if err != nil {
		return MeltFit{}, err
	}
	if err := units.Within(fn, "ambient", drive, 1, 60, "°C"); err != nil {
		return MeltFit{}, err
	}
	if len(tests) < 3 {
		return MeltFit{}, &units.InputError{Func: fn, Field: "tests", Value: float64(len(tests)), Min: 3, Max: math.Inf(1), Reason: "needs at least three weighings"}
	}
	n := float64(len(tests))
	var st, sm float64
	for i, p := range tests {
		if err := bounds.Amount(fn, fmt.Sprintf("tests[%d].Ice", i), float64(p.Ice), "kg"); err != nil {
			return MeltFit{}, err
		}
		if i > 0 && (p.After <= tests[i-1].After || p.Ice >= tests[i-1].Ice) {
			return MeltFit{}, &units.InputError{Func: fn, Field: fmt.Sprintf("tests[%d]", i), Value: float64(p.Ice), Unit: "kg",
				Reason: "each weighing must be later and lighter than the one before"}
		}
		st += p.After.Seconds() / n
		sm += float64(p.Ice) / n
	}
	var xx, xy, yy float64
	for _, p := range tests {
		x, y := p.After.Seconds()-st, float64(p.Ice)-sm
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
	}
	slope := -xy / xx
	residual := max(0, yy-xy*xy/xx)
	toUA := l / drive
	return MeltFit{
		Conductance: units.ThermalConductance(slope * toUA),
		StdError:    units.ThermalConductance(math.Sqrt(residual/(n-2)/xx) * toUA),
		Rate:        units.MassFlow(slope),
		RSquared:    1 - residual/yy,
	}, nil
}
