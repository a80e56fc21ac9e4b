package pumpsizing

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Generator is an engine-driven set.
type Generator struct {
	Apparent  units.ApparentPower `json:"apparent"`           // rating in kVA
	Active    units.Power         `json:"active"`             // rating in kW
	Transient float64             `json:"transient,omitzero"` // transient reactance Xd' per unit; zero: 0.12
	Share     float64             `json:"share,omitzero"`     // kept after derating for air; zero: 1
}

// usualTransient is the transient reactance of small sets (from memory).
const usualTransient = 0.12

// Validate reports every problem of the data.
func (g Generator) Validate() error { return g.check("pumpsizing.Generator") }

func (g Generator) check(fn string) error {
	err := errors.Join(units.Positive(fn, "apparent", g.Apparent.VoltAmperes(), "VA"), units.Positive(fn, "active", g.Active.Watts(), "W"),
		units.Within(fn, "transient", g.Transient, 0, 1, ""), units.Within(fn, "share", g.Share, 0, 1, ""))
	if err == nil && g.Active.Watts() > g.Apparent.VoltAmperes() {
		err = &units.InputError{Func: fn, Field: "active", Value: g.Active.In(units.Kilowatts), Unit: "kW", Min: 0, Max: g.Apparent.VoltAmperes() / 1e3,
			Reason: "more than the apparent power: were kW and kVA exchanged?"}
	}
	return err
}

func (g Generator) transient() float64 {
	if g.Transient == 0 {
		return usualTransient
	}
	return g.Transient
}

// Dip returns the share of voltage a set loses at the moment a motor starts:
//
//	d = S/(S + G/Xd')
//
// with S the apparent power of starting and G the rating, both taken as purely
// reactive, which bounds it. Lights and contactors suffer above 0.2 to 0.3.
//
// Errors: ErrDomain for data that cannot be or a negative starting power.
// Source: voltage divider of a reactance and a load (from memory).
func (g Generator) Dip(start units.ApparentPower) (float64, error) {
	const fn = "pumpsizing.Generator.Dip"
	if err := errors.Join(g.check(fn), units.NonNegative(fn, "start", start.VoltAmperes(), "VA")); err != nil {
		return math.NaN(), err
	}
	s := start.VoltAmperes()
	return sound(fn, s/(s+g.Apparent.VoltAmperes()/g.transient()))
}

// GeneratorForDip returns the rating that keeps the starting dip at d:
// G = S Xd' (1-d)/d; a transient reactance of zero is 0.12.
//
// Errors: ErrDomain for a starting power that is not positive or shares outside
// (0,1).
// Source: Generator.Dip solved for the rating.
func GeneratorForDip(start units.ApparentPower, dip, transient float64) (units.ApparentPower, error) {
	const fn = "pumpsizing.GeneratorForDip"
	if transient == 0 {
		transient = usualTransient
	}
	err := errors.Join(units.Positive(fn, "start", start.VoltAmperes(), "VA"), fraction(fn, "dip", dip), fraction(fn, "transient", transient))
	if err != nil {
		return nan[units.ApparentPower](), err
	}
	return sound(fn, start*units.ApparentPower(transient*(1-dip)/dip))
}

// GeneratorLoad is one motor on a set.
type GeneratorLoad struct {
	Name    string              `json:"name"`
	Active  units.Power         `json:"active"` // running
	Running units.ApparentPower `json:"running"`
	Start   units.ApparentPower `json:"start"` // drawn while starting
}

// GeneratorDuty is how a set bears its loads.
type GeneratorDuty struct {
	Active     units.Power         `json:"active"`
	Running    units.ApparentPower `json:"running"`
	Available  units.Power         `json:"available"` // rating after derating
	LoadShare  float64             `json:"loadShare"` // active over available
	WorstDip   float64             `json:"worstDip"`  // starting the worst one with the others running
	AllAtOnce  float64             `json:"allAtOnce"` // dip when all start together
	WorstStart string              `json:"worstStart"`
	Notices    []units.Notice      `json:"notices,omitempty"`
}

// Limits of a set (common practice): deepest dip, lowest and highest load.
const deepestDip, lowestLoad, highestLoad = 0.3, 0.3, 0.8

// Carry tells how the set bears the loads: their sum, and the dip as the one
// with the largest starting power starts with the others running, and as all
// start at once. Loads are added as magnitudes, which is on the safe side.
//
// Errors: ErrDomain for data that cannot be.
// Source: common practice; see Dip.
func (g Generator) Carry(loads ...GeneratorLoad) (GeneratorDuty, error) {
	const fn = "pumpsizing.Generator.Carry"
	if err := g.check(fn); err != nil {
		return GeneratorDuty{}, err
	}
	share := g.Share
	if share == 0 {
		share = 1
	}
	out := GeneratorDuty{Available: g.Active * units.Power(share)}
	var together units.ApparentPower
	for _, l := range loads {
		err := errors.Join(units.NonNegative(fn, l.Name+".active", l.Active.Watts(), "W"),
			units.NonNegative(fn, l.Name+".running", l.Running.VoltAmperes(), "VA"), units.NonNegative(fn, l.Name+".start", l.Start.VoltAmperes(), "VA"))
		if err != nil {
			return GeneratorDuty{}, err
		}
		out.Active += l.Active
		out.Running += l.Running
		together += l.Start
	}
	for _, l := range loads {
		if d, _ := g.Dip(out.Running - l.Running + l.Start); d > out.WorstDip {
			out.WorstDip, out.WorstStart = d, l.Name
		}
	}
	out.AllAtOnce, _ = g.Dip(together)
	out.LoadShare = out.Active.Watts() / out.Available.Watts()
	if err := soundAll(fn, out.LoadShare, out.Running.VoltAmperes(), together.VoltAmperes()); err != nil {
		return GeneratorDuty{}, err
	}
	out.judge()
	return out, nil
}

func (o *GeneratorDuty) judge() {
	kw := o.Active.In(units.Kilowatts)
	switch {
	case o.LoadShare > 1:
		o.Notices = note(o.Notices, CodeGeneratorLoad, units.Danger, "generator", kw, o.Available.In(units.Kilowatts), "kW", "the set is overloaded", "energy balance")
	case o.LoadShare > highestLoad:
		o.Notices = note(o.Notices, CodeGeneratorLoad, units.Caution, "generator", kw, highestLoad*o.Available.In(units.Kilowatts), "kW",
			"above 80 % of the derated set: little left for starting", commonPractice)
	case o.LoadShare < lowestLoad:
		o.Notices = note(o.Notices, CodeGeneratorLoad, units.Info, "generator", kw, lowestLoad*o.Available.In(units.Kilowatts), "kW",
			"below 30 % a diesel set wets its exhaust in long running", commonPractice)
	}
	switch {
	case o.WorstDip > deepestDip:
		o.Notices = note(o.Notices, CodeStartDip, units.Warning, "worstDip", o.WorstDip, deepestDip, "",
			"starting "+o.WorstStart+" takes "+percent(o.WorstDip)+" of the voltage: soft starter, frequency converter or a larger set", commonPractice)
	case o.AllAtOnce > deepestDip:
		o.Notices = note(o.Notices, CodeStartDip, units.Caution, "allAtOnce", o.AllAtOnce, deepestDip, "",
			"start the motors one after another: together they take "+percent(o.AllAtOnce)+" of the voltage", commonPractice)
	}
}
