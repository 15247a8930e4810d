package ode_test

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/ode"
	"example.org/forkcurve/internal/register"
)

// An oleo strut dropped with the lift of a wing equal to its weight, in the equations of NACA
// Report 1154 and feet, pounds and seconds: gas of one exponent, a square-law orifice, a tire as a
// spring. A vehicle of damping/ride has no wing, so the equations are solved here. The constants
// are from memory and the reference is another solution of the same equations, by our own
// program; it checks the integration and the events, not the report.
func TestOleoDrop(t *testing.T) {
	register.Cite(t, "L-03", "L-04")
	const (
		g                    = 32.174
		upper, lower         = 2411 / g, 131 / g // slug
		sinking, tire        = 8.86, 18500.0     // ft/s, lb/ft
		gasArea, oilArea     = 0.05761, 0.04708  // ft²
		opening, volume      = 0.0005585, 0.03545
		pressure, discharge  = 6264.0, 0.9
		oil                  = 1.636 // slug/ft³
		upperY, upperV       = 0, 1  // sinking, ft and ft/s
		lowerY, lowerV, size = 2, 3, 4
	)
	solver := func(f ode.Derivative, at float64, y []float64) *ode.Solver {
		s, err := ode.New(f, at, y, ode.Settings{Relative: 1e-11, Absolute: []float64{1e-12, 1e-12, 1e-12, 1e-12},
			MaxStep: 1e-3})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	to := func(s *ode.Solver, e ode.Event) (float64, []float64) {
		if found, err := s.Until(0.3, e); found != 0 || err != nil {
			t.Fatal(found, err)
		}
		return s.Time(), s.State()
	}
	// Rigid until the load on the strut has reached its preload.
	rigid := func(_ float64, y, d []float64) {
		a := -tire * y[lowerY] / (upper + lower)
		d[upperY], d[upperV], d[lowerY], d[lowerV] = y[upperV], a, y[lowerV], a
	}
	start, begin := to(solver(rigid, 0, []float64{0, sinking, 0, sinking}), func(_ float64, y []float64) float64 {
		return upper*tire*y[lowerY]/(upper+lower) - lower*g - pressure*gasArea
	})
	near(t, "strut starts at, s", start, 0.003165, 2e-6)

	for _, c := range []struct {
		exponent, stroke, force float64 // ft, lb
	}{{1.12, 0.525829, 6196.32}, {1, 0.53714, 6189.01}, {1.4, 0.499939, 6215.42}} {
		strut := func(y []float64) float64 {
			s, v := y[upperY]-y[lowerY], y[upperV]-y[lowerV]
			orifice := oil * oilArea * oilArea * oilArea / (2 * discharge * discharge * opening * opening)
			return gasArea*pressure*math.Pow(volume/(volume-gasArea*s), c.exponent) + orifice*v*math.Abs(v)
		}
		f := func(_ float64, y, d []float64) {
			force := strut(y)
			d[upperY], d[upperV] = y[upperV], -(force+lower*g)/upper
			d[lowerY], d[lowerV] = y[lowerV], g+(force-tire*y[lowerY])/lower
		}
		at, deepest := to(solver(f, start, begin), func(_ float64, y []float64) float64 { return y[upperV] - y[lowerV] })
		near(t, "largest stroke, ft", deepest[upperY]-deepest[lowerY], c.stroke, 2e-5)

		// The largest force is where its slope along the motion turns.
		slope := func(time float64, y []float64) float64 {
			var d, ahead [size]float64
			f(time, y, d[:])
			const h = 1e-6
			for i := range ahead {
				ahead[i] = y[i] + h*d[i]
			}
			return (strut(ahead[:]) - strut(y)) / h
		}
		hardest, there := to(solver(f, start, begin), slope)
		force := strut(there)
		near(t, "largest force, lb", force, c.force, 0.3)
		if c.exponent != 1.12 {
			continue
		}
		near(t, "at, s", at, 0.17881, 5e-5)
		near(t, "largest force at, s", hardest, 0.0892, 1e-4)
		near(t, "largest acceleration of the upper mass, g", (force+lower*g)/upper/g, 2.62436, 2e-4)
		_, pressed := to(solver(f, start, begin), func(_ float64, y []float64) float64 { return y[lowerV] })
		near(t, "largest deflection of the tire, ft", pressed[lowerY], 0.359989, 2e-5)
	}
}
