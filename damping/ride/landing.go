package ride

import (
	"context"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/solve"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Landing is what a landing makes of the gas of a fork, in the terms of a static curve.
type Landing struct {
	Exponent float64      // n of the curve that comes nearest to the stroke in
	Start    units.Length // travel at which the gas of that curve was at rest, between 0 and the sag
	Misfit   units.Force  // root mean square between both
	Deepest  units.Length // travel reached
	Impact   units.Speed  // largest speed of the stroke
	Run      *Run         // the landing itself
}

// Land rides off a ledge of a height, 50 mm to 5 m, and fits the force of springs and gas
// over the stroke of the landing, from 5 % of it on: min over n and x₀ of
//
//	Σ (F(x) − F_about(x; x₀, n))²
//
// with F_about the fork's curve settled at x₀. The fork starts at rest at its sag and
// stretches in the air, so that heat of the wall and of the way down are both in it.
func (v *Vehicle) Land(ctx context.Context, ledge units.Length) (Landing, error) {
	f := check.Of("Land")
	if !check.Between(f, "ledge", ledge, 50*units.Millimeter, 5*units.Meter) {
		return Landing{}, f.Err()
	}
	fall := units.Time(math.Sqrt(2 * float64(ledge) / gravity))
	road, err := Step(-ledge, 0.05, max(0.02, units.Time(float64(ledge)/40)))
	if err != nil {
		return Landing{}, err
	}
	r, err := v.Run(ctx, Course{Name: "ledge", Duration: 0.1 + fall + 1, Road: road}, Settings{Rate: 2000 * units.Hertz})
	if err != nil {
		return Landing{}, err
	}
	l := Landing{Run: r}
	stroke := r.stroke(fall / 2)
	for _, p := range stroke {
		l.Deepest, l.Impact = max(l.Deepest, p.Travel), max(l.Impact, p.Velocity)
	}
	end := v.spec.Fork.Curve(1).Stroke()
	var in []Sample
	for _, p := range stroke {
		if p.Travel > l.Deepest/20 && p.Travel < end {
			in = append(in, p)
		}
	}
	if len(in) < 8 {
		return l, &units.RangeError{Field: "Land.ledge", Value: ledge, Want: "a landing that moves the fork"}
	}
	misfit := func(x0, n float64) float64 {
		c := v.spec.Fork.CurveAbout(units.Length(x0), n)
		if spring.Err(c) != nil {
			return math.Inf(1)
		}
		var sum float64
		for _, p := range in {
			sum += square(float64(c.Force(p.Travel) - p.Springs))
		}
		return math.Sqrt(sum / float64(len(in)))
	}
	const part = 1e-6 // of each range
	// Two bowls, one in the other.
	best := func(x0 float64) (n, rms float64) {
		return solve.Lowest(func(n float64) float64 { return misfit(x0, n) }, 1, 1.4, 0.4*part)
	}
	start, rms := solve.Lowest(func(x0 float64) float64 { _, e := best(x0); return e }, 0, float64(v.sag),
		float64(v.sag)*part)
	l.Exponent, _ = best(start)
	l.Start, l.Misfit = units.Length(start), units.Force(rms)
	return l, nil
}

// stroke is the compression of a landing after a time: from the last moment in the air
// to the deepest point, as long as the fork moves in.
func (r *Run) stroke(after units.Time) []Sample {
	deepest := -1
	for i, p := range r.Samples {
		if p.Time > after && (deepest < 0 || p.Travel > r.Samples[deepest].Travel) {
			deepest = i
		}
	}
	touch := deepest
	for touch > 0 && r.Samples[touch].Tire > 0 {
		touch--
	}
	var in []Sample
	for i := max(touch, 0); i <= deepest; i++ {
		if p := r.Samples[i]; p.Velocity > 0 {
			in = append(in, p)
		}
	}
	return in
}
