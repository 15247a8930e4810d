package damping

import (
	"fmt"
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// Typical forces of whole forks and the damping ratios about sag that follow.
// The forces are from memory, ±50 %; the ratios are printed to two decimals
// beside critical damping rounded to 10 N·s/m, which leaves them one more unit.
func TestTypicalRatios(t *testing.T) {
	for _, fork := range []struct {
		name     string
		critical float64      // N·s/m
		points   [][5]float64 // m/s; N in compression, in rebound; ζ of both
	}{
		{"motocross, full size", 1660, [][5]float64{{0.1, 90, 190, .54, 1.15}, {0.5, 190, 480, .23, .58},
			{1, 310, 760, .19, .46}, {3, 650, 1500, .13, .30}}},
		{"enduro motorcycle", 1560, [][5]float64{{0.1, 70, 170, .45, 1.09}, {0.5, 160, 420, .20, .54},
			{1, 270, 660, .17, .42}, {3, 600, 1300, .13, .28}}},
		{"large adventure", 3050, [][5]float64{{0.1, 130, 290, .43, .95}, {0.25, 230, 520, .30, .68},
			{0.5, 360, 820, .24, .54}, {1, 560, 1250, .18, .41}}},
		{"road sport", 2990, [][5]float64{{0.05, 90, 210, .60, 1.40}, {0.1, 150, 350, .50, 1.17},
			{0.25, 290, 640, .39, .86}, {0.5, 450, 950, .30, .64}}},
		{"retro with damper rods", 2620, [][5]float64{{0.1, 40, 110, .15, .42}, {0.25, 110, 330, .17, .50},
			{0.5, 330, 900, .25, .69}, {1, 1150, 2600, .44, .99}}},
		{"trials", 1490, [][5]float64{{0.1, 50, 120, .33, .80}, {0.5, 110, 270, .15, .36}, {1, 190, 430, .13, .29}}},
		{"bicycle, cross-country", 1030, [][5]float64{{0.1, 45, 100, .44, .97}, {0.5, 130, 280, .25, .55},
			{1, 230, 450, .22, .44}}},
		{"bicycle, enduro", 860, [][5]float64{{0.1, 35, 90, .41, 1.05}, {0.5, 110, 270, .26, .63},
			{1, 200, 430, .23, .50}, {3, 520, 900, .20, .35}}},
		{"bicycle, downhill", 800, [][5]float64{{0.1, 40, 100, .50, 1.25}, {0.5, 130, 300, .32, .75},
			{1, 230, 480, .29, .60}, {3, 600, 1000, .25, .42}}},
	} {
		t.Run(fork.name, func(t *testing.T) {
			// Any pair of k and m with this critical damping 2·√(k·m) serves.
			o := must(NewOscillator(OscillatorSpec{Stiffness: 10 * units.NewtonPerMillimeter,
				Mass: units.Mass(fork.critical * fork.critical / 4e4)}))
			near(t, "critical damping", float64(o.Critical()), fork.critical, 1e-9)
			var points []TablePoint
			for i := len(fork.points) - 1; i >= 0; i-- {
				points = append(points, TablePoint{units.Speed(-fork.points[i][0]), units.Force(-fork.points[i][2])})
			}
			for _, p := range fork.points {
				points = append(points, TablePoint{units.Speed(p[0]), units.Force(p[1])})
			}
			d := must(NewTable(TableSpec{Points: points}))
			for _, p := range fork.points {
				where := fmt.Sprintf("ζ at %v m/s, ", p[0])
				near(t, where+"compression", o.Ratio(d, units.Speed(p[0])), p[3], 0.005+0.005*p[3])
				near(t, where+"rebound", o.Ratio(d, units.Speed(-p[0])), p[4], 0.005+0.005*p[4])
			}
		})
	}
}

func TestDampingRatio(t *testing.T) {
	for _, zeta := range []float64{0, 0.02, 0.3, 0.7, 0.95} {
		d := LogDecrement(zeta)
		got, err := DampingRatio(1, units.Length(math.Exp(-d)), 1)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ζ back", got, zeta, 1e-12)
	}
	for _, zeta := range []float64{-0.1, 1, 2, math.NaN()} {
		if d := LogDecrement(zeta); !math.IsNaN(d) {
			t.Errorf("LogDecrement(%v) = %v, want NaN", zeta, d)
		}
	}
	o := must(NewOscillator(OscillatorSpec{Stiffness: 1e4, Mass: 60}))
	if f := o.Damped(1.5); f != 0 {
		t.Errorf("an overdamped body swings at %v", f)
	}
	if f := o.Damped(-1); !math.IsNaN(float64(f)) {
		t.Errorf("a negative ratio gives %v, want NaN", f)
	}
	twice := Sum(Linear(o.Critical()/2), reboundOnly(o.Critical()))
	near(t, "mean of both strokes", o.MeanOfStrokes(twice, 0.1, 3), 1, 1e-12)
	near(t, "mean ratio of a linear damper", o.MeanRatio(Linear(o.Critical()/2), 0.1, 3), 0.5, 1e-12)
}

// reboundOnly is a linear damper that compression does not feel.
type reboundOnly units.DampingRate

func (r reboundOnly) Force(v units.Speed) units.Force {
	return units.Force(float64(r) * min(0, float64(v)))
}

func (r reboundOnly) Coefficient(v units.Speed) units.DampingRate { return coefficient(r, v) }
