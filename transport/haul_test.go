package transport

import (
	"testing"
	"time"

	"pondwright.example/units"
)

// Oxygen, carbon and nitrogen of a closed tank add up over the haul.
func TestHaulKeepsItsBooks(t *testing.T) {
	h := goodHaul()
	h.OxygenEfficiency = 0.5
	p, err := h.Plan()
	if err != nil {
		t.Fatal(err)
	}
	v := float64(p.Loaded.Water)
	// What dissolved, by Simpson's rule on steps of half a minute.
	model, err := h.model()
	if err != nil {
		t.Fatal(err)
	}
	x := newMixedModel(model.mixed, model.start)
	gave, state := 0.0, model.start
	const steps = 1080
	step := h.Duration / steps
	for i := 0; i <= steps; i++ {
		w := float64(2 + 2*(i%2))
		if i == 0 || i == steps {
			w = 1
		}
		gave += w * step.Seconds() / 3 * x.supply(float64(state.Oxygen))
		if state, err = model.mixed.After(state, step); err != nil {
			t.Fatal(err)
		}
	}
	if stored := (float64(p.End.Oxygen) - float64(h.Oxygen)) * v; !near(gave, float64(p.OxygenUsed)+stored, 1e-6) {
		t.Errorf("oxygen: %v in, %v used, %v stored", gave, p.OxygenUsed, stored)
	}
	if pure, _ := OxygenUnderGas(1, h.Temperature, 0, 0); p.End.Oxygen > pure {
		t.Errorf("%v in the water, more than pure oxygen gives", p.End.Oxygen)
	}
	if !near(float64(p.End.Ammonia)*v, float64(p.Excreted), 1e-7) {
		t.Errorf("nitrogen: %v in the water, %v excreted", float64(p.End.Ammonia)*v, p.Excreted)
	}
	for i := 1; i < len(p.Course); i++ {
		a, b := p.Course[i-1], p.Course[i]
		if !(b.After > a.After && !b.Temperature.Less(a.Temperature) && b.Ammonia > a.Ammonia && b.CO2 > a.CO2 && b.PH < a.PH) {
			t.Errorf("step %d: %+v after %+v", i, b, a)
		}
	}
	// The time to a limit is where the course crosses it.
	for _, l := range p.Limits {
		if !l.Found || l.Limit != "ammonia" && l.Limit != "carbon dioxide" {
			continue
		}
		h2 := h
		h2.Duration = l.After
		q, err := h2.Plan()
		if err != nil {
			t.Fatal(err)
		}
		got, want := float64(q.End.CO2), float64(h.Limits.CO2)
		if l.Limit == "ammonia" {
			got, want = float64(q.End.Unionised), float64(h.Limits.Ammonia)
		}
		if !near(got, want, 1e-5) {
			t.Errorf("%s after %v: %v, limit %v", l.Limit, l.After, got, want)
		}
	}
}

// Ammonia excreted as NH3 takes up acid: without it the water turns sourer.
func TestAmmoniaBuffersTheTank(t *testing.T) {
	h := goodHaul()
	h.CarbonKLa = units.Rate(5.0 / 3600)
	h.AmmoniaQuotient = 0.2
	with, err := h.Plan()
	if err != nil {
		t.Fatal(err)
	}
	h.AmmoniaQuotient = 1e-6
	without, err := h.Plan()
	if err != nil || !(with.End.PH > without.End.PH+0.2) || !(with.End.Alkalinity > 3) {
		t.Errorf("with %+v, without %+v, %v", with.End, without.End, err)
	}
}

func TestSeawaterHaul(t *testing.T) {
	h := goodHaul()
	h.Salinity, h.Alkalinity, h.PH, h.Temperature = 30, 2.2, 7.9, units.Celsius(22)
	h.Demand.Base = h.Temperature
	p, err := h.Plan()
	if err != nil || hasCode(p.Notices, CodeExtrapolated) || p.End.PH >= 7.9 || p.End.PH < 5 {
		t.Errorf("30 psu: %+v, %v", p.End, err)
	}
	h.Salinity = 10
	if p, err = h.Plan(); err != nil || !hasCode(p.Notices, CodeExtrapolated) {
		t.Errorf("10 psu: %v, %v", p.Notices, err)
	}
	h.Salinity = 0.7
	if _, err = h.Plan(); err != nil {
		t.Errorf("0.7 psu: %v", err)
	}
}

// The largest load keeps its limits to the end of the haul; a little more does
// not.
func TestMostProductIsTheEdge(t *testing.T) {
	for name, spoil := range map[string]func(*Haul){
		"carbon dioxide": func(h *Haul) { h.CarbonKLa = units.Rate(4.0 / 3600); h.Limits = HaulLimits{CO2: 20e-3} },
		"oxygen":         func(h *Haul) { h.Limits = HaulLimits{Oxygen: 5e-3}; h.OxygenFlow = 2e-4 },
		"ammonia":        func(h *Haul) { h.Limits = HaulLimits{Ammonia: 2e-5}; h.CarbonKLa = units.Rate(10.0 / 3600) },
		"warmth":         func(h *Haul) { h.Limits = HaulLimits{Warmest: units.Celsius(12)} },
		"tank":           func(h *Haul) { h.Limits = HaulLimits{Coldest: units.Celsius(2)}; h.Duration = time.Minute },
	} {
		h := goodHaul()
		spoil(&h)
		m, err := h.MostProduct()
		if err != nil || m.Binds != name {
			t.Errorf("%s: %+v, %v", name, m, err)
			continue
		}
		if b, err := h.passes(float64(m.Product)); b != "" || err != nil {
			t.Errorf("%s: %v kg pass %s, %v", name, m.Product, b, err)
		}
		if b, err := h.passes(float64(m.Product) + 3*mostPrecision*9000); name != "tank" && (b != name || err != nil) {
			t.Errorf("%s: a little more than %v kg pass %q, %v", name, m.Product, b, err)
		}
	}
	h := goodHaul()
	h.Limits = HaulLimits{Source: "none"}
	_, err := h.MostProduct()
	says(t, "no limit", err, "limits")
	h = goodHaul()
	h.Oxygen = 3e-3
	_, err = h.MostProduct()
	says(t, "starved at loading", err, "oxygen")
}

// Handled fish take twice their oxygen at first and half an hour's worth more in
// the first hour: the triangle of the fading factor.
func TestHandlingTakesMoreOxygenAtFirst(t *testing.T) {
	h := goodHaul()
	h.Demand.Q10 = 1
	calm, err := h.Plan()
	if err != nil {
		t.Fatal(err)
	}
	h.Demand.Stress = 2
	stressed, err := h.Plan()
	if err != nil {
		t.Fatal(err)
	}
	more := float64(stressed.OxygenUsed - calm.OxygenUsed)
	if want := 2600 * 300 * mgPerKgH * 1800; !near(more, want, 1e-4) {
		t.Errorf("%v kg more, want %v", more, want)
	}
	if !near(float64(stressed.HoldFlow), 2*float64(calm.HoldFlow), 1e-9) || !near(float64(stressed.Alarm), float64(calm.Alarm)/2, 1e-6) {
		t.Errorf("hold %v and %v, alarm %v and %v", stressed.HoldFlow, calm.HoldFlow, stressed.Alarm, calm.Alarm)
	}
	h.Demand.Stress = 9
	_, err = h.Plan()
	says(t, "stress", err, "demand.stress")
}
