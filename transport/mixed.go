package transport

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/internal/ode"
	"pondwright.example/units"
)

// DemandLaw says how the oxygen demand of the animals follows the water's
// temperature.
type DemandLaw struct {
	At    units.MassSpecificRate `json:"at"` // demand at Base
	Base  units.Temperature      `json:"base"`
	Q10   float64                `json:"q10"`   // factor per 10 K; zero means 2
	Slope float64                `json:"slope"` // when not zero, a straight line instead: share of At per kelvin

	Stress float64       `json:"stress"` // factor on the demand at loading; zero means 1. Handled fish take 1.5 to 2.5 times (common practice)
	Calm   time.Duration `json:"calm"`   // over which the factor fades to 1 in a straight line; zero means 1 h
}

func (d DemandLaw) rate(celsius float64) float64 {
	dt := celsius - d.Base.Celsius()
	if d.Slope != 0 {
		return max(0, float64(d.At)*(1+d.Slope*dt))
	}
	q := d.Q10
	if q == 0 {
		q = 2
	}
	return float64(d.At) * math.Pow(q, dt/10)
}

// handled is the factor on the demand t seconds after loading.
func (d DemandLaw) handled(t float64) float64 {
	if d.Stress == 0 {
		return 1
	}
	calm := d.Calm.Seconds()
	if calm == 0 {
		calm = 3600
	}
	return 1 + (d.Stress-1)*max(0, 1-t/calm)
}

func (d DemandLaw) validate() error {
	const fn = "transport.DemandLaw"
	err := errors.Join(bounds.Amount(fn, "at", float64(d.At), "kg/(kg s)"), units.Within(fn, "base", d.Base.Celsius(), 0, 45, "°C"),
		units.Within(fn, "slope", d.Slope, -0.2, 0.5, "1/K"), bounds.Amount(fn, "calm", d.Calm.Hours(), "h"))
	if d.Stress != 0 {
		err = errors.Join(err, units.Within(fn, "stress", d.Stress, 1, 5, ""))
	}
	if d.Q10 != 0 {
		err = errors.Join(err, units.Within(fn, "q10", d.Q10, 0.5, 10, ""))
	}
	if float64(d.At) > 5e-3/3.6 { // 5 g/(kg h)
		err = errors.Join(err, units.Within(fn, "at", float64(d.At)*3.6e9, 0, 5000, "mg/(kg h)"))
	}
	return err
}

// Mixed is a well-mixed tank with animals: one temperature and one concentration
// of everything all over. It is the model under [Haul].
//
//	C·dT/dt  = UA·(T_a - T) + ρc·Q·(T_in - T) + P + 13.6 kJ/g·m·M(T)
//	V·dO/dt  = Q·(O_in - O) + k_O·V·(O_s - O) + G·g - m·M(T)
//	V·dN/dt  = Q·(N_in - N) + a·m·M(T)
//	V·dK/dt  = Q·(K_in - K) - k_K·V·(CO2 - CO2_eq) + b·m·M(T)
//
// with g = (O_c - O)/(O_c - O_s) under a Ceiling O_c, and 1 without: Oxygen is what
// dissolves into water saturated with air, and less goes into richer water.
// O oxygen, N total ammonia nitrogen, K dissolved inorganic carbon as CO2. The
// excreted ammonia takes up acid and so raises the alkalinity by a mole per mole.
type Mixed struct {
	Water       units.Volume             `json:"water"`
	Capacity    units.HeatCapacity       `json:"capacity"` // of water and animals
	Product     units.Mass               `json:"product"`
	Demand      DemandLaw                `json:"demand"`
	Heat        units.SpecificEnergy     `json:"heat"`    // per mass of oxygen; zero means MetabolicHeat
	Ammonia     float64                  `json:"ammonia"` // kg N per kg O2
	Carbon      float64                  `json:"carbon"`  // kg CO2 per kg O2
	Conductance units.ThermalConductance `json:"conductance"`
	Ambient     units.Temperature        `json:"ambient"` // sun included; needed when Conductance is not zero
	Power       units.Power              `json:"power"`   // pumps and agitators, negative for a chiller

	Exchange      units.Flow          `json:"exchange"` // new water in, old water out
	InflowAt      units.Temperature   `json:"inflowAt"`
	InflowOxygen  units.Concentration `json:"inflowOxygen"`
	InflowAmmonia units.Concentration `json:"inflowAmmonia"`
	InflowCarbon  units.Concentration `json:"inflowCarbon"`

	OxygenKLa  units.Rate          `json:"oxygenKLa"`  // transfer with the gas above or blown through
	Saturation units.Concentration `json:"saturation"` // oxygen in equilibrium with that gas
	Oxygen     units.MassFlow      `json:"oxygen"`     // dissolved from a store
	Ceiling    units.Concentration `json:"ceiling"`    // oxygen under the store's gas, at which Oxygen dies away; zero means none

	CarbonKLa units.Rate          `json:"carbonKLa"` // stripping of free CO2
	Chemistry Carbonate           `json:"chemistry"` // needed when CarbonKLa is not zero
	AmmoniaK  float64             `json:"ammoniaK"`  // pKa of ammonium; zero leaves ammonia out of the charge balance
	Basis     units.Alkalinity    `json:"basis"`     // alkalinity at the start; zero leaves the carbon chemistry out
	AirCO2    units.Concentration `json:"airCO2"`    // free CO2 in equilibrium with the gas
}

// MixedState is the water at one time.
type MixedState struct {
	Temperature units.Temperature   `json:"temperature"`
	Oxygen      units.Concentration `json:"oxygen"`
	Ammonia     units.Concentration `json:"ammonia"` // total ammonia nitrogen
	Carbon      units.Concentration `json:"carbon"`  // dissolved inorganic carbon as CO2
	Used        units.Mass          `json:"used"`    // oxygen taken up by the animals since the start
}

// Beyond any aerator, where the water would change its gas every second, and
// beyond any store of oxygen on a truck.
const (
	fastestKLa = 1.0  // 1/s
	mostOxygen = 10.0 // kg/s
)

// Validate reports every field that cannot be a tank.
func (m Mixed) Validate() error {
	const fn = "transport.Mixed"
	errs := []error{
		units.Within(fn, "water", float64(m.Water), 1e-6, bounds.Largest, "m3"), bounds.Positive(fn, "capacity", float64(m.Capacity), "J/K"),
		bounds.Amount(fn, "product", float64(m.Product), "kg"), units.AtField("demand", m.Demand.validate()),
		units.Within(fn, "heat", float64(m.Heat)/1e3, 0, 20e3, "kJ/kg"), units.Within(fn, "ammonia", m.Ammonia, 0, 1, "kg/kg"),
		units.Within(fn, "carbon", m.Carbon, 0, 3, "kg/kg"), bounds.Amount(fn, "conductance", float64(m.Conductance), "W/K"),
		units.Within(fn, "power", float64(m.Power), -1e9, 1e9, "W"), bounds.Amount(fn, "exchange", float64(m.Exchange), "m3/s"),
		bounds.Amount(fn, "inflowOxygen", float64(m.InflowOxygen)*1e3, "mg/L"), bounds.Amount(fn, "inflowAmmonia", float64(m.InflowAmmonia)*1e3, "mg/L"),
		bounds.Amount(fn, "inflowCarbon", float64(m.InflowCarbon)*1e3, "mg/L"), units.Within(fn, "oxygenKLa", float64(m.OxygenKLa), 0, fastestKLa, "1/s"),
		bounds.Amount(fn, "saturation", float64(m.Saturation)*1e3, "mg/L"), units.Within(fn, "oxygen", float64(m.Oxygen), 0, mostOxygen, "kg/s"),
		units.Within(fn, "carbonKLa", float64(m.CarbonKLa), 0, fastestKLa, "1/s"), bounds.Amount(fn, "airCO2", float64(m.AirCO2)*1e3, "mg/L"),
		bounds.Amount(fn, "basis", float64(m.Basis), "meq/L"),
	}
	if m.Ceiling != 0 {
		errs = append(errs, units.Within(fn, "ceiling", float64(m.Ceiling)*1e3, float64(m.Saturation)*1e3, bounds.Largest, "mg/L"))
		if m.Ceiling == m.Saturation {
			errs = append(errs, &units.InputError{Func: fn, Field: "ceiling", Value: float64(m.Ceiling) * 1e3, Unit: "mg/L", Reason: "must exceed Saturation"})
		}
	}
	if m.Conductance != 0 {
		errs = append(errs, units.Within(fn, "ambient", m.Ambient.Celsius(), -40, 90, "°C"))
	}
	if m.Exchange != 0 {
		errs = append(errs, units.Within(fn, "exchange", float64(m.Exchange), 0, max(0, float64(m.Water)), "m3/s, all of the water in a second"))
		errs = append(errs, units.Within(fn, "inflowAt", m.InflowAt.Celsius(), 0, 45, "°C"))
	}
	if m.Basis != 0 {
		errs = append(errs, units.AtField("chemistry", m.Chemistry.Validate()), units.Within(fn, "ammoniaK", m.AmmoniaK, 0, 11, ""))
	} else if m.CarbonKLa != 0 {
		errs = append(errs, &units.InputError{Func: fn, Field: "basis", Value: 0, Unit: "meq/L", Reason: "stripping of CO2 needs the water's alkalinity"})
	}
	return errors.Join(errs...)
}

// mixedModel is Mixed as numbers, ready for the integrator.
type mixedModel struct {
	m                            Mixed
	heat, volume, capacity, flow float64
	eq                           equilibria
	ka, alk, ammonia0            float64 // mol/kg
	ph                           float64 // last answer of the chemistry, start of the next
}

func newMixedModel(m Mixed, start MixedState) *mixedModel {
	x := prepared(m, start)
	return &x
}

// prepared works out what the right-hand side needs again and again.
func prepared(m Mixed, start MixedState) mixedModel {
	x := mixedModel{m: m, heat: float64(m.Heat), volume: float64(m.Water), capacity: float64(m.Capacity), flow: float64(m.Exchange), ph: 7.5}
	if x.heat == 0 {
		x.heat = float64(MetabolicHeat)
	}
	if m.Basis != 0 {
		x.eq = m.Chemistry.numbers()
		x.alk = x.eq.charges(m.Basis)
		if m.AmmoniaK != 0 {
			x.ka = tenTo(-m.AmmoniaK)
		}
		x.ammonia0 = float64(start.Ammonia) / molarNitrogen / x.eq.litre
	}
	return x
}

// acidity returns h for dissolved carbon and ammonia (kg/m3), by Newton on pH
// from the last answer, held to 2 to 13.
func (x *mixedModel) acidity(carbon, ammonia float64) float64 {
	dic := math.Max(0, carbon) / molarCO2 / x.eq.litre
	n := math.Max(0, ammonia) / molarNitrogen / x.eq.litre
	// Ammonia came in as NH3: it brings a mole of alkalinity, part of it as NH3.
	alk := x.alk
	if x.ka != 0 {
		alk += n - x.ammonia0
	}
	lo, hi, pH := 2.0, 13.0, x.ph
	h := 0.0
	for range 60 {
		h = tenTo(-pH)
		d := h*h + x.eq.k1*h + x.eq.k1*x.eq.k2
		f := dic*x.eq.charge(h) + x.eq.minor(h) - alk
		df := dic*x.eq.k1*(h*h+4*x.eq.k2*h+x.eq.k1*x.eq.k2)/(d*d) + x.eq.kw/(h*h) + 1
		if x.eq.borate != 0 {
			df += x.eq.borate * x.eq.kb / ((x.eq.kb + h) * (x.eq.kb + h))
		}
		if x.ka != 0 {
			f += n * x.ka / (x.ka + h)
			df += n * x.ka / ((x.ka + h) * (x.ka + h))
		}
		if f > 0 {
			hi = pH
		} else {
			lo = pH
		}
		step := -f / (df * h * math.Ln10) // df is -∂f/∂h
		next := pH + step
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-pH) < 1e-9 { // the next step would be below rounding
			pH = next
			h = tenTo(-pH)
			break
		}
		pH = next
	}
	x.ph = pH
	return h
}

// supply is the oxygen from the store that dissolves at a concentration.
func (x *mixedModel) supply(c float64) float64 {
	g := float64(x.m.Oxygen)
	if top := float64(x.m.Ceiling); top != 0 {
		g *= (top - c) / (top - float64(x.m.Saturation))
	}
	return g
}

// Derivatives is the right-hand side; y is temperature (°C), oxygen, ammonia,
// carbon (kg/m3) and oxygen used (kg).
func (x *mixedModel) Derivatives(t float64, y, dydt []float64) {
	m := &x.m
	breath := float64(m.Product) * m.Demand.rate(y[0]) * m.Demand.handled(t)
	p := float64(m.Power) + x.heat*breath
	if m.Conductance != 0 {
		p += float64(m.Conductance) * (m.Ambient.Celsius() - y[0])
	}
	if x.flow != 0 {
		p += x.flow * 1000 * float64(WaterSpecificHeat) * (m.InflowAt.Celsius() - y[0])
	}
	turn := x.flow / x.volume
	dydt[0] = p / x.capacity
	dydt[1] = turn*(float64(m.InflowOxygen)-y[1]) + float64(m.OxygenKLa)*(float64(m.Saturation)-y[1]) + (x.supply(y[1])-breath)/x.volume
	dydt[2] = turn*(float64(m.InflowAmmonia)-y[2]) + m.Ammonia*breath/x.volume
	dydt[3] = turn*(float64(m.InflowCarbon)-y[3]) + m.Carbon*breath/x.volume
	if m.CarbonKLa != 0 {
		h := x.acidity(y[3], y[2])
		dydt[3] -= float64(m.CarbonKLa) * (y[3]*x.eq.free(h) - float64(m.AirCO2))
	}
	dydt[4] = breath
}

func (s MixedState) vector() [5]float64 {
	return [5]float64{s.Temperature.Celsius(), float64(s.Oxygen), float64(s.Ammonia), float64(s.Carbon), float64(s.Used)}
}

func stateOf(y []float64) MixedState {
	return MixedState{units.Celsius(y[0]), units.Concentration(y[1]), units.Concentration(y[2]), units.Concentration(y[3]), units.Mass(y[4])}
}

func (s MixedState) validate() error {
	const fn = "transport.MixedState"
	return errors.Join(units.Within(fn, "temperature", s.Temperature.Celsius(), 0, 45, "°C"),
		units.Within(fn, "oxygen", float64(s.Oxygen)*1e3, 0, 80, "mg/L"), units.Within(fn, "ammonia", float64(s.Ammonia)*1e3, 0, 1000, "mg/L"),
		units.Within(fn, "carbon", float64(s.Carbon)*1e3, 0, 10000, "mg/L"), bounds.Amount(fn, "used", float64(s.Used), "kg"))
}

// After returns the water after t. Oxygen below zero means that it ran out
// before: the animals' demand is not throttled by want, so that the time to a
// limit errs to the early side.
//
// Validity: as the fields say; errors are ErrDomain, from the integrator
// ErrNoConvergence. Accuracy: 1e-10 of the equations.
//
// Source: heat and mass balances of a stirred tank.
func (m Mixed) After(start MixedState, t time.Duration) (MixedState, error) {
	err := errors.Join(m.Validate(), units.AtField("start", start.validate()), bounds.Amount("transport.Mixed.After", "t", t.Hours(), "h"))
	if err != nil {
		return MixedState{}, err
	}
	if t == 0 {
		return start, nil
	}
	s, err := m.solver(start, 1e-12)
	if err != nil {
		return MixedState{}, err
	}
	if _, err := s.Advance(t.Seconds(), nil); err != nil {
		return MixedState{}, tooFast("transport.Mixed.After", "t", t, err)
	}
	return stateOf(s.Y()), nil
}

// tooFast names what the integrator could not follow, with the error's own kind.
func tooFast(fn, field string, t time.Duration, err error) error {
	in := &units.InputError{Func: fn, Field: field, Value: t.Hours(), Unit: "h",
		Reason: "the water changes too fast to be followed so long; is a flow, a rate or a volume out of proportion? (" + err.Error() + ")"}
	if errors.Is(err, units.ErrNoConvergence) {
		in.Kind = units.ErrNoConvergence
	}
	return in
}

func (m Mixed) solver(start MixedState, tol float64) (*ode.Solver, error) {
	s, err := ode.New(4, 1, ode.Options{RelTol: tol, AbsTol: []float64{100 * tol, tol / 1000, tol / 1000, tol / 1000}})
	if err != nil {
		return nil, err
	}
	y := start.vector()
	s.Start(newMixedModel(m, start), 0, y[:], 0)
	return s, nil
}
