package junk

import (
	"math"
	"reflect"
	"testing"
	"time"

	"pondwright.example/units"
)

type inner struct {
	A units.Mass
	T units.Temperature
}

type outer struct {
	In   inner
	List []inner
	D    time.Duration
	N    int
	name string
}

func sum(o outer, x float64) (float64, error) {
	for _, v := range []float64{float64(o.In.A), x, o.D.Hours(), float64(o.N)} {
		if err := units.Within("junk.sum", "v", v, 0, 100, ""); err != nil {
			return math.NaN(), err
		}
	}
	for _, l := range append(o.List, o.In) {
		if err := units.Within("junk.sum", "t", l.T.Celsius(), 0, 100, ""); err != nil {
			return math.NaN(), err
		}
		if err := units.Within("junk.sum", "a", float64(l.A), 0, 100, ""); err != nil {
			return math.NaN(), err
		}
	}
	return float64(o.In.A) + x, nil
}

func TestRun(t *testing.T) {
	good := outer{In: inner{1, units.Celsius(4)}, List: []inner{{2, units.Celsius(5)}}, D: time.Hour, N: 3, name: "x"}
	Run(t, map[string]Call{"sum": Of(sum, good, 2)}, 500)
	if good.In.A != 1 || good.List[0].A != 2 || good.D != time.Hour {
		t.Errorf("the arguments were changed: %+v", good)
	}
}

func TestLeavesAndSpoils(t *testing.T) {
	c := Of(sum, outer{List: []inner{{}}}, 2)
	args := c.fresh()
	var paths []string
	for i := range args {
		for _, p := range leaves(args[i], "", []int{i}) {
			paths = append(paths, p.path)
			spoil{p, 0}.apply(args)
		}
	}
	want := []string{".In.A", ".In.T", ".List", ".List[0].A", ".List[0].T", ".D", ".N", ""}
	if !reflect.DeepEqual(paths, want) {
		t.Errorf("%q, want %q", paths, want)
	}
	if o := args[0].Interface().(outer); !math.IsNaN(float64(o.In.A)) || o.List != nil || !math.IsNaN(args[1].Float()) {
		t.Errorf("%+v", args)
	}
}

func TestNotFinite(t *testing.T) {
	for want, v := range map[string]any{
		"r":           math.NaN(),
		"r.In.A":      outer{In: inner{A: units.Mass(math.Inf(1))}},
		"r.List[1].A": outer{List: []inner{{}, {A: units.Mass(math.NaN())}}},
		"r.In.T":      outer{In: inner{T: units.Celsius(math.Inf(-1))}},
		"":            outer{},
	} {
		if got := notFinite(reflect.ValueOf(v), "r"); got != want {
			t.Errorf("%+v: %q, want %q", v, got, want)
		}
	}
}
