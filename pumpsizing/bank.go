package pumpsizing

import (
	"errors"
	"fmt"
	"math"

	"pondwright.example/internal/root"
	"pondwright.example/units"
)

// BankUnit is one pump of a bank at its speed.
type BankUnit struct {
	Curve Curve
	Speed units.RotationalSpeed
}

// BankDuty is a bank of unequal pumps at work.
type BankDuty struct {
	Flow    units.Flow     `json:"flow"`
	Head    units.Length   `json:"head"`
	Flows   []units.Flow   `json:"flows"` // of each pump, in the order given
	Heads   []units.Length `json:"heads"` // likewise
	Notices []units.Notice `json:"notices,omitempty"`
}

// checkBank checks the units of a bank.
func checkBank(fn string, sys System, pumps []BankUnit) error {
	var faults []error
	if len(pumps) == 0 {
		faults = append(faults, &units.InputError{Func: fn, Field: "pumps", Value: 0, Reason: "no pump"})
	}
	if sys == nil {
		faults = append(faults, &units.InputError{Func: fn, Field: "sys", Value: math.NaN(), Reason: "no system was given"})
	} else {
		faults = append(faults, units.Finite(fn, "sys.Head(0)", sys.Head(0).Metres(), "m"))
	}
	for i, p := range pumps {
		at := fmt.Sprintf("pumps[%d]", i)
		faults = append(faults, units.AtField(at, p.Curve.built(fn)))
		faults = append(faults, units.Positive(fn, at+".speed", p.Speed.In(units.RevolutionsPerMinute), "r/min"))
	}
	return errors.Join(faults...)
}

// ratio and end of a unit: speed ratio and furthest flow searched.
func (u *BankUnit) ratio() float64 { return u.Speed.RadiansPerSecond() / u.Curve.speed }
func (u *BankUnit) end() float64   { return searched * u.Curve.last * u.ratio() * u.Curve.flowScale }

// at is the flow of a falling curve at head h, zero when h is above its
// shut-off head.
func (u *BankUnit) at(h float64) (float64, error) {
	r := u.ratio()
	if u.Curve.head(0, r) <= h {
		return 0, nil
	}
	if u.Curve.head(u.end(), r) >= h {
		return u.end(), nil
	}
	return root.Find(func(q float64) float64 { return u.Curve.head(q, r) - h }, 0, u.end(), 0)
}

// MeetParallel finds the duty of unequal pumps side by side on one system: all
// work at the same head, and their flows add. A pump whose shut-off head is
// below that head moves nothing; it needs a check valve, or water runs back
// through it, and the notice says so.
//
// Errors: ErrDomain for a bank or system that cannot be, or a pump with a
// rising curve, which must not run beside another; ErrNoSolution when no pump
// reaches the lift or the system is too easy.
// Source: flows at equal head add; bracketed root of the system's head.
func MeetParallel(sys System, pumps ...BankUnit) (BankDuty, error) {
	const fn = "pumpsizing.MeetParallel"
	if err := checkBank(fn, sys, pumps); err != nil {
		return BankDuty{}, err
	}
	top := 0.0
	for i := range pumps {
		if !pumps[i].Curve.falling {
			return BankDuty{}, &units.InputError{Func: fn, Field: fmt.Sprintf("pumps[%d].curve", i), Value: math.NaN(), Reason: "rises with flow: unstable beside another pump"}
		}
		top = math.Max(top, pumps[i].Curve.head(0, pumps[i].ratio()))
	}
	lift := sys.Head(0).Metres()
	if top <= lift {
		return BankDuty{}, &units.InputError{Func: fn, Field: "sys", Value: lift, Unit: "m", Min: math.Inf(-1), Max: top, Reason: "lift above the highest shut-off head", Kind: units.ErrNoSolution}
	}
	var failed error
	total := func(h float64) float64 {
		sum := 0.0
		for i := range pumps {
			q, err := pumps[i].at(h)
			failed = errors.Join(failed, err)
			sum += q
		}
		return sum
	}
	gap := func(h float64) float64 { return sys.Head(units.Flow(total(h))).Metres() - h }
	low := math.Min(0, lift) - 1
	if !(gap(low) > 0) {
		return BankDuty{}, &units.InputError{Func: fn, Field: "sys", Value: low, Unit: "m", Reason: "the system takes more than the pumps' data reach: throttle it", Kind: units.ErrNoSolution}
	}
	h, err := root.Find(gap, low, top, 0)
	if err = errors.Join(err, failed); err != nil {
		return BankDuty{}, unsolved(fn, err)
	}
	out := BankDuty{Head: units.Length(h), Flow: units.Flow(total(h))}
	for i := range pumps {
		q, _ := pumps[i].at(h)
		out.Flows = append(out.Flows, units.Flow(q))
		out.Heads = append(out.Heads, units.Length(h))
		at := fmt.Sprintf("pumps[%d]", i)
		if q == 0 {
			out.Notices = note(out.Notices, CodeReversedHead, units.Warning, at, pumps[i].Curve.head(0, pumps[i].ratio()), h, "m",
				"this pump's shut-off head is below the head of the bank: it moves nothing, and without a check valve water runs back through it", "affinity laws")
		}
		out.beyond(at, q, &pumps[i])
	}
	return out, nil
}

// MeetSeries finds the duty of unequal pumps one behind the other: all move the
// same flow, and their heads add. A small pump driven past its own run-out
// becomes a resistance with a negative head, and the notice says so.
//
// Errors: ErrDomain for a bank or system that cannot be; ErrNoSolution when the
// pumps together do not reach the lift or the system is too easy.
// Source: heads at equal flow add; bracketed root.
func MeetSeries(sys System, pumps ...BankUnit) (BankDuty, error) {
	const fn = "pumpsizing.MeetSeries"
	if err := checkBank(fn, sys, pumps); err != nil {
		return BankDuty{}, err
	}
	end := 0.0
	for i := range pumps {
		end = math.Max(end, pumps[i].end())
	}
	gap := func(q float64) float64 {
		sum := -sys.Head(units.Flow(q)).Metres()
		for i := range pumps {
			sum += pumps[i].Curve.head(q, pumps[i].ratio())
		}
		return sum
	}
	switch {
	case !(gap(0) > 0):
		return BankDuty{}, &units.InputError{Func: fn, Field: "sys", Value: sys.Head(0).Metres(), Unit: "m", Reason: "lift above the sum of the shut-off heads", Kind: units.ErrNoSolution}
	case !(gap(end) < 0):
		return BankDuty{}, &units.InputError{Func: fn, Field: "sys", Value: end * 3600, Unit: "m3/h", Reason: "the system takes more than the pumps' data reach: throttle it", Kind: units.ErrNoSolution}
	}
	q, err := root.Find(gap, 0, end, 0)
	if err != nil {
		return BankDuty{}, unsolved(fn, err)
	}
	out := BankDuty{Flow: units.Flow(q)}
	for i := range pumps {
		h := pumps[i].Curve.head(q, pumps[i].ratio())
		out.Head += units.Length(h)
		out.Heads = append(out.Heads, units.Length(h))
		out.Flows = append(out.Flows, units.Flow(q))
		at := fmt.Sprintf("pumps[%d]", i)
		if h < 0 {
			out.Notices = note(out.Notices, CodeReversedHead, units.Warning, at, h, 0, "m", "this pump is past its run-out and holds the flow back: leave it out", "affinity laws")
		}
		out.beyond(at, q, &pumps[i])
	}
	return out, nil
}

// beyond adds the notice of a pump past its data.
func (b *BankDuty) beyond(at string, q float64, u *BankUnit) {
	if last := u.Curve.last * u.ratio() * u.Curve.flowScale; q > last {
		b.Notices = note(b.Notices, CodeExtrapolated, units.Caution, at, q*3600, last*3600, "m3/h",
			"beyond this pump's last data-sheet point at its speed, "+num(last*3600)+" m3/h", "")
	}
}
