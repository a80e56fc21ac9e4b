package hydraulics

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// The zero value of every structure passes no water and does not panic.
func TestZeroStructuresPassNothing(t *testing.T) {
	for _, s := range []Structure{OutletPipe{}, RectangularWeir{}, VNotchWeir{}, BroadCrest{}, StoplogBay{}, Orifice{}, SluiceGate{},
		Riser{}, Culvert{}, Siphon{}, RatedOutlet{}, StructuresInParallel{}, StructuresInSeries{}} {
		assert.Zero(t, s.Discharge(1, 0.2), "%T", s)
		assert.NotPanics(t, func() {
			s.Control(1, 0.2)
			if k, ok := s.(strKinked); ok {
				k.Kinks(0.2, nil)
			}
			if n, ok := s.(noticer); ok {
				n.AppendNotices(nil, 1, 0.2)
			}
		}, "%T", s)
	}
	assert.Zero(t, Chute{}.Capacity())
	assert.Zero(t, ReturnHose{}.Capacity(1))
	_, err := Culvert{}.Headwater(1, 0)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = Chute{}.Carry(1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = ReturnHose{}.DropFor(1)
	assert.ErrorIs(t, err, units.ErrDomain)
	_, err = Grate{}.Dewater(GrateInflow{})
	assert.ErrorIs(t, err, units.ErrDomain)
}

// A structure built again from its own description is the same, and tells the
// ranges of its sources with a code, a quantity and a source each.
func TestDescriptionsAndRanges(t *testing.T) {
	all := strStructures(t, BackflowReverse)
	again := map[string]Structure{}
	keep := func(name string, s Structure, err error) {
		require.NoError(t, err, name)
		again[name] = s
	}
	for name, s := range all {
		var ranges []PublishedRange
		switch x := s.(type) {
		case OutletPipe:
			b, err := NewOutletPipe(x.Spec())
			keep(name, b, err)
		case RectangularWeir:
			b, err := NewRectangularWeir(x.Spec())
			keep(name, b, err)
			ranges = x.Ranges()
		case VNotchWeir:
			b, err := NewVNotchWeir(x.Spec())
			keep(name, b, err)
			ranges = x.Ranges()
		case BroadCrest:
			b, err := NewBroadCrest(x.Spec())
			keep(name, b, err)
			ranges = x.Ranges()
		case StoplogBay:
			b, err := NewStoplogBay(x.Spec())
			keep(name, b, err)
			ranges = x.Ranges()
		case Orifice:
			b, err := NewOrifice(x.Spec())
			keep(name, b, err)
		case SluiceGate:
			b, err := NewSluiceGate(x.Spec())
			keep(name, b, err)
			ranges = x.Ranges()
		case Riser:
			b, err := NewRiser(x.Spec())
			keep(name, b, err)
		case Culvert:
			b, err := NewCulvert(x.Spec())
			keep(name, b, err)
			ranges = x.Ranges()
		}
		for _, r := range ranges {
			assert.NotEmpty(t, r.Code, name)
			assert.NotEmpty(t, r.Quantity, name)
			assert.NotEmpty(t, r.Source, name)
			assert.Less(t, r.Low, r.High, name)
			n, out := r.Check(r.High + 1)
			assert.Equal(t, !math.IsInf(r.High, 1), out, name)
			if out {
				assert.Equal(t, r.Code, n.Code)
			}
		}
	}
	assert.Len(t, again, len(all)-2, "all but the two that are put together")
	for name, s := range again {
		assert.Equal(t, all[name].Discharge(0.6, 0.1), s.Discharge(0.6, 0.1), name)
		assert.Equal(t, all[name].Discharge(0.1, 0.6), s.Discharge(0.1, 0.6), name)
	}
}

// A description with nothing in it is refused with every missing field named.
func TestEmptyDescriptionsAreRefused(t *testing.T) {
	for what, err := range map[string]error{
		"bore":         OutletPipeSpec{}.Validate(),
		"width":        RectangularWeirSpec{}.Validate(),
		"angle":        VNotchWeirSpec{}.Validate(),
		"crestHeight":  BroadCrestSpec{}.Validate(),
		"thickness":    StoplogBaySpec{}.Validate(),
		"coefficient":  OrificeSpec{}.Validate(),
		"backflow":     SluiceGateSpec{}.Validate(),
		"pipeDiameter": RiserSpec{}.Validate(),
		"span":         CulvertSpec{}.Validate(),
		"atmosphere":   SiphonSpec{}.Validate(),
		"diameter":     CircularSection{}.Validate(),
		"section":      ChannelReach{}.Validate(),
		"voidRatio":    RackSpec{}.Validate(),
		"gap":          GrateSpec{}.Validate(),
		"waterDensity": TableSpec{}.Validate(),
		"wallHeight":   ChuteSpec{}.Validate(),
		"lossSum":      ReturnHoseSpec{}.Validate(),
	} {
		require.Error(t, err, what)
		assert.ErrorIs(t, err, units.ErrDomain, what)
		assert.ErrorContains(t, err, what)
	}
}
