package biomass

import (
	"fmt"
	"math"
	"testing"

	"pondwright.example/internal/check"
	"pondwright.example/units"
)

func TestSampleTable(t *testing.T) {
	mean := func(r check.Row, m MeanWeight, err error) (float64, error) {
		return pick(r, err, map[string]float64{
			"mean_g": m.Mean.In(units.Grams), "sd_g": m.SD.In(units.Grams), "se_g": m.SE.In(units.Grams),
			"low_g": m.Low.In(units.Grams), "high_g": m.High.In(units.Grams), "animal_cv": float64(m.SD / m.Mean),
		})
	}
	size := func(f func(SampleSizeInput) (int, error)) func(check.Row) (float64, error) {
		return func(r check.Row) (float64, error) {
			n, err := f(SampleSizeInput{CV: r.Float("animal_cv"), HalfWidth: r.Float("half_width"), Population: int(optional(r, "population", 0))})
			return float64(n), err
		}
	}
	check.Run(t, "testdata/sample.csv", map[string]func(check.Row) (float64, error){
		"SampleMean": func(r check.Row) (float64, error) {
			m, err := SampleMean(grams(r.Floats("weights_g")), SampleOptions{Population: int(optional(r, "population", 0))})
			return mean(r, m, err)
		},
		"BatchMean": func(r check.Row) (float64, error) {
			masses, counts := grams(r.Floats("batch_masses_g")), ints(r.Floats("batch_counts"))
			var b []Batch
			for i := range masses {
				b = append(b, Batch{Mass: masses[i], Count: counts[i]})
			}
			m, err := BatchMean(b, SampleOptions{})
			return mean(r, m, err)
		},
		"ZeroAcceptanceSample": func(r check.Row) (float64, error) {
			n, err := ZeroAcceptanceSample(r.Float("limit"), optional(r, "level", 0))
			return float64(n), err
		},
		"WeightProjection.Project": func(r check.Row) (float64, error) {
			m, cv, err := WeightProjection{Sampled: 18 * units.Gram, SampledCV: 0.03, Gain: 1.4 * units.Gram, GainCV: 0.25, Elapsed: days(10)}.Project()
			return pick(r, err, map[string]float64{"mean_g": m.In(units.Grams), "cv": cv})
		},
		"SampleSize":  size(SampleSize),
		"SampleSizeT": size(SampleSizeT),
	})
}

var edgeRules = map[string]EdgeRule{"midway": EdgeMidway, "upper": EdgeUpperLabel, "lower": EdgeLowerLabel}

func TestCountTable(t *testing.T) {
	perPound := func(r check.Row) units.CountPerMass { return units.CountsPerPound.Of(r.Float("count_per_lb")) }
	check.Run(t, "testdata/count.csv", map[string]func(check.Row) (float64, error){
		"WeightAtCount": func(r check.Row) (float64, error) {
			w, err := WeightAtCount(perPound(r))
			return w.In(units.Grams), err
		},
		"CountOf": func(r check.Row) (float64, error) {
			c, err := CountOf(units.Grams.Of(r.Float("weight_g")))
			return c.CountsPerKilogram(), err
		},
		"HeadOnCount": func(r check.Row) (float64, error) {
			c, err := HeadOnCount(perPound(r), r.Float("yield"))
			return c.In(units.CountsPerPound), err
		},
		"HeadlessCount": func(r check.Row) (float64, error) {
			c, err := HeadlessCount(perPound(r), r.Float("yield"))
			return c.In(units.CountsPerPound), err
		},
		"CountTable.EdgeOf": func(r check.Row) (float64, error) {
			return HeadlessPerPound(edgeRules[r.Text("edge")]).EdgeOf(int(r.Float("index"))).In(units.CountsPerPound), nil
		},
		"CountTable.ClassOf": func(r check.Row) (float64, error) {
			return float64(HeadlessPerPound(edgeRules[r.Text("edge")]).ClassOf(perPound(r))), nil
		},
	})
}

func TestSharesTable(t *testing.T) {
	check.Run(t, "testdata/shares.csv", map[string]func(check.Row) (float64, error){
		"WeightDistribution.Shares": func(r check.Row) (float64, error) {
			d := WeightDistribution{}
			if r.Text("shape") == "normal" {
				d.Shape = NormalWeights
			}
			f, m, c := r.Floats("fractions"), r.Floats("means_g"), r.Floats("cvs")
			for i := range f {
				d.Cohorts = append(d.Cohorts, Cohort{Fraction: f[i], MeanWeight: units.Grams.Of(m[i]), CV: c[i]})
			}
			table := HeadlessPerPound(EdgeMidway)
			if r.Has("under") { // U/10 read as 10 or fewer
				table.Classes[0].High, table.Classes[1].Low = r.Float("under"), r.Float("under")+1
			}
			s, err := d.Shares(table, r.Float("yield"))
			for _, k := range s.Classes {
				if k.Class == r.Text("class") {
					return pick(r, err, map[string]float64{"number": k.Number, "mass": k.Mass})
				}
			}
			return math.NaN(), fmt.Errorf("no class %q: %w", r.Text("class"), err)
		},
	})
}
