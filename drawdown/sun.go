package drawdown

import (
	"math"
	"time"
)

// Degrees in, degrees out, as the almanac formulas are printed.
func sind(d float64) float64 { return math.Sin(d * math.Pi / 180) }
func cosd(d float64) float64 { return math.Cos(d * math.Pi / 180) }
func tand(d float64) float64 { return math.Tan(d * math.Pi / 180) }

func asind(x float64) float64     { return math.Asin(math.Max(-1, math.Min(1, x))) * 180 / math.Pi }
func acosd(x float64) float64     { return math.Acos(math.Max(-1, math.Min(1, x))) * 180 / math.Pi }
func atan2d(y, x float64) float64 { return math.Atan2(y, x) * 180 / math.Pi }

// turn brings an angle to 0 to 360 degrees.
func turn(d float64) float64 {
	d = math.Mod(d, 360)
	if d < 0 {
		d += 360
	}
	return d
}

// Julian day of the standard epoch 2000 January 1, 12h, and of the Unix epoch.
const (
	epoch2000 = 2451545.0
	epochUnix = 2440587.5
)

// julianDay returns the Julian day in universal time.
func julianDay(t time.Time) float64 {
	return epochUnix + float64(t.Unix())/86400 + float64(t.Nanosecond())/86400e9
}

// ofJulianDay is the inverse of julianDay, to a millisecond.
func ofJulianDay(jd float64, zone *time.Location) time.Time {
	ms := math.Round((jd - epochUnix) * 86400e3)
	return time.UnixMilli(int64(ms)).In(zone)
}

// clockDrift is the difference of dynamical and universal time in seconds at
// the start of years: measured to 2025, extrapolated after. Ten seconds move a
// moonrise by a third of a second.
//
// Source: Meeus (1998), Astronomical Algorithms, 2nd ed., ch. 10, table 10.A,
// to 1998; later values from memory of the published Earth orientation series.
var clockDrift = [...]struct{ year, seconds float64 }{
	{1900, -2.8}, {1920, 21.2}, {1940, 24.3}, {1960, 33.2}, {1970, 40.2}, {1980, 50.5}, {1990, 56.9},
	{2000, 63.8}, {2010, 66.1}, {2020, 69.4}, {2025, 69.2}, {2050, 75}, {2100, 110},
}

// centuries returns Julian centuries of dynamical time since the epoch of 2000.
func centuries(jd float64) float64 {
	year := 2000 + (jd-epoch2000)/365.25
	dt := clockDrift[0].seconds
	for i := 1; i < len(clockDrift); i++ {
		a, b := clockDrift[i-1], clockDrift[i]
		if year >= a.year {
			dt = a.seconds + (b.seconds-a.seconds)*math.Min(1, (year-a.year)/(b.year-a.year))
		}
	}
	return (jd + dt/86400 - epoch2000) / 36525
}

// bodyPosition is an apparent geocentric place in degrees, with the distance
// in kilometres.
type bodyPosition struct {
	longitude, latitude         float64 // ecliptic
	rightAscension, declination float64
	distance                    float64
}

// sunPosition returns the sun's apparent place, to 0.01 degree.
//
// Source: Meeus (1998), Astronomical Algorithms, 2nd ed., ch. 25, low accuracy.
func sunPosition(t float64) bodyPosition {
	l0 := 280.46646 + t*(36000.76983+t*0.0003032)     // (25.2)
	m := 357.52911 + t*(35999.05029-t*0.0001537)      // (25.3)
	e := 0.016708634 - t*(0.000042037+t*0.0000001267) // (25.4)
	c := (1.914602-t*(0.004817+t*0.000014))*sind(m) + // equation of the centre, p. 164
		(0.019993-0.000101*t)*sind(2*m) + 0.000289*sind(3*m)
	r := 1.000001018 * (1 - e*e) / (1 + e*cosd(m+c)) // (25.5), astronomical units
	omega := 125.04 - 1934.136*t
	lambda := l0 + c - 0.00569 - 0.00478*sind(omega) // apparent longitude, p. 164
	eps := obliquity(t) + 0.00256*cosd(omega)        // (25.8)
	return bodyPosition{
		longitude:      turn(lambda),
		rightAscension: turn(atan2d(cosd(eps)*sind(lambda), cosd(lambda))), // (25.6)
		declination:    asind(sind(eps) * sind(lambda)),                    // (25.7)
		distance:       r * 149597870.7,
	}
}

// obliquity returns the mean obliquity of the ecliptic, (22.2).
func obliquity(t float64) float64 {
	return 23.43929111 - t*(0.013004167+t*(1.6389e-7-t*5.0361e-7))
}

// equationOfTime returns apparent less mean solar time in minutes.
//
// Source: Meeus (1998), ch. 28, (28.1), with the apparent place above.
func equationOfTime(t float64) float64 {
	s := sunPosition(t)
	l0 := 280.4664567 + t*(36000.76982779+t*0.0003032028) // (28.2)
	e := math.Mod(l0-0.0057183-s.rightAscension, 360)
	if e > 180 {
		e -= 360
	} else if e < -180 {
		e += 360
	}
	return 4 * e
}

// altitude returns the geocentric altitude of a body above the horizon of a
// place, longitude east positive.
func (p bodyPosition) altitude(jd, latitude, longitude float64) float64 {
	d := jd - epoch2000
	c := d / 36525
	sidereal := 280.46061837 + 360.98564736629*d + c*c*(0.000387933-c/38710000) // (12.4)
	h := sidereal + longitude - p.rightAscension
	return asind(sind(latitude)*sind(p.declination) + cosd(latitude)*cosd(p.declination)*cosd(h)) // (13.6)
}
