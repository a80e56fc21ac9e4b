package transport

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/ode"
	"pondwright.example/units"
)

// haulModel is a haul ready to run.
type haulModel struct {
	h        Haul
	loaded   Loaded
	mixed    Mixed
	start    MixedState
	sea      bool
	fishHeat float64
	notice   []units.Notice

	// the last reading of the chemistry, asked for by several limits in turn
	last     HaulPoint
	lastRead [4]float64
	read     bool
}

const (
	courseSteps   = 12
	haulTolerance = 1e-9 // of the integrator, per step
)

// Plan works the haul out on [Mixed]: the water left beside the animals, oxygen,
// carbon dioxide with pH, ammonia and temperature over the time, when each of the
// user's limits is passed, and what to carry.
//
// Oxygen from the store dissolves with its efficiency into water saturated with
// air, and ever less as the water nears saturation with pure oxygen.
// The constants of the carbonate system and the saturation with air are those of
// the starting temperature; pH and un-ionised ammonia are reported at the water's
// own. The demand is not throttled when oxygen runs short, so limits err to the
// early side. A haul of zero is answered; beyond 72 h a notice says that the
// model has left its ground.
//
// Errors are ErrDomain, named by field, and ErrNoSolution when the animals fill
// the tank. Accuracy: that of the demand, ±25 % at best.
//
// Source: heat and mass balances of a stirred tank; see [Tank.Load], [Mixed],
// [FreshCarbonate], [SeaCarbonate], [AmmoniaModel].
func (h Haul) Plan() (HaulPlan, error) {
	m, err := h.model()
	if err != nil {
		return HaulPlan{}, err
	}
	p := HaulPlan{Loaded: m.loaded}
	if err := m.course(&p); err != nil {
		return HaulPlan{}, err
	}
	if err := m.limits(&p, longHaul); err != nil {
		return HaulPlan{}, err
	}
	m.carry(&p)
	m.warn(&p)
	return p, nil
}

func (h Haul) model() (*haulModel, error) {
	if err := h.Validate(); err != nil {
		return nil, err
	}
	m := &haulModel{h: h, sea: h.Salinity >= 1}
	var err error
	if m.loaded, err = h.Tank.Load(h.Product, h.FishDensity); err != nil {
		return nil, units.AtField("haul", err)
	}
	if h.Demand.Q10 == 0 && h.Demand.Slope == 0 {
		h.Demand.Q10 = 2
		m.notice = append(m.notice, assumed("Demand.Q10", 2, "", "the demand doubles with 10 K"))
	}
	rq, aq := h.CarbonQuotient, h.AmmoniaQuotient
	if rq == 0 {
		rq = 0.9
		m.notice = append(m.notice, assumed("CarbonQuotient", rq, "mol/mol", "0.9 mol of CO2 per mol of oxygen"))
	}
	if aq == 0 {
		aq = 0.1
		m.notice = append(m.notice, assumed("AmmoniaQuotient", aq, "mol/mol", "0.1 mol of nitrogen per mol of oxygen, fasted fish"))
	}
	m.fishHeat = float64(h.FishSpecificHeat)
	if m.fishHeat == 0 {
		m.fishHeat = float64(FishSpecificHeat)
	}
	pressure := h.Pressure
	if pressure == 0 {
		pressure = StandardAtmosphere
	}
	chem, err := m.chemistry(h.Temperature)
	if err != nil && !errors.Is(err, units.ErrRange) {
		return nil, err
	}
	if err != nil {
		m.notice = append(m.notice, units.Notice{Code: CodeExtrapolated, Severity: units.Caution, Field: "salinity", Value: float64(h.Salinity), Limit: 19, Unit: "psu",
			Message: "carbonate constants of seawater are used outside their range: pH and CO2 are rough", Source: "Lueker, Dickson & Keeling (2000)"})
	}
	water, err := chem.FromPH(h.Alkalinity, h.PH)
	if err != nil {
		return nil, err
	}
	sat, err := OxygenSaturation(h.Temperature, h.Salinity, pressure)
	if err != nil && !errors.Is(err, units.ErrRange) {
		return nil, err
	}
	k0 := henry(h.Temperature.Kelvins(), float64(h.Salinity))
	capacity := float64(m.loaded.Water)*1000*float64(WaterSpecificHeat) + float64(h.Product)*m.fishHeat
	m.mixed = Mixed{
		Water: m.loaded.Water, Capacity: units.HeatCapacity(capacity), Product: h.Product, Demand: h.Demand,
		Ammonia: aq * molarNitrogen / molarOxygen, Carbon: rq * molarCO2 / molarOxygen,
		Conductance: h.Conductance, Power: h.Agitators,
		OxygenKLa: h.OxygenKLa, Saturation: sat, Oxygen: h.OxygenFlow * units.MassFlow(h.OxygenEfficiency),
		Ceiling:   sat / OxygenShare, // Henry: pure oxygen in place of air
		CarbonKLa: h.CarbonKLa, Chemistry: chem, Basis: h.Alkalinity,
		AirCO2: units.Concentration(k0 * AirCO2 * float64(pressure) / 101325 * molarCO2),
	}
	if h.Conductance != 0 {
		m.mixed.Ambient = h.Ambient.Add(h.Sun)
	}
	m.mixed.AmmoniaK, _ = m.ammoniaModel().PKa(h.Temperature, m.ammoniaSalinity())
	m.start = MixedState{Temperature: h.Temperature, Oxygen: h.Oxygen, Ammonia: h.Ammonia, Carbon: water.Carbon}
	return m, nil
}

func assumed(field string, v float64, unit, message string) units.Notice {
	return units.Notice{Code: CodeAssumed, Severity: units.Info, Field: field, Value: v, Limit: v, Unit: unit,
		Message: "assumed: " + message, Source: "common practice, no source"}
}

func (m *haulModel) chemistry(t units.Temperature) (Carbonate, error) {
	if m.sea {
		return SeaCarbonate(t, m.h.Salinity)
	}
	return FreshCarbonate(t)
}

func (m *haulModel) ammoniaModel() AmmoniaModel {
	if m.sea {
		return CleggWhitfield1995
	}
	return Emerson1975
}

func (m *haulModel) ammoniaSalinity() units.PracticalSalinity {
	if m.sea {
		return m.h.Salinity
	}
	return 0
}

// point reads the chemistry off a state at its own temperature.
func (m *haulModel) point(t float64, y []float64) HaulPoint {
	if m.read && [4]float64(y[:4]) == m.lastRead {
		m.last.After = seconds(t)
		return m.last
	}
	at := units.Celsius(y[0])
	p := HaulPoint{After: seconds(t), Temperature: at, Oxygen: units.Concentration(y[1]), Ammonia: units.Concentration(y[2])}
	chem, err := m.chemistry(units.Celsius(min(max(y[0], 0), 45)))
	if err != nil && !errors.Is(err, units.ErrRange) {
		chem = m.mixed.Chemistry
	}
	mx := m.mixed
	mx.Chemistry = chem
	pka, _ := m.ammoniaModel().PKa(units.Celsius(min(max(y[0], -2), 45)), m.ammoniaSalinity())
	mx.AmmoniaK = pka
	x := prepared(mx, m.start)
	if m.read {
		x.ph = m.last.PH
	}
	hIon := x.acidity(y[3], y[2])
	p.PH = x.ph
	p.CO2 = units.Concentration(y[3] * x.eq.free(hIon))
	p.Unionised = units.Concentration(y[2] / (1 + math.Pow(10, pka-x.ph)))
	m.read, m.lastRead = true, [4]float64(y[:4])
	p.Alkalinity = m.h.Alkalinity + units.Alkalinity((y[2]-float64(m.start.Ammonia))/molarNitrogen*1000)
	m.last = p
	return p
}

// course runs the haul and reads twelve even steps.
func (m *haulModel) course(p *HaulPlan) error {
	y := m.start.vector()
	p.End = m.point(0, y[:])
	p.Course = []HaulPoint{p.End}
	if m.h.Duration == 0 {
		return nil
	}
	s, err := m.mixed.solver(m.start, haulTolerance)
	if err != nil {
		return err
	}
	for i := 1; i <= courseSteps; i++ {
		t := m.h.Duration.Seconds() * float64(i) / courseSteps
		if _, err := s.Advance(t, nil); err != nil {
			return tooFast("transport.Haul", "duration", m.h.Duration, err)
		}
		p.Course = append(p.Course, m.point(t, s.Y()))
	}
	p.End = p.Course[courseSteps]
	p.End.After = m.h.Duration
	p.Course[courseSteps] = p.End
	p.OxygenUsed = units.Mass(s.Y()[4])
	p.CO2Made = p.OxygenUsed * units.Mass(m.mixed.Carbon)
	p.Excreted = p.OxygenUsed * units.Mass(m.mixed.Ammonia)
	p.Warming = p.End.Temperature.Sub(m.h.Temperature)
	return nil
}

// limits finds when each limit that is set is passed, up to the horizon.
func (m *haulModel) limits(p *HaulPlan, horizon time.Duration) error {
	l := m.h.Limits
	var names []string
	var events []ode.Event
	add := func(set bool, name string, g func(y []float64) float64) {
		if !set {
			return
		}
		names = append(names, name)
		events = append(events, ode.Event{Direction: -1, G: func(_ float64, y []float64) float64 { return g(y) }})
	}
	add(l.Oxygen != 0, "oxygen", func(y []float64) float64 { return y[1] - float64(l.Oxygen) })
	add(l.CO2 != 0, "carbon dioxide", func(y []float64) float64 { return float64(l.CO2 - m.point(0, y).CO2) })
	add(l.Ammonia != 0, "ammonia", func(y []float64) float64 { return float64(l.Ammonia - m.point(0, y).Unionised) })
	add(l.Warmest != units.Temperature{}, "warmth", func(y []float64) float64 { return l.Warmest.Celsius() - y[0] })
	add(l.Coldest != units.Temperature{}, "cold", func(y []float64) float64 { return y[0] - l.Coldest.Celsius() })
	if len(names) == 0 {
		return nil
	}
	times := make([]LimitTime, len(names))
	y := m.start.vector()
	left := 0
	for i, n := range names {
		times[i].Limit = n
		if events[i].G(0, y[:]) <= 0 {
			times[i].Found = true // passed at loading
		} else {
			left++
		}
	}
	// Water hotter than this ends the search: the demand law is no law there.
	events = append(events, ode.Event{Direction: -1, G: func(_ float64, y []float64) float64 { return 45 - y[0] }})
	s, err := m.mixed.solver(m.start, haulTolerance)
	if err != nil {
		return err
	}
	for end := horizon.Seconds(); left > 0 && end > 0; {
		i, err := s.Advance(end, events)
		if err != nil {
			return tooFast("transport.Haul", "limits", horizon, err)
		}
		if i == ode.None || i == len(names) {
			break
		}
		if !times[i].Found {
			times[i] = LimitTime{Limit: names[i], After: seconds(s.T()), Found: true}
			left--
		}
	}
	p.Limits = times
	for _, t := range times {
		if t.Found && (p.Binds == "" || t.After < p.Hours) {
			p.Binds, p.Hours = t.Limit, t.After
		}
	}
	return nil
}

// carry works out oxygen, heat and ice for the haul.
func (m *haulModel) carry(p *HaulPlan) {
	h := m.h
	most := 0.0
	for _, c := range p.Course {
		most = max(most, m.mixed.Demand.rate(c.Temperature.Celsius())*m.mixed.Demand.handled(c.After.Seconds()))
	}
	eff := h.OxygenEfficiency
	if eff == 0 {
		eff = 0.1
		m.notice = append(m.notice, assumed("OxygenEfficiency", eff, "", "a tenth of the oxygen let out dissolves, a fine stone"))
	}
	reserve := h.Reserve
	if reserve == 0 {
		reserve = 1
	}
	p.HoldFlow = units.MassFlow(most * float64(h.Product) / eff)
	p.OxygenOut = h.OxygenFlow.Times(h.Duration)
	p.Carry = units.Mass(float64(p.OxygenUsed) / eff * (1 + reserve))
	breath := float64(h.Product) * m.mixed.Demand.rate(h.Temperature.Celsius()) * m.mixed.Demand.handled(0)
	if h.Oxygen > h.Limits.Oxygen && breath > 0 {
		if s := float64(m.loaded.Water) * float64(h.Oxygen-h.Limits.Oxygen) / breath; s < 1e7 {
			p.Alarm = seconds(s)
		}
	}
	if h.Conductance != 0 {
		p.Wall = units.Power(float64(h.Conductance) * float64(m.mixed.Ambient.Sub(h.Temperature)))
	}
	p.Metabolic = units.Power(breath * float64(MetabolicHeat))
	p.Stirring = h.Agitators
	if total := p.Wall + p.Metabolic + p.Stirring; total > 0 {
		p.Ice, _ = IceToHold(total, h.Duration, h.Temperature, 0)
	}
}

// warn turns the plan's findings into notices.
func (m *haulModel) warn(p *HaulPlan) {
	h := m.h
	out := append(m.notice, m.loaded.Notices...)
	codes := map[string]string{"oxygen": CodeOxygenLow, "carbon dioxide": CodeCarbonDioxide, "ammonia": CodeAmmonia, "warmth": CodeTemperature, "cold": CodeTemperature}
	for _, t := range p.Limits {
		if t.Found && t.After <= h.Duration {
			sev := units.Warning
			if t.Limit == "oxygen" {
				sev = units.Danger
			}
			out = append(out, units.Notice{Code: codes[t.Limit], Severity: sev, Field: "limits", Value: t.After.Hours(), Limit: h.Duration.Hours(), Unit: "h",
				Message: fmt.Sprintf("the limit on %s is passed after %.2f h of %.2f h", t.Limit, t.After.Hours(), h.Duration.Hours()), Source: h.Limits.Source})
		}
	}
	if p.Alarm > 0 && p.Alarm < 15*time.Minute {
		out = append(out, units.Notice{Code: CodeAlarmTime, Severity: units.Warning, Field: "alarm", Value: p.Alarm.Minutes(), Limit: 15, Unit: "min",
			Message: fmt.Sprintf("if the oxygen stops the limit is passed in %.1f min: alarm, spare regulator and bottle within reach", p.Alarm.Minutes()), Source: "oxygen balance"})
	}
	if h.OxygenStore != 0 && h.OxygenStore < p.Carry {
		out = append(out, units.Notice{Code: CodeStoreShort, Severity: units.Warning, Field: "oxygenStore", Value: float64(h.OxygenStore), Limit: float64(p.Carry), Unit: "kg",
			Message: "the oxygen on board does not cover the animals' need at this efficiency with its reserve"})
	}
	if over := float64(p.End.Oxygen) / float64(m.mixed.Saturation); over > 2 {
		out = append(out, units.Notice{Code: CodeOxygenHigh, Severity: units.Caution, Field: "oxygenFlow", Value: over, Limit: 2,
			Message: "oxygen ends above twice its saturation with air: turn the flow down", Source: "common practice, no source"})
	}
	if h.CarbonKLa > 0 && p.End.PH > h.PH && p.End.Ammonia > 0 {
		out = append(out, units.Notice{Code: CodeStrippingRaise, Severity: units.Caution, Field: "carbonKLa", Value: p.End.PH, Limit: h.PH,
			Message: "driving off CO2 raises pH and with it the toxic share of the ammonia"})
	}
	if h.Duration > longHaul {
		out = append(out, hoursNotice("Duration", h.Duration))
	}
	p.Notices = out
}
