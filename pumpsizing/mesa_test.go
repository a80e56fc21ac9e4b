package pumpsizing

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// The invented mountain pond Mesa Tarn: electric fish pump on a generator at
// 1950 m, 260 m3/h to a table 4.2 m above the basin.
func mesaDrive() ElectricDriveData {
	return ElectricDriveData{
		Pump: PumpData{
			Curve:      CurveData{Speed: rpm(725), Points: points(0, 10.5, 100, 9.6, 200, 8, 300, 5.6, 380, 3.2)},
			Efficiency: EfficiencyData{Best: 0.56, BestFlow: units.CubicMetresPerHour.Of(260)},
		},
		WaterDensity:  998 * units.KilogramPerCubicMetre,
		Motor:         ElectricMotor{Rating: 11 * units.Kilowatt, Efficiency: 0.90, PowerFactor: 0.85, Voltage: 400 * units.Volt},
		Converter:     0.96,
		Cable:         &Cable{Section: 6 * units.SquareMillimetre, Length: 70 * units.Metre, Temperature: units.Celsius(70)},
		CableToMotor:  true,
		Generator:     &Generator{Apparent: 30 * units.KilovoltAmpere, Active: 24 * units.Kilowatt, Share: 0.85},
		MotorAltitude: 1950 * units.Metre,
	}
}

func mesaSystem() hose { return hose{4.2, 0.254, 20, 0.0003, 2.2, 1e-6} }

var flow260 = units.CubicMetresPerHour.Of(260)

func TestChainElectricTable(t *testing.T) {
	e, err := NewElectricDrive(mesaDrive())
	if err != nil {
		t.Fatal(err)
	}
	x, err := e.ForFlow(mesaSystem(), flow260)
	if err != nil {
		t.Fatal(err)
	}
	air, err := AtmosphericPressure(1950*units.Metre, RoundedPowerLaw)
	if err != nil {
		t.Fatal(err)
	}
	suction := hose{0, 0.254, 5, 0.0003, 1.2, 1e-6}
	check.Run(t, "testdata/chain_electric.csv", checks{
		"AtmosphericPressure": func(r check.Row) (float64, error) {
			r.Text("quantity")
			return air.PascalsAbsolute(), nil
		},
		"Suction.Available": func(r check.Row) (float64, error) {
			r.Text("quantity")
			h, err := Suction{Atmosphere: air, VapourPressure: 2488.1016 * units.PascalAbsolute, Density: 997.94958 * units.KilogramPerCubicMetre,
				Height: -1.8 * units.Metre, Loss: units.Length(suction.loss(flow260.CubicMetresPerSecond()))}.Available()
			return h.Metres(), err
		},
		"ElectricDrive.ForFlow": func(r check.Row) (float64, error) {
			return map[string]float64{
				"head m": x.Pump.Head.Metres(), "speed ratio": x.Pump.SpeedRatio, "speed r/min": x.Pump.Speed.In(units.RevolutionsPerMinute),
				"Hz": x.Frequency.Hertzes(), "shaft W": x.Pump.ShaftPower.Watts(), "input W": x.Input.Watts(),
				"motor A": x.MotorCurrent.Amperes(), "supply A": x.SupplyCurrent.Amperes(), "drop V": x.CableDrop.Volts(),
			}[r.Text("quantity")], nil
		},
	})
}

// Derived by hand: the motor keeps 1 - 9.5 % of 11 kW; with the 7.5 kW drain
// pump the set carries about 15.5 kW; both started on line dip it beyond 30 %,
// one after the other by converter they do not.
func TestMesaTarnOnTheGenerator(t *testing.T) {
	d := mesaDrive()
	drain := ElectricLoad{7.5 * units.Kilowatt, 400 * units.Volt, 0.89, 0.85}
	in, _ := drain.Input()
	va, _ := drain.Apparent()
	d.OtherLoads = []GeneratorLoad{{"drain pump", in, va, va * 7}}
	e, err := NewElectricDrive(d)
	if err != nil {
		t.Fatal(err)
	}
	x, err := e.ForFlow(mesaSystem(), flow260)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "motor available kW", x.MotorAvailable.In(units.Kilowatts), 9.9, 10.1)
	within(t, "shaft kW", x.Pump.ShaftPower.In(units.Kilowatts), 5.5, 6.6)
	within(t, "input kW", x.Input.In(units.Kilowatts), 6.3, 7.8)
	within(t, "generator kW", x.Generator.Active.In(units.Kilowatts), 14.5, 16)
	within(t, "cable drop share", x.CableDropShare, 0.009, 0.012)
	within(t, "energy kWh/m3", x.EnergyPerVolume, 0.024, 0.030)
	if x.Generator.WorstStart != "drain pump" {
		t.Errorf("worst start is %q", x.Generator.WorstStart)
	}
	mustNotice(t, x.Notices, CodeSafetyElectric)
	finiteNotices(t, x.Notices)

	line := d
	line.Converter = 0
	both, err := Generator{Apparent: 30 * units.KilovoltAmpere, Active: 24 * units.Kilowatt, Share: 0.85}.Carry(
		GeneratorLoad{"fish pump", 6.6 * units.Kilowatt, 7.7 * units.KilovoltAmpere, 54 * units.KilovoltAmpere},
		GeneratorLoad{"drain pump", in, va, va * 7})
	if err != nil {
		t.Fatal(err)
	}
	mustNotice(t, both.Notices, CodeStartDip)
	if !(both.AllAtOnce > both.WorstDip) {
		t.Errorf("all at once %g must dip more than one, %g", both.AllAtOnce, both.WorstDip)
	}

	// Without a converter only rated speed is there.
	fixed, err := NewElectricDrive(line)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := fixed.ForFlow(mesaSystem(), flow260); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("a motor on line cannot turn at 645 r/min: %v", err)
	}
	y, err := fixed.AtFrequency(mesaSystem(), 50*units.Hertz)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "flow at 50 Hz", y.Pump.Flow.In(units.CubicMetresPerHour), 300, 330)
	back, err := e.AtFrequency(mesaSystem(), x.Frequency)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "flow back", float64(back.Pump.Flow/flow260), 1-1e-9, 1+1e-9)
}

func TestElectricDataMarshals(t *testing.T) {
	b, err := json.Marshal(mesaDrive())
	if err != nil {
		t.Fatal(err)
	}
	var back ElectricDriveData
	if err := json.Unmarshal(b, &back); err != nil {
		t.Fatalf("%v in %s", err, b)
	}
	if diff := cmp.Diff(mesaDrive(), back, cmp.Comparer(func(a, b units.Temperature) bool { return a == b })); diff != "" {
		t.Error(diff)
	}
	e, err := NewElectricDrive(back)
	if err != nil {
		t.Fatal(err)
	}
	x, err := e.ForFlow(mesaSystem(), flow260)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(x); err != nil {
		t.Error(err)
	}
}

func TestElectricFaults(t *testing.T) {
	d := mesaDrive()
	d.Motor.PowerFactor = 85
	d.Motor.Efficiency = 0
	d.Motor.Voltage = 40000
	d.Cable.Section = 7 * units.SquareMillimetre
	d.Generator.Active = 40 * units.Kilowatt
	d.Converter = 96
	d.MotorAltitude = 60000
	err := d.Validate()
	for _, path := range []string{"motor.powerFactor", "motor.efficiency", "motor.voltage", "cable.section", "generator.active", "converter", "motorAltitude"} {
		if err == nil || !strings.Contains(err.Error(), path) {
			t.Errorf("the error does not name %s:\n%v", path, err)
		}
	}
	d = mesaDrive()
	d.Motor.Rating = 5 * units.Kilowatt
	d.Motor.Voltage = 230
	d.Cable.Section, d.Cable.Length = 1.5*units.SquareMillimetre, 150
	d.Generator = &Generator{Apparent: 8 * units.KilovoltAmpere, Active: 6 * units.Kilowatt}
	e, err := NewElectricDrive(d)
	if err != nil {
		t.Fatal(err)
	}
	x, err := e.ForFlow(mesaSystem(), flow260)
	if err != nil {
		t.Fatal(err)
	}
	for _, code := range []string{CodeMotorOverload, CodeVoltageDrop, CodeAssumed, CodeGeneratorLoad} {
		mustNotice(t, x.Notices, code)
	}
	y, err := e.AtFrequency(mesaSystem(), 60*units.Hertz)
	if err != nil && !errors.Is(err, units.ErrRange) {
		t.Fatal(err)
	}
	mustNotice(t, y.Notices, CodeOverspeed)
	if _, err := e.AtFrequency(mesaSystem(), units.Frequency(math.NaN())); !errors.Is(err, units.ErrDomain) {
		t.Errorf("%v", err)
	}
}
