package drawdown

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// bandPond is a pond of known volume for the band test: a disc of radius 50
// with bed z(r) or z(x, y), water at 1.5.
type bandPond struct {
	z      func(x, y float64) float64
	volume float64
}

func bandPonds() map[string]bandPond {
	// Volumes by fine polar quadrature of 1.5 - z.
	volume := func(z func(x, y float64) float64) float64 {
		v := 0.0
		const nr, na = 400, 400
		for i := range nr {
			r := 50 * (float64(i) + 0.5) / nr
			for j := range na {
				a := 2 * math.Pi * (float64(j) + 0.5) / na
				v += (1.5 - z(r*math.Cos(a), r*math.Sin(a))) * r * 50 / nr * 2 * math.Pi / na
			}
		}
		return v
	}
	ponds := map[string]bandPond{}
	for name, z := range map[string]func(x, y float64) float64{
		"bowl": func(x, y float64) float64 { return 1.5 * (x*x + y*y) / 2500 },
		"levee": func(x, y float64) float64 { // flat floor, banks of 10 m
			return 1.5 * math.Max(0, (math.Hypot(x, y)-40)/10)
		},
		"valley": func(x, y float64) float64 { // a ditch along x in a bowl
			return 1.5*(x*x+y*y)/2500 - 0.5*math.Exp(-y*y/50)*(1-(x*x+y*y)/2500)
		},
	} {
		ponds[name] = bandPond{z, volume(z)}
	}
	return ponds
}

// Random surveys of ponds with a known volume: the interval must hold the truth
// 95 times of 100 or better, and still say something.
func TestBedBandHoldsTheTruth(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 32))
	ponds := bandPonds()
	for _, name := range []string{"bowl", "levee", "valley"} {
		pond := ponds[name]
		for _, c := range []struct {
			rough  float64
			points int
		}{{0, 200}, {0.05, 200}, {0.02, 60}, {0.05, 1500}} {
			const rounds = 100
			held, off, width := 0, 0.0, 0.0
			for range rounds {
				var shore []SurveyPoint
				for i := range 200 {
					a := 2 * math.Pi * float64(i) / 200
					shore = append(shore, bedPoint(50*math.Cos(a), 50*math.Sin(a), 1.5))
				}
				pts := make([]SurveyPoint, 0, c.points)
				for len(pts) < c.points {
					x, y := 100*rng.Float64()-50, 100*rng.Float64()-50
					if math.Hypot(x, y) < 49.5 {
						pts = append(pts, bedPoint(x, y, pond.z(x, y)+c.rough*rng.NormFloat64()))
					}
				}
				s := bedSurvey(pts)
				s.Shore = shore
				b, err := s.Bed()
				require.NoError(t, err)
				band := b.Band(1.5)
				width += float64(band.StandardError) / rounds
				z := (pond.volume - float64(band.Volume+band.Hidden)) / float64(band.StandardError)
				off += z * z / rounds
				if float64(band.Low) <= pond.volume && pond.volume <= float64(band.High) {
					held++
				}
			}
			t.Logf("%s, %d points, roughness %g: held %d of %d, standard error %.2g %% of the volume, root mean square of error over it %.2g",
				name, c.points, c.rough, held, rounds, 100*width/pond.volume, math.Sqrt(off))
			require.GreaterOrEqual(t, held, 95, name)
			require.Less(t, width, 0.1*pond.volume, "the band must not be so wide as to say nothing")
		}
	}
}
