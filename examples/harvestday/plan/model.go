package plan

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"pondwright.example/drawdown"
	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// model is the farm as objects of the packages, built once and checked.
type model struct {
	in      Input
	pond    drawdown.Storage
	outlet  hydraulics.OutletPipe
	tide    *drawdown.TideTable
	water   hydraulics.Fluid
	line    hydraulics.Pipeline
	drive   pumpsizing.HydraulicDrive
	air     units.AbsolutePressure
	zone    *time.Location
	notices []units.Notice
}

// storageError is how far the pond's table may be off its triangles, relative
// to the full volume.
const storageError = 1e-6

// Pond water with live animals lies between these, °C.
const coldest, hottest = 0, 40

const pondDatum drawdown.Datum = "outlet invert"

// Validate reports every value of the input that the plan cannot be made from,
// each with the path it has in harvest.json or the name of its table.
func (in Input) Validate() error {
	_, err := build(in)
	return err
}

// build makes the objects; the error joins every problem of every part.
func build(in Input) (*model, error) {
	m := &model{in: in}
	var errs []error
	add := func(path string, err error) {
		for _, e := range flatten(err) {
			if path != "" {
				e = units.AtField(path, e)
			}
			errs = append(errs, e)
		}
	}
	add("place", m.place())
	add("pond", m.buildPond())
	add("water", m.buildWater())
	add("outlet", m.buildOutlet())
	add("tide", m.buildTide())
	add("hose", m.buildHose())
	add("", m.buildDrive())
	add("", m.checkStock())
	add("", m.checkWork())
	return m, errors.Join(errs...)
}

func flatten(err error) []error {
	if err == nil {
		return nil
	}
	if j, ok := err.(interface{ Unwrap() []error }); ok {
		var all []error
		for _, e := range j.Unwrap() {
			all = append(all, flatten(e)...)
		}
		return all
	}
	return []error{err}
}

// renamed puts the input's key in the place of the field a package names.
func renamed(err error, keys ...string) error {
	var all []error
	for _, e := range flatten(err) {
		var in *units.InputError
		if errors.As(e, &in) {
			c := *in
			for i := 0; i+1 < len(keys); i += 2 {
				if rest, ok := strings.CutPrefix(c.Field, keys[i]); ok {
					c.Field = keys[i+1] + rest
					break
				}
			}
			e = &c
		}
		all = append(all, e)
	}
	return errors.Join(all...)
}

func (m *model) place() error {
	const fn = "plan.Input"
	p := m.in.Place
	zone, zerr := ParseZone(p.Zone)
	m.zone = zone
	var aerr error
	if m.air, aerr = hydraulics.AirPressure(p.Altitude); errors.Is(aerr, units.ErrRange) {
		aerr = nil
	}
	return errors.Join(
		units.Within(fn, "latitude", p.Latitude.In(units.Degrees), -90, 90, "deg"),
		units.Within(fn, "longitude", p.Longitude.In(units.Degrees), -180, 180, "deg"),
		units.Within(fn, "air", p.Air.Celsius(), -10, 55, "°C"),
		renamed(aerr, "altitude", "altitude"),
		units.AtField("zone", zerr))
}

// ParseZone reads an offset from UTC such as "+07:00". A clock without its
// offset is refused: an hour's error moves the tide by an hour.
func ParseZone(offset string) (*time.Location, error) {
	t, err := time.Parse("-07:00", offset)
	if err != nil {
		return nil, &units.InputError{Func: "plan.ParseZone", Value: math.NaN(),
			Reason: fmt.Sprintf("%q is not an offset from UTC such as \"+07:00\"", offset)}
	}
	_, seconds := t.Zone()
	return time.FixedZone("UTC"+offset, seconds), nil
}

func (m *model) buildPond() error {
	const fn = "plan.Input"
	p := m.in.Pond
	var berr error
	switch {
	case len(p.Stages) > 0:
		rows := make([]drawdown.StageArea, len(p.Stages))
		for i, s := range p.Stages {
			rows[i] = drawdown.StageArea{Stage: s.Stage, Area: s.Area}
		}
		var t drawdown.StageTable
		if t, berr = drawdown.NewStageTable(rows); berr == nil {
			m.pond = t
		}
		berr = renamed(berr, "rows", "stages")
	case len(p.Survey) > 0:
		s := drawdown.Survey{Sense: drawdown.ElevationUp, Datum: pondDatum, PondDatum: pondDatum}
		for _, q := range p.Survey {
			s.Points = append(s.Points, drawdown.SurveyPoint(q))
		}
		for _, q := range p.Shore {
			s.Shore = append(s.Shore, drawdown.SurveyPoint(q))
		}
		var b drawdown.Bed
		if b, berr = s.Bed(); berr == nil {
			// The night asks the pond thousands of times: a table is faster.
			var t drawdown.StageTable
			if t, berr = drawdown.Tabulate(b, storageError); berr == nil {
				m.pond = t
			}
			m.notices = append(m.notices, b.Notices...)
		}
		berr = renamed(berr, "points", "survey")
	default:
		berr = &units.InputError{Func: fn, Field: "survey", Value: 0, Reason: "give soundings in survey.csv or pond.stages in harvest.json"}
	}
	errs := []error{berr}
	if m.pond != nil {
		lo, hi := m.pond.Bottom().Metres(), m.pond.Top().Metres()
		errs = append(errs, units.Within(fn, "full", p.Full.Metres(), lo, hi, "m"))
		hi = min(hi, p.Full.Metres())
		errs = append(errs, units.Within(fn, "start", p.Start.Metres(), lo, hi, "m"))
		hi = min(hi, p.Start.Metres())
		errs = append(errs, units.Within(fn, "basinReady", p.BasinReady.Metres(), lo, hi, "m"))
	}
	errs = append(errs, units.Positive(fn, "rateLimit", p.RateLimit.Metres(), "m"), units.Within(fn, "areaUncertainty", p.AreaDoubt, 0, 0.5, ""))
	return errors.Join(errs...)
}

func (m *model) buildWater() error {
	w, err := hydraulics.SeaWater(m.in.Water.Temperature, m.in.Water.Salinity)
	m.water = w
	if hot := units.Within("plan.Input", "temperature", m.in.Water.Temperature.Celsius(), coldest, hottest, "°C"); hot != nil {
		return hot
	}
	if errors.Is(err, units.ErrRange) {
		return nil
	}
	return renamed(err, "t", "temperature", "s", "salinity")
}

func (m *model) buildOutlet() error {
	o, err := hydraulics.NewOutletPipe(m.outletSpec(1))
	m.outlet = o
	return errors.Join(
		renamed(err, "entryLoss", "mouthLoss", "lossSum", "entranceLoss+screenLoss+exitLoss"),
		units.Within("plan.Input", "lossUncertainty", m.in.Outlet.Doubt, 0, 0.9, ""))
}

// outletSpec is the drain pipe with the sum of its loss coefficients multiplied
// by factor; the exit's own loss of one velocity head is no matter of doubt.
func (m *model) outletSpec(factor float64) hydraulics.OutletPipeSpec {
	o := m.in.Outlet
	backflow := hydraulics.BackflowReverse
	if o.Flap {
		backflow = hydraulics.BackflowFlap
	}
	return hydraulics.OutletPipeSpec{Bore: o.Bore, Length: o.Length, Roughness: o.Roughness,
		LossSum: max(1, factor*(o.Entrance+o.Screen+o.Exit)), EntryLoss: o.EntryLoss, Outfall: o.Line,
		Viscosity: m.water.KinematicViscosity(), Backflow: backflow}
}

func (m *model) buildTide() error {
	zone, zerr := ParseZone(m.in.Tide.Zone)
	if zerr != nil {
		return units.AtField("zone", zerr)
	}
	m.tide = m.tideTable(zone, 0)
	return errors.Join(
		renamed(m.tide.Validate(), "turnings", "waters", "zeroAbovePond", "invert"),
		units.Within("plan.Input", "surgeUncertainty", m.in.Tide.Doubt.Metres(), 0, 5, "m"),
		units.Within("plan.Input", "rangeUncertainty", m.in.Tide.RangeDoubt, 0, 0.5, ""))
}

// tideTable is the farm's tide on the pond's datum with extra surge on top.
func (m *model) tideTable(zone *time.Location, extra units.Length) *drawdown.TideTable {
	t := m.in.Tide
	zero := -t.Invert
	tab := &drawdown.TideTable{Zone: zone, Datum: drawdown.Datum(t.Datum), ZeroAbovePond: &zero, Surge: t.Surge + extra}
	for _, w := range t.Waters {
		tab.Turnings = append(tab.Turnings, drawdown.Turning{At: w.Time, Level: w.Height})
	}
	return tab
}

func (m *model) buildHose() error {
	if len(m.in.Hose.Parts) == 0 {
		return &units.InputError{Func: "plan.Input", Field: "parts", Value: 0, Reason: "hose.csv lists no hose"}
	}
	p, err := hydraulics.NewPipeline(m.in.pipelineSpec(m.water))
	m.line = p
	return renamed(err, "runs", "parts")
}

func (m *model) buildDrive() error {
	d, err := pumpsizing.NewHydraulicDrive(m.in.driveData(m.water, m.air))
	m.drive = d
	return errors.Join(renamed(err,
		"pump.curve.", "pump.", "pump.efficiency.", "pump.",
		"motor.", "drive.motor.", "oilPump.overall", "drive.oilPumpEfficiency", "oil.", "drive.oil.",
		"line.bore", "drive.oilHoseBore", "line.length", "drive.oilHoseLength",
		"valves", "drive.valves", "return", "drive.return", "relief", "drive.relief",
		"tractor.", "drive.tractor.", "reservoir.", "drive.oil."),
		units.Positive("plan.Input", "pump.flow", m.in.Pump.Flow.In(units.CubicMetresPerHour), "m3/h"),
		units.Positive("plan.Input", "pump.lift", m.in.Pump.Lift.Metres(), "m"))
}
