package pumpsizing

import (
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

type checks = map[string]func(check.Row) (float64, error)

func TestCoverage(t *testing.T) { check.Coverage(t, ".") }
func TestDocs(t *testing.T)     { check.Docs(t, ".") }
func TestSources(t *testing.T)  { check.Sources(t, ".") }

// rpm600 is the rated speed of curves whose table gives only speed ratios.
var rpm600 = units.RevolutionsPerMinute.Of(600)

func fitNamed(name string) Fit {
	for f, n := range fitNames {
		if n == name {
			return Fit(f)
		}
	}
	return 255
}

// curveFrom fits the points of two columns; flow and head are the units.
func curveFrom(r check.Row, flows, heads string, q units.FlowUnit, h units.LengthUnit) (Curve, error) {
	d := CurveData{Speed: rpm600, Fit: fitNamed(r.Text("fit"))}
	hs := r.Floats(heads)
	for i, v := range r.Floats(flows) {
		d.Points = append(d.Points, CurvePoint{Flow: q.Of(v), Head: h.Of(hs[i])})
	}
	return FitCurve(d)
}

func TestCurveFitTable(t *testing.T) {
	check.Run(t, "testdata/curve_fit.csv", checks{
		"Curve.Coefficients": func(r check.Row) (float64, error) {
			c, err := curveFrom(r, "flows_m3_s", "heads_m", units.CubicMetresPerSecond, units.Metres)
			h0, b, a, _ := c.Coefficients()
			return map[string]float64{"h0": h0, "b": b, "a": a}[r.Text("quantity")], err
		},
		"Curve.Head": func(r check.Row) (float64, error) {
			c, err := curveFrom(r, "flows_m3_s", "heads_m", units.CubicMetresPerSecond, units.Metres)
			return c.Head(units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")), rpm600).Metres(), err
		},
		"FitCurve": func(r check.Row) (float64, error) {
			c, err := curveFrom(r, "flows_m3_s", "heads_m", units.CubicMetresPerSecond, units.Metres)
			if r.Text("quantity") == "B" {
				return c.pow.b, err
			}
			return c.pow.c, err
		},
		"AssumedCurve": func(r check.Row) (float64, error) {
			rated := CurvePoint{Flow: units.CubicMetresPerSecond.Of(r.Float("flows_m3_s")), Head: units.Metres.Of(r.Float("heads_m"))}
			d, err := AssumedCurve(rated, rpm600)
			if err != nil {
				return 0, err
			}
			c, err := FitCurve(d)
			if r.Text("quantity") == "h0" {
				return c.ShutOffHead(rpm600).Metres(), err
			}
			_, last := c.Range(rpm600)
			return last.CubicMetresPerSecond(), err
		},
	})
}

func TestAffinityTable(t *testing.T) {
	check.Run(t, "testdata/affinity.csv", checks{
		"SimilarDuty": func(r check.Row) (float64, error) {
			d, err := SimilarDuty(Duty{
				Flow: units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")), Head: units.Metres.Of(r.Float("head_m")),
				Power: units.Watts.Of(r.Float("power_w")), Speed: units.RevolutionsPerMinute.Of(r.Float("n1_rpm")),
			}, units.RevolutionsPerMinute.Of(r.Float("n2_rpm")), r.Float("size"))
			return map[string]float64{"Q": d.Flow.CubicMetresPerSecond(), "H": d.Head.Metres(), "P": d.Power.Watts()}[r.Text("quantity")], err
		},
		"SteppedEfficiency": func(r check.Row) (float64, error) {
			return SteppedEfficiency(r.Float("efficiency"), r.Float("size"), r.Float("speed"), StepUp(r.Float("rule")))
		},
		"EfficiencyAnderson1980": func(r check.Row) (float64, error) {
			return EfficiencyAnderson1980(units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")), units.RevolutionsPerMinute.Of(r.Float("n1_rpm")), r.Float("ns_us"))
		},
	})
}

func TestTrimTable(t *testing.T) {
	check.Run(t, "testdata/trim.csv", checks{
		"TrimmedDuty": func(r check.Row) (float64, error) {
			d, err := TrimmedDuty(
				Duty{Flow: units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")), Head: units.Metres.Of(r.Float("head_m")), Speed: rpm600},
				Impeller{Diameter: units.Metres.Of(r.Float("diameter_m")), Eye: units.Metres.Of(r.Float("eye_m"))},
				units.Metres.Of(r.Float("trim_m")), TrimRule(r.Float("rule")))
			if r.Text("quantity") == "H" {
				return d.Head.Metres(), err
			}
			return d.Flow.CubicMetresPerSecond(), err
		},
		"TrimForHead": func(r check.Row) (float64, error) {
			d, err := TrimForHead(Impeller{Diameter: units.Metres.Of(r.Float("diameter_m")), Eye: units.Metres.Of(r.Float("eye_m"))},
				units.Metres.Of(r.Float("head_m")), units.Metres.Of(r.Float("to_head_m")))
			return d.Metres(), err
		},
	})
}

// parabolaFrom builds the curve and system of a row of coefficients. The data
// end where the head does, at the largest speed of the tables.
func parabolaFrom(r check.Row) (Curve, System, error) {
	h0, b, a := r.Float("h0_m"), r.Float("b_s_m2"), r.Float("a_s2_m5")
	c, err := ParabolaCurve(ParabolaData{Speed: rpm600, ShutOff: units.Metres.Of(h0), Linear: b, Square: a,
		Last: units.CubicMetresPerSecond.Of((-b + math.Sqrt(b*b+4*a*h0)) / (2 * a))})
	return c.InSeries(int(r.Float("series"))).InParallel(int(r.Float("parallel"))),
		QuadraticSystem{Static: units.Metres.Of(r.Float("static_m")), Resistance: r.Float("k_s2_m5")}, err
}

func TestOperatingPointTable(t *testing.T) {
	check.Run(t, "testdata/operating_point.csv", checks{
		"Curve.Meet": func(r check.Row) (float64, error) {
			c, sys, err := parabolaFrom(r)
			if err != nil {
				return 0, err
			}
			op, err := c.Meet(sys, rpm600*units.RotationalSpeed(r.Float("ratio")))
			switch r.Text("quantity") {
			case "head":
				return op.Head.Metres(), err
			case "unstable":
				return op.UnstableFlow.CubicMetresPerSecond(), err
			}
			return op.Flow.CubicMetresPerSecond(), err
		},
		"WaterPower": func(r check.Row) (float64, error) {
			c, sys, err := parabolaFrom(r)
			if err != nil {
				return 0, err
			}
			op, err := c.Meet(sys, rpm600*units.RotationalSpeed(r.Float("ratio")))
			if err != nil {
				return 0, err
			}
			p, err := WaterPower(op.Flow, op.Head, 1000*units.KilogramPerCubicMetre)
			return p.Watts(), err
		},
		"Curve.SpeedForFlow": func(r check.Row) (float64, error) {
			c, sys, err := parabolaFrom(r)
			if err != nil {
				return 0, err
			}
			op, err := c.SpeedForFlow(sys, units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")))
			return op.SpeedRatio, err
		},
		"Curve.MinimumSpeed": func(r check.Row) (float64, error) {
			a := r.Float("a_s2_m5")
			c, err := ParabolaCurve(ParabolaData{Speed: rpm600, ShutOff: units.Metres.Of(r.Float("h0_m")), Linear: r.Float("b_s_m2"), Square: a, Last: 0.1})
			if err != nil {
				return 0, err
			}
			m, err := c.InSeries(int(r.Float("series"))).InParallel(int(r.Float("parallel"))).MinimumSpeed(units.Metres.Of(r.Float("static_m")))
			return m.Start.RadiansPerSecond() / rpm600.RadiansPerSecond(), err
		},
	})
}

func TestPublishedOperatingPoints(t *testing.T) {
	check.Run(t, "testdata/operating_published.csv", checks{
		"Curve.Meet": func(r check.Row) (float64, error) {
			unit := units.CubicFeetPerSecond.Of(1)
			if r.Text("flow_unit") != "ft3/s" {
				unit = units.USGallonsPerMinute.Of(1000)
			}
			perSquare := 0.3048 / (unit.CubicMetresPerSecond() * unit.CubicMetresPerSecond()) // ft per unit^2 to s2/m5
			h0, a := r.Float("h0_ft"), r.Float("a")
			c, err := ParabolaCurve(ParabolaData{Speed: rpm600, ShutOff: units.Feet.Of(h0), Square: a * perSquare, Last: unit * units.Flow(math.Sqrt(h0/a))})
			if err != nil {
				return 0, err
			}
			c = c.InSeries(int(r.Float("series"))).InParallel(int(r.Float("parallel")))
			op, err := c.Meet(QuadraticSystem{Static: units.Feet.Of(r.Float("static_ft")), Resistance: r.Float("k") * perSquare}, rpm600)
			return op.Flow.CubicMetresPerSecond() / unit.CubicMetresPerSecond(), err
		},
	})
	check.Run(t, "testdata/operating_table.csv", checks{
		"Curve.Meet": func(r check.Row) (float64, error) {
			c, err := curveFrom(r, "flows_gpm", "heads_ft", units.USGallonsPerMinute, units.Feet)
			if err != nil {
				return 0, err
			}
			c = c.InSeries(int(r.Float("series"))).InParallel(int(r.Float("parallel")))
			op, err := c.Meet(gpmSystem(r), rpm600)
			return op.Flow.In(units.USGallonsPerMinute), err
		},
		"QuadraticSystem.Head": func(r check.Row) (float64, error) {
			return gpmSystem(r).Head(units.USGallonsPerMinute.Of(r.Float("flow_gpm"))).In(units.Feet), nil
		},
	})
}

func gpmSystem(r check.Row) QuadraticSystem {
	gpm := units.USGallonPerMinute.CubicMetresPerSecond()
	return QuadraticSystem{Static: units.Feet.Of(r.Float("static_ft")), Resistance: r.Float("k_ft_gpm2") * 0.3048 / (gpm * gpm)}
}

func TestPowerTable(t *testing.T) {
	flow := func(r check.Row) units.Flow {
		if r.Has("flow_gpm") {
			return units.USGallonsPerMinute.Of(r.Float("flow_gpm"))
		}
		return units.CubicMetresPerSecond.Of(r.Float("flow_m3_s"))
	}
	head := func(r check.Row) units.Length {
		if r.Has("head_ft") {
			return units.Feet.Of(r.Float("head_ft"))
		}
		return units.Metres.Of(r.Float("head_m"))
	}
	power := func(r check.Row, p units.Power) float64 {
		if r.Has("power_unit") && r.Text("power_unit") == "hp" {
			return p.In(units.MechanicalHorsepowers)
		}
		return p.Watts()
	}
	check.Run(t, "testdata/power.csv", checks{
		"WaterPower": func(r check.Row) (float64, error) {
			p, err := WaterPower(flow(r), head(r), units.KilogramsPerCubicMetre.Of(r.Float("rho_kg_m3")))
			return power(r, p), err
		},
		"ShaftPower": func(r check.Row) (float64, error) {
			p, err := ShaftPower(flow(r), head(r), units.KilogramsPerCubicMetre.Of(r.Float("rho_kg_m3")), r.Float("efficiency"))
			return power(r, p), err
		},
		"ShaftTorque": func(r check.Row) (float64, error) {
			p, err := ShaftTorque(units.Watts.Of(r.Float("power_w")), units.RevolutionsPerMinute.Of(r.Float("speed_rpm")))
			return p.NewtonMetres(), err
		},
		"HeatToWater": func(r check.Row) (float64, error) {
			d, err := HeatToWater(head(r), r.Float("efficiency"), units.JoulesPerKilogramKelvin.Of(r.Float("c_j_kgk")))
			return d.Kelvins(), err
		},
		"PumpEfficiency": func(r check.Row) (float64, error) {
			return PumpEfficiency(flow(r), units.Pascals.Of(r.Float("rise_pa")), units.Watts.Of(r.Float("power_w")))
		},
	})
}

func TestSpecificSpeedTable(t *testing.T) {
	args := func(r check.Row) (units.RotationalSpeed, units.Flow, units.Length) {
		return units.RevolutionsPerMinute.Of(r.Float("n_rpm")), units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")), units.Metres.Of(r.Float("head_m"))
	}
	check.Run(t, "testdata/specific_speed.csv", checks{
		"SpecificSpeed":          func(r check.Row) (float64, error) { return SpecificSpeed(args(r)) },
		"SpecificSpeedUS":        func(r check.Row) (float64, error) { return SpecificSpeedUS(args(r)) },
		"TypeNumber":             func(r check.Row) (float64, error) { return TypeNumber(args(r)) },
		"SuctionSpecificSpeedUS": func(r check.Row) (float64, error) { return SuctionSpecificSpeedUS(args(r)) },
		"NPSHRFromSuctionSpeed": func(r check.Row) (float64, error) {
			h, err := NPSHRFromSuctionSpeed(units.RevolutionsPerMinute.Of(r.Float("n_rpm")), units.CubicMetresPerSecond.Of(r.Float("flow_m3_s")), r.Float("s_us"))
			return h.Metres(), err
		},
	})
}

func TestEfficiencyTable(t *testing.T) {
	check.Run(t, "testdata/efficiency.csv", checks{
		"Efficiency.At": func(r check.Row) (float64, error) {
			e, err := NewEfficiency(EfficiencyData{Best: r.Float("best"), BestFlow: units.CubicMetresPerHour.Of(r.Float("best_m3_h"))})
			return e.At(units.CubicMetresPerHour.Of(r.Float("flow_m3_h")), r.Float("ratio")), err
		},
	})
}
