// Command livehaul answers: do the animals arrive alive and well, and what has
// to be on the truck? For live animals in tanks it gives the load on each basis,
// oxygen and cylinders, carbon dioxide and pH, ammonia, heat and ice, when each
// limit is passed, and the largest load that keeps them all.
//
//	livehaul [-kind trout|catfish|other] [-animals "2600 kg"] [-tank "594 US gal"] [-tanks 4] ...
//
// Every quantity is written with its unit, SI or US. Without options it works
// out an invented haul of trout.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"pondwright.example/transport"
	"pondwright.example/units"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// wish is what the options say.
type wish struct {
	kind       string
	animals    units.Mass
	each       units.Mass
	tank       units.Volume
	tanks      int
	freeboard  float64
	hours      time.Duration
	demand     units.MassSpecificRate
	water, air units.Temperature
	oxygen     units.Concentration
	ph         float64
	alkalinity units.Alkalinity
	salinity   units.PracticalSalinity
	altitude   units.Length
	walls      units.ThermalConductance
	agitators  units.Power
	flow       units.MassFlow
	efficiency float64
	strip      units.Rate
	cylinder   units.Volume
	least, co2 units.Concentration
	ammonia    units.Concentration
}

// quantity is a flag that reads a quantity with its unit.
type quantity interface {
	UnmarshalText([]byte) error
}

func run(args []string, stdout, stderr io.Writer) int {
	var w wish
	flags := flag.NewFlagSet("livehaul", flag.ContinueOnError)
	flags.SetOutput(stderr)
	text := func(q quantity, name, value, usage string) {
		if value != "" {
			if err := q.UnmarshalText([]byte(value)); err != nil {
				panic(err) // a default of this program
			}
			usage += " (default " + value + ")"
		}
		flags.Func(name, usage, func(s string) error { return q.UnmarshalText([]byte(s)) })
	}
	flags.StringVar(&w.kind, "kind", "trout", "trout, catfish or other: whose demand and limits are taken where none is given")
	text(&w.animals, "animals", "2600 kg", "live mass in all tanks")
	text(&w.each, "each", "340 g", "mean mass of an animal")
	text(&w.tank, "tank", "2.25 m3", "volume of one tank to the brim")
	flags.IntVar(&w.tanks, "tanks", 4, "number of tanks, loaded alike")
	flags.Float64Var(&w.freeboard, "freeboard", 0, "share of a tank left empty, such as 0.05")
	flags.DurationVar(&w.hours, "hours", 9*time.Hour, "first animal in to last animal out, such as 9h30m")
	text(&w.demand, "demand", "", "oxygen demand of the animals, such as \"300 mg/kg/h\" (default by kind, mass and temperature)")
	text(&w.water, "water", "10 °C", "water at loading")
	text(&w.air, "air", "24 °C", "air around the tanks")
	text(&w.oxygen, "oxygen", "10 mg/L", "oxygen in the water at loading")
	flags.Float64Var(&w.ph, "ph", 7.6, "pH at loading")
	text(&w.alkalinity, "alkalinity", "100 mg/L{CaCO3}", "alkalinity of the water")
	text(&w.salinity, "salinity", "0 PSU", "salinity of the water")
	text(&w.altitude, "altitude", "610 m", "highest point of the road")
	text(&w.walls, "walls", "21 W/K", "heat conductance of all tanks")
	text(&w.agitators, "agitators", "360 W", "power of all agitators and pumps in the water")
	text(&w.flow, "flow", "", "oxygen let out of the store, all tanks, such as \"2600 g/h\" (default what holds against the largest demand)")
	flags.Float64Var(&w.efficiency, "efficiency", 0.3, "share of it that dissolves")
	text(&w.strip, "strip", "6 /h", "stripping of carbon dioxide by vents and agitators (kLa)")
	text(&w.cylinder, "cylinder", "244 ft3", "oxygen gas in one full cylinder")
	text(&w.least, "least-oxygen", "", "limit of oxygen (default by kind)")
	text(&w.co2, "most-co2", "", "limit of free carbon dioxide (default by kind)")
	text(&w.ammonia, "most-ammonia", "", "limit of un-ionised ammonia as nitrogen (default by kind)")
	flags.Usage = func() {
		fmt.Fprintln(stderr, "livehaul [OPTIONS] works out a haul of live animals; without options an invented haul of trout.")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		flags.Usage()
		return 2
	}
	answer, err := work(w)
	if err != nil {
		fmt.Fprintln(stderr, err)
		return 1
	}
	fmt.Fprint(stdout, tell(answer))
	return 0
}

// hauled is the haul worked out.
type hauled struct {
	wish      wish
	haul      transport.Haul
	plan      transport.HaulPlan
	one       transport.Loaded // one tank
	cylinders int
	vent      units.Flow // air that holds the limit of carbon dioxide, at half of equilibrium
	most      transport.MostLoad
	none      error // why there is no largest load
	basis     string
}

// approach is how near the air that leaves comes to equilibrium with the water.
const approach = 0.5

func work(w wish) (hauled, error) {
	a := hauled{wish: w}
	if w.tanks < 1 || w.tanks > 100 {
		return a, fmt.Errorf("-tanks %d: 1 to 100 tanks are possible", w.tanks)
	}
	h := transport.Haul{
		Tank: transport.Tank{Volume: w.tank * units.Volume(w.tanks), Freeboard: w.freeboard}, Product: w.animals, Duration: w.hours,
		Temperature: w.water, Oxygen: w.oxygen, PH: w.ph, Alkalinity: w.alkalinity, Salinity: w.salinity,
		Conductance: w.walls, Ambient: w.air, Agitators: w.agitators, CarbonKLa: w.strip,
	}
	var err error
	if h.Pressure, err = transport.PressureAt(w.altitude); err != nil {
		return a, err
	}
	if a.basis, err = kind(w, &h); err != nil {
		return a, err
	}
	h.Demand.Base, h.OxygenFlow, h.OxygenEfficiency = w.water, w.flow, w.efficiency
	if a.plan, err = h.Plan(); err != nil {
		return a, err
	}
	if w.flow == 0 {
		h.OxygenFlow = a.plan.HoldFlow
		if a.plan, err = h.Plan(); err != nil {
			return a, err
		}
	}
	a.haul = h
	if a.one, err = (transport.Tank{Volume: w.tank, Freeboard: w.freeboard}).Load(w.animals/units.Mass(w.tanks), h.FishDensity); err != nil {
		return a, err
	}
	if a.cylinders, err = (transport.Cylinder{Gas: w.cylinder}).Count(a.plan.Carry); err != nil {
		return a, err
	}
	if h.Limits.CO2 > 0 && w.hours > 0 {
		if a.vent, err = transport.VentFlow(a.plan.CO2Made.Per(w.hours), h.Limits.CO2, approach, w.water, w.salinity); err != nil && !errors.Is(err, units.ErrRange) {
			return a, err
		}
	}
	a.most, a.none = h.MostProduct()
	return a, nil
}

// kind sets what differs by animal and returns where the demand comes from.
func kind(w wish, h *transport.Haul) (basis string, err error) {
	h.Demand.At, basis = w.demand, "as given"
	switch w.kind {
	case "trout":
		h.FishDensity, h.Limits = transport.TroutDensity, transport.TroutHaulLimits()
		if w.demand == 0 {
			basis = "Liao (1971), trout in raceways"
			h.Demand.At, err = transport.LiaoDemand(transport.Trout, w.each, w.water)
		}
	case "catfish":
		h.Limits = transport.CatfishHaulLimits()
		if w.demand == 0 {
			basis = "Boyd, Romaire & Johnston (1978), fed catfish"
			h.Demand.At, err = transport.CatfishDemand(w.each, w.water)
		}
	case "other":
		if w.demand == 0 {
			return "", errors.New("-demand: of an animal other than trout and catfish the oxygen demand has to be given, such as \"300 mg/kg/h\"")
		}
	default:
		return "", fmt.Errorf("-kind %q: trout, catfish or other", w.kind)
	}
	if errors.Is(err, units.ErrRange) {
		basis, err = basis+", outside its range", nil
	}
	if w.least > 0 {
		h.Limits.Oxygen = w.least
	}
	if w.co2 > 0 {
		h.Limits.CO2 = w.co2
	}
	if w.ammonia > 0 {
		h.Limits.Ammonia = w.ammonia
	}
	return basis, err
}
