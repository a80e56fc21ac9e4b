package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// Recapture is the estimate of a closed population from marked animals.
type Recapture struct {
	N  float64 `json:"n"`
	SE float64 `json:"se"`
	// Low and High are the normal interval N ± z SE at confidence Level; Low is
	// not below the number of different animals seen.
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
	Level float64 `json:"level"`
	// Unbounded tells that the data set no upper end; High is then zero.
	Unbounded bool `json:"unbounded,omitempty"`
}

// Marks is a single mark and recapture: Marked were released marked, Caught were
// caught later, Recaptured of them bore a mark. The marked animals must have
// mixed with the others, and none of the marks may be lost or overlooked.
type Marks struct {
	Marked     int `json:"marked"`
	Caught     int `json:"caught"`
	Recaptured int `json:"recaptured"`
}

// Validate reports every field that cannot be.
func (m Marks) Validate() error {
	const fn = "biomass.Marks"
	all := []error{}
	if m.Marked < 1 {
		all = append(all, &units.InputError{Func: fn, Field: "marked", Value: float64(m.Marked), Reason: "at least one animal"})
	}
	if m.Caught < 1 {
		all = append(all, &units.InputError{Func: fn, Field: "caught", Value: float64(m.Caught), Reason: "at least one animal"})
	}
	if m.Recaptured < 0 || m.Recaptured > min(m.Marked, m.Caught) {
		all = append(all, &units.InputError{Func: fn, Field: "recaptured", Value: float64(m.Recaptured),
			Min: 0, Max: float64(min(m.Marked, m.Caught)), Reason: "cannot exceed the number marked or caught"})
	}
	return errors.Join(all...)
}

// Petersen returns N = M n/m with the standard error √(M² n (n−m)/m³).
//
// Errors: ErrDomain for counts that cannot be; ErrNoSolution for no recaptures
// (Chapman still answers).
//
// Source: Petersen (1896); Krebs (1989), Ecological Methodology, eq. 2.1; standard
// error: Ricker (1975), Bull. Fish. Res. Board Can. 191, eq. 3.6; both as cited in
// the R package FSA.
func (m Marks) Petersen(level float64) (Recapture, error) {
	if m.Recaptured == 0 && m.Validate() == nil {
		return Recapture{}, &units.InputError{Func: "biomass.Marks.Petersen", Field: "recaptured", Value: 0, Kind: units.ErrNoSolution,
			Reason: "without recaptures the population is unbounded; Chapman answers with a large one"}
	}
	return m.estimate("biomass.Marks.Petersen", level, func(M, n, r float64) (float64, float64) {
		return M * n / r, M * M * n * (n - r) / (r * r * r)
	})
}

// Chapman returns the nearly unbiased (M+1)(n+1)/(m+1) − 1 with the variance
// (M+1)(n+1)(M−m)(n−m)/((m+1)²(m+2)). It exists without recaptures.
//
// Errors: ErrDomain for counts that cannot be.
//
// Source: Chapman (1951), Univ. Calif. Publ. Stat. 1:131-160; Krebs (1989),
// Ecological Methodology, eq. 2.2; variance: Seber (1982), The Estimation of Animal
// Abundance, 2nd ed., p. 60; both as cited in the R package FSA.
func (m Marks) Chapman(level float64) (Recapture, error) {
	return m.estimate("biomass.Marks.Chapman", level, func(M, n, r float64) (float64, float64) {
		return (M+1)*(n+1)/(r+1) - 1, (M + 1) * (n + 1) * (M - r) * (n - r) / ((r + 1) * (r + 1) * (r + 2))
	})
}

// Bailey returns M(n+1)/(m+1), for a second catch taken with replacement, with
// the variance M²(n+1)(n−m)/((m+1)²(m+2)).
//
// Errors: ErrDomain for counts that cannot be.
//
// Source: Bailey (1951), Biometrika 38:293-306; Krebs (1989), Ecological
// Methodology, eq. 2.3; variance: Seber (1982), p. 61; both as cited in the R
// package FSA.
func (m Marks) Bailey(level float64) (Recapture, error) {
	return m.estimate("biomass.Marks.Bailey", level, func(M, n, r float64) (float64, float64) {
		return M * (n + 1) / (r + 1), M * M * (n + 1) * (n - r) / ((r + 1) * (r + 1) * (r + 2))
	})
}

func (m Marks) estimate(fn string, level float64, f func(M, n, r float64) (N, variance float64)) (Recapture, error) {
	level, err := confidence(fn, level)
	if err := errors.Join(m.Validate(), err); err != nil {
		return Recapture{}, err
	}
	n, v := f(float64(m.Marked), float64(m.Caught), float64(m.Recaptured))
	r := Recapture{N: n, SE: math.Sqrt(math.Max(0, v)), Level: level}
	half := normalQuantile((1+level)/2) * r.SE
	seen := float64(m.Marked + m.Caught - m.Recaptured)
	r.Low, r.High = math.Max(seen, n-half), n+half
	return r, nil
}
