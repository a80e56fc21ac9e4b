package plan

import (
	"fmt"
	"slices"
	"strings"

	"pondwright.example/examples/internal/dual"
	"pondwright.example/units"
)

func sortTasks(t []Task) {
	slices.SortStableFunc(t, func(a, b Task) int { return a.From.Compare(b.From) })
}

// gather collects the notices of every part, the gravest first, and what was
// assumed.
func (p *Plan) gather() {
	add := func(where string, ns []units.Notice) {
		for _, n := range ns {
			if where != "" && n.Field != "" {
				n.Field = where + "." + n.Field
			}
			p.Notices = append(p.Notices, n)
		}
	}
	add("crop", p.Crop.Notices)
	add("weight", p.Crop.Weight.Notices)
	add("headOn", p.Crop.HeadOn.Notices)
	add("headless", p.Crop.Headless.Notices)
	add("preDrain", p.PreDrain.Notices)
	add("night", p.Night.Notices)
	add("sky", p.Sky.Evening.Notices)
	add("lift", p.Lift.Duty.Notices)
	add("basin", p.Basin.Notices)
	add("ice", p.Ice.Notices)
	add("ice", p.Ice.Inventory.Notices)
	add("haul", p.Haul.Notices)
	if n, is := p.late(); is {
		p.Notices = append(p.Notices, n)
	}
	if n, is := p.missed(); is {
		p.Notices = append(p.Notices, n)
	}
	p.AddNotices()
	p.assume()
	p.Cautions = cautions
}

// AddNotices puts further notices, such as those of the reader, in their place
// among the plan's: the gravest first, each once.
func (p *Plan) AddNotices(more ...units.Notice) {
	p.Notices = append(p.Notices, more...)
	slices.SortStableFunc(p.Notices, func(a, b units.Notice) int { return int(b.Severity) - int(a.Severity) })
	seen := map[string]bool{}
	p.Notices = slices.DeleteFunc(p.Notices, func(n units.Notice) bool {
		key := n.Code + "\x00" + n.Message
		twice := seen[key]
		seen[key] = true
		return twice
	})
}

// missed is a notice when the planned opening is not ready by the asked hour.
func (p *Plan) missed() (units.Notice, bool) {
	by := p.Input.Night.ReadyBy
	if p.Night.Reached && !p.Night.Ready.After(by) {
		return units.Notice{}, false
	}
	return units.Notice{Code: CodeNotReadyBy, Severity: units.Warning, Field: "night.opening",
		Value: p.Night.Ready.Sub(by).Hours(), Limit: 0, Unit: "h",
		Message: fmt.Sprintf("opened at %s the basin is ready at %s, after the asked %s", dual.Clock(p.Night.Opening, p.Zone()), dual.Clock(p.Night.Ready, p.Zone()), dual.Clock(by, p.Zone()))}, true
}

// assume lists what the plan takes for granted.
func (p *Plan) assume() {
	in := p.Input
	p.Assumed = []string{
		"the tide runs as half a cosine between the table's high and low waters, with a surge of " + dual.Length(in.Tide.Surge),
		fmt.Sprintf("the outlet's losses are %.1f velocity heads, known to %.0f %%; its screen is clean", in.Outlet.Entrance+in.Outlet.Screen+in.Outlet.Exit, 100*in.Outlet.Doubt),
		"no rain, seepage, evaporation or other inflow while the pond runs out",
		fmt.Sprintf("the net lands %.0f %% of the animals under it, known to ±%.0f points", 100*in.Stock.NetEfficiency, 100*in.Stock.NetDoubt),
		"the animals of the pond stand over its whole bottom as the casts found them",
		fmt.Sprintf("%.0f %% of the product's mass comes down the chute as water", 100*in.Icing.CarryOver),
		fmt.Sprintf("%.0f %% of the ice cools nothing: spilt, melted in store, left over", 100*in.Icing.Waste),
		"carried water and slurry start at the pond's temperature",
		"the pump's efficiency is a parabola that vanishes at no flow and at twice its best flow",
		"oil is at its running viscosity from the start; its tank is one lump of heat",
		"bins travel as slurry, with all the ice and water of the night",
	}
	if in.Outlet.Flap {
		p.Assumed = append(p.Assumed, "the flap gate closes tight when the tide stands above the pond")
	}
	for i, a := range p.Assumed {
		p.Assumed[i] = strings.ToUpper(a[:1]) + a[1:] + "."
	}
}

// cautions are the trade's usual ones; they defer to codes and licensed people.
var cautions = []string{
	"This is a plan, not a machine control and no authority on life safety, electricity, lifting or food. Local codes, makers' manuals and licensed people come first.",
	"Power take-off shaft: shields on, no loose clothing, never step over it; engine off and key out before a jam is cleared.",
	"Oil under pressure: never feel for a leak by hand. A jet through the skin is a surgical emergency, however small the wound. Bleed pressure first; a stopped motor can hold it. Hot oil burns.",
	"Catch basin and pond: vests, ladder, lights, nobody alone, nobody in front of an opening gate. Mud traps. Sumps and closed truck boxes can lack oxygen or hold hydrogen sulphide: test the air, confined-space rules.",
	"Electricity near water: ground-fault protection, cables off the ground, lock-out before hands go into a pump, a qualified electrician.",
	"Platform and lifting: rated slings, nobody under a load, a platform that stands with the hose full; keep booms off power lines and tractors off soft dikes.",
	"Sulphite, where used: ventilation, goggles, allergen labelling, neutralise before discharge. Oxygen: cylinders chained, no oil or grease, no smoking.",
	"Food safety: log temperature with time, probe and name. Limits are those of the buyer and the law. Discharge limits are those of the permit.",
	"People: slippery tables, spines, noise, cold hands, tired drivers after a night's work. Print hours on duty.",
}
