package oxygen

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestSaturationTable(t *testing.T) {
	equations := map[string]Equation{"BensonKrause1984": BensonKrause1984, "GarciaGordon1992": GarciaGordon1992, "Weiss1970": Weiss1970}
	vapours := map[string]Vapour{"apha": VapourAPHA, "green_carritt": VapourGreenCarritt}
	check.Run(t, "testdata/saturation.csv", map[string]func(check.Row) (float64, error){
		"Saturation": func(r check.Row) (float64, error) {
			c, err := Saturation("f", equations[r.Text("equation")], vapours[r.Text("vapour")], units.Celsius(r.Float("temperature_c")),
				units.PracticalSalinity(r.Float("salinity_psu")), units.AbsolutePressure(r.Float("pressure_pa")))
			return float64(c) * 1000, err
		},
	})
}

func TestAmmoniaTable(t *testing.T) {
	check.Run(t, "testdata/ammonia.csv", map[string]func(check.Row) (float64, error){
		"UnionizedAmmonia": func(r check.Row) (float64, error) {
			return UnionizedAmmonia("f", units.Celsius(r.Float("temperature_c")), r.Float("ph"))
		},
	})
}

func TestSaturationOutsideItsRange(t *testing.T) {
	at := func(c, s, p float64) (units.Concentration, error) {
		return Saturation("f", BensonKrause1984, VapourAPHA, units.Celsius(c), units.PracticalSalinity(s), units.AbsolutePressure(p))
	}
	for _, c := range [][3]float64{{45, 0, 101325}, {20, 45, 101325}, {20, 0, 40e3}} {
		v, err := at(c[0], c[1], c[2])
		require.ErrorIs(t, err, units.ErrRange)
		require.Positive(t, float64(v))
	}
	for _, c := range [][3]float64{{math.NaN(), 0, 101325}, {20, -1, 101325}, {20, 0, 0}, {20, 0, math.Inf(1)}, {-20, 0, 101325}, {99, 0, 50e3}} {
		v, err := at(c[0], c[1], c[2])
		require.ErrorIs(t, err, units.ErrDomain)
		require.True(t, math.IsNaN(float64(v)))
	}
	_, err := Saturation("f", 9, 0, units.Celsius(20), 0, 101325)
	require.ErrorIs(t, err, units.ErrDomain)
	_, err = UnionizedAmmonia("f", units.Celsius(20), math.NaN())
	require.ErrorIs(t, err, units.ErrDomain)
	f, err := UnionizedAmmonia("f", units.Celsius(60), 9)
	require.ErrorIs(t, err, units.ErrRange)
	require.InDelta(t, 0.84, f, 0.01)
	require.Equal(t, "Weiss 1970", Weiss1970.String())
}

func TestSaturationFallsWithHeatSaltAndHeight(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		c, s, p := 39*rng.Float64(), 39*rng.Float64(), 60e3+40e3*rng.Float64()
		for e := range Weiss1970 + 1 {
			v := func(dc, ds, dp float64) float64 {
				x, err := Saturation("f", e, VapourAPHA, units.Celsius(c+dc), units.PracticalSalinity(s+ds), units.AbsolutePressure(p+dp))
				require.NoError(t, err)
				return float64(x)
			}
			require.Less(t, v(0.5, 0, 0), v(0, 0, 0))
			require.Less(t, v(0, 0.5, 0), v(0, 0, 0))
			require.Greater(t, v(0, 0, 500), v(0, 0, 0))
		}
	}
}

// The closed form against a fine Runge-Kutta march of the balance itself.
func TestBalanceAgainstMarching(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		b := Balance{Volume: 5 + 100*rng.Float64(), Exchange: 0.05 * rng.Float64() * float64(rng.IntN(3)), Source: 0.01 * rng.Float64(), Demand: 1e-4 * rng.Float64()}
		start := 0.002 + 0.006*rng.Float64()
		f := func(c float64) float64 { return (b.Exchange*(b.Source-c) - b.Demand) / b.Volume }
		c, span := start, 3600*rng.Float64()
		const n = 2000
		for range n {
			h := span / n
			k1 := f(c)
			k2 := f(c + h/2*k1)
			k3 := f(c + h/2*k2)
			k4 := f(c + h*k3)
			c += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
		}
		require.InDelta(t, c, b.At(start, span), 1e-12)
		if math.Abs(c-start) > 1e-6 { // the time back
			s, met := b.TimeTo(start, b.At(start, span))
			require.True(t, met)
			require.InDelta(t, span, s, 1e-3*span)
		}
		ce := b.Tends(start)
		if !math.IsInf(ce, 0) {
			require.InDelta(t, 0, b.Exchange*(b.Source-ce)-b.Demand, 1e-15)
			_, met := b.TimeTo(start, ce-0.001*(start-ce))
			require.False(t, met, "a limit beyond where the balance tends is never met")
		}
		// The inflow that holds a limit makes it the tended value.
		if q, ok := b.InflowToHold(0.008, 0.003); ok && q > 0 {
			held := Balance{b.Volume, b.Exchange + q, (b.Exchange*b.Source + q*0.008) / (b.Exchange + q), b.Demand}
			require.InDelta(t, 0.003, held.Tends(0), 1e-12)
		}
	}
}

func TestBalanceEdges(t *testing.T) {
	still := Balance{Volume: 1}
	require.Equal(t, 0.005, still.Tends(0.005))
	_, met := still.TimeTo(0.005, 0.003)
	require.False(t, met)
	require.True(t, math.IsInf(Balance{Volume: 1, Demand: 1}.Tends(0), -1))
	require.True(t, math.IsInf(Balance{Volume: 1, Demand: -1}.Tends(0), 1))
	s, met := Balance{Volume: 1, Demand: 1}.TimeTo(5, 5)
	require.True(t, met)
	require.Zero(t, s)
	_, ok := Balance{Volume: 1, Demand: 1}.InflowToHold(2, 3)
	require.False(t, ok)
	q, ok := Balance{Volume: 1, Exchange: 1, Source: 9}.InflowToHold(2, 3)
	require.True(t, ok)
	require.Zero(t, q)
}

func BenchmarkSaturation(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		if _, err := Saturation("f", BensonKrause1984, VapourAPHA, units.Celsius(25), 20, 98000); err != nil {
			b.Fatal(err)
		}
	}
}
