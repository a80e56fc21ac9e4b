package plan

import (
	"time"

	"pondwright.example/biomass"
	"pondwright.example/hydraulics"
	"pondwright.example/pumpsizing"
	"pondwright.example/units"
)

// Input is everything the plan of one harvest night is made from. Fields with
// a JSON tag stand in the farm's harvest.json; those tagged "-" come from its
// tables. All levels of the pond are heights above the inside bottom of the
// outlet pipe at the pond (the invert).
type Input struct {
	Farm   string `json:"farm"`
	Place  Place  `json:"place"`
	Night  Night  `json:"night"`
	Pond   Pond   `json:"pond"`
	Outlet Outlet `json:"outlet"`
	Tide   Tide   `json:"tide"`
	Water  Water  `json:"water"`
	Stock  Stock  `json:"stock"`
	Pump   Pump   `json:"pump"`
	Hose   Hose   `json:"hose"`
	Drive  Drive  `json:"drive"`
	Basin  Basin  `json:"basin"`
	Icing  Icing  `json:"icing"`
	Haul   Haul   `json:"haul"`
	Crew   []Post `json:"crew"`
}

// Place is where the farm lies, for sun, moon and air.
type Place struct {
	Latitude  units.Angle       `json:"latitude"`  // north positive
	Longitude units.Angle       `json:"longitude"` // east positive
	Altitude  units.Length      `json:"altitude"`  // above sea level
	Air       units.Temperature `json:"air"`       // the warmest while product is held
	Zone      string            `json:"zone"`      // offset of the farm's clock from UTC, such as "+07:00"
}

// Night says when the work is wanted.
type Night struct {
	PreDrain time.Time     `json:"preDrain"` // the outlet is opened for the day-before drawdown
	Opening  time.Time     `json:"opening"`  // the outlet is meant to be opened for the night's drawdown
	ReadyBy  time.Time     `json:"readyBy"`  // the catch basin has to be ready: pond at Pond.BasinReady
	Margin   time.Duration `json:"margin"`   // the last bin is to be closed this long before sunrise
}

// Pond is the pond and the levels the crew works to. Either Stages or a survey
// table says how much water it holds.
type Pond struct {
	Full       units.Length `json:"full"`            // level before any drawdown
	Start      units.Length `json:"start"`           // level after the day-before drawdown, where the night starts
	BasinReady units.Length `json:"basinReady"`      // level at which the animals are in the catch basin and pumping starts
	RateLimit  units.Length `json:"rateLimit"`       // fastest fall of the level per hour that bank, liner and animals stand
	AreaDoubt  float64      `json:"areaUncertainty"` // relative standard uncertainty of its area
	Stages     []Stage      `json:"stages,omitempty"`
	Survey     []Point      `json:"-"`
	Shore      []Point      `json:"-"` // edge of the pond, in order; none: the hull of the survey
}

// Stage is a water level with the area of the pond's surface at it.
type Stage struct {
	Stage units.Length `json:"stage"`
	Area  units.Area   `json:"area"`
}

// Point is a sounding: where the bottom lies.
type Point struct{ X, Y, Z units.Length }

// Outlet is the drain pipe.
type Outlet struct {
	Bore      units.Length           `json:"bore"`
	Length    units.Length           `json:"length"`
	Roughness units.Length           `json:"roughness"`
	Entrance  float64                `json:"entranceLoss"` // loss coefficients on the velocity head of the full pipe
	Screen    float64                `json:"screenLoss"`
	Exit      float64                `json:"exitLoss"`
	EntryLoss float64                `json:"mouthLoss"`       // share of the head lost at the mouth while it controls
	Line      hydraulics.OutfallLine `json:"pressureLine"`    // at the free outfall: "centreline", or "brink" for the cautious one of FHWA HDS-5
	Flap      bool                   `json:"flapGate"`        // false lets the tide run back into the pond
	Doubt     float64                `json:"lossUncertainty"` // relative, of the sum of the loss coefficients
}

// Tide is the water outside the outlet.
type Tide struct {
	Datum      string       `json:"datum"`            // name of the level the table counts from
	Invert     units.Length `json:"invert"`           // the outlet's invert above that datum
	Zone       string       `json:"zone"`             // offset of the table's times from UTC, such as "+07:00"
	Surge      units.Length `json:"surge"`            // forecast to be added to the table
	Doubt      units.Length `json:"surgeUncertainty"` // standard uncertainty of the surge
	RangeDoubt float64      `json:"rangeUncertainty"` // relative standard uncertainty of the tide's range
	Waters     []TideTurn   `json:"-"`
}

// TideTurn is one high or low water of the tide table.
type TideTurn struct {
	Time   time.Time
	Height units.Length
	High   bool
}

// Water is the water in the pond.
type Water struct {
	Temperature units.Temperature       `json:"temperature"`
	Salinity    units.PracticalSalinity `json:"salinity"`
}

// Stock is what was put in and what sampling says is left.
type Stock struct {
	Species       string           `json:"species"`
	Stocked       float64          `json:"stocked"` // animals
	Survival      float64          `json:"survival"`
	SurvivalCV    float64          `json:"survivalCV"`
	NetEfficiency float64          `json:"netEfficiency"`
	NetDoubt      float64          `json:"netEfficiencySD"`
	TailYield     float64          `json:"tailYield"`
	TailYieldLow  float64          `json:"tailYieldLow"`
	TailYieldHigh float64          `json:"tailYieldHigh"`
	Edge          biomass.EdgeRule `json:"classEdge"` // "midway between labels", "upper label inclusive" or "lower label inclusive"
	WeightLow     units.Mass       `json:"smallestPlausibleWeight"`
	WeightHigh    units.Mass       `json:"largestPlausibleWeight"`
	Casts         []Cast           `json:"-"`
	Weights       []units.Mass     `json:"-"`
}

// Cast is one throw of the net.
type Cast struct {
	Count int
	Area  units.Area
}

// Pump is the fish pump; its curve comes from a table.
type Pump struct {
	Flow     units.Flow   `json:"flow"`           // wanted over the table
	Best     float64      `json:"bestEfficiency"` // fraction
	BestFlow units.Flow   `json:"bestFlow"`       // at the speed of the curve
	Lift     units.Length `json:"lift"`           // basin water level to the table
	Points   []PumpPoint  `json:"-"`
}

// PumpPoint is one point off the pump's data sheet.
type PumpPoint struct {
	Flow  units.Flow
	Head  units.Length
	Speed units.RotationalSpeed
}

// Hose is the line from the pump to the dewatering table.
type Hose struct {
	Parts []HosePart `json:"-"`
}

// HosePart is a length of hose or a fitting with its loss coefficient.
type HosePart struct {
	Name      string
	Bore      units.Length
	Length    units.Length
	Roughness units.Length
	Loss      float64
}

// Drive is the tractor and the oil between it and the pump.
type Drive struct {
	Motor           units.Displacement       `json:"motor"`
	MotorVolumetric float64                  `json:"motorVolumetric"`
	MotorMechanical float64                  `json:"motorHydromechanical"`
	OilPump         float64                  `json:"oilPumpEfficiency"` // overall
	HoseBore        units.Length             `json:"oilHoseBore"`
	HoseLength      units.Length             `json:"oilHoseLength"` // there and back
	Valves          units.Pressure           `json:"valves"`        // drop across valves and couplings
	Return          units.Pressure           `json:"return"`        // filter and cooler
	Viscosity       units.KinematicViscosity `json:"oilViscosity"`  // at running temperature
	OilDensity      units.Density            `json:"oilDensity"`
	Oil             units.Volume             `json:"oil"` // that takes part: tank and hoses
	OilStart        units.Temperature        `json:"oilStart"`
	OilLimit        units.Temperature        `json:"oilLimit"`
	Cooling         units.ThermalConductance `json:"cooling"` // of tank and hoses
	Relief          units.GaugePressure      `json:"relief"`
	Tractor         units.Power              `json:"tractorPower"`
	Basis           pumpsizing.PowerBasis    `json:"tractorPowerIs"` // "PTO power", "engine power" or "not stated"
	EngineSpeed     units.RotationalSpeed    `json:"engineSpeed"`    // at which the power take-off turns at its standard speed
	Aspiration      pumpsizing.Aspiration    `json:"aspiration"`     // "naturally aspirated" or "turbocharged"
}

// Basin is the catch basin.
type Basin struct {
	Volume      units.Volume           `json:"volume"`
	Refill      units.Flow             `json:"refill"`
	Flushes     int                    `json:"flushes"`
	Oxygen      units.Concentration    `json:"oxygen"`      // in the basin when the animals crowd
	Inflow      units.Concentration    `json:"inflow"`      // oxygen of the water that runs in
	Floor       units.Concentration    `json:"oxygenFloor"` // the farm's limit
	Hold        units.Concentration    `json:"oxygenHold"`  // what the inflow is to hold
	Crowded     units.Mass             `json:"crowded"`
	Respiration units.MassSpecificRate `json:"respiration"`     // quiet
	Excited     units.MassSpecificRate `json:"respirationHigh"` // crowded and handled
}

// Icing is how the product is chilled and held.
type Icing struct {
	Final     units.Temperature  `json:"final"`
	Ice       units.Temperature  `json:"ice"`
	MakeUp    units.Volume       `json:"makeUpWater"`
	CarryOver float64            `json:"carryOver"` // kg of water per kg of product down the chute
	Waste     float64            `json:"waste"`     // share of the ice that cools nothing
	Specific  units.SpecificHeat `json:"specificHeat"`
	OnHand    units.Mass         `json:"onHand"`       // ice reserved so far
	Body      units.Length       `json:"bodyDiameter"` // thickest part of an animal
	Core      units.Temperature  `json:"coreTarget"`   // the farm's or buyer's limit for the middle of an animal
}

// Haul is the way to the plant.
type Haul struct {
	Door        time.Duration `json:"doorToDoor"` // from closing the bins to the plant's door
	Drive       time.Duration `json:"drive"`
	Loading     time.Duration `json:"loadingEach"`
	Unloading   time.Duration `json:"unloadingEach"`
	Opens       time.Time     `json:"plantOpens"`
	Closes      time.Time     `json:"plantCloses"`
	ProductBulk units.Density `json:"productBulk"` // of animals in the bin; about 1,050 kg/m3 under water or slurry, 600 heaped
	IceBulk     units.Density `json:"iceBulk"`     // about 917 kg/m3 in slurry, 500 as shovelled
	Fill        float64       `json:"fill"`        // share of a bin's volume that is used
	Containers  []Container   `json:"-"`
	Trucks      []Truck       `json:"-"`
}

// Container is a kind of bin.
type Container struct {
	Name    string
	Number  int
	Volume  units.Volume
	Tare    units.Mass
	Gain    units.ThermalConductance
	Product units.Mass // most that goes into one
}

// Truck is a truck with the time it stands ready at the pond.
type Truck struct {
	Name    string
	Payload units.Mass
	Slots   int // floor positions for containers; zero means floor space does not limit
	Layers  int
	Ready   time.Time
}

// Post is a place of work and the people it takes.
type Post struct {
	Work   string `json:"work"`
	People int    `json:"people"`
}
