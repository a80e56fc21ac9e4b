package hydraulics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// Where a general formula meets a special one they give the same number.
func TestLimitsAgreeWithClosedForms(t *testing.T) {
	// A pipe whose losses are all in ΣK is an orifice with Cd = 1/√ΣK.
	o := strOutlet(t, OutletPipeSpec{Bore: 0.3, Length: 1e-6, LossSum: 4, Viscosity: 1e-6, Inlet: InletNone, Backflow: BackflowFlap})
	torricelli, err := OrificeFlow(0.5, units.Area(math.Pi/4*0.09), 2)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(torricelli), float64(o.Discharge(2.15, -1)), 1e-6)

	// A deep orifice is the small orifice at its centre, less the curvature term
	// of a rectangle: 1 - (height/head)²/96.
	r, err := NewOrifice(OrificeSpec{Width: 0.5, Height: 0.2, Coefficient: 0.61, Backflow: BackflowFlap})
	require.NoError(t, err)
	small, err := OrificeFlow(0.61, 0.1, 4)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(small)*(1-0.05*0.05/96), float64(r.Discharge(4.1, -1)), 1e-8)
	// Drowned it is the small orifice under the difference of levels, exactly.
	drowned, err := OrificeFlow(0.61, 0.1, 0.3)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(drowned), float64(r.Discharge(1, 0.7)), 1e-12)

	// A part-full orifice is a weir with (2/3) Cd √(2g).
	assert.InEpsilon(t, 2.0/3*0.61*math.Sqrt(2*gravity)*0.5*math.Pow(0.1, 1.5), float64(r.Discharge(0.1, -1)), 1e-12)

	// A circle under critical flow with much energy is a full bore under E - D.
	q, err := CriticalFlowCircular(0.3, 300)
	require.NoError(t, err)
	assert.InEpsilon(t, math.Pi/4*0.09*math.Sqrt(2*gravity*299.7), float64(q), 1e-5)

	// A gate hardly open passes Cc a b √(2g y).
	g, err := NewSluiceGate(SluiceGateSpec{Width: 1, Opening: 1e-4, Backflow: BackflowFlap})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.61e-4*math.Sqrt(2*gravity*1.5), float64(g.Discharge(1.5, 0)), 1e-4)

	// A trapezoid without a side slope is a rectangle, in every formula.
	tr, re := TrapezoidalSection{0.7, 0}, RectangularSection{0.7}
	for _, f := range []func(s Section) (units.Length, error){
		func(s Section) (units.Length, error) { return NormalDepth(s, 0.3, 0.013, 0.001) },
		func(s Section) (units.Length, error) { return CriticalDepth(s, 0.3) },
		func(s Section) (units.Length, error) { return AlternateDepth(s, 0.3, 0.15) },
		func(s Section) (units.Length, error) {
			j, err := Jump(s, 0.3, 0.15)
			return j.Downstream, err
		},
		func(s Section) (units.Length, error) {
			return BackwaterLength(ChannelReach{Section: s, Slope: 0.001, ManningN: 0.013, Flow: 0.3}, 1, 1.2)
		},
	} {
		a, err := f(tr)
		require.NoError(t, err)
		b, err := f(re)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(b), float64(a), 1e-9)
	}

	// A level table without tilt is the level rack.
	gr, err := NewGrate(GrateSpec{Width: 1, Length: 0.3, OpenShare: 0.3, Coefficient: 0.8})
	require.NoError(t, err)
	out, err := gr.Dewater(GrateInflow{Flow: 0.05})
	require.NoError(t, err)
	assert.InDelta(t, 0.880212475844007, 1-out.RunOffShare, 1e-9, "closed form, mpmath")
	// A tilt that goes to nothing changes nothing.
	tilted, err := gr.Dewater(GrateInflow{Flow: 0.05, Tilt: 1e-9})
	require.NoError(t, err)
	assert.InDelta(t, out.RunOffShare, tilted.RunOffShare, 1e-8)
}

// The mouth of a drain with 5 % of its head lost is within a tenth of the
// square-edged concrete mouth of HDS-5, from a tenth of the bore to 1.2 bores.
func TestMouthAgainstDesignCharts(t *testing.T) {
	spec := strPond()
	c, err := NewCulvert(CulvertSpec{Diameter: spec.Bore, Length: spec.Length, ManningN: 0.009, Inlet: ConcreteSquareHeadwall, Backflow: BackflowFlap})
	require.NoError(t, err)
	o := strOutlet(t, spec)
	for h := 0.1; h <= 1.2; h += 0.05 {
		mouth := o.p.forward.admits(h*0.3, -1)
		chart := c.p.forward.inletFlow(h * 0.3)
		assert.InEpsilon(t, chart, mouth, 0.105, "%v bores", h)
	}
}

// Whatever finite numbers come, a built thing answers with finite numbers and an
// unbuilt one with an error; nothing hangs or panics.
func FuzzOutletPipe(f *testing.F) {
	f.Add(0.3, 18.0, 1.5e-5, 2.7, 0.0, 0.0, 0.05, 0.85e-6, 1.0, 0.2)
	f.Add(1e-3, 1e4, 0.0, 1.0, -5.0, 3.0, 0.5, 1e-4, 1e300, -1e300)
	f.Fuzz(func(t *testing.T, bore, length, rough, loss, invert, fall, entry, nu, level, tail float64) {
		o, err := NewOutletPipe(OutletPipeSpec{Bore: units.Length(bore), Length: units.Length(length), Roughness: units.Length(rough), LossSum: loss,
			Invert: units.Length(invert), Fall: units.Length(fall), EntryLoss: entry, Viscosity: units.KinematicViscosity(nu), Backflow: BackflowReverse})
		if err != nil || math.IsNaN(level+tail) || math.IsInf(level, 0) || math.IsInf(tail, 0) {
			return
		}
		q := float64(o.Discharge(units.Length(level), units.Length(tail)))
		if math.IsNaN(q) || math.IsInf(q, 0) {
			t.Fatalf("%v at %v, %v", q, level, tail)
		}
		if (level > tail && q < 0) || (level < tail && q > 0) {
			t.Fatalf("%v runs uphill from %v to %v", q, level, tail)
		}
		for _, k := range o.Kinks(units.Length(tail), nil) {
			if math.IsNaN(float64(k)) || math.IsInf(float64(k), 0) {
				t.Fatalf("kink %v under %v", k, tail)
			}
		}
	})
}

func FuzzDewateringTable(f *testing.F) {
	f.Add(0.8, 0.6, 0.008, 0.01, 0.6, 0.8, 0.06, 0.5, 0.14, 0.05, 0.1, 0.0)
	f.Fuzz(func(t *testing.T, w, l, gap, bar, c, kept, q, product, slope, tilt, blocked, share float64) {
		d, err := NewDewateringTable(TableSpec{Grate: GrateSpec{Width: units.Length(w), Length: units.Length(l), Gap: units.Length(gap), Bar: units.Length(bar), Coefficient: c},
			EntryBore: 0.25, EntryKept: kept, SlideSpeed: 0.4, Footprint: 0.02, Adhering: 0.03, WaterDensity: 1000})
		if err != nil {
			return
		}
		s := TableSetting{units.Flow(q), units.MassFlow(product), units.Angle(slope), units.Angle(tilt), blocked}
		out, err := d.At(s)
		if err != nil {
			return
		}
		x := float64(out.RunOff) + out.CarryOver + float64(out.Grate.WettedLength) + float64(out.Grate.LargestDepth) + out.Grate.RunOffShare
		if math.IsNaN(x) || math.IsInf(x, 0) || out.Grate.RunOffShare < 0 || out.Grate.RunOffShare > 1+1e-9 {
			t.Fatalf("%+v gives %+v", s, out)
		}
		if v, err := d.DryFlow(s, share); err == nil && !(v > 0) {
			t.Fatalf("dry at %v", v)
		}
	})
}
