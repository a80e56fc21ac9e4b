package biomass

import (
	"math"
	"testing"

	"pondwright.example/internal/check"
)

func TestRemovalTable(t *testing.T) {
	estimate := func(f func([]int) (Removal, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			e, err := f(ints(r.Floats("catches")))
			return pick(r, err, map[string]float64{"n": e.N, "p": e.P, "se": e.SE, "chi_square": e.ChiSquare, "scaled_se": e.ScaledSE,
				"left": e.Left(), "next": e.NextPass()})
		}
	}
	two := func(f func(a, b int) (Removal, error)) func([]int) (Removal, error) {
		return func(c []int) (Removal, error) { return f(c[0], c[1]) }
	}
	check.Run(t, "testdata/removal.csv", map[string]func(check.Row) (float64, error){
		"Zippin":           estimate(Zippin),
		"CarleStrub":       estimate(CarleStrub),
		"RemovalML":        estimate(RemovalML),
		"Removal.Left":     estimate(CarleStrub),
		"Removal.NextPass": estimate(CarleStrub),
		"Removal.PassesToRecover": func(r check.Row) (float64, error) {
			n, err := Removal{N: r.Float("population"), P: r.Float("p"), Total: int(r.Float("total"))}.PassesToRecover(r.Float("fraction"))
			return float64(n), err
		},
		"SeberTwoPass":   estimate(two(SeberTwoPass)),
		"RobsonRegier":   estimate(two(RobsonRegier)),
		"SeberThreePass": estimate(func(c []int) (Removal, error) { return SeberThreePass(c[0], c[1], c[2]) }),
		"Schnute": func(r check.Row) (float64, error) {
			e, err := Schnute(ints(r.Floats("catches")))
			return pick(r, err, map[string]float64{"n": e.N, "p1": e.P1, "p": e.P, "likelihood_ratio": e.LikelihoodRatio, "p_value": e.PValue})
		},
		"RemovalPosterior": func(r check.Row) (float64, error) {
			e, err := RemovalPosterior(ints(r.Floats("catches")), RemovalPriors{Max: int(r.Float("max"))})
			return pick(r, err, map[string]float64{"mean": e.Mean, "mode": float64(e.Mode), "median": float64(e.Median),
				"q025": float64(e.Q025), "q975": float64(e.Q975)})
		},
	})
}

func TestDepletionTable(t *testing.T) {
	estimate := func(f func([]Effort, DepletionTiming) (Depletion, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			c, e := r.Floats("catches"), r.Floats("efforts")
			in := make([]Effort, len(c))
			for i := range c {
				in[i] = Effort{Catch: c[i], Effort: e[i]}
			}
			if r.Has("others") {
				for i, o := range r.Floats("others") {
					in[i].Other = o
				}
			}
			timing := BeforeInterval
			if r.Text("timing") == "mid" {
				timing = MidInterval
			}
			d, err := f(in, timing)
			return pick(r, err, map[string]float64{"n0": d.N0, "q": d.Q, "se_n": d.SEN, "se_q": d.SEQ, "q7": 7 * d.Q})
		}
	}
	check.Run(t, "testdata/depletion.csv", map[string]func(check.Row) (float64, error){"Leslie": estimate(Leslie), "DeLury": estimate(DeLury)})
}

func TestRecaptureTable(t *testing.T) {
	marks := func(f func(Marks, float64) (Recapture, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			e, err := f(Marks{Marked: int(r.Float("marked")), Caught: int(r.Float("caught")), Recaptured: int(r.Float("recaptured"))}, 0)
			return pick(r, err, map[string]float64{"n": e.N, "se": e.SE, "low": e.Low, "high": e.High})
		}
	}
	sums := func(r check.Row) (MarkSums, error) {
		c, m, b := ints(r.Floats("samples_caught")), ints(r.Floats("samples_recaptured")), ints(r.Floats("samples_returned"))
		var s []MarkSample
		for i := range c {
			s = append(s, MarkSample{Caught: c[i], Recaptured: m[i], Returned: b[i]})
		}
		return SumMarks(s)
	}
	check.Run(t, "testdata/recapture.csv", map[string]func(check.Row) (float64, error){
		"Marks.Petersen": marks(Marks.Petersen),
		"Marks.Chapman":  marks(Marks.Chapman),
		"Marks.Bailey":   marks(Marks.Bailey),
		"SumMarks": func(r check.Row) (float64, error) {
			s, err := sums(r)
			return pick(r, err, map[string]float64{"cm": s.CM, "cm2": s.CM2, "rm": s.RM, "r": s.R, "r2c": s.R2C})
		},
		"MarkSums.Schnabel": func(r check.Row) (float64, error) {
			s, err := sums(r)
			if err != nil {
				return math.NaN(), err
			}
			e, err := s.Schnabel(r.Text("quantity") == "n_chapman", 0)
			half := normalQuantile(0.975) * e.SE / (e.N * e.N)
			return pick(r, err, map[string]float64{"n": e.N, "n_chapman": e.N, "se": e.SE, "low": e.Low, "high": e.High,
				"low_of_inverse": 1 / (1/e.N + half), "high_of_inverse": 1 / (1/e.N - half)})
		},
		"MarkSums.SchumacherEschmeyer": func(r check.Row) (float64, error) {
			s, err := sums(r)
			if err != nil {
				return math.NaN(), err
			}
			e, err := s.SchumacherEschmeyer(0)
			return pick(r, err, map[string]float64{"n": e.N, "low": e.Low, "high": e.High})
		},
	})
}
