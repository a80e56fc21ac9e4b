package scenarios_test

import (
	"testing"

	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// canePump is the fish pump of Cane Brake.
var canePump = must(pumpsizing.NewPump(pumpsizing.PumpData{Name: "invented 305 mm fish pump",
	Curve:      curve(520, 0, 11.5, 150, 10.6, 300, 8.9, 450, 6.2, 550, 3.9),
	Efficiency: pumpsizing.EfficiencyData{Best: 0.58, BestFlow: units.CubicMetresPerHour.Of(380)}}))

// smallPump is the fish pump of Ledge Spring.
var smallPump = must(pumpsizing.NewPump(pumpsizing.PumpData{Name: "invented 152 mm fish pump",
	Curve:      curve(750, 0, 8, 40, 7.3, 80, 6, 120, 4.1, 150, 2.3),
	Efficiency: pumpsizing.EfficiencyData{Best: 0.52, BestFlow: units.CubicMetresPerHour.Of(95)}}))

// liftCurve is what the pump delivers through a hose without lift of its own at
// each lift, zero where it does not reach.
func liftCurve(p pumpsizing.Pump, hose pumpsizing.System, n units.RotationalSpeed, rho units.Density) hydraulics.LiftCurve {
	return func(lift units.Length) units.Flow {
		d, err := p.Operate(pumpsizing.Raised{System: hose, By: lift}, n, rho)
		if err != nil {
			return 0
		}
		return d.Flow
	}
}

// pumpOver is the pump as a way out of a pond, over a dike to an outfall or a
// tailwater above it.
func pumpOver(p pumpsizing.Pump, hose pumpsizing.System, n units.RotationalSpeed, rho units.Density, outfall units.Length) drawdown.OutletFunc {
	lift := liftCurve(p, hose, n, rho)
	return func(level, tailwater units.Length) units.Flow { return lift(max(outfall, tailwater) - level) }
}

func flatHose(length units.Length) hydraulics.Pipeline {
	return must(hydraulics.NewPipeline(hydraulics.PipelineSpec{Fluid: caneWater, Runs: []hydraulics.PipeRun{{
		Name: "hose", Bore: 305 * units.Millimetre, Length: length, Roughness: 0.3 * units.Millimetre,
		Fittings: []hydraulics.Loss{hydraulics.CustomLoss("foot, bends and mouth", 2.1)},
	}}}))
}

// systems are one of each kind of line, with a lift.
func systems() map[string]pumpsizing.System {
	hose := caneHose()
	return map[string]pumpsizing.System{
		"pipeline": hose,
		"series":   must(hydraulics.Series(flatHose(10*units.Metre), hose)),
		"parallel": must(hydraulics.Parallel(hose, hose)),
		"square":   must(hydraulics.NewSquareLine(4.9*units.Metre, 30)),
	}
}

// Where pump and line meet the two heads are one: the crossing found by halving
// an interval in which head falls below head.
func TestPumpMeetsEveryLine(t *testing.T) {
	c, n := canePump.Curve(), units.RevolutionsPerMinute.Of(480)
	for name, s := range systems() {
		lo, hi := units.Flow(0), units.CubicMetresPerHour.Of(600)
		for range 60 {
			if mid := (lo + hi) / 2; c.Head(mid, n) > s.Head(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		d := must(canePump.Operate(s, n, caneWater.Density))
		near(t, name+", flow m3/h", d.Flow.In(units.CubicMetresPerHour), lo.In(units.CubicMetresPerHour), 1e-9)
		near(t, name+", head m", d.Head.Metres(), s.Head(lo).Metres(), 1e-9)
		near(t, name+", lift m", d.Lift.Metres(), s.Head(0).Metres(), 1e-12)
		back := must(canePump.ForFlow(s, d.Flow, caneWater.Density))
		near(t, name+", speed back, r/min", back.Speed.In(units.RevolutionsPerMinute), 480, 1e-9)
	}
	// Two hoses side by side cost what half the flow costs one.
	one, two := systems()["pipeline"], systems()["parallel"]
	q := units.CubicMetresPerHour.Of(360)
	near(t, "two hoses, m", two.Head(q).Metres(), one.Head(q/2).Metres(), 1e-9)
}

// A pump over the dike empties the tank although the tide stands above the pond:
// in the time that A dh/Q adds up to, the midpoint rule in steps of 1 mm.
func TestPumpOverTheDike(t *testing.T) {
	o := pumpOver(canePump, flatHose(18*units.Metre), units.RevolutionsPerMinute.Of(480), caneWater.Density, 3*units.Metre)
	const steps = 900
	want := 0.0
	for i := range steps {
		h := 0.3*units.Metre + 0.9*units.Metre*units.Length(float64(i)+0.5)/steps
		want += 1000 * 0.9 / steps / o.Discharge(h, 1.5*units.Metre).CubicMetresPerSecond()
	}
	p := drawdown.Plan{Pond: tank, Start: morning, Stage: 1.2 * units.Metre, Target: 0.3 * units.Metre,
		Tailwater: drawdown.ConstantTailwater(1.5 * units.Metre),
		Gates:     []drawdown.Gate{{Name: "pump", Outlet: o, Backflow: drawdown.Pumped}}}
	near(t, "pumped over the dike, s", must(p.Run()).Elapsed.Seconds(), want, 1e-5)

	p.Gates[0] = drawdown.Gate{Name: "drain", Outlet: caneDrains(1, 3.4), Backflow: drawdown.FlapGate}
	p.Horizon = 24 * 3600e9
	if r := must(p.Run()); r.Reached {
		t.Errorf("a drain ran out against the tide: %+v", r.Outcome)
	}
}

// A table raised until it is dry stands where the pump's flow at that lift is the
// flow that the table can take, found by asking each package alone.
func TestTableRaisedOnThePumpsCurve(t *testing.T) {
	table := must(hydraulics.NewDewateringTable(hydraulics.TableSpec{
		Grate:     hydraulics.GrateSpec{Width: 1.2 * units.Metre, Length: 0.6 * units.Metre, Gap: 8 * units.Millimetre, Bar: 10 * units.Millimetre, Coefficient: 0.6},
		EntryBore: 305 * units.Millimetre, EntryKept: 0.8, SlideSpeed: 0.4 * units.MetrePerSecond, Footprint: 0.02 * units.SquareMetre,
		Adhering: 0.03, WaterDensity: caneWater.Density}))
	lift := liftCurve(canePump, flatHose(18*units.Metre), units.RevolutionsPerMinute.Of(452), caneWater.Density)
	setting := hydraulics.TableSetting{Product: 60 * units.KilogramPerMinute, Slope: 10 * units.Degree}
	height, flow, err := table.DryHeight(setting, 0.02, lift, 3*units.Metre, 7*units.Metre)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "the pump's flow at that height, m3/h", lift(height).In(units.CubicMetresPerHour), flow.In(units.CubicMetresPerHour), 1e-6)
	if !(height > 3*units.Metre) {
		t.Errorf("dry at %v already", height)
	}
	dry := must(table.DryFlow(setting, 0.02))
	near(t, "the table's flow, m3/h", flow.In(units.CubicMetresPerHour), dry.In(units.CubicMetresPerHour), 1e-5)
	last := units.Flow(1e9)
	for h := 3 * units.Metre; h < 8*units.Metre; h += 0.25 * units.Metre {
		q := lift(h)
		if q > last {
			t.Errorf("a lift of %v gives %v, more than a lower one", h, q)
		}
		last = q
	}
}
