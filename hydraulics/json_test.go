package hydraulics

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pondwright.example/units"
)

// jsonTypes are all structs of the package with exported fields.
var jsonTypes = []any{
	BroadCrestSpec{}, CarrySpec{}, CarryingSpeed{}, PermissibleVelocity{}, ChuteSpec{}, ChuteFlow{}, CulvertSpec{}, CulvertHeadwater{},
	InletCoefficients{}, Body{}, AnimalDensity{}, TeeSpec{}, TeeLoss{}, TwoK{}, Fluid{}, SluiceGateSpec{}, GrateSpec{}, GrateInflow{},
	GrateFlow{}, ChannelReach{}, ProfilePoint{}, HoseSpec{}, HoseTurn{}, HydraulicJump{}, PipeBeam{}, SpanLimit{}, Loss{},
	ManningRoughness{}, UniformFlow{}, CircularProportions{}, Mixture{}, MixtureState{}, NetworkNode{}, NetworkLink{}, NetworkSpec{},
	NetworkState{}, NodeState{}, LinkState{}, PipeSize{}, OilSpec{}, OrificeSpec{}, OutletPipeSpec{}, Pipe{}, PipeRun{}, PipelineSpec{},
	RunState{}, PipelineState{}, RackSpec{}, Sheet{}, RackState{}, RackBand{}, PublishedRange{}, RatingPoint{}, ControlChange{}, Rating{},
	ReturnHoseSpec{}, RiserSpec{}, WallRoughness{}, CircularSection{}, RectangularSection{}, TrapezoidalSection{}, SiphonCrest{},
	SiphonSpec{}, StoplogBaySpec{}, SurgeSpec{}, Surge{}, TableSpec{}, TableSetting{}, TableState{}, TradeRow{}, DrainTest{},
	TableCalibration{}, VNotchWeirSpec{}, RectangularWeirSpec{}, WeirCoefficients{},
}

// sameTemperature compares temperatures, whose field is not exported.
var sameTemperature = cmp.Comparer(func(a, b units.Temperature) bool { return a == b })

// jsonFill sets every exported field to a value of its own that is not zero.
func jsonFill(t *testing.T, v reflect.Value, n *int) {
	*n++
	switch v.Interface().(type) {
	case units.Temperature:
		v.Set(reflect.ValueOf(units.Celsius(float64(*n))))
		return
	case time.Duration:
		v.SetInt(int64(*n) * int64(time.Second))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				jsonFill(t, v.Field(i), n)
			}
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range 2 {
			jsonFill(t, v.Index(i), n)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		jsonFill(t, v.Elem(), n)
	case reflect.Interface:
		if v.Type() == reflect.TypeFor[Section]() {
			v.Set(reflect.ValueOf(TrapezoidalSection{BottomWidth: 0.3, SideSlope: 1.5}))
		} // a Line is built: it has no JSON
	case reflect.Float64:
		v.SetFloat(0.1 * float64(*n))
	case reflect.Int:
		v.SetInt(int64(*n))
	case reflect.Uint8: // a choice
		v.SetUint(1)
	case reflect.Bool:
		v.SetBool(true)
	case reflect.String:
		v.SetString("word " + v.Type().Name())
	default:
		t.Fatalf("no value for a %v", v.Type())
	}
}

// Every description and result, whole and empty, comes back from JSON as it
// went in, under lowerCamelCase names.
func TestStructsThroughJSON(t *testing.T) {
	for _, zero := range jsonTypes {
		typ := reflect.TypeOf(zero)
		for i := range typ.NumField() {
			f := typ.Field(i)
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if name != "-" {
				assert.Equal(t, strings.ToLower(f.Name[:1])+f.Name[1:], name, "%v.%s", typ, f.Name)
			}
		}
		full := reflect.New(typ)
		n := 0
		jsonFill(t, full.Elem(), &n)
		for _, in := range []reflect.Value{full.Elem(), reflect.Zero(typ)} {
			text, err := json.Marshal(in.Interface())
			require.NoError(t, err, "%v", typ)
			out := reflect.New(typ)
			require.NoError(t, json.Unmarshal(text, out.Interface()), "%s", text)
			assert.Empty(t, cmp.Diff(in.Interface(), out.Elem().Interface(), sameTemperature), "%v: %s", typ, text)
		}
	}
}

// jsonTypes leaves none out.
func TestAllStructsAreTriedThroughJSON(t *testing.T) {
	tried := map[string]bool{}
	for _, v := range jsonTypes {
		tried[reflect.TypeOf(v).Name()] = true
	}
	names, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		for _, d := range file.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok {
				continue
			}
			for _, s := range g.Specs {
				typ, ok := s.(*ast.TypeSpec)
				if !ok || !typ.Name.IsExported() {
					continue
				}
				if body, ok := typ.Type.(*ast.StructType); ok && ast.FileExports(&ast.File{Name: ast.NewIdent("x"), Decls: []ast.Decl{g}}) && len(body.Fields.List) > 0 {
					assert.True(t, tried[typ.Name.Name], typ.Name.Name)
				}
			}
		}
	}
}

// A section keeps its shape, and an open side of a range stays open.
func TestShapesAndOpenRangesThroughJSON(t *testing.T) {
	for _, s := range []Section{CircularSection{0.3}, RectangularSection{1}, TrapezoidalSection{1, 2}, nil} {
		in := ChannelReach{Section: s, Slope: 0.01, ManningN: 0.013, Flow: 0.1}
		text, err := json.Marshal(in)
		require.NoError(t, err)
		var out ChannelReach
		require.NoError(t, json.Unmarshal(text, &out))
		assert.Empty(t, cmp.Diff(in, out), "%s", text)
	}
	type own struct{ Section }
	_, err := json.Marshal(ChannelReach{Section: own{}})
	assert.ErrorContains(t, err, "own")
	assert.ErrorContains(t, json.Unmarshal([]byte(`{"section":{"shape":"egg"}}`), new(ChannelReach)), "egg")
	assert.Error(t, json.Unmarshal([]byte(`{"flow":true}`), new(ChannelReach)))

	for _, in := range []PublishedRange{{Low: 0.1, High: math.Inf(1)}, {Low: math.Inf(-1), High: 0}, {Low: math.Inf(-1), High: math.Inf(1)}} {
		text, err := json.Marshal(in)
		require.NoError(t, err)
		var out PublishedRange
		require.NoError(t, json.Unmarshal(text, &out))
		assert.Equal(t, in, out, "%s", text)
	}
	assert.Error(t, json.Unmarshal([]byte(`{"low":"x"}`), new(PublishedRange)))
}
