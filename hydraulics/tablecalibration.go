package hydraulics

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// DrainTest is a weigh-and-drain test at a table: a crate of what comes down
// the chute, weighed at once and again when it has drained.
type DrainTest struct {
	Setting TableSetting `json:"setting"` // flow and product rate during the test, slope, tilt, blockage
	Wet     units.Mass   `json:"wet"`     // as caught, crate off
	Drained units.Mass   `json:"drained"` // of the same animals without free water
}

// CarryOver returns the water that came with the animals over their drained
// mass, by definition: (wet - drained)/drained.
func (d DrainTest) CarryOver() float64 { return float64((d.Wet - d.Drained) / d.Drained) }

// TableCalibration is what drain tests say of a table.
type TableCalibration struct {
	Effectiveness float64        `json:"effectiveness"` // geometric mean of the tests
	Low           float64        `json:"low"`           // of the tests
	High          float64        `json:"high"`          // of the tests
	Tests         []float64      `json:"tests"`         // effectiveness by test; 0 where a test gives only a bound
	Bounds        []float64      `json:"bounds"`        // for a dry test, the least effectiveness that dries it; 0 for the others
	Notices       []units.Notice `json:"notices,omitempty"`
}

// CalibrateTable finds the effectiveness of a table's grate from drain tests,
// and returns the table with it. A test gives the run-off as the carry-over less
// the adhering water, times the product rate, over the flow; the effectiveness
// is the factor on the open area that makes the grate let so much run off. A
// test whose product was dry gives only a lower bound; from dry tests alone the
// effectiveness is the largest of their bounds, which is on the safe side.
//
// Notices: a bound above the mean, tests that differ by more than a factor of
// 1.5.
//
// Errors: ErrDomain for a description or test that cannot be; ErrNoSolution for
// a test whose water is more than came, or that no effectiveness from 0.01 to
// 10 explains.
//
// Source: inverse of [DewateringTable.At]; the test is common practice.
func CalibrateTable(spec TableSpec, tests ...DrainTest) (DewateringTable, TableCalibration, error) {
	const fn = "hydraulics.CalibrateTable"
	spec.Grate.Effectiveness = 1
	t, err := NewDewateringTable(spec)
	if err == nil && len(tests) == 0 {
		err = &units.InputError{Func: fn, Field: "tests", Value: 0, Min: 1, Max: unbounded, Reason: "at least one test"}
	}
	for i, d := range tests {
		field := fmt.Sprintf("tests[%d]", i)
		err = errors.Join(err, units.Positive(fn, field+".drained", float64(d.Drained), "kg"),
			units.Within(fn, field+".wet", float64(d.Wet), float64(d.Drained), 1e6, "kg"),
			units.Positive(fn, field+".setting.flow", float64(d.Setting.Flow), "m3/s"),
			units.Positive(fn, field+".setting.product", float64(d.Setting.Product), "kg/s"),
			units.AtField(field, t.check(fn, d.Setting)))
	}
	if err != nil {
		return DewateringTable{}, TableCalibration{}, err
	}
	c := TableCalibration{Low: math.Inf(1), Tests: make([]float64, len(tests)), Bounds: make([]float64, len(tests))}
	var logs, solved, bound float64
	for i, d := range tests {
		share := math.Max(0, d.CarryOver()-spec.Adhering) * float64(d.Setting.Product) / (float64(spec.WaterDensity) * float64(d.Setting.Flow))
		if share >= 1 {
			return DewateringTable{}, TableCalibration{}, &units.InputError{Func: fn, Field: fmt.Sprintf("tests[%d].wet", i), Value: float64(d.Wet), Unit: "kg",
				Reason: "more water came with the animals than the flow brought: check the masses and the product rate", Kind: units.ErrNoSolution}
		}
		k, err := t.effectiveness(d.Setting, share)
		if err != nil {
			return DewateringTable{}, TableCalibration{}, units.AtField(fmt.Sprintf("tests[%d]", i), err)
		}
		if share == 0 {
			c.Bounds[i] = k
			bound = math.Max(bound, k)
			continue
		}
		c.Tests[i] = k
		logs += math.Log(k)
		solved++
		c.Low, c.High = math.Min(c.Low, k), math.Max(c.High, k)
	}
	if solved > 0 {
		c.Effectiveness = math.Exp(logs / solved)
	} else {
		c.Effectiveness, c.Low, c.High = bound, bound, bound
	}
	if bound > c.Effectiveness {
		c.Notices = append(c.Notices, units.Notice{Code: CodeRackLaws, Severity: units.Caution, Field: "tests", Value: bound, Limit: c.Effectiveness,
			Message: "a test was dry although the others say that the grate could not have dried it", Source: "weigh-and-drain tests"})
	}
	if c.High > 1.5*c.Low {
		c.Notices = append(c.Notices, units.Notice{Code: CodeRackLaws, Severity: units.Caution, Field: "tests", Value: c.High / c.Low, Limit: 1.5,
			Message: "the tests differ: the law does not follow this table over their range of settings", Source: "weigh-and-drain tests"})
	}
	spec.Grate.Effectiveness = c.Effectiveness
	t, err = NewDewateringTable(spec)
	return t, c, err
}

// effectiveness is the factor on the open area at which the share runs off.
func (t DewateringTable) effectiveness(s TableSetting, share float64) (float64, error) {
	const least, most = 0.01, 10.0
	at := func(logK float64) float64 {
		t.grate.spec.Effectiveness = math.Exp(logK)
		return t.excess(s, share)
	}
	a, b := math.Log(least), math.Log(most)
	fa, fb := at(a), at(b)
	if fa < 0 || fb > 0 {
		return math.NaN(), &units.InputError{Func: "hydraulics.CalibrateTable", Field: "setting", Value: share, Min: least, Max: most,
			Reason: "no effectiveness of the grate explains this share of water down the chute", Kind: units.ErrNoSolution}
	}
	k, err := root.FindBetween(at, a, b, fa, fb, 1e-12)
	return math.Exp(k), err
}
