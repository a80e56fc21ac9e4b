package icing

import (
	"math"
	"math/rand/v2"
	"testing"

	"pondwright.example/units"
)

// The heat lost through the surface over time is the fall of the mean.
func TestConductionEnergyCloses(t *testing.T) {
	for _, shape := range []Shape{Slab, Cylinder, Sphere} {
		for _, bi := range []float64{0.01, 0.7, 12, 300} {
			const fo = 0.4
			n := 1000
			if testing.Short() {
				n = 600
			}
			sum := 0.0 // midpoint rule in the square root of time, where the flux is smooth
			for i := range n {
				u := (float64(i) + 0.5) / float64(n) * math.Sqrt(fo)
				s, err := Theta(shape, bi, u*u, 1)
				if err != nil {
					t.Fatal(err)
				}
				sum += s * 2 * u * math.Sqrt(fo) / float64(n)
			}
			lost := float64(shape+1) * bi * sum
			mean, err := MeanTheta(shape, bi, fo)
			if err != nil || math.Abs(1-mean-lost) > 1e-4 {
				t.Errorf("%v Bi %v: mean fell by %v, flux took %v, %v", shape, bi, 1-mean, lost, err)
			}
		}
	}
}

func TestThetaFallsWithTimeAndTowardsTheSurface(t *testing.T) {
	for _, shape := range []Shape{Slab, Cylinder, Sphere} {
		for _, bi := range []float64{1e-6, 1e-3, 0.3, 1, 7, 1e3, 1e6} {
			last := 1.0
			factor := 3.0
			if testing.Short() {
				factor = 30
			}
			for fo := 1e-8; fo < 1e3; fo *= factor {
				c, e1 := Theta(shape, bi, fo, 0)
				m, e2 := MeanTheta(shape, bi, fo)
				s, e3 := Theta(shape, bi, fo, 1)
				if e1 != nil || e2 != nil || e3 != nil {
					t.Fatal(e1, e2, e3)
				}
				if !(s <= m+1e-9 && m <= c+1e-9 && c <= 1 && s >= -1e-12) {
					t.Errorf("%v Bi %v Fo %v: surface %v, mean %v, centre %v", shape, bi, fo, s, m, c)
				}
				if m > last+1e-9 {
					t.Errorf("%v Bi %v Fo %v: mean rose from %v to %v", shape, bi, fo, last, m)
				}
				last = m
			}
		}
	}
}

// At small Biot numbers the body is a lump: theta = exp(-(shape+1)·Bi·Fo).
func TestSmallBiotIsALump(t *testing.T) {
	for _, shape := range []Shape{Slab, Cylinder, Sphere} {
		const bi, fo = 1e-5, 2e4
		m, err := MeanTheta(shape, bi, fo)
		if want := math.Exp(-float64(shape+1) * bi * fo); err != nil || !near(m, want, 1e-5) {
			t.Errorf("%v: %v, want %v, %v", shape, m, want, err)
		}
	}
}

// The first thousand roots of every shape are roots, in rising order, one per
// bracket, at Biot numbers from nearly insulated to nearly perfect contact.
func TestRootsAreAllThere(t *testing.T) {
	for _, shape := range []Shape{Slab, Cylinder, Sphere} {
		for _, bi := range []float64{1e-9, 1e-4, 0.2, 1, 3, 50, 1e4, 1e9} {
			last := 0.0
			for n := range 1000 {
				z := eigen(shape, bi, n)
				f, slope := surfaceCondition(shape, bi, z)
				if !(z > last) || math.Abs(f/slope) > 1e-12*(1+z) {
					t.Fatalf("%v Bi %v root %d = %v after %v: off by %v", shape, bi, n, z, last, f/slope)
				}
				if n > 0 && (z-last < 2.2 || z-last > 4.6) {
					t.Fatalf("%v Bi %v root %d = %v after %v: a root was skipped", shape, bi, n, z, last)
				}
				last = z
			}
		}
	}
}

func TestCoreTimeInvertsCore(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		b := Body{Shape: Shape(rng.IntN(3)), HalfDimension: units.Length(math.Exp(rng.Float64()*4 - 6)), Film: units.HeatTransferCoefficient(math.Exp(rng.Float64() * 8))}
		start, medium := units.Celsius(10+20*rng.Float64()), units.Celsius(0)
		target := units.Celsius(start.Celsius() * (0.001 + 0.998*rng.Float64()))
		d, err := b.CoreTime(start, medium, target)
		if err != nil {
			t.Fatalf("%+v: %v", b, err)
		}
		if got, err := b.Core(start, medium, d); err != nil || math.Abs(got.Celsius()-target.Celsius()) > 1e-6 {
			t.Errorf("%+v: %v after %v, want %v, %v", b, got, d, target, err)
		}
		d, err = b.MeanTime(start, medium, target)
		if err != nil {
			t.Fatalf("%+v: %v", b, err)
		}
		if got, err := b.Mean(start, medium, d); err != nil || math.Abs(got.Celsius()-target.Celsius()) > 1e-6 {
			t.Errorf("%+v: mean %v after %v, want %v, %v", b, got, d, target, err)
		}
	}
}

// Ice as the half-thickness of 22 mm of a 450 g tilapia: 55 min stirred, 75 min
// still from 21 to 4 °C, worked by hand with the one-term series.
func TestTilapiaCoreTime(t *testing.T) {
	fish := Body{Shape: Slab, HalfDimension: 0.022}
	for film, want := range map[units.HeatTransferCoefficient]float64{FilmStirredBath: 55, FilmStillBath: 75} {
		fish.Film = film
		d, err := fish.CoreTime(units.Celsius(21), units.Celsius(0), units.Celsius(4))
		if err != nil || math.Abs(d.Minutes()-want) > 0.1*want {
			t.Errorf("film %v: %.1f min, want about %v, %v", film, d.Minutes(), want, err)
		}
	}
}

// Using a sixth of the diameter in the Biot number of the series, as a worked
// answer in circulation does, gives another time than the series does.
func TestBiotUsesTheRadius(t *testing.T) {
	egg := Body{Shape: Sphere, HalfDimension: 0.0275, Conductivity: 0.607, Diffusivity: 1.46e-7, Film: 800}
	d, err := egg.CoreTime(units.Celsius(8), units.Celsius(100), units.Celsius(60))
	if err != nil || math.Abs(d.Seconds()-839.0232) > 0.01 {
		t.Fatalf("%v, %v", d, err)
	}
	egg.Film /= 3
	wrong, err := egg.CoreTime(units.Celsius(8), units.Celsius(100), units.Celsius(60))
	if err != nil || math.Abs(wrong.Seconds()-d.Seconds()) < 60 {
		t.Errorf("a third of the Biot number changes the time by less than a minute: %v, %v", wrong, err)
	}
}
