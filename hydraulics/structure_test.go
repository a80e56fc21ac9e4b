package hydraulics

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// strKinked is a structure that knows where its smoothness ends.
type strKinked interface {
	Structure
	Kinks(tailwater units.Length, dst []units.Length) []units.Length
}

func strMust[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		require.NoError(t, err)
		return v
	}
}

// strStructures builds one of everything, with their crests near level zero.
func strStructures(t testing.TB, b Backflow) map[string]Structure {
	weir := func(m WeirMethod, width units.Length) Structure {
		return strMust[RectangularWeir](t)(NewRectangularWeir(RectangularWeirSpec{Width: width, ChannelWidth: 1, CrestHeight: 0.4, Method: m, Backflow: b}))
	}
	culvert := func(s CulvertSpec) Structure {
		s.Length, s.ManningN, s.Backflow = 12, 0.013, b
		return strMust[Culvert](t)(NewCulvert(s))
	}
	gate := func(m GateMethod) Structure {
		return strMust[SluiceGate](t)(NewSluiceGate(SluiceGateSpec{Width: 0.6, Opening: 0.15, Method: m, Backflow: b}))
	}
	pond := strPond()
	pond.Backflow = b
	all := map[string]Structure{
		"pipe":             strOutlet(t, pond),
		"pipe brink":       strBrink(t, pond),
		"weir contracted":  weir(KindsvaterCarterUSBR, 0.5),
		"weir full iso":    weir(KindsvaterCarterISO, 1),
		"weir rehbock":     weir(Rehbock1929, 1),
		"weir francis":     weir(Francis1883, 0.5),
		"vnotch":           strMust[VNotchWeir](t)(NewVNotchWeir(VNotchWeirSpec{Angle: 90 * units.Degree, ChannelWidth: 1, VertexHeight: 0.5, Backflow: b})),
		"broad":            strMust[BroadCrest](t)(NewBroadCrest(BroadCrestSpec{Width: 1, Length: 0.5, CrestHeight: 1, Backflow: b})),
		"stoplogs":         strMust[StoplogBay](t)(NewStoplogBay(StoplogBaySpec{Sill: -0.4, Boards: []units.Length{0.2, 0.2}, Width: 0.8, Thickness: 0.05, ChannelWidth: 1, Leakage: 2e-4, Backflow: b})),
		"orifice circle":   strMust[Orifice](t)(NewOrifice(OrificeSpec{Diameter: 0.3, Coefficient: SharpOrifice, Backflow: b})),
		"orifice slot":     strMust[Orifice](t)(NewOrifice(OrificeSpec{Width: 0.5, Height: 0.2, Coefficient: SharpOrifice, Backflow: b})),
		"gate":             gate(Henderson1966),
		"gate swamee":      gate(Swamee1992),
		"riser":            strMust[Riser](t)(NewRiser(strRiserSpec(b))),
		"culvert pipe":     culvert(CulvertSpec{Diameter: 0.45, Fall: 0.06, Inlet: ConcreteSquareHeadwall}),
		"culvert mitred":   culvert(CulvertSpec{Diameter: 0.6, Fall: 0.3, Inlet: MetalMitred}),
		"culvert level":    culvert(CulvertSpec{Diameter: 0.45, Inlet: MetalProjecting}),
		"culvert box":      culvert(CulvertSpec{Span: 0.6, Rise: 0.4, Fall: 0.1, Inlet: BoxWings30To75}),
		"culvert box form": culvert(CulvertSpec{Span: 0.6, Rise: 0.4, Inlet: BoxHeadwallChamfered}),
	}
	all["monk"] = strMonk(t, b)
	all["two pipes"] = strMust[StructuresInParallel](t)(NewStructuresInParallel(all["pipe"], all["culvert pipe"]))
	return all
}

func strBrink(t testing.TB, s OutletPipeSpec) OutletPipe {
	s.Outfall = OutfallBrink
	return strOutlet(t, s)
}

func strRiserSpec(b Backflow) RiserSpec {
	return RiserSpec{Diameter: 0.45, WeirCoefficient: 1.84, OrificeCoefficient: 0.6, PipeDiameter: 0.3, PipeLength: 15,
		ManningN: 0.011, LossSum: 2.1, OutletCentre: -1.2, Backflow: b}
}

// strJump walks q from lo to hi in n steps, fails when a step goes down, and
// returns what is left of the steepest step after halving it again and again:
// nothing for a continuous q.
func strJump(t *testing.T, name string, q func(x float64) float64, lo, hi float64, n int) float64 {
	t.Helper()
	var a, b float64
	worst, prev := -1.0, q(lo)
	for i := 1; i <= n; i++ {
		x := lo + (hi-lo)*float64(i)/float64(n)
		v := q(x)
		if v < prev-1e-9 {
			t.Fatalf("%s falls from %v to %v at %v", name, prev, v, x)
		}
		if v-prev > worst {
			worst, a, b = v-prev, x-(hi-lo)/float64(n), x
		}
		prev = v
	}
	for range 50 {
		m := (a + b) / 2
		if q(m)-q(a) > q(b)-q(m) {
			b = m
		} else {
			a = m
		}
	}
	return q(b) - q(a)
}

// Every rating is continuous and monotone, in the pond level and in the
// tailwater, free, drowned and backwards.
func TestStructuresContinuousAndMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for _, b := range []Backflow{BackflowFlap, BackflowReverse} {
		all := strStructures(t, b)
		for _, name := range slices.Sorted(maps.Keys(all)) { // in order, for the draws to repeat
			s := all[name]
			for range 12 {
				still := units.Length(-0.6 + 2*rng.Float64())
				left := strJump(t, name+" along the level", func(x float64) float64 { return float64(s.Discharge(units.Length(x), still)) }, -0.7, 1.5, 2000)
				assert.Less(t, left, 1e-5, "%s along the level, still %v", name, still)
				left = strJump(t, name+" along the tailwater", func(x float64) float64 { return -float64(s.Discharge(still, units.Length(x))) }, -0.7, 1.5, 2000)
				assert.Less(t, left, 1e-5, "%s along the tailwater, still %v", name, still)
			}
		}
	}
}

// The same for descriptions drawn at random over what farms build and beyond.
func TestRandomStructuresContinuousAndMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	length := func(lo, hi float64) units.Length { return units.Length(between(lo, hi)) }
	for range 150 {
		var s Structure
		var err error
		var spec any
		switch rng.IntN(7) {
		case 0:
			c := CulvertSpec{Diameter: length(0.2, 1.2), Length: length(3, 60), ManningN: between(0.009, 0.03), Backflow: BackflowReverse,
				Inlet: ConcreteSquareHeadwall + InletType(rng.IntN(8))}
			c.Fall = c.Length * length(0, 0.08)
			spec = c
			s, err = NewCulvert(c)
		case 1:
			c := CulvertSpec{Span: length(0.2, 2), Rise: length(0.2, 1.2), Length: length(3, 60), ManningN: between(0.009, 0.03), Backflow: BackflowReverse,
				Inlet: BoxWings30To75 + InletType(rng.IntN(8))}
			c.Fall = c.Length * length(0, 0.08)
			spec = c
			s, err = NewCulvert(c)
		case 2:
			c := SluiceGateSpec{Width: 1, Opening: length(0.01, 0.6), Contraction: between(0.55, 0.9), Method: GateMethod(rng.IntN(2)), Backflow: BackflowReverse}
			spec = c
			s, err = NewSluiceGate(c)
		case 3:
			c := RiserSpec{Diameter: length(0.1, 1), WeirCoefficient: between(1.7, 1.84), OrificeCoefficient: 0.6, PipeDiameter: length(0.1, 0.8),
				PipeLength: length(2, 40), ManningN: 0.012, LossSum: between(1, 4), OutletCentre: length(-2, 0), Backflow: BackflowReverse}
			spec = c
			s, err = NewRiser(c)
		case 4:
			c := StoplogBaySpec{Sill: -0.5, Boards: []units.Length{length(0.1, 0.3), length(0.1, 0.3)}, Width: length(0.3, 1), Thickness: length(0.02, 0.1),
				ChannelWidth: length(1, 3), Leakage: units.Flow(between(0, 1e-3)), Backflow: BackflowReverse}
			spec = c
			s, err = NewStoplogBay(c)
		case 5:
			c := BroadCrestSpec{Width: 1, Length: length(0.1, 2), CrestHeight: 1, ModularLimit: between(0.1, 0.9), Backflow: BackflowReverse}
			spec = c
			s, err = NewBroadCrest(c)
		case 6:
			c := OrificeSpec{Diameter: length(0.05, 1), Coefficient: 0.6, Backflow: BackflowReverse}
			spec = c
			s, err = NewOrifice(c)
		}
		require.NoError(t, err, "%+v", spec)
		still := length(-0.3, 1.3)
		left := strJump(t, fmt.Sprintf("level of %+v over %v", spec, still), func(x float64) float64 { return float64(s.Discharge(units.Length(x), still)) }, -0.7, 1.8, 600)
		assert.Less(t, left, 1e-5, "%+v still %v", spec, still)
		left = strJump(t, fmt.Sprintf("tailwater of %+v under %v", spec, still), func(x float64) float64 { return -float64(s.Discharge(still, units.Length(x))) }, -0.7, 1.8, 600)
		assert.Less(t, left, 1e-5, "%+v still %v", spec, still)
	}
}

func TestStructuresFiniteForFiniteLevels(t *testing.T) {
	levels := []units.Length{-math.MaxFloat64, -1e9, -1, 0, 1e-300, 1e-9, 0.15, 1, 1e7, math.MaxFloat64}
	for name, s := range strStructures(t, BackflowReverse) {
		for _, h := range levels {
			for _, tw := range levels {
				q := float64(s.Discharge(h, tw))
				assert.False(t, math.IsNaN(q) || math.IsInf(q, 0), "%s at %v, %v gives %v", name, h, tw, q)
				_ = s.Control(h, tw)
			}
			if math.Abs(float64(h)) > 1e10 {
				continue // the level itself is as good as infinite
			}
			kinks := s.(strKinked).Kinks(h, nil)
			assert.Len(t, kinks, len(s.(strKinked).Kinks(0.1, nil)), name)
			for _, k := range kinks {
				assert.False(t, math.IsNaN(float64(k)) || math.IsInf(float64(k), 0), "%s: kinks %v under %v", name, kinks, h)
			}
		}
	}
}

func TestStructuresBackflow(t *testing.T) {
	for name, s := range strStructures(t, BackflowFlap) {
		assert.Zero(t, s.Discharge(0.2, 0.5), name)
		assert.Equal(t, ControlShut, s.Control(0.2, 0.5), name)
		assert.Equal(t, ControlNone, s.Control(-0.6, -0.7), name)
	}
	for name, s := range strStructures(t, BackflowReverse) {
		assert.Less(t, float64(s.Discharge(0.2, 0.5)), 0.0, name)
		assert.Equal(t, ControlReversed, s.Control(0.2, 0.5), name)
	}
}

// No flow prints as 0, not as -0.
func TestNoFlowHasNoSign(t *testing.T) {
	for _, b := range []Backflow{BackflowFlap, BackflowReverse} {
		for name, s := range strStructures(t, b) {
			for _, at := range [][2]units.Length{{0.3, 0.3}, {-0.6, -0.6}, {-0.7, -0.6}, {-0.6, -0.7}} {
				q := float64(s.Discharge(at[0], at[1]))
				assert.Zero(t, q, "%s at %v", name, at)
				assert.False(t, math.Signbit(q), "%s at %v", name, at)
			}
		}
	}
}

func TestStructuresAllocateNothing(t *testing.T) {
	var buf [64]units.Length
	for name, s := range strStructures(t, BackflowFlap) {
		assert.Zero(t, testing.AllocsPerRun(20, func() {
			s.Discharge(0.3, -1)
			s.Discharge(0.5, 0.4)
			s.Control(0.5, 0.4)
			if k, ok := s.(strKinked); ok {
				k.Kinks(0.1, buf[:0])
			}
		}), name)
	}
}

// Between the kinks a structure tells, its discharge is smooth: the second
// difference on a fine grid stays small but beside a kink. And there are as many
// kinks under every tailwater, as an integrator that follows them needs.
func TestStructuresTellTheirKinks(t *testing.T) {
	told := 0
	all := strStructures(t, BackflowFlap)
	for _, pair := range [][2]string{{"weir contracted", "pipe brink"}, {"orifice circle", "culvert pipe"}, {"gate", "weir francis"}, {"riser", "culvert box"}, {"pipe", "gate"}} {
		all[pair[0]+", "+pair[1]] = strMust[StructuresInSeries](t)(NewStructuresInSeries(all[pair[0]], all[pair[1]]))
	}
	for name, s := range all {
		k, ok := s.(strKinked)
		require.True(t, ok, name)
		told++
		count := len(k.Kinks(-1, nil))
		for _, tail := range []units.Length{-1, 0.03, 0.12, 0.3} {
			kinks := k.Kinks(tail, nil)
			require.Len(t, kinks, count, name)
			const step = 1e-3
			q := func(z float64) float64 { return float64(s.Discharge(units.Length(z), tail)) }
			scale := 0.0
			for z := math.Max(0, float64(tail)) + 0.02; z < 1.2; z += step {
				// A jump of the slope by d shows as d·step in the second difference,
				// against a curvature that step² makes small.
				scale = math.Max(scale, math.Abs(q(z+step)-q(z-step))/(2*step))
			}
			for z := math.Max(0, float64(tail)) + 0.02; z < 1.2; z += step {
				at := func(x, h float64) float64 { return math.Abs(q(x+h)-2*q(x)+q(x-h)) / h }
				bend := at(z, step)
				if bend < 0.01*scale {
					continue
				}
				// A curve loses the bend on a finer grid, a corner keeps it somewhere.
				fine := 0.0
				for i := -8; i <= 8; i++ {
					fine = math.Max(fine, at(z+step/8*float64(i), step/8))
				}
				near := fine < 0.5*bend
				for _, kink := range kinks {
					near = near || math.Abs(float64(kink)-z) < 2*step
				}
				assert.True(t, near, "%s bends at %v under %v, kinks %v", name, z, tail, kinks)
			}
		}
	}
	assert.Equal(t, len(all), told)
}

// Every change of control of risers drawn at random has a kink beside it.
func TestRiserKinksFindEveryChangeOfControl(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	changes := 0
	for range 300 {
		spec := RiserSpec{Diameter: units.Length(between(0.1, 1)), WeirCoefficient: between(1.7, 1.84), OrificeCoefficient: 0.6, PipeDiameter: units.Length(between(0.1, 0.9)),
			PipeLength: units.Length(between(2, 40)), ManningN: 0.012, LossSum: between(1, 4), OutletCentre: units.Length(between(-2, 0)), Backflow: BackflowFlap}
		r, err := NewRiser(spec)
		require.NoError(t, err)
		changes += strKinksFindChanges(t, r, r.Control, units.Length(between(-1, 0.3)), 0, 2)
	}
	assert.Greater(t, changes, 250)
}

// The same of sluice gates.
func TestGateKinksFindEveryChangeOfControl(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	changes := 0
	for range 500 {
		g, err := NewSluiceGate(SluiceGateSpec{Width: 1, Opening: units.Length(between(0.02, 0.6)), Contraction: between(0.55, 0.9),
			Method: GateMethod(rng.IntN(2)), Backflow: BackflowFlap})
		require.NoError(t, err)
		changes += strKinksFindChanges(t, g, g.Control, units.Length(between(-0.3, 1)), 0, 3)
	}
	assert.Greater(t, changes, 300)
}

// The same of what governs a culvert.
func TestCulvertKinksFindEveryChangeOfControl(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	changes := 0
	for i := range 400 {
		s := CulvertSpec{Length: units.Length(between(3, 60)), ManningN: between(0.009, 0.03), Backflow: BackflowFlap}
		if i%2 == 0 {
			s.Diameter, s.Inlet = units.Length(between(0.2, 1.2)), ConcreteSquareHeadwall+InletType(rng.IntN(8))
		} else {
			s.Span, s.Rise, s.Inlet = units.Length(between(0.2, 2)), units.Length(between(0.2, 1.2)), BoxWings30To75+InletType(rng.IntN(8))
		}
		s.Fall = s.Length * units.Length(between(0, 0.08)*between(0, 1))
		c, err := NewCulvert(s)
		require.NoError(t, err)
		governs := func(level, tailwater units.Length) Control {
			_, k := c.p.forward.flow(float64(level), float64(tailwater))
			return k
		}
		changes += strKinksFindChanges(t, c, governs, units.Length(between(-0.3, 1)*c.p.forward.d)-s.Fall, 0, units.Length(3*c.p.forward.d))
	}
	assert.Greater(t, changes, 200)
}

// strKinksFindChanges walks the levels above the tailwater and the crest, counts
// the changes of control and fails when one has no kink beside it.
func strKinksFindChanges(t *testing.T, s strKinked, control func(level, tailwater units.Length) Control, tail, crest, span units.Length) (changes int) {
	t.Helper()
	kinks := s.Kinks(tail, nil)
	require.Len(t, kinks, len(s.Kinks(tail-3, nil)))
	const step = 1e-3
	from := max(crest, tail)
	was := control(from+step/2, tail)
	for z := from + 1.5*step; z < from+span; z += step {
		now := control(z, tail)
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
	return changes
}

func BenchmarkStructureDischarge(b *testing.B) {
	for name, s := range strStructures(b, BackflowFlap) {
		b.Run(name, func(b *testing.B) {
			var q units.Flow
			for i := 0; b.Loop(); i++ {
				q += s.Discharge(0.05+units.Length(i&1023)/1024, 0)
			}
			_ = q
		})
	}
}

func BenchmarkStructureKinks(b *testing.B) {
	var buf [64]units.Length
	for name, s := range strStructures(b, BackflowFlap) {
		if k, ok := s.(strKinked); ok {
			b.Run(name, func(b *testing.B) {
				b.ReportAllocs()
				for i := 0; b.Loop(); i++ {
					k.Kinks(units.Length(i&255)/1024, buf[:0])
				}
			})
		}
	}
}
