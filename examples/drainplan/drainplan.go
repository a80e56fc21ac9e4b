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
	"pondwright.example/hydraulics"
	"pondwright.example/units"
)

// storageError is how far the pond's table may be off its survey, relative to
// the full volume.
const storageError = 1e-6

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
	if err := in.Validate(); err != nil {
		return n, err
	}
	var err error
	if n.Zone, err = plan.ParseZone(in.Place.Zone); err != nil {
		return n, err
	}
	pond, err := n.pond()
	if err != nil {
		return n, err
	}
	outlet, err := pipe(in, 1)
	if err != nil {
		return n, err
	}
	if n.OutletSD, err = outletSD(in, outlet); err != nil {
		return n, err
	}
	tide, err := tideTable(in.Tide)
	if err != nil {
		return n, err
	}
	backflow := drawdown.BothWays
	if in.Outlet.Flap {
		backflow = drawdown.FlapGate
	}
	opening := in.Night.Opening.In(n.Zone)
	n.Plan = drawdown.Plan{
		Pond: pond, Start: opening, Stage: in.Pond.Start, Opening: opening, Target: in.Pond.BasinReady,
		Gates:     []drawdown.Gate{{Name: "outlet", Outlet: outlet, Backflow: backflow}},
		Tailwater: tide,
		FallLimit: in.Pond.RateLimit.Per(time.Hour),
		Horizon:   horizon,
	}
	return n, n.Plan.Validate()
}

// pond is the pond's table of stages, read or from the survey.
func (n *Night) pond() (drawdown.StageTable, error) {
	if p := n.Input.Pond; len(p.Stages) > 0 {
		rows := make([]drawdown.StageArea, len(p.Stages))
		for i, s := range p.Stages {
			rows[i] = drawdown.StageArea(s)
		}
		return drawdown.NewStageTable(rows)
	}
	const datum drawdown.Datum = "outlet invert"
	s := drawdown.Survey{Sense: drawdown.ElevationUp, Datum: datum, PondDatum: datum}
	for _, q := range n.Input.Pond.Survey {
		s.Points = append(s.Points, drawdown.SurveyPoint(q))
	}
	for _, q := range n.Input.Pond.Shore {
		s.Shore = append(s.Shore, drawdown.SurveyPoint(q))
	}
	bed, err := s.Bed()
	if err != nil {
		return drawdown.StageTable{}, err
	}
	n.Notices = append(n.Notices, bed.Notices...)
	return drawdown.Tabulate(bed, storageError)
}

// pipe is the drain pipe with the sum of its losses multiplied by factor; the
// velocity head lost at the exit stays.
func pipe(in plan.Input, factor float64) (hydraulics.OutletPipe, error) {
	water, err := hydraulics.SeaWater(in.Water.Temperature, in.Water.Salinity)
	if err != nil && math.IsNaN(water.Density.KilogramsPerCubicMetre()) {
		return hydraulics.OutletPipe{}, err
	}
	o := in.Outlet
	backflow := hydraulics.BackflowReverse
	if o.Flap {
		backflow = hydraulics.BackflowFlap
	}
	return hydraulics.NewOutletPipe(hydraulics.OutletPipeSpec{
		Bore: o.Bore, Length: o.Length, Roughness: o.Roughness,
		LossSum: max(1, factor*(o.Entrance+o.Screen+o.Exit)), EntryLoss: o.EntryLoss,
		Viscosity: water.KinematicViscosity(), Backflow: backflow,
	})
}

// outletSD compares the pipe with one whose losses are off by the farm's doubt,
// at the stage the night starts from.
func outletSD(in plan.Input, outlet hydraulics.OutletPipe) (float64, error) {
	if in.Outlet.Doubt == 0 {
		return 0, nil
	}
	worse, err := pipe(in, 1+in.Outlet.Doubt)
	if err != nil {
		return 0, err
	}
	free := -in.Outlet.Bore // below the pipe
	return math.Log(float64(outlet.Discharge(in.Pond.Start, free) / worse.Discharge(in.Pond.Start, free))), nil
}

func tideTable(t plan.Tide) (*drawdown.TideTable, error) {
	zone, err := plan.ParseZone(t.Zone)
	if err != nil {
		return nil, err
	}
	zero := -t.Invert
	tab := &drawdown.TideTable{Zone: zone, Datum: drawdown.Datum(t.Datum), ZeroAbovePond: &zero, Surge: t.Surge}
	for _, w := range t.Waters {
		tab.Turnings = append(tab.Turnings, drawdown.Turning{At: w.Time, Level: w.Height})
	}
	return tab, nil
}
