package check_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

func TestBetween(t *testing.T) {
	for _, c := range []struct {
		name string
		v    units.Length
		ok   bool
	}{
		{"inside", 0.2, true}, {"lower end", 0.1, true}, {"upper end", 0.3, true},
		{"below", 0.09, false}, {"above", 0.31, false},
		{"NaN", units.Length(math.NaN()), false}, {"infinite", units.Length(math.Inf(1)), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := check.Of("Spec")
			if got := check.Between(f, "Field", c.v, 0.1, 0.3); got != c.ok || (f.Err() == nil) != c.ok {
				t.Errorf("Between(%v) = %v, %v", c.v, got, f.Err())
			}
		})
	}
	f := check.Of("Spec")
	check.Between(f, "Field", units.Length(math.Inf(1)), 0, units.Length(math.Inf(1)))
	if f.Err() == nil {
		t.Error("infinity is between 0 and infinity")
	}
}

func TestPoints(t *testing.T) {
	f := check.Of("Spec")
	check.Absolute(f, "P", units.Absolute(2*units.Bar), 1*units.Bar, 3*units.Bar)
	check.Gauge(f, "G", units.Gauge(2*units.Bar), 1*units.Bar, 3*units.Bar)
	check.Temperature(f, "T", units.Celsius(20), units.Celsius(0), units.Celsius(30))
	if err := f.Err(); err != nil {
		t.Errorf("points inside are refused: %v", err)
	}
	check.Absolute(f, "P", units.Absolute(4*units.Bar), 1*units.Bar, 3*units.Bar)
	check.Gauge(f, "G", units.Gauge(units.Pressure(math.NaN())), 1*units.Bar, 3*units.Bar)
	check.Temperature(f, "T", units.Celsius(40), units.Celsius(0), units.Celsius(30))
	want := "Spec.P = 4 bar abs: want 1 bar abs to 3 bar abs\nSpec.G = NaN bar: want 1 bar to 3 bar\nSpec.T = 40 " +
		"°C: want 0 °C to 30 °C"
	if got := f.Err().Error(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestNest(t *testing.T) {
	inner := check.Of("Coil")
	check.Between(inner, "Rate", 0.0, 1, 2)
	check.Between(inner, "Preload", 5.0, 1, 2)
	leg := check.Of("Leg")
	leg.Nest("Coil", inner.Err())
	outer := check.Of("Spec")
	outer.Nest("Left", leg.Err())
	outer.Nest("Right", nil)
	outer.Nest("Other", errors.New("not a range"))
	want := "Spec.Left.Coil.Rate = 0: want 1 to 2\nSpec.Left.Coil.Preload = 5: want 1 to 2\nnot a range"
	if got := outer.Err().Error(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	var out *units.RangeError
	if !errors.As(outer.Err(), &out) || !strings.HasPrefix(out.Field, "Spec.Left.") {
		t.Errorf("errors.As finds %+v", out)
	}
	if inner.Err().Error()[:9] != "Coil.Rate" {
		t.Error("nesting changed the error it took over")
	}
}
