package icing

import (
	"errors"
	"fmt"
	"math"
	"time"

	"pondwright.example/internal/bounds"
	"pondwright.example/units"
)

// Bath is a chill tank: ice and water into which live or fresh product goes.
type Bath struct {
	IceMass           units.Mass         `json:"iceMass"`
	Ice               Ice                `json:"ice"`
	Water             units.Mass         `json:"water"`
	WaterTemperature  units.Temperature  `json:"waterTemperature"`  // needed when Water is not zero
	WaterSpecificHeat units.SpecificHeat `json:"waterSpecificHeat"` // zero means DefaultWaterSpecificHeat
}

// Batch is what goes into the bath.
type Batch struct {
	Product      units.Mass         `json:"product"`
	SpecificHeat units.SpecificHeat `json:"specificHeat"` // zero means DefaultProductSpecificHeat
	Temperature  units.Temperature  `json:"temperature"`
}

// BathEnd is a bath and product that have come to one temperature.
type BathEnd struct {
	Temperature units.Temperature `json:"temperature"`
	Melted      units.Mass        `json:"melted"`  // ice turned into water; negative when water froze onto very cold ice
	IceLeft     units.Mass        `json:"iceLeft"` // zero when the bath ran out of ice
	Water       units.Mass        `json:"water"`   // water of the bath now
}

type bathState struct{ cw, tw, ti, latent float64 }

// Validate reports every field that cannot be a bath.
func (b Bath) Validate() error {
	_, err := b.check()
	return err
}

func (b Bath) check() (bathState, error) {
	const fn = "icing.Bath"
	s := bathState{ti: b.Ice.temperature(), latent: b.Ice.latent()}
	var e0 error
	if b.Water != 0 {
		s.tw = b.WaterTemperature.Celsius()
		e0 = waterTemperature(fn, "waterTemperature", s.tw)
	}
	cw, e1 := waterHeat(fn, "waterSpecificHeat", b.WaterSpecificHeat)
	s.cw = cw
	e2 := bounds.Amount(fn, "iceMass", float64(b.IceMass), "kg")
	e3 := bounds.Amount(fn, "water", float64(b.Water), "kg")
	e4 := units.AtField("ice", b.Ice.Validate())
	if e0 == nil && e1 == nil && e2 == nil && e3 == nil && e4 == nil {
		return s, nil
	}
	return s, errors.Join(e0, e1, e2, e3, e4)
}

func (p Batch) check() (cp, t float64, err error) {
	const fn = "icing.Batch"
	cp, t = float64(p.SpecificHeat), p.Temperature.Celsius()
	if cp == 0 {
		cp = float64(DefaultProductSpecificHeat)
	}
	e1 := bounds.Amount(fn, "product", float64(p.Product), "kg")
	e2 := units.Within(fn, "specificHeat", cp/1e3, 1.5, 4.2, "kJ/(kg K)")
	e3 := waterTemperature(fn, "temperature", t)
	if e1 == nil && e2 == nil && e3 == nil {
		return cp, t, nil
	}
	return cp, t, errors.Join(e1, e2, e3)
}

// Equilibrium returns the state when product, water and ice have come to one
// temperature and nothing leaks in. With enough ice it is 0 °C and some ice is
// left; otherwise all ice melts and
//
//	T = (m·c_p·T0 + m_w·c_w·T_w - m_i·q0)/(m·c_p + (m_w+m_i)·c_w)
//
// with q0 the ice's [Ice.Cooling] to water at 0 °C. Fresh water;
// [MeltIntoSeawater] is exact for salt water.
//
// Validity: as the fields say; errors are ErrDomain. Ice cold enough to freeze
// all the water is ErrNoSolution.
//
// Source: first law of thermodynamics.
func Equilibrium(b Bath, p Batch) (BathEnd, error) {
	s, err := b.check()
	cp, t0, err2 := p.check()
	if err != nil || err2 != nil {
		return BathEnd{}, errors.Join(err, units.AtField("batch", err2))
	}
	product, water, ice := float64(p.Product), float64(b.Water), float64(b.IceMass)
	if product+water+ice == 0 {
		return BathEnd{}, &units.InputError{Func: "icing.Equilibrium", Field: "bath", Value: 0, Unit: "kg", Reason: "no product, water or ice"}
	}
	solid := ice * (1 - b.Ice.FreeWater)
	heat := product*cp*t0 + water*s.cw*s.tw // above 0 °C
	heat += solid * b.Ice.specificHeat() * s.ti
	melted := heat / s.latent
	if melted >= solid {
		t := (heat - solid*s.latent) / (product*cp + (water+ice)*s.cw)
		return BathEnd{Temperature: units.Celsius(max(t, 0)), Melted: units.Mass(solid), Water: units.Mass(water + ice)}, nil
	}
	free := water + ice - solid
	if -melted > free {
		return BathEnd{}, &units.InputError{Func: "icing.Equilibrium", Field: "ice.temperature", Value: s.ti, Unit: "°C",
			Reason: "the ice is so cold that it freezes all the water", Kind: units.ErrNoSolution}
	}
	return BathEnd{
		Temperature: units.Celsius(0),
		Melted:      units.Mass(melted),
		IceLeft:     units.Mass(solid - melted),
		Water:       units.Mass(free + melted),
	}, nil
}

// Capacity returns the product that the bath can bring from its temperature to
// final while all its ice melts:
//
//	m = (m_i·q + m_w·c_w·(T_f-T_w))/(c_p·(T0-T_f))
//
// with q from [Ice.Cooling] to final. The batch's Product is ignored. A bath too
// warm to reach final at all has a capacity of zero.
//
// Validity: final from 0 °C to below the batch's temperature; errors are
// ErrDomain with NaN.
//
// Source: first law of thermodynamics.
func (b Bath) Capacity(p Batch, final units.Temperature) (units.Mass, error) {
	s, err := b.check()
	p.Product = 0
	cp, t0, err2 := p.check()
	tf := final.Celsius()
	const fn = "icing.Bath.Capacity"
	err3 := units.Within(fn, "final", tf, 0, 40, "°C")
	if err3 == nil && !(tf < t0) {
		err3 = &units.InputError{Func: fn, Field: "final", Value: tf, Unit: "°C", Min: 0, Max: t0, Reason: "must be below the product's temperature"}
	}
	if err != nil || err2 != nil || err3 != nil {
		return units.Mass(math.NaN()), errors.Join(err, err2, err3)
	}
	q := float64(b.IceMass)*b.Ice.cooling(tf, s.cw) + float64(b.Water)*s.cw*(tf-s.tw)
	return units.Mass(max(0, q/(cp*(t0-tf)))), nil
}

// BatchRun is a series of batches through one bath.
type BatchRun struct {
	Batches   int            `json:"batches"` // that leave at or below the limit
	Ends      []BathEnd      `json:"ends"`    // bath after each of them
	Product   units.Mass     `json:"product"` // in those batches
	FailsWith BathEnd        `json:"failsWith"`
	Notices   []units.Notice `json:"notices"`
}

// Batches returns how many equal batches the bath chills to limit or below
// before it needs ice. Each batch stays until it has the bath's temperature and
// leaves with no water; the melt stays in the tank. tank, when not zero, is the
// tank's volume: a notice says so when product at 1050 kg/m3 fills more than
// half of it, which stops the water moving (common practice).
func (b Bath) Batches(p Batch, limit units.Temperature, tank units.Volume) (BatchRun, error) {
	const fn = "icing.Bath.Batches"
	err := errors.Join(bounds.Positive(fn, "batch.Product", float64(p.Product), "kg"),
		units.Within(fn, "limit", limit.Celsius(), 0, 40, "°C"), bounds.Amount(fn, "tank", float64(tank), "m3"))
	if err != nil {
		return BatchRun{}, err
	}
	var run BatchRun
	const most = 10000
	for run.Batches < most {
		end, err := Equilibrium(b, p)
		if err != nil {
			return BatchRun{}, err
		}
		run.FailsWith = end
		if limit.Less(end.Temperature) {
			break
		}
		run.Batches++
		run.Ends = append(run.Ends, end)
		run.Product += p.Product
		b.IceMass, b.Ice.FreeWater, b.Ice.Temperature = end.IceLeft, 0, units.Celsius(0)
		b.Water, b.WaterTemperature = end.Water, end.Temperature
	}
	if run.Batches == 0 {
		run.Notices = append(run.Notices, units.Notice{Code: CodeNotChilled, Severity: units.Warning, Field: "limit",
			Value: run.FailsWith.Temperature.Celsius(), Limit: limit.Celsius(), Unit: "°C",
			Message: fmt.Sprintf("even the first batch ends at %.1f °C: more ice, less or colder water", run.FailsWith.Temperature.Celsius())})
	}
	if tank > 0 {
		if share := float64(p.Product) / 1050 / float64(tank); share > 0.5 {
			run.Notices = append(run.Notices, units.Notice{Code: CodeTankCrowded, Severity: units.Caution, Field: "batch.Product",
				Value: share, Limit: 0.5, Message: "product fills more than half of the tank: the water will not move through it",
				Source: "common practice, no source"})
		}
	}
	return run, nil
}

// TwoLumps returns the temperatures of two bodies that trade heat with each
// other alone, product (1) and a bath without ice (2):
//
//	T1 = T10 - (T10-T20)/(1+C1/C2)·(1-e^(-nt)),  n = UA·(1/C1+1/C2)
//
// with the heat capacities C. Validity: capacities and UA positive, t not
// negative, temperatures -60 to 150 °C; errors are ErrDomain beside unset
// temperatures.
//
// Source: Bejan & Kraus (2003), Heat Transfer Handbook, eq. 3.287 and 3.288.
func TwoLumps(c1, c2 units.HeatCapacity, ua units.ThermalConductance, start1, start2 units.Temperature, t time.Duration) (t1, t2 units.Temperature, err error) {
	const fn = "icing.TwoLumps"
	a, b := start1.Celsius(), start2.Celsius()
	err = errors.Join(bounds.Positive(fn, "c1", float64(c1), "J/K"), bounds.Positive(fn, "c2", float64(c2), "J/K"),
		bounds.Positive(fn, "ua", float64(ua), "W/K"), units.Within(fn, "start1", a, -60, 150, "°C"),
		units.Within(fn, "start2", b, -60, 150, "°C"), bounds.Amount(fn, "t", t.Seconds(), "s"))
	if err != nil {
		return units.Temperature{}, units.Temperature{}, err
	}
	n := float64(ua) * (1/float64(c1) + 1/float64(c2))
	gone := -math.Expm1(-n * t.Seconds())
	ratio := float64(c1) / float64(c2)
	x1 := a - (a-b)/(1+ratio)*gone // eq. 3.287
	x2 := b + (a-b)*ratio/(1+ratio)*gone
	return units.Celsius(x1), units.Celsius(x2), nil
}
