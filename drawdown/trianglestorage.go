package drawdown

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// StageStorage is the water surface and the water below it at one stage.
type StageStorage struct {
	Area   units.Area   `json:"area"`
	Volume units.Volume `json:"volume"`
}

// TriangleStorage returns the wet plan area of one flat triangle of pond bed
// and the water above it when the water stands at stage. plan is the
// triangle's area seen from above, corners the levels of its corners in any
// order.
//
// Equation: with corners z1 <= z2 <= z3 and the plane between them,
//
//	z1 < h <= z2: f = (h-z1)^2/((z2-z1)(z3-z1)), a = P f,     v = P f (h-z1)/3
//	z2 < h <  z3: f = (z3-h)^2/((z3-z1)(z3-z2)), a = P (1-f), v = P (h - (z1+z2+z3)/3) + P f (z3-h)/3
//
// Source: derived by similar triangles; exact. Errors: NaN, infinities, or a
// negative plan area.
func TriangleStorage(plan units.Area, corners [3]units.Length, stage units.Length) (StageStorage, error) {
	const fn = "drawdown.TriangleStorage"
	if err := errors.Join(units.NonNegative(fn, "plan", float64(plan), "m2"), units.Finite(fn, "stage", float64(stage), "m"),
		units.Finite(fn, "corners[0]", float64(corners[0]), "m"), units.Finite(fn, "corners[1]", float64(corners[1]), "m"),
		units.Finite(fn, "corners[2]", float64(corners[2]), "m")); err != nil {
		return StageStorage{units.Area(math.NaN()), units.Volume(math.NaN())}, err
	}
	a, v := triangleStorage(float64(plan), float64(corners[0]), float64(corners[1]), float64(corners[2]), float64(stage))
	return StageStorage{units.Area(a), units.Volume(v)}, nil
}

func triangleStorage(plan, z1, z2, z3, h float64) (area, volume float64) {
	z1, z2, z3 = sort3(z1, z2, z3)
	switch {
	case h <= z1:
		if z3 == z1 && h == z1 {
			return plan, 0 // a level triangle is wet when the water reaches it
		}
		return 0, 0
	case h >= z3:
		return plan, plan * (h - (z1+z2+z3)/3)
	case h <= z2:
		f := (h - z1) / (z2 - z1) * ((h - z1) / (z3 - z1))
		return plan * f, plan * f * (h - z1) / 3
	default:
		f := (z3 - h) / (z3 - z1) * ((z3 - h) / (z3 - z2))
		return plan * (1 - f), plan * ((h - (z1+z2+z3)/3) + f*(z3-h)/3)
	}
}

func sort3(a, b, c float64) (lo, mid, hi float64) {
	if a > b {
		a, b = b, a
	}
	if b > c {
		b, c = c, b
	}
	if a > b {
		a, b = b, a
	}
	return a, b, c
}
