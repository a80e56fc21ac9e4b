package pumpsizing

import (
	"errors"

	"pondwright.example/units"
)

// ParabolaData gives a head curve by its coefficients instead of points:
//
//	H = ShutOff - Linear Q - Square Q^2
type ParabolaData struct {
	Speed   units.RotationalSpeed `json:"speed"`
	ShutOff units.Length          `json:"shutOff"`
	Linear  float64               `json:"linear"` // s/m2
	Square  float64               `json:"square"` // s2/m5
	Last    units.Flow            `json:"last"`   // end of the data behind the coefficients
}

// ParabolaCurve builds a curve from coefficients found elsewhere.
//
// Errors: ErrDomain for a speed, shut-off head or last flow that is not
// positive, or coefficients that are not finite.
func ParabolaCurve(d ParabolaData) (Curve, error) {
	const fn = "pumpsizing.ParabolaCurve"
	err := errors.Join(
		units.Positive(fn, "speed", d.Speed.In(units.RevolutionsPerMinute), "r/min"),
		units.Positive(fn, "shutOff", d.ShutOff.Metres(), "m"),
		units.Finite(fn, "linear", d.Linear, "s/m2"),
		units.Finite(fn, "square", d.Square, "s2/m5"),
		units.Positive(fn, "last", d.Last.In(units.CubicMetresPerHour), "m3/h"))
	if err != nil {
		return Curve{}, err
	}
	c := Curve{
		quad:      parabola{d.ShutOff.Metres(), d.Linear, d.Square},
		speed:     d.Speed.RadiansPerSecond(),
		last:      d.Last.CubicMetresPerSecond(),
		headScale: 1,
		flowScale: 1,
	}
	c.judge(nil)
	return c, nil
}

// AssumedCurve returns curve data for a pump of which one duty is all that is
// known: shut-off head 4/3 of the rated head, no head at twice the rated flow.
// It is a guess at an ordinary centrifugal pump, to be asked for by name;
// FitCurve itself refuses a single point.
//
// Errors: ErrDomain for a speed, flow or head that is not positive.
// Source: Rossman (2000), US EPA report EPA/600/R-00/057, single-point pump curve (from memory).
func AssumedCurve(rated CurvePoint, speed units.RotationalSpeed) (CurveData, error) {
	const fn = "pumpsizing.AssumedCurve"
	err := positiveDuty(fn, speed, rated.Flow, rated.Head)
	if err == nil {
		err = soundAll(fn, 2*rated.Flow.CubicMetresPerSecond(), rated.Head.Metres()*4/3)
	}
	if err != nil {
		return CurveData{}, err
	}
	return CurveData{Speed: speed, Points: []CurvePoint{
		{Flow: 0, Head: rated.Head * 4 / 3},
		{Flow: rated.Flow, Head: rated.Head},
		{Flow: 2 * rated.Flow, Head: 0},
	}}, nil
}
