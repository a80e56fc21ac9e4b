package drawdown

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/units"
)

// HeatBalance is shallow mixed water under the sky, for the hours in which a
// drained pond warms or cools. Temperatures and weather hold for the moment.
type HeatBalance struct {
	Water    units.Temperature `json:"water"`
	Air      units.Temperature `json:"air"`
	Humidity float64           `json:"humidity"` // relative, 0 to 1
	Wind     units.Velocity    `json:"wind"`     // 7 m above the water
	Solar    units.HeatFlux    `json:"solar"`    // on the surface, of the moment
	Depth    units.Length      `json:"depth"`    // of the water

	Cloud  float64 `json:"cloud,omitempty"`  // share of the sky, 0 to 1
	Albedo float64 `json:"albedo,omitempty"` // zero means 0.06

	// Exchange is the inflow per water surface, with InflowTemperature; zero
	// for still water.
	Exchange          units.Velocity    `json:"exchange,omitempty"`
	InflowTemperature units.Temperature `json:"inflowTemperature,omitzero"`
}

// HeatRate is the heat balance of a moment, each term positive into the water.
type HeatRate struct {
	Solar       units.HeatFlux `json:"solar"`
	Atmosphere  units.HeatFlux `json:"atmosphere"` // long wave from the sky
	Back        units.HeatFlux `json:"back"`       // long wave to the sky, negative
	Evaporation units.HeatFlux `json:"evaporation"`
	Convection  units.HeatFlux `json:"convection"`
	Inflow      units.HeatFlux `json:"inflow"`
	Net         units.HeatFlux `json:"net"`
	Rate        units.TempRate `json:"rate"` // of the water
}

const (
	stefanBoltzmann  = 5.670374419e-8 // W/(m2 K4), exact in the SI to these digits
	pondDensity      = 995.0          // kg/m3, fresh water near 30 C
	pondSpecificHeat = 4181.0         // J/(kg K)
	mmHg             = 133.322387415  // Pa
)

// Validate reports every problem of the balance at once.
func (h HeatBalance) Validate() error {
	const fn = "drawdown.HeatBalance"
	err := errors.Join(
		units.Within(fn, "water", h.Water.Celsius(), -2, 60, "C"), units.Within(fn, "air", h.Air.Celsius(), -40, 60, "C"),
		units.Within(fn, "humidity", h.Humidity, 0, 1, ""), units.Within(fn, "wind", float64(h.Wind), 0, 60, "m/s"),
		units.Within(fn, "solar", float64(h.Solar), 0, 1500, "W/m2"), units.Within(fn, "depth", float64(h.Depth), 0.01, 20, "m"),
		units.Within(fn, "cloud", h.Cloud, 0, 1, ""), units.Within(fn, "albedo", h.Albedo, 0, 1, ""),
		units.NonNegative(fn, "exchange", float64(h.Exchange), "m/s"))
	if h.Exchange > 0 {
		err = errors.Join(err, units.Within(fn, "inflowTemperature", h.InflowTemperature.Celsius(), -2, 60, "C"))
	}
	return err
}

// Rate returns the heat balance and how fast the water warms.
//
// Equation: Hnet = (1 - albedo) Hs + 0.97 * 9.37e-6 sigma Ta^6 (1 + 0.17 C^2)
// - 0.97 sigma Tw^4 - f (ew - ea) - 0.47 f (Tw - Ta), f = 9.2 + 0.46 U^2 in
// W/(m2 mmHg), Ta, Tw in K in the radiation terms, U in m/s; dT/dt = Hnet/(rho
// c d) with rho 995 kg/m3 and c 4181 J/(kg K).
//
// Validity: mixed water without the heat of the bed, which in a few centimetres
// slows it by a third or more; air 0 to 40 C. Accuracy: a fifth, more in
// strong sun on dark mud; never measured against a pond in this project.
//
// Source: Swinbank (1963), Quarterly Journal of the Royal Meteorological
// Society 89, 339-348 (sky); Brady, Graves & Geyer (1969), wind function at 7 m,
// as in Edinger, Brady & Geyer (1974), Heat exchange and transport in the
// environment, and Chapra (1997), Surface water-quality modeling, eq. 30.22
// (19.0 + 0.95 U^2 cal/(cm2 d mmHg)).
func (h HeatBalance) Rate() (HeatRate, error) {
	if err := h.Validate(); err != nil {
		return HeatRate{}, err
	}
	return h.at(h.Water.Celsius()), nil
}

// at returns the balance with the water at tw degrees Celsius.
func (h HeatBalance) at(tw float64) HeatRate {
	albedo := h.Albedo
	if albedo == 0 {
		albedo = 0.06
	}
	ta := h.Air.Celsius()
	ka, kw := ta+273.15, tw+273.15
	ka2, kw2 := ka*ka, kw*kw
	ew := vapourKPa(tw) * 1000 / mmHg
	ea := h.Humidity * vapourKPa(ta) * 1000 / mmHg
	wind := 9.2 + 0.46*float64(h.Wind)*float64(h.Wind)
	var r HeatRate
	r.Solar = units.HeatFlux((1 - albedo) * float64(h.Solar))
	r.Atmosphere = units.HeatFlux(0.97 * 9.37e-6 * stefanBoltzmann * ka2 * ka2 * ka2 * (1 + 0.17*h.Cloud*h.Cloud))
	r.Back = units.HeatFlux(-0.97 * stefanBoltzmann * kw2 * kw2)
	r.Evaporation = units.HeatFlux(-wind * (ew - ea))
	r.Convection = units.HeatFlux(-0.47 * wind * (tw - ta))
	if h.Exchange > 0 {
		r.Inflow = units.HeatFlux(pondDensity * pondSpecificHeat * float64(h.Exchange) * (h.InflowTemperature.Celsius() - tw))
	}
	r.Net = r.Solar + r.Atmosphere + r.Back + r.Evaporation + r.Convection + r.Inflow
	r.Rate = units.TempRate(float64(r.Net) / (pondDensity * pondSpecificHeat * float64(h.Depth)))
	return r
}

// Warming is how the water's temperature goes on.
type Warming struct {
	After time.Duration     `json:"after"`
	Water units.Temperature `json:"water"`
	Tends units.Temperature `json:"tends"` // where it would settle in this weather

	Meets       bool          `json:"meets"`       // whether the limit is met within After
	TimeToLimit time.Duration `json:"timeToLimit"` // when

	Notices []units.Notice `json:"notices,omitempty"`
}

// CodeWarmingLimit tells that the water meets the user's temperature limit.
const CodeWarmingLimit = "DRAW_WARMING_LIMIT"

// Warm follows the water for a time of unchanged weather and depth and tells
// when it meets limit from either side. Validity and source are those of
// [HeatBalance.Rate]; the march is Runge and Kutta's, fine enough for a
// millikelvin. Errors: as Validate, a time not within 0 to 30 days, a limit no
// water has.
func (h HeatBalance) Warm(after time.Duration, limit units.Temperature) (Warming, error) {
	const fn = "drawdown.HeatBalance.Warm"
	if err := errors.Join(h.Validate(), units.Within(fn, "after", after.Hours(), 0, 720, "h"),
		units.Within(fn, "limit", limit.Celsius(), -2, 60, "C")); err != nil {
		return Warming{}, err
	}
	w := Warming{After: after}
	w.Tends = units.Celsius(h.settles())
	t := h.Water.Celsius()
	span := after.Seconds()
	// The balance relaxes at some 30 W/(m2 K); steps stay well inside that time.
	relax := pondDensity * pondSpecificHeat * float64(h.Depth) / (60 + pondDensity*pondSpecificHeat*float64(h.Exchange))
	n := int(math.Ceil(span/(0.05*relax))) + 1
	n = min(n, 2_000_000)
	dt := span / float64(n)
	side := t - limit.Celsius()
	if side == 0 {
		w.Meets = true
	}
	f := func(t float64) float64 { return float64(h.at(t).Rate) }
	for i := range n {
		k1 := f(t)
		k2 := f(t + dt/2*k1)
		k3 := f(t + dt/2*k2)
		k4 := f(t + dt*k3)
		next := t + dt/6*(k1+2*k2+2*k3+k4)
		if now := next - limit.Celsius(); !w.Meets && now*side <= 0 {
			w.Meets = true
			w.TimeToLimit = time.Duration((float64(i) + (limit.Celsius()-t)/(next-t)) * dt * 1e9)
		}
		t = next
	}
	w.Water = units.Celsius(t)
	if w.Meets {
		w.Notices = append(w.Notices, units.Notice{Code: CodeWarmingLimit, Severity: units.Warning, Field: "water", Value: limit.Celsius(), Limit: limit.Celsius(), Unit: "C",
			Message: fmt.Sprintf("the water meets %.1f C after %.0f minutes in this weather", limit.Celsius(), w.TimeToLimit.Minutes())})
	}
	return w, nil
}

// settles returns the temperature at which the net heat is zero, by bisection:
// every loss grows with the water's temperature.
func (h HeatBalance) settles() float64 {
	lo, hi := -60.0, 120.0
	for range 80 {
		if mid := 0.5 * (lo + hi); h.at(mid).Net > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return 0.5 * (lo + hi)
}
