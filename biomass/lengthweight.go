package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// LengthWeight is the fitted relation W = a Lᵇ, with W in grams and L in
// millimetres, the units in which it is published.
type LengthWeight struct {
	N       int     `json:"n"`
	LnA     float64 `json:"lnA"` // natural logarithm of a
	Slope   float64 `json:"slope"`
	SlopeSE float64 `json:"slopeSE"`
	// SlopeLow and SlopeHigh bound the exponent with confidence Level.
	SlopeLow  float64 `json:"slopeLow"`
	SlopeHigh float64 `json:"slopeHigh"`
	Level     float64 `json:"level"`
	// S2 is the residual variance of ln W on N − 2 degrees of freedom.
	S2 float64 `json:"s2"`
	// Sprugel and Duan are factors that turn the back-transformed median into a
	// mean: exp(S2/2), and the mean of the exponentials of the residuals.
	Sprugel float64 `json:"sprugel"`
	Duan    float64 `json:"duan"`
	// TIsometry is the t value of the exponent against 3, PIsometry its two-sided
	// probability: small when shape changes with growth.
	TIsometry float64 `json:"tIsometry"`
	PIsometry float64 `json:"pIsometry"`
	// Low and High are the shortest and longest animal of the fit.
	Low  units.Length `json:"low"`
	High units.Length `json:"high"`

	// LnLengthMean and LnLengthSxx are the mean of ln L and the sum of squares about
	// it, which the prediction interval needs.
	LnLengthMean float64 `json:"lnLengthMean"`
	LnLengthSxx  float64 `json:"lnLengthSxx"`
}

// FitLengthWeight fits ln W = ln a + b ln L by least squares.
//
// Level is the confidence of the limits; zero means 0.95.
//
// Errors: ErrDomain for lists of different length, fewer than three animals, a
// length or weight not above zero, or all lengths equal.
//
// Source: Ricker (1975), Bull. Fish. Res. Board Can. 191, sec. 9.3; Sprugel
// (1983), Ecology 64:209-210; Duan (1983), J. Am. Stat. Assoc. 78:605-610 (from
// memory).
func FitLengthWeight(lengths []units.Length, weights []units.Mass, level float64) (LengthWeight, error) {
	const fn = "biomass.FitLengthWeight"
	level, err := confidence(fn, level)
	all := []error{err}
	if len(lengths) != len(weights) || len(lengths) < 3 {
		all = append(all, &units.InputError{Func: fn, Field: "weights", Value: float64(len(weights)),
			Reason: "one weight is needed for each length, and at least three animals"})
		return LengthWeight{}, errors.Join(all...)
	}
	x, y := make([]float64, len(lengths)), make([]float64, len(lengths))
	lw := LengthWeight{N: len(lengths), Level: level, Low: lengths[0], High: lengths[0]}
	for i := range lengths {
		all = append(all, units.Positive(fn, indexed("lengths", i), lengths[i].Metres(), "m"),
			units.Positive(fn, indexed("weights", i), weights[i].Kilograms(), "kg"))
		x[i], y[i] = math.Log(lengths[i].In(units.Millimetres)), math.Log(weights[i].In(units.Grams))
		lw.Low, lw.High = min(lw.Low, lengths[i]), max(lw.High, lengths[i])
	}
	if lw.Low == lw.High {
		all = append(all, &units.InputError{Func: fn, Field: "lengths", Value: lw.Low.Metres(), Unit: "m", Reason: "all are equal: no slope follows"})
	}
	if err := errors.Join(all...); err != nil {
		return LengthWeight{}, err
	}
	l := fitLine(x, y)
	lw.LnA, lw.Slope, lw.SlopeSE, lw.S2 = l.intercept, l.slope, l.slopeSE, l.s*l.s
	lw.LnLengthMean, lw.LnLengthSxx = l.xMean, l.sxx
	dof := l.n - 2
	half := studentQuantile((1+level)/2, dof) * l.slopeSE
	lw.SlopeLow, lw.SlopeHigh = l.slope-half, l.slope+half
	lw.Sprugel = math.Exp(lw.S2 / 2)
	for i := range x {
		lw.Duan += math.Exp(y[i]-l.intercept-l.slope*x[i]) / l.n
	}
	lw.PIsometry = 1
	if l.slopeSE > 0 {
		lw.TIsometry = (l.slope - 3) / l.slopeSE
		lw.PIsometry = 2 * studentCDF(-math.Abs(lw.TIsometry), dof)
	}
	if err := soundAll(fn, lw.LnA, lw.Slope, lw.SlopeSE, lw.S2, lw.SlopeLow, lw.SlopeHigh, lw.Sprugel, lw.Duan, lw.TIsometry, lw.PIsometry, lw.LnLengthMean, lw.LnLengthSxx); err != nil {
		return LengthWeight{}, err
	}
	return lw, nil
}

// WeightPrediction is the weight of an animal of a given length.
type WeightPrediction struct {
	Median units.Mass `json:"median"` // a Lᵇ
	Mean   units.Mass `json:"mean"`   // Median · exp(s²/2)
	// Low and High hold the weight of one animal with the fit's confidence.
	Low     units.Mass     `json:"low"`
	High    units.Mass     `json:"high"`
	Notices []units.Notice `json:"notices,omitempty"`
}

// Predict returns the weight of one animal of length l with its prediction
// interval.
//
//	ln W ± t(n−2) s √(1 + 1/n + (ln L − mean)²/Sxx)
//
// A length outside the lengths of the fit raises a notice.
//
// Errors: ErrDomain for a length not above zero or a fit that was not made by
// [FitLengthWeight].
//
// Source: Sprugel (1983), Ecology 64:209-210; prediction limits of a straight
// line: Draper and Smith (1998), Applied Regression Analysis, sec. 3.1 (from
// memory).
func (lw LengthWeight) Predict(l units.Length) (WeightPrediction, error) {
	const fn = "biomass.LengthWeight.Predict"
	err := units.Positive(fn, "l", l.Metres(), "m")
	if !(lw.LnLengthSxx > 0 && lw.N >= 3 && lw.S2 >= 0 && lw.Level > 0 && lw.Level < 1) {
		err = errors.Join(err, &units.InputError{Func: fn, Field: "fit", Value: 0, Reason: "the relation was not made by FitLengthWeight"})
	}
	if err != nil {
		return WeightPrediction{}, err
	}
	x := math.Log(l.In(units.Millimetres))
	y := lw.LnA + lw.Slope*x
	n := float64(lw.N)
	half := studentQuantile((1+lw.Level)/2, n-2) * math.Sqrt(lw.S2*(1+1/n+(x-lw.LnLengthMean)*(x-lw.LnLengthMean)/lw.LnLengthSxx))
	p := WeightPrediction{
		Median: units.Grams.Of(math.Exp(y)),
		Mean:   units.Grams.Of(math.Exp(y) * lw.Sprugel),
		Low:    units.Grams.Of(math.Exp(y - half)),
		High:   units.Grams.Of(math.Exp(y + half)),
	}
	if err := soundAll(fn, p.Median.Kilograms(), p.Mean.Kilograms(), p.Low.Kilograms(), p.High.Kilograms()); err != nil {
		return WeightPrediction{}, err
	}
	if n, out := units.Outside(CodeLengthRange, "l", l.In(units.Millimetres), lw.Low.In(units.Millimetres), lw.High.In(units.Millimetres), "mm", "range of the fitted data"); out {
		p.Notices = append(p.Notices, n)
	}
	return p, nil
}

// ConditionFactor returns Fulton's condition K = 10⁵ W/L³ with W in grams and L
// in millimetres.
//
// Errors: ErrDomain for a weight or length not above zero.
//
// Source: Fulton (1904), 22nd Ann. Rep. Fish. Board Scotland; Ricker (1975),
// sec. 9.3 (from memory).
func ConditionFactor(w units.Mass, l units.Length) (float64, error) {
	const fn = "biomass.ConditionFactor"
	if err := errors.Join(units.Positive(fn, "w", w.Kilograms(), "kg"), units.Positive(fn, "l", l.Metres(), "m")); err != nil {
		return math.NaN(), err
	}
	mm := l.In(units.Millimetres)
	return sound(fn, 1e5*w.In(units.Grams)/(mm*mm*mm))
}

// RelativeCondition returns the weight of an animal over the one that the
// relation gives for its length, Kn = W/(a Lᵇ): above one is fat.
//
// Errors: as [LengthWeight.Predict], and ErrDomain for a weight not above zero.
//
// Source: Le Cren (1951), J. Anim. Ecol. 20:201-219 (from memory).
func (lw LengthWeight) RelativeCondition(w units.Mass, l units.Length) (float64, error) {
	const fn = "biomass.LengthWeight.RelativeCondition"
	p, err := lw.Predict(l)
	if err := errors.Join(err, units.Positive(fn, "w", w.Kilograms(), "kg")); err != nil {
		return math.NaN(), err
	}
	return sound(fn, w.Kilograms()/p.Median.Kilograms())
}
