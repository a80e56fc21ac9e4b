// Package page writes a plan as one HTML page that needs nothing else: its
// pictures are drawn into it, it has no script and loads nothing.
package page

import (
	_ "embed"
	"fmt"
	"html/template"
	"strings"
	"time"

	"pondwright.example/examples/harvestday/plan"
	"pondwright.example/examples/harvestday/sheet"
	"pondwright.example/examples/internal/dual"
	"pondwright.example/units"
)

//go:embed page.html
var source string

var layout = template.Must(template.New("page").Parse(source))

type order struct{ When, Who, What, Watch string }

type content struct {
	Farm, Date, Offset           string
	Short                        []sheet.Answer
	Orders                       []order
	Timetable, Hydrograph        template.HTML
	Openings, PumpCurve          template.HTML
	Grades, Ice                  template.HTML
	Odds                         template.HTML
	Draws                        int
	HydrographNote, OpeningsNote string
	OddsNote                     string
	Speed, Duty, Numbers         string
	Notices                      []units.Notice
	Assumed, Cautions            []string
}

// HTML returns the page.
func HTML(p plan.Plan) string {
	zone := p.Zone()
	c := content{
		Farm: p.Input.Farm, Offset: p.Input.Place.Zone,
		Date:       p.Night.Opening.In(zone).Format("Monday 2 January 2006"),
		Short:      sheet.Answers(p),
		Timetable:  template.HTML(timetable(p)),
		Hydrograph: template.HTML(hydrograph(p)),
		Openings:   template.HTML(openings(p)),
		Odds:       template.HTML(odds(p)),
		Draws:      p.Odds.Draws,
		OddsNote:   fmt.Sprintf("Late for %s in %.0f of 100 (±%.0f).", dual.Clock(p.Odds.ReadyBy, zone), 100*p.Odds.Miss, 100*p.Odds.MissSE),
		PumpCurve:  template.HTML(pumpCurve(p)),
		Grades:     template.HTML(grades(p)),
		Ice:        template.HTML(ice(p)),
		Speed:      dual.RPM(p.Lift.Duty.Pump.Speed),
		Duty:       dual.Flow(p.Lift.Duty.Pump.Flow) + " and " + dual.Length(p.Lift.Duty.Pump.Head),
		Numbers:    sheet.Numbers(p),
		Notices:    p.Notices, Assumed: p.Assumed, Cautions: p.Cautions,
	}
	if n := len(p.Night.Stalls); n > 0 {
		c.HydrographNote = "Shaded: the tide holds the flap shut, " + dual.Span(p.Night.Locked) + " in all."
	} else {
		c.HydrographNote = "The tide never shuts the flap."
	}
	if len(p.Openings.Cliffs) > 0 {
		k := p.Openings.Cliffs[0]
		c.OpeningsNote = "The step at " + k.Before.In(zone).Format("15:04") + " is the tide: opened a second later the pond is shut in for " + dual.Span(k.ReadyAfter.Sub(k.ReadyBefore)) + " more."
	}
	for _, t := range p.Tasks {
		o := order{When: dual.Clock(t.From, zone), Who: t.Who, What: t.Work, Watch: t.Watch}
		if t.To.After(t.From) {
			o.When += " – " + t.To.In(zone).Format("15:04")
		}
		if t.HowMuch != "" {
			o.What += ": " + t.HowMuch
		}
		c.Orders = append(c.Orders, o)
	}
	var b strings.Builder
	if err := layout.Execute(&b, c); err != nil {
		return "the page could not be written: " + template.HTMLEscapeString(err.Error())
	}
	return b.String()
}

// hours is a time as hours after an epoch.
func hours(t, epoch time.Time) float64 { return t.Sub(epoch).Hours() }
