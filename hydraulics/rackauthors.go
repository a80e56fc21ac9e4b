package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// NosedaCoefficient returns the discharge coefficient of T-shaped bars under
// the static head.
//
//	Cq = 0.66 m^-0.16 (h/l)^-0.13
//
// h/l is the depth over the pitch of the bars and m the void ratio.
//
// Validity: 0.2 < h/l < 3.5, m from 0.16 to 0.30 in the tests (from
// memory).
//
// Errors: ErrDomain (value NaN) for an argument that is not above zero or a
// void ratio of one or more; ErrRange, beside the value held at the nearer end,
// outside 0.2 to 3.5.
//
// Source: Noseda, G. (1956), "Correnti permanenti con portata progressivamente
// decrescente, defluenti su griglie di fondo", L'Energia Elettrica 33 (fit from
// memory).
func NosedaCoefficient(depthOverPitch, voidRatio float64) (float64, error) {
	const fn = "hydraulics.NosedaCoefficient"
	err := errors.Join(units.Positive(fn, "depthOverPitch", depthOverPitch, ""), units.Within(fn, "voidRatio", voidRatio, 1e-6, 0.999, ""))
	if err != nil {
		return math.NaN(), err
	}
	c := nosedaC(depthOverPitch, voidRatio)
	if !(depthOverPitch >= nosedaLow && depthOverPitch <= nosedaHigh) {
		return c, &units.InputError{Func: fn, Field: "depthOverPitch", Value: depthOverPitch, Min: nosedaLow, Max: nosedaHigh, Kind: units.ErrRange}
	}
	return c, nil
}

const nosedaLow, nosedaHigh = 0.2, 3.5

// nosedaC is the coefficient, with h/l held at the ends of its range.
func nosedaC(depthOverPitch, m float64) float64 {
	return 0.66 * math.Pow(m, -0.16) * nosedaDepth(depthOverPitch)
}

func nosedaDepth(depthOverPitch float64) float64 {
	return math.Pow(math.Max(nosedaLow, math.Min(nosedaHigh, depthOverPitch)), -0.13)
}

// FrankKappa returns the depth at the first bar over the critical depth of level
// ground.
//
//	2 cos θ κ³ - 3 κ² + 1 = 0
//
// Validity: slopes from 0 to 45 degrees.
//
// Errors: ErrDomain (value NaN) outside 0 to 45 degrees.
//
// Source: Frank, J. (1956), "Hydraulische Untersuchungen für das Tiroler Wehr",
// Der Bauingenieur 31:96-101, the energy of critical flow on level ground kept
// on the slope (from memory; solved here, checked by SciPy).
func FrankKappa(slope units.Angle) (float64, error) {
	if err := units.Within("hydraulics.FrankKappa", "slope", slope.In(units.Degrees), 0, 45, "°"); err != nil {
		return math.NaN(), err
	}
	return frankKappa(math.Cos(slope.Radians())), nil
}

// frankKappa: with u = 1/κ the equation is u³ - 3u + 2c = 0, whose root of at
// least one is 2 cos(acos(-c)/3).
func frankKappa(c float64) float64 { return 1 / (2 * math.Cos(math.Acos(-c)/3)) }

// frankLength is the printed constant. It is 1/∫ √(1 - √(1-u²)) du from 0 to 1,
// or 3/(4 - 2√2) = 2.56066: the water surface is a quarter ellipse that ends
// flat on the bars.
const frankLength = 2.561

// FrankIntercepted returns the share of the flow that has fallen through a rack
// at a distance given as a fraction of [FrankWettedLength], by the quarter
// ellipse of the water surface.
//
//	1 - ∫ √(1 - √(1-v²)) dv from 0 to u over the same from 0 to 1,  u = 1 - x/L
//
// With u = sin t the integral is √2 (cos(t/2) - cos(3t/2)/3 - 2/3).
//
// Errors: ErrDomain (value NaN) for a negative distance; beyond the length the
// share is one.
//
// Source: derived from the surface of Frank (1956).
func FrankIntercepted(distanceOverLength float64) (float64, error) {
	if err := units.NonNegative("hydraulics.FrankIntercepted", "distanceOverLength", distanceOverLength, ""); err != nil {
		return math.NaN(), err
	}
	t := math.Asin(math.Max(0, 1-distanceOverLength))
	part := math.Cos(t/2) - math.Cos(1.5*t)/3 - 2.0/3
	return math.Max(0, 1-part*3/(2*math.Sqrt2-2)), nil
}

// FrankWettedLength returns the length of a rack of bars that takes all of a
// flow that comes from level ground at critical depth.
//
//	L = 2.561 q/(ψ μ √(2g cos θ) √h0),  h0 = κ h_c
//
// ψ is the void ratio, μ the discharge coefficient of the bars: 0.62 to 0.65
// rectangular, 0.75 to 0.85 with round tops, up to 0.9 rounded throughout (from
// memory).
//
// Validity: slopes to 26 degrees in Frank's table of κ.
//
// Errors: ErrDomain (value NaN) for a sheet that cannot be, a void ratio outside
// 0 to 1, μ outside 0.3 to 1 or a slope outside 0 to 45 degrees; ErrRange,
// beside the value, above 26 degrees.
//
// Source: Frank (1956) as [FrankKappa]. Its length lies between those of
// [Rack] under static head with constant specific energy and constant total head.
func FrankWettedLength(s Sheet, voidRatio, mu float64, slope units.Angle) (units.Length, error) {
	const fn = "hydraulics.FrankWettedLength"
	deg := slope.In(units.Degrees)
	err := errors.Join(s.validate(fn), units.Within(fn, "voidRatio", voidRatio, 1e-6, 0.999, ""),
		units.Within(fn, "mu", mu, 0.3, 1, ""), units.Within(fn, "slope", deg, 0, 45, "°"))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	if s.Flow == 0 {
		return 0, nil
	}
	q := float64(s.Flow) / float64(s.Width)
	c := math.Cos(slope.Radians())
	h0 := frankKappa(c) * math.Cbrt(q*q/gravity)
	l := units.Length(frankLength * q / (voidRatio * mu * math.Sqrt(2*gravity*c*h0)))
	if deg > 26 {
		return l, &units.InputError{Func: fn, Field: "slope", Value: deg, Unit: "°", Min: 0, Max: 26, Kind: units.ErrRange}
	}
	return l, nil
}

// KrochinWettedLength returns the length of an intake rack as designed in
// mountain rivers.
//
//	L = (0.313 q/(C k)^1.5)^(2/3),  k = (1 - f) m,  C = C0 - 0.325 tan θ
//
// f is the share of the gaps taken to be blocked, 0.15 to 0.30, m the void ratio
// and C0 0.6 for bars whose depth is over four times the gap, else 0.5.
//
// Errors: ErrDomain (value NaN) for a sheet that cannot be, a void ratio or a
// blocked share outside 0 to 1, c0 outside 0.3 to 0.7, or a slope that leaves no
// coefficient.
//
// Source: Krochin, S. (1978), Diseño Hidráulico, Quito (from memory, not
// confirmed).
func KrochinWettedLength(s Sheet, voidRatio, blocked, c0 float64, slope units.Angle) (units.Length, error) {
	const fn = "hydraulics.KrochinWettedLength"
	c := c0 - 0.325*math.Tan(slope.Radians())
	err := errors.Join(s.validate(fn), units.Within(fn, "voidRatio", voidRatio, 1e-6, 0.999, ""),
		units.Within(fn, "blocked", blocked, 0, 0.99, ""), units.Within(fn, "c0", c0, 0.3, 0.7, ""),
		units.Within(fn, "slope", slope.In(units.Degrees), 0, 35, "°"))
	if err == nil && !(c > 0.1) {
		err = &units.InputError{Func: fn, Field: "slope", Value: slope.In(units.Degrees), Unit: "°", Reason: "so steep that the formula leaves no coefficient"}
	}
	if err != nil {
		return units.Length(math.NaN()), err
	}
	k := c * (1 - blocked) * voidRatio
	x := 0.313 * float64(s.Flow) / float64(s.Width) / (k * math.Sqrt(k))
	return units.Length(math.Cbrt(x * x)), nil
}

// BrunellaWettedLength returns the length of a rack of round bars that takes all
// of a flow that comes from a pool at critical depth.
//
//	C m L/H0 = 0.83
//
// H0 is the critical specific energy; C falls from about 1.10 at a void ratio of
// 0.352 to 0.87 at 0.664, taken as a straight line.
//
// Validity: round bars, void ratios 0.352 to 0.664, slopes below 35 degrees.
//
// Errors: ErrDomain (value NaN) for a sheet that cannot be or a void ratio
// outside 0 to 1; ErrRange, beside the value with C held, outside the void
// ratios tested.
//
// Source: Brunella, S., Hager, W.H. & Minor, H.-E. (2003), "Hydraulics of bottom
// rack intake", J. Hydraul. Eng. 129(1):2-10 (from memory, not confirmed).
func BrunellaWettedLength(s Sheet, voidRatio float64) (units.Length, error) {
	const fn = "hydraulics.BrunellaWettedLength"
	err := errors.Join(s.validate(fn), units.Within(fn, "voidRatio", voidRatio, 1e-6, 0.999, ""))
	if err != nil {
		return units.Length(math.NaN()), err
	}
	const lo, hi = 0.352, 0.664
	c := 1.10 + (0.87-1.10)*(math.Max(lo, math.Min(hi, voidRatio))-lo)/(hi-lo)
	q := float64(s.Flow) / float64(s.Width)
	l := units.Length(0.83 * 1.5 * math.Cbrt(q*q/gravity) / (c * voidRatio))
	if !(voidRatio >= lo && voidRatio <= hi) {
		return l, &units.InputError{Func: fn, Field: "voidRatio", Value: voidRatio, Min: lo, Max: hi, Kind: units.ErrRange}
	}
	return l, nil
}
