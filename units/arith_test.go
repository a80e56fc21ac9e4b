package units

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pondwright.example/internal/check"
)

var durationType = reflect.TypeFor[time.Duration]()

// arithmetic lists every method between quantities by Type.Method: those that
// take or return another quantity, a duration or a number.
func arithmetic() map[string]reflect.Value {
	found := map[string]reflect.Value{}
	for _, c := range everyQuantity {
		typ := c.typ
		for i := range typ.NumMethod() {
			m := typ.Method(i)
			switch m.Name {
			case "In", "Text", "String", "Format", "AppendText", "MarshalText", "Value", "FeetInches":
				continue
			}
			if m.Type.NumIn() == 1 && m.Type.NumOut() == 1 && m.Type.Out(0).Kind() == reflect.Float64 && m.Type.Out(0) == reflect.TypeFor[float64]() {
				continue // the SI reader
			}
			found[typ.Name()+"."+m.Name] = m.Func
		}
	}
	return found
}

// TestArithmetic computes every method between quantities in SI numbers.
func TestArithmetic(t *testing.T) {
	funcs := map[string]func(check.Row) (float64, error){}
	for name, method := range arithmetic() {
		funcs[name] = func(r check.Row) (float64, error) {
			in := []reflect.Value{reflect.ValueOf(r.Float("x")).Convert(method.Type().In(0))}
			for i, column := range []string{"y", "z"}[:method.Type().NumIn()-1] {
				v := r.Float(column)
				if method.Type().In(i+1) == durationType {
					v *= float64(time.Second)
				}
				in = append(in, reflect.ValueOf(v).Convert(method.Type().In(i+1)))
			}
			out := method.Call(in)
			if len(out) > 1 && !out[1].IsNil() {
				return math.NaN(), out[1].Interface().(error)
			}
			if d, ok := out[0].Interface().(time.Duration); ok {
				return d.Seconds(), nil
			}
			return out[0].Float(), nil
		}
	}
	check.Run(t, "testdata/arithmetic.csv", funcs)
	rows := map[string]bool{}
	for _, r := range readRows(t, "testdata/arithmetic.csv") {
		rows[r["func"]] = true
	}
	for name := range funcs {
		if !rows[name] {
			t.Errorf("%s has no row", name)
		}
	}
}

// TestDimensions holds every method between quantities to the dimensions of
// the table: the result's is the product or the quotient of the operands'.
func TestDimensions(t *testing.T) {
	gravity := map[string]int{"Length.Pressure": 1, "Pressure.Head": -1, "Mass.Weight": 1}
	inverse := map[string]bool{"CountPerMass.MeanMass": true, "Mass.CountPerMass": true, "Frequency.Period": true}
	level := map[string]bool{"Absolute": true, "Gauge": true, "Sub": true, "Add": true}
	for name, method := range arithmetic() {
		if _, m, _ := strings.Cut(name, "."); level[m] {
			continue // operands and result have one dimension
		}
		x := netDimension(t, method.Type().In(0))
		product, quotient := x, x
		for i := 1; i < method.Type().NumIn(); i++ {
			y := netDimension(t, method.Type().In(i))
			product = product.times(y)
			quotient = quotient.times(negative(y))
		}
		for range gravity[name] {
			product = product.times(accelDim)
		}
		if gravity[name] < 0 {
			quotient = quotient.times(negative(accelDim))
		}
		if inverse[name] {
			quotient = negative(x)
		}
		if name == "Area.Sqrt" {
			quotient = lengthDim
		}
		got := netDimension(t, method.Type().Out(0))
		if got != product && got != quotient {
			t.Errorf("%s returns %v: the product is %v, the quotient %v", name, got, product, quotient)
		}
	}
}

// netDimension returns the dimension of a type as physics counts it: mass above
// and below the stroke cancel, angles and cycles are numbers.
func netDimension(t *testing.T, typ reflect.Type) dimension {
	switch typ {
	case durationType:
		return timeDim
	case reflect.TypeFor[float64](), reflect.TypeFor[int]():
		return dimension{}
	}
	d := caseNamed(t, typ.Name()).q.dim
	d[dimMass] += d[dimPerMass]
	d[dimPerMass], d[dimAngle], d[dimCycle] = 0, 0, 0
	return d
}

func negative(d dimension) dimension {
	for i := range d {
		d[i] = -d[i]
	}
	return d
}

// TestElapsed holds At and Period to their errors.
func TestElapsed(t *testing.T) {
	for _, c := range []struct {
		v      Volume
		q      Flow
		want   time.Duration
		reason string
	}{
		{9600 * CubicMetre, 400 * CubicMetrePerHour, 24 * time.Hour, ""},
		{-9600 * CubicMetre, -400 * CubicMetrePerHour, 24 * time.Hour, ""},
		{0, 1 * CubicMetrePerHour, 0, ""},
		{1 * CubicMetre, 0, 0, "must not be zero"},
		{0, 0, 0, "must not be zero"},
		{1 * CubicMetre, -1 * LitrePerSecond, 0, "sign of the amount"},
		{1 * CubicMetre, 1e-12 * LitrePerSecond, 0, "292 years"},
		{Volume(math.NaN()), 1 * LitrePerSecond, 0, "finite"},
		{1 * CubicMetre, Flow(math.Inf(1)), 0, "finite"},
	} {
		got, err := c.v.At(c.q)
		switch {
		case c.reason == "" && (err != nil || got != c.want):
			t.Errorf("%v at %v = %v, %v, want %v", c.v, c.q, got, err, c.want)
		case c.reason != "" && (!errors.Is(err, ErrDomain) || got != 0 || !strings.Contains(err.Error(), c.reason)):
			t.Errorf("%v at %v = %v, %v, want an error with %q", c.v, c.q, got, err, c.reason)
		}
	}
	if d, err := (0 * Hertz).Period(); err == nil {
		t.Errorf("the period of 0 Hz is %v", d)
	}
	if v, err := (50 * Hertz).Synchronous(0); !errors.Is(err, ErrDomain) || !math.IsNaN(float64(v)) {
		t.Errorf("no pole pairs make %v, %v", v, err)
	}
}

// TestLevels closes the arithmetic of gauge and absolute pressure.
func TestLevels(t *testing.T) {
	atm := 1 * AtmosphereAbsolute
	g := 29 * PoundPerSquareInchGauge
	if back := g.Absolute(atm).Gauge(atm); math.Abs(float64(back-g)) > 1e-9 {
		t.Errorf("%v came back as %v", g, back)
	}
	if d := g.Add(2 * Bar).Sub(g); math.Abs(float64(d-2*Bar)) > 1e-9 {
		t.Errorf("raised by %v, not 2 bar", d)
	}
}

func ExampleFlow_Through() {
	flow := 230 * CubicMetrePerHour
	bore := 8 * Inch
	area := bore.Times(bore) * (3.14159265 / 4)
	fmt.Println(Digits(flow.Through(area), FeetPerSecond, 3))
	// Output: 6.46 ft/s
}
