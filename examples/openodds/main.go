// Command openodds answers: how likely is the catch basin ready by the asked
// hour, for each hour at which the outlet may be opened? The doubts about
// outlet, tide and pond are the farm's own; near a tide that shuts the outlet
// the ready time falls into humps hours apart, which are named one by one.
//
//	openodds [-open 15:00,16:00,17:00] [-by 03:00] [-draws N] FOLDER
//
// FOLDER is a farm's folder as harvestday reads it, such as
// harvestday/heronflat.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"pondwright.example/examples/drainplan"
	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/internal/dual"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

type wish struct {
	open, by string
	options  plan.OddsOptions
}

func run(args []string, stdout, stderr io.Writer) int {
	var w wish
	flags := flag.NewFlagSet("openodds", flag.ContinueOnError)
	flags.StringVar(&w.open, "open", "", "hours at which the outlet may be opened, such as 16:00,17:00,18:30 (default every hour around the farm's)")
	flags.StringVar(&w.by, "by", "", "hour by which the basin has to be ready, such as 03:00 (default the farm's)")
	flags.IntVar(&w.options.Draws, "draws", 1500, "draws of the farm's doubts, 100 or more")
	flags.Uint64Var(&w.options.Seed, "seed", 1, "of the draws; equal seeds give equal answers")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "openodds [OPTIONS] FOLDER gives the odds that the basin is ready in time, opening by opening.")
		flags.PrintDefaults()
	}
	return drainplan.Command(flags, args, stdout, stderr, nil, func(folder string) (string, error) { return answer(folder, w) })
}

func answer(folder string, w wish) (string, error) {
	n, err := drainplan.Open(folder)
	if err != nil {
		return "", err
	}
	opening := n.Plan.Opening
	y, m, d := opening.Date()
	noon := time.Date(y, m, d, 12, 0, 0, 0, n.Zone)
	var openings []time.Time
	if w.open == "" {
		for i := -2; i <= 3; i++ {
			openings = append(openings, opening.Add(time.Duration(i)*time.Hour))
		}
	} else {
		for hhmm := range strings.SplitSeq(w.open, ",") {
			t, err := drainplan.ClockAfter(strings.TrimSpace(hhmm), noon)
			if err != nil {
				return "", fmt.Errorf("-open: %w", err)
			}
			openings = append(openings, t)
		}
	}
	if w.by != "" {
		if n.Input.Night.ReadyBy, err = drainplan.ClockAfter(w.by, noon); err != nil {
			return "", fmt.Errorf("-by: %w", err)
		}
	}
	for _, t := range openings {
		if !t.Before(n.Input.Night.ReadyBy) {
			return "", fmt.Errorf("-open: %s is not before the asked hour, %s", drainplan.At(t), drainplan.At(n.Input.Night.ReadyBy.In(n.Zone)))
		}
	}
	odds, err := plan.Likelihood(n.Input, openings, w.options)
	if err != nil {
		return "", err
	}
	return tell(n, odds), nil
}

func tell(n drainplan.Night, odds []plan.Odds) string {
	var b strings.Builder
	in := n.Input
	at := func(t time.Time) string { return drainplan.At(t.In(n.Zone)) }
	fmt.Fprintf(&b, "%s: ready by %s? Pond from %s down to %s.\n", in.Farm, at(in.Night.ReadyBy), dual.Level(in.Pond.Start), dual.Level(in.Pond.BasinReady))
	b.WriteString(drainplan.Fold(fmt.Sprintf("Doubts drawn, %d times: losses of the outlet %.0f %%, surge %s, range of the tide %.0f %%, area of the pond %.0f %%; one standard deviation each.",
		odds[0].Draws, 100*in.Outlet.Doubt, dual.Level(in.Tide.Doubt), 100*in.Tide.RangeDoubt, 100*in.Pond.AreaDoubt), "  "))
	fmt.Fprintln(&b, "\nopened     in time        ready P10  P50        P90")
	for _, o := range odds {
		fmt.Fprintf(&b, "%-9s  %-13s  %-9s  %-9s  %s\n", at(o.Opening), drainplan.Share(1-o.Miss, o.Draws), at(o.P10), at(o.P50), at(o.P90))
	}
	fmt.Fprintln(&b, "In brackets: what the number of draws leaves open, 19 times in 20.")
	fmt.Fprintln(&b)
	for _, o := range odds {
		b.WriteString(drainplan.Fold(fmt.Sprintf("%s: %s", at(o.Opening), humps(o, at)), "  "))
	}
	b.WriteString(drainplan.Notes(n.Notices))
	fmt.Fprintln(&b, "The odds are no better than the farm's doubts; a forecast of the surge on the day narrows them most.")
	return b.String()
}

// humps names the clusters of ready times. Nothing but a shut outlet keeps ready
// times an hour and more apart.
func humps(o plan.Odds, at func(time.Time) string) string {
	if len(o.Humps) == 1 {
		return fmt.Sprintf("one hump, %s to %s.", at(o.Humps[0].From), at(o.Humps[0].To))
	}
	names := []string{"down on the ebb", "shut in by the flood, down an ebb later", "down two ebbs later"}
	var parts []string
	for i, h := range o.Humps {
		name := "later still"
		if i < len(names) {
			name = names[i]
		}
		parts = append(parts, fmt.Sprintf("%.0f %% %s (%s to %s)", 100*h.Share, name, at(h.From), at(h.To)))
	}
	return strings.Join(parts, ", ") + "."
}
