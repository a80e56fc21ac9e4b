package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Stratum is a zone of the pond that was cast on its own, such as the feeding
// band, the deep end or the open middle.
type Stratum struct {
	Area  units.Area `json:"area"`
	Casts Casts      `json:"casts"`
}

// Stratify combines the casts of several zones into one mean count per cast
// weighted by area, so that a feeding band cast more often does not count for
// more than its area:
//
//	m = Σ Wₕ mₕ,  var(m) = Σ Wₕ² sₕ²/nₕ,  Wₕ = Aₕ/ΣA
//
// The result is a Casts whose N is the total and whose SD is the one of N simple
// casts with that variance, so that it can go into [CastNet].
//
// Errors: ErrDomain for no strata, an area not above zero, casts that cannot be,
// or a stratum with animals but a single cast, whose spread is unknown.
//
// Source: Cochran (1977), Sampling Techniques, 3rd ed., eq. 5.1 and 5.7 (from
// memory).
func Stratify(strata []Stratum) (Casts, error) {
	const fn = "biomass.Stratify"
	if len(strata) == 0 {
		return Casts{}, &units.InputError{Func: fn, Field: "strata", Value: 0, Reason: "at least one stratum is needed"}
	}
	var all []error
	total := 0.0
	for i, s := range strata {
		at := indexed("strata", i)
		all = append(all,
			units.Positive(fn, at+".area", s.Area.SquareMetres(), "m2"),
			units.AtField(at+".casts", s.Casts.Validate()))
		if s.Casts.N == 1 && s.Casts.Mean > 0 && len(strata) > 1 {
			all = append(all, &units.InputError{Func: fn, Field: at + ".casts.n", Value: 1,
				Reason: "a stratum needs two casts or more to show its spread; merge it with a like one"})
		}
		total += s.Area.SquareMetres()
	}
	if err := errors.Join(all...); err != nil {
		return Casts{}, err
	}
	var k Casts
	variance := 0.0
	for _, s := range strata {
		w := s.Area.SquareMetres() / total
		k.N += s.Casts.N
		k.Mean += w * s.Casts.Mean
		variance += w * w * s.Casts.SD * s.Casts.SD / float64(s.Casts.N)
	}
	k.SD = math.Sqrt(variance * float64(k.N))
	if err := soundAll(fn, k.Mean, k.SD); err != nil {
		return Casts{}, err
	}
	return k, nil
}
