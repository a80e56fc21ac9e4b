package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// MarkSample is one of several samples of a population in which the animals are
// marked and returned.
type MarkSample struct {
	Caught     int `json:"caught"`
	Recaptured int `json:"recaptured"` // of Caught, already marked
	Returned   int `json:"returned"`   // put back with a mark, newly marked or not
}

// MarkSums are the sums over all samples, with M the marked animals at large
// just before each, Σ(returned − recaptured) of the samples before it.
type MarkSums struct {
	CM   float64 `json:"cm"`   // Σ C M
	CM2  float64 `json:"cm2"`  // Σ C M²
	RM   float64 `json:"rm"`   // Σ R M
	R    float64 `json:"r"`    // Σ R
	R2C  float64 `json:"r2C"`  // Σ R²/C
	K    int     `json:"k"`    // samples
	Seen float64 `json:"seen"` // different animals marked
}

// SumMarks returns the sums of a repeated mark and recapture.
//
// Errors: ErrDomain for fewer than two samples or counts that cannot be.
//
// Source: Ricker (1975), Bull. Fish. Res. Board Can. 191, table 3.2 (from memory).
func SumMarks(samples []MarkSample) (MarkSums, error) {
	const fn = "biomass.SumMarks"
	var all []error
	if len(samples) < 2 {
		all = append(all, &units.InputError{Func: fn, Field: "samples", Value: float64(len(samples)), Reason: "at least two are needed"})
	}
	s := MarkSums{K: len(samples)}
	atLarge := 0.0
	for i, v := range samples {
		at := indexed("samples", i)
		if v.Caught < 0 || v.Recaptured < 0 || v.Returned < 0 || v.Recaptured > v.Caught || v.Returned > v.Caught {
			all = append(all, &units.InputError{Func: fn, Field: at, Value: float64(v.Recaptured),
				Reason: "counts are not negative, and neither recaptured nor returned exceeds caught"})
		}
		if float64(v.Recaptured) > atLarge {
			all = append(all, &units.InputError{Func: fn, Field: at + ".recaptured", Value: float64(v.Recaptured), Max: atLarge,
				Reason: "more than were marked before"})
		}
		c, r := float64(v.Caught), float64(v.Recaptured)
		s.CM += c * atLarge
		s.CM2 += c * atLarge * atLarge
		s.RM += r * atLarge
		s.R += r
		if c > 0 {
			s.R2C += r * r / c
		}
		atLarge += float64(v.Returned) - r
		s.Seen = math.Max(s.Seen, atLarge)
	}
	return s, errors.Join(all...)
}

// Schnabel returns ΣCM/ΣR, or with chapman ΣCM/(ΣR+1), which is less biased for
// few recaptures. The interval treats ΣR as Poisson: exact limits by the
// gamma quantiles.
//
// Errors: ErrNoSolution without recaptures, unless chapman is set; ErrDomain for
// sums that cannot be or a level outside 0 to 1.
//
// Source: Schnabel (1938), Am. Math. Mon. 45:348-352; Chapman (1952), Biometrics
// 8:286-306 (from memory); Ricker (1975), eq. 3.15, and 3.16 for the error of 1/N,
// as cited in the R package FSA. SE is first order on 1/N.
func (s MarkSums) Schnabel(chapman bool, level float64) (Recapture, error) {
	const fn = "biomass.MarkSums.Schnabel"
	level, err := confidence(fn, level)
	if err := errors.Join(err, units.Positive(fn, "cm", s.CM, ""), units.Within(fn, "r", s.R, 0, maxPopulation, "animals")); err != nil {
		return Recapture{}, err
	}
	d := s.R
	if chapman {
		d++
	}
	if d == 0 {
		return Recapture{}, &units.InputError{Func: fn, Field: "r", Value: 0, Kind: units.ErrNoSolution, Reason: "no recaptures: the population is unbounded"}
	}
	r := Recapture{N: s.CM / d, Level: level}
	r.SE = r.N * math.Sqrt(s.R) / d
	a := (1 - level) / 2
	r.Low = math.Max(s.Seen, s.CM/gammaQuantile(1-a, s.R+1))
	if s.R > 0 {
		r.High = s.CM / gammaQuantile(a, s.R)
	} else {
		r.Unbounded = true
	}
	if err := soundAll(fn, r.N, r.SE, r.Low, r.High); err != nil {
		return Recapture{}, err
	}
	return r, nil
}

// SchumacherEschmeyer returns ΣCM²/ΣRM, the least-squares line through the origin
// of the marked fraction against M, with the interval from the residuals on k−2
// degrees of freedom.
//
//	s² = (ΣR²/C − (ΣRM)²/ΣCM²)/(k−2),  SE(1/N) = s/√ΣCM²
//
// Low and High are the reciprocals of 1/N ± t SE, without an upper end when the
// interval of 1/N reaches zero.
//
// Errors: ErrDomain for fewer than three samples or a level outside 0 to 1;
// ErrNoSolution without recaptures.
//
// Source: Schumacher and Eschmeyer (1943), J. Tenn. Acad. Sci. 18:228-249; Ricker
// (1975), eq. 3.12; error: Krebs (1989), Ecological Methodology, eq. 2.14, as cited
// in the R package FSA.
func (s MarkSums) SchumacherEschmeyer(level float64) (Recapture, error) {
	const fn = "biomass.MarkSums.SchumacherEschmeyer"
	level, err := confidence(fn, level)
	if s.K < 3 {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "k", Value: float64(s.K), Reason: "at least three samples are needed"})
	}
	if err := errors.Join(err, units.Positive(fn, "cm2", s.CM2, "")); err != nil {
		return Recapture{}, err
	}
	if !(s.RM > 0) {
		return Recapture{}, &units.InputError{Func: fn, Field: "rm", Value: s.RM, Kind: units.ErrNoSolution, Reason: "no recaptures: the population is unbounded"}
	}
	inverse := s.RM / s.CM2
	dof := float64(s.K - 2)
	se := math.Sqrt(math.Max(0, (s.R2C-s.RM*inverse)/dof) / s.CM2)
	half := studentQuantile((1+level)/2, dof) * se
	r := Recapture{N: 1 / inverse, SE: se / (inverse * inverse), Level: level, Low: 1 / (inverse + half)}
	if inverse > half {
		r.High = 1 / (inverse - half)
	} else {
		r.Unbounded = true
	}
	r.Low = math.Max(s.Seen, r.Low)
	if err := soundAll(fn, r.N, r.SE, r.Low, r.High); err != nil {
		return Recapture{}, err
	}
	return r, nil
}
