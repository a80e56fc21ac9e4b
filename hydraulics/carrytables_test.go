package hydraulics

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

var dragLaws = map[string]DragLaw{"haider_levenspiel": HaiderLevenspiel, "schiller_naumann": SchillerNaumann, "clift_gauvin": CliftGauvin, "clift_grace_weber": CliftGraceWeber}

func TestPipeCarryTable(t *testing.T) {
	animal := func(r check.Row) units.Density { return units.Density(r.Float("rho_animal_kg_m3")) }
	water := func(r check.Row) units.Density { return units.Density(r.Float("rho_water_kg_m3")) }
	mixture := func(r check.Row) Mixture { return Mixture{r.Float("water_per_animal"), animal(r), water(r)} }
	check.Run(t, "testdata/pipe_carry.csv", map[string]pipeRow{
		"DragCoefficient": func(r check.Row) (float64, error) {
			return DragCoefficient(dragLaws[r.Text("law")], r.Float("reynolds"), r.Float("sphericity"))
		},
		"TerminalSpeed": func(r check.Row) (float64, error) {
			v, err := TerminalSpeed(Body{units.Length(r.Float("diameter_m")), animal(r), r.Float("sphericity")},
				Fluid{Density: water(r), Viscosity: units.DynamicViscosity(r.Float("mu_pa_s"))}, dragLaws[r.Text("law")])
			if errors.Is(err, units.ErrRange) && v > 0 { // a 500 g fish of sphericity 0.7 passes the law's end
				err = nil
			}
			return v.MetresPerSecond(), err
		},
		"BodyOfMass": func(r check.Row) (float64, error) {
			b, err := BodyOfMass(units.Mass(r.Float("mass_kg")), animal(r), 0.7)
			return b.Diameter.Metres(), err
		},
		"Mixture.VolumeFraction": func(r check.Row) (float64, error) { return mixture(r).VolumeFraction() },
		"Mixture.Density": func(r check.Row) (float64, error) {
			v, err := mixture(r).Density()
			return float64(v), err
		},
		"HoldUp": func(r check.Row) (float64, error) {
			return HoldUp(units.Velocity(r.Float("velocity_m_s")), units.Velocity(r.Float("terminal_m_s")), r.Float("fraction"))
		},
		"DurandLimit": func(r check.Row) (float64, error) {
			v, err := DurandLimit(units.Length(r.Float("bore_m")), animal(r), water(r))
			return float64(v), err
		},
		"MinimumSpeed": func(r check.Row) (float64, error) {
			c, err := MinimumSpeed(CarrySpec{units.Length(r.Float("bore_m")), units.Degrees.Of(r.Float("rise_deg")), units.Velocity(r.Float("terminal_m_s")), animal(r), water(r), r.Float("margin")})
			if r.Text("quantity") == "vertical" {
				return float64(c.Vertical), err
			}
			return float64(c.Horizontal), err
		},
		"ExtraFriction": func(r check.Row) (float64, error) {
			return ExtraFriction(r.Float("fraction"), units.Velocity(r.Float("velocity_m_s")), units.Length(r.Float("bore_m")), animal(r), water(r), r.Float("cd"))
		},
	})
}

func TestPipeSurgeTable(t *testing.T) {
	liquid := func(r check.Row) Fluid {
		f := Fluid{Density: 1000, Viscosity: 1e-3}
		if r.Has("rho_kg_m3") {
			f.Density = units.Density(r.Float("rho_kg_m3"))
		}
		if r.Has("bulk_pa") {
			f.BulkModulus = units.Pressure(r.Float("bulk_pa"))
		}
		return f
	}
	bore := func(r check.Row) units.Length { return units.Length(r.Float("bore_m")) }
	wall := func(r check.Row) units.Length { return units.Length(r.Float("wall_m")) }
	wave := func(r check.Row) (units.Velocity, error) {
		return WaveSpeed(liquid(r), bore(r), wall(r), units.Pressure(r.Float("modulus_pa")), r.Float("restraint"))
	}
	restraints := map[string]PipeRestraint{"joints": ExpansionJoints, "one end": AnchoredOneEnd, "all along": AnchoredAllAlong}
	check.Run(t, "testdata/pipe_surge.csv", map[string]pipeRow{
		"WaveSpeed": func(r check.Row) (float64, error) {
			a, err := wave(r)
			return float64(a), err
		},
		"Joukowsky": func(r check.Row) (float64, error) {
			a, err := wave(r)
			if err != nil {
				return math.NaN(), err
			}
			p, err := Joukowsky(liquid(r), a, units.Velocity(r.Float("dv_m_s")))
			return float64(p), err
		},
		"RestraintFactor": func(r check.Row) (float64, error) {
			return RestraintFactor(restraints[r.Text("quantity")], r.Float("poisson"), bore(r), wall(r))
		},
		"WaveSpeedOfHose": func(r check.Row) (float64, error) {
			a, err := WaveSpeedOfHose(liquid(r), r.Float("gas"), units.Pressure(r.Float("pressure_pa")))
			return float64(a), err
		},
		"BulkModulusWithGas": func(r check.Row) (float64, error) {
			f := liquid(r)
			k, err := BulkModulusWithGas(f.BulkModulus, r.Float("gas"), units.AbsolutePressure(r.Float("pressure_pa")))
			if !r.Has("quantity") {
				return float64(k), err
			}
			return math.Sqrt(float64(k) / float64(f.Density)), err // wave speed in a rigid pipe
		},
		"ClosureSurge": func(r check.Row) (float64, error) {
			u, err := ClosureSurge(SurgeSpec{Fluid: liquid(r), Length: units.Length(r.Float("length_m")), Wave: units.Velocity(r.Float("wave_m_s")),
				Stopped: units.Velocity(r.Float("dv_m_s")), Closure: time.Duration(r.Float("closure_s") * float64(time.Second))})
			if r.Text("quantity") == "period" {
				return u.Period.Seconds(), err
			}
			return u.Head.Metres(), err
		},
		"FilledHoseMass": func(r check.Row) (float64, error) {
			m, err := FilledHoseMass(units.Mass(r.Float("mass_kg")), bore(r), units.Length(r.Float("length_m")), units.Density(r.Float("rho_kg_m3")))
			return float64(m), err
		},
		"FilledHoseWeight": func(r check.Row) (float64, error) {
			w, err := FilledHoseWeight(units.Mass(r.Float("mass_kg")), bore(r), units.Length(r.Float("length_m")), units.Density(r.Float("rho_kg_m3")))
			return float64(w), err
		},
		"BendThrust": func(r check.Row) (float64, error) {
			f, err := BendThrust(units.Angle(r.Float("turn_rad")), units.GaugePressure(r.Float("pressure_pa")), pipeFlowOf(r), bore(r), units.Density(r.Float("rho_kg_m3")))
			return float64(f), err
		},
		"JetReaction": func(r check.Row) (float64, error) {
			f, err := JetReaction(pipeFlowOf(r), bore(r), units.Density(r.Float("rho_kg_m3")))
			return float64(f), err
		},
		"HoseTension": func(r check.Row) (float64, error) {
			f, err := HoseTension(units.ForcePerLength(r.Float("pressure_pa")), units.Length(r.Float("length_m")), wall(r))
			return float64(f), err
		},
	})
}

func TestHoldUpExceedsDeliveredAndMeetsItWithoutSlip(t *testing.T) {
	rnd := rand.New(rand.NewPCG(31, 32))
	for range 2000 {
		u, cv := 0.3+3*rnd.Float64(), 0.4*rnd.Float64()
		vt := 0.9 * u * rnd.Float64()
		phi, err := HoldUp(units.Velocity(u), units.Velocity(vt), cv)
		if errors.Is(err, units.ErrNoSolution) {
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if !(phi >= cv) {
			t.Errorf("hold-up %g below delivered %g", phi, cv)
		}
		// What arrives: the animals in the hose at their own speed.
		if got := phi * (u - vt*math.Pow(1-phi, 2.39)) / u; math.Abs(got-cv) > 1e-12 {
			t.Errorf("hold-up %g delivers %g, want %g", phi, got, cv)
		}
		if free, err := HoldUp(units.Velocity(u), 0, cv); err != nil || math.Abs(free-cv) > 1e-14 {
			t.Errorf("without slip the hold-up is %g of %g: %v", free, cv, err)
		}
	}
}

func TestTerminalSpeedBalancesForces(t *testing.T) {
	water, err := SeaWater(units.Celsius(28), 25)
	if err != nil {
		t.Fatal(err)
	}
	rho, nu := float64(water.Density), water.KinematicViscosity().SquareMetresPerSecond()
	for law := HaiderLevenspiel; law <= CliftGraceWeber; law++ {
		for _, d := range []float64{1e-5, 1e-3, 0.01, 0.03} {
			for _, density := range []float64{900, 1000, 1060, 1200} {
				v, err := TerminalSpeed(Body{Diameter: units.Length(d), Density: units.Density(density)}, water, law)
				if err != nil {
					t.Fatal(err)
				}
				if (v > 0) != (density > rho) {
					t.Errorf("%g kg/m3 in %g moves %v", density, rho, v)
				}
				speed := math.Abs(float64(v))
				cd, err := DragCoefficient(law, speed*d/nu, 1)
				if err != nil {
					t.Fatal(err)
				}
				force, weight := cd*rho*speed*speed/2*math.Pi/4*d*d, math.Abs(density-rho)*9.80665*math.Pi/6*d*d*d
				if math.Abs(force/weight-1) > 1e-11 && !(law == SchillerNaumann && math.Abs(speed*d/nu/1000-1) < 1e-6) {
					t.Errorf("%v, %g m, %g kg/m3: drag %g N against weight %g N", law, d, density, force, weight)
				}
			}
		}
	}
}

func TestMixtureInverse(t *testing.T) {
	for cv := 0.01; cv < 1; cv += 0.07 {
		m, err := MixtureOfFraction(cv, 1060, 1015)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := m.VolumeFraction(); err != nil || math.Abs(got-cv) > 1e-14 {
			t.Errorf("fraction %g comes back as %g: %v", cv, got, err)
		}
	}
	m := Mixture{2, 1060, 1000}
	s, err := m.Rising(1.5, 0.15)
	if err != nil {
		t.Fatal(err)
	}
	if !(s.StaticGain > 1 && s.HoldUp > s.Delivered && len(s.Notices) == 1 && s.Notices[0].Code == CodeSolidsFraction) {
		t.Errorf("state of a third animals: %+v", s)
	}
}

func TestSurgeNotices(t *testing.T) {
	spec := SurgeSpec{Fluid: Fluid{Density: 1000, Viscosity: 1e-3}, Length: 60, Wave: 300, Stopped: 2.5, Static: 0.5e5, Rating: 4e5}
	u, err := ClosureSurge(spec)
	if err != nil {
		t.Fatal(err)
	}
	if len(u.Notices) != 2 || u.Notices[0].Code != CodeSurge || u.Notices[1].Code != CodeVacuum {
		t.Fatalf("notices: %v", u.Notices)
	}
	spec.Closure = 10 * time.Second
	slow, err := ClosureSurge(spec)
	if err != nil {
		t.Fatal(err)
	}
	if len(slow.Notices) != 0 || slow.Rapid || !(slow.Head < u.Head) {
		t.Errorf("a slow closure: %+v", slow)
	}
}

// A beam of the span that SupportSpan gives reaches exactly one of its limits.
func TestSupportSpanReachesItsLimit(t *testing.T) {
	b := PipeBeam{Outside: 0.2191, Bore: 0.2027, Modulus: 200e9, Stress: 100e6, Wall: 7850, Contents: 1000}
	s, err := SupportSpan(b)
	if err != nil {
		t.Fatal(err)
	}
	w := 9.80665 * math.Pi / 4 * (7850*(0.2191*0.2191-0.2027*0.2027) + 1000*0.2027*0.2027)
	i := math.Pi / 64 * (math.Pow(0.2191, 4) - math.Pow(0.2027, 4))
	if sag := 5 * w * math.Pow(float64(s.BySag), 4) / (384 * 200e9 * i); math.Abs(sag/float64(s.BySag)*360-1) > 1e-12 {
		t.Errorf("sag over span is %g", sag/float64(s.BySag))
	}
	if stress := w * float64(s.ByStress) * float64(s.ByStress) / 8 / (2 * i / 0.2191); math.Abs(stress/100e6-1) > 1e-12 {
		t.Errorf("stress is %g", stress)
	}
	if s.Span != min(s.BySag, s.ByStress) || math.Abs(float64(s.Load)/w-1) > 1e-12 {
		t.Errorf("limits: %+v", s)
	}
}
