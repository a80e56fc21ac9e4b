package drawdown

import "math"

// moonTerm is one periodic term: multiples of the moon's elongation D, the
// sun's anomaly M, the moon's anomaly M' and its argument of latitude F, with
// the coefficients of sine for longitude (or latitude), 1e-6 degree, and of
// cosine for distance, metres.
type moonTerm struct {
	d, m, n, f int8
	sine       float64
	cosine     float64
}

// Source: Meeus (1998), Astronomical Algorithms, 2nd ed., ch. 47, table 47.A,
// after the ELP-2000/82 theory of Chapront-Touze & Chapront.
var moonLongitude = [...]moonTerm{
	{0, 0, 1, 0, 6288774, -20905355}, {2, 0, -1, 0, 1274027, -3699111}, {2, 0, 0, 0, 658314, -2955968}, {0, 0, 2, 0, 213618, -569925},
	{0, 1, 0, 0, -185116, 48888}, {0, 0, 0, 2, -114332, -3149}, {2, 0, -2, 0, 58793, 246158}, {2, -1, -1, 0, 57066, -152138},
	{2, 0, 1, 0, 53322, -170733}, {2, -1, 0, 0, 45758, -204586}, {0, 1, -1, 0, -40923, -129620}, {1, 0, 0, 0, -34720, 108743},
	{0, 1, 1, 0, -30383, 104755}, {2, 0, 0, -2, 15327, 10321}, {0, 0, 1, 2, -12528, 0}, {0, 0, 1, -2, 10980, 79661},
	{4, 0, -1, 0, 10675, -34782}, {0, 0, 3, 0, 10034, -23210}, {4, 0, -2, 0, 8548, -21636}, {2, 1, -1, 0, -7888, 24208},
	{2, 1, 0, 0, -6766, 30824}, {1, 0, -1, 0, -5163, -8379}, {1, 1, 0, 0, 4987, -16675}, {2, -1, 1, 0, 4036, -12831},
	{2, 0, 2, 0, 3994, -10445}, {4, 0, 0, 0, 3861, -11650}, {2, 0, -3, 0, 3665, 14403}, {0, 1, -2, 0, -2689, -7003},
	{2, 0, -1, 2, -2602, 0}, {2, -1, -2, 0, 2390, 10056}, {1, 0, 1, 0, -2348, 6322}, {2, -2, 0, 0, 2236, -9884},
	{0, 1, 2, 0, -2120, 5751}, {0, 2, 0, 0, -2069, 0}, {2, -2, -1, 0, 2048, -4950}, {2, 0, 1, -2, -1773, 4130},
	{2, 0, 0, 2, -1595, 0}, {4, -1, -1, 0, 1215, -3958}, {0, 0, 2, 2, -1110, 0}, {3, 0, -1, 0, -892, 3258},
	{2, 1, 1, 0, -810, 2616}, {4, -1, -2, 0, 759, -1897}, {0, 2, -1, 0, -713, -2117}, {2, 2, -1, 0, -700, 2354},
	{2, 1, -2, 0, 691, 0}, {2, -1, 0, -2, 596, 0}, {4, 0, 1, 0, 549, -1423}, {0, 0, 4, 0, 537, -1117},
	{4, -1, 0, 0, 520, -1571}, {1, 0, -2, 0, -487, -1739}, {2, 1, 0, -2, -399, 0}, {0, 0, 2, -2, -381, -4421},
	{1, 1, 1, 0, 351, 0}, {3, 0, -2, 0, -340, 0}, {4, 0, -3, 0, 330, 0}, {2, -1, 2, 0, 327, 0},
	{0, 2, 1, 0, -323, 1165}, {1, 1, -1, 0, 299, 0}, {2, 0, 3, 0, 294, 0}, {2, 0, -1, -2, 0, 8752},
}

// Source: as above, table 47.B.
var moonLatitude = [...]moonTerm{
	{0, 0, 0, 1, 5128122, 0}, {0, 0, 1, 1, 280602, 0}, {0, 0, 1, -1, 277693, 0}, {2, 0, 0, -1, 173237, 0},
	{2, 0, -1, 1, 55413, 0}, {2, 0, -1, -1, 46271, 0}, {2, 0, 0, 1, 32573, 0}, {0, 0, 2, 1, 17198, 0},
	{2, 0, 1, -1, 9266, 0}, {0, 0, 2, -1, 8822, 0}, {2, -1, 0, -1, 8216, 0}, {2, 0, -2, -1, 4324, 0},
	{2, 0, 1, 1, 4200, 0}, {2, 1, 0, -1, -3359, 0}, {2, -1, -1, 1, 2463, 0}, {2, -1, 0, 1, 2211, 0},
	{2, -1, -1, -1, 2065, 0}, {0, 1, -1, -1, -1870, 0}, {4, 0, -1, -1, 1828, 0}, {0, 1, 0, 1, -1794, 0},
	{0, 0, 0, 3, -1749, 0}, {0, 1, -1, 1, -1565, 0}, {1, 0, 0, 1, -1491, 0}, {0, 1, 1, 1, -1475, 0},
	{0, 1, 1, -1, -1410, 0}, {0, 1, 0, -1, -1344, 0}, {1, 0, 0, -1, -1335, 0}, {0, 0, 3, 1, 1107, 0},
	{4, 0, 0, -1, 1021, 0}, {4, 0, -1, 1, 833, 0}, {0, 0, 1, -3, 777, 0}, {4, 0, -2, 1, 671, 0},
	{2, 0, 0, -3, 607, 0}, {2, 0, 2, -1, 596, 0}, {2, -1, 1, -1, 491, 0}, {2, 0, -2, 1, -451, 0},
	{0, 0, 3, -1, 439, 0}, {2, 0, 2, 1, 422, 0}, {2, 0, -3, -1, 421, 0}, {2, 1, -1, 1, -366, 0},
	{2, 1, 0, 1, -351, 0}, {4, 0, 0, 1, 331, 0}, {2, -1, 1, 1, 315, 0}, {2, -2, 0, -1, 302, 0},
	{0, 0, 1, 3, -283, 0}, {2, 1, 1, -1, -229, 0}, {1, 1, 0, -1, 223, 0}, {1, 1, 0, 1, 223, 0},
	{0, 1, -2, -1, -220, 0}, {2, 1, -1, -1, -220, 0}, {1, 0, 1, 1, -185, 0}, {2, -1, -2, -1, 181, 0},
	{0, 1, 2, 1, -177, 0}, {4, 0, -2, -1, 176, 0}, {4, -1, -1, -1, 166, 0}, {1, 0, 1, -1, -164, 0},
	{4, 0, 1, -1, 132, 0}, {1, 0, -1, -1, -119, 0}, {4, -1, 0, -1, 115, 0}, {2, -2, 0, 1, 107, 0},
}

// moonPosition returns the moon's apparent place, to about ten seconds of arc
// in longitude.
//
// Source: Meeus (1998), ch. 47; nutation in longitude by its largest terms, ch. 22.
func moonPosition(t float64) bodyPosition {
	l := 218.3164477 + t*(481267.88123421+t*(-0.0015786+t*(1.0/538841-t/65194000))) // (47.1)
	d := 297.8501921 + t*(445267.1114034+t*(-0.0018819+t*(1.0/545868-t/113065000))) // (47.2)
	m := 357.5291092 + t*(35999.0502909+t*(-0.0001536+t/24490000))                  // (47.3)
	n := 134.9633964 + t*(477198.8675055+t*(0.0087414+t*(1.0/69699-t/14712000)))    // (47.4)
	f := 93.2720950 + t*(483202.0175233+t*(-0.0036539+t*(-1.0/3526000+t/863310000)))
	a1, a2, a3 := 119.75+131.849*t, 53.09+479264.290*t, 313.45+481266.484*t
	e := 1 - t*(0.002516+0.0000074*t) // (47.6)

	fade := func(k int8) float64 { // terms with the sun's anomaly fade with its eccentricity
		switch k {
		case 1, -1:
			return e
		case 2, -2:
			return e * e
		}
		return 1
	}
	argument := func(k *moonTerm) float64 {
		x := float64(k.d)*d + float64(k.m)*m + float64(k.n)*n + float64(k.f)*f
		return math.Mod(x, 360) * math.Pi / 180
	}
	var sl, sr, sb float64
	for i := range moonLongitude {
		k := &moonLongitude[i]
		s, c := math.Sincos(argument(k))
		w := fade(k.m)
		sl += k.sine * w * s
		sr += k.cosine * w * c
	}
	for i := range moonLatitude {
		k := &moonLatitude[i]
		sb += k.sine * fade(k.m) * math.Sin(argument(k))
	}
	sl += 3958*sind(a1) + 1962*sind(l-f) + 318*sind(a2)
	sb += -2235*sind(l) + 382*sind(a3) + 175*sind(a1-f) + 175*sind(a1+f) + 127*sind(l-n) - 115*sind(l+n)

	omega := 125.04452 - 1934.136261*t
	sun := 280.4665 + 36000.7698*t
	nutation := (-17.20*sind(omega) - 1.32*sind(2*sun) - 0.23*sind(2*l) + 0.21*sind(2*omega)) / 3600
	tilt := (9.20*cosd(omega) + 0.57*cosd(2*sun) + 0.10*cosd(2*l) - 0.09*cosd(2*omega)) / 3600
	lambda, beta := l+sl/1e6+nutation, sb/1e6
	eps := obliquity(t) + tilt
	return bodyPosition{
		longitude:      turn(lambda),
		latitude:       beta,
		rightAscension: turn(atan2d(sind(lambda)*cosd(eps)-tand(beta)*sind(eps), cosd(lambda))), // (13.3)
		declination:    asind(sind(beta)*cosd(eps) + cosd(beta)*sind(eps)*sind(lambda)),         // (13.4)
		distance:       385000.56 + sr/1000,
	}
}

// moonPhaseAngle returns the moon's angle ahead of the sun along the ecliptic,
// 0 at new and 180 at full, and the lit fraction of its disc.
//
// Source: Meeus (1998), ch. 48, (48.1) to (48.3).
func moonPhaseAngle(t float64) (ahead, lit float64) {
	sun, moon := sunPosition(t), moonPosition(t)
	psi := acosd(cosd(moon.latitude) * cosd(moon.longitude-sun.longitude)) // (48.2)
	i := atan2d(sun.distance*sind(psi), moon.distance-sun.distance*cosd(psi))
	return turn(moon.longitude - sun.longitude), (1 + cosd(i)) / 2
}
