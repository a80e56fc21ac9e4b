package hydraulics

import (
	"encoding/json"
	"errors"
	"maps"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pondwright.example/units"
)

// pipeFormulas are the scalar formulas of the pipe side, each of which returns
// one number and an error, or a value and an error.
var pipeFormulas = map[string]any{
	"Colebrook": Colebrook, "SwameeJain": SwameeJain, "Haaland": Haaland, "ZigrangSylvester": ZigrangSylvester, "Serghides": Serghides,
	"Churchill": Churchill, "LaminarFactor": LaminarFactor, "FrictionFactor": FrictionFactor, "HazenWilliams": HazenWilliams,
	"HazenWilliamsFor": HazenWilliamsFor, "PipeVelocity": PipeVelocity, "Reynolds": Reynolds, "FullyRoughFactor": FullyRoughFactor, "CurvedFactor": CurvedFactor,
	"Pipe.HeadLoss": Pipe.HeadLoss, "Pipe.FlowFor": Pipe.FlowFor, "Pipe.LengthFor": Pipe.LengthFor, "Pipe.BoreFor": Pipe.BoreFor, "Pipe.RoughnessFor": Pipe.RoughnessFor,
	"WaterDensity": WaterDensity, "WaterViscosity": WaterViscosity, "WaterSpecificHeat": WaterSpecificHeat, "WaterVapourPressure": WaterVapourPressure,
	"WaterBulkModulus": WaterBulkModulus, "WaterSurfaceTension": WaterSurfaceTension, "SeaWater": SeaWater,
	"AirPressure": AirPressure, "StationPressure": StationPressure, "AltitudeOfPressure": AltitudeOfPressure,
	"ViscosityIndex": ViscosityIndex, "OilPressureFactor": OilPressureFactor, "OilGrade": OilGrade, "OilGradeLimits": OilGradeLimits,
	"Bend": Bend, "Mitre": Mitre, "Elbow": Elbow, "ReturnBend": ReturnBend, "SuddenExpansion": SuddenExpansion, "SuddenContraction": SuddenContraction,
	"ConicalExpansion": ConicalExpansion, "ConicalContraction": ConicalContraction, "RoundedEntrance": RoundedEntrance, "ValveKv": ValveKv, "Valve": Valve,
	"GateValve": GateValve, "ButterflyValve": ButterflyValve, "PlugValve": PlugValve, "ReducedGateValve": ReducedGateValve, "BarRack": BarRack, "WireScreen": WireScreen,
	"ScreenOnPipe": ScreenOnPipe, "TeeSpec.Converging": TeeSpec.Converging, "TeeSpec.Diverging": TeeSpec.Diverging, "Loss.OnBore": Loss.OnBore, "TwoK.Loss": TwoK.Loss,
	"SDRPipe": SDRPipe, "SteelTube": SteelTube, "Mixture.VolumeFraction": Mixture.VolumeFraction, "Mixture.Density": Mixture.Density, "MixtureOfFraction": MixtureOfFraction, "Mixture.Rising": Mixture.Rising,
	"HoldUp": HoldUp, "DragCoefficient": DragCoefficient, "TerminalSpeed": TerminalSpeed, "BodyOfMass": BodyOfMass, "DurandLimit": DurandLimit, "MinimumSpeed": MinimumSpeed,
	"ExtraFriction": ExtraFriction, "RestraintFactor": RestraintFactor, "WaveSpeed": WaveSpeed, "WaveSpeedOfHose": WaveSpeedOfHose, "BulkModulusWithGas": BulkModulusWithGas,
	"Joukowsky": Joukowsky, "ClosureSurge": ClosureSurge, "FilledHoseMass": FilledHoseMass, "FilledHoseWeight": FilledHoseWeight, "SupportSpan": SupportSpan, "HoseTension": HoseTension, "BendThrust": BendThrust,
	"JetReaction": JetReaction, "NewOil": NewOil, "NewSquareLine": NewSquareLine, "HoseSpec.Run": HoseSpec.Run,
}

const pipeJunkSeed = 41

// pipeJunk fills v with values that people and programs get wrong, and plain
// ones between.
func pipeJunk(v reflect.Value, rnd *rand.Rand) {
	junk := []float64{0, 1, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, 1e-300, 0.2, 0.5, 12, 1000, 1e-6, 1e5, 273}
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(junk[rnd.IntN(len(junk))])
	case reflect.Int, reflect.Int64:
		v.SetInt(int64(rnd.IntN(200) - 20))
	case reflect.Uint8:
		v.SetUint(uint64(rnd.IntN(8)))
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[units.Temperature]() {
			v.Set(reflect.ValueOf(units.KelvinScale(junk[rnd.IntN(len(junk))])))
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				pipeJunk(v.Field(i), rnd)
			}
		}
	}
}

// pipeFinite reports the first field of v that is NaN or infinite.
func pipeFinite(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return path
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if bad := pipeFinite(v.Field(i), path+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if bad := pipeFinite(v.Index(i), path+"[]"); bad != "" {
				return bad
			}
		}
	}
	return ""
}

func TestPipeFormulasRefuseJunk(t *testing.T) {
	for _, name := range slices.Sorted(maps.Keys(pipeFormulas)) {
		rnd := rand.New(rand.NewPCG(pipeJunkSeed, uint64(len(name))))
		fv := reflect.ValueOf(pipeFormulas[name])
		for range 3000 {
			var args []reflect.Value
			for i := range fv.Type().NumIn() {
				a := reflect.New(fv.Type().In(i)).Elem()
				pipeJunk(a, rnd)
				args = append(args, a)
			}
			out := fv.Call(args)
			err, _ := out[len(out)-1].Interface().(error)
			value := out[0]
			bad := pipeFinite(value, name)
			switch {
			case err == nil && bad != "":
				t.Fatalf("%s(%v) has %s = %v and no error", name, args, bad, value)
			case errors.Is(err, units.ErrDomain) && value.Kind() == reflect.Float64 && bad == "":
				t.Fatalf("%s(%v) = %v beside %v, want NaN", name, args, value, err)
			case err != nil && value.Kind() == reflect.Struct && bad != "":
				t.Fatalf("%s(%v) holds %s beside %v", name, args, bad, err)
			}
			var in *units.InputError
			if err != nil && (!errors.As(err, &in) || in.Error() == "") {
				t.Fatalf("%s(%v): error %v names no input", name, args, err)
			}
		}
	}
}

func TestFittingBandsAreInOrder(t *testing.T) {
	bore := 0.2 * units.Metre
	var all []Loss
	add := func(l Loss, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, l)
	}
	for deg := 5.0; deg <= 90; deg += 5 {
		add(Mitre(units.Degrees.Of(deg), bore))
		add(ConicalExpansion(0.1, bore, units.Degrees.Of(deg)))
		add(ConicalContraction(bore, 0.1, units.Degrees.Of(deg)))
		for r := 1.0; r <= 20; r++ {
			add(Bend(units.Degrees.Of(deg), r, bore))
		}
	}
	for k := GateValveOpen; k <= TeeBranch; k++ {
		add(Valve(k, bore))
	}
	for _, k := range TwoKFittings() {
		add(k.Loss(bore))
	}
	for x := 0.0; x <= 1; x += 0.05 {
		add(RoundedEntrance(x))
		add(SuddenExpansion(units.Length(0.2*max(x, 0.05)), bore))
		for m := CraneArea; m <= HooperArea; m++ {
			add(SuddenContraction(bore, units.Length(0.2*max(x, 0.05)), m))
		}
	}
	for _, name := range FittingNames() {
		add(NamedFitting(name))
	}
	for _, l := range all {
		if err := l.Validate(); err != nil {
			t.Errorf("%+v: %v", l, err)
		}
		if l.Source == "" {
			t.Errorf("%s names no source", l.Name)
		}
	}
	for i, w := range WallRoughnesses() {
		if !(w.Low > 0 && w.Low <= w.Typical && w.Typical <= w.High && w.Source != "") {
			t.Errorf("roughness %d: %+v", i, w)
		}
	}
}

func TestThrottledValvesLoseMoreWhenShut(t *testing.T) {
	last := 0.0
	for open := 1.0; open >= 0.125; open -= 0.01 {
		l, err := GateValve(open)
		if err != nil {
			t.Fatal(err)
		}
		if l.Coefficient < last {
			t.Errorf("gate %g open: K %g below %g", open, l.Coefficient, last)
		}
		last = l.Coefficient
	}
}

func TestLookupsListWhatTheyKnow(t *testing.T) {
	if w, err := LookupRoughness("Steel", ""); err != nil || w.Condition != "new" {
		t.Errorf("steel: %+v, %v", w, err)
	}
	if _, err := LookupRoughness("papyrus", ""); err == nil || !strings.Contains(err.Error(), "galvanised steel") {
		t.Errorf("papyrus: %v", err)
	}
	if _, err := LookupRoughness("steel", "shiny"); err == nil || !strings.Contains(err.Error(), "heavy rust") {
		t.Errorf("shiny steel: %v", err)
	}
}

func TestPipelineStateMarshals(t *testing.T) {
	line := pipeHarvestLine(t)
	s, err := line.At(0.06)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(b), `"turbulent"`) {
		t.Errorf("the regime is not a word: %s", b)
	}
	var back PipelineState
	if err := json.Unmarshal(b, &back); err != nil {
		t.Fatal(err)
	}
	if back.Head != s.Head || back.Runs[0].Regime != s.Runs[0].Regime {
		t.Errorf("head %v comes back as %v", s.Head, back.Head)
	}
}

// Single formulas allocate nothing while they have an answer.
func TestPipeFormulasAllocateNothing(t *testing.T) {
	oil, err := OilGrade(46, 0)
	if err != nil {
		t.Fatal(err)
	}
	water, err := FreshWater(units.Celsius(20))
	if err != nil {
		t.Fatal(err)
	}
	temp, bore := units.Celsius(20), 0.2*units.Metre
	m := Mixture{3, 1060, 1000}
	for name, f := range map[string]func() error{
		"Colebrook":      func() error { _, err := Colebrook(1e5, 1e-4); return err },
		"FrictionFactor": func() error { _, err := FrictionFactor(1e5, 1e-4); return err },
		"Churchill":      func() error { _, err := Churchill(1e5, 1e-4); return err },
		"HazenWilliams":  func() error { _, err := HazenWilliams(0.05, bore, 10, 140); return err },
		"PipeVelocity":   func() error { _, err := PipeVelocity(0.05, bore); return err },
		"Reynolds":       func() error { _, err := Reynolds(0.05, bore, 1e-6); return err },
		"WaterDensity":   func() error { _, err := WaterDensity(temp, 20); return err },
		"WaterViscosity": func() error { _, err := WaterViscosity(temp, 20); return err },
		"AirPressure":    func() error { _, err := AirPressure(500); return err },
		"Oil.Viscosity":  func() error { _, err := oil.Viscosity(temp); return err },
		"Mixture":        func() error { _, err := m.Density(); return err },
		"HoldUp":         func() error { _, err := HoldUp(1, 0.15, 0.2); return err },
		"Drag":           func() error { _, err := DragCoefficient(HaiderLevenspiel, 1e3, 0.7); return err },
		"TerminalSpeed":  func() error { _, err := TerminalSpeed(Body{0.03, 1070, 0.7}, water, HaiderLevenspiel); return err },
		"Joukowsky":      func() error { _, err := Joukowsky(water, 300, 2); return err },
		"BendThrust":     func() error { _, err := BendThrust(1, 5e4, 0.05, bore, 1000); return err },
	} {
		if n := testing.AllocsPerRun(50, func() {
			if err := f(); err != nil {
				t.Fatal(name, err)
			}
		}); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
}
