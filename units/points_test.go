package units_test

import (
	"math"
	"testing"

	"example.org/forkcurve/units"
)

func TestZeroValues(t *testing.T) {
	if k := (units.Temperature{}).Kelvin(); k != 0 {
		t.Errorf("the zero Temperature is %v K", k)
	}
	if p := (units.AbsolutePressure{}); p != units.Absolute(0) || p.In(units.Pascal) != 0 {
		t.Errorf("the zero AbsolutePressure is %v", p)
	}
	ambient := units.Absolute(units.Atmosphere)
	if p := (units.GaugePressure{}); p.Absolute(ambient) != ambient {
		t.Errorf("the zero GaugePressure is %v in the ambient %v", p.Absolute(ambient), ambient)
	}
	for _, q := range quantities {
		zero := q.of(0)
		if bits(zero) != 0 {
			t.Errorf("%s: zero in SI is not the zero value", q.name)
		}
	}
}

func TestPressurePoints(t *testing.T) {
	ambient := units.Absolute(100 * units.Kilopascal)
	fill := units.Gauge(9 * units.Bar)
	inside := fill.Absolute(ambient)
	if want := units.Absolute(10 * units.Bar); inside != want {
		t.Errorf("9 bar in an ambient of 1 bar is %v, want %v", inside, want)
	}
	if back := inside.Gauge(ambient); back != fill {
		t.Errorf("back to gauge it is %v, want %v", back, fill)
	}
	if d := inside.Sub(ambient); d != 9*units.Bar {
		t.Errorf("the difference to the ambient is %v, want 9 bar", d)
	}
	if p := ambient.Add(9 * units.Bar); p != inside {
		t.Errorf("ambient + 9 bar = %v, want %v", p, inside)
	}
	if p := fill.Add(-1 * units.Bar); p != units.Gauge(8*units.Bar) || fill.Sub(p) != 1*units.Bar {
		t.Errorf("9 bar − 1 bar = %v, back %v", p, fill.Sub(p))
	}
	if got := fill.Times(1.5); got != units.Gauge(13.5*units.Bar) {
		t.Errorf("one and a half times %v is %v", fill, got)
	}
	if got := units.Gauge(2 * units.Bar).In(units.Kilopascal); got != 200 {
		t.Errorf("2 bar is %v kPa", got)
	}
}

func TestTemperaturePoints(t *testing.T) {
	a := units.Celsius(20)
	if b := a.Add(5 * units.KelvinDifference); b != units.Celsius(25) || b.Sub(a) != 5*units.KelvinDifference {
		t.Errorf("20 °C + 5 K = %v, back %v", b, b.Sub(a))
	}
	for c := -40.0; c <= 120; c += 0.1 {
		// Half a unit in the last place of a float64 between 128 and 512, once for
		// each addition.
		if back := units.Celsius(c).Celsius(); !(math.Abs(back-c) <= 3e-14) {
			t.Errorf("Celsius(%v) reads %v °C", c, back)
		}
		if back := units.Fahrenheit(c).Fahrenheit(); !(math.Abs(back-c) <= 1.1e-13) {
			t.Errorf("Fahrenheit(%v) reads %v °F", c, back)
		}
	}
}

func TestCompare(t *testing.T) {
	type pair struct {
		name    string
		compare func(a, b float64) int
	}
	for _, p := range []pair{
		{"Temperature", func(a, b float64) int { return units.Kelvin(a).Compare(units.Kelvin(b)) }},
		{"AbsolutePressure", func(a, b float64) int {
			return units.Absolute(units.Pressure(a)).Compare(units.Absolute(units.Pressure(b)))
		}},
		{"GaugePressure", func(a, b float64) int {
			return units.Gauge(units.Pressure(a)).Compare(units.Gauge(units.Pressure(b)))
		}},
	} {
		if p.compare(1, 2) != -1 || p.compare(2, 1) != 1 || p.compare(2, 2) != 0 {
			t.Errorf("%s: Compare gives %d, %d, %d for less, more, equal", p.name, p.compare(1, 2), p.compare(2, 1),
				p.compare(2, 2))
		}
	}
}
