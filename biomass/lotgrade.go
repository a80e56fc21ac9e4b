package biomass

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// LotInput asks in which count class a whole lot will be sold: by its mean
// count, as a buyer's sample reads it.
type LotInput struct {
	// MeanWeight is the mean weight of whole animals.
	MeanWeight units.Mass `json:"meanWeight"`
	// MeanWeightCV is its relative standard uncertainty, sampling bias included.
	MeanWeightCV float64 `json:"meanWeightCV"`
	// MeanWeightDOF are the degrees of freedom behind MeanWeightCV, n−1 for a
	// sample of n animals; zero means many.
	MeanWeightDOF float64 `json:"meanWeightDOF"`
	// Yield is the tail yield, tail mass per whole mass; needed for a headless
	// table, unused for a head-on one.
	Yield float64 `json:"yield"`
	// YieldSD is its standard uncertainty, in the same fraction; zero takes it as
	// exact.
	YieldSD float64 `json:"yieldSD"`
	// Table holds the classes.
	Table CountTable `json:"table"`
	// Band is the probability inside which a class edge raises the straddle
	// notice; zero means 0.80, from the tenth to the ninetieth percentile.
	Band float64 `json:"band"`
}

// ClassProbability is the probability that the lot falls in a class.
type ClassProbability struct {
	Class       string  `json:"class"`
	Probability float64 `json:"probability"`
}

// LotGrade is the count of a lot and the class it will fall in.
type LotGrade struct {
	// HeadOn is the count of whole animals; Count is the count in the form of the
	// table, equal to HeadOn for a head-on table.
	HeadOn units.CountPerMass `json:"headOn"`
	Count  units.CountPerMass `json:"count"`
	// Low and High bound Count with the probability Band.
	Low  units.CountPerMass `json:"low"`
	High units.CountPerMass `json:"high"`
	Band float64            `json:"band"`
	// CV is the relative standard uncertainty of Count, DOF its degrees of
	// freedom (zero for many).
	CV  float64 `json:"cv"`
	DOF float64 `json:"dof"`
	// Class is the class of Count itself; Beyond is the probability of a count
	// past a last class that has an end. The probabilities and Beyond sum to one.
	Class         string             `json:"class"`
	Probabilities []ClassProbability `json:"probabilities"`
	Beyond        float64            `json:"beyond"`
	// Straddles tells that an edge lies between Low and High.
	Straddles bool           `json:"straddles"`
	Notices   []units.Notice `json:"notices,omitempty"`
}

// Grade returns the count of the lot, its band and the probability of each
// class.
//
//	c = 1/(w̄ y),  u² = ln(1 + c_w²) + ln(1 + c_y²)
//
// The logarithm of the count is normal, or Student's t with Welch-Satterthwaite
// degrees of freedom when the mean weight comes from a small sample. When the
// band holds a class edge a notice says so: an error of 3 % of weight or two
// points of yield moves a lot across.
//
// Errors: ErrDomain for inputs that cannot be, all of them at once: among them a
// headless table without a yield, a form or an edge rule left unstated.
//
// Source: JCGM 100:2008 eq. 12 and G.2b (from memory); the count by definition.
func (in LotInput) Grade() (LotGrade, error) {
	if err := in.Validate(); err != nil {
		return LotGrade{}, err
	}
	g := LotGrade{Band: in.band()}
	g.HeadOn = units.CountsPerKilogram.Of(1 / in.MeanWeight.Kilograms())
	g.Count = g.HeadOn
	yieldCV := 0.0
	if in.Table.Form == Headless {
		g.Count = g.HeadOn / units.CountPerMass(in.Yield)
		yieldCV = in.YieldSD / in.Yield
		if n, out := yieldNotice(in.Yield); out {
			g.Notices = append(g.Notices, n)
		}
	}
	spread := math.Sqrt(math.Log1p(in.MeanWeightCV*in.MeanWeightCV) + math.Log1p(yieldCV*yieldCV))
	g.CV = math.Sqrt(math.Expm1(spread * spread))
	dof := math.Inf(1)
	if in.MeanWeightDOF > 0 && in.MeanWeightCV > 0 {
		dof = in.MeanWeightDOF * math.Pow(spread/logSD(in.MeanWeightCV), 4) // Welch-Satterthwaite, one finite term
		g.DOF = dof
	}
	half := spread * studentQuantile((1+g.Band)/2, dof)
	g.Low = g.Count * units.CountPerMass(math.Exp(-half))
	g.High = g.Count * units.CountPerMass(math.Exp(half))
	if err := soundAll("biomass.LotInput.Grade", g.Count.CountsPerKilogram(), g.CV, g.DOF, g.Low.CountsPerKilogram(), g.High.CountsPerKilogram()); err != nil {
		return LotGrade{}, err
	}
	g.classes(in.Table, spread, dof)
	g.straddle(in.Table)
	return g, nil
}

// Validate reports every field that cannot be.
func (in LotInput) Validate() error {
	const fn = "biomass.LotInput"
	all := []error{
		units.Positive(fn, "meanWeight", in.MeanWeight.Kilograms(), "kg"),
		units.NonNegative(fn, "meanWeightCV", in.MeanWeightCV, ""),
		units.NonNegative(fn, "meanWeightDOF", in.MeanWeightDOF, ""),
		units.AtField("table", in.Table.Validate()),
	}
	if in.Table.Form == Headless {
		if !(in.Yield > 0 && in.Yield <= 1) {
			all = append(all, &units.InputError{Func: fn, Field: "yield", Value: in.Yield, Min: 0, Max: 1,
				Reason: "a headless count needs the tail yield, a fraction above 0 and at most 1; there is no default"})
		}
		all = append(all, units.NonNegative(fn, "yieldSD", in.YieldSD, ""))
	}
	if in.Band != 0 && !(in.Band > 0 && in.Band < 1) {
		all = append(all, &units.InputError{Func: fn, Field: "band", Value: in.Band, Reason: "a probability above 0 and below 1; zero means 0.80"})
	}
	return errors.Join(all...)
}

func (in LotInput) band() float64 {
	if in.Band == 0 {
		return 0.80
	}
	return in.Band
}

// classes fills the class of the count and the probability of each.
func (g *LotGrade) classes(t CountTable, spread, dof float64) {
	g.Probabilities = make([]ClassProbability, len(t.Classes))
	below := 0.0
	for i, c := range t.Classes {
		upTo := 1.0
		if edge := t.EdgeOf(i); edge < units.CountPerMass(math.MaxFloat64) {
			upTo = probabilityUpTo(float64(edge/g.Count), spread, dof)
		}
		g.Probabilities[i] = ClassProbability{Class: c.Name, Probability: upTo - below}
		below = upTo
	}
	g.Beyond = 1 - below
	if i := t.ClassOf(g.Count); i >= 0 {
		g.Class = t.Classes[i].Name
	}
}

// probabilityUpTo is the probability that the count is at most ratio times its
// estimate.
func probabilityUpTo(ratio, spread, dof float64) float64 {
	d := math.Log(ratio)
	if spread == 0 {
		if d < 0 {
			return 0
		}
		return 1
	}
	return studentCDF(d/spread, dof)
}

// straddle raises the notice when an edge lies inside the band, naming the
// nearest such edge and both classes.
func (g *LotGrade) straddle(t CountTable) {
	nearest, at := math.Inf(1), -1
	for i := range len(t.Classes) - 1 {
		edge := t.EdgeOf(i)
		if edge >= g.Low && edge <= g.High {
			if d := math.Abs(float64(edge - g.Count)); d < nearest {
				nearest, at = d, i
			}
		}
	}
	if at < 0 {
		return
	}
	g.Straddles = true
	g.Notices = append(g.Notices, units.Notice{Code: CodeStraddle, Severity: units.Warning, Field: "count",
		Value: g.Count.In(t.Per.unit()), Limit: t.EdgeOf(at).In(t.Per.unit()), Unit: t.Per.unit().Symbol(),
		Message: "the band of the " + t.Form.String() + " count holds the edge between " + t.Classes[at].Name + " and " + t.Classes[at+1].Name +
			" (" + t.Edge.String() + "): state yield, sample size and drain time with the offer"})
}
