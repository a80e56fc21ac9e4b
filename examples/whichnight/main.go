// Command whichnight answers: which night of the tide table suits a drain
// harvest? It ranks the evenings by how often the pond misses first light with
// the work that must be done before it, then by the time in hand, then by the
// darker moon. It ranks; people choose.
//
//	whichnight [-first DAY] [-nights N] [-open HH:MM] [-work 4h] FOLDER
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

	"pondwright.example/drawdown"
	"pondwright.example/examples/drainplan"
	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/internal/dual"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// sooner is how long before the wished opening one is looked for.
const sooner = 4 * time.Hour

type wish struct {
	first, open string
	nights      int
	work        time.Duration
	draws       int
	seed        uint64
}

func run(args []string, stdout, stderr io.Writer) int {
	var w wish
	flags := flag.NewFlagSet("whichnight", flag.ContinueOnError)
	flags.StringVar(&w.first, "first", "", "first evening looked at, such as 2027-03-14 (default the tide table's first)")
	flags.IntVar(&w.nights, "nights", 0, "how many evenings (default as many as the tide table covers, at most 30)")
	flags.StringVar(&w.open, "open", "", "hour at which the outlet is to be opened, such as 17:00 (default the farm's)")
	flags.DurationVar(&w.work, "work", 0, "time from a ready catch basin to the last bin, such as 4h10m (default reckoned from the farm's basin and pump)")
	flags.IntVar(&w.draws, "draws", 300, "draws of surge and outlet for each night")
	flags.Uint64Var(&w.seed, "seed", 1, "of the draws; equal seeds give equal answers")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "whichnight [OPTIONS] FOLDER ranks the evenings of the farm's tide table for a drain harvest.")
		flags.PrintDefaults()
	}
	return drainplan.Command(flags, args, stdout, stderr, nil, func(folder string) (string, error) { return answer(folder, w) })
}

func answer(folder string, w wish) (string, error) {
	n, err := drainplan.Open(folder)
	if err != nil {
		return "", err
	}
	if w.work == 0 {
		whole, err := plan.Make(n.Input)
		if err != nil {
			return "", err
		}
		w.work = whole.Basin.Work()
	}
	if w.work < 0 {
		return "", fmt.Errorf("-work %v: the work after a ready basin takes no negative time", w.work)
	}
	p := n.Plan
	if w.open != "" {
		y, m, d := p.Opening.Date()
		if p.Opening, err = drainplan.ClockAfter(w.open, time.Date(y, m, d, 12, 0, 0, 0, n.Zone)); err != nil {
			return "", fmt.Errorf("-open: %w", err)
		}
	}
	p.Start = p.Opening.Add(-sooner)
	evenings, err := evenings(n, p, w)
	if err != nil {
		return "", err
	}
	ranked, err := drawdown.RankNights(drawdown.NightQuestion{
		Plan: p, Evenings: evenings,
		Place: drawdown.Place{Latitude: n.Input.Place.Latitude, Longitude: n.Input.Place.Longitude},
		Work:  w.work, Opening: sooner, SurgeSD: n.Input.Tide.Doubt, OutletSD: n.OutletSD, Draws: w.draws, Seed: w.seed,
	})
	if err != nil {
		return "", err
	}
	return tell(n, p, w, ranked), nil
}

// evenings are the days on which a drawdown from the opening on stays inside
// the tide table.
func evenings(n drainplan.Night, p drawdown.Plan, w wish) ([]time.Time, error) {
	waters := n.Input.Tide.Waters
	begin, end := waters[0].Time, waters[len(waters)-1].Time
	day := begin.In(n.Zone)
	if w.first != "" {
		var err error
		if day, err = time.ParseInLocation("2006-01-02", w.first, n.Zone); err != nil {
			return nil, fmt.Errorf("-first %q is not a day such as 2027-03-14", w.first)
		}
	}
	if w.nights < 0 || w.nights > 366 {
		return nil, fmt.Errorf("-nights %d: one to 366 nights can be looked at", w.nights)
	}
	most := w.nights
	if most == 0 {
		most = 30
	}
	var out []time.Time
	for i := range most {
		y, m, d := day.Date()
		at := time.Date(y, m, d+i, p.Start.Hour(), p.Start.Minute(), 0, 0, n.Zone)
		inside := !at.Before(begin) && !at.Add(p.Horizon).After(end)
		if !inside && w.nights > 0 {
			return nil, fmt.Errorf("the tide table runs from %s to %s; a drawdown opened on %s is followed for %s",
				begin.In(n.Zone).Format("2 Jan 15:04"), end.In(n.Zone).Format("2 Jan 15:04"), at.Format("2 Jan 15:04"), dual.Span(p.Horizon))
		}
		if inside {
			out = append(out, at)
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("the tide table covers no whole night; it runs from %s to %s",
			begin.In(n.Zone).Format("2 Jan 15:04"), end.In(n.Zone).Format("2 Jan 15:04"))
	}
	return out, nil
}

func tell(n drainplan.Night, p drawdown.Plan, w wish, ranked []drawdown.NightChoice) string {
	var b strings.Builder
	in := n.Input
	fmt.Fprintf(&b, "%s: which night? Outlet open at %s, pond from %s\n  down to %s, then %s of work before first light.\n",
		in.Farm, p.Opening.Format("15:04"), dual.Level(p.Stage), dual.Level(p.Target), dual.Span(w.work))
	fmt.Fprintf(&b, "Doubts drawn, %d times a night: surge %s, outlet %.0f %%, one standard deviation each.\n\n",
		w.draws, dual.Level(in.Tide.Doubt), 100*n.OutletSD)
	fmt.Fprintln(&b, "    opened on   misses         ready P10  P50    P90    due by  open by  tide-shut   moon: lit, up")
	hour := func(t time.Time) string {
		if t.IsZero() {
			return "-"
		}
		return t.In(n.Zone).Round(time.Minute).Format("15:04")
	}
	for i, c := range ranked {
		fmt.Fprintf(&b, "%2d  %-10s  %-13s  %-9s  %-5s  %-5s  %-6s  %-7s  %-10s  %.0f %%, %s\n",
			i+1, day(c), drainplan.Share(c.Miss, w.draws),
			hour(c.P10), hour(c.P50), hour(c.P90), hour(c.ReadyBy), latest(c, hour), dual.Span(c.Locked),
			100*c.Night.Midnight.Illuminated, dual.Span(c.Night.Moonlit))
	}
	fmt.Fprintln(&b, "Misses in brackets: what the number of draws leaves open, 19 times in 20. Open by: on the forecast tide.")
	fmt.Fprintln(&b)
	fmt.Fprintln(&b, reason(ranked))
	for _, c := range ranked[:min(3, len(ranked))] {
		for _, cliff := range c.Cliffs {
			fmt.Fprintf(&b, "%s: opened after %s it is ready %s, the tide shutting the outlet first.\n",
				day(c), cliff.Before.In(n.Zone).Format("Mon 15:04"), later(cliff))
		}
	}
	b.WriteString(drainplan.Notes(n.Notices))
	fmt.Fprintln(&b, "Numbers rank; people choose. Weather warnings, the plant's hours, a moult and the crew are not in them.\nPonds and basins drown people at night: vests, ladder, lights, nobody alone.")
	return b.String()
}

func day(c drawdown.NightChoice) string { return c.Opening.Format("Mon _2 Jan") }

func later(c drawdown.Cliff) string {
	if c.Never {
		return "not within " + dual.Span(c.Jump)
	}
	return dual.Span(c.Jump) + " later"
}

func latest(c drawdown.NightChoice, hour func(time.Time) string) string {
	if c.Latest.IsZero() {
		return "none"
	}
	return hour(c.Latest)
}

// reason says why the first night stands first.
func reason(ranked []drawdown.NightChoice) string {
	best := ranked[0]
	s := fmt.Sprintf("First: opened on %s, late %.0f times in a hundred", day(best), 100*best.Miss)
	switch {
	case best.Latest.IsZero():
		s += "; no opening makes it in time even on the forecast tide"
	case best.Latest.Before(best.Opening):
		s += fmt.Sprintf("; the outlet should be open %s sooner than wished", dual.Span(best.Opening.Sub(best.Latest)))
	default:
		s += fmt.Sprintf(", with %s in hand before the latest opening", dual.Span(best.Latest.Sub(best.Opening)))
	}
	return s + "."
}
