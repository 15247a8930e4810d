package spring_test

import (
	"errors"
	"math"
	"testing"

	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// window is a curve with stops over a part that reaches past both of them, as a curve of its own.
type window struct {
	spring.Curve
	from, length units.Length
}

func (w window) at(x units.Length) units.Length {
	if !(x >= 0 && x <= w.length) {
		return units.Length(math.NaN())
	}
	return x + w.from
}

func (w window) Force(x units.Length) units.Force    { return w.Curve.Force(w.at(x)) }
func (w window) Rate(x units.Length) units.Stiffness { return w.Curve.Rate(w.at(x)) }
func (w window) Energy(x units.Length) units.Energy {
	return w.Curve.Energy(w.at(x)) - w.Curve.Energy(w.from)
}
func (w window) Stroke() units.Length { return w.length }

func TestWithStops(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	fork := spring.Parallel(c, must[spring.Air](t)(spring.NewAir(air)))
	for name, c := range map[string]spring.Curve{"coil": c, "fork": fork} {
		s := spring.WithStops(c, 400*newtonPerMM, 900*newtonPerMM)
		if s.Stroke() != c.Stroke() {
			t.Errorf("%s: stroke %v, want the travel between the stops, %v", name, s.Stroke(), c.Stroke())
		}
		for _, p := range spring.Sample(c, 7) {
			if got, want := spring.At(s, p.Travel), spring.At(c, p.Travel); got != want {
				t.Errorf("%s, between the stops: %+v, want %+v", name, got, want)
			}
		}
		curvetest.Contract(t, window{s, -20 * mm, c.Stroke() + 35*mm}, 20*mm, 20*mm+c.Stroke())
		// 3 mm into each stop, by hand.
		end := c.Stroke()
		within(t, name+", top", float64(s.Force(-3*mm)), float64(c.Force(0))-400*3, 1e-9)
		within(t, name+", bottom", float64(s.Force(end+3*mm)), float64(c.Force(end))+900*3, 1e-9)
		within(t, name+", stored at the bottom", float64(s.Energy(end+3*mm)-s.Energy(end)),
			float64(c.Force(end))*0.003+900e3/2*9e-6, 1e-9)
	}
	if got := spring.WithStops(c, newtonPerMM, newtonPerMM).Force(units.Length(math.NaN())); !math.IsNaN(float64(got)) {
		t.Errorf("at no travel: %v, want NaN", got)
	}
}

func TestWithStopsRefuses(t *testing.T) {
	c := must[spring.Coil](t)(spring.NewCoil(coil))
	for name, s := range map[string]spring.Curve{
		"no curve": spring.WithStops(nil, newtonPerMM, newtonPerMM), "no stroke": spring.WithStops(spring.Coil{},
			newtonPerMM, newtonPerMM),
		"soft": spring.WithStops(c, 0, newtonPerMM), "endless": spring.WithStops(c, newtonPerMM,
			units.Stiffness(math.Inf(1))),
	} {
		var out *units.RangeError
		if err := spring.Err(s); !errors.As(err, &out) || s.Stroke() != 0 {
			t.Errorf("%s: %v, want a *units.RangeError", name, err)
		}
	}
}
