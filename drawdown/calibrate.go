package drawdown

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"gonum.org/v1/gonum/mat"

	"pondwright.example/units"
)

// StageReading is a stage read off the stick, with what a careful reader may be
// out by (one standard deviation; zero means two centimetres).
type StageReading struct {
	At    time.Time    `json:"at"`
	Stage units.Length `json:"stage"`
	SD    units.Length `json:"sd,omitempty"`
}

// Priors are how far the plan's outlet, the screen's clogging and the pond's
// areas may be from the truth before any reading, as standard deviations of the
// natural logarithm of a factor (0.2 is about twenty per cent). Zero means the
// default named; a negative one holds the factor at one.
type Priors struct {
	Outlet   float64 `json:"outlet"`   // zero means 0.25
	Clogging float64 `json:"clogging"` // zero means 0.25
	Area     float64 `json:"area"`     // zero means 0.05
}

// Factor is a correction with its standard deviation.
type Factor struct {
	Value float64 `json:"value"`
	SD    float64 `json:"sd"`
}

// Calibration is what the readings say about the plan.
type Calibration struct {
	// Outlet is what the gates pass of what the plan says, Clogging what is left
	// of that at the target stage (linear in stage from one at the plan's start),
	// and Area the pond's areas over the plan's.
	Outlet   Factor `json:"outlet"`
	Clogging Factor `json:"clogging"`
	Area     Factor `json:"area"`

	Residuals []units.Length `json:"residuals"` // reading less calibrated model
	Fit       float64        `json:"fit"`       // root mean square residual over its standard deviation

	Plan      Plan           `json:"-"`         // the corrected plan, from the last reading on
	Planned   time.Time      `json:"planned"`   // ready time before the readings; zero: not within the horizon
	Ready     time.Time      `json:"ready"`     // with the best estimate; zero: not within the horizon
	Early     time.Time      `json:"early"`     // a tenth of the draws is ready before
	Late      time.Time      `json:"late"`      // a tenth is ready after; zero: some are not ready at all
	Draws     int            `json:"draws"`     // behind Early and Late
	Statement string         `json:"statement"` // what changed, in words
	Notices   []units.Notice `json:"notices"`
}

// Codes of the notices of a calibration.
const (
	CodeCalibrationFar  = "DRAW_CALIBRATION_FAR"  // a factor far from one
	CodeCalibrationPoor = "DRAW_CALIBRATION_POOR" // the model does not follow the readings
)

const (
	defaultReadingSD = 0.02 // m
	calibrationDraws = 200
)

// Calibrate fits the outlet's coefficient, its clogging with stage and the
// pond's areas to stages read while the pond drains, and forecasts again from
// the last reading. It minimises
//
//	sum ((h_read - h_model)/sd)^2 + sum (ln factor / prior)^2
//
// by Gauss and Newton's method with Marquardt's damping; the covariance is the
// inverse of the curvature there. Few readings leave the clogging, and often the
// area, at little more than the prior: their standard deviations say so. Outlet
// and area act almost alike on the stage, so of the two the better known one
// should have the tighter prior.
//
// The band of the new ready time is by 200 seeded draws of the factors run from
// the last reading on, so that a tide missed by some of them shows as the jump it
// is; a mean and a deviation would hide it.
//
// Errors: no reading, readings out of order, before the opening, after the
// horizon or outside the pond; a plan that is not valid.
//
// Source: Bayesian linearised least squares, the method of any text on inverse
// problems; Marquardt (1963), J. Soc. Ind. Appl. Math. 11:431-441 (from memory).
func (p Plan) Calibrate(readings []StageReading, priors Priors) (Calibration, error) {
	const fn = "drawdown.Plan.Calibrate"
	if err := p.Validate(); err != nil {
		return Calibration{}, err
	}
	f, err := newFit(fn, p, readings, priors)
	if err != nil {
		return Calibration{}, err
	}
	if err := f.solve(); err != nil {
		return Calibration{}, err
	}
	return f.report()
}

// forecast is the corrected plan from the last reading on.
func (f *fit) forecast(x []float64) Plan {
	p := clearClogging(f.corrected(x))
	last := f.readings[len(f.readings)-1]
	opening := p.Opening
	if opening.IsZero() {
		opening = p.Start
	}
	// Moves already made are folded into one at the new start.
	gone := last.At.Sub(opening)
	for i := range p.Gates {
		g := &p.Gates[i]
		var moves []Move
		for _, m := range g.Moves {
			if m.After <= gone {
				if m.Outlet == nil && len(moves) == 1 {
					m.Outlet = moves[0].Outlet
				}
				m.After = 0
				moves = []Move{m}
			} else {
				m.After -= gone
				moves = append(moves, m)
			}
		}
		g.Moves = moves
	}
	if p.Horizon != 0 {
		p.Horizon -= last.At.Sub(p.Start)
	}
	p.Start, p.Opening, p.Stage = last.At, last.At, last.Stage
	return p
}

// report turns a solved fit into a Calibration.
func (f *fit) report() (Calibration, error) {
	c := Calibration{Draws: calibrationDraws}
	o, cl, a := f.factors(f.x)
	c.Outlet, c.Clogging, c.Area = Factor{Value: o}, Factor{Value: cl}, Factor{Value: a}
	for k, i := range f.free {
		sd := math.Sqrt(f.cov.At(k, k))
		switch i {
		case 0:
			c.Outlet.SD = o * sd
		case 1:
			c.Clogging.SD = cl * sd
		case 2:
			c.Area.SD = a * sd
		}
	}
	sum := 0.0
	for i, r := range f.residual {
		c.Residuals = append(c.Residuals, units.Length(r*f.sd[i]))
		sum += r * r
	}
	c.Fit = math.Sqrt(sum / float64(len(f.residual)))
	c.Plan = f.forecast(f.x)
	ready := func(p Plan) (time.Time, error) {
		s, err := NewSolver(p)
		if err != nil {
			return time.Time{}, err
		}
		out, err := s.Run(time.Time{})
		return out.Ready, err
	}
	var err error
	if c.Planned, err = ready(f.plan); err != nil {
		return c, err
	}
	if c.Ready, err = ready(c.Plan); err != nil {
		return c, err
	}
	if c.Early, c.Late, err = f.band(ready); err != nil {
		return c, err
	}
	c.Statement = c.words()
	c.Notices = c.notices()
	return c, nil
}

// band runs draws of the factors from the last reading on.
func (f *fit) band(ready func(Plan) (time.Time, error)) (early, late time.Time, err error) {
	n := len(f.x)
	if n == 0 {
		t, err := ready(f.forecast(f.x))
		return t, t, err
	}
	var ch mat.Cholesky
	ch.Factorize(f.cov)
	var l mat.TriDense
	ch.LTo(&l)
	r := rand.New(rand.NewPCG(20, 7))
	all := make([]time.Time, calibrationDraws)
	never := time.Unix(1<<40, 0)
	z, x := make([]float64, n), make([]float64, n)
	for d := range all {
		for k := range z {
			z[k] = r.NormFloat64()
		}
		for a := range x {
			x[a] = f.x[a]
			for b := 0; b <= a; b++ {
				x[a] += l.At(a, b) * z[b]
			}
		}
		if all[d], err = ready(f.forecast(x)); err != nil {
			return early, late, err
		}
		if all[d].IsZero() {
			all[d] = never
		}
	}
	slices.SortFunc(all, time.Time.Compare)
	at := func(q float64) time.Time {
		if t := all[int(q*float64(len(all)-1)+0.5)]; !t.Equal(never) {
			return t
		}
		return time.Time{}
	}
	return at(0.1), at(0.9), nil
}

// words says what changed.
func (c Calibration) words() string {
	var b strings.Builder
	fmt.Fprintf(&b, "The outlet passes %.0f %% (+-%.0f) of what was planned", 100*c.Outlet.Value, 100*c.Outlet.SD)
	if c.Clogging.SD > 0 {
		fmt.Fprintf(&b, " and %.0f %% (+-%.0f) of that is left at the target stage", 100*c.Clogging.Value, 100*c.Clogging.SD)
	}
	if c.Area.SD > 0 {
		fmt.Fprintf(&b, "; the pond's area is %.0f %% (+-%.0f) of the plan's", 100*c.Area.Value, 100*c.Area.SD)
	}
	const layout = "2006-01-02 15:04 MST"
	switch {
	case c.Ready.IsZero():
		b.WriteString(". It is not ready within the horizon any more")
	case c.Planned.IsZero():
		fmt.Fprintf(&b, ". Ready at %s; the plan was not ready within its horizon", c.Ready.Format(layout))
	default:
		d := c.Ready.Sub(c.Planned)
		word := "later"
		if d < 0 {
			d, word = -d, "earlier"
		}
		fmt.Fprintf(&b, ". Ready at %s, %.0f min %s than planned", c.Ready.Format(layout), d.Minutes(), word)
	}
	switch {
	case c.Early.IsZero():
	case c.Late.IsZero():
		fmt.Fprintf(&b, "; from %s on, and one time in ten not within the horizon", c.Early.Format(layout))
	default:
		fmt.Fprintf(&b, "; between %s and %s eight times in ten", c.Early.Format(layout), c.Late.Format(layout))
	}
	b.WriteString(".")
	return b.String()
}

func (c Calibration) notices() []units.Notice {
	var out []units.Notice
	if v := c.Outlet.Value * math.Min(1, c.Clogging.Value); v < 0.75 && c.Outlet.SD > 0 {
		out = append(out, units.Notice{Code: CodeCalibrationFar, Severity: units.Warning, Field: "outlet", Value: v, Limit: 0.75,
			Message: fmt.Sprintf("the outlet passes %.0f %% of its design: look at the screen, the boards and the flap", 100*v)})
	} else if v > 1.3 {
		out = append(out, units.Notice{Code: CodeCalibrationFar, Severity: units.Caution, Field: "outlet", Value: v, Limit: 1.3,
			Message: fmt.Sprintf("the outlet passes %.0f %% of its design: a leak, a board out, or a datum that is off", 100*v)})
	}
	if c.Fit > 2 {
		out = append(out, units.Notice{Code: CodeCalibrationPoor, Severity: units.Warning, Field: "readings", Value: c.Fit, Limit: 2,
			Message: fmt.Sprintf("the readings lie %.1f standard deviations off the fitted course: a misread stick, an unknown inflow or a change at the gate", c.Fit)})
	}
	return out
}
