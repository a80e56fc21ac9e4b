package drawdown

import (
	"encoding"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
	"pondwright.example/units"
)

// records are the exported structs of inputs and results: what they hold in
// exported fields is what JSON must carry.
var records = []any{
	Balance{}, Outcome{}, VolumeBand{}, BoardPull{}, BoardSchedule{}, StageReading{}, Priors{}, Factor{}, Calibration{}, RatingPoint{},
	Constituent{}, HarmonicTide{}, Corner{}, CrowdingCurve{}, StockPoint{}, Crowd{}, CrowdState{}, CrowdingFit{}, CrowdProfile{},
	Level{}, DatumTie{}, Required{}, EffluentSample{}, Effluent{}, PermitLimit{}, HoldBack{}, RoughPond{}, RoughEstimate{},
	Exchange{}, Exchanged{}, Inflow{}, InflowStep{}, Rain{}, RainStep{}, Leakage{}, FlushCycles{}, FlushPlan{}, NextFlush{},
	Event{}, HydrographPoint{}, Neighbour{}, Night{}, Surged{}, NightQuestion{}, NightChoice{}, Refill{}, ReturnPoint{},
	Cliff{}, OpeningSearch{}, LatestOpening{}, Outfall{}, OutfallResult{}, SmoothOutlet{}, Window{}, Move{}, FloatSwitch{}, StageFactor{}, Gate{},
	OxygenBudget{}, OxygenOutlook{}, Plan{}, PreDrain{}, PreDrainTarget{}, Result{}, Liner{}, Bank{}, RectangularPond{}, Ditch{}, CatchBasin{},
	Place{}, Sky{}, Moon{}, StageArea{}, SteadyDrain{}, Pool{}, Stranding{}, SurveyPoint{}, Survey{}, TailwaterPoint{}, TailwaterSeries{},
	Turning{}, TideTable{}, StageStorage{}, HeatBalance{}, HeatRate{}, Warming{}, SkyRadiation{}, NetRadiation{}, OpenWater{},
	StageTable{},
}

// built are the exported structs that are made by a function and have no JSON
// form, as their comments say.
var built = []string{"Bed", "ChannelOutlet", "Hydrograph", "Segment", "Shape", "Solver"}

func TestEveryRecordIsListed(t *testing.T) {
	listed := map[string]bool{}
	for _, n := range built {
		listed[n] = true
	}
	for _, r := range records {
		listed[reflect.TypeOf(r).Name()] = true
	}
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	seen := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".go") || strings.HasSuffix(f.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), f.Name(), nil, parser.SkipObjectResolution)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			if s, ok := n.(*ast.TypeSpec); ok && s.Name.IsExported() {
				if _, ok := s.Type.(*ast.StructType); ok {
					seen++
					require.True(t, listed[s.Name.Name], "%s is neither among the records nor built", s.Name.Name)
				}
			}
			return true
		})
	}
	require.Equal(t, len(listed), seen)
}

// A key is the field's name in lowerCamelCase, and what JSON cannot read back is
// left out of it.
func TestRecordKeys(t *testing.T) {
	for _, r := range records {
		typ := reflect.TypeOf(r)
		for i := range typ.NumField() {
			f := typ.Field(i)
			if !f.IsExported() || f.Anonymous {
				continue
			}
			key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if key != "-" {
				require.Equal(t, lowerCamel(f.Name), key, "%s.%s", typ.Name(), f.Name)
			}
			k := f.Type.Kind()
			if k == reflect.Slice {
				k = f.Type.Elem().Kind()
			}
			if k == reflect.Interface || k == reflect.Func {
				require.Equal(t, "-", key, "%s.%s", typ.Name(), f.Name)
			}
		}
	}
}

// lowerCamel lowers the first word: StageTable is stageTable, SD is sd and
// SDOfMean would be sdOfMean.
func lowerCamel(name string) string {
	r := []rune(name)
	for i := range r {
		if i > 0 && i+1 < len(r) && unicode.IsUpper(r[i]) && unicode.IsLower(r[i+1]) || unicode.IsLower(r[i]) {
			break
		}
		r[i] = unicode.ToLower(r[i])
	}
	return string(r)
}

// anyHydrograph compares without the hydrograph, which JSON does not carry.
var anyHydrograph = cmp.Comparer(func(Hydrograph, Hydrograph) bool { return true })

func TestRecordsReadBack(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for _, zero := range records {
		typ := reflect.TypeOf(zero)
		t.Run(typ.Name(), func(t *testing.T) {
			full := reflect.New(typ).Elem()
			fill(t, r, full)
			for _, v := range []any{full.Interface(), zero} {
				text, err := json.Marshal(v)
				require.NoError(t, err)
				back := reflect.New(typ)
				require.NoError(t, json.Unmarshal(text, back.Interface()), "%s", text)
				if d := cmp.Diff(v, back.Elem().Interface(), anyHydrograph); d != "" {
					t.Fatalf("%s\n%s", text, d)
				}
			}
		})
	}
}

// fill puts something other than zero into every field that JSON carries.
func fill(t *testing.T, r *rand.Rand, v reflect.Value) {
	switch at := v.Addr().Interface().(type) {
	case *time.Time:
		*at = time.Date(2026, 3, 9, 4, 5, r.IntN(60), r.IntN(1e9), time.FixedZone("", -7*3600))
		return
	case *units.Temperature:
		*at = units.Celsius(30 * r.Float64())
		return
	case *StageTable:
		table, err := NewStageTable([]StageArea{{-0.1, 0}, {units.Length(r.Float64()), 900}, {1.7, 1200}})
		require.NoError(t, err)
		*at = table
		return
	case *units.Severity:
		*at = units.Danger
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Tag.Get("json") != "-" {
				fill(t, r, v.Field(i))
			}
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(t, r, v.Elem())
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fill(t, r, v.Index(0))
		fill(t, r, v.Index(1))
	case reflect.String:
		v.SetString("north sluice")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Float64:
		v.SetFloat(r.Float64())
	case reflect.Uint8:
		v.SetUint(1)
	case reflect.Uint64:
		v.SetUint(r.Uint64())
	case reflect.Int, reflect.Int64:
		v.SetInt(1 + r.Int64N(1e9))
	default:
		t.Fatalf("no way to fill a %s", v.Type())
	}
}

func TestWordsReadBack(t *testing.T) {
	type word interface {
		encoding.TextMarshaler
		String() string
	}
	for _, c := range []struct {
		n  int
		at func(i int) word
		to func() encoding.TextUnmarshaler
	}{
		{4, func(i int) word { return StopReason(i) }, func() encoding.TextUnmarshaler { return new(StopReason) }},
		{11, func(i int) word { return EventKind(i) }, func() encoding.TextUnmarshaler { return new(EventKind) }},
		{4, func(i int) word { return Backflow(i) }, func() encoding.TextUnmarshaler { return new(Backflow) }},
		{3, func(i int) word { return VerticalSense(i) }, func() encoding.TextUnmarshaler { return new(VerticalSense) }},
		{3, func(i int) word { return DepthKind(i) }, func() encoding.TextUnmarshaler { return new(DepthKind) }},
		{8, func(i int) word { return MoonPhase(i) }, func() encoding.TextUnmarshaler { return new(MoonPhase) }},
	} {
		for i := range c.n {
			text, err := c.at(i).MarshalText()
			require.NoError(t, err)
			require.Equal(t, c.at(i).String(), string(text))
			back := c.to()
			require.NoError(t, back.UnmarshalText(text))
			require.Equal(t, c.at(i), reflect.ValueOf(back).Elem().Interface())
		}
		_, err := c.at(c.n).MarshalText()
		require.Error(t, err)
		require.Error(t, c.to().UnmarshalText([]byte("perhaps")))
	}
	require.Equal(t, "not run", Outcome{}.Stopped.String())
}

func TestPlanRecordLeavesOutInterfaces(t *testing.T) {
	pond, err := NewStageTable([]StageArea{{0, 100}, {2, 100}})
	require.NoError(t, err)
	p := Plan{Pond: pond, Stage: 1.5, Gates: []Gate{{Name: "sluice", Outlet: SmoothOutlet{Law: func(h, z units.Length) units.Flow { return 1 }}, Backflow: FlapGate}},
		Tailwater: ConstantTailwater(0.2)}
	text, err := json.Marshal(p)
	require.NoError(t, err)
	var back Plan
	require.NoError(t, json.Unmarshal(text, &back))
	want := p
	want.Pond, want.Tailwater, want.Gates = nil, nil, []Gate{{Name: "sluice", Backflow: FlapGate}}
	if d := cmp.Diff(want, back); d != "" {
		t.Fatal(d)
	}
}

// A pond below its target meets it at once and says so.
func TestTargetAboveStage(t *testing.T) {
	pond, err := NewStageTable([]StageArea{{-0.5, 100}, {2, 100}})
	require.NoError(t, err)
	start := time.Date(2026, 3, 9, 18, 0, 0, 0, time.UTC)
	p := Plan{Pond: pond, Start: start, Stage: 0.7, Target: 0.9, Gates: []Gate{{Outlet: SmoothOutlet{Law: func(h, z units.Length) units.Flow { return 0.01 }}, Backflow: Pumped}}}
	res, err := p.Run()
	require.NoError(t, err)
	require.True(t, res.Reached)
	require.Equal(t, TargetMet, res.Stopped)
	require.Equal(t, start, res.Ready)
	require.InDelta(t, 0.7, res.Stage.Metres(), 1e-12)
	require.InDelta(t, 0.7, res.Events[0].Stage.Metres(), 1e-12)
	require.Len(t, res.Notices, 1)
	require.Equal(t, CodeBelowTarget, res.Notices[0].Code)
	require.Equal(t, units.Caution, res.Notices[0].Severity)

	latest, err := p.LatestOpening(start.Add(time.Hour), OpeningSearch{})
	require.NoError(t, err)
	require.Equal(t, CodeBelowTarget, latest.Notices[0].Code)

	p.Target = 0.7 // on it: met as asked, nothing to say
	res, err = p.Run()
	require.NoError(t, err)
	require.True(t, res.Reached)
	require.InDelta(t, 0.7, res.Stage.Metres(), 1e-12)
	require.Empty(t, res.Notices)
}

// A run's own result, not made up ones, comes back from JSON whole but for its
// hydrograph.
func TestResultReadsBack(t *testing.T) {
	pond, err := NewStageTable([]StageArea{{0, 100}, {2, 100}})
	require.NoError(t, err)
	start := time.Date(2026, 3, 9, 18, 0, 0, 0, time.UTC)
	res, err := Plan{Pond: pond, Start: start, Stage: 1.5, Target: 0.5, Watch: []units.Length{1},
		Gates: []Gate{{Outlet: OutletFunc(func(h, z units.Length) units.Flow { return 0.01 }), Backflow: Pumped}}}.Run()
	require.NoError(t, err)
	require.NotEmpty(t, res.Events)
	require.NotEmpty(t, res.Notices) // a plain outlet
	text, err := json.Marshal(res)
	require.NoError(t, err)
	var back Result
	require.NoError(t, json.Unmarshal(text, &back))
	if d := cmp.Diff(res, back, anyHydrograph); d != "" {
		t.Fatalf("%s\n%s", text, d)
	}
}
