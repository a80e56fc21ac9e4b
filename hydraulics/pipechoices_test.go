package hydraulics

import (
	"encoding"
	"errors"
	"math"
	"testing"

	"pondwright.example/units"
)

// pipeChoice is the address of a choice.
type pipeChoice[T any] interface {
	*T
	encoding.TextUnmarshaler
}

func pipeRoundTrip[T interface {
	~uint8
	encoding.TextMarshaler
	String() string
}, P pipeChoice[T]](t *testing.T, n int) {
	t.Helper()
	seen := map[string]bool{}
	for i := range n {
		c := T(i)
		text, err := c.MarshalText()
		if err != nil || string(text) != c.String() || seen[string(text)] {
			t.Errorf("%T(%d) writes %q, reads as %q: %v", c, i, text, c.String(), err)
		}
		seen[string(text)] = true
		var back T
		if err := P(&back).UnmarshalText(text); err != nil || back != c {
			t.Errorf("%q comes back as %v: %v", text, back, err)
		}
	}
	if _, err := T(n).MarshalText(); err == nil {
		t.Errorf("%T(%d) has a word: %v", T(0), n, T(n))
	}
	var none T
	if P(&none).UnmarshalText([]byte("nonsense")) == nil {
		t.Errorf("%T reads nonsense", none)
	}
}

func TestPipeChoicesGoThroughText(t *testing.T) {
	pipeRoundTrip[Regime, *Regime](t, int(RegimeTurbulent)+1)
	pipeRoundTrip[LossEnd, *LossEnd](t, int(HighLoss)+1)
	pipeRoundTrip[HoseKind, *HoseKind](t, int(CorrugatedHose)+1)
	pipeRoundTrip[EntranceKind, *EntranceKind](t, int(ProjectingEntrance)+1)
	pipeRoundTrip[AreaChangeMethod, *AreaChangeMethod](t, int(HooperArea)+1)
	pipeRoundTrip[BarShape, *BarShape](t, int(TearBars)+1)
	pipeRoundTrip[ValveKind, *ValveKind](t, int(TeeBranch)+1)
	pipeRoundTrip[DragLaw, *DragLaw](t, int(CliftGraceWeber)+1)
	pipeRoundTrip[PipeStandard, *PipeStandard](t, int(HoseNominal)+1)
	pipeRoundTrip[PipeRestraint, *PipeRestraint](t, int(AnchoredAllAlong)+1)
}

// A hose of each kind finds its roughness and joins a line.
func TestHoseKindsBecomeRuns(t *testing.T) {
	for k := SmoothHose; k <= CorrugatedHose; k++ {
		r, err := HoseSpec{Kind: k, Bore: 0.2, Length: 20, Couplings: 3, Swell: 0.03,
			Turns: []HoseTurn{{90 * units.Degree, 0.6}, {270 * units.Degree, 2}, {45 * units.Degree, 50}}}.Run()
		if err != nil {
			t.Fatal(err)
		}
		// One coupling entry, one bend of 90°, two of 180° and 90°; the last turn is straight hose.
		if len(r.Fittings) != 4 || !(r.Roughness > 0) || math.Abs(float64(r.Bore)-0.206) > 1e-12 {
			t.Errorf("%v: %+v", k, r)
		}
		if _, err := NewPipeline(PipelineSpec{Fluid: Fluid{Density: 1000, Viscosity: 1e-3}, Runs: []PipeRun{r}}); err != nil {
			t.Errorf("%v: %v", k, err)
		}
	}
	for _, bad := range []HoseSpec{{Bore: 0.2, Length: 1, Turns: []HoseTurn{{90 * units.Degree, 0.1}}}, {Bore: 0.2, Length: 1, Swell: 0.5}, {Bore: 200, Length: 1},
		{Bore: 0.2, Length: 1, Couplings: -1}, {Kind: 9, Bore: 0.2, Length: 1}} {
		if _, err := bad.Run(); !errors.Is(err, units.ErrDomain) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}
