package hydraulics

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// The check tables of the pipe side of the package. Columns become arguments
// here; the rows themselves are in testdata/pipe_*.csv.

type pipeRow = func(check.Row) (float64, error)

func pipeFluid(r check.Row) Fluid {
	rho := 1000.0
	if r.Has("rho_kg_m3") {
		rho = r.Float("rho_kg_m3")
	}
	return Fluid{Density: units.Density(rho), Viscosity: units.DynamicViscosity(rho * r.Float("nu_m2_s"))}
}

func pipeNumber(r check.Row, column string) float64 {
	if r.Has(column) {
		return r.Float(column)
	}
	return 0
}

func pipeOf(r check.Row) Pipe {
	return Pipe{Bore: units.Length(pipeNumber(r, "bore_m")), Length: units.Length(pipeNumber(r, "length_m")),
		Roughness: units.Length(pipeNumber(r, "roughness_m")), LossSum: pipeNumber(r, "loss_sum")}
}

func pipeLineOf(r check.Row) (Pipeline, error) {
	p := pipeOf(r)
	return NewPipeline(PipelineSpec{Fluid: pipeFluid(r), Gravity: units.Acceleration(pipeNumber(r, "g_m_s2")), Lift: units.Length(pipeNumber(r, "lift_m")),
		Runs: []PipeRun{{Bore: p.Bore, Length: p.Length, Roughness: p.Roughness, Fittings: []Loss{CustomLoss("k", p.LossSum)}}}})
}

func pipeFlowOf(r check.Row) units.Flow   { return units.Flow(r.Float("flow_m3_s")) }
func pipeHeadOf(r check.Row) units.Length { return units.Length(r.Float("head_m")) }

func TestPipeWaterTable(t *testing.T) {
	check.Run(t, "testdata/pipe_water.csv", map[string]pipeRow{
		"WaterDensity":        pipeWater(WaterDensity),
		"WaterViscosity":      pipeWater(WaterViscosity),
		"WaterSpecificHeat":   pipeWater(WaterSpecificHeat),
		"WaterVapourPressure": pipeWater(WaterVapourPressure),
		"WaterBulkModulus":    pipeWater(WaterBulkModulus),
		"WaterSurfaceTension": pipeWater(WaterSurfaceTension),
		"AirPressure": func(r check.Row) (float64, error) {
			v, err := AirPressure(units.Length(r.Float("altitude_m")))
			return v.PascalsAbsolute(), err
		},
		"AltitudeOfPressure": func(r check.Row) (float64, error) {
			v, err := AltitudeOfPressure(units.AbsolutePressure(r.Float("pressure_pa")))
			return v.Metres(), err
		},
		"StationPressure": func(r check.Row) (float64, error) {
			v, err := StationPressure(units.AbsolutePressure(r.Float("pressure_pa")), units.Length(r.Float("altitude_m")))
			return v.PascalsAbsolute(), err
		},
	})
}

func pipeWater[Q ~float64](f func(units.Temperature, units.PracticalSalinity) (Q, error)) pipeRow {
	return func(r check.Row) (float64, error) {
		v, err := f(units.Celsius(r.Float("t_c")), units.PracticalSalinity(r.Float("salinity")))
		return float64(v), err
	}
}

func TestPipeFrictionTable(t *testing.T) {
	of := func(f func(re, rel float64) (float64, error)) pipeRow {
		return func(r check.Row) (float64, error) { return f(r.Float("reynolds"), r.Float("relative_roughness")) }
	}
	check.Run(t, "testdata/pipe_friction.csv", map[string]pipeRow{
		"Colebrook": of(Colebrook), "SwameeJain": of(SwameeJain), "Haaland": of(Haaland), "Churchill": of(Churchill),
		"Serghides": of(Serghides), "ZigrangSylvester": of(ZigrangSylvester), "CurvedFactor": of(CurvedFactor),
		"LaminarFactor": func(r check.Row) (float64, error) { return LaminarFactor(r.Float("reynolds")) },
		"FrictionFactor": func(r check.Row) (float64, error) {
			f, err := FrictionFactor(r.Float("reynolds"), r.Float("relative_roughness"))
			if gap := r.Float("reynolds") > 2000 && r.Float("reynolds") < 4000; gap && errors.Is(err, units.ErrRange) {
				err = nil // the bridge is flagged and still has a value
			}
			return f, err
		},
	})
}

func TestPipeLossTable(t *testing.T) {
	pascals := func(r check.Row, f float64) float64 { // of the pipe, from a friction factor
		p := pipeOf(r)
		v := r.Float("flow_m3_s") / (math.Pi / 4 * p.Bore.Metres() * p.Bore.Metres())
		return f * p.Length.Metres() / p.Bore.Metres() * 1.23 * v * v / 2
	}
	check.Run(t, "testdata/pipe_loss.csv", map[string]pipeRow{
		"Pipeline.At": func(r check.Row) (float64, error) {
			line, err := pipeLineOf(r)
			if err != nil {
				return math.NaN(), err
			}
			s, err := line.At(pipeFlowOf(r))
			switch q := r.Text("quantity"); q {
			case "reynolds":
				return s.Runs[0].Reynolds, err
			case "darcy_f":
				return s.Runs[0].FrictionFactor, err
			case "velocity_m_s":
				return s.Runs[0].Velocity.MetresPerSecond(), err
			case "head_loss_m":
				return s.Head.Metres(), err
			case "dp_1.23":
				return pascals(r, s.Runs[0].FrictionFactor), err
			default:
				return math.NaN(), fmt.Errorf("quantity %q is not known", q)
			}
		},
		"LaminarFactor": func(r check.Row) (float64, error) {
			r.Text("quantity")
			r.Has("g_m_s2")
			re, err := Reynolds(pipeFlowOf(r), pipeOf(r).Bore, pipeFluid(r).KinematicViscosity())
			if err != nil {
				return math.NaN(), err
			}
			f, _ := LaminarFactor(re) // the example asks what laminar flow would lose
			return pascals(r, f), nil
		},
		"Pipeline.Head": func(r check.Row) (float64, error) {
			line, err := pipeLineOf(r)
			return line.Head(pipeFlowOf(r)).Metres(), err
		},
		"Pipeline.Flow": func(r check.Row) (float64, error) {
			line, err := pipeLineOf(r)
			return line.Flow(pipeHeadOf(r)).CubicMetresPerSecond(), err
		},
		"Pipe.HeadLoss": func(r check.Row) (float64, error) {
			h, err := pipeOf(r).HeadLoss(pipeFlowOf(r), pipeFluid(r))
			return h.Metres(), err
		},
		"Pipe.FlowFor": func(r check.Row) (float64, error) {
			q, err := pipeOf(r).FlowFor(pipeHeadOf(r), pipeFluid(r))
			return q.CubicMetresPerSecond(), err
		},
		"Pipe.LengthFor": func(r check.Row) (float64, error) {
			l, err := pipeOf(r).LengthFor(pipeFlowOf(r), pipeHeadOf(r), pipeFluid(r))
			return l.Metres(), err
		},
		"Pipe.BoreFor": func(r check.Row) (float64, error) {
			d, err := pipeOf(r).BoreFor(pipeFlowOf(r), pipeHeadOf(r), pipeFluid(r))
			return d.Metres(), err
		},
		"Pipe.RoughnessFor": func(r check.Row) (float64, error) {
			e, err := pipeOf(r).RoughnessFor(pipeFlowOf(r), pipeHeadOf(r), pipeFluid(r))
			return e.Metres(), err
		},
		"HazenWilliams": func(r check.Row) (float64, error) {
			p := pipeOf(r)
			h, err := HazenWilliams(pipeFlowOf(r), p.Bore, p.Length, r.Float("c_factor"))
			if r.Has("quantity") && errors.Is(err, units.ErrRange) { // "extrapolated": the value beside the error
				err = nil
			}
			return h.Metres(), err
		},
		"Fluid.KinematicViscosity": func(r check.Row) (float64, error) {
			return pipeFluid(r).KinematicViscosity().SquareMetresPerSecond(), nil
		},
		"HazenWilliamsFor": func(r check.Row) (float64, error) {
			return HazenWilliamsFor(pipeFlowOf(r), pipeOf(r), pipeFluid(r))
		},
		"PipeVelocity": func(r check.Row) (float64, error) {
			v, err := PipeVelocity(pipeFlowOf(r), pipeOf(r).Bore)
			return v.MetresPerSecond(), err
		},
		"Reynolds": func(r check.Row) (float64, error) {
			return Reynolds(pipeFlowOf(r), pipeOf(r).Bore, units.KinematicViscosity(r.Float("nu_m2_s")))
		},
	})
}

func TestPipeNominalTable(t *testing.T) {
	standards := map[string]PipeStandard{"none": NoStandard, "hose": HoseNominal, "B36.10": ASMEB3610, "B36.19": ASMEB3619}
	check.Run(t, "testdata/pipe_nominal.csv", map[string]pipeRow{
		"NominalPipe": func(r check.Row) (float64, error) {
			schedule := ""
			if r.Has("schedule") {
				schedule = r.Text("schedule")
			}
			p, err := NominalPipe(r.Float("inches"), standards[r.Text("standard")], schedule)
			return p.Bore.In(units.Inches), err
		},
		"SteelTube": func(r check.Row) (float64, error) {
			p, err := SteelTube(int(r.Float("inches")), units.Millimetres.Of(r.Float("sdr")))
			return p.Bore.In(units.Millimetres), err
		},
		"SDRPipe": func(r check.Row) (float64, error) {
			p, err := SDRPipe(units.Millimetres.Of(r.Float("outside_mm")), r.Float("sdr"))
			return p.Bore.In(units.Millimetres), err
		},
	})
}
