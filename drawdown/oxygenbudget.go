package drawdown

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/oxygen"
	"pondwright.example/units"
)

// OxygenBudget is the oxygen of a mixed body of water in which animals are
// crowded: the catch basin, or the last water of the pond. Every field is for
// that water as it stands; a falling pond is a series of such budgets.
type OxygenBudget struct {
	Volume units.Volume `json:"volume"` // of water, without the animals
	Stock  units.Mass   `json:"stock"`  // animals in it

	// Respiration per mass of animals at this temperature, size and stress: the
	// user's number. It varies fivefold; handled warm-water shrimp use a few
	// hundred mg/(kg h).
	Respiration units.MassSpecificRate `json:"respiration"`

	Start units.Concentration `json:"start"` // oxygen now
	Limit units.Concentration `json:"limit"` // alarm or tolerance limit, the user's

	Inflow       units.Flow          `json:"inflow,omitempty"`
	InflowOxygen units.Concentration `json:"inflowOxygen,omitempty"`

	SedimentDemand units.ArealRate `json:"sedimentDemand,omitempty"` // oxygen taken by the bed
	BedArea        units.Area      `json:"bedArea,omitempty"`
	WaterDemand    units.MassFlow  `json:"waterDemand,omitempty"` // by plankton and stirred mud, of the whole volume

	Reaeration units.Rate `json:"reaeration,omitempty"` // transfer through the surface per unit of deficit

	// Aeration is the standard oxygen transfer rate of the aerators: at 20 C, 1
	// atm, clean water without oxygen. AerationAlpha is what pond water leaves
	// of it (zero means 0.9) and AerationTheta the temperature factor (zero
	// means 1.024).
	Aeration      units.MassFlow `json:"aeration,omitempty"`
	AerationAlpha float64        `json:"aerationAlpha,omitempty"`
	AerationTheta float64        `json:"aerationTheta,omitempty"`

	Temperature units.Temperature       `json:"temperature"`
	Salinity    units.PracticalSalinity `json:"salinity,omitempty"`
	Pressure    units.AbsolutePressure  `json:"pressure,omitempty"` // zero means 1 standard atmosphere; see [AirPressure] for a pond above the sea
}

// OxygenOutlook is what an [OxygenBudget] comes to.
type OxygenOutlook struct {
	Saturation units.Concentration `json:"saturation"`

	AnimalDemand   units.MassFlow `json:"animalDemand"`
	SedimentDemand units.MassFlow `json:"sedimentDemand"`
	WaterDemand    units.MassFlow `json:"waterDemand"`

	// Tends is the oxygen the water settles at as things stand, zero when the
	// demand would take it below.
	Tends units.Concentration `json:"tends"`

	// Meets tells whether the limit is met as things stand, and TimeToLimit
	// when; it is zero when the start is at or below the limit already.
	Meets       bool          `json:"meets"`
	TimeToLimit time.Duration `json:"timeToLimit"`

	// Unsupplied is the time to the limit when inflow and aerators stop
	// together: what a stalled pump or a power cut leaves. UnsuppliedMeets is
	// false when even then the limit is not met.
	UnsuppliedMeets bool          `json:"unsuppliedMeets"`
	Unsupplied      time.Duration `json:"unsupplied"`

	// InflowToHold is the inflow of InflowOxygen that holds the limit with
	// aerators running; CanHold is false when no inflow can, because it carries
	// no more oxygen than the limit.
	CanHold      bool       `json:"canHold"`
	InflowToHold units.Flow `json:"inflowToHold"`

	Notices []units.Notice `json:"notices,omitempty"`
}

// Notice codes of the oxygen budget.
const (
	CodeOxygenBelowLimit     = "DRAW_OXYGEN_BELOW_LIMIT"
	CodeOxygenShort          = "DRAW_OXYGEN_SHORT"
	CodeOxygenNoHold         = "DRAW_OXYGEN_NO_HOLD"
	CodeOxygenRange          = "DRAW_OXYGEN_RANGE"
	CodeOxygenSupersaturated = "DRAW_OXYGEN_SUPERSATURATED"
)

// shortNotice is the time to the limit under which a Danger notice is due:
// minutes in which hands can still act.
const shortNotice = 20 * time.Minute

// Validate reports every problem of the budget at once.
func (b OxygenBudget) Validate() error {
	const fn = "drawdown.OxygenBudget"
	return errors.Join(
		units.Positive(fn, "volume", float64(b.Volume), "m3"),
		units.NonNegative(fn, "stock", float64(b.Stock), "kg"),
		units.NonNegative(fn, "respiration", float64(b.Respiration), "kg/(kg s)"),
		units.Within(fn, "start", float64(b.Start), 0, 0.06, "kg/m3"),
		units.Within(fn, "limit", float64(b.Limit), 0, 0.06, "kg/m3"),
		units.NonNegative(fn, "inflow", float64(b.Inflow), "m3/s"),
		units.Within(fn, "inflowOxygen", float64(b.InflowOxygen), 0, 0.06, "kg/m3"),
		units.NonNegative(fn, "sedimentDemand", float64(b.SedimentDemand), "kg/(m2 s)"),
		units.NonNegative(fn, "bedArea", float64(b.BedArea), "m2"),
		units.NonNegative(fn, "waterDemand", float64(b.WaterDemand), "kg/s"),
		units.NonNegative(fn, "reaeration", float64(b.Reaeration), "1/s"),
		units.NonNegative(fn, "aeration", float64(b.Aeration), "kg/s"),
		units.Within(fn, "aerationAlpha", b.AerationAlpha, 0, 1.2, ""),
		units.Within(fn, "aerationTheta", b.AerationTheta, 0, 1.1, ""),
		units.Within(fn, "temperature", b.Temperature.Celsius(), -2, 45, "C"),
		units.Within(fn, "salinity", float64(b.Salinity), 0, 60, "PSU"),
		units.Within(fn, "pressure", float64(b.pressure()), 4e4, 1.2e5, "Pa"))
}

func (b OxygenBudget) pressure() units.AbsolutePressure {
	if b.Pressure == 0 {
		return 101325
	}
	return b.Pressure
}

// standardSaturation is the saturation of clean fresh water at 20 C and 1 atm
// that standard transfer rates refer to, kg/m3.
const standardSaturation = 9.092e-3

// Outlook solves the budget: how long until the limit, where the oxygen
// settles, and what inflow holds it.
//
// Equation: V dC/dt = Q (Cin - C) + k V (Cs - C) + SOTR alpha theta^(T-20)
// (Cs - C)/C20 - R B - S A - W, in closed form.
//
// Validity: mixed water of constant volume and a demand that does not slacken
// as oxygen falls, so times below the animals' critical oxygen are too short,
// which is the safe side.
//
// Source: mass balance of a mixed tank; saturation of Benson & Krause (1984);
// aerator transfer in the field after Boyd (1998), Pond aquaculture water
// quality management, and ASCE/EWRI 2-06, with C20 = 9.09 mg/L. The defaults
// of alpha and theta are common practice.
func (b OxygenBudget) Outlook() (OxygenOutlook, error) {
	if err := b.Validate(); err != nil {
		return OxygenOutlook{}, err
	}
	const fn = "drawdown.OxygenBudget"
	var o OxygenOutlook
	cs, err := oxygen.Saturation(fn, oxygen.BensonKrause1984, oxygen.VapourAPHA, b.Temperature, b.Salinity, b.pressure())
	if err != nil && !errors.Is(err, units.ErrRange) {
		return OxygenOutlook{}, err
	}
	if err != nil {
		o.Notices = append(o.Notices, units.Notice{Code: CodeOxygenRange, Severity: units.Caution, Field: "temperature",
			Value: b.Temperature.Celsius(), Limit: oxygen.MaxCelsius, Unit: "C", Message: "the oxygen saturation is extrapolated: " + err.Error(),
			Source: oxygen.BensonKrause1984.String()})
	}
	o.Saturation = cs
	o.AnimalDemand = units.MassFlow(float64(b.Respiration) * float64(b.Stock))
	o.SedimentDemand = units.MassFlow(float64(b.SedimentDemand) * float64(b.BedArea))
	o.WaterDemand = b.WaterDemand

	surface := float64(b.Reaeration) * float64(b.Volume)
	aerator := b.aeratorExchange()
	demand := float64(o.AnimalDemand + o.SedimentDemand + o.WaterDemand)
	all := mixedBalance(float64(b.Volume), demand, [3]float64{float64(b.Inflow), surface, aerator},
		[3]float64{float64(b.InflowOxygen), float64(cs), float64(cs)})
	alone := mixedBalance(float64(b.Volume), demand, [3]float64{0, surface, 0}, [3]float64{0, float64(cs), 0})
	own := mixedBalance(float64(b.Volume), demand, [3]float64{0, surface, aerator}, [3]float64{0, float64(cs), float64(cs)})

	start, limit := float64(b.Start), float64(b.Limit)
	o.Tends = units.Concentration(math.Max(0, all.Tends(start)))
	o.TimeToLimit, o.Meets = timeDown(all, start, limit)
	o.Unsupplied, o.UnsuppliedMeets = timeDown(alone, start, limit)
	var flow float64
	flow, o.CanHold = own.InflowToHold(float64(b.InflowOxygen), limit)
	if o.CanHold {
		o.InflowToHold = units.Flow(flow)
	}
	o.notices(b)
	return o, nil
}

// aeratorExchange returns m3/s of exchange with saturated water that the
// aerators amount to.
func (b OxygenBudget) aeratorExchange() float64 {
	alpha, theta := b.AerationAlpha, b.AerationTheta
	if alpha == 0 {
		alpha = 0.9
	}
	if theta == 0 {
		theta = 1.024
	}
	return float64(b.Aeration) * alpha * math.Pow(theta, b.Temperature.Celsius()-20) / standardSaturation
}

// mixedBalance joins exchanges, each with the concentration it brings.
func mixedBalance(volume, demand float64, exchange, source [3]float64) oxygen.Balance {
	var e, brought float64
	for i := range exchange {
		e += exchange[i]
		brought += exchange[i] * source[i]
	}
	b := oxygen.Balance{Volume: volume, Exchange: e, Demand: demand}
	if e > 0 {
		b.Source = brought / e
	}
	return b
}

// timeDown returns when the balance falls to limit; at once when it is there.
func timeDown(b oxygen.Balance, start, limit float64) (time.Duration, bool) {
	if start <= limit {
		return 0, true
	}
	s, met := b.TimeTo(start, limit)
	if !met || !(s < float64(math.MaxInt64)/1e9) {
		return 0, false
	}
	return time.Duration(s * 1e9), true
}

func (o *OxygenOutlook) notices(b OxygenBudget) {
	mgl := func(c units.Concentration) float64 { return float64(c) * 1000 }
	add := func(n units.Notice) { o.Notices = append(o.Notices, n) }
	switch {
	case b.Start <= b.Limit:
		add(units.Notice{Code: CodeOxygenBelowLimit, Severity: units.Danger, Field: "start", Value: mgl(b.Start), Limit: mgl(b.Limit), Unit: "mg/L",
			Message: "the oxygen is at or below the limit already"})
	case o.Meets && o.TimeToLimit < shortNotice:
		add(units.Notice{Code: CodeOxygenShort, Severity: units.Danger, Field: "timeToLimit", Value: o.TimeToLimit.Minutes(),
			Limit: shortNotice.Minutes(), Unit: "min", Message: fmt.Sprintf("the oxygen limit is %.0f minutes away as things stand", o.TimeToLimit.Minutes())})
	case o.UnsuppliedMeets && o.Unsupplied < shortNotice:
		add(units.Notice{Code: CodeOxygenShort, Severity: units.Warning, Field: "unsupplied", Value: o.Unsupplied.Minutes(),
			Limit: shortNotice.Minutes(), Unit: "min", Message: fmt.Sprintf("should inflow and aerators stop, the oxygen limit is %.0f minutes away", o.Unsupplied.Minutes())})
	}
	if !o.CanHold {
		add(units.Notice{Code: CodeOxygenNoHold, Severity: units.Warning, Field: "inflowOxygen", Value: mgl(b.InflowOxygen), Limit: mgl(b.Limit), Unit: "mg/L",
			Message: "no inflow can hold the limit: it must carry more oxygen than the limit; aerate, or take animals out"})
	}
	if b.Start > 1.5*o.Saturation {
		add(units.Notice{Code: CodeOxygenSupersaturated, Severity: units.Caution, Field: "start", Value: mgl(b.Start), Limit: 1.5 * mgl(o.Saturation), Unit: "mg/L",
			Message: "the start is far above saturation: check the probe and the unit"})
	}
}
