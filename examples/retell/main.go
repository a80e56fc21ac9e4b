// Command retell answers, while the pond is going down: what do the stages read
// off the staff say about tonight? It fits outlet, screen and pond area to them,
// forecasts again and says in plain words what changed and what cleaning the
// screen would win.
//
//	retell [-opened HH:MM] [-by HH:MM] -stage "18:00 0.86 m" [-stage ...] FOLDER
//
// FOLDER is a farm's folder as harvestday reads it, such as
// harvestday/heronflat. A stage is a clock time and a level above the outlet's
// invert with its unit, such as "18:00 0.86 m" or "18:00 2 ft 10 in".
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"strings"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/examples/drainplan"
	"pondwright.example/examples/internal/dual"
	"pondwright.example/units"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

type wish struct {
	opened, by string
	from       units.Length
	stages     []string
	sd         units.Length
}

func run(args []string, stdout, stderr io.Writer) int {
	var w wish
	flags := flag.NewFlagSet("retell", flag.ContinueOnError)
	flags.StringVar(&w.opened, "opened", "", "hour at which the outlet was opened (default the farm's)")
	flags.StringVar(&w.by, "by", "", "hour by which the basin has to be ready (default the farm's)")
	flags.TextVar(&w.from, "from", units.Length(0), "stage when it was opened, such as \"0.90 m\"; zero means the farm's")
	flags.TextVar(&w.sd, "reading", 2*units.Centimetre, "what a reading may be out by, one standard deviation")
	flags.Func("stage", "a `reading`, such as \"18:00 0.86 m\"; repeat it for each", func(s string) error {
		w.stages = append(w.stages, s)
		return nil
	})
	flags.Usage = func() {
		fmt.Fprintln(stderr, "retell [OPTIONS] -stage READING FOLDER forecasts tonight again from stages read off the staff.")
		flags.PrintDefaults()
	}
	return drainplan.Command(flags, args, stdout, stderr, func() bool { return len(w.stages) > 0 }, func(folder string) (string, error) { return answer(folder, w) })
}

func answer(folder string, w wish) (string, error) {
	n, err := drainplan.Open(folder)
	if err != nil {
		return "", err
	}
	p := n.Plan
	y, m, d := p.Opening.Date()
	noon := time.Date(y, m, d, 12, 0, 0, 0, n.Zone)
	if w.opened != "" {
		if p.Opening, err = drainplan.ClockAfter(w.opened, noon); err != nil {
			return "", fmt.Errorf("-opened: %w", err)
		}
		p.Start = p.Opening
	}
	if w.from != 0 {
		p.Stage = w.from
	}
	by := n.Input.Night.ReadyBy.In(n.Zone)
	if w.by != "" {
		if by, err = drainplan.ClockAfter(w.by, p.Opening); err != nil {
			return "", fmt.Errorf("-by: %w", err)
		}
	}
	readings, err := read(w, p.Opening)
	if err != nil {
		return "", err
	}
	// A fouled screen is no part of the farm's doubt about its losses, so the
	// outlet keeps the wide default; of the pond's area the farm knows more.
	priors := drawdown.Priors{Area: n.Input.Pond.AreaDoubt}
	if priors.Area == 0 {
		priors.Area = -1 // held: the farm has no doubt
	}
	c, err := p.Calibrate(readings, priors)
	if err != nil {
		return "", err
	}
	cleaned, err := cleanedNow(p, readings[len(readings)-1])
	if err != nil {
		return "", err
	}
	return tell(n, p, by, readings, c, cleaned), nil
}

// read takes the readings apart.
func read(w wish, opened time.Time) ([]drawdown.StageReading, error) {
	var out []drawdown.StageReading
	var errs []error
	for _, s := range w.stages {
		hhmm, level, _ := strings.Cut(strings.TrimSpace(s), " ")
		at, err := drainplan.ClockAfter(hhmm, opened)
		if err != nil {
			errs = append(errs, fmt.Errorf("-stage %q: %w", s, err))
			continue
		}
		stage, err := units.ParseLength(level)
		if err != nil {
			errs = append(errs, fmt.Errorf("-stage %q: %w", s, err))
			continue
		}
		out = append(out, drawdown.StageReading{At: at, Stage: stage, SD: w.sd})
	}
	return out, errors.Join(errs...)
}

// cleanedNow is when the pond is ready if from the last reading on the outlet
// passes what it was designed for.
func cleanedNow(p drawdown.Plan, last drawdown.StageReading) (time.Time, error) {
	p.Start, p.Opening, p.Stage = last.At, last.At, last.Stage
	r, err := p.Run()
	return r.Ready, err
}

func tell(n drainplan.Night, p drawdown.Plan, by time.Time, readings []drawdown.StageReading, c drawdown.Calibration, cleaned time.Time) string {
	var b strings.Builder
	fold := func(format string, args ...any) { b.WriteString(drainplan.Fold(fmt.Sprintf(format, args...), "  ")) }
	fmt.Fprintf(&b, "%s, retold at %s\n\n", n.Input.Farm, drainplan.At(readings[len(readings)-1].At))
	fmt.Fprintln(&b, "read       stage              off the fitted course")
	for i, r := range readings {
		off := c.Residuals[i]
		fmt.Fprintf(&b, "%s  %-17s  %+.0f cm (%+.1f in)\n", drainplan.At(r.At), dual.Level(r.Stage), off.In(units.Centimetres), off.In(units.Inches))
	}
	fmt.Fprintln(&b)
	fold("%s", outlet(c))
	fold("%s", screen(c))
	fold("%s", area(c))
	fmt.Fprintln(&b)
	fold("Planned ready: %s. Now: %s, between %s and %s eight times in ten.", drainplan.At(c.Planned), never(c.Ready), never(c.Early), never(c.Late))
	if !c.Ready.IsZero() && !c.Planned.IsZero() {
		fold("That is %s.", later(c.Ready.Sub(c.Planned)))
	}
	fold("%s", verdict(c, by))
	if gain := c.Ready.Sub(cleaned); c.Outlet.Value < 0.9 && !cleaned.IsZero() && (c.Ready.IsZero() || gain > 10*time.Minute) {
		fold("Were the outlet as designed from now on, it would be ready at %s.", drainplan.At(cleaned))
	}
	b.WriteString(drainplan.Notes(c.Notices))
	b.WriteString(drainplan.Fold("Clear a screen from the bank with a rake, never by hand in front of an open gate, never alone and never without light and vest. Read the staff again within the hour.", "  "))
	return b.String()
}

func outlet(c drawdown.Calibration) string {
	return fmt.Sprintf("The outlet is at %.0f %% of design (give or take %.0f).", 100*c.Outlet.Value, 100*c.Outlet.SD)
}

func screen(c drawdown.Calibration) string {
	if c.Clogging.SD > 0.15*c.Clogging.Value {
		return "Whether the screen clogs further as the pond falls cannot be told from these readings yet."
	}
	return fmt.Sprintf("At the last water the screen lets %.0f %% of that through (give or take %.0f).", 100*c.Clogging.Value, 100*c.Clogging.SD)
}

func area(c drawdown.Calibration) string {
	if math.Abs(c.Area.Value-1) < c.Area.SD || c.Area.SD == 0 {
		return "The pond's area is as planned, as far as the readings tell."
	}
	return fmt.Sprintf("The pond's area looks like %.0f %% of the plan's (give or take %.0f).", 100*c.Area.Value, 100*c.Area.SD)
}

func never(t time.Time) string {
	if t.IsZero() {
		return "not within two days"
	}
	return drainplan.At(t)
}

func later(d time.Duration) string {
	switch {
	case d.Abs() < 5*time.Minute:
		return "as planned, within five minutes"
	case d < 0:
		return dual.Span(-d) + " earlier"
	}
	return dual.Span(d) + " later"
}

// verdict holds the new forecast against the asked hour.
func verdict(c drawdown.Calibration, by time.Time) string {
	hour := drainplan.At(by)
	switch {
	case !c.Late.IsZero() && !c.Late.After(by):
		return "The asked hour, " + hour + ", is kept nine times in ten or better."
	case !c.Ready.IsZero() && !c.Ready.After(by):
		return "The asked hour, " + hour + ", is in doubt: warn the trucks and the plant."
	case !c.Early.IsZero() && !c.Early.After(by):
		return "The asked hour, " + hour + ", is more likely missed than kept: call the trucks and the plant, and make ready to pump over the bank."
	}
	return "The asked hour, " + hour + ", will be missed: call the trucks and the plant, and pump over the bank or stop while the pond can still be refilled."
}
