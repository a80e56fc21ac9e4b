package hydraulics

import (
	"fmt"
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestPipeFittingsTable(t *testing.T) {
	bore := func(r check.Row) units.Length { return units.Length(r.Float("bore_m")) }
	bore2 := func(r check.Row) units.Length { return units.Length(r.Float("bore2_m")) }
	angle := func(r check.Row) units.Angle { return units.Degrees.Of(r.Float("angle_deg")) }
	ratio := func(r check.Row) float64 { return r.Float("ratio") }
	typical := func(l Loss, err error) (float64, error) { return l.Coefficient, err }
	// A row may ask for the multiplier of f_T instead of K.
	over := func(r check.Row, l Loss, err error) (float64, error) {
		if !r.Has("what") {
			return l.Coefficient, err
		}
		fT, errT := FullyRoughFactor(bore(r))
		if errT != nil {
			return math.NaN(), errT
		}
		switch r.Text("what") {
		case "over f_T":
			return l.Coefficient / fT, err
		case "crane over f_T": // the low end of the band
			return l.Low / fT, err
		}
		return math.NaN(), fmt.Errorf("what %q is not known", r.Text("what"))
	}
	methods := map[string]AreaChangeMethod{"crane": CraneArea, "white": WhiteArea, "rennels": RennelsArea, "hooper": HooperArea}
	valves := map[string]ValveKind{"gate": GateValveOpen, "globe": GlobeValveOpen, "angle": AngleValveOpen, "ball": BallValveOpen, "plug": PlugValveOpen,
		"butterfly": ButterflyValveOpen, "swing": SwingCheck, "poppet foot": PoppetFoot, "hinged foot": HingedFoot, "tee run": TeeRun, "tee branch": TeeBranch}
	tee := func(solve func(TeeSpec) (TeeLoss, error)) pipeRow {
		return func(r check.Row) (float64, error) {
			k, err := solve(TeeSpec{Branch: units.Flow(r.Float("branch_m3_s")), Combined: units.Flow(r.Float("combined_m3_s")),
				BranchBore: bore(r), RunBore: bore2(r), Angle: angle(r)})
			if r.Text("what") == "branch" {
				return k.Branch, err
			}
			return k.Run, err
		}
	}
	check.Run(t, "testdata/pipe_fittings.csv", map[string]pipeRow{
		"SuddenExpansion": func(r check.Row) (float64, error) { return typical(SuddenExpansion(bore(r), bore2(r))) },
		"SuddenContraction": func(r check.Row) (float64, error) {
			return typical(SuddenContraction(bore(r), bore2(r), methods[r.Text("what")]))
		},
		"ConicalExpansion":   func(r check.Row) (float64, error) { return typical(ConicalExpansion(bore(r), bore2(r), angle(r))) },
		"ConicalContraction": func(r check.Row) (float64, error) { return typical(ConicalContraction(bore(r), bore2(r), angle(r))) },
		"RoundedEntrance": func(r check.Row) (float64, error) {
			l, err := RoundedEntrance(ratio(r))
			if r.Has("what") { // by Rennels & Hudson: the high end
				return l.High, err
			}
			return l.Coefficient, err
		},
		"Entrance": func(r check.Row) (float64, error) {
			if r.Text("what") == "projecting" {
				return typical(Entrance(ProjectingEntrance))
			}
			return typical(Entrance(FlushEntrance))
		},
		"Exit": func(r check.Row) (float64, error) { return Exit().Coefficient, nil },
		"Bend": func(r check.Row) (float64, error) {
			l, err := Bend(angle(r), ratio(r), bore(r))
			return over(r, l, err)
		},
		"Mitre": func(r check.Row) (float64, error) {
			l, err := Mitre(angle(r), bore(r))
			return over(r, l, err)
		},
		"Elbow": func(r check.Row) (float64, error) {
			l, err := Elbow(angle(r), bore(r))
			return over(r, l, err)
		},
		"ReturnBend": func(r check.Row) (float64, error) {
			l, err := ReturnBend(bore(r))
			return over(r, l, err)
		},
		"FullyRoughFactor":          func(r check.Row) (float64, error) { return FullyRoughFactor(bore(r)) },
		"ValveKind.EquivalentBores": func(r check.Row) (float64, error) { return valves[r.Text("what")].EquivalentBores(bore(r)) },
		"ReducedGateValve":          func(r check.Row) (float64, error) { return typical(ReducedGateValve(bore(r), bore2(r), angle(r))) },
		"TeeSpec.Converging":        tee(TeeSpec.Converging),
		"TeeSpec.Diverging":         tee(TeeSpec.Diverging),
		"TwoK.Loss": func(r check.Row) (float64, error) {
			for _, k := range TwoKFittings() {
				if k.Name == r.Text("what") {
					l, err := k.Loss(bore(r))
					return l.Coefficient + l.Laminar/r.Float("reynolds"), err
				}
			}
			return math.NaN(), fmt.Errorf("no two-K fitting %q", r.Text("what"))
		},
		"BarRack": func(r check.Row) (float64, error) {
			return typical(BarRack(SharpBars, units.Length(ratio(r)), 1, angle(r), r.Float("blocked")))
		},
		"WireScreen":     func(r check.Row) (float64, error) { return typical(WireScreen(ratio(r), r.Float("blocked"))) },
		"ValveKv":        func(r check.Row) (float64, error) { return typical(ValveKv(r.Float("kv_m3_h"), bore(r))) },
		"GateValve":      func(r check.Row) (float64, error) { return typical(GateValve(ratio(r))) },
		"ButterflyValve": func(r check.Row) (float64, error) { return typical(ButterflyValve(angle(r))) },
		"PlugValve":      func(r check.Row) (float64, error) { return typical(PlugValve(angle(r))) },
		"ScreenOnPipe": func(r check.Row) (float64, error) {
			screen, err := WireScreen(0.5, 0) // 1.65
			if err != nil {
				return math.NaN(), err
			}
			return typical(ScreenOnPipe(screen, units.Area(ratio(r)), bore(r)))
		},
		"Loss.K": func(r check.Row) (float64, error) {
			elbow, err := NamedFitting("elbow")
			if r.Text("what") != "high of elbow" {
				return math.NaN(), fmt.Errorf("what %q is not known", r.Text("what"))
			}
			return elbow.K(TypicalLoss), err
		},
		"Loss.OnBore": func(r check.Row) (float64, error) {
			return typical(CustomLoss("k", ratio(r)).OnBore(bore(r), bore2(r)))
		},
	})
}
