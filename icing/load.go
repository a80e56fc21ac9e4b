package icing

import (
	"errors"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// DefaultProductSpecificHeat is used for a product whose specific heat is not
// given: fish and shrimp of 0.75 to 0.80 water, above freezing. The trade's
// values run from 3.35 (FAO's 0.8 kcal) to 3.77 kJ/(kg K).
//
// Source: between Choi & Okos (1986) for 0.72 to 0.80 water and the rounded
// 3.6 kJ/(kg K) of common practice.
const DefaultProductSpecificHeat units.SpecificHeat = 3600 // J/(kg K)

// Load is one icing job: product and water to be cooled, containers to be kept
// cold, and the ice that does it.
type Load struct {
	Product             units.Mass         `json:"product"`             // animals as weighed, without carried water
	ProductSpecificHeat units.SpecificHeat `json:"productSpecificHeat"` // zero means DefaultProductSpecificHeat
	ProductTemperature  units.Temperature  `json:"productTemperature"`  // on arrival at the ice, 0 to 40 °C
	FinalTemperature    units.Temperature  `json:"finalTemperature"`    // of product and water, 0 °C up to the start

	CarriedWater      float64            `json:"carriedWater"`      // kg of water down the chute per kg of product, 0 to 1
	MakeUpWater       units.Mass         `json:"makeUpWater"`       // water put into the slurry tank to start it
	WaterTemperature  units.Temperature  `json:"waterTemperature"`  // of carried and make-up water; unset means ProductTemperature
	WaterSpecificHeat units.SpecificHeat `json:"waterSpecificHeat"` // zero means DefaultWaterSpecificHeat; about 4.0 kJ/(kg K) at 30 psu

	Containers  int                      `json:"containers"`  // iced containers held; zero means none
	Conductance units.ThermalConductance `json:"conductance"` // U·A of one container
	Ambient     units.Temperature        `json:"ambient"`     // air around them; needed when Containers is not zero
	Sun         units.TempDelta          `json:"sun"`         // added to Ambient for sun on the walls, 0 to 40 K
	Hold        time.Duration            `json:"hold"`        // from packing until the door
	OtherHeat   units.Energy             `json:"otherHeat"`   // anything else the ice takes up, such as a warm tank or a pump

	Ice       Ice     `json:"ice"`
	MeltStays bool    `json:"meltStays"` // true when melt water stays in the bath and warms to FinalTemperature; false when it drains at 0 °C
	Waste     float64 `json:"waste"`     // share of the ice ordered that cools nothing (spilt, melted in store, left over), 0 to 0.9
}

// Balance is the ice that a [Load] needs and what melts it. All masses are ice
// as delivered.
type Balance struct {
	Chill   units.Mass `json:"chill"`   // melted by the product
	Carried units.Mass `json:"carried"` // melted by water that came with the product
	MakeUp  units.Mass `json:"makeUp"`  // melted by the slurry's own water
	Leak    units.Mass `json:"leak"`    // melted by heat through the containers' walls
	Other   units.Mass `json:"other"`   // melted by OtherHeat
	Melt    units.Mass `json:"melt"`    // sum of the five
	Waste   units.Mass `json:"waste"`   // Order less Melt
	Order   units.Mass `json:"order"`   // ice to have at the pond

	Heat    units.Energy         `json:"heat"`    // taken from product, water, walls and the rest
	Cooling units.SpecificEnergy `json:"cooling"` // taken up by one kilogram of the ice

	Ratio      float64 `json:"ratio"`      // Order per Product; zero without product
	ChillRatio float64 `json:"chillRatio"` // Chill per Product; zero without product
}

// Validate reports every field of the load that cannot be used.
func (l Load) Validate() error {
	_, err := l.check()
	return err
}

// loadState is a checked load with its defaults filled in, temperatures in °C.
type loadState struct {
	cp, cw             float64
	start, final, warm float64 // product, target, water
	drive              float64 // temperature difference across the walls, K
}

func (l Load) check() (loadState, error) {
	const fn = "icing.Load"
	s := loadState{
		cp:    float64(l.ProductSpecificHeat),
		start: l.ProductTemperature.Celsius(),
		final: l.FinalTemperature.Celsius(),
	}
	if s.cp == 0 {
		s.cp = float64(DefaultProductSpecificHeat)
	}
	s.warm = s.start
	if !unset(l.WaterTemperature) {
		s.warm = l.WaterTemperature.Celsius()
	}
	cw, cwErr := waterHeat(fn, "waterSpecificHeat", l.WaterSpecificHeat)
	s.cw = cw
	e1 := bounds.Amount(fn, "product", float64(l.Product), "kg")
	e2 := units.Within(fn, "productSpecificHeat", s.cp/1e3, 1.5, 4.2, "kJ/(kg K)")
	e3 := waterTemperature(fn, "productTemperature", s.start)
	e4 := finalTemperature(fn, s.final, s.start)
	e5 := units.Within(fn, "carriedWater", l.CarriedWater, 0, 1, "")
	e6 := bounds.Amount(fn, "makeUpWater", float64(l.MakeUpWater), "kg")
	e7 := waterTemperature(fn, "waterTemperature", s.warm)
	var e8, e10 error
	if l.Containers != 0 {
		amb := l.Ambient.Celsius()
		e8 = units.Within(fn, "ambient", amb, -40, 60, "°C")
		// Ice does not grow in the cold: no heat leaks in below the target.
		s.drive = max(0, amb+float64(l.Sun)-s.final)
	}
	e9 := bounds.Amount(fn, "conductance", float64(l.Conductance), "W/K")
	if l.Containers < 0 {
		e10 = bounds.Amount(fn, "containers", float64(l.Containers), "")
	}
	e11 := units.Within(fn, "sun", float64(l.Sun), 0, 40, "K")
	e12 := bounds.Amount(fn, "hold", l.Hold.Hours(), "h")
	e13 := bounds.Amount(fn, "otherHeat", float64(l.OtherHeat), "J")
	e14 := units.Within(fn, "waste", l.Waste, 0, 0.9, "")
	e15 := units.AtField("ice", l.Ice.Validate())
	if cwErr == nil && e1 == nil && e2 == nil && e3 == nil && e4 == nil && e5 == nil && e6 == nil && e7 == nil &&
		e8 == nil && e9 == nil && e10 == nil && e11 == nil && e12 == nil && e13 == nil && e14 == nil && e15 == nil {
		return s, nil
	}
	return s, errors.Join(e1, e2, e3, e4, e5, e6, e7, cwErr, e8, e9, e10, e11, e12, e13, e14, e15)
}

// waterTemperature refuses a start temperature that no pond has.
func waterTemperature(fn, field string, c float64) error {
	if c >= 0 && c <= 40 {
		return nil
	}
	reason := "live animals and pond water lie between these"
	if c < -200 {
		reason = "temperature not set; " + reason
	} else if c > 40 {
		reason += "; a Fahrenheit reading given as Celsius?"
	}
	return &units.InputError{Func: fn, Field: field, Value: c, Unit: "°C", Min: 0, Max: 40, Reason: reason}
}

func finalTemperature(fn string, final, start float64) error {
	if final >= 0 && (final <= start || math.IsNaN(start)) {
		return nil
	}
	reason := "melting ice chills to 0 °C at best, and not above the start"
	if final < -200 {
		reason = "temperature not set; " + reason
	}
	return &units.InputError{Func: fn, Field: "finalTemperature", Value: final, Unit: "°C", Min: 0, Max: max(start, 0), Reason: reason}
}

// Balance returns the ice that the load melts and the ice to order:
//
//	m_ice·q = m·c_p·(T0-T1) + (x·m + m_w)·c_w·(T_w-T1) + n·UA·(T_a+ΔT_sun-T1)·t + Q
//	order   = m_ice/(1-waste)
//
// with q from [Ice.Cooling]. The leak is zero where the air is colder than the
// target; water colder than the target adds nothing.
//
// Validity: as the fields of [Load] say; errors are ErrDomain and name every bad
// field. Accuracy: that of the inputs; the specific heat alone spreads by 10 %
// in the trade's tables. It allocates nothing when there is no error.
//
// Source: heat balance as in FAO Fisheries Technical Paper 331 (Graham,
// Johnston & Nicholson 1992), ch. 3, eq. 4-5, with the water and leak terms
// written out; leak as FAO Fisheries Technical Paper 436 (2003), ch. 7, eq. 1.
func (l Load) Balance() (Balance, error) {
	s, err := l.check()
	if err != nil {
		return Balance{}, err
	}
	return l.balance(s), nil
}

func (l Load) balance(s loadState) Balance {
	out := 0.0
	if l.MeltStays {
		out = s.final
	}
	q := l.Ice.cooling(out, s.cw)
	product := float64(l.Product)
	chill := product * s.cp * (s.start - s.final)
	water := s.cw * max(0, s.warm-s.final)
	carried := l.CarriedWater * product * water
	makeUp := float64(l.MakeUpWater) * water
	leak := float64(l.Containers) * float64(l.Conductance) * s.drive * l.Hold.Seconds()
	other := float64(l.OtherHeat)
	heat := chill + carried + makeUp + leak + other
	b := Balance{
		Chill:   units.Mass(chill / q),
		Carried: units.Mass(carried / q),
		MakeUp:  units.Mass(makeUp / q),
		Leak:    units.Mass(leak / q),
		Other:   units.Mass(other / q),
		Melt:    units.Mass(heat / q),
		Order:   units.Mass(heat / q / (1 - l.Waste)),
		Heat:    units.Energy(heat),
		Cooling: units.SpecificEnergy(q),
	}
	b.Waste = b.Order - b.Melt
	if product >= bounds.Least {
		b.Ratio = float64(b.Order) / product
		b.ChillRatio = float64(b.Chill) / product
	}
	return b
}
