package hydraulics

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

// strPond is the drain of a half-hectare lined pond: 0.30 m plastic pipe of
// 18 m with a screen and a flap gate, 30 g/kg water at 29 C.
func strPond() OutletPipeSpec {
	return OutletPipeSpec{
		Bore: 0.30 * units.Metre, Length: 18 * units.Metre, Roughness: 0.015 * units.Millimetre,
		LossSum: 2.7, EntryLoss: 0.05, Viscosity: 0.85 * units.Centistoke, Backflow: BackflowFlap,
	}
}

// strText reads a word that the row may leave blank.
func strText(r check.Row, column string) string {
	if !r.Has(column) {
		return ""
	}
	return r.Text(column)
}

func strOutlet(t testing.TB, s OutletPipeSpec) OutletPipe {
	t.Helper()
	o, err := NewOutletPipe(s)
	require.NoError(t, err)
	return o
}

func TestOutletPipeTable(t *testing.T) {
	check.Run(t, "testdata/structures_outletpipe.csv", map[string]func(check.Row) (float64, error){
		"OutletPipe.Discharge": func(r check.Row) (float64, error) {
			o, err := NewOutletPipe(OutletPipeSpec{
				Bore: units.Metres.Of(r.Float("diameter_m")), Length: units.Metres.Of(r.Float("length_m")),
				Roughness: units.Metres.Of(r.Float("roughness_m")), LossSum: r.Float("loss_sum"), EntryLoss: 0.05,
				Viscosity: units.SquareMetresPerSecond.Of(r.Float("viscosity_m2_s")), Backflow: BackflowFlap,
				Outfall: map[string]OutfallLine{"": OutfallCentreline, "brink": OutfallBrink}[strText(r, "outfall")],
			})
			tail := units.Length(-1)
			if r.Has("tail_m") {
				tail = strMetres(r, "tail_m")
			}
			return float64(o.Discharge(units.Metres.Of(r.Float("level_m")), tail)), err
		},
		"CriticalFlowCircular": func(r check.Row) (float64, error) {
			q, err := CriticalFlowCircular(units.Metres.Of(r.Float("diameter_m")), units.Metres.Of(r.Float("level_m")))
			return float64(q), err
		},
	})
}

// strRandomPipe draws a pipe from the range that ponds use and beyond.
func strRandomPipe(rng *rand.Rand) OutletPipeSpec {
	bore := 0.05 + 1.2*rng.Float64()
	s := OutletPipeSpec{
		Bore: units.Length(bore), Length: units.Length(bore * (2 + 150*rng.Float64())),
		Roughness: units.Length(bore * 0.02 * math.Pow(rng.Float64(), 4)),
		LossSum:   1 + 4*rng.Float64(), EntryLoss: 0.2 * rng.Float64(),
		Viscosity: units.KinematicViscosity(0.7e-6 + 1e-6*rng.Float64()),
		Invert:    units.Length(2 * rng.Float64()), Backflow: BackflowReverse,
	}
	if rng.IntN(3) > 0 {
		s.Fall = units.Length(bore * 2 * rng.Float64())
	}
	if s.Fall == 0 && rng.IntN(3) == 0 {
		s.Inlet = InletNone
	}
	s.Outfall = OutfallLine(rng.IntN(2))
	return s
}

// The discharge of any pipe is continuous and monotone along both levels.
func TestOutletPipeContinuousAndMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		s := strRandomPipe(rng)
		o := strOutlet(t, s)
		base, span := float64(s.Invert-s.Fall)-0.5*float64(s.Bore), 4*float64(s.Bore)+float64(s.Fall)
		still := units.Length(base + span*rng.Float64())
		left := strJump(t, "level", func(x float64) float64 { return float64(o.Discharge(units.Length(x), still)) }, base, base+span, 1000)
		assert.Less(t, left, 1e-5, "%+v still %v", s, still)
		left = strJump(t, "tailwater", func(x float64) float64 { return -float64(o.Discharge(still, units.Length(x))) }, base, base+span, 1000)
		assert.Less(t, left, 1e-5, "%+v still %v", s, still)
	}
}

// Every change of the limb that governs has a kink beside it, and there are
// always as many.
func TestOutletPipeKinksFindEveryChangeOfLimb(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	var buf [16]units.Length
	changes := 0
	for range 300 {
		s := strRandomPipe(rng)
		o := strOutlet(t, s)
		tail := s.Invert - s.Fall + units.Length(2*rng.Float64()-0.5)*s.Bore
		kinks := o.Kinks(tail, buf[:0])
		require.Len(t, kinks, 7)
		step := 1e-3 * s.Bore
		from := max(s.Invert, tail)
		was, _ := o.p.forward.control(float64(from+step/2), float64(tail))
		for z := from + 1.5*step; z < from+6*s.Bore; z += step {
			now, _ := o.p.forward.control(float64(z), float64(tail))
			if now != was {
				changes++
				near := false
				for _, k := range kinks {
					near = near || k >= z-step-1e-8 && k <= z+1e-8
				}
				assert.True(t, near, "%v to %v at %v, kinks %v, tail %v: %+v", was, now, z, kinks, tail, s)
			}
			was = now
		}
	}
	assert.Greater(t, changes, 300)
}

func TestOutletPipeBackflow(t *testing.T) {
	flap := strOutlet(t, strPond())
	assert.Zero(t, flap.Discharge(0.5, 0.5))
	assert.Zero(t, flap.Discharge(0.5, 0.9))
	assert.Equal(t, ControlShut, flap.Control(0.5, 0.9))

	s := strPond()
	s.Backflow = BackflowReverse
	open := strOutlet(t, s)
	// A level pipe is the same both ways round.
	assert.InDelta(t, -float64(open.Discharge(0.9, 0.5)), float64(open.Discharge(0.5, 0.9)), 1e-15)
	assert.Equal(t, ControlReversed, open.Control(0.5, 0.9))
	s.Fall = 0.4
	sloping := strOutlet(t, s)
	assert.Zero(t, sloping.Discharge(-0.3, -0.01), "tailwater still below the invert at the pond")
	assert.Less(t, float64(sloping.Discharge(-0.3, 0.5)), 0.0)
}

func TestOutletPipeBarrelsAndZeroValue(t *testing.T) {
	s := strPond()
	one := strOutlet(t, s)
	s.Barrels = 2
	two := strOutlet(t, s)
	assert.InDelta(t, 2*float64(one.Discharge(1, 0)), float64(two.Discharge(1, 0)), 1e-15)
	assert.Equal(t, s, two.Spec())
	var none OutletPipe
	assert.Zero(t, none.Discharge(1, 0))
	assert.Equal(t, ControlNone, none.Control(1, 0))
	assert.Empty(t, none.Kinks(0, nil))
}

func TestOutletPipeFiniteForFiniteLevels(t *testing.T) {
	s := strPond()
	s.Backflow = BackflowReverse
	o := strOutlet(t, s)
	levels := []units.Length{-math.MaxFloat64, -1e9, -1, -1e-300, 0, 1e-300, 1e-9, 0.15, 1, 1e6, math.MaxFloat64}
	for _, h := range levels {
		for _, tw := range levels {
			q := float64(o.Discharge(h, tw))
			assert.False(t, math.IsNaN(q) || math.IsInf(q, 0), "%v %v gives %v", h, tw, q)
		}
	}
}

func TestOutletPipeRefuses(t *testing.T) {
	for field, spoil := range map[string]func(*OutletPipeSpec){
		"bore":      func(s *OutletPipeSpec) { s.Bore = 300 },
		"length":    func(s *OutletPipeSpec) { s.Length = 0 },
		"roughness": func(s *OutletPipeSpec) { s.Roughness = 1.5 },
		"lossSum":   func(s *OutletPipeSpec) { s.LossSum = 0.5 },
		"invert":    func(s *OutletPipeSpec) { s.Invert = units.Length(math.NaN()) },
		"fall":      func(s *OutletPipeSpec) { s.Fall = -1 },
		"entryLoss": func(s *OutletPipeSpec) { s.EntryLoss = 1 },
		"viscosity": func(s *OutletPipeSpec) { s.Viscosity = 0.85 }, // mm2/s without its 1e-6
		"barrels":   func(s *OutletPipeSpec) { s.Barrels = -1 },
		"backflow":  func(s *OutletPipeSpec) { s.Backflow = BackflowUnset },
		"inlet":     func(s *OutletPipeSpec) { s.Fall, s.Inlet = 0.2, InletNone },
	} {
		s := strPond()
		spoil(&s)
		_, err := NewOutletPipe(s)
		var in *units.InputError
		require.ErrorAs(t, err, &in, field)
		assert.Equal(t, field, in.Field)
		assert.ErrorIs(t, err, units.ErrDomain)
	}
	_, err := NewOutletPipe(OutletPipeSpec{})
	assert.ErrorContains(t, err, "bore")
	assert.ErrorContains(t, err, "backflow", "every fault is reported at once")
}

func TestOutletPipeAllocatesNothing(t *testing.T) {
	o := strOutlet(t, strPond())
	var buf [16]units.Length
	var q units.Flow
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		q += o.Discharge(1, 0.2) + o.Discharge(0.2, 0.1) + o.Discharge(0.1, 0)
		o.Kinks(0.2, buf[:0])
	}))
	_ = q
}

func BenchmarkOutletPipeDischarge(b *testing.B) {
	for name, tail := range map[string]units.Length{"free": -1, "drowned": 0.15} {
		b.Run(name, func(b *testing.B) {
			o := strOutlet(b, strPond())
			b.ReportAllocs()
			var q units.Flow
			for i := 0; b.Loop(); i++ {
				q += o.Discharge(0.2+units.Length(i&1023)/1024, tail)
			}
			_ = q
		})
	}
}

func BenchmarkOutletPipeKinks(b *testing.B) {
	o := strOutlet(b, strPond())
	var buf [16]units.Length
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		o.Kinks(0.01+units.Length(i&1023)/1024, buf[:0])
	}
}

func BenchmarkNewOutletPipe(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, _ = NewOutletPipe(strPond())
	}
}
