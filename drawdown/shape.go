package drawdown

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"pondwright.example/units"
)

// Shape is a pond from formulas, with its exact storage: an area quadratic in
// stage between its corners and the volume its integral. Build one with
// [RectangularPond.Shape], [Ditch.Shape], [CatchBasin.Shape], [ContourShape] or
// [Join]. It is immutable and safe for concurrent use; Area, Volume and Stage
// allocate nothing. Above Top the walls stand vertical; a plan that goes there
// should say so. It has no JSON form: write what it was built from.
type Shape struct {
	storage hypsography
	hollow  bool // closed above: the floor that it lies in counts the area there
}

// Bottom returns the lowest level of the shape.
func (s Shape) Bottom() units.Length {
	if len(s.storage) == 0 {
		return 0
	}
	return units.Length(s.storage[0].stage)
}

// Top returns the highest level described: the crest of a pond, the lip of a
// ditch or catch basin.
func (s Shape) Top() units.Length {
	if len(s.storage) == 0 {
		return 0
	}
	return units.Length(s.storage[len(s.storage)-1].stage)
}

// Area returns the water surface at stage, zero below the bottom.
func (s Shape) Area(stage units.Length) units.Area {
	return units.Area(s.storage.areaAt(float64(stage)))
}

// Volume returns the water below stage, zero below the bottom.
func (s Shape) Volume(stage units.Length) units.Volume {
	return units.Volume(s.storage.volumeAt(float64(stage)))
}

// Stage returns the stage at which the shape holds volume: the inverse of
// Volume, the bottom for a volume of zero or less.
func (s Shape) Stage(volume units.Volume) units.Length {
	return units.Length(s.storage.stageOf(float64(volume)))
}

// Corners returns the levels between which the area is one quadratic, rising.
// The slice is fresh.
func (s Shape) Corners() []units.Length {
	c := make([]units.Length, len(s.storage))
	for i, r := range s.storage {
		c[i] = units.Length(r.stage)
	}
	return c
}

// RectangularPond is a pond with a rectangular floor and straight banks: a
// prismoid when the floor is level, else a floor that falls evenly along its
// length to the deep (drain) end. Slopes are horizontal run per unit of rise,
// so 3 stands for a bank of 3:1; zero is a wall.
type RectangularPond struct {
	Length units.Length `json:"length"` // of the floor
	Width  units.Length `json:"width"`  // of the floor
	Fall   units.Length `json:"fall"`   // of the floor along Length; zero is a level floor

	SideSlope       float64 `json:"sideSlope"`       // of the two long banks
	DeepEndSlope    float64 `json:"deepEndSlope"`    // of the bank at the deep end
	ShallowEndSlope float64 `json:"shallowEndSlope"` // of the bank at the shallow end

	Floor units.Length `json:"floor"` // level of the floor's deep edge
	Crest units.Length `json:"crest"` // level of the top of the banks

	// RoundedCorners takes the corners of the banks for quarter cones instead
	// of mitres, which earthmoving leaves nearer the truth.
	RoundedCorners bool `json:"roundedCorners,omitempty"`
}

// Validate reports every problem of the pond at once.
func (p RectangularPond) Validate() error {
	const fn = "drawdown.RectangularPond"
	err := errors.Join(
		units.Positive(fn, "length", float64(p.Length), "m"),
		units.Positive(fn, "width", float64(p.Width), "m"),
		units.NonNegative(fn, "fall", float64(p.Fall), "m"),
		units.Within(fn, "sideSlope", p.SideSlope, 0, 50, ""),
		units.Within(fn, "deepEndSlope", p.DeepEndSlope, 0, 50, ""),
		units.Within(fn, "shallowEndSlope", p.ShallowEndSlope, 0, 50, ""),
		units.Finite(fn, "floor", float64(p.Floor), "m"),
		units.Finite(fn, "crest", float64(p.Crest), "m"))
	if err == nil && !(p.Crest > p.Floor+p.Fall) {
		err = &units.InputError{Func: fn, Field: "crest", Value: float64(p.Crest), Unit: "m", Min: float64(p.Floor + p.Fall), Max: math.Inf(1),
			Reason: "the crest must lie above the whole floor"}
	}
	return err
}

// Shape returns the pond's exact storage.
//
// Equation: with h above the deep edge of the floor, d the fall, g = h - d, L
// and W the floor, z the side slope and a, b the end slopes,
//
//	h <= d: A = W L h/d + z L h^2/d + a h (W + 2 z h)
//	h >= d: A = W L + z L (h + g) + a h (W + 2 z h) + b g (W + 2 z g)
//
// and V the integral of A. With rounded corners the 2 z shrinks to pi z/2 in
// the last two terms.
//
// Source: derived by slices; a level floor is the prismoid of USDA-NRCS (1997),
// Agriculture Handbook 590, excavated ponds, whose rule V = h (A + 4 M + C)/6
// it equals. Validity: straight banks; Errors: as Validate.
func (p RectangularPond) Shape() (Shape, error) {
	if err := p.Validate(); err != nil {
		return Shape{}, err
	}
	l, w, d := float64(p.Length), float64(p.Width), float64(p.Fall)
	z, a, b := p.SideSlope, p.DeepEndSlope, p.ShallowEndSlope
	corner := 2 * z
	if p.RoundedCorners {
		corner = math.Pi / 2 * z
	}
	var bld shapeBuilder
	if d > 0 {
		bld.piece(float64(p.Floor), 0, w*l/d+a*w, 2*(z*l/d+a*corner))
	}
	// From the shallow edge up, in g = h - d.
	bld.piece(float64(p.Floor)+d,
		w*l+z*l*d+a*d*(w+corner*d),
		2*z*l+a*w+2*a*corner*d+b*w,
		2*corner*(a+b))
	bld.close(float64(p.Crest), false)
	return Shape{storage: bld.rows}, nil
}

// shapeBuilder strings quadratic pieces of area together.
type shapeBuilder struct{ rows hypsography }

// piece starts a piece at stage with its area there, the area's slope and its
// second derivative.
func (b *shapeBuilder) piece(stage, area, slope, curve float64) {
	r := hypsoRow{stage: stage, area: area, slope: slope, curve: curve}
	if n := len(b.rows); n > 0 {
		r.volume = b.rows[n-1].volumeAt(stage - b.rows[n-1].stage)
	}
	b.rows = append(b.rows, r)
}

// close ends the last piece at stage: with vertical walls above, or shut.
func (b *shapeBuilder) close(stage float64, hollow bool) {
	area := 0.0
	if !hollow {
		area = b.rows.areaAt(stage)
	}
	b.piece(stage, area, 0, 0)
}

// Ditch is a trapezoidal channel below the floor: an internal drain. Its bed
// falls evenly from the far end to the near (drain) end; its lip is level.
type Ditch struct {
	Length      units.Length `json:"length"`
	BottomWidth units.Length `json:"bottomWidth"` // zero is a V-ditch
	SideSlope   float64      `json:"sideSlope"`   // run per rise
	Lip         units.Length `json:"lip"`         // level of its upper edges, the pond floor
	NearDepth   units.Length `json:"nearDepth"`   // below the lip at the drain
	FarDepth    units.Length `json:"farDepth"`    // below the lip at the far end; zero runs out to nothing
}

// Shape returns the exact storage of the ditch below its lip. Above the lip it
// has no area of its own, because the floor it is cut in has it.
//
// Equation: with y above the near end of the bed, d = near - far depth, g =
// y - d: y <= d: A = L (B y + z y^2)/d; y >= d: A = L (B + z (y + g)).
//
// Source: derived by slices, as for [RectangularPond.Shape] without end banks.
func (d Ditch) Shape() (Shape, error) {
	const fn = "drawdown.Ditch"
	err := errors.Join(
		units.Positive(fn, "length", float64(d.Length), "m"),
		units.NonNegative(fn, "bottomWidth", float64(d.BottomWidth), "m"),
		units.Within(fn, "sideSlope", d.SideSlope, 0, 50, ""),
		units.Finite(fn, "lip", float64(d.Lip), "m"),
		units.Positive(fn, "nearDepth", float64(d.NearDepth), "m"),
		units.Within(fn, "farDepth", float64(d.FarDepth), 0, math.Max(0, float64(d.NearDepth)), "m"))
	if err == nil && d.BottomWidth == 0 && d.SideSlope == 0 {
		err = &units.InputError{Func: fn, Field: "bottomWidth", Value: 0, Unit: "m", Reason: "a ditch needs a bottom width or side slopes"}
	}
	if err != nil {
		return Shape{}, err
	}
	l, w, z := float64(d.Length), float64(d.BottomWidth), d.SideSlope
	fall := float64(d.NearDepth - d.FarDepth)
	near := float64(d.Lip - d.NearDepth)
	var b shapeBuilder
	if fall > 0 {
		b.piece(near, 0, l*w/fall, 2*z*l/fall)
	}
	if d.FarDepth > 0 {
		b.piece(near+fall, l*w+z*l*fall, 2*z*l, 0)
	}
	b.close(float64(d.Lip), true)
	return Shape{storage: b.rows, hollow: true}, nil
}

// CatchBasin is the walled or sloped sump at the drain in which the animals
// gather, below the floor.
type CatchBasin struct {
	Length    units.Length `json:"length"` // of its own floor
	Width     units.Length `json:"width"`
	SideSlope float64      `json:"sideSlope,omitempty"` // of all four walls, run per rise; zero is a vertical wall
	Lip       units.Length `json:"lip"`                 // level of its edge, the pond floor
	Depth     units.Length `json:"depth"`               // below the lip
}

// Shape returns the exact storage of the basin below its lip. Above the lip it
// has no area of its own, because the floor it is sunk in has it.
//
// Source: a prismoid, as for [RectangularPond.Shape].
func (c CatchBasin) Shape() (Shape, error) {
	const fn = "drawdown.CatchBasin"
	if err := errors.Join(
		units.Positive(fn, "length", float64(c.Length), "m"),
		units.Positive(fn, "width", float64(c.Width), "m"),
		units.Within(fn, "sideSlope", c.SideSlope, 0, 50, ""),
		units.Finite(fn, "lip", float64(c.Lip), "m"),
		units.Positive(fn, "depth", float64(c.Depth), "m")); err != nil {
		return Shape{}, err
	}
	l, w, z := float64(c.Length), float64(c.Width), c.SideSlope
	var b shapeBuilder
	b.piece(float64(c.Lip-c.Depth), l*w, 2*z*(l+w), 8*z*z)
	b.close(float64(c.Lip), true)
	return Shape{storage: b.rows, hollow: true}, nil
}

// Join returns a pond with ditches and a catch basin sunk into its floor. The
// pond's own area must include their mouths, as a floor measured across does,
// so that nothing is counted twice; their lips must not stand above the pond's
// lowest floor. Water between two lips of different height is counted in each
// hollow by itself.
//
// Source: by definition, areas and volumes add.
func Join(pond Shape, hollows ...Shape) (Shape, error) {
	const fn = "drawdown.Join"
	var all []error
	if len(pond.storage) == 0 || pond.hollow {
		all = append(all, &units.InputError{Func: fn, Field: "pond", Value: float64(len(pond.storage)),
			Reason: "the first shape must be a pond (RectangularPond or ContourShape) that the hollows are sunk into"})
	}
	stages := pond.levels(nil)
	for i, s := range hollows {
		field := fmt.Sprintf("hollows[%d]", i)
		if !s.hollow {
			all = append(all, &units.InputError{Func: fn, Field: field, Value: float64(s.Top()), Unit: "m",
				Reason: "only ditches and catch basins can be sunk into a pond"})
		} else if s.Top() > pond.Bottom()+levelJoin {
			all = append(all, &units.InputError{Func: fn, Field: field, Value: float64(s.Top()), Unit: "m", Min: math.Inf(-1), Max: float64(pond.Bottom()),
				Reason: "its lip stands above the pond's lowest floor, so floor and hollow would both count the area between"})
		}
		stages = s.levels(stages)
	}
	if err := errors.Join(all...); err != nil {
		return Shape{}, err
	}
	slices.Sort(stages)
	var rows hypsography
	for _, h := range stages {
		if n := len(rows); n > 0 && h-rows[n-1].stage <= levelJoin {
			continue
		}
		r := hypsoRow{stage: h}
		for _, s := range append([]Shape{pond}, hollows...) {
			r = r.plus(s.storage.rowAt(h))
		}
		rows = append(rows, r)
	}
	return Shape{storage: rows}, nil
}

func (s Shape) levels(dst []float64) []float64 {
	for _, r := range s.storage {
		dst = append(dst, r.stage)
	}
	return dst
}

// rowAt returns the polynomial in force just above stage h, shifted to start
// there. A row that starts within levelJoin above counts as started.
func (y hypsography) rowAt(h float64) hypsoRow {
	i := y.find(h + levelJoin)
	if i < 0 {
		return hypsoRow{}
	}
	r := y[i]
	x := h - r.stage
	return hypsoRow{h, r.area + x*(r.slope+0.5*r.curve*x), r.slope + r.curve*x, r.curve, r.volumeAt(x)}
}

func (r hypsoRow) plus(o hypsoRow) hypsoRow {
	return hypsoRow{r.stage, r.area + o.area, r.slope + o.slope, r.curve + o.curve, r.volume + o.volume}
}
