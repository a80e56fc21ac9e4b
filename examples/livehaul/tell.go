package main

import (
	"fmt"
	"strings"

	"pondwright.example/examples/drainplan"
	"pondwright.example/examples/internal/dual"
	"pondwright.example/units"
)

// tell writes the haul for the people who load it.
func tell(a hauled) string {
	var b strings.Builder
	line := func(what, format string, args ...any) {
		fmt.Fprintf(&b, "  %-26s %s\n", what, fmt.Sprintf(format, args...))
	}
	w, p := a.wish, a.plan
	fmt.Fprintf(&b, "Live haul of %s, %s, in %s of %s, %s on the road\n\n", dual.Mass(w.animals), animal(w.kind), number(w.tanks, "tank"), tankful(w.tank), dual.Span(w.hours))

	fmt.Fprintln(&b, "EACH TANK")
	line("animals", "%s", dual.Mass(a.one.Product))
	line("load per tank volume", "%s", perTank(a.one.PerTank))
	line("load per water volume", "%s kg/L (%s lb/US gal)", dual.Number(a.one.PerWater.In(units.KilogramsPerLitreWater), 3), dual.Number(a.one.PerWater.In(units.PoundsPerUSGallonWater), 3))
	line("water before loading", "%s; the animals lift it by %s", tankful(a.one.Water), tankful(a.one.Displaced))

	fmt.Fprintln(&b, "\nOXYGEN, all tanks")
	line("demand", "%s, %s", units.Digits(a.haul.Demand.At, units.MilligramsPerKilogramHour, 3), a.basis)
	line("taken up", "%s", dual.Mass(p.OxygenUsed))
	line("to let out", "%s (%s)%s", units.Digits(a.haul.OxygenFlow, units.GramsPerHour, 3), units.Digits(a.haul.OxygenFlow, units.PoundsPerHour, 2), held(a))
	line("to carry", "%s with its reserve: %s of %s (%s)", dual.Mass(p.Carry), number(a.cylinders, "cylinder"), units.Digits(w.cylinder, units.CubicMetres, 3), units.Digits(w.cylinder, units.CubicFeet, 3))
	line("should it stop", "%.1f min to the limit", p.Alarm.Minutes())

	fmt.Fprintln(&b, "\nWATER              at loading         at the end")
	start := p.Course[0]
	row := func(what, from, to string) { fmt.Fprintf(&b, "  %-16s %-18s %s\n", what, from, to) }
	row("temperature", warm(start.Temperature), warm(p.End.Temperature))
	row("oxygen", mg(start.Oxygen), mg(p.End.Oxygen))
	row("free CO2", mg(start.CO2), mg(p.End.CO2))
	row("pH", fmt.Sprintf("%.2f", start.PH), fmt.Sprintf("%.2f", p.End.PH))
	row("ammonia, total N", mg(start.Ammonia), mg(p.End.Ammonia))
	row("NH3-N", mg(start.Unionised), mg(p.End.Unionised))
	if a.vent > 0 {
		fmt.Fprintf(&b, "  The animals give off %s of CO2; %s (%s) of air through the tanks,\n  leaving half way to equilibrium, would hold it at %s.\n", dual.Mass(p.CO2Made),
			units.Digits(a.vent, units.CubicMetresPerHour, 2), units.Digits(a.vent, units.CubicFeetPerMinute, 2), mg(a.haul.Limits.CO2))
	}

	fmt.Fprintln(&b, "\nHEAT")
	line("animals", "%s", heat(p.Metabolic))
	line("walls", "%s", heat(p.Wall))
	line("agitators", "%s", heat(p.Stirring))
	line("warming over the haul", "%.1f K (%.1f °F)", p.Warming.Kelvins(), p.Warming.In(units.FahrenheitDegrees))
	line("ice instead", "%s, clean and free of chlorine; it adds its own water", dual.Mass(p.Ice))

	fmt.Fprintln(&b, "\nLIMITS")
	for _, l := range p.Limits {
		switch {
		case !l.Found:
			line(l.Limit, "kept")
		case l.After > w.hours:
			line(l.Limit, "kept; passed after %s", dual.Span(l.After))
		default:
			line(l.Limit, "PASSED after %s", dual.Span(l.After))
		}
	}
	if a.none == nil {
		line("largest load", "%s, where %s binds;", dual.Mass(a.most.Product), a.most.Binds)
		line("", "%s a tank, %s", dual.Mass(a.most.Product/units.Mass(w.tanks)), perTank(a.most.Loaded.PerTank))
	} else {
		b.WriteString(drainplan.Fold("  largest load: none, "+a.none.Error(), "    "))
	}
	fmt.Fprintln(&b)
	b.WriteString(drainplan.Notes(p.Notices))
	b.WriteString(drainplan.Fold("Oxygen: cylinders chained and capped, no oil, grease or smoking. Nobody climbs into a tank or box before it is ventilated. Part-filled tanks surge. Weigh the loaded truck, count the driver's hours since the harvest began, and keep to the welfare rules of the road you are on.", "  "))
	return b.String()
}

func held(a hauled) string {
	if a.wish.flow == 0 {
		return ", to hold against the largest demand"
	}
	return ""
}

func animal(kind string) string {
	if kind == "other" {
		return "live animals"
	}
	return kind
}

func number(n int, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%d %ss", n, of)
}

func mg(c units.Concentration) string { return units.Digits(c, units.MilligramsPerLitre, 3) }

func warm(t units.Temperature) string {
	return fmt.Sprintf("%.1f °C (%.1f °F)", t.Celsius(), t.Fahrenheit())
}

func tankful(v units.Volume) string {
	return fmt.Sprintf("%s L (%s US gal)", dual.Number(v.In(units.Litres), 3), dual.Number(v.In(units.USGallons), 3))
}

func heat(p units.Power) string {
	return fmt.Sprintf("%s kW (%s Btu/h)", dual.Number(p.In(units.Kilowatts), 2), dual.Number(p.In(units.BtusPerHour), 2))
}

// perTank writes a load per volume of tank; the words beside it say so.
func perTank(l units.LoadPerTankVolume) string {
	return fmt.Sprintf("%s kg/L (%s lb/US gal)", dual.Number(l.In(units.KilogramsPerLitreTank), 3), dual.Number(l.In(units.PoundsPerUSGallonTank), 3))
}
