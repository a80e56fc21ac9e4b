package hydraulics

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// Descriptions drawn over many powers of ten, most of them absurd: each is
// refused or works with finite numbers that run downhill; no solver hangs, and
// no NaN comes without an error beside it.
func TestExtremesAreRefusedOrFinite(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	pow := func(lo, hi float64) float64 { // of a power of ten, now and then zero or negative
		v := math.Pow(10, lo+(hi-lo)*rng.Float64())
		switch rng.IntN(20) {
		case 0:
			return 0
		case 1:
			return -v
		}
		return v
	}
	l := func(lo, hi float64) units.Length { return units.Length(pow(lo, hi)) }
	built := map[string]int{}
	rounds := 4000
	if testing.Short() {
		rounds = 400
	}
	for range rounds {
		for _, c := range []struct {
			name  string
			build func() (spec any, s Structure, err error)
		}{
			{"pipe", func() (any, Structure, error) {
				spec := OutletPipeSpec{Bore: l(-4, 1), Length: l(-6, 5), Roughness: l(-9, -1), LossSum: pow(0, 4), Invert: l(-3, 3), Fall: l(-4, 2),
					EntryLoss: pow(-3, -0.3), Viscosity: units.KinematicViscosity(pow(-7, -4)), Backflow: BackflowReverse, Outfall: OutfallLine(rng.IntN(2))}
				s, err := NewOutletPipe(spec)
				return spec, s, err
			}},
			{"weir", func() (any, Structure, error) {
				w := l(-3, 3)
				spec := RectangularWeirSpec{Crest: l(-3, 3), Width: w, ChannelWidth: w * units.Length(1+pow(-3, 2)), CrestHeight: l(-4, 3),
					Method: WeirMethod(rng.IntN(4)), Backflow: BackflowReverse}
				s, err := NewRectangularWeir(spec)
				return spec, s, err
			}},
			{"notch", func() (any, Structure, error) {
				spec := VNotchWeirSpec{Vertex: l(-3, 3), Angle: units.Angle(pow(-1, 0.4)), ChannelWidth: l(-3, 2), VertexHeight: l(-3, 2), Backflow: BackflowReverse}
				s, err := NewVNotchWeir(spec)
				return spec, s, err
			}},
			{"crest", func() (any, Structure, error) {
				spec := BroadCrestSpec{Width: l(-3, 4), Length: l(-4, 3), CrestHeight: l(-3, 3), ModularLimit: pow(-3, 0), Backflow: BackflowReverse}
				s, err := NewBroadCrest(spec)
				return spec, s, err
			}},
			{"bay", func() (any, Structure, error) {
				spec := StoplogBaySpec{Boards: []units.Length{l(-3, 0.3), l(-3, 0.3)}, Width: l(-3, 2), Thickness: l(-4, 0), ChannelWidth: 200,
					Leakage: units.Flow(pow(-8, -2)), Backflow: BackflowReverse}
				s, err := NewStoplogBay(spec)
				return spec, s, err
			}},
			{"orifice", func() (any, Structure, error) {
				spec := OrificeSpec{Invert: l(-3, 3), Diameter: l(-5, 1), Coefficient: pow(-3, 0), Backflow: BackflowReverse}
				s, err := NewOrifice(spec)
				return spec, s, err
			}},
			{"gate", func() (any, Structure, error) {
				spec := SluiceGateSpec{Width: l(-3, 2), Opening: l(-6, 1.3), Contraction: 0.5 + 0.5*rng.Float64(), Method: GateMethod(rng.IntN(2)), Backflow: BackflowReverse}
				s, err := NewSluiceGate(spec)
				return spec, s, err
			}},
			{"riser", func() (any, Structure, error) {
				spec := RiserSpec{Diameter: l(-3, 0.7), WeirCoefficient: 1.8, OrificeCoefficient: 0.6, PipeDiameter: l(-3, 0.7), PipeLength: l(-3, 4),
					ManningN: 0.012, LossSum: pow(0, 4), OutletCentre: -l(-3, 3), Backflow: BackflowReverse}
				s, err := NewRiser(spec)
				return spec, s, err
			}},
			{"culvert", func() (any, Structure, error) {
				spec := CulvertSpec{Diameter: l(-3, 1), Length: l(-3, 4), ManningN: pow(-2.3, -1), Invert: l(-3, 3), Fall: l(-5, 2),
					Inlet: ConcreteSquareHeadwall + InletType(rng.IntN(8)), Backflow: BackflowReverse}
				s, err := NewCulvert(spec)
				return spec, s, err
			}},
			{"box", func() (any, Structure, error) {
				spec := CulvertSpec{Span: l(-3, 1.3), Rise: l(-3, 1), Length: l(-3, 4), ManningN: pow(-2.3, -1), Invert: l(-3, 3), Fall: l(-5, 2),
					Inlet: BoxWings30To75 + InletType(rng.IntN(8)), Backflow: BackflowReverse}
				s, err := NewCulvert(spec)
				return spec, s, err
			}},
			{"siphon", func() (any, Structure, error) {
				spec := SiphonSpec{Bore: l(-3, 0.7), Length: l(-1, 4), Roughness: l(-7, -3), LossSum: pow(0, 3), UpLength: l(-2, 3), UpLossSum: pow(-2, 0),
					Intake: l(-2, 1), Crest: l(-1, 2), OutletCentre: -l(-2, 2), Atmosphere: 101325, VapourPressure: 2000, Density: 1000, Viscosity: 1e-6}
				s, err := NewSiphon(spec)
				return spec, s, err
			}},
		} {
			spec, s, err := c.build()
			if err != nil {
				continue
			}
			built[c.name]++
			level, tail := l(-6, 4), l(-6, 4)
			q := float64(s.Discharge(level, tail))
			require.False(t, math.IsNaN(q) || math.IsInf(q, 0), "%+v at %v over %v: %v", spec, level, tail, q)
			require.False(t, level > tail && q < 0 || level < tail && q > 0, "%+v at %v over %v runs uphill: %v", spec, level, tail, q)
			_ = s.Control(level, tail)
		}
	}
	for name, n := range built {
		require.Greater(t, n, rounds/200, "%s is hardly ever built", name)
	}
}

// The same for the solvers of channels and racks.
func TestExtremeChannelsAndRacks(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	draw := func(lo, hi float64) float64 { return math.Pow(10, lo+(hi-lo)*rng.Float64()) }
	finite := func(what string, v float64, err error) {
		t.Helper()
		if err == nil {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v < 0 && what != "backwater", "%s: %v without an error", what, v)
		}
	}
	solved := 0
	for range 3000 {
		s := []Section{CircularSection{units.Length(draw(-4, 1.3))}, RectangularSection{units.Length(draw(-4, 4))},
			TrapezoidalSection{units.Length(draw(-4, 4)), 20 * rng.Float64()}}[rng.IntN(3)]
		q, n, slope, y := units.Flow(draw(-9, 4)), draw(-3, 0), units.Slope(draw(-7, 0)), units.Length(draw(-5, 2))
		yn, err := NormalDepth(s, q, n, slope)
		finite("normal depth", float64(yn), err)
		yc, err := CriticalDepth(s, q)
		finite("critical depth", float64(yc), err)
		if err == nil {
			f, err := FroudeNumber(s, q, yc)
			if err == nil && yc > 1e-9 && yc < 0.999*s.MaxDepth() {
				require.InDelta(t, 1, f, 1e-5, "%+v %v", s, q)
				solved++
			}
		}
		ya, err := AlternateDepth(s, q, y)
		finite("alternate depth", float64(ya), err)
		j, err := Jump(s, q, y)
		finite("jump", float64(j.Downstream)+float64(j.EnergyLoss), err)
		x, err := BackwaterLength(ChannelReach{Section: s, Slope: slope, ManningN: n, Flow: q}, y, y*1.01)
		finite("backwater", float64(x), err)

		r, err := NewRack(RackSpec{Law: RackLaw(rng.IntN(3)), Energy: RackEnergy(rng.IntN(2)), VoidRatio: draw(-6, 0), Coefficient: 0.2 + 0.9*rng.Float64(),
			BarPitch: units.Length(draw(-4, 0)), Slope: units.Angle(0.78 * rng.Float64())})
		if err != nil {
			continue
		}
		sheet := Sheet{Flow: units.Flow(draw(-9, 2)), Width: units.Length(draw(-3, 2)), Velocity: units.Velocity(draw(-3, 1.3))}
		length, err := r.WettedLength(sheet)
		finite("wetted length", float64(length), err)
		st, err := r.At(sheet, length*units.Length(rng.Float64()))
		finite("rack state", float64(st.Flow)+float64(st.Depth)+float64(st.Velocity)+st.Intercepted, err)
	}
	require.Greater(t, solved, 1000)
}
