package pumpsizing

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"testing"

	"pondwright.example/units"
)

// scalars is every scalar function of the package with good arguments; bad
// replaces one argument at a time.
var scalars = map[string]struct {
	good []float64
	call func(a []float64) (float64, error)
}{
	"WaterPower": {[]float64{0.06, 4, 1000}, func(a []float64) (float64, error) {
		v, err := WaterPower(units.Flow(a[0]), units.Length(a[1]), units.Density(a[2]))
		return float64(v), err
	}},
	"ShaftPower": {[]float64{0.06, 4, 1000, 0.5}, func(a []float64) (float64, error) {
		v, err := ShaftPower(units.Flow(a[0]), units.Length(a[1]), units.Density(a[2]), a[3])
		return float64(v), err
	}},
	"ShaftTorque": {[]float64{5000, 60}, func(a []float64) (float64, error) {
		v, err := ShaftTorque(units.Power(a[0]), units.RotationalSpeed(a[1]))
		return float64(v), err
	}},
	"HeatToWater": {[]float64{5, 0.5, 4186}, func(a []float64) (float64, error) {
		v, err := HeatToWater(units.Length(a[0]), a[1], units.SpecificHeat(a[2]))
		return float64(v), err
	}},
	"PumpEfficiency": {[]float64{0.05, 2e5, 13500}, func(a []float64) (float64, error) {
		return PumpEfficiency(units.Flow(a[0]), units.Pressure(a[1]), units.Power(a[2]))
	}},
	"SpecificSpeed": {[]float64{60, 0.06, 9}, func(a []float64) (float64, error) {
		return SpecificSpeed(units.RotationalSpeed(a[0]), units.Flow(a[1]), units.Length(a[2]))
	}},
	"SpecificSpeedUS": {[]float64{60, 0.06, 9}, func(a []float64) (float64, error) {
		return SpecificSpeedUS(units.RotationalSpeed(a[0]), units.Flow(a[1]), units.Length(a[2]))
	}},
	"TypeNumber": {[]float64{60, 0.06, 9}, func(a []float64) (float64, error) {
		return TypeNumber(units.RotationalSpeed(a[0]), units.Flow(a[1]), units.Length(a[2]))
	}},
	"NPSHRFromSuction": {[]float64{60, 0.06, 8500}, func(a []float64) (float64, error) {
		v, err := NPSHRFromSuctionSpeed(units.RotationalSpeed(a[0]), units.Flow(a[1]), a[2])
		return float64(v), err
	}},
	"SteppedEfficiency": {[]float64{0.6, 1.2, 0.9}, func(a []float64) (float64, error) { return SteppedEfficiency(a[0], a[1], a[2], Moody1942) }},
	"Anderson": {[]float64{0.06, 60, 2000}, func(a []float64) (float64, error) {
		return EfficiencyAnderson1980(units.Flow(a[0]), units.RotationalSpeed(a[1]), a[2])
	}},
	"TrimForHead": {[]float64{0.3, 0.15, 12, 10}, func(a []float64) (float64, error) {
		v, err := TrimForHead(Impeller{units.Length(a[0]), units.Length(a[1])}, units.Length(a[2]), units.Length(a[3]))
		return float64(v), err
	}},
	"TotalHead": {[]float64{4, 0, 1, 1, 0.5, 1000}, func(a []float64) (float64, error) {
		v, err := TotalHead(HeadBalance{units.Length(a[0]), units.Pressure(a[1]), units.Velocity(a[2]), units.Velocity(a[3]), units.Length(a[4])}, units.Density(a[5]))
		return float64(v), err
	}},
	"Atmospheric": {[]float64{1500}, func(a []float64) (float64, error) {
		v, err := AtmosphericPressure(units.Length(a[0]), StandardAtmosphere1976)
		return float64(v), err
	}},
	"Suction": {[]float64{1e5, 2300, 998, -2, 0.3}, func(a []float64) (float64, error) {
		v, err := Suction{units.AbsolutePressure(a[0]), units.AbsolutePressure(a[1]), units.Density(a[2]), units.Length(a[3]), units.Length(a[4])}.Available()
		return float64(v), err
	}},
	"MaximumLift": {[]float64{1e5, 2300, 998, 0.3, 3, 1.1}, func(a []float64) (float64, error) {
		v, err := Suction{units.AbsolutePressure(a[0]), units.AbsolutePressure(a[1]), units.Density(a[2]), 0, units.Length(a[3])}.MaximumLift(units.Length(a[4]), a[5])
		return float64(v), err
	}},
	"Motor.Speed": {[]float64{8e-5, 0.92, 0.88, 7e-4}, func(a []float64) (float64, error) {
		v, err := HydraulicMotor{units.Displacement(a[0]), a[1], a[2]}.Speed(units.Flow(a[3]))
		return float64(v), err
	}},
	"Motor.Pressure": {[]float64{8e-5, 0.92, 0.88, 80}, func(a []float64) (float64, error) {
		v, err := HydraulicMotor{units.Displacement(a[0]), a[1], a[2]}.Pressure(units.Torque(a[3]))
		return float64(v), err
	}},
	"OilPump.Power": {[]float64{0.85, 7e-4, 8e6}, func(a []float64) (float64, error) {
		v, err := OilPump{Overall: a[0]}.Power(units.Flow(a[1]), units.Pressure(a[2]))
		return float64(v), err
	}},
	"BoreForVelocity": {[]float64{7e-4, 3}, func(a []float64) (float64, error) {
		v, err := BoreForVelocity(units.Flow(a[0]), units.Velocity(a[1]))
		return float64(v), err
	}},
	"ValveRating": {[]float64{1e-3, 5e5, 7e-4, 1}, func(a []float64) (float64, error) {
		v, err := ValveRating{units.Flow(a[0]), units.Pressure(a[1])}.DropAt(units.Flow(a[2]), a[3])
		return float64(v), err
	}},
	"Relief.FreeShare": {[]float64{17.5e6, 8e6}, func(a []float64) (float64, error) {
		return Relief{Set: units.GaugePressure(a[0])}.FreeShare(units.GaugePressure(a[1]))
	}},
	"Relief.Heat": {[]float64{17.5e6, 7e-4}, func(a []float64) (float64, error) {
		v, err := Relief{Set: units.GaugePressure(a[0])}.Heat(units.Flow(a[1]))
		return float64(v), err
	}},
	"FlowControl": {[]float64{1e-3, 7e-4, 9e6}, func(a []float64) (float64, error) {
		v, err := FlowControl{units.Flow(a[0]), units.Flow(a[1]), units.Pressure(a[2])}.BypassHeat()
		return float64(v), err
	}},
	"Throttle": {[]float64{1e-3, 7e-4, 9e6, 17.5e6}, func(a []float64) (float64, error) {
		v, err := FlowControl{units.Flow(a[0]), units.Flow(a[1]), units.Pressure(a[2])}.ThrottleHeat(Relief{Set: units.GaugePressure(a[3])})
		return float64(v), err
	}},
	"Cooler": {[]float64{60, 45, 30, 30, 65, 2500}, func(a []float64) (float64, error) {
		v, err := Reservoir{Oil: units.Mass(a[0]), Loss: units.ThermalConductance(a[1]), Ambient: units.Celsius(a[2]), Start: units.Celsius(a[3]), Limit: units.Celsius(a[4])}.CoolerConductance(units.Power(a[5]))
		return float64(v), err
	}},
	"TorqueLimit": {[]float64{56, 6e4}, func(a []float64) (float64, error) {
		v, err := PTOShaft{Speed: units.RotationalSpeed(a[0]), Limit: units.Power(a[1])}.TorqueLimit()
		return float64(v), err
	}},
	"PTORatio": {[]float64{200, 56}, func(a []float64) (float64, error) {
		return PTORatio(units.RotationalSpeed(a[0]), units.RotationalSpeed(a[1]))
	}},
	"PTOFromEngine": {[]float64{9e4}, func(a []float64) (float64, error) {
		v, err := PTOFromEngine(units.Power(a[0]), 0.86)
		return float64(v), err
	}},
	"TractorFuel": {[]float64{0.5, 0.8, 5e4}, func(a []float64) (float64, error) {
		v, err := TractorFuel(a[0], a[1], units.Power(a[2]))
		return float64(v), err
	}},
	"SpecificFuel": {[]float64{0.5}, func(a []float64) (float64, error) { return SpecificTractorFuel(a[0]) }},
	"AverageFuel": {[]float64{5e4}, func(a []float64) (float64, error) {
		v, err := AverageTractorFuel(units.Power(a[0]))
		return float64(v), err
	}},
	"FuelEfficiency": {[]float64{5e3, 2e-6, 36e6}, func(a []float64) (float64, error) {
		return FuelEfficiency(units.Power(a[0]), units.Flow(a[1]), units.Energy(a[2]))
	}},
	"Derate": {[]float64{8e4, 300}, func(a []float64) (float64, error) {
		d, err := DerateISO3046(units.AbsolutePressure(a[0]), units.KelvinScale(a[1]), Turbocharged)
		if errors.Is(err, units.ErrDomain) { // a struct, empty beside an error
			return math.NaN(), err
		}
		return d.Brake, err
	}},
	"DerateBySteps": {[]float64{1500, 0, 300, 0.035}, func(a []float64) (float64, error) {
		return DerateBySteps(units.Length(a[0]), units.Length(a[1]), units.Length(a[2]), a[3])
	}},
	"DerateByHeat": {[]float64{45, 40, 5, 0.03}, func(a []float64) (float64, error) {
		return DerateByHeat(units.Celsius(a[0]), units.Celsius(a[1]), units.TempDelta(a[2]), a[3])
	}},
	"MotorEfficiency": {[]float64{7500}, func(a []float64) (float64, error) { return MotorEfficiency(IE3, 4, units.Power(a[0])) }},
	"NEMA":            {[]float64{7456.998715822702}, func(a []float64) (float64, error) { return NEMAPremiumEfficiency(units.Power(a[0]), true) }},
	"NextMotorSize": {[]float64{7500}, func(a []float64) (float64, error) {
		v, err := NextMotorSize(units.Power(a[0]), LadderIEC)
		return float64(v), err
	}},
	"MotorSpeed": {[]float64{50, 0.03}, func(a []float64) (float64, error) {
		v, err := MotorSpeed(units.Frequency(a[0]), 4, a[1])
		return float64(v), err
	}},
	"PartLoadShare": {[]float64{7500, 0.5}, func(a []float64) (float64, error) { return PartLoadShare(units.Power(a[0]), a[1]) }},
	"Converter":     {[]float64{7500, 0.5}, func(a []float64) (float64, error) { return ConverterEfficiency(units.Power(a[0]), a[1]) }},
	"ElectricLoad": {[]float64{7500, 400, 0.9, 0.85}, func(a []float64) (float64, error) {
		v, err := ElectricLoad{units.Power(a[0]), units.ElectricPotential(a[1]), a[2], a[3]}.Current()
		return float64(v), err
	}},
	"AltitudeShare": {[]float64{1500}, func(a []float64) (float64, error) { return MotorAltitudeShare(units.Length(a[0])) }},
	"Cable": {[]float64{80, 14, 0.85, 70}, func(a []float64) (float64, error) {
		v, err := Cable{Section: 6 * units.SquareMillimetre, Length: units.Length(a[0]), Temperature: units.Celsius(a[3])}.ThreePhaseDrop(units.Current(a[1]), a[2])
		return float64(v), err
	}},
	"WarmResistance": {[]float64{0.003, 70}, func(a []float64) (float64, error) {
		v, err := WarmResistance(units.ResistancePerLength(a[0]), Aluminium, units.Celsius(a[1]))
		return float64(v), err
	}},
	"Dip": {[]float64{5e4, 4e4, 3e4}, func(a []float64) (float64, error) {
		return Generator{Apparent: units.ApparentPower(a[0]), Active: units.Power(a[1])}.Dip(units.ApparentPower(a[2]))
	}},
	"GeneratorForDip": {[]float64{3e4, 0.2}, func(a []float64) (float64, error) {
		v, err := GeneratorForDip(units.ApparentPower(a[0]), a[1], 0)
		return float64(v), err
	}},
	"TipSpeed": {[]float64{0.3, 60}, func(a []float64) (float64, error) {
		v, err := TipSpeed(units.Length(a[0]), units.RotationalSpeed(a[1]))
		return float64(v), err
	}},
	"SpeedForTip": {[]float64{0.3, 6}, func(a []float64) (float64, error) {
		v, err := SpeedForTip(units.Length(a[0]), units.Velocity(a[1]))
		return float64(v), err
	}},
	"MutilationRatio": {[]float64{0.2}, func(a []float64) (float64, error) { return MutilationRatio(units.Length(a[0])) }},
	"PressureRatio": {[]float64{1.1e5, 7e4}, func(a []float64) (float64, error) {
		return PressureRatio(units.AbsolutePressure(a[0]), units.AbsolutePressure(a[1]))
	}},
	"LiftEnergy": {[]float64{1000, 4, 0.5}, func(a []float64) (float64, error) {
		v, err := LiftEnergy(units.Mass(a[0]), units.Length(a[1]), a[2])
		return float64(v), err
	}},
	"WaterPerAnimals": {[]float64{0.1}, func(a []float64) (float64, error) { return WaterPerAnimals(a[0]) }},
}

// Beside ErrDomain the value is not a number, and NaN or an infinity in any
// argument is ErrDomain that names an argument.
func TestScalarsRefuseWhatIsNotANumber(t *testing.T) {
	for name, f := range scalars {
		v, err := f.call(f.good)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s with good arguments: %g, %v", name, v, err)
		}
		for i := range f.good {
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				args := append([]float64(nil), f.good...)
				args[i] = bad
				v, err := f.call(args)
				var in *units.InputError
				if !errors.Is(err, units.ErrDomain) || !errors.As(err, &in) || in.Field == "" || in.Func == "" || !math.IsNaN(v) {
					t.Errorf("%s with %g as argument %d: %g, %v", name, bad, i, v, err)
				}
			}
		}
		// Huge and tiny arguments: an error, or a finite answer.
		for i := range f.good {
			for _, far := range []float64{math.MaxFloat64, math.SmallestNonzeroFloat64, -math.MaxFloat64} {
				args := append([]float64(nil), f.good...)
				args[i] = far
				v, err := f.call(args)
				if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
					t.Errorf("%s with %g as argument %d: %g without an error", name, far, i, v)
				}
			}
		}
	}
}

func TestChoicesReadAndWriteWords(t *testing.T) {
	for what, c := range map[string]interface {
		MarshalText() ([]byte, error)
		String() string
	}{"fit": MonotoneCubic, "regime": Turbulent, "basis": EnginePower, "aspiration": Turbocharged, "verdict": VerdictClose, "conductor": Aluminium, "starting": SoftStart} {
		b, err := c.MarshalText()
		if err != nil || string(b) != c.String() {
			t.Errorf("%s: %q, %v", what, b, err)
		}
	}
	var in struct {
		Fit        Fit
		Basis      PowerBasis
		Aspiration Aspiration
		Conductor  Conductor
		Starting   Starting
		Regime     Regime
		Verdict    Verdict
	}
	text := `{"Fit":"power law","Basis":"PTO power","Aspiration":"turbocharged","Conductor":"flexible copper","Starting":"star-delta","Regime":"laminar","Verdict":"beyond"}`
	if err := json.Unmarshal([]byte(text), &in); err != nil || in.Fit != PowerLaw || in.Basis != PTOPower || in.Starting != StarDelta || in.Verdict != VerdictBeyond {
		t.Errorf("%+v, %v", in, err)
	}
	if err := json.Unmarshal([]byte(`{"Basis":"horses"}`), &in); err == nil {
		t.Error("an unknown word must be an error")
	}
	if _, err := Fit(99).MarshalText(); err == nil || Fit(99).String() != "Fit(99)" {
		t.Errorf("%v, %v", Fit(99), err)
	}
	if IE3.String() != "IE3" {
		t.Error(IE3.String())
	}
}

// Each notice has its situation.
func TestNoticesHaveTheirSituation(t *testing.T) {
	get := func(list []units.Notice, err error) []units.Notice {
		t.Helper()
		if err != nil && !errors.Is(err, units.ErrRange) {
			t.Error(err)
		}
		finiteNotices(t, list)
		return list
	}
	pump, err := NewPump(heronPump())
	if err != nil {
		t.Fatal(err)
	}
	operate := func(sys System, n float64) []units.Notice {
		d, err := pump.Operate(sys, rpm(n), 1018)
		return get(d.Notices, err)
	}
	mustNotice(t, operate(QuadraticSystem{Static: 0.5, Resistance: 400}, 520), CodeRunOut)
	mustNotice(t, operate(QuadraticSystem{Static: 3.6, Resistance: 1500}, 520), CodePartLoad)
	mustNotice(t, operate(QuadraticSystem{Static: 0.2, Resistance: 600}, 250), CodeSpeedRatio)

	good := heronPump()
	good.Efficiency.Best = 0.95
	p, err := NewPump(good)
	if err != nil {
		t.Fatal(err)
	}
	d, err := p.ForFlow(heronSystem(), flow230, 1018)
	mustNotice(t, get(d.Notices, err), CodeEfficiencyHigh)

	held := heronPump().Curve
	held.Fit, held.Points = FallingQuadratic, points(0, 11, 72, 11.3, 144, 10.9, 216, 9.6, 288, 7.6)
	c, err := FitCurve(held)
	mustNotice(t, get(c.Notices(), err), CodeCurveHeld)

	s := Suction{Atmosphere: 80 * units.KilopascalAbsolute, VapourPressure: 2500, Density: 998, Height: -4, Loss: 0.5}
	n, err := s.NPSH()
	mustNotice(t, get(n.Notices, err), CodeSuctionPressure)
	n, err = s.Margin(3.2)
	mustNotice(t, get(n.Notices, err), CodeNPSH)
	n, err = Suction{Atmosphere: 1e5, VapourPressure: 2500, Density: 998, Height: 1}.Margin(4)
	if err != nil || len(n.Notices) != 0 {
		t.Errorf("plenty of suction head: %v, %v", n.Notices, err)
	}

	line := OilLine{Bore: 12.7 * units.Millimetre, Length: 10}
	for _, c := range []struct {
		q, nu float64
		code  string
	}{{60, 32, CodeOilTransition}, {80, 5, CodeOilVelocity}, {10, 900, CodeOilCold}, {10, 6, CodeOilThin}} {
		x, err := line.Loss(units.LitresPerMinute.Of(c.q), OilState{units.Centistokes.Of(c.nu), 870})
		mustNotice(t, get(x.Notices, err), c.code)
	}

	data := heronDrive()
	data.Tractor.Power = 8 * units.Kilowatt
	data.Reservoir.Oil = 20
	data.OilPump = OilPump{Displacement: 45 * units.CubicCentimetrePerRevolution, Volumetric: 0.93, Hydromechanical: 0.9}
	data.StepUp = 12
	h, err := NewHydraulicDrive(data)
	if err != nil {
		t.Fatal(err)
	}
	x, err := h.ForFlow(heronSystem(), flow230)
	list := get(x.Notices, err)
	for _, code := range []string{CodePTOOverload, CodePTOSpeed, CodeFuelRange, CodeReservoirSmall} {
		mustNotice(t, list, code)
	}
	if x.Feasible {
		t.Error("an overloaded tractor is not feasible")
	}
	mustNotice(t, list, CodeAssumed)
	data = heronDrive()
	data.Tractor.Power = 9.5 * units.Kilowatt
	data.Tractor.Shaft = PTOShaft{Name: "small", Speed: rpm(540), Limit: 5 * units.Kilowatt}
	data.OilPump = OilPump{Displacement: 45 * units.CubicCentimetrePerRevolution, Volumetric: 0.93, Hydromechanical: 0.9}
	data.StepUp = 2.2
	if h, err = NewHydraulicDrive(data); err != nil {
		t.Fatal(err)
	}
	x, err = h.ForFlow(heronSystem(), flow230)
	list = get(x.Notices, err)
	mustNotice(t, list, CodePTOTorque)
	mustNotice(t, list, CodePTOOverload)
}

// Yardsticks agree with what their source's units say: 14.7 hp h per US gallon
// is 2.895798 kWh per litre, 1.18 hp h per kWh an efficiency of 0.8799258485.
func TestYardsticks(t *testing.T) {
	for _, y := range Yardsticks() {
		kwh := y.PerUnit.In(units.KilowattHours)
		switch y.Fuel {
		case "diesel":
			within(t, y.Fuel, kwh/units.USGallon.CubicMetres()/1000, 2.895798-1e-6, 2.895798+1e-6)
		case "electricity":
			within(t, y.Fuel, kwh, 0.8799258485-1e-9, 0.8799258485+1e-9)
		case "petrol":
			within(t, y.Fuel, kwh, 11.3*0.745699-1e-4, 11.3*0.7457+1e-4)
		case "propane":
			within(t, y.Fuel, kwh, 8.92*0.745699-1e-4, 8.92*0.7457+1e-4)
		default:
			t.Error(fmt.Sprint("unexpected ", y.Fuel))
		}
	}
}
