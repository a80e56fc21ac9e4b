package scenarios_test

import (
	"math"
	"testing"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

const flapped = hydraulics.BackflowFlap

// structures are one of each kind, each passing water between 0.3 and 1.2 m.
func structures() map[string]drawdown.Outlet {
	air, vapour := must(hydraulics.AirPressure(0)), must(hydraulics.WaterVapourPressure(units.Celsius(22), 0))
	orifice := must(hydraulics.NewOrifice(hydraulics.OrificeSpec{Invert: 0.1 * units.Metre, Diameter: 0.5 * units.Metre,
		Coefficient: hydraulics.SharpOrifice, Backflow: flapped}))
	pipe := caneDrains(1, 3.4)
	boards := must(hydraulics.NewStoplogBay(hydraulics.StoplogBaySpec{Boards: []units.Length{0.15 * units.Metre, 0.1 * units.Metre},
		Width: 0.8 * units.Metre, ChannelWidth: 0.8 * units.Metre, Thickness: 50 * units.Millimetre, Leakage: 0.1 * units.LitrePerSecond, Backflow: flapped}))
	return map[string]drawdown.Outlet{
		"outlet pipe": pipe,
		"orifice":     orifice,
		"rectangular weir": must(hydraulics.NewRectangularWeir(hydraulics.RectangularWeirSpec{Crest: 0.2 * units.Metre,
			Width: 0.6 * units.Metre, ChannelWidth: 1.2 * units.Metre, CrestHeight: 0.5 * units.Metre, Backflow: flapped})),
		"V-notch": must(hydraulics.NewVNotchWeir(hydraulics.VNotchWeirSpec{Vertex: 0.2 * units.Metre, Angle: 90 * units.Degree,
			ChannelWidth: 3 * units.Metre, VertexHeight: 0.5 * units.Metre, Backflow: flapped})),
		"broad crest": must(hydraulics.NewBroadCrest(hydraulics.BroadCrestSpec{Crest: 0.2 * units.Metre, Width: 2 * units.Metre,
			Length: 1 * units.Metre, CrestHeight: 0.5 * units.Metre, Backflow: flapped})),
		"stoplogs":               boards,
		"pipe behind boards":     must(hydraulics.NewStructuresInSeries(boards, pipe)),
		"pipe beside the boards": must(hydraulics.NewStructuresInParallel(boards, pipe)),
		"sluice gate":            must(hydraulics.NewSluiceGate(hydraulics.SluiceGateSpec{Width: 1 * units.Metre, Opening: 0.1 * units.Metre, Backflow: flapped})),
		"culvert": must(hydraulics.NewCulvert(hydraulics.CulvertSpec{Diameter: 0.6 * units.Metre, Length: 12 * units.Metre, Fall: 0.1 * units.Metre,
			ManningN: 0.012, Inlet: hydraulics.ConcreteSquareHeadwall, Backflow: flapped})),
		"riser": must(hydraulics.NewRiser(hydraulics.RiserSpec{Crest: 0.2 * units.Metre, Diameter: 0.45 * units.Metre, WeirCoefficient: 1.84,
			OrificeCoefficient: 0.6, PipeDiameter: 0.3 * units.Metre, PipeLength: 15 * units.Metre, ManningN: 0.011, LossSum: 2.1,
			OutletCentre: -1.2 * units.Metre, Backflow: flapped})),
		"siphon": must(hydraulics.NewSiphon(hydraulics.SiphonSpec{Bore: 0.15 * units.Metre, Length: 20 * units.Metre, Roughness: 0.1 * units.Millimetre,
			LossSum: 2.5, UpLength: 8 * units.Metre, UpLossSum: 1, Intake: 0.2 * units.Metre, Crest: 2 * units.Metre, OutletCentre: -1 * units.Metre,
			Atmosphere: air, VapourPressure: vapour, Density: caneWater.Density, Viscosity: caneWater.KinematicViscosity()})),
		"rated outlet": must(hydraulics.NewRatedOutlet(must(hydraulics.NewRating(orifice, -10, 0.1*units.Metre, 1.3*units.Metre, 60)).Points)),
	}
}

// tank is a pond with upright walls, 1000 m2.
var tank = must(drawdown.NewStageTable([]drawdown.StageArea{
	{Stage: 0, Area: 1000 * units.SquareMetre}, {Stage: 1.3 * units.Metre, Area: 1000 * units.SquareMetre}}))

func emptied(o drawdown.Outlet, tail drawdown.Tailwater) drawdown.Result {
	return must(drawdown.Plan{Pond: tank, Start: morning, Stage: 1.2 * units.Metre, Target: 0.3 * units.Metre, Tailwater: tail,
		Gates: []drawdown.Gate{{Outlet: o, Backflow: drawdown.FlapGate}}}.Run())
}

// A tank with upright walls falls from 1.2 to 0.3 m in the time that A dh/Q adds
// up to, whatever lets the water out, free or drowned to 0.25 m: the sum by the
// midpoint rule in steps of 0.1 mm. The kinks an outlet tells change nothing but
// the number of steps.
func TestStructuresEmptyATank(t *testing.T) {
	for name, o := range structures() {
		for _, tail := range []units.Length{-10 * units.Metre, 0.25 * units.Metre} {
			const steps = 9000
			sum := 0.0
			for i := range steps {
				h := 0.3*units.Metre + 0.9*units.Metre*units.Length(float64(i)+0.5)/steps
				sum += 1000 * 0.9 / steps / o.Discharge(h, tail).CubicMetresPerSecond()
			}
			r := emptied(o, drawdown.ConstantTailwater(tail))
			near(t, name+", s", r.Elapsed.Seconds(), sum, 2e-5)
			plain := emptied(drawdown.OutletFunc(o.Discharge), drawdown.ConstantTailwater(tail))
			near(t, name+" without its kinks, s", plain.Elapsed.Seconds(), sum, 2e-5)
			near(t, name+", m3 out", r.Balance.GatesOut.CubicMetres(), 900, 1e-9)
			noticed(t, plain.Notices, drawdown.CodePlainOutlet)
		}
	}
}

// What an outlet must promise a pond: nothing below its sill, nothing negative,
// finite everywhere, more from a higher pond, never more against a higher
// tailwater, and as many kinks at one tailwater as at another.
func TestStructuresKeepTheOutletPromises(t *testing.T) {
	for name, o := range structures() {
		k, kinked := o.(drawdown.KinkedOutlet)
		count := -1
		for tail := -0.5 * units.Metre; tail < 1.2*units.Metre; tail += 0.05 * units.Metre {
			last := units.Flow(0)
			for level := max(tail, 0.25*units.Metre); level < 1.3*units.Metre; level += 0.01 * units.Metre {
				q := o.Discharge(level, tail)
				if !(q >= 0) || math.IsInf(float64(q), 0) {
					t.Fatalf("%s at %v over %v passes %v", name, level, tail, q)
				}
				if q < last*(1-1e-9) {
					t.Errorf("%s over %v: %v at %v is less than below", name, tail, q, level)
				}
				if free := o.Discharge(level, -10*units.Metre); q > free*(1+1e-9) {
					t.Errorf("%s at %v: %v over %v is more than the free %v", name, level, q, tail, free)
				}
				last = q
			}
			if kinked {
				n := len(k.Kinks(tail, nil))
				if count >= 0 && n != count {
					t.Errorf("%s tells %d kinks at %v, %d before", name, n, tail, count)
				}
				count = n
			}
		}
		if q := o.Discharge(-0.1*units.Metre, -10*units.Metre); q != 0 {
			t.Errorf("%s passes %v below its sill", name, q)
		}
	}
}

// Boards pulled one by one: each move of a gate hands the plan the bay with one
// board less, and the bay without boards empties the tank to its sill.
func TestBoardsPulledInTurn(t *testing.T) {
	bay := must(hydraulics.NewStoplogBay(hydraulics.StoplogBaySpec{Boards: []units.Length{0.3 * units.Metre, 0.3 * units.Metre, 0.3 * units.Metre},
		Width: 0.8 * units.Metre, ChannelWidth: 0.8 * units.Metre, Thickness: 50 * units.Millimetre, Backflow: flapped}))
	g := drawdown.Gate{Name: "monk", Outlet: bay, Moves: []drawdown.Move{{After: 0, Fraction: 1}}}
	for pulled := 1; pulled <= 3; pulled++ {
		g.Moves = append(g.Moves, drawdown.Move{After: time.Duration(pulled) * 40 * time.Minute, Outlet: must(bay.WithBoards(3 - pulled)), Fraction: 1})
	}
	r := must(drawdown.Plan{Pond: tank, Start: morning, Stage: 1.2 * units.Metre, Target: 0.05 * units.Metre, Gates: []drawdown.Gate{g}}.Run())
	if !r.Reached {
		t.Fatalf("not empty: %+v", r.Outcome)
	}
	for minutes, crest := range map[float64]float64{39: 0.9, 79: 0.6, 119: 0.3} {
		stage := r.Hydrograph.Stage(morning.Add(time.Duration(minutes * float64(time.Minute)))).Metres()
		if stage < crest {
			t.Errorf("after %g min the pond is at %.3f m, below the crest of %g m", minutes, stage, crest)
		}
	}
}
