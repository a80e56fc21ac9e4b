package scenarios_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"pondwright.example/biomass"
	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/transport"
	"pondwright.example/units"
)

// Cane Brake, an invented farm: 4 ha of catfish behind an earthen dike, two
// drain pipes, a well that stays on, a fish pump on a tractor, live tanks to the
// plant. Every check is of kind 'derived by hand': the expected figures were
// worked out apart from this library by the method stated beside them, with bands
// that a competent engineer using other coefficients would stay inside.

// canePond is the pond with its surveyed areas multiplied by a factor.
func canePond(factor float64) drawdown.StageTable {
	rows := []drawdown.StageArea{
		{Stage: 0, Area: 900 * units.SquareMetre},
		{Stage: 0.3 * units.Metre, Area: 16000 * units.SquareMetre},
		{Stage: 0.6 * units.Metre, Area: 31000 * units.SquareMetre},
		{Stage: 0.9 * units.Metre, Area: 36500 * units.SquareMetre},
		{Stage: 1.2 * units.Metre, Area: 38500 * units.SquareMetre},
		{Stage: 1.5 * units.Metre, Area: 39600 * units.SquareMetre},
		{Stage: 1.6 * units.Metre, Area: 40000 * units.SquareMetre},
	}
	for i := range rows {
		rows[i].Area *= units.Area(factor)
	}
	return must(drawdown.NewStageTable(rows))
}

var caneWater = must(hydraulics.FreshWater(units.Celsius(22)))

func caneDrains(pipes int, lossSum float64) hydraulics.OutletPipe {
	return must(hydraulics.NewOutletPipe(hydraulics.OutletPipeSpec{
		Bore: 305 * units.Millimetre, Length: 24 * units.Metre, Roughness: 0.15 * units.Millimetre,
		LossSum: lossSum, EntryLoss: 0.05, Viscosity: caneWater.KinematicViscosity(),
		Barrels: pipes, Backflow: hydraulics.BackflowReverse,
	}))
}

// caneHours drains the full pond to 0.3 m and returns the hours to 0.6, 0.45 and
// 0.3 m.
func caneHours(pond drawdown.StageTable, drains drawdown.Outlet, well units.Flow) [3]float64 {
	p := drawdown.Plan{Pond: pond, Start: morning, Stage: 1.6 * units.Metre, Target: 0.3 * units.Metre,
		Gates: []drawdown.Gate{{Name: "drains", Outlet: drains}},
		Watch: []units.Length{0.6 * units.Metre, 0.45 * units.Metre}}
	if well > 0 {
		p.Inflows = []drawdown.Inflow{{Name: "well", Rate: well}}
	}
	r := must(p.Run())
	var h [3]float64
	for _, e := range r.Events {
		if e.Kind == drawdown.StagePassed {
			i := 0
			if e.Stage < 0.5*units.Metre {
				i = 1
			}
			h[i] = e.At.Sub(morning).Hours()
		}
	}
	h[2] = r.Elapsed.Hours()
	return h
}

// Volumes by the trapezoid rule on the stage-area table: not 4 ha times the
// depth at the drain.
func TestCaneBrakeWater(t *testing.T) {
	pond := canePond(1)
	v := pond.Capacity()
	within(t, "full, m3", v.CubicMetres(), 44000, 49000)
	near(t, "full, m3, by the same rule", v.CubicMetres(), 46655, 1e-6)
	about(t, "full, acre-feet", v.In(units.AcreFeet), 37.8)
	about(t, "full, million gallons", v.In(units.USMegagallons), 12.3)
	about(t, "mean depth, m", v.Over(4*units.Hectare).Metres(), 1.17)
	last := must(drawdown.HoldBackStage(pond, pond.Top(), 0.2))
	near(t, "last fifth begins at, m", last.Stage.Metres(), 0.60, 0.08)
	near(t, "below 0.60 m, m3", pond.Volume(0.6*units.Metre).CubicMetres(), 9585, 0.08)
	near(t, "below 0.30 m, m3", pond.Volume(0.3*units.Metre).CubicMetres(), 2535, 0.08)
	// The last fifth of the water is not the last fifth of the depth.
	within(t, "share of the depth", last.DepthFraction, 0.35, 0.39)
}

// Outlet: the less of full-pipe Darcy flow with the head above the outlet's
// centreline and critical depth in the mouth with 5 % loss, free outfall.
func TestCaneBrakeDrains(t *testing.T) {
	drains := caneDrains(2, 3.4)
	for level, want := range map[units.Length]float64{1.6: 1284, 0.9: 921, 0.3: 472} {
		near(t, "both pipes at "+level.String()+", m3/h", drains.Discharge(level, -10).In(units.CubicMetresPerHour), want, 0.15)
	}
}

// Water balance of the stage-area table with that outlet, explicit 60 s steps.
func TestCaneBrakeTimes(t *testing.T) {
	h := caneHours(canePond(1), caneDrains(2, 3.4), 0)
	about(t, "to 0.6 m, h", h[0], 36.8)
	about(t, "to 0.45 m, h", h[1], 43.1)
	about(t, "to 0.3 m, h", h[2], 49.0)
	within(t, "last fifth reached after, h", h[0], 37*0.92, 37*1.08)
	if h[0] < 24 || h[2] > 72 {
		t.Errorf("two nights are %v", h)
	}
	well := caneHours(canePond(1), caneDrains(2, 3.4), units.CubicMetresPerHour.Of(75))
	about(t, "to 0.45 m with the well on, h", well[1], 46.9)
	one := caneHours(canePond(1), caneDrains(1, 3.4), 0)
	about(t, "to 0.45 m with one pipe, h", one[1], 86)
	near(t, "one pipe over two", one[1]/h[1], 2, 1e-6)
}

// The same with the loss coefficients known to 25 % and the areas to 5 %, both
// normal: 400 equally likely pairs in place of 400 random ones, each drained.
func TestCaneBrakeOdds(t *testing.T) {
	const n = 20
	var hours [3][]float64
	for i := range n {
		drains := caneDrains(2, max(1, 3.4*(1+0.25*normal((float64(i)+0.5)/n))))
		for j := range n {
			h := caneHours(canePond(1+0.05*normal((float64(j)+0.5)/n)), drains, 0)
			for k := range h {
				hours[k] = append(hours[k], h[k])
			}
		}
	}
	for k, want := range [3]struct {
		to       string
		p10, p90 float64
	}{{"0.6 m", 31.8, 42.4}, {"0.45 m", 36.3, 48.3}, {"0.3 m", 42.5, 56.5}} {
		slices.Sort(hours[k])
		about(t, "P10 to "+want.to+", h", hours[k][n*n/10], want.p10)
		about(t, "P90 to "+want.to+", h", hours[k][n*n*9/10], want.p90)
	}
}

// normal is the quantile of the standard normal distribution.
func normal(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }

// The crop: stocked times survival times mean weight, lognormal.
func TestCaneBrakeCrop(t *testing.T) {
	c := caneCrop()
	about(t, "crop, kg", c.P50.Kilograms(), 22000)
	about(t, "P90, kg", c.P90.Kilograms(), 26000)
	about(t, "CV, %", 100*c.CV, 13)
}

func caneCrop() biomass.Estimate {
	return must(biomass.EstimateCrop(biomass.CropInput{
		Stocking:   &biomass.Stocking{Stocked: 34000, Survival: 0.86, SurvivalCV: 0.13},
		MeanWeight: 752 * units.Gram,
	})).Estimate
}

func caneHose() hydraulics.Pipeline {
	return must(hydraulics.NewPipeline(hydraulics.PipelineSpec{Fluid: caneWater, Lift: 4.9 * units.Metre, Runs: []hydraulics.PipeRun{{
		Name: "hose", Bore: 305 * units.Millimetre, Length: 18 * units.Metre, Roughness: 0.3 * units.Millimetre,
		Fittings: []hydraulics.Loss{hydraulics.CustomLoss("foot, bends and mouth", 2.1)},
	}}}))
}

func caneDrive(oilHose units.Length) pumpsizing.HydraulicDrive {
	return must(pumpsizing.NewHydraulicDrive(pumpsizing.HydraulicDriveData{
		Pump: pumpsizing.PumpData{Name: "invented 305 mm fish pump",
			Curve:      curve(520, 0, 11.5, 150, 10.6, 300, 8.9, 450, 6.2, 550, 3.9),
			Efficiency: pumpsizing.EfficiencyData{Best: 0.58, BestFlow: units.CubicMetresPerHour.Of(380)}},
		WaterDensity: caneWater.Density,
		Motor:        pumpsizing.HydraulicMotor{Displacement: 160 * units.CubicCentimetrePerRevolution, Volumetric: 0.92, Hydromechanical: 0.88},
		Oil:          oil32,
		Line:         pumpsizing.OilLine{Bore: oilHose, Length: 36 * units.Metre},
		Valves:       4 * units.Bar, Return: 3 * units.Bar,
		OilPump: pumpsizing.OilPump{Overall: 0.85},
		Relief:  pumpsizing.Relief{Set: 175 * units.BarGauge},
		Tractor: &pumpsizing.Tractor{Power: 60 * units.Kilowatt, Basis: pumpsizing.PTOPower,
			EngineSpeed: units.RevolutionsPerMinute.Of(2000), AirTemp: units.Celsius(22)},
	}))
}

// oil32 is an oil of 32 mm2/s as it runs.
var oil32 = pumpsizing.OilState{Viscosity: 32 * units.Centistoke, Density: 870 * units.KilogramPerCubicMetre}

// curve is a data sheet in r/min, m3/h and m.
func curve(rpm float64, flowHead ...float64) pumpsizing.CurveData {
	d := pumpsizing.CurveData{Speed: units.RevolutionsPerMinute.Of(rpm)}
	for i := 0; i+1 < len(flowHead); i += 2 {
		d.Points = append(d.Points, pumpsizing.CurvePoint{Flow: units.CubicMetresPerHour.Of(flowHead[i]), Head: units.Metres.Of(flowHead[i+1])})
	}
	return d
}

// Hose by Darcy-Weisbach and Colebrook, pump by a least-squares parabola and the
// affinity laws, efficiency a parabola read at the flow scaled to rated speed;
// oil line by laminar and turbulent friction at 32 mm2/s.
func TestCaneBrakeLift(t *testing.T) {
	q := units.CubicMetresPerHour.Of(360)
	d := must(caneDrive(25.4*units.Millimetre).ForFlow(caneHose(), q))
	within(t, "total head, m", d.Pump.Head.Metres(), 5.1, 5.6)
	within(t, "speed, r/min", d.Pump.Speed.In(units.RevolutionsPerMinute), 440, 475)
	within(t, "shaft, kW", d.Pump.ShaftPower.In(units.Kilowatts), 8.3, 10)
	about(t, "shaft, hp", d.Pump.ShaftPower.In(units.MechanicalHorsepowers), 11.9)
	within(t, "oil pump, bar", d.PumpPressure.In(units.Bars), 85, 105)
	about(t, "oil pump, psi", d.PumpPressure.In(units.PoundsPerSquareInch), 1334)
	about(t, "oil, L/min", d.OilFlow.In(units.LitresPerMinute), 79)
	about(t, "oil, gal/min", d.OilFlow.In(units.USGallonsPerMinute), 20.7)
	within(t, "PTO, kW", d.PTOPower.In(units.Kilowatts), 13, 16)
	about(t, "PTO, hp", d.PTOPower.In(units.MechanicalHorsepowers), 19)

	thin := must(caneDrive(0.75*units.Inch).ForFlow(caneHose(), q))
	about(t, "3/4 in hose, bar", thin.PumpPressure.In(units.Bars), 99)
	about(t, "3/4 in hose, kW", thin.PTOPower.In(units.Kilowatts), 15.2)
	about(t, "3/4 in hose, more PTO power, kW", (thin.PTOPower - d.PTOPower).In(units.Kilowatts), 1.0)
	about(t, "3/4 in hose, more heat, kW", (thin.HeatToOil - d.HeatToOil).In(units.Kilowatts), 1.0)
	// At a Reynolds number of 2,700 the loss is that of turbulent flow.
	if d.Line.Regime != pumpsizing.Laminar || thin.Line.Regime == pumpsizing.Laminar {
		t.Errorf("oil is %v in the 1 in hose and %v in the 3/4 in one", d.Line.Regime, thin.Line.Regime)
	}
}

// 14.2 kW at the PTO are 16.1 kW of engine at 0.88; at 30 % of 35.9 MJ/L that is
// 5.3 L/h, and 5 to 7 are credible at so light a load, if the throttle is down.
func TestCaneBrakeFuel(t *testing.T) {
	pto := must(caneDrive(25.4*units.Millimetre).ForFlow(caneHose(), units.CubicMetresPerHour.Of(360))).PTOPower
	about(t, "PTO of 16.1 kW of engine, kW", must(pumpsizing.PTOFromEngine(16.1*units.Kilowatt, 0.88)).In(units.Kilowatts), pto.In(units.Kilowatts))
	about(t, "engine efficiency at 5.3 L/h", must(pumpsizing.FuelEfficiency(pto/0.88, units.LitresPerHour.Of(5.3), pumpsizing.DieselHeatPerLitre)), 0.30)
	for _, throttle := range []float64{0.6, 0.65} {
		within(t, "diesel with the throttle down, L/h", must(pumpsizing.TractorFuel(float64(pto/(60*units.Kilowatt)), throttle, 60*units.Kilowatt)).In(units.LitresPerHour), 5, 7)
	}
}

// Water and fish at 360 m3/h, 1 kg a litre: the mass flow times the share of
// fish, and a tank of 9 t over that.
func TestCaneBrakeFishRate(t *testing.T) {
	for _, c := range []struct{ share, rate, minutes float64 }{{0.04, 240, 37}, {0.08, 480, 19}, {0.12, 720, 12}} {
		water := must(pumpsizing.WaterPerAnimals(c.share))
		mix := units.CubicMetresPerHour.Of(360).Mass(1000 * units.KilogramPerCubicMetre)
		rate := mix / units.MassFlow(1+water)
		about(t, "fish, kg/min", rate.In(units.KilogramsPerMinute), c.rate)
		about(t, "9 t loaded, min", must((9 * units.Tonne).At(rate)).Minutes(), c.minutes)
	}
}

// Loads by division; water left by displacement at 1 kg/L.
func TestCaneBrakeTanks(t *testing.T) {
	tank, crop := transport.Tank{Volume: 11 * units.CubicMetre}, caneCrop()
	for _, c := range []struct {
		name string
		crop units.Mass
		each float64
		load float64
	}{{"median", crop.P50, 7.33, 0.67}, {"P90", crop.P90, 8.7, 0.79}} {
		l := must(tank.Load(c.crop/3, 0))
		about(t, c.name+" load, t", l.Product.In(units.Tonnes), c.each)
		about(t, c.name+" load, kg/L of tank", l.PerTank.In(units.KilogramsPerLitreTank), c.load)
		within(t, c.name+" load in the short-haul practice, kg/L", l.PerTank.In(units.KilogramsPerLitreTank), 0.5, 1.0)
	}
	each := must(tank.Product(transport.LoadDensity{PerTank: 0.85 * units.KilogramPerLitreTank}, 0))
	about(t, "three trucks at 0.85 kg/L, t", 3*each.In(units.Tonnes), 28)
	for _, m := range []units.Mass{crop.P50, crop.P90} {
		if n := must(transport.Trips(m, each)); n != 3 {
			t.Errorf("%v goes in %d loads, not three", m, n)
		}
	}
	full := must(tank.Load(9*units.Tonne, 0))
	about(t, "water beside 9 t, m3", full.Water.CubicMetres(), 2.0)
	about(t, "9 t, kg/L of water", full.PerWater.In(units.KilogramsPerLitreWater), 4.5)
	noticed(t, full.Notices, transport.CodeLoadBasis)
	noticed(t, full.Notices, transport.CodeLoadHigh)
}

// Mixed tank: demand over volume, from 5 down to 2 mg/L with no inflow;
// saturation of fresh water at 22 °C.
func TestCaneBrakeBasin(t *testing.T) {
	o := must(drawdown.OxygenBudget{Volume: 150 * units.CubicMetre, Stock: 5 * units.Tonne,
		Respiration: 250 * units.MilligramPerKilogramHour,
		Start:       5 * units.MilligramPerLitre, Limit: 2 * units.MilligramPerLitre,
		Inflow: units.CubicMetresPerHour.Of(75), InflowOxygen: 5 * units.MilligramPerLitre,
		Temperature: units.Celsius(22)}.Outlook())
	about(t, "demand, mg/L in an hour", o.AnimalDemand.Times(time.Hour).Concentration(150*units.CubicMetre).In(units.MilligramsPerLitre), 8.3)
	within(t, "5 to 2 mg/L, min", o.Unsupplied.Minutes(), 15, 30)
	about(t, "5 to 2 mg/L, min", o.Unsupplied.Minutes(), 22)
	about(t, "saturation, mg/L", o.Saturation.In(units.MilligramsPerLitre), 8.74)

	// Three refills at the well's 75 m3/h and pump-outs at 360 m3/h; refilling
	// binds, and 360 m3/h borrowed from the next pond shorten it to 2.5 h.
	f := drawdown.FlushCycles{Basin: 150 * units.CubicMetre, Refill: units.CubicMetresPerHour.Of(75), PumpOut: units.CubicMetresPerHour.Of(360), Removal: 0.7}
	p := must(f.Plan(500*units.Kilogram, 3))
	about(t, "three flushes, h", p.Time.Hours(), 7.2)
	noticed(t, p.Notices, drawdown.CodeFlushRefill)
	f.Refill = f.PumpOut
	within(t, "three flushes with borrowed water, h", must(f.Plan(500*units.Kilogram, 3)).Time.Hours(), 2.49, 2.51)
}
