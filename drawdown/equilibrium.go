package drawdown

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"time"

	"pondwright.example/units"
)

// node names how a constituent follows the moon's node, in powers of the
// factors of M2, O1, K1 and K2 and in multiples of their angles, or by a form of
// its own.
type node struct {
	m2, o1, k1, k2 float64 // angle multiples; the factor takes their absolute values as powers
	own            byte    // 'J' J1, 'O' OO1, 'F' Mf, 'M' Mm, 'L' L2, '1' M1
}

// argument is the equilibrium argument in multiples of the mean sun's hour angle
// T, the mean longitudes s of the moon and h of the sun, of the lunar perigee p
// and of the solar perigee p1, plus a constant in degrees.
type argument struct {
	name           string
	t, s, h, p, p1 float64
	plus           float64
	node           node
}

var (
	asM2 = node{m2: 1}
	asO1 = node{o1: 1}
	none = node{}
)

// constituents lists the equilibrium arguments.
//
// Source: Schureman (1958), Special Publication 98, table 2 (from memory); the
// predictions they give are held to those of a national tide service by test.
var constituents = []argument{
	{"M2", 2, -2, 2, 0, 0, 0, asM2}, {"S2", 2, 0, 0, 0, 0, 0, none}, {"N2", 2, -3, 2, 1, 0, 0, asM2}, {"K2", 2, 0, 2, 0, 0, 0, node{k2: 1}},
	{"NU2", 2, -3, 4, -1, 0, 0, asM2}, {"MU2", 2, -4, 4, 0, 0, 0, asM2}, {"2N2", 2, -4, 2, 2, 0, 0, asM2}, {"LAM2", 2, -1, 0, 1, 0, 180, asM2},
	{"L2", 2, -1, 2, -1, 0, 180, node{own: 'L'}}, {"T2", 2, 0, -1, 0, 1, 0, none}, {"R2", 2, 0, 1, 0, -1, 180, none}, {"2SM2", 2, 2, -2, 0, 0, 0, node{m2: -1}},
	{"K1", 1, 0, 1, 0, 0, -90, node{k1: 1}}, {"O1", 1, -2, 1, 0, 0, 90, asO1}, {"P1", 1, 0, -1, 0, 0, 90, none}, {"Q1", 1, -3, 1, 1, 0, 90, asO1},
	{"2Q1", 1, -4, 1, 2, 0, 90, asO1}, {"RHO", 1, -3, 3, -1, 0, 90, asO1}, {"J1", 1, 1, 1, -1, 0, -90, node{own: 'J'}}, {"OO1", 1, 2, 1, 0, 0, -90, node{own: 'O'}},
	{"M1", 1, -1, 1, 1, 0, -90, node{own: '1'}}, {"S1", 1, 0, 0, 0, 0, 0, none},
	{"M3", 3, -3, 3, 0, 0, 0, node{m2: 1.5}}, {"MK3", 3, -2, 3, 0, 0, -90, node{m2: 1, k1: 1}}, {"2MK3", 3, -4, 3, 0, 0, 90, node{m2: 2, k1: -1}},
	{"M4", 4, -4, 4, 0, 0, 0, node{m2: 2}}, {"MN4", 4, -5, 4, 1, 0, 0, node{m2: 2}}, {"MS4", 4, -2, 2, 0, 0, 0, asM2}, {"S4", 4, 0, 0, 0, 0, 0, none},
	{"M6", 6, -6, 6, 0, 0, 0, node{m2: 3}}, {"S6", 6, 0, 0, 0, 0, 0, none}, {"M8", 8, -8, 8, 0, 0, 0, node{m2: 4}},
	{"SA", 0, 0, 1, 0, 0, 0, none}, {"SSA", 0, 0, 2, 0, 0, 0, none}, {"MM", 0, 1, 0, -1, 0, 0, node{own: 'M'}}, {"MF", 0, 2, 0, 0, 0, 0, node{own: 'F'}}, {"MSF", 0, 2, -2, 0, 0, 0, node{m2: -1}},
}

// NewConstituent returns a constituent of a [HarmonicTide] by its usual name
// (M2, S2, N2, K1, O1 and so on; upper or lower case) from the harmonic
// constants of a station, amplitude and Greenwich phase lag, with the speed, the
// equilibrium argument and the nodal factor and angle worked out for the tide's
// reference time. A reference in the middle of the days planned for keeps the
// node's part right within a millimetre or so for months.
//
// Phase lags given for a local zone must be turned to Greenwich first. An
// unknown name is an error that lists the known ones.
//
// Validity: 1900 to 2100. The forms of M1 and L2 are the least certain.
//
// Source: Schureman (1958), Manual of Harmonic Analysis and Prediction of
// Tides, Special Publication 98 (from memory); mean longitudes of Meeus (1998),
// Astronomical Algorithms, chs 22, 25 and 47 (from memory).
func NewConstituent(name string, amplitude units.Length, lag units.Angle, reference time.Time) (Constituent, error) {
	const fn = "drawdown.NewConstituent"
	if err := joinErrors([]error{units.NonNegative(fn, "amplitude", float64(amplitude), "m"), units.Finite(fn, "lag", float64(lag), "rad")}); err != nil {
		return Constituent{}, err
	}
	if reference.IsZero() {
		return Constituent{}, &units.InputError{Func: fn, Field: "reference", Value: 0, Reason: "state the tide's reference time"}
	}
	for _, a := range constituents {
		if strings.EqualFold(a.name, name) {
			l := longitudesAt(reference)
			f, u := a.node.at(l)
			return Constituent{Name: a.name, Amplitude: amplitude, PhaseLag: lag, DegreesPerHour: a.speed(),
				Equilibrium: degrees(a.at(l)), NodalFactor: f, NodalCorrection: degrees(u)}, nil
		}
	}
	var known []string
	for _, a := range constituents {
		known = append(known, a.name)
	}
	sort.Strings(known)
	return Constituent{}, &units.InputError{Func: fn, Field: "name", Value: math.NaN(), Reason: fmt.Sprintf("%q is none of %s", name, strings.Join(known, " "))}
}

// degrees is an angle of less than half a turn either way.
func degrees(d float64) units.Angle {
	return units.Angle(d-360*math.Round(d/360)) * units.Degree
}

// longitudes are the mean longitudes of a moment, in degrees.
type longitudes struct{ t, s, h, p, n, p1 float64 }

// Meeus (1998), ch. 47 (moon), 25 (sun) and 22 (node); degrees per century.
const (
	moonRate, sunRate, perigeeRate, sunPerigeeRate = 481267.88123421, 36000.76983, 4069.0137287, 1.71946
)

func longitudesAt(t time.Time) longitudes {
	u := t.UTC()
	days := u.Sub(time.Date(2000, 1, 1, 12, 0, 0, 0, time.UTC)).Hours() / 24
	c := days / 36525
	hours := float64(u.Hour()) + float64(u.Minute())/60 + (float64(u.Second())+float64(u.Nanosecond())/1e9)/3600
	return longitudes{
		t:  180 + 15*hours,
		s:  218.3164477 + moonRate*c,
		h:  280.46646 + sunRate*c,
		p:  83.3532465 + perigeeRate*c,
		n:  125.04452 - 1934.136261*c,
		p1: 282.93735 + sunPerigeeRate*c,
	}
}

func (a argument) at(l longitudes) float64 {
	return a.t*l.t + a.s*l.s + a.h*l.h + a.p*l.p + a.p1*l.p1 + a.plus
}

// speed is the rate of the argument in degrees per hour.
func (a argument) speed() float64 {
	const hours = 36525 * 24
	return 15*a.t + (a.s*moonRate+a.h*sunRate+a.p*perigeeRate+a.p1*sunPerigeeRate)/hours
}

// at returns the nodal factor and angle in degrees.
//
// Source: Schureman (1958), eqs. 65 to 78 and 196 to 235 (from memory).
func (n node) at(l longitudes) (f, u float64) {
	const deg = math.Pi / 180
	// Obliquity I of the moon's orbit and its crossings with the equator.
	node := l.n * deg
	inc := math.Acos(0.91370 - 0.03569*math.Cos(node))
	half := math.Mod(node, 2*math.Pi) / 2
	a, b := math.Atan(1.01883*math.Tan(half)), math.Atan(0.64412*math.Tan(half))
	xi, nu := 2*half-a-b, a-b
	s2, c2 := math.Sin(2*inc), math.Cos(inc/2)
	sin, cos4 := math.Sin(inc), c2*c2*c2*c2
	tan2 := math.Tan(inc/2) * math.Tan(inc/2)
	fM2, uM2 := cos4/0.9154, 2*xi-2*nu
	fO1, uO1 := sin*c2*c2/0.3800, 2*xi-nu
	fK1 := math.Sqrt(0.8965*s2*s2 + 0.6001*s2*math.Cos(nu) + 0.1006)
	uK1 := -math.Atan2(s2*math.Sin(nu), s2*math.Cos(nu)+0.3347)
	fK2 := math.Sqrt(19.0444*sin*sin*sin*sin + 2.7702*sin*sin*math.Cos(2*nu) + 0.0981)
	uK2 := -math.Atan2(sin*sin*math.Sin(2*nu), sin*sin*math.Cos(2*nu)+0.0727)
	p := l.p*deg - xi // longitude of perigee from the moon's crossing
	switch n.own {
	case 'J':
		return s2 / 0.7214, -nu / deg
	case 'O':
		return sin * math.Sin(inc/2) * math.Sin(inc/2) / 0.0164, (-2*xi - nu) / deg
	case 'F':
		return sin * sin / 0.1578, -2 * xi / deg
	case 'M':
		return (2./3 - sin*sin) / 0.5021, 0
	case 'L':
		r := math.Atan2(math.Sin(2*p), 1/(6*tan2)-math.Cos(2*p))
		return fM2 * math.Sqrt(1-12*tan2*math.Cos(2*p)+36*tan2*tan2), (uM2 - r) / deg
	case '1':
		q := math.Atan2(0.483*math.Sin(p), math.Cos(p))
		return fO1 * math.Sqrt(2.310+1.435*math.Cos(2*p)), (-nu + q - p) / deg // its argument V carries +p, Schureman's does not
	}
	f = math.Pow(fM2, math.Abs(n.m2)) * math.Pow(fO1, math.Abs(n.o1)) * math.Pow(fK1, math.Abs(n.k1)) * math.Pow(fK2, math.Abs(n.k2))
	return f, (n.m2*uM2 + n.o1*uO1 + n.k1*uK1 + n.k2*uK2) / deg
}
