package drawdown

import (
	"math"
	"time"
)

// watch looks for a body's crossings of an altitude between two Julian days.
type watch struct {
	lat, lon float64
	from, to float64
	zone     *time.Location
}

// track is a body's path over the day through five places, with the polynomial
// of degree four between them: within a tenth of a second of arc of the series
// even for the moon, at a hundredth of their cost.
type track struct {
	from, step       float64
	right, decl, dip [5]float64 // dip is what the horizon has to be lowered by
}

// follow samples a body; the altitude of its centre counts from dip.
func (w watch) follow(place func(float64) bodyPosition, dip func(bodyPosition) float64) track {
	k := track{from: w.from, step: (w.to - w.from) / 4}
	for i := range k.right {
		p := place(centuries(w.from + float64(i)*k.step))
		k.right[i], k.decl[i], k.dip[i] = p.rightAscension, p.declination, dip(p)
		if i > 0 { // do not jump at 360 degrees
			k.right[i] -= 360 * math.Round((k.right[i]-k.right[i-1])/360)
		}
	}
	return k
}

// sunTrack counts the altitude of the sun's centre from the true horizon.
func (w watch) sunTrack() track {
	return w.follow(sunPosition, func(bodyPosition) float64 { return 0 })
}

// moonTrack counts the moon's from where its upper edge shows, with parallax
// and refraction. Source: Meeus (1998), p. 102: h0 = 0.7275 pi - 34'.
func (w watch) moonTrack() track {
	return w.follow(moonPosition, func(p bodyPosition) float64 { return 0.7275*asind(6378.14/p.distance) - 34.0/60 })
}

// altitude returns degrees above the horizon that the track counts from.
func (k *track) altitude(jd, lat, lon float64) float64 {
	x := (jd - k.from) / k.step
	// Lagrange weights at nodes 0 to 4.
	a, b, c, d := x-1, x-2, x-3, x-4
	l := [5]float64{a * b * c * d / 24, -x * b * c * d / 6, x * a * c * d / 4, -x * a * b * d / 6, x * a * b * c / 24}
	var p bodyPosition
	dip := 0.0
	for i, w := range l {
		p.rightAscension += w * k.right[i]
		p.declination += w * k.decl[i]
		dip += w * k.dip[i]
	}
	return p.altitude(jd, lat, lon) - dip
}

// crossings returns the first rising and the first setting through altitude,
// looked for in steps of so many minutes.
func (w watch) crossings(k *track, altitude, minutes float64) (rise, set time.Time) {
	n := int(math.Ceil((w.to - w.from) * 1440 / minutes))
	body := func(jd float64) float64 { return k.altitude(jd, w.lat, w.lon) - altitude }
	a, fa := w.from, body(w.from)
	for i := 1; i <= n; i++ {
		b := w.from + (w.to-w.from)*float64(i)/float64(n)
		fb := body(b)
		if fa < 0 && fb >= 0 && rise.IsZero() {
			rise = ofJulianDay(refine(body, a, b, fa, fb), w.zone)
		}
		if fa >= 0 && fb < 0 && set.IsZero() {
			set = ofJulianDay(refine(body, a, b, fa, fb), w.zone)
		}
		a, fa = b, fb
	}
	return rise, set
}

// refine closes in on a crossing to a few milliseconds by false position with
// halved ends (Illinois).
func refine(body func(float64) float64, a, b, fa, fb float64) float64 {
	for range 60 {
		m := (a*fb - b*fa) / (fb - fa)
		fm := body(m)
		if math.Abs(b-a) < 3e-8 || math.Abs(fm) < 1e-7 {
			return m
		}
		if (fm < 0) == (fa < 0) {
			a, fa = m, fm
			fb /= 2
		} else {
			b, fb = m, fm
			fa /= 2
		}
	}
	return 0.5 * (a + b)
}

// highest returns when the sun stands highest, from the equation of time at
// the middle of the day.
func (w watch) highest() time.Time {
	noon := 0.5 * (w.from + w.to)
	jd := noon
	for range 3 {
		// Mean time of transit nearest the middle of the day.
		jd = math.Round(noon+w.lon/360) - w.lon/360 - equationOfTime(centuries(jd))/1440
	}
	return ofJulianDay(jd, w.zone)
}
