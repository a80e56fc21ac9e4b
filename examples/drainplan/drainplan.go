// Package drainplan takes from a farm's papers the drawdown of its night alone,
// for programs that ask about the water and not about pump, ice and trucks. It
// computes no formula of its own.
package drainplan

import (
	"fmt"
	"math"
	"os"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/examples/harvestday/farm"
	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/units"
)

// horizon is how long a drawdown is followed.
const horizon = 2 * 24 * time.Hour

// Night is the drawdown of a farm's night with what the farm doubts about it.
type Night struct {
	Input plan.Input
	Zone  *time.Location // the farm's clock
	// Plan opens the outlet at Input.Night.Opening.
	Plan drawdown.Plan
	// OutletSD is the standard deviation of the logarithm of what the outlet
	// passes at the start, from the farm's doubt about its losses.
	OutletSD float64
	Notices  []units.Notice
}

// Open reads the farm's folder and composes the drawdown of its night. The
// error joins every problem found.
func Open(folder string) (Night, error) {
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return Night{}, fmt.Errorf("%s is not a folder that can be read", folder)
	}
	in, notices, err := farm.Read(os.DirFS(folder))
	if err != nil {
		return Night{}, err
	}
	n, err := Compose(in)
	n.Notices = append(notices, n.Notices...)
	return n, err
}

// Compose makes the drawdown of the night from the farm's input.
func Compose(in plan.Input) (Night, error) {
	n := Night{Input: in}
	var err error
	if n.Plan, n.Notices, err = plan.Drawdown(in, 1); err != nil {
		return n, err
	}
	n.Plan.Horizon = horizon
	if n.Zone, err = plan.ParseZone(in.Place.Zone); err != nil {
		return n, err
	}
	n.OutletSD, err = outletSD(in, n.Plan)
	return n, err
}

// outletSD compares the pipe with one whose losses are off by the farm's doubt,
// at the stage the night starts from.
func outletSD(in plan.Input, night drawdown.Plan) (float64, error) {
	if in.Outlet.Doubt == 0 {
		return 0, nil
	}
	worse, _, err := plan.Drawdown(in, 1+in.Outlet.Doubt)
	if err != nil {
		return 0, err
	}
	free := -in.Outlet.Bore // below the pipe
	flow := func(p drawdown.Plan) units.Flow { return p.Gates[0].Outlet.Discharge(in.Pond.Start, free) }
	return math.Log(float64(flow(night) / flow(worse))), nil
}
