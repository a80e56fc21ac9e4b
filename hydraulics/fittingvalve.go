package hydraulics

import (
	"errors"
	"math"

	"pondwright.example/units"
)

// ValveKind is a kind of valve or check, open as far as the flow opens it. It
// is [GateValveOpen], [GlobeValveOpen], [AngleValveOpen], [BallValveOpen],
// [PlugValveOpen], [ButterflyValveOpen], [SwingCheck], [PoppetFoot],
// [HingedFoot], [TeeRun] or [TeeBranch].
type ValveKind uint8

// The kinds of [Valve].
const (
	GateValveOpen      ValveKind = iota // full bore
	GlobeValveOpen                      // plug on a horizontal seat
	AngleValveOpen                      // 90 degree body, plug
	BallValveOpen                       // full bore
	PlugValveOpen                       // straight way
	ButterflyValveOpen                  // disc across the bore
	SwingCheck                          // hinged, seat inclined
	PoppetFoot                          // foot valve with strainer, poppet disc
	HingedFoot                          // foot valve with strainer, hinged disc
	TeeRun                              // standard tee, straight through
	TeeBranch                           // standard tee, through the branch
)

// valves holds the equivalent lengths of Crane TP-410, A-27 to A-29, in bores.
var valves = [...]struct {
	name string
	n    float64
}{
	GateValveOpen: {"gate valve, open", 8}, GlobeValveOpen: {"globe valve, open", 340}, AngleValveOpen: {"angle valve, open", 150},
	BallValveOpen: {"ball valve, open", 3}, PlugValveOpen: {"plug valve, open", 18}, ButterflyValveOpen: {"butterfly valve, open", 45},
	SwingCheck: {"swing check valve", 100}, PoppetFoot: {"foot valve with strainer, poppet", 420}, HingedFoot: {"foot valve with strainer, hinged", 75},
	TeeRun: {"tee, run", 20}, TeeBranch: {"tee, branch", 60},
}

// EquivalentBores returns the length of clean steel pipe, in bores, that loses as
// much as the valve in full turbulence. A butterfly valve is 45 from 2 to 8 inch,
// 35 from 10 to 14 inch and 25 above.
//
// Source: Crane TP-410, A-27 to A-29.
func (k ValveKind) EquivalentBores(bore units.Length) (float64, error) {
	const fn = "hydraulics.ValveKind.EquivalentBores"
	if err := boreError(fn, "bore", bore); err != nil {
		return math.NaN(), err
	}
	if int(k) >= len(valves) {
		return math.NaN(), units.Within(fn, "k", float64(k), 0, float64(len(valves)-1), "")
	}
	if in := bore.In(units.Inches); k == ButterflyValveOpen && in >= 9 {
		if in < 15 {
			return 35, nil
		}
		return 25, nil
	}
	return valves[k].n, nil
}

// Valve returns the loss of a valve, check or tee on the velocity in the bore.
// Checks and foot valves are taken as open: a slow flow holds them half shut and
// loses several times more.
//
// Equation: K = n f_T with [ValveKind.EquivalentBores] and [FullyRoughFactor].
//
// Source: Crane TP-410, A-27 to A-29. Band ± 25 %.
func Valve(kind ValveKind, bore units.Length) (Loss, error) {
	n, err := kind.EquivalentBores(bore)
	if err != nil {
		return Loss{}, err
	}
	return handbookLoss(kind.String(), n*fullyRough(bore.Metres()), craneSource), nil
}

// Throttled valves, Weisbach 1855: K against the opening.
var (
	gateOpening = [...][2]float64{{1. / 8, 97.8}, {1. / 4, 17.0}, {3. / 8, 5.52}, {1. / 2, 2.06}, {5. / 8, 0.81},
		{3. / 4, 0.26}, {7. / 8, 0.07}, {1, 0.05}}
	butterflyClosing = [...][2]float64{{5, 0.24}, {10, 0.52}, {15, 0.90}, {20, 1.54}, {25, 2.51}, {30, 3.91}, {35, 6.22},
		{40, 10.8}, {45, 18.7}, {50, 32.6}, {55, 58.8}, {60, 118}, {65, 256}, {70, 751}}
	plugClosing = [...][2]float64{{5, 0.05}, {10, 0.29}, {15, 0.75}, {20, 1.56}, {25, 3.10}, {30, 5.47}, {35, 9.68},
		{40, 17.3}, {45, 31.2}, {50, 52.6}, {55, 106}, {60, 206}, {65, 486}}
)

// gateOpeningHigh is what a second table gives for gate valves part open.
var gateOpeningHigh = [...][2]float64{{1. / 8, 130}, {1. / 4, 24}, {1. / 2, 4.5}, {3. / 4, 0.9}, {1, 0.17}}

// GateValve returns the loss of a gate valve in a round pipe whose gate is
// raised by the fraction open of the bore, 1/8 to 1. Typical is Weisbach's
// table; the band reaches to that of Perry (0.9 at 3/4, 4.5 at 1/2, 24 at 1/4
// open), two to three times higher: the shape of gate and seat matters, and a
// throttled gate is no flow meter.
//
// Source: Weisbach 1855, as in many handbooks; Perry's Chemical Engineers'
// Handbook, table of additional frictional losses. Interpolated in the logarithm
// of K; Perry's value at 1/8 is extrapolated.
func GateValve(open float64) (Loss, error) {
	l, err := throttled("hydraulics.GateValve", "open", "", "gate valve, part open", gateOpening[:], open)
	if err == nil {
		l.High = max(l.High, logTableAt(gateOpeningHigh[:], open))
	}
	return l, err
}

// ButterflyValve returns the loss of a butterfly valve whose disc stands at an
// angle to the flow, 5 to 70 degrees; 5 is open.
//
// Source: Weisbach 1855; interpolated in the logarithm of K.
// Band ± 25 %; the thickness of the disc matters below 20 degrees.
func ButterflyValve(closed units.Angle) (Loss, error) {
	return throttled("hydraulics.ButterflyValve", "closed", "degrees",
		"butterfly valve, part open", butterflyClosing[:], closed.In(units.Degrees))
}

// PlugValve returns the loss of a plug or ball valve turned by an angle from
// fully open, 5 to 65 degrees.
//
// Source: Weisbach 1855; interpolated in the logarithm of K.
// Band ± 25 %.
func PlugValve(closed units.Angle) (Loss, error) {
	return throttled("hydraulics.PlugValve", "closed", "degrees", "plug valve, part open", plugClosing[:], closed.In(units.Degrees))
}

func throttled(fn, field, unit, name string, tab [][2]float64, x float64) (Loss, error) {
	if err := units.Within(fn, field, x, tab[0][0], tab[len(tab)-1][0]*(1+1e-12), unit); err != nil {
		return Loss{}, err
	}
	return handbookLoss(name, logTableAt(tab, x), "Weisbach 1855"), nil
}

// logTableAt interpolates the logarithm of y linearly in a table sorted by x.
func logTableAt(tab [][2]float64, x float64) float64 {
	i := 1
	for i < len(tab)-1 && x > tab[i][0] {
		i++
	}
	a, b := tab[i-1], tab[i]
	return a[1] * math.Pow(b[1]/a[1], (x-a[0])/(b[0]-a[0]))
}

// TwoK is the pair of constants of a fitting in Hooper's two-K method, which
// holds from laminar oil to full turbulence.
type TwoK struct {
	Name   string  `json:"name"`
	K1     float64 `json:"k1"`   // times 1/Re
	KInf   float64 `json:"kInf"` // times 1 + 1 inch/D
	Source string  `json:"source"`
}

// TwoKFittings lists the constants of Hooper's table that a hydraulic line
// needs.
//
// Source: Hooper 1981, Chem. Eng. 88(17):96, table; the return bend from memory.
func TwoKFittings() []TwoK {
	const s = "Hooper 1981, Chem. Eng. 88(17):96"
	return []TwoK{
		{"elbow 90, standard", 800, 0.40, s}, {"elbow 90, long radius", 800, 0.20, s}, {"elbow 45, standard", 500, 0.20, s},
		{"return bend", 1000, 0.60, s}, {"tee, branch", 500, 0.70, s}, {"tee, run", 150, 0.05, s},
		{"gate or ball valve, open", 300, 0.10, s}, {"globe valve, open", 1500, 4.00, s}, {"butterfly valve, open", 800, 0.25, s},
		{"swing check valve", 1500, 1.50, s}, {"lift check valve", 2000, 10.00, s},
	}
}

// Loss returns the fitting in a pipe of the given bore.
//
// Equation: K = K1/Re + KInf (1 + 1 inch/D).
//
// Source: Hooper 1981, Chem. Eng. 88(17):96. Band ± 25 %.
func (t TwoK) Loss(bore units.Length) (Loss, error) {
	const fn = "hydraulics.TwoK.Loss"
	if err := errors.Join(boreError(fn, "bore", bore), units.Within(fn, "k1", t.K1, 0, 1e6, ""),
		units.Within(fn, "kInf", t.KInf, 0, 1e3, "")); err != nil {
		return Loss{}, err
	}
	l := handbookLoss(t.Name, t.KInf*(1+1/bore.In(units.Inches)), t.Source)
	l.Laminar = t.K1
	return l, nil
}
