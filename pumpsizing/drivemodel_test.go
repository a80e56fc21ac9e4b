package pumpsizing

import (
	"errors"
	"testing"

	"pondwright.example/units"
)

// modelled is the drive of Heron Flat with machines whose losses follow the
// duty.
func modelled(t *testing.T, cSt float64) HydraulicDrive {
	t.Helper()
	d := heronDrive()
	d.OilPump = OilPump{Displacement: 45 * units.CubicCentimetrePerRevolution, Volumetric: 0.93, Hydromechanical: 0.9}
	d.StepUp = 3
	d.Oil.Viscosity = units.Centistokes.Of(cSt)
	w := Wilson{Leakage: 6e-9, Viscous: 9300, Dry: 0.047, BulkModulus: 1.8e9, DeadVolume: 1.1}
	d.MotorModel, d.OilPumpModel = &w, &w
	h, err := NewHydraulicDrive(d)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

// The closed forms inside the chain agree with the loss model at the duty they
// give, the forward question returns the backward one's duty, and thin oil
// asks for a faster pump.
func TestDriveWithLossModels(t *testing.T) {
	var before units.RotationalSpeed
	for _, cSt := range []float64{46, 32, 20, 12, 8} {
		h := modelled(t, cSt)
		x, err := h.ForFlow(heronSystem(), flow230)
		if err != nil {
			t.Fatal(err)
		}
		duty := MachineDuty{x.MotorPressure, x.Pump.Speed, h.d.Oil.Viscosity, h.d.Oil.Density}
		v, m, err := h.d.MotorModel.Motor(duty)
		if err != nil {
			t.Fatal(err)
		}
		torque, err := HydraulicMotor{h.d.Motor.Displacement, v, m}.Torque(x.MotorPressure)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "motor torque", float64(torque/x.Pump.Torque), 1-1e-9, 1+1e-9)
		within(t, "motor efficiency", x.MotorEfficiency/(v*m), 1-1e-9, 1+1e-9)
		duty.Pressure, duty.Speed = x.PumpPressure, x.OilPumpSpeed
		if v, m, err = h.d.OilPumpModel.Pump(duty); err != nil {
			t.Fatal(err)
		}
		flow, err := OilPump{Displacement: h.d.OilPump.Displacement, Volumetric: v, Hydromechanical: m}.Flow(x.OilPumpSpeed)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "oil flow", float64(flow/x.OilFlow), 1-1e-9, 1+1e-9)
		if !(x.PTOSpeed > before) {
			t.Errorf("%g mm2/s: the PTO turns at %v after %v with thicker oil", cSt, x.PTOSpeed, before)
		}
		before = x.PTOSpeed
		back, err := h.FromPTO(heronSystem(), x.PTOSpeed)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "flow from the PTO", float64(back.Pump.Flow/x.Pump.Flow), 1-1e-7, 1+1e-7)
	}
	// At a third of the speed the impeller does not reach the lift.
	if _, err := modelled(t, 32).FromPTO(heronSystem(), before/3); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("%v", err)
	}
}

func TestLossModelFaults(t *testing.T) {
	d := heronDrive()
	d.MotorModel = &Wilson{Leakage: -1, BulkModulus: 1.8e9, Dry: 0.95}
	d.OilPumpModel = &Wilson{BulkModulus: 1.8e9}
	if err := d.Validate(); !errors.Is(err, units.ErrDomain) {
		t.Errorf("%v", err)
	}
	w := Wilson{Leakage: 6e-9, Viscous: 9300, Dry: 0.047, BulkModulus: 1.8e9, DeadVolume: 1.1}
	slow := MachineDuty{300 * units.Bar, rpm(5), 8 * units.Centistoke, 860}
	if _, _, err := w.Pump(slow); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("all flow leaks: %v", err)
	}
	if _, _, err := w.Motor(MachineDuty{1 * units.Bar, rpm(3000), 100 * units.Centistoke, 860}); !errors.Is(err, units.ErrNoSolution) {
		t.Errorf("friction takes all torque: %v", err)
	}
	if _, _, err := w.Motor(MachineDuty{0, rpm(3000), 100 * units.Centistoke, 860}); !errors.Is(err, units.ErrDomain) {
		t.Errorf("no pressure: %v", err)
	}
}
